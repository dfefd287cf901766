package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What errors of coefficients of one breakdown, of one column or of several that are tied to each other, do to a figure of one
 * carcass.
 */
public final class CoefficientEffect {
    private final CoefficientErrors errors;
    private final double[] ofChildren;
    private final int width;

    private CoefficientEffect(CoefficientErrors errors, double[] ofChildren, int width) {
        this.errors = errors;
        this.ofChildren = ofChildren;
        this.width = width;
    }

    /** What errors of coefficients do to a figure at a node, from what errors of the children do. */
    static CoefficientEffect of(CoefficientErrors errors, int node, double[] ofChildren) {
        int width = errors.coefficients() + 1;
        int children = ofChildren.length / errors.coefficients();
        double[] effects = new double[errors.columns() * children * width];
        for (int k = 0; k < errors.columns() * children; k++) {
            errors.addPolynomial(k / children, node, ofChildren, k % children, effects, k * width);
        }
        return new CoefficientEffect(errors, effects, width);
    }

    /** The errors: their draw, their columns and their standard errors. */
    public Breakdown.CoefficientError error() {
        return errors.error;
    }

    /**
     * Number of coefficients: children times columns.
     *
     * @return 1 or more
     */
    public int children() {
        return errors.errors.size();
    }

    /**
     * What an error of a coefficient does to the figure.
     *
     * @param child index of the coefficient: all children of the first column, then of the next
     * @return a polynomial in t = (w - w0)/100, constant first: change of the figure's share per unit of the error
     */
    public double[] ofChild(int child) {
        return Arrays.copyOfRange(ofChildren, child * width, (child + 1) * width);
    }

    /**
     * Covariances of the shares of two figures of one carcass: of all these errors, of which those of one draw go together.
     *
     * @param a effects on one figure
     * @param b effects on the other, or the same
     * @return polynomials in t = (w - w0)/100, constant first, to be added up
     */
    public static List<double[]> covariances(List<CoefficientEffect> a, List<CoefficientEffect> b) {
        Map<Integer, List<CoefficientEffect>> ofA = byDraw(a);
        Map<Integer, List<CoefficientEffect>> ofB = byDraw(b);
        List<double[]> covariances = new ArrayList<>();
        ofA.forEach((draw, ours) -> {
            List<CoefficientEffect> theirs = ofB.getOrDefault(draw, List.of());
            if (ours.size() == 1 && theirs.size() == 1 && ours.get(0).errors == theirs.get(0).errors) {
                CoefficientEffect one = ours.get(0);
                covariances.add(one.errors.errors.covariance(one.ofChildren, theirs.get(0).ofChildren, one.width));
            } else if (!theirs.isEmpty()) {
                covariances.add(product(effects(ours), effects(theirs)));
            }
        });
        return covariances;
    }

    private static Map<Integer, List<CoefficientEffect>> byDraw(List<CoefficientEffect> effects) {
        Map<Integer, List<CoefficientEffect>> byDraw = new LinkedHashMap<>();
        effects.forEach(effect -> byDraw.computeIfAbsent(effect.errors.draw, draw -> new ArrayList<>())
                .add(effect));
        return byDraw;
    }

    /** By power of t, what each independent error of one draw does. */
    private static double[][] effects(List<CoefficientEffect> ofDraw) {
        CoefficientEffect first = ofDraw.get(0);
        double[][] effects = new double[first.width][first.errors.sizeOfDraw()];
        for (CoefficientEffect effect : ofDraw) {
            for (int j = 0; j < first.width; j++) {
                double[] weights = new double[effect.children()];
                for (int k = 0; k < weights.length; k++) {
                    weights[k] = effect.ofChildren[k * effect.width + j];
                }
                effect.errors.errors.addEffects(weights, effects[j], effect.errors.places);
            }
        }
        return effects;
    }

    private static double[] product(double[][] a, double[][] b) {
        double[] product = new double[a.length + b.length - 1];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                for (int m = 0; m < a[i].length; m++) {
                    product[i + j] += a[i][m] * b[j][m];
                }
            }
        }
        return product;
    }
}
