package org.beefyield.data.killsheet;

import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.data.file.TextOutput;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.Valuer;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.jspecify.annotations.Nullable;

/**
 * Writes estimates as CSV: long, a row for each carcass, level and cut, or {@linkplain #wide wide}, a row for each
 * carcass.
 *
 * <p>UTF-8, comma, LF, unless {@link #in} says otherwise; packed with gzip if the name of the file ends in {@code .gz}. Memory doesn't grow with the number
 * of carcasses. Columns of the long form, to which later versions append: {@code carcass} (its id), {@code level}, {@code cut},
 * {@code kind}, {@code kg} (3 decimals, both sides together), {@code share} (of the cold weight, 6 decimals),
 * {@code notes} (joined by "; "), {@code lot}, {@code table} (name@version# and 12 digits of the digest),
 * {@code specification}, {@code low_kg} and {@code high_kg} (90 % interval of that carcass), {@code value} (what the cut is
 * worth, with the price list's decimals; blank without prices and at levels that aren't valued; other income and cost of the list are in no row, see {@link #valueTotal()}), {@code kill_date} and {@code hall} (blank where the carcass has none), {@code supplier},
 * {@code category}, {@code conformation}, {@code fat_class}, {@code cold_weight_kg} (3 decimals), and then the sheet's own columns as
 * they stand there, if they are given with the first carcass ({@link #write(YieldEstimate, Map)}); one that is called as one of these
 * gets {@code sheet_} before its name. At each level the kg of a carcass add up to its cold weight, and the shares to 1, as printed.
 * Cuts that the specification doesn't yield have no row.
 *
 * <p>The file appears, or is replaced, when {@link #finish()} is called; closing without it leaves the place as it was.
 */
public final class EstimateWriter implements AutoCloseable {
    private static final int KG_DECIMALS = 3;
    private static final int SHARE_DECIMALS = 6;

    private static final List<String> LONG = List.of(
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
            "value",
            "kill_date",
            "hall",
            "supplier",
            "category",
            "conformation",
            "fat_class",
            "cold_weight_kg");

    /** The same of both forms, behind what they had before. */
    private static final List<String> BEHIND_WIDE = List.of("supplier", "category", "conformation", "fat_class");

    private final TextOutput file;
    private final @Nullable Valuer valuer;
    private final @Nullable Wide wide;
    private final List<String> header;
    private CsvForm form = CsvForm.standard();
    private boolean begun;
    /** Names of the sheet's own columns, once the first carcass is written. */
    private List<String> own = List.of();

    private BigDecimal valueTotal = BigDecimal.ZERO;

    /** What stands in the columns of the wide form. */
    private static final class Wide {
        private final YieldEstimator estimator;
        private String sameInEach = "";
        private final List<Level> levels = new ArrayList<>();
        private final StringBuilder row = new StringBuilder();

        void separate(char separator) {
            sameInEach = separator
                    + CsvLine.cell(estimator.table().identity(), separator)
                    + separator
                    + CsvLine.cell(estimator.specification().name(), separator);
        }

        Wide(YieldEstimator estimator) {
            this.estimator = estimator;
            for (String level : estimator.table().levels()) {
                levels.add(new Level(
                        level, estimator.yields(level).stream().map(Cut::code).toList()));
            }
        }
    }

    /** The cuts of a level that have a column. */
    private static final class Level {
        private final String name;
        private final List<String> cuts;
        /** Where they stand among the lines of an estimate; the same in each. */
        private int @Nullable [] lines;

        Level(String name, List<String> cuts) {
            this.name = name;
            this.cuts = cuts;
        }

        double[] kg(YieldEstimate estimate) {
            List<CutLine> all = estimate.lines(name);
            int[] its = lines;
            if (its == null) {
                List<String> codes = all.stream().map(line -> line.cut().code()).toList();
                its = cuts.stream().mapToInt(codes::indexOf).toArray();
                lines = its;
            }
            double[] kg = new double[its.length];
            for (int i = 0; i < kg.length; i++) {
                kg[i] = all.get(its[i]).kg();
            }
            return kg;
        }
    }

    /**
     * Starts a file without values.
     *
     * @param target where it will stand, in a folder that exists
     * @throws UncheckedIOException if it can't be written there
     */
    public EstimateWriter(Path target) {
        this(target, null);
    }

    /**
     * Starts a file.
     *
     * @param target where it will stand, in a folder that exists
     * @param valuer what cuts are worth, bound to the estimator of the estimates, or null for none
     * @throws UncheckedIOException if it can't be written there
     */
    public EstimateWriter(Path target, @Nullable Valuer valuer) {
        this(OutputFiles.alone(target), valuer, null, LONG);
    }

    /**
     * Starts a file that gets its place with the other outputs of a run.
     *
     * @param target where it will stand, in a folder that exists
     * @param valuer what cuts are worth, bound to the estimator of the estimates, or null for none
     * @param outputs the outputs of the run
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public EstimateWriter(Path target, @Nullable Valuer valuer, Outputs outputs) {
        this(outputs.unwrap(OutputFiles.class).started(target), valuer, null, LONG);
    }

    /**
     * Starts to write to a stream, such as a web response, which is flushed by {@link #finish()} and stays the caller's to
     * close.
     *
     * @param stream the stream
     * @param valuer what cuts are worth, bound to the estimator of the estimates, or null for none
     * @throws UncheckedIOException if it can't be written
     */
    public EstimateWriter(OutputStream stream, @Nullable Valuer valuer) {
        this(new StreamOutput(stream), valuer, null, LONG);
    }

    private EstimateWriter(TextOutput file, @Nullable Valuer valuer, @Nullable Wide wide, List<String> header) {
        this.file = file;
        this.valuer = valuer;
        this.wide = wide;
        this.header = header;
    }

    /**
     * Declares the form in which it is written: its separator, decimal mark, encoding and names of columns; all else of a
     * form is for reading. Once, before the first row.
     *
     * @param csvForm the form
     * @return this
     * @throws IllegalStateException if a row was written
     * @throws IllegalArgumentException if commas would be both between cells and in numbers
     */
    public EstimateWriter in(CsvForm csvForm) {
        if (begun) {
            throw new IllegalStateException("a row is written already; the form is declared before the first one");
        }
        if (csvForm.separator() == csvForm.decimalMark()) {
            throw new IllegalArgumentException(
                    "numbers with decimal commas can't stand between commas; declare another separator");
        }
        form = csvForm;
        return this;
    }

    private void begin(Map<String, String> others) {
        if (begun) {
            return;
        }
        begun = true;
        own = List.copyOf(others.keySet());
        if (!form.charset().equals(StandardCharsets.UTF_8)) {
            file.encode(form.charset());
        }
        if (wide != null) {
            wide.separate(form.separator());
        }
        Map<String, String> theirs = new HashMap<>();
        form.columns().forEach((their, ours) -> theirs.putIfAbsent(ours, their));
        List<String> names = new ArrayList<>();
        header.forEach(column -> names.add(theirs.getOrDefault(column, column)));
        for (String column : own) {
            String name = column;
            while (names.contains(name)) {
                name = "sheet_" + name;
            }
            names.add(name);
        }
        file.write(CsvLine.of(names, form.separator()));
    }

    /** A number as the form has it. */
    private String marked(String number) {
        return form.decimalMark() == '.' ? number : number.replace('.', form.decimalMark());
    }

    /**
     * Starts a file in the wide form, a row for each carcass: {@code carcass}, {@code lot}, {@code kill_date}, {@code hall},
     * {@code cold_weight_kg} (3 decimals), {@code notes}, {@code table} and {@code specification} as in the long form, then for each cut of each
     * level that the specification can yield its kg under the name {@code level.cut}, such as {@code retail.striploin-steak} (3 decimals; 0.000 where a
     * carcass has none), then {@code supplier}, {@code category}, {@code conformation}, {@code fat_class} and the sheet's own columns. At each level they add up to the cold weight, as printed.
     *
     * @param target where it will stand, in a folder that exists
     * @param estimator what the estimates will be made with
     * @return a writer
     * @throws UncheckedIOException if it can't be written there
     */
    public static EstimateWriter wide(Path target, YieldEstimator estimator) {
        return wide(OutputFiles.alone(target), estimator);
    }

    /**
     * Starts a file in the wide form that gets its place with the other outputs of a run.
     *
     * @param target where it will stand, in a folder that exists
     * @param estimator what the estimates will be made with
     * @param outputs the outputs of the run
     * @return a writer
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public static EstimateWriter wide(Path target, YieldEstimator estimator, Outputs outputs) {
        return wide(outputs.unwrap(OutputFiles.class).started(target), estimator);
    }

    /**
     * Starts to write to a stream in the wide form; it is flushed by {@link #finish()} and stays the caller's to close.
     *
     * @param stream the stream
     * @param estimator what the estimates will be made with
     * @return a writer
     * @throws UncheckedIOException if it can't be written
     */
    public static EstimateWriter wide(OutputStream stream, YieldEstimator estimator) {
        return wide(new StreamOutput(stream), estimator);
    }

    private static EstimateWriter wide(TextOutput file, YieldEstimator estimator) {
        Wide wide = new Wide(estimator);
        List<String> header = new ArrayList<>(
                List.of("carcass", "lot", "kill_date", "hall", "cold_weight_kg", "notes", "table", "specification"));
        for (Level level : wide.levels) {
            level.cuts.forEach(cut -> header.add(level.name + "." + cut));
        }
        header.addAll(BEHIND_WIDE);
        return new EstimateWriter(file, null, wide, header);
    }

    private void write(YieldEstimate estimate, Wide columns, Map<String, String> others) {
        columns.estimator.check(estimate);
        char separator = form.separator();
        Carcass carcass = estimate.carcass();
        StringBuilder row = columns.row;
        row.setLength(0);
        row.append(CsvLine.cell(carcass.id().orElse(""), separator)).append(separator);
        row.append(CsvLine.cell(carcass.lot().orElse(""), separator)).append(separator);
        row.append(CsvLine.cell(carcass.killDate().orElse(""), separator)).append(separator);
        row.append(CsvLine.cell(carcass.hall().orElse(""), separator)).append(separator);
        row.append(marked(Numbers.fixed(carcass.coldWeightKg(), KG_DECIMALS))).append(separator);
        row.append(CsvLine.cell(String.join("; ", estimate.notes()), separator)).append(columns.sameInEach);
        int figures = row.length();
        for (Level level : columns.levels) {
            Rounding.appendAdding(row, separator, level.kg(estimate), carcass.coldWeightKg(), KG_DECIMALS);
        }
        for (int i = figures; form.decimalMark() != '.' && i < row.length(); i++) {
            if (row.charAt(i) == '.') {
                row.setCharAt(i, form.decimalMark());
            }
        }
        for (String cell : List.of(
                carcass.supplier().orElse(""),
                carcass.category().letter(),
                carcass.conformation().toString(),
                carcass.fatClass().toString())) {
            row.append(separator).append(CsvLine.cell(cell, separator));
        }
        others.values().forEach(cell -> row.append(separator).append(CsvLine.cell(cell, separator)));
        file.write(row.append('\n'));
    }

    /**
     * Writes the rows of one carcass.
     *
     * @param estimate its estimate
     * @throws UncheckedIOException if writing fails
     * @throws IllegalArgumentException if there are prices, and they are bound to another estimator, or if the form is
     *     wide, and its estimator is another one
     */
    public void write(YieldEstimate estimate) {
        write(estimate, Map.of());
    }

    /**
     * Writes the rows of one carcass with what else its sheet says of it.
     *
     * @param estimate its estimate
     * @param others the sheet's own columns, name to text; which there are is settled by the first carcass
     * @throws UncheckedIOException if writing fails
     * @throws IllegalArgumentException as {@link #write(YieldEstimate)}, or if the own columns are others than those of the first
     *     carcass
     */
    public void write(YieldEstimate estimate, Map<String, String> others) {
        Wide columns = wide;
        begin(others);
        if (!own.equals(List.copyOf(others.keySet()))) {
            throw new IllegalArgumentException("own columns " + others.keySet()
                    + " are not those of the first carcass, " + own + "; each has the same");
        }
        if (columns == null) {
            writeLong(estimate, others);
        } else {
            write(estimate, columns, others);
        }
    }

    /**
     * What the values in the file add up to so far.
     *
     * @return the sum of the column {@code value}, 0 without prices
     */
    public BigDecimal valueTotal() {
        return valueTotal;
    }

    private void writeLong(YieldEstimate estimate, Map<String, String> others) {
        Carcass carcass = estimate.carcass();
        String notes = String.join("; ", estimate.notes());
        for (String level : estimate.table().levels()) {
            List<CutLine> lines = estimate.lines(level).stream()
                    .filter(line -> line.kg() != 0)
                    .toList();
            List<String> kg = Rounding.adding(
                    lines.stream().mapToDouble(CutLine::kg).toArray(), estimate.coldWeightKg(), KG_DECIMALS);
            List<String> shares =
                    Rounding.adding(lines.stream().mapToDouble(CutLine::share).toArray(), 1, SHARE_DECIMALS);
            List<String> values = values(estimate, level, lines);
            for (int i = 0; i < lines.size(); i++) {
                Interval interval = lines.get(i).interval(Interval.SHOWN_PROBABILITY);
                if (!values.get(i).isEmpty()) {
                    valueTotal = valueTotal.add(new BigDecimal(values.get(i)));
                }
                List<String> row = new ArrayList<>(List.of(
                        carcass.id().orElse(""),
                        level,
                        lines.get(i).cut().code(),
                        lines.get(i).cut().kind().code(),
                        marked(kg.get(i)),
                        marked(shares.get(i)),
                        notes,
                        carcass.lot().orElse(""),
                        estimate.table().identity(),
                        estimate.specification().name(),
                        marked(Numbers.fixed(interval.low(), KG_DECIMALS)),
                        marked(Numbers.fixed(interval.high(), KG_DECIMALS)),
                        marked(values.get(i)),
                        carcass.killDate().orElse(""),
                        carcass.hall().orElse(""),
                        carcass.supplier().orElse(""),
                        carcass.category().letter(),
                        carcass.conformation().toString(),
                        carcass.fatClass().toString(),
                        marked(Numbers.fixed(carcass.coldWeightKg(), KG_DECIMALS))));
                row.addAll(others.values());
                file.write(CsvLine.of(row, form.separator()));
            }
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
     * Ends the file and puts it in its place; with other outputs it gets it when {@link Outputs#finish()} is called.
     *
     * @throws UncheckedIOException if that fails
     */
    public void finish() {
        begin(Map.of());
        file.finish();
    }

    /**
     * Ends writing; without {@link #finish()} nothing is left behind.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    public void close() {
        file.close();
    }
}
