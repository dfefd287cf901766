package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.beefyield.table.definition.SharedBy;

/**
 * What the independent errors behind the coefficients of one breakdown do to them: those of the coefficients themselves, and
 * those of the hall, which stand in its levels. With all of them 1 SD off, each coefficient is off by the sum of its loadings.
 */
public final class CoefficientLoadings {
    /**
     * One independent error.
     *
     * @param draw what makes it the same one in another category: those of equal names and places are one
     * @param place its place in the draw
     * @param ofCoefficients by column and child, g/kg per SD
     */
    @SuppressWarnings("ArrayRecordComponent")
    public record Loading(List<String> draw, int place, double[][] ofCoefficients) {
        public Loading {
            draw = List.copyOf(draw);
        }
    }

    private static final double G_PER_KG = 1000;

    private final Breakdown breakdown;
    private final int columns;
    private final List<Loading> loadings = new ArrayList<>();

    private CoefficientLoadings(Breakdown breakdown, int columns) {
        this.breakdown = breakdown;
        this.columns = columns;
    }

    static List<Loading> of(DrawNumbers numbers, Breakdown breakdown, int columns) {
        CoefficientLoadings of = new CoefficientLoadings(breakdown, columns);
        ClosedErrors hall = breakdown.sharedEverywhere(SharedBy.HALL);
        if (hall != null) {
            int draw = numbers.ofBreakdown(breakdown);
            of.add(
                    List.of(SharedBy.HALL.name(), breakdown.parent(), breakdown.way()),
                    hall,
                    List.of(0),
                    numbers.placesInBreakdown(draw, breakdown),
                    numbers.sizeOfBreakdown(draw));
        }
        for (Breakdown.CoefficientError error : breakdown.coefficientErrors()) {
            int draw = numbers.draw(error);
            of.add(
                    error.draw(),
                    error.errors(),
                    error.columns(),
                    numbers.placesInDraw(draw, breakdown),
                    numbers.sizeOfDraw(draw));
        }
        return List.copyOf(of.loadings);
    }

    private void add(List<String> draw, ClosedErrors errors, List<Integer> ofColumns, int[] places, int size) {
        int children = breakdown.children().size();
        double[][][] effects = new double[size][columns][children];
        for (int column = 0; column < ofColumns.size(); column++) {
            for (int k = 0; k < children; k++) {
                double[] weights = new double[errors.size()];
                weights[column * children + k] = G_PER_KG;
                double[] ofErrors = new double[size];
                errors.addEffects(weights, ofErrors, places);
                for (int place = 0; place < size; place++) {
                    effects[place][ofColumns.get(column)][k] = ofErrors[place];
                }
            }
        }
        for (int place = 0; place < size; place++) {
            if (Arrays.stream(effects[place]).flatMapToDouble(Arrays::stream).anyMatch(effect -> effect != 0)) {
                loadings.add(new Loading(draw, place, effects[place]));
            }
        }
    }
}
