package org.beefyield.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.PriceList;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/** A cut that is cut up last, the ways in which that can be done, and the weights of its pieces that matter. */
final class PlanCut {
    /** One way of cutting it up. */
    static final class Way {
        final String name;
        final YieldEstimator estimator;
        /** What comes of it, cuts of the last level. */
        final List<Cut> children;

        private Way(String name, YieldEstimator estimator, List<Cut> children) {
            this.name = name;
            this.estimator = estimator;
            this.children = List.copyOf(children);
        }
    }

    final String code;
    /** The cut, null if it is the carcass itself. */
    final @Nullable Cut cut;

    final List<Way> ways;
    final List<SizeBand> bands;
    /** The way that the estimator's specification has. */
    final int usual;

    private final List<SizeWindow> windows;

    private PlanCut(
            String code, @Nullable Cut cut, List<Way> ways, int usual, List<SizeBand> bands, List<SizeWindow> windows) {
        this.code = code;
        this.cut = cut;
        this.ways = List.copyOf(ways);
        this.usual = usual;
        this.bands = List.copyOf(bands);
        this.windows = List.copyOf(windows);
    }

    /** What of a carcass it is. */
    CarcassPart part() {
        return cut == null ? CarcassPart.carcass() : CarcassPart.cut(code);
    }

    boolean hasPieces() {
        return cut != null && cut.piecesPerSide() != null;
    }

    /** Fat content of its lean trim, a fraction. */
    double fatOfLeanTrim() {
        Double pct = cut == null ? null : cut.fatPct();
        return pct == null ? 0 : pct / 100;
    }

    /** Number of a way, -1 if it has none of that name. */
    int way(String name) {
        for (int i = 0; i < ways.size(); i++) {
            if (ways.get(i).name.equals(name)) {
                return i;
            }
        }
        return -1;
    }

    /** The way in which pieces of a band go that are to go in a way: another one if a window of that way sends them there. */
    int redirected(int way, SizeBand band) {
        for (SizeWindow window : windows) {
            if (window.isFor(ways.get(way).name) && !band.isWithin(window.fromKg(), window.toKg())) {
                int other = way(window.otherwise());
                return other < 0 ? way : other;
            }
        }
        return way;
    }

    /** Whether an order takes what comes of it as a cut in a way, pieces aside. */
    static boolean takes(Order order, Map<String, Double> productCuts, PlanCut from, Way way, Cut child) {
        if (order.isMince()
                ? child.kind() != CutKind.LEAN_TRIM && child.kind() != CutKind.FAT_TRIM
                : !productCuts.containsKey(child.code()) && !(order.product().equals(from.code) && isMeant(child))) {
            return false;
        }
        return order.way().isEmpty() || order.way().equals(way.name);
    }

    private static boolean isMeant(Cut child) {
        return child.kind() == CutKind.STEAK || child.kind() == CutKind.JOINT || child.kind() == CutKind.DICE;
    }

    /**
     * The cuts of a table that are cut up last.
     *
     * @param base estimator without mince
     * @param prices prices; ways of which something has neither a price nor an order aren't looked at
     * @param unpriced takes what these ways lack
     */
    static List<PlanCut> of(
            YieldEstimator base,
            PriceList prices,
            List<Order> orders,
            Map<String, Map<String, Double>> productCuts,
            List<SizeWindow> windows,
            Map<String, String> unpriced) {
        YieldTable table = base.table();
        TableDefinition definition = table.definition();
        List<String> levels = table.levels();
        String last = levels.get(levels.size() - 1);
        Map<String, Cut> lastCuts = new LinkedHashMap<>();
        table.cutsAt(last).forEach(cut -> lastCuts.put(cut.code(), cut));
        List<String> parents = new ArrayList<>();
        if (levels.size() == 1) {
            parents.add(BreakdownRow.ROOT);
        } else {
            table.cutsAt(levels.get(levels.size() - 2)).stream()
                    .map(Cut::code)
                    .filter(code -> hasRows(definition, code))
                    .forEach(parents::add);
        }
        List<PlanCut> cuts = new ArrayList<>();
        for (String parent : parents) {
            Set<String> names = table.ways(parent);
            String usualName = base.specification().ways().get(parent);
            List<Way> ways = new ArrayList<>();
            PlanCut named = new PlanCut(
                    parent,
                    parent.equals(BreakdownRow.ROOT) ? null : table.catalogue().cut(parent),
                    List.of(),
                    0,
                    List.of(),
                    List.of());
            for (String name : names.isEmpty() ? Set.of(BreakdownRow.ANY) : names) {
                boolean usual = names.isEmpty() || name.equals(usualName);
                Way way = new Way(
                        name,
                        usual ? base : base.with(parent, name),
                        children(definition, parent, name).stream()
                                .map(lastCuts::get)
                                .filter(Objects::nonNull)
                                .toList());
                List<String> missing = way.children.stream()
                        .filter(child -> prices.of(child).isEmpty() && !isMinced(prices, child))
                        .filter(child -> orders.stream()
                                .noneMatch(order -> takes(
                                        order, productCuts.getOrDefault(order.product(), Map.of()), named, way, child)))
                        .map(Cut::code)
                        .toList();
                if (missing.isEmpty()) {
                    ways.add(way);
                } else if (usual) {
                    throw new IllegalArgumentException("no price for " + String.join(", ", missing) + " of " + parent
                            + (names.isEmpty() ? "" : " as " + name) + "; what no order takes needs one");
                } else {
                    unpriced.put(parent + " as " + name, "no price for " + String.join(", ", missing));
                }
            }
            List<SizeWindow> own = windows.stream()
                    .filter(window ->
                            window.cut().equals(parent) && !window.otherwise().isEmpty())
                    .toList();
            PlanCut cut = new PlanCut(parent, named.cut, ways, 0, List.of(), own);
            TreeSet<Double> limits = new TreeSet<>();
            if (named.hasPieces()) {
                own.forEach(window -> limits.addAll(List.of(window.fromKg(), window.toKg())));
                orders.stream()
                        .filter(order -> order.limitsPieces()
                                && ways.stream()
                                        .anyMatch(way -> way.children.stream()
                                                .anyMatch(child -> takes(
                                                        order,
                                                        productCuts.getOrDefault(order.product(), Map.of()),
                                                        named,
                                                        way,
                                                        child))))
                        .forEach(order -> limits.addAll(List.of(order.pieceFromKg(), order.pieceToKg())));
            }
            cuts.add(new PlanCut(
                    parent,
                    named.cut,
                    ways,
                    names.isEmpty() ? 0 : cut.way(Objects.requireNonNull(usualName)),
                    SizeBand.between(limits),
                    own));
        }
        return cuts;
    }

    private static boolean hasRows(TableDefinition definition, String parent) {
        return parents(definition).anyMatch(parent::equals);
    }

    private static Stream<String> parents(TableDefinition definition) {
        return Stream.concat(
                definition.breakdown().stream().map(BreakdownRow::parent),
                definition.breakdownByClass().stream().map(row -> row.parent()));
    }

    private static Set<String> children(TableDefinition definition, String parent, String way) {
        Set<String> children = new TreeSet<>();
        definition.breakdown().stream()
                .filter(row -> row.parent().equals(parent) && isOf(row.way(), way))
                .forEach(row -> children.add(row.cut()));
        definition.breakdownByClass().stream()
                .filter(row -> row.parent().equals(parent) && isOf(row.way(), way))
                .forEach(row -> children.add(row.cut()));
        return children;
    }

    private static boolean isOf(String rowWay, String way) {
        return rowWay.equals(way) || rowWay.equals(BreakdownRow.ANY);
    }

    /** Lean trim without a price of its own may be sold as mince, whatever its fat. */
    private static boolean isMinced(PriceList prices, Cut cut) {
        return cut.kind() == CutKind.LEAN_TRIM && prices.anyMince().isPresent();
    }
}
