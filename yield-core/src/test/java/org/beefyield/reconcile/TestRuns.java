package org.beefyield.reconcile;

import static org.beefyield.price.TestPrices.steer;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedSds;

/**
 * Runs of invented halls: twelve carcasses of two lots each, that return what the table expects, with errors as it states them.
 */
final class TestRuns {
    static final YieldTable TABLE = YieldTable.of(TestTables.share(
                    TestTables.threeLevels(),
                    row -> new SharedSds(row.sdGPerKg() / 4, row.sdGPerKg() / 3, row.sdGPerKg() / 2))
            .build());
    static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification("steaks"));
    static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);

    static final List<Product> PRODUCTS = List.of(
            Product.of("SL", "Striploin steak", "striploin-steak"),
            Product.of("RS", "Rump steak", "rump-steak"),
            Product.of("BJ", "Brisket joint", "brisket-joint"),
            Product.of("DI", "Dice", "dice"),
            Product.of("LT", "Lean trim", "lean-trim"));

    private static final LocalDate FIRST = LocalDate.of(2026, 9, 1);
    private static final List<String> CONFORMATIONS = List.of("R=", "U-", "O+", "R+", "R-", "O=");
    private static final List<String> FATS = List.of("3=", "3+", "2+", "3-", "4-", "2=");
    private static final int CARCASSES = 12;
    private static final int LOTS = 2;

    private TestRuns() {}

    /** Name of a run of a hall. */
    static String name(String hall, int number) {
        return hall + " " + FIRST.plusDays(number);
    }

    /**
     * Runs one a day.
     *
     * @param hall name of the hall
     * @param runs number of runs
     * @param seed of the errors
     * @param factors what a group is multiplied with by number of the run and name of the group; the difference is lean trim
     */
    static List<BoningRun> season(String hall, int runs, long seed, BiFunction<Integer, String, Double> factors) {
        Random random = new Random(seed);
        return IntStream.range(0, runs)
                .mapToObj(number -> run(hall, number, random, factors))
                .toList();
    }

    private static BoningRun run(String hall, int number, Random random, BiFunction<Integer, String, Double> factors) {
        List<Intake> intake = new ArrayList<>();
        for (int i = 0; i < CARCASSES; i++) {
            int at = (number + i) % CONFORMATIONS.size();
            intake.add(Intake.of(
                    steer(CONFORMATIONS.get(at), FATS.get(i % FATS.size()), 300 + 7 * at + i)
                            .withId(hall + number + "-" + i)
                            .withLot("L" + i % LOTS),
                    IntakePart.CARCASS,
                    0.99 * (300 + 7 * at + i),
                    Movement.BONED,
                    "B" + number));
        }
        String day = FIRST.plusDays(number).toString();
        BoningRun empty = new BoningRun(
                hall,
                day,
                IntakeWeighing.COLD_WEIGHED,
                intake,
                List.of(),
                List.of(Rest.of(RestKind.BONE, 1), Rest.of(RestKind.FAT, 1)));
        Reconciliation expected = Reconciler.reconcile(empty, ESTIMATOR, PRODUCTS);
        Map<String, Double> kg = drawn(expected, random);
        kg.replaceAll((group, of) -> of * factors.apply(number, group));
        double moved = expected.intakeKg()
                - kg.values().stream().mapToDouble(Double::doubleValue).sum();
        kg.merge("Lean trim", moved, Double::sum);
        List<Box> boxes = PRODUCTS.stream()
                .map(product ->
                        Box.of(number + "-" + product.code(), product.code(), "B" + number, of(kg, product.name()), 0))
                .toList();
        return new BoningRun(
                hall,
                day,
                IntakeWeighing.COLD_WEIGHED,
                intake,
                boxes,
                List.of(Rest.of(RestKind.BONE, of(kg, "Bone")), Rest.of(RestKind.FAT, of(kg, "Fat"))));
    }

    private static double of(Map<String, Double> kg, String group) {
        return Objects.requireNonNull(kg.get(group), group);
    }

    /** As the table expects, with errors as it states them for a run; all comes to the intake. */
    private static Map<String, Double> drawn(Reconciliation expected, Random random) {
        Map<String, Double> kg = new LinkedHashMap<>();
        for (GroupLine line : expected.lines()) {
            double sd = line.sdKg(Reconciliation.partsOfRun());
            kg.put(line.group(), Math.max(0, line.scaledKg() + sd * random.nextGaussian()));
        }
        double all = kg.values().stream().mapToDouble(Double::doubleValue).sum();
        kg.replaceAll((group, of) -> of * expected.intakeKg() / all);
        return kg;
    }
}
