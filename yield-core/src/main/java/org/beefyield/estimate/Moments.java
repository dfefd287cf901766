package org.beefyield.estimate;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.function.IntUnaryOperator;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
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
            SortedMap<Integer, double[]> cells = new TreeMap<>();
            for (Map.Entry<Key, PowerSums> entry : inOrder()) {
                double[] more = entry.getValue().timesWeight(powers + 1, referenceWeightKg);
                double[] known = cells.putIfAbsent(
                        cell(entry.getKey().category(), entry.getKey().node()), more);
                for (int j = 0; known != null && j < known.length; j++) {
                    known[j] += more[j];
                }
            }
            all = list(
                    cells.keySet().stream().mapToInt(cell -> cell).toArray(),
                    cells.values().toArray(double[][]::new));
            lots = model.keepsLots() ? by(Group.Key::lot, Comparator.naturalOrder()) : new TreeMap<>();
            runs = model.keepsRuns() ? by(Group.Key::run, Comparator.naturalOrder()) : new TreeMap<>();
            halls = model.keepsRuns()
                    ? by(key -> key.run().hall(), LotKey.nullsFirst())
                    : new TreeMap<>(LotKey.nullsFirst());
        }

        private <K extends @Nullable Object> SortedMap<K, List<Weighed>> by(
                Function<Group.Key, K> sharing, Comparator<? super K> order) {
            SortedMap<K, List<Weighed>> weighed = new TreeMap<>(order);
            forEach(sharing, order, (key, sums) -> weighed.put(key, list(sums)));
            return weighed;
        }

        private List<Weighed> list(Group.Sums sums) {
            int[] cells = sums.cells();
            double[][] weighed = new double[cells.length][model.anyGrid().coefficients()];
            for (int i = 0; i < cells.length; i++) {
                for (int j = 0; j < weighed[i].length; j++) {
                    weighed[i][j] = referenceWeightKg * sums.of(cells[i], j) + 100 * sums.of(cells[i], j + 1);
                }
            }
            return list(cells, weighed);
        }

        private List<Weighed> list(int[] cells, double[][] sums) {
            List<Weighed> list = new ArrayList<>();
            int from = 0;
            while (from < cells.length) {
                Category category = category(cells[from]);
                int to = from + 1;
                while (to < cells.length && category(cells[to]) == category) {
                    to++;
                }
                int[] ofCategory = new int[to - from];
                Arrays.setAll(ofCategory, fromFirst(cells, from));
                list.add(new Weighed(category, ofCategory, Arrays.copyOfRange(sums, from, to)));
                from = to;
            }
            return list;
        }

        private IntUnaryOperator fromFirst(int[] cells, int from) {
            return i -> node(cells[from + i]);
        }
    }

    private static final Comparator<Key> ORDER = Comparator.comparing(Key::category)
            .thenComparingInt(Key::node)
            .thenComparingDouble(Key::conformationWidth)
            .thenComparingDouble(Key::fatWidth);

    private final Model model;
    private final CarcassPart part;
    private final int powers;
    private final double referenceWeightKg;
    private final Map<Key, PowerSums> sums = new HashMap<>();
    /** Carcasses by what they have in common that errs, if the table or the scale has any err together. */
    private Groups groups;
    /** Whether other moments have them too, so that they aren't changed. */
    private boolean groupsAreShared;

    private final List<Category> categories;

    private List<Map.Entry<Key, PowerSums>> ordered = List.of();
    private @Nullable Weights weights;

    Moments(Model model) {
        this(model, CarcassPart.carcass());
    }

    /** Of carcasses of which a part is taken; what is kept of them is the same. */
    Moments(Model model, CarcassPart part) {
        this.model = model;
        this.part = part;
        YieldGrid grid = model.anyGrid();
        // squares of shares, times the square of the weight
        this.powers = 2 * (grid.coefficients() - 1) + 3;
        this.referenceWeightKg = grid.referenceWeightKg();
        this.categories = List.copyOf(model.categories());
        this.groups = new Groups(model);
    }

    /** Number of categories and nodes together. */
    int cells() {
        return categories.size() * model.nodes().size();
    }

    /** A category and a node as one number. */
    int cell(Category category, int node) {
        return categories.indexOf(category) * model.nodes().size() + node;
    }

    Category category(int cell) {
        return categories.get(cell / model.nodes().size());
    }

    int node(int cell) {
        return cell % model.nodes().size();
    }

    void add(Carcass carcass) {
        add(carcass, LotKey.of(carcass), RunKey.of(carcass));
    }

    void add(Carcass carcass, LotKey lot, RunKey run) {
        double t = (carcass.coldWeightKg() - referenceWeightKg) / 100;
        @Nullable Group group = keepsGroups() ? group(new Group.Key(lot, run)) : null;
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
                    if (group != null) {
                        group.add(cell(carcass.category(), node), t, weight);
                    }
                });
    }

    /** Adds power sums of carcasses at a node. */
    void add(Key node, PowerSums ofNode) {
        sums.computeIfAbsent(node, key -> new PowerSums(powers)).add(ofNode);
    }

    /** Whether any carcasses err together, by lot, run or hall. */
    boolean keepsGroups() {
        return model.keepsLots() || model.keepsRuns();
    }

    /** A group to which carcasses can be added, which count in the total already. */
    Group group(Group.Key key) {
        return ownGroups().at(key);
    }

    /** Adds rows to their groups, which count in the total already; nobody changes them any more. */
    void add(WrittenRows rows) {
        ownGroups().add(rows);
    }

    private Groups ownGroups() {
        if (groupsAreShared) {
            groups = groups.copy();
            groupsAreShared = false;
        }
        return groups;
    }

    /** Lots that are kept apart, 0 if none are. */
    int lots() {
        return model.keepsLots() ? count(Group.Key::lot) : 0;
    }

    /** Runs that are kept apart, 0 if none are. */
    int runs() {
        return model.keepsRuns() ? count(Group.Key::run) : 0;
    }

    private int count(Function<Group.Key, ?> sharing) {
        return groups.sorted().keySet().stream()
                .map(sharing)
                .collect(Collectors.toSet())
                .size();
    }

    int powers() {
        return powers;
    }

    void add(Moments other) {
        other.sums.forEach(this::add);
        if (groups.isEmpty()) {
            groups = other.groups;
            groupsAreShared = true;
            other.groupsAreShared = true;
        } else {
            ownGroups().add(other.groups);
        }
    }

    /** What is taken of each carcass. */
    CarcassPart part() {
        return part;
    }

    /** Whether two outturns are of the same carcasses, whatever part of them, as far as anything is kept of them. */
    static boolean holdTheSame(List<Moments> some, List<Moments> others) {
        return some.size() == others.size()
                && IntStream.range(0, some.size()).allMatch(i -> some.get(i).holdsTheSameAs(others.get(i)));
    }

    /** Whether these are of the same carcasses as far as anything is kept of them, to the last bit. */
    boolean holdsTheSameAs(Moments other) {
        return sums.equals(other.sums) && groups.sorted().equals(other.groups.sorted());
    }

    /**
     * All that is needed to make moments again, for the same model.
     *
     * @param sums of all carcasses
     * @param groups carcasses by what they have in common
     * @serial exclude
     */
    record Form(Map<Key, PowerSums> sums, Map<Group.Key, Group> groups) implements Serializable {}

    Form form() {
        return new Form(new HashMap<>(sums), new HashMap<>(groups.copy().sorted()));
    }

    /**
     * Adds what stands in a form.
     *
     * @throws IllegalArgumentException if it is none of these moments
     */
    void addForm(Form form) {
        form.sums().forEach((key, theirs) -> check(contains(key.category(), key.node()) && theirs.has(powers)));
        form.groups()
                .values()
                .forEach(group -> check(group.isOf(
                        cells(),
                        model.anyGrid().coefficients() + 1,
                        cell -> cell >= 0 && cell < cells() && contains(category(cell), node(cell)))));
        form.sums().forEach(this::add);
        form.groups().forEach((key, group) -> group(key).add(group));
    }

    /** Whether the table has a node. */
    private boolean contains(Category category, int node) {
        return model.grid(category).nodes().contains(node);
    }

    private static void check(boolean ofThisTable) {
        if (!ofThisTable) {
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
            YieldGrid grid = model.grid(key.category(), part);
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

    /**
     * Goes through what carcasses have in common, in order, with their sums by cell, where categories in which they do the same
     * count as one. The next sums stand in the same room.
     */
    <K extends @Nullable Object> void forEach(
            Function<Group.Key, K> sharing, Comparator<? super K> order, BiConsumer<K, Group.Sums> visitor) {
        SortedMap<K, List<Group>> byKey = new TreeMap<>(order);
        groups.sorted().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(entry -> byKey.computeIfAbsent(sharing.apply(entry.getKey()), key -> new ArrayList<>(1))
                        .add(entry.getValue()));
        int[] alike = new int[cells()];
        Arrays.setAll(alike, cell -> cell(model.alike(category(cell)), node(cell)));
        Group.Sums sums = new Group.Sums(cells(), model.anyGrid().coefficients() + 1);
        byKey.forEach((key, ofKey) -> {
            ofKey.forEach(group -> group.addTo(sums, cell -> alike[cell]));
            visitor.accept(key, sums);
            sums.clear();
        });
    }
}
