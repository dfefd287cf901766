package org.beefyield.data.testkit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.IntFunction;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.jspecify.annotations.Nullable;

/** Makes one random table that is valid by construction; the same arguments make the same table. */
final class TableMaker {
    private static final String ANY = BreakdownRow.ANY;
    private static final List<String> LEVELS = List.of("tissue", "primal", "retail", "portion", "pack");
    private static final List<CutKind> KINDS = List.of(
            CutKind.MEAT,
            CutKind.PRIMAL,
            CutKind.STEAK,
            CutKind.JOINT,
            CutKind.DICE,
            CutKind.LEAN_TRIM,
            CutKind.FAT_TRIM,
            CutKind.BONE,
            CutKind.LOSS);
    /** In the order of the plain slopes' columns. */
    private static final List<Variable> VARIABLES = List.of(Variable.CONFORMATION, Variable.FAT, Variable.WEIGHT);

    private static final int MOST_PARENTS = 3;
    private static final int MOST_WEIGHT_LEVELS = 3;
    private static final int NARROW = 4;
    /** Slopes move a share by less than this part of its level, all of them together, anywhere in the range. */
    private static final double SWING = 0.4;
    /** Rounded figures have so many decimals; fewer could push a small share below 0 at the ends of the range. */
    private static final int[] PLACES = {3, 5};

    /** How a table's figures are rounded. */
    private enum Figures {
        /** To decimals that it declares, so that sums are off by rounding. */
        DECLARED,
        /** Closed to the last decimal, nothing declared. */
        CLOSED,
        /** As they come out of the arithmetic. */
        RAW
    }

    private final Random random;
    /** For what tables may state or not, apart so that the rest of a table doesn't depend on it. */
    private final Random optional;
    /** Part of the breakdowns that are given by class: 0, 1 or what chance makes of it. */
    private final double partByClass;

    private final int levels;
    private final int mostChildren;
    private final Figures figures;
    private final TableDefinition.Builder table;
    private final TableRange allowed;
    private final TableRange fitted;
    private final ReferencePoint reference;
    private final List<Category> categories;
    private final List<Term> terms = new ArrayList<>();
    private final List<Cut> cuts = new ArrayList<>();
    private final List<BreakdownRow> rows = new ArrayList<>();
    private final List<ClassRow> cells = new ArrayList<>();
    private final Set<Integer> weightLevels = new LinkedHashSet<>();
    /** Ways of every parent that has any. */
    private final Map<String, List<String>> ways = new LinkedHashMap<>();

    private final Set<String> brokenDown = new HashSet<>();
    /** Form of the breakdown at hand: one for all ways of a parent. */
    private boolean byClass;

    private boolean thirds;
    private boolean fatThirds;
    /** Whether the children at hand are all of their breakdown. */
    private boolean whole;
    /** What each SD of errors in common is of the SD between carcasses; null where the table doesn't state it. */
    private final @Nullable Double lotPart;

    private final @Nullable Double runPart;
    private final @Nullable Double hallPart;

    TableMaker(double partByClass, int levels, int mostChildren, long seed) {
        this.random = new Random(seed);
        this.optional = new Random(~seed);
        this.partByClass = partByClass;
        this.levels = levels;
        this.mostChildren = mostChildren;
        this.figures = pick(Arrays.asList(Figures.values()));
        this.table = TableDefinition.builder("random-" + Long.toHexString(seed), "1." + random.nextInt(10));
        this.allowed = new TableRange(
                wholeRange(GradeAxes.EU.conformation().last()),
                wholeRange(GradeAxes.EU.fat().last()),
                weights());
        this.fitted =
                new TableRange(part(allowed.conformation(), 2), part(allowed.fat(), 2), part(allowed.weightKg(), 1));
        this.reference = new ReferencePoint(
                inside(allowed.conformation(), 2), inside(allowed.fat(), 2), inside(allowed.weightKg(), 1));
        List<Category> all = new ArrayList<>(Arrays.asList(Category.values()));
        Collections.shuffle(all, random);
        this.categories = all.subList(0, 1 + random.nextInt(all.size()));
        this.lotPart = part();
        this.runPart = part();
        this.hallPart = part();
    }

    private @Nullable Double part() {
        return optional.nextBoolean() ? (Double) (optional.nextInt(5) / 4.0) : null;
    }

    /** Equal for all children, or as much for the first as for the others together: both close. */
    private SharedSds shared(int child, int children, double sd) {
        double most = sd * (whole && child == 0 && children > 2 ? children - 1 : 1);
        return new SharedSds(
                lotPart == null ? null : lotPart * sd,
                runPart == null ? null : runPart * sd,
                hallPart == null ? null : hallPart * most);
    }

    private <T> T pick(List<T> choices) {
        return choices.get(random.nextInt(choices.size()));
    }

    private boolean chance(double probability) {
        return random.nextDouble() < probability;
    }

    private Range wholeRange(int highest) {
        if (chance(0.1)) {
            return new Range(1, highest);
        }
        int low = 1 + random.nextInt(highest);
        return new Range(low, Math.min(highest, low + random.nextInt(NARROW + 1)));
    }

    private Range weights() {
        double low = 80 + random.nextInt(4000) / 10.0;
        return new Range(low, chance(0.05) ? low : low + random.nextInt(4000) / 10.0);
    }

    /** A point of a range, at a whole number of parts of 1 where one lies inside. */
    private double inside(Range range, int parts) {
        double rounded = Math.rint((range.low() + random.nextDouble() * (range.high() - range.low())) * parts) / parts;
        return range.contains(rounded) ? rounded : range.low();
    }

    private Range part(Range range, int parts) {
        double one = inside(range, parts);
        double other = inside(range, parts);
        return new Range(Math.min(one, other), Math.max(one, other));
    }

    TableDefinition make() {
        table.about("Random table", "Made by a test; its figures, \"rounded\" or not, mean nothing")
                .license(new License("CC0-1.0", "", "Public domain"))
                .levels(LEVELS.subList(0, levels).toArray(String[]::new))
                .reference(reference.conformation(), reference.fat(), reference.weightKg())
                .ranges(fitted, allowed)
                .widthFit(pick(List.of(0.0, 1.0, 3.0)))
                .categories(categories.toArray(Category[]::new))
                .basis(
                        chance(0.5)
                                ? Basis.NOT_STATED
                                : Basis.NOT_STATED
                                        .withQuartering("10-rib forequarter")
                                        .withHanging("hip")
                                        .withFatCoverMm(5.0)
                                        .withAgeingDays(7.0)
                                        .withBoneless(true))
                .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made by a random generator", ""))
                .source(new SourceRow("made-2", SourceKind.DERIVED, "Made, \"too\"", "a note, with a comma"));
        terms();
        while (weightLevels.size() < Math.min(levels, MOST_WEIGHT_LEVELS)) {
            weightLevels.add(random.nextInt(levels));
        }
        List<String> parents = List.of(BreakdownRow.ROOT);
        for (int level = 0; level < levels; level++) {
            parents = level(level, parents);
        }
        Collections.shuffle(cuts, random);
        cuts.forEach(table::cut);
        rows.forEach(table::row);
        cells.forEach(table::row);
        specifications();
        expectations();
        besides();
        return table.build();
    }

    private void terms() {
        List<Term> possible = new ArrayList<>(List.of(
                new Term.Product("conformation_by_fat", Variable.CONFORMATION, Variable.FAT),
                new Term.Product("conformation_by_weight", Variable.CONFORMATION, Variable.WEIGHT),
                new Term.Product("weight_by_fat", Variable.WEIGHT, Variable.FAT)));
        for (Variable variable : List.of(Variable.CONFORMATION, Variable.FAT)) {
            Range range = allowed.of(variable);
            int knot = (int) range.low() + random.nextInt((int) (range.high() - range.low()) + 1);
            possible.add(new Term.Hinge(variable.code() + "_below", variable, Term.Side.BELOW, knot));
            possible.add(new Term.Hinge(variable.code() + "_above", variable, Term.Side.ABOVE, knot));
        }
        Collections.shuffle(possible, random);
        terms.addAll(possible.subList(0, random.nextInt(4)));
        terms.forEach(table::term);
        if (figures == Figures.DECLARED) {
            table.decimals(BreakdownRow.PLAIN_COLUMNS.get(0), PLACES[0]).decimals(TableColumn.G_PER_KG, PLACES[0]);
            BreakdownRow.PLAIN_COLUMNS.stream().skip(1).forEach(column -> table.decimals(column, PLACES[1]));
            terms.forEach(term -> table.decimals(term.column(), PLACES[1]));
        }
    }

    /** Breaks the parents of one level down; what the next level breaks down is among what comes out. */
    private List<String> level(int level, List<String> parents) {
        // what stands and is broken down no further may come out here once more
        List<String> pool = new ArrayList<>();
        brokenDown.addAll(parents);
        cuts.stream().map(Cut::code).filter(code -> !brokenDown.contains(code)).forEach(pool::add);
        List<String> fresh = new ArrayList<>();
        for (String parent : parents) {
            int children = 1 + random.nextInt(mostChildren);
            Set<String> chosen = new LinkedHashSet<>();
            while (chosen.size() < children) {
                if (fresh.isEmpty() || pool.size() <= chosen.size() || chance(0.7)) {
                    String code = "cut-" + (level + 1) + "-" + (fresh.size() + 1);
                    fresh.add(code);
                    pool.add(code);
                    cuts.add(cut(code, LEVELS.get(level)));
                    chosen.add(code);
                } else {
                    chosen.add(pick(pool));
                }
            }
            breakDown(level, parent, List.copyOf(chosen));
        }
        Collections.shuffle(fresh, random);
        return List.copyOf(fresh.subList(0, Math.min(fresh.size(), 1 + random.nextInt(MOST_PARENTS))));
    }

    private Cut cut(String code, String level) {
        return Cut.of(code, "Cut \"" + code + "\", m\u00fcrbe", level, pick(KINDS))
                .withPiecesPerSide(chance(0.3) ? 0.5 + random.nextInt(4) : null)
                .withSideSplitSdPct(chance(0.3) ? 3.0 : null)
                .withFatPct(chance(0.3) ? (double) random.nextInt(100) : null)
                .withUnece(chance(0.2) ? "2010 2020" : "")
                .withNote(chance(0.2) ? "a note, with a comma" : "");
    }

    private void breakDown(int level, String parent, List<String> children) {
        byClass = partByClass == 1 || (partByClass > 0 && chance(partByClass));
        thirds = chance(0.5);
        fatThirds = chance(0.5);
        // equal SDs belong to errors that add up to 0, but for a child alone, which has none
        double sd = random.nextInt(200) / 10.0;
        whole = level == 0 || chance(0.6);
        if (whole) {
            breakDown(level, parent, ANY, children, 1000, children.size() == 1 ? 0 : sd);
            return;
        }
        int number = 1 + random.nextInt(3);
        List<String> names = List.of("steaks", "joints", "trim").subList(0, number);
        ways.put(parent, names);
        // the last child may be the same in every way
        boolean common = children.size() > 1 && chance(0.3);
        double shared = common ? 10 + random.nextInt(90) : 0;
        List<String> own = common ? children.subList(0, children.size() - 1) : children;
        for (int w = 0; w < number; w++) {
            int way = w;
            List<String> its = new ArrayList<>();
            for (int k = 0; k < own.size(); k++) {
                if (k % number == way || chance(0.5)) {
                    its.add(own.get(k));
                }
            }
            if (its.isEmpty()) {
                its.add(own.get(0));
            }
            breakDown(level, parent, names.get(way), its, 1000 - shared, its.size() == 1 && !common ? 0 : sd);
        }
        if (common) {
            breakDown(level, parent, ANY, children.subList(children.size() - 1, children.size()), shared, sd);
        }
    }

    /** Rows of one way, whose levels add up to a total and whose other coefficients add up to 0. */
    private void breakDown(int level, String parent, String way, List<String> children, double total, double sd) {
        double[] levelOf = closed(positive(children.size()), total, PLACES[0]);
        // two rows of one category may differ from the rest: what one child gains the other loses
        String letters = children.size() > 1 && chance(0.3) ? letters() : "";
        double moved = children.size() > 1 ? Math.rint(Math.min(levelOf[0], levelOf[1]) * 50) / 1000 : 0;
        if (byClass) {
            classes(parent, way, children, levelOf, sd, letters, moved);
            return;
        }
        double[][] coefficients = new double[children.size()][4 + terms.size()];
        for (int k = 0; k < children.size(); k++) {
            coefficients[k][0] = levelOf[k];
        }
        int columns = 3 + terms.size();
        for (int j = 1; j <= columns; j++) {
            double reach = reach(j);
            boolean none = reach == 0 || (usesWeight(j) && !weightLevels.contains(level)) || chance(0.3);
            double[] slopes = none ? new double[children.size()] : slopes(levelOf, SWING / columns / reach);
            for (int k = 0; k < children.size(); k++) {
                coefficients[k][j] = slopes[k];
            }
        }
        for (int k = 0; k < children.size(); k++) {
            rows.add(row(ANY, way, parent, children.get(k), coefficients[k], sd, shared(k, children.size(), sd)));
        }
        for (int k = 0; k < 2 && !letters.isEmpty(); k++) {
            double[] its = coefficients[k].clone();
            its[0] += k == 0 ? moved : -moved;
            rows.add(row(letters, way, parent, children.get(k), its, sd, shared(k, children.size(), sd)));
        }
    }

    private BreakdownRow row(
            String category,
            String way,
            String parent,
            String cut,
            double[] coefficients,
            double sd,
            SharedSds shared) {
        return new BreakdownRow(
                category,
                way,
                parent,
                cut,
                Arrays.stream(coefficients).boxed().toList(),
                sd,
                shared,
                chance(0.5) ? "made" : "made-2");
    }

    private String letters() {
        StringBuilder letters = new StringBuilder();
        for (Category category : categories) {
            if (letters.isEmpty() || chance(0.3)) {
                letters.append(category.letter());
            }
        }
        return letters.toString();
    }

    /** Furthest that a column's variable gets from 0 anywhere in the allowed range. */
    private double reach(int column) {
        if (column <= 3) {
            return distance(VARIABLES.get(column - 1));
        }
        Term term = terms.get(column - 4);
        if (term instanceof Term.Product product) {
            return distance(product.first()) * distance(product.second());
        }
        Term.Hinge hinge = (Term.Hinge) term;
        Range range = allowed.of(hinge.variable());
        return hinge.side() == Term.Side.BELOW ? hinge.knot() - range.low() : range.high() - hinge.knot();
    }

    private double distance(Variable variable) {
        Range range = allowed.of(variable);
        double from = switch (variable) {
            case CONFORMATION -> reference.conformation();
            case FAT -> reference.fat();
            case WEIGHT -> reference.weightKg();
        };
        return Math.max(range.high() - from, from - range.low()) / (variable == Variable.WEIGHT ? 100 : 1);
    }

    private boolean usesWeight(int column) {
        return column <= 3
                ? VARIABLES.get(column - 1) == Variable.WEIGHT
                : uses(terms.get(column - 4), Variable.WEIGHT);
    }

    private double[] positive(int size) {
        double[] values = new double[size];
        for (int k = 0; k < size; k++) {
            values[k] = 0.05 + random.nextDouble();
        }
        return values;
    }

    /** Coefficients that add up to 0, each at most twice a part of its child's level. */
    private double[] slopes(double[] levelOf, double part) {
        double total = Arrays.stream(levelOf).sum();
        double[] raw = new double[levelOf.length];
        double mean = 0;
        for (int k = 0; k < raw.length; k++) {
            raw[k] = part * (2 * random.nextDouble() - 1);
            mean += raw[k] * levelOf[k] / total;
        }
        for (int k = 0; k < raw.length; k++) {
            raw[k] = levelOf[k] * (raw[k] - mean);
        }
        return rounded(raw, 0, PLACES[1]);
    }

    /** Positive numbers brought to a sum. */
    private double[] closed(double[] raw, double total, int places) {
        double sum = Arrays.stream(raw).sum();
        double[] values = new double[raw.length];
        for (int k = 0; k < raw.length; k++) {
            values[k] = raw.length == 1 ? total : raw[k] * total / sum;
        }
        return rounded(values, total, places);
    }

    private double[] rounded(double[] values, double total, int places) {
        if (figures == Figures.RAW) {
            return values;
        }
        long unit = Math.round(Math.pow(10, places));
        long left = Math.round(total * unit);
        double[] rounded = new double[values.length];
        int largest = 0;
        for (int k = 0; k < values.length; k++) {
            long units = Math.round(values[k] * unit);
            left -= units;
            rounded[k] = units / (double) unit;
            largest = Math.abs(values[k]) > Math.abs(values[largest]) ? k : largest;
        }
        if (figures == Figures.CLOSED) {
            rounded[largest] = (Math.round(rounded[largest] * unit) + left) / (double) unit;
        }
        return rounded;
    }

    private void classes(
            String parent,
            String way,
            List<String> children,
            double[] levelOf,
            double sd,
            String letters,
            double moved) {
        double total = Arrays.stream(levelOf).sum();
        for (String conformation : classes(allowed.conformation(), thirds, TableMaker::conformation)) {
            for (String fat : classes(allowed.fat(), fatThirds, TableMaker::fat)) {
                double[] raw = new double[children.size()];
                for (int k = 0; k < raw.length; k++) {
                    // classes differ little enough that shares stay positive over the outer half classes
                    raw[k] = levelOf[k] * (0.9 + 0.2 * random.nextDouble());
                }
                double[] values = closed(raw, Math.rint(total), PLACES[0]);
                for (int k = 0; k < raw.length; k++) {
                    SharedSds shared = shared(k, children.size(), sd);
                    cells.add(cell(ANY, way, parent, conformation, fat, children.get(k), values[k], sd, shared));
                }
                for (int k = 0; k < 2 && !letters.isEmpty(); k++) {
                    double its = values[k] + (k == 0 ? moved : -moved);
                    SharedSds shared = shared(k, children.size(), sd);
                    cells.add(cell(letters, way, parent, conformation, fat, children.get(k), its, sd, shared));
                }
            }
        }
    }

    private ClassRow cell(
            String category,
            String way,
            String parent,
            String conformation,
            String fat,
            String cut,
            double value,
            double sd,
            SharedSds shared) {
        String source = chance(0.5) ? "made" : "made-2";
        return new ClassRow(category, way, parent, conformation, fat, cut, value, sd, shared, source);
    }

    private static List<String> classes(Range range, boolean thirds, IntFunction<String> third) {
        Set<String> classes = new LinkedHashSet<>();
        for (int node = (int) range.low(); node <= (int) range.high(); node++) {
            String label = third.apply(node);
            classes.add(thirds ? label : label.substring(0, 1));
        }
        return List.copyOf(classes);
    }

    private static String conformation(int node) {
        return Conformation.third(node).toString();
    }

    private static String fat(int node) {
        return FatClass.third(node).toString();
    }

    private void specifications() {
        for (String name : ways.isEmpty() ? List.<String>of() : List.of("first", "second")) {
            ways.forEach((parent, names) -> table.specification(name, parent, pick(names)));
        }
    }

    /** What holds by construction: at the first level a variable that stands in one column alone has one direction. */
    private void expectations() {
        for (BreakdownRow row : rows) {
            boolean clear =
                    row.parent().equals(BreakdownRow.ROOT) && row.category().equals(ANY) && chance(0.5);
            Variable variable = pick(VARIABLES);
            double slope = row.coefficients().get(1 + VARIABLES.indexOf(variable));
            boolean alone = terms.stream().noneMatch(term -> uses(term, variable));
            Expectation.Over over = chance(0.5) ? Expectation.Over.ALLOWED : Expectation.Over.FITTED;
            if (clear && alone && Math.abs(slope) > 0.01 && hasSteps(over, variable)) {
                table.expectation(new Expectation(
                        row.cut(),
                        null,
                        LEVELS.get(0),
                        variable,
                        slope > 0 ? Expectation.Direction.RISES : Expectation.Direction.FALLS,
                        chance(0.7),
                        over,
                        chance(0.5) ? "" : "by construction"));
            }
        }
    }

    private boolean hasSteps(Expectation.Over over, Variable variable) {
        Range range = (over == Expectation.Over.ALLOWED ? allowed : fitted).of(variable);
        return variable == Variable.WEIGHT || range.high() > range.low();
    }

    private static boolean uses(Term term, Variable variable) {
        if (term instanceof Term.Product product) {
            return product.first() == variable || product.second() == variable;
        }
        return ((Term.Hinge) term).variable() == variable;
    }

    private void besides() {
        if (chance(0.3)) {
            // every cut of the first level stands there and nothing else does
            for (Cut cut : cuts) {
                if (cut.level().equals(LEVELS.get(0))) {
                    table.quartering(new QuarteringRow("10-rib", cut.code(), random.nextInt(101) / 100.0, "made"));
                }
            }
        }
        if (!rows.isEmpty() && chance(0.5)) {
            notes(pick(rows));
        }
        if (chance(0.3)) {
            table.name(new CutName(pick(cuts).code(), "de", "St\u00fcck, \"ganz\""));
        }
        if (chance(0.3)) {
            table.extraColumn(new ExtraColumn(
                    TableSchema.CUTS.code(),
                    "checked_by",
                    "string",
                    Collections.nCopies(cuts.size(), chance(0.5) ? "hall" : "")));
        }
    }

    /** Notes on one coefficient of a row and its siblings; equal standard errors of enough of them add up to 0. */
    private void notes(BreakdownRow one) {
        List<BreakdownRow> siblings = rows.stream()
                .filter(row -> row.parent().equals(one.parent())
                        && row.way().equals(one.way())
                        && row.category().equals(one.category()))
                .toList();
        // a category with two rows of its own leaves two fewer
        boolean enough = siblings.size() >= 4 || !one.category().equals(ANY);
        Double error = enough && chance(0.7) ? random.nextInt(100) / 100.0 : null;
        List<List<String>> names = List.of(List.of(""), List.of("fit"), List.of("", "fit"), List.of("fit", "more"));
        List<String> ids = error == null ? names.get(0) : names.get(optional.nextInt(names.size()));
        for (BreakdownRow row : siblings) {
            for (String id : ids) {
                table.coefficientNote(new CoefficientNote(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        TableColumn.PER_FAT_POINT,
                        error,
                        id,
                        "made-2"));
            }
        }
    }
}
