package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.assertj.core.groups.Tuple;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.reconcile.WeighedRuns;
import org.beefyield.stats.Bounds;
import org.beefyield.table.TableOverride;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.junit.jupiter.api.Test;

class RunCalibrationTest {
    private static final List<String> CUTS =
            List.of("striploin-steak", "rump-steak", "brisket-joint", "dice", "lean-trim", "bone", "fat-trim");

    private static RunCalibration calibration(List<BoningRun> runs) {
        return RunCalibration.of(runs, RunHalls.ESTIMATOR, RunHalls.PRODUCTS);
    }

    private static YieldEstimator of(YieldTable table) {
        return YieldEstimator.of(table, table.specification("steaks"));
    }

    private static final List<Carcass> CARCASSES = carcasses();

    private static List<Carcass> carcasses() {
        RunHalls any = new RunHalls(99, false);
        return IntStream.range(0, 100).mapToObj(i -> any.carcass("C" + i)).toList();
    }

    /** Squared errors of what a table expects of cuts, (g/kg)². */
    private static double[] squares(YieldTable table, RunHalls hall, List<String> cuts) {
        LotEstimate lot = of(table).estimateLot(CARCASSES);
        double[] kg = new double[cuts.size()];
        for (Carcass carcass : CARCASSES) {
            Map<String, Double> truth = hall.truth(carcass);
            for (int i = 0; i < kg.length; i++) {
                kg[i] += RunHalls.of(truth, cuts.get(i)) * carcass.coldWeightKg() / 1000;
            }
        }
        return IntStream.range(0, kg.length)
                .mapToDouble(i -> Math.pow(1000 * (lot.kg("retail", cuts.get(i)) - kg[i]) / lot.coldWeightKg(), 2))
                .toArray();
    }

    private static double sum(double[] values) {
        return Arrays.stream(values).sum();
    }

    @Test
    void boxWeightsAloneBringWhatIsExpectedFiveTimesNearer() {
        double[] before = new double[CUTS.size()];
        double[] after = new double[CUTS.size()];
        int held = 0;
        for (int seed = 1; seed <= 3; seed++) {
            RunHalls hall = new RunHalls(seed, true);
            RunCalibrated calibrated = calibration(hall.runs(0, 30, 20, true)).fit();
            double[] was = squares(RunHalls.TABLE, hall, CUTS);
            double[] is = squares(calibrated.table("hall", "1"), hall, CUTS);
            for (int i = 0; i < was.length; i++) {
                before[i] += was[i];
                after[i] += is[i];
                held += is[i] <= Math.pow(1.645 * calibrated.groups().get(i).afterSd(), 2) ? 1 : 0;
            }
        }
        assertThat(Math.sqrt(sum(before) / sum(after))).isGreaterThan(5);
        for (int i = 0; i < before.length; i++) {
            assertThat(Math.sqrt(before[i] / after[i])).as(CUTS.get(i)).isGreaterThan(2.5);
        }
        // of 21 some 19 are to be held, errors of one hall not being independent
        assertThat(held).isBetween(15, 21);
    }

    /** Without chance in carcasses and runs what was weighed is what is expected then. */
    @Test
    void whatWasWeighedIsWhatTheNewTableExpectsWhereNothingIsChance() {
        RunHalls hall = new RunHalls(7, false);
        RunCalibrated calibrated = calibration(hall.runs(0, 30, 30, true)).fit();

        for (LearntGroup group : calibrated.groups()) {
            assertThat(group.afterGPerKg()).as(group.name()).isCloseTo(group.weighedGPerKg(), within(0.15));
            assertThat(Math.abs(group.beforeGPerKg() - group.weighedGPerKg()))
                    .as(group.name())
                    .isLessThan(3 * group.beforeSd());
            assertThat(group.afterSd()).as(group.name()).isLessThan(group.beforeSd() / 3);
        }
        double before = sum(squares(RunHalls.TABLE, hall, CUTS));
        assertThat(sum(squares(calibrated.table("hall", "1"), hall, CUTS))).isLessThan(before / 400);
    }

    /** The slopes that the fit goes by are those of the expectation, of quarters too. */
    @Test
    void whatAnUnknownDoesIsWhatItsChangeMakes() {
        RunHalls hall = new RunHalls(3, true);
        List<Intake> intake = new ArrayList<>();
        Map<String, Double> kg = new LinkedHashMap<>();
        for (int i = 0; i < 6; i++) {
            Carcass carcass = hall.carcass("Q" + i);
            IntakePart part = i < 2 ? IntakePart.CARCASS : i < 4 ? IntakePart.HINDQUARTER : IntakePart.SIDE;
            double weight =
                    carcass.coldWeightKg() * (part == IntakePart.CARCASS ? 1 : part == IntakePart.SIDE ? 0.5 : 0.24);
            intake.add(Intake.of(carcass, part, weight, Movement.BONED, ""));
            hall.truth(carcass).forEach((cut, share) -> kg.merge(cut, share * weight / 1000, Double::sum));
        }
        BoningRun run = RunHalls.run(0, intake, kg, true);
        RunModel model =
                new RunModel(WeighedRuns.of(List.of(run), RunHalls.ESTIMATOR, RunHalls.PRODUCTS), RunHalls.ESTIMATOR);
        List<List<RunModel.Loading>> loadings = IntStream.range(0, model.breakdowns.size())
                .mapToObj(b -> model.loadings(b, 0))
                .toList();
        double[] whole = new double[model.breakdowns.size()];
        Arrays.fill(whole, 1);
        double[][] slopes = model.fit(loadings).meanSlopes();

        double[] none = model.expected(loadings, new double[model.unknowns()], whole)[0];
        double most = 0;
        for (int m = 0; m < model.unknowns(); m++) {
            double[] z = new double[model.unknowns()];
            z[m] = 1e-4;
            double[] moved = model.expected(loadings, z, whole)[0];
            for (int g = 0; g < moved.length; g++) {
                assertThat((moved[g] - none[g]) / 1e-4).isCloseTo(slopes[g][m], within(1e-3));
                most = Math.max(most, Math.abs(slopes[g][m]));
                assertThat(none[g]).isCloseTo(model.expected[0][g], within(1e-9));
            }
        }
        assertThat(most).isGreaterThan(5);
        assertThat(model.unknowns()).isGreaterThan(15);
    }

    @Test
    void aRunBeyondTheBalanceLimitIsNamedAndTeachesNothing() {
        List<BoningRun> runs = new ArrayList<>(new RunHalls(4, true).runs(0, 8, 15, true));
        YieldTable without = calibration(runs.subList(0, 7)).fit().table("hall", "1");
        BoningRun last = runs.get(7);
        List<Box> some = last.boxes().subList(1, last.boxes().size());
        runs.set(7, new BoningRun(last.hall(), last.day(), last.weighing(), last.intake(), some, last.rest()));

        RunCalibrated calibrated = calibration(runs).fit();

        assertThat(calibrated.runs()).hasSize(7);
        assertThat(calibrated.unbalanced()).hasSize(1);
        assertThat(calibrated.toText()).contains("Mereside 2026-03-09: ").contains(", so it taught nothing\n");
        assertThat(calibrated.table("hall", "1").digest()).isEqualTo(without.digest());
        Box left = last.boxes().get(0);
        assertThat(calibration(List.of(runs.get(7))).fit().isMoved())
                .as(left.id())
                .isFalse();
    }

    @Test
    void runsAndTrialsTogetherAreNearerThanEither() {
        double[] errors = new double[3];
        List<String> cuts = CUTS;
        for (int seed = 11; seed <= 14; seed++) {
            RunHalls hall = new RunHalls(seed, true);
            // few trials, of tissues alone; runs in which bone and fat go into one bin
            YieldTable ofTrials = Calibration.of(TrialSet.of(RunHalls.TABLE, hall.trials(8)))
                    .fit()
                    .table("trials", "1");
            List<BoningRun> runs = hall.runs(0, 15, 20, false);
            YieldTable ofRuns = calibration(runs).fit().table("runs", "1");
            YieldTable ofBoth = RunCalibration.of(runs, of(ofTrials), RunHalls.PRODUCTS)
                    .fit()
                    .table("both", "1");
            errors[0] += sum(squares(ofTrials, hall, cuts));
            errors[1] += sum(squares(ofRuns, hall, cuts));
            errors[2] += sum(squares(ofBoth, hall, cuts));
        }
        assertThat(errors[2]).isLessThan(0.8 * errors[0]).isLessThan(0.8 * errors[1]);
    }

    @Test
    void theTableKeepsWhatRunsDoNotTellAndItsHallIsKnown() {
        RunHalls hall = new RunHalls(5, true);
        YieldTable table = calibration(hall.runs(0, 12, 20, true)).fit().table("hall", "1");

        assertThat(table.definition().breakdown())
                .filteredOn(row -> row.parent().equals("meat"))
                .hasSize(4)
                .allSatisfy(row -> {
                    BreakdownRow before = RunHalls.rows("meat").stream()
                            .filter(was -> was.cut().equals(row.cut()))
                            .findFirst()
                            .orElseThrow();
                    assertThat(row.category()).isEqualTo("*");
                    assertThat(row.shared())
                            .isEqualTo(new SharedSds(
                                    before.shared().lotGPerKg(), before.shared().runGPerKg(), 0.0));
                    assertThat(row.sdGPerKg()).isEqualTo(before.sdGPerKg());
                    assertThat(row.coefficients().subList(1, 8)).as("slopes").hasSize(7);
                    assertThat(row.source()).isEqualTo("runs-hall");
                });
        assertThat(table.definition().coefficientNotes())
                .filteredOn(note -> note.parent().equals("meat") && note.cut().equals("rump"))
                .extracting(CoefficientNote::term, CoefficientNote::source)
                .containsExactlyInAnyOrder(
                        Tuple.tuple("lot_sd_g_per_kg", TestTables.SOURCE),
                        Tuple.tuple("run_sd_g_per_kg", TestTables.SOURCE),
                        Tuple.tuple("sd_g_per_kg", TestTables.SOURCE));
        assertThat(table.definition().covariances())
                .extracting(CovarianceRow::parent)
                .contains("carcass", "meat", "rump", "brisket");
        // what wasn't cut is as it was
        assertThat(table.definition().breakdown())
                .filteredOn(row -> row.way().equals("joints"))
                .containsExactlyElementsOf(RunHalls.TABLE.definition().breakdown().stream()
                        .filter(row -> row.way().equals("joints"))
                        .toList());
        assertThat(table.definition().sources())
                .filteredOn(source -> source.source().equals("runs-hall"))
                .singleElement()
                .satisfies(source -> {
                    assertThat(source.kind()).isEqualTo(SourceKind.DERIVED);
                    assertThat(source.citation()).isEqualTo("What 12 boning runs weighed, 2026-03-02 to 2026-03-13");
                });
        // the table's own interval of what was weighed isn't narrower than the report's
        RunCalibrated again = calibration(hall.runs(0, 12, 20, true)).fit();
        LotEstimate lot = of(again.table("hall", "1")).estimateLot(CARCASSES);
        for (int i = 0; i < 5; i++) {
            double own =
                    1000 * lot.sd(Figure.cut("retail", CUTS.get(i)), UncertaintyPart.COEFFICIENTS) / lot.coldWeightKg();
            assertThat(own).isGreaterThan(again.groups().get(i).afterSd());
        }
    }

    @Test
    void howManyCarcassesARunIsWorthIsARatioOfVariances() {
        List<BoningRun> runs = new RunHalls(6, true).runs(0, 3, 20, true);
        LearntGroup bone = calibration(runs).fit().group("Bone");

        // SDs of bone: 12 between carcasses, 3 between lots of 8, 8 and 4; weights differ by a tenth
        double within = 144 / 20.0 + 9 * (64 + 64 + 16) / 400.0;
        assertThat(bone.carcassesWorth()).isCloseTo(144 / (within + bone.runSd() * bone.runSd()), within(0.4));
        assertThat(bone.runs()).isEqualTo(3);
        assertThat(bone.products()).isEqualTo(1);
        // stated 2.4, which three runs hardly move
        assertThat(bone.runSd()).isBetween(1.8, 3.0);
    }

    @Test
    void aChangeIsToldAndOnlyWhatComesAfterItTeaches() {
        List<BoningRun> runs = new ArrayList<>(new RunHalls(8, true).runs(0, 20, 20, true));
        RunHalls changed = new RunHalls(8, true).with("striploin", "lean-trim", "striploin-steak", 40);
        List<BoningRun> later = changed.runs(20, 20, 20, true);
        runs.addAll(later);

        RunCalibration calibration = calibration(runs);
        RunCalibrated since = calibration.withChange("2026-03-22").fit();

        assertThat(calibration.fit().drifts()).isEmpty();
        assertThat(since.table("hall", "1").digest())
                .isEqualTo(calibration(later).fit().table("hall", "1").digest());
        assertThat(since.earlier()).hasSize(20);
        assertThat(since.drifts()).hasSize(7);
        Drift steak = since.drifts().get(0);
        assertThat(steak.group()).isEqualTo("Striploin steak");
        // 40 g of striploin are less than 2 of a carcass
        assertThat(steak.gPerKg()).isBetween(-3.0, -1.0);
        assertThat(steak.isBeyondChance()).isTrue();
        assertThat(since.toText())
                .contains("20 runs before the change on 2026-03-22 taught nothing\n")
                .contains("Striploin steak -")
                .contains(": change the table?\n");
        assertThat(since.drifts().stream().filter(Drift::isBeyondChance).count())
                .isLessThan(5);
    }

    @Test
    void aDriftSaysItsBoundsInPerCent() {
        Drift drift = new Drift("Striploin", 40, 30, -1.3, new Bounds(-1.65, -0.95), 50);

        assertThat(drift).hasToString("Striploin -2.6 % over 30 runs, -3.3 to -1.9: change the table?");
        assertThat(drift.percent()).hasValue(-2.6);
        assertThat(new Drift("Striploin", 40, 30, -0.1, new Bounds(-0.5, 0.3), 50))
                .hasToString("Striploin -0.2 % over 30 runs, -1.0 to +0.6: may be chance");
        assertThatThrownBy(() -> new Drift("Striploin", 1, 30, -1, new Bounds(-2, 0), 50))
                .hasMessage("Striploin: 1 runs before and 30 after; it takes two or more of each to tell a change");
    }

    @Test
    void aChangeNeedsRunsOnBothSides() {
        RunCalibration calibration = calibration(new RunHalls(1, true).runs(0, 4, 10, true));

        assertThatThrownBy(() -> calibration.withChange("2026-03-05"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a change on 2026-03-05 has 3 runs that balance before it and 1 from it on; it takes two or"
                        + " more of each, and there are runs from 2026-03-02 to 2026-03-05");
    }

    /** 60 g/kg less fat trim leave less than none on the leanest. */
    @Test
    void aHallWithWhichNoTableHoldsIsHeldBack() {
        RunHalls hall = new RunHalls(2, false).with("carcass", "meat", "fat-trim", 60);

        RunCalibrated calibrated = calibration(hall.runs(0, 20, 20, true)).fit();

        assertThat(calibrated.heldBack()).isNotEmpty();
        HeldBack held = calibrated.heldBack().get(0);
        assertThat(held.breakdown()).isEqualTo("carcass");
        // a hall that differs in proportion is no further from its runs, and has fat left on the leanest
        assertThat(held.bend()).isPositive();
        assertThat(held.part()).isEqualTo(1);
        assertThat(calibrated.toText()).contains("breakdown of carcass moved").contains(", for else: ");
        assertThat(calibrated.isMoved()).isTrue();
        assertThat(sum(squares(calibrated.table("hall", "1"), hall, CUTS)))
                .isLessThan(sum(squares(RunHalls.TABLE, hall, CUTS)) / 2);
    }

    @Test
    void theReportBeginsWithTheAnswerAndSaysWhatCannotBeToldApart() {
        List<BoningRun> runs = new RunHalls(1, true).runs(0, 6, 15, true);
        List<Product> products = new ArrayList<>(RunHalls.PRODUCTS);
        products.set(3, new Product("DI", "Dice", Map.of("dice", 1.0, "lean-trim", 1.0)));

        RunCalibrated calibrated =
                RunCalibration.of(runs, RunHalls.ESTIMATOR, products).fit();

        assertThat(calibrated.toText())
                .startsWith(
                        "There is a table, learnt from 6 runs, Mereside 2026-03-02 to Mereside 2026-03-07 with what "
                                + RunHalls.TABLE.identity() + " knows, and it keeps all its promises\n"
                                + "Furthest from the table in use: ")
                .contains("Can't be told apart: Dice, Lean trim\n");
        assertThat(calibrated)
                .hasToString(calibrated.toText().lines().findFirst().orElseThrow());
        assertThat(calibrated.toHtml()).startsWith("<p>There is a table");
        assertThat(calibrated.group("Dice, Lean trim").products()).isEqualTo(2);
        assertThatThrownBy(() -> calibrated.group("Dice"))
                .hasMessage("no group \"Dice\" was weighed; there are Striploin steak, Rump steak, Brisket joint,"
                        + " Dice, Lean trim, Bone, Fat");
    }

    @Test
    void whatWasNeverWeighedTeachesNothingAndWhatLacksInOneRunIsMissingThere() {
        List<BoningRun> runs = new ArrayList<>(new RunHalls(1, true).runs(0, 6, 15, true));
        // the steaks of all runs go out as lean trim, and those of rump in one run
        runs.replaceAll(run -> relabelled(run, "SL"));
        runs.set(2, relabelled(runs.get(2), "BJ"));

        RunCalibrated calibrated = calibration(runs).fit();

        assertThat(calibrated.neverWeighed()).containsExactly("Striploin steak");
        assertThat(calibrated.toText())
                .contains("Expected and never weighed, so nothing was learnt of it: Striploin steak\n");
        assertThat(calibrated.group("Brisket joint").runs()).isEqualTo(5);
        assertThat(calibrated.group("Rump steak").runs()).isEqualTo(6);
    }

    private static BoningRun relabelled(BoningRun run, String product) {
        List<Box> boxes = run.boxes().stream()
                .map(box -> box.product().equals(product) ? Box.of(box.id(), "LT", "", box.grossKg(), 0) : box)
                .toList();
        return new BoningRun(run.hall(), run.day(), run.weighing(), run.intake(), boxes, run.rest());
    }

    @Test
    void aTableThatSaysNothingOfItselfStaysAsItIs() {
        YieldTable stating = YieldTable.of(TestTables.threeLevels());
        List<BreakdownRow> primals = stating.definition().breakdown().stream()
                .filter(row -> row.parent().equals("meat"))
                .toList();
        YieldTable silent = TableOverride.of(stating, "silent", "1")
                .breakdown("meat", "*", primals, List.of(), List.of())
                .build();

        RunCalibrated calibrated = RunCalibration.of(
                        new RunHalls(1, true).runs(0, 6, 15, true), of(silent), RunHalls.PRODUCTS)
                .fit();

        assertThat(calibrated.isMoved()).isFalse();
        assertThat(calibrated.table("hall", "1").definition().breakdown())
                .isEqualTo(silent.definition().breakdown());
        assertThat(calibrated.toText())
                .startsWith("There is a table, and it is " + silent.identity()
                        + " unchanged: nothing could be learnt from 6")
                .contains("doesn't say how sure it is of the breakdown of carcass; meat; ");
    }

    @Test
    void runsThatDifferMoreThanStatedMoveTheSdsBetweenRuns() {
        List<BoningRun> runs = new RunHalls(9, true).withRuns(3).runs(0, 30, 30, true);

        RunCalibrated calibrated = calibration(runs).fit();

        // what is stated counts for 10 degrees of freedom
        assertThat(calibrated.runSdFactor()).isBetween(1.5, 3.0);
        assertThat(calibrated.toText()).contains("Runs differ otherwise than the table in use states");
        BreakdownRow bone = calibrated.table("hall", "1").definition().breakdown().stream()
                .filter(row -> row.cut().equals("bone"))
                .min(Comparator.comparing(BreakdownRow::category))
                .orElseThrow();
        assertThat(Objects.requireNonNull(bone.shared().runGPerKg()))
                .isCloseTo(12 / 5.0 * calibrated.runSdFactor(), within(1e-9));
        assertThat(calibration(new RunHalls(9, true).runs(0, 6, 30, true)).fit().runSdFactor())
                .isEqualTo(1);
    }

    @Test
    void minceIsRefused() {
        YieldEstimator mincing = RunHalls.ESTIMATOR.with(MinceTarget.fatPercent(20));

        assertThatThrownBy(
                        () -> RunCalibration.of(new RunHalls(1, true).runs(0, 1, 5, true), mincing, RunHalls.PRODUCTS))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("lean trim and fat trim as they come off the line");
    }
}
