/**
 * What a hall boned and weighed, and whether it adds up.
 *
 * <p>A {@link org.beefyield.boning.Trial} is a graded carcass that was boned and weighed cut by cut, in
 * {@link org.beefyield.boning.Quarter quarters} or as a whole. A {@link org.beefyield.boning.TrialSet} holds many against a
 * {@link org.beefyield.table.YieldTable}: it checks the {@link org.beefyield.boning.Balance} of each, refuses those that
 * don't balance ({@link org.beefyield.boning.RefusedTrial}), makes the others add up
 * ({@link org.beefyield.boning.Closing}), and says what that took. What of a trial serves a breakdown of the table is in
 * its {@link org.beefyield.boning.WeighedBreakdown}s:
 *
 * <pre>{@code
 * Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3+"), 342).withId("T-17");
 * Trial trial = Trial.of(carcass, Map.of("meat", 238.4, "fat-trim", 38.6, "bone", 62.5));
 * TrialSet trials = TrialSet.of(table, List.of(trial));
 * List<Closing> closings = trials.closings();
 * }</pre>
 *
 * <p>What may be missing is declared by a {@link org.beefyield.boning.BalanceRule}. Where the limit picks those that lost
 * least, the set has a {@link org.beefyield.boning.TrialSelection}; what was left {@link org.beefyield.boning.Blank} is counted.
 *
 * <p>A {@link org.beefyield.boning.BoningRun} is a day of a hall as it is: the {@link org.beefyield.boning.Intake} of
 * carcasses, sides and quarters, the {@link org.beefyield.boning.Box boxes} of each
 * {@link org.beefyield.boning.Product}, the {@link org.beefyield.boning.Rest}, and their
 * {@link org.beefyield.boning.RunBalance} to the gram.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.boning;

import org.jspecify.annotations.NullMarked;
