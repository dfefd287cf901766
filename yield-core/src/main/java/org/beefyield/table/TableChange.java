package org.beefyield.table;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.text.Numbers;

/**
 * Something in which two tables differ beside the shares of their cuts.
 *
 * @param kind what sort of thing it is
 * @param what where it stands, such as {@code striploin of meat}
 * @param before what the first table has, in words; empty where the kind says it all
 * @param after what the second table has, in words; empty where the kind says it all
 * @param size how much it changed, in the unit of its kind, above 0; infinite where there is nothing to measure
 */
public record TableChange(Kind kind, String what, String before, String after, double size) {
    /**
     * Checks that nothing is missing.
     *
     * @throws IllegalArgumentException if the size isn't above 0
     */
    public TableChange {
        Objects.requireNonNull(after, "after");
        Objects.requireNonNull(before, "before");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(what, "what");
        if (!(size > 0)) {
            throw new IllegalArgumentException("a change has a size above 0, or infinite, not " + size);
        }
    }

    /** What may change in a table beside the shares of its cuts. */
    public enum Kind {
        /** What the second table alone has: categories, levels, cuts, specifications, ways. */
        ADDITIONS("What is new", ""),
        /** SDs between carcasses; per cent of the SD before. */
        SDS("SDs between carcasses", "%"),
        /** SDs of the errors that lots, runs and halls have in common; per cent of the SD before. */
        SHARED_SDS("SDs of lots, runs and halls", "%"),
        /** Standard errors of coefficients and the names of their errors; per cent of the error before. */
        STANDARD_ERRORS("Standard errors of coefficients", "%"),
        /** Covariances between carcasses, as correlations, and of coefficients; change of a correlation, 0 to 2. */
        COVARIANCES("Covariances", "of correlation"),
        /** Residual degrees of freedom; per cent of those before. */
        DEGREES_OF_FREEDOM("Degrees of freedom", "%"),
        /** Fat contents of cuts, on which mince hangs; points of per cent. */
        FAT_CONTENTS("Fat contents", "points"),
        /** Pieces of a cut in a side; per cent of those before. */
        PIECES("Pieces", "%"),
        /** SDs of one side's piece; points of per cent. */
        SIDE_DIFFERENCES("Differences between sides", "points"),
        /** The width of a class in which the SDs were found; points of the scale. */
        WIDTH_FIT("Width of the grades behind the SDs", "points"),
        /** The default specification, the order of specifications and what they cut in which way. */
        SPECIFICATIONS("Cutting specifications", ""),
        /** Parts of cuts in the forequarter; points of per cent. */
        QUARTERINGS("Quarterings", "points"),
        /** The fitted range, and an allowed range that is wider. */
        RANGES("Ranges", ""),
        /** What the table promises of itself. */
        EXPECTATIONS("Promises", ""),
        /** How the carcasses behind the table were handled. */
        BASIS("Basis", ""),
        /** The order of levels, and the level at which a cut first stands. */
        LEVELS("Levels", ""),
        /** What sort of thing a cut is. */
        CUT_KINDS("Kinds of cuts", ""),
        /** Names of cuts, in any language. */
        NAMES("Names of cuts", ""),
        /** Notes on cuts, promises and sources. */
        NOTES("Notes", ""),
        /** Item numbers of a standard. */
        CODES("Item numbers", ""),
        /** The order in which cuts are printed. */
        ORDER("Order of cuts", ""),
        /** Which source a figure names, and how solid that source is. */
        SOURCES("Sources", ""),
        /** Citations of sources, and sources that one table alone lists. */
        CITATIONS("Citations", ""),
        /** Columns of the caller's own and what stands in them. */
        COLUMNS("Further columns", ""),
        /** Licences. */
        LICENCES("Licences", ""),
        /** Title, description and provenance, which a new edition always changes: a budget allows it unless told otherwise. */
        DESCRIPTION("Description", "");

        private final String heading;
        private final String unit;

        Kind(String heading, String unit) {
            this.heading = heading;
            this.unit = unit;
        }

        /**
         * The name used in options.
         *
         * @return such as {@code fat-contents}
         */
        public String code() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        /**
         * The name for people.
         *
         * @return such as {@code Fat contents}
         */
        public String heading() {
            return heading;
        }

        /**
         * The unit in which it is measured.
         *
         * @return such as {@code %}, empty if it either changes or doesn't
         */
        public String unit() {
            return unit;
        }

        /**
         * Reads the name used in options.
         *
         * @param code such as {@code fat-contents}
         * @return the kind
         * @throws IllegalArgumentException if there is none of that name
         */
        public static Kind parse(String code) {
            Objects.requireNonNull(code, "code");
            for (Kind kind : values()) {
                if (kind.code().equals(code)) {
                    return kind;
                }
            }
            throw new IllegalArgumentException("no kind of change \"" + code + "\"; kinds: "
                    + Arrays.stream(values()).map(Kind::code).collect(Collectors.joining(", ")));
        }
    }

    /**
     * The change in words.
     *
     * @return such as {@code striploin of meat: 4 g/kg, now 8 g/kg (100 %)}
     */
    public String words() {
        return what
                + (before.isEmpty() && after.isEmpty() ? "" : ": " + before + ", now " + after)
                + (kind.unit().isEmpty() || Double.isInfinite(size)
                        ? ""
                        : " (" + Numbers.visible(size) + " " + kind.unit() + ")");
    }
}
