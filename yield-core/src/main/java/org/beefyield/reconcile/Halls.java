package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.DoubleStream;
import org.beefyield.frame.Frame;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.NestedEffects;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * Seasons of several halls side by side: how far halls differ from one another and from the table, and how far runs of one hall do.
 * Both SDs are of greatest restricted likelihood, 0 or more; what carcasses and lots make in a run is known and taken off before. Runs in an
 * alarm and runs that don't balance tell nothing. Immutable.
 */
public final class Halls implements ShownInBlocks {
    private final List<Season> seasons;
    private final List<HallEffect> effects;

    private Halls(List<Season> seasons) {
        this.seasons = seasons;
        List<String> groups = new ArrayList<>(seasons.get(0).groups());
        seasons.forEach(season -> groups.removeIf(group -> !season.groups().contains(group)
                || season.chart(group).learntRuns().size() < 2));
        this.effects = groups.stream().map(this::effect).toList();
    }

    /**
     * Sets halls side by side.
     *
     * @param seasons a season of each hall, two or more, reconciled with the same products
     * @return the halls
     * @throws IllegalArgumentException if there are fewer than two, or two are of one hall
     */
    public static Halls of(List<Season> seasons) {
        Checks.noNullIn(seasons, "seasons");
        if (seasons.size() < 2) {
            throw new IllegalArgumentException("halls are compared two by two or more; there is "
                    + Numbers.counted(seasons.size(), "season", "seasons"));
        }
        Set<String> names = new HashSet<>();
        for (Season season : seasons) {
            if (!names.add(season.hall())) {
                throw new IllegalArgumentException(
                        "two seasons are of hall \"" + season.hall() + "\"; each is of a hall of its own");
            }
        }
        return new Halls(List.copyOf(seasons));
    }

    private HallEffect effect(String group) {
        DoubleStream.Builder values = DoubleStream.builder();
        DoubleStream.Builder variances = DoubleStream.builder();
        List<Integer> hallOf = new ArrayList<>();
        for (int hall = 0; hall < seasons.size(); hall++) {
            Season season = seasons.get(hall);
            for (Integer run : season.chart(group).learntRuns()) {
                double sd = Season.withinSd(season.judged().get(run), group);
                values.add(Season.gPerKg(season.judged().get(run), group));
                variances.add(sd * sd);
                hallOf.add(hall);
            }
        }
        NestedEffects nested = NestedEffects.of(
                values.build().toArray(),
                variances.build().toArray(),
                hallOf.stream().mapToInt(Integer::intValue).toArray());
        Map<String, Double> ofHalls = new LinkedHashMap<>();
        for (int hall = 0; hall < seasons.size(); hall++) {
            ofHalls.put(
                    seasons.get(hall).hall(),
                    nested.groups().mean() + nested.groups().effect(hall));
        }
        Bounds variance = nested.groups().varianceBounds(Season.SURE);
        return new HallEffect(
                group,
                hallOf.size(),
                nested.groups().mean(),
                nested.groups().meanBounds(Season.SURE),
                nested.groups().sd(),
                new Bounds(Math.sqrt(variance.low()), Math.sqrt(variance.high())),
                nested.sd(),
                ofHalls);
    }

    List<Season> seasons() {
        return seasons;
    }

    /**
     * How halls and runs differ.
     *
     * @return an effect for each group of which every season has two or more runs in no alarm
     */
    public List<HallEffect> effects() {
        return effects;
    }

    /**
     * How halls and runs differ.
     *
     * @return a table without a total
     */
    public TextTable effectTable() {
        return text().effectTable();
    }

    /**
     * What each hall returns more or less than the table expects.
     *
     * @return a table, a row for each group and a column for each hall, without a total
     */
    public TextTable hallTable() {
        return text().hallTable();
    }

    /**
     * The halls as a frame, a row for each group and hall.
     *
     * @return {@code group}; {@code hall}; the hall's own {@code weighed less expected}; {@code mean of halls}, {@code SD from hall to
     *     hall} and {@code SD from run to run}, in g per kg of intake
     */
    public Frame toFrame() {
        return text().frame();
    }

    @Override
    public Blocks blocks() {
        return text().blocks();
    }

    /**
     * One line.
     *
     * @return names of the halls
     */
    @Override
    public String toString() {
        return text().sentence();
    }

    private HallsText text() {
        return new HallsText(this);
    }
}
