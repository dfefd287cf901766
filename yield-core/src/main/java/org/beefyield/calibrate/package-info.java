/**
 * A plant's own table from its own boning trials.
 *
 * <p>A {@link org.beefyield.calibrate.Trial} is a graded carcass that was boned and weighed cut by cut. A
 * {@link org.beefyield.calibrate.TrialSet} holds many against a {@link org.beefyield.table.YieldTable}: it checks the
 * {@link org.beefyield.calibrate.Balance} of each, refuses those that don't balance and closes the others, and says what
 * that took. A {@link org.beefyield.calibrate.Calibration} fits the breakdowns that were weighed in the table's own terms,
 * shrunk towards the table as strongly as the caller asks. What comes of it, a
 * {@link org.beefyield.calibrate.Calibrated}, reports how well it fits and what looks wrong in the trials, and makes an
 * ordinary table under the same proof as any other; if the proof fails, it offers a narrower allowed range or more
 * shrinkage.
 *
 * <p>All children of a breakdown are fitted to the same rows and terms with the same weights and the same strength, so
 * their coefficients add up as shares must without any correction.
 */
@NullMarked
package org.beefyield.calibrate;

import org.jspecify.annotations.NullMarked;
