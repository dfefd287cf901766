package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;

class YieldEstimateTest {
    private static final YieldTable SMALL = YieldTable.of(quartered());
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());

    private static TableDefinition quartered() {
        TableDefinition.Builder builder = TestTables.small().toBuilder();
        String[] cuts = {"fore", "hind", "fat-trim", "bone", "loss"};
        double[] shares = {1, 0, 0.5, 0.55, 0.5};
        for (int i = 0; i < cuts.length; i++) {
            builder.quartering(new QuarteringRow("10-rib forequarter", cuts[i], shares[i], TestTables.SOURCE));
        }
        return builder.build();
    }

    private static Carcass reference(double kg) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), kg);
    }

    /** The reference carcass, so that no slope is in play. */
    private static YieldEstimate small() {
        return YieldEstimator.of(SMALL).estimate(reference(340));
    }

    private static YieldEstimate three() {
        return YieldEstimator.of(THREE).estimate(reference(340));
    }

    @Nested
    class Kilograms {
        @Test
        void everyCutAtEveryLevelByHand() {
            YieldEstimate estimate = small();
            assertThat(estimate.kg("tissue", "meat")).isCloseTo(238, within(1e-12));
            assertThat(estimate.kg("tissue", "fat-trim")).isCloseTo(37.4, within(1e-12));
            assertThat(estimate.kg("tissue", "bone")).isCloseTo(62.56, within(1e-12));
            assertThat(estimate.kg("tissue", "loss")).isCloseTo(2.04, within(1e-12));
            assertThat(estimate.kg("primal", "fore")).isCloseTo(133.28, within(1e-12));
            assertThat(estimate.kg("primal", "hind")).isCloseTo(104.72, within(1e-12));
            assertThat(estimate.kg("primal", "bone")).isCloseTo(62.56, within(1e-12));
        }

        @Test
        void aCallWithoutALevelMeansTheLastAtWhichTheCutStands() {
            YieldEstimate estimate = three();
            // fat trim comes off with the tissues and again at retail
            assertThat(estimate.kg("fat-trim")).isEqualTo(estimate.kg("retail", "fat-trim"));
            assertThat(estimate.kg("fat-trim")).isGreaterThan(estimate.kg("primal", "fat-trim"));
            assertThat(estimate.kg("primal", "fat-trim")).isEqualTo(estimate.kg("tissue", "fat-trim"));
            // meat and primals are cut up, so their last level is not the last one
            assertThat(estimate.kg("meat")).isEqualTo(estimate.kg("tissue", "meat"));
            assertThat(estimate.kg("rump")).isEqualTo(estimate.kg("primal", "rump"));
        }

        @Test
        void sharesAreOfTheColdWeight() {
            YieldEstimate estimate = small();
            assertThat(estimate.coldWeightKg()).isEqualTo(340);
            assertThat(estimate.share("hind")).isCloseTo(0.700 * 0.440, within(1e-15));
            assertThat(estimate.share(CutKind.PRIMAL)).isCloseTo(0.700, within(1e-15));
        }

        @Test
        void kindsAddUpByLevel() {
            YieldEstimate estimate = three();
            double steaks = 340 * 0.690 * (0.070 * 0.800 + 0.081 * 0.750);
            assertThat(estimate.kg(CutKind.STEAK)).isCloseTo(steaks, within(1e-9));
            assertThat(estimate.kg("primal", CutKind.STEAK)).isZero();
            assertThat(estimate.kg("primal", CutKind.PRIMAL)).isCloseTo(340 * 0.690, within(1e-9));
            assertThat(estimate.kg(CutKind.PRIMAL)).isZero();
            assertThat(estimate.kg(CutKind.JOINT)).isCloseTo(340 * 0.690 * 0.069 * 0.760, within(1e-9));
            assertThat(estimate.kg(CutKind.MINCE)).isZero();
            assertThat(estimate.boneKg()).isCloseTo(340 * 0.192, within(1e-9));
            // 8 g/kg of each primal is lost, with what was lost before
            assertThat(estimate.lossKg()).isCloseTo(340 * (0.006 + 0.690 * 0.008), within(1e-9));
            assertThat(estimate.fatTrimKg()).isEqualTo(estimate.kg("fat-trim"));
        }

        @Test
        void meatSaleableMeatAndSharesOfMeat() {
            YieldEstimate estimate = three();
            assertThat(estimate.meatKg()).isCloseTo(340 * 0.690, within(1e-9));
            assertThat(estimate.saleableKg())
                    .isCloseTo(340 - estimate.fatTrimKg() - estimate.boneKg() - estimate.lossKg(), within(1e-9));
            assertThat(estimate.steakShare()).isCloseTo(0.070 * 0.800 + 0.081 * 0.750, within(1e-12));
            assertThat(estimate.minceShare())
                    .isCloseTo(0.070 * 0.060 + 0.081 * 0.060 + 0.780 * 0.400 + 0.069 * 0.150, within(1e-12));
            double all = 0;
            for (CutKind kind : CutKind.values()) {
                all += kind == CutKind.BONE ? 0 : estimate.shareOfMeat(kind);
            }
            assertThat(all).isCloseTo(1, within(1e-12));
            assertThat(estimate.shareOfMeat(CutKind.BONE)).isCloseTo(0, within(1e-12));
            assertThat(estimate.shareOfMeat(CutKind.LOSS)).isCloseTo(0.008, within(1e-12));
        }

        @Test
        void aPieceIsThatOfOneSide() {
            YieldEstimate estimate = small();
            assertThat(estimate.pieceKg("hind").getAsDouble()).isCloseTo(52.36, within(1e-12));
            assertThat(estimate.pieceKg("fore")).isEmpty();
        }

        @Test
        void linesFollowTheOrderOfTheCuts() {
            assertThat(small().lines("primal"))
                    .extracting(line -> line.cut().code())
                    .containsExactly("fore", "hind", "fat-trim", "bone", "loss");
            List<CutLine> tissue = small().lines("tissue");
            assertThat(tissue.get(0)).hasToString("meat 238.00 kg");
            assertThat(tissue.get(0).level()).isEqualTo("tissue");
            assertThat(tissue.get(0).code()).isEqualTo("meat");
            assertThat(tissue.get(0).name()).isEqualTo("Meat");
            assertThat(tissue.get(0).kind()).isEqualTo(CutKind.MEAT);
            assertThat(tissue.get(0).sdKg()).isEqualTo(small().sd("tissue", "meat"));
            assertThat(tissue.get(0).interval(0.5)).isEqualTo(small().interval("tissue", "meat", 0.5));
            assertThat(tissue).isEqualTo(small().lines("tissue")).hasSameHashCodeAs(small().lines("tissue"));
            assertThat(tissue.get(1).cut().kind()).isEqualTo(CutKind.FAT_TRIM);
            assertThat(tissue.get(1).kg()).isCloseTo(37.4, within(1e-12));
            assertThat(tissue.get(1).share()).isCloseTo(0.110, within(1e-15));
        }
    }

    @Nested
    class Refusals {
        @Test
        void anUnknownCutIsRefusedWithTheNearestCodes() {
            assertThatThrownBy(() -> three().kg("stripoin"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no cut \"stripoin\"; nearest: striploin, brisket, rump");
            assertThatThrownBy(() -> three().share("stripoin")).hasMessageStartingWith("no cut \"stripoin\"");
            assertThatThrownBy(() -> three().pieceKg("stripoin")).hasMessageStartingWith("no cut \"stripoin\"");
            assertThatThrownBy(() -> three().kg("retail", "stripoin")).hasMessageStartingWith("no cut \"stripoin\"");
        }

        @Test
        void anUnknownLevelIsRefusedWithThoseThereAre() {
            String message = "no level \"primals\"; levels: tissue, primal, retail";
            assertThatThrownBy(() -> three().kg("primals", "rump"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage(message);
            assertThatThrownBy(() -> three().kg("primals", CutKind.BONE)).hasMessage(message);
            assertThatThrownBy(() -> three().lines("primals")).hasMessage(message);
            assertThatThrownBy(() -> three().printedKg("primals", 1)).hasMessage(message);
            assertThatThrownBy(() -> three().levelTable("primals", 1)).hasMessage(message);
        }

        @Test
        void aCutAtALevelWhereItDoesNotStandIsRefusedWithWhereItDoes() {
            assertThatThrownBy(() -> three().kg("retail", "rump"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("cut \"rump\" does not stand at level retail; it stands at primal");
            assertThatThrownBy(() -> three().kg("tissue", "dice"))
                    .hasMessage("cut \"dice\" does not stand at level tissue; it stands at retail");
        }

        @Test
        void minceIsNoCutUnlessATargetIsSet() {
            assertThatThrownBy(() -> three().kg("mince"))
                    .hasMessageStartingWith("no cut \"mince\"; without a mince target");
            assertThat(three().mince()).isEmpty();
        }

        @Test
        void anUnknownQuarteringIsRefused() {
            assertThatThrownBy(() -> small().quarters("pistola"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no quartering \"pistola\" in table small; it has 10-rib forequarter");
        }
    }

    @Nested
    class TheQuarters {
        @Test
        void quartersAddUpToTheColdWeight() {
            Quarters quarters = small().quarters("10-rib forequarter");
            assertThat(quarters.quartering()).isEqualTo("10-rib forequarter");
            assertThat(quarters.foreKg()).isCloseTo(133.28 + 0.5 * 37.4 + 0.55 * 62.56 + 0.5 * 2.04, within(1e-9));
            assertThat(quarters.hindKg()).isCloseTo(340 - quarters.foreKg(), within(1e-9));
        }

        @Test
        void mincingDoesNotMoveThem() {
            YieldEstimator estimator = YieldEstimator.of(THREE);
            Quarters before = estimator.estimate(reference(340)).quarters("10-rib forequarter");
            Quarters after = estimator
                    .with(MinceTarget.fatPercent(20))
                    .estimate(reference(340))
                    .quarters("10-rib forequarter");
            assertThat(after).isEqualTo(before);
            assertThat(before.foreKg())
                    .isCloseTo(
                            340 * (0.690 * (0.069 * 0.8 + 0.780 * 0.9) + 0.112 * 0.5 + 0.192 * 0.55 + 0.006 * 0.5),
                            within(1e-9));
        }
    }

    @Nested
    class Text {
        @Test
        void theWholeText() {
            // g/kg: meat 700 + 8 + 5 x 1.8137 = 717.0685, fat trim 109, bone 184 - 7 - 5 x 1.8137 = 167.9315, loss 6
            // kg: 373.858, 56.829, 87.554, 3.128
            // fore primal 560 - 1 + 8 x 1.8137 = 573.5096 g per kg of meat: 214.411 kg, hind primal 159.447 kg
            // per cent: 71.707 (41.125 and 30.582), 10.9, 16.793, 0.6
            // 90 %: 1.64485 SDs to each side; SDs 20, 20, 10, 1 g per kg of carcass, and of the primals the root of
            // (0.57351 x 20)^2 + (0.71707 x 5)^2 and of (0.42649 x 20)^2 + (0.71707 x 5)^2, times 521.37 kg
            // forequarters 214.411 + 0.5 x 56.829 + 0.55 x 87.554 + 0.5 x 3.128 = 292.544 kg
            Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R+"), FatClass.parse("3="), 521.37)
                    .withId("0417");
            assertThat(YieldEstimator.of(SMALL).estimate(carcass).toText())
                    .isEqualTo("""
                            Carcass 0417: category C (castrated male of 12 months and over), conformation R+, fat class 3=, \
                            521.37 kg cold
                            Table IDENTITY

                            tissue level      kg  % of cold weight  90 % interval, kg: low    high
                            ----------------------------------------------------------------------
                            Meat          373.86              71.7                  356.71  391.01
                            Fat trim       56.83              10.9                   39.68   73.98
                            Bone           87.55              16.8                   78.98   96.13
                            Loss            3.13               0.6                    2.27    3.99
                            ----------------------------------------------------------------------
                            Total         521.37             100.0

                            90 % sure of what will be weighed: how carcasses of one grade differ

                            primal level      kg  % of cold weight  90 % interval, kg: low    high
                            ----------------------------------------------------------------------
                            Fore primal   214.41              41.1                  204.11  224.72
                            Hind primal   159.45              30.6                  151.51  167.38
                            Fat trim       56.83              10.9                   39.68   73.98
                            Bone           87.55              16.8                   78.98   96.13
                            Loss            3.13               0.6                    2.27    3.99
                            ----------------------------------------------------------------------
                            Total         521.37             100.0

                            Quarters (10-rib forequarter): forequarters 292.54 kg, hindquarters 228.83 kg
                            Note: cold weight 521.37 kg is 21.37 kg outside the fitted range 230 to 500 kg
                            100 % of the saleable weight rests on figures that the maker of the table assumed: 100 % at tissue level and \
                            100 % at primal level, some of it at both
                            PLANNING
                            RISK
                            """.replace("IDENTITY", SMALL.identity())
                            .replace("PLANNING", Cautions.PLANNING)
                            .replace("RISK", Cautions.RISK_MATERIAL));
        }

        @Test
        void aCarcassWithoutIdIsIntroducedWithoutOne() {
            assertThat(small().toText()).startsWith("""
                    Carcass category C (castrated male of 12 months and over), conformation R=, fat class 3=, 340.00 kg cold
                    """);
        }

        @Test
        void cutsThatTheSpecificationDoesNotYieldAreLeftOut() {
            String text = three().toText();
            assertThat(text).contains("Table " + THREE.identity() + ", cutting specification steaks\n");
            assertThat(text).contains("Rump steak").doesNotContain("Rump joint").doesNotContain("Mince");
        }

        @Test
        void aLevelCanBePrintedWithTheTablesNamesInAnotherLanguage() {
            String text = three().levelTable("primal", 1, "de").toText();

            assertThat(text).contains("\nRoastbeef ", "\nRump ").doesNotContain("Striploin");
            assertThat(three().levelTable("primal", 1, "fr").toText())
                    .isEqualTo(three().levelTable("primal", 1).toText());
        }

        @Test
        void aLevelCanBePrintedOnItsOwn() {
            assertThat(small().levelTable("tissue", 0).toText()).isEqualTo("""
                    tissue level   kg  % of cold weight  90 % interval, kg: low  high
                    -----------------------------------------------------------------
                    Meat          238              70.0                     227   249
                    Fat trim       37              11.0                      26    49
                    Bone           63              18.4                      57    68
                    Loss            2               0.6                       1     3
                    -----------------------------------------------------------------
                    Total         340             100.0
                    """);
        }

        @Test
        void printedKilogramsAddUpWhereRoundedOnesDoNot() {
            // 340 kg in three equal parts would print as 113.3 three times
            TableDefinition.Builder thirds = TableDefinition.builder("thirds", "1")
                    .levels("part")
                    .categories(Category.STEER)
                    .source(TestTables.source(TestTables.SOURCE))
                    .decimals("level_g_per_kg", 3);
            for (String part : List.of("one", "two", "three")) {
                thirds.cut(Cut.of(part, part, "part", CutKind.PRIMAL))
                        .row("carcass", part, 0, TestTables.SOURCE, 333.333);
            }
            YieldEstimate estimate =
                    YieldEstimator.of(YieldTable.of(thirds.build())).estimate(reference(340));
            assertThat(estimate.levelTable("part", 1).toText()).isEqualTo("""
                    part level     kg  % of cold weight
                    -----------------------------------
                    one         113.4              33.4
                    two         113.3              33.3
                    three       113.3              33.3
                    -----------------------------------
                    Total       340.0             100.0
                    """);
        }

        @Test
        void theOneLineFormTellsCarcassMeatAndTable() {
            assertThat(small()).hasToString("C R= 3= 340 kg: meat 238.0 kg (" + SMALL.identity() + ")");
        }

        @Test
        void anEstimateKnowsWhatItCameFrom() {
            YieldEstimate estimate = small();
            assertThat(estimate.carcass()).isEqualTo(reference(340));
            assertThat(estimate.table()).isSameAs(SMALL);
            assertThat(estimate.specification().name()).isEmpty();
        }
    }
}
