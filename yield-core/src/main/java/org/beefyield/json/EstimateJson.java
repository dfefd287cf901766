package org.beefyield.json;

import java.util.List;
import java.util.Objects;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What a carcass is expected to return.
 *
 * @param carcass the carcass
 * @param table name and version of the table
 * @param specification name of the cutting specification, empty if the table has no ways
 * @param probability with which each interval here holds its figure
 * @param countedParts names of the parts of the uncertainty that SDs and intervals hold if the table states them, such as
 *     {@code hall}, in alphabetical order
 * @param levels every level of cutting, the coarsest first
 * @param mince what became of the lean trim, or null if no mince was asked for
 * @param support what the saleable weight rests on
 * @param notes what to know of this carcass, such as that it lies outside the range of the data
 * @param cautions what to know of every estimate from this table
 */
public record EstimateJson(
        CarcassJson carcass,
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
    public EstimateJson {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(table, "table");
        Objects.requireNonNull(specification, "specification");
        Checks.noNullIn(countedParts, "countedParts");
        Checks.noNullIn(levels, "levels");
        Objects.requireNonNull(support, "support");
        Checks.noNullIn(notes, "notes");
        Checks.noNullIn(cautions, "cautions");
        countedParts = List.copyOf(countedParts);
        levels = List.copyOf(levels);
        notes = List.copyOf(notes);
        cautions = List.copyOf(cautions);
    }

    /**
     * The form of an estimate.
     *
     * @param estimate estimate
     * @param probability probability of the intervals, above 0 and below 1
     * @return its form
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public static EstimateJson of(YieldEstimate estimate, double probability) {
        Objects.requireNonNull(estimate, "estimate");
        return new EstimateJson(
                CarcassJson.of(estimate.carcass()),
                estimate.table().identity(),
                estimate.specification().name(),
                probability,
                PartJson.counted(estimate),
                LevelJson.of(estimate, probability),
                MinceJson.of(estimate),
                SupportJson.of(estimate.support(), estimate.table().levels()),
                estimate.notes(),
                Cautions.of(estimate.table()));
    }
}
