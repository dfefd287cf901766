package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.table.TableProblem;
import org.beefyield.table.definition.TableRange;
import org.jspecify.annotations.Nullable;

/**
 * What keeps a calibrated table from holding, and what would help.
 *
 * @param problems what the proof found, none if the table holds as it is
 * @param allowed the widest of some allowed ranges between the trials' and the prior's over which it holds, for
 *     {@link Calibrated#withAllowedRange}; null if it holds as it is or none helps
 * @param strength the least of {@link Calibration#STRENGTHS} with which it holds over the whole range, for
 *     {@link Calibration#withStrength}; null if it holds as it is or none helps
 */
public record Offer(
        List<TableProblem> problems,
        @Nullable TableRange allowed,
        @Nullable Double strength) {
    private static final int LISTED = 5;

    /**
     * Copies the problems.
     *
     * @param problems what the proof found, none if the table holds as it is
     * @param allowed an allowed range over which it holds, or null
     * @param strength a strength with which it holds, or null
     */
    public Offer {
        problems = List.copyOf(problems);
    }

    /**
     * The offer in words.
     *
     * @return lines
     */
    @Override
    public String toString() {
        if (problems.isEmpty()) {
            return "the table holds as it is\n";
        }
        List<String> lines = new ArrayList<>();
        lines.add("the table does not hold:");
        problems.stream().limit(LISTED).forEach(problem -> lines.add("  " + problem));
        if (problems.size() > LISTED) {
            lines.add("  and " + (problems.size() - LISTED) + " more");
        }
        if (allowed != null) {
            lines.add("it holds over a narrower allowed range: conformation " + allowed.conformation() + ", fat "
                    + allowed.fat() + ", " + allowed.weightKg() + " kg");
        }
        if (strength != null) {
            lines.add("it holds over the whole range if shrunk towards the prior table with the strength of "
                    + Report.number(strength) + " carcasses");
        }
        if (allowed == null && strength == null) {
            lines.add("neither a narrower range nor more shrinkage helps; look at the trials and the expectations");
        }
        return String.join("\n", lines) + "\n";
    }
}
