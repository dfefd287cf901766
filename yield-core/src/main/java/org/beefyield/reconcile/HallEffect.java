package org.beefyield.reconcile;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.stats.Bounds;
import org.beefyield.text.Checks;

/**
 * How halls and their runs differ in a group of products, learnt from runs that were in no alarm. All in g per kg of intake.
 *
 * @param group name of the group
 * @param runs number of runs in all halls
 * @param mean mean of weighed less expected over halls
 * @param meanBounds 90 % bounds of the mean
 * @param hallSd SD from hall to hall
 * @param hallSdBounds 90 % bounds of that SD; both 0 if halls differ less than their runs make them
 * @param runSd SD from run to run of a hall, beyond what carcasses and lots make
 * @param ofHalls by the name of a hall its own mean, drawn towards that of all the more, the less its runs tell
 */
public record HallEffect(
        String group,
        int runs,
        double mean,
        Bounds meanBounds,
        double hallSd,
        Bounds hallSdBounds,
        double runSd,
        Map<String, Double> ofHalls) {
    /** Checks that nothing is missing, and copies the means. */
    public HallEffect {
        Objects.requireNonNull(group, "group");
        Objects.requireNonNull(meanBounds, "meanBounds");
        Objects.requireNonNull(hallSdBounds, "hallSdBounds");
        Checks.noNullIn(ofHalls, "ofHalls");
        ofHalls = Collections.unmodifiableMap(new LinkedHashMap<>(ofHalls));
    }
}
