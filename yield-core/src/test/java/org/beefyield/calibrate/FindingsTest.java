package org.beefyield.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/**
 * Each fault planted in the trials of 20 halls, drawn as the table says that halls, days and carcasses differ, is named in 18
 * of them, and without it hardly in any.
 */
class FindingsTest {
    private static final int HALLS = 20;
    private static final int FOUND = 18;
    /** With a chance of 1 in 20 each, more in 20 are one chance in 3000. */
    private static final int BY_CHANCE = 5;

    private static final double HALL = 0.12;
    private static final double RUN = 0.25;

    private static final TableDefinition SILENT = TestTables.withoutRows(TestTables.small(), 7, 8)
            .cut(Cut.of("fillet", "Fillet", "primal", CutKind.PRIMAL))
            .row("meat", "fore", 5, TestTables.SOURCE, 540, -1, 0, 8)
            .row("meat", "hind", 5, TestTables.SOURCE, 430, 1, 0, -8)
            .row("meat", "fillet", 2.5, TestTables.SOURCE, 30)
            .build();

    private static final YieldTable TABLE = table(RUN);

    /** A table that states how far runs differ, in SDs between carcasses. */
    private static YieldTable table(double runs) {
        return YieldTable.of(TestTables.share(
                        SILENT,
                        row -> SharedSds.of(
                                0,
                                runs * row.sdGPerKg(),
                                row.parent().equals("carcass")
                                        ? row.sdGPerKg() / 2
                                        : HALL
                                                * row.coefficients().get(0)
                                                / (row.cut().equals("fillet") ? 1 : 8)))
                .build());
    }

    /** Parts that add up to 1000 g/kg: the first takes what the others leave. */
    private static double[] off(Random random, double... sds) {
        double[] off = new double[sds.length + 1];
        for (int k = 0; k < sds.length; k++) {
            off[k + 1] = sds[k] * random.nextGaussian();
            off[0] -= off[k + 1];
        }
        return off;
    }

    /** Trials of a hall, five a day. */
    private static List<Trial> trials(long seed, int count, double runs) {
        Random random = new Random(seed);
        double[] hallOfMeat = off(random, HALL * 30, HALL * 430 / 8);
        double[] hall = off(random, 10, 5);
        double[] dayOfMeat = new double[3];
        double[] day = new double[3];
        List<Trial> trials = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            if (i % 5 == 0) {
                dayOfMeat = off(random, runs * 2.5, runs * 5);
                day = off(random, runs * 20, runs * 10);
            }
            Carcass of = Halls.carcass(random, i);
            double c = of.conformation().position() - 8;
            double f = of.fatClass().position() - 8;
            double w = (of.coldWeightKg() - 340) / 100;
            double[] own = off(random, 20, 10);
            double[] ownOfMeat = off(random, 2.5, 5);
            double lost = 6 + random.nextGaussian() + runs * random.nextGaussian();
            // leaner than that none is
            double fat = Math.max(5, 110 - c + 11 * f + hall[1] + day[1] + own[1]);
            double bone = 184 - 7 * c - 2 * f - 5 * w + hall[2] + day[2] + own[2];
            double meat = 1000 - fat - bone - lost;
            double fillet = 30 + hallOfMeat[1] + dayOfMeat[1] + ownOfMeat[1];
            double hind = 430 + c - 8 * w + hallOfMeat[2] + dayOfMeat[2] + ownOfMeat[2];
            Map<String, Double> shares = new LinkedHashMap<>();
            shares.put("fat-trim", fat);
            shares.put("bone", bone);
            shares.put("fillet", meat * fillet / 1000);
            shares.put("hind", meat * hind / 1000);
            shares.put("fore", meat * (1000 - fillet - hind) / 1000);
            trials.add(Trial.of(of, Halls.kg(of, shares)).withDay("day-" + i / 5));
        }
        return trials;
    }

    private static List<Trial> change(List<Trial> trials, Function<Trial, Map<String, Double>> kg) {
        return trials.stream()
                .map(trial -> Trial.of(trial.carcass(), kg.apply(trial)).withDay(trial.day()))
                .toList();
    }

    private static Map<String, Double> times(Trial trial, String cut, double factor) {
        Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
        kg.computeIfPresent(cut, (any, of) -> factor * of);
        return kg;
    }

    /** In how many halls a finding of a kind has the words. */
    private static long halls(Finding.Kind kind, String words, Function<Long, List<Trial>> ofHall) {
        return IntStream.range(0, HALLS)
                .filter(hall -> Calibration.of(TrialSet.of(TABLE, ofHall.apply(100L + hall))).fit().findings().stream()
                        .anyMatch(finding ->
                                finding.kind() == kind && finding.message().contains(words)))
                .count();
    }

    private static List<Trial> sound(long seed) {
        return trials(seed, 60, RUN);
    }

    @Test
    void aCutInPoundsThroughoutIsNamed() {
        assertThat(halls(
                        Finding.Kind.FAR,
                        "as if it were in pounds",
                        seed -> change(sound(seed), trial -> times(trial, "fillet", 1 / 0.45359237))))
                .isGreaterThanOrEqualTo(FOUND);
    }

    /** Whose mean alone doesn't tell, for a hall may cut a third less; but what varies half as much is half. */
    @Test
    void aCutOfOneSideIsNamed() {
        assertThat(halls(
                        Finding.Kind.FAR,
                        "as if it were of one side alone",
                        seed -> change(sound(seed), trial -> times(trial, "fillet", 0.5))))
                .isGreaterThanOrEqualTo(FOUND);
    }

    @Test
    void aSoundHallHasFewOfThese() {
        Map<Finding.Kind, Integer> halls = new EnumMap<>(Finding.Kind.class);
        for (int hall = 0; hall < HALLS; hall++) {
            Calibration.of(TrialSet.of(TABLE, sound(200L + hall))).fit().findings().stream()
                    .map(Finding::kind)
                    .distinct()
                    .forEach(kind -> halls.merge(kind, 1, Integer::sum));
        }
        halls.keySet().removeAll(List.of(Finding.Kind.GIVEN_UP, Finding.Kind.LEVERAGE));
        assertThat(halls).allSatisfy((kind, count) -> assertThat(count).isLessThanOrEqualTo(BY_CHANCE));
    }

    @Test
    void daysThatDifferFarMoreThanStatedAreNamed() {
        assertThat(halls(Finding.Kind.RUNS, "days differ otherwise", seed -> trials(seed, 60, 5 * RUN)))
                .isGreaterThanOrEqualTo(FOUND);
    }

    /** However sure a table is of it. */
    @Test
    void howDaysDifferIsLearntWhereTheTableIsFarTooSureOfIt() {
        for (double stated : new double[] {0.0025, 0.01, 0.05}) {
            Calibrated calibrated = Calibration.of(TrialSet.of(table(stated), trials(3, 150, 1)))
                    .fit();

            assertThat(calibrated.findings()).extracting(Finding::kind).contains(Finding.Kind.RUNS);
            // of the 30 days it is 10
            assertThat(calibrated.fit("carcass").runSd("bone")).as("%s", stated).isBetween(7.0, 13.0);
            assertThat(calibrated.fit("carcass").runDegreesOfFreedom()).isBetween(10.0, 60.0);
        }
    }

    /** One carcass can't be told from its day. */
    @Test
    void daysOfOneCarcassDontTellHowDaysDiffer() {
        List<Trial> trials = trials(3, 60, RUN);
        List<Trial> alone = IntStream.range(0, 60)
                .mapToObj(i -> trials.get(i).withDay("day-" + i))
                .toList();
        Calibrated calibrated = Calibration.of(TrialSet.of(TABLE, alone)).fit();

        assertThat(calibrated.findings())
                .filteredOn(finding -> finding.kind() == Finding.Kind.RUNS)
                .extracting(Finding::message)
                .allMatch(
                        message -> message.startsWith("boned on 60 days, and fewer than 5 with two carcasses or more"))
                .isNotEmpty();
        assertThat(calibrated.fit("carcass").runSd("bone")).isCloseTo(RUN * 10, within(1e-9));
        assertThat(calibrated.fit("carcass").runSdBound("bone", 0.95)).isEmpty();
    }

    @Test
    void trialsWithoutADayAreCounted() {
        List<Trial> trials = new ArrayList<>(sound(3));
        trials.replaceAll(trial -> trial.day().equals("day-2") ? trial.withDay("") : trial);

        assertThat(Calibration.of(TrialSet.of(TABLE, trials)).fit().findings())
                .filteredOn(finding -> finding.kind() == Finding.Kind.BLANK)
                .extracting(Finding::message)
                .isNotEmpty()
                .containsOnly("the day is blank in 5 of 60 trials; these count as of one day");
    }

    /** A column of zeros is far off, but in no other unit; one that doesn't vary is of no other unit either. */
    @Test
    void aColumnOfNothingIsInNoOtherUnit() {
        for (double grams : new double[] {0, 20}) {
            assertThat(Calibration.of(TrialSet.of(TABLE, change(sound(3), trial -> {
                                Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
                                kg.put("fillet", grams / 1000 * trial.carcass().coldWeightKg());
                                return kg;
                            })))
                            .fit()
                            .findings())
                    .extracting(Finding::message)
                    .noneMatch(message -> message.contains("as if it were"));
        }
    }

    @Test
    void aCategoryThatIsOffIsNamedWithWhatItDiffersIn() {
        assertThat(halls(
                        Finding.Kind.CATEGORY,
                        "category E",
                        seed -> change(trials(seed, 150, RUN), trial -> {
                            Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
                            if (trial.carcass().category() == Category.HEIFER) {
                                double less = 0.012 * trial.carcass().coldWeightKg();
                                kg.merge("bone", -less, Double::sum);
                                kg.merge("fat-trim", less, Double::sum);
                            }
                            return kg;
                        })))
                .isGreaterThanOrEqualTo(FOUND);
    }

    @Test
    void aCellThatManyTrialsLeaveBlankIsNamedAndTheOthersCount() {
        Calibrated calibrated = Calibration.of(TrialSet.of(TABLE, change(sound(1), trial -> {
                    Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
                    if (trial.id().hashCode() % 3 == 0) {
                        kg.remove("bone");
                    }
                    return kg;
                })))
                .fit();

        long blank = sound(1).stream()
                .filter(trial -> trial.id().hashCode() % 3 == 0)
                .count();
        assertThat(blank).isBetween(10L, 40L);
        assertThat(calibrated.findings())
                .filteredOn(finding -> finding.kind() == Finding.Kind.BLANK)
                .extracting(Finding::message)
                .singleElement()
                .asString()
                .startsWith("bone is blank in " + blank + " of 60 trials");
        assertThat(calibrated.fit("carcass").carcassCount()).isEqualTo(60);
    }

    /** Where every row was learnt and the days told how they differ, the table states it though the one before didn't. */
    @Test
    void howDaysDifferIsWrittenIntoATableThatWasSilentIfAllOfItWasLearnt() {
        YieldTable silent = YieldTable.of(SILENT);
        List<Trial> trials = trials(3, 150, 1);
        Calibrated all = Calibration.of(TrialSet.of(silent, trials)).fit();
        YieldTable learnt = all.table("hall", "1");

        assertThat(learnt.states(SharedBy.RUN)).isTrue();
        assertThat(all.fit("carcass").runSd("bone")).isBetween(6.0, 15.0);
        assertThat(all.toText()).contains("of runs: as the days differ; the prior table states nothing of them");

        Calibrated some = Calibration.of(TrialSet.of(silent, trials))
                .withBreakdowns("carcass")
                .fit();
        assertThat(some.table("hall", "1").states(SharedBy.RUN)).isFalse();
        assertThat(some.toText()).contains("the prior table states no SD of runs, so that there is no place for it");
    }
}
