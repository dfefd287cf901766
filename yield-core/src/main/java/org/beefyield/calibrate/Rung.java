package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.text.Numbers;

/**
 * A step of the ladder from all that can be fitted to nothing.
 *
 * @param name what is fitted, in words
 * @param columns columns of the terms that are
 * @param own whether categories move by themselves too
 * @param bend part of the way to a hall that differs in proportion: a child that gets more or less at the reference carcass
 *     does so everywhere in proportion, the largest child taking the opposite, so that no share that was above 0 falls below it
 */
record Rung(String name, List<Integer> columns, boolean own, double bend) {
    private static final List<Double> BENDS = List.of(0.25, 0.5, 1.0);

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
        // what categories have of their own is given up last
        for (boolean own : canOwn ? new boolean[] {true, false} : new boolean[] {false}) {
            String of = own ? ", categories by themselves" : "";
            ladder.add(new Rung("all terms" + of, asked, own, 0));
            List<Integer> plain = asked.stream()
                    .filter(column -> column < BreakdownRow.PLAIN_COLUMNS.size())
                    .toList();
            if (plain.size() < asked.size()) {
                ladder.add(new Rung("level and slopes" + of, plain, own, 0));
            }
            List<Integer> grades =
                    plain.stream().filter(column -> column < GRADES).toList();
            if (grades.size() < plain.size() && grades.size() > 1) {
                ladder.add(new Rung("level, conformation and fat" + of, grades, own, 0));
            }
            if (asked.size() > 1) {
                ladder.add(new Rung("level" + of, List.of(0), own, 0));
            }
            for (double bend : BENDS) {
                ladder.add(new Rung("all terms" + of + ", " + bent(bend), asked, own, bend));
                ladder.add(new Rung("level" + of + ", " + bent(bend), List.of(0), own, bend));
            }
        }
        return List.copyOf(ladder);
    }

    private static String bent(double bend) {
        return bend == 1 ? "in proportion" : "bent " + Numbers.exact(bend) + " of the way to proportion";
    }

    boolean isBentOf(Rung straight) {
        return straight.bend == 0 && own == straight.own && columns.equals(straight.columns);
    }

    /** Whether a draw that moves some columns is fitted on it. */
    boolean fits(PriorBreakdown.Draw draw) {
        return columns.containsAll(draw.columns()) && (own || !draw.own());
    }
}
