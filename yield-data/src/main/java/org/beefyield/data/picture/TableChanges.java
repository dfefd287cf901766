package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.table.TableComparison;
import org.beefyield.text.Names;

/** The largest change of every cut between two tables. */
final class TableChanges {
    private static final int TICKS = 5;
    /** Below this a change prints as none. */
    private static final double SHOWN_G_PER_KG = 0.005;

    private static final double EMPTY_REACH_G_PER_KG = 1;
    private static final String STILL = "No cut moves by 0.01 g/kg or more";
    private static final int NOTES_SHOWN = 4;

    static final Pen MORE = Pen.line(Ink.BLUE, Rows.BAR_PX);
    static final Pen LESS = Pen.line(Ink.ORANGE, Rows.BAR_PX, 3, 2);

    static final Legend LEGEND = new Legend().bar("more than before", MORE).bar("less", LESS);

    private TableChanges() {}

    private static String signed(double gPerKg) {
        return Figures.signed(gPerKg, 2);
    }

    static Picture draw(TableComparison comparison, OptionalDouble budgetGPerKg) {
        List<TableComparison.Difference> all = comparison.differences();
        List<TableComparison.Difference> moved = all.stream()
                .filter(difference -> Math.abs(difference.differenceGPerKg()) >= SHOWN_G_PER_KG)
                .toList();
        Rows rows = new Rows("g/kg");
        StringBuilder words = new StringBuilder(comparison + ".");
        String level = "";
        for (TableComparison.Difference difference : moved) {
            if (!difference.level().equals(level)) {
                words.append(level.isEmpty() ? "" : ".");
                level = difference.level();
                rows.heading(Names.capital(level) + " level");
                words.append(' ').append(Names.capital(level)).append(" level:");
            } else {
                words.append(',');
            }
            double gPerKg = difference.differenceGPerKg();
            rows.row(
                    Outturns.words(difference.cut()),
                    List.of(signed(gPerKg)),
                    (plot, centrePx) ->
                            plot.bar(gPerKg > 0 ? MORE : LESS, Math.min(0, gPerKg), Math.max(0, gPerKg), centrePx));
            words.append(' ')
                    .append(Outturns.words(difference.cut()))
                    .append(' ')
                    .append(signed(gPerKg))
                    .append(" g/kg");
        }
        List<String> notes = new ArrayList<>();
        largest(moved)
                .ifPresent(difference -> notes.add("Largest: " + Outturns.words(difference.cut()) + " "
                        + signed(difference.differenceGPerKg()) + " g/kg at " + difference.where()));
        int still = all.size() - moved.size();
        if (moved.isEmpty()) {
            rows.heading(STILL);
            words.append(' ').append(STILL).append('.');
        } else if (still > 0) {
            notes.add(still + (still == 1 ? " more moves" : " more move") + " by less than 0.01 g/kg");
        }
        budgetGPerKg.ifPresent(budget -> notes.add("Broken lines: the budget of " + Outturns.plain(budget)
                + " g/kg either way; " + beyond(comparison.beyond(budget).size())));
        comparison.notes().stream()
                .limit(NOTES_SHOWN)
                .map(note -> "Note: " + note)
                .forEach(notes::add);
        if (comparison.notes().size() > NOTES_SHOWN) {
            notes.add((comparison.notes().size() - NOTES_SHOWN) + " more notes in the comparison");
        }
        words.append(moved.isEmpty() ? "" : ".");
        notes.forEach(note -> words.append(' ').append(note).append('.'));
        double reach = Math.max(
                budgetGPerKg.orElse(0),
                moved.stream()
                        .mapToDouble(difference -> Math.abs(difference.differenceGPerKg()))
                        .max()
                        .orElse(EMPTY_REACH_G_PER_KG));
        String name = comparison.toString();
        Plot plot = rows.plot(
                "Largest change of each cut",
                List.of(name.substring(0, name.lastIndexOf(": largest"))),
                moved.isEmpty() ? new Legend() : LEGEND,
                "g per kg of carcass",
                roomPx -> Axis.around(reach, TICKS, roomPx));
        plot.uprightLine(Pen.line(Ink.STRONG, 1), 0);
        budgetGPerKg.ifPresent(budget -> {
            plot.uprightLine(Pen.line(Ink.STRONG, 1.5, 6, 4), budget);
            plot.uprightLine(Pen.line(Ink.STRONG, 1.5, 6, 4), -budget);
        });
        plot.notes(notes);
        return plot.picture(words.toString());
    }

    private static Optional<TableComparison.Difference> largest(List<TableComparison.Difference> moved) {
        return moved.stream().max(Comparator.comparingDouble(difference -> Math.abs(difference.differenceGPerKg())));
    }

    private static String beyond(int count) {
        return count == 0
                ? "nothing goes beyond it"
                : count + (count == 1 ? " figure goes" : " figures go") + " beyond it";
    }
}
