package org.beefyield.frame;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Frames of estimates, in wide form (a row for each carcass) and in long form (a row for each carcass and cut), as the two
 * layouts of a data frame are called.
 *
 * <p>Both forms begin with the columns {@code carcass} (its id), {@code lot}, {@code supplier}, {@code kill date},
 * {@code hall}, {@code category} (its letter), {@code conformation}, {@code fat class} (as graded) and {@code class} (whole classes, such as {@code R 3}).
 * What a carcass doesn't have is missing. Weights are of both sides together.
 */
public final class Frames {
    private static final String KG = "kg";

    private Frames() {}

    /**
     * A row for each carcass at the last level of its table.
     *
     * @param estimates estimates, in the order of the rows
     * @return carcass, {@code cold weight} in kg, and a column in kg for each cut under its code
     */
    public static Frame wide(List<YieldEstimate> estimates) {
        Checks.noNullIn(estimates, "estimates");
        return wideAt(estimates, null);
    }

    /**
     * A row for each carcass. The cuts of a row add up to its cold weight. A cut that comes out of none of the carcasses
     * has no column; where a carcass's table, or its mince, knows no such cut, its weight is missing.
     *
     * @param estimates estimates, in the order of the rows
     * @param level name of the level
     * @return carcass, {@code cold weight} in kg, and a column in kg for each cut under its code
     * @throws IllegalArgumentException if the table of an estimate has no such level
     */
    public static Frame wide(List<YieldEstimate> estimates, String level) {
        Checks.noNullIn(estimates, "estimates");
        Objects.requireNonNull(level, "level");
        return wideAt(estimates, level);
    }

    private static Frame wideAt(List<YieldEstimate> estimates, @Nullable String level) {
        Map<String, double[]> kg = new LinkedHashMap<>();
        for (int i = 0; i < estimates.size(); i++) {
            YieldEstimate estimate = estimates.get(i);
            for (CutLine line : estimate.lines(levelOf(estimate, level))) {
                kg.computeIfAbsent(line.cut().code(), code -> missing(estimates.size()))[i] = line.kg();
            }
        }
        Map<String, Object> columns =
                carcasses(estimates.stream().map(YieldEstimate::carcass).toList());
        columns.put(
                "cold weight, kg",
                estimates.stream().mapToDouble(Outturn::coldWeightKg).toArray());
        kg.forEach((cut, weights) -> {
            if (Arrays.stream(weights).anyMatch(weight -> weight > 0)) {
                columns.put(cut + ", " + KG, weights);
            }
        });
        return Frame.of(columns);
    }

    private static double[] missing(int rows) {
        double[] missing = new double[rows];
        Arrays.fill(missing, Double.NaN);
        return missing;
    }

    /**
     * A row for each carcass and cut of the last level of its table.
     *
     * @param estimates estimates, in the order of the rows
     * @return carcass, {@code level}, {@code cut} (its code), {@code kind}, {@code weight} in kg, {@code share} of the
     *     cold weight in %
     */
    public static Frame longForm(List<YieldEstimate> estimates) {
        Checks.noNullIn(estimates, "estimates");
        return longForm(estimates, null, false);
    }

    /**
     * A row for each carcass and cut. The cuts of a carcass add up to its cold weight; cuts that don't come out of it have
     * no row.
     *
     * @param estimates estimates, in the order of the rows
     * @param level name of the level
     * @return carcass, {@code level}, {@code cut} (its code), {@code kind}, {@code weight} in kg, {@code share} of the
     *     cold weight in %
     * @throws IllegalArgumentException if the table of an estimate has no such level
     */
    public static Frame longForm(List<YieldEstimate> estimates, String level) {
        Checks.noNullIn(estimates, "estimates");
        Objects.requireNonNull(level, "level");
        return longForm(estimates, level, false);
    }

    /**
     * The {@linkplain #longForm(List, String) long form} with 90 % intervals. They are of single carcasses and don't add
     * up: the errors of a lot partly cancel, which {@link org.beefyield.estimate.LotEstimate} knows.
     *
     * @param estimates estimates, in the order of the rows
     * @param level name of the level
     * @return the long form, and {@code low} and {@code high} in kg; missing where the table states no SDs
     * @throws IllegalArgumentException if the table of an estimate has no such level
     */
    public static Frame longFormWithIntervals(List<YieldEstimate> estimates, String level) {
        Checks.noNullIn(estimates, "estimates");
        Objects.requireNonNull(level, "level");
        return longForm(estimates, level, true);
    }

    private static Frame longForm(List<YieldEstimate> estimates, @Nullable String level, boolean intervals) {
        List<Carcass> carcasses = new ArrayList<>();
        List<String> levels = new ArrayList<>();
        List<CutLine> lines = new ArrayList<>();
        List<Double> low = new ArrayList<>();
        List<Double> high = new ArrayList<>();
        for (YieldEstimate estimate : estimates) {
            String ownLevel = levelOf(estimate, level);
            for (CutLine line : estimate.lines(ownLevel)) {
                if (line.kg() != 0) {
                    carcasses.add(estimate.carcass());
                    levels.add(ownLevel);
                    lines.add(line);
                    if (intervals) {
                        boolean stated = estimate.table().statesSds();
                        Interval interval = stated ? line.interval(Interval.SHOWN_PROBABILITY) : null;
                        low.add(interval == null ? Double.NaN : interval.low());
                        high.add(interval == null ? Double.NaN : interval.high());
                    }
                }
            }
        }
        Map<String, Object> columns = carcasses(carcasses);
        columns.put("level", levels);
        columns.put("cut", lines.stream().map(line -> line.cut().code()).toList());
        columns.put("kind", lines.stream().map(line -> line.cut().kind().code()).toList());
        columns.put("weight, " + KG, lines.stream().mapToDouble(CutLine::kg).toArray());
        columns.put(
                "share, % of cold weight",
                lines.stream().mapToDouble(line -> 100 * line.share()).toArray());
        if (intervals) {
            String unit = KG + " (" + Math.round(100 * Interval.SHOWN_PROBABILITY) + " % sure)";
            columns.put("low, " + unit, low.stream().mapToDouble(kg -> kg).toArray());
            columns.put("high, " + unit, high.stream().mapToDouble(kg -> kg).toArray());
        }
        return Frame.of(columns);
    }

    private static String levelOf(YieldEstimate estimate, @Nullable String level) {
        List<String> levels = estimate.table().levels();
        return level == null ? levels.get(levels.size() - 1) : level;
    }

    private static Map<String, Object> carcasses(List<Carcass> carcasses) {
        Map<String, Function<Carcass, String>> texts = new LinkedHashMap<>();
        texts.put("carcass", carcass -> carcass.id().orElse(""));
        texts.put("lot", carcass -> carcass.lot().orElse(""));
        texts.put("supplier", carcass -> carcass.supplier().orElse(""));
        texts.put("kill date", carcass -> carcass.killDate().orElse(""));
        texts.put("hall", carcass -> carcass.hall().orElse(""));
        texts.put("category", carcass -> carcass.category().letter());
        texts.put("conformation", carcass -> carcass.conformation().toString());
        texts.put("fat class", carcass -> carcass.fatClass().toString());
        texts.put("class", carcass -> {
            GradeCell cell = GradeCell.of(carcass);
            return cell.conformation() + " " + cell.fatClass();
        });
        Map<String, Object> columns = new LinkedHashMap<>();
        texts.forEach(
                (name, text) -> columns.put(name, carcasses.stream().map(text).toList()));
        return columns;
    }
}
