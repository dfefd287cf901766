package org.beefyield.benchmarks.coverage;

/**
 * How the world errs: by how much each kind of error exceeds what is declared, 0 for one that there isn't.
 *
 * @param carcass factor of what single carcasses of one grade differ by
 * @param grade 1 if the position inside a grade as written is drawn, 0 if it is the grade's middle
 * @param lot factor of the errors of lots
 * @param run factor of the errors of runs
 * @param hall factor of the errors of halls
 * @param table factor of the errors of coefficients
 * @param repeatability factor of the scale's error of each carcass
 * @param bias factor of the scale's error of each run
 * @param heavyTails whether errors have Student's distribution with 4 degrees of freedom, of the same SD, and not the normal
 */
public record Nature(
        double carcass,
        double grade,
        double lot,
        double run,
        double hall,
        double table,
        double repeatability,
        double bias,
        boolean heavyTails) {
    /** As the table and the scale are declared. */
    public static final Nature AS_DECLARED = new Nature(1, 1, 1, 1, 1, 1, 1, 1, false);

    /** A hall that cuts as the table does. */
    Nature inOwnHall() {
        return new Nature(carcass, grade, lot, run, 0, table, repeatability, bias, heavyTails);
    }

    /** Nothing but what doesn't average out over many lots and runs. */
    Nature expectation() {
        return new Nature(0, 0, 0, 0, hall, table, 0, bias, heavyTails);
    }

    Nature withRun(double factor) {
        return new Nature(carcass, grade, lot, factor, hall, table, repeatability, bias, heavyTails);
    }

    Nature withHeavyTails() {
        return new Nature(carcass, grade, lot, run, hall, table, repeatability, bias, true);
    }
}
