package org.beefyield.plan;

import java.util.List;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Outturn;
import org.beefyield.pack.PieceWeight;

/** What comes of a cut of some carcasses in a way, of pieces of some weights. */
final class Part {
    private final PlanCut cut;
    private final int p;
    private final int w;
    private final int c;
    private final List<Integer> bands;
    private final List<CarvedCarcass> carcasses;
    final Outturn outturn;
    private final double kg;
    private final double allKg;
    private final double cutKg;

    Part(PlanCut cut, int p, int w, int c, List<Integer> bands, List<CarvedCarcass> carcasses, Outturn outturn) {
        this.cut = cut;
        this.p = p;
        this.w = w;
        this.c = c;
        this.bands = List.copyOf(bands);
        this.carcasses = carcasses;
        this.outturn = outturn;
        double inBands = 0;
        double all = 0;
        double ofCut = 0;
        for (CarvedCarcass one : carcasses) {
            double share = 0;
            for (int band : bands) {
                share += one.figures.inBand[p][band];
            }
            all += one.figures.childKg[p][w][c];
            inBands += one.figures.childKg[p][w][c] * share;
            ofCut += one.figures.kg[p];
        }
        this.kg = inBands;
        this.allKg = all;
        this.cutKg = ofCut;
    }

    /** Expected kg. */
    double kg() {
        return kg;
    }

    /** Whether pieces of all weights are in it. */
    boolean isOfAllPieces() {
        return bands.size() == cut.bands.size();
    }

    private Cut child() {
        return cut.ways.get(w).children.get(c);
    }

    /** What comes of it, pieces of all weights. */
    Figure figure() {
        return Figure.cut(child().code());
    }

    /** The cut, so that it is as many kg as come of it here. */
    Figure ofCut() {
        return Figure.cut(cut.code).times(kg / cutKg);
    }

    /** How much more comes of a kg of the cut than expected. */
    Figure beyondCut() {
        return figure().times(kg / allKg).plus(ofCut().times(-1));
    }

    /** What comes out where all cuts are heavier by a factor: its expectation, and its variance from what single pieces weigh. */
    Spread at(double factor) {
        double sum = 0;
        double variance = 0;
        for (CarvedCarcass one : carcasses) {
            double perCutKg = one.figures.childKg[p][w][c] / one.figures.kg[p];
            PieceWeight piece = one.figures.ownPieces[p];
            if (piece == null) {
                sum += one.figures.childKg[p][w][c] * factor;
                continue;
            }
            PieceWeight heavier = new PieceWeight(piece.pieces(), factor * piece.meanKg(), piece.sdKg());
            double mean = 0;
            double square = 0;
            for (int band : bands) {
                SizeBand.Moment moment = SizeBand.Moment.of(cut.bands.get(band), heavier);
                mean += moment.kg;
                square += moment.square;
            }
            double kgPerPieceKg = perCutKg * piece.pieces();
            sum += kgPerPieceKg * mean;
            // both sides weigh alike but for how they are split
            variance += kgPerPieceKg * kgPerPieceKg * Math.max(0, square - mean * mean);
        }
        return new Spread(sum, variance);
    }

    /**
     * What comes out.
     *
     * @param kg expectation
     * @param variance variance, kg squared
     */
    record Spread(double kg, double variance) {}
}
