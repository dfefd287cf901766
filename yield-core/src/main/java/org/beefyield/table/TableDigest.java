package org.beefyield.table;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.TreeMap;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * SHA-256 over the canonical bytes of a definition: every key and every row as text, each cell with its length in
 * front, so that no two definitions write the same bytes. The rows of parts whose order means nothing are sorted, so
 * that the digest doesn't depend on it. Metadata change no figure and are left out.
 */
final class TableDigest {
    private final StringBuilder text = new StringBuilder();

    private TableDigest() {}

    static String of(TableDefinition definition) {
        TableDigest digest = new TableDigest();
        digest.write(definition);
        try {
            return HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256")
                            .digest(digest.text.toString().getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    private void write(TableDefinition definition) {
        line("name", definition.name());
        line("version", definition.version());
        line("title", definition.title());
        line("description", definition.description());
        definition.licenses().forEach(license -> line("license", license.name(), license.path(), license.title()));
        line("levels", definition.levels().toArray(String[]::new));
        ReferencePoint reference = definition.reference();
        line("reference", number(reference.conformation()), number(reference.fat()), number(reference.weightKg()));
        range("fitted", definition.fitted());
        range("allowed", definition.allowed());
        line("width_fit", number(definition.widthFit()));
        if (definition.residualDegreesOfFreedom() != null) {
            line("residual_degrees_of_freedom", stated(definition.residualDegreesOfFreedom()));
        }
        if (definition.runDegreesOfFreedom() != null) {
            line("run_degrees_of_freedom", stated(definition.runDegreesOfFreedom()));
        }
        definition.terms().forEach(this::term);
        line(
                "categories",
                definition.categories().stream().map(Object::toString).sorted().toArray(String[]::new));
        Basis basis = definition.basis();
        line(
                "basis",
                stated(basis.quartering()),
                stated(basis.hanging()),
                stated(basis.fatCoverMm()),
                stated(basis.ageingDays()),
                stated(basis.boneless()));
        new TreeMap<>(definition.decimals())
                .forEach((column, places) -> line("decimals", column, Integer.toString(places)));
        definition.extraColumns().stream()
                .sorted(Comparator.comparing(ExtraColumn::resource).thenComparing(ExtraColumn::column))
                .forEach(extra -> line("extra column", extra.resource(), extra.column(), extra.type()));
        definition.provenance().forEach(origin -> line("provenance", origin.part(), origin.from()));
        for (TableResource resource : definition.resources()) {
            line(resource.name(), resource.columns().toArray(String[]::new));
            List<String> rows = new ArrayList<>();
            for (List<String> row : resource.rows()) {
                rows.add(cells(row));
            }
            if (!resource.schema().isOrdered()) {
                rows.sort(null);
            }
            rows.forEach(text::append);
        }
    }

    private void term(Term term) {
        if (term instanceof Term.Product product) {
            line(
                    "product",
                    product.column(),
                    product.first().code(),
                    product.second().code());
        } else if (term instanceof Term.Hinge hinge) {
            line("hinge", hinge.column(), hinge.variable().code(), hinge.side().name(), Integer.toString(hinge.knot()));
        }
    }

    private static String stated(@Nullable Object value) {
        // an empty cell is not stated; a text has a mark in front that a number or an empty cell doesn't
        return value instanceof Double number ? number(number) : value == null ? "" : "=" + value;
    }

    private void range(String key, TableRange range) {
        for (Variable variable : Variable.values()) {
            Range one = range.of(variable);
            line(key, variable.code(), number(one.low()), number(one.high()));
        }
    }

    private void line(String key, String... cells) {
        text.append(cells(List.of(key))).append(cells(List.of(cells)));
    }

    private static String cells(List<String> cells) {
        StringBuilder line = new StringBuilder();
        for (String cell : cells) {
            line.append(cell.length()).append(':').append(cell);
        }
        return line.append('\n').toString();
    }

    private static String number(double value) {
        return Numbers.exact(value);
    }
}
