package org.beefyield.json;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.Support;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.text.Checks;

/**
 * What the saleable weight rests on.
 *
 * @param saleableKg saleable meat, lean trim before it is minced, kg
 * @param kgByWeakest kg by the kind of the weakest source on the way from the carcass, such as {@code assumption}, those of 0 kg
 *     too; they add up to the saleable meat
 * @param assumedKgByLevel by name of the level, kg whose figure at that level is an assumption
 * @param categories rows of the table that serve single categories of these carcasses
 */
public record SupportJson(
        double saleableKg,
        Map<String, Double> kgByWeakest,
        Map<String, Double> assumedKgByLevel,
        List<CategoryRows> categories) {
    /** Refuses what is missing and copies the rest. */
    public SupportJson {
        Checks.noNullIn(kgByWeakest, "kgByWeakest");
        Checks.noNullIn(assumedKgByLevel, "assumedKgByLevel");
        Checks.noNullIn(categories, "categories");
        kgByWeakest = Collections.unmodifiableMap(new LinkedHashMap<>(kgByWeakest));
        assumedKgByLevel = Collections.unmodifiableMap(new LinkedHashMap<>(assumedKgByLevel));
        categories = List.copyOf(categories);
    }

    /**
     * Rows of one breakdown that serve single categories, from one source.
     *
     * @param category letter of the category
     * @param parent code of the cut that is broken down, or {@code carcass}
     * @param cuts codes of its children
     * @param kind kind of the source, such as {@code derived}
     * @param source short name of the source
     * @param citation its citation
     */
    public record CategoryRows(
            String category, String parent, List<String> cuts, String kind, String source, String citation) {
        /** Refuses what is missing and copies the codes. */
        public CategoryRows {
            Objects.requireNonNull(category, "category");
            Objects.requireNonNull(parent, "parent");
            Checks.noNullIn(cuts, "cuts");
            Objects.requireNonNull(kind, "kind");
            Objects.requireNonNull(source, "source");
            Objects.requireNonNull(citation, "citation");
            cuts = List.copyOf(cuts);
        }

        private static CategoryRows of(Support.CategoryRows rows) {
            return new CategoryRows(
                    rows.category().letter(),
                    rows.parent(),
                    rows.cuts().stream().map(Cut::code).toList(),
                    rows.source().kind().code(),
                    rows.source().source(),
                    rows.source().citation());
        }
    }

    static SupportJson of(Support support, List<String> levels) {
        Map<String, Double> kgByWeakest = new LinkedHashMap<>();
        for (SourceKind kind : SourceKind.values()) {
            kgByWeakest.put(kind.code(), support.kg(kind));
        }
        Map<String, Double> assumedKgByLevel = new LinkedHashMap<>();
        levels.forEach(level -> assumedKgByLevel.put(level, support.assumedKg(level)));
        return new SupportJson(
                support.saleableKg(),
                kgByWeakest,
                assumedKgByLevel,
                support.categories().stream().map(CategoryRows::of).toList());
    }
}
