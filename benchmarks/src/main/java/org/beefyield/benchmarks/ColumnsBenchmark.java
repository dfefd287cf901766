package org.beefyield.benchmarks;

import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CarcassColumns;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldColumns;
import org.beefyield.estimate.YieldEstimator;
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

/**
 * Columns and totals, a carcass, over arrays that no cache holds; and the floor: filling the same bytes.
 *
 * <p>Run: {@code java -jar benchmarks/target/benchmarks.jar ColumnsBenchmark}
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(
        value = 1,
        jvmArgs = {"-Xms2g", "-Xmx2g"})
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 7, time = 1)
@OperationsPerInvocation(ColumnsBenchmark.CARCASSES)
public class ColumnsBenchmark {
    /** Carcasses to a run. */
    public static final int CARCASSES = 1 << 20;

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(ShippedTables.boneless2026());

    /** What goes in. */
    @State(Scope.Benchmark)
    public static class In {
        final CarcassColumns carcasses = new Herd(CARCASSES).columns();
        final YieldColumns columns = ESTIMATOR.columns();
        final byte[] flags = new byte[CARCASSES];
        final int parts = Runtime.getRuntime().availableProcessors();
        final byte[][] flagsOfParts = new byte[parts][CARCASSES / parts + parts];
    }

    /** A row for each carcass. */
    @State(Scope.Benchmark)
    public static class Rows {
        final double[] kg = new double[CARCASSES * ESTIMATOR.columns().columns().size()];
    }

    /** A column for each cut. */
    @State(Scope.Benchmark)
    public static class Columns {
        final double[][] kg = new double[ESTIMATOR.columns().columns().size()][CARCASSES];
    }

    /** The same by matrices. */
    @State(Scope.Benchmark)
    public static class Matrices {
        final MatrixModel model = new MatrixModel(ESTIMATOR);
        final Herd herd = new Herd(CARCASSES);
    }

    /**
     * The floor.
     *
     * @param rows what is filled
     * @return the array
     */
    @Benchmark
    public double[] floor(Rows rows) {
        Arrays.fill(rows.kg, 1.5);
        return rows.kg;
    }

    /**
     * Every cut of every level, carcass by carcass.
     *
     * @param in carcasses
     * @param rows takes the kilograms
     * @return carcasses refused
     */
    @Benchmark
    public int byRow(In in, Rows rows) {
        return in.columns.estimate(in.carcasses, 0, CARCASSES, rows.kg, in.flags);
    }

    /**
     * Every cut of every level, cut by cut.
     *
     * @param in carcasses
     * @param columns takes the kilograms
     * @return carcasses refused
     */
    @Benchmark
    public int byColumn(In in, Columns columns) {
        return in.columns.estimate(in.carcasses, 0, CARCASSES, columns.kg, in.flags);
    }

    /**
     * Totals with all that their intervals need, on one thread.
     *
     * @param in carcasses
     * @return the lot
     */
    @Benchmark
    public LotEstimate totals(In in) {
        LotEstimate.Collector collector = ESTIMATOR.collector();
        collector.add(in.carcasses, 0, CARCASSES, in.flags);
        return collector.lot();
    }

    /**
     * The same on as many threads as there are cores.
     *
     * @param in carcasses
     * @return the lot
     */
    @Benchmark
    public LotEstimate totalsInParallel(In in) {
        int size = CARCASSES / in.parts;
        return IntStream.range(0, in.parts)
                .parallel()
                .mapToObj(part -> {
                    LotEstimate.Collector collector = ESTIMATOR.collector();
                    int to = part == in.parts - 1 ? CARCASSES : (part + 1) * size;
                    collector.add(in.carcasses, part * size, to, in.flagsOfParts[part]);
                    return collector;
                })
                .reduce(LotEstimate.Collector::add)
                .orElseThrow()
                .lot();
    }

    /**
     * Every cut of every level by Commons Math: a design matrix times the coefficients of each breakdown.
     *
     * @param matrices model and carcasses
     * @return something of each chunk
     */
    @Benchmark
    public double commonsMath(Matrices matrices) {
        double sum = 0;
        for (int from = 0; from < CARCASSES; from += MatrixModel.CHUNK) {
            sum += matrices.model
                    .estimate(matrices.herd, from, from + MatrixModel.CHUNK)
                    .getEntry(0, 0);
        }
        return sum;
    }
}
