package org.beefyield.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CarcassColumns;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
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
 * Intervals beside the estimates that they belong to: of one carcass, of a lot with its text, of a table of 800 cuts, and totals of
 * columns with and without lots and runs. Read as ratios in one run.
 *
 * <p>Run: {@code java -jar benchmarks/target/benchmarks.jar IntervalBenchmark -prof gc}
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class IntervalBenchmark {
    private static final int CARCASSES = 1600;
    private static final int ROWS = 1 << 20;
    private static final int PRIMALS = 20;
    private static final int CUTS = 40;

    private final YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
    private final YieldEstimator mincing = estimator.with(MinceTarget.fatPercent(15));
    private final YieldEstimator wide = YieldEstimator.of(wide());
    private final List<Carcass> carcasses = new ArrayList<>();
    private final List<YieldEstimate> estimates = new ArrayList<>();
    private final List<YieldEstimate> minced = new ArrayList<>();
    private LotEstimate lot = mincing.estimateLot(List.of(steer()));
    private CarcassColumns columns = CarcassColumns.of(List.of(steer()));
    private CarcassColumns lotsOf40 = columns;
    private CarcassColumns lotsOf400 = columns;
    private CarcassColumns lotsOf2000 = columns;
    private CarcassColumns oneLot = columns;
    private CarcassColumns lotsBetweenEachOther = columns;
    private final byte[] flags = new byte[ROWS];
    private int next;

    private static Carcass steer() {
        return Carcass.of(Category.STEER, Conformation.third(8), FatClass.third(8), 340);
    }

    /** A table of 20 primals, each cut into 40 cuts; invented. */
    private static YieldTable wide() {
        TableDefinition.Builder table = TableDefinition.builder("wide", "1")
                .levels("primal", "retail")
                .categories(Category.STEER)
                .source(new SourceRow("invented", SourceKind.ASSUMPTION, "invented for this measurement", ""));
        SharedSds shared = SharedSds.of(1, 1, 2);
        for (int primal = 0; primal < PRIMALS; primal++) {
            String code = "primal-" + primal;
            table.cut(Cut.of(code, code, "primal", CutKind.PRIMAL));
            table.row(row("carcass", code, 1000.0 / PRIMALS, shared));
        }
        for (int primal = 0; primal < PRIMALS; primal++) {
            for (int cut = 0; cut < CUTS; cut++) {
                String code = "cut-" + primal + "-" + cut;
                table.cut(Cut.of(code, code, "retail", CutKind.STEAK));
                table.row(row("primal-" + primal, code, 1000.0 / CUTS, shared));
            }
        }
        return YieldTable.of(table.build());
    }

    private static BreakdownRow row(String parent, String cut, double level, SharedSds shared) {
        return new BreakdownRow("*", "*", parent, cut, List.of(level, 0.0, 0.0, 0.0), 2, shared, "invented");
    }

    /** Draws carcasses of 40 lots in 5 runs, and rows of columns with lots and runs of all lengths. */
    @Setup
    public void setUp() {
        SplittableRandom random = new SplittableRandom(1);
        List<Category> categories =
                List.of(Category.STEER, Category.HEIFER, Category.COW, Category.YOUNG_BULL, Category.BULL);
        for (int i = 0; i < CARCASSES; i++) {
            Carcass carcass = Carcass.of(
                            categories.get(i % categories.size()),
                            Conformation.third(random.nextInt(4, 13)),
                            FatClass.third(random.nextInt(4, 12)),
                            random.nextDouble(250, 450))
                    .withSupplier("farm " + i / 40)
                    .withKillDate("day " + i / 320);
            carcasses.add(carcass);
            estimates.add(estimator.estimate(carcass));
            minced.add(mincing.estimate(carcass));
        }
        lot = mincing.estimateLot(carcasses);
        byte[] letters = new byte[ROWS];
        byte[] conformation = new byte[ROWS];
        byte[] fat = new byte[ROWS];
        double[] kg = new double[ROWS];
        for (int i = 0; i < ROWS; i++) {
            letters[i] = (byte) "CED".charAt(random.nextInt(3));
            conformation[i] = (byte) random.nextInt(4, 13);
            fat[i] = (byte) random.nextInt(4, 12);
            kg[i] = random.nextDouble(250, 450);
        }
        columns = CarcassColumns.thirds(letters, conformation, fat, kg);
        lotsOf40 = columns.withLots(numbers(row -> row / 40)).withRuns(numbers(row -> row / 320));
        lotsOf400 = columns.withLots(numbers(row -> row / 400)).withRuns(numbers(row -> row / 3200));
        lotsOf2000 = columns.withLots(numbers(row -> row / 2000)).withRuns(numbers(row -> row / 2000));
        oneLot = columns.withLots(new int[ROWS]).withRuns(new int[ROWS]);
        lotsBetweenEachOther = columns.withLots(numbers(row -> row % 40)).withRuns(new int[ROWS]);
    }

    private static int[] numbers(IntUnaryOperator ofRow) {
        return IntStream.range(0, ROWS).map(ofRow).toArray();
    }

    private int next() {
        next = (next + 1) % CARCASSES;
        return next;
    }

    /** One estimate, to hold the others against. */
    @Benchmark
    public YieldEstimate estimate() {
        return estimator.estimate(carcasses.get(next()));
    }

    /** The interval of a cut. */
    @Benchmark
    public Object intervalOfCut() {
        return estimates.get(next()).interval("striploin", 0.9);
    }

    /** The interval of a kind. */
    @Benchmark
    public Object intervalOfKind() {
        return estimates.get(next()).interval(CutKind.STEAK, 0.9);
    }

    /** The interval of mince. */
    @Benchmark
    public Object intervalOfMince() {
        return minced.get(next()).interval(CutKind.MINCE, 0.9);
    }

    /** The text of a lot of five categories and 40 lots. */
    @Benchmark
    public String lotText() {
        return lot.toText();
    }

    /** A carcass of the table of 800 cuts with all intervals. */
    @Benchmark
    public double intervalsOf800Cuts() {
        double sum = 0;
        for (CutLine line : wide.estimate(steer()).lines("retail")) {
            sum += line.interval(0.9).low();
        }
        return sum;
    }

    private LotEstimate total(CarcassColumns rows) {
        LotEstimate.Collector collector = estimator.collector();
        collector.add(rows, 0, ROWS, flags);
        return collector.lot();
    }

    /** Totals of a million rows. */
    @Benchmark
    public LotEstimate totals() {
        return total(columns);
    }

    /** The same with lots of 40 and runs of 320 kept apart. */
    @Benchmark
    public LotEstimate totalsOfLotsOf40() {
        return total(lotsOf40);
    }

    /** The same with lots of 400 and runs of 3200. */
    @Benchmark
    public LotEstimate totalsOfLotsOf400() {
        return total(lotsOf400);
    }

    /** The same with lots and runs of 2000. */
    @Benchmark
    public LotEstimate totalsOfLotsOf2000() {
        return total(lotsOf2000);
    }

    /** The same with one lot of one run, by number. */
    @Benchmark
    public LotEstimate totalsOfOneLot() {
        return total(oneLot);
    }

    /** The same with 40 lots of one run, each row of another lot than the one before. */
    @Benchmark
    public LotEstimate totalsOfLotsBetweenEachOther() {
        return total(lotsBetweenEachOther);
    }
}
