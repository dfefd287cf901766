package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.Engine;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MinceTest {
    @Test
    void minceWithoutATargetNamesTheLeanTrimThatThereIs() {
        YieldEstimate estimate =
                YieldEstimator.of(YieldTable.of(TestTables.threeLevels())).estimate(steer340());
        String message = "no cut \"mince\"; without a mince target,"
                + " YieldEstimator.with(MinceTarget.fatPercent(15)), there is lean-trim";
        assertThatThrownBy(() -> estimate.kg("mince"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
        assertThatThrownBy(() -> estimate.kg("retail", "mince")).hasMessage(message);
        assertThatThrownBy(() -> estimate.sd("mince")).hasMessage(message);
        assertThatThrownBy(() -> estimate.pieceKg("mince")).hasMessage(message);
    }

    @Test
    void minceOfATableWithoutLeanTrimCanNotBeHad() {
        YieldEstimate estimate =
                YieldEstimator.of(YieldTable.of(TestTables.small())).estimate(steer340());
        assertThatThrownBy(() -> estimate.kg("mince"))
                .hasMessage("no cut \"mince\"; table small yields no lean trim to make it of at level primal");
    }

    @Test
    void minceStandsAtTheLastLevelOnly() {
        YieldEstimate estimate = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()))
                .with(MinceTarget.fatPercent(15))
                .estimate(steer340());
        assertThat(estimate.kg("retail", "mince"))
                .isEqualTo(estimate.kg("mince"))
                .isPositive();
        assertThat(estimate.pieceKg("mince")).isEmpty();
        assertThatThrownBy(() -> estimate.kg("primal", "mince"))
                .hasMessage("cut \"mince\" does not stand at level primal; it stands at retail");
    }

    @Test
    void aCutThatTheSpecificationDoesNotYieldIsZero() {
        YieldEstimate estimate = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()))
                .withSpecification("steaks")
                .estimate(steer340());
        assertThat(estimate.kg("striploin-joint")).isZero();
        assertThat(estimate.sd("striploin-joint")).isZero();
        assertThat(estimate.interval("striploin-joint", 0.9)).isEqualTo(new Interval(0, 0, 0.9));
    }

    private static Carcass steer340() {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
    }

    private static final String SOURCE = TestTables.SOURCE;

    /** What a carcass gives for mince: fractions of it, and their fat in per cent (null if the table doesn't say). */
    record Trims(double lean, Integer leanFatPct, double fatTrim, Integer fatTrimFatPct) {}

    /** One level, in printing order: steak, lean trim, fat trim, bone. */
    static YieldTable table(Trims trims) {
        return YieldTable.of(definition(trims).build());
    }

    /** The same with other trims for one category; both have the same fat contents. */
    static YieldTable table(Trims trims, String letter, Trims others) {
        TableDefinition.Builder builder = definition(trims)
                .row(letter, "*", "carcass", "lean-trim", 0, SOURCE, 1000 * others.lean())
                .row(letter, "*", "carcass", "fat-trim", 0, SOURCE, 1000 * others.fatTrim())
                .row(letter, "*", "carcass", "bone", 0, SOURCE, 900 - 1000 * (others.lean() + others.fatTrim()));
        return YieldTable.of(builder.build());
    }

    private static TableDefinition.Builder definition(Trims trims) {
        return TableDefinition.builder("mincing", "1")
                .levels("cut")
                .categories(Category.STEER, Category.BULL)
                .source(TestTables.source(SOURCE))
                .decimals("level_g_per_kg", 9)
                .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                .cut(cut("lean-trim", CutKind.LEAN_TRIM, trims.leanFatPct()))
                .cut(cut("fat-trim", CutKind.FAT_TRIM, trims.fatTrimFatPct()))
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE))
                .row("carcass", "steak", 0, SOURCE, 100)
                .row("carcass", "lean-trim", 0, SOURCE, 1000 * trims.lean())
                .row("carcass", "fat-trim", 0, SOURCE, 1000 * trims.fatTrim())
                .row("carcass", "bone", 0, SOURCE, 900 - 1000 * (trims.lean() + trims.fatTrim()));
    }

    private static Cut cut(String code, CutKind kind, Integer fatPct) {
        Double pct = fatPct == null ? null : fatPct.doubleValue();
        return Cut.of(code, code, "cut", kind).withFatPct(pct);
    }

    private static YieldEstimate minced(YieldTable table, double fatPercent, double kg) {
        return YieldEstimator.of(table)
                .with(MinceTarget.fatPercent(fatPercent))
                .estimate(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), kg));
    }

    private static void addsUp(YieldEstimate estimate) {
        String last = Engine.layout(estimate.table())
                .levels()
                .get(estimate.table().levels().size() - 1);
        assertThat(estimate.lines(last).stream().mapToDouble(CutLine::kg).sum())
                .isCloseTo(estimate.coldWeightKg(), within(1e-9));
    }

    /** Three squares worked by hand. */
    @Nested
    class PearsonsSquare {
        @Test
        void tenPerCentLeanTrimToTwentyPerCent() {
            //  lean trim 10 %           70 - 20 = 50 parts
            //                  \      /
            //                    20 %
            //                  /      \
            //  fat trim  70 %           20 - 10 = 10 parts
            //
            // 50 kg of lean trim take up 10 kg of fat trim: 60 kg of mince with 5 + 7 = 12 kg of fat, which is 20 %.
            // 200 kg with 25 % lean trim and 15 % fat trim: 50 kg and 30 kg, of which 20 kg are left.
            YieldEstimate estimate = minced(table(new Trims(0.25, 10, 0.15, 70)), 20, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.leanTrimKg()).isCloseTo(50, within(1e-9));
            assertThat(mince.fatTrimKg()).isCloseTo(10, within(1e-9));
            assertThat(mince.kg()).isCloseTo(60, within(1e-9));
            assertThat(mince.fat()).isCloseTo(0.20, within(1e-12));
            assertThat(estimate.fatTrimKg()).isCloseTo(20, within(1e-9));
            assertThat(estimate.notes()).isEmpty();
            addsUp(estimate);
        }

        @Test
        void twelvePerCentLeanTrimToFifteenPerCent() {
            //  lean trim 12 %           72 - 15 = 57 parts
            //                  \      /
            //                    15 %
            //                  /      \
            //  fat trim  72 %           15 - 12 = 3 parts
            //
            // 57 kg of lean trim take up 3 kg of fat trim: 60 kg of mince with 6.84 + 2.16 = 9 kg of fat, which is 15
            // %.
            // 300 kg with 19 % lean trim and 12 % fat trim: 57 kg and 36 kg, of which 33 kg are left.
            YieldEstimate estimate = minced(table(new Trims(0.19, 12, 0.12, 72)), 15, 300);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.fatTrimKg()).isCloseTo(3, within(1e-9));
            assertThat(mince.kg()).isCloseTo(60, within(1e-9));
            assertThat(mince.fat()).isCloseTo(0.15, within(1e-12));
            assertThat(estimate.fatTrimKg()).isCloseTo(33, within(1e-9));
            addsUp(estimate);
        }

        @Test
        void leanTrimOfTwoPrimalsToTwentyFivePerCent() {
            // 40 kg of lean trim from a shoulder at 5 % and 20 kg from a flank at 20 %: 60 kg with 2 + 4 = 6 kg of fat
            //
            //  lean trim 10 %           85 - 25 = 60 parts
            //                  \      /
            //                    25 %
            //                  /      \
            //  fat trim  85 %           25 - 10 = 15 parts
            //
            // 60 kg take up 15 kg of fat trim: 75 kg of mince with 6 + 12.75 = 18.75 kg of fat, which is 25 %.
            // The fat trim comes from the carcass (20 kg) and from the flank (10 kg): 15 kg are left.
            TableDefinition.Builder builder = TableDefinition.builder("two-primals", "1")
                    .levels("primal", "retail")
                    .categories(Category.STEER)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("shoulder", "Shoulder", "primal", CutKind.PRIMAL)
                            .withFatPct(5.0))
                    .cut(Cut.of("flank", "Flank", "primal", CutKind.PRIMAL).withFatPct(20.0))
                    .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
                    .cut(Cut.of("lean-trim", "Lean trim", "retail", CutKind.LEAN_TRIM))
                    .cut(Cut.of("fat-trim", "Fat trim", "primal", CutKind.FAT_TRIM)
                            .withFatPct(85.0))
                    .row("carcass", "shoulder", 0, SOURCE, 500)
                    .row("carcass", "flank", 0, SOURCE, 400)
                    .row("carcass", "fat-trim", 0, SOURCE, 100)
                    .row("shoulder", "dice", 0, SOURCE, 600)
                    .row("shoulder", "lean-trim", 0, SOURCE, 400)
                    .row("flank", "dice", 0, SOURCE, 625)
                    .row("flank", "lean-trim", 0, SOURCE, 250)
                    .row("flank", "fat-trim", 0, SOURCE, 125);
            YieldEstimate estimate = minced(YieldTable.of(builder.build()), 25, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.leanTrimKg()).isCloseTo(60, within(1e-9));
            assertThat(mince.fatTrimKg()).isCloseTo(15, within(1e-9));
            assertThat(mince.kg()).isCloseTo(75, within(1e-9));
            assertThat(mince.fat()).isCloseTo(0.25, within(1e-12));
            assertThat(estimate.fatTrimKg()).isCloseTo(15, within(1e-9));
            // only the last level is minced
            assertThat(estimate.kg("primal", "fat-trim")).isCloseTo(20, within(1e-9));
            addsUp(estimate);
        }
    }

    @Nested
    class Limits {
        @Test
        void aTargetAtTheLeanTrimsOwnFatAddsNothing() {
            YieldEstimate estimate = minced(table(new Trims(0.25, 10, 0.15, 70)), 10, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.fatTrimKg()).isCloseTo(0, within(1e-12));
            assertThat(mince.kg()).isCloseTo(50, within(1e-9));
            assertThat(mince.note()).isEmpty();
            assertThat(estimate.fatTrimKg()).isCloseTo(30, within(1e-9));
        }

        @Test
        void leanTrimFatterThanTheTargetStaysAsItIsAndSaysSo() {
            YieldEstimate estimate = minced(table(new Trims(0.25, 12, 0.15, 70)), 10, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.fatTrimKg()).isZero();
            assertThat(mince.kg()).isCloseTo(50, within(1e-9));
            assertThat(mince.fat()).isCloseTo(0.12, within(1e-12));
            assertThat(estimate.notes()).containsExactly("mince is fatter than asked by 2.00 points of fat");
            addsUp(estimate);
        }

        @Test
        void theFatTrimThereIsCapsWhatIsAddedAndTheEstimateSaysSo() {
            // 50 kg of lean trim want 10 kg of fat trim and there are 5: 55 kg with 5 + 3.5 = 8.5 kg of fat, 15.4545 %
            YieldEstimate estimate = minced(table(new Trims(0.25, 10, 0.025, 70)), 20, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.fatTrimKg()).isCloseTo(5, within(1e-9));
            assertThat(mince.kg()).isCloseTo(55, within(1e-9));
            assertThat(mince.fat()).isCloseTo(8.5 / 55, within(1e-12));
            assertThat(estimate.fatTrimKg()).isCloseTo(0, within(1e-12));
            assertThat(estimate.notes())
                    .containsExactly("mince is leaner than asked by 4.55 points of fat, for want of fat trim");
            addsUp(estimate);
        }

        @Test
        void aTargetAsFatAsTheFatTrimIsRefused() {
            YieldEstimator estimator = YieldEstimator.of(table(new Trims(0.25, 10, 0.15, 70)));
            String rest = " can't be reached with fat-trim of 70 % fat; a target lies below that";
            assertThatThrownBy(() -> estimator.with(MinceTarget.fatPercent(70)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("mince at 70 % fat" + rest);
            assertThatThrownBy(() -> estimator.with(MinceTarget.fatPercent(80.5)))
                    .hasMessage("mince at 80.5 % fat" + rest);
            assertThat(estimator.with(MinceTarget.fatPercent(69.9)).minceTarget())
                    .isPresent();
        }

        @Test
        void aTableWithoutLeanTrimIsRefused() {
            assertThatThrownBy(() ->
                            YieldEstimator.of(YieldTable.of(TestTables.small())).with(MinceTarget.fatPercent(15)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("mince at 15 % fat needs lean trim, and table small yields none at its last level");
        }

        @Test
        void aTableThatStatesNoFatContentIsRefusedWithWhatIsMissing() {
            assertThatThrownBy(() -> YieldEstimator.of(table(new Trims(0.25, null, 0.15, null)))
                            .with(MinceTarget.fatPercent(15)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("mince at 15 % fat needs the fat content (fat_pct) of fat-trim, lean trim of carcass in"
                            + " table mincing");
            assertThatThrownBy(() -> YieldEstimator.of(table(new Trims(0.25, 10, 0.15, null)))
                            .with(MinceTarget.fatPercent(15)))
                    .hasMessage("mince at 15 % fat needs the fat content (fat_pct) of fat-trim in table mincing");
        }

        @Test
        void aCarcassWithoutLeanTrimGivesNoMince() {
            YieldTable table = table(new Trims(0.25, 10, 0.15, 70), "B", new Trims(0, 10, 0.15, 70));
            YieldEstimate estimate = YieldEstimator.of(table)
                    .with(MinceTarget.fatPercent(20))
                    .estimate(Carcass.of(Category.BULL, Conformation.parse("R="), FatClass.parse("3="), 400));
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.kg()).isZero();
            assertThat(mince.fat()).isZero();
            assertThat(estimate.notes()).isEmpty();
            assertThat(estimate.fatTrimKg()).isCloseTo(60, within(1e-9));
            addsUp(estimate);
        }

        @Test
        void withoutAnyFatTrimTheLeanTrimIsAllThereIs() {
            YieldEstimate estimate = minced(table(new Trims(0.25, 10, 0, 70)), 20, 200);
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.kg()).isCloseTo(50, within(1e-9));
            assertThat(mince.fatTrimKg()).isZero();
            assertThat(mince.fat()).isCloseTo(0.10, within(1e-12));
            assertThat(estimate.notes())
                    .containsExactly("mince is leaner than asked by 10.00 points of fat, for want of fat trim");
            addsUp(estimate);
        }
    }

    @Nested
    class Outturns {
        private final YieldEstimate estimate = minced(table(new Trims(0.25, 10, 0.15, 70)), 20, 200);

        @Test
        void minceReplacesLeanTrimAndTheFatItTookUp() {
            assertThat(estimate.kg("mince")).isCloseTo(60, within(1e-9));
            assertThat(estimate.kg("cut", "mince")).isCloseTo(60, within(1e-9));
            assertThat(estimate.kg(CutKind.MINCE)).isCloseTo(60, within(1e-9));
            assertThat(estimate.kg("lean-trim")).isZero();
            assertThat(estimate.kg(CutKind.LEAN_TRIM)).isZero();
            assertThat(estimate.share("mince")).isCloseTo(0.30, within(1e-12));
            assertThat(estimate.minceShare()).isCloseTo(60.0 / estimate.meatKg(), within(1e-12));
            assertThat(estimate.saleableKg()).isCloseTo(20 + 60, within(1e-9));
        }

        @Test
        void theMinceStandsWhereTheLeanTrimStood() {
            assertThat(estimate.lines("cut"))
                    .extracting(line -> line.cut().code())
                    .containsExactly("steak", "mince", "fat-trim", "bone");
            assertThat(estimate.lines("cut").get(1).cut()).isEqualTo(Cut.of("mince", "Mince", "cut", CutKind.MINCE));
            assertThat(estimate.levelTable("cut", 1).toText()).isEqualTo("""
                    cut level     kg  % of cold weight
                    ----------------------------------
                    Steak       20.0              10.0
                    Mince       60.0              30.0
                    fat-trim    20.0              10.0
                    Bone       100.0              50.0
                    ----------------------------------
                    Total      200.0             100.0
                    """);
        }

        @Test
        void quartersOfTheLastLevelAreThoseBeforeMincing() {
            // what is minced was cut from the quarters as trim: all lean trim before, half of the fat trim behind
            TableDefinition.Builder builder = definition(new Trims(0.25, 10, 0.15, 70));
            for (String cutAndShare : new String[] {"steak 0", "lean-trim 1", "fat-trim 0.5", "bone 0.5"}) {
                int blank = cutAndShare.indexOf(' ');
                builder.quartering(new QuarteringRow(
                        "pistola",
                        cutAndShare.substring(0, blank),
                        Double.parseDouble(cutAndShare.substring(blank + 1)),
                        SOURCE));
            }
            Quarters quarters = minced(YieldTable.of(builder.build()), 20, 200).quarters("pistola");
            assertThat(quarters.foreKg()).isCloseTo(50 + 15 + 50, within(1e-9));
            assertThat(quarters.hindKg()).isCloseTo(85, within(1e-9));
        }

        @Test
        void theMeatItCameFromIsAsItWas() {
            YieldTable three = YieldTable.of(TestTables.threeLevels());
            YieldEstimate plain = YieldEstimator.of(three)
                    .estimate(Carcass.of(Category.STEER, Conformation.third(9), FatClass.third(7), 350));
            YieldEstimate minced =
                    YieldEstimator.of(three).with(MinceTarget.fatPercent(20)).estimate(plain.carcass());
            assertThat(minced.meatKg()).isEqualTo(plain.meatKg());
            assertThat(minced.kg("primal", "fat-trim")).isEqualTo(plain.kg("primal", "fat-trim"));
            assertThat(minced.kg(CutKind.STEAK)).isEqualTo(plain.kg(CutKind.STEAK));
            assertThat(minced.kg(CutKind.MINCE) + minced.fatTrimKg())
                    .isCloseTo(plain.kg(CutKind.LEAN_TRIM) + plain.fatTrimKg(), within(1e-9));
            addsUp(minced);
        }
    }

    @Nested
    class Targets {
        @Test
        void chemicalLeanIsHundredLessTheFat() {
            assertThat(MinceTarget.chemicalLean(85)).isEqualTo(MinceTarget.fatPercent(15));
            for (int fat = 1; fat < 100; fat++) {
                assertThat(MinceTarget.chemicalLean(100 - fat)).isEqualTo(MinceTarget.fatPercent(fat));
            }
        }

        @ParameterizedTest
        @CsvSource({"15, mince at 15 % fat", "12.5, mince at 12.5 % fat", "10, mince at 10 % fat"})
        void aTargetReadsAsAPhrase(double percent, String phrase) {
            assertThat(MinceTarget.fatPercent(percent)).hasToString(phrase);
        }

        @Test
        void chemicalLeanAndFatAreTheSameTargetInTenthsToo() {
            assertThat(MinceTarget.chemicalLean(84.9)).isEqualTo(MinceTarget.fatPercent(15.1));
        }

        @ParameterizedTest
        @CsvSource({"0, 0", "100, 100", "-5, -5", "150, 150", "110.1, 110.1", "NaN, NaN"})
        void aTargetOutsideZeroToHundredIsRefused(double percent, String printed) {
            assertThatThrownBy(() -> MinceTarget.fatPercent(percent))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("mince fat content " + printed + " % is outside 0 to 100 % (both excluded)");
        }

        @Test
        void fractionsAndPerCentAreNotTakenForEachOther() {
            assertThat(MinceTarget.ofFraction(0.15))
                    .isEqualTo(MinceTarget.fatPercent(15))
                    .hasSameHashCodeAs(MinceTarget.fatPercent(15));
            assertThat(MinceTarget.ofFraction(0.01)).isEqualTo(MinceTarget.fatPercent(1));
            assertThatThrownBy(() -> MinceTarget.fatPercent(0.15))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage(
                            "mince fat content 0.15 % is below 1 %; give per cent, such as 15, or a fraction to ofFraction");
            assertThatThrownBy(() -> MinceTarget.ofFraction(15))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("mince fat content 1500 % is outside 0 to 100 % (both excluded);"
                            + " give a fraction, such as 0.15, or per cent to fatPercent");
            assertThatThrownBy(() -> MinceTarget.ofFraction(0.0015))
                    .hasMessage("mince fat content 0.15 % is below 1 %;"
                            + " give a fraction, such as 0.15, or per cent to fatPercent");
            assertThatThrownBy(() -> MinceTarget.chemicalLean(0.85))
                    .hasMessage("chemical lean 0.85 % is below 1 %; give per cent, such as 85");
        }

        @ParameterizedTest
        @ValueSource(doubles = {0, 100, 101, Double.NaN})
        void aChemicalLeanOutsideZeroToHundredIsRefused(double percent) {
            assertThatThrownBy(() -> MinceTarget.chemicalLean(percent)).isInstanceOf(IllegalArgumentException.class);
        }
    }
}
