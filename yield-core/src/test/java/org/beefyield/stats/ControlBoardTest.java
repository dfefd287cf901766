package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.TDistribution;
import org.junit.jupiter.api.Test;

class ControlBoardTest {
    /**
     * Concentrations against a target of 99 (Montgomery and Runger, Applied Statistics and Probability for Engineers, table
     * 16-7): plain sums there, so without a reference both sides together are the sum since its least and its greatest.
     */
    @Test
    void withoutAReferenceTheSumsAreThoseOfTheTextbookSinceTheirLeastAndGreatest() {
        double[] values = {
            102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3,
            101.4, 97.2, 101.0
        };
        double[] sums = {
            3.0, -1.2, -1.9, -2.5, .5, 0, 0, -1.3, -.3, -1.2, 1.1, .8, 2.9, 2.3, .3, -2.0, -.7, 1.7, -.1, 1.9
        };
        Cusum cusum = new Cusum(0);
        double least = 0;
        double greatest = 0;
        for (int i = 0; i < values.length; i++) {
            cusum.add(values[i] - 99);
            least = Math.min(least, sums[i]);
            greatest = Math.max(greatest, sums[i]);
            assertThat(cusum.high()).as("high after %d", i).isCloseTo(sums[i] - least, within(1e-9));
            assertThat(cusum.low()).as("low after %d", i).isCloseTo(greatest - sums[i], within(1e-9));
        }
    }

    /** Hawkins 1987: without known variances the score is Student's t of the next value, turned into a normal one. */
    @Test
    void withoutKnownVariancesAScoreIsStudentsTTurnedNormal() {
        Random random = new Random(11);
        double[] values = IntStream.range(0, 40)
                .mapToDouble(i -> 50 + 3 * random.nextGaussian())
                .toArray();
        double[] none = new double[40];
        Arrays.fill(none, 1e-12);
        for (int n : new int[] {4, 5, 8, 15, 39}) {
            double[] before = Arrays.copyOf(values, n);
            for (double value : new double[] {values[n], 50, 62, 35, 70}) {
                double t = (value - Sample.mean(before)) / (Sample.sd(before) * Math.sqrt(1 + 1. / n));
                double tail = new TDistribution(null, n - 1.).cumulativeProbability(-Math.abs(t));
                double expected = Math.signum(t) * Normal.exceeded(tail);
                double score = new Predictor(Predictor.rule(), before, Arrays.copyOf(none, n)).score(value, 1e-12);
                assertThat(score).as("%s after %d", value, n).isCloseTo(expected, within(.01));
            }
        }
    }

    /** Known variances alone: after many runs that differ by them alone, a score is hardly less than by them. */
    @Test
    void whereRunsDifferByTheirKnownVariancesAScoreIsTakenByThem() {
        double[] variances = new double[200];
        double[] values = new double[200];
        Random random = new Random(3);
        for (int i = 0; i < 200; i++) {
            variances[i] = 1 + i % 4;
            values[i] = Math.sqrt(variances[i]) * random.nextGaussian() * .8;
        }
        Predictor predictor = new Predictor(Predictor.rule(), values, variances);
        double mean = RandomEffects.of(values, variances).mean();

        assertThat(predictor.score(mean + 6, 4)).isBetween(2.9, 3.0);
        assertThat(predictor.score(mean - 6, 9)).isBetween(-2., -1.95);
        assertThat(predictor.score(mean, 4)).isCloseTo(0, within(.02));
    }

    @Test
    void ofValuesThatAreEqualOrKnownFarBetterThanOthersAScoreIsANumberAndTheLargerTheFurtherOff() {
        double[] equal = {4, 4, 4, 4, 4};
        double[] one = {1, 1, 1, 1, 1};
        double[] apart = {1e-9, 1, 1, 1e-9, 1};
        for (Predictor predictor : List.of(
                new Predictor(Predictor.rule(), equal, one),
                new Predictor(Predictor.rule(), equal, apart),
                new Predictor(Predictor.rule(), new double[] {3, 4, 5, 3, 4}, apart))) {
            double before = Double.NEGATIVE_INFINITY;
            for (double value : new double[] {-1e6, 0, 3.9, 4.1, 8, 40, 1e6}) {
                double score = predictor.score(value, .5);
                assertThat(score).as("score of %s", value).isFinite().isGreaterThan(before);
                before = score;
            }
        }
    }

    /** Limits solve the equations, so what comes out of them is what was asked for. */
    @Test
    void theLimitsGiveTheRateOfTheWholeBoard() {
        for (int products : new int[] {1, 12, 30}) {
            ControlBoard board = ControlBoard.of(products, 20, 200);
            double mean = new RunLength(.5, board.sumLimit(), board.singleLimit(), 0).mean(0);
            assertThat(mean / 2 / products).isCloseTo(200, within(1e-6));
            // half of the alarms are of single scores
            assertThat(2 * products * Normal.above(board.singleLimit())).isCloseTo(1 / 400., within(1e-12));
        }
    }

    @Test
    void theChanceOfAFalseAlarmWithinSoManyRunsIsWhatKnownScoresShow() {
        ControlBoard board = ControlBoard.of(4, 20, 100);
        Random random = new Random(2);
        int seasons = 20_000;
        int runs = 40;
        int alarms = 0;
        for (int season = 0; season < seasons; season++) {
            alarms += IntStream.range(0, 4)
                                    .filter(product -> alarmed(board, random, runs))
                                    .count()
                            > 0
                    ? 1
                    : 0;
        }
        double chance = board.chanceOfFalseAlarm(runs);
        assertThat(alarms / (double) seasons).isCloseTo(chance, within(4 * Math.sqrt(chance * (1 - chance) / seasons)));
        assertThat(board.chanceOfFalseAlarm(0)).isCloseTo(0, within(1e-12));
    }

    private static boolean alarmed(ControlBoard board, Random random, int runs) {
        Cusum cusum = new Cusum(.5);
        boolean alarmed = false;
        for (int run = 0; run < runs; run++) {
            double score = random.nextGaussian();
            cusum.add(score);
            alarmed |= Math.abs(score) > board.singleLimit() || Math.max(cusum.high(), cusum.low()) >= board.sumLimit();
        }
        return alarmed;
    }

    /** Values about 5 with an SD of 2 of the run and of 1 within it, as chance would have them, but none large. */
    private static double[] season(int runs) {
        Random random = new Random(6);
        return random.doubles(runs, 5 - Math.sqrt(15), 5 + Math.sqrt(15)).toArray();
    }

    private static double[] ones(int runs) {
        double[] ones = new double[runs];
        Arrays.fill(ones, 1);
        return ones;
    }

    private static final ControlBoard BOARD = ControlBoard.of(10, 20, 200);

    @Test
    void aSeasonWithoutAFaultHasAPointForEachRunAfterTheBaselineAndNoAlarm() {
        ControlChart chart = BOARD.chart(season(60), ones(60));

        assertThat(chart.alarms()).isEmpty();
        assertThat(chart.points()).hasSize(40);
        assertThat(chart.points().get(0).run()).isEqualTo(20);
        RandomEffects learnt = chart.learnt().orElseThrow();
        assertThat(learnt.count()).isEqualTo(60);
        assertThat(learnt.sd()).isBetween(1.5, 2.5);
    }

    @Test
    void oneWrongRunIsASingleAlarmAndIsNotLearnt() {
        double[] values = season(60);
        values[33] += 25;
        ControlChart chart = BOARD.chart(values, ones(60));

        assertThat(chart.alarms()).containsExactly(new ControlChart.Alarm(ControlChart.Kind.SINGLE, true, 33, 33, 33));
        assertThat(chart.learnt().orElseThrow().count()).isEqualTo(59);
        double mean = chart.learnt().orElseThrow().mean();
        assertThat(chart.difference(chart.alarms().get(0))).isCloseTo(values[33] - mean, within(1e-12));
    }

    /** The sum since a few runs that happened to be high is of that one run all the same. */
    @Test
    void oneWrongRunBehindAFewThatAreALittleHighIsAnAlarmOfItsOwn() {
        double[] values = season(60);
        for (int run = 30; run < 33; run++) {
            values[run] = 7.5;
        }
        values[33] += 25;
        ControlChart chart = BOARD.chart(values, ones(60));

        assertThat(chart.points().get(32 - 20).high()).isBetween(0.5, BOARD.sumLimit() / 2);
        assertThat(chart.alarms()).containsExactly(new ControlChart.Alarm(ControlChart.Kind.SINGLE, true, 33, 33, 33));
    }

    @Test
    void oneWrongRunAtTheEndOfASlowShiftIsPartOfIt() {
        double[] values = season(60);
        for (int run = 30; run < 33; run++) {
            values[run] = 9.5;
        }
        values[33] += 25;
        ControlChart chart = BOARD.chart(values, ones(60));

        assertThat(chart.points().get(32 - 20).high()).isBetween(BOARD.sumLimit() / 2, BOARD.sumLimit());
        assertThat(chart.alarms()).hasSize(1);
        assertThat(chart.alarms().get(0).since()).isEqualTo(30);
        assertThat(chart.alarms().get(0).noticed()).isEqualTo(33);
    }

    @Test
    void wrongRunsInARowAreOneAlarm() {
        double[] values = season(60);
        for (int run = 40; run < 45; run++) {
            values[run] -= 25;
        }
        ControlChart chart = BOARD.chart(values, ones(60));

        assertThat(chart.alarms()).containsExactly(new ControlChart.Alarm(ControlChart.Kind.SINGLE, false, 40, 40, 44));
        assertThat(chart.difference(chart.alarms().get(0))).isBetween(-30., -20.);
    }

    @Test
    void aSmallShiftThatStaysIsFoundByTheSumWithTheRunInWhichItBegan() {
        double[] values = season(100);
        for (int run = 60; run < 100; run++) {
            values[run] -= 5;
        }
        List<ControlChart.Alarm> alarms = BOARD.chart(values, ones(100)).alarms();

        assertThat(alarms).isNotEmpty().allMatch(alarm -> !alarm.high());
        assertThat(alarms.get(0).kind()).isEqualTo(ControlChart.Kind.SUM);
        assertThat(alarms.get(0).since()).isBetween(57, 62);
        assertThat(alarms.get(0).noticed()).isBetween(62, 72);
    }

    @Test
    void aRunWithALargeKnownVarianceMayLieFarOff() {
        double[] values = season(60);
        values[33] += 25;
        double[] variances = ones(60);
        variances[33] = 150;

        assertThat(BOARD.chart(values, variances).alarms()).isEmpty();
    }

    @Test
    void aSeasonShorterThanTheBaselineHasNoPoint() {
        ControlChart chart = BOARD.chart(season(1), ones(1));

        assertThat(chart.points()).isEmpty();
        assertThat(chart.learnt()).isEmpty();
        assertThat(BOARD.chart(new double[0], new double[0]).alarms()).isEmpty();
    }

    @Test
    void aBoardSaysWhatItIs() {
        assertThat(BOARD.products()).isEqualTo(10);
        assertThat(BOARD.baseline()).isEqualTo(20);
        assertThat(BOARD.runsPerFalseAlarm()).isEqualTo(200);
        assertThat(BOARD)
                .hasToString("10 products, single limit " + BOARD.singleLimit() + ", limit of the sum "
                        + BOARD.sumLimit() + ", one false alarm in 200.0 runs after a baseline of 20");
    }

    @Test
    void whatIsNoBoardIsRefused() {
        assertThatThrownBy(() -> ControlBoard.of(0, 20, 200))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("0 products are none to watch; 1 or more are");
        assertThatThrownBy(() -> ControlBoard.of(1, 2, 200))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a baseline of 2 runs is too short; 3 is the least");
        assertThatThrownBy(() -> ControlBoard.of(1, 20, 9))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a false alarm in 9.0 runs is no rate to work with; 10 runs are the least");
        assertThatThrownBy(() -> BOARD.chart(new double[] {1}, new double[] {-1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the variance -1.0 at 0 is not a finite number above 0");
        ControlChart.Alarm alarm = new ControlChart.Alarm(ControlChart.Kind.SUM, true, 1, 2, 3);
        ControlChart chart = BOARD.chart(season(60), ones(60));
        assertThatThrownBy(() -> chart.difference(alarm))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the chart has no such alarm: " + alarm);
        assertThatThrownBy(() -> new ControlChart.Alarm(ControlChart.Kind.SUM, true, 5, 4, 6))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("an alarm since run 5 isn't noticed in run 4 and there until run 6");
    }
}
