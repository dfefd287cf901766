package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.junit.jupiter.api.Test;

class CalibrationTest {
    private static final YieldTable PRIOR = Halls.prior();
    private static final TableRange NARROW = TestTables.range(3, 13, 3, 13, 250, 430);

    private static final String[] ALL_TERMS =
            PRIOR.definition().coefficientColumns().toArray(String[]::new);

    /** In all terms, categories moving alike. */
    private static Calibration calibration(List<Trial> trials) {
        return calibration(PRIOR, trials);
    }

    private static Calibration calibration(YieldTable prior, List<Trial> trials) {
        return Calibration.of(TrialSet.of(prior, trials)).withTerms(ALL_TERMS).withCategories(Categories.TOGETHER);
    }

    private static List<Trial> withoutDays(List<Trial> trials) {
        return trials.stream().map(trial -> trial.withDay("")).toList();
    }

    private static List<String> words(Calibrated calibrated, Finding.Kind... kinds) {
        return calibrated.findings().stream()
                .filter(finding -> List.of(kinds).contains(finding.kind()))
                .map(Finding::toString)
                .toList();
    }

    private static List<Trial> change(List<Trial> trials, String day, UnaryOperator<Map<String, Double>> change) {
        List<Trial> changed = new ArrayList<>();
        for (Trial trial : trials) {
            changed.add(
                    day.isEmpty() || trial.day().equals(day)
                            ? Trial.of(trial.carcass(), change.apply(new LinkedHashMap<>(trial.kg())))
                                    .withDay(trial.day())
                            : trial);
        }
        return changed;
    }

    private static Map<String, Double> swapFatTrimAndBone(Map<String, Double> kg) {
        Map<String, Double> swapped = new HashMap<>(kg);
        swapped.put("bone", kg.get("fat-trim"));
        swapped.put("fat-trim", kg.get("bone"));
        return swapped;
    }

    private static Map<String, Double> leaveBoneInMeat(Map<String, Double> kg) {
        Map<String, Double> changed = new HashMap<>(kg);
        double left = 0.35 * kg.get("bone");
        changed.merge("bone", -left, Double::sum);
        changed.merge("meat", left, Double::sum);
        return changed;
    }

    private static Map<String, Double> times(Map<String, Double> kg, String cut, double factor) {
        Map<String, Double> changed = new HashMap<>(kg);
        changed.merge(cut, factor, (weight, by) -> weight * by);
        return changed;
    }

    /** What one choice for all children is for: with one for each they don't add up. */
    @Test
    void termsRowsOrWeightsChosenCutByCutWouldNotClose() {
        List<Trial> trials = Halls.trials(1, 60);
        Calibration calibration = calibration(trials);
        BreakdownFit one = calibration.fit().fit("carcass");

        for (Calibration other : List.of(
                calibration.withTerms("level_g_per_kg", "per_conformation_point"),
                calibration(trials.subList(0, 40)),
                calibration.withWeights(trial -> trial.carcass().coldWeightKg()))) {
            BreakdownFit ofMeat = other.fit().fit("carcass");
            double own = 0;
            double mixed = 0;
            for (String cut : one.cuts()) {
                own += ofMeat.coefficient(cut, "level_g_per_kg");
                mixed += (cut.equals("meat") ? ofMeat : one).coefficient(cut, "level_g_per_kg");
            }
            assertThat(own / 1000).isCloseTo(1, within(1e-12));
            assertThat(Math.abs(mixed - 1000)).isGreaterThan(0.01);
        }
    }

    /** Cows of the prior table are 20 g/kg fatter; here they also vary more, by a half in variance. */
    @Test
    void categoriesFittedTogetherKeepTheirDifferencesAndHowMuchTheyVary() {
        TableDefinition.Builder uneven = TestTables.small().toBuilder().clearBreakdown();
        TestTables.small().breakdown().stream()
                .map(row -> row.category().equals("D")
                        ? new BreakdownRow(
                                row.category(),
                                row.way(),
                                row.parent(),
                                row.cut(),
                                row.coefficients(),
                                Math.sqrt(625.25),
                                row.source())
                        : row)
                .forEach(uneven::row);
        YieldTable prior = YieldTable.of(uneven.build());
        List<Trial> trials = new ArrayList<>();
        for (Trial trial : Halls.trials(4, 120)) {
            Carcass of = trial.carcass();
            boolean isCow = trials.size() % 4 == 0;
            Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
            if (isCow) {
                kg.merge("meat", -0.020 * of.coldWeightKg(), Double::sum);
                kg.merge("fat-trim", 0.020 * of.coldWeightKg(), Double::sum);
            }
            trials.add(Trial.of(
                    Carcass.of(
                                    isCow ? Category.COW : Category.STEER,
                                    of.conformation(),
                                    of.fatClass(),
                                    of.coldWeightKg())
                            .withId(trial.id()),
                    kg));
        }

        Calibrated calibrated = calibration(prior, trials).fit();
        YieldTable table = calibrated.withAllowedRange(NARROW).table("hall", "1");

        // taking the difference off the cows and fitting all as steers is the same
        BreakdownFit asSteers = calibration(Halls.trials(4, 120).stream()
                        .map(trial -> Trial.of(trial.carcass(), trial.kg()))
                        .toList())
                .fit()
                .fit("carcass");
        BreakdownFit fit = calibrated.fit("carcass");
        List<BreakdownRow> meat = table.definition().breakdown().stream()
                .filter(row -> row.cut().equals("meat"))
                .toList();
        assertThat(meat).extracting(BreakdownRow::category).containsExactly("CE", "D");
        for (int j = 0; j < 4; j++) {
            double ofSteers = asSteers.coefficient("meat", fit.terms().get(j));
            assertThat(meat.get(0).coefficients().get(j)).isCloseTo(ofSteers, within(1e-8));
            assertThat(meat.get(1).coefficients().get(j)).isCloseTo(ofSteers - (j == 0 ? 20 : 0), within(1e-8));
        }
        assertThat(fit.coefficient("meat", "level_g_per_kg"))
                .isCloseTo(meat.get(0).coefficients().get(0) - 5, within(1e-8));
        // prior variances 400 + 400 + 100 + 1 of steers, 1351.5 of cows
        assertThat(meat.get(1).sdGPerKg() / meat.get(0).sdGPerKg()).isCloseTo(Math.sqrt(1.5), within(1e-9));
        assertThat(0.75 * Math.pow(meat.get(0).sdGPerKg(), 2)
                        + 0.25 * Math.pow(meat.get(1).sdGPerKg(), 2))
                .isCloseTo(Math.pow(fit.residualSd("meat"), 2), within(1e-8));
        assertThat(calibrated.toText()).contains("\n  no trial of category E: moved like the others\n");
    }

    @Test
    void whatMovedWithoutATrialOfItsCategoryIsCalledAnAssumption() {
        // steers and heifers are boned, cows not
        YieldTable table =
                calibration(Halls.trials(1, 120)).fit().withAllowedRange(NARROW).table("hall", "1");

        Map<String, String> sources = new TreeMap<>();
        for (BreakdownRow row : table.definition().breakdown()) {
            if (row.cut().equals("meat")) {
                sources.put(row.category(), row.source());
            }
        }
        assertThat(sources).isEqualTo(Map.of("CE", "trials-hall", "D", "trials-hall-moved"));
        assertThat(table.definition().sources())
                .filteredOn(source -> source.source().startsWith("trials-hall"))
                .extracting(SourceRow::kind, SourceRow::citation)
                .containsExactly(
                        tuple(
                                SourceKind.DERIVED,
                                "Boning trials of 120 carcasses on 12 days, 2026-10-01 to 2026-10-12"),
                        tuple(
                                SourceKind.ASSUMPTION,
                                "Moved as the categories that were boned, for none of this one was"));
    }

    @Test
    void aPriorThatIsRoundedIsTakenAsItsTableClosesIt() {
        TableDefinition.Builder rounded =
                TestTables.small().toBuilder().decimals("level_g_per_kg", 2).clearBreakdown();
        for (BreakdownRow row : TestTables.small().breakdown()) {
            List<Double> coefficients = new ArrayList<>(row.coefficients());
            coefficients.set(0, coefficients.get(0) + (row.cut().equals("meat") ? 0.02 : 0));
            rounded.row(new BreakdownRow(
                    row.category(), row.way(), row.parent(), row.cut(), coefficients, row.sdGPerKg(), row.source()));
        }
        YieldTable prior = YieldTable.of(rounded.build());

        BreakdownFit fit =
                Calibration.of(TrialSet.of(prior, Halls.trials(1, 40))).fit().fit("carcass");

        assertThat(fit.priorCoefficient("meat", "level_g_per_kg")).isCloseTo(1000 * 700.02 / 1000.02, within(1e-9));
        double sum = 0;
        for (String cut : fit.cuts()) {
            sum += fit.coefficient(cut, "level_g_per_kg");
        }
        assertThat(sum).isCloseTo(1000, within(1e-9));
    }

    @Test
    void aSoundTrialHasNoFindingsButItsFarthestCarcasses() {
        Calibrated calibrated = calibration(Halls.trials(1, 120)).fit();

        assertThat(calibrated.findings()).isEmpty();
        assertThat(calibrated.toText())
                .startsWith("Calibration of " + PRIOR.identity()
                        + "\n  There is a table, and it keeps all its promises. 120 trials accepted, 0 refused\n"
                        + "  Furthest from the table in use, of the carcass: meat 689.7 g/kg, -10.3, sure (90 %) to 3.6 g/kg\n"
                        + "  The trials speak of conformation 4 to 12, fat 4 to 12 and 261.3 to 418.3 kg;")
                .contains(
                        "\nFindings\n  none\n\nLeft out\n  none\n\nClosing\n  carcass: 120 carcasses, 0.80 % missing on"
                                + " average; closed by the loss in 120, in proportion in 0\n\nAs in the prior table\n  meat\n")
                .contains(
                        "Breakdown of carcass\n  120 carcasses on 12 days, learnt: all terms, 115.7 degrees of freedom; g per kg"
                                + " of carcass\n")
                .contains("\n  no trial of category D: moved like the others\n");
    }

    @Test
    void columnsThatAreSwappedThroughoutAreNamed() {
        Calibrated calibrated = calibration(change(Halls.trials(1, 120), "", CalibrationTest::swapFatTrimAndBone))
                .fit();

        assertThat(words(calibrated, Finding.Kind.SWAPPED))
                .containsExactly(
                        "breakdown of carcass: the columns fat-trim and bone look swapped: they average 184.2 and"
                                + " 121.3 g/kg where the prior table expects 110.8 and 185.8");
    }

    @Test
    void columnsThatAreSwappedOnADayAreNamedWithTheDay() {
        Calibrated calibrated = calibration(
                        change(Halls.trials(1, 120), "2026-10-03", CalibrationTest::swapFatTrimAndBone))
                .fit();

        assertThat(words(calibrated, Finding.Kind.DAY))
                .containsExactly("breakdown of carcass: day 2026-10-03 is off: its 10 carcasses average bone -58.1 g/kg"
                        + " (t = -8.5), fat-trim +50.2 g/kg (t = 5.9) against the fit, beyond what days differ by (t beyond 4.6); look at that day's"
                        + " scale, cutting and trimming; as if fat-trim and bone had been swapped");
    }

    @Test
    void aDayWithABadScaleIsNamedWithItsCuts() {
        Calibrated calibrated = calibration(change(Halls.trials(1, 120), "2026-10-03", kg -> times(kg, "meat", 0.985)))
                .fit();

        assertThat(words(calibrated, Finding.Kind.DAY))
                .containsExactly(
                        "breakdown of carcass: day 2026-10-03 is off: its 9 carcasses average loss +9.2 g/kg (t ="
                                + " 9.5) against the fit, beyond what days differ by (t beyond 4.6); look at that day's scale, cutting and trimming; more is"
                                + " missing than on other days, as if a scale read too little");
    }

    @Test
    void rowsOutOfBalanceAreLeftOutAndListed() {
        List<Trial> trials = new ArrayList<>();
        for (Trial trial : Halls.trials(1, 120)) {
            trials.addAll(change(List.of(trial), "", kg -> times(kg, "bone", trials.size() % 20 == 7 ? 0.9 : 1)));
        }

        Calibrated calibrated = calibration(trials).fit();

        assertThat(calibrated.toText())
                .contains("114 trials accepted, 6 refused\n")
                .contains("""
Left out
  carcass T-8: 8.0 kg of 266.1 kg (3.0 %) are missing; at most 2 % may
  carcass T-28: 7.7 kg of 366.7 kg (2.1 %) are missing; at most 2 % may
  carcass T-48: 7.3 kg of 269.7 kg (2.7 %) are missing; at most 2 % may
  carcass T-68: 7.8 kg of 350.4 kg (2.2 %) are missing; at most 2 % may
  carcass T-88: 10.8 kg of 400.2 kg (2.7 %) are missing; at most 2 % may
  carcass T-108: 6.4 kg of 265.8 kg (2.4 %) are missing; at most 2 % may

Closing
  carcass: 114 carcasses, 0.80 % missing on average; closed by the loss in 114, in proportion in 0
""");
    }

    @Test
    void aDayThatIsMostlyOutOfBalanceIsNamedToo() {
        Calibrated calibrated = calibration(change(Halls.trials(1, 120), "2026-10-03", kg -> times(kg, "meat", 0.97)))
                .fit();

        assertThat(calibrated.toText())
                .contains(
                        "are missing; at most 2 % may\n  day 2026-10-03: 10 of 10 trials are refused; look at that day's"
                                + " scale\n\nClosing");
    }

    @Test
    void aCarcassBeyondChanceIsNamed() {
        List<Trial> trials = new ArrayList<>(Halls.trials(1, 120));
        trials.set(
                4,
                change(trials.subList(4, 5), "", CalibrationTest::swapFatTrimAndBone)
                        .get(0));

        assertThat(words(calibration(trials).fit(), Finding.Kind.OUTLIER))
                .containsExactly("breakdown of carcass: carcass T-5 is beyond chance: bone -99.2 g/kg (t = -13.0)"
                        + " against the fit (t beyond 4.0); as if fat-trim and bone had been swapped");
    }

    @Test
    void ofManyCarcassesBeyondChanceOrFarAwayTenAreNamedAndTheRestCounted() {
        List<Trial> trials = new ArrayList<>(Halls.trials(1, 800));
        for (int i = 0; i < 12; i++) {
            trials.set(
                    60 * i,
                    change(trials.subList(60 * i, 60 * i + 1), "", CalibrationTest::leaveBoneInMeat)
                            .get(0));
            Carcass far = Carcass.of(Category.STEER, Conformation.parse("E+"), FatClass.parse("1-"), 470 + i)
                    .withId("F-" + i);
            trials.add(Trial.of(far, Halls.kg(far, Halls.shares(new Random(i), far))));
        }

        Calibrated calibrated = calibration(trials).fit();

        assertThat(words(calibrated, Finding.Kind.OUTLIER))
                .hasSize(11)
                .last()
                .isEqualTo("breakdown of carcass: 2 more carcasses are beyond chance");
        assertThat(words(calibrated, Finding.Kind.LEVERAGE))
                .singleElement()
                .asString()
                .startsWith("breakdown of carcass: 12 carcasses weigh more than three times the average in the fit"
                        + " (leverage above 0.01): F-11 (")
                .endsWith(") and 2 more; check their grades and weights first");
    }

    @Test
    void carcassesFarFromTheOthersAreNamed() {
        List<Trial> trials = new ArrayList<>(Halls.trials(1, 60));
        Carcass far = Carcass.of(Category.STEER, Conformation.parse("E+"), FatClass.parse("1-"), 480)
                .withId("T-99");
        trials.add(Trial.of(far, Halls.kg(far, Map.of("meat", 790.0, "fat-trim", 40.0, "bone", 160.0))));

        assertThat(words(calibration(trials).fit(), Finding.Kind.LEVERAGE))
                .containsExactly(
                        "breakdown of carcass: 1 carcass weighs more than three times the average in the fit (leverage"
                                + " above 0.20): T-99 (0.31); check their grades and weights first");
    }

    @Test
    void fewRowsAreSaidAndTooFewAreNotFitted() {
        assertThat(words(calibration(Halls.trials(1, 8)).fit(), Finding.Kind.FEW_ROWS))
                .containsExactly(
                        "breakdown of carcass: only 8 carcasses for 4 terms; the errors themselves are hardly known");
        // four carcasses for four terms leave nothing to tell errors by
        assertThat(calibration(Halls.trials(1, 4)).fit().fits())
                .allMatch(fit -> fit.terms().size() < 4 && fit.degreesOfFreedom() >= 1);
    }

    /**
     * 200 trials of 60 carcasses drawn from known coefficients. The share of 95 % intervals that hold the truth has a
     * standard error of about 0.7 points over the 2400 coefficients, of which about 1200 are independent; the 12 000 held-out
     * shares one of about 0.4 points, and their normal intervals hold about 0.5 points less than Student's would.
     */
    @Test
    void intervalsHoldTheTruthAsOftenAsTheySay() {
        int coefficients = 0;
        int held = 0;
        int shares = 0;
        int heldShares = 0;
        Random random = new Random(20261104);
        for (int trial = 0; trial < 200; trial++) {
            Calibrated calibrated = calibration(withoutDays(Halls.trials(1000 + trial, 60)))
                    .fit()
                    .withAllowedRange(NARROW);
            BreakdownFit fit = calibrated.fit("carcass");
            double t = new TDistribution(null, fit.degreesOfFreedom()).inverseCumulativeProbability(0.975);
            for (Map.Entry<String, List<Double>> truth : Halls.TRUTH.entrySet()) {
                for (int j = 0; j < 4; j++) {
                    String term = fit.terms().get(j);
                    double off = fit.coefficient(truth.getKey(), term)
                            - truth.getValue().get(j);
                    held += Math.abs(off) <= t * fit.standardError(truth.getKey(), term) ? 1 : 0;
                    coefficients++;
                }
            }
            YieldEstimator estimator = YieldEstimator.of(calibrated.table("hall", "1"));
            for (int i = 0; i < 20; i++) {
                Carcass carcass = Halls.carcass(random, i);
                Map<String, Double> kg = Halls.kg(carcass, Halls.shares(random, carcass));
                YieldEstimate estimate = estimator.estimate(carcass);
                for (Map.Entry<String, Double> weighed : kg.entrySet()) {
                    Interval interval = estimate.interval(weighed.getKey(), 0.90);
                    heldShares += weighed.getValue() >= interval.low() && weighed.getValue() <= interval.high() ? 1 : 0;
                    shares++;
                }
            }
        }

        assertThat((double) held / coefficients).isCloseTo(0.95, within(0.02));
        assertThat((double) heldShares / shares).isCloseTo(0.895, within(0.012));
    }

    @Test
    void theTableIsThePriorButForWhatWasFitted() {
        Calibrated calibrated = calibration(Halls.trials(1, 120)).fit();
        YieldTable table = calibrated.table("hall", "1");
        BreakdownFit fit = calibrated.fit("carcass");

        assertThat(table.definition().sources())
                .filteredOn(source -> source.source().equals("trials-hall"))
                .singleElement()
                .satisfies(source -> assertThat(source.citation())
                        .isEqualTo("Boning trials of 120 carcasses on 12 days, 2026-10-01 to 2026-10-12"));
        assertThat(table.definition().provenance())
                .extracting(origin -> origin.part() + ": " + origin.from())
                .containsExactly(
                        "table: " + PRIOR.identity(),
                        "breakdown of carcass: 120 boning trials on 12 days, fitted: all terms");
        assertThat(table.definition().fitted()).isEqualTo(calibrated.trialRange());
        assertThat(table.definition().allowed()).isEqualTo(PRIOR.definition().allowed());
        List<BreakdownRow> meat = table.definition().breakdown().stream()
                .filter(row -> row.parent().equals("meat"))
                .toList();
        assertThat(meat)
                .isEqualTo(PRIOR.definition().breakdown().stream()
                        .filter(row -> row.parent().equals("meat"))
                        .toList());
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
        YieldEstimate estimate = YieldEstimator.of(table).estimate(carcass);
        assertThat(estimate.share("meat")).isCloseTo(fit.coefficient("meat", "level_g_per_kg") / 1000, within(1e-12));
        double variance = fit.residualCovariance("meat", "meat")
                + fit.coefficientCovariance("meat", "level_g_per_kg", "meat", "level_g_per_kg");
        assertThat(estimate.sd("meat")).isCloseTo(0.340 * Math.sqrt(variance), within(1e-6));
        assertThat(TableComparison.of(PRIOR, table).toText()).contains("fat-trim");
    }

    private static Expectation rising(String cut, Variable variable) {
        return new Expectation(
                cut, null, "tissue", variable, Expectation.Direction.RISES, true, Expectation.Over.FITTED, "");
    }

    /** The prior's extra columns stay with the rows that stay, so that they are in the digests below. */
    private static TableDefinition withExtraColumns() {
        TableDefinition small = TestTables.small();
        List<String> notes = new ArrayList<>();
        small.breakdown().forEach(row -> notes.add(row.parent() + " note"));
        return small.toBuilder()
                .expectation(rising("fat-trim", Variable.FAT))
                .extraColumn(new ExtraColumn("breakdown", "note", "string", notes))
                .extraColumn(new ExtraColumn("expectations", "remark", "string", List.of("all over")))
                .extraColumn(new ExtraColumn("sources", "shelf", "integer", List.of("7")))
                .decimals("per_100kg", 3)
                .build();
    }

    @Test
    void expectationsThatGoTakeTheirExtraColumnsAlong() {
        Calibrated calibrated = Calibration.of(TrialSet.of(YieldTable.of(withExtraColumns()), Halls.trials(1, 120)))
                .fit();

        assertThat(calibrated
                        .withExpectations(List.of())
                        .table("hall", "1")
                        .definition()
                        .extraColumns())
                .extracting(ExtraColumn::column)
                .containsExactly("note", "shelf");
    }

    @Test
    void categoriesApartGetTheirOwnRowsAndTheOthersKeepTheirs() {
        Calibrated calibrated = calibration(Halls.trials(1, 120))
                .withCategories(Categories.APART)
                .fit();
        YieldTable table = calibrated.table("hall", "1");

        assertThat(calibrated.fits())
                .extracting(BreakdownFit::name)
                .containsExactly("carcass (category C)", "carcass (category E)");
        assertThat(words(calibrated, Finding.Kind.NOT_FITTED))
                .containsExactly(
                        "breakdown of carcass (category D): no carcass was weighed; it stays as in the prior table");
        for (int i = 0; i < 3; i++) {
            Category category =
                    List.of(Category.STEER, Category.HEIFER, Category.COW).get(i);
            Carcass carcass = Carcass.of(category, Conformation.parse("R="), FatClass.parse("3="), 340);
            double expected = i < 2
                    ? calibrated.fits().get(i).coefficient("meat", "level_g_per_kg") / 1000
                    : YieldEstimator.of(PRIOR).estimate(carcass).share("meat");
            assertThat(YieldEstimator.of(table).estimate(carcass).share("meat")).isCloseTo(expected, within(1e-12));
        }
        assertThat(YieldEstimator.of(table)
                        .estimate(Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 340))
                        .sd("meat"))
                .isCloseTo(
                        YieldEstimator.of(PRIOR)
                                .estimate(Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 340))
                                .sd("meat"),
                        within(1e-9));
    }

    /** Heifers have a covariance of their own beside that of all categories, and standard errors, and no trial. */
    @Test
    void aCategoryWithoutTrialsKeepsItsErrorsToo() {
        TableDefinition.Builder builder = TableDefinition.builder("errors", "1")
                .levels("tissue")
                .categories(Category.STEER, Category.HEIFER)
                .source(TestTables.source(TestTables.SOURCE))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .row("carcass", "meat", 20, TestTables.SOURCE, 800, 0, -10, 0)
                .row("carcass", "bone", 20, TestTables.SOURCE, 200, 0, 10, 0)
                .row("E", "*", "carcass", "meat", 10, TestTables.SOURCE, 780, 0, -10, 0)
                .row("E", "*", "carcass", "bone", 10, TestTables.SOURCE, 220, 0, 10, 0);
        for (String category : List.of("*", "E")) {
            double variance = category.equals("E") ? 100 : 400;
            builder.covariance(new CovarianceRow(category, "*", "carcass", "meat", "", "meat", "", variance))
                    .covariance(new CovarianceRow(category, "*", "carcass", "meat", "", "bone", "", -variance))
                    .covariance(new CovarianceRow(category, "*", "carcass", "bone", "", "bone", "", variance))
                    .coefficientNote(new CoefficientNote(
                            category, "*", "carcass", "meat", "level_g_per_kg", 3.0, TestTables.SOURCE))
                    .coefficientNote(new CoefficientNote(
                            category, "*", "carcass", "bone", "level_g_per_kg", 3.0, TestTables.SOURCE));
        }
        YieldTable prior = YieldTable.of(builder.build());
        List<Trial> trials = new ArrayList<>();
        Random random = new Random(2);
        for (int i = 0; i < 30; i++) {
            Carcass of = Halls.carcass(random, i);
            Carcass steer = Carcass.of(Category.STEER, of.conformation(), of.fatClass(), of.coldWeightKg())
                    .withId("T-" + i);
            double meat = 790 + 15 * random.nextGaussian() - 10 * (of.fatClass().position() - 8);
            trials.add(Trial.of(steer, Halls.kg(steer, Map.of("meat", meat, "bone", 1000 - meat))));
        }

        YieldTable table = calibration(prior, trials)
                .withCategories(Categories.APART)
                .fit()
                .table("hall", "1");

        Carcass heifer = Carcass.of(Category.HEIFER, Conformation.parse("R="), FatClass.parse("3="), 300);
        YieldEstimate before = YieldEstimator.of(prior).estimate(heifer);
        YieldEstimate after = YieldEstimator.of(table).estimate(heifer);
        assertThat(after.share("meat")).isCloseTo(before.share("meat"), within(1e-12));
        for (UncertaintyPart part : List.of(UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.COEFFICIENTS)) {
            assertThat(after.sd(Figure.cut("meat"), part))
                    .isPositive()
                    .isCloseTo(before.sd(Figure.cut("meat"), part), within(1e-9));
        }
    }

    @Test
    void errorsOfLotsAndRunsStayAndThoseOfHallsGoWhereTheTrialsAreTheHallsOwn() {
        TableDefinition.Builder builder =
                TestTables.share(TestTables.small(), row -> SharedSds.of(row.sdGPerKg() / 2, row.sdGPerKg() / 4, 3));
        YieldTable prior = YieldTable.of(builder.build());
        Calibrated calibrated = calibration(prior, Halls.trials(1, 120)).fit();
        YieldTable table = calibrated.table("hall", "1");

        assertThat(table.definition().breakdown())
                .filteredOn(row -> row.parent().equals("carcass"))
                .isNotEmpty()
                .allSatisfy(row -> assertThat(row.shared())
                        .isEqualTo(SharedSds.of(
                                switch (row.cut()) {
                                    case "meat", "fat-trim" -> 10;
                                    case "bone" -> 5;
                                    default -> 0.5;
                                },
                                calibrated.fit("carcass").runSd(row.cut()),
                                0)));
        // 20 of each carcass and 10 of its lot
        assertThat(calibrated.fit("carcass").priorResidualSd("meat")).isCloseTo(Math.sqrt(500), within(1e-9));
        // 12 days without a run effect beside 10 degrees of freedom of SD 5
        assertThat(calibrated.fit("carcass").runSd("meat")).isBetween(3.0, 6.0);
        assertThat(table.definition().breakdown())
                .filteredOn(row -> row.parent().equals("meat"))
                .hasSize(2)
                .allMatch(row -> row.shared().equals(SharedSds.of(2.5, 1.25, 3)));
        assertThat(table.sharedNotes())
                .containsExactly(
                        "The table states the errors that carcasses of a lot, a run and a hall have in common",
                        "Its SDs between halls are 0 in the breakdown of carcass: good for the hall that they come from alone");
        assertThat(calibrated.toText())
                .contains(
                        "\n\nErrors in common\n  of lots: as in the prior table\n  of runs: in what was learnt as the days"
                                + " differ, the prior table's counting for 10 degrees of freedom; as in the prior table in"
                                + " the rest\n  of halls: 0 in what was learnt");
    }

    @Test
    void trialsOfOtherHallsLeaveHowFarHallsDiffer() {
        YieldTable prior = YieldTable.of(TestTables.share(
                        TestTables.small(), row -> SharedSds.of(0, row.sdGPerKg() / 4, row.sdGPerKg() / 2))
                .build());
        Calibrated own = calibration(prior, Halls.trials(1, 120)).fit();
        Calibrated others = own.forOtherHalls();

        assertThat(ofMeat(own.table("hall", "1"), "CE").hallGPerKg()).isZero();
        assertThat(ofMeat(others.table("halls", "1"), "CE").hallGPerKg()).isEqualTo(10);
        assertThat(ofMeat(others.withAllowedRange(NARROW).table("halls", "1"), "CE")
                        .hallGPerKg())
                .isEqualTo(10);
        assertThat(others.toText()).contains("of halls: as in the prior table, for the trials are of other halls");
        // nearly all that isn't known of another hall is how far it differs
        Carcass carcass = Halls.carcass(new Random(5), 1);
        double sdOfOthers = YieldEstimator.of(others.table("halls", "1"))
                .counting(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS))
                .estimate(carcass)
                .sd("meat");
        assertThat(sdOfOthers / carcass.coldWeightKg() * 1000).isBetween(7.0, 10.5);
    }

    @Test
    void aCalibratedTableStatesWhatItsPriorStatesAndNoMore() {
        YieldTable prior =
                YieldTable.of(TestTables.share(TestTables.small(), row -> new SharedSds(null, row.sdGPerKg() / 4, null))
                        .build());
        Calibrated calibrated = calibration(prior, Halls.trials(1, 120)).fit();
        YieldTable table = calibrated.table("hall", "1");
        assertThat(table.states(SharedBy.RUN)).isTrue();
        assertThat(table.states(SharedBy.LOT)).isFalse();
        assertThat(table.states(SharedBy.HALL)).isFalse();
        assertThat(calibrated.toText()).contains("  of lots, halls: not stated, as in the prior table\n\n");
        YieldTable plain = calibration(Halls.trials(1, 120)).fit().table("hall", "1");
        assertThat(SharedBy.values()).noneMatch(plain::states);
    }

    @Test
    void categoriesWithOtherErrorsInCommonKeepTheirOwn() {
        YieldTable prior = YieldTable.of(TestTables.share(
                        TestTables.small(),
                        row -> row.category().equals("D") ? SharedSds.of(7, 6, 5) : SharedSds.of(7, 7, 7))
                .build());
        YieldTable together = calibration(prior, Halls.trials(1, 120)).fit().table("hall", "1");
        YieldTable apart = calibration(prior, Halls.trials(1, 120))
                .withCategories(Categories.APART)
                .fit()
                .table("hall", "1");
        // the days are those of steers and heifers, whatever the category
        double ofRuns = ofMeat(together, "CE").runGPerKg();
        assertThat(ofMeat(together, "D")).isEqualTo(SharedSds.of(7, ofRuns, 0));
        assertThat(ofMeat(together, "CE")).isEqualTo(SharedSds.of(7, ofRuns, 0));
        // no trial of a cow: its rows are the prior's, of whatever hall those are
        assertThat(ofMeat(apart, "D")).isEqualTo(SharedSds.of(7, 6, 5));
        assertThat(ofMeat(apart, "C"))
                .isEqualTo(SharedSds.of(7, ofMeat(apart, "C").runGPerKg(), 0));
    }

    private static Map<String, Double> withoutUdder(Map<String, Double> kg) {
        Map<String, Double> all = new LinkedHashMap<>(kg);
        all.put("udder", 0.0);
        return all;
    }

    private static SharedSds ofMeat(YieldTable table, String category) {
        return table.definition().breakdown().stream()
                .filter(row -> row.parent().equals("carcass")
                        && row.category().equals(category)
                        && row.cut().equals("meat"))
                .map(BreakdownRow::shared)
                .findFirst()
                .orElseThrow();
    }

    /** Only cows have a part of their own, which steers and heifers lack. */
    @Test
    void aChildThatACategoryLacksHasNoErrorsInCommonThere() {
        TableDefinition.Builder builder = TestTables.small().toBuilder()
                .cut(Cut.of("udder", "Udder", "tissue", CutKind.LOSS))
                .row("D", "*", "carcass", "udder", 1, TestTables.SOURCE, 0);
        YieldTable prior = YieldTable.of(TestTables.share(
                        builder.build(),
                        row -> SharedSds.of(row.sdGPerKg(), 0, row.cut().equals("udder") ? 0 : row.sdGPerKg()))
                .build());
        YieldTable table = Calibration.of(
                        TrialSet.of(prior, change(Halls.trials(1, 120), "", CalibrationTest::withoutUdder)))
                .fit()
                .table("hall", "1");
        assertThat(table.definition().breakdown())
                .filteredOn(row -> row.cut().equals("udder"))
                .extracting(BreakdownRow::category, BreakdownRow::shared)
                .containsExactlyInAnyOrder(tuple("CE", SharedSds.of(0, 0, 0)), tuple("D", SharedSds.of(1, 0, 0)));
    }

    @Test
    void aCategoryWithoutTrialsKeepsTheNamesOfItsErrors() {
        TableDefinition.Builder builder = TestTables.small().toBuilder();
        for (String cut : List.of("meat", "fat-trim")) {
            builder.coefficientNote(
                    new CoefficientNote("D", "*", "carcass", cut, "level_g_per_kg", 15.0, "cows", TestTables.SOURCE));
        }
        YieldTable table = Calibration.of(TrialSet.of(YieldTable.of(builder.build()), Halls.trials(1, 120)))
                .withCategories(Categories.APART)
                .fit()
                .table("hall", "1");
        assertThat(table.definition().coefficientNotes())
                .extracting(CoefficientNote::category, CoefficientNote::cut, CoefficientNote::errorId)
                .containsExactly(tuple("D", "meat", "cows"), tuple("D", "fat-trim", "cows"));
    }

    @Test
    void cutsWeighedAsAGroupMoveTogether() {
        YieldTable levels = YieldTable.of(TestTables.threeLevels());
        Random random = new Random(5);
        List<Trial> trials = new ArrayList<>();
        for (int i = 0; i < 80; i++) {
            Carcass carcass = Halls.carcass(random, i);
            double meat = 0.7 * carcass.coldWeightKg();
            double striploin = meat * (0.075 + 0.004 * random.nextGaussian());
            double both = meat * (0.165 + 0.005 * random.nextGaussian());
            trials.add(
                    Trial.of(carcass, Map.of("striploin", striploin, "both", both, "chuck", meat - striploin - both)));
        }
        Calibrated calibrated = Calibration.of(TrialSet.of(
                        levels, levels.specification("steaks"), Map.of("both", List.of("rump", "brisket")), trials))
                .withTerms("level_g_per_kg", "per_conformation_point", "per_fat_point", "per_100kg")
                .withBreakdowns("meat")
                .fit()
                .withExpectations(List.of());
        BreakdownFit fit = calibrated.fit("meat");
        YieldTable table = calibrated.table("hall", "1");

        assertThat(words(calibrated, Finding.Kind.GROUP))
                .containsExactly("breakdown of meat: the cuts of both were weighed together; they move together, in"
                        + " proportion to their prior levels");
        double rump = fit.coefficient("rump", "level_g_per_kg");
        double brisket = fit.coefficient("brisket", "level_g_per_kg");
        assertThat(rump + brisket).isCloseTo(165, within(2.0));
        // 81 and 69 in the prior table
        assertThat(rump / brisket).isCloseTo(81.0 / 69, within(1e-9));
        double together = fit.residualCovariance("rump", "rump")
                + 2 * fit.residualCovariance("rump", "brisket")
                + fit.residualCovariance("brisket", "brisket");
        assertThat(Math.sqrt(together)).isCloseTo(5, within(1.0));
        assertThat(fit.residualCovariance("rump", "brisket")).isLessThan(81.0 * 69 / 150 / 150 * together);
        assertThat(table.definition().breakdown()).isNotEmpty();
    }

    /** Words of a report, without rules and tags. */
    private static List<String> words(String report) {
        String plain = report.replaceAll("<[^>]*>", " ")
                .replaceAll("(?m)^-+$", " ")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&quot;", "\"")
                .replace("&#39;", "'")
                .replace("&amp;", "&")
                .strip();
        return Pattern.compile("\\s+").splitAsStream(plain).toList();
    }

    @Test
    void theReportIsTheSameInHtmlWhateverCarcassesAndDaysAreCalled() {
        List<Trial> trials = new ArrayList<>(Halls.trials(1, 80));
        Trial first = trials.get(0);
        trials.set(
                0,
                Trial.of(first.carcass().withId("T<1>&'x'"), times(first.kg(), "meat", 0.9))
                        .withDay(first.day()));
        for (int i = 70; i < 80; i++) {
            trials.set(i, trials.get(i).withDay("a&b"));
        }
        Calibrated calibrated = calibration(trials).fit();

        String html = calibrated.toHtml();

        assertThat(html)
                .contains("<p>carcass T&lt;1&gt;&amp;&#39;x&#39;: ")
                .contains("<h3>Coefficients of carcass</h3>\n<div style=\"overflow-x:auto;margin:1em 0\">\n<table")
                .contains(">a&amp;b</td>")
                .contains("text-align:right\">Mean, g/kg</th>")
                .doesNotContain("T<1>");
        assertThat(words(html.replace("&lt;1&gt;", "(1)")))
                .isEqualTo(words(calibrated.toText().replace("<1>", "(1)")));
    }

    @Test
    void theFiguresOfTheReportAreThoseOfTheFit() {
        List<Trial> trials = Halls.trials(1, 120);
        Calibrated calibrated = calibration(trials).fit();
        BreakdownFit fit = calibrated.fit("carcass");
        double mean = 0;
        double residual = 0;
        double residualOfHeifers = 0;
        long heifers = trials.stream()
                .filter(trial -> trial.carcass().category() == Category.HEIFER)
                .count();
        for (Trial trial : trials) {
            double share = 1000 * trial.kg().get("meat") / trial.carcass().coldWeightKg();
            double[] terms = new Terms(PRIOR.definition()).of(trial.carcass());
            double off = share;
            for (int j = 0; j < terms.length; j++) {
                off -= terms[j] * fit.coefficient("meat", fit.terms().get(j));
            }
            mean += share / 120;
            residual += trial.day().equals("2026-10-02") ? off / 10 : 0;
            residualOfHeifers += trial.carcass().category() == Category.HEIFER ? off / heifers : 0;
        }
        double difference = fit.coefficient("meat", "level_g_per_kg") - 700;
        double error = fit.standardError("meat", "level_g_per_kg");

        String report = calibrated.toText();

        assertThat(report)
                .containsPattern(row(
                        "meat",
                        fixed(mean, 1),
                        fixed(fit.residualSd("meat"), 2),
                        fixed(fit.priorResidualSd("meat"), 2),
                        fixed(fit.r2("meat"), 3),
                        fixed(fit.rmse("meat"), 2)));
        assertThat(report)
                .containsPattern(row(
                        "meat",
                        "level_g_per_kg",
                        "700.000",
                        fixed(700 + difference, 3),
                        fixed(error, 3),
                        fixed(difference, 3),
                        fixed(difference / error, 1)));
        assertThat(report).containsPattern(row("2026-10-02", "10", fixed(residual, 1)));
        assertThat(report).containsPattern(row("E", Long.toString(heifers), fixed(residualOfHeifers, 1)));
        // a rule under the header and one between each two of the four cuts
        String coefficients =
                report.substring(report.indexOf("Coefficients of carcass"), report.indexOf("Mean residual"));
        assertThat(coefficients.lines().filter(line -> line.matches("-+"))).hasSize(4);
        assertThat(report).contains("Mean residual of carcass by grade, g/kg\nGrade  Carcasses");
    }

    private static String fixed(double value, int decimals) {
        return Numbers.fixed(value, decimals);
    }

    private static String row(String... cells) {
        return "\n" + Arrays.stream(cells).map(Pattern::quote).collect(Collectors.joining(" +")) + "( |\n)";
    }

    @Test
    void wrongOptionsAreSaid() {
        Calibration calibration = calibration(Halls.trials(1, 20));
        assertThatThrownBy(() -> calibration.withTerms("per_fat_point"))
                .hasMessage("the term level_g_per_kg is missing; no breakdown closes without it");
        assertThatThrownBy(() -> calibration.withTerms("level_g_per_kg", "age"))
                .hasMessage("no term \"age\"; terms: level_g_per_kg, per_conformation_point, per_fat_point, per_100kg");
        assertThatThrownBy(() -> calibration.withBreakdowns("fore"))
                .hasMessage("table small has no breakdown of \"fore\" by coefficients in a way that was cut to");
        assertThatThrownBy(() -> calibration.withWeights(trial -> 0).fit())
                .hasMessage("carcass T-18: weight 0.0 in the fit is not above 0");
        assertThatThrownBy(() -> calibration.fit().fit("meat"))
                .hasMessage("the breakdown of \"meat\" was not fitted; fitted: carcass");
    }

    @Test
    void aStepThatIsPassedOverWithoutBuildingItIsNoTable() {
        YieldTable prior = Halls.prior();
        TableRange allowed = prior.definition().allowed();
        int below = 0;
        int steps = 0;
        for (int seed = 1; seed <= 5; seed++) {
            // fat that lies where it was never seen, or hardly there
            double slope = 12 * seed - 36;
            Random random = new Random(seed);
            List<Trial> trials = new ArrayList<>();
            for (int i = 1; i <= 60; i++) {
                Carcass carcass = Halls.carcass(random, i);
                Map<String, Double> shares = Halls.shares(random, carcass);
                double more = slope * (carcass.fatClass().position() - 8);
                shares.merge("fat-trim", more, Double::sum);
                shares.merge("meat", -more, Double::sum);
                if (shares.values().stream().allMatch(share -> share > 0)) {
                    trials.add(Trial.of(carcass, Halls.kg(carcass, shares)).withDay("2026-10-" + (10 + i / 6)));
                }
            }
            Calibrated calibrated = Calibration.of(TrialSet.of(prior, trials)).fit();

            Candidates candidates = calibrated.candidates.get(0);
            for (int step = 0; step < candidates.count(); step++) {
                BreakdownFit fit = candidates.at(step);
                TableOverride override = TableOverride.of(prior, "step", "1");
                new FittedBreakdowns(prior, List.of(fit), "step", fit.carcassCount(), false).putInto(override);
                steps++;
                if (fit.isBelowZero(allowed)) {
                    below++;
                    assertThatThrownBy(override::build)
                            .isInstanceOf(InvalidTableException.class)
                            .hasMessageContaining("its share of carcass is -");
                }
            }
            assertThat(calibrated.fits()).noneMatch(fit -> fit.isBelowZero(allowed));
        }
        assertThat(below).isBetween(1, steps - 1);
    }
}
