package org.beefyield.finish;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.beefyield.frame.Frame;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * An animal day by day from today: what it would be, what would be paid, what it would have cost, what the hall would have of it.
 * Immutable.
 *
 * <p>The best day is that of the largest net over all days, of equals the earliest. A day past the customer's limit of age or fat
 * class may be the best; then {@link #passed()} says what that costs, and {@link #bestWithinLimits()} which day is best before.
 */
public final class Forecast implements ShownInBlocks {
    /** Days of a week. */
    static final int WEEK = 7;

    private final Setup setup;
    private final FinishAnimal animal;
    private final List<FinishDay> days;
    private final OptionalInt lastWithinAge;
    private final OptionalInt lastWithinFat;
    private final List<PassedLimit> passed;
    private final List<String> notes;

    private Forecast(Setup setup, FinishAnimal animal, Projection projection) {
        this.setup = setup;
        this.animal = animal;
        this.days = List.copyOf(projection.days());
        this.lastWithinAge = projection.lastDayWithin(MarketFault.Limit.AGE);
        this.lastWithinFat = projection.lastDayWithin(MarketFault.Limit.FAT_CLASS);
        this.notes = List.copyOf(projection.notes());
        int best = best().day();
        List<PassedLimit> limits = new ArrayList<>();
        for (MarketFault.Limit limit : List.of(MarketFault.Limit.AGE, MarketFault.Limit.FAT_CLASS)) {
            OptionalInt last = lastDayWithin(limit);
            if (last.isPresent() && best > last.getAsInt()) {
                limits.add(new PassedLimit(limit, last.getAsInt(), projection.lostTo(limit, best)));
            }
        }
        this.passed = List.copyOf(limits);
    }

    static Forecast of(Setup setup, FinishAnimal animal, Projection projection) {
        return new Forecast(setup, animal, projection);
    }

    Setup setup() {
        return setup;
    }

    /**
     * The animal.
     *
     * @return as it stands today
     */
    public FinishAnimal animal() {
        return animal;
    }

    /**
     * Every day that is looked at.
     *
     * @return days from 0, today
     */
    public List<FinishDay> days() {
        return days;
    }

    /**
     * Sold today.
     *
     * @return day 0
     */
    public FinishDay today() {
        return days.get(0);
    }

    /**
     * Label of the currency.
     *
     * @return that of the payment
     */
    public String currency() {
        return setup.grid().currency();
    }

    /**
     * Decimals of an amount.
     *
     * @return those of the payment
     */
    public int decimals() {
        return setup.grid().decimals();
    }

    /**
     * The best day for the farmer.
     *
     * @return that of the largest net, of equals the earliest
     */
    public FinishDay best() {
        return largest(days, FinishDay::net);
    }

    private static FinishDay largest(List<FinishDay> among, ToDoubleFunction<FinishDay> figure) {
        FinishDay best = among.get(0);
        for (FinishDay day : among) {
            best = figure.applyAsDouble(day) > figure.applyAsDouble(best) ? day : best;
        }
        return best;
    }

    /**
     * The best day for the farmer on which the animal is expected to be within the customer's limits of age and fat class. A
     * limit that it is past today already can't be kept and doesn't count.
     *
     * @return that of the largest net among them, of equals the earliest
     */
    public FinishDay bestWithinLimits() {
        return largest(days.subList(0, lastWithinLimits() + 1), FinishDay::net);
    }

    /** The last day within the limits that can still be kept. */
    int lastWithinLimits() {
        int last = days.size() - 1;
        for (OptionalInt limit : List.of(lastWithinAge, lastWithinFat)) {
            last = limit.orElse(-1) >= 0 ? Math.min(last, limit.getAsInt()) : last;
        }
        return last;
    }

    /** Whether the customer limits what the animal doesn't say: its age or its farm assurance. */
    boolean lacks(MarketFault.Limit limit) {
        boolean known = limit == MarketFault.Limit.AGE
                ? animal.age().isPresent()
                : animal.assured().isPresent();
        return !known && today().missed().containsKey(limit);
    }

    /** Whether a day is where looking ends, for no reason of the animal's. */
    boolean isLastLookedAt(int day) {
        return day > 0 && day == setup.horizonDays();
    }

    /**
     * The last day on which the animal is expected to be within a limit of the customer's.
     *
     * @param limit age or fat class, for they pass with time
     * @return days from today, below 0 if it is past it today; empty if no such limit is passed on the days looked at
     * @throws IllegalArgumentException if it is another limit
     */
    public OptionalInt lastDayWithin(MarketFault.Limit limit) {
        Objects.requireNonNull(limit, "limit");
        return switch (limit) {
            case AGE -> lastWithinAge;
            case FAT_CLASS -> lastWithinFat;
            default ->
                throw new IllegalArgumentException(
                        "the limit of " + limit.words() + " is not one that passes with time; age and fat class are");
        };
    }

    /**
     * The limits that the best day lies past, and what that costs.
     *
     * @return one for age, one for fat class, none if the best day is within both
     */
    public List<PassedLimit> passed() {
        return passed;
    }

    /**
     * The best day for the hall.
     *
     * @return that of the largest margin, of equals the earliest; empty if it isn't told
     */
    public Optional<FinishDay> bestForHall() {
        return largestTold(
                day -> day.hall().map(hall -> OptionalDouble.of(hall.margin())).orElse(OptionalDouble.empty()));
    }

    /**
     * The best day for farmer and hall together, whatever is paid.
     *
     * @return that of the largest net and margin together, of equals the earliest; empty if it isn't told
     */
    public Optional<FinishDay> bestTogether() {
        return largestTold(FinishDay::together);
    }

    private Optional<FinishDay> largestTold(Function<FinishDay, OptionalDouble> figure) {
        List<FinishDay> told =
                days.stream().filter(day -> figure.apply(day).isPresent()).toList();
        return told.isEmpty()
                ? Optional.empty()
                : Optional.of(largest(told, day -> figure.apply(day).orElseThrow()));
    }

    /**
     * How flat the best is: days that leave little less.
     *
     * @param amount how much less than the best a day may leave, 0 or more
     * @return days in order, the best among them
     */
    public List<FinishDay> within(double amount) {
        double least = best().net() - amount;
        return days.stream().filter(day -> day.net() >= least).toList();
    }

    /**
     * What it brings to wait a week, below 0 for what it costs.
     *
     * @param day days from today
     * @return net a week later less net of the day, or empty if the days don't reach so far
     * @throws IndexOutOfBoundsException if the day isn't one of those looked at
     */
    public OptionalDouble aWeekFrom(int day) {
        Objects.checkIndex(day, days.size());
        return day + WEEK < days.size()
                ? OptionalDouble.of(days.get(day + WEEK).net() - days.get(day).net())
                : OptionalDouble.empty();
    }

    /**
     * What else is to be known, such as why the days end.
     *
     * @return clauses
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * What the customer takes.
     *
     * @return the specification, or empty if none is given
     */
    public Optional<MarketSpecification> market() {
        return Optional.ofNullable(setup.market());
    }

    /**
     * What it costs to hold the animal.
     *
     * @return the costs
     */
    public HoldingCosts costs() {
        return setup.costs();
    }

    /**
     * What is assumed of it.
     *
     * @return the assumptions
     */
    public Assumptions assumptions() {
        return setup.assumptions();
    }

    /** Best day within limits first, then what a day longer costs soonest, then the tag. */
    static Comparator<Forecast> drawOrder() {
        return Comparator.<Forecast>comparingInt(one -> one.bestWithinLimits().day())
                .thenComparingDouble(
                        one -> one.aWeekFrom(one.bestWithinLimits().day()).orElse(0))
                .thenComparing(one -> one.animal().id().orElse(""));
    }

    /**
     * The days as a frame, a row for each.
     *
     * @return {@code animal}, its tag; {@code day}; {@code category}; {@code age} in months; {@code live weight}, {@code cold
     *     weight} and its {@code SD} in kg; {@code conformation} and {@code fat} with SDs in points; {@code paid}, {@code feed},
     *     {@code yardage}, {@code interest}, {@code place}, {@code deaths}, {@code net} with the ends of its 90 % interval and
     *     {@code more than today} with those of its in the currency; {@code chance of more}; {@code in specification} and the
     *     chance to miss each limit in %; {@code worth}, with the ends of its 90 % interval, and {@code margin} of the hall;
     *     {@code saleable share} in %; {@code fat trim}, {@code extra fat trim} and {@code feed of extra fat} in kg. What isn't known
     *     is missing.
     */
    public Frame toFrame() {
        return new ForecastText(this).frame();
    }

    /**
     * The forecast for people: the best day and how sure it is, what passes, and a table by week.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new ForecastText(this).blocks();
    }

    /**
     * One line.
     *
     * @return the animal and its best day
     */
    @Override
    public String toString() {
        return new ForecastText(this).sentence();
    }
}
