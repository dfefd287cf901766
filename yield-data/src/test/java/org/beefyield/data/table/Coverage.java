package org.beefyield.data.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.IntPredicate;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CarcassSample;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;

/** How often the intervals of carcasses and lots hold what is drawn from {@link ModelTruth}. */
final class Coverage {
    static final ScaleError SCALE = new ScaleError(0.8, 0.5);

    private static final double MINCE_FAT = 0.15;
    private static final double FAT_OF_FAT_TRIM = 0.72;

    private final YieldEstimator estimator;
    private final ModelTruth truth;
    /** By name, as the library knows it and as it is in a drawn carcass. */
    private final Map<String, Both> figures = new LinkedHashMap<>();

    private record Both(Figure figure, ToDoubleFunction<ModelTruth.Kilograms> truth) {}

    /** One figure: its estimate and SD, what was drawn, and the part of the draws that each interval holds. */
    static final class Result {
        private final Outturn estimate;
        private final Figure figure;
        private final double kg;
        private final double sd;
        private final double[] drawn;

        Result(Outturn estimate, Figure figure, double[] drawn) {
            this.estimate = estimate;
            this.figure = figure;
            this.kg = estimate.kg(figure);
            this.sd = estimate.sd(figure);
            this.drawn = drawn;
        }

        double kg() {
            return kg;
        }

        double sd() {
            return sd;
        }

        /** How many SDs the estimate lies above nothing. */
        double sdsAboveZero() {
            return kg / sd;
        }

        double meanDrawn() {
            return Arrays.stream(drawn).average().orElseThrow();
        }

        double sdDrawn() {
            double mean = meanDrawn();
            return Math.sqrt(
                    Arrays.stream(drawn).map(kg -> (kg - mean) * (kg - mean)).sum() / (drawn.length - 1));
        }

        double held(double probability) {
            Interval interval = estimate.interval(figure, probability);
            return part(drawn.length, i -> interval.contains(drawn[i]));
        }

        /** Half of the interval's width. */
        double half(double probability) {
            return estimate.interval(figure, probability).high() - kg;
        }

        /**
         * The same with intervals as much wider as the draws before asked for: by the root mean square of what was
         * drawn less the estimate, in SDs.
         */
        double heldAfterWidening(double probability, int before) {
            double half = half(probability);
            return part(drawn.length - before, i -> {
                double squares = 0;
                for (int j = i; j < i + before; j++) {
                    squares += (drawn[j] - kg) * (drawn[j] - kg) / (sd * sd);
                }
                return Math.abs(drawn[i + before] - kg) <= half * Math.max(1, Math.sqrt(squares / before));
            });
        }

        /** The same with another half width of the interval. */
        double heldWithin(double half) {
            return part(drawn.length, i -> Math.abs(drawn[i] - kg) <= half);
        }

        private static double part(int count, IntPredicate holds) {
            return (double) IntStream.range(0, count).filter(holds).count() / count;
        }
    }

    /** Seasons of many lots: their totals, and every lot of theirs. */
    record Seasons(Map<String, Result> totals, Map<String, List<Result>> lots) {
        Result total(String name) {
            Result total = totals.get(name);
            if (total == null) {
                throw new IllegalArgumentException(name);
            }
            return total;
        }

        Map<Result, List<Result>> lotsByTotal() {
            Map<Result, List<Result>> byTotal = new LinkedHashMap<>();
            lots.forEach((name, its) -> byTotal.put(total(name), its));
            return byTotal;
        }
    }

    private Coverage(YieldEstimator estimator) {
        this.estimator = estimator;
        this.truth = new ModelTruth(estimator.table().definition(), estimator.specification());
    }

    /** Every cut at every level, every kind, meat that is sold. */
    static Coverage ofCutsAndKinds(YieldTable table, String specification) {
        Coverage coverage = new Coverage(
                YieldEstimator.of(table).withSpecification(specification).with(SCALE));
        Carcass any = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
        for (String level : table.levels()) {
            for (CutLine line : coverage.estimator.estimate(any).lines(level)) {
                String cut = line.cut().code();
                if (line.kg() > 0) {
                    coverage.figures.put(
                            cut + " at " + level, new Both(Figure.cut(level, cut), kg -> kg.kg(level, cut)));
                }
            }
        }
        for (CutKind kind : CutKind.values()) {
            if (coverage.estimator.estimate(any).kg(kind) > 0) {
                coverage.figures.put("all " + kind.code(), new Both(Figure.kind(kind), kg -> kg.kg(kind)));
            }
        }
        coverage.figures.put("saleable", new Both(Figure.saleable(), Coverage::saleable));
        return coverage;
    }

    private static double saleable(ModelTruth.Kilograms kg) {
        return kg.kg(CutKind.STEAK) + kg.kg(CutKind.JOINT) + kg.kg(CutKind.DICE) + kg.kg(CutKind.LEAN_TRIM);
    }

    /** Mince at 15 % fat and what it changes. */
    static Coverage ofMince(YieldTable table, String specification) {
        Coverage coverage = new Coverage(YieldEstimator.of(table)
                .withSpecification(specification)
                .with(SCALE)
                .with(MinceTarget.fatPercent(100 * MINCE_FAT)));
        Cut fatTrim = table.catalogue().cut("fat-trim");
        coverage.figures.put(
                "mince",
                new Both(
                        Figure.cut(Outturn.MINCE_CODE),
                        kg -> kg.kg(CutKind.LEAN_TRIM) + kg.takenUp(MINCE_FAT, FAT_OF_FAT_TRIM)));
        coverage.figures.put(
                "fat trim left",
                new Both(
                        Figure.kind(fatTrim.kind()),
                        kg -> kg.kg(CutKind.FAT_TRIM) - kg.takenUp(MINCE_FAT, FAT_OF_FAT_TRIM)));
        coverage.figures.put(
                "saleable with mince",
                new Both(Figure.saleable(), kg -> saleable(kg) + kg.takenUp(MINCE_FAT, FAT_OF_FAT_TRIM)));
        return coverage;
    }

    /** Carcasses that are each graded and weighed like this one. */
    Map<String, Result> ofCarcass(Carcass carcass, ModelTruth.World world, int draws, long seed) {
        Random random = new Random(seed);
        return drawn(
                estimator.estimate(carcass),
                draws,
                () -> truth.draw(
                        carcass, truth.new Common(world, SCALE.biasKg(), random), SCALE.repeatabilityKg(), random));
    }

    /** Lots that are graded and weighed like this one, each on a day of its own. */
    Map<String, Result> ofLot(List<Carcass> carcasses, ModelTruth.World world, int draws, long seed) {
        Random random = new Random(seed);
        return drawn(
                estimator.estimateLot(carcasses),
                draws,
                () -> total(carcasses, truth.new Common(world, SCALE.biasKg(), random), random));
    }

    private ModelTruth.Kilograms total(List<Carcass> carcasses, ModelTruth.Common common, Random random) {
        ModelTruth.Kilograms total = truth.new Kilograms();
        for (Carcass carcass : carcasses) {
            total.add(truth.draw(carcass, common, SCALE.repeatabilityKg(), random));
        }
        return total;
    }

    /** Seasons, each with one table, one scale and these lots, day by day. */
    Seasons seasons(List<List<Carcass>> days, int seasons, long seed) {
        Random random = new Random(seed);
        List<LotEstimate> estimates = days.stream().map(estimator::estimateLot).toList();
        int names = figures.size();
        double[][][] kg = new double[days.size()][names][seasons];
        double[][] totals = new double[names][seasons];
        for (int season = 0; season < seasons; season++) {
            ModelTruth.Common common = truth.new Common(ModelTruth.World.AS_MODELLED, SCALE.biasKg(), random);
            ModelTruth.Kilograms total = truth.new Kilograms();
            for (int day = 0; day < days.size(); day++) {
                ModelTruth.Kilograms lot = total(days.get(day), truth.new Common(common, random), random);
                put(lot, kg[day], season);
                total.add(lot);
            }
            put(total, totals, season);
        }
        LotEstimate whole = estimates.stream().reduce(LotEstimate::plus).orElseThrow();
        Map<String, List<Result>> ofLots = new LinkedHashMap<>();
        for (int day = 0; day < days.size(); day++) {
            results(estimates.get(day), kg[day])
                    .forEach((name, result) -> ofLots.computeIfAbsent(name, key -> new ArrayList<>())
                            .add(result));
        }
        return new Seasons(results(whole, totals), ofLots);
    }

    private Map<String, Result> drawn(Outturn estimate, int draws, Supplier<ModelTruth.Kilograms> drawn) {
        double[][] kg = new double[figures.size()][draws];
        for (int i = 0; i < draws; i++) {
            put(drawn.get(), kg, i);
        }
        return results(estimate, kg);
    }

    private void put(ModelTruth.Kilograms one, double[][] kg, int index) {
        int its = 0;
        for (Both figure : figures.values()) {
            kg[its++][index] = figure.truth().applyAsDouble(one);
        }
    }

    private Map<String, Result> results(Outturn estimate, double[][] kg) {
        Map<String, Result> results = new LinkedHashMap<>();
        figures.forEach((name, figure) -> results.put(name, new Result(estimate, figure.figure(), kg[results.size()])));
        return results;
    }

    /** What the library itself draws. */
    Map<String, Result> ofSample(Carcass carcass, int draws, long seed) {
        YieldEstimate estimate = estimator.estimate(carcass);
        CarcassSample sample = estimate.sample(new Random(seed), draws);
        Map<String, Result> results = new LinkedHashMap<>();
        figures.forEach(
                (name, figure) -> results.put(name, new Result(estimate, figure.figure(), sample.kg(figure.figure()))));
        return results;
    }

    /**
     * A day's carcasses of the Tarrowmere hall: categories mixed, whole classes, a machine's positions and thirds.
     *
     * @param better by how many points of conformation they are better than plain cattle, who range from O- to R+
     */
    static List<Carcass> lot(int size, int better, long seed) {
        Random random = new Random(seed);
        Category[] categories = {Category.STEER, Category.STEER, Category.HEIFER, Category.YOUNG_BULL, Category.COW};
        List<Carcass> lot = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            Category category = categories[random.nextInt(categories.length)];
            int conformation = 4 + better + random.nextInt(6);
            int fat = 6 + better / 2 + random.nextInt(5);
            double kg = 260 + 160 * random.nextDouble();
            lot.add(
                    switch (i % 4) {
                        case 0 -> carcass(category, middle(conformation), middle(Math.max(8, fat)), 3, kg);
                        case 1 -> carcass(category, conformation + 0.4, fat + 0.3, 1, kg);
                        default -> carcass(category, conformation, fat, 1, kg);
                    });
        }
        return lot;
    }

    private static int middle(int position) {
        return 3 * ((position + 2) / 3) - 1;
    }

    private static Carcass carcass(Category category, double conformation, double fat, double width, double kg) {
        return Carcass.of(category, Conformation.ofPosition(conformation, width), FatClass.ofPosition(fat, width), kg);
    }
}
