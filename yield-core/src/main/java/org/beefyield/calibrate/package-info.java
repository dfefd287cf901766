/**
 * A plant's own table from its own boning trials.
 *
 * <p>A {@link org.beefyield.boning.TrialSet} holds boning trials against a {@link org.beefyield.table.YieldTable}, those
 * that balance closed. A {@link org.beefyield.calibrate.Calibration} learns the breakdowns that were weighed in the table's own
 * terms, what the table knows counting as far as it is sure of it. What comes of it, a
 * {@link org.beefyield.calibrate.Calibrated}, says how far the hall is from the table and how sure that is, what looks wrong in the
 * trials, and always makes a table, under the same proof as any other:
 *
 * <pre>{@code
 * var weighed = TrialReader.read(Path.of("examples/tarrowmere-trials.csv"), table);
 * var trials = TrialSet.of(table, weighed.trials());
 * var calibrated = Calibration.of(trials).fit();
 * String report = calibrated.toText();
 * var ours = calibrated.table("hall", "1");
 * String changes = TableComparison.of(table, ours).toText();
 * }</pre>
 *
 * <p>A hall without trials learns from what its runs weighed day by day: {@link org.beefyield.calibrate.RunCalibration}. Where there
 * are both, the table from trials is the one in use there.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.calibrate;

import org.jspecify.annotations.NullMarked;
