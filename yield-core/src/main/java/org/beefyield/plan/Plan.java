package org.beefyield.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.frame.Frame;
import org.beefyield.lp.Conflict;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What to cut for whom: for each order what it gets, for each lot which cut goes which way, and what that is worth beside the fixed
 * specifications. Figures are those of whole carcasses, worked out anew from the list; only {@link #bound()} is of fractions. What
 * comes out differs from what is expected: see {@link PlannedOrder#chance()}. Immutable.
 */
public final class Plan implements ShownInBlocks {
    /** Kilograms below this are noise of the arithmetic. */
    private static final double NOISE_KG = 1e-6;

    private final PlanSetting setting;
    private final List<PlannedOrder> orders;
    private final List<CutList> cuts;
    private final List<Blend> blends;
    private final Map<String, Double> returned;
    private final Map<String, Double> sold;
    private final Map<String, Double> hours;
    private final Map<String, Alternative> alternatives;
    private final @Nullable Conflict conflict;
    private final List<RefusedCarcassException> refused;
    private final List<Amount> amounts;
    private final int carcasses;
    private final double coldWeightKg;
    private final double bound;
    private final List<String> stockLeft;

    /**
     * What another choice is worth on the same day.
     *
     * @param value amount, as {@link #value()}
     * @param shortKg what is missing of the least of all orders, kg
     * @param firmShortKg of that of orders of which nothing may be missing, kg; it costs nothing in the value
     */
    public record Alternative(double value, double shortKg, double firmShortKg) {}

    /**
     * A line of what the plan is worth.
     *
     * @param name what it is
     * @param amount above 0 for what comes in, below for what it costs
     */
    public record Amount(String name, double amount) {
        /** Checks that there is a name. */
        public Amount {
            Objects.requireNonNull(name, "name");
        }
    }

    /** Puts together what a plan says. */
    private static final class Maker {
        final Planning planning;
        final PlanSetting setting;
        final Planning.Fractions fractions;
        final Planning.Cutting cutting;
        final Map<Outlets.Pool, Map<String, Double>> madeOf = new LinkedHashMap<>();
        final Map<Outlets.Pool, Map<String, Double>> ofLots = new LinkedHashMap<>();
        final Map<String, Double> returned = new TreeMap<>();

        Maker(Planning planning) {
            this.planning = planning;
            this.setting = planning.setting;
            this.fractions = planning.fractions();
            this.cutting = planning.best(fractions);
            trace();
        }

        /** Of what and of which lots pools are. */
        private void trace() {
            for (int i = 0; i < cutting.ways.length; i++) {
                CarvedCarcass one = planning.carcasses.get(i);
                String lot = one.lot();
                for (int p = 0; p < cutting.ways[i].length; p++) {
                    PlanCut cut = planning.cuts.get(p);
                    for (int b = 0; b < cut.bands.size(); b++) {
                        int w = cutting.ways[i][p][b];
                        List<Cut> children = cut.ways.get(w).children;
                        for (int c = 0; c < children.size(); c++) {
                            double kg = one.figures.childKg[p][w][c] * one.figures.inBand[p][b];
                            add(planning.outlets.pool(one.takers, p, w, c, b), children.get(c), cut.code, lot, kg);
                        }
                    }
                }
                for (int c = 0; c < one.figures.besideKg.length; c++) {
                    if (one.figures.besideKg[c] > NOISE_KG) {
                        Cut cut = setting.lastCuts().get(c);
                        add(planning.outlets.poolBeside(one.takers, cut), cut, "", lot, one.figures.besideKg[c]);
                    }
                }
            }
        }

        private void add(Outlets.Pool pool, Cut cut, String parent, String lot, double kg) {
            returned.merge(cut.code(), kg, Double::sum);
            boolean lean = cut.kind() == CutKind.LEAN_TRIM;
            madeOf.computeIfAbsent(pool, key -> new TreeMap<>())
                    .merge(lean && !parent.isEmpty() ? cut.code() + " of " + parent : cut.code(), kg, Double::sum);
            ofLots.computeIfAbsent(pool, key -> new TreeMap<>()).merge(lot, kg, Double::sum);
        }

        /** The whole lots of a pool first, so that an order is of few. */
        private List<Map<String, Double>> lotsOfOrders() {
            int size = planning.outlets.orders.size();
            List<Map<String, Double>> lots = new ArrayList<>();
            for (int o = 0; o < size; o++) {
                lots.add(new LinkedHashMap<>());
            }
            cutting.allocation.fromPools.forEach((pool, from) -> {
                Map<String, Double> left = new LinkedHashMap<>();
                ofLots.getOrDefault(pool, Map.of()).entrySet().stream()
                        .sorted(Map.Entry.<String, Double>comparingByValue()
                                .reversed()
                                .thenComparing(Map.Entry.comparingByKey()))
                        .forEach(entry -> left.put(entry.getKey(), entry.getValue()));
                for (int o = 0; o < size; o++) {
                    double wanted = into(o, from);
                    for (Map.Entry<String, Double> lot : left.entrySet()) {
                        double taken = Math.min(wanted, lot.getValue());
                        if (taken > NOISE_KG) {
                            lots.get(o).merge(lot.getKey(), taken, Double::sum);
                            lot.setValue(lot.getValue() - taken);
                            wanted -= taken;
                        }
                    }
                }
            });
            return lots;
        }

        private double into(int order, Allocation.FromPool from) {
            double kg = from.toOrders()[order];
            for (int m = 0; m < from.intoMinces().length; m++) {
                kg += planning.outlets.minces.get(m).order == order ? from.intoMinces()[m] : 0;
            }
            return kg;
        }

        List<PlannedOrder> orders() {
            List<PlannedOrder> planned = new ArrayList<>();
            Chances chances = new Chances(planning, cutting);
            List<Map<String, Double>> lots = lotsOfOrders();
            double[] filled = filled(cutting.allocation);
            Allocation inFractions = fractions.program.allocation(fractions.solution);
            for (int o = 0; o < filled.length; o++) {
                Order order = planning.outlets.orders.get(o);
                double stock = cutting.allocation.stockKg(o);
                double least = order.minKg();
                double wanted = least > 0 ? least : filled[o];
                double missing = Math.max(0, least - filled[o]);
                double shortKg = missing > NOISE_KG * Math.max(1, least) ? missing : 0;
                Optional<Supply> supply = chances.supply(o, cutting.allocation);
                double fromCut = wanted - stock;
                double chance = fromCut <= NOISE_KG
                        ? 1
                        : supply.map(of -> of.chance(fromCut)).orElse(0.0);
                double promise = Math.min(
                        order.maxKg(),
                        stock + supply.map(of -> of.promise(setting.promised())).orElse(0.0));
                double expected = stock + supply.map(Supply::kg).orElse(0.0);
                planned.add(new PlannedOrder(
                        order,
                        filled[o],
                        stock,
                        shortKg,
                        wanted,
                        chance,
                        promise,
                        expected,
                        lots.get(o),
                        supply.flatMap(Supply::largestPart),
                        shortKg > 0 ? Optional.of(shortage(o, inFractions.shortKg[o])) : Optional.empty()));
            }
            return planned;
        }

        private PlannedOrder.Shortage shortage(int o, double missingInFractions) {
            Order order = planning.outlets.orders.get(o);
            double most = planning.most(o, true);
            PlannedOrder.Why why = PlannedOrder.Why.COST;
            if (most < order.minKg() - NOISE_KG) {
                why = planning.most(o, false) > most + NOISE_KG ? PlannedOrder.Why.HOURS : PlannedOrder.Why.CARCASSES;
            } else if (missingInFractions <= NOISE_KG) {
                why = PlannedOrder.Why.WHOLE_CARCASSES;
            } else if (order.isFirm()) {
                why = PlannedOrder.Why.OTHER_ORDERS;
            }
            return new PlannedOrder.Shortage(why, most);
        }

        double[] filled(Allocation allocation) {
            double[] filled = new double[planning.outlets.orders.size()];
            for (int o = 0; o < filled.length; o++) {
                filled[o] = allocation.stockKg(o);
                for (Allocation.FromPool from : allocation.fromPools.values()) {
                    filled[o] += into(o, from);
                }
            }
            return filled;
        }

        List<CutList> cuts() {
            Map<List<Object>, List<Integer>> lines = new LinkedHashMap<>();
            for (int p = 0; p < planning.cuts.size(); p++) {
                for (int i = 0; i < cutting.ways.length; i++) {
                    List<Integer> ways =
                            Arrays.stream(cutting.ways[i][p]).boxed().toList();
                    String lot = planning.carcasses.get(i).lot();
                    lines.computeIfAbsent(List.of(p, lot, ways), key -> new ArrayList<>())
                            .add(i);
                }
            }
            List<CutList> list = new ArrayList<>();
            lines.forEach((key, of) -> {
                int p = (Integer) key.get(0);
                list.add(new CutList(
                        (String) key.get(1),
                        planning.cuts.get(p).code,
                        ways(p, of),
                        of.stream().map(i -> planning.carcasses.get(i).carcass).toList()));
            });
            return list;
        }

        /** The ways of a cut, in which these carcasses are alike, and the pieces that go each: bands that go one way are one. */
        private List<CutList.WayOfPieces> ways(int p, List<Integer> of) {
            PlanCut cut = planning.cuts.get(p);
            int[] ways = cutting.ways[of.get(0)][p];
            List<CutList.WayOfPieces> list = new ArrayList<>();
            int from = 0;
            for (int b = 1; b <= ways.length; b++) {
                if (b == ways.length || ways[b] != ways[from]) {
                    double kg = 0;
                    for (int i : of) {
                        CarvedCarcass.Figures figures = planning.carcasses.get(i).figures;
                        for (int in = from; in < b; in++) {
                            kg += figures.kg[p] * figures.inBand[p][in];
                        }
                    }
                    SizeBand band = new SizeBand(
                            cut.bands.get(from).fromKg(), cut.bands.get(b - 1).toKg());
                    list.add(new CutList.WayOfPieces(band.words(), cut.ways.get(ways[from]).name, kg));
                    from = b;
                }
            }
            return list;
        }

        List<Blend> blends() {
            List<Blend> blends = new ArrayList<>();
            for (int m = 0; m < planning.outlets.minces.size(); m++) {
                Outlets.MinceKind mince = planning.outlets.minces.get(m);
                Map<String, Double> kg = new TreeMap<>();
                double fat = 0;
                double all = 0;
                for (Map.Entry<Outlets.Pool, Allocation.FromPool> entry : cutting.allocation.fromPools.entrySet()) {
                    double into = entry.getValue().intoMinces()[m];
                    fat += into
                            * (Double.isNaN(entry.getKey().fat())
                                    ? 0
                                    : entry.getKey().fat());
                    all += into;
                    if (into > 0) {
                        part(entry.getKey(), into).forEach((cut, of) -> kg.merge(cut, of, Double::sum));
                    }
                }
                if (all > NOISE_KG) {
                    blends.add(new Blend(
                            mince.order >= 0
                                    ? planning.outlets.orders.get(mince.order).id()
                                    : "",
                            100 * mince.fat,
                            100 * fat / all,
                            kg));
                }
            }
            return blends;
        }

        /** So many kg of a pool, by what they are. */
        private Map<String, Double> part(Outlets.Pool pool, double kg) {
            Map<String, Double> made = madeOf.getOrDefault(pool, Map.of());
            double all = made.values().stream().mapToDouble(of -> of).sum();
            Map<String, Double> part = new TreeMap<>();
            made.forEach((cut, of) -> part.put(cut, of * kg / all));
            return part;
        }

        Map<String, Double> sold() {
            Map<String, Double> sold = new TreeMap<>();
            madeOf.forEach((pool, made) -> {
                double kg = pool.isFree()
                        ? made.values().stream().mapToDouble(of -> of).sum()
                        : cutting.allocation.sold.getOrDefault(pool, 0.0);
                if (kg > NOISE_KG) {
                    part(pool, kg).forEach((cut, of) -> sold.merge(cut, of, Double::sum));
                }
            });
            return sold;
        }

        double others() {
            double others = 0;
            for (PriceList.OtherLine line : setting.prices().others()) {
                for (CarvedCarcass one : planning.carcasses) {
                    others += line.amount()
                            * (line.per() == PriceList.OtherLine.Per.HEAD ? 1 : one.carcass.coldWeightKg());
                }
            }
            return others;
        }

        double firmCost(Allocation allocation) {
            double cost = 0;
            for (int o = 0; o < allocation.shortKg.length; o++) {
                if (planning.outlets.orders.get(o).penalty().isEmpty()) {
                    cost += allocation.shortKg[o] * planning.shortPrice(o);
                }
            }
            return cost;
        }

        /** The value less what the margin of safety counts as missing, which costs nobody anything. */
        double value(Planning.Cutting of) {
            double value = of.value + firmCost(of.allocation) + others();
            double[] filled = filled(of.allocation);
            for (int o = 0; o < filled.length; o++) {
                Order order = planning.outlets.orders.get(o);
                double counted = of.allocation.shortKg[o];
                if (order.penalty().isPresent() && counted > 0) {
                    double missing = Math.max(0, order.minKg() - filled[o]);
                    value += (counted - missing) * order.penalty().getAsDouble();
                }
            }
            return value;
        }

        Alternative alternative(Planning.Cutting of) {
            double[] filled = filled(of.allocation);
            double all = 0;
            double firm = 0;
            for (int o = 0; o < filled.length; o++) {
                Order order = planning.outlets.orders.get(o);
                double missing = Math.max(0, order.minKg() - filled[o]);
                double counts = missing > NOISE_KG * Math.max(1, order.minKg()) ? missing : 0;
                all += counts;
                firm += order.isFirm() ? counts : 0;
            }
            return new Alternative(value(of), all, firm);
        }

        List<Amount> amounts() {
            List<Amount> amounts = new ArrayList<>();
            Allocation allocation = cutting.allocation;
            double[] filled = filled(allocation);
            double ordered = 0;
            double penalties = 0;
            for (int o = 0; o < filled.length; o++) {
                Order order = planning.outlets.orders.get(o);
                ordered += filled[o] * order.price();
                penalties +=
                        Math.max(0, order.minKg() - filled[o]) * order.penalty().orElse(0);
            }
            double minced = 0;
            for (Allocation.FromPool from : allocation.fromPools.values()) {
                for (int m = 0; m < from.intoMinces().length; m++) {
                    Outlets.MinceKind mince = planning.outlets.minces.get(m);
                    minced += mince.order < 0 ? mince.price * from.intoMinces()[m] : 0;
                }
            }
            double labour = cutting.yield.hours[cutting.yield.hours.length - 1] * setting.hourPrice();
            double others = others();
            amounts.add(new Amount("orders", ordered));
            if (minced != 0) {
                amounts.add(new Amount("mince that no order takes", minced));
            }
            double rest = value(cutting) - ordered - minced + penalties + labour - others;
            amounts.add(new Amount("what no order takes, at its price", rest));
            if (penalties > 0) {
                amounts.add(new Amount("penalties", -penalties));
            }
            if (labour > 0) {
                amounts.add(new Amount("hours", -labour));
            }
            if (others != 0) {
                amounts.add(new Amount("other income and cost", others));
            }
            return amounts;
        }

        Map<String, Alternative> alternatives() {
            Map<String, Alternative> alternatives = new LinkedHashMap<>();
            List<CuttingSpecification> specifications = new ArrayList<>();
            specifications.add(setting.estimator().specification());
            setting.estimator().table().specifications().stream()
                    .filter(other -> !other.equals(setting.estimator().specification()))
                    .forEach(specifications::add);
            for (CuttingSpecification specification : specifications) {
                Planning.Cutting fixed = planning.fixed(specification);
                if (fixed != null && !alternatives.containsKey(specification.name())) {
                    alternatives.put(specification.name(), alternative(fixed));
                }
            }
            return alternatives;
        }
    }

    private Plan(Maker maker, Optional<Conflict> conflict, List<RefusedCarcassException> refused) {
        this.setting = maker.setting;
        this.conflict = conflict.orElse(null);
        this.refused = List.copyOf(refused);
        this.orders = List.copyOf(maker.orders());
        this.cuts = List.copyOf(maker.cuts());
        this.blends = List.copyOf(maker.blends());
        this.returned = Collections.unmodifiableMap(maker.returned);
        this.sold = Collections.unmodifiableMap(maker.sold());
        this.hours = Collections.unmodifiableMap(maker.planning.hoursByRate(maker.cutting));
        this.alternatives = Collections.unmodifiableMap(maker.alternatives());
        this.amounts = List.copyOf(maker.amounts());
        this.carcasses = maker.planning.carcasses.size();
        this.coldWeightKg = maker.planning.carcasses.stream()
                .mapToDouble(one -> one.carcass.coldWeightKg())
                .sum();
        this.bound = maker.fractions.value()
                + maker.firmCost(maker.fractions.program.allocation(maker.fractions.solution))
                + maker.others();
        List<String> left = new ArrayList<>();
        for (int s = 0; s < setting.stock().size(); s++) {
            double kg = setting.stock().get(s).kg();
            for (double drawn : maker.cutting.allocation.fromStock[s]) {
                kg -= drawn;
            }
            if (kg > NOISE_KG) {
                left.add(setting.stock().get(s).product() + " " + Numbers.fixed(kg, 1) + " kg");
            }
        }
        this.stockLeft = List.copyOf(left);
    }

    static Plan of(PlanSetting setting, Planning planning, List<RefusedCarcassException> refused) {
        Maker maker = new Maker(planning);
        Optional<Conflict> conflict = Optional.empty();
        if (maker.firmCost(maker.fractions.program.allocation(maker.fractions.solution)) > 0) {
            List<String> firm = setting.orders().stream()
                    .filter(Order::isFirm)
                    .map(order -> PlanProgram.ORDER_ROW + order.id())
                    .toList();
            conflict = Conflict.of(setting.solver(), planning.firmProgram(), firm);
        }
        return new Plan(maker, conflict, refused);
    }

    /** What the day was planned with. */
    PlanSetting setting() {
        return setting;
    }

    /**
     * What was free to be chosen.
     *
     * @return what was chosen
     */
    public PlanFreedom freedom() {
        return setting.freedom();
    }

    /**
     * The probability with which promised kilograms come out.
     *
     * @return probability
     */
    public double promised() {
        return setting.promised();
    }

    /**
     * The table, so that figures can be told from those of another.
     *
     * @return name, version and digest
     */
    public String table() {
        return setting.estimator().table().identity();
    }

    /**
     * What each order gets.
     *
     * @return an unmodifiable list in the order of the orders
     */
    public List<PlannedOrder> orders() {
        return orders;
    }

    /**
     * What an order gets.
     *
     * @param id its number
     * @return what it gets
     * @throws IllegalArgumentException if no order has that number
     */
    public PlannedOrder order(String id) {
        Objects.requireNonNull(id, "id");
        return orders.stream()
                .filter(one -> one.order().id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no order has the number " + id + "; there are "
                        + String.join(
                                ", ",
                                orders.stream().map(one -> one.order().id()).toList())));
    }

    /**
     * Which cut of which carcasses goes which way: what the hall works from.
     *
     * @return an unmodifiable list, a line for each lot, cut, weight of pieces and way
     */
    public List<CutList> cuts() {
        return cuts;
    }

    /**
     * What goes into each mince.
     *
     * @return an unmodifiable list, those for orders first
     */
    public List<Blend> blends() {
        return blends;
    }

    /**
     * What the carcasses are expected to return.
     *
     * @return an unmodifiable map by cut of the last level, kg
     */
    public Map<String, Double> returned() {
        return returned;
    }

    /**
     * What is sold at its price since no order and no mince takes it, lean trim by what it comes of.
     *
     * @return an unmodifiable map by cut, kg
     */
    public Map<String, Double> sold() {
        return sold;
    }

    /**
     * Hours by rate.
     *
     * @return an unmodifiable map by what the rate is for
     */
    public Map<String, Double> hours() {
        return hours;
    }

    /**
     * Hours of all.
     *
     * @return hours
     */
    public double totalHours() {
        return hours.values().stream().mapToDouble(of -> of).sum();
    }

    /**
     * What the carcasses are worth under the fixed specifications, orders served as well as they can be.
     *
     * @return an unmodifiable map by name of the specification, that of the estimator first
     */
    public Map<String, Alternative> alternatives() {
        return alternatives;
    }

    /**
     * The fewest orders of which nothing may be missing that can't all be met.
     *
     * @return them and what is missing of each when as little as possible is; empty if all can be met
     */
    public Optional<Conflict> conflict() {
        return Optional.ofNullable(conflict);
    }

    /**
     * Carcasses that were left out, since the table gives no estimate for them.
     *
     * @return an unmodifiable list of refusals
     */
    public List<RefusedCarcassException> refused() {
        return refused;
    }

    /**
     * Carcasses planned.
     *
     * @return 1 or more
     */
    public int carcasses() {
        return carcasses;
    }

    /**
     * Their cold weight.
     *
     * @return kg
     */
    public double coldWeightKg() {
        return coldWeightKg;
    }

    /**
     * Stock that no order gets.
     *
     * @return an unmodifiable list in words
     */
    public List<String> stockLeft() {
        return stockLeft;
    }

    /**
     * What the day is expected to bring: orders, what is sold beside them, other income and cost, less penalties and hours. What
     * is missing of an order that may not be missing costs nothing here.
     *
     * @return amount in the currency of the prices
     */
    public double value() {
        return amounts.stream().mapToDouble(Amount::amount).sum();
    }

    /**
     * What the value is made of.
     *
     * @return an unmodifiable list; the amounts add up to the value
     */
    public List<Amount> amounts() {
        return amounts;
    }

    /**
     * What the day would bring if carcasses of a cell could be divided: no list of whole carcasses exceeds it where each grade and
     * ten kg are a cell of their own.
     *
     * @return amount
     */
    public double bound() {
        return bound;
    }

    /**
     * What the day is expected to bring beside the fixed specification, where as much is missing of orders.
     *
     * @return amount
     */
    public double gain() {
        return value() - alternatives.values().iterator().next().value();
    }

    /**
     * An amount as money.
     *
     * @param amount amount
     * @return rounded to the decimals of the prices
     */
    public Money money(double amount) {
        return setting.prices().money(amount);
    }

    /**
     * What orders get as a frame, a row for each.
     *
     * @return number, customer, product, kg asked for and planned, what is missing, chance and promise
     */
    public Frame toFrame() {
        return new PlanText(this).orders();
    }

    /**
     * The list of the hall as a frame: a row for each carcass and cut, and for each way if its pieces go several by their weight,
     * so that it can be sorted and printed as a hall works.
     *
     * @return lot, carcass, cold weight, cut, weight of pieces, way
     */
    public Frame cutsToFrame() {
        return new PlanText(this).cuts();
    }

    /**
     * What the day would bring if something else were chosen, beside this plan.
     *
     * @param others plans of the same carcasses and orders, see {@link Planner#choosing}
     * @return a table, a row for each
     */
    public TextTable besideTable(List<Plan> others) {
        Checks.noNullIn(others, "others");
        return new PlanText(this).beside(others);
    }

    /**
     * What limits of the day cost, for people.
     *
     * @param limits limits, see {@link Planner#limits}
     * @return a table, a row for each
     */
    public TextTable limitsTable(List<LimitPrice> limits) {
        Checks.noNullIn(limits, "limits");
        return new PlanText(this).limits(limits);
    }

    /**
     * The plan for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new PlanText(this).blocks();
    }

    /**
     * One line.
     *
     * @return carcasses, orders and value
     */
    @Override
    public String toString() {
        return PlanText.line(this);
    }
}
