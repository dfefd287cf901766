package org.beefyield.data.picture;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.beefyield.table.definition.Range;

/**
 * An axis: its ends, the round figures or days on it, and how they are written.
 *
 * @param range ends
 * @param ticks round figures, ascending; of an axis of days, days since 1970
 * @param labels what stands at each
 */
record Axis(Range range, List<Double> ticks, List<String> labels) {
    private static final double[] STEPS = {1, 2, 5, 10};
    /** Of a step or a figure; what floating point may be off. */
    private static final double NOISE = 1e-9;

    private static final int APART_PX = 8;
    private static final List<String> MONTHS =
            List.of("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec");

    /** Ends as they are, with round figures between them, no more than asked and than have room beside one another. */
    static Axis between(double low, double high, int most, int roomPx) {
        return fitting(most, roomPx, ticks -> {
            double step = step(high - low, ticks - 1);
            return of(low, high, step, ticks(low, high, step));
        });
    }

    /** Ends moved outward to round figures. */
    static Axis rounded(double low, double high, int most, int roomPx) {
        return fitting(most, roomPx, ticks -> rounded(low, high, ticks));
    }

    static Axis rounded(double low, double high, int most) {
        boolean isOneFigure = high - low <= NOISE * Math.abs(low);
        double margin = isOneFigure ? Math.max(1, Math.abs(low) / 10) : 0;
        double step = step(high - low + 2 * margin, most - 1);
        double from = Math.floor((low - margin) / step + NOISE) * step;
        double to = Math.ceil((high + margin) / step - NOISE) * step;
        return of(from, to, step, ticks(from, to, step));
    }

    /** From as far below zero as above it, with signs; zero is a tick. */
    static Axis around(double reach, int most, int roomPx) {
        return fitting(most, roomPx, ticks -> rounded(-reach, reach, ticks).signed());
    }

    /** No figures, for an axis of words. */
    static Axis plain(double low, double high) {
        return new Axis(new Range(low, high), List.of(), List.of());
    }

    /** Days, with those, weeks, months or years between them that have room beside one another. */
    static Axis days(LocalDate first, LocalDate last, int roomPx) {
        Axis axis = plain(first.toEpochDay() - 0.5, last.toEpochDay() + 0.5);
        for (Calendar calendar : CALENDARS) {
            if (axis.range.high() - axis.range.low() <= (double) roomPx * calendar.days) {
                Axis marked = axis.marked(calendar, first, last);
                if (!marked.ticks.isEmpty() && marked.fits(roomPx)) {
                    return marked;
                }
            }
        }
        return axis.marked(CALENDARS.get(0), first, first);
    }

    /** Every so many days, weeks, months or years. */
    private record Calendar(
            int days,
            Function<LocalDate, LocalDate> start,
            ChronoUnit unit,
            int every,
            Function<LocalDate, String> words) {}

    private static final List<Calendar> CALENDARS = calendars();

    private static List<Calendar> calendars() {
        Function<LocalDate, String> day = date -> date.getDayOfMonth() + " " + month(date);
        Function<LocalDate, String> month = date -> month(date) + " " + date.getYear();
        List<Calendar> calendars = new ArrayList<>();
        calendars.add(new Calendar(1, date -> date, ChronoUnit.DAYS, 1, day));
        Function<LocalDate, LocalDate> monday = date -> date.with(TemporalAdjusters.nextOrSame(DayOfWeek.MONDAY));
        calendars.add(new Calendar(2, date -> date, ChronoUnit.DAYS, 2, day));
        for (int weeks : List.of(1, 2)) {
            calendars.add(new Calendar(7 * weeks, monday, ChronoUnit.WEEKS, weeks, day));
        }
        for (int months : List.of(1, 2, 3, 6)) {
            calendars.add(new Calendar(28 * months, date -> startOf(date, months), ChronoUnit.MONTHS, months, month));
        }
        for (int years : List.of(1, 2, 5, 10, 20, 50, 100, 200, 500)) {
            calendars.add(new Calendar(
                    365 * years, date -> yearOf(date, years), ChronoUnit.YEARS, years, date -> "" + date.getYear()));
        }
        return List.copyOf(calendars);
    }

    private static String month(LocalDate date) {
        return MONTHS.get(date.getMonthValue() - 1);
    }

    /** The first day from a date on that begins so many months, counted from January. */
    private static LocalDate startOf(LocalDate date, int months) {
        LocalDate start = date.getDayOfMonth() == 1 ? date : date.with(TemporalAdjusters.firstDayOfNextMonth());
        return start.plusMonths(Math.floorMod(1 - start.getMonthValue(), months));
    }

    private static LocalDate yearOf(LocalDate date, int years) {
        LocalDate start = date.getDayOfYear() == 1 ? date : date.with(TemporalAdjusters.firstDayOfNextYear());
        return start.plusYears(Math.floorMod(-start.getYear(), years));
    }

    private Axis marked(Calendar calendar, LocalDate first, LocalDate last) {
        List<LocalDate> dates = new ArrayList<>();
        for (LocalDate date = calendar.start.apply(first); !date.isAfter(last); ) {
            dates.add(date);
            date = date.plus(calendar.every, calendar.unit);
        }
        return new Axis(
                range,
                dates.stream().map(date -> (double) date.toEpochDay()).toList(),
                dates.stream().map(calendar.words).toList());
    }

    private static Axis fitting(int most, int roomPx, IntFunction<Axis> of) {
        int ticks = most;
        Axis axis = of.apply(ticks);
        while (ticks > 2 && !axis.fits(roomPx)) {
            ticks--;
            axis = of.apply(ticks);
        }
        return axis;
    }

    private static Axis of(double low, double high, double step, List<Double> ticks) {
        int decimals = (int) Math.max(0, -Math.floor(Math.log10(step) + NOISE));
        return new Axis(
                new Range(low, high),
                ticks,
                ticks.stream().map(tick -> Figures.fixed(tick, decimals)).toList());
    }

    /** Figures with a sign, for differences. */
    Axis signed() {
        return new Axis(
                range,
                ticks,
                IntStream.range(0, ticks.size())
                        .mapToObj(i -> (ticks.get(i) > 0 ? "+" : "") + labels.get(i))
                        .toList());
    }

    /** Whether all labels stand side by side. */
    boolean fits(int roomPx) {
        return apart(roomPx).size() == ticks.size();
    }

    /** Places of the labels that stand side by side: each but those that would touch one before it; 0 goes before all. */
    List<Integer> apart(double roomPx) {
        int zero = ticks.indexOf(0.0);
        List<Integer> apart = new ArrayList<>();
        double freePx = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < ticks.size(); i++) {
            double half = Letters.TEXT.widthPx(labels.get(i)) / 2.0;
            double at = part(ticks.get(i)) * roomPx;
            boolean isFree = at - half >= freePx;
            if (i < zero) {
                double ofZero = part(0) * roomPx - Letters.TEXT.widthPx(labels.get(zero)) / 2.0;
                isFree &= at + half + APART_PX <= ofZero;
            }
            if (isFree) {
                apart.add(i);
                freePx = at + half + APART_PX;
            }
        }
        return apart;
    }

    private static double step(double width, int intervals) {
        double rough = width / intervals;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double step = STEPS[STEPS.length - 1] * power;
        for (int i = STEPS.length - 1; i >= 0; i--) {
            step = STEPS[i] * power >= rough * (1 - NOISE) ? STEPS[i] * power : step;
        }
        return step;
    }

    /** A round width of which so many or fewer make a whole. */
    static double roundPart(double width, int most) {
        return step(width, most);
    }

    private static List<Double> ticks(double low, double high, double step) {
        List<Double> ticks = new ArrayList<>();
        for (long k = (long) Math.ceil(low / step - NOISE); k * step <= high + NOISE * step; k++) {
            ticks.add(k * step);
        }
        return ticks;
    }

    double part(double value) {
        return (value - range.low()) / (range.high() - range.low());
    }
}
