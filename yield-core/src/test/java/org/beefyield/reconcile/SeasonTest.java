package org.beefyield.reconcile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.RunBalance;
import org.beefyield.frame.Frame;
import org.beefyield.stats.ControlChart;
import org.beefyield.stats.FalseDiscovery;
import org.beefyield.stats.RandomEffects;
import org.junit.jupiter.api.Test;

/** A season with three faults: a joint trimmed too hard for three runs, boxes of one steak labelled as another, fat that nobody weighed. */
class SeasonTest {
    private static final int RUNS = 40;
    private static final int TRIMMED = 30;
    private static final int LABELS = 36;
    private static final int NO_FAT = 38;

    private static double factor(int run, String group) {
        return switch (group) {
            case "Brisket joint" -> run >= TRIMMED && run < TRIMMED + 3 ? 0.8 : 1;
            case "Rump steak" -> run == LABELS ? 1.3 : 1;
            case "Striploin steak" -> run == LABELS ? 0.66 : 1;
            default -> 1.0;
        };
    }

    private static List<BoningRun> runs() {
        List<BoningRun> runs = new ArrayList<>(TestRuns.season("Mereside", RUNS, 5, SeasonTest::factor));
        BoningRun one = runs.get(NO_FAT);
        runs.set(
                NO_FAT,
                new BoningRun(
                        one.hall(),
                        one.day(),
                        one.weighing(),
                        one.intake(),
                        one.boxes(),
                        one.rest().subList(0, 1)));
        return runs;
    }

    private static final Season SEASON = Season.of(runs(), TestRuns.VALUER, TestRuns.PRODUCTS);

    @Test
    void itSaysWhatWasOffSinceWhenAndForHowMuchMoney() {
        assertThat(SEASON.toText()).isEqualTo("""
                Mereside: 40 runs, 2026-09-01 to 2026-10-10; 3 alarms
                100 runs of the 8 groups together hold one false alarm on average at most, if runs differ by chance; the first 20 runs are learnt from and not judged
                Where nothing is wrong, a group is called out in one run of twenty at most
                Mereside 2026-10-09: 753.8 kg of 3837.2 kg boned (19.6 %) are unexplained; at most 2 % may be, so it is neither judged nor learnt from
                Last run, 2026-10-10, against what the hall's runs return: no group is called out

                group              weighed, kg  usual for this intake  90 % interval, kg: low    high  SDs off  alarm
                -----------------------------------------------------------------------------------------------------
                Striploin steak          152.2                  145.2                   137.3   153.1      1.5
                Rump steak               162.7                  160.5                   153.0   168.0      0.5
                Brisket joint            138.7                  138.4                   130.0   146.7      0.1
                Dice                    1059.7                 1061.1                  1023.7  1098.5     -0.1
                Lean trim                910.1                  880.7                   839.6   921.7      1.2
                Bone                     789.1                  756.4                   714.1   798.6      1.3
                Fat                      580.5                  652.3                   572.5   732.1     -1.5
                losses, unweighed         44.3                   44.6                    40.3    49.0     -0.1

                group            since       noticed     until       runs  g per kg of intake     kg       EUR
                ----------------------------------------------------------------------------------------------
                Brisket joint    2026-10-01  2026-10-01  2026-10-03     3               -7.92  -91.2  -1276.29
                Striploin steak  2026-10-07  2026-10-07  2026-10-07     1              -10.32  -39.6   -871.49
                Rump steak       2026-10-07  2026-10-07  2026-10-07     1               15.37   59.0   1297.76

                batch B36 of Mereside: 219.5 kg of RS boxed, 160.5 kg expected of its 12 carcasses: 59.0 kg or 12.0 SDs (4.90 kg each) too much
                One season in 20 at most has a batch that is named by chance

                g per kg of intake  runs  weighed less expected  90 % interval: low  high  SD from run to run   low   high
                ----------------------------------------------------------------------------------------------------------
                Striploin steak       38                   0.01               -0.32  0.35                0.83  0.50   1.22
                Rump steak            38                   0.06               -0.25  0.37                0.69  0.32   1.08
                Brisket joint         36                   0.35                0.00  0.70                0.88  0.56   1.28
                Dice                  39                  -0.86               -2.38  0.66                3.60  1.96   5.45
                Lean trim             39                   1.31               -0.39  3.01                4.94  3.61   6.73
                Bone                  39                  -0.97               -2.73  0.78                5.08  3.69   6.94
                Fat                   39                   0.46               -2.88  3.80                9.44  6.71  13.03
                losses, unweighed     39                   0.13               -0.05  0.30                0.42  0.22   0.63

                How runs differ is learnt from runs in no alarm; what carcasses and lots make in a run is taken off before. An SD from 0 to 0: runs differ less than that
                """);
        assertThat(SEASON).hasToString("Mereside: 40 runs, 2026-09-01 to 2026-10-10; 3 alarms");
    }

    @Test
    void aSeasonThatIsTooShortSaysSo() {
        assertThat(Season.of(runs().subList(0, 3), TestRuns.ESTIMATOR, TestRuns.PRODUCTS)
                        .toText())
                .startsWith("""
                        Mereside: 3 runs, 2026-09-01 to 2026-09-03; 0 alarms
                        100 runs of the 8 groups together hold one false alarm on average at most, if runs differ by chance; the first 20 runs are learnt from and not judged
                        Where nothing is wrong, a group is called out in one run of twenty at most
                        3 runs that balance are too few to judge one; it takes more than 20
                        """);
    }

    @Test
    void anAlarmIsWorthItsKgAtThePricesOfItsRuns() {
        SeasonAlarm alarm = SEASON.alarms().get(0);
        ControlChart chart = SEASON.chart("Brisket joint");
        double gPerKg = chart.difference(chart.alarms().get(0));
        double intakeT = 0;
        for (int run = TRIMMED; run < TRIMMED + 3; run++) {
            intakeT += SEASON.judged().get(run).intakeKg() / 1000;
        }
        assertThat(alarm.group()).isEqualTo("Brisket joint");
        assertThat(alarm.since()).isEqualTo(TestRuns.name("Mereside", TRIMMED));
        assertThat(alarm.until()).isEqualTo(TestRuns.name("Mereside", TRIMMED + 2));
        assertThat(alarm.kg()).isCloseTo(gPerKg * intakeT, within(1e-9));
        // a joint is 14 EUR a kg
        assertThat(alarm.money().orElseThrow().amount().doubleValue()).isCloseTo(14 * gPerKg * intakeT, within(0.005));
    }

    /** What vanishes is neither meat nor bone any more: it takes away what a kg of the intake brings. */
    @Test
    void lossesTakeMoneyAway() {
        Season season = Season.of(
                TestRuns.season(
                        "Mereside",
                        RUNS,
                        5,
                        (run, group) -> group.equals(Reconciliation.LOSSES) && run == 33 ? 1.3 : 1),
                TestRuns.VALUER,
                TestRuns.PRODUCTS);
        SeasonAlarm alarm = season.alarms().stream()
                .filter(one -> one.group().equals(Reconciliation.LOSSES))
                .findFirst()
                .orElseThrow();
        Reconciliation run = season.judged().get(33);
        double brought = run.lines().stream()
                .mapToDouble(line -> line.figures().price() * line.scaledKg())
                .sum();
        assertThat(alarm.kg()).isBetween(8.0, 16.0);
        assertThat(alarm.money().orElseThrow().amount().doubleValue())
                .isCloseTo(-alarm.kg() * brought / run.intakeKg(), within(0.005))
                .isBetween(-100.0, -40.0);
        assertThat(season.toText())
                .contains(
                        "A kg of losses takes away what a kg of the intake brings; in the table of a run it is worth nothing\n");
    }

    @Test
    void runsThatDoNotBalanceAreNeitherJudgedNorLearntFrom() {
        assertThat(SEASON.unbalanced()).extracting(RunBalance::run).containsExactly(TestRuns.name("Mereside", NO_FAT));
        assertThat(SEASON.judged()).hasSize(RUNS - 1);
        assertThat(SEASON.effects())
                .filteredOn(effect -> effect.group().equals("Bone"))
                .singleElement()
                .satisfies(effect -> assertThat(effect.runs()).isEqualTo(RUNS - 1));
    }

    /** What a run that doesn't balance weighed is data too, and so is what a difference is worth. */
    @Test
    void theFrameHasEveryRun() {
        Frame frame = SEASON.toFrame();
        assertThat(frame.rows()).isEqualTo(RUNS * 8);
        Frame unbalanced = frame.where(row -> row.text("balances").equals("no"));
        assertThat(unbalanced.texts("run"))
                .containsOnly(TestRuns.name("Mereside", NO_FAT))
                .hasSize(8);
        assertThat(unbalanced.numbers("score")).containsOnly(Double.NaN);
        assertThat(unbalanced.numbers("90 % interval low, g per kg")).containsOnly(Double.NaN);
        Frame brisket = frame.where(row -> row.text("group").equals("Brisket joint"));
        assertThat(brisket.texts("alarm").subList(TRIMMED - 1, TRIMMED + 4))
                .containsExactly("", "low", "low", "low", "");
        Reconciliation run = SEASON.runs().get(TRIMMED);
        assertThat(brisket.numbers("difference worth, EUR")[TRIMMED])
                .isCloseTo(14 * run.line("Brisket joint").differenceKg(), within(1e-9));
        assertThat(brisket.numbers("90 % interval low, g per kg")[TRIMMED])
                .isEqualTo(SEASON.bounds("Brisket joint", TRIMMED).orElseThrow().low());
    }

    @Test
    void aSeasonWhoseLastRunDoesNotBalanceSaysWhichOneIsShown() {
        assertThat(Season.of(runs().subList(0, NO_FAT + 1), TestRuns.ESTIMATOR, TestRuns.PRODUCTS)
                        .toText())
                .contains(
                        "\nLast run that balances, 2026-10-08, against what the hall's runs return: no group is called out\n");
    }

    @Test
    void withoutAnyRestItSaysWhyNoRunBalances() {
        List<BoningRun> bare = runs().subList(0, 2).stream()
                .map(run -> new BoningRun(run.hall(), run.day(), run.weighing(), run.intake(), run.boxes(), List.of()))
                .toList();
        assertThat(Season.of(bare, TestRuns.ESTIMATOR, TestRuns.PRODUCTS).toText())
                .contains("""

                        No bone, fat or other rest was weighed in any run; without it none balances
                        0 runs that balance are too few to judge one; it takes more than 20
                        """)
                .doesNotContain("false alarm on average");
    }

    /** SDs of parts that add up are those that a table states, but that of the fat happens to be too large for the others. */
    @Test
    void sdsOfGroupsThatAddUpAreTakenAsTheyAre() {
        double others = 0;
        double fat = 0;
        double closedFat = 0;
        for (RunEffect effect : SEASON.effects()) {
            if (effect.group().equals("Fat")) {
                fat = effect.sd();
                closedFat = effect.closedSd();
            } else {
                assertThat(effect.closedSd()).as(effect.group()).isCloseTo(effect.sd(), within(1e-12));
                others += effect.sd() * effect.sd();
            }
        }
        assertThat(closedFat).isCloseTo(Math.sqrt(others), within(1e-9)).isLessThan(fat);
    }

    @Test
    void otherLimitsAreOtherAlarms() {
        Season hasty = SEASON.judgedBy(10, 10);
        assertThat(hasty.board().baseline()).isEqualTo(10);
        assertThat(hasty.chart("Fat").points()).hasSize(RUNS - 1 - 10);
        assertThat(hasty.board().singleLimit()).isLessThan(SEASON.board().singleLimit());
        assertThat(hasty.calledOut(9)).isEmpty();
        assertThat(SEASON.calledOut(LABELS)).containsExactly("Striploin steak", "Rump steak");
    }

    /** A hall that always returns more dice than the table expects is no hall of mislabelled boxes. */
    @Test
    void whatAHallAlwaysReturnsMoreIsNoExcess() {
        Season season = Season.of(
                TestRuns.season("Overdale", 30, 6, (run, group) -> group.equals("Dice") ? 1.15 : 1),
                TestRuns.ESTIMATOR,
                TestRuns.PRODUCTS);
        assertThat(season.excess()).isEmpty();
        RandomEffects dice = season.chart("Dice").learnt().orElseThrow();
        assertThat(dice.mean()).isBetween(35.0, 47.0);
        // by the table alone each run of it has far too much
        assertThat(season.runs())
                .allSatisfy(run -> assertThat(
                                run.line("Dice").z(Reconciliation.partsOfRun()).orElseThrow())
                        .isGreaterThan(4));
    }

    /** With few runs nobody knows how the hall cuts, so how halls differ counts. */
    @Test
    void withoutABaselineHowHallsDifferIsAllowedFor() {
        List<BoningRun> one = TestRuns.season("Overdale", 1, 6, (run, group) -> group.equals("Dice") ? 1.075 : 1);
        assertThat(Season.of(one, TestRuns.ESTIMATOR, TestRuns.PRODUCTS).excess())
                .isEmpty();
        assertThat(Reconciler.reconcile(one.get(0), TestRuns.ESTIMATOR, TestRuns.PRODUCTS)
                        .line("Dice")
                        .z(Reconciliation.partsOfRun())
                        .orElseThrow())
                .isGreaterThan(FalseDiscovery.limit(TestRuns.PRODUCTS.size(), 0.05));
        List<BoningRun> twice = TestRuns.season("Overdale", 1, 6, (run, group) -> group.equals("Rump steak") ? 2.0 : 1);
        assertThat(Season.of(twice, TestRuns.ESTIMATOR, TestRuns.PRODUCTS).excess())
                .extracting(excess -> excess.expected().product())
                .containsExactly("RS");
    }
}
