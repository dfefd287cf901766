package org.beefyield.finish;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.feedback.Overfat;
import org.beefyield.feedback.OverfatCost;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.Marginals;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.stats.Sample;
import org.jspecify.annotations.Nullable;

/**
 * What an animal becomes and what that pays, day by day: evenly spread draws of all that isn't sure about it, each followed
 * through all days.
 */
final class Projection {
    private static final int CLASS_POINTS = 3;
    private static final double AT_R = 8;
    private static final int CALVES_TO = 12;
    private static final int BULLS_FROM = 24;
    private static final double THIRD = 1;
    private static final double OF_EVEN = 12;
    private static final double TAIL = (1 - Interval.SHOWN_PROBABILITY) / 2;
    private static final int COLUMNS = 6;
    private static final int WEEK = 7;
    private static final double LIGHTEST_KG = 1;

    /** Ages and assurances of one pen are few. */
    record PayKey(
            Category category,
            @Nullable Integer months,
            @Nullable Boolean assured) {}

    private final Setup setup;
    private final FinishAnimal animal;
    private final Map<PayKey, PayTable> tables;
    private final int size;
    private final double[] live0;
    private final double[] cold0;
    private final double[] gainMore;
    private final double[] conformation0;
    private final double[] fat0;
    private final double[] fatPerDay;
    private final double share;
    private final double perKg;
    private final double meanLive;
    private final double meanCold;
    private final double meanFatPerDay;
    private final double coldSd;
    private final double gainSd;
    private final double conformationSd;
    private final double fatSd;
    private final double fatPerDaySd;
    private final List<String> notes = new ArrayList<>();
    private final int lastDay;

    Projection(Setup setup, FinishAnimal animal, Map<PayKey, PayTable> tables) {
        this.setup = setup;
        this.animal = animal;
        this.tables = tables;
        Assumptions assumed = setup.assumptions();
        share = assumed.value(Quantity.CARCASS_SHARE_OF_GAIN);
        perKg = assumed.value(Quantity.CONFORMATION_POINTS_PER_KG);
        meanFatPerDay = assumed.value(Quantity.FAT_POINTS_PER_DAY);
        double c = animal.conformation().position();
        double killingOut = animal.killingOut()
                .orElseGet(() -> (assumed.value(Quantity.KILLING_OUT_AT_R_PERCENT)
                                + (c - AT_R) / CLASS_POINTS * assumed.value(Quantity.KILLING_OUT_PER_CLASS_PERCENT))
                        / 100);
        double killingOutSd =
                animal.killingOutSd().orElseGet(() -> assumed.value(Quantity.KILLING_OUT_SD_PERCENT) / 100);
        gainSd = animal.gainSd().orElseGet(() -> assumed.value(Quantity.GAIN_SD_KG_PER_DAY));
        conformationSd = graded(
                animal.conformationSd().orElseGet(() -> assumed.value(Quantity.CONFORMATION_SD_POINTS)),
                animal.conformation().width());
        fatSd = graded(
                animal.fatSd().orElseGet(() -> assumed.value(Quantity.FAT_SD_POINTS)),
                animal.fatClass().width());
        fatPerDaySd = assumed.value(Quantity.FAT_POINTS_PER_DAY_SD);
        boolean sure = animal.weightSdKg() == 0
                && (killingOutSd == 0 || !animal.isLiveWeight())
                && gainSd == 0
                && conformationSd == 0
                && fatSd == 0
                && fatPerDaySd == 0;
        double[][] z = sure ? Draws.middle(COLUMNS) : Draws.columns(COLUMNS);
        size = z[0].length;
        meanLive = animal.isLiveWeight() ? animal.weightKg() : animal.weightKg() / killingOut;
        meanCold = animal.isLiveWeight() ? animal.weightKg() * killingOut : animal.weightKg();
        // of a product of two that are independent
        coldSd = animal.isLiveWeight()
                ? Math.sqrt(Math.pow(meanLive * killingOutSd, 2)
                        + Math.pow(animal.weightSdKg() * killingOut, 2)
                        + Math.pow(animal.weightSdKg() * killingOutSd, 2))
                : animal.weightSdKg();
        live0 = of(i -> animal.isLiveWeight()
                ? Math.max(LIGHTEST_KG, meanLive + animal.weightSdKg() * z[0][i])
                : Math.max(LIGHTEST_KG, meanLive + animal.weightSdKg() * z[0][i] / killingOut));
        cold0 = of(i -> animal.isLiveWeight()
                ? live0[i] * (killingOut + killingOutSd * z[1][i])
                : meanCold + animal.weightSdKg() * z[0][i]);
        gainMore = of(i -> gainSd * z[2][i]);
        conformation0 = of(i -> c + conformationSd * z[3][i]);
        fat0 = of(i -> animal.fatClass().position() + fatSd * z[4][i]);
        fatPerDay = of(i -> meanFatPerDay + fatPerDaySd * z[5][i]);
        lastDay = lastDay();
        noteBull();
    }

    /** A grade wider than a third leaves open where in it the animal stands. */
    private static double graded(double sd, double width) {
        double open = Math.max(0, width * width - THIRD * THIRD) / OF_EVEN;
        return open == 0 ? sd : Math.sqrt(sd * sd + open);
    }

    private interface Drawn {
        double of(int i);
    }

    private double[] of(Drawn drawn) {
        return IntStream.range(0, size).mapToDouble(drawn::of).toArray();
    }

    List<String> notes() {
        return notes;
    }

    private int lastDay() {
        for (int day = 0; day <= setup.horizonDays(); day++) {
            double live = meanLive + animal.gain().until(day);
            double cold = meanCold + share * animal.gain().until(day);
            OptionalInt months = months(day);
            String why = null;
            if (!(cold >= LIGHTEST_KG && cold <= CarcassWeights.HEAVIEST_KG && live <= FinishAnimal.HEAVIEST_KG)) {
                why = "its weight leaves what an animal can weigh";
            } else if (cold < FinishAnimal.LEAST_KILLING_OUT * live || cold > FinishAnimal.MOST_KILLING_OUT * live) {
                why = "its carcass leaves what it can be of its live weight, 30 to 75 %";
            } else if (animal.category() == Category.CALF && months.orElse(0) >= CALVES_TO) {
                why = "it is no calf from 12 months on, and which category it is then isn't said";
            }
            if (why != null) {
                if (day == 0) {
                    throw new IllegalArgumentException("animal " + animal + ": " + why);
                }
                notes.add("Days end at day " + (day - 1) + ": " + why);
                return day - 1;
            }
        }
        return setup.horizonDays();
    }

    private void noteBull() {
        for (int day = 0; day <= lastDay; day++) {
            Category then = category(months(day));
            if (then != animal.category()) {
                notes.add("From day " + day + " on it is of category " + then + ", " + BULLS_FROM + " months old");
                return;
            }
        }
    }

    private OptionalInt months(int day) {
        return animal.age().map(age -> OptionalInt.of(age.completedMonths(day))).orElse(OptionalInt.empty());
    }

    private Category category(OptionalInt months) {
        return animal.category() == Category.YOUNG_BULL && months.orElse(0) >= BULLS_FROM
                ? Category.BULL
                : animal.category();
    }

    private FinishState state(int day) {
        double gained = animal.gain().until(day);
        OptionalInt months = months(day);
        return new FinishState(
                category(months),
                months,
                meanLive + gained,
                meanCold + share * gained,
                Math.hypot(coldSd, share * gainSd * day),
                animal.conformation().position() + perKg * share * gained,
                Math.hypot(conformationSd, perKg * share * gainSd * day),
                animal.fatClass().position() + meanFatPerDay * day,
                Math.hypot(fatSd, fatPerDaySd * day));
    }

    private double fat(int i, int day) {
        return fat0[i] + fatPerDay[i] * day;
    }

    private PayTable table(Category category, OptionalInt months) {
        Integer completed = months.isPresent() ? months.getAsInt() : null;
        return tables.computeIfAbsent(
                new PayKey(category, completed, animal.assured().orElse(null)),
                key -> new PayTable(setup, key.category(), key.months(), key.assured()));
    }

    /** What each draw is paid on a day, by rules that may be those of another age or leave the fattest out. */
    private PayTable.Cell[] cells(PayTable table, int day, int fattest, double[] payment) {
        PayTable.Cell[] cells = new PayTable.Cell[size];
        double moved = setup.move(day).paidPerKg();
        double gained = animal.gain().until(day);
        try {
            for (int i = 0; i < size; i++) {
                double own = gained + gainMore[i] * day;
                double cold = cold0[i] + share * own;
                double kg = Math.max(LIGHTEST_KG, Math.min(CarcassWeights.HEAVIEST_KG, cold));
                PayTable.Cell cell = table.cell(
                        kg,
                        PayTable.conformationThird(conformation0[i] + perKg * share * own),
                        Math.min(fattest, PayTable.fatThird(fat(i, day))));
                cells[i] = cell;
                payment[i] = kg * (cell.perKg() + moved);
            }
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(
                    "animal " + animal + ", which may be so graded on day " + day + ": " + e.getMessage(), e);
        }
        return cells;
    }

    List<FinishDay> days() {
        HoldingCosts costs = setup.costs();
        double[] today = new double[size];
        double[] feedKg = new double[size];
        List<FinishDay> days = new ArrayList<>();
        double[] payment = new double[size];
        HallFigures hall = setup.valuer() == null ? null : new HallFigures(setup.valuer());
        for (int day = 0; day <= lastDay; day++) {
            FinishState state = state(day);
            PayTable.Cell[] cells = cells(table(state.category(), state.ageMonths()), day, Integer.MAX_VALUE, payment);
            if (day == 0) {
                today = payment.clone();
            }
            double paid = mean(payment);
            double price = costs.feed().map(Feed::pricePerKg).orElse(0.0);
            double sure = costs.yardagePerDay() * day + costs.interest(mean(today), day) + costs.place(day);
            double meanFeedKg = mean(feedKg);
            HeldCost cost = new HeldCost(
                    meanFeedKg,
                    meanFeedKg * price,
                    costs.yardagePerDay() * day,
                    costs.interest(mean(today), day),
                    costs.place(day),
                    paid * (1 - costs.alive(day)));
            double[] net = new double[size];
            double[] more = new double[size];
            int better = 0;
            for (int i = 0; i < size; i++) {
                net[i] = payment[i] - feedKg[i] * price - sure;
                more[i] = net[i] - today[i];
                better += more[i] > 0 ? 1 : 0;
            }
            double left = paid - cost.total();
            days.add(new FinishDay(
                    day,
                    state,
                    paid,
                    cost,
                    left,
                    interval(net),
                    left - mean(today),
                    interval(more),
                    (double) better / size,
                    setup.market() == null ? OptionalDouble.empty() : OptionalDouble.of(taken(cells)),
                    missed(cells),
                    hall == null ? Optional.empty() : hall.on(day, state, paid, meanFeedKg)));
            eat(state.category(), day, feedKg);
        }
        if (hall != null) {
            hall.note();
        }
        return days;
    }

    /** Adds what is eaten from a day to the next. */
    private void eat(Category category, int day, double[] feedKg) {
        setup.costs().feed().ifPresent(feed -> {
            double gain = animal.gain().until(day + 1) - animal.gain().until(day);
            double gained = animal.gain().until(day);
            double same = feed.kg(category, day, meanLive + gained, gain);
            NetEnergy.Need need = feed.diet().map(diet -> diet.need(category)).orElse(null);
            for (int i = 0; i < size; i++) {
                feedKg[i] += need == null
                        ? same
                        : need.dryMatterKg(live0[i] + gained + gainMore[i] * day, gain + gainMore[i]);
            }
        });
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }

    private static Interval interval(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return new Interval(
                Sample.quantile(sorted, TAIL), Sample.quantile(sorted, 1 - TAIL), Interval.SHOWN_PROBABILITY);
    }

    private static double taken(PayTable.Cell[] cells) {
        return (double) Arrays.stream(cells)
                        .filter(cell -> cell.missed().isEmpty())
                        .count()
                / cells.length;
    }

    private static Map<MarketFault.Limit, Double> missed(PayTable.Cell[] cells) {
        Map<MarketFault.Limit, Double> missed = new EnumMap<>(MarketFault.Limit.class);
        for (MarketFault.Limit limit : MarketFault.Limit.values()) {
            long count = Arrays.stream(cells)
                    .filter(cell -> cell.missed().contains(limit))
                    .count();
            if (count > 0) {
                missed.put(limit, (double) count / cells.length);
            }
        }
        return missed;
    }

    /** The last day within a limit, below 0 if it is past it today, empty if there is none or it isn't reached. */
    OptionalInt lastDayWithin(MarketFault.Limit limit) {
        MarketSpecification market = setup.market();
        if (market == null) {
            return OptionalInt.empty();
        }
        for (int day = 0; day <= lastDay; day++) {
            if (limit == MarketFault.Limit.AGE ? isTooOld(market, day) : isTooFat(market, day)) {
                return OptionalInt.of(day - 1);
            }
        }
        return OptionalInt.empty();
    }

    private boolean isTooOld(MarketSpecification market, int day) {
        OptionalInt months = months(day);
        return market.underMonths().isPresent()
                && months.isPresent()
                && months.getAsInt() >= market.underMonths().getAsInt();
    }

    private boolean isTooFat(MarketSpecification market, int day) {
        FatClass expected =
                FatClass.thirds().get(PayTable.fatThird(animal.fatClass().position() + meanFatPerDay * day));
        return market.fattest().isPresent()
                && market.edge().isAbove(expected, market.fattest().orElseThrow());
    }

    /** What is paid less on a day for a limit that is passed. */
    double lostTo(MarketFault.Limit limit, int day) {
        MarketSpecification market = Objects.requireNonNull(setup.market());
        OptionalInt months = months(day);
        OptionalInt within = limit == MarketFault.Limit.AGE
                ? youngest(months, market.underMonths().orElseThrow() - 1)
                : months;
        int fattest = Integer.MAX_VALUE;
        if (limit == MarketFault.Limit.FAT_CLASS) {
            List<FatClass> thirds = FatClass.thirds();
            fattest = -1;
            while (fattest + 1 < thirds.size()
                    && !market.edge()
                            .isAbove(thirds.get(fattest + 1), market.fattest().orElseThrow())) {
                fattest++;
            }
        }
        double[] as = new double[size];
        double[] otherwise = new double[size];
        cells(table(category(months), months), day, Integer.MAX_VALUE, as);
        cells(table(category(within), within), day, Math.max(0, fattest), otherwise);
        return mean(otherwise) - mean(as);
    }

    /** An age within the limit, unless the animal's category has none so young. */
    private OptionalInt youngest(OptionalInt months, int within) {
        try {
            OptionalInt younger = OptionalInt.of(within);
            category(younger).checkAge(within);
            return younger;
        } catch (IllegalArgumentException e) {
            return months;
        }
    }

    /** What the carcass is to the hall, day by day. */
    private final class HallFigures {
        private final Valuer valuer;
        private final Overfat overfat;
        private @Nullable YieldEstimate first;
        private @Nullable Marginals week;
        private @Nullable String refused;
        private int refusedFrom;

        HallFigures(Valuer valuer) {
            this.valuer = valuer;
            this.overfat =
                    Overfat.against(valuer.estimator(), state(0).carcass().fatClass());
        }

        Optional<HallDay> on(int day, FinishState state, double paid, double feedKg) {
            if (refused != null) {
                return Optional.empty();
            }
            Carcass carcass = state.carcass();
            try {
                YieldEstimate estimate = valuer.estimator().estimate(carcass);
                YieldEstimate today = first == null ? estimate : first;
                first = today;
                Value value = valuer.value(estimate);
                double amount = value.amount() + setup.move(day).worthPerKg() * carcass.coldWeightKg();
                double extra = overfat.cost(carcass)
                        .map(OverfatCost::extraFatTrim)
                        .map(difference -> difference.kg())
                        .orElse(0.0);
                return Optional.of(new HallDay(
                        amount,
                        interval(day, value, state, amount),
                        amount - paid,
                        estimate.saleableKg() / carcass.coldWeightKg(),
                        estimate.fatTrimKg(),
                        extra,
                        feedOf(extra, estimate, today, feedKg)));
            } catch (RefusedCarcassException | MissingPriceException e) {
                refused = e.getMessage();
                refusedFrom = day;
                return Optional.empty();
            }
        }

        private Interval interval(int day, Value value, FinishState state, double amount) {
            // they hardly change within a week
            Marginals slopes = week == null || day % WEEK == 0 ? Marginals.of(valuer, state.carcass()) : week;
            week = slopes;
            double ofWeight = slopes.tenKg().amount() / 10 * state.coldSdKg();
            double ofConformation = slopes.conformationPoint().amount() * state.conformationSd();
            double ofFat = slopes.fatPoint().amount() * state.fatSd();
            double sd = Math.sqrt(
                    value.sd() * value.sd() + ofWeight * ofWeight + ofConformation * ofConformation + ofFat * ofFat);
            return Interval.normal(amount, sd, Interval.SHOWN_PROBABILITY);
        }

        private OptionalDouble feedOf(double extra, YieldEstimate estimate, YieldEstimate today, double feedKg) {
            double meat = estimate.saleableKg() - today.saleableKg();
            double fat = estimate.fatTrimKg() - today.fatTrimKg();
            double all = meat + Overfat.USUAL_FEED_RATIO * fat;
            return feedKg > 0 && meat >= 0 && fat >= 0 && all > 0
                    ? OptionalDouble.of(feedKg * Math.min(1, Overfat.USUAL_FEED_RATIO * extra / all))
                    : OptionalDouble.empty();
        }

        void note() {
            if (refused != null) {
                notes.add("What it is to the hall isn't told from " + FinishDay.words(refusedFrom) + " on: " + refused);
            }
        }
    }

    static Map<PayKey, PayTable> noTables() {
        return new HashMap<>();
    }
}
