package org.beefyield.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.beefyield.boning.Product;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.PriceList;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Where what is cut can go: to orders, into mince, or sold at its price. Meat that can go to the same places at the same price is
 * one pool.
 */
final class Outlets {
    /** Mince that is made: for an order, or to be sold at a price of the list. */
    static final class MinceKind {
        /** Number of the order, -1 for a price of the list. */
        final int order;
        /** The most fat, a fraction; not a number where lean trim alone goes in, however fat it is. */
        final double fat;
        /** What a kg brings that no order takes. */
        final double price;

        MinceKind(int order, double fat, double price) {
            this.order = order;
            this.fat = fat;
            this.price = price;
        }

        boolean isLeanTrimAlone() {
            return Double.isNaN(fat);
        }

        String name(List<Order> orders) {
            return order >= 0
                    ? "order " + orders.get(order).id()
                    : isLeanTrimAlone()
                            ? "mince of lean trim alone"
                            : "mince up to " + Numbers.brief(100 * fat) + " % fat";
        }
    }

    /**
     * What can go to the same places at the same price.
     *
     * @param orders numbers of the orders that take it as it is
     * @param minces numbers of the kinds of mince into which it may go
     * @param price what a kg brings that no order takes; null if nobody buys it as it is
     * @param kind kind of cut
     * @param fat fat content of trim, a fraction; not a number of anything else
     * @param shares what of it a product may have, by product, where that isn't all
     */
    record Pool(
            List<Integer> orders,
            List<Integer> minces,
            @Nullable Double price,
            CutKind kind,
            double fat,
            Map<String, Double> shares) {
        boolean isFree() {
            return orders.isEmpty() && minces.isEmpty();
        }
    }

    final List<Order> orders;
    final PriceList prices;
    final List<MinceKind> minces = new ArrayList<>();
    private final List<PlanCut> cuts;
    private final Map<String, Map<String, Double>> productCuts;
    private final List<@Nullable MarketSpecification> specifications = new ArrayList<>();
    private final int[] specificationOf;
    private final Map<List<Boolean>, Integer> takers = new LinkedHashMap<>();
    private final List<List<Boolean>> takerSets = new ArrayList<>();
    private final Map<List<Object>, Pool> known = new HashMap<>();

    Outlets(
            YieldTable table,
            List<PlanCut> cuts,
            PriceList prices,
            List<Order> orders,
            Map<String, Map<String, Double>> productCuts) {
        this.cuts = cuts;
        this.prices = prices;
        this.orders = orders;
        this.productCuts = productCuts;
        this.specificationOf = new int[orders.size()];
        for (int o = 0; o < orders.size(); o++) {
            MarketSpecification specification = orders.get(o).carcasses().orElse(null);
            if (!specifications.contains(specification)) {
                specifications.add(specification);
            }
            specificationOf[o] = specifications.indexOf(specification);
        }
        for (int o = 0; o < orders.size(); o++) {
            if (orders.get(o).isMince()) {
                minces.add(new MinceKind(o, orders.get(o).fat(), orders.get(o).price()));
            }
        }
        prices.mince().forEach((percent, price) -> minces.add(new MinceKind(-1, percent / 100, price)));
        prices.anyMince().ifPresent(price -> minces.add(new MinceKind(-1, Double.NaN, price)));
        checkOrders(table);
    }

    /** By code of a product or cut, the cuts of the last level that go into it, and what of each. */
    static Map<String, Map<String, Double>> productCuts(YieldTable table, List<Product> products) {
        Map<String, Map<String, Double>> cuts = new LinkedHashMap<>();
        List<String> levels = table.levels();
        table.cutsAt(levels.get(levels.size() - 1)).forEach(cut -> cuts.put(cut.code(), Map.of(cut.code(), 1.0)));
        products.forEach(product -> cuts.put(product.code(), product.cuts()));
        return cuts;
    }

    private void checkOrders(YieldTable table) {
        for (Order order : orders) {
            boolean taken = false;
            boolean piecesKnown = false;
            for (PlanCut cut : cuts) {
                for (PlanCut.Way way : cut.ways) {
                    for (Cut child : way.children) {
                        boolean takes = PlanCut.takes(order, cutsOf(order), cut, way, child);
                        taken |= takes;
                        piecesKnown |= takes && cut.hasPieces();
                    }
                }
            }
            if (!taken) {
                throw new IllegalArgumentException("order " + order.id() + ": nothing that table " + table.identity()
                        + " cuts up in a way that has prices becomes " + order.product()
                        + (order.way().isEmpty() ? "" : " as " + order.way())
                        + "; there are " + String.join(", ", sold()) + " and mince");
            }
            if (order.limitsPieces() && !piecesKnown) {
                throw new IllegalArgumentException("order " + order.id() + ": what becomes " + order.product()
                        + " isn't one piece of each side, so that no weight of pieces can be asked of it");
            }
        }
    }

    /** What orders may ask for beside mince. */
    private Set<String> sold() {
        Set<String> sold = new LinkedHashSet<>();
        for (PlanCut cut : cuts) {
            cut.ways.forEach(way -> way.children.forEach(child -> sold.add(child.code())));
        }
        cuts.forEach(cut -> sold.add(cut.code));
        productCuts.forEach((product, of) -> {
            if (!of.containsKey(product)) {
                sold.add(product);
            }
        });
        return sold;
    }

    private Map<String, Double> cutsOf(Order order) {
        return productCuts.getOrDefault(order.product(), Map.of());
    }

    /** The number of the set of specifications that a carcass meets. */
    int takers(Carcass carcass) {
        List<Boolean> set = specifications.stream()
                .map(specification -> specification == null || specification.test(carcass))
                .toList();
        return takers.computeIfAbsent(set, first -> {
            takerSets.add(first);
            return takerSets.size() - 1;
        });
    }

    /** Where a child of a cut that is cut up in a way can go, of carcasses that some orders take, in pieces of a band. */
    Pool pool(int carcassTakers, int p, int w, int c, int band) {
        return known.computeIfAbsent(List.of(carcassTakers, p, w, c, band), key -> {
            PlanCut cut = cuts.get(p);
            PlanCut.Way way = cut.ways.get(w);
            Cut child = way.children.get(c);
            List<Integer> direct = new ArrayList<>();
            List<Integer> minced = new ArrayList<>();
            Map<String, Double> shares = new LinkedHashMap<>();
            for (int o = 0; o < orders.size(); o++) {
                Order order = orders.get(o);
                boolean takes = takerSets.get(carcassTakers).get(specificationOf[o])
                        && PlanCut.takes(order, cutsOf(order), cut, way, child)
                        && (!order.limitsPieces()
                                || (cut.hasPieces()
                                        && cut.bands.get(band).isWithin(order.pieceFromKg(), order.pieceToKg())));
                if (takes && !order.isMince()) {
                    direct.add(o);
                    double share = cutsOf(order).getOrDefault(child.code(), 1.0);
                    if (share < 1) {
                        shares.put(order.product(), share);
                    }
                } else if (takes) {
                    minced.add(minceOf(o));
                }
            }
            return pool(child, direct, minced, shares, cut.fatOfLeanTrim());
        });
    }

    /** Where a cut of the last level can go that comes there without being cut up last. */
    Pool poolBeside(int carcassTakers, Cut cut) {
        List<Integer> minced = new ArrayList<>();
        for (int o = 0; o < orders.size(); o++) {
            Order order = orders.get(o);
            if (order.isMince()
                    && cut.kind() == CutKind.FAT_TRIM
                    && order.way().isEmpty()
                    && !order.limitsPieces()
                    && takerSets.get(carcassTakers).get(specificationOf[o])) {
                minced.add(minceOf(o));
            }
        }
        return pool(cut, List.of(), minced, Map.of(), 0);
    }

    private Pool pool(
            Cut cut, List<Integer> direct, List<Integer> ofOrders, Map<String, Double> shares, double fatOfLeanTrim) {
        boolean lean = cut.kind() == CutKind.LEAN_TRIM;
        boolean fatTrim = cut.kind() == CutKind.FAT_TRIM;
        Double pct = cut.fatPct();
        double fat = lean ? fatOfLeanTrim : fatTrim ? pct == null ? 1 : pct / 100 : Double.NaN;
        List<Integer> into = new ArrayList<>(ofOrders);
        for (int m = 0; (lean || fatTrim) && m < minces.size(); m++) {
            MinceKind mince = minces.get(m);
            if (mince.order < 0 && (lean || !mince.isLeanTrimAlone())) {
                into.add(m);
            }
        }
        return new Pool(
                List.copyOf(direct),
                List.copyOf(into),
                prices.of(cut).orElse(null),
                cut.kind(),
                fat,
                Map.copyOf(shares));
    }

    private int minceOf(int order) {
        for (int m = 0; m < minces.size(); m++) {
            if (minces.get(m).order == order) {
                return m;
            }
        }
        throw new IllegalStateException("no mince of order " + orders.get(order).id());
    }

    /** What a kg of a cut brings that no order takes. */
    static double price(Pool pool) {
        return Objects.requireNonNull(pool.price());
    }
}
