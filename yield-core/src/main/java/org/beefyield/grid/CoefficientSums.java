package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What errors of the coefficients do to a figure of many carcasses: by coefficients that err alike, the figure's change per unit
 * of each error. Coefficients of one draw err together, also where their standard errors differ.
 */
public final class CoefficientSums {
    private final DrawNumbers numbers;
    private final @Nullable Sums[] bySet;
    /** In the order in which they came. */
    private final List<Sums> all = new ArrayList<>();

    private static final class Sums {
        private final CoefficientErrors errors;
        private final double[] totals;

        Sums(CoefficientErrors errors) {
            this.errors = errors;
            this.totals = new double[errors.errors.size()];
        }
    }

    CoefficientSums(DrawNumbers numbers) {
        this.numbers = numbers;
        this.bySet = new Sums[numbers.sets()];
    }

    /** Adds what errors do to carcasses at a node. */
    void add(CoefficientErrors errors, int node, double[] ofChildren, PowerSums carcasses, double referenceWeightKg) {
        double[] totals = of(errors);
        int children = ofChildren.length / errors.coefficients();
        double[] polynomial = new double[errors.coefficients() + 1];
        for (int i = 0; i < errors.columns(); i++) {
            if (errors.constant(i, node) == 0 && errors.slope(i, node) == 0) {
                continue;
            }
            for (int k = 0; k < children; k++) {
                Arrays.fill(polynomial, 0);
                errors.addPolynomial(i, node, ofChildren, k, polynomial, 0);
                totals[i * children + k] += carcasses.ofWeight(polynomial, referenceWeightKg);
            }
        }
    }

    /**
     * The same from what errors of the children do to the carcasses together.
     *
     * @param constant what an error of each child does
     * @param slope what an error does that grows by 1 per 100 kg above the reference weight
     */
    void add(CoefficientErrors errors, int node, double[] constant, double[] slope, int children) {
        double[] totals = of(errors);
        for (int i = 0; i < errors.columns(); i++) {
            double ofConstant = errors.constant(i, node);
            double ofSlope = errors.slope(i, node);
            if (ofConstant == 0 && ofSlope == 0) {
                continue;
            }
            for (int k = 0; k < children; k++) {
                totals[i * children + k] += ofConstant * constant[k] + ofSlope * slope[k];
            }
        }
    }

    /** Adds what errors do to the share of one carcass at a node that counts for so much, by power of t. */
    static void add(
            List<CoefficientSums> byPower, CoefficientErrors errors, int node, double[] ofChildren, double weight) {
        int children = ofChildren.length / errors.coefficients();
        double[] polynomial = new double[errors.coefficients() + 1];
        for (int k = 0; k < errors.columns() * children; k++) {
            Arrays.fill(polynomial, 0);
            errors.addPolynomial(k / children, node, ofChildren, k % children, polynomial, 0);
            for (int j = 0; j < polynomial.length; j++) {
                byPower.get(j).of(errors)[k] += weight * polynomial[j];
            }
        }
    }

    private double[] of(CoefficientErrors errors) {
        Sums found = bySet[errors.set];
        if (found == null) {
            found = new Sums(errors);
            bySet[errors.set] = found;
            all.add(found);
        }
        return found.totals;
    }

    /**
     * Covariance of two figures.
     *
     * @param other what the same table's errors do to the other figure
     * @return the covariance
     */
    public double times(CoefficientSums other) {
        Map<Integer, CoefficientErrors> sets = new LinkedHashMap<>();
        all.forEach(sums -> sets.put(sums.errors.set, sums.errors));
        other.all.forEach(sums -> sets.putIfAbsent(sums.errors.set, sums.errors));
        Map<Integer, List<CoefficientErrors>> byDraw = new LinkedHashMap<>();
        sets.values()
                .forEach(errors -> byDraw.computeIfAbsent(errors.draw, draw -> new ArrayList<>(1))
                        .add(errors));
        double covariance = 0;
        for (Map.Entry<Integer, List<CoefficientErrors>> draw : byDraw.entrySet()) {
            if (draw.getValue().size() == 1) {
                CoefficientErrors errors = draw.getValue().get(0);
                Sums own = bySet[errors.set];
                Sums theirs = other.bySet[errors.set];
                covariance +=
                        own == null || theirs == null ? 0 : errors.errors.covariance(own.totals, theirs.totals, 1)[0];
            } else {
                covariance += product(effects(draw.getKey()), other.effects(draw.getKey()));
            }
        }
        return covariance;
    }

    private double[] effects(int draw) {
        double[] effects = new double[numbers.sizeOfDraw(draw)];
        for (Sums sums : all) {
            if (sums.errors.draw == draw) {
                sums.errors.errors.addEffects(sums.totals, effects, sums.errors.places);
            }
        }
        return effects;
    }

    private static double product(double[] a, double[] b) {
        double product = 0;
        for (int m = 0; m < a.length; m++) {
            product += a[m] * b[m];
        }
        return product;
    }
}
