package org.beefyield.benchmarks.coverage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import java.util.random.RandomGenerator;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.ScaleError;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

class WorldTest {
    private static final int DRAWS = 10_000;

    /** Standard error of an SD of so many draws, relative, times 4. */
    private static final double SD_TOLERANCE = 4 / Math.sqrt(2.0 * DRAWS);

    private static final Nature NOTHING = new Nature(0, 0, 0, 0, 0, 0, 0, 0, false);
    private static final Nature RUNS = NOTHING.withRun(1);
    private static final Nature CARCASSES = new Nature(1, 0, 0, 0, 0, 0, 0, 0, false);
    private static final Nature LOTS = new Nature(0, 0, 1, 0, 0, 0, 0, 0, false);
    private static final Nature HALLS = new Nature(0, 0, 0, 0, 1, 0, 0, 0, false);
    private static final Nature TABLES = new Nature(0, 0, 0, 0, 0, 1, 0, 0, false);
    private static final Nature GRADES = new Nature(0, 1, 0, 0, 0, 0, 0, 0, false);

    private static final TableDefinition MADE = MadeTable.definition();

    private static Carcass steer() {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
    }

    private static World world(TableDefinition definition, Nature nature) {
        return new World(definition, ScaleError.NONE, nature, List.of(Tree.ways(definition, "steaks")));
    }

    private static double[] draws(
            World world, List<Herd> herds, ToDoubleFunction<Outcome[][]> figure, RandomGenerator random) {
        return IntStream.range(0, DRAWS)
                .mapToDouble(draw -> figure.applyAsDouble(world.draw(herds, random)))
                .toArray();
    }

    private static double mean(double[] values) {
        return DoubleStream.of(values).average().orElseThrow();
    }

    private static double covariance(double[] a, double[] b) {
        double meanA = mean(a);
        double meanB = mean(b);
        return IntStream.range(0, a.length)
                        .mapToDouble(i -> (a[i] - meanA) * (b[i] - meanB))
                        .sum()
                / (a.length - 1);
    }

    private static double sd(double[] values) {
        return Math.sqrt(covariance(values, values));
    }

    /** Herds of the reference carcass, one for each lot, run and hall given. */
    private static List<Herd> herds(int size, int[]... keys) {
        List<Herd> herds = new ArrayList<>();
        for (int[] of : keys) {
            herds.add(Herd.lot(size, of[0], of[1], of[2], any -> steer(), new SplittableRandom(1)));
        }
        return herds;
    }

    private static ToDoubleFunction<Outcome[][]> meat(int herd) {
        return outcomes -> outcomes[herd][0].kg(0, "meat");
    }

    @Test
    void withoutErrorsTheReferenceCarcassGivesTheLevelsOfTheTable() {
        Outcome outcome = world(MADE, NOTHING).draw(herds(1, new int[3]), new SplittableRandom(1))[0][0];

        assertThat(outcome.kg(0, "meat")).isCloseTo(0.68 * 340, within(1e-9));
        assertThat(outcome.kg(1, "loin")).isCloseTo(0.68 * 0.24 * 340, within(1e-9));
        assertThat(outcome.kg(2, "loin-steak")).isCloseTo(0.68 * 0.24 * 0.65 * 340, within(1e-9));
        assertThat(outcome.kg(CutKind.FAT_TRIM))
                .isCloseTo((0.12 + 0.68 * (0.4 * 0.06 + 0.24 * 0.1 + 0.36 * 0.12)) * 340, within(1e-9));
    }

    @Test
    void termsAndRowsOfACategoryCountAsWritten() {
        // R+ 4+ 400 kg: a point above, four points fatter, one of them above 11, 60 kg heavier
        Carcass cow = Carcass.of(Category.COW, Conformation.parse("R+"), FatClass.parse("4+"), 400);
        Herd herd = Herd.lot(1, 0, 0, 0, any -> cow, new SplittableRandom(1));

        Outcome outcome = world(MADE, NOTHING).draw(List.of(herd), new SplittableRandom(1))[0][0];

        double meat = 660 + 8 - 8.5 * 4 + 4 * 0.6 + 0.3 * 0.6 - 2;
        double bone = 180 - 5 - 2 * 4 - 4 * 0.6 - 0.3 * 0.6;
        assertThat(outcome.kg(0, "meat")).isCloseTo(meat / 1000 * 400, within(1e-9));
        assertThat(outcome.kg(0, "bone")).isCloseTo(bone / 1000 * 400, within(1e-9));
    }

    @Test
    void everyLevelOfEveryDrawClosesAtTheTrueWeight() {
        World world = world(MADE, Nature.AS_DECLARED);
        SplittableRandom random = new SplittableRandom(2);
        for (int draw = 0; draw < 200; draw++) {
            Outcome outcome = world.draw(herds(3, new int[3]), random)[0][0];
            for (int level = 0; level < 3; level++) {
                double sum = 0;
                for (CutKind kind : CutKind.values()) {
                    sum += outcome.kg(level, kind);
                }
                assertThat(sum).isCloseTo(3 * 340, within(1e-9));
            }
        }
    }

    @Test
    void aStatedCovarianceIsDrawnAndCloses() {
        double[][] covariance = {{9, -3, -6}, {-3, 4, -1}, {-6, -1, 7}};
        Closing closing = Closing.ofCovariance(covariance, new int[] {0, 1, 2});
        SplittableRandom random = new SplittableRandom(8);
        double[][] drawn = new double[3][DRAWS];
        for (int draw = 0; draw < DRAWS; draw++) {
            double[] errors = new double[3];
            closing.add(new double[] {random.nextGaussian(), random.nextGaussian(), random.nextGaussian()}, errors, 0);
            assertThat(errors[0] + errors[1] + errors[2]).isCloseTo(0, within(1e-9));
            for (int k = 0; k < 3; k++) {
                drawn[k][draw] = errors[k];
            }
        }
        for (int k = 0; k < 3; k++) {
            for (int m = 0; m < 3; m++) {
                double standardError =
                        Math.sqrt((covariance[k][k] * covariance[m][m] + covariance[k][m] * covariance[k][m]) / DRAWS);
                assertThat(covariance(drawn[k], drawn[m])).isCloseTo(covariance[k][m], within(4 * standardError));
            }
        }
    }

    @Test
    void drawnSharesHaveTheSdsThatTheTableStates() {
        Map<Nature, double[]> stated = Map.of(
                CARCASSES, new double[] {22, 20, 14, 4},
                LOTS, new double[] {9, 8, 5, 0},
                RUNS, new double[] {11, 9, 7, 3},
                HALLS, new double[] {13, 10, 8, 4});
        List<String> tissues = List.of("meat", "fat-trim", "bone", "loss");
        stated.forEach((nature, sds) -> {
            for (int k = 0; k < sds.length; k++) {
                String tissue = tissues.get(k);
                double[] kg = draws(
                        world(MADE, nature),
                        herds(1, new int[3]),
                        outcomes -> outcomes[0][0].kg(0, tissue),
                        new SplittableRandom(3));
                assertThat(1000 * sd(kg) / 340)
                        .as(nature + " " + tissue)
                        .isCloseTo(sds[k], within(sds[k] * SD_TOLERANCE + 1e-9));
            }
        });
    }

    @Test
    void whereTheLargestChildTakesTheOppositeItsSdIsAsStatedToo() {
        // hind to joints between halls: 50 = 16 + 22 + 10 + 2
        double[] sds = {50, 16, 22, 10, 2};
        Closing closing = Closing.of(sds, new int[] {0, 1, 2, 3, 4}, 5);
        Errors errors = new Errors(new SplittableRandom(4), false);
        double[][] drawn = new double[sds.length][DRAWS];
        for (int draw = 0; draw < DRAWS; draw++) {
            double[] one = new double[sds.length];
            closing.add(errors.draw(6), one, 0);
            for (int k = 0; k < one.length; k++) {
                drawn[k][draw] = one[k];
            }
            assertThat(DoubleStream.of(one).sum()).isCloseTo(0, within(1e-9));
        }
        for (int k = 0; k < sds.length; k++) {
            assertThat(sd(drawn[k])).isCloseTo(sds[k], within(sds[k] * SD_TOLERANCE));
        }
    }

    @Test
    void independentErrorsThatCloseHaveTheCovarianceThatFollowsFromTheirSds() {
        // three SDs leave one choice: of a and b, half of what c's square is above or below theirs
        double[] sds = {3, 4, 4.5};
        Closing closing = Closing.of(sds, new int[] {0, 1, 2}, 3);
        Errors errors = new Errors(new SplittableRandom(5), false);
        double[][] drawn = new double[3][DRAWS];
        for (int draw = 0; draw < DRAWS; draw++) {
            double[] one = new double[3];
            closing.add(errors.draw(4), one, 0);
            for (int k = 0; k < 3; k++) {
                drawn[k][draw] = one[k];
            }
        }

        double expected = (4.5 * 4.5 - 3 * 3 - 4 * 4) / 2;
        assertThat(covariance(drawn[0], drawn[1]))
                .isCloseTo(expected, within(4 * Math.sqrt((9 * 16 + expected * expected) / DRAWS)));
    }

    @Test
    void whatCarcassesHaveInCommonDoesNotShrinkWithTheirNumber() {
        for (Nature nature : List.of(LOTS, RUNS, HALLS, TABLES)) {
            double one = sd(draws(world(MADE, nature), herds(1, new int[3]), meat(0), new SplittableRandom(6)));
            double[] many = new double[2000];
            World world = world(MADE, nature);
            SplittableRandom random = new SplittableRandom(7);
            for (int draw = 0; draw < many.length; draw++) {
                many[draw] = world.draw(herds(50, new int[3]), random)[0][0].kg(0, "meat") / 50;
            }
            assertThat(sd(many)).as(nature.toString()).isCloseTo(one, within(one * 4 / Math.sqrt(2.0 * many.length)));
        }
        double one = sd(draws(world(MADE, CARCASSES), herds(1, new int[3]), meat(0), new SplittableRandom(8)));
        double four = sd(draws(world(MADE, CARCASSES), herds(4, new int[3]), meat(0), new SplittableRandom(9))) / 4;
        assertThat(four).isCloseTo(one / 2, within(one / 2 * 2 * SD_TOLERANCE));
    }

    @Test
    void errorsOfOtherLotsRunsAndHallsAreOthersAndOfEqualOnesTheSame() {
        int[][] keys = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
        List<Nature> natures = List.of(LOTS, RUNS, HALLS);
        for (int by = 0; by < natures.size(); by++) {
            List<Herd> herds = herds(1, keys);
            World world = world(MADE, natures.get(by));
            double[][] kg = new double[keys.length][];
            for (int herd = 0; herd < keys.length; herd++) {
                kg[herd] = draws(world, herds, meat(herd), new SplittableRandom(10));
            }
            for (int herd = 1; herd < keys.length; herd++) {
                double correlation = covariance(kg[0], kg[herd]) / sd(kg[0]) / sd(kg[herd]);
                boolean same = keys[herd][by] == 0;
                assertThat(correlation).isCloseTo(same ? 1 : 0, within(same ? 1e-9 : 4 / Math.sqrt(DRAWS)));
            }
        }
    }

    @Test
    void errorsOfEqualNameAreOneDrawForAllCategories() {
        Carcass cow = Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 340);
        List<Herd> herds =
                List.of(herds(1, new int[3]).get(0), Herd.lot(1, 0, 0, 0, any -> cow, new SplittableRandom(1)));
        World world = world(MADE, TABLES);

        double[] steers = draws(world, herds, meat(0), new SplittableRandom(11));
        double[] cows = draws(world, herds, meat(1), new SplittableRandom(11));

        // at the reference carcass only levels err: 6 in common, the cows' 7 by themselves
        double tolerance = 4 / Math.sqrt(DRAWS);
        assertThat(1000 * sd(steers) / 340).isCloseTo(6, within(6 * SD_TOLERANCE));
        assertThat(1000 * sd(cows) / 340).isCloseTo(Math.hypot(6, 7), within(Math.hypot(6, 7) * SD_TOLERANCE));
        assertThat(covariance(steers, cows) / sd(steers) / sd(cows)).isCloseTo(6 / Math.hypot(6, 7), within(tolerance));
    }

    @Test
    void aSlopeWithoutANameErrsInAllCategoriesAlike() {
        // O- lies 4 points below the reference
        Carcass steer = Carcass.of(Category.STEER, Conformation.parse("O-"), FatClass.parse("3="), 340);
        List<Herd> herds = List.of(Herd.lot(1, 0, 0, 0, any -> steer, new SplittableRandom(1)));

        double[] kg = draws(world(MADE, TABLES), herds, meat(0), new SplittableRandom(12));

        double expected = Math.hypot(6, 4 * 0.75);
        assertThat(1000 * sd(kg) / 340).isCloseTo(expected, within(expected * SD_TOLERANCE));
    }

    @Test
    void aWholeClassIsThreeThirds() {
        Carcass whole = Carcass.of(Category.STEER, Conformation.parse("R"), FatClass.parse("3="), 340);
        List<Herd> herds = List.of(Herd.lot(1, 0, 0, 0, any -> whole, new SplittableRandom(1)));

        double[] kg = draws(world(MADE, GRADES), herds, meat(0), new SplittableRandom(13));

        assertThat(1000 * sd(kg) / 340).isCloseTo(8 * Math.sqrt(2.0 / 3), within(8 * SD_TOLERANCE));
        assertThat(DoubleStream.of(kg).map(one -> Math.rint(one * 1e6) / 1e6).distinct())
                .containsExactlyInAnyOrder(228.48, 231.2, 233.92);
        assertThat(sd(draws(world(MADE, GRADES), herds(1, new int[3]), meat(0), new SplittableRandom(13))))
                .isLessThan(1e-9);
    }

    @Test
    void theScaleErrsByCarcassAndByRun() {
        Nature scale = new Nature(0, 0, 0, 0, 0, 0, 1, 1, false);
        World world = new World(MADE, new ScaleError(1, 2), scale, List.of(Tree.ways(MADE, "steaks")));
        ToDoubleFunction<Outcome[][]> all = outcomes -> {
            double kg = 0;
            for (CutKind kind : CutKind.values()) {
                kg += outcomes[0][0].kg(kind);
            }
            return kg;
        };

        double[] kg = draws(world, herds(9, new int[3]), all, new SplittableRandom(14));

        double expected = Math.sqrt(9 + 81 * 4);
        assertThat(mean(kg)).isCloseTo(9 * 340, within(4 * expected / Math.sqrt(DRAWS)));
        assertThat(sd(kg)).isCloseTo(expected, within(expected * SD_TOLERANCE));
    }

    @Test
    void heavyTailsHaveTheDeclaredSdAndMoreFarOut() {
        Errors errors = new Errors(new SplittableRandom(15), true);
        double[] drawn =
                IntStream.range(0, 400_000).mapToDouble(i -> errors.one()).toArray();

        // the fourth moment is infinite, so the SD settles slowly
        assertThat(sd(drawn)).isCloseTo(1, within(0.03));
        // Student's distribution with 4 degrees of freedom lies beyond 2.776 in 5 of 100, tables of every textbook
        double beyond = DoubleStream.of(drawn)
                        .filter(one -> Math.abs(one) * Math.sqrt(2) > 2.776)
                        .count()
                / (double) drawn.length;
        assertThat(beyond).isCloseTo(0.05, within(4 * Math.sqrt(0.05 * 0.95 / drawn.length)));
    }

    @Test
    void theSameCarcassesCutTwoWaysHaveTheSamePrimals() {
        World world = new World(
                MADE,
                ScaleError.NONE,
                Nature.AS_DECLARED,
                List.of(Tree.ways(MADE, "steaks"), Tree.ways(MADE, "joints")));

        Outcome[] outcomes = world.draw(herds(5, new int[3]), new SplittableRandom(16))[0];

        assertThat(outcomes[0].kg(1, "loin")).isEqualTo(outcomes[1].kg(1, "loin"));
        assertThat(outcomes[0].kg(2, "hind-joint")).isEqualTo(outcomes[1].kg(2, "hind-joint"));
        assertThat(outcomes[0].kg(CutKind.STEAK)).isPositive();
        assertThat(outcomes[1].kg(CutKind.STEAK)).isZero();
    }

    @Test
    void minceIsMadeOfAllLeanTrimAtOnceByPearsonsSquare() {
        Outcome outcome = world(MADE, NOTHING).draw(herds(2, new int[3]), new SplittableRandom(1))[0][0];
        double[] lean = {0.4 * 0.12, 0.24 * 0.15, 0.36 * 0.56};
        double[] fat = {0.06, 0.09, 0.12};
        double wanted = 0;
        for (int i = 0; i < lean.length; i++) {
            wanted += 0.68 * lean[i] * (0.15 - fat[i]) / (0.72 - 0.15) * 2 * 340;
        }

        assertThat(outcome.fatIntoMince(0.15)).isCloseTo(wanted, within(1e-9));
        // wants more than all fat trim; wants none
        assertThat(outcome.fatIntoMince(0.6)).isEqualTo(outcome.kg(CutKind.FAT_TRIM));
        assertThat(outcome.fatIntoMince(0.05)).isZero();
    }
}
