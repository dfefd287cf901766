package org.beefyield.finish;

import java.util.Objects;
import org.beefyield.carcass.Category;
import org.beefyield.text.Numbers;

/**
 * What an animal needs of energy: 2019 Refinement to the 2006 IPCC Guidelines for National Greenhouse Gas Inventories,
 * volume 4, chapter 10, equations 10.3 (maintenance), 10.4 (activity), 10.6 (growth), 10.14 to 10.16 (from net to gross
 * energy).
 */
public final class NetEnergy {
    /** Gross energy of a kg of dry matter where nothing else is known, MJ (IPCC). */
    public static final double USUAL_GROSS_MJ_PER_KG = 18.45;

    private static final double METABOLIC = 0.75;
    private static final double GROWTH = 22.02;
    private static final double GAIN_POWER = 1.097;
    private static final double MAINTENANCE = 0.322;
    private static final double BULLS_MAINTENANCE = 0.370;
    private static final double FEMALES = 0.8;
    private static final double CASTRATES = 1.0;
    private static final double BULLS = 1.2;

    private NetEnergy() {}

    /**
     * Net energy for maintenance, equation 10.3: 0.322 MJ per kg of metabolic weight (live weight to the power of 0.75), of
     * bulls 0.370.
     *
     * @param category category
     * @param liveKg live weight, kg, 0 or more
     * @return MJ a day
     */
    public static double maintenanceMj(Category category, double liveKg) {
        return (isBull(category) ? BULLS_MAINTENANCE : MAINTENANCE) * Math.pow(Math.max(0, liveKg), METABOLIC);
    }

    /**
     * Net energy for growth, equation 10.6, by its coefficient C: 0.8 of females, 1.0 of castrates, 1.2 of bulls.
     *
     * @param coefficient C, above 0
     * @param liveKg live weight, kg
     * @param matureKg live weight of a grown animal in moderate condition, kg, above 0
     * @param gainKg live weight gained, kg a day
     * @return MJ a day, 0 for an animal that doesn't gain
     */
    public static double growthMj(double coefficient, double liveKg, double matureKg, double gainKg) {
        return gainKg <= 0
                ? 0
                : GROWTH
                        * Math.pow(Math.max(0, liveKg) / (coefficient * matureKg), METABOLIC)
                        * Math.pow(gainKg, GAIN_POWER);
    }

    /**
     * The coefficient C of {@link #growthMj} for a category.
     *
     * @param category category
     * @return 0.8 of cows and heifers, 1.2 of bulls, else 1.0, which stands for calves of either sex too
     */
    public static double growthCoefficient(Category category) {
        Objects.requireNonNull(category, "category");
        if (isBull(category)) {
            return BULLS;
        }
        return category == Category.COW || category == Category.HEIFER ? FEMALES : CASTRATES;
    }

    private static boolean isBull(Category category) {
        Objects.requireNonNull(category, "category");
        return category == Category.BULL || category == Category.YOUNG_BULL;
    }

    /**
     * Net energy for maintenance in a diet's digestible energy, REM of equation 10.14.
     *
     * @param digestiblePercent digestible energy, % of gross energy
     * @return the ratio
     */
    public static double maintenanceRatio(double digestiblePercent) {
        return 1.123
                - 4.092e-3 * digestiblePercent
                + 1.126e-5 * digestiblePercent * digestiblePercent
                - 25.4 / digestiblePercent;
    }

    /**
     * Net energy for growth in a diet's digestible energy, REG of equation 10.15.
     *
     * @param digestiblePercent digestible energy, % of gross energy
     * @return the ratio
     */
    public static double growthRatio(double digestiblePercent) {
        return 1.164
                - 5.160e-3 * digestiblePercent
                + 1.308e-5 * digestiblePercent * digestiblePercent
                - 37.4 / digestiblePercent;
    }

    /**
     * What an animal eats.
     *
     * @param digestiblePercent digestible energy of the diet, % of gross energy, 45 to 90
     * @param grossMjPerKg gross energy of a kg of dry matter, MJ, 10 to 25; {@link #USUAL_GROSS_MJ_PER_KG} if not known
     * @param matureKg live weight of a grown animal of the kind in moderate condition, kg, 200 to 1500
     * @param activity energy for walking about over that for maintenance: 0 in a stall, 0.17 on pasture, 0.36 on open range
     *     (IPCC), at most 1
     */
    public record Diet(double digestiblePercent, double grossMjPerKg, double matureKg, double activity) {
        /**
         * Checks the figures.
         *
         * @throws IllegalArgumentException if one is outside its range
         */
        public Diet {
            check("digestible energy of a diet, %", digestiblePercent, 45, 90);
            check("gross energy of a kg of dry matter, MJ", grossMjPerKg, 10, 25);
            check("mature live weight, kg", matureKg, 200, 1500);
            check("activity, part of maintenance", activity, 0, 1);
        }

        private static void check(String what, double value, double low, double high) {
            if (!(value >= low && value <= high)) {
                throw new IllegalArgumentException(what + ": " + Numbers.exact(value) + " is outside "
                        + Numbers.exact(low) + " to " + Numbers.exact(high));
            }
        }

        /**
         * Dry matter that covers what an animal needs: net energy brought to gross energy, equation 10.16.
         *
         * @param category category
         * @param liveKg live weight, kg
         * @param gainKg live weight gained, kg a day
         * @return kg of dry matter a day
         */
        public double dryMatterKg(Category category, double liveKg, double gainKg) {
            return need(category).dryMatterKg(liveKg, gainKg);
        }

        /** What animals of a category need, for many of them. */
        Need need(Category category) {
            double kgPerMj = 1 / (digestiblePercent / 100 * grossMjPerKg);
            return new Need(
                    maintenanceMj(category, 1) * (1 + activity) / maintenanceRatio(digestiblePercent) * kgPerMj,
                    growthMj(growthCoefficient(category), 1, matureKg, 1) / growthRatio(digestiblePercent) * kgPerMj);
        }
    }

    /**
     * Dry matter by metabolic weight.
     *
     * @param held kg a day per kg of metabolic weight to hold it
     * @param grown the same per unit of gain to its power
     */
    record Need(double held, double grown) {
        double dryMatterKg(double liveKg, double gainKg) {
            return Math.pow(Math.max(0, liveKg), METABOLIC)
                    * (held + (gainKg <= 0 ? 0 : grown * Math.pow(gainKg, GAIN_POWER)));
        }
    }
}
