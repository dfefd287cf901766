package org.beefyield.data;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Rounding;
import org.beefyield.value.Valuer;
import org.jspecify.annotations.Nullable;

/**
 * Writes estimates as CSV, a row for each carcass, level and cut.
 *
 * <p>UTF-8, comma, LF. Columns, to which later versions append: {@code carcass} (its id), {@code level}, {@code cut},
 * {@code kind}, {@code kg} (3 decimals, both sides together), {@code share} (of the cold weight, 6 decimals),
 * {@code notes} (joined by "; "), {@code lot}, {@code table} (name@version# and 12 digits of the digest),
 * {@code specification}, {@code low_kg} and {@code high_kg} (90 % interval of that carcass), {@code value} (what the cut is
 * worth, with the price list's decimals; blank without prices and at levels that aren't valued; other income and cost of the list are in no row). At each level the kg of a carcass add up to its cold weight, and the shares to 1, as printed.
 * Cuts that the specification doesn't yield have no row.
 *
 * <p>The file appears, or is replaced, when {@link #finish()} is called; closing without it leaves the place as it was.
 */
public final class EstimateWriter implements AutoCloseable {
    private static final int KG_DECIMALS = 3;
    private static final int SHARE_DECIMALS = 6;

    private final AtomicFile file;
    private final @Nullable Valuer valuer;

    /**
     * Starts a file without values.
     *
     * @param target where it will stand; folders are made as needed
     * @throws UncheckedIOException if it can't be written there
     */
    public EstimateWriter(Path target) {
        this(target, null);
    }

    /**
     * Starts a file.
     *
     * @param target where it will stand; folders are made as needed
     * @param valuer what cuts are worth, bound to the estimator of the estimates, or null for none
     * @throws UncheckedIOException if it can't be written there
     */
    public EstimateWriter(Path target, @Nullable Valuer valuer) {
        this.valuer = valuer;
        try {
            file = new AtomicFile(target);
            file.write(CsvLine.of(List.of(
                    "carcass",
                    "level",
                    "cut",
                    "kind",
                    "kg",
                    "share",
                    "notes",
                    "lot",
                    "table",
                    "specification",
                    "low_kg",
                    "high_kg",
                    "value")));
        } catch (IOException e) {
            throw new UncheckedIOException(target + " can't be written: " + e.getMessage(), e);
        }
    }

    /**
     * Writes the rows of one carcass.
     *
     * @param estimate its estimate
     * @throws UncheckedIOException if writing fails
     * @throws IllegalArgumentException if there are prices, and they are bound to another estimator
     */
    public void write(YieldEstimate estimate) {
        Carcass carcass = estimate.carcass();
        String notes = String.join("; ", estimate.notes());
        try {
            for (String level : estimate.table().layout().levels()) {
                List<CutLine> lines = estimate.lines(level).stream()
                        .filter(line -> line.kg() != 0)
                        .toList();
                List<String> kg = Rounding.adding(
                        lines.stream().mapToDouble(CutLine::kg).toArray(), estimate.coldWeightKg(), KG_DECIMALS);
                List<String> shares = Rounding.adding(
                        lines.stream().mapToDouble(CutLine::share).toArray(), 1, SHARE_DECIMALS);
                List<String> values = values(estimate, level, lines);
                for (int i = 0; i < lines.size(); i++) {
                    Interval interval = estimate.interval(level, lines.get(i));
                    file.write(CsvLine.of(List.of(
                            carcass.id().orElse(""),
                            level,
                            lines.get(i).cut().code(),
                            lines.get(i).cut().kind().code(),
                            kg.get(i),
                            shares.get(i),
                            notes,
                            carcass.lot().orElse(""),
                            estimate.table().identity(),
                            estimate.specification().name(),
                            Rounding.fixed(interval.low(), KG_DECIMALS),
                            Rounding.fixed(interval.high(), KG_DECIMALS),
                            values.get(i))));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("estimates can't be written: " + e.getMessage(), e);
        }
    }

    /** What each line is worth, so that they add up as printed. */
    private List<String> values(YieldEstimate estimate, String level, List<CutLine> lines) {
        Valuer by = valuer;
        if (by == null || !by.level().equals(level)) {
            return Collections.nCopies(lines.size(), "");
        }
        Map<String, Double> amounts = new HashMap<>();
        by.value(estimate).lines().forEach(line -> amounts.put(line.code(), line.amount()));
        double[] parts = lines.stream()
                .mapToDouble(line -> amounts.getOrDefault(line.cut().code(), 0.0))
                .toArray();
        return Rounding.adding(parts, Arrays.stream(parts).sum(), by.prices().decimals());
    }

    /**
     * Puts the file in its place.
     *
     * @throws UncheckedIOException if that fails
     */
    public void finish() {
        try {
            file.finish();
        } catch (IOException e) {
            throw new UncheckedIOException("estimates can't be written: " + e.getMessage(), e);
        }
    }

    /**
     * Ends writing; without {@link #finish()} nothing is left behind.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    public void close() {
        try {
            file.close();
        } catch (IOException e) {
            throw new UncheckedIOException("estimates can't be written: " + e.getMessage(), e);
        }
    }
}
