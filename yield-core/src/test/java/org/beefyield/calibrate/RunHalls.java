package org.beefyield.calibrate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableRange;

/** An invented hall, drawn by the SDs of an invented table, and what it bones. Shares are reckoned here by the table's rows. */
final class RunHalls {
    /** Of few grades, so that a table is proved soon. */
    static final TableRange NARROW = TestTables.range(4, 12, 4, 12, 270, 410);

    static final YieldTable TABLE = YieldTable.of(TestTables.share(
                    TestTables.threeLevels(),
                    row -> new SharedSds(row.sdGPerKg() / 4, row.sdGPerKg() / 5, row.sdGPerKg() / 1.5))
            .ranges(NARROW, NARROW)
            .build());
    static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification("steaks"));

    static final List<Product> PRODUCTS = List.of(
            Product.of("SL", "Striploin steak", "striploin-steak"),
            Product.of("RS", "Rump steak", "rump-steak"),
            Product.of("BJ", "Brisket joint", "brisket-joint"),
            Product.of("DI", "Dice", "dice"),
            Product.of("LT", "Lean trim", "lean-trim"));

    private static final LocalDate FIRST = LocalDate.of(2026, 3, 2);
    private static final List<String> PARENTS = List.of("carcass", "meat", "striploin", "rump", "chuck", "brisket");
    private static final Map<String, String> WAYS = Map.of("striploin", "steaks", "rump", "steaks", "chuck", "dice");

    private final Random random;
    private final Map<String, double[]> ofHall = new HashMap<>();
    private final boolean errs;
    private double runTimes = 1;

    /**
     * A hall.
     *
     * @param errs whether runs and carcasses differ by chance
     */
    RunHalls(long seed, boolean errs) {
        this.random = new Random(seed);
        this.errs = errs;
        PARENTS.forEach(parent -> ofHall.put(parent, closed(parent, SharedBy.HALL)));
    }

    private static final Map<String, List<BreakdownRow>> ROWS = new HashMap<>();

    static {
        PARENTS.forEach(parent -> ROWS.put(parent, found(parent)));
    }

    static List<BreakdownRow> rows(String parent) {
        return Objects.requireNonNull(ROWS.get(parent), parent);
    }

    private static List<BreakdownRow> found(String parent) {
        String way = WAYS.getOrDefault(parent, "*");
        return TABLE.definition().breakdown().stream()
                .filter(row -> row.parent().equals(parent)
                        && row.way().equals(way)
                        && row.category().equals("*"))
                .toList();
    }

    /** Errors that add up to 0, of about the stated SDs. */
    private double[] closed(String parent, SharedBy by) {
        List<BreakdownRow> rows = rows(parent);
        double[] sds = rows.stream()
                .mapToDouble(row -> by == SharedBy.LOT
                        ? row.sdGPerKg()
                        : Objects.requireNonNull(row.shared().of(by)))
                .toArray();
        double[] errors = new double[sds.length];
        double sum = 0;
        double squares = 0;
        for (int k = 0; k < sds.length; k++) {
            errors[k] = sds[k] * random.nextGaussian();
            sum += errors[k];
            squares += sds[k] * sds[k];
        }
        for (int k = 0; k < sds.length && squares > 0; k++) {
            errors[k] -= sum * sds[k] * sds[k] / squares;
        }
        return errors;
    }

    /** Makes the hall take so many g/kg more of a child, and less of another. */
    RunHalls with(String parent, String more, String less, double gPerKg) {
        List<BreakdownRow> rows = rows(parent);
        double[] of = Objects.requireNonNull(ofHall.get(parent));
        for (int k = 0; k < of.length; k++) {
            of[k] += rows.get(k).cut().equals(more) ? gPerKg : rows.get(k).cut().equals(less) ? -gPerKg : 0;
        }
        return this;
    }

    /** Makes runs differ so many times as much. */
    RunHalls withRuns(double times) {
        runTimes = times;
        return this;
    }

    Carcass carcass(String id) {
        return Carcass.of(
                        Category.STEER,
                        Conformation.third(5 + random.nextInt(7)),
                        FatClass.third(5 + random.nextInt(7)),
                        Math.rint(2800 + 1200 * random.nextDouble()) / 10)
                .withId(id)
                .withLot(id);
    }

    /** g per kg of carcass by cut, of all levels; of the run and its own if it errs. */
    private Map<String, Double> shares(Carcass carcass, Map<String, double[]> ofRun, boolean own) {
        double c = carcass.conformation().position() - 8;
        double f = carcass.fatClass().position() - 8;
        double w = (carcass.coldWeightKg() - 340) / 100;
        double[] x = {1, c, f, w, 0, 0, c * f, f * w};
        Map<String, Double> all = new LinkedHashMap<>(Map.of("carcass", 1000.0));
        for (String parent : PARENTS) {
            double[] hall = Objects.requireNonNull(ofHall.get(parent));
            double[] run = ofRun.get(parent);
            double[] mine = own ? closed(parent, SharedBy.LOT) : new double[hall.length];
            List<BreakdownRow> rows = rows(parent);
            for (int k = 0; k < hall.length; k++) {
                BreakdownRow row = rows.get(k);
                double share = hall[k] + mine[k] + (run == null ? 0 : run[k]);
                for (int j = 0; j < x.length; j++) {
                    share += x[j] * row.coefficients().get(j);
                }
                double ofCarcass = of(all, parent) * share / 1000;
                all.put(parent + " > " + row.cut(), ofCarcass);
                all.merge(row.cut(), ofCarcass, Double::sum);
            }
        }
        return all;
    }

    /** What the hall returns on average, g per kg of carcass by cut. */
    Map<String, Double> truth(Carcass carcass) {
        return shares(carcass, Map.of(), false);
    }

    private Map<String, double[]> drawnRun() {
        Map<String, double[]> ofRun = new HashMap<>();
        if (errs) {
            PARENTS.forEach(parent -> ofRun.put(
                    parent,
                    Arrays.stream(closed(parent, SharedBy.RUN))
                            .map(error -> runTimes * error)
                            .toArray()));
        }
        return ofRun;
    }

    /** Runs one a day. */
    List<BoningRun> runs(int first, int count, int carcasses, boolean withBone) {
        List<BoningRun> runs = new ArrayList<>();
        for (int day = first; day < first + count; day++) {
            Map<String, double[]> ofRun = drawnRun();
            List<Intake> intake = new ArrayList<>();
            Map<String, Double> kg = new LinkedHashMap<>();
            for (int i = 0; i < carcasses; i++) {
                Carcass carcass = carcass(day + "-" + i).withLot("L" + day + "-" + i / 8);
                intake.add(Intake.of(carcass, IntakePart.CARCASS, carcass.coldWeightKg(), Movement.BONED, ""));
                shares(carcass, ofRun, errs)
                        .forEach((cut, share) -> kg.merge(cut, share * carcass.coldWeightKg() / 1000, Double::sum));
            }
            runs.add(run(day, intake, kg, withBone));
        }
        return runs;
    }

    static BoningRun run(int day, List<Intake> intake, Map<String, Double> kg, boolean withBone) {
        List<Box> boxes = PRODUCTS.stream()
                .map(product -> Box.of(
                        day + "-" + product.code(),
                        product.code(),
                        "",
                        of(kg, product.cuts().keySet().iterator().next()),
                        0))
                .toList();
        List<Rest> rest = withBone
                ? List.of(Rest.of(RestKind.BONE, of(kg, "bone")), Rest.of(RestKind.FAT, of(kg, "fat-trim")))
                : List.of(Rest.of(RestKind.WASTE, of(kg, "bone") + of(kg, "fat-trim")));
        return new BoningRun(
                "Mereside", FIRST.plusDays(day).toString(), IntakeWeighing.COLD_WEIGHED, intake, boxes, rest);
    }

    static double of(Map<String, Double> kg, String cut) {
        return Objects.requireNonNull(kg.get(cut), cut);
    }

    /** Trials on days of three: meat, fat trim and bone. */
    List<Trial> trials(int days) {
        List<Trial> trials = new ArrayList<>();
        for (int day = 0; day < days; day++) {
            Map<String, double[]> ofRun = drawnRun();
            for (int i = 0; i < 3; i++) {
                Carcass carcass = carcass("T" + day + "-" + i);
                Map<String, Double> shares = shares(carcass, ofRun, errs);
                Map<String, Double> kg = new LinkedHashMap<>();
                for (String cut : List.of("meat", "fat-trim", "bone")) {
                    kg.put(cut, of(shares, "carcass > " + cut) * carcass.coldWeightKg() / 1000);
                }
                trials.add(Trial.of(carcass, kg).withDay("2026-02-" + (10 + day)));
            }
        }
        return trials;
    }
}
