package org.beefyield.data.boning;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * How a file of boning trials is laid out that isn't in this library's own form: what each of its columns holds. Immutable;
 * {@link TrialLayoutReader} reads one, {@link TrialReader#read(org.beefyield.data.Source, org.beefyield.data.CsvForm,
 * TrialLayout)} reads trials by it.
 */
public final class TrialLayout {
    static final String CARCASS = "carcass";
    static final String SIDE = "side";
    static final String QUARTER = "quarter";
    static final String CATEGORY = "category";
    static final String CONFORMATION = "conformation";
    static final String CONFORMATION_POINTS = "conformation_points";
    static final String FAT_CLASS = "fat_class";
    static final String FAT_POINTS = "fat_points";
    static final String DAY = "day";
    static final String COLD_WEIGHT_KG = "cold_weight_kg";
    static final String SIDE_WEIGHT_KG = "side_weight_kg";
    static final String CUTTING_WEIGHT_KG = "cutting_weight_kg";
    static final String IGNORED = "ignored";

    /** What a code stands for whose carcasses are left out. */
    static final String LEAVE_OUT = "leave-out";

    /** What one column holds at most. */
    static final List<String> SINGLE = List.of(
            CARCASS,
            SIDE,
            QUARTER,
            CATEGORY,
            CONFORMATION,
            CONFORMATION_POINTS,
            FAT_CLASS,
            FAT_POINTS,
            DAY,
            COLD_WEIGHT_KG);

    /** Weights of which several columns add up, as those of a cut do. */
    static final List<String> ADDED = List.of(SIDE_WEIGHT_KG, CUTTING_WEIGHT_KG);

    /** What a row of the file is. */
    enum Rows {
        /** A carcass. */
        CARCASS,
        /** A side of one. */
        SIDE,
        /** A quarter of one. */
        QUARTER
    }

    /**
     * A column.
     *
     * @param name its name in the file of trials
     * @param line where the layout declares it
     * @param holds what it holds: one of the above, or a cut
     * @param quarter the quarter of which that is, empty for all of a row
     * @param factor what a number is multiplied by to be kg
     * @param codes what the codes in its cells stand for; none if they are as this library writes them
     */
    record Column(String name, long line, String holds, String quarter, double factor, Map<String, String> codes) {
        Column {
            codes = Collections.unmodifiableMap(new LinkedHashMap<>(codes));
        }

        boolean isCut() {
            return !SINGLE.contains(holds) && !ADDED.contains(holds) && !holds.equals(IGNORED);
        }
    }

    /**
     * What is declared of the file as a whole.
     *
     * @param rows what a row is
     * @param doubled whether one side stands for both
     * @param blankIsZero whether a blank weight is 0 where another of the same row or quarter isn't blank
     * @param missing what stands for a blank weight too, empty if nothing does
     * @param ofCutting whether shares are of the weight at cutting
     * @param namesOfR whether the layout has columns by the names that R gives them
     */
    record Settings(
            Rows rows, boolean doubled, boolean blankIsZero, String missing, boolean ofCutting, boolean namesOfR) {}

    private final String name;
    private final Settings settings;
    private final Map<String, Column> columns;
    private final Map<String, List<String>> groups;

    TrialLayout(String name, Settings settings, Map<String, Column> columns, Map<String, List<String>> groups) {
        this.name = name;
        this.settings = settings;
        this.columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
        this.groups = Collections.unmodifiableMap(new LinkedHashMap<>(groups));
    }

    /**
     * What it was read from.
     *
     * @return name of the file
     */
    public String name() {
        return name;
    }

    /**
     * Cuts that were weighed together, as {@link org.beefyield.boning.TrialSet} takes them.
     *
     * @return by name of the group, the codes of its cuts; unmodifiable
     */
    public Map<String, List<String>> groups() {
        return groups;
    }

    Settings settings() {
        return settings;
    }

    /** By name in the file of trials. */
    Map<String, Column> columns() {
        return columns;
    }

    /** The one column that holds something. */
    Optional<Column> column(String holds) {
        return columns.values().stream()
                .filter(column -> column.holds().equals(holds))
                .findFirst();
    }

    /** Columns whose weights add up. */
    List<Column> all(String holds, String quarter) {
        return columns.values().stream()
                .filter(column ->
                        column.holds().equals(holds) && column.quarter().equals(quarter))
                .toList();
    }

    /** Whether anything says what went to the knife. */
    boolean hasCuttingWeight() {
        return column(CUTTING_WEIGHT_KG).isPresent();
    }

    /** Quarters whose weights and cuts have columns of their own, empty for what is of all of a row. */
    Set<String> parts() {
        Set<String> parts = new LinkedHashSet<>();
        columns.values().stream()
                .filter(column -> column.isCut() || column.holds().equals(CUTTING_WEIGHT_KG))
                .forEach(column -> parts.add(column.quarter()));
        return parts;
    }

    /** What is weighed of a part. */
    Set<String> cuts(String quarter) {
        Set<String> cuts = new LinkedHashSet<>();
        columns.values().stream()
                .filter(column -> column.isCut() && column.quarter().equals(quarter))
                .forEach(column -> cuts.add(column.holds()));
        return cuts;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof TrialLayout that
                && name.equals(that.name)
                && settings.equals(that.settings)
                && columns.equals(that.columns)
                && groups.equals(that.groups);
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, settings, columns, groups);
    }

    /**
     * One line.
     *
     * @return such as {@code trial-layout.csv: 191 columns, a row for each side}
     */
    @Override
    public String toString() {
        return name + ": " + Numbers.counted(columns.size(), "column", "columns") + ", a row for each "
                + settings.rows().name().toLowerCase(Locale.ROOT);
    }
}
