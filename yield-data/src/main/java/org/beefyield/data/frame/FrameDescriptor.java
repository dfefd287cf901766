package org.beefyield.data.frame;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.Reason;
import org.beefyield.frame.Column;
import org.beefyield.frame.Total;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What stands beside a frame's CSV: a Tabular Data Package of that one file, with the types of its columns. */
final class FrameDescriptor {
    private static final String END = ".datapackage.json";
    private static final String OURS = "beefyield";
    private static final String TYPE = "type";
    private static final String TOTAL = "total";
    private static final JsonMapper MAPPER = new JsonMapper();

    private FrameDescriptor() {}

    /** Where the descriptor of a file stands. */
    static Path beside(Path file) {
        return file.resolveSibling(stem(file.getFileName().toString()) + END);
    }

    private static String stem(String fileName) {
        return fileName.replaceAll("(?i)(\\.csv)?(\\.gz)?$", "");
    }

    static String text(List<Column> columns, String fileName) {
        List<Map<String, Object>> fields =
                columns.stream().map(FrameDescriptor::field).toList();
        Map<String, Object> resource = new LinkedHashMap<>();
        resource.put("profile", "tabular-data-resource");
        resource.put("name", name(fileName));
        resource.put("path", fileName);
        resource.put("format", "csv");
        resource.put("mediatype", "text/csv");
        resource.put("encoding", "utf-8");
        if (fileName.toLowerCase(Locale.ROOT).endsWith(".gz")) {
            resource.put("compression", "gz");
        }
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("fields", fields);
        schema.put("missingValues", List.of(""));
        resource.put("schema", schema);
        Map<String, Object> descriptor = new LinkedHashMap<>();
        descriptor.put("profile", "tabular-data-package");
        descriptor.put("name", name(fileName));
        descriptor.put("resources", List.of(resource));
        String written = MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(descriptor);
        return written.replace(System.lineSeparator(), "\n") + "\n";
    }

    /** Names of packages are in lower case. */
    private static String name(String fileName) {
        String name = stem(fileName).toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9._-]+", "-");
        return name.isEmpty() ? "frame" : name;
    }

    private static Map<String, Object> field(Column column) {
        Map<String, Object> field = new LinkedHashMap<>();
        field.put("name", column.header());
        field.put("title", column.name());
        field.put(TYPE, type(column.type()));
        if (!column.unit().isEmpty()) {
            field.put("description", "Unit: " + column.unit());
        }
        Map<String, Object> ours = new LinkedHashMap<>();
        if (column.numeric()) {
            ours.put(TOTAL, column.total().toString());
        } else if (column.type() == Column.Type.CONFORMATION || column.type() == Column.Type.FAT_CLASS) {
            ours.put(TYPE, words(column.type()));
        }
        if (!ours.isEmpty()) {
            field.put(OURS, ours);
        }
        return field;
    }

    private static String type(Column.Type type) {
        return switch (type) {
            case NUMBER -> "number";
            case DATE -> "date";
            case TEXT, CONFORMATION, FAT_CLASS -> "string";
        };
    }

    private static String words(Column.Type type) {
        return type.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /**
     * The columns that a descriptor declares.
     *
     * @throws InvalidDataException if it can't be read, or declares something that a frame doesn't hold
     */
    static List<Column> columns(Source source) {
        String file = source.name();
        try (InputStream in = source.open()) {
            JsonNode fields =
                    MAPPER.readTree(in).path("resources").path(0).path("schema").path("fields");
            if (!fields.isArray() || fields.isEmpty()) {
                throw invalid(file, "", "it declares no fields of a first resource, which would be the columns");
            }
            List<Column> columns = new ArrayList<>();
            for (JsonNode field : fields) {
                columns.add(column(file, field));
            }
            return columns;
        } catch (JacksonException e) {
            throw invalid(file, "", "it is no JSON: " + e.getOriginalMessage());
        } catch (IOException e) {
            throw invalid(
                    file, "", "the descriptor can't be read: " + Reason.of(e) + "; without one, declare the columns");
        }
    }

    private static Column column(String file, JsonNode field) {
        String name = field.path("name").asString("");
        String type = field.path(TYPE).asString("string");
        JsonNode ours = field.path(OURS);
        try {
            Column column = switch (type) {
                case "number", "integer" -> Column.number(name);
                case "date" -> Column.text(name).of(Column.Type.DATE);
                case "string" -> text(name, ours.path(TYPE).asString(words(Column.Type.TEXT)));
                default ->
                    throw new IllegalArgumentException("the type " + Excerpt.quote(type)
                            + " is none of a frame; string, number, integer and date are");
            };
            return ours.has(TOTAL)
                    ? column.totalling(Total.parse(ours.path(TOTAL).asString("")))
                    : column;
        } catch (IllegalArgumentException e) {
            throw invalid(file, name, String.valueOf(e.getMessage()));
        }
    }

    private static Column text(String name, String type) {
        for (Column.Type one : List.of(Column.Type.TEXT, Column.Type.CONFORMATION, Column.Type.FAT_CLASS)) {
            if (words(one).equals(type)) {
                return Column.text(name).of(one);
            }
        }
        throw new IllegalArgumentException("the type " + Excerpt.quote(type)
                + " is none of a frame's texts; text, conformation and fat class are");
    }

    private static InvalidDataException invalid(String file, String column, String message) {
        return new InvalidDataException(List.of(new Problem(file, 0, column, "", message)));
    }
}
