package org.beefyield.report;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.price.Factor;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A comparison of seasons or plants in words. */
final class ComparisonText {
    private static final String ALIKE =
            "At one mix of carcasses all are worth the same here, for they are cut and priced alike, and no boning runs of"
                    + " two or more say how they differ.";

    private static final String RULE =
            "At one mix: a kg of all these carcasses together, as each cuts and prices them, with what its runs weighed"
                    + " more than their carcasses explain, where that is known. A rank is a range where the 90 % intervals of"
                    + " the differences leave it open.";

    private final Comparison comparison;
    private final List<Compared> parts;
    private final String currency;
    private final int decimals;
    /** Whether anything is known that would tell two of them apart at one mix. */
    private final boolean told;

    ComparisonText(Comparison comparison) {
        this.comparison = comparison;
        this.parts = comparison.parts();
        this.currency = parts.get(0).valuer().prices().currency();
        this.decimals = parts.get(0).valuer().prices().decimals() + 1;
        this.told = comparison.tellsApart();
    }

    String sentence() {
        return parts.stream().map(Compared::name).collect(Collectors.joining(", ")) + ": worth "
                + parts.stream()
                        .map(part -> Numbers.fixed(part.value().perKg(), decimals))
                        .collect(Collectors.joining(", "))
                + " " + currency + " a kg";
    }

    Blocks blocks() {
        Blocks blocks =
                new Blocks().sentence(sentence()).add(carcasses()).add(money()).sentence(told ? RULE : ALIKE);
        for (int i = 1; i < parts.size(); i++) {
            blocks.sentence(comparison.attribution(i).sentence())
                    .sentences(comparison.attribution(i).intervalWords())
                    .add(comparison.attribution(i).factorTable())
                    .add(comparison.attribution(i).lineTable());
        }
        return blocks.sentence(Cautions.NO_SETTLEMENT).saidOnce(new HashSet<>());
    }

    private static double meanKg(LotEstimate lot) {
        return lot.coldWeightKg() / lot.carcasses();
    }

    private TextTable carcasses() {
        TextTable table = new TextTable(
                "carcasses", "head", "cold, kg", "kg a head", "conformation, 1 to 18", "fat, 1 to 15", "categories, %");
        for (Compared part : parts) {
            LotEstimate lot = part.lot();
            table.row(
                    part.name(),
                    Numbers.grouped(Long.toString(lot.carcasses())),
                    Numbers.grouped(Numbers.fixed(lot.coldWeightKg(), 1)),
                    Numbers.fixed(meanKg(lot), 1),
                    Numbers.fixed(lot.meanConformation(), 2),
                    Numbers.fixed(lot.meanFat(), 2),
                    lot.categories().entrySet().stream()
                            .map(entry -> entry.getKey().plural() + " "
                                    + Numbers.fixed(100.0 * entry.getValue() / lot.carcasses(), 0))
                            .collect(Collectors.joining(", ")));
        }
        return table;
    }

    private TextTable money() {
        if (!told) {
            TextTable table = new TextTable(currency + " a kg", "worth as it is", "at one mix");
            for (int i = 0; i < parts.size(); i++) {
                table.row(
                        parts.get(i).name(),
                        Numbers.fixed(parts.get(i).value().perKg(), decimals),
                        Numbers.fixed(comparison.atOneMixPerKg(i), decimals));
            }
            return table;
        }
        TextTable table = new TextTable(
                currency + " a kg",
                "worth as it is",
                "unexplained",
                "at one mix",
                "more than the first",
                "90 %: low",
                "high",
                "rank");
        for (int i = 0; i < parts.size(); i++) {
            Compared part = parts.get(i);
            Optional<Interval> more = comparison.atOneMixMore(i, 0);
            table.row(
                    part.name(),
                    Numbers.fixed(part.value().perKg(), decimals),
                    part.unexplained() == null ? "" : Numbers.fixed(part.unexplainedPerKg(), decimals),
                    Numbers.fixed(comparison.atOneMixPerKg(i), decimals),
                    i == 0 || more.isEmpty()
                            ? ""
                            : Numbers.fixed(comparison.atOneMixPerKg(i) - comparison.atOneMixPerKg(0), decimals),
                    i == 0 ? "" : end(more, Interval::low),
                    i == 0 ? "" : end(more, Interval::high),
                    comparison.rank(i).toString());
        }
        return table;
    }

    private String end(Optional<Interval> more, ToDoubleFunction<Interval> end) {
        return more.map(interval -> Numbers.fixed(end.applyAsDouble(interval), decimals))
                .orElse("");
    }

    private double end(int part, ToDoubleFunction<Interval> end) {
        return part == 0
                ? 0
                : comparison.atOneMixMore(part, 0).map(end::applyAsDouble).orElse(Double.NaN);
    }

    Frame frame() {
        String unit = currency + " a kg";
        Frame.Builder<Integer> rows = Frame.ofEach(
                        IntStream.range(0, parts.size()).boxed().toList())
                .text("table", i -> parts.get(i).lot().table().identity())
                .text("name", i -> parts.get(i).name())
                .text("specification", i -> parts.get(i).lot().specification().name())
                .number(
                        Column.number("carcasses").totalling(Total.SUM),
                        i -> parts.get(i).lot().carcasses())
                .number("cold weight, kg", i -> parts.get(i).lot().coldWeightKg())
                .number(
                        Column.number("mean weight, kg a head").totalling(Total.NONE),
                        i -> meanKg(parts.get(i).lot()))
                .number(
                        Column.number("conformation, points").totalling(Total.NONE),
                        i -> parts.get(i).lot().meanConformation())
                .number(
                        Column.number("fat, points").totalling(Total.NONE),
                        i -> parts.get(i).lot().meanFat())
                .number(none("worth, " + unit), i -> parts.get(i).value().perKg())
                .number(
                        none("unexplained, " + unit),
                        i -> parts.get(i).unexplained() == null
                                ? Double.NaN
                                : parts.get(i).unexplainedPerKg())
                .number(none("at one mix, " + unit), comparison::atOneMixPerKg)
                .number(
                        none("more than the first, " + unit),
                        i -> i > 0 && comparison.atOneMixMore(i, 0).isEmpty()
                                ? Double.NaN
                                : comparison.atOneMixPerKg(i) - comparison.atOneMixPerKg(0))
                .number(none(Interval.SHOWN_LOW + ", " + unit), i -> end(i, Interval::low))
                .number(none(Interval.SHOWN_HIGH + ", " + unit), i -> end(i, Interval::high))
                .number(none("best rank"), i -> comparison.rank(i).best())
                .number(none("worst rank"), i -> comparison.rank(i).worst());
        for (Factor factor : Factor.values()) {
            rows.number(
                    none("more for " + factor.words() + ", " + unit),
                    i -> i == 0 ? 0 : comparison.attribution(i).perKg(factor));
        }
        return rows.frame();
    }

    private static Column none(String header) {
        return Column.number(header).totalling(Total.NONE);
    }
}
