package org.beefyield.data;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Rounding;

/**
 * Writes estimates as CSV, a row for each carcass, level and cut.
 *
 * <p>UTF-8, comma, LF. Columns, to which later versions append: {@code carcass} (its id), {@code level}, {@code cut},
 * {@code kind}, {@code kg} (3 decimals, both sides together), {@code share} (of the cold weight, 6 decimals),
 * {@code notes} (joined by "; "), {@code lot}, {@code table} (name@version# and 12 digits of the digest),
 * {@code specification}, {@code low_kg} and {@code high_kg} (90 % interval of that carcass). At each level the kg of a carcass add up to its cold weight, and the shares to 1, as printed.
 * Cuts that the specification doesn't yield have no row.
 *
 * <p>The file appears, or is replaced, when {@link #finish()} is called; closing without it leaves the place as it was.
 */
public final class EstimateWriter implements AutoCloseable {
    private static final int KG_DECIMALS = 3;
    private static final int SHARE_DECIMALS = 6;

    private final AtomicFile file;

    /**
     * Starts a file.
     *
     * @param target where it will stand; folders are made as needed
     * @throws UncheckedIOException if it can't be written there
     */
    public EstimateWriter(Path target) {
        try {
            file = new AtomicFile(target);
            file.write(CsvLine.of(List.of(
                    "carcass", "level", "cut", "kind", "kg", "share", "notes", "lot", "table", "specification")));
        } catch (IOException e) {
            throw new UncheckedIOException(target + " can't be written: " + e.getMessage(), e);
        }
    }

    /**
     * Writes the rows of one carcass.
     *
     * @param estimate its estimate
     * @throws UncheckedIOException if writing fails
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
                            Rounding.fixed(interval.high(), KG_DECIMALS))));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("estimates can't be written: " + e.getMessage(), e);
        }
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
