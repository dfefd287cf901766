package org.beefyield.data.table;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.NumberForm;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.TokenStreamContext;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.MissingNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads {@code datapackage.json}: the keys of a Tabular Data Package and, under {@code beefyield}, those of a table. */
final class Descriptor {
    static final String FILE = "datapackage.json";

    /** Major version of the format that this library reads. */
    static final int FORMAT = 1;

    /** Minor version of the format that this library writes. */
    static final int MINOR = 0;

    /** The key that holds all of a table's own. */
    static final String OWN = Metadata.TABLE;

    static final String CONFORMATION = "conformation";
    static final String FAT = "fat";
    static final String WEIGHT_KG = "weight_kg";
    static final String HANGING = "hanging";
    static final String FAT_COVER_MM = "fat_cover_mm";
    static final String AGEING_DAYS = "ageing_days";
    static final String BONELESS = "boneless";

    private static final String DECIMALS = at(TableKey.DECIMALS);

    /** Largest descriptor that is read, bytes. */
    static final int LARGEST = 1 << 20;

    private static final int DEEPEST = 100;
    private static final int LONGEST_KEY = 200;
    private static final int LONGEST_NUMBER = 1000;
    private static final int SHOWN = 200;

    /** Characters of a pointer beyond which it goes no further down, for many long ones would fill the memory. */
    private static final int LONGEST_POINTER = 1000;

    /** What the JSON library says to its programmer. */
    private static final Pattern LIBRARY_ADVICE = Pattern.compile(": enable `[^`]*` to allow$|, from `[^`]*`");

    private static final Set<String> KEYS = codes(key -> true);
    private static final Set<String> OPTIONAL_KEYS = codes(TableKey::isOptional);

    private static Set<String> codes(Predicate<TableKey> which) {
        return Arrays.stream(TableKey.values())
                .filter(which)
                .map(TableKey::code)
                .collect(Collectors.toUnmodifiableSet());
    }

    /** Where a key of the table's own stands. */
    private static String at(TableKey key) {
        return "/" + OWN + "/" + key.code();
    }

    /** Keys of a package that are read, written anew or refused; any other is carried. */
    private static final Set<String> PACKAGE = Set.of(
            "profile",
            "name",
            "version",
            "title",
            "description",
            "licenses",
            OWN,
            "resources",
            "dialect",
            "encoding",
            "missingValues",
            "schema");

    /** The same of a resource. What a file's bytes and hash are is true of that file alone. */
    private static final Set<String> RESOURCE =
            Set.of("name", "path", "profile", "format", "mediatype", "encoding", "dialect", "schema", "bytes", "hash");

    /** Keys of a resource that would have its rows stand somewhere else than in a plain file. */
    private static final List<String> ELSEWHERE =
            List.of("data", "compression", "innerpath", "missingValues", "layout", "query");

    /** The same of a field. */
    private static final Set<String> FIELD = Set.of(
            "name",
            "type",
            "format",
            "constraints",
            "trueValues",
            "falseValues",
            "decimalChar",
            "groupChar",
            "bareNumber");

    /** Keys of CSV Dialect, version 1. */
    private static final Set<String> DIALECT = Set.of(
            "csvddfVersion",
            "delimiter",
            "lineTerminator",
            "quoteChar",
            "doubleQuote",
            "escapeChar",
            "nullSequence",
            "skipInitialSpace",
            "header",
            "commentChar",
            "caseSensitiveHeader");

    /** Constraints of Table Schema, version 1. */
    private static final Set<String> CONSTRAINTS =
            Set.of("required", "unique", "minLength", "maxLength", "minimum", "maximum", "pattern", "enum");

    /** Types of Table Schema, version 1. */
    private static final List<String> TYPES = List.of(
            "string",
            "number",
            "integer",
            "boolean",
            "object",
            "array",
            "date",
            "time",
            "datetime",
            "year",
            "yearmonth",
            "duration",
            "geopoint",
            "geojson",
            "any");

    /**
     * A resource as declared.
     *
     * @param name its name
     * @param path its file
     * @param form how the file is written
     * @param skipsInitialSpace whether blanks before a cell don't count
     * @param missing cells that say as much as an empty one
     * @param columns its columns by name
     */
    record Resource(
            String name,
            String path,
            CsvForm form,
            boolean skipsInitialSpace,
            List<String> missing,
            Map<String, Field> columns) {}

    /** The tree is built from its tokens here: the library's own mapper costs a fifth of a second when first used. */
    private static final JsonFactory JSON = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(DEEPEST)
                    .maxNameLength(LONGEST_KEY)
                    .maxNumberLength(LONGEST_NUMBER)
                    .build())
            .build();

    private final String file;
    private final JsonNode root;
    private final Map<String, Integer> lines;
    private final List<Problem> problems;

    /** Whether the table is written in a newer minor version than this library's. */
    private boolean isNewer;

    private Descriptor(String file, JsonNode root, Map<String, Integer> lines, List<Problem> problems) {
        this.file = file;
        this.root = root;
        this.lines = lines;
        this.problems = problems;
    }

    static Descriptor read(String file, InputStream stream, List<Problem> problems) throws IOException {
        byte[] bytes = stream.readNBytes(LARGEST + 1);
        if (bytes.length > LARGEST) {
            throw new IOException("it is larger than " + LARGEST + " bytes");
        }
        String text = text(file, bytes);
        if (text.isBlank()) {
            throw unreadable(file, 1, "the file is empty; a Data Package descriptor is a JSON object");
        }
        try {
            Map<String, Integer> lines = new HashMap<>();
            JsonNode root = tree(file, text, lines, problems);
            if (!root.isObject()) {
                throw new InvalidDataException(List.of(new Problem(
                        file, 1, "", "", "it is no Data Package descriptor: the whole is not a JSON object")));
            }
            return new Descriptor(file, root, lines, problems);
        } catch (JacksonException e) {
            TokenStreamLocation at = e.getLocation();
            // a limit is no fault of the text
            JsonFault fault = e instanceof StreamConstraintsException ? null : JsonFault.of(text);
            if (fault != null) {
                throw unreadable(file, fault.line(), "it can't be read as JSON: " + fault.message());
            }
            throw unreadable(
                    file,
                    at == null ? 0 : Math.max(0, at.getLineNr()),
                    "it can't be read as JSON: "
                            + LIBRARY_ADVICE.matcher(e.getOriginalMessage()).replaceAll(""));
        }
    }

    private static InvalidDataException unreadable(String file, long line, String message) {
        return new InvalidDataException(List.of(new Problem(file, line, "", "", message)));
    }

    private static String text(String file, byte[] bytes) {
        ByteBuffer left = ByteBuffer.wrap(bytes);
        CharBuffer text = CharBuffer.allocate(bytes.length);
        if (StandardCharsets.UTF_8.newDecoder().decode(left, text, true).isError()) {
            int line = 1;
            for (int i = 0; i < left.position(); i++) {
                line += bytes[i] == '\n' ? 1 : 0;
            }
            boolean utf16 = bytes.length > 1 && (bytes[0] & 0xFF) + (bytes[1] & 0xFF) == 0xFF + 0xFE;
            throw unreadable(
                    file,
                    line,
                    utf16
                            ? "the file is UTF-16; save it as UTF-8"
                            : "the line is not valid UTF-8; save the file as UTF-8");
        }
        String all = text.flip().toString();
        return all.startsWith("\uFEFF") ? all.substring(1) : all;
    }

    /** The tree, and the line of everything in it, by pointer; texts and numbers that no table can hold are problems. */
    private static JsonNode tree(String file, String text, Map<String, Integer> lines, List<Problem> problems) {
        Deque<String> open = new ArrayDeque<>();
        Deque<JsonNode> nodes = new ArrayDeque<>();
        JsonNode root = MissingNode.getInstance();
        boolean ended = false;
        try (JsonParser parser = JSON.createParser(ObjectReadContext.empty(), text)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                int line = parser.currentTokenLocation().getLineNr();
                if (ended) {
                    throw unreadable(file, line, "text follows the end of the descriptor");
                }
                if (token.isStructEnd()) {
                    open.pop();
                    nodes.pop();
                    ended = open.isEmpty();
                    continue;
                }
                String pointer = pointer(parser, token, open);
                lines.putIfAbsent(pointer, line);
                ended = open.isEmpty() && !token.isStructStart();
                JsonNode node = token == JsonToken.PROPERTY_NAME ? null : node(parser, token);
                if (node != null) {
                    root = nodes.isEmpty() ? node : root;
                    put(nodes.peek(), parser, token, node);
                }
                if (token.isStructStart() && node != null) {
                    open.push(pointer);
                    nodes.push(node);
                } else if (token != JsonToken.VALUE_STRING || !pointer.endsWith("/dialect/lineTerminator")) {
                    checkScalar(
                            parser,
                            token,
                            message -> problems.add(new Problem(
                                    file, line, words(pointer), Excerpt.clip(parser.getString(), SHOWN), message)));
                }
            }
        }
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        return root;
    }

    private static JsonNode node(JsonParser parser, JsonToken token) {
        JsonNodeFactory factory = JsonNodeFactory.instance;
        return switch (token) {
            case START_OBJECT -> factory.objectNode();
            case START_ARRAY -> factory.arrayNode();
            case VALUE_STRING -> factory.stringNode(parser.getString());
            case VALUE_TRUE -> factory.booleanNode(true);
            case VALUE_FALSE -> factory.booleanNode(false);
            case VALUE_NUMBER_INT -> factory.numberNode(parser.getBigIntegerValue());
            case VALUE_NUMBER_FLOAT -> factory.numberNode(parser.getDoubleValue());
            default -> factory.nullNode();
        };
    }

    private static void put(@Nullable JsonNode parent, JsonParser parser, JsonToken token, JsonNode node) {
        TokenStreamContext context = parser.streamReadContext();
        if (parent instanceof ArrayNode array) {
            array.add(node);
        } else if (parent instanceof ObjectNode object) {
            object.set((token.isStructStart() ? context.getParent() : context).currentName(), node);
        }
    }

    private static String pointer(JsonParser parser, JsonToken token, Deque<String> open) {
        TokenStreamContext context = parser.streamReadContext();
        TokenStreamContext its = token.isStructStart() ? context.getParent() : context;
        String above = open.isEmpty() ? "" : open.peek();
        if (open.isEmpty() || above.length() > LONGEST_POINTER) {
            return above;
        }
        return its.inArray() ? above + "/" + its.getCurrentIndex() : below(above, its.currentName());
    }

    private static void checkScalar(JsonParser parser, JsonToken token, Consumer<String> problem) {
        try {
            if (token.isNumeric()) {
                NumberForm.TABLE.parse(parser.getString());
            } else if (token == JsonToken.VALUE_STRING || token == JsonToken.PROPERTY_NAME) {
                checkCharacters(parser.getString());
            }
        } catch (IllegalArgumentException e) {
            problem.accept(e.getMessage() + (token.isNumeric() ? "; a number is needed here" : ""));
        }
    }

    private static void checkCharacters(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            boolean pair = Character.isHighSurrogate(c)
                    && i + 1 < text.length()
                    && Character.isLowSurrogate(text.charAt(i + 1));
            if (pair) {
                i++;
            } else if (Character.isSurrogate(c) || (Character.isISOControl(c) && c != '\n' && c != '\t')) {
                throw new IllegalArgumentException(
                        "U+" + String.format("%04X", (int) c) + " stands in it, which is no character of a text");
            }
        }
    }

    /** A step down from a pointer to a key. */
    private static String below(String pointer, String key) {
        return pointer + "/" + key.replace("~", "~0").replace("/", "~1");
    }

    /** A pointer as messages name it. */
    private static String words(String pointer) {
        return pointer.isEmpty()
                ? ""
                : pointer.substring(1).replace('/', '.').replace("~1", "/").replace("~0", "~");
    }

    private void problem(String pointer, String value, String message) {
        problems.add(new Problem(
                file,
                lines.getOrDefault(pointer, 0),
                words(pointer),
                Excerpt.clip(value, SHOWN),
                value.isEmpty() ? message : Excerpt.quote(value) + ": " + message));
    }

    /** How many items a list has; 0 with a problem if something else stands there. */
    private int items(String pointer) {
        JsonNode node = root.at(pointer);
        if (!node.isArray() && !node.isMissingNode()) {
            problem(pointer, node.toString(), "a list is needed here");
            return 0;
        }
        return node.size();
    }

    /** A text at a pointer, or null with a problem if it is missing and needed. */
    private @Nullable String text(String pointer, boolean needed) {
        JsonNode node = root.at(pointer);
        if (node.isString()) {
            return node.stringValue();
        }
        if (needed || !(node.isMissingNode() || node.isNull())) {
            problem(pointer, node.isMissingNode() ? "" : node.toString(), "a text is needed here");
        }
        return null;
    }

    private void checkLength(String pointer, String name) {
        if (name.length() > TableLimits.LONGEST_NAME) {
            problem(pointer, name, "a name has at most " + TableLimits.LONGEST_NAME + " characters");
        }
    }

    private void limit(String pointer, int most) {
        if (root.at(pointer).size() > most) {
            problem(pointer, "", "there are " + root.at(pointer).size() + " of them; at most " + most + " are read");
        }
    }

    private String textOr(String pointer, String otherwise) {
        String text = text(pointer, false);
        return text == null ? otherwise : text;
    }

    private double number(String pointer) {
        JsonNode node = root.at(pointer);
        if (node.isNumber()) {
            // -0 and 0 are one number in a file
            return node.doubleValue() + 0.0;
        }
        problem(pointer, node.isMissingNode() ? "" : node.toString(), "a number is needed here");
        return Double.NaN;
    }

    private List<String> texts(String pointer) {
        List<String> texts = new ArrayList<>();
        JsonNode node = root.at(pointer);
        if (!node.isArray()) {
            problem(pointer, node.isMissingNode() ? "" : node.toString(), "a list of texts is needed here");
            return texts;
        }
        for (int i = 0; i < node.size(); i++) {
            String text = text(pointer + "/" + i, true);
            if (text != null) {
                texts.add(text);
            }
        }
        return texts;
    }

    /** The keys of the table. With problems in the list the builder is not fit for use. */
    TableDefinition.Builder table() {
        String name = text("/name", true);
        String version = text("/version", true);
        TableDefinition.Builder builder =
                TableDefinition.builder(name == null ? "" : name, version == null ? "" : version);
        if (!"tabular-data-package".equals(root.at("/profile").stringValue(""))) {
            problem("/profile", root.at("/profile").stringValue(""), "the profile of a table is tabular-data-package");
        }
        if (!format()) {
            return builder;
        }
        ownKeys();
        for (String key : List.of("dialect", "encoding", "missingValues", "schema")) {
            if (stated("/" + key)) {
                problem(
                        "/" + key,
                        root.at("/" + key).toString(),
                        "this key is read of each resource alone, "
                                + (key.equals("missingValues") ? "under its schema" : "beside its path")
                                + "; write it there");
            }
        }
        builder.about(textOr("/title", ""), textOr("/description", ""));
        for (int i = 0; i < items("/licenses"); i++) {
            String at = "/licenses/" + i;
            License license =
                    new License(textOr(at + "/name", ""), textOr(at + "/path", ""), textOr(at + "/title", ""));
            if (license.name().isEmpty() && license.path().isEmpty()) {
                problem(at, root.at(at).toString(), "a licence has a name, a path or both");
            }
            builder.license(license);
        }
        limit(at(TableKey.LEVELS), TableLimits.MOST_LEVELS);
        limit(at(TableKey.TERMS), TableLimits.MOST_TERMS);
        List<String> levels = texts(at(TableKey.LEVELS));
        for (int i = 0; i < levels.size(); i++) {
            checkLength(at(TableKey.LEVELS) + "/" + i, levels.get(i));
        }
        builder.levels(levels.toArray(String[]::new));
        String reference = at(TableKey.REFERENCE);
        keys(reference, Set.of(CONFORMATION, FAT, WEIGHT_KG), Set.of());
        reference(reference, builder);
        TableRange fitted = tableRange(at(TableKey.FITTED_RANGE));
        TableRange allowed = tableRange(at(TableKey.ALLOWED_RANGE));
        if (fitted != null && allowed != null) {
            builder.ranges(fitted, allowed);
        }
        builder.widthFit(number(at(TableKey.WIDTH_FIT)));
        if (stated(at(TableKey.RESIDUAL_DEGREES_OF_FREEDOM))) {
            builder.residualDegreesOfFreedom(number(at(TableKey.RESIDUAL_DEGREES_OF_FREEDOM)));
        }
        if (stated(at(TableKey.RUN_DEGREES_OF_FREEDOM))) {
            builder.runDegreesOfFreedom(number(at(TableKey.RUN_DEGREES_OF_FREEDOM)));
        }
        for (int i = 0; i < items(at(TableKey.TERMS)); i++) {
            Term term = term(at(TableKey.TERMS) + "/" + i);
            if (term != null) {
                builder.term(term);
            }
        }
        builder.categories(categories().toArray(Category[]::new));
        builder.basis(basis());
        decimals(builder);
        for (int i = 0; i < items(at(TableKey.PROVENANCE)); i++) {
            String at = at(TableKey.PROVENANCE) + "/" + i;
            String part = text(at + "/part", true);
            String from = text(at + "/from", true);
            builder.provenance(new Provenance(part == null ? "" : part, from == null ? "" : from));
        }
        return builder;
    }

    /** Refuses a newer major version before anything else is looked at. */
    private boolean format() {
        if (!root.at("/" + OWN).isObject()) {
            problem("/" + OWN, "", "a yield table has an object under this key");
            return false;
        }
        String format = text(at(TableKey.FORMAT), true);
        if (format == null) {
            return false;
        }
        if (!format.matches("[0-9]{1,6}\\.[0-9]{1,6}")) {
            problem(at(TableKey.FORMAT), format, "a format version is two numbers with a point between, such as 1.0");
            return false;
        }
        int point = format.indexOf('.');
        int major = Integer.parseInt(format.substring(0, point));
        if (major != FORMAT) {
            problem(
                    at(TableKey.FORMAT),
                    format,
                    major > FORMAT
                            ? "this table is written in a newer format than this library reads (" + FORMAT
                                    + ".x); use a newer beefyield"
                            : "this library reads format " + FORMAT + ".x");
            return false;
        }
        isNewer = Integer.parseInt(format.substring(point + 1)) > MINOR;
        return true;
    }

    /** The table's keys: one that is not known is a slip, unless a newer minor version may have added it. */
    private void ownKeys() {
        keys(
                "/" + OWN,
                isNewer ? allOf(KEYS, "/" + OWN) : KEYS,
                isNewer ? allOf(OPTIONAL_KEYS, "/" + OWN) : OPTIONAL_KEYS);
    }

    private Set<String> allOf(Set<String> known, String pointer) {
        Set<String> all = new LinkedHashSet<>(root.at(pointer).propertyNames());
        all.addAll(known);
        return all;
    }

    /** What the package says to people and other tools. */
    List<Metadata> metadata() {
        List<Metadata> metadata = new ArrayList<>(carried("", "", PACKAGE));
        if (isNewer) {
            metadata.add(new Metadata(
                    OWN, TableKey.FORMAT.code(), root.at(at(TableKey.FORMAT)).toString()));
            metadata.addAll(carried(OWN, "/" + OWN, KEYS));
        }
        return metadata;
    }

    /** What a resource says to people and other tools, of itself and of its columns. */
    List<Metadata> metadata(String resource, Set<String> ownColumns) {
        List<Metadata> metadata = new ArrayList<>();
        for (int i = 0; i < items("/resources"); i++) {
            String pointer = "/resources/" + i;
            if (!resource.equals(root.at(pointer + "/name").stringValue(""))) {
                continue;
            }
            metadata.addAll(carried(resource, pointer, RESOURCE));
            for (int k = 0; k < items(pointer + "/schema/fields"); k++) {
                String field = pointer + "/schema/fields/" + k;
                String column = root.at(field + "/name").stringValue("");
                Set<String> known = new LinkedHashSet<>(FIELD);
                if (!ownColumns.contains(column)) {
                    known.removeAll(Set.of("format", "constraints"));
                }
                metadata.addAll(carried(resource + "/" + column, field, known));
            }
        }
        return metadata;
    }

    private List<Metadata> carried(String place, String pointer, Set<String> read) {
        List<Metadata> carried = new ArrayList<>();
        for (String key : root.at(pointer).propertyNames()) {
            if (!read.contains(key)) {
                carried.add(
                        new Metadata(place, key, root.at(below(pointer, key)).toString()));
            }
        }
        return carried;
    }

    /**
     * The value of a key that is carried.
     *
     * @throws IllegalArgumentException if its text is no JSON
     */
    static JsonNode value(Metadata entry) {
        String name = entry.place() + "/" + entry.key();
        try {
            JsonNode node = tree(name, entry.json(), new HashMap<>(), new ArrayList<>());
            if (!node.isMissingNode()) {
                return node;
            }
        } catch (JacksonException | InvalidDataException e) {
            throw new IllegalArgumentException("the value of " + name + " is no JSON: " + entry.json(), e);
        }
        throw new IllegalArgumentException("the value of " + name + " is no JSON: it is empty");
    }

    private void keys(String pointer, Set<String> known, Set<String> optional) {
        checkObject(pointer);
        Set<String> missing = new LinkedHashSet<>(known.stream().sorted().toList());
        for (String key : root.at(pointer).propertyNames()) {
            if (!known.contains(key)) {
                problem(
                        below(pointer, key),
                        "",
                        "unknown key; valid here: "
                                + String.join(", ", known.stream().sorted().toList()));
            }
            missing.remove(key);
        }
        missing.removeAll(optional);
        if (!missing.isEmpty()) {
            problem(pointer, "", "missing here: " + String.join(", ", missing));
        }
    }

    private void reference(String pointer, TableDefinition.Builder builder) {
        double conformation = number(pointer + "/" + CONFORMATION);
        double fat = number(pointer + "/" + FAT);
        double weightKg = number(pointer + "/" + WEIGHT_KG);
        // what is no number is a problem already
        if (Double.isNaN(conformation + fat + weightKg)) {
            return;
        }
        try {
            builder.reference(conformation, fat, weightKg);
        } catch (IllegalArgumentException e) {
            problem(pointer, root.at(pointer).toString(), String.valueOf(e.getMessage()));
        }
    }

    private @Nullable TableRange tableRange(String pointer) {
        keys(pointer, Set.of(CONFORMATION, FAT, WEIGHT_KG), Set.of());
        Range conformation = range(pointer + "/" + CONFORMATION);
        Range fat = range(pointer + "/" + FAT);
        Range weight = range(pointer + "/" + WEIGHT_KG);
        return conformation == null || fat == null || weight == null ? null : new TableRange(conformation, fat, weight);
    }

    private @Nullable Range range(String pointer) {
        if (root.at(pointer).size() != 2) {
            problem(pointer, root.at(pointer).toString(), "a range is two numbers: [low, high]");
            return null;
        }
        double low = number(pointer + "/0");
        double high = number(pointer + "/1");
        if (!(low <= high)) {
            problem(pointer, root.at(pointer).toString(), "a range is two ascending numbers: [low, high]");
            return null;
        }
        return new Range(low, high);
    }

    private @Nullable Term term(String pointer) {
        String column = text(pointer + "/column", true);
        String kind = text(pointer + "/kind", true);
        if (column == null || kind == null) {
            return null;
        }
        checkLength(pointer + "/column", column);
        try {
            switch (kind) {
                case "product" -> {
                    keys(pointer, Set.of("column", "kind", "variables"), Set.of());
                    List<String> variables = texts(pointer + "/variables");
                    if (variables.size() != 2) {
                        throw new IllegalArgumentException("a product has two variables");
                    }
                    return new Term.Product(
                            column, one(Variable.class, variables.get(0)), one(Variable.class, variables.get(1)));
                }
                case "hinge" -> {
                    keys(pointer, Set.of("column", "kind", "variable", "side", "knot"), Set.of());
                    double knot = number(pointer + "/knot");
                    if (knot != Math.rint(knot) || Math.abs(knot) > 100) {
                        throw new IllegalArgumentException("a knot is a whole position of the scale");
                    }
                    return new Term.Hinge(
                            column,
                            one(Variable.class, textOr(pointer + "/variable", "")),
                            one(Term.Side.class, textOr(pointer + "/side", "")),
                            (int) knot);
                }
                default -> throw new IllegalArgumentException("a term is a product or a hinge");
            }
        } catch (IllegalArgumentException e) {
            problem(pointer, root.at(pointer).toString(), String.valueOf(e.getMessage()));
            return null;
        }
    }

    /** The constant that a lower-case word stands for. */
    static <E extends Enum<E>> E one(Class<E> type, String word) {
        List<String> words = new ArrayList<>();
        for (E constant : type.getEnumConstants()) {
            String its = constant.name().toLowerCase(Locale.ROOT);
            if (its.equals(word)) {
                return constant;
            }
            words.add(its);
        }
        throw new IllegalArgumentException("\"" + word + "\" is none of " + String.join(" ", words));
    }

    private List<Category> categories() {
        List<Category> categories = new ArrayList<>();
        List<String> letters = texts(at(TableKey.CATEGORIES));
        for (int i = 0; i < letters.size(); i++) {
            try {
                categories.add(Category.parse(letters.get(i)));
            } catch (IllegalArgumentException e) {
                problem(at(TableKey.CATEGORIES) + "/" + i, letters.get(i), String.valueOf(e.getMessage()));
            }
        }
        return categories;
    }

    private Basis basis() {
        String at = at(TableKey.BASIS);
        if (root.at(at).isMissingNode()) {
            return Basis.NOT_STATED;
        }
        Set<String> known = Set.of(TableColumn.QUARTERING, HANGING, FAT_COVER_MM, AGEING_DAYS, BONELESS);
        keys(at, known, known);
        JsonNode boneless = root.at(at + "/" + BONELESS);
        if (!boneless.isBoolean() && !boneless.isMissingNode() && !boneless.isNull()) {
            problem(at + "/" + BONELESS, boneless.toString(), "true, false or null is needed here");
        }
        Double fatCover = figure(at + "/" + FAT_COVER_MM, Basis.NOT_STATED::withFatCoverMm);
        Double ageing = figure(at + "/" + AGEING_DAYS, Basis.NOT_STATED::withAgeingDays);
        return Basis.NOT_STATED
                .withQuartering(text(at + "/" + TableColumn.QUARTERING, false))
                .withHanging(text(at + "/" + HANGING, false))
                .withFatCoverMm(fatCover)
                .withAgeingDays(ageing)
                .withBoneless(boneless.isBoolean() ? boneless.booleanValue() : null);
    }

    /** A figure of the basis by itself, so that a message about it names its key; null if it is none. */
    private @Nullable Double figure(String pointer, Consumer<Double> basis) {
        double number = stated(pointer) ? number(pointer) : Double.NaN;
        if (Double.isNaN(number)) {
            return null;
        }
        try {
            basis.accept(number);
            return number;
        } catch (IllegalArgumentException e) {
            problem(pointer, Numbers.exact(number), String.valueOf(e.getMessage()));
            return null;
        }
    }

    private boolean stated(String pointer) {
        return !root.at(pointer).isMissingNode() && !root.at(pointer).isNull();
    }

    private void decimals(TableDefinition.Builder builder) {
        checkObject(DECIMALS);
        for (String column : root.at(DECIMALS).propertyNames()) {
            if (isExact(column)) {
                continue;
            }
            String pointer = below(DECIMALS, column);
            double places = number(pointer);
            if (places == Math.rint(places) && places >= 0 && places <= 15) {
                builder.decimals(column, (int) places);
            } else {
                problem(pointer, root.at(pointer).toString(), "decimals are a whole number from 0 to 15");
            }
        }
    }

    /** Whether a column is declared exact: its decimals are null. */
    boolean isExact(String column) {
        return root.at(below(DECIMALS, column)).isNull();
    }

    private void checkObject(String pointer) {
        JsonNode node = root.at(pointer);
        if (!node.isObject() && !node.isMissingNode()) {
            problem(pointer, node.toString(), "an object with keys is needed here");
        }
    }

    /** The digest that the descriptor states, or null. */
    @Nullable
    String digest() {
        return text(at(TableKey.DIGEST), false);
    }

    /** Says that the files aren't those that the stated digest was taken over. */
    Problem staleDigest(String stated, String found) {
        String pointer = at(TableKey.DIGEST);
        return new Problem(
                file,
                lines.getOrDefault(pointer, 0),
                OWN + "." + TableKey.DIGEST.code(),
                stated,
                "the table's files were changed after this digest was taken: theirs is " + found
                        + "; if you changed the table, stamp it anew with: table --table FOLDER --write FOLDER2, or take"
                        + " this key out; if you didn't, fetch the table again");
    }

    /** A problem of a key of the table that was found when the table was built. */
    Problem ofKey(String key, String value, String message) {
        String pointer = below(key.equals("name") || key.equals("version") ? "" : "/" + OWN, key);
        return new Problem(
                file,
                lines.getOrDefault(pointer, 0),
                words(pointer),
                value,
                value.isEmpty() ? message : Excerpt.quote(value) + ": " + message);
    }

    /** The resources as declared, by name. */
    Map<String, Resource> resources() {
        Map<String, Resource> resources = new LinkedHashMap<>();
        Map<String, String> paths = new HashMap<>();
        int count = items("/resources");
        for (int i = 0; i < count; i++) {
            Resource resource = resource("/resources/" + i);
            if (resource == null) {
                continue;
            }
            if (resources.putIfAbsent(resource.name(), resource) != null) {
                problem("/resources/" + i + "/name", resource.name(), "a resource of this name stands above");
                continue;
            }
            String before = paths.putIfAbsent(resource.path().toLowerCase(Locale.ROOT), resource.path());
            if (before != null) {
                problem(
                        "/resources/" + i + "/path",
                        resource.path(),
                        before.equals(resource.path())
                                ? "a resource above has this file; each has one of its own"
                                : "a resource above has the file " + before
                                        + ", and many computers can't tell names apart that differ in capitals alone");
            }
        }
        return resources;
    }

    private @Nullable Resource resource(String pointer) {
        String name = text(pointer + "/name", true);
        String path = text(pointer + "/path", true);
        if (name == null || path == null) {
            return null;
        }
        if (!path.matches("[A-Za-z0-9_][A-Za-z0-9_.-]*(?:/[A-Za-z0-9_][A-Za-z0-9_.-]*)*+")) {
            problem(pointer + "/path", path, "a path is the relative name of a file inside the package");
            return null;
        }
        checkLength(pointer + "/path", path);
        for (String key : ELSEWHERE) {
            if (stated(pointer + "/" + key)) {
                problem(
                        pointer + "/" + key,
                        root.at(pointer + "/" + key).toString(),
                        key.equals("missingValues")
                                ? "this key belongs under the schema; write it there"
                                : "rows are read from a plain CSV file alone; put them into one and take this key out");
            }
        }
        Map<String, Field> columns = new LinkedHashMap<>();
        int count = items(pointer + "/schema/fields");
        for (int i = 0; i < count; i++) {
            String at = pointer + "/schema/fields/" + i;
            Field field = field(at);
            if (field != null && columns.putIfAbsent(field.name(), field) != null) {
                problem(at + "/name", field.name(), "a field of this name stands above");
            }
        }
        if (columns.isEmpty()) {
            problem(pointer + "/schema", "", "a resource declares its columns under schema.fields");
            return null;
        }
        return new Resource(
                name,
                path,
                form(pointer),
                truth(pointer + "/dialect/skipInitialSpace", false),
                missing(pointer),
                columns);
    }

    /** How a file is written: what is honoured of its dialect and encoding; anything else that changes a cell is refused. */
    private CsvForm form(String pointer) {
        String dialect = pointer + "/dialect";
        // rows of separators alone are what spreadsheets leave below a table
        CsvForm.Builder form = CsvForm.builder().blankRows();
        checkObject(dialect);
        keysAmong(dialect, DIALECT);
        refuse(
                dialect + "/header",
                JsonNode::isBoolean,
                node -> node.booleanValue(),
                "write the names of the columns in the first line and take this key out");
        refuse(
                dialect + "/quoteChar",
                JsonNode::isString,
                node -> node.stringValue().equals("\""),
                "put cells into double quotes where they need some, and take this key out");
        refuse(
                dialect + "/doubleQuote",
                JsonNode::isBoolean,
                node -> node.booleanValue(),
                "write a double quote inside a cell twice, and take this key out");
        for (String key : List.of("escapeChar", "commentChar")) {
            refuse(
                    dialect + "/" + key,
                    node -> true,
                    node -> node.isNull(),
                    key.equals("escapeChar")
                            ? "write a double quote inside a cell twice, and take this key out"
                            : "take the lines of comment and this key out; a row's note has a column of its own");
        }
        refuse(
                dialect + "/lineTerminator",
                JsonNode::isString,
                node -> List.of("\n", "\r\n").contains(node.stringValue()),
                "lines end with \\n or \\r\\n");
        truth(dialect + "/caseSensitiveHeader", true);
        declared(dialect + "/delimiter", delimiter -> {
            if (delimiter.length() != 1) {
                throw new IllegalArgumentException(
                        "one character separates cells; a comma, a semicolon, a tab or | can, for instance");
            }
            form.separator(delimiter.charAt(0));
        });
        declared(pointer + "/encoding", encoding -> {
            if (!isCharset(encoding)) {
                throw new IllegalArgumentException("no such encoding; utf-8 and windows-1252 are ones, for instance");
            }
            form.charset(Charset.forName(encoding));
        });
        return form.build();
    }

    private static boolean isCharset(String name) {
        try {
            return Charset.isSupported(name);
        } catch (IllegalCharsetNameException e) {
            return false;
        }
    }

    /** Takes a text that is declared; what it refuses is a problem. */
    private void declared(String pointer, Consumer<String> taker) {
        String found = text(pointer, false);
        try {
            if (found != null) {
                taker.accept(found);
            }
        } catch (IllegalArgumentException e) {
            problem(pointer, found == null ? "" : found, String.valueOf(e.getMessage()));
        }
    }

    private boolean truth(String pointer, boolean otherwise) {
        JsonNode node = root.at(pointer);
        if (node.isBoolean()) {
            return node.booleanValue();
        }
        if (stated(pointer)) {
            problem(pointer, node.toString(), "true or false is needed here");
        }
        return otherwise;
    }

    /** Refuses a key whose value would have files read in a way that this library doesn't. */
    private void refuse(String pointer, Predicate<JsonNode> type, Predicate<JsonNode> valid, String advice) {
        JsonNode node = root.at(pointer);
        if (stated(pointer) && !(type.test(node) && valid.test(node))) {
            problem(
                    pointer,
                    node.isString() ? node.stringValue() : node.toString(),
                    "files are not read in this way here; " + advice);
        }
    }

    private void keysAmong(String pointer, Set<String> known) {
        for (String key : root.at(pointer).propertyNames()) {
            if (!known.contains(key)) {
                problem(
                        below(pointer, key),
                        "",
                        "unknown key; valid here: "
                                + String.join(", ", known.stream().sorted().toList()));
            }
        }
    }

    private List<String> missing(String pointer) {
        List<String> missing = new ArrayList<>();
        if (stated(pointer + "/schema/missingValues")) {
            missing.addAll(texts(pointer + "/schema/missingValues"));
        }
        String sequence = text(pointer + "/dialect/nullSequence", false);
        if (sequence != null) {
            missing.add(sequence);
        }
        return missing;
    }

    private @Nullable Field field(String pointer) {
        String column = text(pointer + "/name", true);
        String type = textOr(pointer + "/type", "string");
        if (!TYPES.contains(type)) {
            problem(pointer + "/type", type, "unknown type; valid: " + String.join(", ", TYPES));
        }
        if (column == null) {
            return null;
        }
        checkLength(pointer + "/name", column);
        String format = textOr(pointer + "/format", "default");
        if (!format.equals("default") && !type.equals("string")) {
            problem(
                    pointer + "/format",
                    format,
                    "cells are read in the default format alone, dates such as 2026-11-03; write them so and take this"
                            + " key out");
        }
        NumberForm[] numbers = {NumberForm.TABLE};
        declared(pointer + "/decimalChar", mark -> {
            if (!mark.equals(".") && !mark.equals(",")) {
                throw new IllegalArgumentException("decimals stand behind . or ,");
            }
            numbers[0] = mark.equals(",") ? NumberForm.COMMA_OR_EXPONENT : NumberForm.TABLE;
        });
        refuse(
                pointer + "/groupChar",
                node -> true,
                node -> false,
                "leave out what separates thousands, and take this key out");
        refuse(
                pointer + "/bareNumber",
                JsonNode::isBoolean,
                node -> node.booleanValue(),
                "write numbers without units and signs, and take this key out");
        return new Field(
                column,
                type,
                numbers[0],
                words(pointer + "/trueValues", Field.TRUE),
                words(pointer + "/falseValues", Field.FALSE),
                constraints(pointer + "/constraints", type));
    }

    private List<String> words(String pointer, List<String> otherwise) {
        return stated(pointer) ? texts(pointer) : otherwise;
    }

    private Field.Constraints constraints(String pointer, String type) {
        if (!stated(pointer)) {
            return Field.Constraints.NONE;
        }
        checkObject(pointer);
        keysAmong(pointer, CONSTRAINTS);
        refuse(pointer + "/pattern", node -> true, node -> false, "list the words as \"enum\", or take this key out");
        for (String bound : List.of("minimum", "maximum")) {
            if (stated(pointer + "/" + bound) && !type.equals("number") && !type.equals("integer")) {
                problem(
                        pointer + "/" + bound,
                        root.at(pointer + "/" + bound).toString(),
                        "only numbers are held to bounds here; take this key out");
                return Field.Constraints.NONE;
            }
        }
        List<String> words = new ArrayList<>();
        for (int i = 0; i < items(pointer + "/enum"); i++) {
            JsonNode word = root.at(pointer + "/enum/" + i);
            words.add(word.isString() ? word.stringValue() : word.toString());
        }
        return new Field.Constraints(
                truth(pointer + "/required", false),
                truth(pointer + "/unique", false),
                bound(pointer + "/minimum"),
                bound(pointer + "/maximum"),
                bound(pointer + "/minLength"),
                bound(pointer + "/maxLength"),
                words);
    }

    /** A bound, which the standard lets stand as a number or as a text. */
    private @Nullable Double bound(String pointer) {
        if (!stated(pointer)) {
            return null;
        }
        JsonNode node = root.at(pointer);
        if (!node.isString()) {
            return number(pointer);
        }
        try {
            return NumberForm.TABLE.parse(node.stringValue());
        } catch (IllegalArgumentException e) {
            problem(pointer, node.stringValue(), String.valueOf(e.getMessage()));
            return null;
        }
    }
}
