package org.beefyield.grid;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.SourceKind;

/**
 * Down which rows the kilograms of carcasses of one category come, in one choice of ways: how solid the weakest row on the
 * path is, at which levels an assumption stands on it, and which rows serve single categories. Carcasses add up. Not
 * thread-safe.
 *
 * <p>What is carried from parents to children isn't a polynomial but what it sums up to: the sums of w t^j over the
 * carcasses. A share with a slope takes the sum of the next power too, so that one power less is right after each such step;
 * no path has so many of them that the first, which is kg, goes wrong.
 */
public final class RowPaths {
    private static final int KINDS = RowSources.KINDS.size();
    private static final int ASSUMPTION = RowSources.KINDS.indexOf(SourceKind.ASSUMPTION);

    private final RowSources sources;
    private final List<Cut> cuts;
    private final List<List<YieldGrid.Step>> steps;
    private final int powers;
    /** Of a cut's kilograms: by kind of the weakest row those that it has, behind them by level those that it assumes. */
    private final int states;

    private final Predicate<Cut> counted;
    /** By state, of all cuts that count. */
    private final double[] kg;
    /** Numbers of the rows that serve single categories and that carcasses came down by. */
    private final BitSet own = new BitSet();
    /** Room for what stands before and after a level, by cut, state and power. */
    private final double[] room;

    private final double[] otherRoom;
    /** The same of the whole carcasses, which come down by no row yet. */
    private final double[] whole;

    RowPaths(
            TableLayout layout,
            List<Cut> cuts,
            Map<String, Breakdown> breakdowns,
            RowSources sources,
            int powers,
            Predicate<Cut> counted) {
        this.sources = sources;
        this.cuts = cuts;
        this.steps = YieldGrid.steps(layout, cuts, breakdowns);
        this.powers = powers;
        this.states = KINDS + steps.size();
        this.counted = counted;
        this.kg = new double[states];
        this.room = new double[cuts.size() * states * powers];
        this.otherRoom = new double[room.length];
        this.whole = new double[states * powers];
    }

    /**
     * Adds carcasses.
     *
     * @param node a node of the table's range
     * @param sums sum over the carcasses at the node of w t^j, by j: as many as a grid has coefficients, or more
     */
    public void add(int node, double[] sums) {
        double[] standing = room;
        double[] next = otherRoom;
        for (int level = 0; level < steps.size(); level++) {
            Arrays.fill(next, 0);
            for (YieldGrid.Step step : steps.get(level)) {
                if (step.breakdown == null) {
                    int at = place(step.parent, 0);
                    for (int i = at; i < at + states * powers; i++) {
                        next[i] += standing[i];
                    }
                } else if (step.parent < 0) {
                    System.arraycopy(sums, 0, whole, 0, powers);
                    split(step.breakdown, node, level, whole, 0, next);
                } else if (isThere(standing, place(step.parent, 0))) {
                    split(step.breakdown, node, level, standing, place(step.parent, 0), next);
                }
            }
            double[] before = standing;
            standing = next;
            next = before;
        }
        for (int cut = 0; cut < cuts.size(); cut++) {
            for (int state = 0; state < states && counted.test(cuts.get(cut)); state++) {
                kg[state] += standing[place(cut, state)];
            }
        }
    }

    private int place(int cut, int state) {
        return (cut * states + state) * powers;
    }

    private boolean isThere(double[] standing, int at) {
        for (int kind = 0; kind < KINDS; kind++) {
            if (standing[at + kind * powers] != 0) {
                return true;
            }
        }
        return false;
    }

    private void split(Breakdown breakdown, int node, int level, double[] from, int at, double[] next) {
        for (int k = 0; k < breakdown.indexes.length; k++) {
            int number = sources.number(breakdown, k, node);
            RowSources.Row row = sources.row(number);
            if (row.isOwn) {
                own.set(number);
            }
            double share = breakdown.share(k, node);
            double slope = breakdown.slope(k, node);
            int child = breakdown.indexes[k];
            for (int state = 0; state < states; state++) {
                int of = at + state * powers;
                if (from[of] == 0) {
                    continue;
                }
                boolean isKind = state < KINDS;
                int to = isKind ? Math.max(state, row.weakness) : state;
                addPart(from, of, share, slope, next, place(child, to));
                if (isKind && row.weakness == ASSUMPTION) {
                    addPart(from, of, share, slope, next, place(child, KINDS + level));
                }
            }
        }
    }

    private void addPart(double[] from, int at, double share, double slope, double[] next, int to) {
        for (int j = 0; j < powers; j++) {
            next[to + j] += share * from[at + j] + (j + 1 < powers ? slope * from[at + j + 1] : 0);
        }
    }

    /**
     * Kilograms whose weakest row is of a kind, of the cuts that count.
     *
     * @return kg
     */
    public double kg(SourceKind weakest) {
        return kg[RowSources.KINDS.indexOf(weakest)];
    }

    /**
     * Kilograms whose row at a level is an assumption, of the cuts that count.
     *
     * @param level index of the level
     * @return kg
     */
    public double assumedKg(int level) {
        return kg[KINDS + level];
    }

    /** Takes a row that serves single categories. */
    public interface OwnRow {
        /**
         * Takes a row.
         *
         * @param parent code of the cut that is broken down
         * @param cut code of the child
         * @param source short name of the source
         */
        void take(String parent, String cut, String source);
    }

    /** Goes through the rows that serve single categories and that carcasses came down by, in the order of the table. */
    public void ownRows(OwnRow taker) {
        own.stream().mapToObj(sources::row).forEach(row -> taker.take(row.parent, row.cut, row.source));
    }
}
