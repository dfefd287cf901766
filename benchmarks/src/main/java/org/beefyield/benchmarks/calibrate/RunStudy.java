package org.beefyield.benchmarks.calibrate;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.calibrate.LearntGroup;
import org.beefyield.calibrate.RunCalibrated;
import org.beefyield.calibrate.RunCalibration;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;

/**
 * Draws halls and a year's quarter of their daily box weights, lets the table learn from these alone, and counts how much nearer it
 * comes to what the hall returns of each product: {@code benchmarks/runs}. Takes some five minutes.
 */
public final class RunStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_129;

    /** Of all products together. */
    static final String ALL = "all products";

    static final String TIMES = "error before by error after";
    static final String BEFORE = "RMSE before, g/kg";
    static final String AFTER = "RMSE after, g/kg";
    static final String HELD = "held by 90 % bounds";
    static final String OF_TABLE = "held by the table's own 90 % bounds";
    static final String WORTH = "carcasses that a run is worth";
    static final String HELD_BACK = "halls with a breakdown held back";

    private static final double G_PER_KG = 1000;
    private static final double NINETY = 1.6449;

    private RunStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results, and how many halls are drawn
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<Figure> all = figures(Integer.parseInt(args[1]), SEED);
        all.forEach(out::println);
        Files.writeString(Path.of(args[0]), csv(all));
    }

    /**
     * A figure of the study.
     *
     * @param product name of the product
     * @param what what was counted
     * @param value what came out
     * @param standardError its standard error by chance
     * @param halls halls that were drawn
     * @param seed of the generator
     */
    record Figure(String product, String what, double value, double standardError, int halls, long seed) {
        @Override
        public String toString() {
            return String.join(
                    ",",
                    product,
                    "\"" + what + "\"",
                    String.format(Locale.ROOT, "%.4f", value),
                    String.format(Locale.ROOT, "%.4f", standardError),
                    String.valueOf(halls),
                    String.valueOf(seed));
        }
    }

    /** The file of results. */
    static String csv(List<Figure> figures) {
        return Stream.concat(
                        Stream.of("product,figure,value,standard_error,halls,seed"),
                        figures.stream().map(Figure::toString))
                .collect(Collectors.joining("\n", "", "\n"));
    }

    /**
     * Of one hall and product, g/kg.
     *
     * @param before error of what the table in use expects
     * @param after the same of the new table
     * @param sd what the new table's error is said to be
     * @param tableSd what the new table itself says
     * @param worth carcasses that a run is worth
     */
    private record Seen(double before, double after, double sd, double tableSd, double worth) {}

    /** A hall: by product, and whether a breakdown was held back. */
    private record OfHall(Map<String, Seen> byProduct, boolean heldBack) {}

    private static OfHall see(SplittableRandom random) {
        RunHall hall = RunHall.draw(random);
        RunCalibrated calibrated = RunCalibration.of(hall.runs(), RunHall.ESTIMATOR, RunHall.PRODUCTS)
                .fit();
        YieldEstimator now = YieldEstimator.of(calibrated.table("hall", "1")).withSpecification(RunHall.SPECIFICATION);
        LotEstimate before = RunHall.ESTIMATOR.estimateLot(hall.carcasses());
        LotEstimate after = now.estimateLot(hall.carcasses());
        Map<String, Seen> byProduct = new LinkedHashMap<>();
        hall.truth().forEach((product, truth) -> {
            LearntGroup group = calibrated.group(product);
            org.beefyield.estimate.Figure figure = RunHall.figure(product);
            double times = G_PER_KG / before.coldWeightKg();
            byProduct.put(
                    product,
                    new Seen(
                            times * before.kg(figure) - truth,
                            times * after.kg(figure) - truth,
                            group.afterSd(),
                            times * after.sd(figure, org.beefyield.estimate.UncertaintyPart.COEFFICIENTS),
                            group.carcassesWorth()));
        });
        return new OfHall(byProduct, !calibrated.heldBack().isEmpty());
    }

    /** All figures of so many halls. */
    static List<Figure> figures(int halls, long seed) {
        List<OfHall> seen = IntStream.range(0, halls)
                .parallel()
                .mapToObj(hall -> see(new SplittableRandom(seed + 1_000_003L * hall)))
                .toList();
        List<Figure> figures = new ArrayList<>();
        List<double[]> all = new ArrayList<>();
        for (OfHall hall : seen) {
            double[] squares = new double[2];
            hall.byProduct().values().forEach(one -> {
                squares[0] += one.before() * one.before() / hall.byProduct().size();
                squares[1] += one.after() * one.after() / hall.byProduct().size();
            });
            all.add(squares);
        }
        figures.addAll(errors(ALL, all, seed));
        figures.add(mean(
                ALL,
                HELD_BACK,
                seen.stream().map(hall -> hall.heldBack() ? 1.0 : 0.0).toList(),
                seed));
        for (String product : seen.get(0).byProduct().keySet()) {
            List<Seen> own =
                    seen.stream().map(hall -> hall.byProduct().get(product)).toList();
            figures.addAll(errors(
                    product,
                    own.stream()
                            .map(one -> new double[] {one.before() * one.before(), one.after() * one.after()})
                            .toList(),
                    seed));
            figures.add(mean(
                    product,
                    HELD,
                    own.stream()
                            .map(one -> Math.abs(one.after()) <= NINETY * one.sd() ? 1.0 : 0.0)
                            .toList(),
                    seed));
            figures.add(mean(
                    product,
                    OF_TABLE,
                    own.stream()
                            .map(one -> Math.abs(one.after()) <= NINETY * one.tableSd() ? 1.0 : 0.0)
                            .toList(),
                    seed));
            figures.add(mean(product, WORTH, own.stream().map(Seen::worth).toList(), seed));
        }
        return figures;
    }

    private static Figure mean(String product, String what, List<Double> values, long seed) {
        double mean = values.stream().mapToDouble(one -> one).average().orElseThrow();
        double squares =
                values.stream().mapToDouble(one -> (one - mean) * (one - mean)).sum();
        return new Figure(product, what, mean, Math.sqrt(squares) / values.size(), values.size(), seed);
    }

    /** Roots of mean squares before and after, and their ratio. */
    private static List<Figure> errors(String product, List<double[]> squares, long seed) {
        List<Figure> figures = new ArrayList<>();
        double[] roots = new double[2];
        double[] relative = new double[2];
        for (int i = 0; i < roots.length; i++) {
            int at = i;
            Figure mean = mean(product, "", squares.stream().map(one -> one[at]).toList(), seed);
            roots[i] = Math.sqrt(mean.value());
            relative[i] = mean.standardError() / mean.value() / 2;
            figures.add(new Figure(
                    product, i == 0 ? BEFORE : AFTER, roots[i], relative[i] * roots[i], squares.size(), seed));
        }
        double times = roots[0] / roots[1];
        figures.add(
                new Figure(product, TIMES, times, times * Math.hypot(relative[0], relative[1]), squares.size(), seed));
        return figures;
    }
}
