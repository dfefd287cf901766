package org.beefyield.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.beefyield.grid.ClosedErrors;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** The covariance of some errors put together from rows that each state a pair of them. */
final class CovarianceMatrix {
    /** What sums and eigenvalues may miss by, of the largest variance: far above the noise of doubles. */
    private static final double TOLERANCE = 1e-6;

    private static final int PAIRS_LISTED = 5;

    private final Map<String, Double> byPair = new HashMap<>();
    private final Map<String, Integer> specificity = new HashMap<>();

    private static String pair(String a, String b) {
        return a.compareTo(b) <= 0 ? a + " and " + b : b + " and " + a;
    }

    static String name(String cut, String term) {
        return term.isEmpty() ? cut : term + " of " + cut;
    }

    /**
     * Takes a row that serves the breakdown; the most specific one of a pair counts.
     *
     * @return the pair if a row as specific was there before, else null
     */
    @Nullable
    String add(CovarianceRow row, int specific) {
        String pair = pair(name(row.cut(), row.term()), name(row.otherCut(), row.otherTerm()));
        int before = specificity.getOrDefault(pair, -1);
        if (specific > before) {
            specificity.put(pair, specific);
            byPair.put(pair, row.value());
        }
        return specific == before ? pair : null;
    }

    boolean isEmpty() {
        return byPair.isEmpty();
    }

    /**
     * The errors with this covariance, closed, or null after a problem.
     *
     * @param names the errors in order, block after block; the errors of each block add up to 0
     * @param block errors in a block
     * @param problem takes a value and a message
     */
    @Nullable
    ClosedErrors errors(List<String> names, int block, BiConsumer<String, String> problem) {
        int size = names.size();
        double[][] matrix = new double[size][size];
        List<String> missing = new ArrayList<>();
        double largest = 0;
        for (int i = 0; i < size; i++) {
            for (int j = 0; j <= i; j++) {
                Double value = byPair.get(pair(names.get(i), names.get(j)));
                if (value == null) {
                    missing.add(pair(names.get(i), names.get(j)));
                } else {
                    // g/kg squared
                    matrix[i][j] = value / 1e6;
                    matrix[j][i] = value / 1e6;
                    largest = Math.max(largest, Math.abs(matrix[i][j]));
                }
            }
        }
        int pairs = size * (size + 1) / 2;
        if (!missing.isEmpty()) {
            int listed = Math.min(PAIRS_LISTED, missing.size());
            problem.accept(
                    "",
                    missing.size() + " of " + pairs + " covariances are missing: "
                            + String.join("; ", missing.subList(0, listed))
                            + (missing.size() > listed ? "; and " + (missing.size() - listed) + " more" : ""));
            return null;
        }
        for (int i = 0; i < size; i++) {
            for (int from = 0; from < size; from += block) {
                double sum = 0;
                for (int j = from; j < from + block; j++) {
                    sum += matrix[i][j];
                }
                if (Math.abs(sum) > TOLERANCE * block * largest) {
                    problem.accept(
                            Numbers.exact(Math.rint(sum * 1e12) / 1e6),
                            "the covariances of " + names.get(i) + " with " + names.get(from) + " to "
                                    + names.get(from + block - 1)
                                    + " add up to this, not 0; shares add up to 1, so that their errors add up to 0");
                    return null;
                }
            }
        }
        return factored(closed(matrix, block), largest, problem);
    }

    /** Takes off what sums miss 0 by. */
    private static RealMatrix closed(double[][] matrix, int block) {
        RealMatrix projection = MatrixUtils.createRealIdentityMatrix(matrix.length);
        for (int i = 0; i < matrix.length; i++) {
            int from = i / block * block;
            for (int j = from; j < from + block; j++) {
                projection.addToEntry(i, j, -1.0 / block);
            }
        }
        return projection.multiply(MatrixUtils.createRealMatrix(matrix)).multiply(projection);
    }

    private static @Nullable ClosedErrors factored(
            RealMatrix covariance, double largest, BiConsumer<String, String> problem) {
        RealMatrix symmetric = covariance.add(covariance.transpose()).scalarMultiply(0.5);
        EigenDecomposition eigen = new EigenDecomposition(symmetric);
        int size = symmetric.getRowDimension();
        double[][] factor = new double[size][size];
        for (int r = 0; r < size; r++) {
            double value = eigen.getRealEigenvalue(r);
            if (value < -TOLERANCE * largest) {
                problem.accept(
                        Numbers.exact(Math.rint(value * 1e12) / 1e6),
                        "these can't be covariances: a sum of the errors would have this for its variance, below 0");
                return null;
            }
            for (int k = 0; k < size; k++) {
                factor[k][r] = Math.sqrt(Math.max(0, value)) * eigen.getV().getEntry(k, r);
            }
        }
        return ClosedErrors.full(factor);
    }
}
