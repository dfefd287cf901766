package org.beefyield.grid;

/** Errors of coefficients of one breakdown in one category, as one draw for all carcasses, and where they stand. Immutable. */
final class CoefficientErrors {
    final Breakdown.CoefficientError error;

    final ClosedErrors errors;
    /** Number of the coefficients that err alike: with the same standard errors, as one draw. */
    final int set;

    final int draw;
    private final int sizeOfDraw;
    /** By child, where its own independent error stands in the draw. */
    final int[] places;

    private final int[] columns;
    private final CoefficientShares formula;
    private final int coefficients;

    CoefficientErrors(
            Breakdown.CoefficientError error,
            Breakdown breakdown,
            DrawNumbers numbers,
            CoefficientShares formula,
            int coefficients) {
        this.error = error;
        this.errors = error.errors();
        this.set = numbers.set(error);
        this.draw = numbers.draw(error);
        this.sizeOfDraw = numbers.sizeOfDraw(draw);
        this.places = numbers.placesInDraw(draw, breakdown);
        this.columns = error.columns().stream().mapToInt(Integer::intValue).toArray();
        this.formula = formula;
        this.coefficients = coefficients;
    }

    /** How many independent errors the draw has. */
    int sizeOfDraw() {
        return sizeOfDraw;
    }

    /** Number of coefficient columns that err together. */
    int columns() {
        return columns.length;
    }

    /** What a column is multiplied by at a node at the reference weight. */
    double constant(int column, int node) {
        return formula.constant(columns[column], node);
    }

    /** What it is multiplied by per 100 kg. */
    double slope(int column, int node) {
        return formula.slopeOf(columns[column], node);
    }

    /** Adds what an error of a child's coefficient does to a figure at a node, a polynomial in t. */
    void addPolynomial(int column, int node, double[] ofChildren, int child, double[] filled, int at) {
        double constant = constant(column, node);
        double slope = slope(column, node);
        for (int j = 0; j < coefficients; j++) {
            double ofChild = ofChildren[child * coefficients + j];
            filled[at + j] += constant * ofChild;
            filled[at + j + 1] += slope * ofChild;
        }
    }

    /** Coefficients of what errors of children do. */
    int coefficients() {
        return coefficients;
    }
}
