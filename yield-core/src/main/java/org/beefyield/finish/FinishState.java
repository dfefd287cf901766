package org.beefyield.finish;

import java.util.Objects;
import java.util.OptionalInt;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.table.definition.Range;

/**
 * An animal as it is expected on a day.
 *
 * @param category category; a young bull is a bull from 24 months on
 * @param ageMonths completed months, or empty if the age isn't known
 * @param liveKg live weight, kg
 * @param coldKg cold carcass weight, kg
 * @param coldSdKg SD of it
 * @param conformation position on the 18-point scale, or beyond its ends
 * @param conformationSd SD of it, points
 * @param fat position on the 15-point scale, or beyond its ends
 * @param fatSd SD of it, points
 */
public record FinishState(
        Category category,
        OptionalInt ageMonths,
        double liveKg,
        double coldKg,
        double coldSdKg,
        double conformation,
        double conformationSd,
        double fat,
        double fatSd) {
    /** Checks that nothing is missing. */
    public FinishState {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(ageMonths, "ageMonths");
    }

    /**
     * The carcass that is expected of it.
     *
     * @return category, expected grades, kept within their scales, and weight
     */
    public Carcass carcass() {
        return Carcass.of(
                category,
                Conformation.ofPosition(within(GradeAxes.EU.conformation().range(), conformation), 0),
                FatClass.ofPosition(within(GradeAxes.EU.fat().range(), fat), 0),
                coldKg);
    }

    /**
     * The conformation that is expected.
     *
     * @return the third of a class in which the position lies
     */
    public Conformation conformationThird() {
        return Conformation.thirds().get(PayTable.conformationThird(conformation));
    }

    /**
     * The fat class that is expected.
     *
     * @return the third of a class in which the position lies
     */
    public FatClass fatThird() {
        return FatClass.thirds().get(PayTable.fatThird(fat));
    }

    private static double within(Range range, double position) {
        return Math.min(range.high(), Math.max(range.low(), position));
    }
}
