package org.beefyield.grid;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.Assume;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

class ClosedErrorsProperties {
    private static double squares(double[] sd, int without) {
        double sum = 0;
        for (int k = 0; k < sd.length; k++) {
            sum += k == without ? 0 : sd[k] * sd[k];
        }
        return sum;
    }

    private static double[] spread(int children, double decades, Random random) {
        double[] sd = new double[children];
        for (int k = 0; k < children; k++) {
            sd[k] = 0.02 * Math.pow(10, -decades * random.nextDouble());
        }
        return sd;
    }

    private static int largest(double[] sd) {
        int largest = 0;
        for (int k = 1; k < sd.length; k++) {
            largest = sd[k] > sd[largest] ? k : largest;
        }
        return largest;
    }

    @Property(tries = 100, edgeCases = EdgeCasesMode.NONE)
    void setsThatCloseHaveACovarianceThatClosesWithTheirSds(
            @ForAll @IntRange(min = 3, max = 60) int children,
            @ForAll @DoubleRange(min = 0, max = 4) double decades,
            @ForAll long seed) {
        double[] sd = spread(children, decades, new Random(seed));
        Assume.that(ClosedErrors.closes(sd));
        ClosedErrorsTest.areClosed(ClosedErrors.conditioned(sd), sd);
    }

    @Property(tries = 100, edgeCases = EdgeCasesMode.NONE)
    void setsNearTheBoundaryDoToo(
            @ForAll @IntRange(min = 3, max = 60) int children,
            @ForAll @IntRange(min = 1, max = 13) int digits,
            @ForAll boolean zeros,
            @ForAll long seed) {
        Random random = new Random(seed);
        double[] sd = spread(children, 1, random);
        if (zeros && children > 3) {
            sd[children - 1] = 0;
        }
        int one = random.nextInt(3);
        sd[one] = Math.sqrt(squares(sd, one) * (1 - Math.pow(10, -digits)));
        Assume.that(largest(sd) == one);
        assertThat(ClosedErrors.closes(sd)).isTrue();
        ClosedErrorsTest.areClosed(ClosedErrors.conditioned(sd), sd);
        sd[one] = Math.sqrt(squares(sd, one) * (1 + Math.pow(10, -digits)));
        assertThat(ClosedErrors.closes(sd)).isFalse();
    }

    /** From the variances to the SDs by the formula: the other way round, the same covariance must come out. */
    @Property(tries = 100, edgeCases = EdgeCasesMode.NONE)
    void independentErrorsConditionedOnTheirSumComeBack(
            @ForAll @IntRange(min = 3, max = 60) int children,
            @ForAll @DoubleRange(min = 0, max = 100) double dominance,
            @ForAll long seed) {
        Random random = new Random(seed);
        double[] v = new double[children];
        double sum = 0;
        for (int k = 0; k < children; k++) {
            v[k] = 0.05 + random.nextDouble();
            sum += v[k];
        }
        int one = random.nextInt(children);
        v[one] += dominance;
        sum += dominance;
        double[] sd = new double[children];
        for (int k = 0; k < children; k++) {
            sd[k] = Math.sqrt(v[k] - v[k] * v[k] / sum);
        }
        double[][] matrix = ClosedErrorsTest.matrix(ClosedErrors.conditioned(sd), children);
        for (int i = 0; i < children; i++) {
            for (int j = 0; j < children; j++) {
                // where one variance is half of all, its SD hardly tells it: half of the digits are lost there
                assertThat(matrix[i][j])
                        .isCloseTo((i == j ? v[i] : 0) - v[i] * v[j] / sum, within(1e-7 * sd[i] * sd[j]));
            }
        }
    }

    /**
     * The condition against a search: over sums of the variances and, for each child, both roots of v - v*v/sum = sd*sd,
     * whether any set of roots adds up to its sum.
     */
    @Property(tries = 150, edgeCases = EdgeCasesMode.NONE)
    void theConditionAgreesWithASearchOverSums(
            @ForAll @IntRange(min = 3, max = 6) int children,
            @ForAll @DoubleRange(min = 0, max = 1) double decades,
            @ForAll @DoubleRange(min = 0.9, max = 1.1) double toBoundary,
            @ForAll boolean near,
            @ForAll long seed) {
        double[] sd = spread(children, decades, new Random(seed));
        int most = largest(sd);
        if (near) {
            sd[most] = Math.sqrt(squares(sd, most)) * toBoundary;
        }
        most = largest(sd);
        // at the boundary itself the sum is infinite, and no grid of sums reaches it
        Assume.that(Math.abs(sd[most] * sd[most] / squares(sd, most) - 1) > 0.01);
        assertThat(ClosedErrors.closes(sd)).isEqualTo(found(sd, sd[most]));
    }

    private static boolean found(double[] sd, double most) {
        for (int large = 0; large < 1 << sd.length; large++) {
            double before = 0;
            for (double sum = 4 * most * most; sum < 4e5 * most * most; sum *= 1.005) {
                double over = -sum;
                for (int k = 0; k < sd.length; k++) {
                    double root = Math.sqrt(Math.max(0, sum * sum - 4 * sd[k] * sd[k] * sum));
                    over += (large >> k & 1) == 1 ? (sum + root) / 2 : (sum - root) / 2;
                }
                if (over == 0 || before * over < 0) {
                    return true;
                }
                before = over;
            }
        }
        return false;
    }

    @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
    void threeStandardErrorsHaveTheOneCovarianceThereIsIfTheirLargestIsAtMostTheSumOfTheOthers(
            @ForAll @DoubleRange(min = 0.01, max = 1) double a,
            @ForAll @DoubleRange(min = 0.01, max = 1) double b,
            @ForAll @DoubleRange(min = 0.01, max = 1) double c) {
        double[] sd = {a, b, c};
        boolean possible = true;
        double[][] only = new double[3][3];
        for (int k = 0; k < 3; k++) {
            int i = (k + 1) % 3;
            int j = (k + 2) % 3;
            only[k][k] = sd[k] * sd[k];
            only[i][j] = (sd[k] * sd[k] - sd[i] * sd[i] - sd[j] * sd[j]) / 2;
            only[j][i] = only[i][j];
            Assume.that(Math.abs(Math.abs(only[i][j]) / (sd[i] * sd[j]) - 1) > 1e-6);
            possible &= Math.abs(only[i][j]) < sd[i] * sd[j];
        }
        assertThat(ClosedErrors.canBeBalanced(sd)).isEqualTo(possible);
        if (!possible) {
            assertThat(ClosedErrors.closes(sd)).isFalse();
            return;
        }
        double[][] matrix = ClosedErrorsTest.matrix(ClosedErrors.ofStandardErrors(sd), 3);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                assertThat(matrix[i][j]).isCloseTo(only[i][j], within(1e-9 * sd[i] * sd[j]));
            }
        }
    }

    @Property(tries = 100, edgeCases = EdgeCasesMode.NONE)
    void standardErrorsWhoseLargestLeadsClose(
            @ForAll @IntRange(min = 3, max = 60) int children,
            @ForAll @DoubleRange(min = 0, max = 1) double place,
            @ForAll long seed) {
        double[] sd = spread(children, 1, new Random(seed));
        int one = new Random(seed + 1).nextInt(children);
        double low = Math.sqrt(squares(sd, one));
        double high = 0;
        for (int k = 0; k < children; k++) {
            high += k == one ? 0 : sd[k];
        }
        // from independent others to others that move as one
        sd[one] = low + place * (high - low);
        assertThat(ClosedErrors.canBeBalanced(sd)).isTrue();
        ClosedErrorsTest.areClosed(ClosedErrors.ofStandardErrors(sd), sd);
        ClosedErrorsTest.areClosed(ClosedErrors.balanced(sd), sd);
        sd[one] = high * 1.001;
        assertThat(ClosedErrors.canBeBalanced(sd)).isFalse();
    }

    /** Weights that are polynomials: at every t the covariance of the sums is that of the weights at t. */
    @Property(tries = 100)
    void theCovarianceOfPolynomialWeightsHoldsAtEveryPoint(
            @ForAll @IntRange(min = 3, max = 12) int children,
            @ForAll @IntRange(min = 0, max = 3) int degree,
            @ForAll boolean balanced,
            @ForAll @DoubleRange(min = -2, max = 3) double t,
            @ForAll long seed) {
        Random random = new Random(seed);
        double[] sd = spread(children, 0.2, random);
        if (balanced) {
            sd[0] = Math.sqrt(squares(sd, 0)) * 1.1;
        } else {
            Assume.that(ClosedErrors.closes(sd));
        }
        ClosedErrors errors = ClosedErrors.ofStandardErrors(sd);
        double[][] a = weights(children, degree, random);
        double[][] b = weights(children, degree, random);
        double[][] matrix = ClosedErrorsTest.matrix(errors, children);
        double plain = 0;
        double size = 0;
        for (int i = 0; i < children; i++) {
            for (int j = 0; j < children; j++) {
                double one = at(a[i], t) * matrix[i][j] * at(b[j], t);
                plain += one;
                size += Math.abs(one);
            }
        }
        double[] covariance = errors.covariance(flat(a), flat(b), degree + 1);
        assertThat(at(covariance, t)).isCloseTo(plain, within(1e-12 * size));
        assertThat(covariance).hasSize(2 * degree + 1);
        // the same from what each independent error does
        int[] places = IntStream.range(0, children).toArray();
        double[] ofA = new double[children + ClosedErrors.COMMON];
        double[] ofB = new double[children + ClosedErrors.COMMON];
        errors.addEffects(Arrays.stream(a).mapToDouble(one -> at(one, t)).toArray(), ofA, places);
        errors.addEffects(Arrays.stream(b).mapToDouble(one -> at(one, t)).toArray(), ofB, places);
        double byErrors = 0;
        for (int m = 0; m < ofA.length; m++) {
            byErrors += ofA[m] * ofB[m];
        }
        assertThat(byErrors).isCloseTo(plain, within(1e-12 * size));
    }

    private static double[] flat(double[][] weights) {
        return Arrays.stream(weights).flatMapToDouble(Arrays::stream).toArray();
    }

    private static double[][] weights(int children, int degree, Random random) {
        double[][] weights = new double[children][degree + 1];
        for (double[] child : weights) {
            for (int j = 0; j <= degree; j++) {
                child[j] = random.nextGaussian();
            }
        }
        return weights;
    }

    private static double at(double[] polynomial, double t) {
        double value = 0;
        for (int j = polynomial.length - 1; j >= 0; j--) {
            value = value * t + polynomial[j];
        }
        return value;
    }
}
