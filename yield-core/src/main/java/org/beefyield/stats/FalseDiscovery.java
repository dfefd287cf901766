package org.beefyield.stats;

import java.util.Comparator;
import java.util.Objects;
import java.util.stream.IntStream;

/**
 * Many tests at once: each chance made larger so that, of those tests that are called out at a rate, at most that part is
 * expected to be so by chance alone. It holds for independent tests and for such as move in the same direction.
 *
 * <p>Source: Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57, 289 to 300.
 */
public final class FalseDiscovery {
    private static final double HALF = 0.5;

    private final double[] adjusted;

    private FalseDiscovery(double[] adjusted) {
        this.adjusted = adjusted;
    }

    /**
     * Adjusts the chances of tests.
     *
     * @param chances for each test the chance of what was seen or more, if nothing is wrong, 0 to 1
     * @return the adjusted ones
     * @throws IllegalArgumentException if a chance is outside 0 to 1
     */
    public static FalseDiscovery of(double[] chances) {
        Objects.requireNonNull(chances, "chances");
        for (int i = 0; i < chances.length; i++) {
            if (!(chances[i] >= 0 && chances[i] <= 1)) {
                throw new IllegalArgumentException("the chance " + chances[i] + " at " + i + " is outside 0 to 1");
            }
        }
        int tests = chances.length;
        int[] falling = IntStream.range(0, tests)
                .boxed()
                .sorted(Comparator.comparingDouble((Integer i) -> chances[i]).reversed())
                .mapToInt(Integer::intValue)
                .toArray();
        double[] adjusted = new double[tests];
        double least = 1;
        for (int place = 0; place < tests; place++) {
            least = Math.min(least, chances[falling[place]] * tests / (tests - place));
            adjusted[falling[place]] = least;
        }
        return new FalseDiscovery(adjusted);
    }

    /**
     * Adjusts the chances of scores that are standard normal if nothing is wrong, large in either direction.
     *
     * @param scores a score for each test
     * @return the adjusted chances
     * @throws IllegalArgumentException if a score is not a number
     */
    public static FalseDiscovery ofScores(double[] scores) {
        Objects.requireNonNull(scores, "scores");
        double[] chances = new double[scores.length];
        for (int i = 0; i < scores.length; i++) {
            if (Double.isNaN(scores[i])) {
                throw new IllegalArgumentException("the score at " + i + " is not a number");
            }
            chances[i] = Math.min(1, 2 * Normal.above(Math.abs(scores[i])));
        }
        return of(chances);
    }

    /**
     * A limit for many scores that are looked at one-sided, of which none is to be called out by chance (Bonferroni).
     *
     * @param tests number of scores, 1 or more
     * @param chance chance that one or more of them exceed it though nothing is wrong, such as 0.05
     * @return in SDs
     * @throws IllegalArgumentException if there are none, or the chance is outside 0 to 1
     */
    public static double limit(int tests, double chance) {
        Given.chance("the chance", chance);
        if (tests < 1) {
            throw new IllegalArgumentException(tests + " tests are none; 1 or more have a limit");
        }
        return Normal.exceeded(Math.min(HALF, chance / tests));
    }

    /**
     * Number of tests.
     *
     * @return 0 or more
     */
    public int count() {
        return adjusted.length;
    }

    /**
     * The chance of a test, adjusted: the smallest rate at which it is called out.
     *
     * @param test number of a test
     * @return 0 to 1
     */
    public double adjusted(int test) {
        return adjusted[test];
    }

    /**
     * Tests that are called out.
     *
     * @param rate the part of them, at most, that is expected to be so by chance alone, such as 0.05
     * @return their numbers, ascending
     * @throws IllegalArgumentException if the rate is outside 0 to 1
     */
    public int[] calledOut(double rate) {
        Given.chance("the rate", rate);
        return IntStream.range(0, adjusted.length)
                .filter(test -> adjusted[test] <= rate)
                .toArray();
    }
}
