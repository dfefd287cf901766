/**
 * A plant's own table from its own boning trials.
 *
 * <p>A {@link org.beefyield.boning.TrialSet} holds boning trials against a {@link org.beefyield.table.YieldTable}, those
 * that balance closed. A {@link org.beefyield.calibrate.Calibration} fits the breakdowns that were weighed in the table's own terms,
 * shrunk towards the table as strongly as the caller asks. What comes of it, a
 * {@link org.beefyield.calibrate.Calibrated}, reports how well it fits and what looks wrong in the trials, and makes an
 * ordinary table under the same proof as any other; if the proof fails, its
 * {@link org.beefyield.calibrate.Remedy} says what would help:
 *
 * <pre>{@code
 * var weighed = TrialReader.read(Path.of("examples/tarrowmere-trials.csv"), table);
 * var trials = TrialSet.of(table, weighed.trials());
 * var calibrated = Calibration.of(trials)
 *         .withMoments(TermMoments.over(table, table.definition().allowed()))
 *         .withStrength(30)
 *         .fit();
 * String report = calibrated.toText();
 * var ours = calibrated.table("hall", "1");
 * String changes = TableComparison.of(table, ours).toText();
 * }</pre>
 *
 * <p>All children of a breakdown are fitted to the same rows and terms with the same weights and the same strength, so
 * their coefficients add up as shares must without any correction.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.calibrate;

import org.jspecify.annotations.NullMarked;
