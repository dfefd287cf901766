package org.beefyield.reconcile;

import java.util.Objects;
import org.beefyield.stats.Bounds;

/**
 * How the runs of a hall differ in a group of products, learnt from runs that were in no alarm. All in g per kg of intake.
 *
 * @param group name of the group
 * @param runs number of runs
 * @param mean mean of weighed less expected
 * @param meanBounds 90 % bounds of the mean
 * @param sd SD from run to run beyond what carcasses and lots make
 * @param sdBounds 90 % bounds of that SD; both 0 if runs differ less than carcasses and lots make them
 * @param closedSd the same SD as a table takes it: what one group has more others have less, so that it is no larger than that of
 *     all others together
 */
public record RunEffect(
        String group, int runs, double mean, Bounds meanBounds, double sd, Bounds sdBounds, double closedSd) {
    /** Checks that nothing is missing. */
    public RunEffect {
        Objects.requireNonNull(group, "group");
        Objects.requireNonNull(meanBounds, "meanBounds");
        Objects.requireNonNull(sdBounds, "sdBounds");
    }
}
