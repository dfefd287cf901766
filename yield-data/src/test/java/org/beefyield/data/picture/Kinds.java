package org.beefyield.data.picture;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.beefyield.boning.Product;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.boning.BoningRunReader;
import org.beefyield.data.boning.ProductReader;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.finish.HoldingReader;
import org.beefyield.data.finish.PenReader;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.Frames;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.frame.Frame;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.Planner;
import org.beefyield.price.Attribution;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;

/** Every kind of picture of one carcass, or of a herd of so many, all of it invented. */
final class Kinds {
    static final List<Integer> SIZES = List.of(1, 200, 5_000);

    static final YieldTable TABLE = ShippedTables.boneless2026();
    static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(TABLE).withSpecification("steaks").with(MinceTarget.fatPercent(15));
    static final Valuer VALUER = Valuer.of(PriceListReader.read(Path.of("examples/tarrowmere-prices.csv")), ESTIMATOR);
    static final Calibrated CALIBRATED = Calibration.of(TrialSet.of(
                    TABLE,
                    TrialReader.read(Path.of("examples/tarrowmere-trials.csv"), TABLE)
                            .trials()))
            .fit();
    static final YieldEstimator HALL = YieldEstimator.of(CALIBRATED.table("hall", "1"))
            .withSpecification("steaks")
            .with(MinceTarget.fatPercent(15));
    static final List<Product> PRODUCTS = ProductReader.read(Path.of("examples/season/products.csv"), TABLE);
    static final Season SEASON = Season.of(
            BoningRunReader.read(
                            Path.of("examples/season/intake.csv"),
                            Path.of("examples/season/boxes.csv"),
                            Path.of("examples/season/rest.csv"),
                            PRODUCTS)
                    .runs(),
            Valuer.of(PriceListReader.read(Path.of("examples/tarrowmere-prices.csv")), YieldEstimator.of(TABLE)),
            PRODUCTS);
    static final SizeWindow WINDOW = new SizeWindow("striploin", "steaks", 5.5, 8, "joints");
    static final LocalDate START = LocalDate.of(2025, 11, 3);

    /** A day on which all is cut as steaks, so that orders of joints are short. */
    static final Plan PLAN = Planner.builder(
                    YieldEstimator.of(TABLE).withSpecification("steaks"), VALUER.prices(), OjAlgoSolver.create())
            .orders(List.of(
                    Order.builder("T-1", "striploin-steak")
                            .customer("Mere Street Butchers")
                            .kg(200, 500)
                            .price(23)
                            .penalty(3)
                            .build(),
                    Order.builder("T-2", "striploin-joint")
                            .kg(150, 200)
                            .price(12)
                            .penalty(2)
                            .build(),
                    Order.builder("T-3", "dice")
                            .customer("Long Lane Kitchens")
                            .kg(2000, 4000)
                            .price(9)
                            .penalty(1)
                            .build(),
                    Order.mince("T-4", 10).kg(0, 300).price(7).build()))
            .freedom(PlanFreedom.FIXED)
            .build()
            .plan(herd(40, 40));

    private Kinds() {}

    static List<Carcass> herd(int size, long seed) {
        if (size == 1) {
            return List.of(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                    .withId("T1"));
        }
        Random random = new Random(seed);
        List<Category> categories = List.of(Category.STEER, Category.HEIFER, Category.COW, Category.YOUNG_BULL);
        List<Carcass> herd = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            int conformation = (int) Math.max(1, Math.min(18, Math.round(8 + 2.6 * random.nextGaussian())));
            int fat = (int) Math.max(1, Math.min(15, Math.round(8 + 2.2 * random.nextGaussian())));
            double kg = 330 + 10 * (conformation - 8) + 35 * random.nextGaussian();
            herd.add(Carcass.of(
                            categories.get(random.nextInt(categories.size())),
                            Conformation.third(conformation),
                            FatClass.third(fat),
                            Math.round(10 * Math.max(180, Math.min(560, kg))) / 10.0)
                    .withId("T" + (i + 1)));
        }
        return herd;
    }

    static Attribution attribution(int size) {
        if (size == 1) {
            Carcass other = Carcass.of(Category.HEIFER, Conformation.parse("O+"), FatClass.parse("4="), 301);
            return Attribution.of(
                    VALUER.value(ESTIMATOR.estimate(herd(1, 1).get(0))), VALUER.value(ESTIMATOR.estimate(other)));
        }
        return Attribution.of(
                VALUER.value(ESTIMATOR.estimateLot(herd(size, size))),
                VALUER.value(ESTIMATOR.estimateLot(herd(size / 2, size + 7))));
    }

    static List<ControlPoint> series(int size) {
        Random random = new Random(5);
        return IntStream.range(0, size)
                .mapToObj(i -> {
                    double value = i % 37 == 20 ? Double.NaN : 12.5 + 0.4 * random.nextGaussian();
                    return new ControlPoint(START.plusDays(i), value, 11.5, 13.5, value < 11.5 || value > 13.5);
                })
                .toList();
    }

    /** Of one farm, beside animals of two others. */
    private static FeedbackSheet sheet(List<Carcass> herd) {
        FeedbackSheets.Collector sheets = FeedbackSheets.builder(ESTIMATOR).collector();
        herd.forEach(carcass -> sheets.add(carcass.withSupplier("Mere End")));
        for (int i = 0; i < 12; i++) {
            sheets.add(herd.get(i % herd.size()).withSupplier(i % 2 == 0 ? "Long Tarrow" : "Tarrow Bridge"));
        }
        return sheets.result().sheet("Mere End");
    }

    static final List<Double> PARTS = List.of(0.05, 0.25, 0.5, 0.75, 0.95);

    static List<FanDay> fan(int size) {
        return IntStream.range(0, size)
                .mapToObj(i -> {
                    double middle = 2100 + 400 * Math.sin(3.0 * i / size);
                    double sd = 20 + 5 * Math.sqrt(i);
                    return new FanDay(
                            START.plusDays(i),
                            List.of(
                                    middle - 1.645 * sd,
                                    middle - 0.674 * sd,
                                    middle,
                                    middle + 0.674 * sd,
                                    middle + 1.645 * sd));
                })
                .toList();
    }

    private static final int MOST_ANIMALS = 3;
    private static final HoldOrSell HOLD_OR_SELL = HoldOrSell.builder(
                    PaymentGridReader.read(Path.of("examples/tarrowmere-grid.csv")))
            .market(MarketSpecificationReader.read(Path.of("examples/tarrowmere-market.csv"))
                    .get(0))
            .costs(HoldingReader.read(Path.of("examples/tarrowmere-costs.csv")).costs())
            .days(60)
            .build();

    private static List<FinishAnimal> animals(int size) {
        return PenReader.read(Path.of("examples/tarrowmere-pen.csv"), DayCurve.constant(1.3), LocalDate.of(2026, 11, 3))
                .animals()
                .subList(0, size);
    }

    static Map<String, Picture> of(int size) {
        List<Carcass> herd = herd(size, size);
        List<YieldEstimate> estimates = herd.stream().map(ESTIMATOR::estimate).toList();
        LotEstimate lot = ESTIMATOR.estimateLot(herd);
        Outturn outturn = size == 1 ? estimates.get(0) : lot;
        Carcass base = herd.get(0);
        GradeDifferentials differentials = GradeDifferentials.classes(VALUER, base);
        Frame frame = Frames.wide(estimates);
        Map<String, Picture> kinds = new LinkedHashMap<>();
        kinds.put("yield by grade", Pictures.yieldByGrade(ESTIMATOR, base));
        kinds.put(
                "money by grade",
                Pictures.yieldByGrade(
                        ESTIMATOR, base, VALUER.value(ESTIMATOR.estimate(base)).figure(), "Value", "EUR a head"));
        kinds.put("breakdown", Pictures.breakdown(outturn));
        kinds.put("intervals", Pictures.intervals(outturn));
        kinds.put("intervals of primals", Pictures.intervals(outturn, "primal"));
        kinds.put("value by grade", Pictures.valueByGrade(differentials));
        kinds.put(
                "payment gap",
                Pictures.paymentGap(
                        differentials.beside(PaymentGridReader.read(Path.of("examples/tarrowmere-grid.csv")))));
        kinds.put("tables", Pictures.comparison(TableComparison.of(TABLE, HALL.table()), 5));
        kinds.put("two tables on a lot", Pictures.comparison(lot, HALL.estimateLot(herd)));
        kinds.put("attribution", Pictures.attribution(attribution(size)));
        kinds.put(
                "scatter", Pictures.scatter("Striploin steak by cold weight", frame, "cold weight", "striploin-steak"));
        kinds.put(
                "piece weights",
                Pictures.pieceWeights(
                        WINDOW,
                        estimates.stream()
                                .map(estimate -> PieceWeight.of(estimate, "striploin"))
                                .toList()));
        kinds.put("grade counts", Pictures.gradeCounts(lot));
        kinds.put("beside the hall", Pictures.besideHall(sheet(herd)));
        kinds.put("series", Pictures.series("Striploin of each run", "Striploin, kg a head", series(size)));
        kinds.put("runs of a group", Pictures.series(SEASON, "Fillet steak"));
        kinds.put("losses of runs", Pictures.series(SEASON, Reconciliation.LOSSES));
        kinds.put("money of a run", Pictures.causes(SEASON.runs().get(59)));
        kinds.put("fan", Pictures.fan("Value by day", "Value, EUR a head", PARTS, fan(size)));
        kinds.put(
                "sale of an animal",
                Pictures.saleDays(HOLD_OR_SELL.forecast(animals(1).get(0))));
        kinds.put("sale of a pen", Pictures.saleDays(HOLD_OR_SELL.pen(animals(Math.min(size, MOST_ANIMALS)))));
        kinds.put("orders", Pictures.orders(PLAN));
        kinds.put("calibration", Pictures.calibration(CALIBRATED.fit("meat")));
        kinds.put("residuals", Pictures.residuals(CALIBRATED.fit("carcass"), "bone"));
        return kinds;
    }
}
