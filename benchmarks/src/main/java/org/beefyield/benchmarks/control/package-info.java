/**
 * Whether the SD from run to run is found, whether control boards hold their rate of false alarms, and how soon a season notices
 * faults of the trade.
 *
 * <p>{@link org.beefyield.benchmarks.control.ControlStudy} draws abstract scores.
 *
 * <p>{@link org.beefyield.benchmarks.control.FaultStudy} draws whole seasons and lets the library judge them. Its hall is invented:
 * 60 runs, on five days a week, of 20 or 200 steers a day in lots of 10, 20, 30 or 40, of which each is a batch. Steers are 345 kg
 * with an SD of 28, conformation is 8 with an SD of 1.8 and fat 7.5 with an SD of 1.6 on the scale of thirds. What they give at every
 * level is drawn by {@link org.beefyield.benchmarks.coverage.World}, apart from the library: the newest table's own estimate, errors of
 * its coefficients and of the hall for the whole season, of each run, of each lot and of each carcass, all with the SDs that the
 * table states and closed as it states. Invented, too, and in no source: 0.7 % lost by chilling with an SD of 0.08 % from run to run
 * and 0.1 % between carcasses, an intake scale with an SD of 0.1 kg that shows tenths, boxes of 22 kg and bins of 240 kg whose
 * scale has an SD of 10 g and shows hundredths, rests weighed to tenths of a kg, of losses a fifth. What
 * {@link org.beefyield.benchmarks.control.Fault} says goes wrong from the 31st run on; baseline and limits are those of
 * {@link org.beefyield.reconcile.Season}. Figures hold for such a hall and such a table.
 *
 * <p>An alarm is the fault's if it is of the group that tells of it, on the right side, and its runs and those of the fault
 * overlap; every alarm of a group that the fault doesn't move, or in other runs, or noticed before it, is false. Batches that
 * have too much are those that {@link org.beefyield.reconcile.Season#excess} names.
 */
@NullMarked
package org.beefyield.benchmarks.control;

import org.jspecify.annotations.NullMarked;
