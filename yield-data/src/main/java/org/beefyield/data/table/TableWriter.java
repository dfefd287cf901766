package org.beefyield.data.table;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.AtomicFile;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.Guard;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.OutputPart;
import org.beefyield.data.file.Place;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.core.util.Separators;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes yield tables as {@link TableReader} reads them: what is written reads back equal, and the same table always
 * gives the same bytes.
 *
 * <p>The descriptor carries the table's digest, so that a reader notices a file that was changed afterwards.
 */
public final class TableWriter {
    private static final ObjectWriter JSON = new JsonMapper().writer().with(printer());

    /** The earliest time that every zip tool reads; a real one would make the bytes differ. */
    private static final LocalDateTime ZIP_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

    private TableWriter() {}

    private static DefaultPrettyPrinter printer() {
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        return new DefaultPrettyPrinter(Separators.createDefaultInstance()
                        .withObjectNameValueSpacing(Separators.Spacing.AFTER)
                        .withArrayEmptySeparator("")
                        .withObjectEmptySeparator(""))
                .withObjectIndenter(indenter)
                .withArrayIndenter(indenter);
    }

    /**
     * Writes a table.
     *
     * <p>A zip file is put in its place in one step. A folder is written beside its place, with whatever other files the
     * old folder held, and the two change places by renaming; if that fails the old folder is put back. Should the
     * machine stop between the two renamings, the old folder stands beside the place, under a name that starts with a
     * dot and the folder's name and ends in {@code .old}; whatever is written into the folder above next puts it back.
     *
     * @param table the table
     * @param target a file name ending in {@code .zip}, or a folder; the folder above it exists
     * @throws UncheckedIOException if it can't be written; what stood there before is as it was
     * @throws IllegalArgumentException if the table holds what would not read back equal, such as a text that is longer
     *     than what is read; nothing is written then
     */
    public static void write(YieldTable table, Path target) {
        try (Outputs outputs = new Outputs()) {
            write(table, target, outputs);
            outputs.finish();
        }
    }

    /**
     * Writes a table that gets its place with the other outputs of a run.
     *
     * @param table the table
     * @param target a file name ending in {@code .zip}, or a folder; the folder above it exists
     * @param outputs the outputs of the run
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     * @throws IllegalArgumentException if the table holds what would not read back equal, such as a text that is longer
     *     than what is read; nothing is written then
     */
    public static void write(YieldTable table, Path target, Outputs outputs) {
        write(table, target, outputs.unwrap(OutputFiles.class));
    }

    /**
     * Writes a table as a zip to a stream, which is flushed and stays the caller's to close.
     *
     * @param table the table
     * @param stream the stream
     * @throws UncheckedIOException if it can't be written
     * @throws IllegalArgumentException if the table holds what would not read back equal; nothing is written then
     */
    public static void write(YieldTable table, OutputStream stream) {
        Map<String, byte[]> files = files(table);
        check(table, files);
        try {
            stream.write(zip(files));
            stream.flush();
        } catch (IOException e) {
            throw StreamOutput.cannotBeWritten(e);
        }
    }

    static void write(YieldTable table, Path target, OutputFiles outputs) {
        Map<String, byte[]> files = files(table);
        check(table, files);
        write(files, target, outputs);
    }

    /** Writes the files of a package as they are. */
    static void write(Map<String, byte[]> files, Path target, OutputFiles outputs) {
        try {
            Path place = outputs.startTable(target);
            Guard guard = outputs.guard(place);
            Path part = guard.part(place.getFileName());
            if (OutputFiles.isZip(place)) {
                AtomicFile file = new AtomicFile(target, place, part);
                outputs.add(file);
                file.write(zip(files));
                file.finish();
            } else {
                TableFolder folder = new TableFolder(target, place, part, guard.aside(place.getFileName()));
                outputs.add(folder);
                folder.write(files);
            }
        } catch (IOException e) {
            throw OutputPart.cannotBeWritten(target, e);
        }
    }

    /** Reads the files and writes them again: the bytes must be the same. */
    private static void check(YieldTable table, Map<String, byte[]> files) {
        String cannot = "table " + table.identity() + " can't be written so that it reads back equal: ";
        TableDefinition read;
        try {
            read = TableReader.definition(table.definition().name(), name -> {
                byte[] content = files.get(name);
                return content == null ? null : new ByteArrayInputStream(content);
            });
        } catch (InvalidDataException e) {
            throw new IllegalArgumentException(cannot + e.getMessage(), e);
        }
        Map<String, byte[]> again = files(read, table.digest());
        files.forEach((name, content) -> {
            List<String> before = lines(content);
            List<String> after = lines(again.getOrDefault(name, new byte[0]));
            for (int i = 0; i < before.size(); i++) {
                String line = i < after.size() ? after.get(i) : "";
                if (!line.equals(before.get(i))) {
                    throw new IllegalArgumentException(cannot + name + " line " + (i + 1) + " "
                            + Excerpt.quote(before.get(i)) + " would be " + Excerpt.quote(line));
                }
            }
        });
    }

    private static List<String> lines(byte[] content) {
        return new String(content, StandardCharsets.UTF_8).lines().toList();
    }

    private static byte[] zip(Map<String, byte[]> files) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                ZipEntry entry = new ZipEntry(file.getKey());
                entry.setTimeLocal(ZIP_TIME);
                zip.putNextEntry(entry);
                zip.write(file.getValue());
            }
        }
        return bytes.toByteArray();
    }

    /** A table's folder that is written beside its place. */
    private static final class TableFolder extends OutputPart {
        private final Path place;
        private final Path part;
        private final Path old;
        private boolean ended;

        TableFolder(Path target, Path place, Path part, Path old) {
            super(target);
            this.place = place;
            this.part = part;
            this.old = old;
        }

        void write(Map<String, byte[]> files) throws IOException {
            Files.createDirectory(part);
            if (Files.exists(place)) {
                copyOthers(files);
            }
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                Path written = Files.write(part.resolve(file.getKey()), file.getValue());
                AtomicFile.force(written);
                Place.keepPermissions(place.resolve(file.getKey()), written);
            }
            Place.keepPermissions(place, part);
            ended = true;
        }

        /** Files of the old folder that are no part of a table, such as its page for people. */
        private void copyOthers(Map<String, byte[]> files) throws IOException {
            if (Place.isReadOnly(place)) {
                throw new IOException("the folder there is read-only");
            }
            try (Stream<Path> others = Files.list(place)) {
                for (Path other : others.toList()) {
                    String name = other.getFileName().toString();
                    if (Files.isDirectory(other)) {
                        throw new IOException("it holds the folder " + name + ", so it is no table's folder");
                    }
                    if (!Files.isRegularFile(other) && !Files.isSymbolicLink(other)) {
                        throw new IOException("it holds " + name + ", which is no file");
                    }
                    if (!files.containsKey(name) && !TableFiles.isResource(name)) {
                        Files.copy(
                                other,
                                part.resolve(name),
                                StandardCopyOption.COPY_ATTRIBUTES,
                                LinkOption.NOFOLLOW_LINKS);
                    } else if (Place.isReadOnly(other)) {
                        throw new IOException("its file " + name + " is read-only");
                    }
                }
            }
        }

        @Override
        protected boolean ready() throws IOException {
            if (ended) {
                Place.checkWritten(part);
            }
            return ended;
        }

        @Override
        protected void put(OutputPart.Move move) throws IOException {
            if (!Files.exists(place)) {
                move.move(part, place);
                return;
            }
            move.move(place, old);
            boolean replaced = false;
            try {
                move.move(part, place);
                replaced = true;
            } finally {
                if (!replaced) {
                    move.move(old, place);
                }
            }
            Guard.delete(old);
        }

        @Override
        protected void discard() throws IOException {
            Guard.delete(part);
        }
    }

    /** The files of a table by name. */
    static Map<String, byte[]> files(YieldTable table) {
        return files(table.definition(), table.digest());
    }

    private static Map<String, byte[]> files(TableDefinition definition, String digest) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put(
                Descriptor.FILE, utf8(Descriptor.FILE, JSON.writeValueAsString(descriptor(definition, digest)) + "\n"));
        for (TableResource resource : definition.resources()) {
            StringBuilder csv = new StringBuilder(CsvLine.of(resource.columns()));
            resource.rows().forEach(row -> csv.append(CsvLine.of(row)));
            String file = TableFiles.name(resource.schema());
            files.put(file, utf8(file, csv.toString()));
        }
        return files;
    }

    private static byte[] utf8(String file, String text) {
        if (!StandardCharsets.UTF_8.newEncoder().canEncode(text)) {
            throw new IllegalArgumentException(file
                    + " can't be written: a text of the table holds half a character, a surrogate without its other");
        }
        return text.getBytes(StandardCharsets.UTF_8);
    }

    /** A JSON object; a null value is written as null. */
    private static Map<String, Object> object(@Nullable Object... keysAndValues) {
        Map<String, Object> object = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            object.put((String) keysAndValues[i], keysAndValues[i + 1]);
        }
        return object;
    }

    private static BigDecimal number(double value) {
        // the shortest decimal that reads back the same; 8 rather than 8.0
        return new BigDecimal(Numbers.exact(value));
    }

    private static Map<String, Object> descriptor(TableDefinition definition, String digest) {
        List<Object> licenses = new ArrayList<>();
        definition.licenses().forEach(license -> {
            Map<String, Object> one = object();
            if (!license.name().isEmpty()) {
                one.put("name", license.name());
            }
            if (!license.path().isEmpty()) {
                one.put("path", license.path());
            }
            if (!license.title().isEmpty()) {
                one.put("title", license.title());
            }
            licenses.add(one);
        });
        List<Object> resources = new ArrayList<>();
        for (TableResource resource : definition.resources()) {
            resources.add(resource(definition, resource));
        }
        Map<String, Object> all = object(
                "profile", "tabular-data-package",
                "name", definition.name(),
                "version", definition.version(),
                "title", definition.title(),
                "description", definition.description());
        carry(all, definition, "");
        if (!licenses.isEmpty()) {
            all.put("licenses", licenses);
        }
        all.put(Descriptor.OWN, beefyield(definition, digest));
        all.put("resources", resources);
        return all;
    }

    private static Map<String, Object> beefyield(TableDefinition definition, String digest) {
        Basis basis = definition.basis();
        Map<String, Object> keys = object(
                // first, for whoever changes the table by hand
                TableKey.DIGEST.code(), digest,
                TableKey.FORMAT.code(), Descriptor.FORMAT + "." + Descriptor.MINOR,
                TableKey.LEVELS.code(), definition.levels(),
                TableKey.REFERENCE.code(),
                        object(
                                Descriptor.CONFORMATION,
                                        number(definition.reference().conformation()),
                                Descriptor.FAT, number(definition.reference().fat()),
                                Descriptor.WEIGHT_KG,
                                        number(definition.reference().weightKg())),
                TableKey.FITTED_RANGE.code(), range(definition.fitted()),
                TableKey.ALLOWED_RANGE.code(), range(definition.allowed()),
                TableKey.WIDTH_FIT.code(), number(definition.widthFit()),
                TableKey.TERMS.code(),
                        definition.terms().stream().map(TableWriter::term).toList(),
                TableKey.CATEGORIES.code(),
                        definition.categories().stream().map(Object::toString).toList(),
                TableKey.BASIS.code(),
                        object(
                                TableColumn.QUARTERING, basis.quartering(),
                                Descriptor.HANGING, basis.hanging(),
                                Descriptor.FAT_COVER_MM, basis.fatCoverMm() == null ? null : number(basis.fatCoverMm()),
                                Descriptor.AGEING_DAYS, basis.ageingDays() == null ? null : number(basis.ageingDays()),
                                Descriptor.BONELESS, basis.boneless()),
                TableKey.DECIMALS.code(), decimals(definition));
        Double degrees = definition.residualDegreesOfFreedom();
        if (degrees != null) {
            keys.put(TableKey.RESIDUAL_DEGREES_OF_FREEDOM.code(), number(degrees));
        }
        Double ofRuns = definition.runDegreesOfFreedom();
        if (ofRuns != null) {
            keys.put(TableKey.RUN_DEGREES_OF_FREEDOM.code(), number(ofRuns));
        }
        if (!definition.provenance().isEmpty()) {
            keys.put(
                    TableKey.PROVENANCE.code(),
                    definition.provenance().stream()
                            .map(origin -> object("part", origin.part(), "from", origin.from()))
                            .toList());
        }
        carry(keys, definition, Metadata.TABLE);
        return keys;
    }

    /** Adds what a definition carries of a place; a table that was written in a newer format keeps saying so. */
    private static void carry(Map<String, Object> object, TableDefinition definition, String place) {
        for (Metadata entry : definition.metadata()) {
            boolean isFormat = place.equals(Metadata.TABLE) && entry.key().equals(TableKey.FORMAT.code());
            if (entry.place().equals(place) && object.put(entry.key(), Descriptor.value(entry)) != null && !isFormat) {
                throw new IllegalArgumentException("the table can't be written: its metadata hold the key "
                        + entry.key() + ", which " + (place.isEmpty() ? "the package" : place) + " has already");
            }
        }
    }

    /** In the order of the columns, so that the bytes don't depend on how the table came about; null for an exact one. */
    private static Map<String, @Nullable Integer> decimals(TableDefinition definition) {
        List<String> columns = new ArrayList<>();
        if (!definition.breakdown().isEmpty()) {
            columns.addAll(definition.coefficientColumns());
        }
        if (!definition.breakdownByClass().isEmpty()) {
            columns.add(TableColumn.G_PER_KG);
        }
        Map<String, @Nullable Integer> decimals = new LinkedHashMap<>();
        columns.forEach(column -> decimals.put(column, definition.decimals().get(column)));
        new TreeMap<>(definition.decimals()).forEach(decimals::putIfAbsent);
        return decimals;
    }

    private static Map<String, Object> range(TableRange range) {
        return object(
                Descriptor.CONFORMATION,
                pair(range.conformation()),
                Descriptor.FAT,
                pair(range.fat()),
                Descriptor.WEIGHT_KG,
                pair(range.weightKg()));
    }

    private static List<BigDecimal> pair(Range range) {
        return List.of(number(range.low()), number(range.high()));
    }

    private static Map<String, Object> term(Term term) {
        if (term instanceof Term.Product product) {
            return object(
                    "column", product.column(),
                    "kind", "product",
                    "variables",
                            List.of(product.first().code(), product.second().code()));
        }
        Term.Hinge hinge = (Term.Hinge) term;
        return object(
                "column", hinge.column(),
                "kind", "hinge",
                "variable", hinge.variable().code(),
                "side", lower(hinge.side()),
                "knot", hinge.knot());
    }

    private static String lower(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    private static Map<String, Object> resource(TableDefinition definition, TableResource resource) {
        List<TableColumn> own = resource.schema().columns(definition.terms()).stream()
                .filter(column -> resource.columns().contains(column.name()))
                .toList();
        List<Object> fields = new ArrayList<>();
        List<Object> foreignKeys = new ArrayList<>();
        for (int i = 0; i < own.size(); i++) {
            TableColumn column = own.get(i);
            int index = i;
            Map<String, Object> field = field(
                    definition,
                    column,
                    resource.rows().stream().map(row -> row.get(index)).toList());
            carry(field, definition, resource.name() + "/" + column.name());
            fields.add(field);
            TableSchema other = TableSchema.referredTo(column.content());
            // the carcass is a parent and no cut, and the standard has no way to say so of one cell
            boolean refers =
                    resource.rows().stream().noneMatch(row -> row.get(index).equals(BreakdownRow.ROOT));
            if (other != null && refers) {
                foreignKeys.add(object(
                        "fields",
                        column.name(),
                        TableKey.REFERENCE.code(),
                        object(
                                "resource",
                                other.code(),
                                "fields",
                                keys(other.columns(List.of())).get(0))));
            }
        }
        for (String column :
                resource.columns().subList(own.size(), resource.columns().size())) {
            definition.extraColumns().stream()
                    .filter(extra -> extra.resource().equals(resource.name())
                            && extra.column().equals(column))
                    .forEach(extra -> {
                        Map<String, Object> field = object("name", column, "type", extra.type());
                        carry(field, definition, resource.name() + "/" + column);
                        fields.add(field);
                    });
        }
        Map<String, Object> schema = object("fields", fields, "missingValues", List.of(""));
        List<String> primaryKey = primaryKey(own, resource.rows());
        if (!primaryKey.isEmpty()) {
            schema.put("primaryKey", primaryKey);
        }
        if (!foreignKeys.isEmpty()) {
            schema.put("foreignKeys", foreignKeys);
        }
        Map<String, Object> all = object(
                "name",
                resource.name(),
                "path",
                TableFiles.name(resource.schema()),
                "profile",
                "tabular-data-resource",
                "format",
                "csv",
                "mediatype",
                "text/csv",
                "encoding",
                "utf-8",
                "dialect",
                object(
                        "delimiter", ",",
                        "lineTerminator", "\n",
                        "quoteChar", "\"",
                        "doubleQuote", true,
                        "header", true),
                "schema",
                schema);
        carry(all, definition, resource.name());
        return all;
    }

    /** The keys that are filled in every row, as a primary key asks for; empty if rows don't differ in them. */
    private static List<String> primaryKey(List<TableColumn> columns, List<List<String>> rows) {
        List<Integer> filled = IntStream.range(0, columns.size())
                .filter(k -> columns.get(k).isKey()
                        && (columns.get(k).isRequired()
                                || rows.stream().noneMatch(row -> row.get(k).isEmpty())))
                .boxed()
                .toList();
        Set<List<String>> met = new HashSet<>();
        boolean differ = rows.stream()
                .allMatch(row -> met.add(filled.stream().map(row::get).toList()));
        return differ ? filled.stream().map(k -> columns.get(k).name()).toList() : List.of();
    }

    private static List<String> keys(List<TableColumn> columns) {
        return columns.stream()
                .filter(TableColumn::isKey)
                .map(TableColumn::name)
                .toList();
    }

    /** A field and its constraints: those that its column has by nature, as far as the cells keep them. */
    private static Map<String, Object> field(TableDefinition definition, TableColumn column, List<String> cells) {
        Map<String, Object> field =
                object("name", column.name(), "type", column.content().type());
        Map<String, Object> constraints = new LinkedHashMap<>();
        if (column.isRequired() && !cells.contains("")) {
            constraints.put("required", true);
        }
        if (column.least() != null && cells.stream().noneMatch(cell -> cell.startsWith("-"))) {
            constraints.put("minimum", column.least());
        }
        if (column.most() != null) {
            constraints.put("maximum", column.most());
        }
        List<String> words = column.content() == TableColumn.Content.LEVEL ? definition.levels() : column.words();
        if (!words.isEmpty()) {
            constraints.put("enum", words);
        }
        if (!constraints.isEmpty()) {
            field.put("constraints", constraints);
        }
        return field;
    }
}
