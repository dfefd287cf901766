package org.beefyield.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.beefyield.pack.PieceWeight;
import org.beefyield.text.Numbers;

/**
 * Weights of pieces that no order and no window tells apart.
 *
 * @param fromKg kg, 0 for no limit
 * @param toKg kg, infinite for no limit
 */
record SizeBand(double fromKg, double toKg) {
    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    static final SizeBand ALL = new SizeBand(0, Double.POSITIVE_INFINITY);

    /** The bands between limits. */
    static List<SizeBand> between(TreeSet<Double> limits) {
        List<SizeBand> bands = new ArrayList<>();
        double from = 0;
        for (double limit : limits) {
            if (limit > from && limit < Double.POSITIVE_INFINITY) {
                bands.add(new SizeBand(from, limit));
                from = limit;
            }
        }
        bands.add(new SizeBand(from, Double.POSITIVE_INFINITY));
        return bands;
    }

    /** Whether all of it lies within two limits. */
    boolean isWithin(double low, double high) {
        return fromKg >= low && toKg <= high;
    }

    /** What of the weight of pieces lies in pieces of these weights, as a fraction; heavy ones count for more. */
    double share(PieceWeight piece) {
        return equals(ALL) ? 1 : piece.meanKg() == 0 ? 0 : Moment.of(this, piece).kg / piece.meanKg();
    }

    /** What the weight of a piece, if it lies in the band and else 0, is expected to be. */
    static final class Moment {
        /** Its expectation, kg. */
        final double kg;
        /** The expectation of its square, kg squared. */
        final double square;

        private Moment(double kg, double square) {
            this.kg = kg;
            this.square = square;
        }

        static Moment of(SizeBand band, PieceWeight piece) {
            double mean = piece.meanKg();
            double sd = piece.sdKg();
            if (sd == 0) {
                boolean inside = mean >= band.fromKg && mean < band.toKg;
                return new Moment(inside ? mean : 0, inside ? mean * mean : 0);
            }
            // below 0 there is no piece, but the normal curve has its tail there: the lowest band has it
            double a = band.fromKg == 0 ? Double.NEGATIVE_INFINITY : (band.fromKg - mean) / sd;
            double b = (band.toKg - mean) / sd;
            double inside = probability(b) - probability(a);
            double kg = mean * inside + sd * (density(a) - density(b));
            double square = (mean * mean + sd * sd) * inside
                    + 2 * mean * sd * (density(a) - density(b))
                    + sd * sd * (tilt(a) - tilt(b));
            return new Moment(Math.max(0, kg), Math.max(0, square));
        }

        private static double probability(double z) {
            return STANDARD.cumulativeProbability(z);
        }

        private static double density(double z) {
            return Double.isInfinite(z) ? 0 : STANDARD.density(z);
        }

        private static double tilt(double z) {
            return Double.isInfinite(z) ? 0 : z * STANDARD.density(z);
        }
    }

    /** In words, such as {@code 5 to 7 kg}; empty for all. */
    String words() {
        if (equals(ALL)) {
            return "";
        }
        if (toKg == Double.POSITIVE_INFINITY) {
            return "from " + Numbers.brief(fromKg) + " kg";
        }
        return (fromKg > 0 ? Numbers.brief(fromKg) + " to " : "below ") + Numbers.brief(toKg) + " kg";
    }
}
