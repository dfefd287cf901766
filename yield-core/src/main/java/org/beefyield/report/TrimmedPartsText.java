package org.beefyield.report;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.cut.Cut;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** What was trimmed, in words. */
final class TrimmedPartsText {
    private static final int DECIMALS = 1;

    private final TrimmedParts parts;

    TrimmedPartsText(TrimmedParts parts) {
        this.parts = parts;
    }

    String sentence() {
        double all = parts.trimmedKg().values().stream().mapToDouble(kg -> kg).sum();
        return Numbers.fixed(all, DECIMALS) + " kg trimmed off "
                + Numbers.counted(parts.carcasses(), "carcass", "carcasses")
                + (parts.trimmedKg().isEmpty()
                        ? ""
                        : ": "
                                + parts.trimmedKg().entrySet().stream()
                                        .map(entry -> entry.getKey().words() + " "
                                                + Numbers.fixed(entry.getValue(), DECIMALS))
                                        .collect(Collectors.joining(", ")));
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence());
        if (parts.corrections().values().stream().anyMatch(kg -> kg != 0)) {
            blocks.sentence(
                            "The estimates above go by the weights that were left, as if a little of every cut were gone. With"
                                    + " what was trimmed taken off the cuts of its region they change so:")
                    .add(table());
        }
        return parts.unplacedKg() > 0
                ? blocks.sentence(
                        Numbers.fixed(parts.unplacedKg(), DECIMALS)
                                + " kg of it can be taken off no cut, for the table doesn't say what lies where or doesn't serve the"
                                + " whole carcass, or the cuts there don't weigh as much: cuts may turn out lighter, by as much in all")
                : blocks;
    }

    private TextTable table() {
        List<Map.Entry<Cut, Double>> rows = List.copyOf(parts.corrections().entrySet());
        List<String> kg =
                Rounding.adding(rows.stream().mapToDouble(Map.Entry::getValue).toArray(), 0, DECIMALS);
        TextTable table = new TextTable(parts.level().orElse("") + " level", "correction, kg");
        for (int i = 0; i < rows.size(); i++) {
            table.row(rows.get(i).getKey().name(), kg.get(i));
        }
        return table.rule().row("Total", Numbers.fixed(0, DECIMALS));
    }

    Frame frame() {
        return Frame.ofEach(List.copyOf(parts.corrections().entrySet()))
                .text("level", row -> parts.level().orElse(""))
                .text("cut", row -> row.getKey().code())
                .number(Column.number("correction, kg").totalling(Total.SUM), Map.Entry::getValue)
                .frame();
    }
}
