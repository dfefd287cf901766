package org.beefyield.data.samples;

import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.boning.BoningRunWriter;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;

/**
 * Writes a season of the invented Tarrowmere hall: 60 runs of 20 carcasses, with four faults in it. Carcasses return what the shipped
 * table expects, with errors of each carcass and lot as the table
 * states them and one of each run; all of that is invented. The same seed gives the same bytes
 * everywhere.
 *
 * <p>To write the files anew, run {@link #main(String[])} with the folder {@code yield-data/examples/season}.
 */
public final class TarrowmereSeason {
    /** Name of the hall. */
    public static final String HALL = "Tarrowmere";

    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification("steaks"));
    private static final String LEVEL = "retail";
    private static final String QUARTERING = TABLE.quarterings().iterator().next();

    private static final long SEED = 20_260_105;
    private static final int RUNS = 60;
    private static final int LOTS = 2;
    private static final int CARCASSES_OF_LOT = 10;
    /** Of what a cut weighs. */
    private static final double RUN_SD = 0.005;

    private static final int CLOSING_STEPS = 50;

    /** Of the variance of all: the largest error is no larger than all others together. */
    private static final double MOST = 0.5;

    private static final List<String> FARMS =
            List.of("Tarrow Bridge", "Mere End", "Highfold", "Lowfold", "Withy Farm", "Stonegate");

    /** Number of the first and the last run of each fault, from 0. */
    static final int[] TOPSIDE = {30, 34};

    static final int[] SCALE = {42, 44};
    static final int[] LABELS = {50, 50};
    static final int[] FOREQUARTERS = {55, 55};

    private final Random random;

    private TarrowmereSeason(long seed) {
        this.random = new Random(seed);
    }

    /**
     * Writes the files.
     *
     * @param arguments the folder
     */
    public static void main(String[] arguments) {
        BoningRunWriter.write(runs(), products(), Path.of(arguments[0]));
    }

    /** The season with its faults. */
    static List<BoningRun> runs() {
        return new TarrowmereSeason(SEED).make();
    }

    /** A product for each cut that comes off and is no bone, fat trim or loss. */
    static List<Product> products() {
        return ESTIMATOR.yields(LEVEL).stream()
                .filter(cut -> isPacked(cut.kind()))
                .map(cut -> Product.of(code(cut.code()), cut.name(), cut.code()))
                .toList();
    }

    private static boolean isPacked(CutKind kind) {
        return kind != CutKind.BONE && kind != CutKind.FAT_TRIM && kind != CutKind.LOSS;
    }

    private static String code(String cut) {
        return cut.replaceAll("-(steak|joint)$", "").toUpperCase(Locale.ROOT);
    }

    private List<BoningRun> make() {
        List<BoningRun> runs = new ArrayList<>();
        LocalDate day = LocalDate.of(2026, 1, 5);
        for (int run = 0; run < RUNS; run++) {
            runs.add(run(run, day));
            day = day.plusDays(day.getDayOfWeek() == DayOfWeek.FRIDAY ? 3 : 1);
        }
        return runs;
    }

    private static boolean has(int[] fault, int run) {
        return run >= fault[0] && run <= fault[1];
    }

    private BoningRun run(int run, LocalDate day) {
        Map<String, Double> ofRun = new LinkedHashMap<>();
        ESTIMATOR.yields(LEVEL).forEach(cut -> ofRun.put(cut.code(), random.nextGaussian()));
        double chilled = 0.993 + 0.0008 * random.nextGaussian();
        List<Intake> intake = new ArrayList<>();
        List<Box> boxes = new ArrayList<>();
        Map<CutKind, Double> rest = new LinkedHashMap<>();
        for (int lot = 1; lot <= LOTS; lot++) {
            Map<String, Double> kg = new LinkedHashMap<>();
            String farm = FARMS.get(random.nextInt(FARMS.size()));
            Map<String, Double> ofLot = new LinkedHashMap<>();
            ESTIMATOR.yields(LEVEL).forEach(cut -> ofLot.put(cut.code(), random.nextGaussian()));
            List<Carcass> carcasses = new ArrayList<>();
            for (int i = 0; i < CARCASSES_OF_LOT; i++) {
                String id = String.format(Locale.ROOT, "TS-%02d%d%02d", run + 1, lot, i + 1);
                Carcass carcass = steer().withId(id)
                        .withHall(HALL)
                        .withSupplier(farm)
                        .withLot("L" + lot)
                        .withKillDate(day.minusDays(2).toString());
                carcasses.add(carcass);
                intake.add(Intake.of(
                        carcass,
                        IntakePart.CARCASS,
                        Math.round(10 * chilled * carcass.coldWeightKg()) / 10.0,
                        Movement.BONED,
                        batch(run, lot)));
                add(kg, boned(ESTIMATOR.estimate(carcass), ofLot, ofRun, chilled));
            }
            if (has(FOREQUARTERS, run) && lot == LOTS) {
                LotEstimate others = ESTIMATOR.estimateLot(carcasses.subList(0, 4));
                Outturn fore = others.part(CarcassPart.forequarters(QUARTERING));
                Map<String, Double> more = new LinkedHashMap<>();
                kg.keySet().forEach(cut -> more.put(cut, fore.kg(LEVEL, cut)));
                add(kg, more);
            }
            if (has(TOPSIDE, run)) {
                double trimmed = 0.02 * kg.get("topside-joint");
                kg.merge("topside-joint", -trimmed, Double::sum);
                kg.merge("lean-trim", trimmed, Double::sum);
            }
            pack(run, lot, kg, boxes);
            for (Cut cut : ESTIMATOR.yields(LEVEL)) {
                if (!isPacked(cut.kind())) {
                    rest.merge(cut.kind(), kg.getOrDefault(cut.code(), 0.0), Double::sum);
                }
            }
        }
        return new BoningRun(
                HALL,
                day.toString(),
                IntakeWeighing.COLD_WEIGHED,
                intake,
                boxes,
                List.of(
                        Rest.of(RestKind.BONE, tenths(rest.get(CutKind.BONE))),
                        Rest.of(RestKind.FAT, tenths(rest.get(CutKind.FAT_TRIM))),
                        Rest.of(RestKind.FLOOR, tenths(0.2 * rest.get(CutKind.LOSS)))));
    }

    private static String batch(int run, int lot) {
        return String.format(Locale.ROOT, "R%02d-%d", run + 1, lot);
    }

    private static double tenths(double kg) {
        return Math.round(10 * kg) / 10.0;
    }

    private static void add(Map<String, Double> sum, Map<String, Double> more) {
        more.forEach((cut, kg) -> sum.merge(cut, kg, Double::sum));
    }

    private Carcass steer() {
        double kg = Math.round(10 * (345 + 28 * random.nextGaussian())) / 10.0;
        int conformation = (int) Math.max(3, Math.min(13, Math.round(8 + 1.8 * random.nextGaussian())));
        int fat = (int) Math.max(3, Math.min(12, Math.round(7.5 + 1.6 * random.nextGaussian())));
        return Carcass.of(
                Category.STEER,
                Conformation.third(conformation),
                FatClass.third(fat),
                Math.max(260, Math.min(430, kg)));
    }

    /** What a carcass gives: as expected, with errors of its own, of its lot and of the run, and as much in all as was hung. */
    private Map<String, Double> boned(
            YieldEstimate estimate, Map<String, Double> ofLot, Map<String, Double> ofRun, double chilled) {
        List<Cut> cuts = ESTIMATOR.yields(LEVEL);
        double[] kg =
                cuts.stream().mapToDouble(cut -> estimate.kg(LEVEL, cut.code())).toArray();
        double[] own = errors(
                sds(estimate, UncertaintyPart.BETWEEN_CARCASSES),
                cuts.stream().mapToDouble(cut -> random.nextGaussian()).toArray());
        double[] lot = errors(
                sds(estimate, UncertaintyPart.LOT),
                cuts.stream().mapToDouble(cut -> ofLot.get(cut.code())).toArray());
        double[] run = errors(
                Arrays.stream(kg).map(one -> RUN_SD * one).toArray(),
                cuts.stream().mapToDouble(cut -> ofRun.get(cut.code())).toArray());
        Map<String, Double> given = new LinkedHashMap<>();
        for (int i = 0; i < kg.length; i++) {
            given.put(cuts.get(i).code(), Math.max(0, chilled * (kg[i] + own[i] + lot[i] + run[i])));
        }
        return given;
    }

    private static double[] sds(YieldEstimate estimate, UncertaintyPart part) {
        return ESTIMATOR.yields(LEVEL).stream()
                .mapToDouble(cut -> estimate.sd(Figure.cut(LEVEL, cut.code()), part))
                .toArray();
    }

    /** Errors with these SDs that add up to 0: independent ones, less what they come to, shared out by their variances. */
    private static double[] errors(double[] sds, double[] normals) {
        double[] variances = Arrays.stream(sds).map(sd -> sd * sd).toArray();
        double[] apart = variances.clone();
        for (int step = 0; step < CLOSING_STEPS; step++) {
            double all = Arrays.stream(apart).sum();
            for (int i = 0; i < apart.length; i++) {
                apart[i] = variances[i] / (1 - Math.min(MOST, apart[i] / all));
            }
        }
        double all = Arrays.stream(apart).sum();
        double sum = 0;
        for (int i = 0; i < apart.length; i++) {
            sum += Math.sqrt(apart[i]) * normals[i];
        }
        double[] errors = new double[apart.length];
        for (int i = 0; i < apart.length; i++) {
            errors[i] = Math.sqrt(apart[i]) * normals[i] - apart[i] / all * sum;
        }
        return errors;
    }

    private void pack(int run, int lot, Map<String, Double> kg, List<Box> boxes) {
        double scale = has(SCALE, run) ? 0.99 : 1;
        int mislabelled = 0;
        for (Cut cut : ESTIMATOR.yields(LEVEL)) {
            if (!isPacked(cut.kind())) {
                continue;
            }
            boolean bin = cut.kind() == CutKind.DICE || cut.kind() == CutKind.LEAN_TRIM;
            double tare = bin ? 32.5 : 0.48;
            double size = bin ? 240 : 22;
            double left = kg.getOrDefault(cut.code(), 0.0);
            while (left > 0.05) {
                double net = Math.min(left, size * (1 + 0.02 * random.nextGaussian()));
                left -= net;
                String product = code(cut.code());
                if (has(LABELS, run) && lot == 1 && product.equals("STRIPLOIN") && mislabelled < 2) {
                    product = "FILLET";
                    mislabelled++;
                }
                double gross = Math.round(100 * (scale * net + tare)) / 100.0;
                String id = String.format(Locale.ROOT, "%02d%04d", run + 1, boxes.size() + 1);
                boxes.add(Box.of(id, product, batch(run, lot), gross, tare));
            }
        }
    }
}
