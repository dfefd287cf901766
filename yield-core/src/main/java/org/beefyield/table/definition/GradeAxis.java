package org.beefyield.table.definition;

import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.text.Checks;

/**
 * A scale of whole steps, counted from 1, on which carcasses are graded: one of the two axes on whose crossings, the nodes,
 * a table has its shares.
 *
 * @param variable what is graded
 * @param steps names of the steps in order: {@code P-}, {@code P=} and so on
 */
public record GradeAxis(Variable variable, List<String> steps) {
    /** The first step of every axis. */
    public static final int FIRST = 1;

    /** Conformation in thirds of the EU's classes. */
    public static final GradeAxis CONFORMATION = new GradeAxis(
            Variable.CONFORMATION,
            Conformation.thirds().stream().map(Conformation::toString).toList());

    /** Fat in thirds of the EU's classes. */
    public static final GradeAxis FAT = new GradeAxis(
            Variable.FAT, FatClass.thirds().stream().map(FatClass::toString).toList());

    /**
     * Copies the names.
     *
     * @throws IllegalArgumentException if there is none
     */
    public GradeAxis {
        Checks.noNullIn(steps, "steps");
        Objects.requireNonNull(variable, "variable");
        if (steps.isEmpty()) {
            throw new IllegalArgumentException("an axis has a step or more");
        }
        steps = List.copyOf(steps);
    }

    /**
     * The last step.
     *
     * @return number of steps
     */
    public int last() {
        return steps.size();
    }

    /**
     * The whole scale.
     *
     * @return from the first step to the last
     */
    public Range range() {
        return new Range(FIRST, last());
    }

    /**
     * Name of a step.
     *
     * @param step from the first to the last
     * @return such as {@code E+}
     * @throws IndexOutOfBoundsException if there is no such step
     */
    public String step(int step) {
        return steps.get(step - FIRST);
    }
}
