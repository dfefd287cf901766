package org.beefyield.estimate;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToIntFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.grid.PowerSums;
import org.beefyield.grid.YieldGrid;
import org.jspecify.annotations.Nullable;

/**
 * Power sums of carcass weights, by category, node and width of the grades: all that totals and their uncertainty need,
 * however many carcasses there are. A grade between nodes counts at each of them with its bilinear weight, variance too.
 */
final class Moments {
    /**
     * Where a carcass, or its part, counts.
     *
     * @param category category
     * @param node number of the node
     * @param conformationWidth positions that the grade as written covers
     * @param fatWidth positions that the grade as written covers
     * @serial exclude
     */
    record Key(Category category, int node, double conformationWidth, double fatWidth) implements Serializable {}

    /**
     * Where carcasses of one lot or run count: there the width of the grades makes no difference.
     *
     * @param category category
     * @param node number of the node
     * @serial exclude
     */
    record Cell(Category category, int node) implements Serializable {}

    /** Sums of carcasses that have an error in common, by what they have in common. */
    static final class Shared<K extends Comparable<K> & Serializable> {
        private final Map<K, Map<Cell, PowerSums>> sums = new HashMap<>();
        private final int powers;

        Shared(int powers) {
            this.powers = powers;
        }

        Map<Cell, PowerSums> of(K key) {
            return sums.computeIfAbsent(key, k -> new HashMap<>());
        }

        PowerSums at(Map<Cell, PowerSums> ofKey, Cell cell) {
            return ofKey.computeIfAbsent(cell, c -> new PowerSums(powers));
        }

        void add(K key, Category category, int node, PowerSums more) {
            at(of(key), new Cell(category, node)).add(more);
        }

        void add(Map<K, Map<Cell, PowerSums>> others) {
            others.forEach((key, cells) -> {
                Map<Cell, PowerSums> own = of(key);
                cells.forEach((cell, more) -> at(own, cell).add(more));
            });
        }

        Map<K, Map<Cell, PowerSums>> form() {
            Map<K, Map<Cell, PowerSums>> form = new HashMap<>();
            sums.forEach((key, cells) -> form.put(key, new HashMap<>(cells)));
            return form;
        }

        int keys() {
            return sums.size();
        }
    }

    /** Carcasses of one category at several nodes: at each, sums of w t^j, by j. */
    static final class Weighed {
        private final Category category;
        private final int[] nodes;
        private final double[][] sums;

        Weighed(Category category, int[] nodes, double[][] sums) {
            this.category = category;
            this.nodes = nodes;
            this.sums = sums;
        }

        Category category() {
            return category;
        }

        /** Not to be changed, as the sums. */
        int[] nodes() {
            return nodes;
        }

        double[][] sums() {
            return sums;
        }
    }

    /** The same of all carcasses and of those that have errors in common: what many figures are asked of. */
    final class Weights {
        /** By category. */
        final List<Weighed> all;

        final SortedMap<LotKey, List<Weighed>> lots;
        final SortedMap<RunKey, List<Weighed>> runs;
        /** By hall, null for the one that the caller doesn't name. */
        final SortedMap<@Nullable String, List<Weighed>> halls;

        Weights() {
            int powers = model.anyGrid().coefficients();
            SortedMap<Cell, double[]> cells = new TreeMap<>(CELL_ORDER);
            for (Map.Entry<Key, PowerSums> entry : inOrder()) {
                Cell cell = new Cell(entry.getKey().category(), entry.getKey().node());
                add(cells, cell, entry.getValue().timesWeight(powers + 1, referenceWeightKg));
            }
            all = list(cells);
            lots = new TreeMap<>();
            SortedMap<RunKey, SortedMap<Cell, double[]>> byRun = new TreeMap<>();
            Moments.this.lots.sums.forEach((lot, ofLot) -> lots.put(lot, list(sharing(ofLot, powers))));
            Moments.this.runs.sums.forEach((run, ofRun) -> byRun.put(run, sharing(ofRun, powers)));
            runs = new TreeMap<>();
            SortedMap<@Nullable String, SortedMap<Cell, double[]>> byHall = new TreeMap<>(LotKey.nullsFirst());
            byRun.forEach((run, ofRun) -> {
                runs.put(run, list(ofRun));
                SortedMap<Cell, double[]> ofHall =
                        byHall.computeIfAbsent(run.hall(), hall -> new TreeMap<>(CELL_ORDER));
                ofRun.forEach((cell, sums) -> add(ofHall, cell, sums.clone()));
            });
            halls = new TreeMap<>(LotKey.nullsFirst());
            byHall.forEach((hall, ofHall) -> halls.put(hall, list(ofHall)));
        }

        /** Categories in which they do the same count as one. */
        private SortedMap<Cell, double[]> sharing(Map<Cell, PowerSums> cells, int powers) {
            SortedMap<Cell, double[]> sharing = new TreeMap<>(CELL_ORDER);
            cells.entrySet().stream()
                    .sorted(Map.Entry.comparingByKey(CELL_ORDER))
                    .forEach(entry -> add(
                            sharing,
                            new Cell(
                                    model.alike(entry.getKey().category()),
                                    entry.getKey().node()),
                            entry.getValue().timesWeight(powers, referenceWeightKg)));
            return sharing;
        }

        private static void add(SortedMap<Cell, double[]> cells, Cell cell, double[] more) {
            double[] sums = cells.putIfAbsent(cell, more);
            for (int j = 0; sums != null && j < sums.length; j++) {
                sums[j] += more[j];
            }
        }

        private static List<Weighed> list(SortedMap<Cell, double[]> cells) {
            Map<Category, List<Map.Entry<Cell, double[]>>> byCategory = new EnumMap<>(Category.class);
            cells.entrySet()
                    .forEach(entry -> byCategory
                            .computeIfAbsent(entry.getKey().category(), category -> new ArrayList<>())
                            .add(entry));
            List<Weighed> list = new ArrayList<>(byCategory.size());
            byCategory.forEach((category, of) -> list.add(new Weighed(
                    category,
                    of.stream().mapToInt(entry -> entry.getKey().node()).toArray(),
                    of.stream().map(Map.Entry::getValue).toArray(double[][]::new))));
            return list;
        }
    }

    private static final Comparator<Key> ORDER = Comparator.comparing(Key::category)
            .thenComparingInt(Key::node)
            .thenComparingDouble(Key::conformationWidth)
            .thenComparingDouble(Key::fatWidth);

    private static final Comparator<Cell> CELL_ORDER =
            Comparator.comparing(Cell::category).thenComparingInt(Cell::node);

    private final Model model;
    private final int powers;
    private final double referenceWeightKg;
    private final Map<Key, PowerSums> sums = new HashMap<>();
    /** Of carcasses of one lot, if the table has them err together. */
    private final Shared<LotKey> lots;
    /** Of carcasses of one run, if the table or the scale has them err together. */
    private final Shared<RunKey> runs;

    private List<Map.Entry<Key, PowerSums>> ordered = List.of();
    private @Nullable Weights weights;

    Moments(Model model) {
        this.model = model;
        YieldGrid grid = model.anyGrid();
        // squares of shares, times the square of the weight
        this.powers = 2 * (grid.coefficients() - 1) + 3;
        this.referenceWeightKg = grid.referenceWeightKg();
        // shares, times the weight
        this.lots = new Shared<>(grid.coefficients() + 1);
        this.runs = new Shared<>(grid.coefficients() + 1);
    }

    void add(Carcass carcass) {
        add(carcass, LotKey.of(carcass), RunKey.of(carcass));
    }

    void add(Carcass carcass, LotKey lot, RunKey run) {
        double t = (carcass.coldWeightKg() - referenceWeightKg) / 100;
        Map<Cell, PowerSums> ofLot = model.keepsLots() ? lots.of(lot) : Map.of();
        Map<Cell, PowerSums> ofRun = model.keepsRuns() ? runs.of(run) : Map.of();
        model.grid(carcass.category())
                .nodes()
                .corners(carcass.conformation().position(), carcass.fatClass().position(), (node, weight) -> {
                    sums.computeIfAbsent(
                                    new Key(
                                            carcass.category(),
                                            node,
                                            carcass.conformation().width(),
                                            carcass.fatClass().width()),
                                    key -> new PowerSums(powers))
                            .add(t, weight);
                    Cell cell = new Cell(carcass.category(), node);
                    if (model.keepsLots()) {
                        lots.at(ofLot, cell).add(t, weight);
                    }
                    if (model.keepsRuns()) {
                        runs.at(ofRun, cell).add(t, weight);
                    }
                });
    }

    /** Adds power sums of carcasses at a node. */
    void add(Key node, PowerSums ofNode) {
        sums.computeIfAbsent(node, key -> new PowerSums(powers)).add(ofNode);
    }

    /** Adds power sums of carcasses of one lot at a node, which count in the total already. */
    void add(LotKey lot, Category category, int node, PowerSums ofNode) {
        if (model.keepsLots()) {
            lots.add(lot, category, node, ofNode);
        }
    }

    /** Adds power sums of carcasses of one run at a node, which count in the total already. */
    void add(RunKey run, Category category, int node, PowerSums ofNode) {
        if (model.keepsRuns()) {
            runs.add(run, category, node, ofNode);
        }
    }

    /** Lots that are kept apart, 0 if none are. */
    int lots() {
        return lots.keys();
    }

    /** Runs that are kept apart, 0 if none are. */
    int runs() {
        return runs.keys();
    }

    int powers() {
        return powers;
    }

    void add(Moments other) {
        add(other.sums, other.lots.sums, other.runs.sums);
    }

    private void add(
            Map<Key, PowerSums> ofAll,
            Map<LotKey, Map<Cell, PowerSums>> ofLots,
            Map<RunKey, Map<Cell, PowerSums>> ofRuns) {
        ofAll.forEach(this::add);
        lots.add(ofLots);
        runs.add(ofRuns);
    }

    /** Whether these are of the same carcasses as far as anything is kept of them, to the last bit. */
    boolean holdsTheSameAs(Moments other) {
        return sums.equals(other.sums) && lots.sums.equals(other.lots.sums) && runs.sums.equals(other.runs.sums);
    }

    /**
     * All that is needed to make moments again, for the same model.
     *
     * @param sums of all carcasses
     * @param lots of the carcasses of each lot
     * @param runs of the carcasses of each run
     * @serial exclude
     */
    record Form(
            Map<Key, PowerSums> sums, Map<LotKey, Map<Cell, PowerSums>> lots, Map<RunKey, Map<Cell, PowerSums>> runs)
            implements Serializable {}

    Form form() {
        return new Form(new HashMap<>(sums), lots.form(), runs.form());
    }

    /**
     * Adds what stands in a form.
     *
     * @throws IllegalArgumentException if it is none of these moments
     */
    void addForm(Form form) {
        form.sums().forEach((key, theirs) -> check(key.category(), key.node(), theirs, powers));
        form.lots()
                .values()
                .forEach(cells ->
                        cells.forEach((cell, theirs) -> check(cell.category(), cell.node(), theirs, lots.powers)));
        form.runs()
                .values()
                .forEach(cells ->
                        cells.forEach((cell, theirs) -> check(cell.category(), cell.node(), theirs, runs.powers)));
        add(form.sums(), form.lots(), form.runs());
    }

    /** Refuses a node or category that the table doesn't have. */
    private void check(Category category, int node, PowerSums theirs, int length) {
        if (!model.grid(category).nodes().contains(node) || !theirs.has(length)) {
            throw new IllegalArgumentException("power sums of another table");
        }
    }

    /** Always in one order, so that results don't depend on that of the carcasses. Keys only ever come, so sorted once. */
    private List<Map.Entry<Key, PowerSums>> inOrder() {
        List<Map.Entry<Key, PowerSums>> entries = ordered;
        if (entries.size() != sums.size()) {
            entries = sums.entrySet().stream()
                    .sorted(Map.Entry.comparingByKey(ORDER))
                    .toList();
            ordered = entries;
        }
        return entries;
    }

    /** The total cold weight, kg. */
    double coldWeightKg() {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += entry.getValue().of(new double[] {referenceWeightKg, 100});
        }
        return total;
    }

    /** The sum of all carcasses' positions: of one between nodes the nodes' bilinear weights give its own. */
    private double positions(ToIntFunction<Key> position) {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += position.applyAsInt(entry.getKey()) * entry.getValue().of(new double[] {1});
        }
        return total;
    }

    double conformationPositions() {
        return positions(key -> model.nodes().conformation(key.node()));
    }

    double fatPositions() {
        return positions(key -> model.nodes().fat(key.node()));
    }

    /** Total kg of every slot, and behind them of the fat in the lean trim. */
    double[] kgBySlot() {
        double[] kg = new double[model.anyGrid().length()];
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            Key key = entry.getKey();
            YieldGrid grid = model.grid(key.category());
            grid.addSums(key.node(), entry.getValue().timesWeight(grid.coefficients(), referenceWeightKg), kg);
        }
        return kg;
    }

    Model model() {
        return model;
    }

    double referenceWeightKg() {
        return referenceWeightKg;
    }

    List<Map.Entry<Key, PowerSums>> entries() {
        return inOrder();
    }

    /** Worked out once; carcasses are added before anything is asked. */
    Weights weights() {
        Weights known = weights;
        if (known == null) {
            known = new Weights();
            weights = known;
        }
        return known;
    }

    /** By run, where it counts. */
    Map<RunKey, Map<Cell, PowerSums>> sumsByRun() {
        return runs.sums;
    }
}
