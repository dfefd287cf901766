package org.beefyield.price;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * The same carcasses under two tables, such as the one in use and the one that may replace it: what of each cut is expected
 * under either, and what that is worth. Two tables on the same carcasses share the carcasses, not the errors, so that their
 * difference has no interval. Immutable.
 *
 * <p>Both sides hold the carcasses that both tables give an estimate for; how many one of them refuses alone is counted.
 */
public final class TwoTables implements ShownInBlocks {
    /** Fraction of the cold weight that tells two figures of the same weight apart. */
    private static final double NOISE = 1e-12;

    private final LotEstimate before;
    private final LotEstimate after;
    private final @Nullable Value beforeValue;
    private final @Nullable Value afterValue;
    private final List<Line> lines;
    private final long refusedByBoth;
    private final long refusedBefore;
    private final long refusedAfter;

    private TwoTables(Collector collector, @Nullable Valuer valuerBefore, @Nullable Valuer valuerAfter) {
        before = collector.before.lot();
        after = collector.after.lot();
        beforeValue = valuerBefore == null ? null : valuerBefore.value(before);
        afterValue = valuerAfter == null ? null : valuerAfter.value(after);
        refusedByBoth = collector.refusedByBoth;
        refusedBefore = collector.refusedBefore;
        refusedAfter = collector.refusedAfter;
        lines = lines();
    }

    /**
     * One cut under both tables.
     *
     * @param level name of the level
     * @param code code of the cut
     * @param name name of the cut
     * @param beforeKg kg under the table before, or null if it has no such cut there
     * @param afterKg kg under the table after, or null if it has no such cut there
     * @param beforeAmount what that is worth, or null if the level isn't valued, or the cut isn't there
     * @param afterAmount what that is worth, or null if the level isn't valued, or the cut isn't there
     */
    public record Line(
            String level,
            String code,
            String name,
            @Nullable Double beforeKg,
            @Nullable Double afterKg,
            @Nullable Double beforeAmount,
            @Nullable Double afterAmount) {
        /** Checks that nothing is missing. */
        public Line {
            Objects.requireNonNull(code, "code");
            Objects.requireNonNull(level, "level");
            Objects.requireNonNull(name, "name");
        }

        /**
         * How much more there is under the table after.
         *
         * @return kg; a cut that a table doesn't have is 0 kg under it
         */
        public double differenceKg() {
            return (afterKg == null ? 0 : afterKg) - (beforeKg == null ? 0 : beforeKg);
        }

        /**
         * How much more there is under the table after, of what there is under the one before.
         *
         * @return per cent, or null if there is nothing under the one before
         */
        public @Nullable Double differencePercent() {
            return beforeKg == null || beforeKg == 0 ? null : Double.valueOf(100 * differenceKg() / beforeKg);
        }

        /**
         * How much more it is worth under the table after.
         *
         * @return in the currency of the prices, not rounded, or null if the level isn't valued
         */
        public @Nullable Double differenceAmount() {
            return beforeAmount == null && afterAmount == null
                    ? null
                    : Double.valueOf(
                            (afterAmount == null ? 0 : afterAmount) - (beforeAmount == null ? 0 : beforeAmount));
        }
    }

    /**
     * Why tables refuse a carcass.
     *
     * @param before reasons of the table before, empty if it gives an estimate
     * @param after reasons of the table after, empty if it gives an estimate
     */
    public record Refusals(List<Refusal> before, List<Refusal> after) {
        /** Copies the reasons. */
        public Refusals {
            Checks.noNullIn(before, "before");
            Checks.noNullIn(after, "after");
            before = List.copyOf(before);
            after = List.copyOf(after);
        }

        /**
         * Whether the carcass is on both sides.
         *
         * @return true if both tables give an estimate
         */
        public boolean isEmpty() {
            return before.isEmpty() && after.isEmpty();
        }
    }

    /**
     * Starts without prices.
     *
     * @param before how carcasses are estimated under the one table
     * @param after how carcasses are estimated under the other
     * @return a collector
     */
    public static Collector collector(YieldEstimator before, YieldEstimator after) {
        Objects.requireNonNull(after, "after");
        Objects.requireNonNull(before, "before");
        return new Collector(before, after, null, null);
    }

    /**
     * Starts with prices.
     *
     * @param before values what is expected under the one table
     * @param after values what is expected under the other
     * @return a collector
     * @throws IllegalArgumentException if their prices are in different currencies or to different decimals
     */
    public static Collector collector(Valuer before, Valuer after) {
        Objects.requireNonNull(after, "after");
        Objects.requireNonNull(before, "before");
        if (!before.prices().currency().equals(after.prices().currency())
                || before.prices().decimals() != after.prices().decimals()) {
            throw new IllegalArgumentException("prices in " + before.prices().currency() + " and in "
                    + after.prices().currency() + " with " + before.prices().decimals() + " and "
                    + after.prices().decimals() + " decimals can't be set side by side");
        }
        return new Collector(before.estimator(), after.estimator(), before, after);
    }

    /** Adds carcasses up. Not thread-safe. */
    public static final class Collector {
        private final YieldEstimator one;
        private final YieldEstimator other;
        private final LotEstimate.Collector before;
        private final LotEstimate.Collector after;
        private final @Nullable Valuer valuerBefore;
        private final @Nullable Valuer valuerAfter;
        private long taken;
        private long refusedByBoth;
        private long refusedBefore;
        private long refusedAfter;

        private Collector(
                YieldEstimator one, YieldEstimator other, @Nullable Valuer valuerBefore, @Nullable Valuer valuerAfter) {
            this.one = one;
            this.other = other;
            this.valuerBefore = valuerBefore;
            this.valuerAfter = valuerAfter;
            before = one.collector();
            after = other.collector();
        }

        /**
         * Adds a carcass to both sides, if both tables give an estimate for it.
         *
         * @param carcass carcass
         * @return why not, or empty if it was added
         */
        public Refusals add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            Refusals refusals = new Refusals(
                    one.tryEstimate(carcass).reasons(),
                    other.tryEstimate(carcass).reasons());
            if (refusals.isEmpty()) {
                before.add(carcass);
                after.add(carcass);
                taken++;
            } else if (refusals.after().isEmpty()) {
                refusedBefore++;
            } else if (refusals.before().isEmpty()) {
                refusedAfter++;
            } else {
                refusedByBoth++;
            }
            return refusals;
        }

        /**
         * Whether there is anything to set side by side.
         *
         * @return true if no carcass was added to both sides
         */
        public boolean isEmpty() {
            return taken == 0;
        }

        /**
         * Both sides so far.
         *
         * @return the two tables on these carcasses
         * @throws IllegalStateException if there is no carcass
         * @throws MissingPriceException if mince turns out fatter than any that has a price
         */
        public TwoTables result() {
            return new TwoTables(this, valuerBefore, valuerAfter);
        }
    }

    private List<Line> lines() {
        Map<String, Double> amountsBefore = amounts(beforeValue);
        Map<String, Double> amountsAfter = amounts(afterValue);
        Set<String> levels = new LinkedHashSet<>(before.table().levels());
        levels.addAll(after.table().levels());
        List<Line> all = new ArrayList<>();
        for (String level : levels) {
            Map<String, CutLine> ofBefore = byCode(before, level);
            Map<String, CutLine> ofAfter = byCode(after, level);
            Set<String> codes = new LinkedHashSet<>(ofBefore.keySet());
            codes.addAll(ofAfter.keySet());
            for (String code : codes) {
                CutLine left = ofBefore.get(code);
                CutLine right = ofAfter.get(code);
                all.add(new Line(
                        level,
                        code,
                        Objects.requireNonNull(right == null ? left : right).name(),
                        left == null ? null : Double.valueOf(left.kg()),
                        right == null ? null : Double.valueOf(right.kg()),
                        isValued(beforeValue, level) ? amountsBefore.get(code) : null,
                        isValued(afterValue, level) ? amountsAfter.get(code) : null));
            }
        }
        // in the tables' order where they are equal
        all.sort(Comparator.comparingDouble(line -> isChanged(line) ? -Math.abs(line.differenceKg()) : 0));
        return List.copyOf(all);
    }

    private static boolean isValued(@Nullable Value value, String level) {
        return value != null && value.level().equals(level);
    }

    private static Map<String, CutLine> byCode(LotEstimate lot, String level) {
        Map<String, CutLine> lines = new LinkedHashMap<>();
        if (lot.table().levels().contains(level)) {
            lot.lines(level).forEach(line -> lines.put(line.code(), line));
        }
        return lines;
    }

    /** What each cut is worth, by its code. */
    private static Map<String, Double> amounts(@Nullable Value value) {
        Map<String, Double> amounts = new LinkedHashMap<>();
        if (value != null) {
            value.lines().forEach(line -> amounts.put(line.code(), line.amount()));
        }
        return amounts;
    }

    private boolean isChanged(Line line) {
        Double amount = line.differenceAmount();
        return line.beforeKg() == null
                || line.afterKg() == null
                || Math.abs(line.differenceKg()) > NOISE * before.coldWeightKg()
                // other prices, or mince of another fat content
                || (amount != null
                        && beforeValue != null
                        && Math.abs(amount) > NOISE * Math.max(1, Math.abs(beforeValue.amount())));
    }

    /**
     * The carcasses under the table before.
     *
     * @return a lot
     */
    public LotEstimate before() {
        return before;
    }

    /**
     * The same carcasses under the table after.
     *
     * @return a lot
     */
    public LotEstimate after() {
        return after;
    }

    /**
     * What they are worth under the table before.
     *
     * @return the value, or empty without prices
     */
    public Optional<Value> beforeValue() {
        return Optional.ofNullable(beforeValue);
    }

    /**
     * What they are worth under the table after.
     *
     * @return the value, or empty without prices
     */
    public Optional<Value> afterValue() {
        return Optional.ofNullable(afterValue);
    }

    /**
     * How much more they are worth under the table after.
     *
     * @return money, or empty without prices
     */
    public Optional<Money> difference() {
        return beforeValue == null || afterValue == null
                ? Optional.empty()
                : Optional.of(afterValue.money().minus(beforeValue.money()));
    }

    /**
     * Cuts that come out otherwise under the two tables, at all levels.
     *
     * @return the largest difference in kg first
     */
    public List<Line> changed() {
        return lines.stream().filter(this::isChanged).toList();
    }

    /**
     * Cuts that come out alike under both tables, at all levels.
     *
     * @return in the order of the tables
     */
    public List<Line> equal() {
        return lines.stream().filter(line -> !isChanged(line)).toList();
    }

    /**
     * Carcasses that neither table gives an estimate for.
     *
     * @return 0 or more
     */
    public long refusedByBoth() {
        return refusedByBoth;
    }

    /**
     * Carcasses that the table before refuses and the one after doesn't.
     *
     * @return 0 or more
     */
    public long refusedBeforeOnly() {
        return refusedBefore;
    }

    /**
     * Carcasses that the table after refuses and the one before doesn't.
     *
     * @return 0 or more
     */
    public long refusedAfterOnly() {
        return refusedAfter;
    }

    /**
     * The cuts as a frame: a cut at a level in a row, the largest difference in kg first, those that are equal last. Money is
     * there if there are prices, and missing at levels that aren't valued.
     *
     * @return both tables, level, cut, kg before, after and more, and what they are worth
     */
    public Frame toFrame() {
        return TwoTablesText.frame(this);
    }

    /**
     * Both tables for people: what changes, the largest change first.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return TwoTablesText.blocks(this);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof TwoTables that
                && before.equals(that.before)
                && after.equals(that.after)
                && Objects.equals(beforeValue, that.beforeValue)
                && Objects.equals(afterValue, that.afterValue)
                && refusedByBoth == that.refusedByBoth
                && refusedBefore == that.refusedBefore
                && refusedAfter == that.refusedAfter;
    }

    @Override
    public int hashCode() {
        return Objects.hash(before, after, refusedByBoth, refusedBefore, refusedAfter);
    }

    /**
     * One line.
     *
     * @return such as {@code 200 carcasses under our-hall@2#0123456789ab and boneless-2026@1.0.0#0123456789ab: 6 cuts differ}
     */
    @Override
    public String toString() {
        return TwoTablesText.line(this);
    }
}
