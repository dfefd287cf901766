package org.beefyield.price;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** An attribution in words; its figures are rounded so that they add up. */
final class AttributionText {
    private static final List<Factor> FACTORS = List.of(Factor.values());
    private static final int KG_DECIMALS = 3;
    private static final int SAID_KG_DECIMALS = 1;
    private static final int SAID_MEAT_KINDS = 2;

    private static final String RULE = "What factors do together is shared equally between them, whatever the order in"
            + " which they change; figures are rounded so that rows and columns add up.";

    private final Attribution attribution;
    private final List<List<BigDecimal>> printedAmounts;
    private final List<List<BigDecimal>> printedKg;
    /** By factor what it does to the value of a kg, behind them all together. */
    private final List<BigDecimal> printedPerKg;

    AttributionText(Attribution attribution) {
        this.attribution = attribution;
        this.printedAmounts = Rounding.addingBothWays(
                matrix(attribution.lines().size()), attribution.money().amount());
        BigDecimal kg = rounded(meanKg(attribution.first()), KG_DECIMALS)
                .subtract(rounded(meanKg(attribution.second()), KG_DECIMALS));
        this.printedKg = Rounding.addingBothWays(matrix(0), kg);
        double[] perKg = FACTORS.stream().mapToDouble(attribution::perKg).toArray();
        this.printedPerKg = Rounding.addingBothWays(
                        new double[][] {perKg}, perKg(attribution.first()).subtract(perKg(attribution.second())))
                .get(0);
    }

    private BigDecimal perKg(Value value) {
        return rounded(value.perKg(), attribution.first().prices().decimals() + 1);
    }

    /** What a kg is worth more, where the two weigh differently, so that weight has a part in the money. */
    private List<String> byTheKg() {
        if (meanKg(attribution.first()) == meanKg(attribution.second())) {
            return List.of();
        }
        BigDecimal more = printedPerKg.get(FACTORS.size());
        String unit = attribution.first().currency() + " a kg";
        String parts = FACTORS.stream()
                .filter(factor -> perKg(factor).signum() != 0)
                .sorted(Comparator.comparing((Factor factor) -> perKg(factor).abs(), Comparator.reverseOrder()))
                .map(factor -> moreOrLess(perKg(factor), "") + " for " + factor.words())
                .collect(Collectors.joining(", "));
        return List.of("By the kg cold it is worth "
                + (more.signum() == 0 ? "as much" : moreOrLess(more, " " + unit))
                + (parts.isEmpty() ? "" : ": " + parts) + ".");
    }

    private BigDecimal perKg(Factor factor) {
        return printedPerKg.get(FACTORS.indexOf(factor));
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence()).sentences(byTheKg()).sentences(interval());
        tables().forEach(blocks::add);
        return (said().size() > 1 ? blocks.sentence(RULE) : blocks).sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        List<Factor> said = said();
        StringBuilder text = new StringBuilder(Names.capital(describe(attribution.first(), "first", false)))
                .append(" is worth ")
                .append(comparison(attribution.money()))
                .append(describe(attribution.second(), "second", true));
        if (said.size() == 1) {
            text.append(", all of it for ").append(said.get(0).words());
        } else if (said.size() > 1) {
            text.append(": ")
                    .append(said.stream()
                            .map(factor -> moreOrLess(printedAmount(factor), "") + " for " + factor.words())
                            .collect(Collectors.joining(", ")));
        }
        List<String> kinds = kinds();
        if (!said.isEmpty() && !kinds.isEmpty()) {
            text.append(said.size() == 1 ? ": " : "; ").append(String.join(", ", kinds));
        }
        return text.append('.').toString();
    }

    /** How sure the difference is, and what that holds. */
    List<String> interval() {
        return attribution
                .uncertainty()
                .map(difference -> {
                    Interval interval = difference.expectedInterval(Interval.SHOWN_PROBABILITY);
                    Place place =
                            interval.placeOfMoney(attribution.first().prices().decimals());
                    List<String> sentences = new ArrayList<>();
                    sentences.add("90 % sure, prices as given: " + range(place, interval));
                    sentences.addAll(difference.expectedIntervalWords());
                    sentences.add(weighed(difference.interval(Interval.SHOWN_PROBABILITY)));
                    return sentences;
                })
                .orElse(List.of(
                        "the difference has no interval: the two were estimated with other scales or other parts of the"
                                + " uncertainty"));
    }

    /** What these very carcasses may show: chance may turn a small difference round. */
    private String weighed(Interval interval) {
        Place place = interval.placeOfMoney(attribution.first().prices().decimals());
        return "Weighed, these very carcasses: " + range(place, interval) + " a head"
                + (interval.contains(0) ? ", so that either may turn out to be worth more" : "");
    }

    private static String range(Place place, Interval interval) {
        String low = Numbers.grouped(place.text(Math.abs(interval.low())));
        String high = Numbers.grouped(place.text(Math.abs(interval.high())));
        if (interval.high() <= 0) {
            return "from " + high + " to " + low + " less";
        }
        return "from " + low + (interval.low() < 0 ? " less" : "") + " to " + high + " more";
    }

    TextTable factorTable() {
        String currency = attribution.first().currency();
        TextTable table = new TextTable("reason", currency + " a head", currency + " a kg");
        table.row(
                Names.capital(describe(attribution.second(), "second", false)),
                Numbers.grouped(attribution.money(attribution.second()).amountText()),
                perKg(attribution.second()).toPlainString());
        FACTORS.stream()
                .filter(factor ->
                        printedAmount(factor).signum() != 0 || perKg(factor).signum() != 0)
                .sorted(Comparator.comparing(
                        (Factor factor) -> printedAmount(factor).abs(), Comparator.reverseOrder()))
                .forEach(factor -> table.row(
                        factor.words(),
                        grouped(printedAmount(factor)),
                        perKg(factor).toPlainString()));
        return table.rule()
                .row(
                        Names.capital(describe(attribution.first(), "first", false)),
                        Numbers.grouped(attribution.money(attribution.first()).amountText()),
                        perKg(attribution.first()).toPlainString());
    }

    TextTable lineTable() {
        TextTable table =
                new TextTable("more in the first", "kg", attribution.first().currency());
        int total = FACTORS.size();
        for (int i = 0; i < attribution.lines().size(); i++) {
            table.row(
                    attribution.lines().get(i).name(),
                    attribution.lines().get(i).code().isEmpty()
                            ? ""
                            : grouped(printedKg.get(i).get(total)),
                    grouped(printedAmounts.get(i).get(total)));
        }
        return table.rule()
                .row(
                        "Total",
                        grouped(printedKg.get(attribution.lines().size()).get(total)),
                        grouped(printedAmounts.get(attribution.lines().size()).get(total)));
    }

    TextTable amountTable() {
        return matrixTable(attribution.first().currency() + " for", printedAmounts);
    }

    TextTable kgTable() {
        return matrixTable("kg for", printedKg);
    }

    private TextTable matrixTable(String heading, List<List<BigDecimal>> printed) {
        List<Factor> columns = FACTORS.stream()
                .filter(factor -> printed.stream()
                        .anyMatch(row -> row.get(FACTORS.indexOf(factor)).signum() != 0))
                .toList();
        List<String> header = new ArrayList<>(List.of(heading));
        columns.forEach(factor -> header.add(factor.words()));
        header.add("total");
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i <= attribution.lines().size(); i++) {
            boolean total = i == attribution.lines().size();
            if (!total && attribution.lines().get(i).code().isEmpty() && printed.equals(printedKg)) {
                continue;
            }
            List<String> row = new ArrayList<>(
                    List.of(total ? "Total" : attribution.lines().get(i).name()));
            for (Factor factor : columns) {
                row.add(grouped(printed.get(i).get(FACTORS.indexOf(factor))));
            }
            row.add(grouped(printed.get(i).get(FACTORS.size())));
            (total ? table.rule() : table).row(row);
        }
        return table;
    }

    private List<TextTable> tables() {
        List<TextTable> tables = new ArrayList<>(List.of(factorTable(), lineTable()));
        if (said().size() > 1) {
            tables.add(amountTable());
            tables.add(kgTable());
        }
        return tables;
    }

    /** Lines down, factors across: kg from 0, amounts from the number of lines. */
    private double[][] matrix(int from) {
        double[][] matrix = new double[attribution.lines().size()][FACTORS.size()];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < FACTORS.size(); j++) {
                matrix[i][j] = attribution.effect(FACTORS.get(j))[from + i];
            }
        }
        return matrix;
    }

    private static String grouped(BigDecimal figure) {
        return Numbers.grouped(figure.toPlainString());
    }

    private static BigDecimal rounded(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    }

    Money money(Factor factor) {
        return Money.of(printedAmount(factor), attribution.first().currency());
    }

    private BigDecimal printedAmount(Factor factor) {
        return printedAmounts.get(attribution.lines().size()).get(FACTORS.indexOf(factor));
    }

    /** Factors that come to anything as printed, largest first. */
    private List<Factor> said() {
        return FACTORS.stream()
                .filter(factor -> printedAmount(factor).signum() != 0)
                .sorted(Comparator.comparing(
                        (Factor factor) -> printedAmount(factor).abs(), Comparator.reverseOrder()))
                .toList();
    }

    private String comparison(Money money) {
        return money.signum() == 0 ? "as much as " : moreOrLess(money.amount(), " " + money.currency()) + " than ";
    }

    private static String moreOrLess(BigDecimal figure, String unit) {
        return grouped(figure.abs()) + unit + (figure.signum() < 0 ? " less" : " more");
    }

    private String describe(Value value, String place, boolean referring) {
        StringBuilder text = new StringBuilder();
        boolean sameKg = meanKg(attribution.first()) == meanKg(attribution.second());
        if (value.outturn() instanceof YieldEstimate estimate) {
            Carcass carcass = estimate.carcass();
            text.append("the ")
                    .append(carcass.conformation())
                    .append(' ')
                    .append(carcass.fatClass())
                    .append(' ')
                    .append(carcass.category().name().toLowerCase(Locale.ROOT).replace('_', ' '))
                    .append(carcass.id().map(id -> " " + id).orElse(""));
        } else {
            text.append("a head of ")
                    .append(name(value).orElse("the " + place + " lot"))
                    .append(" (")
                    .append(value.head())
                    .append(" head)");
        }
        if (!sameKg || referring) {
            text.append(sameKg ? " of the same " : " of ").append(saidKg(value));
        }
        if (effectOf(Factor.CUTTING)) {
            YieldEstimator estimator = value.estimator();
            text.append(" cut as ")
                    .append(estimator.specification())
                    .append(estimator
                            .minceTarget()
                            .map(target -> " with " + target)
                            .orElse(""));
        }
        if (effectOf(Factor.PRICE)) {
            text.append(" at the ").append(place).append(" prices");
        }
        return text.toString();
    }

    private static Optional<String> name(Value value) {
        return value.outturn() instanceof LotEstimate lot ? lot.name() : Optional.empty();
    }

    private static double meanKg(Value value) {
        return value.outturn().coldWeightKg() / value.head();
    }

    private static String saidKg(Value value) {
        return value.outturn() instanceof YieldEstimate
                ? Numbers.brief(meanKg(value)) + " kg"
                : Numbers.fixed(meanKg(value), SAID_KG_DECIMALS) + " kg on average";
    }

    private boolean effectOf(Factor factor) {
        return Arrays.stream(attribution.effect(factor)).anyMatch(part -> part != 0);
    }

    Frame frame() {
        List<Attribution.Line> lines = attribution.lines();
        String unit = attribution.first().currency() + " a head";
        Frame.Builder<Integer> rows = Frame.ofEach(
                        IntStream.range(0, lines.size()).boxed().toList())
                .text("table", row -> attribution.first().outturn().table().identity())
                .text("line", row -> lines.get(row).name())
                .text("cut", row -> lines.get(row).code())
                .number(adding("more, kg a head"), row -> lines.get(row).kg())
                .number(adding("worth more, " + unit), row -> lines.get(row).amount());
        for (Factor factor : Factor.values()) {
            double[] effect = attribution.effect(factor);
            rows.number(adding(factor.words() + ", " + unit), row -> effect[lines.size() + row]);
        }
        return rows.frame();
    }

    private static Column adding(String header) {
        return Column.number(header).totalling(Total.SUM);
    }

    /** The kinds of meat that make most of the money, and of fat trim and bone the one that differs most. */
    private List<String> kinds() {
        Map<CutKind, Double> kg = new EnumMap<>(CutKind.class);
        Map<CutKind, Double> amounts = new EnumMap<>(CutKind.class);
        for (Attribution.Line line : attribution.lines()) {
            if (!line.code().isEmpty()) {
                CutKind kind = kind(line.code());
                kg.merge(kind, line.kg(), Double::sum);
                amounts.merge(kind, line.amount(), Double::sum);
            }
        }
        Stream<CutKind> meat = kg.keySet().stream()
                .filter(kind -> kind != CutKind.FAT_TRIM && kind != CutKind.BONE && kind != CutKind.LOSS)
                .sorted(Comparator.comparingDouble(kind -> -Math.abs(amounts.getOrDefault(kind, 0.0))))
                .limit(SAID_MEAT_KINDS);
        Stream<CutKind> other = Stream.of(CutKind.FAT_TRIM, CutKind.BONE)
                .filter(kg::containsKey)
                .sorted(Comparator.comparingDouble(kind -> -Math.abs(kg.getOrDefault(kind, 0.0))))
                .limit(1);
        return Stream.concat(meat, other)
                .map(kind -> Map.entry(kind, rounded(kg.getOrDefault(kind, 0.0), SAID_KG_DECIMALS)))
                .filter(entry -> entry.getValue().signum() != 0)
                .map(entry -> moreOrLess(entry.getValue(), " kg") + " " + words(entry.getKey()))
                .toList();
    }

    private CutKind kind(String code) {
        return attribution
                .first()
                .outturn()
                .table()
                .catalogue()
                .find(code)
                .map(Cut::kind)
                .orElse(CutKind.MINCE);
    }

    private static String words(CutKind kind) {
        return switch (kind) {
            case STEAK -> "steaks";
            case JOINT -> "joints";
            case PRIMAL -> "primal cuts";
            case MEAT, DICE, LEAN_TRIM, MINCE, FAT_TRIM, BONE, LOSS ->
                kind.code().replace('-', ' ');
        };
    }
}
