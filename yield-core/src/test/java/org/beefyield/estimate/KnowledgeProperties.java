package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.table.RandomTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/**
 * With SDs held as declared, whoever knows more is never less sure.
 *
 * <p>Smaller errors and fewer parts narrow every figure, for each part adds a variance of its own. Which carcasses have an
 * error in common is another matter: the variance of a sum is |g1 + g2|² if two carcasses share it and |g1|² + |g2|² if they
 * don't, which is less only where g1·g2 is 0 or more. Of a cut that comes out of one place it is: in the breakdown of each of
 * its forebears everything goes through one child k, so that g is 0 or more times row k of the factor, and two rows k of
 * closed errors, also of two categories, have no product below 0. Of a cut from several places, or of money, it may be below
 * 0: what errs one way in one carcass errs the other way in another.
 */
class KnowledgeProperties {
    private static final int TRIES = 50;

    /** Relative: rounding. */
    private static final double ROUNDING = 1e-9;

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** Rows of one breakdown in one way, of whatever category. */
    private static List<String> breakdown(BreakdownRow row) {
        return List.of(row.parent(), row.way());
    }

    /** The table with SDs of all kinds and standard errors of all coefficients, which close for every category. */
    private static TableDefinition withErrors(TableDefinition definition, Random random) {
        Map<String, Set<String>> children = new TreeMap<>();
        Map<String, double[]> ofTwo = new TreeMap<>();
        for (BreakdownRow row : definition.breakdown()) {
            String key = String.join("|", breakdown(row));
            children.computeIfAbsent(key, any -> new TreeSet<>()).add(row.cut());
            ofTwo.computeIfAbsent(key, any -> sds(random));
        }
        TableDefinition.Builder builder = definition.toBuilder().clearBreakdown();
        for (BreakdownRow row : definition.breakdown()) {
            String key = String.join("|", breakdown(row));
            int count = children.getOrDefault(key, Set.of()).size();
            double[] its = ofTwo.getOrDefault(key, new double[0]).clone();
            for (int i = 0; i < its.length; i++) {
                // three or more close as long as none is above the others together, two if they are equal
                its[i] *= count == 1 ? 0 : count == 2 ? 1 : 1 + 0.2 * random.nextDouble();
            }
            builder.row(new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    row.coefficients(),
                    its[0],
                    SharedSds.of(its[1], its[2], its[3]),
                    row.source()));
            for (int column = 0; column < 3; column++) {
                String name = column == 2 ? "all-slopes" : "";
                builder.coefficientNote(new CoefficientNote(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        definition.coefficientColumns().get(column),
                        its[4 + column],
                        name,
                        row.source()));
            }
        }
        RandomTables.mix(definition, random).forEach((parent, way) -> builder.specification("mix", parent, way));
        return builder.build();
    }

    private static double[] sds(Random random) {
        double[] sds = new double[7];
        for (int i = 0; i < sds.length; i++) {
            sds[i] = random.nextInt(4) == 0 ? 0 : (i < 4 ? 5 : 1) * random.nextDouble();
        }
        return sds;
    }

    private static YieldEstimator estimator(TableDefinition definition) {
        return exactScale(definition).with(new ScaleError(1, 0.5));
    }

    /** Without a bias, which makes a cut lighter in a carcass whose share of it falls fast with weight. */
    private static YieldEstimator exactScale(TableDefinition definition) {
        return YieldEstimator.of(YieldTable.of(definition));
    }

    private static String any(Random random, String... texts) {
        return texts[random.nextInt(texts.length)];
    }

    /** Carcasses of a few lots, runs and halls; grades of any width. */
    private static List<Carcass> carcasses(TableDefinition definition, Random random) {
        List<Carcass> carcasses = new ArrayList<>();
        int size = 1 + random.nextInt(8);
        for (int i = 0; i < size; i++) {
            Carcass carcass = RandomTables.carcass(definition, random);
            carcasses.add(Carcass.of(
                            carcass.category(),
                            Conformation.ofPosition(carcass.conformation().position(), any(random)),
                            FatClass.ofPosition(carcass.fatClass().position(), any(random)),
                            carcass.coldWeightKg())
                    .withSupplier(any(random, "Tarrowmere", "Tarrowmere Hill"))
                    .withLot(any(random, "1", "2"))
                    .withKillDate(any(random, "2026-11-02", "2026-11-03"))
                    .withHall(any(random, "north", "south")));
        }
        return carcasses;
    }

    /** Width of a grade as written. */
    private static double any(Random random) {
        return 1 + random.nextInt(3);
    }

    private static Figure cut(YieldTable table, Random random) {
        String level = table.levels().get(random.nextInt(table.levels().size()));
        List<Cut> cuts = table.cutsAt(level);
        return Figure.cut(level, cuts.get(random.nextInt(cuts.size())).code());
    }

    /** Of two cuts of any levels, one of which may count for less than 0: money with a cost in it. */
    private static Figure figure(YieldTable table, Random random) {
        return cut(table, random).plus(cut(table, random).times(4 * random.nextDouble() - 2));
    }

    /** Cuts that come out of one place alone, as do all that they come out of. */
    private static List<String> ofOnePlace(YieldEstimator estimator) {
        Map<String, Set<String>> parents = new TreeMap<>();
        for (BreakdownRow row : estimator.table().definition().breakdown()) {
            String way = estimator.specification().ways().getOrDefault(row.parent(), BreakdownRow.ANY);
            if (row.way().equals(way)) {
                parents.computeIfAbsent(row.cut(), any -> new TreeSet<>()).add(row.parent());
            }
        }
        List<String> cuts = new ArrayList<>();
        for (String cut : parents.keySet()) {
            String at = cut;
            while (!at.equals(BreakdownRow.ROOT)
                    && parents.getOrDefault(at, Set.of()).size() == 1) {
                at = parents.getOrDefault(at, Set.of()).iterator().next();
            }
            if (at.equals(BreakdownRow.ROOT)) {
                cuts.add(cut);
            }
        }
        return cuts;
    }

    private static void isNotWider(double known, double less) {
        assertThat(known).isLessThanOrEqualTo(less * (1 + ROUNDING) + ROUNDING);
    }

    private static TableDefinition divided(TableDefinition definition, Set<Integer> sds, boolean notes, double by) {
        TableDefinition.Builder builder = definition.toBuilder().clearBreakdown();
        for (BreakdownRow row : definition.breakdown()) {
            SharedSds shared = row.shared();
            builder.row(new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    row.coefficients(),
                    row.sdGPerKg() / (sds.contains(0) ? by : 1),
                    SharedSds.of(
                            stated(shared.lotGPerKg()) / (sds.contains(1) ? by : 1),
                            stated(shared.runGPerKg()) / (sds.contains(2) ? by : 1),
                            stated(shared.hallGPerKg()) / (sds.contains(3) ? by : 1)),
                    row.source()));
        }
        List<CoefficientNote> divided = definition.coefficientNotes().stream()
                .map(note -> new CoefficientNote(
                        note.category(),
                        note.way(),
                        note.parent(),
                        note.cut(),
                        note.term(),
                        stated(note.standardError()) / (notes ? by : 1),
                        note.errorId(),
                        note.source()))
                .toList();
        builder.replaceRows(
                definition.cuts(),
                builder.build().breakdown(),
                List.of(),
                divided,
                List.of(),
                definition.expectations(),
                definition.sources(),
                definition.decimals(),
                definition.provenance());
        return builder.build();
    }

    private static double stated(@Nullable Double sd) {
        return sd == null ? 0 : sd;
    }

    /** What is said of any figure of a lot and of its difference from another. */
    private static List<Double> sds(
            YieldEstimator estimator, Figure figure, List<Carcass> carcasses, List<Carcass> others) {
        LotEstimate lot = estimator.estimateLot(carcasses);
        LotEstimate other = estimator.estimateLot(others);
        Difference difference = lot.minus(other, figure);
        return List.of(lot.sd(figure), difference.sdKg(), difference.expectedSdKg());
    }

    private static void areNotWider(List<Double> known, List<Double> less) {
        for (int i = 0; i < known.size(); i++) {
            isNotWider(known.get(i), less.get(i));
        }
    }

    @Property(tries = TRIES)
    void smallerSdsNeverWidenAnything(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll @DoubleRange(min = 1, max = 1000) double by) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        Set<Integer> some = new TreeSet<>();
        for (int i = 0; i < 4; i++) {
            if (random.nextBoolean()) {
                some.add(i);
            }
        }
        TableDefinition known = divided(definition, some, random.nextBoolean(), by);
        List<Carcass> carcasses = carcasses(definition, random);
        List<Carcass> others = carcasses(definition, random);
        YieldEstimator estimator = estimator(definition);
        Figure figure = figure(estimator.table(), random);

        areNotWider(sds(estimator(known), figure, carcasses, others), sds(estimator, figure, carcasses, others));
    }

    @Property(tries = TRIES)
    void aPartThatIsNoneOrKnownNeverWidensAnything(@ForAll("shapes") RandomTables.Shape shape) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        List<Carcass> carcasses = carcasses(definition, random);
        List<Carcass> others = carcasses(definition, random);
        YieldEstimator estimator = estimator(definition);
        Figure figure = figure(estimator.table(), random);
        Set<UncertaintyPart> some = EnumSet.noneOf(UncertaintyPart.class);
        Set<UncertaintyPart> fewer = EnumSet.noneOf(UncertaintyPart.class);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            if (random.nextInt(4) > 0) {
                some.add(part);
                if (random.nextBoolean()) {
                    fewer.add(part);
                }
            }
        }
        List<Double> all = sds(estimator, figure, carcasses, others);
        List<Double> ofSome = sds(estimator.counting(some), figure, carcasses, others);

        areNotWider(sds(estimator.inOwnHall(), figure, carcasses, others), all);
        areNotWider(ofSome, all);
        areNotWider(sds(estimator.counting(fewer), figure, carcasses, others), ofSome);
    }

    @Property(tries = TRIES)
    void aMoreExactScaleAndGradeNeverWidenAnything(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll @DoubleRange(min = 1, max = 1000) double by) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        List<Carcass> carcasses = carcasses(definition, random);
        List<Carcass> others = carcasses(definition, random);
        YieldEstimator estimator = estimator(definition);
        Figure figure = figure(estimator.table(), random);
        UnaryOperator<List<Carcass>> inThirds = graded -> graded.stream()
                .map(carcass -> carcass.with(
                                Conformation.ofPosition(carcass.conformation().position(), 1))
                        .with(FatClass.ofPosition(carcass.fatClass().position(), 1)))
                .toList();
        List<Double> all = sds(estimator, figure, carcasses, others);

        areNotWider(sds(estimator.with(new ScaleError(1 / by, 0.5 / by)), figure, carcasses, others), all);
        areNotWider(sds(estimator, figure, inThirds.apply(carcasses), inThirds.apply(others)), all);
    }

    @Property(tries = TRIES)
    void lotsAndRunsKnownApartNeverWidenACutOfOnePlace(@ForAll("shapes") RandomTables.Shape shape) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        List<Carcass> carcasses = carcasses(definition, random);
        YieldEstimator estimator = exactScale(definition);
        LotEstimate apart = estimator.estimateLot(carcasses);
        LotEstimate.Collector oneLot = estimator.collector().asOneLot();
        carcasses.forEach(oneLot::add);
        LotEstimate together = oneLot.lot();
        LotEstimate withoutDates = estimator.estimateLot(carcasses.stream()
                .map(carcass -> Carcass.of(
                                carcass.category(), carcass.conformation(), carcass.fatClass(), carcass.coldWeightKg())
                        .withSupplier(carcass.supplier().orElseThrow())
                        .withLot(carcass.lot().orElseThrow())
                        .withHall(carcass.hall().orElseThrow()))
                .toList());

        for (String cut : ofOnePlace(estimator)) {
            isNotWider(apart.sd(cut), withoutDates.sd(cut));
            isNotWider(withoutDates.sd(cut), together.sd(cut));
        }
    }

    @Property(tries = TRIES)
    void lotsAndRunsInFinerColumnsNeverWidenACutOfOnePlace(@ForAll("shapes") RandomTables.Shape shape) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        List<Carcass> carcasses = carcasses(definition, random);
        YieldEstimator estimator = exactScale(definition);
        int[] lots = random.ints(carcasses.size(), 0, 6).toArray();
        int[] runs = random.ints(carcasses.size(), 0, 6).toArray();
        LotEstimate fine = estimate(estimator, carcasses, lots, runs);
        for (int i = 0; i < lots.length; i++) {
            lots[i] /= 2;
            runs[i] /= 3;
        }
        LotEstimate coarse = estimate(estimator, carcasses, lots, runs);

        for (String cut : ofOnePlace(estimator)) {
            isNotWider(fine.sd(cut), coarse.sd(cut));
        }
    }

    private static LotEstimate estimate(YieldEstimator estimator, List<Carcass> carcasses, int[] lots, int[] runs) {
        CarcassColumns columns =
                CarcassColumns.of(carcasses).withLots(lots.clone()).withRuns(runs.clone());
        LotEstimate.Collector collector = estimator.collector();
        assertThat(collector.add(columns, 0, columns.size(), new byte[columns.size()]))
                .isZero();
        return collector.lot();
    }

    @Property(tries = TRIES)
    void knowingThatCarcassesAreOfOneLotRunOrHallNeverWidensTheirDifferenceInACutOfOnePlace(
            @ForAll("shapes") RandomTables.Shape shape) {
        Random random = new Random(shape.seed());
        TableDefinition definition = withErrors(shape.table(), random);
        YieldEstimator estimator = exactScale(definition);
        Carcass one = carcasses(definition, random).get(0).withKillDate("2026-11-02");
        Carcass other = carcasses(definition, random).get(0).withKillDate("2026-11-02");
        Carcass ofOneRun = other.withHall(one.hall().orElseThrow());
        Carcass ofOneLot = ofOneRun.withSupplier(one.supplier().orElseThrow())
                .withLot(one.lot().orElseThrow());
        Carcass ofAnotherDay = ofOneRun.withKillDate("2026-11-09");
        Carcass ofAnotherHall = ofAnotherDay.withHall("west");
        YieldEstimate estimate = estimator.estimate(one);

        for (String cut : ofOnePlace(estimator)) {
            Figure figure = Figure.cut(cut);
            double oneLot = estimate.minus(estimator.estimate(ofOneLot), figure).sdKg();
            double oneRun = estimate.minus(estimator.estimate(ofOneRun), figure).sdKg();
            double anotherDay =
                    estimate.minus(estimator.estimate(ofAnotherDay), figure).sdKg();
            double anotherHall =
                    estimate.minus(estimator.estimate(ofAnotherHall), figure).sdKg();
            isNotWider(oneLot, oneRun);
            isNotWider(oneRun, anotherDay);
            isNotWider(anotherDay, anotherHall);
        }
    }
}
