package org.beefyield.benchmarks.plan;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import org.beefyield.benchmarks.coverage.Herd;
import org.beefyield.benchmarks.coverage.Nature;
import org.beefyield.benchmarks.coverage.Outcome;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.SizeWindow;
import org.beefyield.plan.CutList;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlannedOrder;
import org.beefyield.plan.Planner;
import org.beefyield.price.PriceList;
import org.beefyield.table.YieldTable;

/**
 * How often orders get what a plan says: days are planned, then halls, runs, lots, carcasses and pieces drawn by {@link World},
 * which has nothing of the library but the rows of its table, and cut by the plan's list: {@code benchmarks/chances}. Every cut
 * is wanted by one order, so that an order gets all that comes out of it.
 */
public final class ChanceStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_130;

    /** Days of the committed results. */
    static final int DAYS = 12;

    /** Draws of each day in the committed results. */
    static final int DRAWS = 1000;

    /** The probability that an interval states. */
    static final double STATED = 0.9;

    private static final List<String> SPECIFICATIONS = List.of("steaks", "joints", "trim");
    private static final int PRIMAL = 1;
    private static final int RETAIL = 2;

    private ChanceStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        List<Result> results = run(DAYS, DRAWS, SEED);
        StringBuilder csv = new StringBuilder(Result.HEADER).append('\n');
        results.forEach(result -> csv.append(result).append('\n'));
        Files.writeString(Path.of(args[0]), csv);
        new PrintStream(System.out, true, StandardCharsets.UTF_8).print(csv);
    }

    /**
     * How often an order got what was said.
     *
     * @param order which
     * @param held share of the draws in which it lay within its interval of 90 %
     * @param below share in which it lay below the interval
     * @param chance mean of the chances stated
     * @param met share of the draws in which its least came out
     * @param days days
     * @param draws draws of all days together
     * @param seed seed
     */
    public record Result(
            String order, double held, double below, double chance, double met, int days, int draws, long seed) {
        static final String HEADER = "order,held,below,chance_stated,met,standard_error,days,draws,seed";

        /** Standard error of a share of the draws. */
        double standardError() {
            return Math.sqrt(STATED * (1 - STATED) / draws);
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%s,%.4f,%.4f,%.4f,%.4f,%.4f,%d,%d,%d",
                    order,
                    held,
                    below,
                    chance,
                    met,
                    standardError(),
                    days,
                    draws,
                    seed);
        }
    }

    /** Counts of one order. */
    private static final class Count {
        private int held;
        private int below;
        private int met;
        private double chance;
    }

    /** Plans days and draws what comes out. */
    static List<Result> run(int days, int draws, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        YieldTable table = ShippedTables.boneless2026();
        World world = new World(
                table.definition(),
                ScaleError.NONE,
                Nature.AS_DECLARED,
                SPECIFICATIONS.stream()
                        .map(name -> table.specification(name).ways())
                        .toList());
        Map<String, Count> counts = new LinkedHashMap<>();
        for (int day = 0; day < days; day++) {
            List<Herd.Head> heads = heads(random);
            List<Carcass> carcasses = named(heads);
            Plan low = planner(table, 0.95).plan(carcasses);
            Plan high = planner(table, 0.05).plan(carcasses);
            Cuts cuts = new Cuts(table, low, heads);
            for (int draw = 0; draw < draws; draw++) {
                Map<String, Double> got = cuts.draw(world, random);
                for (PlannedOrder order : low.orders()) {
                    String id = order.order().id();
                    Count count = counts.computeIfAbsent(id, first -> new Count());
                    double kg = got.getOrDefault(id, 0.0);
                    double least = order.promiseKg();
                    double most = high.order(id).promiseKg();
                    count.held += kg >= least && kg <= most ? 1 : 0;
                    count.below += kg < least ? 1 : 0;
                    count.met += kg >= order.wantedKg() ? 1 : 0;
                    count.chance += order.chance();
                }
            }
        }
        int all = days * draws;
        List<Result> results = new ArrayList<>();
        counts.forEach((id, count) -> results.add(new Result(
                id,
                (double) count.held / all,
                (double) count.below / all,
                count.chance / all,
                (double) count.met / all,
                days,
                all,
                seed)));
        return results;
    }

    private static List<Herd.Head> heads(RandomGenerator random) {
        List<Herd.Head> heads = new ArrayList<>();
        for (int lot = 0; lot < 4; lot++) {
            Category category = lot == 2 ? Category.HEIFER : Category.STEER;
            double mean = 310 + 60 * random.nextDouble();
            for (int i = 0; i < 20; i++) {
                double kg = Math.min(420, Math.max(240, mean + 25 * random.nextGaussian()));
                heads.add(new Herd.Head(
                        Carcass.of(
                                category,
                                Conformation.ofPosition(5 + random.nextInt(6), 1),
                                FatClass.ofPosition(6 + random.nextInt(5), 1),
                                Math.rint(10 * kg) / 10),
                        lot,
                        0,
                        0));
            }
        }
        return heads;
    }

    private static List<Carcass> named(List<Herd.Head> heads) {
        List<Carcass> named = new ArrayList<>();
        for (int i = 0; i < heads.size(); i++) {
            named.add(heads.get(i)
                    .carcass()
                    .withId(Integer.toString(i))
                    .withSupplier("farm " + heads.get(i).lot())
                    .withLot("L" + heads.get(i).lot())
                    .withKillDate("2026-12-01"));
        }
        return named;
    }

    private static Planner planner(YieldTable table, double promised) {
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.STEAK, 13)
                .kind(CutKind.JOINT, 9)
                .kind(CutKind.DICE, 8)
                .kind(CutKind.LEAN_TRIM, 4.9)
                .kind(CutKind.FAT_TRIM, 0.3)
                .kind(CutKind.BONE, 0)
                .kind(CutKind.LOSS, 0)
                .cut("fillet-steak", 30)
                .cut("striploin-steak", 21)
                .cut("cube-roll-steak", 20)
                .build();
        MarketSpecification steers =
                MarketSpecification.builder("steers").categories(Category.STEER).build();
        double any = Double.POSITIVE_INFINITY;
        return Planner.builder(YieldEstimator.of(table, table.specification("steaks")), prices, OjAlgoSolver.create())
                .orders(List.of(
                        Order.builder("striploin joints", "striploin-joint")
                                .kg(420, any)
                                .price(14)
                                .build(),
                        Order.builder("striploin steaks of 6 to 9 kg", "striploin-steak")
                                .kg(400, any)
                                .price(22)
                                .penalty(1)
                                .pieces(6, 9)
                                .build(),
                        Order.builder("fillet steaks from 3.2 kg", "fillet-steak")
                                .kg(250, any)
                                .price(33)
                                .penalty(1)
                                .pieces(3.2, any)
                                .build(),
                        Order.builder("dice of steers", "dice")
                                .kg(2100, any)
                                .price(9)
                                .penalty(1)
                                .carcasses(steers)
                                .build(),
                        Order.builder("cube roll steaks", "cube-roll-steak")
                                .kg(700, any)
                                .price(20.5)
                                .penalty(1)
                                .build()))
                .windows(List.of(new SizeWindow("striploin", "steaks", 5, 10, "joints")))
                .promised(promised)
                .build();
    }

    /** What is cut of which carcass by a plan's list. */
    private static final class Cuts {
        private final YieldTable table;
        private final Plan plan;
        private final List<Herd.Head> heads;
        /** By carcass and cut, its ways. */
        private final List<Map<String, List<CutList.WayOfPieces>>> ways = new ArrayList<>();

        Cuts(YieldTable table, Plan plan, List<Herd.Head> heads) {
            this.table = table;
            this.plan = plan;
            this.heads = heads;
            heads.forEach(head -> ways.add(new LinkedHashMap<>()));
            for (CutList list : plan.cuts()) {
                for (Carcass carcass : list.carcasses()) {
                    ways.get(Integer.parseInt(carcass.id().orElseThrow())).put(list.cut(), list.ways());
                }
            }
        }

        /** By order, kg that come out for it. */
        Map<String, Double> draw(World world, RandomGenerator random) {
            Map<String, Double> got = new LinkedHashMap<>();
            World.Draw draw = world.draw(random);
            for (int i = 0; i < heads.size(); i++) {
                Outcome[] outcomes = draw.give(new Herd().add(heads.get(i)));
                for (PlannedOrder planned : plan.orders()) {
                    Order order = planned.order();
                    if (order.carcasses().isPresent()
                            && !order.carcasses().get().test(heads.get(i).carcass())) {
                        continue;
                    }
                    double kg = order.product().equals("dice") ? dice(i, outcomes) : pieces(i, order, outcomes, random);
                    got.merge(order.id(), kg, Double::sum);
                }
            }
            return got;
        }

        /** Those of all cuts that are diced, which one specification of the table dices too. */
        private double dice(int i, Outcome[] outcomes) {
            double kg = 0;
            List<String> diced = List.of("blade", "shoulder", "heel-shank");
            boolean all = diced.stream().allMatch(cut -> isCut(i, cut, "dice"));
            if (!all || isCut(i, "chuck-neck", "dice")) {
                throw new IllegalStateException("the plan dices other cuts than the study can draw");
            }
            kg += outcomes[0].kg(RETAIL, "dice");
            return kg;
        }

        private boolean isCut(int i, String cut, String way) {
            List<CutList.WayOfPieces> of = ways.get(i).getOrDefault(cut, List.of());
            return of.size() == 1 && of.get(0).way().equals(way);
        }

        private double pieces(int i, Order order, Outcome[] outcomes, RandomGenerator random) {
            String cut = order.product().replaceFirst("-(steak|joint)$", "");
            Double splitPct = table.catalogue().cut(cut).sideSplitSdPct();
            double split = splitPct == null ? 0 : splitPct / 100 * random.nextGaussian();
            double kg = 0;
            for (int side : new int[] {-1, 1}) {
                double whole = outcomes[0].kg(PRIMAL, cut);
                double piece = whole / 2 * (1 + side * split);
                String way = way(ways.get(i).getOrDefault(cut, List.of()), piece);
                for (int s = 0; s < SPECIFICATIONS.size(); s++) {
                    if (way.equals(
                            table.specification(SPECIFICATIONS.get(s)).ways().get(cut))) {
                        boolean taken = piece >= order.pieceFromKg() && piece <= order.pieceToKg();
                        kg += taken ? outcomes[s].kg(RETAIL, order.product()) * piece / whole : 0;
                        break;
                    }
                }
            }
            return kg;
        }

        /** The way of a piece: the list says from which weight on. */
        private static String way(List<CutList.WayOfPieces> ways, double pieceKg) {
            String way = "";
            for (CutList.WayOfPieces one : ways) {
                String pieces = one.pieces();
                double from = pieces.isEmpty() || pieces.startsWith("below")
                        ? 0
                        : Double.parseDouble(pieces.replaceFirst("^from ", "").replaceFirst(" .*", ""));
                way = pieceKg >= from ? one.way() : way;
            }
            return way;
        }
    }
}
