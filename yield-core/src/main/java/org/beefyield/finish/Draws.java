package org.beefyield.finish;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * Standard normal numbers that are spread evenly, the same every time: in every column each part of the distribution stands
 * once (a Latin hypercube), in the order of the digits of the rows' numbers read backwards to a prime base of the column's own
 * (J. H. Halton 1960, Numerische Mathematik 2, 84-90), which fills a cube evenly.
 */
final class Draws {
    static final int SIZE = 1024;

    private static final List<Integer> PRIMES = List.of(2, 3, 5, 7, 11, 13);
    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    private Draws() {}

    /** Up to six columns of normal numbers; their means are 0 and they stand in no order with each other. */
    static double[][] columns(int count) {
        double[] quantiles = IntStream.range(0, SIZE)
                .mapToDouble(i -> STANDARD.inverseCumulativeProbability((i + 0.5) / SIZE))
                .toArray();
        double[][] columns = new double[count][SIZE];
        for (int column = 0; column < count; column++) {
            int base = PRIMES.get(column);
            double[] places = IntStream.range(0, SIZE)
                    .mapToDouble(i -> backwards(i + 1, base))
                    .toArray();
            int[] order = IntStream.range(0, SIZE)
                    .boxed()
                    .sorted(Comparator.comparingDouble(i -> places[i]))
                    .mapToInt(Integer::intValue)
                    .toArray();
            for (int rank = 0; rank < SIZE; rank++) {
                columns[column][order[rank]] = quantiles[rank];
            }
        }
        return columns;
    }

    /** A number's digits behind the point, the last first. */
    private static double backwards(int number, int base) {
        double part = 1;
        double place = 0;
        for (int left = number; left > 0; left /= base) {
            part /= base;
            place += part * (left % base);
        }
        return place;
    }

    /** One draw in the middle of everything. */
    static double[][] middle(int count) {
        return new double[count][1];
    }
}
