package org.beefyield.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;

/**
 * The linear program of a day: options, of which each brings meat into pools, takes hours and brings or costs money; what goes
 * from pools to orders, into mince and to sale; stock; limits of hours. Written down piece by piece, then built.
 */
final class PlanProgram {
    /** What comes of an option, or of carcasses that are cut as they are cut. */
    static final class Yield {
        final Map<Outlets.Pool, Double> kg = new LinkedHashMap<>();
        /** What is sold at its price since nothing else can be done with it, less labour. */
        double amount;
        /** Hours by rate, and behind them of all. */
        final double[] hours;

        Yield(int rates) {
            hours = new double[rates + 1];
        }

        void add(Outlets.Pool pool, double more) {
            if (pool.isFree()) {
                amount += more * Outlets.price(pool);
            } else {
                kg.merge(pool, more, Double::sum);
            }
        }

        void add(Yield other, double times) {
            other.kg.forEach((pool, more) -> kg.merge(pool, times * more, Double::sum));
            amount += times * other.amount;
            for (int i = 0; i < hours.length; i++) {
                hours[i] += times * other.hours[i];
            }
        }
    }

    /** An option beside the first of its decision: what it brings more than that one. */
    private static final class Option {
        final String name;
        final Yield more;
        int variable;

        Option(String name, Yield more) {
            this.name = name;
            this.more = more;
        }
    }

    /** What flows from a pool. */
    private static final class Flows {
        final int[] toOrders;
        final int[] intoMinces;
        int sold;
        int row;

        Flows(Outlets.Pool pool) {
            toOrders = new int[pool.orders().size()];
            intoMinces = new int[pool.minces().size()];
        }
    }

    static final String ORDER_ROW = "least of order ";
    static final String MOST_ROW = "most of order ";
    static final String HOURS_ROW = "hours";

    private final Outlets outlets;
    private final List<OpeningStock> stock;
    /** By decision its options but the first, which is taken as far as these are not. */
    private final List<List<Option>> decisions = new ArrayList<>();

    private final Yield given;

    private final Map<Outlets.Pool, Flows> flows = new LinkedHashMap<>();
    private int[] shorts = new int[0];
    private int[][] draws = new int[0][];

    PlanProgram(Outlets outlets, List<OpeningStock> stock, int rates) {
        this.outlets = outlets;
        this.stock = stock;
        this.given = new Yield(rates);
    }

    /** A choice between options, of which the fractions taken add up to one. */
    void decision(List<Yield> options) {
        List<Option> others = new ArrayList<>();
        given.add(options.get(0), 1);
        for (int k = 1; k < options.size(); k++) {
            Yield more = new Yield(given.hours.length - 1);
            more.add(options.get(k), 1);
            more.add(options.get(0), -1);
            others.add(new Option("decision " + decisions.size() + " option " + k, more));
        }
        decisions.add(others);
    }

    /** Adds what comes of carcasses whatever is chosen. */
    void given(Yield yield) {
        given.add(yield, 1);
    }

    /** Money that is there whatever is chosen. */
    double certain() {
        return given.amount;
    }

    private Stream<Option> options() {
        return decisions.stream().flatMap(List::stream);
    }

    /**
     * Builds the program.
     *
     * @param least by order, what has to be delivered, kg
     * @param shortPrice by order, what a missing kg costs; not a number if nothing may be missing
     * @param mostHours by rate, and behind them of all, the limit; infinite for none
     */
    LinearProgram build(double[] least, double[] shortPrice, double[] mostHours) {
        LinearProgram.Builder builder = LinearProgram.builder();
        List<Order> orders = outlets.orders;
        int[] orderRows = new int[orders.size()];
        int[] mostRows = new int[orders.size()];
        shorts = new int[orders.size()];
        for (int o = 0; o < orders.size(); o++) {
            Order order = orders.get(o);
            // neither more nor less is one row: what of it moves, moves as one
            boolean exact = least[o] > 0 && order.maxKg() <= least[o];
            orderRows[o] = least[o] > 0
                    ? builder.row(ORDER_ROW + order.id(), least[o], exact ? least[o] : Double.POSITIVE_INFINITY)
                    : -1;
            mostRows[o] = !exact && order.maxKg() < Double.POSITIVE_INFINITY
                    ? builder.row(MOST_ROW + order.id(), Double.NEGATIVE_INFINITY, order.maxKg())
                    : -1;
            shorts[o] = -1;
            if (orderRows[o] >= 0 && !Double.isNaN(shortPrice[o])) {
                shorts[o] = builder.variable("short " + order.id(), 0, least[o], -shortPrice[o]);
                builder.add(orderRows[o], shorts[o], 1);
            }
        }
        options().forEach(option -> option.more.kg.keySet().forEach(pool -> given.kg.putIfAbsent(pool, 0.0)));
        addFlows(builder, orderRows, mostRows);
        addOptions(builder, mostHours);
        draws = new int[stock.size()][orders.size()];
        for (int s = 0; s < stock.size(); s++) {
            Arrays.fill(draws[s], -1);
            OpeningStock lying = stock.get(s);
            int row = builder.row("stock " + (s + 1) + " " + lying.product(), Double.NEGATIVE_INFINITY, lying.kg());
            for (int o = 0; o < orders.size(); o++) {
                if (lying.isFor(orders.get(o))) {
                    draws[s][o] = builder.variable(
                            "stock " + (s + 1) + " to " + orders.get(o).id(),
                            0,
                            Double.POSITIVE_INFINITY,
                            orders.get(o).price());
                    builder.add(row, draws[s][o], 1);
                    toOrder(builder, draws[s][o], orderRows[o], mostRows[o]);
                }
            }
        }
        return builder.build();
    }

    private static void toOrder(LinearProgram.Builder builder, int variable, int orderRow, int mostRow) {
        if (orderRow >= 0) {
            builder.add(orderRow, variable, 1);
        }
        if (mostRow >= 0) {
            builder.add(mostRow, variable, 1);
        }
    }

    private void addFlows(LinearProgram.Builder builder, int[] orderRows, int[] mostRows) {
        int[] fatRows = new int[outlets.minces.size()];
        for (int m = 0; m < fatRows.length; m++) {
            Outlets.MinceKind mince = outlets.minces.get(m);
            fatRows[m] = mince.isLeanTrimAlone()
                    ? -1
                    : builder.row("fat of " + mince.name(outlets.orders) + " " + m, Double.NEGATIVE_INFINITY, 0);
        }
        int number = 0;
        for (Map.Entry<Outlets.Pool, Double> entry : given.kg.entrySet()) {
            Outlets.Pool pool = entry.getKey();
            String name = "pool " + number++;
            Flows of = new Flows(pool);
            flows.put(pool, of);
            of.row = builder.row(name, entry.getValue(), entry.getValue());
            for (int i = 0; i < of.toOrders.length; i++) {
                int o = pool.orders().get(i);
                of.toOrders[i] = builder.variable(
                        name + " to order " + outlets.orders.get(o).id(),
                        0,
                        Double.POSITIVE_INFINITY,
                        outlets.orders.get(o).price());
                builder.add(of.row, of.toOrders[i], 1);
                toOrder(builder, of.toOrders[i], orderRows[o], mostRows[o]);
            }
            for (int i = 0; i < of.intoMinces.length; i++) {
                int m = pool.minces().get(i);
                Outlets.MinceKind mince = outlets.minces.get(m);
                of.intoMinces[i] =
                        builder.variable(name + " into mince " + m, 0, Double.POSITIVE_INFINITY, mince.price);
                builder.add(of.row, of.intoMinces[i], 1);
                if (fatRows[m] >= 0 && pool.fat() != mince.fat) {
                    builder.add(fatRows[m], of.intoMinces[i], pool.fat() - mince.fat);
                }
                if (mince.order >= 0) {
                    toOrder(builder, of.intoMinces[i], orderRows[mince.order], mostRows[mince.order]);
                }
            }
            // what has no price is left over
            double price = pool.price() == null ? 0 : pool.price();
            of.sold = builder.variable(name + " sold", 0, Double.POSITIVE_INFINITY, price);
            builder.add(of.row, of.sold, 1);
        }
    }

    private void addOptions(LinearProgram.Builder builder, double[] mostHours) {
        int[] hourRows = new int[mostHours.length];
        for (int h = 0; h < hourRows.length; h++) {
            // hours that can't be chosen are no matter of the program
            hourRows[h] = mostHours[h] < Double.POSITIVE_INFINITY && !decisions.isEmpty()
                    ? builder.row(
                            h == hourRows.length - 1 ? HOURS_ROW : HOURS_ROW + " at rate " + (h + 1),
                            Double.NEGATIVE_INFINITY,
                            mostHours[h] - given.hours[h])
                    : -1;
        }
        for (int d = 0; d < decisions.size(); d++) {
            // of two options the bounds of the second say all
            int row = decisions.get(d).size() > 1 ? builder.row("decision " + d, Double.NEGATIVE_INFINITY, 1) : -1;
            for (Option option : decisions.get(d)) {
                option.variable = builder.variable(option.name, 0, 1, option.more.amount);
                if (row >= 0) {
                    builder.add(row, option.variable, 1);
                }
                option.more.kg.forEach((pool, kg) -> {
                    if (kg != 0) {
                        builder.add(Objects.requireNonNull(flows.get(pool)).row, option.variable, -kg);
                    }
                });
                for (int h = 0; h < hourRows.length; h++) {
                    if (hourRows[h] >= 0 && option.more.hours[h] != 0) {
                        builder.add(hourRows[h], option.variable, option.more.hours[h]);
                    }
                }
            }
        }
        addShares(builder);
    }

    /** A product that may have a part of a cut has no more than that part of what there is of it. */
    private void addShares(LinearProgram.Builder builder) {
        int number = 0;
        for (Map.Entry<Outlets.Pool, Flows> entry : flows.entrySet()) {
            Outlets.Pool pool = entry.getKey();
            for (Map.Entry<String, Double> share : pool.shares().entrySet()) {
                int row = builder.row(
                        "share " + number++ + " of " + share.getKey(),
                        Double.NEGATIVE_INFINITY,
                        share.getValue() * Objects.requireNonNull(given.kg.get(pool)));
                for (int i = 0; i < pool.orders().size(); i++) {
                    if (outlets.orders.get(pool.orders().get(i)).product().equals(share.getKey())) {
                        builder.add(row, entry.getValue().toOrders[i], 1);
                    }
                }
                options().forEach(option -> {
                    double kg = option.more.kg.getOrDefault(pool, 0.0);
                    if (kg != 0) {
                        builder.add(row, option.variable, -share.getValue() * kg);
                    }
                });
            }
        }
    }

    /** Fractions of the options of a decision. */
    double[] fractions(int decision, LinearSolution solution) {
        List<Option> others = decisions.get(decision);
        double[] fractions = new double[others.size() + 1];
        fractions[0] = 1;
        for (int k = 1; k < fractions.length; k++) {
            fractions[k] = Math.min(1, Math.max(0, solution.value(others.get(k - 1).variable)));
            fractions[0] = Math.max(0, fractions[0] - fractions[k]);
        }
        return fractions;
    }

    /** What one more kg in each pool is worth. */
    Map<Outlets.Pool, Double> worth(LinearSolution solution) {
        Map<Outlets.Pool, Double> worth = new LinkedHashMap<>();
        flows.forEach((pool, of) -> worth.put(pool, solution.multiplier(of.row)));
        return worth;
    }

    /** What an hour more is worth, by rate and behind them of all; 0 where there is no limit. */
    double[] hourWorth(LinearSolution solution, int rates) {
        double[] worth = new double[rates + 1];
        for (int h = 0; h <= rates; h++) {
            String name = h == rates ? HOURS_ROW : HOURS_ROW + " at rate " + (h + 1);
            for (int row = 0; row < solution.program().rows(); row++) {
                if (solution.program().rowName(row).equals(name)) {
                    worth[h] = solution.multiplier(row);
                }
            }
        }
        return worth;
    }

    /** What goes where. */
    Allocation allocation(LinearSolution solution) {
        int orders = outlets.orders.size();
        Allocation allocation = new Allocation(orders, outlets.minces.size(), stock.size());
        flows.forEach((pool, of) -> {
            Allocation.FromPool from = new Allocation.FromPool(orders, outlets.minces.size());
            for (int i = 0; i < of.toOrders.length; i++) {
                from.toOrders()[pool.orders().get(i)] = positive(solution, of.toOrders[i]);
            }
            for (int i = 0; i < of.intoMinces.length; i++) {
                from.intoMinces()[pool.minces().get(i)] = positive(solution, of.intoMinces[i]);
            }
            allocation.add(pool, from, positive(solution, of.sold));
        });
        for (int s = 0; s < draws.length; s++) {
            for (int o = 0; o < orders; o++) {
                if (draws[s][o] >= 0) {
                    allocation.fromStock[s][o] = positive(solution, draws[s][o]);
                }
            }
        }
        for (int o = 0; o < orders; o++) {
            allocation.shortKg[o] = shorts[o] < 0 ? 0 : positive(solution, shorts[o]);
        }
        return allocation;
    }

    private static double positive(LinearSolution solution, int variable) {
        double value = solution.value(variable);
        return value < 1e-9 ? 0 : value;
    }
}
