package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * A covariance of two errors of one breakdown, as a calibrated table states them: of two children between carcasses of one
 * grade, or of two coefficients. Each pair stands once, in either order, a child or coefficient with itself too.
 *
 * @param category category letters or {@code *}
 * @param way way or {@code *}
 * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
 * @param cut code of a child
 * @param term column of its coefficient; empty between carcasses
 * @param otherCut code of a child, the same one or another
 * @param otherTerm column of its coefficient; empty between carcasses
 * @param value covariance, g per kg of parent squared, of coefficients per unit of their columns
 * @serial exclude
 */
public record CovarianceRow(
        String category,
        String way,
        String parent,
        String cut,
        String term,
        String otherCut,
        String otherTerm,
        double value)
        implements Serializable {
    /** Checks that nothing is missing. */
    public CovarianceRow {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(otherCut, "otherCut");
        Objects.requireNonNull(otherTerm, "otherTerm");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(term, "term");
        Objects.requireNonNull(way, "way");
    }

    /**
     * A covariance of two children between carcasses of one grade, in every category and way.
     *
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param cut code of a child
     * @param otherCut code of a child, the same one or another
     * @param value covariance, g per kg of parent squared
     * @return the row
     */
    public static CovarianceRow residual(String parent, String cut, String otherCut, double value) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(otherCut, "otherCut");
        Objects.requireNonNull(parent, "parent");
        return new CovarianceRow(BreakdownRow.ANY, BreakdownRow.ANY, parent, cut, "", otherCut, "", value);
    }

    /**
     * Whether it is between carcasses, not of coefficients.
     *
     * @return true if it names no term
     */
    public boolean isResidual() {
        return term.isEmpty() && otherTerm.isEmpty();
    }

    /**
     * The resource that it stands in.
     *
     * @return that of covariances between carcasses or of coefficients
     */
    public TableSchema resource() {
        return isResidual() ? TableSchema.RESIDUAL_COVARIANCE : TableSchema.COEFFICIENT_COVARIANCE;
    }
}
