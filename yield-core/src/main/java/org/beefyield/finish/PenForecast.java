package org.beefyield.finish;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * A pen day by day: the forecast of every animal, which to draw first, and which go together in loads. Animals are drawn on their
 * best day within the customer's limits. Immutable.
 */
public final class PenForecast implements ShownInBlocks {
    private final Setup setup;
    private final List<Forecast> forecasts;
    private final List<Forecast> drawList;

    private PenForecast(Setup setup, List<Forecast> forecasts) {
        this.setup = setup;
        this.forecasts = List.copyOf(forecasts);
        this.drawList = forecasts.stream().sorted(Forecast.drawOrder()).toList();
    }

    static PenForecast of(Setup setup, List<Forecast> forecasts) {
        return new PenForecast(setup, forecasts);
    }

    Setup setup() {
        return setup;
    }

    /**
     * The forecasts.
     *
     * @return one of each animal, in the order in which they were given
     */
    public List<Forecast> forecasts() {
        return forecasts;
    }

    /**
     * Which to draw first.
     *
     * @return forecasts by best day within limits, of one day those that lose most by waiting a week first
     */
    public List<Forecast> drawList() {
        return drawList;
    }

    /** The last day that all animals have. */
    int lastDay() {
        return forecasts.stream().mapToInt(one -> one.days().size() - 1).min().orElseThrow();
    }

    /**
     * What the pen leaves if all go on one day.
     *
     * @return by day, as far as every animal is looked at
     */
    public double[] netByDay() {
        double[] net = new double[lastDay() + 1];
        for (Forecast one : forecasts) {
            for (int day = 0; day < net.length; day++) {
                net[day] += one.days().get(day).net();
            }
        }
        return net;
    }

    /**
     * The best day if all go on one, within the customer's limits of age and fat class of all of them that can be kept.
     *
     * @return days from today, of equals the earliest
     */
    public int bestSingleDay() {
        return load(forecasts).day();
    }

    /**
     * The last day on which every animal is expected to be within the limits that it can still keep.
     *
     * @return days from today; the last that is looked at if none passes a limit
     */
    public int lastDayWithinLimits() {
        return forecasts.stream().mapToInt(Forecast::lastWithinLimits).min().orElseThrow();
    }

    /** The day on which the pen leaves most, past limits or not, of equals the earliest. */
    int largestDay() {
        double[] net = netByDay();
        int best = 0;
        for (int day = 0; day < net.length; day++) {
            best = net[day] > net[best] ? day : best;
        }
        return best;
    }

    /**
     * The pen parted in loads: animals that follow one another in the draw list go together, each load on the day on which its
     * animals together leave most within the limits of all of them, and no other such parting leaves more after haulage.
     *
     * @param head most animals that a load holds, 1 or more
     * @return loads, days ascending
     * @throws IllegalArgumentException if a load holds no animal
     */
    public List<Load> loads(int head) {
        if (head < 1) {
            throw new IllegalArgumentException("a load of " + head + " animals holds none; 1 or more are needed");
        }
        int count = drawList.size();
        double[] best = new double[count + 1];
        Arrays.fill(best, Double.NEGATIVE_INFINITY);
        best[0] = 0;
        Load[] last = new Load[count + 1];
        for (int to = 1; to <= count; to++) {
            for (int from = Math.max(0, to - head); from < to; from++) {
                Load load = load(drawList.subList(from, to));
                double all = best[from] + load.net() - setup.costs().haulagePerLoad();
                if (all > best[to]) {
                    best[to] = all;
                    last[to] = load;
                }
            }
        }
        List<Load> loads = new ArrayList<>();
        for (int to = count; to > 0; to -= last[to].animals().size()) {
            loads.add(last[to]);
        }
        Collections.reverse(loads);
        loads.sort(Comparator.comparingInt(Load::day));
        return loads;
    }

    private static Load load(List<Forecast> animals) {
        int until = animals.stream().mapToInt(Forecast::lastWithinLimits).min().orElseThrow();
        int best = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (int day = 0; day <= until; day++) {
            double net = 0;
            for (Forecast animal : animals) {
                net += animal.days().get(day).net();
            }
            if (net > most) {
                most = net;
                best = day;
            }
        }
        double alone = animals.stream()
                .mapToDouble(animal -> animal.bestWithinLimits().net())
                .sum();
        return new Load(best, animals, most, alone - most);
    }

    /**
     * The draw list as a frame, a row for each animal.
     *
     * @return {@code animal}, its tag; {@code category}; {@code cold weight today} in kg; {@code draw on day}; {@code cold weight} in
     *     kg, {@code conformation} and {@code fat class} on that day; {@code in specification} in %; {@code paid}, {@code cost},
     *     {@code net} with the ends of its 90 % interval, {@code more than today} and {@code a week later}, and the hall's {@code
     *     margin} in the currency; {@code best day for hall} and {@code best day for both}; {@code best day} for the farmer, past a
     *     limit or not, and {@code more on that}
     */
    public Frame toFrame() {
        return new PenForecastText(this).frame();
    }

    /**
     * Every day of every animal as a frame.
     *
     * @return the columns of {@link Forecast#toFrame()}
     */
    public Frame daysFrame() {
        Frame all = forecasts.get(0).toFrame();
        for (Forecast one : forecasts.subList(1, forecasts.size())) {
            all = all.plus(one.toFrame());
        }
        return all;
    }

    /**
     * The pen for people: what it leaves, and which to draw first.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new PenForecastText(this).blocks();
    }

    /**
     * The pen for people, with loads.
     *
     * @param head most animals that a load holds, 1 or more
     * @return its sentences and tables
     * @throws IllegalArgumentException if a load holds no animal
     */
    public Blocks blocks(int head) {
        return new PenForecastText(this).blocks(loads(head));
    }

    /**
     * One line.
     *
     * @return number of animals and when they go
     */
    @Override
    public String toString() {
        return new PenForecastText(this).sentence();
    }
}
