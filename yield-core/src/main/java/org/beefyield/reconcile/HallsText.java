package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.TextTable;

/** Halls in words. */
final class HallsText {
    private final Halls halls;

    HallsText(Halls halls) {
        this.halls = halls;
    }

    String sentence() {
        return halls.seasons().size() + " halls: "
                + String.join(", ", halls.seasons().stream().map(Season::hall).toList());
    }

    Blocks blocks() {
        return new Blocks()
                .sentence(sentence())
                .add(effectTable())
                .add(hallTable())
                .sentence("A hall's own figures are drawn towards those of all halls, the more the less its runs tell");
    }

    TextTable effectTable() {
        TextTable table = new TextTable(
                "g per kg of intake",
                "runs",
                "weighed less expected",
                "90 % interval: low",
                "high",
                "SD from hall to hall",
                "low",
                "high",
                "SD from run to run");
        for (HallEffect effect : halls.effects()) {
            table.row(
                    effect.group(),
                    Integer.toString(effect.runs()),
                    Headers.g(effect.mean()),
                    Headers.g(effect.meanBounds().low()),
                    Headers.g(effect.meanBounds().high()),
                    Headers.g(effect.hallSd()),
                    Headers.g(effect.hallSdBounds().low()),
                    Headers.g(effect.hallSdBounds().high()),
                    Headers.g(effect.runSd()));
        }
        return table;
    }

    TextTable hallTable() {
        List<String> header = new ArrayList<>(List.of("weighed less expected, g per kg of intake"));
        halls.seasons().forEach(season -> header.add(season.hall()));
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (HallEffect effect : halls.effects()) {
            List<String> row = new ArrayList<>(List.of(effect.group()));
            effect.ofHalls().values().forEach(mean -> row.add(Headers.g(mean)));
            table.row(row);
        }
        return table;
    }

    /**
     * A group in a hall.
     *
     * @param effect effect
     * @param hall name of the hall
     */
    private record Row(HallEffect effect, String hall) {}

    Frame frame() {
        List<Row> rows = halls.effects().stream()
                .flatMap(effect -> effect.ofHalls().keySet().stream().map(hall -> new Row(effect, hall)))
                .toList();
        return Frame.ofEach(rows)
                .text("group", row -> row.effect().group())
                .text("hall", Row::hall)
                .number(
                        gPerKg("weighed less expected"),
                        row -> row.effect().ofHalls().getOrDefault(row.hall(), Double.NaN))
                .number(gPerKg("mean of halls"), row -> row.effect().mean())
                .number(gPerKg("SD from hall to hall"), row -> row.effect().hallSd())
                .number(gPerKg("SD from run to run"), row -> row.effect().runSd())
                .frame();
    }

    private static Column gPerKg(String name) {
        return Headers.plain(name + ", g per kg");
    }
}
