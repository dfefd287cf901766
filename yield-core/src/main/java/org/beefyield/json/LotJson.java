package org.beefyield.json;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What a lot of carcasses is expected to return.
 *
 * @param name name of the lot, or null if it has none
 * @param carcasses number of carcasses
 * @param categories number of carcasses by the letter of their category
 * @param meanConformation mean conformation, points of the scale in thirds, 1 to 18
 * @param meanFat mean fat class, points of the scale in thirds, 1 to 15
 * @param coldWeightKg cold weight of all, kg
 * @param outsideFitted number of carcasses outside the range of the data behind the table
 * @param table name and version of the table
 * @param specification name of the cutting specification, empty if the table has no ways
 * @param probability with which each interval here holds its figure
 * @param countedParts names of the parts of the uncertainty that SDs and intervals hold if the table states them, such as
 *     {@code hall}, in alphabetical order
 * @param levels every level of cutting, the coarsest first
 * @param mince what became of the lean trim, or null if no mince was asked for
 * @param support what the saleable weight rests on
 * @param notes what to know of this lot
 * @param cautions what to know of every estimate from this table
 */
public record LotJson(
        @Nullable String name,
        long carcasses,
        Map<String, Long> categories,
        double meanConformation,
        double meanFat,
        double coldWeightKg,
        long outsideFitted,
        String table,
        String specification,
        double probability,
        List<String> countedParts,
        List<LevelJson> levels,
        @Nullable MinceJson mince,
        SupportJson support,
        List<String> notes,
        List<String> cautions) {
    /** Refuses what is missing and copies the lists. */
    public LotJson {
        Checks.noNullIn(categories, "categories");
        Objects.requireNonNull(table, "table");
        Objects.requireNonNull(specification, "specification");
        Checks.noNullIn(countedParts, "countedParts");
        Checks.noNullIn(levels, "levels");
        Objects.requireNonNull(support, "support");
        Checks.noNullIn(notes, "notes");
        Checks.noNullIn(cautions, "cautions");
        categories = Collections.unmodifiableMap(new TreeMap<>(categories));
        countedParts = List.copyOf(countedParts);
        levels = List.copyOf(levels);
        notes = List.copyOf(notes);
        cautions = List.copyOf(cautions);
    }

    /**
     * The form of a lot.
     *
     * @param lot lot
     * @param probability probability of the intervals, above 0 and below 1
     * @return its form
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public static LotJson of(LotEstimate lot, double probability) {
        Objects.requireNonNull(lot, "lot");
        Map<String, Long> categories = new TreeMap<>();
        lot.categories().forEach((category, carcasses) -> categories.put(category.letter(), carcasses));
        return new LotJson(
                lot.name().orElse(null),
                lot.carcasses(),
                categories,
                lot.meanConformation(),
                lot.meanFat(),
                lot.coldWeightKg(),
                lot.outsideFitted(),
                lot.table().identity(),
                lot.specification().name(),
                probability,
                PartJson.counted(lot),
                LevelJson.of(lot, probability),
                MinceJson.of(lot),
                SupportJson.of(lot.support(), lot.table().levels()),
                lot.notes(),
                Cautions.of(lot.table()));
    }
}
