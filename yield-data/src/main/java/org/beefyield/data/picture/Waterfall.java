package org.beefyield.data.picture;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.price.Attribution;
import org.beefyield.price.Factor;
import org.beefyield.price.Money;
import org.beefyield.price.Value;
import org.beefyield.reconcile.Cause;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.text.Names;
import org.beefyield.text.Place;

/** From one amount of money to another, step by step: each bar begins where the one above ends. */
final class Waterfall {
    private static final int TICKS = 5;
    private static final double MARK_PX = 5;

    private Waterfall() {}

    /** An end, or a step between the ends, with what it is called. */
    private record Named(String name, Money money) {
        double value() {
            return money.amount().doubleValue();
        }

        String figure() {
            return Figures.grouped(money.amountText());
        }
    }

    /** From the value of the second to that of the first, largest factor first. */
    static Picture draw(Attribution attribution) {
        Named from = new Named(describe(attribution.second(), "second"), money(attribution.second()));
        Named to = new Named(describe(attribution.first(), "first"), money(attribution.first()));
        String unit = from.money.currency() + " a head";
        return draw(
                "Why one is worth more, " + unit,
                List.of(
                        to.name + " against " + from.name.substring(0, 1).toLowerCase(Locale.ROOT)
                                + from.name.substring(1),
                        Outturns.subtitles(attribution.first().outturn()).get(1)),
                "",
                unit,
                from,
                factors(attribution).stream()
                        .map(factor -> new Named(Names.capital(factor.words()), attribution.money(factor)))
                        .toList(),
                to,
                List.of(interval(attribution)));
    }

    /** From what was expected to what was weighed, in the order in which causes are worked out. */
    static Picture draw(Reconciliation run) {
        boolean baseline = Stream.of(Cause.MIX, Cause.WAY, Cause.PRICE)
                .anyMatch(cause -> run.money(cause).signum() != 0);
        Named from = new Named(baseline ? "Baseline" : "Expected", run.baselineMoney());
        Named to = new Named("Weighed", run.weighedMoney());
        String unit = from.money.currency();
        String boned = run.run() + ", " + Figures.fixed(run.intakeKg(), 1) + " kg boned";
        return draw(
                "From " + from.name.toLowerCase(Locale.ROOT) + " to weighed, " + unit,
                List.of(boned),
                boned + ". ",
                unit,
                from,
                Stream.of(Cause.values())
                        .map(cause -> new Named(Names.capital(cause.words()), run.money(cause)))
                        .filter(step -> step.money.signum() != 0)
                        .toList(),
                to,
                List.of());
    }

    private static Picture draw(
            String title,
            List<String> subtitles,
            String opening,
            String unit,
            Named from,
            List<Named> steps,
            Named to,
            List<String> notes) {
        Rows rows = new Rows(from.money.currency());
        StringBuilder words =
                new StringBuilder(opening + "In " + unit + ". " + from.name + ": " + from.figure() + ". ");
        BigDecimal at = from.money.amount();
        double low = Math.min(from.value(), to.value());
        double high = Math.max(from.value(), to.value());
        total(rows, from);
        for (Named step : steps) {
            double start = at.doubleValue();
            at = at.add(step.money.amount());
            double end = at.doubleValue();
            low = Math.min(low, end);
            high = Math.max(high, end);
            String figure = (end > start ? "+" : "") + step.figure();
            rows.row(
                    step.name,
                    List.of(figure),
                    (plot, centrePx) -> plot.bar(
                            end > start ? TableChanges.MORE : TableChanges.LESS,
                            Math.min(start, end),
                            Math.max(start, end),
                            centrePx));
            words.append(step.name).append(' ').append(figure).append(". ");
        }
        total(rows, to);
        words.append(to.name).append(": ").append(to.figure()).append('.');
        double least = low;
        double most = high;
        Plot plot = rows.plot(
                title,
                subtitles,
                new Legend()
                        .bar("adds", TableChanges.MORE)
                        .bar("takes away", TableChanges.LESS)
                        .sign(
                                "value",
                                (drawn, leftPx, rightPx, centrePx) -> drawn.markPx(
                                        Mark.DIAMOND, Ink.STRONG, (leftPx + rightPx) / 2, centrePx, MARK_PX)),
                unit + "; the axis doesn't begin at 0",
                roomPx -> Axis.rounded(least, most, TICKS, roomPx));
        plot.notes(notes);
        notes.forEach(note -> words.append(' ').append(note).append('.'));
        return plot.picture(words.toString());
    }

    private static void total(Rows rows, Named end) {
        rows.row(
                end.name,
                List.of(end.figure()),
                (plot, centrePx) -> plot.markPx(Mark.DIAMOND, Ink.STRONG, plot.px(end.value()), centrePx, MARK_PX));
    }

    private static Money money(Value value) {
        return Money.rounded(value.perHead(), value.prices().decimals(), value.currency());
    }

    /** Those that come to anything as printed, largest first. */
    private static List<Factor> factors(Attribution attribution) {
        List<Factor> factors = new ArrayList<>(List.of(Factor.values()));
        factors.removeIf(factor -> attribution.money(factor).signum() == 0);
        factors.sort(Comparator.comparing(
                (Factor factor) -> attribution.money(factor).amount().abs(), Comparator.reverseOrder()));
        return factors;
    }

    private static String interval(Attribution attribution) {
        String currency = attribution.first().currency();
        return attribution
                .uncertainty()
                .map(difference -> {
                    Interval interval = difference.expectedInterval(Interval.SHOWN_PROBABILITY);
                    Place place =
                            interval.placeOfMoney(attribution.first().prices().decimals());
                    Money money = attribution.money();
                    return "The first is worth "
                            + Figures.grouped(money.amount().abs().toPlainString()) + " " + currency
                            + (money.signum() < 0 ? " less" : " more") + " a head; 90 % interval of the difference,"
                            + " prices as given: " + Figures.grouped(place.text(interval.low())) + " to "
                            + Figures.grouped(place.text(interval.high()));
                })
                .orElse("The difference has no interval: the two were estimated with other scales or other parts of the"
                        + " uncertainty");
    }

    private static String describe(Value value, String place) {
        if (value.outturn() instanceof YieldEstimate estimate) {
            Carcass carcass = estimate.carcass();
            return carcass.id().orElse("The " + place) + ", " + carcass.category() + " " + carcass.conformation() + " "
                    + carcass.fatClass() + ", " + Outturns.plain(carcass.coldWeightKg()) + " kg";
        }
        String name = value.outturn() instanceof LotEstimate lot
                ? lot.name().orElse("The " + place + " lot") + ", " + Outturns.carcasses(lot)
                : "The " + place;
        return name + ", mean " + Figures.fixed(value.outturn().coldWeightKg() / heads(value), 1) + " kg";
    }

    private static double heads(Value value) {
        return value.outturn() instanceof LotEstimate lot ? lot.carcasses() : 1;
    }
}
