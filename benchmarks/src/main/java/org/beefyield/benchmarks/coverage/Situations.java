package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;

/** All situations of the study. */
final class Situations {
    /** Of an interval. */
    static final double SURE = 0.9;

    /** Of a promise. */
    static final double PROMISED = 0.95;

    private static final List<Integer> USUAL = List.of(0);
    private static final List<Integer> TWO_WAYS = List.of(0, 1);
    private static final int FEW = 20;
    private static final int MANY = 100;
    private static final int TRIALS = 5000;
    private static final int SEASON_LOTS = 40;
    private static final int SEASON_RUNS = 20;

    private Situations() {}

    /** How the library is asked about carcasses. */
    private interface Estimating {
        Outturn of(YieldEstimator estimator, Herd herd);
    }

    /** Draws herds. */
    private interface Herds {
        List<Herd> of(StudyTable table, RandomGenerator random);
    }

    /** Which estimator is asked. */
    private interface Choice {
        YieldEstimator of(YieldEstimator estimator);
    }

    private static Outturn single(YieldEstimator estimator, Herd herd) {
        return estimator.estimate(Keys.named(herd.heads().get(0)));
    }

    private static ToDoubleFunction<Outcome[][]> of(ToDoubleFunction<Outcome> figure, int herd, int cutting) {
        return outcomes -> figure.applyAsDouble(outcomes[herd][cutting]);
    }

    private static List<ToDoubleFunction<Outcome[][]>> apart(Measure measure, int herd, int cutting) {
        return measure.apart().stream().map(figure -> of(figure, herd, cutting)).toList();
    }

    /** Intervals of all measures of one herd. */
    private static Situation intervals(
            String name, Nature nature, int sets, Herds herds, Choice choice, Estimating estimating) {
        return new Situation(name, Situation.Demand.HELD, SURE, nature, USUAL, sets, (table, random) -> {
            List<Herd> drawn = herds.of(table, random);
            YieldEstimator estimator = choice.of(table.estimator(0));
            Outturn outturn = estimating.of(estimator, drawn.get(0));
            List<Statement> statements = new ArrayList<>();
            for (Measure measure : table.measures()) {
                Interval interval = measure.interval(outturn, estimator, SURE);
                statements.add(new Statement(
                        measure.name(),
                        interval.low(),
                        interval.high(),
                        outturn.sd(measure.figure(outturn, estimator)),
                        of(measure::of, 0, 0),
                        apart(measure, 0, 0)));
            }
            return new Situation.Asked(drawn, statements);
        });
    }

    private static Situation intervals(String name, int sets, Herds herds, Estimating estimating) {
        return intervals(name, Nature.AS_DECLARED, sets, herds, estimator -> estimator, estimating);
    }

    private static Situation inOwnHall(String name, int sets, Herds herds, Estimating estimating) {
        return intervals(name, Nature.AS_DECLARED.inOwnHall(), sets, herds, YieldEstimator::inOwnHall, estimating);
    }

    /** The same, of which the library is told what isn't so. */
    private static Situation wrongly(Situation situation) {
        return new Situation(
                situation.name(),
                Situation.Demand.MISSED,
                situation.nominal(),
                situation.nature(),
                situation.cuttings(),
                situation.sets(),
                situation.asker());
    }

    /** Intervals that take a part of the uncertainty twice. */
    private static Situation twice(UncertaintyPart part, String name, int sets, Herds herds, Estimating estimating) {
        Situation once = inOwnHall(name, sets, herds, estimating);
        return new Situation(name, Situation.Demand.MISSED, SURE, once.nature(), USUAL, sets, (table, random) -> {
            List<Herd> drawn = herds.of(table, random);
            YieldEstimator estimator = table.estimator(0).inOwnHall();
            Outturn outturn = estimating.of(estimator, drawn.get(0));
            List<Statement> statements = new ArrayList<>();
            for (Measure measure : table.measures()) {
                Figure figure = measure.figure(outturn, estimator);
                double sd = Math.hypot(outturn.sd(figure), outturn.sd(figure, part));
                Interval interval = Interval.normal(outturn.kg(figure), sd, SURE);
                statements.add(new Statement(
                        measure.name(),
                        interval.low(),
                        interval.high(),
                        sd,
                        of(measure::of, 0, 0),
                        apart(measure, 0, 0)));
            }
            return new Situation.Asked(drawn, statements);
        });
    }

    private static Situation promises(String name, int sets, Herds herds, Estimating estimating) {
        return new Situation(
                name, Situation.Demand.HELD, PROMISED, Nature.AS_DECLARED, USUAL, sets, (table, random) -> {
                    List<Herd> drawn = herds.of(table, random);
                    YieldEstimator estimator = table.estimator(0);
                    Outturn outturn = estimating.of(estimator, drawn.get(0));
                    List<Statement> statements = new ArrayList<>();
                    for (Measure measure : table.measures()) {
                        Figure figure = measure.figure(outturn, estimator);
                        statements.add(new Statement(
                                measure.name(),
                                outturn.promise(figure, PROMISED),
                                Double.POSITIVE_INFINITY,
                                outturn.sd(figure),
                                of(measure::of, 0, 0),
                                apart(measure, 0, 0)));
                    }
                    return new Situation.Asked(drawn, statements);
                });
    }

    /**
     * How much more one herd gives than another.
     *
     * @param expected whether it is the expected difference that is asked for, not the weighed one
     */
    private static Situation differences(
            String name, Nature nature, boolean expected, int sets, Herds herds, Estimating estimating) {
        return new Situation(name, Situation.Demand.HELD, SURE, nature, USUAL, sets, (table, random) -> {
            List<Herd> drawn = herds.of(table, random);
            YieldEstimator estimator = table.estimator(0);
            Outturn one = estimating.of(estimator, drawn.get(0));
            Outturn other = estimating.of(estimator, drawn.get(1));
            List<Statement> statements = new ArrayList<>();
            for (Measure measure : table.measures()) {
                Difference difference =
                        one.minus(measure.figure(one, estimator), other, measure.figure(other, estimator));
                statements.add(
                        expected
                                ? statement(measure, difference.expectedInterval(SURE), difference.expectedSdKg(), 1, 0)
                                : statement(measure, difference.interval(SURE), difference.sdKg(), 1, 0));
            }
            return new Situation.Asked(drawn, statements);
        });
    }

    private static Situation differences(String name, int sets, Herds herds, Estimating estimating) {
        return differences(name, Nature.AS_DECLARED, false, sets, herds, estimating);
    }

    private static Statement statement(
            Measure measure, Interval interval, double sdKg, int otherHerd, int otherCutting) {
        List<ToDoubleFunction<Outcome[][]>> apart = new ArrayList<>(apart(measure, 0, 0));
        apart.addAll(apart(measure, otherHerd, otherCutting));
        return new Statement(
                measure.name(),
                interval.low(),
                interval.high(),
                sdKg,
                outcomes -> measure.of(outcomes[0][0]) - measure.of(outcomes[otherHerd][otherCutting]),
                apart);
    }

    /** How much more the same carcasses give in one manner of cutting than in another. */
    private static Situation ways(String name, int sets, Herds herds, Estimating estimating) {
        return new Situation(name, Situation.Demand.HELD, SURE, Nature.AS_DECLARED, TWO_WAYS, sets, (table, random) -> {
            List<Herd> drawn = herds.of(table, random);
            YieldEstimator estimator = table.estimator(0);
            YieldEstimator otherEstimator = table.estimator(1);
            Outturn outturn = estimating.of(estimator, drawn.get(0));
            Outturn before = estimating.of(otherEstimator, drawn.get(0));
            List<Statement> statements = new ArrayList<>();
            for (Measure measure : table.measures()) {
                Difference difference = outturn.changeFrom(
                        measure.figure(outturn, estimator), before, measure.figure(before, otherEstimator));
                if (difference.sdKg() > 0) {
                    statements.add(statement(measure, difference.interval(SURE), difference.sdKg(), 0, 1));
                }
            }
            return new Situation.Asked(drawn, statements);
        });
    }

    private static Herd.Breed thirds(StudyTable table, Category category) {
        return random -> table.inThirds(category, random);
    }

    private static Herds steers(int size) {
        return (table, random) -> List.of(Herd.lot(size, 0, 0, 0, thirds(table, Category.STEER), random));
    }

    private static Herds inClasses(int size) {
        return (table, random) -> List.of(Herd.lot(size, 0, 0, 0, any -> table.inClasses(Category.STEER, any), random));
    }

    private static Herds lean(int size) {
        return (table, random) -> List.of(Herd.lot(size, 0, 0, 0, any -> table.lean(Category.STEER, any), random));
    }

    /** Steers of one lot and cows of another in one run. */
    private static Herds steersAndCows(int each) {
        return (table, random) -> {
            Herd herd = Herd.lot(each, 0, 0, 0, thirds(table, Category.STEER), random);
            Herd.lot(each, 1, 0, 0, thirds(table, Category.COW), random).heads().forEach(herd::add);
            return List.of(herd);
        };
    }

    /** Two herds of steers. */
    private static Herds two(int size, int otherLot, int otherRun, int otherHall) {
        return two(size, otherLot, otherRun, otherHall, Category.STEER);
    }

    private static Herds two(int size, int otherLot, int otherRun, int otherHall, Category other) {
        return (table, random) -> List.of(
                Herd.lot(size, 0, 0, 0, thirds(table, Category.STEER), random),
                Herd.lot(size, otherLot, otherRun, otherHall, thirds(table, other), random));
    }

    /** Lots of ten carcasses of one category each, boned in two runs next to each other. */
    private static List<Herd> season(StudyTable table, RandomGenerator random) {
        Herd herd = new Herd();
        for (int lot = 0; lot < SEASON_LOTS; lot++) {
            Category category = lot % 4 == 3 ? Category.COW : Category.STEER;
            for (int i = 0; i < 10; i++) {
                int run = (lot / 2 + i / 5) % SEASON_RUNS;
                herd.add(new Herd.Head(table.inThirds(category, random), lot, run, 0));
            }
        }
        return List.of(herd);
    }

    /** The same on ten days in two halls: half of each lot in each. */
    private static List<Herd> twoHalls(StudyTable table, RandomGenerator random) {
        Herd herd = new Herd();
        for (int lot = 0; lot < SEASON_LOTS; lot++) {
            for (int i = 0; i < 10; i++) {
                int hall = i % 2;
                herd.add(new Herd.Head(table.inThirds(Category.STEER, random), lot, lot / 4 * 2 + hall, hall));
            }
        }
        return List.of(herd);
    }

    /** Each lot in one run alone, two lots in each. */
    private static List<Herd> plainSeason(StudyTable table, RandomGenerator random) {
        Herd herd = new Herd();
        for (int lot = 0; lot < SEASON_LOTS; lot++) {
            Herd.lot(10, lot, lot / 2, 0, thirds(table, Category.STEER), random)
                    .heads()
                    .forEach(herd::add);
        }
        return List.of(herd);
    }

    /**
     * All of them that a table is asked.
     *
     * @param large whether every error of the table is large enough for all controls to be seen
     */
    static List<Situation> all(boolean large) {
        List<Situation> all = situations();
        if (large) {
            all.add(ofTrials("trial of 10 degrees of freedom: one carcass", steers(1), Situations::single));
            all.add(ofTrials("trial of 10 degrees of freedom: lot of 5", steers(5), Keys::lot));
        }
        all.addAll(large ? controls() : controls().subList(0, 1));
        return all;
    }

    /** Where fat trim may or may not do for the mince, so that errors aren't of first order: reported. */
    private static Situation withFatMince(String name, int sets, Herds herds, Estimating estimating) {
        Situation usual = intervals(name, sets, herds, estimating);
        return new Situation(
                name,
                usual.demand(),
                SURE,
                usual.nature(),
                USUAL,
                sets,
                (table, random) -> usual.asker().ask(table.withFatMince(), random));
    }

    /** By tables whose SDs between carcasses come from a small trial, each set of carcasses by another one. */
    private static Situation ofTrials(String name, Herds herds, Estimating estimating) {
        Situation byTruth = inOwnHall(name, TRIALS, herds, estimating);
        return new Situation(
                name,
                byTruth.demand(),
                SURE,
                byTruth.nature(),
                USUAL,
                TRIALS,
                (table, random) -> byTruth.asker().ask(table.ofTrial(10, random), random));
    }

    private static List<Situation> situations() {
        List<Situation> all = new ArrayList<>();
        Situation one = intervals("one carcass", MANY, steers(1), Situations::single);
        Situation lot = intervals("lot of 40", FEW, steers(40), Keys::lot);
        Situation season = intervals("season of 40 lots in 20 runs", FEW, Situations::season, Keys::numbered);
        all.add(one);
        all.add(intervals("one carcass graded in whole classes", MANY, inClasses(1), Situations::single));
        all.add(intervals("one lean carcass", MANY, lean(1), Situations::single));
        all.add(intervals("lot of 40 lean carcasses", FEW, lean(40), Keys::lot));
        all.add(withFatMince("mince near its cap: one lean carcass", MANY, lean(1), Situations::single));
        all.add(withFatMince("mince near its cap: lot of 40 lean carcasses", FEW, lean(40), Keys::lot));
        all.add(intervals("lot of 1", MANY, steers(1), Keys::lot));
        all.add(lot);
        all.add(intervals("lot of 40 graded in whole classes", FEW, inClasses(40), Keys::lot));
        all.add(intervals("lot of 400", FEW, steers(400), Keys::lot));
        all.add(intervals("20 steers and 20 cows in one run", FEW, steersAndCows(20), Keys::lot));
        all.add(intervals("200 steers and 200 cows in one run", FEW, steersAndCows(200), Keys::lot));
        all.add(season);
        all.add(intervals("season of 40 lots on 10 days in 2 halls", FEW, Situations::twoHalls, Keys::twoHalls));
        all.add(inOwnHall("own hall: lot of 40", FEW, steers(40), Keys::lot));
        all.add(inOwnHall("own hall: season of 40 lots in 20 runs", FEW, Situations::season, Keys::numbered));
        all.add(promises("promise of one carcass", MANY, steers(1), Situations::single));
        all.add(promises("promise of a lot of 40", FEW, steers(40), Keys::lot));
        all.add(promises("promise of a lot of 400", FEW, steers(400), Keys::lot));
        all.add(promises("promise of a season of 40 lots in 20 runs", FEW, Situations::season, Keys::numbered));
        all.add(differences("two carcasses of one lot", MANY, two(1, 0, 0, 0), Situations::single));
        all.add(differences("two carcasses of one run", MANY, two(1, 1, 0, 0), Situations::single));
        all.add(differences("two carcasses of one hall", MANY, two(1, 1, 1, 0), Situations::single));
        all.add(differences("two carcasses of two halls", MANY, two(1, 1, 1, 1), Situations::single));
        all.add(differences("two lots of 40 in one run", FEW, two(40, 1, 0, 0), Keys::lot));
        all.add(differences("two lots of 40 in one hall", FEW, two(40, 1, 1, 0), Keys::lot));
        all.add(differences("two lots of 40 in two halls", FEW, two(40, 1, 1, 1), Keys::lot));
        all.add(differences("40 steers and 40 cows in one run", FEW, two(40, 1, 0, 0, Category.COW), Keys::lot));
        all.add(differences(
                "expected difference of two lots of 40 in two halls",
                Nature.AS_DECLARED.expectation(),
                true,
                FEW,
                two(40, 1, 1, 1),
                Keys::lot));
        all.add(ways("one carcass cut two ways", MANY, steers(1), Situations::single));
        all.add(ways("lot of 40 cut two ways", FEW, steers(40), Keys::lot));
        Nature heavy = Nature.AS_DECLARED.withHeavyTails();
        all.add(one.reported("heavy tails: one carcass", heavy));
        all.add(lot.reported("heavy tails: lot of 40", heavy));
        all.add(season.reported("heavy tails: season of 40 lots in 20 runs", heavy));
        Situation ownLot = inOwnHall("", FEW, steers(40), Keys::lot);
        Situation ownSeason = inOwnHall("", FEW, Situations::season, Keys::numbered);
        all.add(lot.reported("runs err twice as declared: lot of 40", Nature.AS_DECLARED.withRun(2)));
        all.add(season.reported(
                "runs err twice as declared: season of 40 lots in 20 runs", Nature.AS_DECLARED.withRun(2)));
        all.add(ownLot.reported(
                "runs err twice as declared: own hall: lot of 40",
                Nature.AS_DECLARED.inOwnHall().withRun(2)));
        all.add(ownSeason.reported(
                "runs err twice as declared: own hall: season of 40 lots in 20 runs",
                Nature.AS_DECLARED.inOwnHall().withRun(2)));
        return all;
    }

    /** Situations in which the library is told what isn't so: the study must see it. */
    static List<Situation> controls() {
        Set<UncertaintyPart> independent =
                EnumSet.of(UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.GRADE_RESOLUTION);
        return List.of(
                wrongly(intervals(
                        "wrongly: lot of 40 as if nothing were in common",
                        Nature.AS_DECLARED,
                        FEW,
                        steers(40),
                        estimator -> estimator.counting(independent),
                        Keys::lot)),
                wrongly(inOwnHall(
                        "wrongly: own hall: season without kill dates",
                        FEW,
                        Situations::plainSeason,
                        Keys::withoutDates)),
                wrongly(inOwnHall(
                        "wrongly: own hall: season as one lot", FEW, Situations::plainSeason, Keys::asOneLot)),
                wrongly(intervals(
                        "wrongly: lot of 400 as 400 lots",
                        Nature.AS_DECLARED.inOwnHall().withRun(0),
                        FEW,
                        steers(400),
                        estimator -> estimator.counting(
                                EnumSet.complementOf(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.RUN))),
                        Keys::eachItsOwnLot)),
                twice(
                        UncertaintyPart.RUN,
                        "wrongly: own hall: lot of 400 with its run counted twice",
                        FEW,
                        steers(400),
                        Keys::lot));
    }
}
