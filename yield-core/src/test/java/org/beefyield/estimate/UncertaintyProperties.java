package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.table.Engine;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;

class UncertaintyProperties {
    private static final double STEP_KG = 1e-4;
    private static final double NEAR_A_KINK_KG = 1e-3;

    /** Relative; what is left is the rounding of a few operations. */
    private static final double LIKE_A_PLAIN_LOOP = 3e-15;

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    private static YieldEstimator estimator(TableDefinition definition, Random random) {
        TableDefinition.Builder builder = definition.toBuilder();
        RandomTables.mix(definition, random).forEach((parent, way) -> builder.specification("mix", parent, way));
        return YieldEstimator.of(YieldTable.of(builder.build()));
    }

    private static boolean hasLeanTrim(YieldTable table) {
        return Engine.layout(table).cutsAt(table.levels().size() - 1).stream()
                .anyMatch(cut -> cut.kind() == CutKind.LEAN_TRIM);
    }

    /**
     * Every entry of every figure's gradient against a small step of that entry to each side.
     *
     * @return what the mince was like
     */
    private static String gradientsAreSlopes(YieldEstimator estimator, Carcass carcass) {
        double kg = carcass.coldWeightKg();
        double[] slots = estimator
                .model()
                .grid(carcass.category())
                .shares(carcass.conformation().position(), carcass.fatClass().position(), kg);
        for (int slot = 0; slot < slots.length; slot++) {
            slots[slot] *= kg;
        }
        DrawnCarcass here = new DrawnCarcass(estimator.model(), kg, slots);
        double fatTrimKg = fatTrimBeforeMincing(estimator, slots);
        if (here.mince()
                .filter(mince -> atAKink(mince, slots[slots.length - 1], fatTrimKg))
                .isPresent()) {
            return "at a kink";
        }
        Map<String, Figure> figures = UncertaintyTest.figures(here);
        figures.put("a value", value(figures));
        Map<String, double[]> gradients = new LinkedHashMap<>();
        figures.forEach((name, figure) -> gradients.put(name, here.sum(figure).gradient()));
        for (int slot = 0; slot < slots.length; slot++) {
            if (slots[slot] == 0) {
                // a cut that this way does not yield has no error, and can't become less
                continue;
            }
            double[] up = slots.clone();
            double[] down = slots.clone();
            up[slot] += STEP_KG;
            down[slot] -= STEP_KG;
            DrawnCarcass above = new DrawnCarcass(estimator.model(), kg, up);
            DrawnCarcass below = new DrawnCarcass(estimator.model(), kg, down);
            int its = slot;
            figures.forEach((name, figure) -> assertThat(gradients.getOrDefault(name, new double[0])[its])
                    .as("%s, entry %d", name, its)
                    .isCloseTo((above.kg(figure) - below.kg(figure)) / (2 * STEP_KG), within(1e-5)));
        }
        assertThat(figures)
                .allSatisfy((name, figure) -> assertThat(here.sum(figure).kg()).isEqualTo(here.kg(figure)));
        return here.mince()
                .map(mince -> mince.fatTrimKg() == 0
                        ? "no fat trim added"
                        : mince.isShortOfFatTrim() ? "all fat trim added" : "some fat trim added")
                .orElse("no mince");
    }

    /** Every figure at a price of its own, some of them negative. */
    private static Figure value(Map<String, Figure> figures) {
        Figure value = Figure.saleable().times(0.5);
        int price = 0;
        for (Figure figure : figures.values()) {
            value = value.plus(figure.times(price++ % 7 - 2.25));
        }
        return value;
    }

    private static double fatTrimBeforeMincing(YieldEstimator estimator, double[] slots) {
        TableLayout layout = Engine.layout(estimator.table());
        int last = layout.levels().size() - 1;
        double kg = 0;
        for (int i = 0; i < layout.cutsAt(last).size(); i++) {
            kg += layout.cutsAt(last).get(i).kind() == CutKind.FAT_TRIM ? slots[layout.start(last) + i] : 0;
        }
        return kg;
    }

    /** Just where the first fat trim is added, or where it just suffices, there is no slope to speak of. */
    private static boolean atAKink(Mince mince, double fatInLeanTrim, double fatTrimKg) {
        // kg of fat, and not of fat trim, for that is what a step changes by no more than itself
        double asked = mince.target().fat() * mince.leanTrimKg() - fatInLeanTrim;
        double most = fatTrimKg * (mince.fatOfFatTrim() - mince.target().fat());
        return Math.abs(asked) < NEAR_A_KINK_KG || (fatTrimKg > 0 && Math.abs(asked - most) < NEAR_A_KINK_KG);
    }

    @Property(tries = 30, seed = "1", edgeCases = EdgeCasesMode.NONE)
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void gradientsOfFiguresAreSlopes(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 59) int fatPercent) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimator estimator = estimator(definition, random);
        Carcass carcass = RandomTables.carcass(definition, random);
        gradientsAreSlopes(estimator, carcass);
        if (hasLeanTrim(estimator.table())) {
            Statistics.collect(gradientsAreSlopes(estimator.with(MinceTarget.fatPercent(fatPercent)), carcass));
        }
        Statistics.coverage(met -> {
            met.check("no fat trim added").count(count -> count > 0);
            met.check("some fat trim added").count(count -> count > 0);
            met.check("all fat trim added").count(count -> count > 0);
        });
    }

    /** From lean trim that is fatter than asked, through enough fat trim, to too little. */
    @Example
    void gradientsOfFiguresAreSlopesOnBothSidesOfBothKinks() {
        YieldEstimator plain = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
        Carcass carcass = Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 340);
        Set<String> met = new TreeSet<>();
        for (int fatPercent = 5; fatPercent <= 68; fatPercent++) {
            met.add(gradientsAreSlopes(plain.with(MinceTarget.fatPercent(fatPercent)), carcass));
        }
        assertThat(met).containsExactly("all fat trim added", "no fat trim added", "some fat trim added");
    }

    /** Whatever the table: the cuts of a level together are as sure as the weight, for a carcass and for a lot. */
    @Property(tries = 30, seed = "2", edgeCases = EdgeCasesMode.NONE)
    void allCutsOfALevelTogetherVaryOnlyWithTheScale(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 59) int fatPercent) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldEstimator estimator = estimator(definition, random).with(new ScaleError(3, 4));
        if (hasLeanTrim(estimator.table()) && random.nextBoolean()) {
            estimator = estimator.with(MinceTarget.fatPercent(fatPercent));
        }
        Carcass carcass = RandomTables.carcass(definition, random);
        Carcass wide = Carcass.of(
                carcass.category(),
                Conformation.ofPosition(carcass.conformation().position(), 3),
                FatClass.ofPosition(carcass.fatClass().position(), 1.5),
                carcass.coldWeightKg());
        YieldEstimate estimate = estimator.estimate(wide);
        for (String level : definition.levels()) {
            Figure all = null;
            for (CutLine line : estimate.lines(level)) {
                Figure its = Figure.cut(level, line.cut().code());
                all = all == null ? its : all.plus(its);
            }
            assertThat(all).isNotNull();
            if (all != null) {
                assertThat(estimate.sd(all)).as(level).isCloseTo(5, within(1e-7));
                assertThat(estimate.sd(all, UncertaintyPart.BETWEEN_CARCASSES)).isCloseTo(0, within(1e-6));
                assertThat(estimate.sd(all, UncertaintyPart.GRADE_RESOLUTION)).isCloseTo(0, within(1e-6));
            }
        }
    }

    /** Standard errors of half of the columns, the same for every child of a breakdown, so that they close. */
    private static TableDefinition standardErrors(TableDefinition definition, Random random) {
        Map<List<String>, Set<String>> children = new LinkedHashMap<>();
        for (BreakdownRow row : definition.breakdown()) {
            children.computeIfAbsent(List.of(row.category(), row.way(), row.parent()), key -> new TreeSet<>())
                    .add(row.cut());
        }
        TableDefinition.Builder builder = definition.toBuilder();
        children.forEach((key, cuts) -> {
            for (String column : definition.coefficientColumns()) {
                double error = 0.05 + random.nextDouble();
                if (cuts.size() > 1 && random.nextBoolean()) {
                    cuts.forEach(cut -> builder.coefficientNote(new CoefficientNote(
                            key.get(0), key.get(1), key.get(2), cut, column, error, TestTables.SOURCE)));
                }
            }
        });
        return builder.build();
    }

    /** Carcasses of every category, weight and width, whole positions and decimal ones. */
    private static List<Carcass> carcasses(TableDefinition definition, int size, Random random) {
        double[] widths = {1, 1.5, 3};
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            carcasses.add(Carcass.of(
                    carcass.category(),
                    Conformation.ofPosition(carcass.conformation().position(), widths[random.nextInt(3)]),
                    FatClass.ofPosition(carcass.fatClass().position(), widths[random.nextInt(3)]),
                    carcass.coldWeightKg()));
        }
        return carcasses;
    }

    private static double square(double x) {
        return x * x;
    }

    private static LotEstimate lot(YieldEstimator estimator, List<Carcass> carcasses) {
        return estimator.estimateLot(carcasses);
    }

    /** A sum of doubles that is rounded once, so that what is compared with it is its own rounding alone. */
    private static double sum(List<Double> terms) {
        BigDecimal sum = BigDecimal.ZERO;
        for (double term : terms) {
            sum = sum.add(new BigDecimal(term));
        }
        return sum.doubleValue();
    }

    private static double polynomial(double[] coefficients, double t) {
        double value = 0;
        for (int j = coefficients.length - 1; j >= 0; j--) {
            value = value * t + coefficients[j];
        }
        return value;
    }

    /** Variance between carcasses of one figure of one carcass, kg squared, straight from the nodes around it. */
    private static double variance(YieldEstimator estimator, Carcass carcass, double[] figure) {
        double w = carcass.coldWeightKg();
        YieldErrors errors = estimator.model().errors(carcass.category());
        double t = (w - errors.grid().referenceWeightKg()) / 100;
        List<Double> terms = new ArrayList<>();
        errors.grid()
                .nodes()
                .corners(
                        carcass.conformation().position(),
                        carcass.fatClass().position(),
                        (node, weight) -> terms.add(weight
                                * polynomial(
                                        errors.betweenCarcasses(
                                                node, errors.effects(figure), errors, errors.effects(figure)),
                                        t)
                                * w
                                * w));
        return sum(terms);
    }

    @Property(tries = 10, seed = "3", edgeCases = EdgeCasesMode.NONE)
    void powerSumsSayWhatAPlainLoopOverTheCarcassesSays(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 300) int size) {
        Random random = new Random(seed);
        TableDefinition definition = shape.table();
        YieldEstimator estimator = estimator(definition, random);
        List<Carcass> carcasses = carcasses(definition, size, random);
        LotEstimate lot = lot(estimator, carcasses);
        List<double[]> shares = carcasses.stream()
                .map(carcass -> estimator
                        .model()
                        .grid(carcass.category())
                        .shares(
                                carcass.conformation().position(),
                                carcass.fatClass().position(),
                                carcass.coldWeightKg()))
                .toList();
        TableLayout layout = Engine.layout(estimator.table());
        for (int level = 0; level < layout.levels().size(); level++) {
            String name = layout.levels().get(level);
            for (Cut cut : layout.cutsAt(level)) {
                int slot = layout.slot(level, cut.code());
                List<Double> kg = new ArrayList<>();
                List<Double> variances = new ArrayList<>();
                double[] figure = new double[layout.size() + 1];
                figure[slot] = 1;
                for (int i = 0; i < size; i++) {
                    kg.add(shares.get(i)[slot] * carcasses.get(i).coldWeightKg());
                    variances.add(variance(estimator, carcasses.get(i), figure));
                }
                assertThat(lot.kg(name, cut.code()))
                        .as("kg of " + cut.code())
                        .isCloseTo(sum(kg), within(LIKE_A_PLAIN_LOOP * sum(kg)));
                assertThat(square(lot.sd(Figure.cut(name, cut.code()), UncertaintyPart.BETWEEN_CARCASSES)))
                        .as("variance of " + cut.code())
                        .isCloseTo(sum(variances), within(LIKE_A_PLAIN_LOOP * sum(variances)));
            }
        }
        List<Double> weights = carcasses.stream().map(Carcass::coldWeightKg).toList();
        assertThat(lot.coldWeightKg()).isCloseTo(sum(weights), within(LIKE_A_PLAIN_LOOP * sum(weights)));
    }

    /** So many in four grades that sums without what rounding takes from them would drift. */
    @Example
    void powerSumsOfAHundredThousandCarcassesAreAsExact() {
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
        TableLayout layout = Engine.layout(estimator.table());
        List<String> cuts = List.of("meat", "rump", "striploin-steak", "lean-trim", "fat-trim", "bone");
        List<List<Double>> kg = new ArrayList<>();
        cuts.forEach(cut -> kg.add(new ArrayList<>()));
        LotEstimate.Collector collector = estimator.collector();
        Random random = new Random(8);
        for (int i = 0; i < 100_000; i++) {
            double conformation = List.of(5.0, 8.0, 8.3, 11.0).get(i % 4);
            double weight = 160 + 430 * random.nextDouble();
            collector.add(Carcass.of(
                    Category.STEER, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(7, 1), weight));
            double[] shares = estimator.model().grid(Category.STEER).shares(conformation, 7, weight);
            for (int j = 0; j < cuts.size(); j++) {
                kg.get(j).add(shares[layout.lastSlot(cuts.get(j))] * weight);
            }
        }
        LotEstimate lot = collector.lot();
        for (int j = 0; j < cuts.size(); j++) {
            double plain = sum(kg.get(j));
            assertThat(lot.kg(cuts.get(j))).as(cuts.get(j)).isCloseTo(plain, within(LIKE_A_PLAIN_LOOP * plain));
        }
    }

    private static void same(LotEstimate expected, LotEstimate... all) {
        for (LotEstimate actual : all) {
            assertThat(actual.carcasses()).isEqualTo(expected.carcasses());
            assertThat(actual.counts()).isEqualTo(expected.counts());
        }
        UncertaintyTest.figures(expected).forEach((name, figure) -> {
            double kg = expected.kg(figure);
            for (LotEstimate actual : all) {
                assertThat(actual.kg(figure)).as(name).isCloseTo(kg, within(1e-12 * kg));
            }
            for (UncertaintyPart part : UncertaintyPart.values()) {
                double variance = square(expected.sd(figure, part));
                for (LotEstimate actual : all) {
                    assertThat(square(actual.sd(figure, part)))
                            .as("%s, %s", name, part)
                            .isCloseTo(variance, within(1e-12 * variance));
                }
            }
        });
    }

    @Property(tries = 6, seed = "4", edgeCases = EdgeCasesMode.NONE)
    void lotsAndCollectorsMergeToTheSameInWhateverOrder(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 2, max = 30) int size,
            @ForAll @IntRange(min = 2, max = 6) int parts) {
        Random random = new Random(seed);
        TableDefinition definition = standardErrors(shape.table(), random);
        YieldEstimator estimator = estimator(definition, random).with(new ScaleError(0.8, 0.5));
        List<Carcass> carcasses = carcasses(definition, Math.max(size, parts), random);
        LotEstimate whole = lot(estimator, carcasses);

        Collections.shuffle(carcasses, random);
        List<LotEstimate.Collector> collectors = new ArrayList<>();
        for (int i = 0; i < carcasses.size(); i++) {
            if (i < parts) {
                collectors.add(estimator.collector());
            }
            collectors.get(i < parts ? i : random.nextInt(parts)).add(carcasses.get(i));
        }
        Collections.shuffle(collectors, random);
        LotEstimate.Collector merged = estimator.collector();
        collectors.forEach(merged::add);

        List<LotEstimate> lots = new ArrayList<>();
        collectors.forEach(collector -> lots.add(collector.lot()));
        while (lots.size() > 1) {
            Collections.shuffle(lots, random);
            lots.add(lots.remove(0).plus(lots.remove(0)));
        }
        same(whole, merged.lot(), lots.get(0));
    }

    /** Sixteen times the same carcasses: an error that all share grows 16 times, errors of their own by the root of it. */
    @Property(tries = 10, seed = "5", edgeCases = EdgeCasesMode.NONE)
    void onlyBiasAndCoefficientErrorsDoNotAverageOut(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 30) int size) {
        Random random = new Random(seed);
        TableDefinition definition = standardErrors(shape.table(), random);
        YieldEstimator estimator = estimator(definition, random).with(new ScaleError(0.8, 0.5));
        LotEstimate once = lot(estimator, carcasses(definition, size, random));
        LotEstimate often = once;
        for (int doubled = 0; doubled < 4; doubled++) {
            often = often.plus(often);
        }
        for (Map.Entry<String, Figure> figure : UncertaintyTest.figures(once).entrySet()) {
            for (UncertaintyPart part : UncertaintyPart.values()) {
                int factor = switch (part) {
                    case COEFFICIENTS, LOT, RUN, HALL, SCALE_BIAS -> 16;
                    case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY -> 4;
                };
                double sd = factor * once.sd(figure.getValue(), part);
                assertThat(often.sd(figure.getValue(), part))
                        .as("%s, %s", figure.getKey(), part)
                        .isCloseTo(sd, within(1e-12 * sd));
            }
        }
    }

    /** The bias of the scale by its own meaning: every carcass weighs as much more, and the lot is estimated again. */
    @Property(tries = 10, seed = "6", edgeCases = EdgeCasesMode.NONE)
    void aBiasIsWorthWhatTheLotGainsWhenEveryCarcassIsHeavier(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 30) int size) {
        Random random = new Random(seed);
        TableDefinition definition = shape.table();
        YieldEstimator estimator = estimator(definition, random).with(new ScaleError(0, 2));
        double inside = 0.01;
        List<Carcass> carcasses = new ArrayList<>();
        for (Carcass carcass : carcasses(definition, size, random)) {
            Range kg = definition.allowed().weightKg();
            carcasses.add(heavier(carcass, 0, kg.low() + inside, kg.high() - inside));
        }
        LotEstimate lot = lot(estimator, carcasses);
        LotEstimate above = lot(
                estimator,
                carcasses.stream().map(one -> heavier(one, inside, 0, 1e9)).toList());
        LotEstimate below = lot(
                estimator,
                carcasses.stream().map(one -> heavier(one, -inside, 0, 1e9)).toList());
        UncertaintyTest.figures(lot).forEach((name, figure) -> {
            double perKg = (above.kg(figure) - below.kg(figure)) / (2 * inside);
            assertThat(lot.sd(figure, UncertaintyPart.SCALE_BIAS))
                    .as(name)
                    .isCloseTo(2 * Math.abs(perKg), within(1e-5 * size));
        });
    }

    /**
     * The error of one coefficient by its own meaning. Of two children one errs as much up as the other down, so there is
     * but one such table, and the lot is estimated again with that.
     */
    @Property(tries = 10, seed = "7", edgeCases = EdgeCasesMode.NONE)
    void anErrorOfACoefficientIsWorthWhatTheLotChangesWithAnotherTable(
            @ForAll long seed,
            @ForAll @IntRange(min = 1, max = 30) int size,
            @ForAll @IntRange(min = 0, max = 3) int column) {
        TableDefinition small = TestTables.small();
        TableDefinition.Builder stated = small.toBuilder();
        TableDefinition.Builder off = small.toBuilder().clearBreakdown();
        for (BreakdownRow row : small.breakdown()) {
            Double[] coefficients = row.coefficients().toArray(new Double[0]);
            if (row.parent().equals("meat")) {
                stated.coefficientNote(new CoefficientNote(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        small.coefficientColumns().get(column),
                        0.5,
                        TestTables.SOURCE));
                coefficients[column] += row.cut().equals("fore") ? 0.5 : -0.5;
            }
            off.row(new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    List.of(coefficients),
                    row.sdGPerKg(),
                    row.source()));
        }
        List<Carcass> carcasses = carcasses(small, size, new Random(seed));
        LotEstimate lot = lot(YieldEstimator.of(YieldTable.of(stated.build())), carcasses);
        LotEstimate other = lot(YieldEstimator.of(YieldTable.of(off.build())), carcasses);
        for (String cut : List.of("fore", "hind", "meat", "bone")) {
            assertThat(lot.sd(Figure.cut(cut), UncertaintyPart.COEFFICIENTS))
                    .as(cut)
                    .isCloseTo(Math.abs(other.kg(cut) - lot.kg(cut)), within(1e-9 * lot.kg(cut)));
        }
    }

    private static Carcass heavier(Carcass carcass, double kg, double least, double most) {
        return Carcass.of(
                carcass.category(),
                carcass.conformation(),
                carcass.fatClass(),
                Math.min(most, Math.max(least, carcass.coldWeightKg() + kg)));
    }
}
