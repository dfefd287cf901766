package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

/**
 * One carcass, a steer R= 3= of 340 kg, worked through every level by hand from the published figures that the shipped
 * table is made of ({@code worked-carcass.csv}, {@code worked-totals.csv}), against what an estimator says of it.
 */
class EstimateReferenceTest {
    private static final double ONE_GRAM = 0.001;
    private static final String QUARTERING = "10-rib forequarter";
    private static final String MINCED = "mince at 15 % fat";

    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private final Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

    /** Tissues: grange and the boning loss. */
    @Test
    void tissuesOfTheWorkedCarcassComeOutToOneGram() {
        YieldEstimate estimate = YieldEstimator.of(TABLE).estimate(carcass);

        assertRows("tissue", 4, row -> estimate.kg("tissue", row.get("cut")));
    }

    /** Primals: judge2019. */
    @Test
    void primalsOfTheWorkedCarcassComeOutToOneGram() {
        YieldEstimate estimate = YieldEstimator.of(TABLE).estimate(carcass);

        assertRows("primal", 17, row -> estimate.kg("primal", row.get("cut")));
        assertThat(estimate.lines("primal")).hasSize(17);
    }

    /** A piece is half of the primal, before left-right differences. */
    @Test
    void pieceOfTheWorkedCarcassComesOutToOneGram() {
        YieldEstimate estimate = YieldEstimator.of(TABLE).estimate(carcass);

        assertRows("piece", 1, row -> estimate.pieceKg(row.get("cut")).orElseThrow());
    }

    /** Retail cuts: dryaging2016, retailaus, voges2006, chuckround and assumptions, as each row of the table says. */
    @Test
    void retailCutsOfTheWorkedCarcassComeOutToOneGram() {
        assertRows("retail", 9, row -> under(row).estimate(carcass).kg("retail", row.get("cut")));
    }

    @Test
    void kindsOfTheWorkedCarcassComeOutToOneGramUnderEverySpecification() {
        assertRows("kind", 21, row -> under(row).estimate(carcass).kg(CutKind.parse(row.get("cut"))));
        assertThat(specifications("kind")).containsExactlyInAnyOrder("steaks", "joints", "trim");
    }

    /** Pearson's square with fat trim of 72 % fat: heggli2023. */
    @Test
    void minceOfTheWorkedCarcassComesOutToOneGramUnderEverySpecification() {
        assertRows(
                MINCED,
                6,
                row -> under(row)
                        .with(MinceTarget.fatPercent(15))
                        .estimate(carcass)
                        .kg(row.get("cut")));
        assertThat(specifications(MINCED)).containsExactlyInAnyOrder("steaks", "joints", "trim");
    }

    @Test
    void everyRowOfTheWorkedCarcassIsCompared() {
        assertThat(ReferenceRows.of("worked-carcass.csv"))
                .extracting(row -> row.get("level"))
                .containsOnly("tissue", "primal", "piece", "retail", "kind", MINCED);
    }

    /** Quarters: charles1986 for fat trim and bone; where a cut lies is common practice. */
    @Test
    void quartersAndTotalsOfTheWorkedCarcassComeOut() {
        List<Map<String, String>> rows = ReferenceRows.of("worked-totals.csv");

        assertThat(rows).hasSize(13);
        for (Map<String, String> row : rows) {
            assertThat(total(row))
                    .as("%s", row)
                    .isCloseTo(Double.parseDouble(row.get("value")), within(Double.parseDouble(row.get("tolerance"))));
        }
    }

    @Test
    void quartersOfTheWorkedCarcassAddToItsColdWeight() {
        YieldEstimate estimate = YieldEstimator.of(TABLE).estimate(carcass);

        assertThat(estimate.quarters(QUARTERING).foreKg()
                        + estimate.quarters(QUARTERING).hindKg())
                .isCloseTo(340, within(1e-9));
    }

    private double total(Map<String, String> row) {
        YieldEstimate estimate = under(row).estimate(carcass);
        YieldEstimate minced = under(row).with(MinceTarget.fatPercent(15)).estimate(carcass);
        return switch (row.get("quantity")) {
            case "forequarter" -> estimate.quarters(QUARTERING).foreKg();
            case "hindquarter" -> estimate.quarters(QUARTERING).hindKg();
            case "forequarter's part" -> 100 * estimate.quarters(QUARTERING).foreKg() / 340;
            case "fat trim cut off the primals" -> estimate.fatTrimKg() - estimate.kg("tissue", "fat-trim");
            case "loss in cutting the primals" -> estimate.lossKg() - estimate.kg("tissue", "loss");
            case "fat content of the lean trim" -> 100 * fatOfLeanTrim(minced);
            case "fat trim that mince at 15 % fat takes up" ->
                minced.mince().map(Mince::fatTrimKg).orElseThrow();
            case "dice and mince at 15 % fat" -> {
                double kg = minced.kg(CutKind.DICE) + minced.kg(CutKind.MINCE);
                yield row.get("unit").equals("kg") ? kg : 100 * kg / minced.meatKg();
            }
            default -> throw new IllegalArgumentException(row.get("quantity"));
        };
    }

    /** What is left of the fat of the mince without that of the fat trim, which is 72 % fat, per kg of lean trim. */
    private static double fatOfLeanTrim(YieldEstimate minced) {
        Mince mince = minced.mince().orElseThrow();
        return (mince.fat() * mince.kg() - 0.72 * mince.fatTrimKg()) / mince.leanTrimKg();
    }

    private YieldEstimator under(Map<String, String> row) {
        String specification = row.get("specification");
        YieldEstimator estimator = YieldEstimator.of(TABLE);
        return specification.isEmpty() ? estimator : estimator.withSpecification(specification);
    }

    private static void assertRows(String level, int count, ToDoubleFunction<Map<String, String>> kg) {
        List<Map<String, String>> rows = rows(level);
        assertThat(rows).hasSize(count);
        for (Map<String, String> row : rows) {
            assertThat(kg.applyAsDouble(row))
                    .as("%s", row)
                    .isCloseTo(Double.parseDouble(row.get("kg")), within(ONE_GRAM));
        }
    }

    private static List<Map<String, String>> rows(String level) {
        return ReferenceRows.of("worked-carcass.csv").stream()
                .filter(row -> row.get("level").equals(level))
                .toList();
    }

    private static Set<String> specifications(String level) {
        Set<String> names = new HashSet<>();
        rows(level).forEach(row -> names.add(row.get("specification")));
        return names;
    }
}
