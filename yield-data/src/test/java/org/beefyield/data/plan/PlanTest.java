package org.beefyield.data.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.SizeWindow;
import org.beefyield.plan.CutList;
import org.beefyield.plan.LabourRate;
import org.beefyield.plan.LimitPrice;
import org.beefyield.plan.OpeningStock;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.PlannedOrder;
import org.beefyield.plan.Planner;
import org.beefyield.price.PriceList;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** Plans of small days, of which everything can be gone through or worked out by hand. */
class PlanTest {
    /** Loin 200 and round 400 g/kg of carcass; a piece of each in a side. Of loin 850 steaks or 900 joints, and so on. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("made", "1")
            .levels("primal", "retail")
            .categories(Category.STEER, Category.COW)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(Cut.of("loin", "Loin", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(1.0)
                    .withFatPct(8.0))
            .cut(Cut.of("round", "Round", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(1.0)
                    .withFatPct(5.0))
            .cut(Cut.of("bone", "Bone", "primal", CutKind.BONE))
            .cut(Cut.of("loin-steak", "Loin steak", "retail", CutKind.STEAK))
            .cut(Cut.of("loin-joint", "Loin joint", "retail", CutKind.JOINT))
            .cut(Cut.of("round-steak", "Round steak", "retail", CutKind.STEAK))
            .cut(Cut.of("round-joint", "Round joint", "retail", CutKind.JOINT))
            .cut(Cut.of("lean-trim", "Lean trim", "retail", CutKind.LEAN_TRIM))
            .cut(Cut.of("fat-trim", "Fat trim", "primal", CutKind.FAT_TRIM).withFatPct(70.0))
            .row("carcass", "loin", 8, "made", 200, 1, -0.5)
            .row("carcass", "round", 8, "made", 400, 2, -1.5)
            .row("carcass", "fat-trim", 8, "made", 100, -3, 4)
            .row("carcass", "bone", 8, "made", 300, 0, -2)
            .row("*", "steaks", "loin", "loin-steak", 20, "made", 850)
            .row("*", "steaks", "loin", "lean-trim", 20, "made", 100)
            .row("*", "steaks", "loin", "fat-trim", 20, "made", 50)
            .row("*", "joints", "loin", "loin-joint", 20, "made", 900)
            .row("*", "joints", "loin", "lean-trim", 20, "made", 40)
            .row("*", "joints", "loin", "fat-trim", 20, "made", 60)
            .row("*", "steaks", "round", "round-steak", 20, "made", 800)
            .row("*", "steaks", "round", "lean-trim", 20, "made", 170)
            .row("*", "steaks", "round", "fat-trim", 20, "made", 30)
            .row("*", "joints", "round", "round-joint", 20, "made", 900)
            .row("*", "joints", "round", "lean-trim", 20, "made", 70)
            .row("*", "joints", "round", "fat-trim", 20, "made", 30)
            .specification("steaks", "loin", "steaks")
            .specification("steaks", "round", "steaks")
            .specification("joints", "loin", "joints")
            .specification("joints", "round", "joints")
            .build());

    private static final PriceList PRICES = PriceList.builder("EUR")
            .cut("loin-steak", 20)
            .cut("loin-joint", 14)
            .cut("round-steak", 12)
            .cut("round-joint", 10)
            .kind(CutKind.LEAN_TRIM, 5)
            .kind(CutKind.FAT_TRIM, 0.3)
            .kind(CutKind.BONE, -0.05)
            .build();

    private static final List<String> WAYS = List.of("steaks", "joints");

    private static YieldEstimator estimator() {
        return YieldEstimator.of(TABLE, TABLE.specification("steaks"));
    }

    private static Planner.Builder planner(Order... orders) {
        return Planner.builder(estimator(), PRICES, OjAlgoSolver.create()).orders(List.of(orders));
    }

    private static Carcass carcass(String id, double kg) {
        return carcass(id, Category.STEER, "R=", "3=", kg);
    }

    private static Carcass carcass(String id, Category category, String conformation, String fat, double kg) {
        return Carcass.of(category, Conformation.parse(conformation), FatClass.parse(fat), kg)
                .withId(id)
                .withLot("L" + id);
    }

    private static Order.Builder joints(double least, double most) {
        return Order.builder("J", "loin-joint").kg(least, most).price(15);
    }

    /** Kg of a cut of the last level that a cut of a carcass returns in a way. */
    private static double kg(Carcass carcass, String primal, String way, String cut) {
        double share = switch (way + " " + cut) {
            case "steaks loin-steak" -> 0.85;
            case "joints loin-joint" -> 0.9;
            case "steaks round-steak" -> 0.8;
            case "joints round-joint" -> 0.9;
            case "steaks lean-trim" -> primal.equals("loin") ? 0.1 : 0.17;
            case "joints lean-trim" -> primal.equals("loin") ? 0.04 : 0.07;
            case "steaks fat-trim" -> primal.equals("loin") ? 0.05 : 0.03;
            case "joints fat-trim" -> primal.equals("loin") ? 0.06 : 0.03;
            default -> 0;
        };
        return estimator().estimate(carcass).kg("primal", primal) * share;
    }

    /** What a list is worth: each order takes its cut as far as it wants it, the rest is sold. No order shares a cut. */
    private static double worth(List<Carcass> carcasses, List<Order> orders, int[][] ways) {
        Map<String, Double> made = new HashMap<>();
        double value = 0;
        for (int i = 0; i < ways.length; i++) {
            Carcass carcass = carcasses.get(i);
            for (int p = 0; p < 2; p++) {
                String primal = p == 0 ? "loin" : "round";
                String way = WAYS.get(ways[i][p]);
                for (String cut : List.of(primal + "-steak", primal + "-joint", "lean-trim", "fat-trim")) {
                    made.merge(cut, kg(carcass, primal, way, cut), Double::sum);
                }
            }
            made.merge("fat-trim", estimator().estimate(carcass).kg("primal", "fat-trim"), Double::sum);
            value += -0.05 * estimator().estimate(carcass).kg("primal", "bone");
        }
        for (Map.Entry<String, Double> entry : made.entrySet()) {
            double left = entry.getValue();
            for (Order order : orders) {
                if (order.product().equals(entry.getKey())) {
                    double taken = Math.min(left, order.maxKg());
                    left -= taken;
                    value += taken * order.price()
                            - Math.max(0, order.minKg() - taken)
                                    * order.penalty().orElse(0);
                }
            }
            value += left
                    * switch (entry.getKey()) {
                        case "loin-steak" -> 20;
                        case "loin-joint" -> 14;
                        case "round-steak" -> 12;
                        case "round-joint" -> 10;
                        case "lean-trim" -> 5;
                        default -> 0.3;
                    };
        }
        return value;
    }

    @Test
    void noListOfASmallDayIsBetter() {
        Random random = new Random(20261130);
        int best = 0;
        for (int day = 0; day < 10; day++) {
            List<Carcass> carcasses = new ArrayList<>();
            for (int i = 0; i < 3; i++) {
                carcasses.add(carcass("" + i, 250 + random.nextInt(150)));
            }
            List<Order> orders = List.of(
                    joints(20 + random.nextInt(120), 140 + random.nextInt(100))
                            .price(14 + random.nextInt(8))
                            .penalty(random.nextInt(9))
                            .build(),
                    Order.builder("R", "round-joint")
                            .kg(random.nextInt(200), 200 + random.nextInt(150))
                            .price(10 + random.nextInt(4))
                            .penalty(random.nextInt(4))
                            .build());
            double most = Double.NEGATIVE_INFINITY;
            for (int list = 0; list < 1 << 6; list++) {
                int[][] ways = new int[3][2];
                for (int bit = 0; bit < 6; bit++) {
                    ways[bit / 2][bit % 2] = list >> bit & 1;
                }
                most = Math.max(most, worth(carcasses, orders, ways));
            }
            Plan plan = planner(orders.toArray(Order[]::new)).build().plan(carcasses);
            assertThat(plan.value()).isLessThanOrEqualTo(most + 1e-6);
            assertThat(plan.bound()).isGreaterThanOrEqualTo(most - 1e-6);
            assertThat(plan.value()).isGreaterThan(0.997 * most);
            best += plan.value() > most - 1e-6 ? 1 : 0;
        }
        assertThat(best).isGreaterThanOrEqualTo(9);
    }

    @Test
    void whatIsCutIsWhatIsSentSoldAndMincedAndNothingIsCutTwice() {
        List<Carcass> carcasses = day(40, 1);
        Plan plan = planner(
                        joints(300, 600).build(),
                        Order.builder("S", "loin-steak")
                                .kg(0, 200)
                                .price(22)
                                .pieces(28, 34)
                                .build(),
                        Order.mince("M", 8).kg(100, 400).price(6).penalty(1).build())
                .windows(List.of(new SizeWindow("loin", "steaks", 26, 38, "joints")))
                .build()
                .plan(carcasses);
        double sent = plan.orders().stream().mapToDouble(PlannedOrder::kg).sum();
        double sold = plan.sold().values().stream().mapToDouble(kg -> kg).sum();
        assertThat(sent + sold)
                .isCloseTo(carcasses.stream().mapToDouble(Carcass::coldWeightKg).sum(), within(1e-6));
        assertThat(plan.returned().values().stream().mapToDouble(kg -> kg).sum())
                .isCloseTo(sent + sold, within(1e-6));
        Set<List<String>> seen = new HashSet<>();
        for (CutList list : plan.cuts()) {
            for (Carcass carcass : list.carcasses()) {
                assertThat(seen.add(List.of(list.cut(), carcass.id().orElseThrow())))
                        .isTrue();
            }
        }
        assertThat(seen).hasSize(2 * carcasses.size());
        assertThat(plan.orders().stream()
                        .mapToDouble(one -> one.lots().values().stream()
                                .mapToDouble(kg -> kg)
                                .sum())
                        .sum())
                .isCloseTo(sent, within(1e-6));
        // by itself the list tells what comes of every carcass
        double loin = plan.cuts().stream()
                .filter(list -> list.cut().equals("loin"))
                .mapToDouble(CutList::kg)
                .sum();
        assertThat(loin)
                .isCloseTo(
                        carcasses.stream()
                                .mapToDouble(one -> estimator().estimate(one).kg("primal", "loin"))
                                .sum(),
                        within(1e-6));
        assertThat(plan.value()).isCloseTo(plan.bound(), within(0.001 * plan.bound()));
    }

    private static List<Carcass> day(int size, long seed) {
        Random random = new Random(seed);
        return IntStream.range(0, size)
                .mapToObj(i -> carcass(
                        "" + i,
                        random.nextInt(4) == 0 ? Category.COW : Category.STEER,
                        List.of("O+", "R-", "R=", "R+", "U-").get(random.nextInt(5)),
                        List.of("2+", "3-", "3=", "3+", "4-").get(random.nextInt(5)),
                        250 + random.nextInt(150)))
                .toList();
    }

    @Test
    void theListIsWorkedOutAnewWithoutThePlan() {
        List<Carcass> carcasses = day(24, 2);
        Plan plan = planner(joints(200, 260).build()).build().plan(carcasses);
        Map<String, Double> returned = new HashMap<>();
        for (CutList list : plan.cuts()) {
            String way = list.ways().get(0).way();
            assertThat(list.ways()).hasSize(1);
            for (Carcass carcass : list.carcasses()) {
                for (String cut : List.of(list.cut() + "-steak", list.cut() + "-joint", "lean-trim", "fat-trim")) {
                    returned.merge(cut, kg(carcass, list.cut(), way, cut), Double::sum);
                }
            }
        }
        carcasses.forEach(
                one -> returned.merge("fat-trim", estimator().estimate(one).kg("primal", "fat-trim"), Double::sum));
        returned.values().removeIf(kg -> kg == 0);
        Map<String, Double> planned = new HashMap<>(plan.returned());
        planned.remove("bone");
        assertThat(planned.keySet()).isEqualTo(returned.keySet());
        planned.forEach((cut, kg) -> assertThat(kg).as(cut).isCloseTo(returned.get(cut), within(1e-6)));
    }

    @Test
    void anOrderMoreNeverLowersTheBoundAndALargerLeastNeverRaisesIt() {
        List<Carcass> carcasses = day(20, 3);
        Order first = joints(150, 250).penalty(3).build();
        double alone = bound(carcasses, first);
        Order second = Order.builder("2", "loin-steak")
                .kg(0, 80)
                .price(19)
                .carcasses(steers())
                .build();
        assertThat(bound(carcasses, first, second)).isGreaterThanOrEqualTo(alone - 1e-6);
        double before = Double.POSITIVE_INFINITY;
        for (double least : new double[] {0, 100, 400, 900, 1500}) {
            double now = bound(carcasses, joints(least, 2000).penalty(3).build());
            assertThat(now).isLessThanOrEqualTo(before + 1e-6);
            before = now;
        }
    }

    private static double bound(List<Carcass> carcasses, Order... orders) {
        return planner(orders).build().plan(carcasses).bound();
    }

    private static MarketSpecification steers() {
        return MarketSpecification.builder("steers").categories(Category.STEER).build();
    }

    @Test
    void moreFreedomNeverReturnsLess() {
        List<Carcass> carcasses = day(40, 4);
        Planner planner = planner(
                        joints(1000, 1200).build(),
                        Order.builder("S", "loin-steak")
                                .kg(100, 300)
                                .price(23)
                                .penalty(2)
                                .pieces(28, 34)
                                .build())
                .windows(List.of(new SizeWindow("loin", "steaks", 26, 38, "joints")))
                .build();
        double valueBefore = Double.NEGATIVE_INFINITY;
        double boundBefore = Double.NEGATIVE_INFINITY;
        for (PlanFreedom freedom : List.of(PlanFreedom.CARCASS, PlanFreedom.PRIMAL, PlanFreedom.PIECE)) {
            Plan plan = planner.choosing(freedom).plan(carcasses);
            assertThat(plan.order("J").shortKg()).isZero();
            assertThat(plan.bound()).isGreaterThanOrEqualTo(boundBefore - 1e-6);
            assertThat(plan.value()).isGreaterThanOrEqualTo(valueBefore - 1e-6);
            plan.alternatives().values().stream()
                    .filter(other -> other.firmShortKg() == 0)
                    .forEach(other -> assertThat(plan.value()).isGreaterThanOrEqualTo(other.value() - 1e-6));
            valueBefore = plan.value();
            boundBefore = plan.bound();
        }
        assertThat(boundBefore)
                .isGreaterThan(
                        planner.choosing(PlanFreedom.CARCASS).plan(carcasses).bound() + 100);
    }

    @Test
    void piecesAndCarcassesThatTheCustomerDoesNotTakeGoElsewhere() {
        // steers' loins of 36 and 28 kg a piece; the cow's of 28 kg isn't taken
        Carcass heavy = carcass("heavy", Category.STEER, "R=", "3=", 360);
        Carcass light = carcass("light", Category.STEER, "R=", "3=", 280);
        Carcass cow = carcass("cow", Category.COW, "R=", "3=", 280);
        Order small = Order.builder("S", "loin-steak")
                .kg(0, 1000)
                .price(30)
                .carcasses(steers())
                .pieces(0, 31)
                .build();
        Plan plan = Planner.builder(
                        YieldEstimator.of(TABLE, TABLE.specification("joints")), PRICES, OjAlgoSolver.create())
                .orders(List.of(small))
                .build()
                .plan(List.of(heavy, light, cow));
        double taken = plan.order("S").kg();
        double ofLight = kg(light, "loin", "steaks", "loin-steak");
        assertThat(taken).isCloseTo(ofLight, within(0.05 * ofLight));
        assertThat(plan.order("S").lots()).containsOnlyKeys("Llight", "Lheavy");
        assertThat(plan.order("S").lots().get("Lheavy")).isLessThan(0.02 * ofLight);
    }

    @Test
    void minceIsAsLeanAsOrderedAndImpossibleOnlyWhereItIs() {
        List<Carcass> carcasses = day(10, 5);
        Plan plan = planner(
                        Order.mince("6", 6).kg(50, 60).price(9).penalty(5).build(),
                        Order.mince("4", 4).kg(10, 20).price(9).penalty(5).build(),
                        Order.mince("20", 20).kg(0, 100).price(8).build())
                .build()
                .plan(carcasses);
        assertThat(plan.blends()).hasSize(2).allSatisfy(blend -> {
            assertThat(blend.fatPercent()).isLessThanOrEqualTo(blend.mostFatPercent() + 1e-9);
            double fat = blend.kg().entrySet().stream()
                    .mapToDouble(of -> of.getValue()
                            * switch (of.getKey()) {
                                case "lean-trim of loin" -> 8;
                                case "lean-trim of round" -> 5;
                                case "fat-trim" -> 70;
                                default -> Double.NaN;
                            })
                    .sum();
            assertThat(fat / blend.totalKg()).isCloseTo(blend.fatPercent(), within(1e-9));
        });
        // 5 % is the leanest there is
        assertThat(plan.order("4").kg()).isZero();
        assertThat(plan.order("4").shortage().orElseThrow().why()).isEqualTo(PlannedOrder.Why.CARCASSES);
        assertThat(plan.order("4").shortage().orElseThrow().mostKg()).isCloseTo(0, within(1e-6));
        // fat trim makes more of what is fatter
        assertThat(plan.blends().get(1).kg()).containsKey("fat-trim");
        assertThat(plan.blends().get(1).fatPercent()).isCloseTo(20, within(1e-6));
    }

    @Test
    void ordersThatConflictAreNamedWithWhatIsMissing() {
        Carcass only = carcass("1", 300);
        double joint = kg(only, "loin", "joints", "loin-joint");
        double steak = kg(only, "loin", "steaks", "loin-steak");
        Plan plan = planner(
                        joints(0.7 * joint, 1000).build(),
                        Order.builder("S", "loin-steak")
                                .kg(0.7 * steak, 1000)
                                .price(22)
                                .build(),
                        Order.builder("R", "round-steak").kg(10, 20).price(13).build())
                .build()
                .plan(List.of(only));
        assertThat(plan.conflict()).isPresent();
        assertThat(plan.conflict().orElseThrow().shortfalls())
                .extracting(one -> one.demand().replaceFirst(".* ", ""))
                .containsExactlyInAnyOrder("J", "S");
        // as little as possible is missing in kg when the lighter one is cut less for
        double missing = plan.conflict().orElseThrow().shortfalls().stream()
                .mapToDouble(one -> one.missing())
                .sum();
        assertThat(missing).isCloseTo(0.4 * steak, within(1e-5));
        assertThat(plan.orders())
                .filteredOn(one -> one.shortage().isPresent())
                .allSatisfy(
                        one -> assertThat(one.shortage().orElseThrow().why()).isEqualTo(PlannedOrder.Why.OTHER_ORDERS));
        assertThat(plan.toText()).contains("Orders J, S can't all be met, though all but one of them could");
    }

    @Test
    void reasonsForWhatIsMissingAreTheTrueOnes() {
        List<Carcass> carcasses = day(8, 6);
        Plan tooMuch = planner(joints(5000, 5000).build()).build().plan(carcasses);
        double all = carcasses.stream()
                .mapToDouble(one -> kg(one, "loin", "joints", "loin-joint"))
                .sum();
        assertThat(tooMuch.order("J").kg()).isCloseTo(all, within(1e-6));
        assertThat(tooMuch.order("J").shortage())
                .contains(new PlannedOrder.Shortage(
                        PlannedOrder.Why.CARCASSES,
                        tooMuch.order("J").shortage().orElseThrow().mostKg()));
        assertThat(tooMuch.order("J").shortage().orElseThrow().mostKg()).isCloseTo(all, within(1e-5));
        Plan dear =
                planner(joints(200, 300).price(10).penalty(0.5).build()).build().plan(carcasses);
        assertThat(dear.order("J").shortage().orElseThrow().why()).isEqualTo(PlannedOrder.Why.COST);
        Plan slow = planner(joints(200, 300).penalty(50).build())
                .labour(List.of(LabourRate.of("*", "*", 1000), LabourRate.of("loin", "joints", 10)), 12, 1)
                .build()
                .plan(carcasses);
        assertThat(slow.order("J").shortage().orElseThrow().why()).isEqualTo(PlannedOrder.Why.HOURS);
        assertThat(slow.totalHours()).isLessThanOrEqualTo(12 + 1e-6);
    }

    @Test
    void hoursAreThoseOfWhatIsCut() {
        List<Carcass> carcasses = day(12, 7);
        Plan plan = planner()
                .labour(List.of(LabourRate.of("*", "*", 100), LabourRate.of("loin", "steaks", 40)), 1000, 30)
                .build()
                .plan(carcasses);
        double loin = carcasses.stream()
                .mapToDouble(one -> estimator().estimate(one).kg("primal", "loin"))
                .sum();
        double round = carcasses.stream()
                .mapToDouble(one -> estimator().estimate(one).kg("primal", "round"))
                .sum();
        assertThat(plan.totalHours()).isCloseTo(loin / 40 + round / 100, within(1e-9));
        assertThat(plan.amounts().stream()
                        .filter(one -> one.name().equals("hours"))
                        .findFirst()
                        .orElseThrow()
                        .amount())
                .isCloseTo(-30 * plan.totalHours(), within(1e-9));
    }

    @Test
    void stockGoesToOrdersThatTakeAny() {
        Plan plan = planner(
                        joints(500, 500).penalty(1).build(),
                        Order.builder("P", "loin-joint")
                                .kg(0, 50)
                                .price(16)
                                .pieces(0, 30)
                                .build())
                .stock(List.of(OpeningStock.of("loin-joint", 120)))
                .build()
                .plan(List.of(carcass("1", 300)));
        assertThat(plan.order("J").fromStockKg()).isCloseTo(120, within(1e-6));
        assertThat(plan.order("P").fromStockKg()).isZero();
        Plan left = planner()
                .stock(List.of(OpeningStock.of("loin-joint", 120)))
                .build()
                .plan(List.of(carcass("1", 300)));
        assertThat(left.stockLeft()).containsExactly("loin-joint 120.0 kg");
    }

    @Test
    void aMarginCutsMoreAndMakesTheOrderSurer() {
        List<Carcass> carcasses = day(40, 8);
        Order order = joints(1000, 1400).price(14).build();
        PlannedOrder tight = planner(order).build().plan(carcasses).order("J");
        PlannedOrder safe = planner(order).margin(0.05).build().plan(carcasses).order("J");
        // whole carcasses, of which a loin is some 50 kg
        assertThat(tight.kg()).isBetween(1000 - 1e-6, 1050.0);
        assertThat(tight.chance()).isGreaterThan(0.4);
        assertThat(safe.kg()).isBetween(1050 - 1e-6, 1105.0);
        assertThat(safe.chance()).isGreaterThan(tight.chance());
        assertThat(safe.promiseKg()).isGreaterThan(tight.promiseKg());
        Plan unmet = planner(joints(400, 600).price(5).penalty(0.1).build())
                .margin(0.05)
                .build()
                .plan(carcasses);
        // what the margin would have is no penalty
        assertThat(unmet.amounts().stream()
                        .filter(one -> one.name().equals("penalties"))
                        .findFirst()
                        .orElseThrow()
                        .amount())
                .isCloseTo(-0.1 * (400 - unmet.order("J").kg()), within(1e-6));
    }

    @Test
    void pricesOfLimitsAreWhatMovingThemBrings() {
        List<Carcass> carcasses = day(12, 9);
        Order least = joints(200, 400).price(14).build();
        Planner planner = planner(least).build();
        LimitPrice price = planner.limits(carcasses).stream()
                .filter(one -> one.what() == LimitPrice.What.LEAST)
                .findFirst()
                .orElseThrow();
        double now = planner.plan(carcasses).bound();
        double more = planner(joints(201, 400).price(14).build())
                .build()
                .plan(carcasses)
                .bound();
        double less = planner(joints(199, 400).price(14).build())
                .build()
                .plan(carcasses)
                .bound();
        assertThat(price.limit()).isEqualTo(200);
        assertThat(price.more().orElseThrow())
                .isCloseTo(more - now, within(1e-5))
                .isNegative();
        assertThat(price.less().orElseThrow())
                .isCloseTo(less - now, within(1e-5))
                .isPositive();
        assertThat(price.order()).contains("J");
    }

    @Test
    void fewerCellsComeNearToAllOfThem() {
        List<Carcass> carcasses = day(70, 10);
        Order order = joints(450, 600).price(14).pieces(29, 36).build();
        double all = planner(order).cells(1000).build().plan(carcasses).value();
        Plan few = planner(order).cells(12).build().plan(carcasses);
        assertThat(few.order("J").shortKg()).isZero();
        assertThat(few.value()).isCloseTo(all, within(0.001 * all));
    }

    @Test
    void whatCanNotBePlannedIsRefusedInWords() {
        assertThatThrownBy(() -> planner(Order.builder("X", "oxtail").build()).build())
                .hasMessageStartingWith("order X: nothing that table made@1")
                .hasMessageEndingWith(
                        "becomes oxtail; there are fat-trim, lean-trim, loin-joint, loin-steak, round-joint,"
                                + " round-steak, loin, round and mince");
        assertThatThrownBy(() ->
                        planner(joints(1, 2).build(), joints(1, 2).build()).build())
                .hasMessage("two orders have the number J");
        assertThatThrownBy(() -> planner(Order.builder("M", "lean-trim")
                                .way("dice")
                                .kg(0, 1)
                                .build())
                        .build())
                .hasMessageContaining("becomes lean-trim as dice");
        assertThatThrownBy(() -> planner()
                        .labour(List.of(LabourRate.of("loin", "dice", 10)), 10, 1)
                        .build())
                .hasMessage("a labour rate is for loin as dice; ways that have prices are: joints, steaks");
        assertThatThrownBy(() -> planner().build().plan(List.of())).hasMessage("there is no carcass to plan with");
        Plan plan = planner().build().plan(List.of(carcass("1", 300), carcass("2", Category.HEIFER, "R=", "3=", 300)));
        assertThat(plan.carcasses()).isEqualTo(1);
        assertThat(plan.refused()).hasSize(1);
        assertThat(plan.toText()).contains("1 carcass is left out");
        assertThat(plan.toFrame().rows()).isZero();
        assertThat(OptionalDouble.of(plan.gain()).getAsDouble()).isGreaterThanOrEqualTo(-1e-9);
    }
}
