package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.IntStream;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;

/**
 * Errors that carcasses of a lot, a run and a hall have in common, against brute force (construction): each independent error
 * moves the levels of the table by one SD, all carcasses are estimated again one by one, and what comes out otherwise is added
 * up carcass by carcass over what has the error in common. Invented figures.
 */
class LotsAndRunsProperties {
    private static final String[] FATS = {"2", "2+", "3-", "3=", "4L", "4H", "4="};
    private static final String[] CONFORMATIONS = {"O", "O+", "R-", "R=", "R+", "U"};

    /** Cows' tissues vary more, so that one error does otherwise to them; those of halls are led by one child. */
    private static SharedSds sds(BreakdownRow row) {
        double cows = row.category().equals("D") ? 1.3 : 1;
        double residual = row.sdGPerKg();
        return SharedSds.of(cows * 0.6 * residual, 0.4 * residual, hall(row));
    }

    /** In a set of three or more the first child takes the opposite of all others, which err as one. */
    private static double hall(BreakdownRow row) {
        return switch (row.cut()) {
            case "meat" -> 12 + 5 + 2;
            case "fat-trim" -> 12;
            case "bone" -> 5;
            case "loss" -> 2;
            default -> 7;
        };
    }

    private static final TableDefinition DEFINITION =
            TestTables.share(TestTables.small(), LotsAndRunsProperties::sds).build();
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(DEFINITION));

    private static final Map<String, Figure> FIGURES = new LinkedHashMap<>();

    static {
        FIGURES.put("fore", Figure.cut("fore"));
        FIGURES.put("meat", Figure.cut("tissue", "meat"));
        FIGURES.put("bone", Figure.kind(CutKind.BONE));
        FIGURES.put("saleable", Figure.saleable());
        FIGURES.put(
                "money",
                Figure.cut("hind")
                        .times(7)
                        .plus(Figure.cut("fore").times(4))
                        .plus(Figure.kind(CutKind.BONE).times(-0.1)));
    }

    private static List<Carcass> carcasses(int size, Random random) {
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            Carcass carcass = Carcass.of(
                    List.of(Category.STEER, Category.HEIFER, Category.COW).get(random.nextInt(3)),
                    random.nextInt(3) == 0
                            ? Conformation.ofPosition(5 + 7 * random.nextDouble(), 0.2)
                            : Conformation.parse(CONFORMATIONS[random.nextInt(CONFORMATIONS.length)]),
                    FatClass.parse(FATS[random.nextInt(FATS.length)]),
                    240 + 200 * random.nextDouble());
            carcass = random.nextInt(4) == 0 ? carcass : carcass.withSupplier("farm " + random.nextInt(2));
            carcass = random.nextInt(4) == 0 ? carcass : carcass.withKillDate("2026-03-0" + (1 + random.nextInt(2)));
            carcass = random.nextInt(3) == 0 ? carcass.withLot("lot " + random.nextInt(2)) : carcass;
            carcass = random.nextInt(3) == 0 ? carcass.withHall("hall " + random.nextInt(2)) : carcass;
            carcasses.add(carcass);
        }
        return carcasses;
    }

    /** What a carcass has in common with others, as texts of this test's own. */
    private static String key(SharedBy by, Carcass carcass) {
        String date = carcass.killDate().orElse("-");
        String hall = carcass.hall().orElse("-");
        return switch (by) {
            case LOT ->
                carcass.supplier().orElse("-") + "/" + date + "/"
                        + carcass.lot().orElse("-");
            case RUN -> hall + "/" + date;
            case HALL -> hall;
        };
    }

    private static boolean isKnown(SharedBy by, Carcass carcass) {
        boolean dated = carcass.killDate().isPresent();
        return switch (by) {
            case LOT ->
                dated && (carcass.supplier().isPresent() || carcass.lot().isPresent());
            case RUN -> dated;
            case HALL -> true;
        };
    }

    /** By child, what each independent error of one SD moves it by: independent errors conditioned on adding up to 0. */
    static double[][] conditioned(double[] sd) {
        double low = 4 * Arrays.stream(sd).map(x -> x * x).max().orElse(0);
        double high = 1e6;
        for (int i = 0; i < 200; i++) {
            double middle = (low + high) / 2;
            double roots = Arrays.stream(variances(sd, middle)).sum();
            low = roots > middle ? middle : low;
            high = roots > middle ? high : middle;
        }
        double[] v = variances(sd, low);
        double[][] moves = new double[sd.length][sd.length];
        for (int k = 0; k < sd.length; k++) {
            for (int m = 0; m < sd.length; m++) {
                moves[k][m] = Math.sqrt(v[m]) * ((k == m ? 1 : 0) - v[k] / low);
            }
        }
        return moves;
    }

    private static double[] variances(double[] sd, double sum) {
        return Arrays.stream(sd)
                .map(one -> sum / 2 * (1 - Math.sqrt(Math.max(0, 1 - 4 * one * one / sum))))
                .toArray();
    }

    /** Two children, or one that takes the opposite of what the others, erring as one, add up to. */
    static double[][] led(double[] sd) {
        double[][] moves = new double[sd.length][1];
        for (int k = 1; k < sd.length; k++) {
            moves[k][0] = sd[k];
            moves[0][0] -= sd[k];
        }
        return moves;
    }

    /** Estimators of tables that one independent error each of one SD has moved. */
    private static List<YieldEstimator> moved(SharedBy by) {
        List<YieldEstimator> moved = new ArrayList<>();
        for (String parent : List.of(BreakdownRow.ROOT, "meat")) {
            Map<String, List<Integer>> rowsOf = new TreeMap<>();
            for (int i = 0; i < DEFINITION.breakdown().size(); i++) {
                BreakdownRow row = DEFINITION.breakdown().get(i);
                if (row.parent().equals(parent)) {
                    rowsOf.computeIfAbsent(row.category(), category -> new ArrayList<>())
                            .add(i);
                }
            }
            List<Integer> all = rowsOf.get(BreakdownRow.ANY);
            // cows have rows of their own for the first two
            List<Integer> ofCows = new ArrayList<>(all);
            List<Integer> own = rowsOf.getOrDefault("D", List.of());
            for (int k = 0; k < own.size(); k++) {
                ofCows.set(k, own.get(k));
            }
            double[][] moves = moves(by, all);
            double[][] movesOfCows = moves(by, ofCows);
            for (int m = 0; m < moves[0].length; m++) {
                moved.add(moved(parent, all, ofCows, moves, movesOfCows, m));
            }
        }
        return moved;
    }

    private static double[][] moves(SharedBy by, List<Integer> rows) {
        double[] sd = rows.stream()
                .mapToDouble(row -> DEFINITION.breakdown().get(row).shared().of(by))
                .toArray();
        return by == SharedBy.HALL || sd.length == 2 ? led(sd) : conditioned(sd);
    }

    /** One error's table: its rows are written out for cows and for the others. */
    private static YieldEstimator moved(
            String parent,
            List<Integer> all,
            List<Integer> ofCows,
            double[][] moves,
            double[][] movesOfCows,
            int error) {
        TableDefinition.Builder builder = DEFINITION.toBuilder().clearBreakdown();
        for (BreakdownRow row : DEFINITION.breakdown()) {
            if (!row.parent().equals(parent)) {
                builder.row(row);
            }
        }
        for (int k = 0; k < all.size(); k++) {
            builder.row(moved(DEFINITION.breakdown().get(all.get(k)), "ACEB", moves[k][error]));
            builder.row(moved(DEFINITION.breakdown().get(ofCows.get(k)), "D", movesOfCows[k][error]));
        }
        return YieldEstimator.of(YieldTable.of(builder.build()));
    }

    private static BreakdownRow moved(BreakdownRow row, String categories, double by) {
        List<Double> coefficients = new ArrayList<>(row.coefficients());
        coefficients.set(0, coefficients.get(0) + by);
        String served = categories
                .chars()
                .mapToObj(Character::toString)
                .filter(letter -> DEFINITION.categories().contains(Category.parse(letter)))
                .reduce("", String::concat);
        return new BreakdownRow(
                served, row.way(), row.parent(), row.cut(), coefficients, row.sdGPerKg(), row.shared(), row.source());
    }

    private static final Map<SharedBy, List<YieldEstimator>> MOVED = new HashMap<>();

    static {
        for (SharedBy by : SharedBy.values()) {
            MOVED.put(by, moved(by));
        }
    }

    /** By key, what each independent error does to the figure of all carcasses that have it in common. */
    private static Map<String, double[]> effects(
            SharedBy by, List<Carcass> carcasses, Figure figure, Function<Carcass, String> key) {
        Map<String, double[]> effects = new TreeMap<>();
        for (Carcass carcass : carcasses) {
            double kg = ESTIMATOR.estimate(carcass).kg(figure);
            double[] ofKey = effects.computeIfAbsent(
                    key.apply(carcass), k -> new double[MOVED.get(by).size()]);
            for (int m = 0; m < ofKey.length; m++) {
                ofKey[m] += MOVED.get(by).get(m).estimate(carcass).kg(figure) - kg;
            }
        }
        return effects;
    }

    private static double square(double[] effects) {
        return Arrays.stream(effects).map(x -> x * x).sum();
    }

    private static UncertaintyPart part(SharedBy by) {
        return UncertaintyPart.valueOf(by.name());
    }

    @Property(tries = 25, seed = "19", edgeCases = EdgeCasesMode.NONE)
    void whatCarcassesHaveInCommonIsWhatBruteForceFinds(
            @ForAll long seed, @ForAll @IntRange(min = 1, max = 25) int size) {
        List<Carcass> carcasses = carcasses(size, new Random(seed));
        LotEstimate lot = ESTIMATOR.estimateLot(carcasses);
        for (SharedBy by : SharedBy.values()) {
            FIGURES.forEach((name, figure) -> {
                double variance = effects(by, carcasses, figure, carcass -> key(by, carcass)).values().stream()
                        .mapToDouble(LotsAndRunsProperties::square)
                        .sum();
                assertThat(lot.sd(figure, part(by)))
                        .as("%s, %s", by, name)
                        .isCloseTo(Math.sqrt(variance), within(1e-7 * Math.sqrt(variance) + 1e-9));
                // negative control: were all of them one lot, run or hall, or each of its own, it would be seen
                if (size > 12) {
                    double merged = square(
                            effects(by, carcasses, figure, carcass -> "all").get("all"));
                    assertThat(variance).as("%s, %s kept apart", by, name).isLessThan(0.999 * merged);
                }
            });
        }
    }

    @Property(tries = 25, seed = "20", edgeCases = EdgeCasesMode.NONE)
    void inADifferenceErrorsCancelOnlyWhereBothSurelyHaveThemInCommon(
            @ForAll long seed, @ForAll @IntRange(min = 1, max = 12) int size) {
        Random random = new Random(seed);
        List<Carcass> some = carcasses(size, random);
        List<Carcass> others = carcasses(size, random);
        LotEstimate lot = ESTIMATOR.estimateLot(some);
        LotEstimate otherLot = ESTIMATOR.estimateLot(others);
        for (SharedBy by : SharedBy.values()) {
            FIGURES.forEach((name, figure) -> {
                Map<String, double[]> effects =
                        effects(by, some, figure, carcass -> (isKnown(by, carcass) ? "" : "here ") + key(by, carcass));
                effects(by, others, figure, carcass -> (isKnown(by, carcass) ? "" : "there ") + key(by, carcass))
                        .forEach((key, there) -> {
                            double[] own = effects.computeIfAbsent(key, k -> new double[there.length]);
                            Arrays.setAll(own, m -> own[m] - there[m]);
                        });
                double sd = Math.sqrt(effects.values().stream()
                        .mapToDouble(LotsAndRunsProperties::square)
                        .sum());
                assertThat(lot.minus(otherLot, figure).sdKg(part(by)))
                        .as("%s, %s", by, name)
                        .isCloseTo(sd, within(1e-7 * lot.sd(figure, part(by)) + 1e-9));
            });
        }
    }

    @Property(tries = 20, seed = "21", edgeCases = EdgeCasesMode.NONE)
    void orderMergingThreadsAndColumnsMakeNoDifference(
            @ForAll long seed, @ForAll @IntRange(min = 2, max = 60) int size) {
        Random random = new Random(seed);
        List<Carcass> carcasses = carcasses(size, random);
        LotEstimate lot = ESTIMATOR.estimateLot(carcasses);
        List<Carcass> shuffled = new ArrayList<>(carcasses);
        Collections.shuffle(shuffled, random);
        int cut = 1 + random.nextInt(size - 1);
        byte[] flags = new byte[size];
        LotEstimate.Collector columns = ESTIMATOR.collector();
        assertThat(columns.add(CarcassColumns.of(shuffled), 0, size, flags)).isZero();
        List<LotEstimate> same = List.of(
                ESTIMATOR.estimateLot(shuffled),
                ESTIMATOR
                        .estimateLot(shuffled.subList(0, cut))
                        .plus(ESTIMATOR.estimateLot(shuffled.subList(cut, size))),
                shuffled.parallelStream().collect(ESTIMATOR.collecting()),
                columns.lot());
        for (LotEstimate other : same) {
            assertThat(other.lots()).isEqualTo(lot.lots());
            assertThat(other.runs()).isEqualTo(lot.runs());
            for (Figure figure : FIGURES.values()) {
                for (UncertaintyPart part : UncertaintyPart.values()) {
                    double sd = lot.sd(figure, part);
                    assertThat(other.sd(figure, part)).as("%s", part).isCloseTo(sd, within(1e-11 * sd + 1e-12));
                }
            }
        }
    }

    /** Rows of lots and runs in arrays, in any order and cut into chunks anywhere, against carcasses with names. */
    @Property(tries = 20, seed = "22", edgeCases = EdgeCasesMode.NONE)
    void numbersOfLotsAndRunsAreAsGoodAsNames(@ForAll long seed, @ForAll @IntRange(min = 2, max = 200) int few) {
        // some of them with rows of one lot in thousands
        int size = few > 150 ? 60 * few : few;
        Random random = new Random(seed);
        byte[] categories = new byte[size];
        byte[] conformation = new byte[size];
        byte[] fat = new byte[size];
        double[] kg = new double[size];
        int[] lots = new int[size];
        int[] runs = new int[size];
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            categories[i] = (byte) "CED".charAt(random.nextInt(3));
            conformation[i] = (byte) (4 + random.nextInt(9));
            fat[i] = (byte) (3 + random.nextInt(9));
            kg[i] = 240 + 200 * random.nextDouble();
            // now and then rows of one lot and run that are many
            boolean stays = i > 0 && i < size - 20 && size > 1500;
            lots[i] = stays ? lots[i - 1] : random.nextInt(5) - 1;
            runs[i] = stays ? runs[i - 1] : random.nextInt(3) - 1;
            Carcass carcass = Carcass.of(
                    Category.parse(Character.toString(categories[i])),
                    Conformation.third(conformation[i]),
                    FatClass.third(fat[i]),
                    kg[i]);
            carcass = lots[i] < 0 ? carcass : carcass.withLot("lot " + lots[i]);
            // a date would be part of the lot's key: a run's number stands for a hall and a day here
            carcasses.add(runs[i] < 0 ? carcass : carcass.withHall("hall " + runs[i]));
        }
        CarcassColumns columns = CarcassColumns.thirds(categories, conformation, fat, kg)
                .withLots(lots)
                .withRuns(runs);
        LotEstimate.Collector collector = ESTIMATOR.collector();
        int cut = random.nextInt(size);
        collector.add(columns, 0, cut, new byte[size]);
        collector.add(columns, cut, size, new byte[size]);
        LotEstimate byNumber = collector.lot();
        LotEstimate byName = ESTIMATOR.estimateLot(carcasses);
        assertThat(byNumber.lots()).isEqualTo(byName.lots());
        assertThat(byNumber.runs()).isEqualTo(byName.runs());
        for (Figure figure : FIGURES.values()) {
            for (UncertaintyPart part : List.of(
                    UncertaintyPart.LOT,
                    UncertaintyPart.RUN,
                    UncertaintyPart.BETWEEN_CARCASSES,
                    UncertaintyPart.GRADE_RESOLUTION)) {
                double sd = byName.sd(figure, part);
                assertThat(byNumber.sd(figure, part)).as("%s", part).isCloseTo(sd, within(1e-11 * sd + 1e-12));
            }
        }
        LotEstimate.Collector one = ESTIMATOR.collector().asOneLot();
        one.add(columns, 0, size, new byte[size]);
        assertThat(one.lot().lots()).isEqualTo(1);
        assertThat(one.lot().runs()).isEqualTo(1);
        assertThat(one.lot().sd(Figure.saleable(), UncertaintyPart.LOT))
                .isGreaterThanOrEqualTo((1 - 1e-9) * byNumber.sd(Figure.saleable(), UncertaintyPart.LOT));
        assertThat(IntStream.of(lots).distinct().count()).isEqualTo(byNumber.lots());
    }

    /** So many that they are summed up, between each other, some at one place, more of them than are summed up near at hand. */
    @Example
    void manyCarcassesOfLotsBetweenEachOtherAreAsGoodAsNames() {
        int[] numbers = IntStream.concat(IntStream.of(1024, 2048), IntStream.range(0, 66))
                .toArray();
        int size = numbers.length * 4500;
        Random random = new Random(23);
        byte[] categories = new byte[size];
        byte[] conformation = new byte[size];
        byte[] fat = new byte[size];
        double[] kg = new double[size];
        int[] lots = new int[size];
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            categories[i] = (byte) "CED".charAt(random.nextInt(3));
            conformation[i] = (byte) (4 + random.nextInt(9));
            fat[i] = (byte) (3 + random.nextInt(9));
            // some of them outside the fitted range
            kg[i] = 240 + 270 * random.nextDouble();
            lots[i] = numbers[random.nextInt(numbers.length)];
            carcasses.add(Carcass.of(
                            Category.parse(Character.toString(categories[i])),
                            Conformation.third(conformation[i]),
                            FatClass.third(fat[i]),
                            kg[i])
                    .withLot("lot " + lots[i]));
        }
        LotEstimate.Collector collector = ESTIMATOR.collector();
        CarcassColumns columns =
                CarcassColumns.thirds(categories, conformation, fat, kg).withLots(lots);
        int refused = collector.add(columns, 0, size / 3, new byte[size]);
        LotEstimate early = collector.lot();
        double earlySd = early.sd(Figure.saleable(), UncertaintyPart.LOT);
        refused += collector.add(columns, size / 3, size, new byte[size]);
        LotEstimate byNumber = collector.lot();
        LotEstimate byName = ESTIMATOR.estimateLot(carcasses);
        assertThat(refused).isZero();
        assertThat(byName.outsideFitted()).isPositive();
        assertThat(byNumber.lots()).isEqualTo(numbers.length).isEqualTo(byName.lots());
        assertThat(byNumber.counts()).isEqualTo(byName.counts());
        for (Figure figure : FIGURES.values()) {
            for (UncertaintyPart part : UncertaintyPart.values()) {
                double sd = byName.sd(figure, part);
                assertThat(byNumber.sd(figure, part)).as("%s", part).isCloseTo(sd, within(1e-11 * sd + 1e-12));
            }
        }
        // what a lot holds doesn't change when more is collected
        assertThat(early.sd(Figure.saleable(), UncertaintyPart.RUN))
                .isLessThan(0.4 * byNumber.sd(Figure.saleable(), UncertaintyPart.RUN));
        assertThat(early.sd(Figure.saleable(), UncertaintyPart.LOT)).isEqualTo(earlySd);
        assertThat(early.plus(early).sd(Figure.saleable(), UncertaintyPart.LOT))
                .isCloseTo(2 * earlySd, within(1e-11 * earlySd));
        assertThat(early.carcasses()).isEqualTo(size / 3);
    }

    /** More rows than wait at a time: of lots that are kept as sums then, and of so many lots that their rows wait on. */
    @Example
    void aMillionRowsOfLotsBetweenEachOtherAreAsGoodAsLotByLot() {
        for (int count : new int[] {3, 20_000}) {
            int each = 1_300_000 / count;
            int size = each * count;
            byte[] categories = new byte[size];
            Arrays.fill(categories, (byte) 'C');
            byte[][] conformation = new byte[2][size];
            byte[][] fat = new byte[2][size];
            double[][] kg = new double[2][size];
            int[][] lots = new int[2][size];
            Random random = new Random(24);
            for (int row = 0; row < size; row++) {
                int[] places = {row, row % each * count + row / each};
                byte thisConformation = (byte) (4 + random.nextInt(9));
                byte thisFat = (byte) (3 + random.nextInt(9));
                double thisKg = 240 + 200 * random.nextDouble();
                for (int order = 0; order < 2; order++) {
                    conformation[order][places[order]] = thisConformation;
                    fat[order][places[order]] = thisFat;
                    kg[order][places[order]] = thisKg;
                    lots[order][places[order]] = row / each;
                }
            }
            double[] sds = new double[2];
            for (int order = 0; order < 2; order++) {
                LotEstimate.Collector collector = ESTIMATOR.collector();
                collector.add(
                        CarcassColumns.thirds(categories, conformation[order], fat[order], kg[order])
                                .withLots(lots[order]),
                        0,
                        size,
                        new byte[size]);
                LotEstimate lot = collector.lot();
                assertThat(lot.lots()).isEqualTo(count);
                sds[order] = lot.sd(Figure.saleable(), UncertaintyPart.LOT);
            }
            assertThat(sds[1]).as("%s lots", count).isPositive().isCloseTo(sds[0], within(1e-10 * sds[0]));
        }
    }

    /** Kept one by one or as sums: 5000 carcasses of one kind err 5000 times as much as one. */
    @Example
    void aCollectorThatIsAddedToItselfHoldsItsCarcassesTwice() {
        for (int size : new int[] {1, 50, 5000}) {
            Carcass one = Carcass.of(Category.STEER, Conformation.third(8), FatClass.third(7), 344);
            LotEstimate.Collector collector = ESTIMATOR.collector();
            Collections.nCopies(size, one).forEach(collector::add);
            collector.add(collector);

            assertThat(collector.lot().carcasses()).isEqualTo(2L * size);
            assertThat(collector.lot().kg(Figure.saleable()))
                    .isCloseTo(2 * size * ESTIMATOR.estimate(one).kg(Figure.saleable()), within(1e-6));
            assertThat(collector.lot().sd(Figure.saleable(), UncertaintyPart.LOT))
                    .isCloseTo(
                            2 * size * ESTIMATOR.estimateLot(List.of(one)).sd(Figure.saleable(), UncertaintyPart.LOT),
                            within(1e-6));
        }
    }

    @Example
    void aLotOfThousandsErrsAsOftenAsItHasCarcasses() {
        for (String grade : List.of("8p", "8.4p")) {
            Carcass one = Carcass.of(Category.STEER, Conformation.parse(grade), FatClass.third(7), 344);
            double sd = ESTIMATOR.estimateLot(List.of(one)).sd(Figure.saleable(), UncertaintyPart.LOT);
            assertThat(sd).isPositive();
            LotEstimate lot = ESTIMATOR.estimateLot(Collections.nCopies(5000, one));
            assertThat(lot.sd(Figure.saleable(), UncertaintyPart.LOT)).isCloseTo(5000 * sd, within(1e-9 * 5000 * sd));
            LotEstimate merged = ESTIMATOR
                    .estimateLot(Collections.nCopies(4000, one))
                    .plus(ESTIMATOR.estimateLot(Collections.nCopies(5000, one)));
            assertThat(merged.sd(Figure.saleable(), UncertaintyPart.LOT))
                    .isCloseTo(9000 * sd, within(1e-9 * 9000 * sd));
        }
    }
}
