package org.beefyield.price;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
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
    private final Value first;
    private final Value second;
    private final int decimals;
    private final List<Line> lines;
    private final Map<Factor, double[]> effects;

    /**
     * How much more of a cut, or of other income or cost, there is in the first than in the second.
     *
     * @param name name for people
     * @param code code of the cut; empty for income and cost beside the cuts
     * @param kg kg of the cut, per head; 0 for income and cost beside the cuts
     * @param amount amount per head, below 0 for less
     */
    public record Line(String name, String code, double kg, double amount) {
        /** Checks that nothing is missing. */
        public Line {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(code, "code");
        }
    }

    private Attribution(Value first, Value second, List<Line> lines, Map<Factor, double[]> effects) {
        this.first = first;
        this.second = second;
        this.decimals = Math.max(first.prices().decimals(), second.prices().decimals());
        this.lines = lines;
        this.effects = effects;
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
        Objects.requireNonNull(first, "first");
        Objects.requireNonNull(second, "second");
        Valuer ours = Valuer.of(first.prices(), first.estimator(), first.level());
        Valuer theirs = Valuer.of(second.prices(), second.estimator(), second.level());
        if (!ours.estimator().table().equals(theirs.estimator().table())
                || !ours.level().equals(theirs.level())) {
            throw new IllegalArgumentException(
                    "values are compared only from the same table at the same level: " + ours + " against " + theirs
                            + "; two tables have no errors in common, so that their difference would have no interval");
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
        List<Cut> cuts = value.outturn().table().cutsAt(value.level());
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

    /** The value of a head as printed. */
    Money money(Value value) {
        return money(value.perHead());
    }

    Money money(double perHead) {
        return Money.rounded(perHead, decimals, first.currency());
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
     * How much more a kg of the first is worth.
     *
     * @return amount per kg of cold weight, below 0 for less, not rounded
     */
    public double perKg() {
        return first.perKg() - second.perKg();
    }

    /**
     * The part of a factor in what a kg is worth more. Of a heavier carcass of the same value a kg, weight is nothing here and
     * all of the difference per head.
     *
     * @param factor factor
     * @return amount per kg of cold weight; those of all factors add up to {@link #perKg()}
     */
    public double perKg(Factor factor) {
        Objects.requireNonNull(factor, "factor");
        return effect(factor)[2 * lines.size()];
    }

    /**
     * How sure the difference is, in words.
     *
     * @return sentences: the interval of what is expected, what it holds, and what these very carcasses may show
     */
    public List<String> intervalWords() {
        return new AttributionText(this).interval();
    }

    /**
     * How sure the difference is: errors that both have in common cancel. The parts by factor are those of the expectation and
     * have no intervals of their own.
     *
     * @return the difference per head, in the currency in place of kg; empty if the two were estimated with other scales or other
     *     parts of the uncertainty
     */
    public Optional<Difference> uncertainty() {
        YieldEstimator ours = first.estimator();
        YieldEstimator theirs = second.estimator();
        if (!ours.scaleError().equals(theirs.scaleError()) || !ours.counted().equals(theirs.counted())) {
            return Optional.empty();
        }
        Difference ofCuts = first.outturn()
                .minus(
                        first.figure().times(1.0 / first.head()),
                        second.outturn(),
                        second.figure().times(1.0 / second.head()));
        // what comes beside the cuts is certain
        return Optional.of(ofCuts.plus(difference() - ofCuts.kg()));
    }

    /**
     * How much more the first is worth, as money.
     *
     * @return the difference of the two values per head as printed
     */
    public Money money() {
        return money(first).minus(money(second));
    }

    /**
     * The part of a factor as money.
     *
     * @param factor factor
     * @return amount per head as printed; those of all factors add up to {@link #money()}
     */
    public Money money(Factor factor) {
        return new AttributionText(this).money(Objects.requireNonNull(factor, "factor"));
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
        Objects.requireNonNull(factor, "factor");
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
        Objects.requireNonNull(factor, "factor");
        Objects.requireNonNull(line, "line");
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
        Objects.requireNonNull(factor, "factor");
        Objects.requireNonNull(line, "line");
        return effect(factor)[index(line)];
    }

    /** What a factor does: kg of the lines, then their amounts, last the value of a kg. */
    double[] effect(Factor factor) {
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

    /**
     * The difference and its reasons in one English sentence: factors that come to a cent or more, largest first, then the
     * kinds of cuts that differ most.
     *
     * @return a sentence with a full stop
     */
    public String sentence() {
        return new AttributionText(this).sentence();
    }

    /**
     * From the value of the second to that of the first, factor by factor.
     *
     * @return a table whose amounts add up as printed
     */
    public TextTable factorTable() {
        return new AttributionText(this).factorTable();
    }

    /**
     * How much more of every cut, in kg and money.
     *
     * @return a table whose kg and amounts add up to their totals as printed
     */
    public TextTable lineTable() {
        return new AttributionText(this).lineTable();
    }

    /**
     * Money by line and factor.
     *
     * @return a table that adds up along rows and columns as printed, without factors that come to nothing
     */
    public TextTable amountTable() {
        return new AttributionText(this).amountTable();
    }

    /**
     * Kilograms by cut and factor.
     *
     * @return a table that adds up along rows and columns as printed, without factors that come to nothing
     */
    public TextTable kgTable() {
        return new AttributionText(this).kgTable();
    }

    /**
     * The comparison as a frame, a row for each cut and each other income or cost.
     *
     * @return {@code table}; {@code line}, its name; {@code cut}, its code, missing of income and cost beside the cuts;
     *     {@code more}, how much more of it there is, in kg a head; {@code worth more} in the currency a head; and a column
     *     in the currency a head for each {@link Factor}. Amounts of a row add up to what it is worth more, and those of a
     *     column to what the factor makes
     */
    public Frame toFrame() {
        return new AttributionText(this).frame();
    }

    /**
     * The comparison for people: the sentence, from one value to the other, and cut by cut.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new AttributionText(this).blocks();
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
