package org.beefyield.data.derivation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleFunction;
import java.util.function.UnaryOperator;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The edition's page for people: table-readme.md with every figure filled in from the rows and factors. */
final class ShippedTableReadme {
    private static final String TEMPLATE = "/reference/table-readme.md";
    private static final Pattern PLACEHOLDER = Pattern.compile("\\$\\{([^}]+)}");

    /** Sources of the retail rows, most solid first, with the word for each. */
    private static final Map<String, String> RETAIL_SOURCES = retailSources();

    private final ShippedTableDerivation derivation;
    private final ReferenceFigures figures;
    private final TableShares shares;
    private final TableShares.Position reference;

    ShippedTableReadme(ShippedTableDerivation derivation) {
        this.derivation = derivation;
        this.figures = derivation.figures();
        this.shares = new TableShares(derivation.breakdown(), figures);
        this.reference = new TableShares.Position(
                figures.factor("reference", "conformation"),
                figures.factor("reference", "fat"),
                figures.factor("reference", "weight_kg"));
    }

    String text() {
        Map<String, String> values = values();
        return PLACEHOLDER.matcher(template()).replaceAll(match -> value(values, match));
    }

    /** kg of primals under a specification by the source of their retail rows. */
    Map<String, Double> kgBySource(String specification) {
        Map<String, Double> kg = new LinkedHashMap<>();
        RETAIL_SOURCES.keySet().forEach(source -> kg.put(source, 0.0));
        for (Map<String, String> primal : derivation.primals()) {
            kg.merge(retailSource(specification, primal.get("cut")), primalKg(primal.get("cut")), Double::sum);
        }
        return kg;
    }

    /** kg of meat of the reference carcass. */
    double meatKg() {
        return kg(shares.tissue("C", reference), ShippedTableDerivation.MEAT);
    }

    /** The smallest fat trim in the allowed range, g per kg of carcass; it has no weight term. */
    double smallestFatTrim() {
        double smallest = Double.POSITIVE_INFINITY;
        for (double c = figures.factor("allowed_min", "conformation");
                c <= figures.factor("allowed_max", "conformation");
                c++) {
            for (double f = figures.factor("allowed_min", "fat"); f <= figures.factor("allowed_max", "fat"); f++) {
                Map<String, Double> tissue = shares.tissue("C", new TableShares.Position(c, f, reference.weightKg()));
                smallest = Math.min(smallest, tissue.getOrDefault(ShippedTableDerivation.FAT_TRIM, 0.0));
            }
        }
        return smallest;
    }

    private Map<String, String> values() {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("name", ShippedTableFiles.NAME);
        values.put("version", ShippedTableFiles.VERSION);
        values.put("primals", String.valueOf(derivation.primals().size()));
        values.put("weight", factor("reference", "weight_kg"));
        for (String tissue : List.of("meat", "fat-trim", "bone", "loss")) {
            values.put("kg." + tissue, format("%.3f", kg(shares.tissue("C", reference), tissue)));
            values.put("conformation." + tissue, format("%+.1f", derivation.tissueSlope(tissue, "conformation")));
            values.put("fat." + tissue, format("%+.1f", derivation.tissueSlope(tissue, "fat")));
            values.put("sd." + tissue, ShippedTableFiles.number(derivation.tissueSdWithinLots(tissue)));
            for (String by : List.of("lot", "run", "hall")) {
                values.put(by + "." + tissue, factor("tissue_" + by + "_sd", tissue));
            }
        }
        values.put("yieldAfterLoss", ShippedTableFiles.number(derivation.yieldAfterLoss()));
        for (String variable : List.of("conformation", "fat", "weight_kg")) {
            values.put("fitted." + variable, range("fitted", variable));
            values.put("allowed." + variable, range("allowed", variable));
        }
        values.put("smallestFatTrim", format("%.1f", smallestFatTrim()));
        values.put("sd.overLots", factor("tissue_sd", "meat"));
        values.put("level.E", factor("level_error", "E"));
        values.put("level.D", factor("level_error", "D"));
        values.put("lotPart", factor("lot_sd_part", ""));
        values.put("runPart", factor("run_sd_part", ""));
        values.put("slopeErrorPart", factor("slope_error_part", ""));
        for (String level : List.of("primal", "tested", "ours")) {
            values.put("hallPart." + level, format("%.0f", 100 * figures.factor("hall_sd_of_level", level)));
        }
        values.put("loss", factor("loss", ""));
        values.put("weight.bone", factor("tissue_per_100kg", "bone"));
        values.put("fatKnot", factor("fat_hinge_knot", ""));
        values.put("conformationKnot", factor("conformation_hinge_knot", ""));
        values.put("primalSdLeft", factor("primal_sd_left_by_grade", ""));
        values.put("retailSdOfLevel", factor("retail_sd_of_level", ""));
        values.put("retailSdCap", factor("retail_sd_cap", ""));
        values.put("retailSdLargest", factor("retail_sd_largest", ""));
        values.put("fatKept", factor("retail_fat_kept", ""));
        values.put("leanTrimFat", leanTrimFatRange());
        values.put("sideSplit", factor("side_split_sd_pct", ""));
        values.put("fatTrimFat", factor("fat_trim_fat_pct", ""));
        values.put("retailBySpecification", bySpecification(kg -> format("%.1f", kg)));
        values.put(
                "retailPercentBySpecification",
                bySpecification(kg -> format("%.1f (%.1f)", 100 * kg / meatKg(), 100 * kg / reference.weightKg())));
        values.put("specificationColumns", columns(name -> "`" + name + "`", " | "));
        values.put("specificationRule", columns(name -> "---|", ""));
        values.put("retailByPrimal", byPrimal());
        return values;
    }

    private String bySpecification(DoubleFunction<String> cell) {
        StringBuilder table = new StringBuilder();
        for (String specification : derivation.specifications().keySet()) {
            table.append("| `").append(specification).append('`');
            kgBySource(specification).values().forEach(kg -> table.append(" | ").append(cell.apply(kg)));
            table.append(" |\n");
        }
        return table.toString();
    }

    private String byPrimal() {
        StringBuilder table = new StringBuilder();
        for (Map<String, String> primal : derivation.primals()) {
            double kg = primalKg(primal.get("cut"));
            table.append(format("| %s | %.3f | %.1f", primal.get("name"), kg, 100 * kg / meatKg()));
            for (String specification : derivation.specifications().keySet()) {
                table.append(" | ").append(RETAIL_SOURCES.get(retailSource(specification, primal.get("cut"))));
            }
            table.append(" |\n");
        }
        return table.toString();
    }

    private String columns(UnaryOperator<String> cell, String separator) {
        return derivation.specifications().keySet().stream().map(cell).collect(Collectors.joining(separator));
    }

    /** The one source of all rows of the way in which the specification cuts the primal. */
    private String retailSource(String specification, String primal) {
        String way = derivation
                .specifications()
                .getOrDefault(specification, Map.of())
                .get(primal);
        List<String> sources = derivation.breakdown().stream()
                .filter(row -> row.parent().equals(primal) && row.way().equals(way))
                .map(BreakdownRow::source)
                .distinct()
                .toList();
        if (sources.size() != 1 || !RETAIL_SOURCES.containsKey(sources.get(0))) {
            throw new IllegalStateException(primal + " in the way " + way + " has the sources " + sources);
        }
        return sources.get(0);
    }

    private String leanTrimFatRange() {
        double[] fat = derivation.primals().stream()
                .mapToDouble(primal -> figures.factor("lean_trim_fat_pct", primal.get("cut")))
                .sorted()
                .toArray();
        return ShippedTableFiles.number(fat[0]) + " to " + ShippedTableFiles.number(fat[fat.length - 1]) + " %";
    }

    private double primalKg(String primal) {
        return kg(shares.primal("C", reference), primal);
    }

    private double kg(Map<String, Double> gramsPerKg, String cut) {
        return gramsPerKg.getOrDefault(cut, 0.0) * reference.weightKg() / 1000;
    }

    private String range(String name, String variable) {
        return factor(name + "_min", variable) + " to " + factor(name + "_max", variable);
    }

    private String factor(String name, String key) {
        return ShippedTableFiles.number(figures.factor(name, key));
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }

    private static String value(Map<String, String> values, MatchResult match) {
        String value = values.get(match.group(1));
        if (value == null) {
            throw new IllegalStateException(TEMPLATE + " asks for " + match.group());
        }
        return value;
    }

    private static String template() {
        try (InputStream in = ShippedTableReadme.class.getResourceAsStream(TEMPLATE)) {
            if (in == null) {
                throw new IllegalStateException("no class-path file " + TEMPLATE);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(TEMPLATE, e);
        }
    }

    private static Map<String, String> retailSources() {
        Map<String, String> words = new LinkedHashMap<>();
        words.put("retail-derived", "tests");
        words.put("retail-partly", "fat share");
        words.put("assumption", "assumption");
        return words;
    }
}
