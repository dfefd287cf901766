package org.beefyield.benchmarks.finish;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.DrawnCarcass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.finish.Age;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.Feed;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.FinishDay;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.finish.HoldingCosts;
import org.beefyield.finish.NetEnergy;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;

/**
 * How often intervals of what animals near finish leave hold animals that are drawn by code of its own: {@code benchmarks/finish}.
 * All animals, prices and costs are invented; killing-out errs by SDs of 1.6 to 2.2 %, gain by 0.27 and 0.43 kg a day, grades by
 * half a point to a point and a half.
 */
public final class FinishStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_130;

    /** Days on which intervals are looked at. */
    static final List<Integer> DAYS = List.of(0, 14, 42, 84);

    /** Animals drawn for the committed results. */
    static final int DRAWS = 20_000;

    private static final int DRAWN_CARCASSES = 5_000;
    private static final double BONUS = 0.2;

    private FinishStudy() {}

    /**
     * Animals of one kind.
     *
     * @param name what they are
     * @param category category
     * @param liveKg live weight
     * @param weightSd SD of it
     * @param killingOut killing-out
     * @param killingOutSd SD of it
     * @param gain kg a day today
     * @param slows by how much that falls a day
     * @param gainSd SD of the gain
     * @param conformation position
     * @param fat position
     * @param gradeSd SD of both
     * @param byEnergy whether feed is counted by energy
     */
    record Situation(
            String name,
            Category category,
            double liveKg,
            double weightSd,
            double killingOut,
            double killingOutSd,
            double gain,
            double slows,
            double gainSd,
            double conformation,
            double fat,
            double gradeSd,
            boolean byEnergy) {}

    static List<Situation> situations() {
        return List.of(
                new Situation(
                        "steers, killing-out SD 1.6 %",
                        Category.STEER, 640, 0, 0.55, 0.016, 1.4, 0.004, 0.27, 8, 8, 1, true),
                new Situation(
                        "steers, killing-out SD 1.9 %",
                        Category.STEER, 640, 0, 0.55, 0.019, 1.4, 0.004, 0.27, 8, 8, 1, true),
                new Situation(
                        "steers, killing-out SD 2.2 %",
                        Category.STEER, 640, 0, 0.55, 0.022, 1.4, 0.004, 0.27, 8, 8, 1, true),
                new Situation(
                        "steers weighed by tape",
                        Category.STEER,
                        640,
                        25,
                        0.55,
                        0.019,
                        1.4,
                        0.004,
                        0.27,
                        8,
                        8,
                        1,
                        true),
                new Situation(
                        "suckler bulls, gain SD 0.43",
                        Category.YOUNG_BULL,
                        620,
                        0,
                        0.58,
                        0.019,
                        1.7,
                        0,
                        0.43,
                        11,
                        6,
                        1,
                        true),
                new Situation("light heifers", Category.HEIFER, 470, 0, 0.52, 0.019, 1.1, 0, 0.27, 7, 7, 0.5, false),
                new Situation("fat cows", Category.COW, 690, 0, 0.50, 0.022, 0.8, 0.01, 0.27, 5, 12, 1.5, false),
                new Situation("steers, feed by kg", Category.STEER, 560, 0, 0.54, 0.019, 1.2, 0, 0.27, 6, 7, 1, false));
    }

    /**
     * Runs all of it.
     *
     * @param args the files of results
     * @throws IOException if one can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<String> lines = new ArrayList<>(
                List.of("situation,day,figure,value,standard_error,demanded_low,demanded_high,draws,seed"));
        for (Situation situation : situations()) {
            for (int day : DAYS) {
                for (Finding finding : coverage(situation, day, DRAWS, SEED)) {
                    lines.add(finding.line());
                    out.println(finding.line());
                }
            }
        }
        for (Situation situation :
                List.of(situations().get(1), situations().get(4), situations().get(5))) {
            for (int day : DAYS) {
                Finding finding = worth(situation, day, DRAWN_CARCASSES, SEED);
                lines.add(finding.line());
                out.println(finding.line());
            }
        }
        Files.write(Path.of(args[0]), lines);
        List<String> published = Stream.concat(
                        Stream.of(Published.HEADER), Published.rows().stream().map(Published::line))
                .toList();
        published.forEach(out::println);
        Files.write(Path.of(args[1]), published);
    }

    /**
     * What was counted.
     *
     * @param situation animals
     * @param day day of sale
     * @param figure what was counted
     * @param value what came out
     * @param standardError by chance
     * @param low least that is demanded
     * @param high most that is demanded
     * @param draws animals drawn
     * @param seed of the generator
     */
    record Finding(
            String situation,
            int day,
            String figure,
            double value,
            double standardError,
            double low,
            double high,
            int draws,
            long seed) {
        boolean holds() {
            return value >= low && value <= high;
        }

        String line() {
            return String.format(
                    Locale.ROOT,
                    "\"%s\",%d,\"%s\",%.4f,%.4f,%.4f,%.4f,%d,%d",
                    situation,
                    day,
                    figure,
                    value,
                    standardError,
                    low,
                    high,
                    draws,
                    seed);
        }
    }

    private static final NetEnergy.Diet DIET = new NetEnergy.Diet(75, NetEnergy.USUAL_GROSS_MJ_PER_KG, 650, 0);
    private static final double PRICE_BY_ENERGY = 0.28;
    private static final double KG_A_DAY = 10;
    private static final double PRICE_BY_KG = 0.25;
    private static final double YARDAGE = 0.8;

    private static PaymentGrid grid() {
        return PaymentGrid.builder("EUR")
                .base(null, 5.5)
                .grade(null, null, null, 0)
                .grade(null, null, FatClass.parse("4"), -0.3)
                .grade(null, null, FatClass.parse("5"), -0.8)
                .weight(null, 400.0, null, -0.2)
                .inSpecification(null, BONUS)
                .build();
    }

    private static MarketSpecification market() {
        return MarketSpecification.builder("study")
                .coldWeightKg(270, 380)
                .conformation(Conformation.parse("O="), null)
                .fatClass(FatClass.parse("2+"), FatClass.parse("4="))
                .underMonths(30)
                .build();
    }

    private static HoldOrSell.Builder decides(Situation situation) {
        return HoldOrSell.builder(grid())
                .market(market())
                .costs(HoldingCosts.builder()
                        .feed(
                                situation.byEnergy
                                        ? Feed.byEnergy(DIET, PRICE_BY_ENERGY)
                                        : Feed.kgPerDay(KG_A_DAY, PRICE_BY_KG))
                        .yardagePerDay(YARDAGE)
                        .build());
    }

    private static FinishAnimal animal(Situation situation) {
        return FinishAnimal.ofLiveKg(
                        situation.category,
                        Conformation.ofPosition(situation.conformation, 1),
                        FatClass.ofPosition(situation.fat, 1),
                        situation.liveKg,
                        DayCurve.falling(situation.gain, situation.slows))
                .withAge(Age.months(situation.category == Category.YOUNG_BULL ? 17 : 26))
                .withWeightSdKg(situation.weightSd)
                .withKillingOut(situation.killingOut)
                .withKillingOutSd(situation.killingOutSd)
                .withGainSd(situation.gainSd)
                .withGradeSd(situation.gradeSd, situation.gradeSd);
    }

    /** An animal of the study's own. */
    private static final class Drawn {
        final double live;
        final double cold;
        final double error;
        final double conformation;
        final double fat;
        final double fatPerDay;
        final Situation of;

        Drawn(Situation of, Random random) {
            this.of = of;
            live = of.liveKg + of.weightSd * random.nextGaussian();
            cold = live * (of.killingOut + of.killingOutSd * random.nextGaussian());
            error = of.gainSd * random.nextGaussian();
            conformation = of.conformation + of.gradeSd * random.nextGaussian();
            fat = of.fat + of.gradeSd * random.nextGaussian();
            fatPerDay = 0.0365 + 0.012 * random.nextGaussian();
        }

        double gained(double day) {
            double stops = of.slows == 0 ? Double.POSITIVE_INFINITY : of.gain / of.slows;
            double until = Math.min(day, stops);
            return of.gain * until - of.slows * until * until / 2 + error * day;
        }

        double coldKg(int day) {
            return cold + 0.66 * gained(day);
        }

        double conformation(int day) {
            return conformation + 0.018 * 0.66 * gained(day);
        }

        double fat(int day) {
            return fat + fatPerDay * day;
        }

        double pays(int day) {
            double kg = coldKg(day);
            int fatThird = third(fat(day), 15);
            double perKg = 5.5 + (fatThird >= 13 ? -0.8 : fatThird >= 10 ? -0.3 : 0) + (kg >= 400 ? -0.2 : 0);
            return kg * (perKg + (isTaken(day) ? BONUS : 0));
        }

        boolean isTaken(int day) {
            double kg = coldKg(day);
            int fatThird = third(fat(day), 15);
            int months = (int) Math.floor((of.category == Category.YOUNG_BULL ? 17 : 26) + day / (365.25 / 12));
            return kg >= 270
                    && kg <= 380
                    && third(conformation(day), 18) >= 5
                    && fatThird >= 6
                    && fatThird <= 11
                    && months < 30;
        }

        double costs(int day) {
            double feed = 0;
            for (int t = 0; t < day; t++) {
                double weight = live + gained(t);
                double gain = gained(t + 1.0) - gained(t);
                feed += of.byEnergy
                        ? PRICE_BY_ENERGY * DIET.dryMatterKg(of.category, weight, gain)
                        : PRICE_BY_KG * KG_A_DAY;
            }
            return feed + YARDAGE * day;
        }

        private static int third(double position, int most) {
            return (int) Math.max(1, Math.min(most, Math.floor(position + 0.5)));
        }
    }

    /** How often intervals hold, and how far chances and means are off. */
    static List<Finding> coverage(Situation situation, int day, int draws, long seed) {
        FinishDay of =
                decides(situation).build().forecast(animal(situation)).days().get(day);
        Random random = new Random(seed + day);
        int net = 0;
        int more = 0;
        int better = 0;
        int taken = 0;
        for (int i = 0; i < draws; i++) {
            Drawn drawn = new Drawn(situation, random);
            double left = drawn.pays(day) - drawn.costs(day);
            double against = left - drawn.pays(0);
            net += of.netInterval().contains(left) ? 1 : 0;
            more += of.moreInterval().contains(against) ? 1 : 0;
            better += against > 0 ? 1 : 0;
            taken += drawn.isTaken(day) ? 1 : 0;
        }
        List<Finding> found = new ArrayList<>();
        found.add(part(situation, day, "net in its 90 % interval", net, draws, seed, 0.88, 0.92));
        if (day > 0) {
            found.add(part(situation, day, "more than today in its 90 % interval", more, draws, seed, 0.88, 0.92));
            found.add(part(
                    situation,
                    day,
                    "leaves more than today",
                    better,
                    draws,
                    seed,
                    of.chanceOfMore() - 0.02,
                    of.chanceOfMore() + 0.02));
        }
        double stated = of.inSpecification().orElseThrow();
        found.add(part(situation, day, "in specification", taken, draws, seed, stated - 0.02, stated + 0.02));
        return found;
    }

    private static Finding part(
            Situation situation, int day, String figure, int count, int draws, long seed, double low, double high) {
        double part = (double) count / draws;
        return new Finding(
                situation.name, day, figure, part, Math.sqrt(part * (1 - part) / draws), low, high, draws, seed);
    }

    /** How often the interval of the worth to the hall holds what a carcass drawn from the table is worth. */
    static Finding worth(Situation situation, int day, int draws, long seed) {
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.STEAK, 22)
                .kind(CutKind.JOINT, 14)
                .kind(CutKind.DICE, 9)
                .kind(CutKind.LEAN_TRIM, 5)
                .kind(CutKind.FAT_TRIM, 0.3)
                .kind(CutKind.BONE, -0.1)
                .kind(CutKind.LOSS, 0)
                .build();
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        Valuer valuer = Valuer.of(prices, estimator);
        FinishDay of = decides(situation)
                .valuer(valuer)
                .build()
                .forecast(animal(situation))
                .days()
                .get(day);
        Random random = new Random(seed + day);
        int held = 0;
        for (int i = 0; i < draws; i++) {
            Drawn drawn = new Drawn(situation, random);
            Carcass carcass = Carcass.of(
                    situation.category,
                    Conformation.ofPosition(Math.max(1, Math.min(18, drawn.conformation(day))), 0),
                    FatClass.ofPosition(Math.max(1, Math.min(15, drawn.fat(day))), 0),
                    drawn.coldKg(day));
            Value value = valuer.value(carcass);
            DrawnCarcass cut =
                    estimator.estimate(carcass).sample(random, 1).carcasses().get(0);
            held += of.hall().orElseThrow().valueInterval().contains(cut.kg(value.figure())) ? 1 : 0;
        }
        return part(situation, day, "worth in its 90 % interval", held, draws, seed, 0.88, 0.92);
    }
}
