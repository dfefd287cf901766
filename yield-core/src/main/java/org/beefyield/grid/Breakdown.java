package org.beefyield.grid;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableSchema;
import org.jspecify.annotations.Nullable;

/**
 * A breakdown of one parent in one way for one category: its children and their share of the parent at every node of the
 * allowed grades, closed. At a node a share is linear in t = (w - w0)/100.
 */
public final class Breakdown {
    private static final double G_PER_KG = 1000;

    private final String parent;
    private final String way;
    private final List<Cut> children;
    /** Index of each child in the catalogue. */
    final int[] indexes;

    private final TableSchema resource;

    /** By child and node, index of a row in that part, for messages; one node alone if all are the same. */
    private final int[][] rows;

    /** By child and node, fraction of the parent at the reference weight. */
    private final double[][] shares;
    /** By child and node, change of that per 100 kg. */
    private final double[][] slopes;
    /** By child and node, SD between carcasses of one grade, fraction of the parent; one node alone if all are equal. */
    private final double[][] sds;

    private final List<CoefficientError> coefficientErrors;

    /**
     * Errors of coefficients that belong together: those of one column, or of all that a covariance ties to each other.
     *
     * @param draw what makes errors the same ones: those of equal names are one draw
     * @param columns columns of the coefficients
     * @param errors errors of the children, fraction of the parent: all of the first column, then of the next
     */
    public record CoefficientError(List<String> draw, List<Integer> columns, ClosedErrors errors) {
        public CoefficientError {
            draw = List.copyOf(draw);
            columns = List.copyOf(columns);
        }
    }

    private final ClosedErrors[] residuals;
    /** SDs of the errors that carcasses have in common, by child and node as {@link #sds}. */
    private final Map<SharedBy, double[][]> sharedSds;
    /** By node, or one; null where there are none. */
    private final Map<SharedBy, ClosedErrors[]> shared = new EnumMap<>(SharedBy.class);
    /** Whether the covariance between carcasses is given and not worked out from the SDs. */
    private final boolean isFull;

    public Breakdown(
            String parent,
            String way,
            List<Cut> children,
            int[] indexes,
            TableSchema resource,
            int[][] rows,
            double[][] shares,
            double[][] slopes,
            double[][] sds,
            Map<SharedBy, double[][]> sharedSds,
            @Nullable ClosedErrors residual,
            List<CoefficientError> coefficientErrors) {
        this.parent = parent;
        this.way = way;
        this.children = children;
        this.indexes = indexes;
        this.resource = resource;
        this.rows = rows;
        this.shares = shares;
        this.slopes = slopes;
        this.sds = sds;
        this.coefficientErrors = coefficientErrors;
        this.sharedSds = sharedSds;
        sharedSds.forEach((by, ofChildren) -> {
            if (Arrays.stream(ofChildren).flatMapToDouble(Arrays::stream).anyMatch(sd -> sd != 0)) {
                shared.put(by, closed(ofChildren));
            }
        });
        if (residual != null) {
            this.residuals = new ClosedErrors[] {residual};
            this.isFull = true;
            return;
        }
        this.isFull = false;
        this.residuals = new ClosedErrors[sds.length == 0 ? 0 : sds[0].length];
        for (int i = 0; i < residuals.length; i++) {
            double[] sd = at(sds, i);
            // a set that doesn't close is a problem of the table, which is then never built
            residuals[i] = ClosedErrors.closes(sd)
                    ? ClosedErrors.conditioned(sd)
                    : ClosedErrors.conditioned(new double[sd.length]);
        }
    }

    public String parent() {
        return parent;
    }

    public String way() {
        return way;
    }

    public List<Cut> children() {
        return children;
    }

    /** Part of the definition that holds its rows, for messages. */
    public TableSchema resource() {
        return resource;
    }

    /** Errors of the coefficients, which are the same in every carcass. */
    List<CoefficientError> coefficientErrors() {
        return coefficientErrors;
    }

    private static double[] at(double[][] sds, int index) {
        double[] sd = new double[sds.length];
        for (int k = 0; k < sd.length; k++) {
            sd[k] = sds[k][index];
        }
        return sd;
    }

    /** Errors in common close as independent ones where these can, else the largest child takes the opposite of the others. */
    private static ClosedErrors[] closed(double[][] sds) {
        ClosedErrors[] errors = new ClosedErrors[sds[0].length];
        for (int i = 0; i < errors.length; i++) {
            double[] sd = at(sds, i);
            errors[i] = ClosedErrors.ofStandardErrors(ClosedErrors.canBeBalanced(sd) ? sd : new double[sd.length]);
        }
        return errors;
    }

    /** Errors at a node that all carcasses of a lot, a run or a hall have in common, or null if there are none. */
    @Nullable
    ClosedErrors shared(SharedBy by, int node) {
        ClosedErrors[] errors = shared.get(by);
        return errors == null ? null : errors[errors.length == 1 ? 0 : node];
    }

    /** Whether two breakdowns of equal shares have equal errors, but for those of coefficients. */
    boolean errsAs(Breakdown other) {
        if (!Arrays.equals(residuals, other.residuals)) {
            return false;
        }
        for (SharedBy by : SharedBy.values()) {
            if (!Arrays.equals(shared.get(by), other.shared.get(by))) {
                return false;
            }
        }
        return true;
    }

    /** Errors in common if they are the same at all nodes; null if there are none, or each node has its own. */
    @Nullable
    ClosedErrors sharedEverywhere(SharedBy by) {
        ClosedErrors[] errors = shared.get(by);
        return errors == null || errors.length > 1 ? null : errors[0];
    }

    /** Whether carcasses of a lot, a run or a hall have errors in common. */
    boolean hasShared(SharedBy by) {
        return shared.containsKey(by);
    }

    /** Errors between carcasses of one grade at a node. */
    ClosedErrors residual(int node) {
        return residuals[residuals.length == 1 ? 0 : node];
    }

    /** Covariance of the children between carcasses, or of what they have in common, g/kg squared, at the first node. */
    double[][] covariance(@Nullable SharedBy by) {
        ClosedErrors errors = by == null ? residual(0) : shared(by, 0);
        double[][] covariance = new double[children.size()][children.size()];
        for (int k = 0; k < covariance.length && errors != null; k++) {
            for (int l = 0; l < covariance.length; l++) {
                double[] ofK = new double[covariance.length];
                double[] ofL = new double[covariance.length];
                ofK[k] = G_PER_KG;
                ofL[l] = G_PER_KG;
                covariance[k][l] = errors.covariance(ofK, ofL, 1)[0];
            }
        }
        return covariance;
    }

    /** SD of the error of a child that all carcasses of a lot, a run or a hall have in common at a node. */
    public double sharedSd(SharedBy by, int child, int node) {
        double[] ofChild = sharedSds.getOrDefault(by, new double[0][])[child];
        return ofChild[ofChild.length == 1 ? 0 : node];
    }

    /** Whether the covariance between carcasses is given and not worked out from the SDs. */
    public boolean isCovarianceGiven() {
        return isFull;
    }

    /** Correlation of two children between carcasses of one grade at a node; 0 where one doesn't vary. */
    public double correlation(int child, int other, int node) {
        double[] a = new double[children.size()];
        double[] b = new double[children.size()];
        a[child] = 1;
        b[other] = 1;
        double sds = residual(node).sds().get(child) * residual(node).sds().get(other);
        return sds == 0 ? 0 : residual(node).covariance(a, b, 1)[0] / sds;
    }

    /** SD of a child between carcasses of one grade at a node. */
    public double sd(int child, int node) {
        return sds[child][sds[child].length == 1 ? 0 : node];
    }

    /** SDs, by child, that can't be errors of shares that add up to 1, and the rows where they stand. */
    public static final class OpenSds {
        private final double[] sds;
        private final int[] rows;

        OpenSds(double[] sds, int[] rows) {
            this.sds = sds;
            this.rows = rows;
        }

        public double[] sds() {
            return sds;
        }

        public int[] rows() {
            return rows;
        }

        /** The child that varies most. */
        public int largest() {
            return ClosedErrors.largest(sds);
        }
    }

    /** The first set of SDs between carcasses that can't be errors of shares that add up to 1, or null if all sets can. */
    public @Nullable OpenSds openSds() {
        return isFull ? null : open(sds, ClosedErrors::closes);
    }

    /** The first set of SDs in common that can't be errors of shares that add up to 1, or null if all sets can. */
    public @Nullable OpenSds openSds(SharedBy by) {
        return open(sharedSds.getOrDefault(by, new double[0][0]), ClosedErrors::canBeBalanced);
    }

    private @Nullable OpenSds open(double[][] deviations, Predicate<double[]> closes) {
        for (int i = 0; deviations.length > 0 && i < deviations[0].length; i++) {
            double[] sd = at(deviations, i);
            if (!closes.test(sd)) {
                int at = i;
                return new OpenSds(
                        sd,
                        Arrays.stream(rows)
                                .mapToInt(ofChild -> ofChild[ofChild.length == 1 ? 0 : at])
                                .toArray());
            }
        }
        return null;
    }

    /** Where the share of a child at a node stands in its resource. */
    public int row(int child, int node) {
        return rows[child][rows[child].length == 1 ? 0 : node];
    }

    /** Share of a child at the reference weight. */
    public double share(int child, int node) {
        return shares[child][node];
    }

    /** Change of a child's share per 100 kg. */
    public double slope(int child, int node) {
        return slopes[child][node];
    }

    public boolean usesWeight() {
        for (double[] ofChild : slopes) {
            for (double slope : ofChild) {
                if (slope != 0) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether two breakdowns give the same shares everywhere. */
    public boolean sameShares(Breakdown other) {
        if (this == other) {
            return true;
        }
        return children.equals(other.children)
                && Arrays.deepEquals(shares, other.shares)
                && Arrays.deepEquals(slopes, other.slopes);
    }
}
