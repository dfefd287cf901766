package org.beefyield.reconcile;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.text.Checks;

/**
 * What was expected of a group of products that can't be told apart, and what was weighed.
 *
 * @param group name of the group
 * @param baselineKg what the baseline returns of it for the same cold weight, kg; the expected without a baseline
 * @param sameWayKg what the run's carcasses return of it cut the baseline's way, kg; the expected without a baseline
 * @param expectedKg what the run's carcasses return of it by their cold weight, kg
 * @param weighedKg what was weighed of it, kg, rounded to a gram, half up; below 0 only of what nobody weighed, if more
 *     came out than went in
 * @param baselinePrice price of a kg in the baseline, the price without one
 * @param price price of a kg; 0 if nothing is priced
 * @param downgraded what boxes that were packed as something else bring less for it, as an amount below 0
 * @param sds SD of the expected kg from each part of its uncertainty, kg
 */
public record GroupFigures(
        String group,
        double baselineKg,
        double sameWayKg,
        double expectedKg,
        double weighedKg,
        double baselinePrice,
        double price,
        double downgraded,
        Map<UncertaintyPart, Double> sds) {
    private static final double G_PER_KG = 1000;

    /**
     * Checks the figures and copies the SDs.
     *
     * @throws IllegalArgumentException if the name is blank, an expected weight or SD is below 0, or a figure isn't finite
     */
    public GroupFigures {
        Objects.requireNonNull(group, "group");
        Checks.noNullIn(sds, "sds");
        if (group.isBlank()) {
            throw new IllegalArgumentException("a group of products has no name");
        }
        Checks.notNegative(group + ": of the baseline, kg", baselineKg);
        Checks.notNegative(group + ": cut the baseline's way, kg", sameWayKg);
        Checks.notNegative(group + ": expected, kg", expectedKg);
        Checks.finite(group + ": weighed, kg", weighedKg);
        Checks.finite(group + ": price of the baseline, a kg", baselinePrice);
        Checks.finite(group + ": price, a kg", price);
        Checks.finite(group + ": downgraded", downgraded);
        weighedKg = grams(weighedKg) / G_PER_KG;
        Map<UncertaintyPart, Double> copy = new EnumMap<>(UncertaintyPart.class);
        String name = group;
        sds.forEach((part, sd) -> copy.put(part, Checks.notNegative(name + ": SD, kg", sd)));
        sds = Collections.unmodifiableMap(copy);
    }

    /**
     * Figures without baseline and prices.
     *
     * @param group name of the group
     * @param expectedKg what the run's carcasses return of it by their cold weight, kg
     * @param weighedKg what was weighed of it, kg
     * @param sds SD of the expected kg from each part of its uncertainty, kg
     * @return the figures
     * @throws IllegalArgumentException as the constructor
     */
    public static GroupFigures of(String group, double expectedKg, double weighedKg, Map<UncertaintyPart, Double> sds) {
        return new GroupFigures(group, expectedKg, expectedKg, expectedKg, weighedKg, 0, 0, 0, sds);
    }

    /**
     * The same at a price.
     *
     * @param newPrice price of a kg, in the baseline too
     * @return figures
     * @throws IllegalArgumentException if the price isn't finite
     */
    public GroupFigures at(double newPrice) {
        return new GroupFigures(
                group, baselineKg, sameWayKg, expectedKg, weighedKg, newPrice, newPrice, downgraded, sds);
    }

    /**
     * The same against a baseline.
     *
     * @param newBaselineKg what the baseline returns for the same cold weight, kg
     * @param newSameWayKg what the run's carcasses return cut the baseline's way, kg
     * @param newBaselinePrice price of a kg in the baseline
     * @return figures
     * @throws IllegalArgumentException if a weight is below 0, or a figure isn't finite
     */
    public GroupFigures against(double newBaselineKg, double newSameWayKg, double newBaselinePrice) {
        return new GroupFigures(
                group, newBaselineKg, newSameWayKg, expectedKg, weighedKg, newBaselinePrice, price, downgraded, sds);
    }

    long weighedG() {
        return grams(weighedKg);
    }

    /** A weight in whole grams, half up. */
    static long grams(double kg) {
        return Math.round(G_PER_KG * kg);
    }
}
