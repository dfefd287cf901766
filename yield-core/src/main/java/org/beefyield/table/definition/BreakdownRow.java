package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * One child of a breakdown as written down.
 *
 * @param category letters of the categories it serves, such as {@code ABE}, or {@code *} for all
 * @param way name of the way, or {@code *} for all
 * @param parent code of the cut that is broken down, or {@value #ROOT}
 * @param cut code of the child
 * @param coefficients g of cut per kg of parent: level, per conformation point, per fat point, per 100 kg, then one for
 *     each {@link Term} of the table in its order
 * @param sdGPerKg SD of the share between carcasses of one grade, g per kg of parent
 * @param shared SDs of the errors of the share that carcasses of a lot, a run and a hall have in common
 * @param source short name of the source
 * @serial exclude
 */
public record BreakdownRow(
        String category,
        String way,
        String parent,
        String cut,
        List<Double> coefficients,
        double sdGPerKg,
        SharedSds shared,
        String source)
        implements Serializable {
    /** The parent of the first level: the carcass itself. */
    public static final String ROOT = "carcass";

    /** Stands for every category or every way. */
    public static final String ANY = "*";

    /** Columns of the coefficients that every table has, in order; those of its terms follow. */
    public static final List<String> PLAIN_COLUMNS = TableSchema.BREAKDOWN.columns(List.of()).stream()
            .filter(column -> column.content() == TableColumn.Content.COEFFICIENT)
            .map(TableColumn::name)
            .toList();

    /** Copies the coefficients. */
    public BreakdownRow {
        Objects.requireNonNull(category, "category");
        Checks.noNullIn(coefficients, "coefficients");
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(shared, "shared");
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(way, "way");
        coefficients = List.copyOf(coefficients);
    }

    /**
     * A row that states no SDs of errors that carcasses have in common.
     *
     * @param category letters of the categories it serves, or {@code *} for all
     * @param way name of the way, or {@code *} for all
     * @param parent code of the cut that is broken down, or {@value #ROOT}
     * @param cut code of the child
     * @param coefficients g of cut per kg of parent, as the record's
     * @param sdGPerKg SD of the share between carcasses of one grade, g per kg of parent
     * @param source short name of the source
     */
    public BreakdownRow(
            String category,
            String way,
            String parent,
            String cut,
            List<Double> coefficients,
            double sdGPerKg,
            String source) {
        this(category, way, parent, cut, coefficients, sdGPerKg, SharedSds.NOT_STATED, source);
    }

    /**
     * The same with other SDs of errors that carcasses have in common.
     *
     * @param newShared SDs
     * @return such a row
     */
    public BreakdownRow withShared(SharedSds newShared) {
        Objects.requireNonNull(newShared, "newShared");
        return new BreakdownRow(category, way, parent, cut, coefficients, sdGPerKg, newShared, source);
    }
}
