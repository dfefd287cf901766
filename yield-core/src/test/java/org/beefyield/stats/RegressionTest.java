package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ForkJoinPool;
import org.junit.jupiter.api.Test;

/** Rows are worked off in blocks and shared out between threads; that must not be seen in what comes out. */
class RegressionTest {
    private static final int ROWS = 97;
    private static final int TIMES = 100;
    private static final int TERMS = 5;
    private static final int RESPONSES = 3;
    private static final double STRENGTH = 7;

    private static double[] random(int length, Random random, double low, double high) {
        return random.doubles(length, low, high).toArray();
    }

    private static double[][] random(int columns, int length, Random random, double low, double high) {
        double[][] values = new double[columns][];
        for (int c = 0; c < columns; c++) {
            values[c] = random(length, random, low, high);
        }
        return values;
    }

    private static double[] repeated(double[] column) {
        double[] all = new double[column.length * TIMES];
        for (int i = 0; i < all.length; i++) {
            all[i] = column[i % column.length];
        }
        return all;
    }

    private static double[][] repeated(double[][] columns) {
        double[][] all = new double[columns.length][];
        for (int c = 0; c < columns.length; c++) {
            all[c] = repeated(columns[c]);
        }
        return all;
    }

    private static double[][] timesRootOf100(double[][] values) {
        double[][] scaled = new double[values.length][];
        for (int r = 0; r < values.length; r++) {
            scaled[r] = new double[values[r].length];
            for (int c = 0; c < scaled[r].length; c++) {
                scaled[r][c] = Math.sqrt(TIMES) * values[r][c];
            }
        }
        return scaled;
    }

    @Test
    void ofManyRowsEveryResidualLeverageAndSumIsWhatTheFormulasSay() {
        Random random = new Random(6);
        double[][] x = random(TERMS, ROWS, random, -2, 3);
        double[][] y = random(RESPONSES, ROWS, random, 50, 90);
        double[][] prior = random(TERMS, RESPONSES, random, -1, 1);
        double[] plain = new double[ROWS];
        Arrays.fill(plain, 1);
        double[][] root = random(TERMS, TERMS, random, -1, 1);
        for (double[][] known : new double[][][] {{}, random(RESPONSES, ROWS, random, -5, 5)}) {
            for (double[] weight : new double[][] {plain, random(ROWS, random, 0.2, 3)}) {
                for (double strength : new double[] {0, STRENGTH}) {
                    Regression once = new Regression(x, y, known, weight, prior, root, strength);
                    Regression often = new Regression(
                            repeated(x),
                            repeated(y),
                            repeated(known),
                            repeated(weight),
                            prior,
                            timesRootOf100(root),
                            strength);
                    compare(once, often, known, weight);
                }
            }
        }
    }

    @Test
    void figuresDoNotDependOnTheThreads() throws Exception {
        Random random = new Random(7);
        double[][] x = random(TERMS, 20_000, random, -2, 3);
        double[][] y = random(RESPONSES, 20_000, random, 50, 90);
        double[] weights = random(20_000, random, 0.2, 3);
        double[][] none = new double[TERMS][RESPONSES];
        Callable<Regression> fit = () -> new Regression(x, y, new double[0][], weights, none, none, 0);
        ForkJoinPool one = new ForkJoinPool(1);
        ForkJoinPool four = new ForkJoinPool(4);
        try {
            Regression alone = one.submit(fit).get();
            Regression shared = four.submit(fit).get();
            assertThat(shared.solved.coefficients()).isDeepEqualTo(alone.solved.coefficients());
            assertThat(shared.residuals).isDeepEqualTo(alone.residuals);
            assertThat(shared.leverage).isEqualTo(alone.leverage);
            assertThat(shared.sd(1)).isEqualTo(alone.sd(1));
        } finally {
            one.shutdown();
            four.shutdown();
        }
    }

    private static Regression fit(double[][] x, double[][] y, double[] weights, double[][] prior, double strength) {
        return new Regression(x, y, new double[0][], weights, prior, new double[][] {{1}}, strength);
    }

    @Test
    void whatDoesNotFitTogetherIsRefused() {
        double[][] three = {{1, 1, 1}};
        double[][] prior = {{0}};
        double[] weights = {1, 1, 1};

        assertThatThrownBy(() -> fit(new double[][] {{1, 1}}, three, weights, prior, 0))
                .hasMessage("\"x\" should be 1 by 3 numbers");
        assertThatThrownBy(() -> fit(three, new double[0][], weights, prior, 0))
                .hasMessage("\"y\" should be 1 by 3 numbers");
        assertThatThrownBy(() -> fit(three, three, weights, new double[2][1], 0))
                .hasMessage("\"prior\" should be 1 by 1 numbers");
        assertThatThrownBy(() -> new Regression(three, three, new double[1][2], weights, prior, prior, 0))
                .hasMessage("\"known\" should be 1 by 3 numbers");
        assertThatThrownBy(() -> new Regression(three, three, new double[0][], weights, prior, new double[1][2], 1))
                .hasMessage("\"root\" should be 1 by 1 numbers");
        assertThatThrownBy(() -> fit(three, three, new double[] {1, 0, 1}, prior, 0))
                .hasMessage("a weight is above 0");
        assertThatThrownBy(() -> fit(three, three, weights, prior, -1))
                .hasMessage("strength -1.0 is not a number of rows, 0 or more");
    }

    private static void compare(Regression once, Regression often, double[][] known, double[] weight) {
        double[][] coefficients = often.solved.coefficients();
        double trace = 0;
        for (int k = 0; k < RESPONSES; k++) {
            double squares = 0;
            double products = 0;
            for (int j = 0; j < TERMS; j++) {
                assertThat(coefficients[j][k]).isCloseTo(once.solved.coefficients()[j][k], within(1e-11));
            }
            for (int i = 0; i < ROWS * TIMES; i++) {
                double residual = often.y[k][i] - (known.length > 0 ? known[k][i % ROWS] : 0);
                for (int j = 0; j < TERMS; j++) {
                    residual -= often.x[j][i] * coefficients[j][k];
                }
                assertThat(often.residuals[k][i]).isCloseTo(residual, within(1e-11));
                squares += weight[i % ROWS] * residual * residual;
                products += weight[i % ROWS] * residual * often.residuals[0][i];
            }
            assertThat(often.sd(k) * often.sd(k) * often.degreesOfFreedom).isCloseTo(squares, within(1e-9 * squares));
            assertThat(often.squares(k, 0)).isCloseTo(products, within(1e-9 * squares));
        }
        for (int i = 0; i < ROWS * TIMES; i++) {
            assertThat(often.leverage[i] * TIMES).isCloseTo(once.leverage[i % ROWS], within(1e-12));
            trace += often.leverage[i];
        }
        if (often.strength == 0) {
            assertThat(trace).isCloseTo(TERMS, within(1e-9));
            assertThat(often.degreesOfFreedom).isEqualTo(ROWS * TIMES - TERMS);
        } else {
            // what the terms leave of the rows is the same, whether of few or of many
            assertThat(ROWS * TIMES - often.degreesOfFreedom).isCloseTo(ROWS - once.degreesOfFreedom, within(1e-9));
        }
    }
}
