package org.beefyield.boning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/** A breakdown of a table in one way, and the trials that weighed all of it or some. Immutable once its {@link TrialSet} is made. */
public final class WeighedBreakdown {
    private final String parent;
    private final String way;
    private final List<BreakdownRow> tableRows;
    private final List<Cut> children;
    private final List<Part> parts;
    private final OptionalInt lossPart;
    private final List<Row> rows = new ArrayList<>();
    private final List<PartRow> partlyWeighed = new ArrayList<>();

    /**
     * What is weighed apart: one child, or the children of a group.
     *
     * @param name code of the one, or name of the group
     * @param members places among the {@link WeighedBreakdown#children()}
     */
    public record Part(String name, List<Integer> members) {
        /**
         * Copies the members.
         *
         * @throws IllegalArgumentException if there are none, or one is below 0
         */
        public Part {
            Checks.noNullIn(members, "members");
            Objects.requireNonNull(name, "name");
            if (members.isEmpty() || members.stream().anyMatch(member -> member < 0)) {
                throw new IllegalArgumentException(
                        "members " + members + " of " + name + " are not one place or more, each 0 or more");
            }
            members = List.copyOf(members);
        }
    }

    /**
     * The breakdown of one carcass, closed.
     *
     * @param trial the trial
     * @param shares g per kg of parent, in the order of the {@link WeighedBreakdown#parts()}
     */
    public record Row(Trial trial, List<Double> shares) {
        /**
         * Copies the shares.
         *
         * @throws IllegalArgumentException if one is not finite
         */
        public Row {
            Checks.noNullIn(shares, "shares");
            Objects.requireNonNull(trial, "trial");
            shares.forEach(share -> Checks.finite("share, g/kg", share));
            shares = Figures.copyOf(shares);
        }
    }

    /**
     * What was weighed of a breakdown of which another part is blank, as it was weighed. Nothing is closed: what is missing is
     * the blank part with the loss and all slips of the scale, and no part of it can be told from the others, so that a blank
     * stays unknown even if it is the only one.
     *
     * @param trial the trial
     * @param shares g per kg of parent by place among the {@link WeighedBreakdown#parts()}, of those that were weighed
     */
    public record PartRow(Trial trial, Map<Integer, Double> shares) {
        /**
         * Copies the shares, in the order of the parts.
         *
         * @throws IllegalArgumentException if there are none, a place is below 0, or a share is below 0 or not finite
         */
        public PartRow {
            Checks.noNullIn(shares, "shares");
            Objects.requireNonNull(trial, "trial");
            shares = Collections.unmodifiableMap(new TreeMap<>(shares));
            if (shares.isEmpty() || shares.keySet().iterator().next() < 0) {
                throw new IllegalArgumentException(
                        "shares at " + shares.keySet() + " are not at one place or more, each 0 or more");
            }
            shares.values().forEach(share -> Checks.notNegative("share, g/kg", share));
        }
    }

    WeighedBreakdown(TableDefinition definition, String parent, String way, Map<String, List<String>> groups) {
        this.parent = parent;
        this.way = way;
        this.tableRows = definition.breakdown().stream()
                .filter(row -> row.parent().equals(parent)
                        && (row.way().equals(way) || row.way().equals(BreakdownRow.ANY)))
                .toList();
        Set<String> codes = new LinkedHashSet<>();
        tableRows.forEach(row -> codes.add(row.cut()));
        this.children = definition.cuts().stream()
                .filter(cut -> codes.contains(cut.code()))
                .toList();
        Map<String, List<Integer>> byPart = new LinkedHashMap<>();
        for (int k = 0; k < children.size(); k++) {
            String code = children.get(k).code();
            String name = groups.entrySet().stream()
                    .filter(group -> group.getValue().contains(code))
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .orElse(code);
            byPart.computeIfAbsent(name, key -> new ArrayList<>()).add(k);
        }
        this.parts = byPart.entrySet().stream()
                .map(entry -> new Part(entry.getKey(), List.copyOf(entry.getValue())))
                .toList();
        this.lossPart = IntStream.range(0, parts.size())
                .filter(i -> parts.get(i).members().size() == 1
                        && children.get(parts.get(i).members().get(0)).kind() == CutKind.LOSS)
                .findFirst();
    }

    /**
     * A breakdown of which nothing was weighed.
     *
     * @param definition a table
     * @param parent code of the cut that is broken down, or {@code carcass}
     * @param way the way, or {@code *} if there is only one
     * @return the breakdown, each child a part of its own; without any if the table has no rows for it
     */
    public static WeighedBreakdown of(TableDefinition definition, String parent, String way) {
        Objects.requireNonNull(definition, "definition");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(way, "way");
        return new WeighedBreakdown(definition, parent, way, Map.of());
    }

    void add(Row row) {
        rows.add(row);
    }

    void add(PartRow row) {
        partlyWeighed.add(row);
    }

    /**
     * The cut that is broken down.
     *
     * @return its code, or {@code carcass}
     */
    public String parent() {
        return parent;
    }

    /**
     * The way in which it is.
     *
     * @return name of the way, or {@code *} if there is only one
     */
    public String way() {
        return way;
    }

    /**
     * What it is in words.
     *
     * @return such as {@code carcass} or {@code striploin, steaks}
     */
    public String name() {
        return parent + (way.equals(BreakdownRow.ANY) ? "" : ", " + way);
    }

    /**
     * The rows of the table that serve it, of all categories.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<BreakdownRow> tableRows() {
        return tableRows;
    }

    /**
     * The cuts that it gives.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<Cut> children() {
        return children;
    }

    /**
     * What is weighed apart.
     *
     * @return an unmodifiable list in the order of the children
     */
    public List<Part> parts() {
        return parts;
    }

    /**
     * The part that is the loss alone.
     *
     * @return its place among the parts, or empty if there is none
     */
    public OptionalInt lossPart() {
        return lossPart;
    }

    /**
     * The trials that weighed all of it.
     *
     * @return an unmodifiable list in the order of the trials
     */
    public List<Row> rows() {
        return Collections.unmodifiableList(rows);
    }

    /**
     * The trials that weighed the parent and some of its parts but not all; a loss that nobody weighed doesn't count.
     *
     * @return an unmodifiable list in the order of the trials
     */
    public List<PartRow> partlyWeighed() {
        return Collections.unmodifiableList(partlyWeighed);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof WeighedBreakdown that
                && parent.equals(that.parent)
                && way.equals(that.way)
                && tableRows.equals(that.tableRows)
                && children.equals(that.children)
                && parts.equals(that.parts)
                && rows.equals(that.rows)
                && partlyWeighed.equals(that.partlyWeighed);
    }

    @Override
    public int hashCode() {
        return Objects.hash(parent, way, tableRows, children, parts, rows, partlyWeighed);
    }

    /**
     * One line.
     *
     * @return name and number of carcasses
     */
    @Override
    public String toString() {
        return name() + ": " + rows.size() + (rows.size() == 1 ? " carcass" : " carcasses");
    }
}
