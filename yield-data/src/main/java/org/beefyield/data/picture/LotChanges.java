package org.beefyield.data.picture;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.text.Names;

/** What a lot yields more or less by another table, cut by cut. */
final class LotChanges {
    private static final int TICKS = 5;
    private static final double EMPTY_REACH_G_PER_KG = 1;

    private LotChanges() {}

    static Picture draw(LotEstimate before, LotEstimate after) {
        if (before.carcasses() != after.carcasses()
                || Math.abs(before.coldWeightKg() - after.coldWeightKg()) > 1e-9 * before.coldWeightKg()) {
            throw new IllegalArgumentException("the lots differ: " + Outturns.carcasses(before) + " of "
                    + Figures.fixed(before.coldWeightKg(), 1) + " kg before, " + Outturns.carcasses(after) + " of "
                    + Figures.fixed(after.coldWeightKg(), 1) + " kg after; a comparison is over the same carcasses");
        }
        List<String> levels = after.table().levels().stream()
                .filter(before.table().levels()::contains)
                .toList();
        if (levels.isEmpty()) {
            throw new IllegalArgumentException("the tables have no level in common: "
                    + before.table().levels() + " before, " + after.table().levels() + " after");
        }
        double lotKg = after.coldWeightKg();
        Rows rows = new Rows("g/kg", "kg");
        StringBuilder words =
                new StringBuilder("More or less than before in g per kg of cold weight and in kg of the lot.");
        double reach = 0;
        for (String level : levels) {
            rows.heading(Names.capital(level) + " level");
            words.append(' ').append(Names.capital(level)).append(" level:");
            int at = 0;
            for (Change change : changes(before, after, level)) {
                double kg = change.kg;
                double gPerKg = 1000 * kg / lotKg;
                reach = Math.max(reach, Math.abs(gPerKg));
                String said = Figures.signed(gPerKg, 2);
                String saidKg = Figures.signed(kg, Outturns.decimals(after));
                rows.row(
                        change.name,
                        List.of(said, saidKg),
                        (plot, centrePx) -> plot.bar(
                                gPerKg > 0 ? TableChanges.MORE : TableChanges.LESS,
                                Math.min(0, gPerKg),
                                Math.max(0, gPerKg),
                                centrePx));
                words.append(at++ == 0 ? " " : ", ")
                        .append(change.name)
                        .append(' ')
                        .append(said)
                        .append(" g/kg, ")
                        .append(saidKg)
                        .append(" kg");
            }
            words.append('.');
        }
        double shown = reach > 0 ? reach : EMPTY_REACH_G_PER_KG;
        Plot plot = rows.plot(
                "What another table changes for " + Outturns.what(after),
                List.of(
                        Outturns.subtitles(after).get(0),
                        "Before: " + Outturns.subtitles(before).get(1),
                        "After: " + Outturns.subtitles(after).get(1)),
                TableChanges.LEGEND,
                "g per kg of cold weight",
                roomPx -> Axis.around(shown, TICKS, roomPx));
        plot.uprightLine(Pen.line(Ink.STRONG, 1), 0);
        return plot.picture(words.toString());
    }

    private record Change(String name, double kg) {
        Change plus(Change other) {
            return new Change(name, kg + other.kg);
        }
    }

    /** Kg more than before, in the later table's order, then what only the earlier one has. */
    private static List<Change> changes(LotEstimate before, LotEstimate after, String level) {
        Map<String, Change> changes = new LinkedHashMap<>();
        for (CutLine line :
                after.lines(level).stream().filter(line -> line.kg() != 0).toList()) {
            changes.merge(line.code(), new Change(line.name(), line.kg()), Change::plus);
        }
        for (CutLine line :
                before.lines(level).stream().filter(line -> line.kg() != 0).toList()) {
            changes.merge(line.code(), new Change(line.name(), -line.kg()), Change::plus);
        }
        return List.copyOf(changes.values());
    }
}
