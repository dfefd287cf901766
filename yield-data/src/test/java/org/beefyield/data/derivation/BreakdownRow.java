package org.beefyield.data.derivation;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * One row of breakdown.csv: g of the cut per kg of its parent at the reference carcass, the change of that per point
 * of conformation, per point of fat, per 100 kg and per point beyond each hinge, the residual SD and the SDs of the errors
 * that carcasses of a lot, a run and a hall have in common, in g/kg.
 */
record BreakdownRow(
        String category,
        String way,
        String parent,
        String cut,
        double level,
        double perConformationPoint,
        double perFatPoint,
        double per100Kg,
        double belowFatKnot,
        double aboveConformationKnot,
        double sd,
        double lotSd,
        double runSd,
        double hallSd,
        String source) {

    /** Decimals of the levels: at 340 kg half a unit is 0.17 g. */
    static final int LEVEL_DECIMALS = 3;
    /** Decimals of the slopes: ten points away half a unit is 0.17 g at 340 kg. */
    static final int SLOPE_DECIMALS = 4;
    /** Decimals of the residual SDs. */
    static final int SD_DECIMALS = 2;

    /** The row as the file prints it. */
    BreakdownRow rounded() {
        return new BreakdownRow(
                category,
                way,
                parent,
                cut,
                round(level, LEVEL_DECIMALS),
                round(perConformationPoint, SLOPE_DECIMALS),
                round(perFatPoint, SLOPE_DECIMALS),
                round(per100Kg, SLOPE_DECIMALS),
                round(belowFatKnot, SLOPE_DECIMALS),
                round(aboveConformationKnot, SLOPE_DECIMALS),
                round(sd, SD_DECIMALS),
                round(lotSd, SD_DECIMALS),
                round(runSd, SD_DECIMALS),
                round(hallSd, SD_DECIMALS),
                source);
    }

    /** The row for other categories, its level and its slope with fat changed by something. */
    BreakdownRow forCategory(String letters, double moreLevel, double morePerFatPoint, String otherSource) {
        return new BreakdownRow(
                letters,
                way,
                parent,
                cut,
                level + moreLevel,
                perConformationPoint,
                perFatPoint + morePerFatPoint,
                per100Kg,
                belowFatKnot,
                aboveConformationKnot,
                sd,
                lotSd,
                runSd,
                hallSd,
                otherSource);
    }

    static double round(double value, int decimals) {
        // BigDecimal has no negative zero, so none reaches a file
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_UP)
                .doubleValue();
    }
}
