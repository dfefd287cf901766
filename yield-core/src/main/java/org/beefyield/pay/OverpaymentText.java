package org.beefyield.pay;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** Who was overpaid, in words. */
final class OverpaymentText {
    private static final List<PayCause> CAUSES = List.of(PayCause.values());
    private static final int KG_DECIMALS = 1;

    private static final String RULE =
            "Beside the hall: margin less what as many kg leave on the average of all carcasses here. Overpaid are those"
                    + " whose 90 % interval, of what will be weighed, errors in common cancelled, lies below 0: of a hundred"
                    + " that are paid what they are worth, five are named so by chance.";

    private final Overpayment overpayment;
    private final int decimals;
    private final String currency;

    OverpaymentText(Overpayment overpayment) {
        this.overpayment = overpayment;
        this.decimals = overpayment.valuer().prices().decimals();
        this.currency = overpayment.valuer().prices().currency();
    }

    private List<PaidBeside> overpaid() {
        return overpayment.suppliers().stream().filter(PaidBeside::isOverpaid).toList();
    }

    String sentence() {
        return overpayment
                .total()
                .map(total -> overpaid().size() + " of "
                        + Numbers.counted(overpayment.suppliers().size(), "supplier", "suppliers")
                        + " overpaid beside the hall's average margin of " + Numbers.fixed(total.perKg(), decimals + 1)
                        + " " + currency + " a kg")
                .orElse("no carcasses");
    }

    List<String> sentences() {
        List<PaidBeside> overpaid = overpaid();
        return overpaid.isEmpty()
                ? List.of("No supplier is overpaid beyond what chance makes.")
                : overpaid.stream().map(this::sentence).toList();
    }

    private String sentence(PaidBeside line) {
        Place place = place(line);
        StringBuilder text = new StringBuilder(line.name())
                .append(": ")
                .append(text(place, -line.beside()))
                .append(' ')
                .append(currency)
                .append(" overpaid beside the hall's average");
        Optional.ofNullable(line.interval())
                .ifPresent(interval -> text.append(" (90 % sure: ")
                        .append(text(place, -interval.high()))
                        .append(" to ")
                        .append(text(place, -interval.low()))
                        .append(')'));
        line.mainCause().ifPresent(cause -> {
            PayEffect effect = line.effect(cause);
            text.append(", mostly for ")
                    .append(causeWords(line, cause))
                    .append(": worth ")
                    .append(moreOrLess(place, effect.worth()))
                    .append(", paid ")
                    .append(moreOrLess(place, effect.paid()));
        });
        return text.append('.').toString();
    }

    private static String moreOrLess(Place place, double amount) {
        return text(place, Math.abs(amount)) + (amount < 0 ? " less" : " more");
    }

    /** The cause, or that the grid pays for it what it isn't worth. */
    private static String causeWords(PaidBeside line, PayCause cause) {
        return (line.effect(cause).isOfPrice() ? "the price of " : "") + cause.words();
    }

    private static String text(Place place, double amount) {
        return Numbers.grouped(place.text(amount));
    }

    private Place place(PaidBeside line) {
        return line.interval() == null
                ? Place.decimals(decimals)
                : line.interval().placeOfMoney(decimals);
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence()).sentences(sentences());
        if (overpayment.total().isEmpty()) {
            return blocks;
        }
        blocks.add(table("supplier", overpayment.suppliers()))
                .sentence(RULE)
                .add(effectTable())
                .sentence("A cause has what it takes from the worth less what it takes from the payment.")
                .add(table("grade", overpayment.grades()));
        if (!overpayment.gridChanges().isEmpty()) {
            blocks.add(changeTable())
                    .sentence(
                            "So much less a kg and these grades leave what the hall leaves on average; each by itself.");
        }
        return blocks.sentences(overpayment.grid().edgeWords()).sentence(Cautions.NO_SETTLEMENT);
    }

    private TextTable table(String heading, List<PaidBeside> lines) {
        boolean since = overpayment.baseline().isPresent();
        List<String> header = new ArrayList<>(List.of(
                heading,
                "head",
                "cold, kg",
                "margin, " + currency + " a kg",
                "beside the hall, " + currency,
                "90 %: low",
                "high",
                "overpaid for"));
        if (since) {
            header.add("a kg more than before");
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        Margin total = overpayment.total().orElseThrow();
        List<String> kg = Rounding.adding(
                lines.stream().mapToDouble(line -> line.margin().coldWeightKg()).toArray(),
                total.coldWeightKg(),
                KG_DECIMALS);
        for (int i = 0; i < lines.size(); i++) {
            PaidBeside line = lines.get(i);
            Place place = place(line);
            List<String> row = new ArrayList<>(row(line.name(), line.margin(), kg.get(i)));
            row.add(text(place, line.beside()));
            row.add(line.interval() == null ? "" : text(place, line.interval().low()));
            row.add(line.interval() == null ? "" : text(place, line.interval().high()));
            row.add(line.mainCause().map(cause -> causeWords(line, cause)).orElse(""));
            if (since) {
                row.add(line.changePerKg().stream()
                        .mapToObj(change -> Numbers.fixed(change, decimals + 1))
                        .findFirst()
                        .orElse(""));
            }
            table.row(row);
        }
        List<String> all = new ArrayList<>(row("Total", total, Numbers.fixed(total.coldWeightKg(), KG_DECIMALS)));
        all.addAll(List.of("", "", "", ""));
        if (since) {
            all.add(overpayment
                    .baseline()
                    .flatMap(Overpayment::total)
                    .map(before -> Numbers.fixed(total.perKg() - before.perKg(), decimals + 1))
                    .orElse(""));
        }
        return table.rule().row(all);
    }

    private List<String> row(String name, Margin margin, String kg) {
        return List.of(
                name,
                Long.toString(margin.carcasses()),
                Numbers.grouped(kg),
                Numbers.fixed(margin.perKg(), decimals + 1));
    }

    /** No cents where no supplier is sure to a unit. */
    private int effectDecimals(List<PaidBeside> lines) {
        return lines.stream().map(this::place).allMatch(MarginReportText::isWhole) ? 0 : decimals;
    }

    /** Suppliers down, causes across; adds up both ways, to nothing in all. */
    private TextTable effectTable() {
        List<PaidBeside> lines = overpayment.suppliers();
        double[][] parts = new double[lines.size()][CAUSES.size()];
        for (int i = 0; i < parts.length; i++) {
            for (int j = 0; j < CAUSES.size(); j++) {
                parts[i][j] = lines.get(i).effect(CAUSES.get(j)).amount();
            }
        }
        List<List<BigDecimal>> printed =
                Rounding.addingBothWays(parts, BigDecimal.ZERO.setScale(effectDecimals(lines)));
        List<Integer> columns = new ArrayList<>();
        for (int j = 0; j < CAUSES.size(); j++) {
            int column = j;
            if (printed.stream().anyMatch(row -> row.get(column).signum() != 0)) {
                columns.add(j);
            }
        }
        List<String> header = new ArrayList<>(List.of("beside the hall, " + currency + ", for"));
        columns.forEach(j -> header.add(CAUSES.get(j).words()));
        header.add("all");
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i <= lines.size(); i++) {
            boolean isTotal = i == lines.size();
            List<String> row =
                    new ArrayList<>(List.of(isTotal ? "Total" : lines.get(i).name()));
            List<BigDecimal> figures = printed.get(i);
            columns.forEach(j -> row.add(Numbers.grouped(figures.get(j).toPlainString())));
            row.add(Numbers.grouped(figures.get(CAUSES.size()).toPlainString()));
            (isTotal ? table.rule() : table).row(row);
        }
        return table;
    }

    private TextTable changeTable() {
        TextTable table = new TextTable(
                "overpaid grade",
                "change, " + currency + " a kg",
                "would have cost suppliers, " + currency,
                "most of it");
        for (GridChange change : overpayment.gridChanges()) {
            Map.Entry<String, Double> most = change.costs().entrySet().stream()
                    .max(Comparator.comparingDouble(Map.Entry::getValue))
                    .orElseThrow();
            Place place = overpayment.grades().stream()
                    .filter(line -> line.name().equals(Overpayment.words(change.grade())))
                    .findFirst()
                    .map(this::place)
                    .orElse(Place.decimals(decimals));
            table.row(
                    Overpayment.words(change.grade()),
                    Numbers.fixed(change.perKg(), decimals),
                    text(place, change.cost()),
                    most.getKey() + " " + text(place, most.getValue()));
        }
        return table;
    }

    Frame frame(Overpayment.By by) {
        List<PaidBeside> lines = by == Overpayment.By.SUPPLIER ? overpayment.suppliers() : overpayment.grades();
        Frame.Builder<PaidBeside> rows = Frame.ofEach(lines)
                .text("table", line -> overpayment.valuer().estimator().table().identity())
                .text(by == Overpayment.By.SUPPLIER ? "supplier" : "grade", PaidBeside::name)
                .number(
                        Column.number("carcasses").totalling(Total.SUM),
                        line -> line.margin().carcasses())
                .number("cold weight, kg", line -> line.margin().coldWeightKg())
                .number(money("value"), line -> line.margin().value())
                .number(money("paid"), line -> line.margin().paid())
                .number(money("margin"), line -> line.margin().amount())
                .number(money("beside the hall"), PaidBeside::beside)
                .number(money(Interval.SHOWN_LOW).totalling(Total.NONE), line -> end(line, Interval::low))
                .number(money(Interval.SHOWN_HIGH).totalling(Total.NONE), line -> end(line, Interval::high))
                .number(money("beyond the interval").totalling(Total.NONE), PaidBeside::beyond)
                .text(
                        "main cause",
                        line -> line.mainCause()
                                .map(cause -> causeWords(line, cause))
                                .orElse(""));
        for (PayCause cause : CAUSES) {
            rows.number(
                    money("worth more for " + cause.words()),
                    line -> line.effect(cause).worth());
            rows.number(
                    money("paid more for " + cause.words()),
                    line -> line.effect(cause).paid());
        }
        Column perKg =
                Column.number("margin a kg, " + currency + " a kg").totalling(Total.meanWeightedBy("cold weight"));
        rows.number(perKg, line -> line.margin().perKg());
        if (overpayment.baseline().isPresent()) {
            rows.number(
                    Column.number("change, " + currency + " a kg").totalling(Total.NONE),
                    line -> line.changePerKg().orElse(Double.NaN));
        }
        return rows.frame();
    }

    private Column money(String name) {
        return Column.number(name + ", " + currency).totalling(Total.SUM);
    }

    private static double end(PaidBeside line, ToDoubleFunction<Interval> end) {
        return line.interval() == null ? Double.NaN : end.applyAsDouble(line.interval());
    }
}
