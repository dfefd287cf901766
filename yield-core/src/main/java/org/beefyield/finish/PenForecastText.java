package org.beefyield.finish;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.beefyield.estimate.Cautions;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.MarketFault;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A pen in words. */
final class PenForecastText {
    private final PenForecast pen;

    PenForecastText(PenForecast pen) {
        this.pen = pen;
    }

    private String currency() {
        return pen.setup().grid().currency();
    }

    private String money(double amount) {
        return Numbers.fixed(amount, pen.setup().grid().decimals()) + " " + currency();
    }

    String sentence() {
        List<Forecast> list = pen.drawList();
        long now =
                list.stream().filter(one -> one.bestWithinLimits().day() == 0).count();
        int last = list.get(list.size() - 1).bestWithinLimits().day();
        return Numbers.counted(list.size(), "animal", "animals") + ": "
                + (now == 0 ? "none is" : now == 1 ? "1 is" : now + " are") + " best sold today"
                + (last == 0 ? "" : ", the last on day " + last);
    }

    Blocks blocks() {
        return blocks(List.of());
    }

    Blocks blocks(List<Load> loads) {
        Blocks blocks = new Blocks().sentences(sentences()).add(table());
        if (!loads.isEmpty()) {
            blocks.sentences(loadWords(loads)).add(loadTable(loads));
        }
        return blocks.sentence(
                        "Counted a head, in " + currency() + ": " + pen.setup().costs() + ".")
                .add(pen.setup().assumptions())
                .sentence(ForecastText.FIRST)
                .sentence(Cautions.PLANNING)
                .sentence(Cautions.NO_SETTLEMENT);
    }

    private List<String> sentences() {
        long passing = pen.forecasts().stream()
                .filter(one -> one.best().day() > one.lastWithinLimits())
                .count();
        List<String> said = new ArrayList<>(List.of(sentence() + ".", today(), totals()));
        if (hasHall()) {
            said.add(hall());
        }
        if (passing > 0) {
            said.add(Numbers.counted(passing, "animal", "animals")
                    + " would leave more past the customer's limit of age or fat class; the list keeps within the limits and says"
                    + " what going past them would bring.");
        }
        String market = new ForecastText(pen.forecasts().get(0)).marketName();
        long ageless = lacking(MarketFault.Limit.AGE);
        if (ageless > 0) {
            said.add(Numbers.counted(ageless, "animal says", "animals say") + " no age, which " + market + " limits: "
                    + (ageless == 1 ? "it counts" : "they count") + " as missing that limit.");
        }
        long unsaid = lacking(MarketFault.Limit.ASSURANCE);
        if (unsaid > 0) {
            said.add("Of " + Numbers.counted(unsaid, "animal", "animals")
                    + " it isn't said whether farm assurance covers "
                    + (unsaid == 1 ? "it" : "them") + ", which " + market + " asks for: "
                    + (unsaid == 1 ? "it counts" : "they count") + " as not.");
        }
        long atEnd = pen.forecasts().stream()
                .filter(one -> one.isLastLookedAt(one.bestWithinLimits().day()))
                .count();
        if (atEnd > 0) {
            said.add(Numbers.counted(atEnd, "animal leaves", "animals leave") + " most on day "
                    + pen.setup().horizonDays()
                    + ", the last that was looked at: look further to see where that ends.");
        }
        pen.forecasts()
                .forEach(one ->
                        one.notes().forEach(note -> said.add(one.animal().id().orElse("no tag") + ": " + note + ".")));
        return said;
    }

    private long lacking(MarketFault.Limit limit) {
        return pen.forecasts().stream().filter(one -> one.lacks(limit)).count();
    }

    /** How the pen stands today. */
    private String today() {
        List<FinishState> states =
                pen.forecasts().stream().map(one -> one.today().state()).toList();
        DoubleSummaryStatistics kg =
                states.stream().mapToDouble(FinishState::coldKg).summaryStatistics();
        String weights = states.size() == 1
                ? Numbers.fixed(kg.getMin(), 0) + " kg cold"
                : Numbers.fixed(kg.getMin(), 0) + " to " + Numbers.fixed(kg.getMax(), 0) + " kg cold, "
                        + Numbers.fixed(kg.getAverage(), 0) + " on average";
        return "Today: about " + weights + "; conformation "
                + range(states, FinishState::conformation, FinishState::conformationThird) + ", fat class "
                + range(states, FinishState::fat, FinishState::fatThird)
                + (pen.setup().market() == null
                        ? ""
                        : "; in specification " + Numbers.fixed(expectedIn(), 1) + " of " + states.size())
                + ".";
    }

    /** How many the customer is expected to take today. */
    private double expectedIn() {
        return pen.forecasts().stream()
                .mapToDouble(one -> one.today().inSpecification().orElse(0))
                .sum();
    }

    private static String range(
            List<FinishState> states, ToDoubleFunction<FinishState> position, Function<FinishState, Object> grade) {
        Comparator<FinishState> order = Comparator.comparingDouble(position);
        String low = grade.apply(Collections.min(states, order)).toString();
        String high = grade.apply(Collections.max(states, order)).toString();
        return low.equals(high) ? low : low + " to " + high;
    }

    /** What the pen leaves today, by the list, and on one day. */
    private String totals() {
        double[] net = pen.netByDay();
        double each = pen.forecasts().stream()
                .mapToDouble(one -> one.bestWithinLimits().net())
                .sum();
        if (pen.forecasts().size() == 1) {
            return "Sold today it leaves " + money(net[0]) + ", on its best day within the limits " + money(each) + ", "
                    + money(each - net[0]) + " more.";
        }
        int single = pen.bestSingleDay();
        int largest = pen.largestDay();
        long past = pen.forecasts().stream()
                .filter(one -> one.lastWithinLimits() < largest)
                .count();
        return "Sold today they leave " + money(net[0]) + "; each on its own best day within the limits " + money(each)
                + ", "
                + money(each - net[0]) + " more; all on one day within the limits of all of them most "
                + FinishDay.onDay(single) + ", " + money(net[single])
                + (largest == single
                        ? ""
                        : " (on day " + largest + " " + money(net[largest]) + ", past a limit of " + past + " of them)")
                + ".";
    }

    private boolean hasHall() {
        return pen.setup().valuer() != null;
    }

    /** What the hall has of it, of as many animals as it is told of on both days. */
    private String hall() {
        List<Forecast> told = pen.forecasts().stream()
                .filter(one -> one.today().hall().isPresent()
                        && one.bestWithinLimits().hall().isPresent())
                .toList();
        if (told.isEmpty()) {
            return "What they are to the hall isn't told.";
        }
        double today = told.stream().mapToDouble(one -> margin(one.today())).sum();
        double then =
                told.stream().mapToDouble(one -> margin(one.bestWithinLimits())).sum();
        return "The hall has " + money(today) + " over its payment if they go today, " + money(then)
                + " if each goes on its own best day"
                + (told.size() == pen.forecasts().size()
                        ? ""
                        : ", told of " + told.size() + " of "
                                + Numbers.counted(pen.forecasts().size(), "animal", "animals"))
                + ".";
    }

    private static double margin(FinishDay day) {
        return day.hall().orElseThrow().margin();
    }

    private static String number(int day) {
        return day == 0 ? "today" : Integer.toString(day);
    }

    private TextTable table() {
        boolean market = pen.setup().market() != null;
        List<String> header = new ArrayList<>(List.of(
                "draw on day",
                "animal",
                "category",
                "cold then, kg",
                "grade then",
                market ? "in specification, %" : "chance of more, %",
                "paid, " + currency(),
                "cost, " + currency(),
                "net, " + currency(),
                "more than today, " + currency(),
                "a week later, " + currency(),
                "past limits"));
        if (hasHall()) {
            header.addAll(List.of("hall's margin, " + currency(), "best for both, day"));
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (Forecast one : pen.drawList()) {
            FinishDay day = one.bestWithinLimits();
            List<String> row = new ArrayList<>(List.of(
                    number(day.day()),
                    one.animal().id().orElse("no tag"),
                    day.state().category().letter(),
                    Numbers.fixed(day.state().coldKg(), 0),
                    day.state().conformationThird() + " " + day.state().fatThird(),
                    Numbers.percent(market ? day.inSpecification().orElse(0) : day.chanceOfMore(), 0),
                    Numbers.fixed(day.payment(), 0),
                    Numbers.fixed(day.cost().total(), 0),
                    Numbers.fixed(day.net(), 0),
                    signed(day.more()),
                    one.aWeekFrom(day.day()).isPresent()
                            ? signed(one.aWeekFrom(day.day()).getAsDouble())
                            : "",
                    past(one, day)));
            if (hasHall()) {
                row.add(day.hall().map(hall -> Numbers.fixed(hall.margin(), 0)).orElse(""));
                row.add(one.bestTogether().map(both -> number(both.day())).orElse(""));
            }
            table.row(row);
        }
        return table;
    }

    /** What a day past the limits would leave more, or that it is past one already. */
    private static String past(Forecast one, FinishDay day) {
        FinishDay best = one.best();
        if (best.day() != day.day()) {
            return signed(best.net() - day.net()) + " on day " + best.day();
        }
        return one.passed().stream()
                .filter(PassedLimit::isPastToday)
                .map(limit -> "past " + limit.limit().words() + " already"
                        + (Numbers.fixed(Math.abs(limit.lost()), 0).equals("0")
                                ? ""
                                : ", which costs " + Numbers.fixed(limit.lost(), 0)))
                .collect(Collectors.joining(", "));
    }

    private static String signed(double amount) {
        String text = Numbers.fixed(amount, 0);
        return amount > 0 && !text.equals("0") ? "+" + text : text;
    }

    private List<String> loadWords(List<Load> loads) {
        double given = loads.stream().mapToDouble(Load::given).sum();
        double haulage = pen.setup().costs().haulagePerLoad();
        return List.of("In " + Numbers.counted(loads.size(), "load", "loads") + ": " + money(given)
                + " less than each on its own day"
                + (haulage > 0 ? ", and " + money(haulage * loads.size()) + " of haulage" : "")
                + ". Animals that follow one another in the list go together.");
    }

    private TextTable loadTable(List<Load> loads) {
        TextTable table =
                new TextTable("load on day", "head", "net, " + currency(), "less than alone, " + currency(), "animals");
        for (Load load : loads) {
            table.row(
                    number(load.day()),
                    Integer.toString(load.animals().size()),
                    Numbers.fixed(load.net(), 0),
                    Numbers.fixed(load.given(), 0),
                    load.animals().stream()
                            .map(one -> one.animal().id().orElse("no tag"))
                            .collect(Collectors.joining(" ")));
        }
        return table;
    }

    Frame frame() {
        String currency = ", " + currency();
        return Frame.ofEach(pen.drawList())
                .text("animal", one -> one.animal().id().orElse(""))
                .text("category", one -> one.animal().category().letter())
                .number("cold weight today, kg", one -> one.today().state().coldKg())
                .number("draw on day", one -> one.bestWithinLimits().day())
                .number("cold weight, kg", one -> one.bestWithinLimits().state().coldKg())
                .text(
                        Column.text("conformation").of(Column.Type.CONFORMATION),
                        one -> one.bestWithinLimits()
                                .state()
                                .conformationThird()
                                .toString())
                .text(
                        Column.text("fat class").of(Column.Type.FAT_CLASS),
                        one -> one.bestWithinLimits().state().fatThird().toString())
                .number(
                        "in specification, %",
                        one -> 100 * one.bestWithinLimits().inSpecification().orElse(Double.NaN))
                .number("paid" + currency, one -> one.bestWithinLimits().payment())
                .number("cost" + currency, one -> one.bestWithinLimits().cost().total())
                .number("net" + currency, one -> one.bestWithinLimits().net())
                .number(
                        end("90 % interval low" + currency),
                        one -> one.bestWithinLimits().netInterval().low())
                .number(
                        end("90 % interval high" + currency),
                        one -> one.bestWithinLimits().netInterval().high())
                .number(
                        "more than today" + currency,
                        one -> one.bestWithinLimits().more())
                .number(
                        "a week later" + currency,
                        one -> one.aWeekFrom(one.bestWithinLimits().day()).orElse(Double.NaN))
                .number(
                        "margin" + currency,
                        one -> one.bestWithinLimits()
                                .hall()
                                .map(HallDay::margin)
                                .orElse(Double.NaN))
                .number(
                        "best day for hall",
                        one -> one.bestForHall().map(day -> (double) day.day()).orElse(Double.NaN))
                .number(
                        "best day for both",
                        one -> one.bestTogether().map(day -> (double) day.day()).orElse(Double.NaN))
                .number("best day", one -> one.best().day())
                .number(
                        "more on that" + currency,
                        one -> one.best().net() - one.bestWithinLimits().net())
                .frame();
    }

    private static Column end(String header) {
        return Column.number(header).totalling(Total.NONE);
    }
}
