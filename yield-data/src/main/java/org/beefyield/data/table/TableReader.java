package org.beefyield.data.table;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.Reason;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableProblem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads a yield table: a Tabular Data Package (version 1), in a folder, a zip file or a place on the class path.
 *
 * <p>{@code datapackage.json} has the profile {@code tabular-data-package}, {@code name}, {@code version} and, under the
 * key {@code beefyield}: {@code format} ({@code 1.0}), {@code levels} in order, {@code reference} {conformation, fat,
 * weight_kg}, {@code fitted_range} and {@code allowed_range} (each [low, high] of the three), {@code width_fit},
 * {@code terms}, {@code categories}, {@code basis}, {@code decimals} and, of a calibrated table, {@code
 * residual_degrees_of_freedom} and {@code run_degrees_of_freedom}. Its resources are CSV files: UTF-8, comma,
 * decimal point, a header; a byte order mark and CRLF are accepted. What spreadsheets make of them is the same table: {@code
 * TRUE}, numbers written otherwise, empty cells behind the last and rows that end before cells that may be empty, rows of
 * separators alone. Columns:
 *
 * <ul>
 *   <li>{@code cuts}: cut, name, level, kind, pieces_per_side, side_split_sd_pct, fat_pct, unece, note
 *   <li>{@code breakdown}: category (letters or {@code *}), way (name or {@code *}), parent, cut, level_g_per_kg,
 *       per_conformation_point, per_fat_point, per_100kg, a column for each term, sd_g_per_kg, lot_sd_g_per_kg (optional),
 *       run_sd_g_per_kg (optional), hall_sd_g_per_kg (optional), source
 *   <li>{@code breakdown-by-class} (beside {@code breakdown} or instead): category, way, parent, conformation (whole
 *       class or third), fat_class (whole class or third), cut, g_per_kg, sd_g_per_kg, lot_sd_g_per_kg (optional),
 *       run_sd_g_per_kg (optional), hall_sd_g_per_kg (optional), source
 *   <li>{@code specifications} (optional): specification, parent, way
 *   <li>{@code quartering} (optional): quartering, cut, fore_share, source
 *   <li>{@code coefficient-notes} (optional): category, way, parent, cut, term, standard_error, error_id
 *       (optional), source
 *   <li>{@code residual-covariance} (optional): category, way, parent, cut, other_cut, value: each pair of children of a
 *       breakdown once, (g/kg) squared
 *   <li>{@code coefficient-covariance} (optional): category, way, parent, cut, term, other_cut, other_term, value: each
 *       pair of coefficients of a breakdown once, (g/kg) squared
 *   <li>{@code expectations} (optional): cut, kind, level, variable, direction, strict, over, note
 *   <li>{@code names} (optional): cut, language, name
 *   <li>{@code sources}: source, kind, citation, note
 * </ul>
 *
 * <p>The SDs of lots, runs and halls are those of the errors that carcasses of one lot, one run or one hall have in common, g
 * per kg of parent like {@code sd_g_per_kg}, which is what each carcass has for itself. A table states one of them in every row of both
 * breakdowns, or has no such column. The children of a breakdown close as independent errors that add up to 0 where the SDs allow
 * it; else the child with the largest SD takes the opposite of the others, so that its SD is at most the sum of theirs. A standard
 * error with an {@code error_id} is of the one error of that name, wherever it stands; without one it is of its term and breakdown, for
 * all categories, and a level's of its category's rows. A coefficient may have several standard errors of different names.
 *
 * <p>Further columns that the resource's schema declares are carried; one that it doesn't declare is an error. Rounding:
 * n children of a breakdown may miss closing by n/2 units of the last decimal of a column, by 2 sqrt(n/3) if that is less, and
 * by no more than what moves shares by 0.5 g per kg of parent anywhere in the allowed range, with all columns by less than 1; so
 * may the children in a cell of a breakdown by class. The decimals are those declared under {@code decimals} (null for a column
 * that is exact), else the most that stand in the column; where the numbers of a breakdown show more than is declared, these.
 *
 * <p>Of what a resource declares of its file these are honoured: {@code encoding} (UTF-8 or a single-byte one), {@code
 * delimiter}, {@code skipInitialSpace} and {@code nullSequence} of its {@code dialect}, {@code missingValues} of its schema,
 * {@code decimalChar}, {@code trueValues}, {@code falseValues} and the constraints of its fields but {@code pattern}. Whatever else
 * would have a file read otherwise is refused by name. Any further key of the package, a resource or a field, such as {@code
 * contributors}, is carried as {@link Metadata}. A file that is called as a part of a table and that no resource names is refused.
 *
 * <p>Versions of the format: a newer major version is refused. A newer minor version adds keys under {@code beefyield} alone, and
 * none that changes a figure or the digest; an older reader keeps them, says so in {@link YieldTable#notes()} and writes them
 * back under the version that they came with. Everything else, a column or a word too, takes a new major version. Tables are
 * written as {@code 1.0}.
 *
 * <p>What a resource says of its {@code bytes} and {@code hash} is not looked at; {@code digest} under {@code beefyield},
 * which a written table has, is. A zip holds the files at its top or in one folder.
 *
 * <p>Nothing outside the folder or zip is ever opened, and no address: a resource's path is the relative name of a file,
 * without {@code ..}, and a link in a folder is refused where it leads out of it. Limits, far above any plant's table: 64
 * MiB in all, unpacked; a descriptor of 1 MiB and 100 levels of nesting; 1000 files in a zip; 250,000 rows in all, 20
 * columns beside a resource's own, 400 characters in a name or number and 10,000 in any other cell; 20 levels, 50
 * terms, 1000 cuts; and what is proved must fit too. After 10,000 problems reading stops.
 */
public final class TableReader {
    private static final int SHOWN = 200;

    /** How often a folder is read that is replaced meanwhile each time. */
    private static final int MOST_READINGS = 20;

    private final String where;
    private final PackageFiles files;
    private final List<Problem> problems = new ArrayList<>();
    private final Map<String, String> fileOf = new HashMap<>();
    private final Map<String, List<Long>> linesOf = new HashMap<>();
    private final Map<String, String> texts = new HashMap<>();
    private final Map<String, Set<String>> unique = new HashMap<>();

    /** What breaks the descriptor's constraints, said if nothing else is wrong. */
    private final List<Problem> constraints = new ArrayList<>();

    private long rows;

    private TableReader(String where, PackageFiles files) {
        this.where = where;
        this.files = files;
    }

    /**
     * Reads and proves a table.
     *
     * @param path a folder that holds {@code datapackage.json}, or a zip of such a folder's files
     * @return the table
     * @throws InvalidDataException if it can't be read or proved; it names file, line, column and value of everything
     *     found wrong
     */
    public static YieldTable read(Path path) {
        return read(org.beefyield.data.Source.of(path));
    }

    /**
     * Reads and proves a table.
     *
     * @param source a zip of the files of a folder that holds {@code datapackage.json}, or that folder's path
     * @return the table
     * @throws InvalidDataException as {@link #read(Path)}
     */
    public static YieldTable read(org.beefyield.data.Source source) {
        for (int reading = 0; reading < MOST_READINGS; reading++) {
            try (PackageFiles files = PackagePlaces.of(source)) {
                try {
                    return new TableReader(source.name(), files).read();
                } catch (InvalidDataException e) {
                    if (!files.isReplaced()) {
                        throw e;
                    }
                }
            }
        }
        throw new InvalidDataException(List.of(new Problem(source.name(), 0, "", "", PackageFiles.REPLACED)));
    }

    /**
     * Reads and proves a table whose files may have been edited since its digest was taken, so that it can be written with
     * a new one.
     *
     * @param source as {@link #read(org.beefyield.data.Source)}
     * @param staleDigest takes what {@link #read(org.beefyield.data.Source)} would refuse it for, if its digest is not that
     *     of its files
     * @return the table
     * @throws InvalidDataException as {@link #read(Path)}, but for the digest
     */
    public static YieldTable readEdited(org.beefyield.data.Source source, Consumer<Problem> staleDigest) {
        Objects.requireNonNull(staleDigest, "staleDigest");
        return new TableReader(source.name(), PackagePlaces.of(source)).read(staleDigest);
    }

    /**
     * Reads and proves a table that lies unzipped on the class path.
     *
     * @param loader class loader
     * @param location folder on its class path that holds {@code datapackage.json}, such as {@code tables/hall-2}
     * @return the table
     * @throws InvalidDataException as {@link #read(Path)}
     */
    public static YieldTable read(ClassLoader loader, String location) {
        return new TableReader(location, PackagePlaces.classPath(loader, location)).read();
    }

    /** What the files say, not yet proved. */
    static TableDefinition definition(String where, PackageFiles files) {
        TableReader reader = new TableReader(where, files);
        return reader.definition(reader.descriptor());
    }

    private YieldTable read() {
        return read(stale -> {
            throw new InvalidDataException(List.of(stale));
        });
    }

    private YieldTable read(Consumer<Problem> staleDigest) {
        Descriptor descriptor = descriptor();
        TableDefinition definition = definition(descriptor);
        try {
            YieldTable table = YieldTable.of(definition);
            if (!constraints.isEmpty()) {
                throw new InvalidDataException(constraints);
            }
            String stated = descriptor.digest();
            if (stated != null && !stated.equals(table.digest())) {
                staleDigest.accept(descriptor.staleDigest(stated, table.digest()));
            }
            return table;
        } catch (InvalidTableException e) {
            throw new InvalidDataException(
                    e.problems().stream()
                            .map(problem -> located(problem, descriptor))
                            .toList(),
                    e);
        }
    }

    /** A problem of the definition as one of the file it was read from. */
    private Problem located(TableProblem problem, Descriptor descriptor) {
        if (problem.resource().equals(TableProblem.TABLE)) {
            return descriptor.ofKey(problem.column(), problem.value(), problem.message());
        }
        String file = fileOf.getOrDefault(problem.resource(), Descriptor.FILE);
        return problem(
                file,
                line(problem, problem.row()),
                problem.column(),
                problem.value(),
                problem.message()
                        + Numbers.places(
                                "line",
                                problem.otherRows().stream()
                                        .map(other -> line(problem, other))
                                        .toList()));
    }

    private long line(TableProblem problem, int row) {
        List<Long> lines = linesOf.getOrDefault(problem.resource(), List.of());
        return row >= 0 && row < lines.size() ? lines.get(row) : 0;
    }

    private Problem problem(String file, long line, String column, String value, String message) {
        return new Problem(
                where + "/" + file,
                line,
                column,
                value,
                value.isEmpty() ? message : Excerpt.quote(value) + ": " + message);
    }

    private Descriptor descriptor() {
        Descriptor descriptor =
                open(Descriptor.FILE, stream -> Descriptor.read(where + "/" + Descriptor.FILE, stream, problems));
        if (descriptor == null) {
            throw new InvalidDataException(problems);
        }
        return descriptor;
    }

    private TableDefinition definition(Descriptor descriptor) {
        TableDefinition.Builder builder = descriptor.table();
        Map<String, Descriptor.Resource> resources = descriptor.resources();
        stopAtProblems();
        files.take(resources.values().stream()
                .filter(resource -> TableSchema.find(resource.name()).isPresent())
                .map(Descriptor.Resource::path)
                .toList());
        List<Term> terms = builder.build().terms();
        List<TableSchema> all = List.of(TableSchema.values());
        List<String> needed = all.stream()
                .filter(TableSchema::isNeeded)
                .map(TableSchema::code)
                .toList();
        for (String name : needed) {
            if (!resources.containsKey(name)) {
                resourcesProblem(
                        "", "the resource \"" + name + "\" is missing; a table needs " + String.join(", ", needed));
            }
        }
        if (!resources.containsKey(TableSchema.BREAKDOWN.code())
                && !resources.containsKey(TableSchema.BREAKDOWN_BY_CLASS.code())) {
            resourcesProblem(
                    "", "a table needs " + TableSchema.BREAKDOWN + ", " + TableSchema.BREAKDOWN_BY_CLASS + " or both");
        }
        for (Descriptor.Resource resource : resources.values()) {
            Optional<TableSchema> schema = TableSchema.find(resource.name());
            if (schema.isPresent()) {
                rows(builder, resource, schema.get(), terms, adder(builder, schema.get(), descriptor::isExact));
            } else {
                resourcesProblem(
                        resource.name(),
                        "unknown resource; valid: "
                                + all.stream().map(TableSchema::code).sorted().collect(Collectors.joining(", ")));
            }
        }
        refuseUnlisted(resources);
        stopAtProblems();
        metadata(builder, descriptor, terms);
        TableDefinition definition = builder.build();
        TableLimits.exceeded(definition).forEach(message -> report(problem(Descriptor.FILE, 0, "", "", message)));
        stopAtProblems();
        return definition;
    }

    /** Adds what the descriptor says to people and other tools of what the table has, in the order in which it is written. */
    private static void metadata(TableDefinition.Builder builder, Descriptor descriptor, List<Term> terms) {
        descriptor.metadata().forEach(builder::metadata);
        Map<String, List<Metadata>> byPlace = new LinkedHashMap<>();
        for (TableSchema schema : TableSchema.values()) {
            descriptor
                    .metadata(schema.code(), Set.copyOf(schema.columnNames(terms)))
                    .forEach(entry -> byPlace.computeIfAbsent(entry.place(), place -> new ArrayList<>())
                            .add(entry));
        }
        if (byPlace.isEmpty()) {
            return;
        }
        for (TableResource resource : builder.build().resources()) {
            byPlace.getOrDefault(resource.name(), List.of()).forEach(builder::metadata);
            resource.columns()
                    .forEach(column -> byPlace.getOrDefault(resource.name() + "/" + column, List.of())
                            .forEach(builder::metadata));
        }
    }

    /** Refuses a file that has the name of a part of a table and that no resource names: whoever put it there means it to count. */
    private void refuseUnlisted(Map<String, Descriptor.Resource> resources) {
        List<String> listed =
                resources.values().stream().map(Descriptor.Resource::path).toList();
        for (TableSchema schema : TableSchema.values()) {
            String file = TableFiles.name(schema);
            if (listed.contains(file)) {
                continue;
            }
            try (InputStream stream = files.open(file)) {
                if (stream != null) {
                    report(problem(
                            file,
                            0,
                            "",
                            "",
                            "the file is here, and no resource of " + Descriptor.FILE
                                    + " names it; list it there, or take it away"));
                }
            } catch (IOException e) {
                report(problem(file, 0, "", "", "it can't be read: " + Reason.of(e)));
            }
        }
    }

    private void resourcesProblem(String value, String message) {
        report(problem(Descriptor.FILE, 0, "resources", value, message));
    }

    private void report(Problem problem) {
        problems.add(problem);
        if (problems.size() == TableLimits.MOST_PROBLEMS) {
            problems.add(
                    new Problem(where, 0, "", "", "reading stopped after " + TableLimits.MOST_PROBLEMS + " problems"));
            throw new InvalidDataException(problems);
        }
    }

    private void stopAtProblems() {
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
    }

    private interface Reading<T> {
        @Nullable
        T from(InputStream stream) throws IOException;
    }

    private <T> @Nullable T open(String file, Reading<T> reading) {
        try (InputStream stream = files.open(file)) {
            if (stream == null) {
                report(problem(file, 0, "", "", "there is no such file"));
                return null;
            }
            return reading.from(stream);
        } catch (IOException e) {
            report(problem(file, 0, "", "", "it can't be read: " + Reason.of(e)));
            return null;
        }
    }

    /** Reads the rows of a resource, those that can be used to the consumer, which may find cells of them bad. */
    private void rows(
            TableDefinition.Builder builder,
            Descriptor.Resource resource,
            TableSchema schema,
            List<Term> terms,
            Consumer<CsvRow> consumer) {
        List<TableColumn> columns = schema.columns(terms);
        List<String> own = columns.stream().map(TableColumn::name).toList();
        List<String> freeTexts = columns.stream()
                .filter(column -> column.content() == TableColumn.Content.FREE_TEXT)
                .map(TableColumn::name)
                .toList();
        List<String> names = columns.stream()
                .filter(column ->
                        column.content().type().equals("string") && column.content() != TableColumn.Content.FREE_TEXT)
                .map(TableColumn::name)
                .toList();
        Map<String, String> types = columns.stream()
                .collect(Collectors.toMap(
                        TableColumn::name, column -> column.content().type(), (one, same) -> one));
        fileOf.put(resource.name(), resource.path());
        List<Long> lines = linesOf.computeIfAbsent(resource.name(), name -> new ArrayList<>());
        Map<String, List<String>> extras = new LinkedHashMap<>();
        open(resource.path(), stream -> {
            CsvReader csv;
            try {
                csv = new CsvReader(
                        where + "/" + resource.path(),
                        stream,
                        resource.form(),
                        new CsvReader.TableCells(column -> isOptional(columns, column), resource.skipsInitialSpace()),
                        this::report);
            } catch (InvalidDataException e) {
                e.problems().forEach(this::report);
                return null;
            }
            if (!columns(resource, columns, csv)) {
                return null;
            }
            for (String column : csv.header()) {
                if (!own.contains(column)) {
                    extras.put(column, new ArrayList<>());
                }
            }
            for (CsvReader.Row read = csv.next(); read != null; read = csv.next()) {
                rows++;
                if (rows > TableLimits.MOST_ROWS) {
                    report(problem(
                            resource.path(),
                            read.line(),
                            "",
                            "",
                            "a table has at most " + TableLimits.MOST_ROWS + " rows in all"));
                    throw new InvalidDataException(problems);
                }
                Map<String, String> cells = new LinkedHashMap<>();
                for (int i = 0; i < csv.header().size(); i++) {
                    String column = csv.header().get(i);
                    String cell = cell(
                            resource, types.get(column), column, read.cells().get(i), read.line());
                    if (cell != null) {
                        cells.put(column, names.contains(column) ? once(cell) : cell);
                    }
                }
                if (cells.size() < csv.header().size()) {
                    continue;
                }
                Predicate<String> isText = column -> freeTexts.contains(column) || !own.contains(column);
                if (isShortEnough(resource, isText, read.line(), cells)) {
                    lines.add(read.line());
                    extras.forEach((column, values) -> values.add(cells.getOrDefault(column, "")));
                    consumer.accept(new CsvRow(where + "/" + resource.path(), read.line(), cells, this::report));
                }
            }
            return null;
        });
        // a resource without rows isn't written, and nor are its columns
        extras.entrySet().removeIf(extra -> extra.getValue().isEmpty());
        extras.forEach((column, values) ->
                builder.extraColumn(new ExtraColumn(resource.name(), column, typeOf(resource, column), values)));
    }

    private static String typeOf(Descriptor.Resource resource, String column) {
        Field field = resource.columns().get(column);
        return field == null ? "string" : field.type();
    }

    private static boolean isOptional(List<TableColumn> columns, String name) {
        return columns.stream().noneMatch(column -> column.name().equals(name) && column.isRequired());
    }

    /** A cell in the plain form, whatever is declared of its file and column; null if it is refused. */
    private @Nullable String cell(
            Descriptor.Resource resource, @Nullable String ownType, String column, String cell, long line) {
        Field field = resource.columns().get(column);
        if (field == null) {
            return cell;
        }
        try {
            String plain = resource.missing().contains(cell.strip())
                    ? ""
                    : field.cell(cell, ownType == null ? field.type() : ownType, ownType != null);
            // which cells of its own may be empty is the table's to say
            String broken = ownType != null && plain.isBlank()
                    ? null
                    : field.constraints()
                            .broken(
                                    plain,
                                    unique.computeIfAbsent(resource.name() + "/" + column, name -> new HashSet<>()));
            if (broken != null && constraints.size() < TableLimits.MOST_PROBLEMS) {
                constraints.add(problem(resource.path(), line, column, Excerpt.clip(cell, SHOWN), broken));
            }
            return plain;
        } catch (IllegalArgumentException e) {
            report(new Problem(
                    where + "/" + resource.path(),
                    line,
                    column,
                    Excerpt.clip(cell.strip(), SHOWN),
                    String.valueOf(e.getMessage())));
            return null;
        }
    }

    /** One text for all cells that have the same name in them: a table that travels takes each along once. */
    private String once(String name) {
        String before = texts.putIfAbsent(name, name);
        return before == null ? name : before;
    }

    private boolean isShortEnough(
            Descriptor.Resource resource, Predicate<String> isText, long line, Map<String, String> cells) {
        int before = problems.size();
        cells.forEach((column, cell) -> {
            int longest = isText.test(column) ? TableLimits.LONGEST_CELL : TableLimits.LONGEST_NAME;
            if (cell.length() > longest) {
                report(new Problem(
                        where + "/" + resource.path(),
                        line,
                        column,
                        Excerpt.clip(cell, SHOWN),
                        "the cell has " + cell.length() + " characters; at most " + longest + " are read here"));
            }
        });
        return problems.size() == before;
    }

    private boolean columns(Descriptor.Resource resource, List<TableColumn> columns, CsvReader csv) {
        List<String> own = columns.stream().map(TableColumn::name).toList();
        List<String> needed = columns.stream()
                .filter(column -> !column.mayBeMissing())
                .map(TableColumn::name)
                .toList();
        List<String> header = csv.header();
        boolean good = true;
        if (header.size() > own.size() + TableLimits.MOST_EXTRA_COLUMNS) {
            report(problem(
                    resource.path(),
                    csv.headerLine(),
                    "",
                    "",
                    "there are " + header.size() + " columns; " + resource.name() + " has " + own.size()
                            + " and at most " + TableLimits.MOST_EXTRA_COLUMNS + " further ones"));
            return false;
        }
        for (String column : own) {
            if (!header.contains(column)) {
                // a table that states nothing in a column has neither it nor its field
                if (needed.contains(column)) {
                    report(problem(
                            resource.path(),
                            csv.headerLine(),
                            column,
                            "",
                            "the column \"" + column + "\" is missing; columns: " + String.join(", ", needed)));
                    good = false;
                }
            } else if (!resource.columns().containsKey(column)) {
                resourcesProblem(column, "the schema of " + resource.name() + " lacks this field");
                good = false;
            }
        }
        for (String column : header) {
            if (!own.contains(column) && !resource.columns().containsKey(column)) {
                report(problem(
                        resource.path(),
                        csv.headerLine(),
                        column,
                        "",
                        "the column \"" + column + "\" is not declared; columns of " + resource.name() + ": "
                                + String.join(", ", own) + "; a further one is declared in the schema, as a term if it"
                                + " is one"));
                good = false;
            }
        }
        for (String column : resource.columns().keySet()) {
            if (!header.contains(column) && !needed.contains(column)) {
                report(problem(
                        resource.path(),
                        csv.headerLine(),
                        column,
                        "",
                        "the column \"" + column + "\" is declared in the schema and missing here"));
                good = false;
            }
        }
        return good;
    }

    private static Consumer<CsvRow> adder(
            TableDefinition.Builder builder, TableSchema schema, Predicate<String> exact) {
        return switch (schema) {
            case CUTS -> row -> cut(row).ifPresent(builder::cut);
            case BREAKDOWN -> breakdown(builder, exact);
            case BREAKDOWN_BY_CLASS -> classes(builder, exact);
            case SPECIFICATIONS ->
                row -> builder.specification(
                        row.text(TableColumn.SPECIFICATION), row.text(TableColumn.PARENT), row.text(TableColumn.WAY));
            case QUARTERING ->
                row -> builder.quartering(new QuarteringRow(
                        row.text(TableColumn.QUARTERING),
                        row.text(TableColumn.CUT),
                        row.number(TableColumn.FORE_SHARE),
                        row.text(TableColumn.SOURCE)));
            case COEFFICIENT_NOTES ->
                row -> builder.coefficientNote(new CoefficientNote(
                        row.text(TableColumn.CATEGORY),
                        row.text(TableColumn.WAY),
                        row.text(TableColumn.PARENT),
                        row.text(TableColumn.CUT),
                        row.text(TableColumn.TERM),
                        row.optionalNumber(TableColumn.STANDARD_ERROR),
                        row.text(TableColumn.ERROR_ID),
                        row.text(TableColumn.SOURCE)));
            case RESIDUAL_COVARIANCE, COEFFICIENT_COVARIANCE ->
                row -> builder.covariance(new CovarianceRow(
                        row.text(TableColumn.CATEGORY),
                        row.text(TableColumn.WAY),
                        row.text(TableColumn.PARENT),
                        row.text(TableColumn.CUT),
                        row.text(TableColumn.TERM),
                        row.text(TableColumn.OTHER_CUT),
                        row.text(TableColumn.OTHER_TERM),
                        row.number(TableColumn.VALUE)));
            case EXPECTATIONS -> row -> builder.expectation(expectation(row));
            case NAMES ->
                row -> builder.name(new CutName(
                        row.text(TableColumn.CUT), row.text(TableColumn.LANGUAGE), row.text(TableColumn.NAME)));
            case SOURCES ->
                row -> builder.source(new SourceRow(
                        row.text(TableColumn.SOURCE),
                        row.parsed(TableColumn.KIND, SourceKind::parse, SourceKind.ASSUMPTION),
                        row.text(TableColumn.CITATION),
                        row.text(TableColumn.NOTE)));
        };
    }

    private static Consumer<CsvRow> classes(TableDefinition.Builder builder, Predicate<String> exact) {
        Map<String, Integer> declared = builder.build().decimals();
        int[] most = {0};
        return row -> {
            most[0] = Math.max(most[0], decimals(row.text(TableColumn.G_PER_KG)));
            if (!declared.containsKey(TableColumn.G_PER_KG) && !exact.test(TableColumn.G_PER_KG)) {
                builder.decimals(TableColumn.G_PER_KG, most[0]);
            }
            builder.row(new ClassRow(
                    row.text(TableColumn.CATEGORY),
                    row.text(TableColumn.WAY),
                    row.text(TableColumn.PARENT),
                    row.text(TableColumn.CONFORMATION),
                    row.text(TableColumn.FAT_CLASS),
                    row.text(TableColumn.CUT),
                    row.number(TableColumn.G_PER_KG),
                    row.number(TableColumn.SD_G_PER_KG),
                    shared(row),
                    row.text(TableColumn.SOURCE)));
        };
    }

    private static SharedSds shared(CsvRow row) {
        return new SharedSds(
                row.optionalNumber(TableColumn.sharedSd(SharedBy.LOT)),
                row.optionalNumber(TableColumn.sharedSd(SharedBy.RUN)),
                row.optionalNumber(TableColumn.sharedSd(SharedBy.HALL)));
    }

    private static Optional<Cut> cut(CsvRow row) {
        CutKind kind = row.parsed(TableColumn.KIND, CutKind::parse, CutKind.LOSS);
        Double pieces = figure(
                row, TableColumn.PIECES_PER_SIDE, x -> Cut.of("x", "", "", kind).withPiecesPerSide(x));
        Double split = figure(
                row,
                TableColumn.SIDE_SPLIT_SD_PCT,
                x -> Cut.of("x", "", "", kind).withSideSplitSdPct(x));
        Double fat =
                figure(row, TableColumn.FAT_PCT, x -> Cut.of("x", "", "", kind).withFatPct(x));
        if (row.isBad()) {
            return Optional.empty();
        }
        return row.parsed(
                TableColumn.CUT,
                code -> Optional.of(Cut.of(code, row.text(TableColumn.NAME), row.text(TableColumn.LEVEL), kind)
                        .withPiecesPerSide(pieces)
                        .withSideSplitSdPct(split)
                        .withFatPct(fat)
                        .withUnece(row.text(TableColumn.UNECE))
                        .withNote(row.text(TableColumn.NOTE))),
                Optional.empty());
    }

    /** A figure of a cut by itself, so that a message about it names its column. */
    private static @Nullable Double figure(CsvRow row, String column, Function<Double, Cut> cut) {
        Double number = row.optionalNumber(column);
        if (number != null && !Double.isNaN(number)) {
            row.parsed(column, text -> Optional.of(cut.apply(number)), Optional.empty());
        }
        return number;
    }

    private static Expectation expectation(CsvRow row) {
        String cut = row.text(TableColumn.CUT);
        return new Expectation(
                cut.isEmpty() ? null : cut,
                row.text(TableColumn.KIND).isEmpty()
                        ? null
                        : row.parsed(TableColumn.KIND, CutKind::parse, CutKind.LOSS),
                row.text(TableColumn.LEVEL),
                row.parsed(TableColumn.VARIABLE, word -> Descriptor.one(Variable.class, word), Variable.FAT),
                row.parsed(
                        TableColumn.DIRECTION,
                        word -> Descriptor.one(Expectation.Direction.class, word),
                        Expectation.Direction.RISES),
                row.parsed(TableColumn.STRICT, TableReader::flag, true),
                row.parsed(
                        TableColumn.OVER,
                        word -> Descriptor.one(Expectation.Over.class, word),
                        Expectation.Over.FITTED),
                row.text(TableColumn.NOTE));
    }

    private static boolean flag(String word) {
        try {
            return CsvRow.either(word, "true", "false");
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(
                    e.getMessage() + "; other words are declared as \"trueValues\" and \"falseValues\" of the field in "
                            + Descriptor.FILE,
                    e);
        }
    }

    private static Consumer<CsvRow> breakdown(TableDefinition.Builder builder, Predicate<String> exact) {
        TableDefinition keys = builder.build();
        List<String> coefficients = keys.coefficientColumns();
        Map<String, Integer> most = new HashMap<>();
        return row -> {
            List<Double> values = new ArrayList<>();
            for (String column : coefficients) {
                values.add(row.number(column));
                int places = most.merge(column, decimals(row.text(column)), Math::max);
                if (!keys.decimals().containsKey(column) && !exact.test(column)) {
                    builder.decimals(column, places);
                }
            }
            builder.row(new BreakdownRow(
                    row.text(TableColumn.CATEGORY),
                    row.text(TableColumn.WAY),
                    row.text(TableColumn.PARENT),
                    row.text(TableColumn.CUT),
                    values,
                    row.number(TableColumn.SD_G_PER_KG),
                    shared(row),
                    row.text(TableColumn.SOURCE)));
        };
    }

    /** Decimals of a number as it stands; one with an exponent has those that it would have without. */
    private static int decimals(String number) {
        int exponent = Math.max(number.indexOf('e'), number.indexOf('E'));
        int point = number.indexOf('.');
        int places = point < 0 ? 0 : (exponent < 0 ? number.length() : exponent) - point - 1;
        try {
            places -= exponent < 0 ? 0 : Integer.parseInt(number.substring(exponent + 1));
        } catch (NumberFormatException e) {
            // the cell is refused where it is read
            return 0;
        }
        return Math.max(0, Math.min(15, places));
    }
}
