package org.beefyield.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One estimate with its object, and loading and proving the shipped table.
 *
 * <p>Run: {@code java -jar benchmarks/target/benchmarks.jar EstimateBenchmark -prof gc}
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class EstimateBenchmark {
    private static final int CARCASSES = 1024;

    private final YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
    private final List<Carcass> carcasses = new ArrayList<>();
    private int next;

    /** Draws carcasses over the fitted range. */
    @Setup
    public void setUp() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < CARCASSES; i++) {
            carcasses.add(Carcass.of(
                    Category.STEER,
                    Conformation.third(random.nextInt(2, 15)),
                    FatClass.third(random.nextInt(3, 14)),
                    random.nextDouble(234, 501)));
        }
    }

    /**
     * One estimate.
     *
     * @return the estimate
     */
    @Benchmark
    public YieldEstimate estimate() {
        next = (next + 1) % CARCASSES;
        return estimator.estimate(carcasses.get(next));
    }

    /**
     * Reads and proves the shipped table.
     *
     * @return the table
     */
    @Benchmark
    public YieldTable loadAndProve() {
        return ShippedTables.boneless2026();
    }
}
