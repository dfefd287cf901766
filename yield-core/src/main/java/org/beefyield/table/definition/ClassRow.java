package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * One cell of a breakdown by class: what one child is of its parent in one conformation class and fat class, at every
 * weight. Values hold at the middle of each class; between middles they are bilinear, and linear over the outer half
 * classes.
 *
 * @param category letters of the categories it serves, such as {@code ABE}, or {@code *} for all
 * @param way name of the way, or {@code *} for all
 * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
 * @param conformation conformation class, whole ({@code R}) or a third ({@code R+}); one kind throughout a breakdown
 * @param fatClass fat class, whole ({@code 3}) or a third ({@code 3-}); one kind throughout a breakdown
 * @param cut code of the child
 * @param gPerKg g of cut per kg of parent
 * @param sdGPerKg SD of the share between carcasses of that class, g per kg of parent
 * @param shared SDs of the errors of the share that carcasses of a lot, a run and a hall have in common
 * @param source short name of the source
 * @serial exclude
 */
public record ClassRow(
        String category,
        String way,
        String parent,
        String conformation,
        String fatClass,
        String cut,
        double gPerKg,
        double sdGPerKg,
        SharedSds shared,
        String source)
        implements Serializable {
    /** Checks that nothing is missing. */
    public ClassRow {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(fatClass, "fatClass");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(shared, "shared");
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(way, "way");
    }

    /**
     * A cell that states no SDs of errors that carcasses have in common.
     *
     * @param category letters of the categories it serves, or {@code *} for all
     * @param way name of the way, or {@code *} for all
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param conformation conformation class, whole or a third
     * @param fatClass fat class, whole or a third
     * @param cut code of the child
     * @param gPerKg g of cut per kg of parent
     * @param sdGPerKg SD of the share between carcasses of that class, g per kg of parent
     * @param source short name of the source
     */
    public ClassRow(
            String category,
            String way,
            String parent,
            String conformation,
            String fatClass,
            String cut,
            double gPerKg,
            double sdGPerKg,
            String source) {
        this(category, way, parent, conformation, fatClass, cut, gPerKg, sdGPerKg, SharedSds.NOT_STATED, source);
    }

    /**
     * The same with other SDs of errors that carcasses have in common.
     *
     * @param newShared SDs
     * @return such a row
     */
    public ClassRow withShared(SharedSds newShared) {
        Objects.requireNonNull(newShared, "newShared");
        return new ClassRow(category, way, parent, conformation, fatClass, cut, gPerKg, sdGPerKg, newShared, source);
    }
}
