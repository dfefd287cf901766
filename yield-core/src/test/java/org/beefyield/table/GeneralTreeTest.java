package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** Tables of other shapes than tissue, primal, retail. All figures are invented. */
class GeneralTreeTest {
    private static final String SOURCE = TestTables.SOURCE;

    private static TableDefinition.Builder builder(String name, String... levels) {
        return TableDefinition.builder(name, "1")
                .levels(levels)
                .categories(Category.STEER)
                .source(TestTables.source(SOURCE));
    }

    private static Carcass steer(double kg) {
        return Carcass.of(Category.STEER, Conformation.third(8), FatClass.third(8), kg);
    }

    private static void addsUp(YieldEstimate estimate) {
        for (String level : estimate.table().levels()) {
            assertThat(estimate.lines(level).stream()
                            .mapToDouble(line -> line.kg())
                            .sum())
                    .as(level)
                    .isCloseTo(estimate.coldWeightKg(), within(1e-9));
        }
    }

    @Test
    void oneLevelIsEnough() {
        YieldEstimate estimate = YieldEstimator.of(YieldTable.of(builder("sides", "halves")
                        .cut(Cut.of("saleable", "Saleable", "halves", CutKind.MEAT))
                        .cut(Cut.of("waste", "Waste", "halves", CutKind.LOSS))
                        .row("carcass", "saleable", 0, SOURCE, 700, 5)
                        .row("carcass", "waste", 0, SOURCE, 300, -5)
                        .build()))
                .estimate(Carcass.of(Category.STEER, Conformation.third(10), FatClass.third(8), 200));
        assertThat(estimate.kg("saleable")).isCloseTo(142, within(1e-12));
        addsUp(estimate);
    }

    @Test
    void twoLevelsWithoutTissues() {
        TableDefinition.Builder quarters = builder("quarters", "quarter", "cut")
                .cut(Cut.of("fore", "Forequarter", "quarter", CutKind.MEAT))
                .cut(Cut.of("hind", "Hindquarter", "quarter", CutKind.MEAT))
                .cut(Cut.of("chuck", "Chuck", "cut", CutKind.PRIMAL))
                .cut(Cut.of("round", "Round", "cut", CutKind.PRIMAL))
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE))
                .row("carcass", "fore", 0, SOURCE, 480, -2, 0, 4)
                .row("carcass", "hind", 0, SOURCE, 520, 2, 0, -4)
                .row("fore", "chuck", 0, SOURCE, 750)
                .row("fore", "bone", 0, SOURCE, 250)
                .row("hind", "round", 0, SOURCE, 800)
                .row("hind", "bone", 0, SOURCE, 200);
        YieldEstimate estimate =
                YieldEstimator.of(YieldTable.of(quarters.build())).estimate(steer(440));
        // t = 1: fore 484 g/kg, hind 516 g/kg
        assertThat(estimate.kg("fore")).isCloseTo(440 * 0.484, within(1e-9));
        assertThat(estimate.kg("chuck")).isCloseTo(440 * 0.484 * 0.75, within(1e-9));
        assertThat(estimate.kg("bone")).isCloseTo(440 * (0.484 * 0.25 + 0.516 * 0.20), within(1e-9));
        assertThat(estimate.boneKg()).isCloseTo(estimate.kg("bone"), within(1e-12));
        addsUp(estimate);
    }

    @Test
    void aBoneInRibTakesBoneAndPrimalFromTwoParents() {
        TableDefinition.Builder rib = builder("bone-in", "tissue", "cut")
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("all-bone", "Bone in the carcass", "tissue", CutKind.BONE))
                .cut(Cut.of("rib", "Rib, bone in", "cut", CutKind.PRIMAL))
                .cut(Cut.of("rest", "Other meat", "cut", CutKind.PRIMAL))
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE))
                .row("carcass", "meat", 0, SOURCE, 800, 4)
                .row("carcass", "all-bone", 0, SOURCE, 200, -4)
                .row("meat", "rib", 0, SOURCE, 100)
                .row("meat", "rest", 0, SOURCE, 900)
                .row("all-bone", "rib", 0, SOURCE, 150)
                .row("all-bone", "bone", 0, SOURCE, 850);
        YieldEstimate estimate = YieldEstimator.of(YieldTable.of(rib.build())).estimate(steer(300));
        // 240 kg of meat and 60 kg of bone: 24 + 9 kg of rib
        assertThat(estimate.kg("rib")).isCloseTo(33, within(1e-12));
        assertThat(estimate.kg("bone")).isCloseTo(51, within(1e-12));
        assertThat(estimate.kg("rest")).isCloseTo(216, within(1e-12));
        addsUp(estimate);
    }

    @Test
    void aCutMayComeAsOnePiecePerCarcassOrSeveralPerSide() {
        TableDefinition.Builder pieces = builder("pieces", "cut")
                .cut(Cut.of("skirt", "Thick skirt", "cut", CutKind.PRIMAL).withPiecesPerSide(0.5))
                .cut(Cut.of("shin", "Shin", "cut", CutKind.PRIMAL).withPiecesPerSide(2.0))
                .cut(Cut.of("rest", "Rest", "cut", CutKind.PRIMAL))
                .row("carcass", "skirt", 0, SOURCE, 4)
                .row("carcass", "shin", 0, SOURCE, 40)
                .row("carcass", "rest", 0, SOURCE, 956);
        YieldEstimate estimate =
                YieldEstimator.of(YieldTable.of(pieces.build())).estimate(steer(300));
        assertThat(estimate.kg("skirt")).isCloseTo(1.2, within(1e-12));
        assertThat(estimate.pieceKg("skirt").getAsDouble()).isCloseTo(1.2, within(1e-12));
        // 12 kg in four pieces
        assertThat(estimate.pieceKg("shin").getAsDouble()).isCloseTo(3, within(1e-12));
        assertThat(estimate.pieceKg("rest")).isEmpty();
    }

    @Test
    void fiveLevelsWithoutWeightTermsAreFine() {
        TableDefinition.Builder five = builder("five", "l1", "l2", "l3", "l4", "l5");
        String parent = "carcass";
        for (int level = 1; level <= 5; level++) {
            five.cut(Cut.of("on-" + level, "On", "l" + level, CutKind.MEAT))
                    .cut(Cut.of("off-" + level, "Off", "l" + level, CutKind.LOSS))
                    .row(parent, "on-" + level, 0, SOURCE, 900, 1)
                    .row(parent, "off-" + level, 0, SOURCE, 100, -1);
            parent = "on-" + level;
        }
        YieldTable table = YieldTable.of(five.build());
        YieldEstimate estimate = YieldEstimator.of(table)
                .estimate(Carcass.of(Category.STEER, Conformation.third(12), FatClass.third(8), 400));
        assertThat(estimate.kg("on-5")).isCloseTo(400 * Math.pow(0.904, 5), within(1e-9));
        assertThat(estimate.kg("off-1")).isCloseTo(400 * 0.096, within(1e-9));
        assertThat(estimate.kg("l5", "off-3")).isCloseTo(400 * 0.904 * 0.904 * 0.096, within(1e-9));
        addsUp(estimate);
        // the share doesn't depend on weight
        assertThat(YieldEstimator.of(table).estimate(steer(200)).share("on-5"))
                .isCloseTo(YieldEstimator.of(table).estimate(steer(600)).share("on-5"), within(1e-15));
    }

    @Test
    void threeLevelsOfWeightOnAPathAreFineWhereverTheyStand() {
        TableDefinition.Builder four = builder("four", "l1", "l2", "l3", "l4");
        String parent = "carcass";
        for (int level = 1; level <= 4; level++) {
            double per100Kg = level == 2 ? 0 : 10;
            four.cut(Cut.of("on-" + level, "On", "l" + level, CutKind.MEAT))
                    .cut(Cut.of("off-" + level, "Off", "l" + level, CutKind.LOSS))
                    .row(parent, "on-" + level, 0, SOURCE, 900, 0, 0, per100Kg)
                    .row(parent, "off-" + level, 0, SOURCE, 100, 0, 0, -per100Kg);
            parent = "on-" + level;
        }
        YieldEstimate estimate = YieldEstimator.of(YieldTable.of(four.build())).estimate(steer(540));
        assertThat(estimate.kg("on-4")).isCloseTo(540 * 0.92 * 0.9 * 0.92 * 0.92, within(1e-9));
        addsUp(estimate);
    }

    @Test
    void leanTrimAddsUpFromSeveralParents() {
        TableDefinition definition = TestTables.threeLevels();
        YieldTable table = YieldTable.of(definition);
        YieldEstimate estimate = YieldEstimator.of(table).estimate(steer(340));
        double meat = 340 * 0.690;
        assertThat(estimate.kg("lean-trim"))
                .isCloseTo(meat * (0.070 * 0.060 + 0.081 * 0.060 + 0.780 * 0.400 + 0.069 * 0.150), within(1e-9));
        assertThat(estimate.kg("fat-trim"))
                .isCloseTo(
                        340 * 0.112 + meat * (0.070 * 0.092 + 0.081 * 0.062 + 0.780 * 0.092 + 0.069 * 0.082),
                        within(1e-9));
        addsUp(estimate);
    }

    @Test
    void aCutThatIsBrokenDownStaysNowhereAndOneThatIsNotPassesThrough() {
        YieldTable table = YieldTable.of(TestTables.threeLevels());
        assertThat(Engine.layout(table).cutsAt(2)).extracting(Cut::code).doesNotContain("meat", "brisket", "chuck");
        YieldEstimate estimate = YieldEstimator.of(table).estimate(steer(340));
        assertThat(estimate.kg("tissue", "bone"))
                .isEqualTo(estimate.kg("primal", "bone"))
                .isEqualTo(estimate.kg("retail", "bone"));
    }

    @Test
    void theCarcassItselfMayHaveWays() {
        TableDefinition.Builder builder = builder("carcass-ways", "cut")
                .cut(Cut.of("boneless", "Boneless", "cut", CutKind.PRIMAL))
                .cut(Cut.of("bone-in", "Bone in", "cut", CutKind.PRIMAL))
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE))
                .row("*", "boned", "carcass", "boneless", 0, SOURCE, 800)
                .row("*", "boned", "carcass", "bone", 0, SOURCE, 200)
                .row("*", "unboned", "carcass", "bone-in", 0, SOURCE, 950)
                .row("*", "unboned", "carcass", "bone", 0, SOURCE, 50)
                .specification("boned", "carcass", "boned")
                .specification("unboned", "carcass", "unboned");
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(builder.build()));
        assertThat(estimator.estimate(steer(300)).kg("bone")).isCloseTo(60, within(1e-12));
        YieldEstimate unboned = estimator.withSpecification("unboned").estimate(steer(300));
        assertThat(unboned.kg("bone")).isCloseTo(15, within(1e-12));
        assertThat(unboned.kg("boneless")).isZero();
        addsUp(unboned);
    }

    @Test
    void aCutOfTwoParentsIsBrokenDownAsOne() {
        // trimmings come out of both halves and are split again at the last level
        TableDefinition definition = builder("again", "halves", "parts", "sorted")
                .cut(Cut.of("left", "Left", "halves", CutKind.MEAT))
                .cut(Cut.of("right", "Right", "halves", CutKind.MEAT))
                .cut(Cut.of("block", "Block", "parts", CutKind.PRIMAL))
                .cut(Cut.of("trimmings", "Trimmings", "parts", CutKind.PRIMAL))
                .cut(Cut.of("coarse", "Coarse", "sorted", CutKind.DICE))
                .cut(Cut.of("fine", "Fine", "sorted", CutKind.LEAN_TRIM))
                .row("carcass", "left", 0, SOURCE, 490)
                .row("carcass", "right", 0, SOURCE, 510)
                .row("left", "block", 0, SOURCE, 700)
                .row("left", "trimmings", 0, SOURCE, 300)
                .row("right", "block", 0, SOURCE, 600)
                .row("right", "trimmings", 0, SOURCE, 400)
                .row("trimmings", "coarse", 0, SOURCE, 250, 0, 10)
                .row("trimmings", "fine", 0, SOURCE, 750, 0, -10)
                .build();
        YieldTable table = YieldTable.of(definition);
        double[] shares =
                Engine.grid(table, Category.STEER, CuttingSpecification.NONE).shares(8, 10, 300);
        assertThat(shares[Engine.layout(table).slot(2, "fine")])
                .isCloseTo((0.49 * 0.3 + 0.51 * 0.4) * 0.73, within(1e-15));
        YieldGridTest.compare(
                table, shares, PlainFormula.shares(definition, Category.STEER, Map.of(), 8, 10, 300), 1e-15);
    }
}
