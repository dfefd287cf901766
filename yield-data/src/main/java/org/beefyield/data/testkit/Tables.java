package org.beefyield.data.testkit;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.beefyield.table.definition.TableDefinition;

/**
 * Random tables that are valid by construction: every breakdown closes, no share falls below 0 anywhere in the allowed
 * range, and what a table expects of itself holds.
 *
 * <p>They differ in all that a definition has: levels, children and the order of these, cuts that come from several
 * parents, ways and cutting specifications, categories with rows of their own, ranges down to a single grade or weight,
 * terms, weight in up to three levels, rounded and exact figures, SDs of errors in common, quarterings, notes with and without
 * names of errors, names and extra columns. A failing
 * table shrinks towards one level, one child and the default seed. Their figures mean nothing.
 */
public final class Tables {
    /** Most levels of a table of {@link #definitions()}. */
    public static final int MOST_LEVELS = 5;

    /** Most children of a breakdown of {@link #definitions()}. */
    public static final int MOST_CHILDREN = 12;

    private Tables() {}

    /** How breakdowns are given. */
    public enum Form {
        /** All by coefficients. */
        COEFFICIENTS(0),
        /** All by class, whole or in thirds. */
        BY_CLASS(1),
        /** Some one way, some the other. */
        MIXED(0.3);

        private final double partByClass;

        Form(double partByClass) {
            this.partByClass = partByClass;
        }
    }

    /**
     * Tables of every form and any size up to {@value #MOST_LEVELS} levels and {@value #MOST_CHILDREN} children.
     *
     * @return definitions that {@link org.beefyield.table.YieldTable#of(TableDefinition)} accepts
     */
    public static Arbitrary<TableDefinition> definitions() {
        return Arbitraries.of(Form.class).flatMap(form -> definitions(form, MOST_LEVELS, MOST_CHILDREN));
    }

    /**
     * Tables of one form and limited size.
     *
     * @param form how breakdowns are given
     * @param mostLevels 1 to {@value #MOST_LEVELS}
     * @param mostChildren most children of a breakdown, 1 or more
     * @return definitions that {@link org.beefyield.table.YieldTable#of(TableDefinition)} accepts
     * @throws IllegalArgumentException if a size is outside its range
     */
    public static Arbitrary<TableDefinition> definitions(Form form, int mostLevels, int mostChildren) {
        if (mostLevels < 1 || mostLevels > MOST_LEVELS) {
            throw new IllegalArgumentException(mostLevels + " levels are outside 1 to " + MOST_LEVELS);
        }
        if (mostChildren < 1) {
            throw new IllegalArgumentException(mostChildren + " children are below 1");
        }
        return Combinators.combine(
                        Arbitraries.integers().between(1, mostLevels),
                        Arbitraries.integers().between(1, mostChildren),
                        Arbitraries.longs())
                .as((levels, children, seed) -> new TableMaker(form.partByClass, levels, children, seed).make());
    }
}
