package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.frame.Frame;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Frames of many estimates, in wide form (a row for each carcass) and in long form (a row for each carcass and cut), as the two
 * layouts of a data frame are called. A single result makes its own by {@code toFrame()}.
 *
 * <p>Both forms begin with the columns {@code carcass} (its id), {@code lot}, {@code supplier}, {@code kill date},
 * {@code hall}, {@code category} (its letter), {@code conformation}, {@code fat class} (as graded), {@code class} (whole
 * classes, such as {@code R 3}) and {@code table} (its identity). A run is a hall on a kill date. What a carcass doesn't have
 * is missing. Kill dates are a column of days if all of them are. Weights are of both sides together.
 */
public final class Frames {
    private Frames() {}

    /**
     * A row for each carcass, without cuts.
     *
     * @param estimates estimates, in the order of the rows
     * @return carcass and {@code cold weight} in kg
     */
    public static Frame carcasses(List<YieldEstimate> estimates) {
        Checks.noNullIn(estimates, "estimates");
        return CarcassHeads.add(
                        Frame.ofEach(estimates),
                        YieldEstimate::carcass,
                        estimate -> estimate.table().identity())
                .number("cold weight, kg", YieldEstimate::coldWeightKg)
                .frame();
    }

    /**
     * A row for each carcass at the last level of its table.
     *
     * @param estimates estimates, in the order of the rows
     * @return carcass, {@code cold weight} in kg, and a column in kg for each cut under its code
     */
    public static Frame wide(List<YieldEstimate> estimates) {
        Checks.noNullIn(estimates, "estimates");
        return wideAt(rows(estimates), null);
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
        return wideAt(rows(estimates), level);
    }

    /**
     * The {@linkplain #wide(List) wide form} at the last level of the table, with a row for what is refused too.
     *
     * @param tried what was tried, in the order of the rows
     * @return the wide form, and in front of its weights {@code refused}: the reasons, missing where there is an estimate. A
     *     refused carcass has its cold weight and no cuts
     */
    public static Frame tried(List<TriedEstimate> tried) {
        Checks.noNullIn(tried, "tried");
        return triedAt(tried, null);
    }

    /**
     * The {@linkplain #wide(List, String) wide form} with a row for what is refused too.
     *
     * @param tried what was tried, in the order of the rows
     * @param level name of the level
     * @return as {@link #tried(List)}
     * @throws IllegalArgumentException if the table of an estimate has no such level
     */
    public static Frame tried(List<TriedEstimate> tried, String level) {
        Checks.noNullIn(tried, "tried");
        Objects.requireNonNull(level, "level");
        return triedAt(tried, level);
    }

    private static Frame triedAt(List<TriedEstimate> tried, @Nullable String level) {
        return wideAt(
                tried.stream()
                        .map(one -> new WideRow(
                                one.carcass(),
                                one.estimate(),
                                Optional.of(one.reasons().stream()
                                        .map(Refusal::text)
                                        .collect(Collectors.joining("; ")))))
                        .toList(),
                level);
    }

    /**
     * A carcass.
     *
     * @param refused why there is no estimate, empty if there is one; nothing if only estimates are looked at
     */
    private record WideRow(Carcass carcass, Optional<YieldEstimate> estimate, Optional<String> refused) {}

    private static List<WideRow> rows(List<YieldEstimate> estimates) {
        return estimates.stream()
                .map(estimate -> new WideRow(estimate.carcass(), Optional.of(estimate), Optional.empty()))
                .toList();
    }

    private static Frame wideAt(List<WideRow> rows, @Nullable String level) {
        Map<String, double[]> kg = new LinkedHashMap<>();
        for (int i = 0; i < rows.size(); i++) {
            int row = i;
            rows.get(i).estimate().ifPresent(estimate -> {
                for (CutLine line : estimate.lines(levelOf(estimate, level))) {
                    kg.computeIfAbsent(line.cut().code(), code -> missing(rows.size()))[row] = line.kg();
                }
            });
        }
        List<Integer> indices = IntStream.range(0, rows.size()).boxed().toList();
        Frame.Builder<Integer> frame = CarcassHeads.add(
                Frame.ofEach(indices),
                row -> rows.get(row).carcass(),
                row -> rows.get(row)
                        .estimate()
                        .map(estimate -> estimate.table().identity())
                        .orElse(""));
        if (rows.stream().anyMatch(row -> row.refused().isPresent())) {
            frame.text("refused", row -> rows.get(row).refused().orElse(""));
        }
        frame.number("cold weight, kg", row -> rows.get(row).carcass().coldWeightKg());
        kg.forEach((cut, weights) -> {
            if (Arrays.stream(weights).anyMatch(weight -> weight > 0)) {
                frame.number(cut + ", kg", row -> weights[row]);
            }
        });
        return frame.frame();
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
     * The {@linkplain #longForm(List, String) long form} with SDs and 90 % intervals. They are of single carcasses and don't
     * add up: the errors of a lot partly cancel, which {@link LotEstimate} knows.
     *
     * @param estimates estimates, in the order of the rows
     * @param level name of the level
     * @return the long form, and {@code SD}, {@code 90 % interval low} and {@code 90 % interval high} in kg; missing where the
     *     table states no SDs
     * @throws IllegalArgumentException if the table of an estimate has no such level
     */
    public static Frame longFormWithIntervals(List<YieldEstimate> estimates, String level) {
        Checks.noNullIn(estimates, "estimates");
        Objects.requireNonNull(level, "level");
        return longForm(estimates, level, true);
    }

    private record LongRow(YieldEstimate estimate, OutturnText.FrameRow cut) {}

    private static Frame longForm(List<YieldEstimate> estimates, @Nullable String level, boolean intervals) {
        List<LongRow> rows = new ArrayList<>();
        for (YieldEstimate estimate : estimates) {
            OutturnText.frameRows(estimate, levelOf(estimate, level), intervals)
                    .forEach(cut -> rows.add(new LongRow(estimate, cut)));
        }
        Frame.Builder<LongRow> heads = CarcassHeads.add(
                Frame.ofEach(rows),
                row -> row.estimate().carcass(),
                row -> row.estimate().table().identity());
        return OutturnText.addCuts(heads, LongRow::cut, intervals).frame();
    }

    private static String levelOf(YieldEstimate estimate, @Nullable String level) {
        List<String> levels = estimate.table().levels();
        return level == null ? levels.get(levels.size() - 1) : level;
    }
}
