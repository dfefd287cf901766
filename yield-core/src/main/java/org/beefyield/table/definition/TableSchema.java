package org.beefyield.table.definition;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.TableColumn.Content;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * The resources of a table and the columns of each, in the order in which they are written: what reading, writing,
 * checking, digests and messages go by. Nothing of it is said anywhere else.
 */
// lists that nobody can change
@SuppressWarnings("ImmutableEnumChecker")
public enum TableSchema {
    /** The cuts, in printing order. */
    CUTS(
            "cuts",
            TableColumn.name(TableColumn.CUT).key(),
            TableColumn.of(TableColumn.NAME, Content.FREE_TEXT),
            TableColumn.of(TableColumn.LEVEL, Content.LEVEL),
            TableColumn.oneOf(TableColumn.KIND, Arrays.stream(CutKind.values()).map(CutKind::code)),
            TableColumn.number(TableColumn.PIECES_PER_SIDE).optional(),
            TableColumn.number(TableColumn.SIDE_SPLIT_SD_PCT).optional().from(0),
            TableColumn.number(TableColumn.FAT_PCT).optional().from(0).to(100),
            TableColumn.of(TableColumn.UNECE, Content.FREE_TEXT).optional(),
            TableColumn.of(TableColumn.NOTE, Content.FREE_TEXT).optional()),

    /** Breakdowns by coefficients, with a further column for each term of the table. */
    BREAKDOWN(
            "breakdown",
            TableColumn.name(TableColumn.CATEGORY).key(),
            TableColumn.name(TableColumn.WAY).key(),
            TableColumn.name(TableColumn.PARENT).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.of(TableColumn.LEVEL_G_PER_KG, Content.COEFFICIENT).from(0),
            TableColumn.of(TableColumn.PER_CONFORMATION_POINT, Content.COEFFICIENT),
            TableColumn.of(TableColumn.PER_FAT_POINT, Content.COEFFICIENT),
            TableColumn.of(TableColumn.PER_100_KG, Content.COEFFICIENT),
            TableColumn.number(TableColumn.SD_G_PER_KG).from(0),
            TableColumn.number(TableColumn.LOT_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.number(TableColumn.RUN_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.number(TableColumn.HALL_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.of(TableColumn.SOURCE, Content.SOURCE)),

    /** Breakdowns by class. */
    BREAKDOWN_BY_CLASS(
            "breakdown-by-class",
            TableColumn.name(TableColumn.CATEGORY).key(),
            TableColumn.name(TableColumn.WAY).key(),
            TableColumn.name(TableColumn.PARENT).key(),
            TableColumn.name(TableColumn.CONFORMATION).key(),
            TableColumn.name(TableColumn.FAT_CLASS).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.number(TableColumn.G_PER_KG).from(0),
            TableColumn.number(TableColumn.SD_G_PER_KG).from(0),
            TableColumn.number(TableColumn.LOT_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.number(TableColumn.RUN_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.number(TableColumn.HALL_SD_G_PER_KG).missing().from(0).to(1000),
            TableColumn.of(TableColumn.SOURCE, Content.SOURCE)),

    /** Cutting specifications, the one first that is used when none is chosen. */
    SPECIFICATIONS(
            "specifications",
            TableColumn.name(TableColumn.SPECIFICATION).key(),
            TableColumn.of(TableColumn.PARENT, Content.CUT).key(),
            TableColumn.name(TableColumn.WAY)),

    /** Quarterings. */
    QUARTERING(
            "quartering",
            TableColumn.name(TableColumn.QUARTERING).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.number(TableColumn.FORE_SHARE).from(0).to(1),
            TableColumn.of(TableColumn.SOURCE, Content.SOURCE)),

    /** Notes on single coefficients. */
    COEFFICIENT_NOTES(
            "coefficient-notes",
            TableColumn.name(TableColumn.CATEGORY).key(),
            TableColumn.name(TableColumn.WAY).key(),
            TableColumn.name(TableColumn.PARENT).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.name(TableColumn.TERM).key(),
            TableColumn.number(TableColumn.STANDARD_ERROR).optional().from(0),
            TableColumn.name(TableColumn.ERROR_ID).key().optional().missing(),
            TableColumn.of(TableColumn.SOURCE, Content.SOURCE)),

    /** Covariances of errors between carcasses. */
    RESIDUAL_COVARIANCE(
            "residual-covariance",
            TableColumn.name(TableColumn.CATEGORY).key(),
            TableColumn.name(TableColumn.WAY).key(),
            TableColumn.name(TableColumn.PARENT).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.of(TableColumn.OTHER_CUT, Content.CUT).key(),
            TableColumn.number(TableColumn.VALUE)),

    /** Covariances of errors of coefficients. */
    COEFFICIENT_COVARIANCE(
            "coefficient-covariance",
            TableColumn.name(TableColumn.CATEGORY).key(),
            TableColumn.name(TableColumn.WAY).key(),
            TableColumn.name(TableColumn.PARENT).key(),
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.name(TableColumn.TERM).key(),
            TableColumn.of(TableColumn.OTHER_CUT, Content.CUT).key(),
            TableColumn.name(TableColumn.OTHER_TERM).key(),
            TableColumn.number(TableColumn.VALUE)),

    /** Promises of the table about itself, each about a cut or a kind. */
    EXPECTATIONS(
            "expectations",
            TableColumn.of(TableColumn.CUT, Content.CUT).optional(),
            TableColumn.oneOf(TableColumn.KIND, Arrays.stream(CutKind.values()).map(CutKind::code))
                    .optional(),
            TableColumn.of(TableColumn.LEVEL, Content.LEVEL),
            TableColumn.oneOf(
                    TableColumn.VARIABLE, Arrays.stream(Variable.values()).map(TableSchema::word)),
            TableColumn.oneOf(
                    TableColumn.DIRECTION,
                    Arrays.stream(Expectation.Direction.values()).map(TableSchema::word)),
            TableColumn.of(TableColumn.STRICT, Content.FLAG),
            TableColumn.oneOf(
                    TableColumn.OVER, Arrays.stream(Expectation.Over.values()).map(TableSchema::word)),
            TableColumn.of(TableColumn.NOTE, Content.FREE_TEXT).optional()),

    /** Names of cuts in other languages. */
    NAMES(
            "names",
            TableColumn.of(TableColumn.CUT, Content.CUT).key(),
            TableColumn.name(TableColumn.LANGUAGE).key(),
            TableColumn.of(TableColumn.NAME, Content.FREE_TEXT)),

    /** Sources that rows refer to. */
    SOURCES(
            "sources",
            TableColumn.name(TableColumn.SOURCE).key(),
            TableColumn.oneOf(
                    TableColumn.KIND, Arrays.stream(SourceKind.values()).map(SourceKind::code)),
            TableColumn.of(TableColumn.CITATION, Content.FREE_TEXT),
            TableColumn.of(TableColumn.NOTE, Content.FREE_TEXT).optional());

    private final String code;
    private final List<TableColumn> columns;

    TableSchema(String code, TableColumn... columns) {
        this.code = code;
        this.columns = List.of(columns);
    }

    /**
     * The name of the resource in files and messages.
     *
     * @return the name, such as {@code breakdown-by-class}
     */
    public String code() {
        return code;
    }

    /**
     * The resource of a name.
     *
     * @param code name in files
     * @return the resource, or empty if a table has none of that name
     */
    public static Optional<TableSchema> find(String code) {
        Objects.requireNonNull(code, "code");
        return Arrays.stream(values())
                .filter(schema -> schema.code.equals(code))
                .findFirst();
    }

    /**
     * The columns of the resource in a table with these terms: each term adds one to {@link #BREAKDOWN}. A table that states
     * nothing in one that {@linkplain TableColumn#mayBeMissing() may be missing} has the resource without it.
     *
     * @param terms the terms of the table in its order
     * @return the columns in the order in which they are written, without extra ones
     */
    public List<TableColumn> columns(List<Term> terms) {
        Checks.noNullIn(terms, "terms");
        List<TableColumn> all = new ArrayList<>();
        for (int i = 0; i < columns.size(); i++) {
            boolean isCoefficient = columns.get(i).content() == Content.COEFFICIENT;
            all.add(columns.get(i));
            if (isCoefficient && columns.get(i + 1).content() != Content.COEFFICIENT) {
                terms.forEach(term -> all.add(TableColumn.of(term.column(), Content.COEFFICIENT)));
            }
        }
        return all;
    }

    /**
     * The names of the columns of the resource in a table with these terms.
     *
     * @param terms the terms of the table in its order
     * @return names in the order in which they are written, without extra ones
     */
    public List<String> columnNames(List<Term> terms) {
        Checks.noNullIn(terms, "terms");
        return columns(terms).stream().map(TableColumn::name).toList();
    }

    /**
     * Whether every table has this resource. A table also has {@link #BREAKDOWN}, {@link #BREAKDOWN_BY_CLASS} or both.
     *
     * @return whether it may not be missing
     */
    public boolean isNeeded() {
        return this == CUTS || this == SOURCES;
    }

    /**
     * Whether the order of its rows means something, so that another order is another table.
     *
     * @return whether it does
     */
    public boolean isOrdered() {
        return this == CUTS || this == SPECIFICATIONS;
    }

    /**
     * The resource that a column refers to, to the one key column that it has.
     *
     * @param content what the column holds
     * @return the resource, or null if the content stands for itself
     */
    public static @Nullable TableSchema referredTo(Content content) {
        Objects.requireNonNull(content, "content");
        return switch (content) {
            case CUT -> CUTS;
            case SOURCE -> SOURCES;
            case NAME, FREE_TEXT, LEVEL, NUMBER, COEFFICIENT, FLAG -> null;
        };
    }

    /** The word for a constant in a cell. */
    static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    /** The name of the resource, as messages write it. */
    @Override
    public String toString() {
        return code;
    }
}
