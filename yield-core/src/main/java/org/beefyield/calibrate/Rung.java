package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.table.definition.BreakdownRow;

/**
 * A step of the ladder from all that can be fitted to nothing.
 *
 * @param name what is fitted, in words
 * @param columns columns of the terms that are
 * @param own whether categories move by themselves too
 */
record Rung(String name, List<Integer> columns, boolean own) {
    /** Columns of level, conformation and fat. */
    private static final int GRADES = 3;

    Rung {
        columns = List.copyOf(columns);
    }

    /**
     * The ladder.
     *
     * @param asked columns that may be fitted, the level among them
     * @param canOwn whether categories can move by themselves
     */
    static List<Rung> ladder(List<Integer> asked, boolean canOwn) {
        List<Rung> ladder = new ArrayList<>();
        add(ladder, "all terms", asked, canOwn);
        List<Integer> plain = asked.stream()
                .filter(column -> column < BreakdownRow.PLAIN_COLUMNS.size())
                .toList();
        if (plain.size() < asked.size()) {
            add(ladder, "level and slopes", plain, canOwn);
        }
        List<Integer> grades = plain.stream().filter(column -> column < GRADES).toList();
        if (grades.size() < plain.size() && grades.size() > 1) {
            add(ladder, "level, conformation and fat", grades, canOwn);
        }
        if (asked.size() > 1) {
            add(ladder, "level", List.of(0), canOwn);
        }
        return List.copyOf(ladder);
    }

    private static void add(List<Rung> ladder, String name, List<Integer> columns, boolean canOwn) {
        if (canOwn) {
            ladder.add(new Rung(name + ", categories by themselves", columns, true));
        }
        ladder.add(new Rung(name, columns, false));
    }

    /** Whether a draw that moves some columns is fitted on it. */
    boolean fits(PriorBreakdown.Draw draw) {
        return columns.containsAll(draw.columns()) && (own || !draw.own());
    }

    /** Terms of a carcass that count on it. */
    double[] of(double[] terms) {
        return IntStream.range(0, terms.length)
                .mapToDouble(column -> columns.contains(column) ? terms[column] : 0)
                .toArray();
    }
}
