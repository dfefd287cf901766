package org.beefyield.data.derivation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleFunction;
import java.util.function.UnaryOperator;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.estimate.Support;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;

/** The edition's page for people: table-readme.md with every figure filled in from the rows and factors. */
final class ShippedTableReadme {
    private static final String TEMPLATE = "/reference/table-readme.md";
    private static final Pattern PLACEHOLDER = Pattern.compile("\\$\\{([^}]+)}");

    /** Sources of the retail rows, most solid first, with the word for each. */
    private static final Map<String, String> RETAIL_SOURCES = retailSources();

    private final ShippedTableDerivation derivation;
    private final ReferenceFigures figures;
    private final TableShares shares;
    private final PublishedYields yields;
    private final TableShares.Position reference;

    ShippedTableReadme(ShippedTableDerivation derivation) {
        this.derivation = derivation;
        this.figures = derivation.figures();
        this.shares = new TableShares(derivation.breakdown(), figures);
        this.yields = new PublishedYields(YieldTable.of(new ShippedTableFiles(derivation).definition()));
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
    double smallestFatTrim(String category) {
        double smallest = Double.POSITIVE_INFINITY;
        for (double c = figures.factor("allowed_min", "conformation");
                c <= figures.factor("allowed_max", "conformation");
                c++) {
            for (double f = figures.factor("allowed_min", "fat"); f <= figures.factor("allowed_max", "fat"); f++) {
                Map<String, Double> tissue =
                        shares.tissue(category, new TableShares.Position(c, f, reference.weightKg()));
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
        for (String category : List.of("C", "E", "A", "D")) {
            values.put("smallestFatTrim." + category, format("%.1f", smallestFatTrim(category)));
        }
        values.put("sexLevel", factor("category_fat_level", ""));
        values.put("sexSlope", factor("category_fat_slope", ""));
        values.put("sexSlopeError", factor("category_fat_slope_error", ""));
        for (String tissue : List.of("meat", "fat-trim", "bone")) {
            values.put("cow." + tissue, format("%+.0f", figures.factor("cow_level", tissue)));
        }
        values.put(
                "cowMeat",
                format(
                        "%.1f",
                        shares.tissue("D", new TableShares.Position(2, 5, reference.weightKg()))
                                        .getOrDefault("meat", 0.0)
                                / 10));
        values.put("conformationPart", factor("conformation_genetic_part", ""));
        values.put("fatPart", factor("fat_genetic_part", ""));
        values.put("bullPrimals", factor("primal_sex", "bulls"));
        values.put("heiferPrimals", ShippedTableFiles.number(-figures.factor("primal_sex", "heifers")));
        values.put("retailFatSlope", format("%.0f", 100 * figures.factor("retail_fat_slope")));
        values.put("sdConformation", factor("sd_of_points", "conformation"));
        values.put("sdFat", factor("sd_of_points", "fat"));
        values.put("gradeCorrelation", factor("correlation_of_points", ""));
        values.put("assumedByCategory", assumedByCategory());
        values.put("specificationRetail", columns(name -> "retail, `" + name + "`", " | "));
        putPublished(values);
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
        values.put("fatKnot", factor("fat_hinge_knot", ""));
        values.put("conformationKnot", factor("conformation_hinge_knot", ""));
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

    private String assumedByCategory() {
        Map<String, String> names = new LinkedHashMap<>();
        names.put("C", "steers (C)");
        names.put("E", "heifers (E)");
        names.put("A", "young bulls, bulls (A, B)");
        names.put("D", "cows (D)");
        StringBuilder table = new StringBuilder();
        names.forEach((category, name) -> {
            List<Support> supports = derivation.specifications().keySet().stream()
                    .map(specification -> yields.support(category, specification))
                    .toList();
            List<String> cells = new ArrayList<>(List.of(name));
            cells.add(assumed(supports.get(0), "tissue"));
            cells.add(assumed(supports.get(0), "primal"));
            supports.forEach(support -> cells.add(assumed(support, "retail")));
            supports.forEach(support -> cells.add(percent(support.share(SourceKind.ASSUMPTION))));
            table.append("| ").append(String.join(" | ", cells)).append(" |\n");
        });
        return table.toString();
    }

    private static String assumed(Support support, String level) {
        return percent(support.assumedKg(level) / support.saleableKg());
    }

    private static String percent(double part) {
        return format("%.0f", 100 * part);
    }

    private void putPublished(Map<String, String> values) {
        values.put("saleable.trim", format("%.1f", yields.saleable(null)));
        values.put("saleable.15", format("%.1f", yields.saleable(15.0)));
        values.put("saleable.20", format("%.1f", yields.saleable(20.0)));
        values.put("striploinSteak", format("%.0f", yields.portion("striploin")));
        List<PublishedYields.Line> outside = yields.lines("outside.csv");
        List<PublishedYields.Line> construction = yields.lines("construction.csv");
        values.put("outside", published(outside));
        values.put("construction", published(construction));
        values.put("comparisonSources", citations(Stream.concat(outside.stream(), construction.stream())));
        for (String tissue : List.of("meat", "fat", "bone")) {
            values.put("type." + tissue, format("%+.0f", ours(construction, "type-" + tissue)));
        }
        values.put("mcgee.meat", format("%+.0f", ours(outside, "mcgee-type-meat")));
        values.put("mcgee.bone", format("%+.0f", ours(outside, "mcgee-type-bone")));
        values.put("typeOff", format("%.0f", ours(construction, "type-meat") - 62));
        values.put("mcgeeOff", format("%.0f", ours(outside, "mcgee-type-meat") - 25));
    }

    /** Of sources that the table's own list doesn't hold. */
    private static String citations(Stream<PublishedYields.Line> lines) {
        Set<String> ownList =
                ShippedTableFiles.sources().stream().map(SourceRow::source).collect(Collectors.toSet());
        Set<String> named = Stream.concat(lines.map(PublishedYields.Line::source), Stream.of("nzallometry"))
                .collect(Collectors.toSet());
        return ReferenceFigures.rows("sources.csv").stream()
                .filter(row -> named.contains(row.get("source")) && !ownList.contains(row.get("source")))
                .map(row -> "- `" + row.get("source") + "` (" + row.get("kind") + "): " + row.get("citation") + "\n")
                .collect(Collectors.joining());
    }

    private static double ours(List<PublishedYields.Line> lines, String id) {
        return lines.stream()
                .filter(line -> line.id().equals(id))
                .mapToDouble(PublishedYields.Line::ours)
                .findFirst()
                .orElseThrow();
    }

    private static String published(List<PublishedYields.Line> lines) {
        StringBuilder table = new StringBuilder();
        for (PublishedYields.Line line : lines) {
            int point = line.published().indexOf('.');
            int printed = point < 0 ? 0 : line.published().length() - point - 1;
            boolean small = Math.abs(Double.parseDouble(line.published())) < 100;
            int decimals = small && !line.unit().startsWith("of ") ? Math.max(1, printed) : printed;
            String ours = format("%." + decimals + "f", line.ours());
            table.append(format(
                    "| %s | %s | %s | %s, %s | `%s` | %s |\n",
                    line.what(),
                    (line.published() + " " + line.unit()).strip(),
                    line.agrees() ? ours : "**" + ours + "**",
                    line.n(),
                    line.cattle(),
                    line.source(),
                    line.remark()));
        }
        return table.toString();
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
