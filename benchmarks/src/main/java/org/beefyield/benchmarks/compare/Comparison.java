package org.beefyield.benchmarks.compare;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.beefyield.benchmarks.ColumnsBenchmark;
import org.beefyield.benchmarks.CsvPeer;
import org.beefyield.benchmarks.EstimateBenchmark;
import org.beefyield.benchmarks.Herd;
import org.beefyield.benchmarks.MatrixModel;
import org.beefyield.benchmarks.RegressionBenchmark;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldColumns;
import org.beefyield.estimate.YieldEstimator;
import org.openjdk.jmh.profile.GCProfiler;
import org.openjdk.jmh.results.BenchmarkResult;
import org.openjdk.jmh.results.IterationResult;
import org.openjdk.jmh.results.Result;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.VerboseMode;

/**
 * Measures the library beside what people use, in one run on the same table and input, checks first that all compute the
 * same, prints the ratios and writes them as JSON.
 *
 * <p>Run: {@code benchmarks/compare}
 */
public final class Comparison {
    private static final int ROUNDS = 7;

    /** Debian's, for which its packages are. */
    private static final String PYTHON = "/usr/bin/python3";

    private static final int CHECKED = 1000;

    /** Of what takes seconds each. */
    private static final int FEW_ROUNDS = 3;

    private static final int CSV_ROWS = 1_000_000;

    private final Path folder;
    private final Path scripts;
    private final List<Line> lines = new ArrayList<>();
    private final List<String> versions = new ArrayList<>();
    private final Map<String, Times> ours = new HashMap<>();

    private Comparison(Path folder, Path scripts) {
        this.folder = folder;
        this.scripts = scripts;
    }

    /**
     * Runs everything.
     *
     * @param args folder to work in, folder of the peers' scripts
     * @throws IOException if a file can't be written
     * @throws RunnerException if a benchmark fails
     */
    public static void main(String[] args) throws IOException, RunnerException {
        Comparison comparison = new Comparison(Files.createDirectories(Path.of(args[0])), Path.of(args[1]));
        comparison.writeInput();
        comparison.measure();
        comparison.columns();
        comparison.single();
        comparison.regression();
        comparison.startUp();
        comparison.growth();
        comparison.csv();
        comparison.report();
    }

    private void writeInput() throws IOException {
        Herd herd = new Herd(ColumnsBenchmark.CARCASSES);
        Files.write(folder.resolve("conformation.bin"), herd.conformation);
        Files.write(folder.resolve("fat.bin"), herd.fat);
        Peer.write(folder.resolve("cold_kg.bin"), herd.coldKg);
        new MatrixModel(YieldEstimator.of(ShippedTables.boneless2026())).write(folder);
        RegressionBenchmark regression = new RegressionBenchmark();
        Peer.write(folder.resolve("x.bin"), regression.terms());
        Peer.write(folder.resolve("y.bin"), regression.responses());
    }

    private void measure() throws RunnerException {
        System.out.println("measuring the library");
        for (RunResult result : new Runner(new OptionsBuilder()
                        .include(ColumnsBenchmark.class.getSimpleName())
                        .include(EstimateBenchmark.class.getSimpleName())
                        .include(RegressionBenchmark.class.getSimpleName())
                        .addProfiler(GCProfiler.class)
                        .verbosity(VerboseMode.SILENT)
                        .build())
                .run()) {
            String name = result.getPrimaryResult().getLabel();
            List<Double> scores = new ArrayList<>();
            for (BenchmarkResult fork : result.getBenchmarkResults()) {
                for (IterationResult iteration : fork.getIterationResults()) {
                    scores.add(iteration.getPrimaryResult().getScore());
                }
            }
            ours.put(name, new Times("ns", scores));
            Result<?> bytes = result.getSecondaryResults().get("gc.alloc.rate.norm");
            if (bytes != null) {
                ours.put(name + " bytes", Times.of("B", bytes.getScore()));
            }
        }
    }

    private Times ours(String name) {
        Times times = ours.get(name);
        if (times == null) {
            throw new IllegalStateException("no benchmark " + name + ", only " + ours.keySet());
        }
        return times;
    }

    private void columns() {
        lines.add(Line.withinTimes("columns by row, a carcass", ours("byRow"), "filling", ours("floor"), 4));
        lines.add(Line.withinTimes("columns by column, a carcass", ours("byColumn"), "filling", ours("floor"), 4));
        lines.add(Line.fasterThan("columns by row, a carcass", ours("byRow"), "Commons Math", ours("commonsMath"), 3));
        lines.add(Line.atMost("totals with intervals, a carcass", ours("totals"), 5));
        lines.add(Line.atMost("totals with intervals on two cores, a carcass", ours("totalsInParallel"), 2.5));
        Optional<Peer> numpy = peer("NumPy", PYTHON, "columns_numpy.py");
        if (numpy.isPresent()) {
            Peer peer = numpy.get();
            Peer.checkAgrees(peer.version(), folder.resolve("numpy-kg.bin"), firstEstimates(), 1e-10);
            Peer.checkAgrees(peer.version(), folder.resolve("numpy-sums.bin"), powerSums(), 1e-10);
            lines.add(Line.fasterThan(
                    "columns by row, a carcass", ours("byRow"), peer.version(), peer.times("columns"), 3));
            lines.add(Line.fasterThan(
                    "totals with intervals, a carcass",
                    ours("totals"),
                    peer.version(),
                    peer.times("totals with intervals"),
                    10));
            lines.add(Line.fasterThan(
                    "totals with intervals on two cores, a carcass",
                    ours("totalsInParallel"),
                    peer.version() + " on one",
                    peer.times("totals with intervals"),
                    10));
            lines.add(Line.fasterThan(
                    "totals (with intervals), a carcass",
                    ours("totals"),
                    peer.version() + " without",
                    peer.times("totals"),
                    10));
        }
    }

    private Optional<Peer> peer(String name, String program, String script) {
        Optional<Peer> peer = Peer.run(
                name, List.of(program, scripts.resolve(script).toString(), folder.toString(), String.valueOf(ROUNDS)));
        peer.ifPresent(its -> versions.add(its.version()));
        return peer;
    }

    private static double[] firstEstimates() {
        YieldColumns columns = YieldEstimator.of(ShippedTables.boneless2026()).columns();
        double[] kg = new double[CHECKED * columns.columns().size()];
        columns.estimate(new Herd(ColumnsBenchmark.CARCASSES).columns(), 0, CHECKED, kg, new byte[CHECKED]);
        return kg;
    }

    /** The sums of t^j by node that a lot of the herd holds, worked out one by one. */
    private static double[] powerSums() {
        Herd herd = new Herd(ColumnsBenchmark.CARCASSES);
        double[] sums = new double[7 * 270];
        for (int i = 0; i < herd.coldKg.length; i++) {
            double power = 1;
            for (int j = 0; j < 7; j++) {
                sums[j * 270 + (herd.conformation[i] - 1) * 15 + herd.fat[i] - 1] += power;
                power *= (herd.coldKg[i] - 340) / 100;
            }
        }
        return sums;
    }

    private void single() {
        lines.add(Line.atMost("one estimate", ours("estimate"), 250));
        lines.add(Line.atMost("one estimate, memory", ours("estimate bytes"), 1500));
        lines.add(Line.atMost(
                "load and prove the shipped table",
                new Times(
                        "ms",
                        ours("loadAndProve").values().stream()
                                .map(ns -> ns / 1e6)
                                .toList()),
                10));
    }

    private void regression() {
        Optional<Peer> r = peer("R", "Rscript", "regression.R");
        if (r.isPresent()) {
            Peer peer = r.get();
            Peer.checkAgrees(
                    peer.version(),
                    folder.resolve("r-coefficients.bin"),
                    new RegressionBenchmark().coefficients(),
                    1e-8);
            Peer.checkAgrees(peer.version(), folder.resolve("r-kg.bin"), firstEstimates(), 1e-9);
            lines.add(Line.fasterThan(
                    "regression of 30 cuts on 8 terms, a row",
                    ours("regression"),
                    peer.version() + " lm",
                    peer.times("lm"),
                    5));
            lines.add(Line.fasterThan(
                    "regression of 30 cuts on 8 terms, a row",
                    ours("regression"),
                    peer.version() + " lm.fit",
                    peer.times("lm.fit"),
                    3));
            lines.add(Line.fasterThan(
                    "columns by row, a carcass", ours("byRow"), peer.version() + " predict", peer.times("columns"), 3));
        }
    }

    private void startUp() throws IOException {
        double[] bare = new double[ROUNDS];
        double[] first = new double[ROUNDS];
        for (int i = 0; i < ROUNDS; i++) {
            bare[i] = seconds(java(Bare.class));
            first[i] = seconds(java(FirstEstimate.class)) - bare[i];
        }
        versions.add("a bare JVM starts in " + Times.of("s", bare));
        lines.add(Line.atMost("JVM start to first estimate, over a bare JVM", Times.of("s", first), 0.5));
    }

    private static List<String> java(Class<?> main, String... arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                main.getName()));
        command.addAll(List.of(arguments));
        return command;
    }

    private static double seconds(List<String> command) throws IOException {
        long started = System.nanoTime();
        Process process = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        try {
            if (process.waitFor() != 0) {
                throw new IllegalStateException(command + " ended with " + process.exitValue());
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
        return (System.nanoTime() - started) / 1e9;
    }

    /** Whole processes, from a kill sheet to a row of estimates for each carcass. */
    private void csv() throws IOException {
        String script = scripts.resolve("csv_pandas.py").toString();
        Optional<Peer> pandas = Peer.run("pandas", List.of(PYTHON, script, "--version"));
        String place = folder.resolve("csv").toString();
        CsvPeer.main(new String[] {"inputs", String.valueOf(CSV_ROWS), place});
        List<String> command = java(CsvPeer.class, "estimate", place, "ours.csv");
        command.add(1, "-Xmx64m");
        double[] estimate = new double[FEW_ROUNDS];
        double[] theirs = new double[FEW_ROUNDS];
        for (int i = 0; i < FEW_ROUNDS; i++) {
            estimate[i] = seconds(command);
            if (pandas.isPresent()) {
                theirs[i] = seconds(List.of(PYTHON, script, place, "theirs.csv"));
            }
        }
        if (pandas.isPresent()) {
            seconds(List.of(PYTHON, script, "--check", place + "/ours.csv", place + "/theirs.csv"));
            versions.add(pandas.get().version());
            lines.add(Line.fasterThan(
                    "kill sheet to wide CSV, 10^6 rows, heap of 64 MB",
                    Times.of("s", estimate),
                    pandas.get().version(),
                    Times.of("s", theirs),
                    3));
        } else {
            System.out.println("kill sheet to wide CSV, 10^6 rows, heap of 64 MB: " + Times.of("s", estimate));
        }
    }

    /** Prints one word. */
    static final class Bare {
        private Bare() {}

        public static void main(String[] args) {
            System.out.println("ready");
        }
    }

    /** Prints one estimate. */
    static final class FirstEstimate {
        private FirstEstimate() {}

        public static void main(String[] args) {
            System.out.println(YieldEstimator.of(ShippedTables.boneless2026())
                    .estimate(new Herd(1).columns().carcass(0)));
        }
    }

    /** Columns and totals of ever more carcasses, through chunks that are used again. */
    private void growth() {
        int chunk = 8192;
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        YieldColumns columns = estimator.columns();
        Herd herd = new Herd(ColumnsBenchmark.CARCASSES);
        double[] kg = new double[chunk * columns.columns().size()];
        byte[] flags = new byte[chunk];
        int[] sizes = {1_000, 10_000, 100_000, 1_000_000, 10_000_000, 25_000_000};
        double[][] perCarcass = new double[sizes.length][ROUNDS];
        long[] peak = new long[sizes.length];
        // once more, for the first round warms up; all sizes in each, so that a slow spell of the machine meets all
        for (int round = -1; round < ROUNDS; round++) {
            for (int s = 0; s < sizes.length; s++) {
                int size = sizes[s];
                int lots = Math.max(1, ColumnsBenchmark.CARCASSES / size);
                System.gc();
                heapPools().forEach(MemoryPoolMXBean::resetPeakUsage);
                long started = System.nanoTime();
                for (int lot = 0; lot < lots; lot++) {
                    LotEstimate.Collector collector = estimator.collector();
                    for (int done = 0; done < size; done += chunk) {
                        int from = done % ColumnsBenchmark.CARCASSES;
                        int to = from + Math.min(chunk, size - done);
                        columns.estimate(herd.columns(), from, to, kg, flags);
                        collector.add(herd.columns(), from, to, flags);
                    }
                    if (collector.lot().carcasses() != size) {
                        throw new IllegalStateException(collector.lot() + " of " + size);
                    }
                }
                perCarcass[s][Math.max(0, round)] = (System.nanoTime() - started) / (double) lots / size;
                peak[s] = heapPools().stream()
                        .mapToLong(pool -> pool.getPeakUsage().getUsed())
                        .sum();
            }
        }
        List<Double> large = new ArrayList<>();
        for (int s = 0; s < sizes.length; s++) {
            Times its = Times.of("ns", perCarcass[s]);
            System.out.printf(
                    "growth: lots of %,d carcasses, %s each, peak heap %.1f MB%n", sizes[s], its, peak[s] / 1e6);
            if (sizes[s] >= 100_000) {
                large.add(its.median());
            }
        }
        lines.add(Line.atMost(
                "growth: slowest over fastest from 10^5 to 2.5 10^7",
                Times.of("times", Collections.max(large) / Collections.min(large)),
                1.2));
    }

    private static List<MemoryPoolMXBean> heapPools() {
        return ManagementFactory.getMemoryPoolMXBeans().stream()
                .filter(pool -> pool.getType() == MemoryType.HEAP)
                .toList();
    }

    private void report() throws IOException {
        String machine = cpu() + ", " + Runtime.getRuntime().availableProcessors() + " cores, "
                + System.getProperty("java.vm.name") + " " + System.getProperty("java.runtime.version");
        System.out.println();
        System.out.println(machine);
        versions.forEach(System.out::println);
        System.out.println("median (fastest to slowest) of " + ROUNDS + " rounds; cuts of all levels: "
                + YieldEstimator.of(ShippedTables.boneless2026())
                        .columns()
                        .columns()
                        .size());
        lines.forEach(System.out::println);
        StringBuilder json = new StringBuilder("{\"machine\": \"" + machine + "\", \"versions\": [\""
                + String.join("\", \"", versions) + "\"], \"figures\": [\n");
        for (int i = 0; i < lines.size(); i++) {
            json.append(lines.get(i).json()).append(i < lines.size() - 1 ? ",\n" : "\n");
        }
        Path file = folder.resolve("comparison.json");
        Files.writeString(file, json.append("]}\n"));
        System.out.println("written: " + file);
    }

    private static String cpu() throws IOException {
        Path info = Path.of("/proc/cpuinfo");
        return Files.isReadable(info)
                ? Files.readAllLines(info).stream()
                        .filter(line -> line.startsWith("model name"))
                        .findFirst()
                        .map(line -> line.substring(line.indexOf(':') + 2))
                        .orElse("unknown CPU")
                : "unknown CPU";
    }
}
