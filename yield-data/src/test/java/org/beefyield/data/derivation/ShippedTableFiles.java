package org.beefyield.data.derivation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The CSV resources and the descriptor of the edition, as texts. */
final class ShippedTableFiles {
    static final String NAME = "boneless-2026";
    static final String VERSION = "1.0.0";
    static final List<String> CATEGORIES = List.of("C", "E", "A", "B", "D");
    static final List<String> LEVELS = List.of("tissue", "primal", "retail");
    private static final List<String> KINDS =
            List.of("meat", "primal", "steak", "joint", "dice", "lean-trim", "mince", "fat-trim", "bone", "loss");

    private final ShippedTableDerivation derivation;
    private final ReferenceFigures figures;
    private final String fatHinge;
    private final String conformationHinge;

    ShippedTableFiles(ShippedTableDerivation derivation) {
        this.derivation = derivation;
        this.figures = derivation.figures();
        this.fatHinge = "fat_below_" + number(figures.factor("fat_hinge_knot"));
        this.conformationHinge = "conformation_above_" + number(figures.factor("conformation_hinge_knot"));
    }

    Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("datapackage.json", JsonText.of(descriptor()) + "\n");
        files.put("cuts.csv", cuts());
        files.put("breakdown.csv", breakdown());
        files.put("specifications.csv", specifications());
        files.put("quartering.csv", rewritten("quartering.csv"));
        files.put("coefficient-notes.csv", coefficientNotes());
        files.put("expectations.csv", rewritten("table-expectations.csv"));
        files.put("sources.csv", sources());
        return files;
    }

    /** Shortest decimal form, no exponent. */
    static String number(double value) {
        String text = BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
        return text.equals("-0") ? "0" : text;
    }

    private String cuts() {
        List<List<String>> records = new ArrayList<>();
        for (Map<String, String> cut : derivation.cuts()) {
            String code = cut.get("cut");
            boolean primal = cut.get("kind").equals("primal");
            boolean piece = !cut.get("pieces_per_side").isEmpty();
            String fat = "";
            if (primal) {
                fat = number(figures.factor("lean_trim_fat_pct", code));
            } else if (code.equals(ShippedTableDerivation.FAT_TRIM)) {
                fat = number(figures.factor("fat_trim_fat_pct"));
            }
            records.add(List.of(
                    code,
                    cut.get("name"),
                    cut.get("level"),
                    cut.get("kind"),
                    cut.get("pieces_per_side"),
                    piece ? number(figures.factor("side_split_sd_pct")) : "",
                    fat,
                    cut.get("unece"),
                    primal ? primalNote(cut.get("note"), piece) : cut.get("note")));
        }
        return CsvText.write(names(cutFields()), records);
    }

    private static String primalNote(String note, boolean piece) {
        String start = note.isEmpty() ? "" : note + ". ";
        return start + "UNECE item not checked against the original; "
                + (piece
                        ? "fat content of lean trim and side split are assumptions"
                        : "fat content of lean trim is an assumption");
    }

    private String breakdown() {
        List<List<String>> records = new ArrayList<>();
        for (BreakdownRow row : derivation.breakdown()) {
            records.add(List.of(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    number(row.level()),
                    number(row.perConformationPoint()),
                    number(row.perFatPoint()),
                    number(row.per100Kg()),
                    number(row.belowFatKnot()),
                    number(row.aboveConformationKnot()),
                    number(row.sd()),
                    row.source()));
        }
        return CsvText.write(names(breakdownFields()), records);
    }

    private String specifications() {
        List<List<String>> records = new ArrayList<>();
        derivation
                .specifications()
                .forEach((name, ways) -> ways.forEach((primal, way) -> records.add(List.of(name, primal, way))));
        return CsvText.write(names(specificationFields()), records);
    }

    /** Terms whose source differs from their row's, and the standard errors of the published slopes. */
    private String coefficientNotes() {
        List<List<String>> records = new ArrayList<>();
        for (BreakdownRow row : derivation.breakdown()) {
            if (row.source().equals("grange-derived") || row.source().equals("other-categories")) {
                records.add(note(row, "per_conformation_point", standardError(row, "conformation"), row.source()));
                records.add(note(row, "per_fat_point", standardError(row, "fat"), row.source()));
            }
            switch (row.source()) {
                case "grange-derived" -> {
                    records.add(note(row, "per_100kg", "", "tissue-weight"));
                    if (row.belowFatKnot() != 0) {
                        records.add(note(row, fatHinge, "", "lean-carcass-hinges"));
                        records.add(note(row, conformationHinge, "", "lean-carcass-hinges"));
                    }
                }
                case "primal-derived" -> {
                    records.add(note(row, "per_100kg", "", "primal-weight"));
                    records.add(note(row, "sd_g_per_kg", "", "primal-sd"));
                }
                case "retail-derived" -> records.add(note(row, "sd_g_per_kg", "", "retail-sd"));
                default -> {
                    // every term has the row's own source
                }
            }
        }
        return CsvText.write(names(coefficientNoteFields()), records);
    }

    private String standardError(BreakdownRow row, String variable) {
        double exact = derivation.tissueSlopeStandardError(row.cut(), variable);
        return number(BigDecimal.valueOf(exact)
                .setScale(BreakdownRow.SLOPE_DECIMALS, RoundingMode.HALF_UP)
                .doubleValue());
    }

    private static List<String> note(BreakdownRow row, String term, String standardError, String source) {
        return List.of(row.category(), row.way(), row.parent(), row.cut(), term, standardError, source);
    }

    /** Citations come from sources.csv of the reference figures unless table-sources.csv holds one of its own. */
    private static String sources() {
        Map<String, Map<String, String>> cited = new LinkedHashMap<>();
        ReferenceFigures.rows("sources.csv").forEach(row -> cited.put(row.get("source"), row));
        List<List<String>> records = new ArrayList<>();
        for (Map<String, String> row : ReferenceFigures.rows("table-sources.csv")) {
            Map<String, String> from = row.get("citation").isEmpty() ? cited.get(row.get("source")) : row;
            if (from == null) {
                throw new IllegalStateException("no citation for source " + row.get("source"));
            }
            records.add(List.of(row.get("source"), from.get("kind"), from.get("citation"), row.get("note")));
        }
        return CsvText.write(List.of("source", "kind", "citation", "note"), records);
    }

    private static String rewritten(String file) {
        List<Map<String, String>> rows = ReferenceFigures.rows(file);
        return CsvText.write(
                List.copyOf(rows.get(0).keySet()),
                rows.stream().map(row -> List.copyOf(row.values())).toList());
    }

    // The descriptor

    private Map<String, Object> descriptor() {
        Map<String, Object> descriptor = new LinkedHashMap<>();
        descriptor.put("profile", "tabular-data-package");
        descriptor.put("name", NAME);
        descriptor.put("version", VERSION);
        descriptor.put("title", "Boneless yields of graded beef carcasses, edition 2026");
        descriptor.put(
                "description",
                "Meat, fat trim, bone and loss of a carcass by conformation, fat class and cold weight, the meat broken"
                        + " down to primals and the primals to retail cuts. README.md says what the figures rest on.");
        descriptor.put(
                "licenses",
                List.of(object(
                        "name",
                        "Apache-2.0",
                        "path",
                        "https://www.apache.org/licenses/LICENSE-2.0",
                        "title",
                        "Apache License 2.0")));
        descriptor.put("beefyield", beefyield());
        descriptor.put("resources", resources());
        return descriptor;
    }

    private Map<String, Object> beefyield() {
        Map<String, Object> decimals = new LinkedHashMap<>();
        decimals.put("level_g_per_kg", BreakdownRow.LEVEL_DECIMALS);
        for (String column :
                List.of("per_conformation_point", "per_fat_point", "per_100kg", fatHinge, conformationHinge)) {
            decimals.put(column, BreakdownRow.SLOPE_DECIMALS);
        }
        decimals.put("sd_g_per_kg", BreakdownRow.SD_DECIMALS);
        Map<String, Object> basis = new LinkedHashMap<>();
        basis.put("quartering", "10-rib forequarter");
        basis.put("hanging", null);
        basis.put("fat_cover_mm", 0);
        basis.put("ageing_days", null);
        basis.put("boneless", true);
        return object(
                "format",
                "1.0",
                "levels",
                LEVELS,
                "reference",
                variables("reference"),
                "fitted_range",
                ranges("fitted"),
                "allowed_range",
                ranges("allowed"),
                "width_fit",
                whole(figures.factor("width_fit")),
                "terms",
                List.of(
                        hinge(fatHinge, "fat", "below", figures.factor("fat_hinge_knot")),
                        hinge(conformationHinge, "conformation", "above", figures.factor("conformation_hinge_knot"))),
                "categories",
                CATEGORIES,
                "basis",
                basis,
                "decimals",
                decimals);
    }

    private Map<String, Object> variables(String factor) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (String variable : List.of("conformation", "fat", "weight_kg")) {
            values.put(variable, whole(figures.factor(factor, variable)));
        }
        return values;
    }

    private Map<String, Object> ranges(String name) {
        Map<String, Object> min = variables(name + "_min");
        Map<String, Object> max = variables(name + "_max");
        Map<String, Object> ranges = new LinkedHashMap<>();
        min.forEach((variable, from) -> ranges.put(variable, List.of(from, max.getOrDefault(variable, from))));
        return ranges;
    }

    private static Map<String, Object> hinge(String column, String variable, String side, double knot) {
        return object("column", column, "kind", "hinge", "variable", variable, "side", side, "knot", whole(knot));
    }

    private static Integer whole(double value) {
        if (value != Math.rint(value)) {
            throw new IllegalStateException(value + " is not a whole number");
        }
        return (int) value;
    }

    private List<Object> resources() {
        return List.of(
                resource("cuts", cutFields(), List.of("cut"), List.of()),
                resource(
                        "breakdown",
                        breakdownFields(),
                        List.of("category", "way", "parent", "cut"),
                        List.of(foreignKey("cut", "cuts", "cut"), foreignKey("source", "sources", "source"))),
                resource(
                        "specifications",
                        specificationFields(),
                        List.of("specification", "parent"),
                        List.of(foreignKey("parent", "cuts", "cut"))),
                resource(
                        "quartering",
                        List.of(
                                required("quartering", "string"),
                                required("cut", "string"),
                                bounded(required("fore_share", "number"), 0, 1),
                                required("source", "string")),
                        List.of("quartering", "cut"),
                        List.of(foreignKey("cut", "cuts", "cut"), foreignKey("source", "sources", "source"))),
                resource(
                        "coefficient-notes",
                        coefficientNoteFields(),
                        List.of("category", "way", "parent", "cut", "term"),
                        List.of(foreignKey("cut", "cuts", "cut"), foreignKey("source", "sources", "source"))),
                resource(
                        "expectations",
                        List.of(
                                optional("cut", "string"),
                                oneOf(optional("kind", "string"), KINDS),
                                oneOf(required("level", "string"), LEVELS),
                                oneOf(required("variable", "string"), List.of("conformation", "fat", "weight")),
                                oneOf(required("direction", "string"), List.of("rises", "falls")),
                                required("strict", "boolean"),
                                oneOf(required("over", "string"), List.of("fitted", "allowed")),
                                optional("note", "string")),
                        List.of(),
                        List.of(foreignKey("cut", "cuts", "cut"))),
                resource(
                        "sources",
                        List.of(
                                required("source", "string"),
                                oneOf(
                                        required("kind", "string"),
                                        List.of("published", "derived", "common-practice", "unverified", "assumption")),
                                required("citation", "string"),
                                optional("note", "string")),
                        List.of("source"),
                        List.of()));
    }

    private List<Map<String, Object>> cutFields() {
        return List.of(
                required("cut", "string"),
                required("name", "string"),
                oneOf(required("level", "string"), LEVELS),
                oneOf(required("kind", "string"), KINDS),
                optional("pieces_per_side", "number"),
                atLeastZero(optional("side_split_sd_pct", "number")),
                bounded(optional("fat_pct", "number"), 0, 100),
                optional("unece", "string"),
                optional("note", "string"));
    }

    private List<Map<String, Object>> breakdownFields() {
        return List.of(
                required("category", "string"),
                required("way", "string"),
                required("parent", "string"),
                required("cut", "string"),
                atLeastZero(required("level_g_per_kg", "number")),
                required("per_conformation_point", "number"),
                required("per_fat_point", "number"),
                required("per_100kg", "number"),
                required(fatHinge, "number"),
                required(conformationHinge, "number"),
                atLeastZero(required("sd_g_per_kg", "number")),
                required("source", "string"));
    }

    private List<Map<String, Object>> specificationFields() {
        return List.of(required("specification", "string"), required("parent", "string"), required("way", "string"));
    }

    private List<Map<String, Object>> coefficientNoteFields() {
        return List.of(
                required("category", "string"),
                required("way", "string"),
                required("parent", "string"),
                required("cut", "string"),
                required("term", "string"),
                atLeastZero(optional("standard_error", "number")),
                required("source", "string"));
    }

    private static List<String> names(List<Map<String, Object>> fields) {
        return fields.stream().map(field -> String.valueOf(field.get("name"))).toList();
    }

    private static Map<String, Object> resource(
            String name, List<Map<String, Object>> fields, List<String> primaryKey, List<Object> foreignKeys) {
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("fields", fields);
        schema.put("missingValues", List.of(""));
        if (!primaryKey.isEmpty()) {
            schema.put("primaryKey", primaryKey);
        }
        if (!foreignKeys.isEmpty()) {
            schema.put("foreignKeys", foreignKeys);
        }
        return object(
                "name",
                name,
                "path",
                name + ".csv",
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
    }

    private static Object foreignKey(String field, String resource, String target) {
        return object("fields", field, "reference", object("resource", resource, "fields", target));
    }

    private static Map<String, Object> required(String name, String type) {
        return object("name", name, "type", type, "constraints", object("required", true));
    }

    private static Map<String, Object> optional(String name, String type) {
        return object("name", name, "type", type);
    }

    private static Map<String, Object> oneOf(Map<String, Object> field, List<String> values) {
        return constrained(field, "enum", values);
    }

    private static Map<String, Object> atLeastZero(Map<String, Object> field) {
        return constrained(field, "minimum", 0);
    }

    private static Map<String, Object> bounded(Map<String, Object> field, int from, int to) {
        return constrained(constrained(field, "minimum", from), "maximum", to);
    }

    private static Map<String, Object> constrained(Map<String, Object> field, String constraint, Object value) {
        Map<String, Object> constraints = new LinkedHashMap<>();
        if (field.get("constraints") instanceof Map<?, ?> given) {
            given.forEach((key, old) -> constraints.put(String.valueOf(key), old));
        }
        constraints.put(constraint, value);
        Map<String, Object> result = new LinkedHashMap<>(field);
        result.put("constraints", constraints);
        return result;
    }

    private static Map<String, Object> object(Object... keysAndValues) {
        Map<String, Object> object = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            object.put(String.valueOf(keysAndValues[i]), keysAndValues[i + 1]);
        }
        return object;
    }
}
