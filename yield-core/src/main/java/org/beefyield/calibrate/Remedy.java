package org.beefyield.calibrate;

import java.util.List;
import org.beefyield.table.TableProblem;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;
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
public record Remedy(
        List<TableProblem> problems,
        @Nullable TableRange allowed,
        @Nullable Double strength) {
    /**
     * Copies the problems.
     *
     * @throws IllegalArgumentException if the strength is below 0 or not finite
     */
    public Remedy {
        Checks.noNullIn(problems, "problems");
        if (strength != null) {
            Checks.notNegative("strength, carcasses", strength);
        }
        problems = List.copyOf(problems);
    }

    /**
     * It in words.
     *
     * @return lines
     */
    @Override
    public String toString() {
        return RemedyText.of(this);
    }
}
