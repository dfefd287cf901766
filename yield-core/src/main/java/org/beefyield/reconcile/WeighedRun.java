package org.beefyield.reconcile;

import java.util.List;
import java.util.Objects;
import org.beefyield.boning.RunBalance;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.text.Checks;

/**
 * What a run boned, what that should return and what was weighed of it, for those who learn from runs.
 *
 * @param name name of the run
 * @param day its day
 * @param balance what went in and what came of it
 * @param pieces the carcasses of which it boned something
 * @param expected what exactly they should return, by their cold weight
 * @param lines by the smallest groups of products that can be told apart, what was weighed
 */
public record WeighedRun(
        String name, String day, RunBalance balance, List<Piece> pieces, PartEstimate expected, List<Line> lines) {
    private static final double G_PER_KG = 1000;

    /**
     * A carcass of which something was boned.
     *
     * @param carcass the carcass, with hall and day of the run
     * @param part what of it
     */
    public record Piece(Carcass carcass, CarcassPart part) {
        /** Checks that nothing is missing. */
        public Piece {
            Objects.requireNonNull(carcass, "carcass");
            Objects.requireNonNull(part, "part");
        }
    }

    /**
     * What was weighed of a group.
     *
     * @param group the group
     * @param figure what is expected of it, a figure of the run's estimate
     * @param weighedKg what was weighed, kg; 0 if nothing was
     */
    public record Line(ProductGroup group, Figure figure, double weighedKg) {
        /**
         * Checks that nothing is missing.
         *
         * @throws IllegalArgumentException if the weight is below 0
         */
        public Line {
            Objects.requireNonNull(group, "group");
            Objects.requireNonNull(figure, "figure");
            Checks.notNegative(group.name() + ": weighed, kg", weighedKg);
        }
    }

    /** Checks that nothing is missing and copies the lists. */
    public WeighedRun {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(day, "day");
        Objects.requireNonNull(balance, "balance");
        Objects.requireNonNull(expected, "expected");
        Checks.noNullIn(pieces, "pieces");
        Checks.noNullIn(lines, "lines");
        pieces = List.copyOf(pieces);
        lines = List.copyOf(lines);
    }

    /**
     * The hall's own weight of what was boned.
     *
     * @return kg
     */
    public double intakeKg() {
        return balance.bonedG() / G_PER_KG;
    }
}
