package org.beefyield.table.definition;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.beefyield.cut.Cut;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * A column that a resource of a table has of its own: what stands in it, in files, in messages and in what a digest is
 * taken over. {@link TableSchema} says which resource has which.
 *
 * @param name name in files and messages
 * @param content what its cells hold
 * @param isKey whether it is part of what no two rows of the resource share
 * @param isRequired whether every row has something in it
 * @param mayBeMissing whether a table that states nothing in it has the resource without it
 * @param least least number that is valid, or null if there is no bound that holds for every table
 * @param most greatest number that is valid, or null if there is no bound
 * @param words words that are valid, empty if any text may be
 */
public record TableColumn(
        String name,
        Content content,
        boolean isKey,
        boolean isRequired,
        boolean mayBeMissing,
        @Nullable Integer least,
        @Nullable Integer most,
        List<String> words) {
    /** Code of a cut. */
    public static final String CUT = "cut";

    /** Name of a cut for people. */
    public static final String NAME = "name";

    /** Name of a level. */
    public static final String LEVEL = "level";

    /** Kind of a cut or of a source. */
    public static final String KIND = "kind";

    /** Pieces of a cut in one side. */
    public static final String PIECES_PER_SIDE = Cut.PIECES_PER_SIDE;

    /** SD of one side's piece, per cent. */
    public static final String SIDE_SPLIT_SD_PCT = Cut.SIDE_SPLIT_SD_PCT;

    /** Fat content, per cent by weight. */
    public static final String FAT_PCT = Cut.FAT_PCT;

    /** Item numbers of the UNECE standard. */
    public static final String UNECE = "unece";

    /** Anything to add. */
    public static final String NOTE = "note";

    /** Letters of categories, or {@value BreakdownRow#ANY}. */
    public static final String CATEGORY = "category";

    /** Name of a way, or {@value BreakdownRow#ANY}. */
    public static final String WAY = "way";

    /** Code of the cut that is broken down, or {@value BreakdownRow#ROOT}. */
    public static final String PARENT = "parent";

    /** Level of a share, g per kg of parent. */
    public static final String LEVEL_G_PER_KG = "level_g_per_kg";

    /** Change of a share per conformation point, g per kg. */
    public static final String PER_CONFORMATION_POINT = "per_conformation_point";

    /** Change of a share per fat point, g per kg. */
    public static final String PER_FAT_POINT = "per_fat_point";

    /** Change of a share per 100 kg of cold weight, g per kg. */
    public static final String PER_100_KG = "per_100kg";

    /** SD between carcasses of one grade, g per kg of parent. */
    public static final String SD_G_PER_KG = "sd_g_per_kg";

    /** SD between lots, g per kg of parent. */
    public static final String LOT_SD_G_PER_KG = "lot_sd_g_per_kg";

    /** SD between runs of one hall, g per kg of parent. */
    public static final String RUN_SD_G_PER_KG = "run_sd_g_per_kg";

    /** SD between halls, g per kg of parent. */
    public static final String HALL_SD_G_PER_KG = "hall_sd_g_per_kg";

    /** Name of an error of coefficients. */
    public static final String ERROR_ID = "error_id";

    /** Short name of a source. */
    public static final String SOURCE = "source";

    /** Conformation class, whole or a third. */
    public static final String CONFORMATION = "conformation";

    /** Fat class, whole or a third. */
    public static final String FAT_CLASS = "fat_class";

    /** Share in one class, g per kg of parent. */
    public static final String G_PER_KG = "g_per_kg";

    /** Name of a cutting specification. */
    public static final String SPECIFICATION = "specification";

    /** Name of a quartering. */
    public static final String QUARTERING = "quartering";

    /** Fraction of a cut in the forequarter. */
    public static final String FORE_SHARE = "fore_share";

    /** Column of a coefficient. */
    public static final String TERM = "term";

    /** Standard error of a coefficient, in its unit. */
    public static final String STANDARD_ERROR = "standard_error";

    /** Code of the second cut of a pair. */
    public static final String OTHER_CUT = "other_cut";

    /** Column of the second coefficient of a pair. */
    public static final String OTHER_TERM = "other_term";

    /** A covariance, (g/kg) squared. */
    public static final String VALUE = "value";

    /** What a share depends on. */
    public static final String VARIABLE = "variable";

    /** Whether a share rises or falls. */
    public static final String DIRECTION = "direction";

    /** Whether standing still is a failure. */
    public static final String STRICT = "strict";

    /** The range that an expectation is about. */
    public static final String OVER = "over";

    /** A language. */
    public static final String LANGUAGE = "language";

    /** The citation of a source. */
    public static final String CITATION = "citation";

    /** What cells hold. */
    public enum Content {
        /** A name, a code or one of a few words. */
        NAME("string"),
        /** A text for people. */
        FREE_TEXT("string"),
        /** The code of a cut, which {@link TableSchema#CUTS} has. */
        CUT("string"),
        /** The name of a source, which {@link TableSchema#SOURCES} has. */
        SOURCE("string"),
        /** One of the levels that the table declares. */
        LEVEL("string"),
        /** A number. */
        NUMBER("number"),
        /** A coefficient of a breakdown, a number; those of the table's terms stand behind the last of these. */
        COEFFICIENT("number"),
        /** True or false. */
        FLAG("boolean");

        private final String type;

        Content(String type) {
            this.type = type;
        }

        /**
         * The type that a descriptor declares.
         *
         * @return string, number or boolean
         */
        public String type() {
            return type;
        }
    }

    /** Copies the words. */
    public TableColumn {
        Objects.requireNonNull(content, "content");
        Checks.noNullIn(words, "words");
        Objects.requireNonNull(name, "name");
        words = List.copyOf(words);
    }

    /**
     * The column of SDs of errors that carcasses have in common.
     *
     * @param shared what they have in common
     * @return name of the column
     */
    public static String sharedSd(SharedBy shared) {
        return switch (Objects.requireNonNull(shared, "shared")) {
            case LOT -> LOT_SD_G_PER_KG;
            case RUN -> RUN_SD_G_PER_KG;
            case HALL -> HALL_SD_G_PER_KG;
        };
    }

    static TableColumn of(String name, Content content) {
        return new TableColumn(name, content, false, true, false, null, null, List.of());
    }

    static TableColumn name(String name) {
        return of(name, Content.NAME);
    }

    static TableColumn oneOf(String name, Stream<String> words) {
        return new TableColumn(name, Content.NAME, false, true, false, null, null, words.toList());
    }

    static TableColumn number(String name) {
        return of(name, Content.NUMBER);
    }

    TableColumn key() {
        return new TableColumn(name, content, true, isRequired, mayBeMissing, least, most, words);
    }

    TableColumn optional() {
        return new TableColumn(name, content, isKey, false, mayBeMissing, least, most, words);
    }

    TableColumn missing() {
        return new TableColumn(name, content, isKey, isRequired, true, least, most, words);
    }

    TableColumn from(int low) {
        return new TableColumn(name, content, isKey, isRequired, mayBeMissing, low, most, words);
    }

    TableColumn to(int high) {
        return new TableColumn(name, content, isKey, isRequired, mayBeMissing, least, high, words);
    }
}
