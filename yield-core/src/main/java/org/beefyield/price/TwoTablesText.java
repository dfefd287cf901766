package org.beefyield.price;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** Two tables on the same carcasses, in words. */
final class TwoTablesText {
    private static final int DECIMALS = 2;
    private static final int COLD_DECIMALS = 1;
    /** Smaller differences would print as 0 kg. */
    private static final double LEAST_KG = 0.005;

    private static final String NONE = "-";

    private TwoTablesText() {}

    static String line(TwoTables both) {
        int changed = both.changed().size();
        return carcasses(both.before().carcasses()) + " under "
                + both.after().table().identity() + " and "
                + both.before().table().identity() + ": " + changed
                + (changed == 1 ? " figure differs" : " figures differ");
    }

    private static String carcasses(long count) {
        return Numbers.counted(count, "carcass", "carcasses");
    }

    static Frame frame(TwoTables both) {
        List<TwoTables.Line> lines = new ArrayList<>(both.changed());
        lines.addAll(both.equal());
        Frame.Builder<TwoTables.Line> rows = Frame.ofEach(lines)
                .text("table before", line -> both.before().table().identity())
                .text("table after", line -> both.after().table().identity())
                .text("level", TwoTables.Line::level)
                .text("cut", TwoTables.Line::code)
                // levels hold the same meat several times
                .number(Column.number("before, kg").totalling(Total.NONE), line -> known(line.beforeKg()))
                .number(Column.number("after, kg").totalling(Total.NONE), line -> known(line.afterKg()))
                .number(Column.number("more, kg").totalling(Total.NONE), TwoTables.Line::differenceKg);
        both.beforeValue()
                .map(Value::currency)
                .ifPresent(currency -> rows.number("worth before, " + currency, line -> known(line.beforeAmount()))
                        .number("worth after, " + currency, line -> known(line.afterAmount()))
                        .number("worth more, " + currency, line -> known(line.differenceAmount())));
        return rows.frame();
    }

    private static double known(@Nullable Double figure) {
        return figure == null ? Double.NaN : figure;
    }

    static Blocks blocks(TwoTables both) {
        Blocks blocks = new Blocks()
                .sentence(carcasses(both.before().carcasses()) + ", "
                        + Numbers.fixed(both.before().coldWeightKg(), COLD_DECIMALS) + " kg cold, under two tables")
                .sentence("Before: " + named(both.before()))
                .sentence("After: " + named(both.after()));
        List<TwoTables.Line> shown =
                both.changed().stream().filter(TwoTablesText::isShown).toList();
        List<TwoTables.Line> small =
                both.changed().stream().filter(line -> !isShown(line)).toList();
        if (both.changed().isEmpty()) {
            blocks.sentence("Every cut comes out alike");
        }
        if (!shown.isEmpty()) {
            blocks.add(table(both, shown));
        }
        if (!small.isEmpty()) {
            blocks.sentence("Other by less than " + Numbers.exact(LEAST_KG) + " kg: " + byLevel(small));
        }
        if (!both.equal().isEmpty() && !both.changed().isEmpty()) {
            blocks.sentence("Equal under both: " + byLevel(both.equal()));
        }
        long refused = both.refusedByBoth() + both.refusedBeforeOnly() + both.refusedAfterOnly();
        if (refused > 0) {
            blocks.sentence("Not in it, for a table refuses them: " + carcasses(refused)
                    + "; the table before alone refuses "
                    + both.refusedBeforeOnly() + ", the table after alone " + both.refusedAfterOnly() + ", both "
                    + both.refusedByBoth());
        }
        return blocks.sentence(
                "Two tables on the same carcasses share the carcasses, not the errors: their difference has no interval");
    }

    private static String named(LotEstimate lot) {
        String specification = lot.specification().name();
        return "table " + lot.table().identity()
                + (specification.isEmpty() ? "" : ", cutting specification " + specification);
    }

    private static boolean isShown(TwoTables.Line line) {
        Double amount = line.differenceAmount();
        return Math.abs(line.differenceKg()) >= LEAST_KG
                || line.beforeKg() == null
                || line.afterKg() == null
                // mince of another fat content has another price
                || (amount != null && Math.abs(amount) >= LEAST_KG);
    }

    private static TextTable table(TwoTables both, List<TwoTables.Line> shown) {
        Value before = both.beforeValue().orElse(null);
        Value after = both.afterValue().orElse(null);
        List<String> header =
                new ArrayList<>(List.of("cut", "level", "before, kg", "after, kg", "difference, kg", "difference, %"));
        if (before == null || after == null) {
            TextTable table = new TextTable(header.toArray(String[]::new));
            shown.forEach(line -> table.row(kgCells(line)));
            return table;
        }
        String currency = before.currency();
        header.addAll(List.of("before, " + currency, "after, " + currency, "difference, " + currency));
        TextTable table = new TextTable(header.toArray(String[]::new));
        int decimals = before.prices().decimals();
        List<BigDecimal> more = differences(both, shown, decimals);
        for (int i = 0; i < shown.size(); i++) {
            TwoTables.Line line = shown.get(i);
            List<String> cells = kgCells(line);
            cells.add(amount(line.beforeAmount(), decimals));
            cells.add(amount(line.afterAmount(), decimals));
            cells.add(line.differenceAmount() == null ? "" : signed(more.get(i)));
            table.row(cells);
        }
        BigDecimal other = more.get(shown.size());
        if (other.signum() != 0) {
            table.row("All else", "", "", "", "", "", "", "", signed(other));
        }
        return table.rule()
                .row(
                        "Worth in all",
                        "",
                        "",
                        "",
                        "",
                        "",
                        before.money().amountText(),
                        after.money().amountText(),
                        signed(after.money().amount().subtract(before.money().amount())));
    }

    /** What each line is worth more, and last all that isn't shown, rounded so that they add up to the difference of the values. */
    private static List<BigDecimal> differences(TwoTables both, List<TwoTables.Line> shown, int decimals) {
        double whole = both.difference()
                .map(difference -> difference.amount().doubleValue())
                .orElse(0.0);
        double[] parts = new double[shown.size() + 1];
        double sum = 0;
        int largest = 0;
        for (int i = 0; i < shown.size(); i++) {
            Double more = shown.get(i).differenceAmount();
            parts[i] = more == null ? 0 : more;
            sum += parts[i];
            largest = Math.abs(parts[i]) > Math.abs(parts[largest]) ? i : largest;
        }
        double rest = whole - sum;
        // the values are rounded, each by half a unit at most
        boolean isRounding = Math.abs(rest) <= Math.pow(10, -decimals);
        parts[isRounding ? largest : shown.size()] += rest;
        return Rounding.figuresAdding(parts, whole, decimals);
    }

    private static List<String> kgCells(TwoTables.Line line) {
        Double percent = line.differencePercent();
        return new ArrayList<>(List.of(
                line.name(),
                line.level(),
                kg(line.beforeKg()),
                kg(line.afterKg()),
                Numbers.signed(line.differenceKg(), DECIMALS),
                percent == null ? NONE : Numbers.signed(percent, DECIMALS)));
    }

    private static String kg(@Nullable Double kg) {
        return kg == null ? NONE : Numbers.fixed(kg, DECIMALS);
    }

    private static String amount(@Nullable Double amount, int decimals) {
        return amount == null ? "" : Numbers.fixed(amount, decimals);
    }

    private static String signed(BigDecimal amount) {
        return (amount.signum() < 0 ? "" : "+") + amount.toPlainString();
    }

    private static String byLevel(List<TwoTables.Line> lines) {
        Map<String, List<String>> byLevel = new LinkedHashMap<>();
        lines.forEach(line -> byLevel.computeIfAbsent(line.level(), level -> new ArrayList<>())
                .add(line.code()));
        List<String> parts = new ArrayList<>();
        byLevel.forEach((level, codes) -> parts.add("at " + level + " level " + String.join(", ", codes)));
        return String.join("; ", parts);
    }
}
