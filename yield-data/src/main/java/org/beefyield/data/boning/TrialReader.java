package org.beefyield.data.boning;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvHeader;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/**
 * Reads boning trials: a CSV file, a row for each carcass. Columns, in any order:
 *
 * <ul>
 *   <li>{@code carcass}: id, required and unique
 *   <li>{@code category}: letter of the category, required
 *   <li>{@code conformation}: S E U R O P, whole or in thirds, required
 *   <li>{@code fat_class}: 1 to 5, whole, in thirds or as {@code 4L}, required
 *   <li>{@code cold_weight_kg}: cold weight in the reference dressing, kg, required
 *   <li>{@code day}: day of boning, a date as {@link CsvForm#dates()} says
 *   <li>the code of a cut of the table, such as {@code striploin}, or the name of a group of cuts that were weighed
 *       together: kg, both sides together. A cut that comes from several parents has its parent before it, as
 *       {@code striploin/lean-trim}
 *   <li>{@code quarter:} and a name, such as {@code quarter:forequarter}: cold weight of that quarter, kg. What was weighed
 *       of it has its name before the cut's, as {@code forequarter:bone}
 * </ul>
 *
 * <p>A blank cell was not weighed. A bad row is a problem and doesn't stop the others; a file without the required
 * columns, or with a column that is none of these, can't be used at all. Trials of any other layout are read by a
 * {@link TrialLayout}.
 */
public final class TrialReader {
    private static final List<String> REQUIRED =
            List.of("carcass", "category", "conformation", "fat_class", "cold_weight_kg");
    private static final String DAY = "day";
    private static final String QUARTER = "quarter:";

    private final String file;
    private final Set<String> seen = new HashSet<>();
    private final List<Problem> problems = new ArrayList<>();
    /** Names of quarters by the column of their weight. */
    private final Map<String, String> quarters = new LinkedHashMap<>();
    /** By column, the quarter (empty for the carcass) and what is weighed. */
    private final Map<String, Weighed> weighed = new LinkedHashMap<>();

    private record Weighed(String quarter, String cut) {}

    private TrialReader(String file) {
        this.file = file;
    }

    /**
     * Reads trials in which every cut was weighed apart from a file of the standard form.
     *
     * @param file the file
     * @param table the table whose cuts the columns name
     * @return the trials and every problem of a row
     * @throws InvalidDataException if it can't be read at all, or its header is wrong
     */
    public static TrialSheet read(Path file, YieldTable table) {
        return read(Source.of(file), CsvForm.standard(), table, Set.of());
    }

    /**
     * Reads trials.
     *
     * @param source the file
     * @param form how it is written
     * @param table the table whose cuts the columns name
     * @param groups names of groups of cuts that were weighed together
     * @return the trials and every problem of a row
     * @throws InvalidDataException if it can't be read at all, or its header is wrong
     */
    public static TrialSheet read(Source source, CsvForm form, YieldTable table, Set<String> groups) {
        return new TrialReader(source.name()).read(source, form, table.catalogue(), groups);
    }

    /**
     * Reads trials of another layout than ours.
     *
     * @param source the file
     * @param form how it is written
     * @param layout what its columns hold
     * @return the trials, every problem of a row, and how many carcasses the layout leaves out
     * @throws InvalidDataException if it can't be read at all, a column of the layout is missing, or it has one that the layout
     *     doesn't know
     */
    public static TrialSheet read(Source source, CsvForm form, TrialLayout layout) {
        return LaidOutTrials.read(source, form, layout);
    }

    private TrialSheet read(Source source, CsvForm form, CutCatalogue catalogue, Set<String> groups) {
        List<Trial> trials = new ArrayList<>();
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(file, in, form, problems::add);
            checkHeader(csv, catalogue, groups);
            for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                Trial trial = trial(CsvRow.of(file, csv.columns(), form, row, problems::add));
                if (trial != null) {
                    trials.add(trial);
                }
            }
            if (csv.rows() == 0) {
                problems.add(new Problem(
                        file, 0, "", "", "the file has a header but no row; a row for each carcass is needed"));
            }
        } catch (IOException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file, 0, "", "", "the file can't be read: " + Reason.of(e))), e);
        }
        return new TrialSheet(file, trials, problems, 0);
    }

    private void checkHeader(CsvReader csv, CutCatalogue catalogue, Set<String> groups) {
        CsvHeader columns = csv.columns();
        List<String> header = IntStream.range(0, columns.names().size())
                .mapToObj(columns::ours)
                .toList();
        long line = csv.headerLine();
        List<Problem> found = new ArrayList<>();
        for (String column : REQUIRED) {
            if (!header.contains(column)) {
                found.add(new Problem(
                        file,
                        line,
                        columns.name(column),
                        "",
                        "the column \"" + columns.name(column) + "\" is missing; required: "
                                + String.join(
                                        ", ",
                                        REQUIRED.stream().map(columns::name).toList())));
            }
        }
        header.stream()
                .filter(column -> column.startsWith(QUARTER))
                .forEach(column -> quarters.put(column, column.substring(QUARTER.length())));
        if (quarters.containsKey(QUARTER)) {
            found.add(new Problem(file, line, QUARTER, "", "behind the colon stands the name of a quarter"));
        }
        for (int i = 0; i < header.size(); i++) {
            String column = header.get(i);
            if (REQUIRED.contains(column) || column.equals(DAY) || quarters.containsKey(column)) {
                continue;
            }
            int colon = column.indexOf(':');
            String quarter = colon < 0 ? "" : column.substring(0, colon);
            String cut = column.substring(colon + 1);
            String wrong = colon == 0
                    ? "before the colon stands the name of a quarter, such as fore:bone"
                    : wrong(quarter, cut, catalogue, groups);
            if (wrong != null) {
                found.add(new Problem(
                        file, line, columns.names().get(i), "", column.isEmpty() ? columns.unknown(i) : wrong));
            }
            weighed.put(column, new Weighed(quarter, cut));
        }
        if (!found.isEmpty()) {
            throw new InvalidDataException(found);
        }
    }

    private @Nullable String wrong(String quarter, String name, CutCatalogue catalogue, Set<String> groups) {
        if (!quarter.isEmpty() && !quarters.containsValue(quarter)) {
            return "the column \"" + QUARTER + quarter + "\" with the weight of that quarter is missing";
        }
        int slash = name.indexOf('/');
        String parent = slash < 0 ? BreakdownRow.ROOT : name.substring(0, slash);
        String cut = name.substring(slash + 1);
        if (!parent.equals(BreakdownRow.ROOT) && catalogue.find(parent).isEmpty()) {
            return catalogue.unknown(parent);
        }
        if (groups.contains(cut) || catalogue.find(cut).isPresent()) {
            return null;
        }
        return catalogue.unknown(cut) + (groups.isEmpty() ? "" : "; groups: " + String.join(", ", groups));
    }

    private @Nullable Trial trial(CsvRow row) {
        String id = row.text("carcass");
        if (id.isEmpty()) {
            row.refuse("carcass", "every row names a carcass");
        } else if (!seen.add(id)) {
            row.refuse("carcass", "a trial of carcass " + id + " stands above");
        }
        Category category = row.parsedOrNull("category", Category::parse);
        Conformation conformation = row.parsedOrNull("conformation", Conformation::parse);
        FatClass fatClass = row.parsedOrNull("fat_class", FatClass::parse);
        double cold = row.number("cold_weight_kg");
        Map<String, Map<String, Double>> kg = new LinkedHashMap<>();
        weighed.forEach((column, what) -> {
            Double weight = weight(row, column);
            if (weight != null) {
                kg.computeIfAbsent(what.quarter(), quarter -> new LinkedHashMap<>())
                        .put(what.cut(), weight);
            }
        });
        List<Quarter> ofCarcass = new ArrayList<>();
        quarters.forEach((column, name) -> {
            Double weight = weight(row, column);
            if (weight == null && kg.containsKey(name)) {
                row.refuse(column, "the weight of the quarter is missing, but cuts of it were weighed");
            } else if (weight != null && weight == 0) {
                row.refuse(column, "the weight of a quarter is above 0");
            } else if (weight != null) {
                ofCarcass.add(new Quarter(name, weight, kg.getOrDefault(name, Map.of())));
            }
        });
        Carcass carcass = category == null || conformation == null || fatClass == null || Double.isNaN(cold)
                ? null
                : row.parsedOrNull(
                        "cold_weight_kg",
                        text -> Carcass.of(category, conformation, fatClass, cold)
                                .withId(id));
        String day = row.day(DAY);
        if (carcass == null || row.isBad()) {
            return null;
        }
        Trial trial = new Trial(carcass, kg.getOrDefault("", Map.of()), List.of(), day);
        for (Quarter quarter : ofCarcass) {
            trial = trial.withQuarter(quarter);
        }
        return trial;
    }

    private static @Nullable Double weight(CsvRow row, String column) {
        Double weight = row.optionalNumber(column);
        if (weight != null && weight < 0) {
            row.refuse(column, "a weight is 0 kg or more; blank if it was not weighed");
        }
        return weight;
    }
}
