package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.TableLayout;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.GradeAxis;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** Checks a definition's structure and resolves its rows into closed breakdowns by category. */
final class TableCompiler {
    private static final int HIGHEST_DEGREE = 3;

    private static final int MOST_DECIMALS = 15;

    private static final List<String> SHARED_SDS =
            Arrays.stream(SharedBy.values()).map(TableColumn::sharedSd).toList();

    private static final Set<String> CONFORMATIONS = parts(Conformation.classes(), Conformation.thirds());
    private static final Set<String> FAT_CLASSES = parts(FatClass.classes(), FatClass.thirds());

    /**
     * What comes of it.
     *
     * @param corrections rounding taken off so that breakdowns close
     */
    record Result(CutCatalogue catalogue, Ways ways, CompiledTable compiled, List<ClosingCorrection> corrections) {
        Result {
            corrections = List.copyOf(corrections);
        }
    }

    private final TableDefinition definition;
    private final List<RowKey> keys;
    private final List<TableProblem> problems = new ArrayList<>();
    private final List<ClosingCorrection> corrections = new ArrayList<>();
    private final List<CompiledTable.Group> groups = new ArrayList<>();
    /** By category, each with its own SDs: by code of parent, by way. */
    private final Map<Category, Map<String, Map<String, Breakdown>>> breakdowns = new EnumMap<>(Category.class);

    private final Map<String, Integer> cutIndex = new LinkedHashMap<>();
    private final Set<String> sources = new HashSet<>();

    private TableCompiler(TableDefinition definition) {
        this.definition = definition;
        this.keys = RowKey.of(definition);
    }

    /**
     * Checks a definition and resolves it.
     *
     * @throws InvalidTableException if something is wrong with it; it lists all that was found
     */
    static Result compile(TableDefinition definition) {
        TableCompiler compiler = new TableCompiler(definition);
        Result result = compiler.compile();
        if (result == null || !compiler.problems.isEmpty()) {
            throw new InvalidTableException(definition.name(), compiler.problems);
        }
        return result;
    }

    /** The table, or null after problems that leave none. */
    private @Nullable Result compile() {
        checkKeys();
        checkSources();
        checkCuts();
        checkBreakdownRows();
        checkExpectations();
        if (!problems.isEmpty()) {
            return null;
        }
        CutCatalogue cuts = CutCatalogue.of(definition.cuts());
        Ways ways = Ways.of(keys, cuts);
        // looked at first, for standard errors of notes that are wrong would look wrong themselves
        checkNotes();
        checkCovariances();
        List<TableResource> resources = definition.resources();
        checkExtraColumns(resources);
        List<TableProblem> ofTexts = checkTexts(resources);
        List<TableProblem> ofNotes = List.copyOf(problems);
        problems.clear();
        checkTree();
        if (!problems.isEmpty()) {
            return null;
        }
        resolveCategories(ways, ofNotes.isEmpty());
        if (!problems.isEmpty()) {
            problems.addAll(ofNotes);
            return null;
        }
        TableLayout layout = new TableLayout(
                definition.levels(), TableLayout.walk(definition.levels(), cuts, this::everyChild), cuts);
        checkStanding(layout);
        int degree = checkDegree(layout);
        checkSpecifications(ways);
        checkQuartering(layout);
        checkExpectationsStand(layout);
        problems.addAll(ofNotes);
        problems.addAll(ofTexts.stream().filter(this::isNew).toList());
        return new Result(
                cuts, ways, new CompiledTable(definition, layout, groups, breakdowns, degree + 1), corrections);
    }

    private void problem(TableSchema resource, int row, String column, String value, String message) {
        problem(resource.code(), row, column, value, message);
    }

    private void problem(String resource, int row, String column, String value, String message) {
        problems.add(new TableProblem(resource, row, column, value, message));
    }

    private void tableProblem(TableKey key, String value, String message) {
        tableProblem(key.code(), value, message);
    }

    private void tableProblem(String key, String value, String message) {
        problems.add(tableProblemOf(key, value, message));
    }

    private static TableProblem tableProblemOf(String key, String value, String message) {
        return new TableProblem(TableProblem.TABLE, TableProblem.NO_ROW, key, value, message);
    }

    /** What is wrong with what a table is called. */
    static List<TableProblem> ofName(String name, String version) {
        List<TableProblem> found = new ArrayList<>();
        if (!name.matches("[a-z0-9][a-z0-9._-]*")) {
            found.add(tableProblemOf("name", name, "a name is lower-case letters, digits and . _ -"));
        }
        if (!version.matches("[A-Za-z0-9][A-Za-z0-9.+-]*")) {
            found.add(tableProblemOf("version", version, "a version is letters, digits and . + -"));
        }
        return found;
    }

    private void checkDegrees(TableKey key, @Nullable Double degrees) {
        if (degrees != null && !(degrees > 0 && Double.isFinite(degrees))) {
            tableProblem(key, Numbers.exact(degrees), "degrees of freedom are above 0");
        }
    }

    private void checkKeys() {
        problems.addAll(ofName(definition.name(), definition.version()));
        if (definition.levels().isEmpty()) {
            tableProblem(TableKey.LEVELS, "", "a table has at least one level");
        }
        if (new HashSet<>(definition.levels()).size() < definition.levels().size()) {
            tableProblem(TableKey.LEVELS, twice(definition.levels()), "this level stands twice");
        }
        if (definition.levels().stream().anyMatch(String::isBlank)) {
            tableProblem(TableKey.LEVELS, String.join(", ", definition.levels()), "a level has a name");
        }
        if (definition.categories().isEmpty()) {
            tableProblem(TableKey.CATEGORIES, "", "a table serves at least one category");
        }
        if (new HashSet<>(definition.categories()).size()
                < definition.categories().size()) {
            tableProblem(
                    TableKey.CATEGORIES,
                    twice(definition.categories().stream().map(Category::letter).toList()),
                    "this category stands twice");
        }
        TableRange allowed = definition.allowed();
        checkGrid(definition.axes().conformation(), allowed.conformation());
        checkGrid(definition.axes().fat(), allowed.fat());
        if (!(allowed.weightKg().low() > 0 && allowed.weightKg().high() <= CarcassWeights.HEAVIEST_KG)) {
            tableProblem(
                    TableKey.ALLOWED_RANGE,
                    allowed.weightKg().toString(),
                    "weights of carcasses are above 0 kg and at most " + Numbers.exact(CarcassWeights.HEAVIEST_KG)
                            + " kg");
        }
        for (Variable variable : Variable.values()) {
            Range wide = allowed.of(variable);
            Range fitted = definition.fitted().of(variable);
            if (!wide.contains(fitted.low()) || !wide.contains(fitted.high())) {
                tableProblem(
                        TableKey.FITTED_RANGE,
                        fitted.toString(),
                        "the fitted range of " + variable.code() + " must lie inside the allowed range, " + wide);
            }
        }
        ReferencePoint reference = definition.reference();
        for (Variable variable : Variable.values()) {
            double value = switch (variable) {
                case CONFORMATION -> reference.conformation();
                case FAT -> reference.fat();
                case WEIGHT -> reference.weightKg();
            };
            if (!allowed.of(variable).contains(value)) {
                tableProblem(
                        TableKey.REFERENCE,
                        Numbers.exact(value),
                        "the reference carcass must lie inside the allowed range of " + variable.code() + ", "
                                + allowed.of(variable));
            }
        }
        if (!(definition.widthFit() >= 0 && definition.widthFit() <= 3)) {
            tableProblem(TableKey.WIDTH_FIT, Numbers.exact(definition.widthFit()), "width_fit is 0 to 3 points");
        }
        checkDegrees(TableKey.RESIDUAL_DEGREES_OF_FREEDOM, definition.residualDegreesOfFreedom());
        checkDegrees(TableKey.RUN_DEGREES_OF_FREEDOM, definition.runDegreesOfFreedom());
        Set<String> columns = new HashSet<>(TableSchema.BREAKDOWN.columnNames(List.of()));
        for (Term term : definition.terms()) {
            if (!term.column().matches("[a-z][a-z0-9_]*")) {
                tableProblem(TableKey.TERMS, term.column(), "the column of a term is lower-case letters, digits and _");
            } else if (!columns.add(term.column())) {
                tableProblem(TableKey.TERMS, term.column(), "a term has a column of its own; this one is taken");
            }
            if (term instanceof Term.Hinge hinge) {
                GradeAxis axis = hinge.variable() == Variable.FAT
                        ? definition.axes().fat()
                        : definition.axes().conformation();
                if (!axis.range().contains(hinge.knot())) {
                    tableProblem(
                            TableKey.TERMS,
                            Integer.toString(hinge.knot()),
                            "a knot is a position from " + axis.range());
                }
            }
        }
        List<String> rounded = new ArrayList<>(definition.coefficientColumns());
        rounded.add(TableColumn.SD_G_PER_KG);
        SHARED_SDS.forEach(rounded::add);
        rounded.add(TableColumn.G_PER_KG);
        new TreeMap<>(definition.decimals()).forEach((column, places) -> {
            if (!rounded.contains(column)) {
                tableProblem(TableKey.DECIMALS, column, "no such column; columns: " + String.join(", ", rounded));
            }
            if (places < 0 || places > MOST_DECIMALS) {
                tableProblem(TableKey.DECIMALS, column + " " + places, "decimals are 0 to " + MOST_DECIMALS);
            }
        });
    }

    /** The first of several names that stands for the second time. */
    private static String twice(List<String> names) {
        Set<String> seen = new HashSet<>();
        return names.stream().filter(name -> !seen.add(name)).findFirst().orElse("");
    }

    private void checkGrid(GradeAxis axis, Range range) {
        boolean whole = range.low() == Math.rint(range.low()) && range.high() == Math.rint(range.high());
        if (!whole || !axis.range().contains(range.low()) || !axis.range().contains(range.high())) {
            tableProblem(
                    TableKey.ALLOWED_RANGE,
                    range.toString(),
                    "the allowed range of " + axis.variable().code() + " has whole positions from " + axis.range()
                            + " as its ends");
        }
    }

    private void checkSources() {
        for (int i = 0; i < definition.sources().size(); i++) {
            String source = definition.sources().get(i).source();
            if (source.isBlank()) {
                problem(TableSchema.SOURCES, i, TableColumn.SOURCE, source, "a source has a short name");
            } else if (!sources.add(source)) {
                problem(TableSchema.SOURCES, i, TableColumn.SOURCE, source, "a source of this name stands above");
            }
            boolean isPublished = definition.sources().get(i).kind() == SourceKind.PUBLISHED;
            if (isPublished && definition.sources().get(i).citation().isBlank()) {
                problem(
                        TableSchema.SOURCES,
                        i,
                        TableColumn.CITATION,
                        "",
                        "a published source has a citation; write where " + source + " can be found, or another kind");
            }
        }
    }

    private void checkSource(TableSchema resource, int row, String source) {
        if (source.isBlank()) {
            problem(
                    resource,
                    row,
                    TableColumn.SOURCE,
                    source,
                    "every row names its source; write one of the names in " + TableSchema.SOURCES);
        } else if (!sources.contains(source)) {
            problem(resource, row, TableColumn.SOURCE, source, "no such source in " + TableSchema.SOURCES);
        }
    }

    private void checkCuts() {
        Map<List<String>, String> byName = new HashMap<>();
        for (int i = 0; i < definition.cuts().size(); i++) {
            Cut cut = definition.cuts().get(i);
            checkName(
                    TableSchema.CUTS,
                    i,
                    cut.name(),
                    byName.putIfAbsent(List.of(cut.level(), cut.name().strip()), cut.code()),
                    cut.code());
            if (cut.code().equals(BreakdownRow.ROOT)) {
                problem(
                        TableSchema.CUTS,
                        i,
                        TableColumn.CUT,
                        cut.code(),
                        "this word stands for the whole carcass; name the cut otherwise");
            }
            if (cutIndex.putIfAbsent(cut.code(), i) != null) {
                problem(TableSchema.CUTS, i, TableColumn.CUT, cut.code(), "a cut of this code stands above");
            }
            if (!definition.levels().contains(cut.level())) {
                problem(
                        TableSchema.CUTS,
                        i,
                        TableColumn.LEVEL,
                        cut.level(),
                        "no such level; levels: " + String.join(", ", definition.levels()));
            }
        }
    }

    private void checkBreakdownRows() {
        String served = definition.categories().stream().map(Category::letter).collect(Collectors.joining());
        Map<List<String>, Integer> first = new HashMap<>();
        for (RowKey key : keys) {
            checkCategories(key, served);
            if (key.way().isBlank()) {
                problem(key.resource(), key.row(), TableColumn.WAY, key.way(), "a way is a name, or * for every way");
            }
            if (!key.parent().equals(BreakdownRow.ROOT) && !cutIndex.containsKey(key.parent())) {
                problem(
                        key.resource(),
                        key.row(),
                        TableColumn.PARENT,
                        key.parent(),
                        "unknown parent: it is neither " + BreakdownRow.ROOT + " nor a cut of this table"
                                + nearest(key.parent()));
            }
            if (!cutIndex.containsKey(key.cut())) {
                problem(
                        key.resource(),
                        key.row(),
                        TableColumn.CUT,
                        key.cut(),
                        "no such cut in " + TableSchema.CUTS + nearest(key.cut()));
            }
            checkSource(key.resource(), key.row(), key.source());
            Integer before = first.putIfAbsent(
                    List.of(key.resource().code(), key.category(), key.way(), key.parent(), key.cut(), key.cell()),
                    key.row());
            if (before != null) {
                problems.add(new TableProblem(
                        key.resource(),
                        key.row(),
                        TableColumn.CUT,
                        key.cut(),
                        "a row above has the same category, way, parent and cut"
                                + (key.cell().isEmpty() ? "" : " in the same class"),
                        List.of(before)));
            }
        }
        int width = BreakdownRow.PLAIN_COLUMNS.size() + definition.terms().size();
        for (int i = 0; i < definition.breakdown().size(); i++) {
            checkFigures(i, definition.breakdown().get(i), width);
        }
        for (int i = 0; i < definition.breakdownByClass().size(); i++) {
            checkFigures(i, definition.breakdownByClass().get(i));
        }
        checkSharedSds();
    }

    /** A table states an SD of errors that carcasses have in common for all of its rows or for none. */
    private void checkSharedSds() {
        for (SharedBy by : SharedBy.values()) {
            List<RowKey> silent = new ArrayList<>();
            for (RowKey key : keys) {
                Double sd = sharedSds(key).of(by);
                if (sd == null) {
                    silent.add(key);
                } else {
                    checkSd(key.resource(), key.row(), TableColumn.sharedSd(by), sd);
                }
            }
            int stating = keys.size() - silent.size();
            if (stating > 0) {
                silent.forEach(key -> problem(
                        key.resource(),
                        key.row(),
                        TableColumn.sharedSd(by),
                        "",
                        "the row states none, and " + stating + (stating == 1 ? " other row does" : " other rows do")
                                + "; a table states this SD, 0 to 1000 g/kg, in every row of "
                                + TableSchema.BREAKDOWN + " and " + TableSchema.BREAKDOWN_BY_CLASS + " or in none"));
            }
        }
    }

    private SharedSds sharedSds(RowKey key) {
        return key.resource() == TableSchema.BREAKDOWN
                ? definition.breakdown().get(key.row()).shared()
                : definition.breakdownByClass().get(key.row()).shared();
    }

    private void checkFigures(int index, BreakdownRow row, int width) {
        if (row.coefficients().size() != width) {
            problem(
                    TableSchema.BREAKDOWN,
                    index,
                    "",
                    "",
                    "the row has " + row.coefficients().size() + " coefficients; a row of this table has " + width
                            + ": " + String.join(", ", definition.coefficientColumns()));
        }
        for (int k = 0; k < Math.min(width, row.coefficients().size()); k++) {
            if (!Double.isFinite(row.coefficients().get(k))) {
                problem(
                        TableSchema.BREAKDOWN,
                        index,
                        definition.coefficientColumns().get(k),
                        Double.toString(row.coefficients().get(k)),
                        "a coefficient is a finite number");
            }
        }
        checkSd(TableSchema.BREAKDOWN, index, TableColumn.SD_G_PER_KG, row.sdGPerKg());
    }

    private void checkFigures(int index, ClassRow row) {
        TableSchema resource = TableSchema.BREAKDOWN_BY_CLASS;
        try {
            checkPart(CONFORMATIONS, Conformation.parse(row.conformation()).toString());
        } catch (IllegalArgumentException e) {
            problem(resource, index, TableColumn.CONFORMATION, row.conformation(), String.valueOf(e.getMessage()));
        }
        try {
            checkPart(FAT_CLASSES, FatClass.parse(row.fatClass()).toString());
        } catch (IllegalArgumentException e) {
            problem(resource, index, TableColumn.FAT_CLASS, row.fatClass(), String.valueOf(e.getMessage()));
        }
        if (!(row.gPerKg() >= 0 && row.gPerKg() <= 1000)) {
            problem(resource, index, TableColumn.G_PER_KG, Numbers.exact(row.gPerKg()), "a share is 0 to 1000 g/kg");
        }
        checkSd(resource, index, TableColumn.SD_G_PER_KG, row.sdGPerKg());
    }

    private static void checkPart(Set<String> parts, String grade) {
        if (!parts.contains(grade)) {
            throw new IllegalArgumentException("a class is whole or a third here");
        }
    }

    private static Set<String> parts(List<?> classes, List<?> thirds) {
        return Stream.concat(classes.stream(), thirds.stream())
                .map(Object::toString)
                .collect(Collectors.toUnmodifiableSet());
    }

    private void checkSd(TableSchema resource, int index, String column, double sdGPerKg) {
        if (!(sdGPerKg >= 0 && sdGPerKg <= 1000)) {
            problem(resource, index, column, Numbers.exact(sdGPerKg), "an SD is 0 to 1000 g/kg");
        }
    }

    /** What may have been meant by a code that no cut has; nothing while the table has no cuts. */
    private String nearest(String code) {
        String nearest = Names.nearest(code, cutIndex.keySet());
        return nearest.isEmpty() ? "" : "; nearest: " + nearest;
    }

    private void checkCategories(RowKey key, String served) {
        String letters = key.category();
        if (letters.equals(BreakdownRow.ANY)) {
            return;
        }
        boolean good = !letters.isEmpty();
        for (int k = 0; k < letters.length(); k++) {
            good &= served.indexOf(letters.charAt(k)) >= 0 && letters.indexOf(letters.charAt(k)) == k;
        }
        if (!good) {
            problem(
                    key.resource(),
                    key.row(),
                    TableColumn.CATEGORY,
                    letters,
                    "a category is * or letters of the categories that this table serves (" + served + "), each once");
        }
    }

    /** The tree: levels that fit, no cycle. */
    private void checkTree() {
        Map<String, Set<String>> children = new LinkedHashMap<>();
        for (RowKey key : keys) {
            children.computeIfAbsent(key.parent(), parent -> new LinkedHashSet<>())
                    .add(key.cut());
        }
        if (!children.containsKey(BreakdownRow.ROOT)) {
            problem(
                    TableSchema.BREAKDOWN,
                    TableProblem.NO_ROW,
                    TableColumn.PARENT,
                    "",
                    "no row has the parent " + BreakdownRow.ROOT);
        }
        String cycle = cycle(children);
        if (cycle != null) {
            problem(
                    TableSchema.BREAKDOWN,
                    TableProblem.NO_ROW,
                    TableColumn.PARENT,
                    "",
                    "the breakdowns run in a circle: " + cycle);
            return;
        }
        for (RowKey key : keys) {
            int level = levelOf(key.parent()) + 1;
            if (level >= definition.levels().size()) {
                problem(
                        key.resource(),
                        key.row(),
                        TableColumn.PARENT,
                        key.parent(),
                        "it stands at the last level, which nothing follows; a parent is broken down at the level after"
                                + " its own");
            } else if (levelOf(key.cut()) > level) {
                problem(
                        key.resource(),
                        key.row(),
                        TableColumn.CUT,
                        key.cut(),
                        "it comes out at level " + definition.levels().get(level) + " but its level in "
                                + TableSchema.CUTS + " is "
                                + definition.levels().get(levelOf(key.cut())));
            }
        }
    }

    /** Level of a cut, -1 for the carcass. */
    private int levelOf(String cut) {
        Integer index = cutIndex.get(cut);
        return index == null
                ? -1
                : definition.levels().indexOf(definition.cuts().get(index).level());
    }

    /** A circle in words, or null. Without recursion: a hostile table may have a very long chain. */
    private static @Nullable String cycle(Map<String, Set<String>> children) {
        Map<String, Set<String>> parents = new LinkedHashMap<>();
        Map<String, Integer> open = new LinkedHashMap<>();
        children.forEach((parent, ofParent) -> {
            open.put(parent, ofParent.size());
            ofParent.forEach(child ->
                    parents.computeIfAbsent(child, key -> new LinkedHashSet<>()).add(parent));
        });
        // takes away, again and again, what has no children left; a circle stays
        List<String> ends = new ArrayList<>(parents.keySet());
        ends.removeAll(open.keySet());
        while (!ends.isEmpty()) {
            for (String parent : parents.getOrDefault(ends.remove(ends.size() - 1), Set.of())) {
                if (open.merge(parent, -1, Integer::sum) == 0) {
                    open.remove(parent);
                    ends.add(parent);
                }
            }
        }
        if (open.isEmpty()) {
            return null;
        }
        List<String> path = new ArrayList<>();
        Set<String> onPath = new HashSet<>();
        String at = open.keySet().iterator().next();
        while (onPath.add(at)) {
            path.add(at);
            at = children.getOrDefault(at, Set.of()).stream()
                    .filter(open::containsKey)
                    .findFirst()
                    .orElseThrow();
        }
        path.add(at);
        return String.join(" -> ", path.subList(path.indexOf(at), path.size()));
    }

    private void resolveCategories(Ways ways, boolean notesAreGood) {
        List<String> parents =
                keys.stream().map(RowKey::parent).distinct().collect(Collectors.toCollection(ArrayList::new));
        parents.sort(Comparator.comparingInt(this::levelOf));
        RowIndex index = new RowIndex(definition);
        Nodes nodes = new Nodes(definition.axes(), definition.allowed());
        Map<TableProblem, StringBuilder> found = new LinkedHashMap<>();
        Map<List<String>, Double> excesses = new LinkedHashMap<>();
        Map<List<String>, StringBuilder> excessCategories = new LinkedHashMap<>();
        Map<String, Set<String>> lettersByParent = lettersByParent();
        Map<List<Object>, BreakdownResolver> resolved = new HashMap<>();
        for (Category category : definition.categories()) {
            Map<String, Map<String, Breakdown>> byParent = new LinkedHashMap<>();
            Set<String> made = new HashSet<>(Set.of(BreakdownRow.ROOT));
            for (String parent : parents) {
                Map<String, Breakdown> byWay = new LinkedHashMap<>();
                Set<String> waysOfParent = ways.of(parent).isEmpty() ? Set.of(BreakdownRow.ANY) : ways.of(parent);
                for (String way : waysOfParent) {
                    // categories that the same rows serve share the breakdown
                    List<String> serving = lettersByParent.getOrDefault(parent, Set.of()).stream()
                            .filter(letters -> letters.contains(category.letter()))
                            .toList();
                    BreakdownResolver resolver =
                            resolved.computeIfAbsent(List.of(parent, way, made.contains(parent), serving), any -> {
                                BreakdownResolver one = new BreakdownResolver(
                                        definition,
                                        index,
                                        notesAreGood,
                                        this::cutIndexOf,
                                        nodes,
                                        category,
                                        parent,
                                        way,
                                        made.contains(parent));
                                one.resolve();
                                return one;
                            });
                    Breakdown breakdown = resolver.breakdown;
                    if (breakdown != null) {
                        byWay.put(way, breakdown);
                        breakdown.children().forEach(child -> made.add(child.code()));
                    }
                    resolver.found.forEach(problem -> found.computeIfAbsent(problem, key -> new StringBuilder())
                            .append(category.letter()));
                    resolver.excess.forEach((column, excess) -> {
                        List<String> key = List.of(parent, way, column, Double.toString(excess));
                        excesses.put(key, excess);
                        excessCategories
                                .computeIfAbsent(key, k -> new StringBuilder())
                                .append(category.letter());
                    });
                }
                byParent.put(parent, byWay);
            }
            breakdowns.put(category, byParent);
        }
        found.forEach((problem, letters) -> problems.add(new TableProblem(
                problem.resource(),
                problem.row(),
                problem.column(),
                problem.value(),
                problem.message() + " (category " + letters + ")",
                problem.otherRows())));
        excesses.forEach((key, excess) -> corrections.add(new ClosingCorrection(
                String.valueOf(excessCategories.get(key)),
                key.get(0),
                key.get(1),
                key.get(2),
                excess,
                definition.unitOf(key.get(2)))));
        for (Category category : definition.categories()) {
            Map<String, Map<String, Breakdown>> ofCategory = breakdowns.get(category);
            if (ofCategory != null) {
                group(category, ofCategory);
            }
        }
    }

    /** By parent, what stands in the category column of its rows. */
    private Map<String, Set<String>> lettersByParent() {
        Map<String, Set<String>> letters = new HashMap<>();
        for (RowKey key : keys) {
            letters.computeIfAbsent(key.parent(), parent -> new LinkedHashSet<>())
                    .add(key.category());
        }
        for (CovarianceRow row : definition.covariances()) {
            letters.computeIfAbsent(row.parent(), parent -> new LinkedHashSet<>())
                    .add(row.category());
        }
        return letters;
    }

    private void group(Category category, Map<String, Map<String, Breakdown>> breakdowns) {
        for (int i = 0; i < groups.size(); i++) {
            if (same(groups.get(i).breakdowns(), breakdowns)) {
                List<Category> all = new ArrayList<>(groups.get(i).categories());
                all.add(category);
                groups.set(i, new CompiledTable.Group(all, groups.get(i).breakdowns()));
                return;
            }
        }
        groups.add(new CompiledTable.Group(List.of(category), breakdowns));
    }

    private static boolean same(Map<String, Map<String, Breakdown>> a, Map<String, Map<String, Breakdown>> b) {
        return a.entrySet().stream().allMatch(byParent -> {
            Map<String, Breakdown> others = b.getOrDefault(byParent.getKey(), Map.of());
            return others.keySet().equals(byParent.getValue().keySet())
                    && byParent.getValue().entrySet().stream().allMatch(byWay -> {
                        Breakdown other = others.get(byWay.getKey());
                        return other != null && byWay.getValue().sameShares(other);
                    });
        });
    }

    private int cutIndexOf(String cut) {
        Integer index = cutIndex.get(cut);
        return index == null ? -1 : index;
    }

    /** Children of a parent in any category and way. */
    private List<Cut> everyChild(String parent) {
        return keys.stream()
                .filter(key -> key.parent().equals(parent))
                .map(key -> definition.cuts().get(cutIndexOf(key.cut())))
                .distinct()
                .toList();
    }

    private void checkStanding(TableLayout table) {
        for (int i = 0; i < definition.cuts().size(); i++) {
            Cut cut = definition.cuts().get(i);
            int level = table.levelIndex(cut.level());
            boolean earlier = false;
            for (int l = 0; l < level; l++) {
                earlier |= table.find(l, cut.code()) >= 0;
            }
            if (table.find(level, cut.code()) < 0 || earlier) {
                problem(
                        TableSchema.CUTS,
                        i,
                        TableColumn.CUT,
                        cut.code(),
                        "no breakdown yields it at level " + cut.level() + ", where " + TableSchema.CUTS
                                + " says that it first stands");
            }
        }
    }

    /** The highest degree in weight of a cut's share. */
    private int checkDegree(TableLayout table) {
        int highest = 0;
        for (CompiledTable.Group group : groups) {
            Map<String, Integer> degree = new HashMap<>(Map.of(BreakdownRow.ROOT, 0));
            for (int level = 0; level < table.levels().size(); level++) {
                for (Map<String, Breakdown> byWay : group.breakdowns().values()) {
                    for (Breakdown breakdown : byWay.values()) {
                        if (levelOf(breakdown.parent()) + 1 == level) {
                            int own = degree.getOrDefault(breakdown.parent(), 0) + (breakdown.usesWeight() ? 1 : 0);
                            for (Cut child : breakdown.children()) {
                                degree.merge(child.code(), own, Math::max);
                            }
                        }
                    }
                }
            }
            for (int i = 0; i < definition.cuts().size(); i++) {
                String cut = definition.cuts().get(i).code();
                int own = degree.getOrDefault(cut, 0);
                TableProblem tooMany = new TableProblem(
                        TableSchema.CUTS,
                        i,
                        TableColumn.CUT,
                        cut,
                        own + " levels on its path have a weight term; at most " + HIGHEST_DEGREE + " may");
                if (own > HIGHEST_DEGREE && !problems.contains(tooMany)) {
                    problems.add(tooMany);
                }
                highest = Math.max(highest, own);
            }
        }
        return highest;
    }

    private void checkSpecifications(Ways ways) {
        Map<String, Map<String, String>> specifications = new LinkedHashMap<>();
        for (int i = 0; i < definition.specifications().size(); i++) {
            SpecificationRow row = definition.specifications().get(i);
            if (row.specification().isBlank()) {
                problem(TableSchema.SPECIFICATIONS, i, TableColumn.SPECIFICATION, "", "a specification has a name");
            }
            String wrong = ways.wrong(row.parent(), row.way());
            if (wrong != null) {
                boolean ofParent = ways.of(row.parent()).isEmpty();
                problem(
                        TableSchema.SPECIFICATIONS,
                        i,
                        ofParent ? TableColumn.PARENT : TableColumn.WAY,
                        ofParent ? row.parent() : row.way(),
                        wrong);
            }
            if (specifications
                            .computeIfAbsent(row.specification(), name -> new LinkedHashMap<>())
                            .put(row.parent(), row.way())
                    != null) {
                problem(
                        TableSchema.SPECIFICATIONS,
                        i,
                        TableColumn.PARENT,
                        row.parent(),
                        "this specification has a way for it above");
            }
        }
        specifications.forEach((name, chosen) -> {
            String missing = ways.missing(chosen.keySet());
            if (missing != null) {
                problem(TableSchema.SPECIFICATIONS, TableProblem.NO_ROW, TableColumn.SPECIFICATION, name, missing);
            }
        });
    }

    private void checkQuartering(TableLayout table) {
        Map<String, Set<String>> quarterings = new LinkedHashMap<>();
        for (int i = 0; i < definition.quartering().size(); i++) {
            QuarteringRow row = definition.quartering().get(i);
            checkSource(TableSchema.QUARTERING, i, row.source());
            if (row.quartering().isBlank()) {
                problem(TableSchema.QUARTERING, i, TableColumn.QUARTERING, "", "a quartering has a name");
            }
            if (!(row.foreShare() >= 0 && row.foreShare() <= 1)) {
                problem(
                        TableSchema.QUARTERING,
                        i,
                        TableColumn.FORE_SHARE,
                        Numbers.exact(row.foreShare()),
                        "a share is 0 to 1");
            }
            if (!cutIndex.containsKey(row.cut())) {
                problem(
                        TableSchema.QUARTERING,
                        i,
                        TableColumn.CUT,
                        row.cut(),
                        "no such cut in " + TableSchema.CUTS + nearest(row.cut()));
            }
            if (!quarterings
                    .computeIfAbsent(row.quartering(), name -> new LinkedHashSet<>())
                    .add(row.cut())) {
                problem(
                        TableSchema.QUARTERING,
                        i,
                        TableColumn.CUT,
                        row.cut(),
                        "this quartering has a row for it above");
            }
        }
        quarterings.forEach((name, cuts) -> {
            if (table.levelOf(cuts) < 0) {
                problem(
                        TableSchema.QUARTERING,
                        TableProblem.NO_ROW,
                        TableColumn.QUARTERING,
                        name,
                        notOneLevel(table, cuts));
            }
        });
    }

    /** What cuts lack, or have too much, to be those of the level that they resemble most. */
    private static String notOneLevel(TableLayout table, Set<String> cuts) {
        List<String> best = List.of();
        int least = Integer.MAX_VALUE;
        for (int level = 0; level < table.levels().size(); level++) {
            Set<String> missing =
                    table.cutsAt(level).stream().map(Cut::code).collect(Collectors.toCollection(LinkedHashSet::new));
            Set<String> extra = new LinkedHashSet<>(cuts);
            extra.removeAll(missing);
            missing.removeAll(cuts);
            if (missing.size() + extra.size() < least) {
                least = missing.size() + extra.size();
                best = List.of(
                        table.levels().get(level),
                        missing.isEmpty() ? "" : "; missing: " + String.join(", ", missing),
                        extra.isEmpty() ? "" : "; too many: " + String.join(", ", extra));
            }
        }
        return "its cuts are not all the cuts of one level; the nearest level is " + String.join("", best);
    }

    private void checkNotes() {
        Set<List<String>> rows = definition.breakdown().stream()
                .map(row -> List.of(row.category(), row.way(), row.parent(), row.cut()))
                .collect(Collectors.toUnmodifiableSet());
        List<String> terms = definition.coefficientColumns();
        List<String> columns = new ArrayList<>(terms);
        columns.add(TableColumn.SD_G_PER_KG);
        columns.addAll(SHARED_SDS);
        Map<List<String>, Integer> first = new HashMap<>();
        for (int i = 0; i < definition.coefficientNotes().size(); i++) {
            CoefficientNote note = definition.coefficientNotes().get(i);
            checkSource(TableSchema.COEFFICIENT_NOTES, i, note.source());
            if (!rows.contains(List.of(note.category(), note.way(), note.parent(), note.cut()))) {
                problem(
                        TableSchema.COEFFICIENT_NOTES,
                        i,
                        TableColumn.CUT,
                        note.cut(),
                        "no row of " + TableSchema.BREAKDOWN + " has these keys");
            }
            Integer before = first.putIfAbsent(
                    List.of(note.category(), note.way(), note.parent(), note.cut(), note.term(), note.errorId()), i);
            if (before != null) {
                problem(
                        TableSchema.COEFFICIENT_NOTES,
                        i,
                        TableColumn.TERM,
                        note.term(),
                        note.errorId().isEmpty()
                                ? "a note on the same coefficient stands above"
                                : "a note on the same coefficient's error " + note.errorId() + " stands above");
            }
            if (!note.errorId().isEmpty()
                    && (note.standardError() == null
                            || (columns.contains(note.term()) && !terms.contains(note.term())))) {
                problem(
                        TableSchema.COEFFICIENT_NOTES,
                        i,
                        TableColumn.ERROR_ID,
                        note.errorId(),
                        "an error has a name where a standard error of a coefficient is stated; state it, or leave the"
                                + " name empty");
            }
            if (!columns.contains(note.term())) {
                problem(
                        TableSchema.COEFFICIENT_NOTES,
                        i,
                        TableColumn.TERM,
                        note.term(),
                        "no such term; terms: " + String.join(", ", columns));
            }
            Double error = note.standardError();
            if (error != null && !(error >= 0 && Double.isFinite(error))) {
                problem(
                        TableSchema.COEFFICIENT_NOTES,
                        i,
                        TableColumn.STANDARD_ERROR,
                        Numbers.exact(error),
                        "a standard error is 0 or more");
            }
        }
        Set<List<String>> named = new HashSet<>();
        Map<List<String>, String> byName = new HashMap<>();
        for (int i = 0; i < definition.names().size(); i++) {
            CutName name = definition.names().get(i);
            if (!cutIndex.containsKey(name.cut())) {
                problem(
                        TableSchema.NAMES,
                        i,
                        TableColumn.CUT,
                        name.cut(),
                        "no such cut in " + TableSchema.CUTS + nearest(name.cut()));
            }
            if (name.language().isBlank()) {
                problem(TableSchema.NAMES, i, TableColumn.LANGUAGE, "", "a name is in a language, such as de");
            }
            checkName(
                    TableSchema.NAMES,
                    i,
                    name.name(),
                    byName.putIfAbsent(
                            List.of(
                                    level(name.cut()),
                                    name.language(),
                                    name.name().strip()),
                            name.cut()),
                    name.cut());
            if (!named.add(List.of(name.cut(), name.language()))) {
                problem(
                        TableSchema.NAMES,
                        i,
                        TableColumn.LANGUAGE,
                        name.language(),
                        "the cut's name in this language stands above");
            }
        }
    }

    private String level(String cut) {
        Integer index = cutIndex.get(cut);
        return index == null ? "" : definition.cuts().get(index).level();
    }

    /** A name that people read: none is blank, and none stands for two cuts of a level, which print below each other. */
    private void checkName(TableSchema resource, int row, String name, @Nullable String before, String cut) {
        if (name.isBlank()) {
            problem(resource, row, TableColumn.NAME, "", "a cut has a name for people; write one for " + cut);
        } else if (before != null && !before.equals(cut)) {
            problem(
                    resource,
                    row,
                    TableColumn.NAME,
                    name,
                    "the cut " + before + " has this name above; people could not tell it from " + cut);
        }
    }

    private void checkCovariances() {
        String served = definition.categories().stream().map(Category::letter).collect(Collectors.joining());
        Set<String> withCoefficients =
                definition.breakdown().stream().map(BreakdownRow::parent).collect(Collectors.toSet());
        List<String> columns = definition.coefficientColumns();
        Map<TableSchema, Integer> rows = new EnumMap<>(TableSchema.class);
        for (CovarianceRow row : definition.covariances()) {
            TableSchema resource = row.resource();
            int i = rows.merge(resource, 1, Integer::sum) - 1;
            checkCategories(new RowKey(resource, i, row.category(), row.way(), row.parent(), "", "", ""), served);
            if (!withCoefficients.contains(row.parent())) {
                problem(
                        resource,
                        i,
                        TableColumn.PARENT,
                        row.parent(),
                        "no row of " + TableSchema.BREAKDOWN + " has this parent");
            }
            for (String cut : List.of(row.cut(), row.otherCut())) {
                if (!cutIndex.containsKey(cut)) {
                    problem(resource, i, TableColumn.CUT, cut, "no such cut in " + TableSchema.CUTS + nearest(cut));
                }
            }
            for (String term : List.of(row.term(), row.otherTerm())) {
                if (!row.isResidual() && !columns.contains(term)) {
                    problem(resource, i, TableColumn.TERM, term, "no such term; terms: " + String.join(", ", columns));
                }
            }
            if (!Double.isFinite(row.value())) {
                problem(
                        resource,
                        i,
                        TableColumn.VALUE,
                        Double.toString(row.value()),
                        "a covariance is a finite number");
            }
        }
    }

    private void checkExpectations() {
        for (int i = 0; i < definition.expectations().size(); i++) {
            Expectation expectation = definition.expectations().get(i);
            String cut = expectation.cut();
            if ((cut == null) == (expectation.kind() == null)) {
                problem(
                        TableSchema.EXPECTATIONS,
                        i,
                        TableColumn.CUT,
                        "",
                        "an expectation is about a cut or a kind: fill one of the two");
            }
            if (cut != null && !cutIndex.containsKey(cut)) {
                problem(
                        TableSchema.EXPECTATIONS,
                        i,
                        TableColumn.CUT,
                        cut,
                        "no such cut in " + TableSchema.CUTS + nearest(cut));
            }
            if (!definition.levels().contains(expectation.level())) {
                problem(
                        TableSchema.EXPECTATIONS,
                        i,
                        TableColumn.LEVEL,
                        expectation.level(),
                        "no such level; levels: " + String.join(", ", definition.levels()));
            }
        }
    }

    /** Whether anything that an expectation is about stands at its level. */
    private void checkExpectationsStand(TableLayout table) {
        for (int i = 0; i < definition.expectations().size(); i++) {
            Expectation expectation = definition.expectations().get(i);
            String cut = expectation.cut();
            CutKind kind = expectation.kind();
            boolean stands = table.cutsAt(table.levelIndex(expectation.level())).stream()
                    .anyMatch(
                            one -> cut == null ? one.kind() == kind : one.code().equals(cut));
            if (!stands) {
                problem(
                        TableSchema.EXPECTATIONS,
                        i,
                        kind == null ? TableColumn.CUT : TableColumn.KIND,
                        kind == null ? String.valueOf(cut) : kind.code(),
                        "nothing of the sort stands at level " + expectation.level());
            }
        }
    }

    /** Whether nothing else is wrong at the same place. */
    private boolean isNew(TableProblem problem) {
        return problems.stream()
                .noneMatch(other -> other.resource().equals(problem.resource())
                        && other.row() == problem.row()
                        && other.column().equals(problem.column()));
    }

    /** Texts that a file couldn't give back as they are. */
    private List<TableProblem> checkTexts(List<TableResource> resources) {
        List<TableProblem> found = new ArrayList<>();
        for (TableResource resource : resources) {
            List<TableProblem> own = new ArrayList<>();
            for (int k = 0; k < resource.columns().size(); k++) {
                String column = resource.columns().get(k);
                boolean carried = definition.extraColumns().stream()
                        .anyMatch(extra -> extra.resource().equals(resource.name())
                                && extra.column().equals(column));
                for (int i = 0; i < resource.rows().size(); i++) {
                    String cell = resource.rows().get(i).get(k);
                    if (!isPlain(cell) || !(carried || cell.equals(cell.strip()))) {
                        own.add(new TableProblem(
                                resource.name(),
                                i,
                                column,
                                cell,
                                "a text has no blanks at its ends, and no line break, control character or half a"
                                        + " character in it"));
                    }
                }
            }
            own.sort(Comparator.comparingInt(TableProblem::row));
            found.addAll(own);
        }
        return found;
    }

    private void checkExtraColumns(List<TableResource> resources) {
        for (ExtraColumn extra : definition.extraColumns()) {
            TableResource resource = resources.stream()
                    .filter(one -> one.name().equals(extra.resource()))
                    .findFirst()
                    .orElse(null);
            String column = extra.column();
            if (resource == null) {
                extraProblem(
                        extra,
                        "an extra column belongs to a part of the table that has rows; parts: "
                                + resources.stream().map(TableResource::name).collect(Collectors.joining(", ")));
            } else if (resource.rows().size() != extra.values().size()) {
                extraProblem(
                        extra,
                        "an extra column has a value for each row: it has "
                                + extra.values().size() + ", " + resource.name() + " has "
                                + resource.rows().size() + " rows");
            } else if (Collections.frequency(resource.columns(), column) > 1
                    || resource.schema().columnNames(definition.terms()).contains(column)) {
                extraProblem(extra, "an extra column has a name of its own; " + resource.name() + " has this one");
            } else if (column.isEmpty() || !column.equals(column.strip()) || !isPlain(column)) {
                extraProblem(extra, "a column has a name without blanks at its ends and without control characters");
            } else {
                checkValues(extra);
            }
        }
    }

    private void extraProblem(ExtraColumn extra, String message) {
        problem(extra.resource(), TableProblem.NO_ROW, extra.column(), "", message);
    }

    private void checkValues(ExtraColumn extra) {
        for (int i = 0; i < extra.values().size(); i++) {
            String value = extra.values().get(i);
            if (!extra.isValid(value)) {
                problem(extra.resource(), i, extra.column(), value, "the column is declared as " + extra.type());
            }
        }
    }

    /** Whether a line of a file can hold a text. */
    private static boolean isPlain(String text) {
        int i = 0;
        while (i < text.length()) {
            int c = text.codePointAt(i);
            if ((Character.isISOControl(c) && c != '\t')
                    || (c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE)) {
                return false;
            }
            i += Character.charCount(c);
        }
        return true;
    }
}
