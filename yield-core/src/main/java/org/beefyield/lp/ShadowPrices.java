package org.beefyield.lp;

/** What it is worth to move the bounds of rows, up and down, found by solving the program anew with the bound moved. */
public final class ShadowPrices {
    private ShadowPrices() {}

    /**
     * Solves a program, whose prices can then be asked for.
     *
     * @param solver solver
     * @param program program that has a maximum
     * @return its prices
     * @throws IllegalArgumentException if the program has no maximum
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static ShadowPrices of(LinearSolver solver, LinearProgram program) {
        throw new UnsupportedOperationException();
    }

    /**
     * The maximum without any bound moved.
     *
     * @return solution
     */
    public LinearSolution solution() {
        throw new UnsupportedOperationException();
    }

    /**
     * Prices of the bound above a row; of an equation both bounds move as one. It is looked as far as the bound is large, or one
     * if that is more.
     *
     * @param row name of the row
     * @return prices up and down
     * @throws IllegalArgumentException if there is no such row or it has no bound above
     */
    public ShadowPrice high(String row) {
        throw new UnsupportedOperationException();
    }

    /**
     * Prices of the bound below a row; of an equation both bounds move as one. It is looked as far as the bound is large, or one
     * if that is more.
     *
     * @param row name of the row
     * @return prices up and down
     * @throws IllegalArgumentException if there is no such row or it has no bound below
     */
    public ShadowPrice low(String row) {
        throw new UnsupportedOperationException();
    }
}
