package org.beefyield.benchmarks.calibrate;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.lang.reflect.Method;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.apache.commons.math3.stat.descriptive.rank.Median;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.YieldEstimator;

/** Times the command {@code calibrate} of two runnable jars by turns in one JVM, on invented trials of a hall of many years. */
public final class Versions {
    private static final long SEED = 24;
    private static final int TRIALS = 30_000;
    private static final int DAYS = 500;
    private static final LocalDate FIRST_DAY = LocalDate.of(2024, 1, 1);
    /** What a carcass and a day make of a cut, as parts. */
    private static final double OF_CARCASS = 0.05;

    private static final double OF_DAY = 0.02;
    /** Part of the cold weight that is weighed again. */
    private static final double WEIGHED = 0.995;

    /** Turns, of which the second half counts: until then the just-in-time compiler hasn't done. */
    private static final int TURNS = 16;

    private Versions() {}

    /**
     * Times them.
     *
     * @param arguments the jar before, the jar now, and further options of the command if any
     * @throws Exception if a file can't be written, or a jar has no such command
     */
    public static void main(String[] arguments) throws Exception {
        Path folder = Files.createTempDirectory("versions");
        Path trials = folder.resolve("trials.csv");
        Files.write(trials, trials());
        List<String> options = Arrays.asList(arguments).subList(2, arguments.length);
        Method before = command(Path.of(arguments[0]));
        Method now = command(Path.of(arguments[1]));
        double[] secondsBefore = new double[TURNS];
        double[] secondsNow = new double[TURNS];
        for (int turn = 0; turn < TURNS; turn++) {
            secondsBefore[turn] = seconds(before, trials, folder.resolve("before-" + turn + ".zip"), options);
            secondsNow[turn] = seconds(now, trials, folder.resolve("now-" + turn + ".zip"), options);
            System.out.printf(
                    Locale.ROOT, "turn %d: %.2f s, %.2f s%n", turn + 1, secondsBefore[turn], secondsNow[turn]);
        }
        double ofBefore = median(secondsBefore);
        double ofNow = median(secondsNow);
        System.out.printf(
                Locale.ROOT,
                "%d trials on %d days, medians of turns %d to %d: %.2f s before, %.2f s now, %.1f times as fast%n",
                TRIALS,
                DAYS,
                TURNS / 2 + 1,
                TURNS,
                ofBefore,
                ofNow,
                ofBefore / ofNow);
    }

    private static double median(double[] seconds) {
        return new Median().evaluate(seconds, TURNS / 2, TURNS - TURNS / 2);
    }

    /** The command of a jar, with classes of its own. */
    @SuppressWarnings("BanClassLoader") // jars of our own
    private static Method command(Path jar) throws IOException, ReflectiveOperationException {
        ClassLoader loader = new URLClassLoader(new URL[] {jar.toUri().toURL()}, ClassLoader.getPlatformClassLoader());
        Method run = loader.loadClass("org.beefyield.data.command.Main")
                .getDeclaredMethod("run", List.class, PrintStream.class, PrintStream.class);
        run.setAccessible(true);
        return run;
    }

    private static double seconds(Method command, Path trials, Path out, List<String> options)
            throws ReflectiveOperationException {
        List<String> words =
                new ArrayList<>(List.of("calibrate", "--trials", trials.toString(), "--out", out.toString()));
        words.addAll(options);
        PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
        long start = System.nanoTime();
        int code = (int) command.invoke(null, words, nowhere, nowhere);
        double seconds = (System.nanoTime() - start) / 1e9;
        // 4: something was left out
        if (code != 0 && code != 4) {
            throw new IllegalStateException("the command ended with " + code);
        }
        return seconds;
    }

    /** Trials around what the shipped table expects, all of which balance. */
    private static List<String> trials() {
        Random random = new Random(SEED);
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        List<Category> categories = List.of(Category.STEER, Category.HEIFER, Category.COW, Category.YOUNG_BULL);
        Map<String, double[]> ofDays = new HashMap<>();
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < TRIALS; i++) {
            Carcass carcass = Hall.carcass(categories.get(random.nextInt(categories.size())), random);
            Map<String, Double> kg = new LinkedHashMap<>();
            for (CutLine line : estimator.estimate(carcass).lines("primal")) {
                if (line.cut().kind() != CutKind.LOSS) {
                    double[] ofDay = ofDays.computeIfAbsent(
                            line.cut().code(),
                            cut -> random.doubles(DAYS)
                                    .map(part -> OF_DAY * (2 * part - 1))
                                    .toArray());
                    kg.put(
                            line.cut().code(),
                            line.kg() * Math.exp(ofDay[i % DAYS] + OF_CARCASS * random.nextGaussian()));
                }
            }
            if (i == 0) {
                lines.add(
                        "carcass,category,conformation,fat_class,cold_weight_kg,day," + String.join(",", kg.keySet()));
            }
            double all = kg.values().stream().mapToDouble(Double::doubleValue).sum();
            StringBuilder row = new StringBuilder(String.format(
                    Locale.ROOT,
                    "T%d,%s,%s,%s,%.1f,%s",
                    i,
                    carcass.category().letter(),
                    carcass.conformation(),
                    carcass.fatClass(),
                    carcass.coldWeightKg(),
                    FIRST_DAY.plusDays(i % DAYS)));
            kg.values()
                    .forEach(one -> row.append(
                            String.format(Locale.ROOT, ",%.2f", one * WEIGHED * carcass.coldWeightKg() / all)));
            lines.add(row.toString());
        }
        return lines;
    }
}
