package org.beefyield.benchmarks.control;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
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
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;

/**
 * A drawn season: what carcasses give is drawn by {@link World}, apart from the library; this adds chilling, scales, boxes and a
 * fault.
 */
final class FaultSeason {
    /** Runs of a season. */
    static final int RUNS = 60;

    /** The first run that has a fault, from 0. */
    static final int FROM = 30;

    static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final String SPECIFICATION = "steaks";
    static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification(SPECIFICATION));

    /** As the table declares itself to err. */
    static final Nature ANY_HALL = Nature.AS_DECLARED;

    /** The same where hall and table don't err. */
    static final Nature OWN_HALL = new Nature(1, 1, 1, 1, 0, 0, 1, 1, false);

    private static final String LEVEL = "retail";
    private static final String QUARTERING = TABLE.quarterings().iterator().next();
    private static final String HALL = "Tarrowmere";
    /** Of the smaller hall in a day. */
    static final int SMALL = 20;

    private static final int TEN = 10;
    private static final int LARGEST_LOT = 40;
    private static final List<Cut> CUTS = ESTIMATOR.yields(LEVEL);

    /** A product for each cut that is packed. */
    static final List<Product> PRODUCTS = CUTS.stream()
            .filter(cut -> isPacked(cut.kind()))
            .map(cut -> Product.of(code(cut.code()), cut.name(), cut.code()))
            .toList();

    private final int carcassesADay;
    private final SplittableRandom random;
    private final List<LocalDate> days = new ArrayList<>();
    private final List<Batch> batches = new ArrayList<>();
    /** What each batch gives, kg by cut. */
    private final List<Map<String, Double>> given = new ArrayList<>();

    private final Map<String, Double> fore;
    private final long seed;

    /** Draws carcasses, and what they give. */
    FaultSeason(World world, int carcassesADay, SplittableRandom random) {
        this.carcassesADay = carcassesADay;
        this.random = random;
        LocalDate day = LocalDate.of(2026, 1, 5);
        for (int run = 0; run < RUNS; run++) {
            days.add(day);
            for (int left = carcassesADay, lot = 1; left > 0; lot++) {
                int size = TEN * (1 + random.nextInt(Math.min(LARGEST_LOT, left) / TEN));
                batches.add(batch("R" + (run + 1) + "-" + lot, run, size));
                left -= size;
            }
            day = day.plusDays(day.getDayOfWeek() == DayOfWeek.FRIDAY ? 3 : 1);
        }
        Batch others = batch("other", FROM, 2 * mislabelled());
        List<Herd> herds = new ArrayList<>();
        batches.forEach(batch -> herds.add(herd(batch, herds.size())));
        herds.add(herd(others, herds.size()));
        Outcome[][] outcomes = world.draw(herds, random);
        for (int i = 0; i < batches.size(); i++) {
            given.add(kg(outcomes[i][0]));
        }
        this.fore = fore(others, outcomes[batches.size()][0]);
        this.seed = random.nextLong();
    }

    /**
     * A batch, which is a lot.
     *
     * @param name name of both
     * @param run number of its run, from 0
     * @param carcasses carcasses as they stand in the intake
     */
    private record Batch(String name, int run, List<Carcass> carcasses) {}

    private static boolean isPacked(CutKind kind) {
        return kind != CutKind.BONE && kind != CutKind.FAT_TRIM && kind != CutKind.LOSS;
    }

    private static String code(String cut) {
        return cut.replaceAll("-(steak|joint)$", "").toUpperCase(Locale.ROOT);
    }

    /** The world of halls of some nature. */
    static World world(Nature nature) {
        return new World(
                TABLE.definition(), ScaleError.NONE, nature, List.of(Tree.ways(TABLE.definition(), SPECIFICATION)));
    }

    int carcassesADay() {
        return carcassesADay;
    }

    /** Boxes with the wrong label: two for 20 carcasses. */
    private int mislabelled() {
        return 2 * carcassesADay / SMALL;
    }

    private Batch batch(String name, int run, int size) {
        List<Carcass> carcasses = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            carcasses.add(steer().withId(name + "-" + i)
                    .withHall(HALL)
                    .withSupplier("Tarrowmere")
                    .withLot(name)
                    .withKillDate(days.get(run).minusDays(2).toString()));
        }
        return new Batch(name, run, carcasses);
    }

    private Carcass steer() {
        int conformation = (int) Math.max(3, Math.min(13, Math.round(8 + 1.8 * random.nextGaussian())));
        int fat = (int) Math.max(3, Math.min(12, Math.round(7.5 + 1.6 * random.nextGaussian())));
        return Carcass.of(
                Category.STEER,
                Conformation.third(conformation),
                FatClass.third(fat),
                Math.max(260, Math.min(430, tenths(345 + 28 * random.nextGaussian()))));
    }

    private static Herd herd(Batch batch, int lot) {
        Herd herd = new Herd();
        batch.carcasses().forEach(carcass -> herd.add(new Herd.Head(carcass, lot, batch.run(), 0)));
        return herd;
    }

    private static Map<String, Double> kg(Outcome outcome) {
        Map<String, Double> kg = new LinkedHashMap<>();
        CUTS.forEach(cut -> kg.put(cut.code(), outcome.kg(TABLE.levels().indexOf(LEVEL), cut.code())));
        return kg;
    }

    /** What the forequarters give: of each cut as much as the table has there. */
    private static Map<String, Double> fore(Batch batch, Outcome outcome) {
        LotEstimate lot = ESTIMATOR.estimateLot(batch.carcasses());
        Map<String, Double> kg = kg(outcome);
        kg.replaceAll((cut, whole) ->
                whole * lot.part(CarcassPart.forequarters(QUARTERING)).kg(LEVEL, cut) / lot.kg(LEVEL, cut));
        return kg;
    }

    /** Every run, all of them without a fault. */
    List<BoningRun> withoutFault() {
        return IntStream.range(0, RUNS).mapToObj(run -> bone(run, Fault.NONE)).toList();
    }

    /** A run with a fault: of the same carcasses, which give the same, on the same scales. */
    BoningRun bone(int run, Fault fault) {
        return new Boning(run, fault).make();
    }

    private static double tenths(double kg) {
        return Math.round(10 * kg) / 10.0;
    }

    /** One run. */
    private final class Boning {
        private final int run;
        private final Fault fault;
        private final SplittableRandom ofIntake;
        /** Of its own, so that other boxes leave the intake as it is. */
        private final SplittableRandom ofBoxes;

        private final double scale;
        private final List<Intake> intake = new ArrayList<>();
        private final List<Box> boxes = new ArrayList<>();
        private int mislabelled;

        Boning(int run, Fault fault) {
            this.run = run;
            this.fault = fault;
            this.ofIntake = new SplittableRandom(seed + run);
            this.ofBoxes = ofIntake.split();
            this.scale = fault == Fault.SCALE_DAYS || fault == Fault.SCALE_WEEK ? 0.99 : 1;
            this.mislabelled = fault == Fault.LABELS ? mislabelled() : 0;
        }

        BoningRun make() {
            double kept = 0.993 + 0.0008 * ofIntake.nextGaussian();
            Map<CutKind, Double> rest = new LinkedHashMap<>();
            List<Integer> mine = IntStream.range(0, batches.size())
                    .filter(i -> batches.get(i).run() == run)
                    .boxed()
                    .toList();
            for (int i : mine) {
                Batch batch = batches.get(i);
                double chilled = chilled(batch, kept);
                Map<String, Double> kg = new LinkedHashMap<>(given.get(i));
                if (fault == Fault.FOREQUARTERS && i == mine.get(mine.size() - 1)) {
                    fore.forEach((cut, more) -> kg.merge(cut, more, Double::sum));
                }
                kg.replaceAll((cut, one) -> chilled * one);
                if (fault == Fault.TOPSIDE_WEEK || fault == Fault.TOPSIDE_SEASON) {
                    double trimmed = 0.02 * of(kg, "topside-joint");
                    kg.merge("topside-joint", -trimmed, Double::sum);
                    kg.merge("lean-trim", trimmed, Double::sum);
                }
                CUTS.forEach(cut -> pack(batch.name(), cut, of(kg, cut.code())));
                CUTS.forEach(cut -> rest.merge(cut.kind(), of(kg, cut.code()), Double::sum));
            }
            return new BoningRun(
                    HALL,
                    days.get(run).toString(),
                    IntakeWeighing.COLD_WEIGHED,
                    intake,
                    boxes,
                    List.of(
                            Rest.of(RestKind.BONE, tenths(rest.getOrDefault(CutKind.BONE, 0.0))),
                            Rest.of(RestKind.FAT, tenths(rest.getOrDefault(CutKind.FAT_TRIM, 0.0))),
                            Rest.of(RestKind.FLOOR, tenths(0.2 * rest.getOrDefault(CutKind.LOSS, 0.0)))));
        }

        private static double of(Map<String, Double> kg, String cut) {
            return Objects.requireNonNull(kg.get(cut), cut);
        }

        /** Weighs the carcasses as they come to the line, and says how much of them is left. */
        private double chilled(Batch batch, double kept) {
            double cold = 0;
            double chilled = 0;
            for (Carcass carcass : batch.carcasses()) {
                double one = (kept + 0.001 * ofIntake.nextGaussian()) * carcass.coldWeightKg();
                cold += carcass.coldWeightKg();
                chilled += one;
                double shown = tenths(one + 0.1 * ofIntake.nextGaussian());
                intake.add(Intake.of(carcass, IntakePart.CARCASS, shown, Movement.BONED, batch.name()));
            }
            return chilled / cold;
        }

        private void pack(String batch, Cut cut, double kg) {
            if (!isPacked(cut.kind())) {
                return;
            }
            boolean bin = cut.kind() == CutKind.DICE || cut.kind() == CutKind.LEAN_TRIM;
            double tare = bin ? 32.5 : 0.48;
            for (double left = kg; left > 0; ) {
                double full = (bin ? 240 : 22) * (1 + 0.02 * ofBoxes.nextGaussian());
                // the last kilogram still goes in
                double net = left < full + 1 ? left : full;
                left -= net;
                String label = code(cut.code());
                if (mislabelled > 0 && label.equals("STRIPLOIN")) {
                    label = "FILLET";
                    mislabelled--;
                }
                double shown = scale * (net + tare) + 0.01 * ofBoxes.nextGaussian();
                boxes.add(Box.of(run + "-" + boxes.size(), label, batch, Math.round(100 * shown) / 100.0, tare));
            }
        }
    }
}
