package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.PlainFormula;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;

/**
 * Parts of carcasses against brute force (construction): every path of rows from the carcass down is walked, and what comes down it
 * lies in the part as the cut on it does that is divided; each independent error moves the rows of a table by one SD, and all paths
 * are walked again. Nothing of the product's own multiplication is used. Invented figures.
 */
class PartEstimateProperties {
    private static final String QUARTERING = "long forequarter";
    private static final double TARGET = 0.14;

    /**
     * Four levels, of which the third is divided: a rib that comes from meat and from bone, a shank from two primals, lean trim at
     * the first level, at the one that is divided and after it. Shares are cubic in weight.
     */
    static final TableDefinition DEFINITION = definition();

    private static TableDefinition definition() {
        TableDefinition.Builder builder = TableDefinition.builder("quartered", "1")
                .levels("tissue", "primal", "part", "retail")
                .categories(Category.STEER)
                .source(TestTables.source(TestTables.SOURCE))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("all-bone", "Bone in the carcass", "tissue", CutKind.BONE))
                .cut(Cut.of("rib", "Rib, bone in", "primal", CutKind.PRIMAL))
                .cut(Cut.of("round", "Round", "primal", CutKind.PRIMAL))
                .cut(Cut.of("chuck", "Chuck", "primal", CutKind.PRIMAL))
                .cut(Cut.of("rib-eye", "Rib eye", "part", CutKind.PRIMAL).withFatPct(15.0))
                .cut(Cut.of("rib-plate", "Rib plate", "part", CutKind.PRIMAL).withFatPct(22.0))
                .cut(Cut.of("topside", "Topside", "part", CutKind.PRIMAL).withFatPct(8.0))
                .cut(Cut.of("shank", "Shank", "part", CutKind.PRIMAL).withFatPct(9.0))
                .cut(Cut.of("blade", "Blade", "part", CutKind.PRIMAL).withFatPct(11.0))
                .cut(Cut.of("steak", "Steak", "retail", CutKind.STEAK))
                .cut(Cut.of("lean-trim", "Lean trim", "part", CutKind.LEAN_TRIM).withFatPct(10.0))
                .cut(Cut.of("fat-trim", "Fat trim", "retail", CutKind.FAT_TRIM).withFatPct(75.0))
                .cut(Cut.of("bone", "Bone", "primal", CutKind.BONE))
                .cut(Cut.of("neck-trim", "Neck trim", "tissue", CutKind.LEAN_TRIM)
                        .withFatPct(12.0))
                .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS));
        // no child varies much more than its siblings, so that their independent errors are the smaller roots
        row(builder, "carcass", "meat", 15, 750, 8, -4, 6);
        row(builder, "carcass", "neck-trim", 11, 10);
        row(builder, "carcass", "all-bone", 14, 232, -8, 4, -6);
        row(builder, "carcass", "loss", 12, 8);
        row(builder, "meat", "rib", 7, 120, 1, 0, -2);
        row(builder, "meat", "round", 8, 430, 3, -1, -6);
        row(builder, "meat", "chuck", 8, 450, -4, 1, 8);
        row(builder, "all-bone", "rib", 11, 140, 0, 2, 3);
        row(builder, "all-bone", "bone", 11, 860, 0, -2, -3);
        row(builder, "rib", "rib-eye", 13, 620, 2, -1, 4);
        row(builder, "rib", "rib-plate", 13, 380, -2, 1, -4);
        row(builder, "round", "topside", 12, 780, 1);
        row(builder, "round", "shank", 12, 220, -1);
        row(builder, "chuck", "blade", 15, 700, 0, -2);
        row(builder, "chuck", "shank", 13, 140);
        row(builder, "chuck", "lean-trim", 14, 160, 0, 2);
        row(builder, "rib-eye", "steak", 20, 850, 2, -5);
        row(builder, "rib-eye", "fat-trim", 20, 150, -2, 5);
        row(builder, "rib-plate", "lean-trim", 18, 740, 0, -6);
        row(builder, "rib-plate", "fat-trim", 18, 260, 0, 6);
        row(builder, "topside", "steak", 14, 700, 3);
        row(builder, "topside", "lean-trim", 13, 220, -2);
        row(builder, "topside", "fat-trim", 12, 80, -1);
        row(builder, "shank", "lean-trim", 25, 900);
        row(builder, "shank", "fat-trim", 25, 100);
        row(builder, "blade", "lean-trim", 21, 880, 0, -3);
        row(builder, "blade", "fat-trim", 21, 120, 0, 3);
        String[] fore = {
            "rib-eye 0.6",
            "rib-plate 0.3",
            "topside 0",
            "shank 0.45",
            "blade 1",
            "lean-trim 0.8",
            "neck-trim 0.9",
            "bone 0.55",
            "loss 0.5"
        };
        for (String cutAndShare : fore) {
            String[] both = cutAndShare.split(" ", 2);
            builder.quartering(new QuarteringRow(QUARTERING, both[0], Double.parseDouble(both[1]), TestTables.SOURCE));
        }
        TableDefinition definition = builder.build();
        builder = definition.toBuilder();
        String level = definition.coefficientColumns().get(0);
        for (String parentAndCut : List.of(
                "all-bone rib", "all-bone bone", "round topside", "round shank", "shank lean-trim", "shank fat-trim")) {
            String[] both = parentAndCut.split(" ", 2);
            for (String column : List.of(level, "per_100kg")) {
                builder.coefficientNote(new CoefficientNote(
                        "*", "*", both[0], both[1], column, column.equals(level) ? 3.0 : 1.5, TestTables.SOURCE));
            }
        }
        return builder.build();
    }

    private static void row(
            TableDefinition.Builder builder, String parent, String cut, double sd, double... coefficients) {
        builder.row(parent, cut, sd, SharedSds.of(0.5 * sd, 0.4 * sd, 0.7 * sd), TestTables.SOURCE, coefficients);
    }

    private static final ScaleError SCALE = new ScaleError(0.8, 0.5);
    private static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(YieldTable.of(DEFINITION)).with(SCALE).with(MinceTarget.fatPercent(100 * TARGET));

    /** A carcass and what is taken of it. */
    private record Taken(Carcass carcass, CarcassPart part) {}

    /** A figure, and the same of kg by level and cut. */
    private record Case(Figure figure, ToDoubleFunction<Map<String, Double>> kg) {}

    private static final Map<String, Case> CASES = new LinkedHashMap<>();

    static {
        CASES.put("meat", new Case(Figure.cut("tissue", "meat"), kg -> kg.get("tissue meat")));
        CASES.put("all bone", new Case(Figure.cut("tissue", "all-bone"), kg -> kg.get("tissue all-bone")));
        CASES.put("rib", new Case(Figure.cut("primal", "rib"), kg -> kg.get("primal rib")));
        CASES.put("shank", new Case(Figure.cut("part", "shank"), kg -> kg.get("part shank")));
        CASES.put("steak", new Case(Figure.kind(CutKind.STEAK), kg -> kg.get("retail steak")));
        CASES.put("mince", new Case(Figure.kind(CutKind.MINCE), kg -> mince(kg)));
        CASES.put(
                "mixed",
                new Case(
                        Figure.cut("tissue", "meat")
                                .times(3)
                                .plus(Figure.cut("primal", "round").times(-2))
                                .plus(Figure.cut("steak").times(5))
                                .plus(Figure.kind(CutKind.BONE).times(-0.1)),
                        kg -> 3 * kg.get("tissue meat")
                                - 2 * kg.get("primal round")
                                + 5 * kg.get("retail steak")
                                - 0.1 * kg.get("retail bone")));
    }

    private static double lean(Map<String, Double> kg) {
        return kg.get("retail lean-trim") + kg.get("retail neck-trim");
    }

    /** Pearson's square: lean trim and the fat trim that brings it to the target. */
    private static double mince(Map<String, Double> kg) {
        double lean = lean(kg);
        return lean + (TARGET * lean - kg.get("fat in lean trim")) / (0.75 - TARGET);
    }

    /** What a part weighs by level and cut, path by path. */
    private static Map<String, Double> kg(TableDefinition table, CarcassPart part, double c, double f, double w) {
        Map<String, Double> fore = new HashMap<>();
        table.quartering().forEach(row -> fore.put(row.cut(), row.foreShare()));
        Map<String, Double> kg = new TreeMap<>();
        PlainFormula.paths(table, Category.STEER, Map.of(), c, f, w, (rows, share) -> {
            String[] standing = standing(table, rows);
            double inFore = fore.get(standing[2]);
            double of = w * share * (inFore * part.forequarters() + (1 - inFore) * part.hindquarters()) / 2;
            for (int level = 0; level < standing.length; level++) {
                kg.merge(table.levels().get(level) + " " + standing[level], of, Double::sum);
            }
            BreakdownRow last = rows.get(rows.size() - 1);
            if (last.cut().endsWith("-trim") && !last.cut().equals("fat-trim")) {
                double ofParent = Map.of(
                                "rib-plate", 22.0, "topside", 8.0, "shank", 9.0, "blade", 11.0, "carcass", 12.0)
                        .getOrDefault(last.parent(), 10.0);
                kg.merge("fat in lean trim", of * ofParent / 100, Double::sum);
            }
        });
        return kg;
    }

    /** By level, the cut that stands there on a path. */
    private static String[] standing(TableDefinition table, List<BreakdownRow> rows) {
        String[] standing = new String[table.levels().size()];
        for (BreakdownRow row : rows) {
            int from = row.parent().equals(BreakdownRow.ROOT) ? 0 : levelOf(table, row.parent()) + 1;
            Arrays.fill(standing, from, standing.length, row.cut());
        }
        return standing;
    }

    private static int levelOf(TableDefinition table, String code) {
        return table.levels()
                .indexOf(table.cuts().stream()
                        .filter(cut -> cut.code().equals(code))
                        .findFirst()
                        .orElseThrow()
                        .level());
    }

    /** Shares are bilinear between the nodes. */
    private static Map<String, Double> between(Taken taken, double c, double f) {
        Map<String, Double> kg = new TreeMap<>();
        double w = taken.carcass().coldWeightKg();
        for (double atC : new double[] {Math.floor(c), Math.ceil(c)}) {
            for (double atF : new double[] {Math.floor(f), Math.ceil(f)}) {
                add(kg, kg(DEFINITION, taken.part(), atC, atF, w), 0.25);
            }
        }
        return kg;
    }

    private static Map<String, Double> kg(TableDefinition table, Taken taken, double w) {
        return kg(
                table,
                taken.part(),
                taken.carcass().conformation().position(),
                taken.carcass().fatClass().position(),
                w);
    }

    private static Map<String, Double> kg(TableDefinition table, Taken taken) {
        return kg(table, taken, taken.carcass().coldWeightKg());
    }

    private static void add(Map<String, Double> sum, Map<String, Double> more, double factor) {
        more.forEach((key, kg) -> sum.merge(key, factor * kg, Double::sum));
    }

    private static Map<String, Double> difference(Map<String, Double> a, Map<String, Double> b) {
        Map<String, Double> difference = new TreeMap<>(a);
        add(difference, b, -1);
        return difference;
    }

    /** The rows of one parent moved, child by child in the order of its rows. */
    private static TableDefinition moved(String parent, int column, double[] by) {
        TableDefinition.Builder builder = DEFINITION.toBuilder().clearBreakdown();
        int child = 0;
        for (BreakdownRow row : DEFINITION.breakdown()) {
            List<Double> coefficients = new ArrayList<>(row.coefficients());
            if (row.parent().equals(parent)) {
                coefficients.set(column, coefficients.get(column) + by[child++]);
            }
            builder.row(
                    new BreakdownRow("*", "*", row.parent(), row.cut(), coefficients, row.sdGPerKg(), row.source()));
        }
        return builder.build();
    }

    /** Tables that one independent error each of one SD has moved. */
    private static List<TableDefinition> moved(ToDoubleFunction<BreakdownRow> sd) {
        Map<String, List<Double>> byParent = new LinkedHashMap<>();
        DEFINITION
                .breakdown()
                .forEach(row -> byParent.computeIfAbsent(row.parent(), parent -> new ArrayList<>())
                        .add(sd.applyAsDouble(row)));
        List<TableDefinition> moved = new ArrayList<>();
        byParent.forEach((parent, sds) -> {
            double[] of = sds.stream().mapToDouble(one -> one).toArray();
            double[][] moves = of.length == 2 ? LotsAndRunsProperties.led(of) : LotsAndRunsProperties.conditioned(of);
            for (int m = 0; m < moves[0].length; m++) {
                int error = m;
                moved.add(moved(
                        parent,
                        0,
                        Arrays.stream(moves)
                                .mapToDouble(ofChild -> ofChild[error])
                                .toArray()));
            }
        });
        return moved;
    }

    private static List<TableDefinition> movedCoefficients() {
        List<TableDefinition> moved = new ArrayList<>();
        for (String parent : List.of("all-bone", "round", "shank")) {
            moved.add(moved(parent, 0, new double[] {3, -3}));
            moved.add(moved(parent, 3, new double[] {1.5, -1.5}));
        }
        return moved;
    }

    private static final Map<UncertaintyPart, List<TableDefinition>> MOVED = new EnumMap<>(UncertaintyPart.class);

    static {
        MOVED.put(UncertaintyPart.BETWEEN_CARCASSES, moved(BreakdownRow::sdGPerKg));
        MOVED.put(UncertaintyPart.COEFFICIENTS, movedCoefficients());
        for (SharedBy by : SharedBy.values()) {
            MOVED.put(
                    UncertaintyPart.valueOf(by.name()),
                    moved(row -> row.shared().of(by)));
        }
    }

    /** What the independent errors of one part of the uncertainty do to what is taken of one carcass. */
    private static List<Map<String, Double>> errors(UncertaintyPart part, Taken taken) {
        List<Map<String, Double>> errors = new ArrayList<>();
        double w = taken.carcass().coldWeightKg();
        switch (part) {
            case SCALE_REPEATABILITY, SCALE_BIAS -> {
                Map<String, Double> slope =
                        difference(kg(DEFINITION, taken, w + 0.01), kg(DEFINITION, taken, w - 0.01));
                double sd = part == UncertaintyPart.SCALE_BIAS ? SCALE.biasKg() : SCALE.repeatabilityKg();
                slope.replaceAll((key, kg) -> sd * kg / 0.02);
                errors.add(slope);
            }
            case GRADE_RESOLUTION -> {
                double c = taken.carcass().conformation().position();
                double f = taken.carcass().fatClass().position();
                double wide = taken.carcass().conformation().width();
                double fit = DEFINITION.widthFit();
                double factor = Math.sqrt((wide * wide - fit * fit) / 12) / wide;
                if (factor > 0) {
                    Map<String, Double> byC =
                            difference(between(taken, c + wide / 2, f), between(taken, c - wide / 2, f));
                    byC.replaceAll((key, kg) -> factor * kg);
                    errors.add(byC);
                    Map<String, Double> byF =
                            difference(between(taken, c, f + wide / 2), between(taken, c, f - wide / 2));
                    byF.replaceAll((key, kg) -> factor * kg);
                    errors.add(byF);
                }
            }
            default -> {
                for (TableDefinition table : MOVED.get(part)) {
                    errors.add(difference(kg(table, taken), kg(DEFINITION, taken)));
                }
            }
        }
        return errors;
    }

    /** What carcasses have an error in common with, as texts of this test's own. */
    private static Function<Taken, String> key(UncertaintyPart part) {
        return taken -> {
            Carcass carcass = taken.carcass();
            String date = carcass.killDate().orElse("-");
            String hall = carcass.hall().orElse("-");
            return switch (part) {
                case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY ->
                    carcass.id().orElseThrow();
                case COEFFICIENTS -> "table";
                case LOT ->
                    carcass.supplier().orElse("-") + "/" + date + "/"
                            + carcass.lot().orElse("-");
                case RUN, SCALE_BIAS -> hall + "/" + date;
                case HALL -> hall;
            };
        };
    }

    private static boolean isKnown(UncertaintyPart part, Carcass carcass) {
        return switch (part) {
            case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY -> false;
            case COEFFICIENTS, HALL -> true;
            case LOT ->
                carcass.killDate().isPresent()
                        && (carcass.supplier().isPresent() || carcass.lot().isPresent());
            case RUN, SCALE_BIAS -> carcass.killDate().isPresent();
        };
    }

    /** By key and error, what it does to the figure: its slope, for mince isn't linear but Pearson's square is. */
    private static Map<String, Double> effects(
            UncertaintyPart part, List<Taken> all, Case figure, BiFunction<Taken, String, String> keyOf) {
        Map<String, Double> total = total(all);
        Map<String, Map<String, Double>> byKey = new TreeMap<>();
        for (Taken taken : all) {
            List<Map<String, Double>> errors = errors(part, taken);
            for (int m = 0; m < errors.size(); m++) {
                String key = keyOf.apply(taken, key(part).apply(taken)) + " error " + m;
                add(byKey.computeIfAbsent(key, k -> new TreeMap<>()), errors.get(m), 1);
            }
        }
        Map<String, Double> effects = new TreeMap<>();
        byKey.forEach((key, delta) -> {
            Map<String, Double> moved = new TreeMap<>(total);
            add(moved, delta, 1);
            effects.put(key, figure.kg().applyAsDouble(moved) - figure.kg().applyAsDouble(total));
        });
        return effects;
    }

    private static Map<String, Double> total(List<Taken> all) {
        Map<String, Double> total = new TreeMap<>();
        all.forEach(taken -> add(total, kg(DEFINITION, taken), 1));
        return total;
    }

    private static double norm(Map<String, Double> effects) {
        return Math.sqrt(effects.values().stream().mapToDouble(x -> x * x).sum());
    }

    private static final List<CarcassPart> PARTS = List.of(
            CarcassPart.carcass(),
            CarcassPart.side(),
            CarcassPart.forequarters(QUARTERING),
            CarcassPart.hindquarters(QUARTERING),
            new CarcassPart(QUARTERING, 1, 0),
            new CarcassPart(QUARTERING, 1, 2));

    private static List<Taken> taken(int size, Random random) {
        List<Taken> all = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            boolean whole = random.nextBoolean();
            Carcass carcass = Carcass.of(
                            Category.STEER,
                            Conformation.ofPosition(whole ? 8 : 5 + random.nextInt(7), whole ? 3 : 1),
                            FatClass.ofPosition(whole ? 5 : 5 + random.nextInt(6), whole ? 3 : 1),
                            250 + 200 * random.nextDouble())
                    .withId("c" + i);
            carcass = random.nextInt(4) == 0 ? carcass : carcass.withSupplier("farm " + random.nextInt(2));
            carcass = random.nextBoolean() ? carcass : carcass.withKillDate("2026-03-0" + (1 + random.nextInt(2)));
            carcass = random.nextInt(3) == 0 ? carcass.withLot("lot " + random.nextInt(2)) : carcass;
            carcass = random.nextInt(3) == 0 ? carcass.withHall("hall " + random.nextInt(2)) : carcass;
            all.add(new Taken(carcass, PARTS.get(random.nextInt(PARTS.size()))));
        }
        return all;
    }

    private static PartEstimate estimate(List<Taken> all) {
        return all.stream()
                .map(taken -> ESTIMATOR.estimate(taken.carcass()).part(taken.part()))
                .reduce(PartEstimate::plus)
                .orElseThrow();
    }

    /** The same lot by lot. */
    private static PartEstimate byLots(List<Taken> all) {
        Map<CarcassPart, List<Carcass>> byPart = new LinkedHashMap<>();
        all.forEach(taken ->
                byPart.computeIfAbsent(taken.part(), part -> new ArrayList<>()).add(taken.carcass()));
        return byPart.entrySet().stream()
                .map(entry -> ESTIMATOR.estimateLot(entry.getValue()).part(entry.getKey()))
                .reduce((a, b) -> b.plus(a))
                .orElseThrow();
    }

    @Property(tries = 12, seed = "23", edgeCases = EdgeCasesMode.NONE)
    void partsWeighWhatComesDownTheirPaths(@ForAll long seed, @ForAll @IntRange(min = 1, max = 9) int size) {
        List<Taken> all = taken(size, new Random(seed));
        Map<String, Double> kg = total(all);
        for (PartEstimate estimate : List.of(estimate(all), byLots(all))) {
            for (String level : List.of("tissue", "primal", "part")) {
                for (CutLine line : estimate.lines(level)) {
                    assertThat(line.kg())
                            .as("%s %s", level, line)
                            .isCloseTo(kg.get(level + " " + line.code()), within(1e-9));
                }
                assertThat(estimate.lines(level).stream()
                                .mapToDouble(CutLine::kg)
                                .sum())
                        .as(level)
                        .isCloseTo(estimate.coldWeightKg(), within(1e-9));
            }
            assertThat(estimate.kg("steak")).isCloseTo(kg.get("retail steak"), within(1e-9));
            assertThat(estimate.mince().orElseThrow().kg()).isCloseTo(mince(kg), within(1e-9));
            assertThat(estimate.fatTrimKg() + estimate.mince().orElseThrow().kg())
                    .isCloseTo(kg.get("retail fat-trim") + lean(kg), within(1e-9));
        }
    }

    @Property(tries = 8, seed = "24", edgeCases = EdgeCasesMode.NONE)
    void sdsOfPartsAreWhatBruteForceFinds(@ForAll long seed, @ForAll @IntRange(min = 1, max = 7) int size) {
        List<Taken> all = taken(size, new Random(seed));
        PartEstimate estimate = estimate(all);
        PartEstimate byLots = byLots(all);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            CASES.forEach((name, figure) -> {
                double sd = norm(effects(part, all, figure, (taken, key) -> key));
                assertThat(estimate.sd(figure.figure(), part))
                        .as("%s of %s", part, name)
                        .isCloseTo(sd, within(1e-6 * sd + 1e-9));
                assertThat(byLots.sd(figure.figure(), part))
                        .as("%s of %s by lots", part, name)
                        .isCloseTo(sd, within(1e-6 * sd + 1e-9));
            });
        }
    }

    @Property(tries = 10, seed = "25", edgeCases = EdgeCasesMode.NONE)
    void inADifferenceOfPartsErrorsCancelOnlyWhereBothSurelyHaveThemInCommon(
            @ForAll long seed, @ForAll @IntRange(min = 3, max = 8) int size) {
        Random random = new Random(seed);
        List<Taken> some = taken(size, random);
        List<Taken> others = taken(size, random);
        PartEstimate estimate = estimate(some);
        PartEstimate other = estimate(others);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            CASES.forEach((name, figure) -> {
                Map<String, Double> effects = effects(
                        part, some, figure, (taken, key) -> (isKnown(part, taken.carcass()) ? "" : "here ") + key);
                effects(part, others, figure, (taken, key) -> (isKnown(part, taken.carcass()) ? "" : "there ") + key)
                        .forEach((key, there) -> effects.merge(key, -there, Double::sum));
                assertThat(estimate.minus(other, figure.figure()).sdKg(part))
                        .as("%s of %s", part, name)
                        .isCloseTo(norm(effects), within(1e-6 * (1e-3 + estimate.sd(figure.figure(), part))));
            });
        }
    }

    @Property(tries = 20, seed = "26", edgeCases = EdgeCasesMode.NONE)
    void forequartersAndHindquartersAreTheCarcassInKgAndInCovariance(
            @ForAll long seed, @ForAll @IntRange(min = 1, max = 20) int size) {
        Random random = new Random(seed);
        List<Carcass> carcasses = new ArrayList<>();
        taken(size, random)
                .forEach(taken -> carcasses.add(Carcass.of(
                        Category.STEER,
                        Conformation.ofPosition(3 + 10 * random.nextDouble(), 1 + random.nextInt(2)),
                        FatClass.ofPosition(3 + 9 * random.nextDouble(), 1 + random.nextInt(2)),
                        taken.carcass().coldWeightKg())));
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(DEFINITION)).with(SCALE);
        LotEstimate lot = estimator.estimateLot(carcasses);
        PartEstimate fore = lot.part(CarcassPart.forequarters(QUARTERING));
        PartEstimate hind = lot.part(CarcassPart.hindquarters(QUARTERING));
        for (String level : lot.table().levels()) {
            for (CutLine line : lot.lines(level)) {
                assertThat(fore.kg(level, line.code()) + hind.kg(level, line.code()))
                        .as("%s %s", level, line)
                        .isCloseTo(line.kg(), within(1e-12 * lot.coldWeightKg()));
            }
        }
        Quarters quarters = lot.quarters(QUARTERING);
        assertThat(fore.coldWeightKg()).isCloseTo(quarters.foreKg(), within(1e-12 * lot.coldWeightKg()));
        assertThat(hind.coldWeightKg()).isCloseTo(quarters.hindKg(), within(1e-12 * lot.coldWeightKg()));
        CASES.forEach((name, figure) -> {
            for (UncertaintyPart part : UncertaintyPart.values()) {
                // var(fore) + var(hind) + 2 cov, the covariance from what the difference of the two has
                double both = square(fore.sd(figure.figure(), part)) + square(hind.sd(figure.figure(), part));
                double covariance =
                        (both - square(fore.changeFrom(hind, figure.figure()).sdKg(part))) / 2;
                double carcass = square(lot.sd(figure.figure(), part));
                assertThat(both + 2 * covariance)
                        .as("%s of %s", part, name)
                        .isCloseTo(carcass, within(1e-9 * (both + carcass) + 1e-12));
            }
        });
    }

    @Property(tries = 10, seed = "27", edgeCases = EdgeCasesMode.NONE)
    void aSideIsHalfACarcassAndAllOfItIsTheCarcass(@ForAll long seed, @ForAll @IntRange(min = 1, max = 9) int size) {
        LotEstimate lot = ESTIMATOR.estimateLot(
                taken(size, new Random(seed)).stream().map(Taken::carcass).toList());
        PartEstimate all = lot.part(CarcassPart.carcass());
        PartEstimate side = lot.part(CarcassPart.side());
        CASES.forEach((name, figure) -> {
            double kg = lot.kg(figure.figure());
            assertThat(all.kg(figure.figure())).as(name).isEqualTo(kg);
            assertThat(side.kg(figure.figure())).as(name).isCloseTo(kg / 2, within(1e-12 * lot.coldWeightKg()));
            for (UncertaintyPart part : UncertaintyPart.values()) {
                double sd = lot.sd(figure.figure(), part);
                assertThat(all.sd(figure.figure(), part))
                        .as("%s of %s", part, name)
                        .isEqualTo(sd);
                assertThat(side.sd(figure.figure(), part))
                        .as("%s of %s", part, name)
                        .isCloseTo(sd / 2, within(1e-9 * sd));
            }
        });
        assertThat(all.coldWeightKg()).isCloseTo(lot.coldWeightKg(), within(1e-9));
        assertThat(side.coldWeightKg()).isCloseTo(lot.coldWeightKg() / 2, within(1e-9));
    }

    private static double square(double x) {
        return x * x;
    }
}
