package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Many rows are turned into a triangle block by block; that must not be seen in what comes out. */
class LeastSquaresTest {
    private static double[][] random(int rows, int columns, long seed) {
        Random random = new Random(seed);
        double[][] values = new double[rows][columns];
        for (double[] row : values) {
            for (int j = 0; j < columns; j++) {
                row[j] = j == 0 ? 1 : random.nextDouble(-3, 3);
            }
        }
        return values;
    }

    /** Rows as columns. */
    static double[][] turned(double[][] rows) {
        double[][] columns = new double[rows[0].length][rows.length];
        for (int j = 0; j < columns.length; j++) {
            for (int i = 0; i < rows.length; i++) {
                columns[j][i] = rows[i][j];
            }
        }
        return columns;
    }

    private static LeastSquares solve(double[][] x, double[][] y) {
        return new LeastSquares(turned(x), turned(y));
    }

    private static double[][] repeated(double[][] rows, int times) {
        double[][] repeated = new double[rows.length * times][];
        for (int i = 0; i < repeated.length; i++) {
            repeated[i] = rows[i % rows.length];
        }
        return repeated;
    }

    @Test
    void rowsAHundredTimesOverHaveTheSameCoefficientsAndAHundredthOfTheVariance() {
        double[][] x = random(41, 6, 1);
        double[][] y = random(41, 4, 2);
        LeastSquares once = solve(x, y);
        LeastSquares often = solve(repeated(x, 100), repeated(y, 100));

        for (int j = 0; j < 6; j++) {
            for (int k = 0; k < 4; k++) {
                assertThat(often.coefficients()[j][k]).isCloseTo(once.coefficients()[j][k], within(1e-13));
            }
            for (int i = 0; i < 6; i++) {
                assertThat(100 * often.unscaledCovariance()[j][i])
                        .isCloseTo(once.unscaledCovariance()[j][i], within(1e-14));
            }
        }
    }

    @Test
    void ofManyRowsTooATermInTheSpanOfOthersIsFound() {
        double[][] x = random(5000, 5, 3);
        for (double[] row : x) {
            row[3] = 2 * row[0] - 0.5 * row[2];
        }
        LeastSquares solved = solve(x, random(5000, 2, 4));

        assertThat(solved.dependent()).containsExactly(3);
        assertThat(solved.dependence(0)).containsExactly(new double[] {2, 0, -0.5}, within(1e-12));
    }

    @Test
    void aTermThatIsZeroInEveryBlockButTheLastIsKept() {
        double[][] x = random(5000, 3, 5);
        double[][] y = new double[5000][1];
        for (int i = 0; i < 5000; i++) {
            x[i][1] = i < 4990 ? 0 : i - 4994.5;
            y[i][0] = 3 + 7 * x[i][1] - 2 * x[i][2];
        }
        LeastSquares solved = solve(x, y);

        assertThat(solved.dependent()).isEmpty();
        assertThat(solved.coefficients()[0][0]).isCloseTo(3, within(1e-12));
        assertThat(solved.coefficients()[1][0]).isCloseTo(7, within(1e-12));
        assertThat(solved.coefficients()[2][0]).isCloseTo(-2, within(1e-12));
    }
}
