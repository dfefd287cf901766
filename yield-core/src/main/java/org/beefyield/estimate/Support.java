package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.RowPaths;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * What the saleable weight of an estimate or a lot rests on. A kilogram of a cut comes down a path of the table's rows, such as
 * carcass to meat, meat to striploin, striploin to steak in the way that is chosen, and is as solid as the weakest of them. Lean
 * trim counts as it is cut, before it is minced. A row counts with its own source; notes on single coefficients of it don't, and
 * of a breakdown by class the row of the class in which a grade lies counts. Immutable.
 */
public final class Support implements ShownInBlocks {
    /**
     * Rows that serve single categories and no others, from one source.
     *
     * @param category the category of the carcasses
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param cuts its children, one or more, in the order of the table
     * @param source where their figures come from
     */
    public record CategoryRows(Category category, String parent, List<Cut> cuts, SourceRow source) {
        /**
         * Copies the cuts.
         *
         * @throws IllegalArgumentException if there are none
         */
        public CategoryRows {
            Objects.requireNonNull(category, "category");
            Objects.requireNonNull(parent, "parent");
            Checks.noNullIn(cuts, "cuts");
            Objects.requireNonNull(source, "source");
            if (cuts.isEmpty()) {
                throw new IllegalArgumentException("no cuts of " + parent + "; rows have at least one");
            }
            cuts = List.copyOf(cuts);
        }
    }

    /** By kind of the weakest row, all of them. */
    private final Map<SourceKind, Double> kg;
    /** By level in order, those whose row there is an assumption. */
    private final Map<String, Double> assumedKg;

    private final List<CategoryRows> categories;

    private Support(Map<SourceKind, Double> kg, Map<String, Double> assumedKg, List<CategoryRows> categories) {
        this.kg = kg;
        this.assumedKg = Collections.unmodifiableMap(assumedKg);
        this.categories = List.copyOf(categories);
    }

    /** Of carcasses, as they are cut. */
    static Support of(Moments moments) {
        Model model = moments.model();
        TableDefinition definition = model.table().definition();
        Map<SourceKind, Double> kg = new EnumMap<>(SourceKind.class);
        for (SourceKind kind : SourceKind.values()) {
            kg.put(kind, 0.0);
        }
        Map<String, Double> assumedKg = new LinkedHashMap<>();
        definition.levels().forEach(level -> assumedKg.put(level, 0.0));
        List<CategoryRows> categories = new ArrayList<>();
        for (Moments.Weighed weighed : moments.weights().all) {
            RowPaths paths = model.paths(weighed.category());
            for (int i = 0; i < weighed.nodes().length; i++) {
                paths.add(weighed.nodes()[i], weighed.sums()[i]);
            }
            kg.replaceAll((kind, sum) -> sum + paths.kg(kind));
            assumedKg.replaceAll(
                    (level, sum) -> sum + paths.assumedKg(definition.levels().indexOf(level)));
            categories.addAll(own(model, weighed.category(), paths));
        }
        return new Support(kg, assumedKg, categories);
    }

    private static List<CategoryRows> own(Model model, Category category, RowPaths paths) {
        Map<String, SourceRow> sources = model.table().definition().sources().stream()
                .collect(Collectors.toMap(SourceRow::source, source -> source));
        Map<String, Map<SourceRow, List<Cut>>> rows = new LinkedHashMap<>();
        paths.ownRows((parent, code, source) -> {
            SourceRow known = Objects.requireNonNull(sources.get(source));
            List<Cut> cuts = rows.computeIfAbsent(parent, p -> new LinkedHashMap<>())
                    .computeIfAbsent(known, s -> new ArrayList<>());
            Cut cut = model.table().catalogue().cut(code);
            // a cut has a row by class for each class
            if (!cuts.contains(cut)) {
                cuts.add(cut);
            }
        });
        List<CategoryRows> own = new ArrayList<>();
        rows.forEach((parent, bySource) ->
                bySource.forEach((source, cuts) -> own.add(new CategoryRows(category, parent, cuts, source))));
        return own;
    }

    /**
     * Saleable meat of the last level, lean trim as it is: without the fat trim that mince takes up.
     *
     * @return kg
     */
    public double saleableKg() {
        return kg.values().stream().mapToDouble(of -> of).sum();
    }

    /**
     * Saleable meat by the weakest row on its path. Kinds count as weaker in their order: published, derived, common practice,
     * unverified, assumption.
     *
     * @param weakest kind of the source of the weakest row
     * @return kg; over all kinds they add up to {@link #saleableKg}
     */
    public double kg(SourceKind weakest) {
        return kg.getOrDefault(Objects.requireNonNull(weakest, "weakest"), 0.0);
    }

    /**
     * Part of the saleable meat by the weakest row on its path: see {@link #kg(SourceKind)}.
     *
     * @param weakest kind of the source of the weakest row
     * @return fraction, 0 if nothing is saleable
     */
    public double share(SourceKind weakest) {
        return share(kg(weakest));
    }

    double share(double part) {
        double all = saleableKg();
        return all > 0 ? part / all : 0;
    }

    /**
     * Saleable meat whose row at a level is an assumption, whatever stands above and below it. What stays as it is at a level has
     * no row there.
     *
     * @param level name of the level
     * @return kg
     * @throws IllegalArgumentException if the table has no such level
     */
    public double assumedKg(String level) {
        Double assumed = assumedKg.get(Objects.requireNonNull(level, "level"));
        if (assumed == null) {
            throw new IllegalArgumentException(
                    "no level \"" + level + "\"; levels: " + String.join(", ", assumedKg.keySet()));
        }
        return assumed;
    }

    /** By level in order. */
    Map<String, Double> assumedKg() {
        return assumedKg;
    }

    /**
     * What stands behind the categories of the carcasses: of each the rows down which its carcasses come and that serve it, or a
     * group in which it is, and not all categories.
     *
     * @return by category, parent and source; none of a category that has no rows of its own; unmodifiable
     */
    public List<CategoryRows> categories() {
        return categories;
    }

    /**
     * It for people: which part of the saleable weight rests on assumptions, and what stands behind the categories.
     *
     * @return its sentences
     */
    @Override
    public Blocks blocks() {
        return new Blocks().sentences(SupportText.sentences(this));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Support that
                && kg.equals(that.kg)
                && assumedKg.equals(that.assumedKg)
                && categories.equals(that.categories);
    }

    @Override
    public int hashCode() {
        return Objects.hash(kg, assumedKg, categories);
    }

    /**
     * One line.
     *
     * @return kg by kind, such as {@code saleable 231.0 kg: derived 45.0 kg, assumption 186.0 kg}
     */
    @Override
    public String toString() {
        return SupportText.line(this);
    }
}
