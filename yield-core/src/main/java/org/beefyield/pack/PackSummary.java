package org.beefyield.pack;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.frame.Frame;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * A lot's pieces against the windows of their packs: chances on average, what misfits are expected to cost, and what the
 * best way of each cut of each carcass would bring. Immutable; a {@link Collector} adds carcasses up to it.
 */
public final class PackSummary implements ShownInBlocks {
    private final PackFit fit;
    private final long carcasses;
    private final double gain;
    private final Map<SizeWindow, Misfits> windows;
    private final Map<String, Long> changed;
    private final Set<String> assumed;

    private PackSummary(Collector collector) {
        this.fit = collector.fit;
        this.carcasses = collector.carcasses;
        this.gain = collector.gain;
        this.windows = Collections.unmodifiableMap(new LinkedHashMap<>(collector.windows));
        this.changed = Collections.unmodifiableMap(new LinkedHashMap<>(collector.changed));
        this.assumed = Collections.unmodifiableSet(new TreeSet<>(collector.assumed));
    }

    /**
     * A collector of carcasses.
     *
     * @param fit windows, prices and the fixed specification
     * @return an empty collector
     */
    public static Collector collector(PackFit fit) {
        Objects.requireNonNull(fit, "fit");
        return new Collector(fit);
    }

    /**
     * What is expected to miss a window, over carcasses.
     *
     * @param carcasses carcasses whose pieces the window is for
     * @param below sum of the chances that a piece is too light
     * @param above sum of the chances that a piece is too heavy
     * @param kg kg that go another way
     * @param amount what that costs
     */
    public record Misfits(long carcasses, double below, double above, double kg, double amount) {
        static Misfits of(Downgrade downgrade) {
            WindowChance chance = downgrade.chance();
            return new Misfits(1, chance.below(), chance.above(), downgrade.kg(), downgrade.amount());
        }

        Misfits plus(Misfits other) {
            return new Misfits(
                    carcasses + other.carcasses,
                    below + other.below,
                    above + other.above,
                    kg + other.kg,
                    amount + other.amount);
        }
    }

    /**
     * What the carcasses were held against.
     *
     * @return windows, prices and the fixed specification
     */
    public PackFit fit() {
        return fit;
    }

    PriceList prices() {
        return fit.valuer().prices();
    }

    /**
     * What is expected to miss each window.
     *
     * @return an unmodifiable map, in the order in which a carcass first needed them
     */
    public Map<SizeWindow, Misfits> windows() {
        return windows;
    }

    /**
     * Ways that are expected to return more than the fixed ones.
     *
     * @return an unmodifiable map of ways, such as {@code rump as joints}, and in how many carcasses
     */
    public Map<String, Long> changed() {
        return changed;
    }

    /**
     * Those of the ways that rest on rows which the maker of the table assumed.
     *
     * @return an unmodifiable set
     */
    public Set<String> assumed() {
        return assumed;
    }

    /**
     * Carcasses added.
     *
     * @return 0 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * What misfits are expected to cost under the fixed specification.
     *
     * @return amount, below 0 where the other ways are worth more
     */
    public double cost() {
        return windows.values().stream().mapToDouble(Misfits::amount).sum();
    }

    /**
     * What the best way of each cut of each carcass is expected to bring beyond the fixed specification, labour not counted.
     *
     * @return amount, 0 or more
     */
    public double gain() {
        return gain;
    }

    /**
     * The cost of misfits as money.
     *
     * @return amount rounded to the price list's decimals
     */
    public Money costMoney() {
        return prices().money(cost());
    }

    /**
     * The gain as money.
     *
     * @return amount rounded to the price list's decimals
     */
    public Money gainMoney() {
        return prices().money(gain);
    }

    /**
     * The summary as a frame, a row for each window.
     *
     * @return {@code table}; {@code window}; {@code carcasses} whose pieces it is for; {@code too light}, {@code fits} and
     *     {@code too heavy} in % of them; {@code other way} in kg; {@code costs} in the currency
     */
    public Frame toFrame() {
        return new PackSummaryText(this).frame();
    }

    /**
     * The summary for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new PackSummaryText(this).blocks();
    }

    /**
     * Adds carcasses up to a summary; memory does not grow with their number. Not thread-safe; let each thread have its own
     * and merge them.
     */
    public static final class Collector {
        private final PackFit fit;
        private final Map<SizeWindow, Misfits> windows = new LinkedHashMap<>();
        private final Map<String, Long> changed = new LinkedHashMap<>();
        private final Set<String> assumed = new TreeSet<>();
        private long carcasses;
        private double gain;

        private Collector(PackFit fit) {
            this.fit = fit;
        }

        /**
         * Adds a carcass.
         *
         * @param carcass carcass
         * @return this
         * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            BestWays best = fit.best(carcass);
            carcasses++;
            gain += best.gain();
            best.changed().forEach((cut, way) -> addChanged(AssumedWays.words(cut, way), 1));
            assumed.addAll(best.assumed());
            best.fixed()
                    .downgrades()
                    .forEach(downgrade -> add(downgrade.chance().window(), Misfits.of(downgrade)));
            return this;
        }

        private void add(SizeWindow window, Misfits more) {
            windows.merge(window, more, Misfits::plus);
        }

        private void addChanged(String way, long more) {
            changed.merge(way, more, Long::sum);
        }

        /**
         * Adds all that another collector holds, as if its carcasses had been added behind those here; that one stays as it
         * is.
         *
         * @param other a collector for the same windows, prices and specification
         * @return this
         * @throws IllegalArgumentException if it is for others
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            if (!fit.equals(other.fit)) {
                throw new IllegalArgumentException("summaries go together only of one and the same pack fit");
            }
            carcasses += other.carcasses;
            gain += other.gain;
            other.changed.forEach(this::addChanged);
            assumed.addAll(other.assumed);
            other.windows.forEach(this::add);
            return this;
        }

        /**
         * The summary so far.
         *
         * @return the summary of all carcasses added
         */
        public PackSummary result() {
            return new PackSummary(this);
        }
    }
}
