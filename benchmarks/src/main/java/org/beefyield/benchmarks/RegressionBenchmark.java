package org.beefyield.benchmarks;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.beefyield.stats.Regression;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The regression behind a calibration, a row: 30 shares on 8 terms, with residuals and leverages. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(
        value = 1,
        jvmArgs = {"-Xms2g", "-Xmx2g"})
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 7, time = 1)
@OperationsPerInvocation(RegressionBenchmark.ROWS)
public class RegressionBenchmark {
    /** Rows to a run. */
    public static final int ROWS = 100_000;

    /** Terms, the constant among them. */
    public static final int TERMS = 8;

    /** Responses. */
    public static final int RESPONSES = 30;

    private final double[][] x = new double[TERMS][ROWS];
    private final double[][] y = new double[RESPONSES][ROWS];
    private final double[] weights = new double[ROWS];

    /** Draws rows, the same from one run to the next. */
    public RegressionBenchmark() {
        SplittableRandom random = new SplittableRandom(2);
        Arrays.fill(weights, 1);
        for (int i = 0; i < ROWS; i++) {
            x[0][i] = 1;
            for (int j = 1; j < TERMS; j++) {
                x[j][i] = random.nextDouble(-3, 3);
            }
            for (int k = 0; k < RESPONSES; k++) {
                double value = random.nextDouble(-0.01, 0.01);
                for (int j = 0; j < TERMS; j++) {
                    value += x[j][i] * (k + 1) / (10 + j);
                }
                y[k][i] = value;
            }
        }
    }

    /**
     * The fit.
     *
     * @return a regression, at strength 0
     */
    @Benchmark
    public Object regression() {
        return fit();
    }

    private Regression fit() {
        return new Regression(
                x, y, new double[0][], weights, new double[TERMS][RESPONSES], new double[TERMS][TERMS], 0);
    }

    /**
     * The terms.
     *
     * @return column by column
     */
    public double[] terms() {
        return joined(x);
    }

    /**
     * The responses.
     *
     * @return column by column
     */
    public double[] responses() {
        return joined(y);
    }

    /**
     * The coefficients.
     *
     * @return response by response
     */
    public double[] coefficients() {
        Regression fit = fit();
        double[] coefficients = new double[RESPONSES * TERMS];
        for (int k = 0; k < RESPONSES; k++) {
            for (int j = 0; j < TERMS; j++) {
                coefficients[k * TERMS + j] = fit.coefficient(j, k);
            }
        }
        return coefficients;
    }

    private static double[] joined(double[][] columns) {
        return Arrays.stream(columns).flatMapToDouble(Arrays::stream).toArray();
    }
}
