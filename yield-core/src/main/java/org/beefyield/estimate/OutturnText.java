package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** An outturn in words. */
final class OutturnText {
    private OutturnText() {}

    static Blocks blocks(Outturn outturn) {
        Blocks blocks = new Blocks().sentence(outturn.title());
        blocks.sentence("Table " + outturn.table().identity()
                + (outturn.specification().name().isEmpty()
                        ? ""
                        : ", cutting specification " + outturn.specification()));
        outturn.table().levels().forEach(level -> blocks.add(outturn.levelTable(level, outturn.decimals())));
        for (String name : outturn.table().quarterings()) {
            Quarters quarters = outturn.quarters(name);
            List<String> kg = Rounding.adding(
                    new double[] {quarters.foreKg(), quarters.hindKg()}, outturn.coldWeightKg(), outturn.decimals());
            blocks.sentence(
                    "Quarters (" + name + "): forequarters " + kg.get(0) + " kg, hindquarters " + kg.get(1) + " kg");
        }
        outturn.notes().forEach(note -> blocks.sentence("Note: " + note));
        return blocks.sentences(Cautions.of(outturn.table()));
    }

    static TextTable levelTable(Outturn outturn, String level, int decimals, Function<Cut, String> name) {
        List<CutLine> lines =
                outturn.lines(level).stream().filter(line -> line.kg() != 0).toList();
        List<String> kg =
                Rounding.adding(lines.stream().mapToDouble(CutLine::kg).toArray(), outturn.coldWeightKg(), decimals);
        List<String> percent = Rounding.adding(
                lines.stream().mapToDouble(line -> 100 * line.share()).toArray(), 100, 1);
        boolean intervals = outturn.showsIntervals();
        List<String> header = new ArrayList<>(List.of(level + " level", "kg", "% of cold weight"));
        List<String> total =
                new ArrayList<>(List.of("Total", Numbers.fixed(outturn.coldWeightKg(), decimals), "100.0"));
        if (intervals) {
            header.addAll(List.of("90 % sure: from kg", "to kg"));
            total.addAll(List.of("", ""));
        }
        TextTable text = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i < lines.size(); i++) {
            List<String> row = new ArrayList<>(List.of(name.apply(lines.get(i).cut()), kg.get(i), percent.get(i)));
            if (intervals) {
                Interval interval = lines.get(i).interval(Interval.SHOWN_PROBABILITY);
                row.add(Numbers.fixed(interval.low(), decimals));
                row.add(Numbers.fixed(interval.high(), decimals));
            }
            text.row(row);
        }
        return text.rule().row(total);
    }

    static TextTable kindTable(List<? extends Outturn> outturns, int decimals) {
        List<CutKind> kinds = Arrays.stream(CutKind.values())
                .filter(kind -> outturns.stream().anyMatch(outturn -> outturn.kg(kind) != 0))
                .toList();
        List<String> header = new ArrayList<>(List.of("kind"));
        List<List<String>> columns = new ArrayList<>();
        List<String> totals = new ArrayList<>(List.of("Total"));
        for (Outturn outturn : outturns) {
            header.add(outturn.specification() + " kg");
            columns.add(Rounding.adding(
                    kinds.stream().mapToDouble(outturn::kg).toArray(), outturn.coldWeightKg(), decimals));
            totals.add(Numbers.fixed(outturn.coldWeightKg(), decimals));
        }
        TextTable text = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i < kinds.size(); i++) {
            List<String> row = new ArrayList<>(List.of(kinds.get(i).code()));
            for (List<String> column : columns) {
                row.add(column.get(i));
            }
            text.row(row);
        }
        return text.rule().row(totals);
    }
}
