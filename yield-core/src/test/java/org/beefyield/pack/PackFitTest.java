package org.beefyield.pack;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.DrawnCarcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PackFitTest {
    private static final double INFINITE = Double.POSITIVE_INFINITY;

    /** A loin of 50 g/kg that goes to steaks, joints or trim, a rump of 60 that goes to steaks or joints. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("ways", "1")
            .levels("primal", "retail")
            .categories(Category.STEER)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(Cut.of("loin", "Loin", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(1.0)
                    .withSideSplitSdPct(3.0))
            .cut(Cut.of("rump", "Rump", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(1.0)
                    .withSideSplitSdPct(3.0))
            .cut(Cut.of("rest", "Rest", "primal", CutKind.LOSS))
            .cut(Cut.of("loin-steak", "Loin steak", "retail", CutKind.STEAK))
            .cut(Cut.of("rump-steak", "Rump steak", "retail", CutKind.STEAK))
            .cut(Cut.of("joint", "Joint", "retail", CutKind.JOINT))
            .cut(Cut.of("trim", "Trim", "retail", CutKind.LEAN_TRIM))
            .row("carcass", "loin", 4, "made", 50)
            .row("carcass", "rump", 4, "made", 60)
            .row("carcass", "rest", 4, "made", 890)
            .row("*", "steaks", "loin", "loin-steak", 0, "made", 800)
            .row("*", "steaks", "loin", "trim", 0, "made", 200)
            .row("*", "joints", "loin", "joint", 0, "made", 900)
            .row("*", "joints", "loin", "trim", 0, "made", 100)
            .row("*", "trim", "loin", "trim", 0, "made", 1000)
            .row("*", "steaks", "rump", "rump-steak", 0, "made", 700)
            .row("*", "steaks", "rump", "trim", 0, "made", 300)
            .row("*", "joints", "rump", "joint", 0, "made", 900)
            .row("*", "joints", "rump", "trim", 0, "made", 100)
            .specification("steaks", "loin", "steaks")
            .specification("steaks", "rump", "steaks")
            .specification("joints", "loin", "joints")
            .specification("joints", "rump", "joints")
            .build());

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    /** A kg of loin is worth 17 as steaks, 11.3 as joints and 5 as trim; of rump 11.3 as joints and 9.2 as steaks. */
    private static final PriceList PRICES = PriceList.builder("EUR")
            .cut("loin-steak", 20)
            .cut("rump-steak", 11)
            .kind(CutKind.JOINT, 12)
            .kind(CutKind.LEAN_TRIM, 5)
            .kind(CutKind.LOSS, 0)
            .build();

    private static final SizeWindow WINDOW = new SizeWindow("loin", "steaks", 0, 10, "joints");

    private static final PackFit FIT = PackFit.of(Valuer.of(PRICES, ESTIMATOR), List.of(WINDOW));

    private static Carcass steer(double kg) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), kg);
    }

    @Test
    void aMisfitCostsTheDifferenceOfTheWaysOnWhatIsTooHeavy() {
        PackedValue value = FIT.value(steer(400));
        Downgrade downgrade = value.downgrades().get(0);

        // 20 kg of loin in two pieces of 10 kg: half of them are too heavy, and those weigh more than the others
        assertThat(value.downgrades()).hasSize(1);
        assertThat(downgrade.chance().above()).isCloseTo(0.5, within(1e-9));
        assertThat(downgrade.lossPerKg()).isCloseTo(17 - 11.3, within(1e-9));
        assertThat(downgrade.kg()).isGreaterThan(10).isLessThan(11);
        assertThat(value.amount()).isCloseTo(20 * 17 + 24 * 9.2, within(1e-9));
        assertThat(value.expected()).isCloseTo(value.amount() - downgrade.kg() * 5.7, within(1e-9));
    }

    /** Halls of 5 g/kg take loin from the rest: a shared error of 2 kg a carcass of 400 kg, 1 kg a piece. */
    @Test
    void whatAHallDoesOtherwiseIsInTheChancesOnlyIfAskedFor() {
        YieldTable table = YieldTable.of(TestTables.share(TABLE.definition(), row -> switch (row.cut()) {
                    case "loin", "rest" -> SharedSds.of(0, 0, 5);
                    default -> SharedSds.of(0, 0, 0);
                })
                .build());
        YieldEstimator estimator = YieldEstimator.of(table);
        PieceWeight here = PieceWeight.of(estimator.estimate(steer(400)), "loin");
        PieceWeight anywhere = PieceWeight.inAnyHall(estimator.estimate(steer(400)), "loin");

        assertThat(here).isEqualTo(PieceWeight.of(ESTIMATOR.estimate(steer(400)), "loin"));
        assertThat(anywhere.sdKg()).isCloseTo(Math.hypot(here.sdKg(), 0.5 * 5e-3 * 400), within(1e-9));
        PackFit fit = PackFit.of(Valuer.of(PRICES, estimator), List.of(WINDOW));
        assertThat(fit.chances(steer(390)).get(0).above())
                .isEqualTo(FIT.chances(steer(390)).get(0).above());
        assertThat(fit.inAnyHall().chances(steer(390)).get(0).above())
                .isGreaterThan(FIT.chances(steer(390)).get(0).above() + 0.02);
        assertThat(fit.inAnyHall()).isNotEqualTo(fit);
    }

    /** Rump as joints in place of steaks gains 2.1 EUR a kg; what the rump weighs errs in both. */
    @Test
    void theBestWaysAreAsSureAsWhatTheyChange() {
        BestWays best = FIT.best(steer(300));
        Difference gain = best.uncertainty().orElseThrow();

        assertThat(gain.kg()).isCloseTo(300 * 0.06 * (11.3 - 9.2), within(1e-9));
        assertThat(gain.sdKg()).isCloseTo(300 * 4e-3 * (11.3 - 9.2), within(1e-9));
        // 37.80, and 1.64485 times 2.52 to either side
        assertThat(best.toText()).contains("""

                If every piece fits, 37.80 EUR more; 90 % sure, prices as given: 33.65 to 41.95
                90 % sure of what will be weighed: how carcasses of one grade differ
                """);
        PriceList equal = PRICES.toBuilder().kind(CutKind.JOINT, 9).build();
        assertThat(PackFit.of(Valuer.of(equal, ESTIMATOR), List.of())
                        .best(steer(300))
                        .uncertainty())
                .isEmpty();
    }

    @Test
    void theExpectedValueIsThatOfDrawnCarcassesCutPieceByPiece() {
        Carcass carcass = steer(390);
        Random random = new Random(11);
        double sum = 0;
        int draws = 100_000;
        for (DrawnCarcass drawn :
                ESTIMATOR.estimate(carcass).sample(random, draws).carcasses()) {
            sum += drawn.kg(Figure.cut("rump")) * 9.2;
            double loin = drawn.kg(Figure.cut("loin"));
            double apart = 0.03 * random.nextGaussian();
            for (double piece : new double[] {loin / 2 * (1 + apart), loin / 2 * (1 - apart)}) {
                sum += piece * (piece > 10 ? 11.3 : 17);
            }
        }

        assertThat(FIT.value(carcass).expected()).isCloseTo(sum / draws, within(0.5));
    }

    @Test
    void theBestWayOfEachCutIsFoundAndNeverReturnsLess() {
        for (double kg = 200; kg <= 600; kg += 20) {
            BestWays best = FIT.best(steer(kg));
            double joints = PackFit.of(Valuer.of(PRICES, ESTIMATOR.withSpecification("joints")), List.of(WINDOW))
                    .value(steer(kg))
                    .expected();

            assertThat(best.changed()).containsEntry("rump", "joints");
            assertThat(best.gain()).isGreaterThan(0);
            assertThat(best.best().expected()).isGreaterThanOrEqualTo(joints - 1e-9);
        }
        // what is left at 600 kg of pieces that fit is still worth more as steaks, for misfits go to joints anyway
        assertThat(FIT.best(steer(600)).best().specification().ways()).containsEntry("loin", "steaks");
        assertThat(FIT.best(steer(300)).gain()).isCloseTo(300 * 0.06 * (11.3 - 9.2), within(1e-9));
    }

    @Test
    void aMisfitThatIsWorthLessThanAnotherWayMakesThatWayTheBest() {
        SizeWindow toTrim = new SizeWindow("loin", "steaks", 0, 10, "trim");
        PackFit fit = PackFit.of(Valuer.of(PRICES, ESTIMATOR), List.of(toTrim));

        assertThat(fit.best(steer(300)).changed()).containsOnlyKeys("rump");
        assertThat(fit.best(steer(500)).changed())
                .containsEntry("rump", "joints")
                .containsEntry("loin", "joints");
    }

    @Test
    void whatABestWayRestsOnAndLeavesOutIsSaid() {
        BestWays best = FIT.best(steer(300));

        assertThat(best.assumed()).containsExactly("rump as joints");
        assertThat(best.toText())
                .endsWith(
                        "\nIt rests on figures that the maker of the table assumed, not weighed, for rump as joints: try that"
                                + " on the line before you count on it.\n"
                                + "Chances are those of pieces in a hall that cuts as the table does; how your hall differs"
                                + " from the table is left out\n"
                                + "This is no settlement: payment follows the contract and the official weights and grades.\n");
        // weighed in a trial of one's own it is no assumption
        TableDefinition.Builder weighed = TABLE.definition().toBuilder();
        weighed.source(new SourceRow("trial", SourceKind.PUBLISHED, "Made for a test", ""));
        weighed.clearBreakdown();
        TABLE.definition().breakdown().stream()
                .map(row -> new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        "trial"))
                .forEach(weighed::row);
        PackFit measured =
                PackFit.of(Valuer.of(PRICES, YieldEstimator.of(YieldTable.of(weighed.build()))), List.of(WINDOW));
        assertThat(measured.best(steer(300)).changed()).isEqualTo(best.changed());
        assertThat(measured.best(steer(300)).assumed()).isEmpty();
        assertThat(measured.best(steer(300)).toText()).doesNotContain("assumed");
    }

    @Test
    void whereWaysAreEqualTheFixedOneStays() {
        PriceList equal =
                PRICES.toBuilder().cut("rump-steak", (11.3 - 1.5) / 0.7).build();
        BestWays best = PackFit.of(Valuer.of(equal, ESTIMATOR), List.of()).best(steer(300));

        assertThat(best.changed()).isEmpty();
        assertThat(best.gain()).isEqualTo(0);
        assertThat(best).hasToString("No other way is expected to return more than steaks");
        // also beside a cut of which another way is better
        PackFit other = PackFit.of(Valuer.of(equal, ESTIMATOR.with("loin", "trim")), List.of());
        assertThat(other.best(steer(300)).changed()).isEqualTo(Map.of("loin", "steaks"));
        PackFit both = PackFit.of(Valuer.of(equal, ESTIMATOR.withSpecification("joints")), List.of());
        assertThat(both.best(steer(300)).changed()).isEqualTo(Map.of("loin", "steaks"));
    }

    @Test
    void aWayWithoutPricesIsLeftOutAndNamed() {
        PriceList noJoints = PriceList.builder("EUR")
                .kind(CutKind.STEAK, 10)
                .kind(CutKind.LEAN_TRIM, 5)
                .kind(CutKind.LOSS, 0)
                .build();
        BestWays best = PackFit.of(Valuer.of(noJoints, ESTIMATOR), List.of()).best(steer(300));

        assertThat(best.changed()).isEmpty();
        assertThat(best.unpriced())
                .containsOnlyKeys("loin as joints", "rump as joints", "specification joints")
                .allSatisfy((way, reason) -> assertThat(reason).startsWith("no price is given for joint (joint)"));
        assertThatThrownBy(() -> PackFit.of(Valuer.of(noJoints, ESTIMATOR), List.of(WINDOW)))
                .hasMessageStartingWith("pieces of loin that don't fit go as joints: no price is given for joint");
    }

    @Test
    void aWindowCountsOnlyInTheWayThatNeedsIt() {
        PackFit joints = PackFit.of(Valuer.of(PRICES, ESTIMATOR.withSpecification("joints")), List.of(WINDOW));
        PackFit any = PackFit.of(
                Valuer.of(PRICES, ESTIMATOR.withSpecification("joints")),
                List.of(new SizeWindow("loin", "*", 8, 10, "")));

        assertThat(joints.chances(steer(400))).isEmpty();
        assertThat(joints.value(steer(400)).downgrades()).isEmpty();
        assertThat(FIT.chances(steer(400))).hasSize(1);
        assertThat(any.chances(steer(400))).hasSize(1);
        assertThat(any.value(steer(400)).expected())
                .isEqualTo(any.value(steer(400)).amount());
    }

    @ParameterizedTest
    @CsvSource({"0.05", "0.5", "0.9"})
    void fromSomeWeightOnPiecesAreTooHeavy(double chance) {
        double kg = FIT.tooHeavyFrom(steer(300), WINDOW, chance).orElseThrow();

        assertThat(PieceWeight.of(ESTIMATOR.estimate(steer(kg)), "loin").chanceAbove(10))
                .isCloseTo(chance, within(2e-4));
        assertThat(PieceWeight.of(ESTIMATOR.estimate(steer(kg - 0.02)), "loin").chanceAbove(10))
                .isLessThan(chance);
    }

    @Test
    void noWeightOrEveryWeightMayBeTooHeavy() {
        assertThat(FIT.tooHeavyFrom(steer(300), new SizeWindow("loin", "*", 0, INFINITE, ""), 0.05))
                .isEmpty();
        assertThat(FIT.tooHeavyFrom(steer(300), new SizeWindow("loin", "*", 0, 1, ""), 0.05))
                .hasValue(TABLE.definition().allowed().weightKg().low());
        assertThatThrownBy(() -> FIT.tooHeavyFrom(steer(300), WINDOW, 1))
                .hasMessage("chance 1.0 is outside 0 to 1 (both excluded)");
    }

    @Test
    void theWeightsStandByGrade() {
        assertThat(FIT.tooHeavyTable(Category.STEER, WINDOW, 0.5).toText())
                .startsWith("cold weight, kg  fat 1  fat 2  fat 3  fat 4  fat 5\n")
                .contains("\nS                  400    400    400    400    400\n")
                .contains("\nP                  400    400    400    400    400\n");
        assertThat(FIT.tooHeavyTable(Category.STEER, new SizeWindow("loin", "*", 0, 40, ""), 0.5)
                        .toText())
                .contains("\nR                    -      -      -      -      -\n");
    }

    @Test
    void aLotIsSummedUp() {
        PackSummary summary =
                PackSummary.collector(FIT).add(steer(300)).add(steer(400)).result();
        double gain = FIT.best(steer(300)).gain() + FIT.best(steer(400)).gain();
        double cost = FIT.value(steer(300)).downgrades().get(0).amount()
                + FIT.value(steer(400)).downgrades().get(0).amount();

        assertThat(summary.carcasses()).isEqualTo(2);
        assertThat(summary.gain()).isCloseTo(gain, within(1e-9));
        assertThat(summary.cost()).isCloseTo(cost, within(1e-9));
        assertThat(summary.toText()).isEqualTo("""
            window                              carcasses  too light, %  fits, %  too heavy, %  other way, kg  costs, EUR
            -------------------------------------------------------------------------------------------------------------
            Loin as steaks, pieces up to 10 kg          2           0.0     75.0          25.0           10.7       60.89

            Chances are those of pieces in a hall that cuts as the table does; how your hall differs from the table is left out
            Cut the best way, carcass by carcass, the lot is expected to return 88.20 EUR more, labour not counted; what changes, and in how many carcasses: Rump as joints (2)
            It rests on figures that the maker of the table assumed, not weighed, for Rump as joints: try that on the line before you count on it.
            This is no settlement: payment follows the contract and the official weights and grades.
            """);
        assertThat(summary.toHtml()).contains("<td").contains("Rump as joints (2)</p>");
        assertThat(PackSummary.collector(
                                PackFit.of(Valuer.of(PRICES, ESTIMATOR.withSpecification("joints")), List.of(WINDOW)))
                        .result()
                        .toText())
                .isEqualTo("No other way of cutting is expected to return more\n" + Cautions.NO_SETTLEMENT + "\n");
    }

    @Test
    void windowsThatCanNotBeAreRefused() {
        Valuer valuer = Valuer.of(PRICES, ESTIMATOR);
        assertThatThrownBy(() -> PackFit.of(valuer, List.of(new SizeWindow("lion", "*", 0, 10, ""))))
                .hasMessage("no cut \"lion\"; nearest: loin, rump, rest");
        assertThatThrownBy(() -> PackFit.of(valuer, List.of(new SizeWindow("rest", "*", 0, 10, ""))))
                .hasMessage("cut \"rest\" isn't sold by the piece, so that no window is for it");
        assertThatThrownBy(() -> PackFit.of(valuer, List.of(new SizeWindow("loin", "stakes", 0, 10, "joints"))))
                .hasMessage("no way \"stakes\" of loin; its ways: joints, steaks, trim");
        assertThatThrownBy(() -> PackFit.of(valuer, List.of(WINDOW, WINDOW)))
                .hasMessage("two windows are for loin as steaks");
    }

    @Test
    void theTableAddsUpToAHundredPerCent() {
        assertThat(FIT.value(steer(400)).table().toText()).isEqualTo("""
            window                              mean piece, kg  too light, %  fits, %  too heavy, %  other way, kg  costs, EUR
            ------------------------------------------------------------------------------------------------------------------
            loin as steaks, pieces up to 10 kg           10.00           0.0     50.0          50.0          10.68       60.89
            """);
        assertThat(FIT.best(steer(300)))
                .hasToString("rump as joints: expected to return 37.80 EUR more than steaks, labour not counted");
    }

    @Test
    void moneyHasTheDecimalsOfThePriceList() {
        PriceList whole = PriceList.builder("JPY")
                .decimals(0)
                .cut("loin-steak", 20)
                .cut("rump-steak", 11)
                .kind(CutKind.JOINT, 12)
                .kind(CutKind.LEAN_TRIM, 5)
                .kind(CutKind.LOSS, 0)
                .build();
        BestWays best = PackFit.of(Valuer.of(whole, ESTIMATOR), List.of(WINDOW)).best(steer(400));

        // 340 for the loin and 220.8 for the rump, less 60.89 for pieces that don't fit; the rump is worth 50.4 more as
        // joints
        assertThat(best.fixed()).hasToString("Cut as steaks, expected 500 JPY of 561 if every piece fitted");
        assertThat(best.fixed().table().toText()).isEqualTo("""
            window                              mean piece, kg  too light, %  fits, %  too heavy, %  other way, kg  costs, JPY
            ------------------------------------------------------------------------------------------------------------------
            loin as steaks, pieces up to 10 kg           10.00           0.0     50.0          50.0          10.68          61
            """);
        assertThat(best).hasToString("rump as joints: expected to return 50 JPY more than steaks, labour not counted");
    }

    private static PackSummary.Collector collected(List<Carcass> carcasses) {
        PackSummary.Collector collector = PackSummary.collector(FIT);
        carcasses.forEach(collector::add);
        return collector;
    }

    @Test
    void partsOfALotAreMergedAsIfOneHadSeenThemAll() {
        List<Carcass> lot = List.of(steer(300), steer(400), steer(350), steer(420));
        PackSummary all = collected(lot).result();

        for (int split = 0; split <= lot.size(); split++) {
            PackSummary.Collector second = collected(lot.subList(split, lot.size()));
            PackSummary.Collector both = collected(lot.subList(0, split)).add(second);
            assertThat(both.result().toText()).isEqualTo(all.toText());
            assertThat(second.result().carcasses()).isEqualTo(lot.size() - split);
            PackSummary turned = second.add(collected(lot.subList(0, split))).result();
            assertThat(turned.carcasses()).isEqualTo(4);
            assertThat(turned.gain()).isCloseTo(all.gain(), within(1e-9));
            assertThat(turned.cost()).isCloseTo(all.cost(), within(1e-9));
            assertThat(turned.toText()).isEqualTo(all.toText());
        }
    }

    @Test
    void aSummaryStaysAsItIsWhenMoreIsCollected() {
        PackSummary.Collector collector = collected(List.of(steer(300)));
        PackSummary before = collector.result();
        String text = before.toText();
        collector.add(steer(400));

        assertThat(before.carcasses()).isEqualTo(1);
        assertThat(before.toText()).isEqualTo(text);
        assertThat(collector.result().carcasses()).isEqualTo(2);
    }

    @Test
    void summariesOfOtherPacksAreNotMerged() {
        PackFit other = PackFit.of(Valuer.of(PRICES, ESTIMATOR), List.of());
        assertThatThrownBy(() -> PackSummary.collector(FIT).add(PackSummary.collector(other)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("summaries go together only of one and the same pack fit");
    }
}
