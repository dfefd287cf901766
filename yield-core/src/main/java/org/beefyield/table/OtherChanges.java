package org.beefyield.table;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.table.TableChange.Kind;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What two tables that have the same cuts say otherwise, shares apart. Rows are compared by what they do: for each category,
 * breakdown, way and child the row that serves it in one table with the one that serves it in the other. So the order of
 * rows, categories spelled out or not, another reference carcass and rewritten terms are no change.
 */
final class OtherChanges {
    /** Figures that differ by less, or by this part of them, are the same. */
    private static final double SAME = 1e-9;

    private static final double UNMEASURED = Double.POSITIVE_INFINITY;
    private static final String NONE = "none";

    private final TableDefinition first;
    private final TableDefinition second;
    private final CompiledTable ofFirst;
    private final CompiledTable ofSecond;
    private final WayChoices own;
    private final WayChoices other;
    private final Nodes nodes;
    private final Set<SharedBy> stated = new LinkedHashSet<>();
    private final RowIndex indexOfFirst;
    private final RowIndex indexOfSecond;
    private final List<Category> categories;
    /** Codes of the cuts that both tables have. */
    private final Set<String> both = new HashSet<>();

    private final List<TableChange> changes = new ArrayList<>();
    private final Map<Place, List<Seen>> seen = new LinkedHashMap<>();

    /** What is compared, in every category and at every node where it stands. */
    private record Place(Kind kind, String what) {}

    /** One place where something differs; the node is below 0 if it is the same at all. */
    private record Seen(Category category, int node, String before, String after, double size) {}

    private OtherChanges(YieldTable first, YieldTable second, WayChoices own, WayChoices other, Nodes nodes) {
        this.first = first.definition();
        this.second = second.definition();
        this.ofFirst = first.unwrap(CompiledTable.class);
        this.ofSecond = second.unwrap(CompiledTable.class);
        this.own = own;
        this.other = other;
        this.nodes = nodes;
        this.indexOfFirst = new RowIndex(this.first);
        this.indexOfSecond = new RowIndex(this.second);
        this.categories = new ArrayList<>(this.first.categories());
        categories.retainAll(this.second.categories());
        this.first.cuts().forEach(cut -> both.add(cut.code()));
        both.retainAll(this.second.cuts().stream().map(Cut::code).toList());
        for (SharedBy by : SharedBy.values()) {
            if (first.states(by) && second.states(by)) {
                stated.add(by);
            } else if (first.states(by) || second.states(by)) {
                add(
                        Kind.SHARED_SDS,
                        TableColumn.sharedSd(by),
                        first.states(by) ? "stated" : "not stated",
                        first.states(by) ? "not stated" : "stated",
                        UNMEASURED);
            }
        }
    }

    /**
     * @param own ways to choose from, as the first table calls them
     * @param other the same as the second calls them
     * @param nodes the nodes that both tables have
     */
    static List<TableChange> of(YieldTable first, YieldTable second, WayChoices own, WayChoices other, Nodes nodes) {
        OtherChanges all = new OtherChanges(first, second, own, other, nodes);
        all.compareRows();
        all.flush();
        all.compareStatements();
        all.compareCuts();
        all.compareSpecifications(first.specifications(), second.specifications());
        all.compareQuarterings();
        all.compareExpectations();
        all.compareSources();
        all.compareColumns();
        all.compareDescriptions();
        return all.changes.stream()
                .sorted(Comparator.comparing(TableChange::kind))
                .toList();
    }

    private void add(Kind kind, String what, String before, String after, double size) {
        changes.add(new TableChange(kind, what, before, after, size));
    }

    private void compare(Kind kind, String what, @Nullable Object before, @Nullable Object after) {
        if (!Objects.equals(before, after)) {
            add(kind, what, words(before), words(after), UNMEASURED);
        }
    }

    private static String words(@Nullable Object value) {
        return value == null || value.toString().isEmpty()
                ? NONE
                : value instanceof Double number ? figure(number) : value.toString();
    }

    private static String figure(double value) {
        return Numbers.exact(Math.rint(value * 1e6) / 1e6);
    }

    private static boolean same(double a, double b) {
        return Math.abs(a - b) <= SAME * Math.max(1, Math.max(Math.abs(a), Math.abs(b)));
    }

    private static double percent(double before, double after) {
        return before == 0 ? UNMEASURED : 100 * Math.abs(after - before) / Math.abs(before);
    }

    /** A figure that may not be stated; the size is its difference. */
    private void compareFigures(Kind kind, String what, @Nullable Double before, @Nullable Double after) {
        if (before == null || after == null) {
            compare(kind, what, before, after);
        } else if (!same(before, after)) {
            boolean relative = kind.unit().equals("%");
            add(
                    kind,
                    what,
                    figure(before),
                    figure(after),
                    relative ? percent(before, after) : Math.abs(after - before));
        }
    }

    // rows, by what they serve

    private void compareRows() {
        for (Category category : categories) {
            Map<String, Map<String, Breakdown>> a = ofFirst.breakdowns(category);
            Map<String, Map<String, Breakdown>> b = ofSecond.breakdowns(category);
            a.forEach((parent, byWay) -> {
                Map<String, Breakdown> others = b.getOrDefault(parent, Map.of());
                int number = own.find(parent);
                List<String> ways = number < 0 ? List.of(BreakdownRow.ANY) : own.ways(number);
                List<String> otherWays = number < 0 ? ways : other.ways(number);
                for (int i = 0; i < ways.size(); i++) {
                    Breakdown one = byWay.get(ways.get(i));
                    Breakdown with = others.get(otherWays.get(i));
                    if (one != null && with != null) {
                        compare(category, one, with);
                    }
                }
            });
        }
    }

    private void compare(Category category, Breakdown a, Breakdown b) {
        String of = " of " + a.parent() + (a.way().equals(BreakdownRow.ANY) ? "" : " as " + a.way());
        List<String> codes = new ArrayList<>();
        List<String> codesOfFirst = a.children().stream().map(Cut::code).toList();
        List<String> codesOfSecond = b.children().stream().map(Cut::code).toList();
        codes.addAll(codesOfFirst);
        codesOfSecond.stream().filter(code -> !codesOfFirst.contains(code)).forEach(codes::add);
        boolean byClass =
                a.resource() == TableSchema.BREAKDOWN_BY_CLASS || b.resource() == TableSchema.BREAKDOWN_BY_CLASS;
        // a cut that one table alone has is new or lost with all it is
        codes.removeIf(code -> !both.contains(code));
        for (String code : codes) {
            int k = codesOfFirst.indexOf(code);
            int m = codesOfSecond.indexOf(code);
            if (byClass) {
                nodes.forEach(node -> compareRow(category, code + of, a, k, b, m, node, node));
            } else {
                compareRow(category, code + of, a, k, b, m, nodes.at(nodes.lowConformation(), nodes.lowFat()), -1);
                if (k >= 0 && m >= 0) {
                    compareCoefficients(category, code + of, a, k, b, m);
                }
            }
        }
        compareCovariances(category, of, a, codesOfFirst, b, codesOfSecond);
    }

    private void see(Kind kind, String what, Category category, int node, String before, String after, double size) {
        seen.computeIfAbsent(new Place(kind, what), place -> new ArrayList<>())
                .add(new Seen(category, node, before, after, size));
    }

    private void seeSds(Kind kind, String what, Category category, int node, double before, double after) {
        if (!same(1000 * before, 1000 * after)) {
            see(
                    kind,
                    what,
                    category,
                    node,
                    figure(1000 * before) + " g/kg",
                    figure(1000 * after) + " g/kg",
                    percent(before, after));
        }
    }

    /** What a row says beside its coefficients; a child that has no row doesn't vary. */
    private void compareRow(
            Category category, String what, Breakdown a, int k, Breakdown b, int m, int node, int shownNode) {
        seeSds(Kind.SDS, what, category, shownNode, k < 0 ? 0 : a.sd(k, node), m < 0 ? 0 : b.sd(m, node));
        for (SharedBy by : stated) {
            seeSds(
                    Kind.SHARED_SDS,
                    TableColumn.sharedSd(by) + " of " + what,
                    category,
                    shownNode,
                    k < 0 ? 0 : a.sharedSd(by, k, node),
                    m < 0 ? 0 : b.sharedSd(by, m, node));
        }
        if (k < 0 || m < 0) {
            return;
        }
        int row = a.row(k, node);
        int otherRow = b.row(m, node);
        String source = a.resource() == TableSchema.BREAKDOWN
                ? first.breakdown().get(row).source()
                : first.breakdownByClass().get(row).source();
        String otherSource = b.resource() == TableSchema.BREAKDOWN
                ? second.breakdown().get(otherRow).source()
                : second.breakdownByClass().get(otherRow).source();
        seeSources(what, category, shownNode, source, otherSource);
        Map<String, String> cells = cells(first, a.resource(), row);
        Map<String, String> otherCells = cells(second, b.resource(), otherRow);
        Set<String> columns = new TreeSet<>(cells.keySet());
        columns.addAll(otherCells.keySet());
        for (String column : columns) {
            String before = cells.getOrDefault(column, "");
            String after = otherCells.getOrDefault(column, "");
            if (!before.equals(after)) {
                see(Kind.COLUMNS, column + " of " + what, category, shownNode, words(before), words(after), UNMEASURED);
            }
        }
    }

    private void seeSources(String what, Category category, int node, String before, String after) {
        if (!before.equals(after)) {
            see(Kind.SOURCES, what, category, node, source(first, before), source(second, after), UNMEASURED);
        }
    }

    private static String source(TableDefinition definition, String source) {
        return source.isEmpty()
                ? NONE
                : source
                        + definition.sources().stream()
                                .filter(row -> row.source().equals(source))
                                .map(row -> " (" + row.kind().code() + ")")
                                .findFirst()
                                .orElse("");
    }

    private static Map<String, String> cells(TableDefinition definition, TableSchema resource, int row) {
        Map<String, String> cells = new TreeMap<>();
        for (ExtraColumn extra : definition.extraColumns()) {
            if (extra.resource().equals(resource.code()) && row < extra.values().size()) {
                cells.put(extra.column(), extra.values().get(row));
            }
        }
        return cells;
    }

    /** Standard errors and sources of single coefficients, by what the coefficient multiplies. */
    private void compareCoefficients(Category category, String what, Breakdown a, int k, Breakdown b, int m) {
        BreakdownRow row = first.breakdown().get(a.row(k, 0));
        BreakdownRow otherRow = second.breakdown().get(b.row(m, 0));
        Map<String, String> columns = columns(first);
        Map<String, String> otherColumns = columns(second);
        Set<String> meanings = new LinkedHashSet<>(columns.keySet());
        meanings.addAll(otherColumns.keySet());
        for (String meaning : meanings) {
            String column = columns.getOrDefault(meaning, "");
            String otherColumn = otherColumns.getOrDefault(meaning, "");
            String shown = (column.isEmpty() ? otherColumn : column) + " of " + what;
            Set<String> ids = new TreeSet<>(indexOfFirst.errorIds(row, column));
            ids.addAll(indexOfSecond.errorIds(otherRow, otherColumn));
            for (String id : ids) {
                double before = indexOfFirst.standardError(row, column, id);
                double after = indexOfSecond.standardError(otherRow, otherColumn, id);
                if (!same(before, after)) {
                    see(
                            Kind.STANDARD_ERRORS,
                            shown + (id.isEmpty() ? "" : ", error " + id),
                            category,
                            -1,
                            figure(before) + " g/kg",
                            figure(after) + " g/kg",
                            percent(before, after));
                }
            }
            seeSources(
                    shown,
                    category,
                    -1,
                    String.join(" and ", indexOfFirst.sources(row, column)),
                    String.join(" and ", indexOfSecond.sources(otherRow, otherColumn)));
        }
    }

    /** The column of each term, by what it multiplies. */
    private static Map<String, String> columns(TableDefinition definition) {
        Map<String, String> columns = new LinkedHashMap<>();
        BreakdownRow.PLAIN_COLUMNS.forEach(column -> columns.put(column, column));
        for (Term term : definition.terms()) {
            columns.put(meaning(term), term.column());
        }
        return columns;
    }

    private static String meaning(Term term) {
        if (term instanceof Term.Product product) {
            return new TreeSet<>(Set.of(product.first(), product.second())).toString();
        }
        Term.Hinge hinge = (Term.Hinge) term;
        return hinge.variable() + " " + hinge.side() + " " + hinge.knot();
    }

    private void compareCovariances(
            Category category, String of, Breakdown a, List<String> codes, Breakdown b, List<String> otherCodes) {
        if (a.isCovarianceGiven() || b.isCovarianceGiven()) {
            int node = nodes.at(nodes.lowConformation(), nodes.lowFat());
            for (int i = 0; i < codes.size(); i++) {
                for (int j = 0; j < i; j++) {
                    int m = otherCodes.indexOf(codes.get(i));
                    int n = otherCodes.indexOf(codes.get(j));
                    double before = a.correlation(i, j, node);
                    double after = m < 0 || n < 0 ? before : b.correlation(m, n, node);
                    if (Math.abs(before - after) > SAME) {
                        see(
                                Kind.COVARIANCES,
                                "correlation of " + codes.get(j) + " and " + codes.get(i) + of,
                                category,
                                -1,
                                figure(before),
                                figure(after),
                                Math.abs(before - after));
                    }
                }
            }
        }
        Map<String, Double> before = covariances(indexOfFirst, columns(first), category, a);
        Map<String, Double> after = covariances(indexOfSecond, columns(second), category, b);
        Set<String> pairs = new TreeSet<>(before.keySet());
        pairs.addAll(after.keySet());
        for (String pair : pairs) {
            double one = before.getOrDefault(pair, 0.0);
            double other = after.getOrDefault(pair, 0.0);
            if (!same(one, other)) {
                see(
                        Kind.COVARIANCES,
                        "covariance of " + pair + of,
                        category,
                        -1,
                        figure(one),
                        figure(other),
                        UNMEASURED);
            }
        }
    }

    /** Covariances of coefficients that serve a breakdown; of a pair the most specific row counts. */
    private static Map<String, Double> covariances(
            RowIndex index, Map<String, String> columns, Category category, Breakdown breakdown) {
        Map<String, String> meanings = new HashMap<>();
        columns.forEach((meaning, column) -> meanings.put(column, meaning));
        Map<String, Double> values = new HashMap<>();
        Map<String, Integer> specificity = new HashMap<>();
        for (CovarianceRow row : index.covariances(breakdown.parent())) {
            boolean anyCategory = row.category().equals(BreakdownRow.ANY);
            boolean anyWay = row.way().equals(BreakdownRow.ANY);
            if (row.isResidual()
                    || !(anyCategory || row.category().contains(category.letter()))
                    || !(anyWay || row.way().equals(breakdown.way()))) {
                continue;
            }
            // a pair stands in either order
            String pair = new TreeSet<>(List.of(
                            meanings.getOrDefault(row.term(), row.term()) + " of " + row.cut(),
                            meanings.getOrDefault(row.otherTerm(), row.otherTerm()) + " of " + row.otherCut()))
                    .stream().collect(Collectors.joining(" and "));
            int specific = (anyCategory ? 0 : 1) + (anyWay ? 0 : 1);
            if (specific >= specificity.getOrDefault(pair, 0)) {
                specificity.put(pair, specific);
                values.put(pair, row.value());
            }
        }
        return values;
    }

    /** What was seen in many categories or at many nodes is one change. */
    private void flush() {
        seen.forEach((place, all) -> {
            if (all.stream().allMatch(one -> one.node < 0)) {
                Map<List<String>, List<Seen>> alike = all.stream()
                        .collect(Collectors.groupingBy(
                                one -> List.of(one.before, one.after), LinkedHashMap::new, Collectors.toList()));
                alike.values().forEach(same -> {
                    Seen one = same.get(0);
                    add(
                            place.kind,
                            place.what
                                    + in(same.stream()
                                            .map(Seen::category)
                                            .collect(Collectors.toCollection(LinkedHashSet::new))),
                            one.before,
                            one.after,
                            one.size);
                });
            } else {
                Seen largest =
                        all.stream().max(Comparator.comparingDouble(Seen::size)).orElseThrow();
                int more = all.size() - 1;
                add(
                        place.kind,
                        place.what
                                + in(Set.of(largest.category))
                                + (largest.node < 0 ? "" : ", " + nodes.grades(largest.node))
                                + (more == 0 ? "" : " and " + more + (more == 1 ? " more place" : " more places")),
                        largest.before,
                        largest.after,
                        largest.size);
            }
        });
    }

    private String in(Set<Category> some) {
        return some.size() == categories.size()
                ? ""
                : (some.size() == 1 ? ", category " : ", categories ")
                        + some.stream().map(Category::letter).collect(Collectors.joining(" "));
    }

    // what is said once

    private void compareStatements() {
        ReferencePoint reference = first.reference();
        if (!reference.equals(second.reference())
                && (statesErrorsOfCoefficients(first) || statesErrorsOfCoefficients(second))) {
            // an error of a level is that of the reference carcass
            add(
                    Kind.STANDARD_ERRORS,
                    "the reference carcass of the errors",
                    reference.toString(),
                    second.reference().toString(),
                    UNMEASURED);
        }
        compareFigures(
                Kind.DEGREES_OF_FREEDOM,
                "residual degrees of freedom",
                first.residualDegreesOfFreedom(),
                second.residualDegreesOfFreedom());
        compareFigures(
                Kind.DEGREES_OF_FREEDOM,
                "degrees of freedom of runs",
                first.runDegreesOfFreedom(),
                second.runDegreesOfFreedom());
        compareFigures(Kind.WIDTH_FIT, TableKey.WIDTH_FIT.code(), first.widthFit(), second.widthFit());
        for (Variable variable : Variable.values()) {
            compare(
                    Kind.RANGES,
                    "fitted " + variable.code(),
                    first.fitted().of(variable),
                    second.fitted().of(variable));
            Range before = first.allowed().of(variable);
            Range after = second.allowed().of(variable);
            if (after.contains(before.low()) && after.contains(before.high())) {
                // a narrower one is lost
                compare(Kind.RANGES, "allowed " + variable.code(), before, after);
            }
        }
        Basis a = first.basis();
        Basis b = second.basis();
        compareBasis("quartering", a.quartering(), b.quartering());
        compareBasis("hanging", a.hanging(), b.hanging());
        compareBasis("fat cover in mm", a.fatCoverMm(), b.fatCoverMm());
        compareBasis("ageing in days", a.ageingDays(), b.ageingDays());
        compareBasis("boneless", a.boneless(), b.boneless());
        List<String> levels = new ArrayList<>(first.levels());
        levels.retainAll(second.levels());
        List<String> otherLevels = new ArrayList<>(second.levels());
        otherLevels.retainAll(first.levels());
        compare(Kind.LEVELS, "order of levels", String.join(", ", levels), String.join(", ", otherLevels));
    }

    private void compareBasis(String what, @Nullable Object before, @Nullable Object after) {
        if (!Objects.equals(before, after)) {
            add(
                    Kind.BASIS,
                    what,
                    before == null ? "not stated" : words(before),
                    after == null ? "not stated" : words(after),
                    UNMEASURED);
        }
    }

    private static boolean statesErrorsOfCoefficients(TableDefinition definition) {
        return definition.coefficientNotes().stream().anyMatch(note -> note.standardError() != null)
                || definition.covariances().stream().anyMatch(row -> !row.isResidual());
    }

    private void compareCuts() {
        Map<String, Cut> others = second.cuts().stream().collect(Collectors.toMap(Cut::code, cut -> cut));
        List<String> order = new ArrayList<>();
        for (Cut a : first.cuts()) {
            Cut b = others.get(a.code());
            if (b == null) {
                continue;
            }
            order.add(a.code());
            compare(Kind.NAMES, a.code(), a.name(), b.name());
            compare(Kind.LEVELS, a.code(), a.level(), b.level());
            compare(Kind.CUT_KINDS, a.code(), a.kind().code(), b.kind().code());
            compareFigures(Kind.PIECES, a.code(), a.piecesPerSide(), b.piecesPerSide());
            compareFigures(Kind.SIDE_DIFFERENCES, a.code(), a.sideSplitSdPct(), b.sideSplitSdPct());
            compareFigures(Kind.FAT_CONTENTS, a.code(), a.fatPct(), b.fatPct());
            compare(Kind.CODES, a.code(), a.unece(), b.unece());
            compare(Kind.NOTES, a.code(), a.note(), b.note());
        }
        List<String> otherOrder =
                second.cuts().stream().map(Cut::code).filter(order::contains).toList();
        compare(Kind.ORDER, "order of cuts", String.join(", ", order), String.join(", ", otherOrder));
        compareMaps(Kind.NAMES, names(first), names(second));
    }

    private static Map<String, String> names(TableDefinition definition) {
        Map<String, String> names = new TreeMap<>();
        for (CutName name : definition.names()) {
            names.put(name.cut() + " in " + name.language(), name.name());
        }
        return names;
    }

    private void compareMaps(Kind kind, Map<String, String> before, Map<String, String> after) {
        Set<String> keys = new LinkedHashSet<>(before.keySet());
        keys.addAll(after.keySet());
        keys.forEach(key -> compare(kind, key, before.get(key), after.get(key)));
    }

    private void compareSpecifications(List<CuttingSpecification> a, List<CuttingSpecification> b) {
        if (!a.isEmpty() && !b.isEmpty()) {
            compare(
                    Kind.SPECIFICATIONS,
                    "the default specification",
                    a.get(0).name(),
                    b.get(0).name());
        }
        List<String> names =
                new ArrayList<>(a.stream().map(CuttingSpecification::name).toList());
        List<String> otherNames =
                new ArrayList<>(b.stream().map(CuttingSpecification::name).toList());
        List<String> unchanged = List.copyOf(names);
        names.retainAll(otherNames);
        otherNames.retainAll(unchanged);
        compare(
                Kind.SPECIFICATIONS,
                "order of specifications",
                String.join(", ", names),
                String.join(", ", otherNames));
        Map<String, CuttingSpecification> byName =
                b.stream().collect(Collectors.toMap(CuttingSpecification::name, Function.identity()));
        for (CuttingSpecification one : a) {
            CuttingSpecification with = byName.get(one.name());
            if (with != null) {
                Map<String, String> ways = new LinkedHashMap<>();
                Map<String, String> otherWays = new LinkedHashMap<>();
                one.ways().forEach((parent, way) -> ways.put("specification " + one + ", " + parent, way));
                with.ways().forEach((parent, way) -> otherWays.put("specification " + one + ", " + parent, way));
                compareMaps(Kind.SPECIFICATIONS, ways, otherWays);
            }
        }
    }

    private void compareQuarterings() {
        Map<String, QuarteringRow> a = quartering(first);
        Map<String, QuarteringRow> b = quartering(second);
        Set<String> keys = new LinkedHashSet<>(a.keySet());
        keys.addAll(b.keySet());
        for (String key : keys) {
            QuarteringRow one = a.get(key);
            QuarteringRow with = b.get(key);
            if (one == null || with == null) {
                compare(Kind.QUARTERINGS, key, one == null ? null : "there", with == null ? null : "there");
                continue;
            }
            compareFigures(Kind.QUARTERINGS, key, 100 * one.foreShare(), 100 * with.foreShare());
            if (!one.source().equals(with.source())) {
                add(Kind.SOURCES, key, source(first, one.source()), source(second, with.source()), UNMEASURED);
            }
        }
    }

    private static Map<String, QuarteringRow> quartering(TableDefinition definition) {
        Map<String, QuarteringRow> rows = new TreeMap<>();
        definition
                .quartering()
                .forEach(row -> rows.put("per cent fore of " + row.cut() + ", " + row.quartering(), row));
        return rows;
    }

    private void compareExpectations() {
        Map<String, String> a = expectations(first);
        Map<String, String> b = expectations(second);
        Set<String> claims = new LinkedHashSet<>(a.keySet());
        claims.addAll(b.keySet());
        for (String claim : claims) {
            String note = a.get(claim);
            String otherNote = b.get(claim);
            if (note == null || otherNote == null) {
                add(
                        Kind.EXPECTATIONS,
                        claim,
                        note == null ? "not promised" : "promised",
                        note == null ? "promised" : "not promised",
                        UNMEASURED);
            } else {
                compare(Kind.NOTES, claim, note, otherNote);
            }
        }
    }

    /** By claim, its note. */
    private static Map<String, String> expectations(TableDefinition definition) {
        Map<String, String> notes = new TreeMap<>();
        for (Expectation expectation : definition.expectations()) {
            notes.merge(expectation.claim(), expectation.note(), (one, other) -> one + "; " + other);
        }
        return notes;
    }

    private void compareSources() {
        Map<String, SourceRow> a = first.sources().stream().collect(Collectors.toMap(SourceRow::source, row -> row));
        Map<String, SourceRow> b = second.sources().stream().collect(Collectors.toMap(SourceRow::source, row -> row));
        Set<String> names = new TreeSet<>(a.keySet());
        names.addAll(b.keySet());
        for (String name : names) {
            SourceRow one = a.get(name);
            SourceRow with = b.get(name);
            if (one == null || with == null) {
                compare(
                        Kind.CITATIONS,
                        "source " + name,
                        one == null ? null : one.citation(),
                        with == null ? null : with.citation());
            } else {
                compare(
                        Kind.SOURCES,
                        "source " + name,
                        one.kind().code(),
                        with.kind().code());
                compare(Kind.CITATIONS, "source " + name, one.citation(), with.citation());
                compare(Kind.NOTES, "source " + name, one.note(), with.note());
            }
        }
    }

    /** Columns of the caller's own; those of breakdowns are compared row by row with what their rows serve. */
    private void compareColumns() {
        compareMaps(Kind.COLUMNS, types(first), types(second));
        compareMaps(Kind.COLUMNS, values(first), values(second));
    }

    private static Map<String, String> types(TableDefinition definition) {
        Map<String, String> types = new TreeMap<>();
        for (ExtraColumn extra : definition.extraColumns()) {
            types.put("column " + extra.column() + " of " + extra.resource(), extra.type());
        }
        return types;
    }

    private static Map<String, String> values(TableDefinition definition) {
        Map<String, TableResource> resources =
                definition.resources().stream().collect(Collectors.toMap(TableResource::name, each -> each));
        Map<String, String> values = new TreeMap<>();
        for (ExtraColumn extra : definition.extraColumns()) {
            TableResource resource = resources.get(extra.resource());
            if (resource == null
                    || resource.schema() == TableSchema.BREAKDOWN
                    || resource.schema() == TableSchema.BREAKDOWN_BY_CLASS) {
                continue;
            }
            Set<String> extras = new HashSet<>(
                    definition.extraColumns().stream().map(ExtraColumn::column).toList());
            for (int i = 0; i < resource.rows().size(); i++) {
                StringBuilder key = new StringBuilder(extra.column() + " of " + extra.resource());
                for (TableColumn column : resource.schema().columns(definition.terms())) {
                    int at = resource.columns().indexOf(column.name());
                    boolean isKey = column.isKey() || resource.schema() == TableSchema.EXPECTATIONS;
                    if (isKey && at >= 0 && !extras.contains(column.name())) {
                        key.append(", ").append(resource.rows().get(i).get(at));
                    }
                }
                String value = i < extra.values().size() ? extra.values().get(i) : "";
                if (!value.isEmpty()) {
                    values.put(key.toString(), value);
                }
            }
        }
        return values;
    }

    private void compareDescriptions() {
        compare(Kind.LICENCES, "licences", licenses(first), licenses(second));
        compare(Kind.DESCRIPTION, "title", first.title(), second.title());
        compare(Kind.DESCRIPTION, "description", first.description(), second.description());
        if (!first.provenance().equals(second.provenance())) {
            add(
                    Kind.DESCRIPTION,
                    "provenance",
                    parts(first.provenance().size()),
                    parts(second.provenance().size()),
                    UNMEASURED);
        }
    }

    private static String licenses(TableDefinition definition) {
        return definition.licenses().stream()
                .map(license -> Stream.of(license.name(), license.title(), license.path())
                        .filter(part -> !part.isEmpty())
                        .collect(Collectors.joining(" ")))
                .sorted()
                .collect(Collectors.joining(", "));
    }

    private static String parts(int count) {
        return count + (count == 1 ? " part" : " parts");
    }
}
