package org.beefyield.report;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.market.MarketSummary;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.Overpayment;
import org.beefyield.price.Value;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * What a manager reads first of a day's kill sheet: how many rows and why some are refused, head, kilograms, worth, payment and
 * margin, each with how sure it is, the cuts that are least sure, who was overpaid and what suits which customer. Immutable.
 */
public final class Day implements ShownInBlocks {
    /** Cuts that are named as least sure. */
    private static final int LEAST_SURE = 3;

    private final String title;
    private final long rows;
    private final long condemned;
    private final long refused;
    private final Map<String, Long> refusals;
    private final long otherReasons;
    private final @Nullable LotEstimate lot;
    private final @Nullable Value value;
    private final double oneByOne;
    private final @Nullable MarginReport margins;
    private final @Nullable Overpayment overpayment;
    private final List<MarketSummary> markets;
    private final double promise;

    private Day(Builder builder) {
        this.title = builder.title;
        this.rows = builder.rows;
        this.condemned = builder.condemned;
        this.refused = builder.refused;
        this.refusals = Collections.unmodifiableMap(new LinkedHashMap<>(builder.refusals));
        this.otherReasons = builder.otherReasons;
        this.lot = builder.lot;
        this.value = builder.value;
        this.oneByOne = builder.oneByOne;
        this.margins = builder.margins;
        this.overpayment = builder.overpayment;
        this.markets = List.copyOf(builder.markets);
        this.promise = builder.promise;
    }

    /**
     * One line of the page.
     *
     * @param name what it is
     * @param value the figure
     * @param unit its unit
     * @param interval its 90 % interval, or null if it is certain or has none
     * @param promise what may be promised of it, or null if none is asked for
     */
    public record Line(
            String name,
            double value,
            String unit,
            @Nullable Interval interval,
            @Nullable Double promise) {
        /** Checks that nothing is missing. */
        public Line {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(unit, "unit");
        }
    }

    /**
     * A page without figures.
     *
     * @param title such as the name of the sheet or the day
     * @return a builder
     */
    public static Builder builder(String title) {
        return new Builder(Objects.requireNonNull(title, "title"));
    }

    /** Collects what the page says. Not thread-safe. */
    public static final class Builder {
        private final String title;
        private long rows;
        private long condemned;
        private long refused;
        private final Map<String, Long> refusals = new LinkedHashMap<>();
        private long otherReasons;
        private @Nullable LotEstimate lot;
        private @Nullable Value value;
        private double oneByOne;
        private @Nullable MarginReport margins;
        private @Nullable Overpayment overpayment;
        private final List<MarketSummary> markets = new ArrayList<>();
        private double promise;

        private Builder(String title) {
            this.title = title;
        }

        /**
         * Rows of the sheet.
         *
         * @param all rows, but for the header
         * @param ofCondemned those of condemned carcasses
         * @param ofRefused those that are refused
         * @return this
         * @throws IllegalArgumentException if one is below 0, or there are fewer rows than of these two together
         */
        public Builder rows(long all, long ofCondemned, long ofRefused) {
            if (ofCondemned < 0 || ofRefused < 0 || all < ofCondemned + ofRefused) {
                throw new IllegalArgumentException(all + " rows, " + ofCondemned + " condemned, " + ofRefused
                        + " refused: none may be below 0, nor the first below the sum of the others");
            }
            rows = all;
            condemned = ofCondemned;
            refused = ofRefused;
            return this;
        }

        /**
         * Why rows are refused.
         *
         * @param byReason number of rows by reason
         * @return this
         */
        public Builder refusals(Map<String, Long> byReason) {
            Checks.noNullIn(byReason, "byReason");
            refusals.putAll(byReason);
            return this;
        }

        /**
         * How many reasons there are besides those; a row may have several.
         *
         * @param reasons number of reasons
         * @return this
         * @throws IllegalArgumentException if it is below 0
         */
        public Builder otherReasons(long reasons) {
            if (reasons < 0) {
                throw new IllegalArgumentException(reasons + " other reasons: it may not be below 0");
            }
            otherReasons = reasons;
            return this;
        }

        /**
         * What the carcasses are expected to return.
         *
         * @param estimate their lot
         * @return this
         */
        public Builder lot(LotEstimate estimate) {
            lot = Objects.requireNonNull(estimate, "estimate");
            return this;
        }

        /**
         * What they are worth.
         *
         * @param together value of the lot
         * @param eachByItself sum of the values of the carcasses, each by itself, as files and margins have them
         * @return this
         * @throws IllegalArgumentException if the sum is not finite
         */
        public Builder value(Value together, double eachByItself) {
            value = Objects.requireNonNull(together, "together");
            oneByOne = Checks.finite("sum of the values", eachByItself);
            return this;
        }

        /**
         * What was paid for them.
         *
         * @param report margins
         * @return this
         */
        public Builder margins(MarginReport report) {
            margins = Objects.requireNonNull(report, "report");
            return this;
        }

        /**
         * Who was overpaid.
         *
         * @param report overpayment
         * @return this
         */
        public Builder overpayment(Overpayment report) {
            overpayment = Objects.requireNonNull(report, "report");
            return this;
        }

        /**
         * What suits a customer; several customers one after the other.
         *
         * @param summary summary of the carcasses
         * @return this
         */
        public Builder market(MarketSummary summary) {
            markets.add(Objects.requireNonNull(summary, "summary"));
            return this;
        }

        /**
         * Names what may be promised of the cuts that are least sure.
         *
         * @param probability above 0 and below 1
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder promise(double probability) {
            if (!(probability > 0 && probability < 1)) {
                throw new IllegalArgumentException("probability " + probability + " is outside 0 to 1 (both excluded)");
            }
            promise = probability;
            return this;
        }

        /**
         * The page.
         *
         * @return it
         */
        public Day build() {
            return new Day(this);
        }
    }

    String title() {
        return title;
    }

    /**
     * Rows of the sheet.
     *
     * @return 0 or more
     */
    public long rows() {
        return rows;
    }

    /**
     * Rows of condemned carcasses.
     *
     * @return 0 or more
     */
    public long condemned() {
        return condemned;
    }

    /**
     * Rows that are refused.
     *
     * @return 0 or more
     */
    public long refused() {
        return refused;
    }

    /**
     * Why rows are refused.
     *
     * @return number of rows by reason; unmodifiable
     */
    public Map<String, Long> refusals() {
        return refusals;
    }

    /**
     * Reasons besides those of {@link #refusals()}.
     *
     * @return 0 or more
     */
    public long otherReasons() {
        return otherReasons;
    }

    /**
     * The figures.
     *
     * @return head, cold weight, saleable meat, worth, payment and margin, as far as they are known, then the cuts that are least
     *     sure
     */
    public List<Line> lines() {
        LotEstimate all = lot;
        if (all == null) {
            return List.of();
        }
        List<Line> lines = new ArrayList<>();
        lines.add(new Line("Head", all.carcasses(), "head", null, null));
        lines.add(new Line("Cold weight", all.coldWeightKg(), "kg", null, null));
        Figure saleable = Figure.saleable();
        lines.add(new Line("Saleable meat", all.kg(saleable), "kg", interval(all, saleable), null));
        money(lines);
        leastSure(all, lines);
        return List.copyOf(lines);
    }

    private @Nullable Interval interval(LotEstimate all, Figure figure) {
        return all.table().statesSds() ? all.interval(figure, Interval.SHOWN_PROBABILITY) : null;
    }

    private void money(List<Line> lines) {
        Value worth = value;
        if (worth == null) {
            return;
        }
        boolean sure = worth.outturn().table().statesSds();
        Interval together = worth.interval(Interval.SHOWN_PROBABILITY);
        double shift = oneByOne - worth.amount();
        lines.add(new Line(
                "Worth",
                oneByOne,
                worth.currency(),
                sure ? new Interval(together.low() + shift, together.high() + shift, together.probability()) : null,
                null));
        Optional.ofNullable(margins).flatMap(MarginReport::total).ifPresent(total -> {
            lines.add(new Line("Paid", total.paid(), total.currency(), null, null));
            lines.add(new Line(
                    "Margin",
                    total.amount(),
                    total.currency(),
                    sure
                            ? Objects.requireNonNull(margins)
                                    .interval(Interval.SHOWN_PROBABILITY)
                                    .orElse(null)
                            : null,
                    null));
            lines.add(new Line("Margin a kg", total.perKg(), total.currency() + " a kg", null, null));
        });
    }

    private void leastSure(LotEstimate all, List<Line> lines) {
        if (!all.table().statesSds()) {
            return;
        }
        String level = all.table().levels().get(all.table().levels().size() - 1);
        all.lines(level).stream()
                .filter(line -> line.kg() > 0 && isSold(line.kind()))
                .sorted(Comparator.comparingDouble((CutLine line) -> -line.sdKg() / line.kg()))
                .limit(LEAST_SURE)
                .forEach(line -> {
                    Figure figure = Figure.cut(level, line.code());
                    lines.add(new Line(
                            "Least sure: " + line.name(),
                            line.kg(),
                            "kg",
                            line.interval(Interval.SHOWN_PROBABILITY),
                            promise > 0 ? all.promise(figure, promise) : null));
                });
    }

    private static boolean isSold(CutKind kind) {
        return kind != CutKind.FAT_TRIM && kind != CutKind.BONE && kind != CutKind.LOSS;
    }

    /**
     * What the worth of all together is more than the sum of the carcasses, each by itself: lean trim of one takes up fat trim of
     * another.
     *
     * @return amount in the currency; 0 without prices
     */
    public double togetherMore() {
        Value worth = value;
        return worth == null ? 0 : worth.amount() - oneByOne;
    }

    Optional<LotEstimate> lot() {
        return Optional.ofNullable(lot);
    }

    Optional<Value> value() {
        return Optional.ofNullable(value);
    }

    Optional<MarginReport> margins() {
        return Optional.ofNullable(margins);
    }

    Optional<Overpayment> overpayment() {
        return Optional.ofNullable(overpayment);
    }

    List<MarketSummary> markets() {
        return markets;
    }

    double promise() {
        return promise;
    }

    /**
     * The figures as a frame.
     *
     * @return {@code figure}; {@code value}, {@code 90 % interval low} and {@code high}, missing where there is none, and
     *     {@code promise}, missing where none is asked for, each in its own {@code unit}
     */
    public Frame toFrame() {
        return new DayText(this).frame();
    }

    /**
     * The page for people.
     *
     * @return its sentences and the table of figures
     */
    @Override
    public Blocks blocks() {
        return new DayText(this).blocks();
    }

    /**
     * One line.
     *
     * @return title and rows
     */
    @Override
    public String toString() {
        return new DayText(this).sentence();
    }
}
