package org.beefyield.data.picture;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.price.Attribution;
import org.beefyield.price.Factor;
import org.beefyield.price.Money;
import org.beefyield.price.Value;
import org.beefyield.text.Names;
import org.beefyield.text.Place;

/** From the value of one to that of another, factor by factor: each bar begins where the one above ends. */
final class Waterfall {
    private static final int TICKS = 5;
    private static final double MARK_PX = 5;

    private Waterfall() {}

    static Picture draw(Attribution attribution) {
        Money second = money(attribution.second());
        Money first = money(attribution.first());
        String currency = first.currency();
        Rows rows = new Rows(currency);
        String from = describe(attribution.second(), "second");
        String to = describe(attribution.first(), "first");
        StringBuilder words = new StringBuilder(
                "In " + currency + " a head. " + from + ": " + Figures.grouped(second.amountText()) + ". ");
        BigDecimal at = second.amount();
        double low = Math.min(value(second), value(first));
        double high = Math.max(value(second), value(first));
        total(rows, from, second);
        for (Factor factor : factors(attribution)) {
            Money part = attribution.money(factor);
            double start = at.doubleValue();
            at = at.add(part.amount());
            double end = at.doubleValue();
            low = Math.min(low, end);
            high = Math.max(high, end);
            String name = Names.capital(factor.words());
            String figure = (end > start ? "+" : "") + Figures.grouped(part.amountText());
            rows.row(
                    name,
                    List.of(figure),
                    (plot, centrePx) -> plot.bar(
                            end > start ? TableChanges.MORE : TableChanges.LESS,
                            Math.min(start, end),
                            Math.max(start, end),
                            centrePx));
            words.append(name).append(' ').append(figure).append(". ");
        }
        total(rows, to, first);
        words.append(to)
                .append(": ")
                .append(Figures.grouped(first.amountText()))
                .append('.');
        String interval = interval(attribution);
        double least = low;
        double most = high;
        Plot plot = rows.plot(
                "Why one is worth more, " + currency + " a head",
                List.of(
                        to + " against " + from.substring(0, 1).toLowerCase(Locale.ROOT) + from.substring(1),
                        Outturns.subtitles(attribution.first().outturn()).get(1)),
                new Legend()
                        .bar("adds", TableChanges.MORE)
                        .bar("takes away", TableChanges.LESS)
                        .sign(
                                "value",
                                (drawn, leftPx, rightPx, centrePx) -> drawn.markPx(
                                        Mark.DIAMOND, Ink.STRONG, (leftPx + rightPx) / 2, centrePx, MARK_PX)),
                currency + " a head; the axis doesn't begin at 0",
                roomPx -> Axis.rounded(least, most, TICKS, roomPx));
        plot.notes(List.of(interval));
        return plot.picture(words + " " + interval + ".");
    }

    private static void total(Rows rows, String name, Money money) {
        rows.row(
                name,
                List.of(Figures.grouped(money.amountText())),
                (plot, centrePx) -> plot.markPx(Mark.DIAMOND, Ink.STRONG, plot.px(value(money)), centrePx, MARK_PX));
    }

    private static Money money(Value value) {
        return Money.rounded(value.perHead(), value.prices().decimals(), value.currency());
    }

    private static double value(Money money) {
        return money.amount().doubleValue();
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
