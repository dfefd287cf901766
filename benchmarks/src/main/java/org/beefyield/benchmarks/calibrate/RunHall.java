package org.beefyield.benchmarks.calibrate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.beefyield.benchmarks.coverage.Herd;
import org.beefyield.benchmarks.coverage.Nature;
import org.beefyield.benchmarks.coverage.Outcome;
import org.beefyield.benchmarks.coverage.Tree;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;

/**
 * A drawn hall: its runs, and what it returns on average. What carcasses give is drawn by {@link World}, apart from the library.
 *
 * @param runs a run a day
 * @param carcasses carcasses of the same kind, very many, on which the average is taken
 * @param truth by product, bone and fat too, g per kg of cold weight
 */
record RunHall(List<BoningRun> runs, List<Carcass> carcasses, Map<String, Double> truth) {
    static final String SPECIFICATION = "steaks";

    private static final int DAYS = 60;
    private static final int FEWEST = 150;
    private static final int MOST = 250;
    private static final int LOT = 30;
    private static final int MANY = 20_000;
    /** Least g per kg of anything: less on average can't be told from a hall with a share below 0. */
    private static final double LEAST = 1;

    private static final double G_PER_KG = 1000;
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final String LEVEL = "retail";
    static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification(SPECIFICATION));
    private static final List<Cut> CUTS = ESTIMATOR.yields(LEVEL);

    /** A product for each cut that is packed. */
    static final List<Product> PRODUCTS = CUTS.stream()
            .filter(cut -> !isRest(cut.kind()) && cut.kind() != CutKind.LOSS)
            .map(cut -> Product.of(cut.code().toUpperCase(Locale.ROOT), cut.name(), cut.code()))
            .toList();

    private static final World WORLD = new World(
            TABLE.definition(),
            ScaleError.NONE,
            Nature.AS_DECLARED,
            List.of(Tree.ways(TABLE.definition(), SPECIFICATION)));

    private static boolean isRest(CutKind kind) {
        return kind == CutKind.BONE || kind == CutKind.FAT_TRIM;
    }

    private static String product(Cut cut) {
        return switch (cut.kind()) {
            case BONE -> "Bone";
            case FAT_TRIM -> "Fat";
            default -> cut.name();
        };
    }

    /** What is expected of a product. */
    static Figure figure(String product) {
        return CUTS.stream()
                .filter(cut -> product(cut).equals(product))
                .map(cut -> Figure.cut(LEVEL, cut.code()))
                .reduce(Figure::plus)
                .orElseThrow();
    }

    /** Draws a hall; one that returned less than nothing of something is drawn anew. */
    static RunHall draw(SplittableRandom random) {
        while (true) {
            List<Herd> herds = new ArrayList<>();
            List<List<Carcass>> byRun = new ArrayList<>();
            int lot = 0;
            for (int day = 0; day < DAYS; day++) {
                int size = FEWEST + random.nextInt(MOST - FEWEST + 1);
                Herd herd = new Herd();
                List<Carcass> ofRun = new ArrayList<>();
                for (int i = 0; i < size; i++) {
                    lot += i % LOT == 0 ? 1 : 0;
                    Carcass carcass = carcass(random, "C" + day + "-" + i).withLot("L" + lot);
                    ofRun.add(carcass);
                    herd.add(new Herd.Head(carcass, lot, day, 0));
                }
                herds.add(herd);
                byRun.add(ofRun);
            }
            List<Carcass> many = new ArrayList<>();
            Herd average = new Herd();
            for (int i = 0; i < MANY; i++) {
                Carcass carcass = carcass(random, "M" + i);
                many.add(carcass);
                average.add(new Herd.Head(carcass, lot + 1 + i, DAYS + i, 0));
            }
            herds.add(average);
            Outcome[][] outcomes = WORLD.draw(herds, random);
            double cold = many.stream().mapToDouble(Carcass::coldWeightKg).sum();
            Map<String, Double> truth = new LinkedHashMap<>();
            CUTS.forEach(cut -> truth.merge(product(cut), G_PER_KG * kg(outcomes[DAYS][0], cut) / cold, Double::sum));
            if (truth.values().stream().allMatch(share -> share > LEAST)) {
                CUTS.stream().filter(cut -> cut.kind() == CutKind.LOSS).forEach(cut -> truth.remove(product(cut)));
                List<BoningRun> runs = new ArrayList<>();
                for (int day = 0; day < DAYS; day++) {
                    runs.add(run(day, byRun.get(day), outcomes[day][0]));
                }
                return new RunHall(runs, many, truth);
            }
        }
    }

    private static double kg(Outcome outcome, Cut cut) {
        return outcome.kg(TABLE.levels().indexOf(LEVEL), cut.code());
    }

    private static Carcass carcass(SplittableRandom random, String id) {
        int conformation = (int) Math.max(3, Math.min(13, Math.round(8 + 1.8 * random.nextGaussian())));
        int fat = (int) Math.max(3, Math.min(12, Math.round(7.5 + 1.6 * random.nextGaussian())));
        return Carcass.of(
                        random.nextInt(3) == 0 ? Category.HEIFER : Category.STEER,
                        Conformation.third(conformation),
                        FatClass.third(fat),
                        Math.max(260, Math.min(430, Math.round(10 * (345 + 28 * random.nextGaussian())) / 10.0)))
                .withId(id);
    }

    private static BoningRun run(int day, List<Carcass> carcasses, Outcome outcome) {
        List<Box> boxes = new ArrayList<>();
        Map<CutKind, Double> rest = new LinkedHashMap<>();
        for (Cut cut : CUTS) {
            if (isRest(cut.kind())) {
                rest.merge(cut.kind(), kg(outcome, cut), Double::sum);
            } else if (cut.kind() != CutKind.LOSS) {
                boxes.add(
                        Box.of(day + "-" + boxes.size(), cut.code().toUpperCase(Locale.ROOT), "", kg(outcome, cut), 0));
            }
        }
        return new BoningRun(
                "Tarrowmere",
                LocalDate.of(2026, 1, 5).plusDays(day).toString(),
                IntakeWeighing.COLD_WEIGHED,
                carcasses.stream()
                        .map(carcass ->
                                Intake.of(carcass, IntakePart.CARCASS, carcass.coldWeightKg(), Movement.BONED, ""))
                        .toList(),
                boxes,
                List.of(
                        Rest.of(RestKind.BONE, rest.getOrDefault(CutKind.BONE, 0.0)),
                        Rest.of(RestKind.FAT, rest.getOrDefault(CutKind.FAT_TRIM, 0.0))));
    }
}
