package org.beefyield.feedback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

class OverfatTest {
    /** A point of fat takes 10 g/kg from the meat and 2 from the bone; standard errors of 1 g/kg on meat and fat trim. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("fat", "1")
            .levels("tissue")
            .categories(Category.STEER, Category.HEIFER)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(Cut.of("meat", "Meat <lean>", "tissue", CutKind.MEAT))
            .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM))
            .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
            .row("carcass", "meat", 20, "made", 700, 0, -10, 0)
            .row("carcass", "fat-trim", 20, "made", 120, 0, 12, 0)
            .row("carcass", "bone", 5, "made", 180, 0, -2, 0)
            .coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", "per_fat_point", 1.0, "made"))
            .coefficientNote(new CoefficientNote("*", "*", "carcass", "fat-trim", "per_fat_point", 1.0, "made"))
            .build());

    private static final Overfat OVERFAT = Overfat.against(YieldEstimator.of(TABLE), FatClass.parse("3="));

    private static Carcass carcass(String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse(fatClass), kg);
    }

    @Test
    void fatterThanTheTargetCostsMeatAndMakesFatTrim() {
        OverfatCost cost = OVERFAT.cost(carcass("4H", 300)).orElseThrow();

        // 3.75 points at 300 kg, 12 and 10 g/kg a point, 1 g/kg standard error
        assertThat(cost.carcasses()).isEqualTo(1);
        assertThat(cost.extraFatTrim().kg()).isCloseTo(13.5, within(1e-9));
        assertThat(cost.saleableLost().kg()).isCloseTo(11.25, within(1e-9));
        assertThat(cost.extraFatTrim().expectedSdKg()).isCloseTo(1.125, within(1e-9));
        assertThat(cost.feedKg()).isEmpty();
    }

    @Test
    void asFatAsTheTargetOrLeanerCostsNothing() {
        assertThat(OVERFAT.cost(carcass("3=", 300))).isEmpty();
        assertThat(OVERFAT.cost(carcass("3", 300))).isEmpty();
        assertThat(OVERFAT.cost(carcass("1-", 300))).isEmpty();
        assertThat(OVERFAT.cost(List.of(carcass("3=", 300), carcass("2+", 310))))
                .isEmpty();
        assertThat(OVERFAT.cost(List.of())).isEmpty();
    }

    @Test
    void allOfTheTargetClassIsNoFatterThanTheTarget() {
        YieldEstimator estimator = YieldEstimator.of(TABLE);

        assertThat(Overfat.against(estimator, FatClass.parse("3")).cost(carcass("3+", 300)))
                .isEmpty();
        assertThat(Overfat.against(estimator, FatClass.parse("3")).cost(carcass("4-", 300)))
                .isPresent();
        // 4= and a whole 4 stand on the edge between 4L and 4H
        Overfat low = Overfat.against(estimator, FatClass.parse("4L"));
        assertThat(low.cost(carcass("4=", 300))).isEmpty();
        assertThat(low.cost(carcass("4", 300))).isEmpty();
        assertThat(low.cost(carcass("4H", 300)).orElseThrow().toText()).contains("\n4= and 4 count as 4L\n");
        assertThat(low.with(EdgeRule.UPPER).cost(carcass("4=", 300))).isPresent();
        assertThat(low.with(EdgeRule.UPPER)
                        .cost(carcass("4", 300))
                        .orElseThrow()
                        .toText())
                .contains("\n4= and 4 count as 4H\n");
    }

    @Test
    void feedIsExtraFatTimesTheRatioTimesFeedForMeat() {
        OverfatCost cost = OVERFAT.withFeed(12, Overfat.USUAL_FEED_RATIO)
                .cost(carcass("4H", 300))
                .orElseThrow();

        assertThat(cost.feedKg()).hasValueCloseTo(13.5 * 3 * 12, within(1e-9));
        assertThatThrownBy(() -> OVERFAT.withFeed(0, 3))
                .hasMessage("feed 0 kg per kg of meat and ratio 3 must be above 0");
        assertThatThrownBy(() -> OVERFAT.withFeed(12, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aLotCountsThoseThatAreFatterAndAddsTheirErrorsCoherently() {
        OverfatCost cost = OVERFAT.cost(List.of(carcass("4H", 300), carcass("2=", 320), carcass("4H", 300)))
                .orElseThrow();

        assertThat(cost.carcasses()).isEqualTo(2);
        assertThat(cost.asGraded().coldWeightKg()).isCloseTo(600, within(1e-9));
        assertThat(cost.extraFatTrim().kg()).isCloseTo(27, within(1e-9));
        assertThat(cost.extraFatTrim().expectedSdKg()).isCloseTo(2.25, within(1e-9));
    }

    @Test
    void theTextSaysWhatWasLostAndWhatTheIntervalHolds() {
        assertThat(OVERFAT.withFeed(12, 3)
                        .cost(carcass("4H", 300))
                        .orElseThrow()
                        .toText())
                .isEqualTo("""
                        1 carcass is fatter than 3=: 13.5 kg (90 % sure: 11.6 to 15.4) more fat trim and 11.3 kg (90 % sure: 9.4 to 13.1) less saleable meat than at 3= and the same weight
                        The extra fat took about 486 kg of feed
                        Feed: 12 kg for a kg of meat gained, and 3 times that for a kg of fat (common practice; on energy alone at least 2.25)
                        90 % sure of what is expected, not of what will be weighed: how well the table is known

                        """
                        + OVERFAT.cost(carcass("4H", 300))
                                .orElseThrow()
                                .table("tissue")
                                .toText());
    }

    @Test
    void theLossHasAValueWhereThereArePrices() {
        Valuer valuer = Valuer.of(
                PriceList.builder("EUR")
                        .kind(CutKind.MEAT, 10)
                        .kind(CutKind.FAT_TRIM, 1)
                        .kind(CutKind.BONE, 0)
                        .otherPerHead("Hide", 30)
                        .build(),
                YieldEstimator.of(TABLE));
        OverfatCost cost = Overfat.against(valuer, FatClass.parse("3="))
                .cost(carcass("4H", 300))
                .orElseThrow();

        // 11.25 kg of meat go, 13.5 kg of fat trim come; their errors of 1.125 kg are opposite
        assertThat(cost.valueLost()).hasValueCloseTo(112.5 - 13.5, within(1e-9));
        assertThat(cost.valueLost(0.9).orElseThrow().high()).isCloseTo(99 + 1.6449 * 9 * 1.125, within(1e-2));
        assertThat(cost.toText()).contains("\nThat is worth 99 EUR less (90 % sure, prices as given: 82 to 116)\n");
        assertThat(OVERFAT.cost(carcass("4H", 300)).orElseThrow().valueLost()).isEmpty();
    }

    @Test
    void printedKilogramsAddUpAcrossAndDown() {
        assertThat(OVERFAT.cost(carcass("4+", 333.3))
                        .orElseThrow()
                        .table("tissue")
                        .toText())
                .isEqualTo("""
                    tissue level  at 3=, kg  as graded, kg  more, kg  90 % interval, kg: low   high
                    -------------------------------------------------------------------------------
                    Meat <lean>      233.31         219.98    -13.33                   -15.5  -11.1
                    Fat trim          40.00          55.99     15.99                    13.8   18.2
                    Bone              59.99          57.33     -2.66                   -2.67  -2.67
                    -------------------------------------------------------------------------------
                    Total            333.30         333.30      0.00
                    """);
    }

    @Test
    void htmlHasNamesEscaped() {
        assertThat(OVERFAT.cost(carcass("4+", 333.3)).orElseThrow().toHtml())
                .contains("<p>1 carcass is fatter than 3=: ")
                .contains("Meat &lt;lean&gt;")
                .doesNotContain("<lean>");
    }

    @Test
    void partsOfALotAreMergedAsIfOneHadSeenThemAll() {
        List<Carcass> lot = List.of(carcass("4H", 300), carcass("2=", 320), carcass("5=", 310), carcass("4H", 350));
        OverfatCost all = OVERFAT.cost(lot).orElseThrow();
        Overfat.Collector first = OVERFAT.collector().add(lot.get(0));
        Overfat.Collector second = OVERFAT.collector();
        lot.subList(1, 4).forEach(second::add);
        OverfatCost turned = OVERFAT.collector().add(second).add(first).cost().orElseThrow();
        OverfatCost both = first.add(second).cost().orElseThrow();

        assertThat(both.carcasses()).isEqualTo(3);
        assertThat(both.toText()).isEqualTo(all.toText());
        assertThat(turned.toText()).isEqualTo(all.toText());
        assertThat(second.cost().orElseThrow().carcasses()).isEqualTo(2);
        assertThat(OVERFAT.collector().add(OVERFAT.collector()).cost()).isEmpty();
    }

    @Test
    void costsAgainstOtherTargetsOrByOtherRulesAreNotMerged() {
        Overfat.Collector collector = OVERFAT.collector();
        Overfat leaner = Overfat.against(YieldEstimator.of(TABLE), FatClass.parse("2="));
        assertThatThrownBy(() -> collector.add(leaner.collector()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("costs of fat go together only against the same target by the same rule: "
                        + OVERFAT.target() + ", LOWER against 2=, LOWER");
        assertThatThrownBy(() -> collector.add(OVERFAT.with(EdgeRule.UPPER).collector()))
                .hasMessageEndingWith(", LOWER against " + OVERFAT.target() + ", UPPER");
    }
}
