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
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * Why one carcass, or a head of one lot, is worth more than another: the difference in value shared out to weight,
 * category, conformation, fat class, cutting and prices, by cut and in total. Immutable.
 *
 * <p>The rule: let the second carcass become the first by changing one factor after the other, note what each change adds,
 * and take the mean over every order in which that can be done. It is the one rule by which the parts add up to the whole
 * difference, a factor that changes nothing gets nothing, two factors that do the same get the same, and the value of two
 * price lists together is the sum of the two (L. S. Shapley, "A value for n-person games", Contributions to the Theory of
 * Games II, Annals of Mathematics Studies 28, 1953, 307-317). What two factors do together, such as the better shape of the
 * heavier carcass, is thereby shared equally between them. When the two change places every part changes its sign.
 *
 * <p>Of lots the same is done per head for the average carcass of each: its mean conformation, fat class and cold weight, in
 * each category by its share of the heads. What the averages don't show, how grades and weights are spread and go together
 * within each lot, is the part called mix, so that the parts add up to the difference of the lots themselves.
 */
public final class Attribution implements ShownInBlocks {
    private static final List<Factor> FACTORS = List.of(Factor.values());
    private static final int KG_DECIMALS = 3;
    private static final int SAID_KG_DECIMALS = 1;
    private static final int SAID_MEAT_KINDS = 2;

    private static final String RULE = "What factors do together is shared equally between them, whatever the order in"
            + " which they change; figures are rounded so that rows and columns add up.";

    private final Value first;
    private final Value second;
    private final int decimals;
    private final List<Line> lines;
    private final Map<Factor, double[]> effects;
    private final List<List<String>> printedAmounts;
    private final List<List<String>> printedKg;

    /** What a difference is shared out to. */
    public enum Factor {
        /** Cold weight. */
        WEIGHT("weight"),
        /** Category; of lots the share of each. */
        CATEGORY("category"),
        /** Conformation; of lots its mean. */
        CONFORMATION("conformation"),
        /** Fat class; of lots its mean. */
        FAT_CLASS("fat class"),
        /** Cutting specification and mince. */
        CUTTING("cutting"),
        /** Prices and other income and cost. */
        PRICE("prices"),
        /** Of lots, what their averages don't show. */
        MIX("mix of grades and weights");

        private final String words;

        Factor(String words) {
            this.words = words;
        }

        /**
         * The factor in words.
         *
         * @return such as {@code fat class}
         */
        public String words() {
            return words;
        }
    }

    /**
     * How much more of a cut, or of other income or cost, there is in the first than in the second.
     *
     * @param name name for people
     * @param code code of the cut; empty for income and cost beside the cuts
     * @param kg kg of the cut, per head; 0 for income and cost beside the cuts
     * @param amount amount per head, below 0 for less
     */
    public record Line(String name, String code, double kg, double amount) {}

    private Attribution(Value first, Value second, List<Line> lines, Map<Factor, double[]> effects) {
        this.first = first;
        this.second = second;
        this.decimals = Math.max(
                first.valuer().prices().decimals(), second.valuer().prices().decimals());
        this.lines = lines;
        this.effects = effects;
        this.printedAmounts = Rounding.addingBothWays(matrix(lines.size()), money());
        BigDecimal kg = rounded(meanKg(first), KG_DECIMALS).subtract(rounded(meanKg(second), KG_DECIMALS));
        this.printedKg = Rounding.addingBothWays(matrix(0), kg);
    }

    /**
     * Shares out how much more the first is worth than the second, per head.
     *
     * @param first value of an estimated carcass or lot
     * @param second value of another from the same table at the same level and in the same currency; cutting, mince and
     *     prices may differ
     * @return the parts
     * @throws IllegalArgumentException if table, level or currency differ, a value is that of a drawn carcass, or cutting
     *     and prices differ and one price list has no price for what the other's cutting yields
     */
    public static Attribution of(Value first, Value second) {
        Valuer ours = first.valuer();
        Valuer theirs = second.valuer();
        if (!ours.estimator().table().equals(theirs.estimator().table())
                || !ours.level().equals(theirs.level())) {
            throw new IllegalArgumentException(
                    "values are compared only from the same table at the same level: " + ours + " against " + theirs);
        }
        ours.prices().checkCurrency(second.currency());
        FactorSwap.Average from = FactorSwap.Average.of(first);
        FactorSwap.Average to = FactorSwap.Average.of(second);
        List<FactorSwap.Key> keys = Stream.concat(first.lines().stream(), second.lines().stream())
                .map(FactorSwap.Key::of)
                .distinct()
                .sorted(Comparator.comparingInt(key -> place(key, first)))
                .toList();
        FactorSwap swap = new FactorSwap(ours, theirs, from, to, keys);
        Map<Factor, double[]> effects = swap.effects();
        double[] all = FactorSwap.perHead(first, keys);
        double[] others = FactorSwap.perHead(second, keys);
        List<Line> lines = new ArrayList<>();
        for (int i = 0; i < keys.size(); i++) {
            lines.add(new Line(
                    keys.get(i).name(),
                    keys.get(i).code(),
                    all[i] - others[i],
                    all[keys.size() + i] - others[keys.size() + i]));
        }
        double[] ofFirst = minus(all, swap.average(ours, from));
        double[] ofSecond = minus(others, swap.average(theirs, to));
        effects.put(Factor.MIX, minus(ofFirst, ofSecond));
        return new Attribution(first, second, List.copyOf(lines), effects);
    }

    /** Cuts as the table prints them, mince where its lean trim stands, then the rest. */
    private static int place(FactorSwap.Key key, Value value) {
        List<Cut> cuts = value.outturn().table().cutsAt(value.valuer().level());
        int place = 0;
        for (Cut cut : cuts) {
            if (cut.code().equals(key.code())
                    || (key.code().equals(Outturn.MINCE_CODE) && cut.kind() == CutKind.LEAN_TRIM)) {
                return place;
            }
            place++;
        }
        return place;
    }

    private static double[] minus(double[] a, double[] b) {
        return IntStream.range(0, a.length).mapToDouble(i -> a[i] - b[i]).toArray();
    }

    /** Lines down, factors across: kg from 0, amounts from the number of lines. */
    private double[][] matrix(int from) {
        double[][] matrix = new double[lines.size()][FACTORS.size()];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < FACTORS.size(); j++) {
                matrix[i][j] = effect(FACTORS.get(j))[from + i];
            }
        }
        return matrix;
    }

    private static BigDecimal rounded(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    }

    /**
     * What is worth more if the difference is above 0.
     *
     * @return value of a carcass or lot
     */
    public Value first() {
        return first;
    }

    /**
     * What it is compared with.
     *
     * @return value of a carcass or lot
     */
    public Value second() {
        return second;
    }

    /**
     * How much more the first is worth.
     *
     * @return amount per head, below 0 for less, not rounded
     */
    public double difference() {
        return first.perHead() - second.perHead();
    }

    /**
     * How much more the first is worth, as money.
     *
     * @return the difference of the two values per head as printed
     */
    public BigDecimal money() {
        return rounded(first.perHead(), decimals).subtract(rounded(second.perHead(), decimals));
    }

    /**
     * Every cut, then other income and cost.
     *
     * @return lines whose amounts add up to {@link #difference()} and whose kg to the difference in cold weight
     */
    public List<Line> lines() {
        return lines;
    }

    /**
     * The part of a factor.
     *
     * @param factor factor
     * @return amount per head; those of all factors add up to {@link #difference()}
     */
    public double amount(Factor factor) {
        return Arrays.stream(effect(factor), lines.size(), 2 * lines.size()).sum();
    }

    /**
     * The part of a factor in a line.
     *
     * @param factor factor
     * @param line code of a cut, or name of other income or cost
     * @return amount per head
     * @throws IllegalArgumentException if there is no such line
     */
    public double amount(Factor factor, String line) {
        return effect(factor)[lines.size() + index(line)];
    }

    /**
     * What a factor does to a cut.
     *
     * @param factor factor
     * @param line code of a cut
     * @return kg per head
     * @throws IllegalArgumentException if there is no such line
     */
    public double kg(Factor factor, String line) {
        return effect(factor)[index(line)];
    }

    private double[] effect(Factor factor) {
        return Objects.requireNonNull(effects.get(factor));
    }

    private int index(String line) {
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).code().isEmpty()
                    ? lines.get(i).name().equals(line)
                    : lines.get(i).code().equals(line)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no line \"" + line + "\"; there are "
                + lines.stream()
                        .map(one -> one.code().isEmpty() ? one.name() : one.code())
                        .collect(Collectors.joining(", ")));
    }

    private static boolean isZero(String printed) {
        return new BigDecimal(printed).signum() == 0;
    }

    private String printedAmount(Factor factor) {
        return printedAmounts.get(lines.size()).get(FACTORS.indexOf(factor));
    }

    /** Factors that come to anything as printed, largest first. */
    private List<Factor> said() {
        return FACTORS.stream()
                .filter(factor -> !isZero(printedAmount(factor)))
                .sorted(Comparator.comparing(
                        (Factor factor) -> new BigDecimal(printedAmount(factor)).abs(), Comparator.reverseOrder()))
                .toList();
    }

    /**
     * The difference and its reasons in one English sentence: factors that come to a cent or more, largest first, then the
     * kinds of cuts that differ most.
     *
     * @return a sentence with a full stop
     */
    public String sentence() {
        List<Factor> said = said();
        StringBuilder text = new StringBuilder(capital(describe(first, "first", false)))
                .append(" is worth ")
                .append(comparison(money()))
                .append(describe(second, "second", true));
        if (said.size() == 1) {
            text.append(", all of it for ").append(said.get(0).words());
        } else if (said.size() > 1) {
            text.append(": ")
                    .append(said.stream()
                            .map(factor ->
                                    moreOrLess(new BigDecimal(printedAmount(factor)), "") + " for " + factor.words())
                            .collect(Collectors.joining(", ")));
        }
        List<String> kinds = kinds();
        if (!said.isEmpty() && !kinds.isEmpty()) {
            text.append(said.size() == 1 ? ": " : "; ").append(String.join(", ", kinds));
        }
        return text.append('.').toString();
    }

    private String comparison(BigDecimal money) {
        return money.signum() == 0 ? "as much as " : moreOrLess(money, " " + first.currency()) + " than ";
    }

    private static String moreOrLess(BigDecimal figure, String unit) {
        return figure.abs().toPlainString() + unit + (figure.signum() < 0 ? " less" : " more");
    }

    private static String capital(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private String describe(Value value, String place, boolean referring) {
        StringBuilder text = new StringBuilder();
        boolean sameKg = meanKg(first) == meanKg(second);
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
            text.append("a head of the ")
                    .append(place)
                    .append(" lot (")
                    .append(value.head())
                    .append(" head)");
        }
        if (!sameKg || referring) {
            text.append(sameKg ? " of the same " : " of ").append(saidKg(value));
        }
        if (effectOf(Factor.CUTTING)) {
            YieldEstimator estimator = value.valuer().estimator();
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

    private static double meanKg(Value value) {
        return value.outturn().coldWeightKg() / value.head();
    }

    private static String saidKg(Value value) {
        return value.outturn() instanceof YieldEstimate
                ? Numbers.brief(meanKg(value)) + " kg"
                : Numbers.fixed(meanKg(value), SAID_KG_DECIMALS) + " kg on average";
    }

    private boolean effectOf(Factor factor) {
        return Arrays.stream(effect(factor)).anyMatch(part -> part != 0);
    }

    /** The kinds of meat that make most of the money, and of fat trim and bone the one that differs most. */
    private List<String> kinds() {
        Map<CutKind, Double> kg = new EnumMap<>(CutKind.class);
        Map<CutKind, Double> amounts = new EnumMap<>(CutKind.class);
        for (Line line : lines) {
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
        return first.outturn().table().catalogue().find(code).map(Cut::kind).orElse(CutKind.MINCE);
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

    /**
     * From the value of the second to that of the first, factor by factor.
     *
     * @return a table whose amounts add up as printed
     */
    public TextTable factorTable() {
        TextTable table = new TextTable("per head", first.currency());
        table.row(
                capital(describe(second, "second", false)),
                rounded(second.perHead(), decimals).toPlainString());
        said().forEach(factor -> table.row(factor.words(), printedAmount(factor)));
        return table.rule()
                .row(
                        capital(describe(first, "first", false)),
                        rounded(first.perHead(), decimals).toPlainString());
    }

    /**
     * How much more of every cut, in kg and money.
     *
     * @return a table whose kg and amounts add up to their totals as printed
     */
    public TextTable lineTable() {
        TextTable table = new TextTable("more in the first", "kg", first.currency());
        int total = FACTORS.size();
        for (int i = 0; i < lines.size(); i++) {
            table.row(
                    lines.get(i).name(),
                    lines.get(i).code().isEmpty() ? "" : printedKg.get(i).get(total),
                    printedAmounts.get(i).get(total));
        }
        return table.rule()
                .row(
                        "Total",
                        printedKg.get(lines.size()).get(total),
                        printedAmounts.get(lines.size()).get(total));
    }

    /**
     * Money by line and factor.
     *
     * @return a table that adds up along rows and columns as printed, without factors that come to nothing
     */
    public TextTable amountTable() {
        return matrixTable(first.currency() + " for", printedAmounts);
    }

    /**
     * Kilograms by cut and factor.
     *
     * @return a table that adds up along rows and columns as printed, without factors that come to nothing
     */
    public TextTable kgTable() {
        return matrixTable("kg for", printedKg);
    }

    private TextTable matrixTable(String heading, List<List<String>> printed) {
        List<Factor> columns = FACTORS.stream()
                .filter(factor -> printed.stream().anyMatch(row -> !isZero(row.get(FACTORS.indexOf(factor)))))
                .toList();
        List<String> header = new ArrayList<>(List.of(heading));
        columns.forEach(factor -> header.add(factor.words()));
        header.add("total");
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int i = 0; i <= lines.size(); i++) {
            boolean total = i == lines.size();
            if (!total && lines.get(i).code().isEmpty() && printed.equals(printedKg)) {
                continue;
            }
            List<String> row =
                    new ArrayList<>(List.of(total ? "Total" : lines.get(i).name()));
            for (Factor factor : columns) {
                row.add(printed.get(i).get(FACTORS.indexOf(factor)));
            }
            row.add(printed.get(i).get(FACTORS.size()));
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

    /**
     * The comparison for people: the sentence, from one value to the other, and cut by cut.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence());
        tables().forEach(blocks::add);
        return (said().size() > 1 ? blocks.sentence(RULE) : blocks).sentence(Cautions.NO_SETTLEMENT);
    }

    /**
     * One line.
     *
     * @return the sentence
     */
    @Override
    public String toString() {
        return sentence();
    }
}
