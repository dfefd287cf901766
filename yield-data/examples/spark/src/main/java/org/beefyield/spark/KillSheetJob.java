package org.beefyield.spark;

import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.input.PortableDataStream;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.EstimateWriter;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetHandler;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.killsheet.ProblemWriter;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;

/**
 * Reads a folder of kill sheets on a cluster and writes, for each sheet, its estimates in the wide form and its problems,
 * and for all sheets together the totals of each lot with their 90 % intervals.
 *
 * <p>A sheet is one task: a row is a duplicate only within its sheet, and lines are counted in it. Plain or packed with
 * gzip; any file system that Hadoop opens. A task writes to a local file first and copies it when it is whole, so that one
 * that is run again leaves nothing half-written. What goes over the wire is the estimator there, and counts and power sums
 * back.
 */
public final class KillSheetJob {
    private KillSheetJob() {}

    /**
     * What became of the rows.
     *
     * @param rows all rows of all sheets
     * @param estimated carcasses with an estimate
     * @param condemned condemned carcasses
     * @param refused rows with problems, or outside the table; {@code estimated + condemned + refused = rows}
     * @param lots totals by lot; carcasses without a lot stand under the empty name
     */
    public record Result(long rows, long estimated, long condemned, long refused, Map<String, LotEstimate> lots)
            implements Serializable {
        /** The result of both. */
        Result plus(Result other) {
            Map<String, LotEstimate> both = new HashMap<>(lots);
            other.lots.forEach((lot, estimate) -> both.merge(lot, estimate, LotEstimate::plus));
            return new Result(
                    rows + other.rows,
                    estimated + other.estimated,
                    condemned + other.condemned,
                    refused + other.refused,
                    both);
        }
    }

    /**
     * Runs the job with the shipped table on two local cores, or on the cluster that it was submitted to.
     *
     * @param arguments folder of the kill sheets, folder for the results
     * @throws IOException if the results can't be written
     */
    public static void main(String[] arguments) throws IOException {
        if (arguments.length != 2) {
            throw new IllegalArgumentException(
                    "two folders are needed: that of the kill sheets, and one for the results");
        }
        SparkConf settings = new SparkConf().setAppName("beefyield kill sheets");
        if (!settings.contains("spark.master")) {
            settings.setMaster("local[2]")
                    .set("spark.driver.host", "127.0.0.1")
                    .set("spark.driver.bindAddress", "127.0.0.1")
                    .set("spark.ui.enabled", "false");
        }
        try (JavaSparkContext spark = new JavaSparkContext(settings)) {
            run(
                    spark,
                    arguments[0],
                    arguments[1],
                    YieldEstimator.of(ShippedTables.boneless2026()),
                    KillSheetFormat::standard);
        }
    }

    /** Says on each machine what the sheets look like. */
    public interface Format extends Serializable {
        /**
         * The format.
         *
         * @return what the plant's sheets look like
         */
        KillSheetFormat get();
    }

    /**
     * Runs the job: {@code estimates/SHEET.csv.gz}, {@code problems/SHEET.csv} and {@code lots.csv} in the folder of the
     * results.
     *
     * @param spark where it runs
     * @param sheets folder of the kill sheets, and of nothing else
     * @param results folder for the results
     * @param estimator what estimates
     * @param format what the sheets look like
     * @return counts and totals by lot
     * @throws IOException if the results can't be written
     */
    public static Result run(
            JavaSparkContext spark, String sheets, String results, YieldEstimator estimator, Format format)
            throws IOException {
        Result all = spark.binaryFiles(sheets)
                .map(sheet -> estimate(sheet._1(), sheet._2(), results, estimator, format.get()))
                .reduce(Result::plus);
        Path local = Files.createTempFile("lots", ".csv");
        try {
            Files.write(local, lotLines(all.lots()), StandardCharsets.UTF_8);
            copy(local, results + "/lots.csv");
        } finally {
            Files.deleteIfExists(local);
        }
        return all;
    }

    private static Result estimate(
            String sheet, PortableDataStream source, String results, YieldEstimator estimator, KillSheetFormat format)
            throws IOException {
        String name = sheet.substring(sheet.lastIndexOf('/') + 1);
        Path folder = Files.createTempDirectory("kill-sheet");
        Path estimates = folder.resolve("estimates.csv.gz");
        Path problems = folder.resolve("problems.csv");
        try {
            Run run = new Run(name, estimator, estimates, problems);
            try (run.estimates;
                    run.problems;
                    InputStream in = source.open()) {
                KillSheet.Counts counts = KillSheetReader.read(Source.of(name, in), format, run);
                run.estimates.finish();
                run.problems.finish();
                copy(estimates, results + "/estimates/" + name + ".csv.gz");
                copy(problems, results + "/problems/" + name + ".csv");
                return run.result(counts);
            }
        } finally {
            Files.deleteIfExists(estimates);
            Files.deleteIfExists(problems);
            Files.delete(folder);
        }
    }

    private static void copy(Path from, String to) throws IOException {
        org.apache.hadoop.fs.Path target = new org.apache.hadoop.fs.Path(to);
        FileSystem files = target.getFileSystem(new Configuration());
        files.copyFromLocalFile(false, true, new org.apache.hadoop.fs.Path(from.toUri()), target);
    }

    /** One run over a sheet. */
    private static final class Run implements KillSheetHandler {
        private final String name;
        private final YieldEstimator estimator;
        private final EstimateWriter estimates;
        private final ProblemWriter problems;
        private final Map<String, LotEstimate.Collector> lots = new HashMap<>();
        private long estimated;

        Run(String name, YieldEstimator estimator, Path estimates, Path problems) {
            this.name = name;
            this.estimator = estimator;
            this.estimates = EstimateWriter.wide(estimates, estimator);
            this.problems = new ProblemWriter(problems);
        }

        @Override
        public void entry(KillSheetEntry entry) {
            try {
                estimates.write(estimator.estimate(entry.carcass()));
                lots.computeIfAbsent(entry.carcass().lot().orElse(""), lot -> estimator.collector())
                        .add(entry.carcass());
                estimated++;
            } catch (RefusedCarcassException e) {
                problem(new Problem(
                        name, entry.line(), "", entry.carcass().toString(), String.valueOf(e.getMessage())));
            }
        }

        @Override
        public void problem(Problem problem) {
            problems.problem(problem);
        }

        @Override
        public void note(Problem note) {
            problems.note(note);
        }

        Result result(KillSheet.Counts counts) {
            Map<String, LotEstimate> totals = new HashMap<>();
            lots.forEach((lot, collector) -> totals.put(lot, collector.lot()));
            return new Result(
                    counts.rows(),
                    estimated,
                    counts.condemned(),
                    counts.rows() - counts.condemned() - estimated,
                    totals);
        }
    }

    /** A row for each lot, level and cut, with all digits. */
    private static List<String> lotLines(Map<String, LotEstimate> lots) {
        List<String> lines = new ArrayList<>(List.of("lot,carcasses,cold_weight_kg,level,cut,kg,low_kg,high_kg"));
        new TreeMap<>(lots).forEach((lot, estimate) -> {
            String its =
                    "\"" + lot.replace("\"", "\"\"") + "\"," + estimate.carcasses() + "," + estimate.coldWeightKg();
            for (String level : estimate.table().levels()) {
                for (CutLine line : estimate.lines(level)) {
                    Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
                    lines.add(its + "," + level + "," + line.cut().code() + "," + line.kg() + "," + interval.low() + ","
                            + interval.high());
                }
            }
        });
        return lines;
    }
}
