package org.beefyield.plan;

import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.boning.Product;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.LinearSolver;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.PriceList;
import org.beefyield.table.CuttingSpecification;

/** What a planner was given, checked, and what follows from that before any carcass is known. Immutable. */
final class PlanSetting {
    private final YieldEstimator estimator;
    private final PriceList prices;
    private final List<Order> orders;
    private final List<OpeningStock> stock;
    private final List<LabourRate> labour;
    private final double hours;
    private final double hourPrice;
    private final PlanFreedom freedom;
    private final double margin;
    private final double promised;
    private final int cells;
    private final CheckedSolver solver;
    private final List<PlanCut> cuts;
    private final Map<String, String> unpriced;
    private final Map<String, Map<String, Double>> productCuts;
    private final List<Cut> lastCuts;

    private PlanSetting(PlanSetting like, PlanFreedom freedom) {
        this.estimator = like.estimator;
        this.prices = like.prices;
        this.orders = like.orders;
        this.stock = like.stock;
        this.labour = like.labour;
        this.hours = like.hours;
        this.hourPrice = like.hourPrice;
        this.freedom = freedom;
        this.margin = like.margin;
        this.promised = like.promised;
        this.cells = like.cells;
        this.solver = like.solver;
        this.cuts = like.cuts;
        this.unpriced = like.unpriced;
        this.productCuts = like.productCuts;
        this.lastCuts = like.lastCuts;
    }

    PlanSetting(
            YieldEstimator estimator,
            PriceList prices,
            LinearSolver solver,
            List<Order> orders,
            List<OpeningStock> stock,
            List<LabourRate> labour,
            double hours,
            double hourPrice,
            List<SizeWindow> windows,
            List<Product> products,
            PlanFreedom freedom,
            double margin,
            double promised,
            int cells) {
        // the plan makes its own mince
        this.estimator = estimator.withoutMince();
        this.prices = prices;
        this.orders = orders;
        this.stock = stock;
        this.labour = labour;
        this.hours = hours;
        this.hourPrice = hourPrice;
        this.freedom = freedom;
        this.margin = margin;
        this.promised = promised;
        this.cells = cells;
        this.solver = CheckedSolver.of(solver);
        List<String> levels = estimator.table().levels();
        this.lastCuts = List.copyOf(estimator.table().cutsAt(levels.get(levels.size() - 1)));
        this.productCuts = Outlets.productCuts(estimator.table(), products);
        this.unpriced = new LinkedHashMap<>();
        this.cuts = PlanCut.of(this.estimator, prices, orders, productCuts, windows, unpriced);
        checkNames();
        outlets();
    }

    private void checkNames() {
        Set<String> ids = new HashSet<>();
        for (Order order : orders) {
            if (!ids.add(order.id())) {
                throw new IllegalArgumentException("two orders have the number " + order.id());
            }
        }
        Set<String> ways = cuts.stream()
                .flatMap(cut -> cut.ways.stream().map(way -> way.name))
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> codes = cuts.stream().map(cut -> cut.code).collect(Collectors.toCollection(TreeSet::new));
        for (LabourRate rate : labour) {
            if (!rate.cut().equals(LabourRate.ANY) && !codes.contains(rate.cut())) {
                throw new IllegalArgumentException("a labour rate is for " + rate.cut()
                        + ", which isn't cut up last; these are: " + String.join(", ", codes));
            }
            if (!rate.way().equals(LabourRate.ANY) && !ways.contains(rate.way())) {
                throw new IllegalArgumentException("a labour rate is for " + rate.cut() + " as " + rate.way()
                        + "; ways that have prices are: " + String.join(", ", ways));
            }
        }
    }

    PlanSetting choosing(PlanFreedom chosen) {
        return new PlanSetting(this, chosen);
    }

    Outlets outlets() {
        return new Outlets(estimator.table(), cuts, prices, orders, productCuts);
    }

    /** The fixed specification and those of the table, as far as all that comes of them has a price. */
    List<CuttingSpecification> specifications() {
        return Stream.concat(Stream.of(estimator.specification()), estimator.table().specifications().stream())
                .filter(this::isPriced)
                .distinct()
                .toList();
    }

    private boolean isPriced(CuttingSpecification specification) {
        return cuts.stream().allMatch(cut -> {
            String name = specification.ways().get(cut.code);
            return name == null || cut.way(name) >= 0;
        });
    }

    YieldEstimator estimator() {
        return estimator;
    }

    PriceList prices() {
        return prices;
    }

    List<Order> orders() {
        return orders;
    }

    List<OpeningStock> stock() {
        return stock;
    }

    List<LabourRate> labour() {
        return labour;
    }

    double hours() {
        return hours;
    }

    double hourPrice() {
        return hourPrice;
    }

    PlanFreedom freedom() {
        return freedom;
    }

    double margin() {
        return margin;
    }

    double promised() {
        return promised;
    }

    int cells() {
        return cells;
    }

    LinearSolver solver() {
        return solver;
    }

    List<PlanCut> cuts() {
        return cuts;
    }

    Map<String, String> unpriced() {
        return Collections.unmodifiableMap(unpriced);
    }

    Map<String, Map<String, Double>> productCuts() {
        return productCuts;
    }

    List<Cut> lastCuts() {
        return lastCuts;
    }
}
