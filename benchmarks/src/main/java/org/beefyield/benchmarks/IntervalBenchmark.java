package org.beefyield.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
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
    private CarcassColumns withKeys = columns;
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

    /** Draws carcasses of 40 lots in 5 runs, and rows of columns of lots of 40 in runs of 320. */
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
        int[] lots = new int[ROWS];
        int[] runs = new int[ROWS];
        for (int i = 0; i < ROWS; i++) {
            letters[i] = (byte) "CED".charAt(random.nextInt(3));
            conformation[i] = (byte) random.nextInt(4, 13);
            fat[i] = (byte) random.nextInt(4, 12);
            kg[i] = random.nextDouble(250, 450);
            lots[i] = i / 40;
            runs[i] = i / 320;
        }
        columns = CarcassColumns.thirds(letters, conformation, fat, kg);
        withKeys = columns.withLots(lots).withRuns(runs);
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

    /** Totals of a million rows. */
    @Benchmark
    public int totals() {
        return estimator.collector().add(columns, 0, ROWS, flags);
    }

    /** The same with lots and runs kept apart. */
    @Benchmark
    public int totalsByLotAndRun() {
        return estimator.collector().add(withKeys, 0, ROWS, flags);
    }
}
