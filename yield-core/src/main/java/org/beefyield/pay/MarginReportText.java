package org.beefyield.pay;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.price.PriceList;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A margin report in words. */
final class MarginReportText {
    private static final int KG_DECIMALS = 1;
    private static final Total BY_WEIGHT = Total.meanWeightedBy("cold weight");

    private final MarginReport report;

    MarginReportText(MarginReport report) {
        this.report = report;
    }

    private PriceList prices() {
        return report.valuer().prices();
    }

    Frame frame(MarginReport.By by) {
        return switch (by) {
            case CATEGORY ->
                frame(
                        report.byCategory(),
                        rows -> rows.text("category", Category::letter),
                        category -> report.interval(category, Interval.SHOWN_PROBABILITY));
            case SUPPLIER ->
                frame(
                        report.bySupplier(),
                        rows -> rows.text("supplier", supplier -> supplier),
                        supplier -> report.interval(supplier, Interval.SHOWN_PROBABILITY));
            case GRADE ->
                frame(
                        report.byGrade(),
                        rows -> rows.text("category", grade -> grade.category().letter())
                                .text(Column.text("conformation").of(Column.Type.CONFORMATION), GradeCell::conformation)
                                .text(
                                        Column.text("fat class").of(Column.Type.FAT_CLASS),
                                        grade -> Integer.toString(grade.fatClass())),
                        grade -> report.interval(grade, Interval.SHOWN_PROBABILITY));
        };
    }

    private <K> Frame frame(
            Map<K, Margin> margins, UnaryOperator<Frame.Builder<K>> heads, Function<K, Optional<Interval>> interval) {
        String currency = prices().currency();
        Function<K, Margin> margin = key -> Objects.requireNonNull(margins.get(key));
        Column perKg = Column.number("margin a kg, " + currency + " a kg").totalling(BY_WEIGHT);
        Column breakEven =
                Column.number("break-even price, " + currency + " a kg").totalling(BY_WEIGHT);
        return heads.apply(Frame.ofEach(List.copyOf(margins.keySet()))
                        .text(
                                "table",
                                key -> report.valuer().estimator().table().identity()))
                .number(
                        Column.number("carcasses").totalling(Total.SUM),
                        key -> margin.apply(key).carcasses())
                .number("cold weight, kg", key -> margin.apply(key).coldWeightKg())
                .number(money("value", Total.SUM), key -> margin.apply(key).value())
                .number(money("paid", Total.SUM), key -> margin.apply(key).paid())
                .number(money("margin", Total.SUM), key -> margin.apply(key).amount())
                .number(money(Interval.SHOWN_LOW, Total.NONE), key -> end(interval.apply(key), Interval::low))
                .number(money(Interval.SHOWN_HIGH, Total.NONE), key -> end(interval.apply(key), Interval::high))
                .number(perKg, key -> margin.apply(key).perKg())
                .number(breakEven, key -> margin.apply(key).breakEvenPerKg())
                .frame();
    }

    private Column money(String name, Total total) {
        return Column.number(name + ", " + prices().currency()).totalling(total);
    }

    private static double end(Optional<Interval> interval, ToDoubleFunction<Interval> end) {
        return interval.stream().mapToDouble(end).findFirst().orElse(Double.NaN);
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence()).sentences(report.intervalWords());
        tables().forEach(blocks::add);
        return blocks.sentences(report.grid().edgeWords()).sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        return report.total()
                .map(total -> total.carcasses() + (total.carcasses() == 1 ? " carcass" : " carcasses")
                        + ": margin "
                        + Numbers.grouped(report.interval(Interval.SHOWN_PROBABILITY)
                                .map(interval -> interval.placeOfMoney(prices().decimals())
                                        .text(total.amount()))
                                .orElseGet(() -> total.money().amountText()))
                        + " " + total.currency() + ", "
                        + Numbers.fixed(total.perKg(), prices().decimals() + 1) + " a kg"
                        + report.interval(Interval.SHOWN_PROBABILITY)
                                .map(this::sure)
                                .orElse(""))
                .orElse("no carcasses");
    }

    private String sure(Interval interval) {
        Place place = interval.placeOfMoney(prices().decimals());
        return "; 90 % sure, prices as given: " + Numbers.grouped(place.text(interval.low())) + " to "
                + Numbers.grouped(place.text(interval.high()));
    }

    private <K> TextTable table(
            String heading, Map<K, Margin> margins, Function<K, String> name, Function<K, Optional<Interval>> sure) {
        String currency = report.grid().currency();
        TextTable table = new TextTable(
                heading,
                "carcasses",
                "margin, " + currency,
                "90 % interval: low",
                "high",
                "margin, " + currency + " a kg",
                "break-even, " + currency + " a kg",
                "cold weight, kg",
                "value, " + currency,
                "paid, " + currency);
        List<Margin> lines = new ArrayList<>(margins.values());
        Margin total =
                lines.stream().reduce(Margin::plus).orElse(new Margin(0, 0, 0, 0, currency, prices().decimals()));
        int decimals = prices().decimals();
        List<BigDecimal> kg = column(lines, total, Margin::coldWeightKg, KG_DECIMALS);
        int unsure = unsure();
        List<BigDecimal> values = column(lines, total, Margin::value, unsure);
        List<BigDecimal> paid = column(lines, total, Margin::paid, unsure);
        int i = 0;
        for (K key : margins.keySet()) {
            table.row(row(
                    name.apply(key), lines.get(i), sure.apply(key), kg.get(i), values.get(i), paid.get(i), decimals));
            i++;
        }
        return table.rule()
                .row(row(
                        "Total",
                        total,
                        report.interval(Interval.SHOWN_PROBABILITY),
                        rounded(total.coldWeightKg(), KG_DECIMALS),
                        rounded(total.value(), unsure),
                        rounded(total.paid(), unsure),
                        decimals));
    }

    /** No cents where all together is sure to no unit: then all is in whole units, and adds up in these. */
    private int unsure() {
        return report.interval(Interval.SHOWN_PROBABILITY)
                .map(interval -> interval.placeOfMoney(prices().decimals()))
                .filter(MarginReportText::isWhole)
                .map(place -> 0)
                .orElse(prices().decimals());
    }

    /** Whether a place is that of units, or coarser. */
    static boolean isWhole(Place place) {
        return place.equals(place.coarser(Place.decimals(0)));
    }

    private static BigDecimal rounded(double figure, int decimals) {
        return BigDecimal.valueOf(figure).setScale(decimals, RoundingMode.HALF_UP);
    }

    private static List<BigDecimal> column(
            List<Margin> lines, Margin total, ToDoubleFunction<Margin> figure, int decimals) {
        return Rounding.figuresAdding(
                lines.stream().mapToDouble(figure).toArray(), figure.applyAsDouble(total), decimals);
    }

    /** The margin is that of the printed figures, so that it adds up both ways. */
    private static List<String> row(
            String name,
            Margin margin,
            Optional<Interval> sure,
            BigDecimal kg,
            BigDecimal value,
            BigDecimal paid,
            int decimals) {
        boolean none = margin.carcasses() == 0;
        return List.of(
                name,
                Long.toString(margin.carcasses()),
                Numbers.grouped(value.subtract(paid).toPlainString()),
                sure.map(interval ->
                                Numbers.grouped(interval.placeOfMoney(decimals).text(interval.low())))
                        .orElse(""),
                sure.map(interval ->
                                Numbers.grouped(interval.placeOfMoney(decimals).text(interval.high())))
                        .orElse(""),
                none ? "" : Numbers.fixed(margin.perKg(), decimals + 1),
                none ? "" : Numbers.fixed(margin.breakEvenPerKg(), decimals + 1),
                Numbers.grouped(kg.toPlainString()),
                Numbers.grouped(value.toPlainString()),
                Numbers.grouped(paid.toPlainString()));
    }

    private List<TextTable> tables() {
        return List.of(
                table(
                        "category",
                        report.byCategory(),
                        category -> category.plural() + " (" + category.letter() + ")",
                        category -> report.interval(category, Interval.SHOWN_PROBABILITY)),
                table(
                        "supplier",
                        report.bySupplier(),
                        name -> name,
                        name -> report.interval(name, Interval.SHOWN_PROBABILITY)),
                table(
                        "grade",
                        report.byGrade(),
                        GradeCell::words,
                        cell -> report.interval(cell, Interval.SHOWN_PROBABILITY)));
    }
}
