package org.beefyield.finish;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.MarketFault;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A forecast in words. */
final class ForecastText {
    /** What goes before any figure here. */
    static final String FIRST =
            "Fitness for transport, animal welfare, withdrawal periods of medicines and movement rules come first and are as"
                    + " local rules and the veterinarian say; grades are given by licensed classifiers, not by a forecast.";

    private static final int WEEKS_SHOWN = 12;
    private static final double MOST_SHARE = 0.01;
    private static final int SHARE_DECIMALS = 1;
    private static final Total ALONE = Total.NONE;

    private final Forecast forecast;

    ForecastText(Forecast forecast) {
        this.forecast = forecast;
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentences(sentences()).add(table());
        blocks.sentences(reasons());
        blocks.sentences(costWords());
        return blocks.add(forecast.assumptions())
                .sentence(FIRST)
                .sentence(Cautions.PLANNING)
                .sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        FinishDay best = forecast.best();
        return forecast.animal() + ": best day " + FinishDay.words(best.day()) + ", " + money(best.net()) + " net"
                + (best.day() == 0 ? "" : ", " + money(best.more()) + " more than today");
    }

    /** What a reader wants first. */
    List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        FinishDay today = forecast.today();
        FinishDay best = forecast.best();
        sentences.add(animal() + ": about " + Numbers.fixed(today.state().coldKg(), 0) + " kg cold today, "
                + money(today.payment()) + " paid" + taken(today) + ".");
        sentences.add(advice(best, "The best day for the farmer is "));
        sentences.addAll(limits(best));
        sentences.add(flat(best));
        sentences.addAll(weeks(best));
        sentences.addAll(hall(best));
        sentences.addAll(fat(best));
        if (forecast.lacks(MarketFault.Limit.AGE)) {
            sentences.add("Its age isn't given, which " + marketName() + " limits: it counts as missing that limit.");
        }
        if (forecast.lacks(MarketFault.Limit.ASSURANCE)) {
            sentences.add(
                    "Whether it is farm-assured isn't given, which " + marketName() + " asks for: it counts as not.");
        }
        forecast.notes().forEach(note -> sentences.add(note + "."));
        return sentences;
    }

    private String animal() {
        FinishAnimal animal = forecast.animal();
        return (animal.id().isPresent() ? animal.id().orElseThrow() + ", " : "Category ") + animal.category() + " "
                + animal.conformation() + " " + animal.fatClass() + ", " + Numbers.brief(animal.weightKg()) + " kg "
                + (animal.isLiveWeight() ? "live" : "cold")
                + animal.age().map(age -> ", " + age).orElse("");
    }

    private static String taken(FinishDay day) {
        return day.inSpecification().isPresent()
                ? ", in specification with a chance of "
                        + percent(day.inSpecification().getAsDouble()) + " %"
                : "";
    }

    private String advice(FinishDay best, String begin) {
        if (best.day() == 0) {
            String next = forecast.days().size() == 1
                    ? "no other day was looked at"
                    : "one day more would cost "
                            + money(best.net() - forecast.days().get(1).net());
            return begin + "today: sell; " + next + ".";
        }
        return begin + FinishDay.words(best.day()) + ": about "
                + Numbers.fixed(best.state().coldKg(), 0) + " kg, "
                + best.state().conformationThird() + " " + best.state().fatThird() + taken(best) + ", "
                + money(best.payment()) + " paid less " + money(best.cost().total()) + " cost leaves "
                + money(best.net())
                + " (90 % sure, if it lives: " + ends(best.netInterval()) + "). That is " + money(best.more())
                + " more than today (90 % sure: " + ends(best.moreInterval()) + "); it leaves more with a chance of "
                + percent(best.chanceOfMore()) + " %.";
    }

    /** What it means that the best day lies past a limit. */
    private List<String> limits(FinishDay best) {
        List<String> said = new ArrayList<>();
        for (PassedLimit limit : forecast.passed()) {
            String name = "the limit of " + limit.limit().words() + " of " + marketName();
            said.add((limit.isPastToday()
                            ? "It is past " + name + " today already; "
                            : capital(FinishDay.words(best.day())) + " lies past " + name + ", of which "
                                    + FinishDay.words(limit.lastDay()) + " is the last within; ")
                    + lost(limit) + ", and whether it is taken at all is the customer's to say.");
        }
        FinishDay within = forecast.bestWithinLimits();
        if (within.day() != best.day()) {
            said.add(advice(within, "Within the limits the best day is ") + " Going past them would bring "
                    + money(best.net() - within.net()) + " more.");
        }
        for (MarketFault.Limit limit : List.of(MarketFault.Limit.AGE, MarketFault.Limit.FAT_CLASS)) {
            int last = forecast.lastDayWithin(limit).orElse(-1);
            if (last >= best.day()) {
                said.add("The last day within the limit of " + limit.words() + " is " + FinishDay.words(last) + ".");
            }
        }
        return said;
    }

    private String lost(PassedLimit limit) {
        double least = Math.pow(10, -forecast.decimals()) / 2;
        return Math.abs(limit.lost()) < least
                ? "by this grid that costs nothing of its payment"
                : "that costs about " + money(limit.lost()) + " of its payment on its best day";
    }

    String marketName() {
        return forecast.market().map(market -> market.name()).orElse("the customer");
    }

    private String flat(FinishDay best) {
        String one = "1 " + forecast.currency();
        return capital(near(best, one, forecast.within(1))) + "; "
                + near(best, "1 %", forecast.within(MOST_SHARE * Math.abs(best.net()))) + ".";
    }

    /** Which days leave little less than the best. */
    private static String near(FinishDay best, String less, List<FinishDay> days) {
        List<Long> numbers = days.stream().map(day -> (long) day.day()).toList();
        return days.size() == 1
                ? "no day but " + FinishDay.words(best.day()) + " comes within " + less + " of the best"
                : Numbers.places("day", numbers)
                                .replace("(", "")
                                .replace(")", "")
                                .strip() + " come within " + less + " of the best";
    }

    private List<String> weeks(FinishDay best) {
        List<String> said = new ArrayList<>();
        forecast.aWeekFrom(0)
                .ifPresent(change -> said.add("Waiting a week from today " + brings(change)
                        + (forecast.aWeekFrom(best.day()).isPresent() && best.day() > 0
                                ? "; waiting a week beyond the best day "
                                        + brings(forecast.aWeekFrom(best.day()).getAsDouble())
                                : "")
                        + "."));
        if (forecast.isLastLookedAt(best.day())) {
            said.add("The best day is the last that was looked at: look further to see where it ends.");
        }
        return said;
    }

    private String brings(double change) {
        return (change < 0 ? "costs " : "brings ") + money(Math.abs(change));
    }

    private List<String> hall(FinishDay best) {
        Optional<FinishDay> forHall = forecast.bestForHall();
        if (forHall.isEmpty()) {
            return List.of();
        }
        FinishDay hall = forHall.orElseThrow();
        FinishDay both = forecast.bestTogether().orElseThrow();
        HallDay then = hall.hall().orElseThrow();
        return List.of("The best day for the hall is " + FinishDay.words(hall.day()) + ": worth " + money(then.value())
                + " (90 % sure, prices as given: " + ends(then.valueInterval()) + "), " + money(then.margin())
                + " over its payment"
                + best.hall()
                        .filter(of -> best.day() != hall.day())
                        .map(of -> ", beside " + money(of.margin()) + " on the farmer's best day")
                        .orElse("")
                + ". The best day for both together is " + FinishDay.words(both.day()) + ".");
    }

    private List<String> fat(FinishDay best) {
        Optional<HallDay> today = forecast.today().hall();
        Optional<HallDay> then = best.hall();
        if (best.day() == 0 || today.isEmpty() || then.isEmpty()) {
            return List.of();
        }
        HallDay of = then.orElseThrow();
        return List.of("Saleable meat goes from " + percent1(today.orElseThrow().saleableShare()) + " to "
                + percent1(of.saleableShare()) + " % of the carcass by " + FinishDay.words(best.day())
                + ", and fat trim from "
                + Numbers.fixed(today.orElseThrow().fatTrimKg(), 0) + " to " + Numbers.fixed(of.fatTrimKg(), 0)
                + " kg, "
                + Numbers.fixed(of.extraFatTrimKg(), 0) + " kg of it for the higher fat class"
                + (of.extraFatFeedKg().isPresent()
                        ? ", which took about "
                                + Numbers.fixed(of.extraFatFeedKg().getAsDouble(), 0) + " of "
                                + Numbers.fixed(best.cost().feedKg(), 0) + " kg of feed"
                        : "")
                + ".");
    }

    /** Today, each week and the best days. */
    private TextTable table() {
        Set<Integer> shown = new TreeSet<>();
        int last = forecast.days().size() - 1;
        for (int day = 0; day <= Math.min(last, WEEKS_SHOWN * Forecast.WEEK); day += Forecast.WEEK) {
            shown.add(day);
        }
        shown.add(Math.min(last, 1));
        shown.add(last);
        shown.add(forecast.best().day());
        shown.add(forecast.bestWithinLimits().day());
        boolean market = forecast.market().isPresent();
        boolean hall = forecast.bestForHall().isPresent();
        List<String> header = new ArrayList<>(List.of("day", "cold, kg", "conformation", "fat class", "age, months"));
        if (market) {
            header.add("in specification, %");
        }
        String currency = forecast.currency();
        header.addAll(List.of(
                "paid, " + currency,
                "feed, " + currency,
                "other cost, " + currency,
                "net, " + currency,
                "90 % interval: low",
                "high"));
        if (hall) {
            header.addAll(List.of("worth to the hall, " + currency, "its margin, " + currency, "saleable, %"));
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (int day : shown) {
            table.row(row(forecast.days().get(day), market, hall));
        }
        return table;
    }

    private List<String> row(FinishDay day, boolean market, boolean hall) {
        FinishState state = day.state();
        List<String> row = new ArrayList<>(List.of(
                day.day() + (day.day() == forecast.best().day() ? " best" : ""),
                Numbers.fixed(state.coldKg(), 0),
                state.conformationThird().toString(),
                state.fatThird().toString(),
                state.ageMonths().isPresent()
                        ? Integer.toString(state.ageMonths().getAsInt())
                        : ""));
        if (market) {
            row.add(percent(day.inSpecification().orElse(0)));
        }
        row.addAll(List.of(
                whole(day.payment()),
                whole(day.cost().feed()),
                whole(day.cost().total() - day.cost().feed()),
                whole(day.payment() - day.cost().total()),
                whole(day.netInterval().low()),
                whole(day.netInterval().high())));
        if (hall) {
            row.add(day.hall().map(of -> whole(of.value())).orElse(""));
            row.add(day.hall().map(of -> whole(of.margin())).orElse(""));
            row.add(day.hall().map(of -> percent1(of.saleableShare())).orElse(""));
        }
        return row;
    }

    /** Why it may not be in specification, today and on the best days. */
    private List<String> reasons() {
        List<String> said = new ArrayList<>();
        Set<FinishDay> days =
                new LinkedHashSet<>(Arrays.asList(forecast.today(), forecast.bestWithinLimits(), forecast.best()));
        for (FinishDay day : days) {
            if (!day.missed().isEmpty()) {
                said.add("Chance of missing a limit " + FinishDay.onDay(day.day()) + ": "
                        + day.missed().entrySet().stream()
                                .map(one -> one.getKey().words() + " " + percent(one.getValue()) + " %")
                                .collect(Collectors.joining(", "))
                        + ".");
            }
        }
        return said;
    }

    private List<String> costWords() {
        List<String> said = new ArrayList<>();
        said.add("Counted a head, in " + forecast.currency() + ": " + forecast.costs() + ".");
        if (!forecast.setup().moves().isEmpty()) {
            said.add("Prices move "
                    + forecast.setup().moves().stream().map(PriceMove::toString).collect(Collectors.joining("; "))
                    + ".");
        }
        said.add(
                "Intervals hold how far weight, killing-out, gain, grades and their gain may be off; prices, costs and the"
                        + " classifier's hand are taken as given.");
        return said;
    }

    private static String capital(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private String money(double amount) {
        return Numbers.fixed(amount, forecast.decimals()) + " " + forecast.currency();
    }

    private static String whole(double amount) {
        return Numbers.fixed(amount, 0);
    }

    private String ends(Interval interval) {
        var place = interval.placeOfMoney(forecast.decimals());
        return place.text(interval.low()) + " to " + place.text(interval.high());
    }

    private static String percent(double chance) {
        return Numbers.percent(chance, 0);
    }

    private static String percent1(double share) {
        return Numbers.percent(share, SHARE_DECIMALS);
    }

    Frame frame() {
        String currency = ", " + forecast.currency();
        Frame.Builder<FinishDay> frame = Frame.ofEach(forecast.days())
                .text("animal", day -> forecast.animal().id().orElse(""))
                .number("day", FinishDay::day)
                .text("category", day -> category(day.state().category()))
                .number(
                        "age, months",
                        day -> known(
                                day.state().ageMonths().isPresent()
                                        ? OptionalDouble.of(
                                                day.state().ageMonths().getAsInt())
                                        : OptionalDouble.empty()));
        add(frame, "live weight, kg", day -> day.state().liveKg());
        add(frame, "cold weight, kg", day -> day.state().coldKg());
        add(frame, "cold weight SD, kg", day -> day.state().coldSdKg());
        add(frame, "conformation, points", day -> day.state().conformation());
        add(frame, "conformation SD, points", day -> day.state().conformationSd());
        add(frame, "fat, points", day -> day.state().fat());
        add(frame, "fat SD, points", day -> day.state().fatSd());
        add(frame, "paid" + currency, FinishDay::payment);
        add(frame, "feed, kg", day -> day.cost().feedKg());
        add(frame, "feed cost" + currency, day -> day.cost().feed());
        add(frame, "yardage" + currency, day -> day.cost().yardage());
        add(frame, "interest" + currency, day -> day.cost().interest());
        add(frame, "place" + currency, day -> day.cost().place());
        add(frame, "deaths" + currency, day -> day.cost().deaths());
        add(frame, "net" + currency, FinishDay::net);
        add(frame, "net 90 % interval low" + currency, day -> day.netInterval().low());
        add(frame, "net 90 % interval high" + currency, day -> day.netInterval().high());
        add(frame, "more than today" + currency, FinishDay::more);
        add(
                frame,
                "more 90 % interval low" + currency,
                day -> day.moreInterval().low());
        add(
                frame,
                "more 90 % interval high" + currency,
                day -> day.moreInterval().high());
        add(frame, "chance of more, %", day -> 100 * day.chanceOfMore());
        add(frame, "in specification, %", day -> 100 * known(day.inSpecification()));
        for (MarketFault.Limit limit : MarketFault.Limit.values()) {
            add(
                    frame,
                    "misses " + limit.words() + ", %",
                    day -> day.inSpecification().isPresent()
                            ? 100 * day.missed().getOrDefault(limit, 0.0)
                            : Double.NaN);
        }
        add(frame, "worth" + currency, day -> of(day, HallDay::value));
        add(
                frame,
                "worth 90 % interval low" + currency,
                day -> of(day, hall -> hall.valueInterval().low()));
        add(
                frame,
                "worth 90 % interval high" + currency,
                day -> of(day, hall -> hall.valueInterval().high()));
        add(frame, "margin" + currency, day -> of(day, HallDay::margin));
        add(frame, "saleable share, % of cold weight", day -> 100 * of(day, HallDay::saleableShare));
        add(frame, "fat trim, kg", day -> of(day, HallDay::fatTrimKg));
        add(frame, "extra fat trim, kg", day -> of(day, HallDay::extraFatTrimKg));
        add(frame, "feed of extra fat, kg", day -> of(day, hall -> known(hall.extraFatFeedKg())));
        return frame.frame();
    }

    /** Days of one animal don't add up. */
    private static void add(Frame.Builder<FinishDay> frame, String header, ToDoubleFunction<FinishDay> value) {
        frame.number(Column.number(header).totalling(ALONE), value);
    }

    private static String category(Category category) {
        return category.letter();
    }

    private static double of(FinishDay day, ToDoubleFunction<HallDay> figure) {
        return day.hall().map(figure::applyAsDouble).orElse(Double.NaN);
    }

    private static double known(OptionalDouble figure) {
        return figure.orElse(Double.NaN);
    }
}
