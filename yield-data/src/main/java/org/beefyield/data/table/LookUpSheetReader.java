package org.beefyield.data.table;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvHeader;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableProblem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.jspecify.annotations.Nullable;

/**
 * Makes a table by class from the look-up sheet that a plant keeps: a CSV file with a row for each grade and a column for each
 * cut, per cent of cold weight. Immutable; {@code with...} says what the sheet doesn't.
 *
 * <p>Columns, in any order, under these names or those that the form declares:
 *
 * <ul>
 *   <li>{@code conformation}: whole classes ({@code R}) or thirds ({@code R+}), one kind throughout
 *   <li>{@code fat_class}: whole classes ({@code 3}) or thirds ({@code 3-}), one kind throughout
 *   <li>{@code category} (optional): letters of the categories that the row serves, such as {@code C} or {@code AB}, or
 *       {@code *} for all; without the column every row serves all
 *   <li>a column for each cut, headed with its code or its name: per cent of cold weight, 0 if nothing comes out. What the
 *       cuts are is known of those of the shipped edition, and of those given ({@link #withCuts})
 *   <li>{@code sd} (optional): SD between carcasses of the grade, per cent of cold weight, of each cut; or the same of one
 *       cut, headed with its code or name and {@code sd} behind it, such as {@code striploin_sd}
 * </ul>
 *
 * <p>Every grade between the lowest and the highest has a row. The cuts of a row add up to 100; what rounding explains (three
 * SDs of the sum of so many figures rounded to the sheet's decimals) is taken off in proportion and reported, more is
 * refused, or is one cut's ({@link #withRest}). The table has one level, called like the shipped edition's that has most of the
 * sheet's cuts, so that the two can be compared.
 */
public final class LookUpSheetReader {
    /** Splits between any two characters. */
    private static final Pattern LETTERS = Pattern.compile("");

    private static final String CONFORMATION = TableColumn.CONFORMATION;
    private static final String FAT_CLASS = TableColumn.FAT_CLASS;
    private static final String CATEGORY = TableColumn.CATEGORY;
    private static final String SD = "sd";
    private static final String NEEDED =
            "; a sheet has " + CONFORMATION + ", " + FAT_CLASS + " and a column for each cut";
    private static final List<String> KEYS = List.of(CATEGORY, CONFORMATION, FAT_CLASS, SD);
    private static final List<String> CUT_COLUMNS = List.of(TableColumn.CUT, TableColumn.NAME, TableColumn.KIND);

    /** What a level is called of which the shipped edition knows no cut. */
    private static final String LEVEL = TableColumn.CUT;

    private static final String SOURCE = "own-sheet";

    /** Decimals of a share that was brought to 100 %, g/kg: below what any scale shows. */
    private static final int G_DECIMALS = 4;

    private static final int PERCENT_DECIMALS = 2;
    private static final double TO_G_PER_KG = 10;
    private static final int MOST_ROWS = 10_000;

    private final String name;
    private final String version;
    private final CsvForm form;
    private final List<Cut> cuts;
    private final @Nullable String rest;
    private final Set<String> leftOut;
    private final @Nullable Set<Category> categories;
    private final @Nullable Range weightsKg;
    private final @Nullable ReferencePoint reference;

    private LookUpSheetReader(
            String name,
            String version,
            CsvForm form,
            List<Cut> cuts,
            @Nullable String rest,
            Set<String> leftOut,
            @Nullable Set<Category> categories,
            @Nullable Range weightsKg,
            @Nullable ReferencePoint reference) {
        this.name = name;
        this.version = version;
        this.form = form;
        this.cuts = cuts;
        this.rest = rest;
        this.leftOut = leftOut;
        this.categories = categories;
        this.weightsKg = weightsKg;
        this.reference = reference;
    }

    /**
     * A reader of sheets of the standard form.
     *
     * @param name name of the table: lower-case letters, digits, {@code . _ -}
     * @param version version of the table
     * @return the reader
     */
    public static LookUpSheetReader of(String name, String version) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        return new LookUpSheetReader(name, version, CsvForm.standard(), List.of(), null, Set.of(), null, null, null);
    }

    /**
     * The same reader for another form of file.
     *
     * @param newForm how the sheet is written
     * @return a reader
     */
    public LookUpSheetReader with(CsvForm newForm) {
        Objects.requireNonNull(newForm, "newForm");
        return new LookUpSheetReader(name, version, newForm, cuts, rest, leftOut, categories, weightsKg, reference);
    }

    /**
     * The same reader with cuts of the sheet's own, which go before those of the shipped edition. Their level doesn't count.
     *
     * @param newCuts such as {@link #cuts} reads them
     * @return a reader
     */
    public LookUpSheetReader withCuts(List<Cut> newCuts) {
        return new LookUpSheetReader(
                name, version, form, CutCatalogue.of(newCuts).cuts(), rest, leftOut, categories, weightsKg, reference);
    }

    /**
     * The same reader with a cut that has no column: what a row lacks of 100 %, such as the loss.
     *
     * @param cut its code or its name
     * @return a reader
     */
    public LookUpSheetReader withRest(String cut) {
        Objects.requireNonNull(cut, "cut");
        return new LookUpSheetReader(name, version, form, cuts, cut, leftOut, categories, weightsKg, reference);
    }

    /**
     * The same reader without columns that are no cuts, such as a number of carcasses or a total.
     *
     * @param columns their names in the sheet
     * @return a reader
     */
    public LookUpSheetReader without(Collection<String> columns) {
        return new LookUpSheetReader(
                name,
                version,
                form,
                cuts,
                rest,
                Set.copyOf(new LinkedHashSet<>(columns)),
                categories,
                weightsKg,
                reference);
    }

    /**
     * The same reader with the categories that a row without category, or with {@code *}, serves; else all of the shipped
     * edition.
     *
     * @param newCategories one or more
     * @return a reader
     * @throws IllegalArgumentException if there is none
     */
    public LookUpSheetReader withCategories(Collection<Category> newCategories) {
        if (newCategories.isEmpty()) {
            throw new IllegalArgumentException("a table serves at least one category");
        }
        return new LookUpSheetReader(
                name, version, form, cuts, rest, leftOut, new TreeSet<>(newCategories), weightsKg, reference);
    }

    /**
     * The same reader with the cold weights for which the table may be used; else those of the shipped edition.
     *
     * @param newWeightsKg kg
     * @return a reader
     */
    public LookUpSheetReader withWeights(Range newWeightsKg) {
        Objects.requireNonNull(newWeightsKg, "newWeightsKg");
        return new LookUpSheetReader(name, version, form, cuts, rest, leftOut, categories, newWeightsKg, reference);
    }

    /**
     * The same reader with a reference carcass, which a table names; shares by class don't depend on it. Else the one in the
     * middle of the sheet's grades, of the weight of the shipped edition's, if that may be.
     *
     * @param newReference inside the sheet's grades and weights
     * @return a reader
     */
    public LookUpSheetReader withReference(ReferencePoint newReference) {
        Objects.requireNonNull(newReference, "newReference");
        return new LookUpSheetReader(name, version, form, cuts, rest, leftOut, categories, weightsKg, newReference);
    }

    /**
     * Reads what cuts are: a CSV file with the columns {@code cut} (code), {@code name} and {@code kind} (steak, joint,
     * dice, lean-trim, primal, fat-trim, bone, loss and so on, {@link CutKind}).
     *
     * @param source the file
     * @param form how it is written
     * @return cuts in the file's order
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static List<Cut> cuts(Source source, CsvForm form) {
        Set<String> met = new LinkedHashSet<>();
        return SmallCsv.read(source, form, CUT_COLUMNS, row -> {
            CutKind kind = row.parsedOrNull(TableColumn.KIND, CutKind::parse);
            Cut cut = kind == null
                    ? null
                    : row.parsedOrNull(
                            TableColumn.CUT,
                            code -> Cut.of(
                                    code,
                                    row.text(TableColumn.NAME).isEmpty() ? code : row.text(TableColumn.NAME),
                                    LEVEL,
                                    kind));
            if (cut != null && !met.add(cut.code())) {
                row.refuse(TableColumn.CUT, "this cut stands above");
            }
            return cut;
        });
    }

    /**
     * Reads a sheet.
     *
     * @param source the file, plain or packed with gzip
     * @return the table, and what the sheet doesn't say
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found, and the
     *     grades that are missing
     */
    public LookUpSheet read(Source source) {
        return new Reading(Objects.requireNonNull(source, "source")).read();
    }

    /** Upper case and blanks don't count. */
    private static String plain(String text) {
        return text.strip().toLowerCase(Locale.ROOT).replaceAll("[ _]+", "-");
    }

    /** A row of the sheet: shares in per cent in the order of its cuts. */
    private record Grade(
            long line,
            String category,
            Conformation conformation,
            FatClass fat,
            List<BigDecimal> percent,
            List<Double> sds) {
        String words() {
            return conformation + " " + fat;
        }

        boolean serves(Category one) {
            return category.equals(BreakdownRow.ANY) || category.contains(one.letter());
        }
    }

    /** One reading of a sheet. */
    private final class Reading {
        private final String file;
        private final Source source;
        private final YieldTable shippedTable = ShippedTables.boneless2026();
        private final CutCatalogue shipped = shippedTable.catalogue();
        private final List<Problem> problems = new ArrayList<>();
        private final List<String> notes = new ArrayList<>();
        private final SortedMap<Long, Double> rounded = new TreeMap<>();
        /** By column. */
        private final Map<String, Cut> ofColumn = new LinkedHashMap<>();

        private final Map<String, Cut> sdOfColumn = new LinkedHashMap<>();
        private final Set<String> known = new LinkedHashSet<>();
        private final List<String> ignored = new ArrayList<>();
        private boolean hasCategory;
        private boolean hasSd;

        Reading(Source source) {
            this.source = source;
            file = source.name();
        }

        LookUpSheet read() {
            List<Grade> grades = new ArrayList<>();
            try (InputStream in = GzipInput.open(source)) {
                CsvReader csv = new CsvReader(file, in, form, problems::add);
                header(csv);
                for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                    if (csv.rows() > MOST_ROWS) {
                        problem(row.line(), "", "", "at most " + MOST_ROWS + " rows are read here");
                        break;
                    }
                    Grade grade = grade(CsvRow.of(file, csv.columns(), form, row, problems::add));
                    if (grade != null) {
                        grades.add(grade);
                    }
                }
                if (csv.rows() == 0) {
                    problem(0, "", "", "the file has a header but no row; a row for each grade is needed");
                }
            } catch (IOException e) {
                problem(0, "", "", "the file can't be read: " + Reason.of(e));
            }
            stopAtProblems();
            checkKinds(grades);
            Set<Category> served = served(grades);
            checkTwice(grades);
            checkMissing(grades, served);
            List<List<BigDecimal>> shares = closed(grades);
            stopAtProblems();
            return made(grades, served, shares);
        }

        private void problem(long line, String column, String value, String message) {
            problems.add(new Problem(file, line, column, value, message));
        }

        private void stopAtProblems() {
            if (!problems.isEmpty()) {
                throw new InvalidDataException(problems);
            }
        }

        // columns

        private void header(CsvReader csv) {
            CsvHeader header = csv.columns();
            for (String needed : List.of(CONFORMATION, FAT_CLASS)) {
                if (header.position(needed) < 0) {
                    problem(
                            csv.headerLine(),
                            header.name(needed),
                            "",
                            "the column \"" + header.name(needed) + "\" is missing" + NEEDED);
                }
            }
            hasCategory = header.position(CATEGORY) >= 0;
            hasSd = header.position(SD) >= 0;
            Map<String, String> columnOf = new LinkedHashMap<>();
            for (int i = 0; i < header.names().size(); i++) {
                String ours = header.ours(i);
                String theirs = header.names().get(i);
                if (leftOut.contains(theirs)) {
                    ignored.add(theirs);
                } else if (!KEYS.contains(ours)) {
                    column(csv.headerLine(), ours.isEmpty() ? theirs : ours, theirs, columnOf);
                }
            }
            for (String column : leftOut) {
                if (!ignored.contains(column)) {
                    problem(csv.headerLine(), column, "", "there is no column \"" + column + "\" to leave out");
                }
            }
            Cut atRest = rest == null ? null : cut(rest);
            if (rest != null && atRest == null) {
                problem(csv.headerLine(), "", rest, unknown(rest));
            } else if (atRest != null && ofColumn.containsValue(atRest)) {
                problem(
                        csv.headerLine(),
                        columnOf.getOrDefault(atRest.code(), ""),
                        "",
                        atRest.code() + " is the rest to 100 % and has a column too; it is one or the other");
            }
            if (ofColumn.isEmpty() && problems.isEmpty()) {
                problem(csv.headerLine(), "", "", "no column is a cut" + NEEDED);
            }
            sdOfColumn.forEach((column, cut) -> {
                if (!ofColumn.containsValue(cut)) {
                    problem(csv.headerLine(), column, "", "an SD is given for " + cut.code() + ", which has no column");
                }
            });
            stopAtProblems();
        }

        private void column(long line, String ours, String theirs, Map<String, String> columnOf) {
            Cut cut = cut(ours);
            String lower = plain(ours);
            Cut ofSd = cut == null && lower.endsWith("-sd") ? cut(lower.substring(0, lower.length() - 3)) : null;
            if (cut == null && ofSd == null) {
                problem(
                        line,
                        theirs,
                        "",
                        unknown(ours)
                                + "; a cut of your own is declared: withCuts(...), --cuts; a column that is none is left out: without(...),"
                                + " --leave-out");
                return;
            }
            String key = cut == null ? String.valueOf(ofSd) + SD : cut.code();
            String before = columnOf.putIfAbsent(key, theirs);
            if (before != null) {
                problem(line, theirs, "", "the column \"" + before + "\" is the same cut");
            } else if (cut != null) {
                ofColumn.put(ours, cut);
            } else if (ofSd != null) {
                sdOfColumn.put(ours, ofSd);
            }
        }

        private String unknown(String code) {
            List<String> codes = new ArrayList<>();
            cuts.forEach(cut -> codes.add(cut.code()));
            shipped.cuts().forEach(cut -> codes.add(cut.code()));
            return "no cut \"" + code + "\"; nearest: " + Names.nearest(code, new LinkedHashSet<>(codes));
        }

        /** The cut of a code or a name. */
        private @Nullable Cut cut(String text) {
            for (List<Cut> all : List.of(cuts, shipped.cuts())) {
                for (Cut cut : all) {
                    if (plain(text).equals(cut.code()) || plain(text).equals(plain(cut.name()))) {
                        if (all != cuts) {
                            known.add(cut.code());
                        }
                        return cut;
                    }
                }
            }
            return null;
        }

        // rows

        private @Nullable Grade grade(CsvRow row) {
            Conformation conformation = row.parsedOrNull(CONFORMATION, Conformation::parse);
            FatClass fat = row.parsedOrNull(FAT_CLASS, FatClass::parse);
            String category = hasCategory ? row.parsedOrNull(CATEGORY, this::letters) : BreakdownRow.ANY;
            List<BigDecimal> percent = new ArrayList<>();
            ofColumn.keySet().forEach(column -> percent.add(BigDecimal.valueOf(share(row, column))));
            Double sd = hasSd ? Double.valueOf(share(row, SD)) : null;
            Map<Cut, Double> own = new LinkedHashMap<>();
            sdOfColumn.forEach((column, cut) -> own.put(cut, share(row, column)));
            if (conformation == null || fat == null || category == null || row.isBad()) {
                return null;
            }
            List<Double> sds = new ArrayList<>();
            ofColumn.values().forEach(cut -> sds.add(own.getOrDefault(cut, sd == null ? 0.0 : sd)));
            return new Grade(row.line(), category, conformation, fat, percent, sds);
        }

        private String letters(String cell) {
            if (cell.equals(BreakdownRow.ANY)) {
                return cell;
            }
            Set<Category> all = new TreeSet<>();
            for (String letter : LETTERS.splitAsStream(cell.replace(" ", "")).toList()) {
                if (!all.add(Category.parse(letter))) {
                    throw new IllegalArgumentException("category " + letter + " stands twice in \"" + cell + "\"");
                }
            }
            return all.stream().map(Category::letter).collect(Collectors.joining());
        }

        /** Per cent; 0 for a cell that is refused. */
        private double share(CsvRow row, String column) {
            if (row.text(column).isEmpty()) {
                row.refuse(column, "the cell is blank; 0 if nothing comes out");
                return 0;
            }
            double percent = row.number(column);
            if (percent < 0 || percent > 100) {
                row.refuse(column, Numbers.exact(percent) + " is outside 0 to 100 %");
            }
            return Double.isNaN(percent) ? 0 : percent;
        }

        private void checkKinds(List<Grade> grades) {
            for (Grade grade : grades) {
                Grade first = grades.get(0);
                checkWidth(
                        grade,
                        CONFORMATION,
                        grade.conformation().width(),
                        first.conformation().width(),
                        grade.conformation() + " and " + first.conformation(),
                        first.line());
                checkWidth(
                        grade,
                        FAT_CLASS,
                        grade.fat().width(),
                        first.fat().width(),
                        grade.fat() + " and " + first.fat(),
                        first.line());
            }
            stopAtProblems();
        }

        private void checkWidth(Grade grade, String column, double width, double first, String both, long line) {
            if (width != 3 && width != 1) {
                problem(
                        grade.line(),
                        column,
                        "",
                        both.substring(0, both.indexOf(' ')) + " is neither a whole class nor a third");
            } else if (width != first) {
                problem(
                        grade.line(),
                        column,
                        "",
                        both + " in line " + line + " are not both whole classes or both thirds; a sheet has one kind");
            }
        }

        private Set<Category> served(List<Grade> grades) {
            Set<Category> served = new TreeSet<>();
            for (Category category : Category.values()) {
                if (grades.stream()
                        .anyMatch(grade -> !grade.category().equals(BreakdownRow.ANY) && grade.serves(category))) {
                    served.add(category);
                }
            }
            if (grades.stream().anyMatch(grade -> grade.category().equals(BreakdownRow.ANY))) {
                if (categories != null) {
                    served.addAll(categories);
                } else {
                    served.addAll(shippedTable.definition().categories());
                    notes.add((hasCategory
                                    ? "Rows for all categories serve "
                                    : "No categories are given: every row serves ")
                            + letters(served) + ", as the shipped edition does");
                }
            } else if (categories != null) {
                categories.stream()
                        .filter(one -> !served.contains(one))
                        .forEach(one -> problem(0, CATEGORY, one.letter(), "no row serves category " + one));
            }
            return served;
        }

        private String letters(Collection<Category> all) {
            return all.stream().map(Category::letter).collect(Collectors.joining(" "));
        }

        private void checkTwice(List<Grade> grades) {
            Map<List<Object>, Grade> met = new LinkedHashMap<>();
            for (Grade grade : grades) {
                for (String letter : LETTERS.splitAsStream(grade.category()).toList()) {
                    Grade before = met.putIfAbsent(
                            List.of(
                                    letter,
                                    grade.conformation().position(),
                                    grade.fat().position()),
                            grade);
                    if (before != null) {
                        problem(
                                grade.line(),
                                CONFORMATION,
                                grade.words(),
                                "the grade " + grade.words()
                                        + (letter.equals(BreakdownRow.ANY) ? "" : " of category " + letter)
                                        + " stands in line " + before.line() + " too");
                        break;
                    }
                }
            }
        }

        /** Grades between the lowest and the highest that have no row. */
        private void checkMissing(List<Grade> grades, Set<Category> served) {
            SortedMap<Double, Conformation> conformations = new TreeMap<>();
            SortedMap<Double, FatClass> fats = new TreeMap<>();
            grades.forEach(grade -> {
                conformations.put(grade.conformation().position(), grade.conformation());
                fats.put(grade.fat().position(), grade.fat());
            });
            boolean thirds = grades.get(0).conformation().width() == 1;
            boolean fatThirds = grades.get(0).fat().width() == 1;
            (thirds ? Conformation.thirds() : Conformation.classes())
                    .stream()
                            .filter(one -> isBetween(one.position(), conformations))
                            .forEach(one -> conformations.putIfAbsent(one.position(), one));
            (fatThirds ? FatClass.thirds() : FatClass.classes())
                    .stream()
                            .filter(one -> isBetween(one.position(), fats))
                            .forEach(one -> fats.putIfAbsent(one.position(), one));
            Map<Category, List<String>> missing = new EnumMap<>(Category.class);
            for (Category category : served) {
                Set<String> there = grades.stream()
                        .filter(grade -> grade.serves(category))
                        .map(Grade::words)
                        .collect(Collectors.toSet());
                List<String> without = new ArrayList<>();
                conformations
                        .values()
                        .forEach(conformation -> fats.values().forEach(fat -> {
                            String words = conformation + " " + fat;
                            if (!there.contains(words)) {
                                without.add(words);
                            }
                        }));
                if (!without.isEmpty()) {
                    missing.put(category, without);
                }
            }
            Map<List<String>, List<Category>> alike = new LinkedHashMap<>();
            missing.forEach((category, without) ->
                    alike.computeIfAbsent(without, any -> new ArrayList<>()).add(category));
            alike.forEach((without, of) -> problem(
                    0,
                    "",
                    "",
                    (without.size() == 1
                                    ? "the row of this grade is"
                                    : "the rows of these " + without.size() + " grades are")
                            + " missing"
                            + (of.size() == served.size() ? "" : " for " + letters(of)) + ": "
                            + String.join(", ", without)
                            + "; every grade between the lowest and the highest has one"));
        }

        private boolean isBetween(double position, SortedMap<Double, ?> there) {
            return position >= there.firstKey() && position <= there.lastKey();
        }

        /** Shares of each row in g/kg, with the rest last if there is one, so that they add up to 1000 exactly. */
        private List<List<BigDecimal>> closed(List<Grade> grades) {
            int decimals = grades.stream()
                    .flatMap(grade -> grade.percent().stream())
                    .mapToInt(
                            percent -> Math.max(0, percent.stripTrailingZeros().scale()))
                    .max()
                    .orElse(0);
            double unit = Math.pow(10, -decimals);
            double explained = Math.min(3 * unit * Math.sqrt(ofColumn.size() / 12.0), ofColumn.size() * unit / 2);
            BigDecimal hundred = BigDecimal.valueOf(100);
            List<List<BigDecimal>> closed = new ArrayList<>();
            for (Grade grade : grades) {
                BigDecimal sum = grade.percent().stream().reduce(BigDecimal.ZERO, BigDecimal::add);
                double off = sum.subtract(hundred).doubleValue();
                List<BigDecimal> shares = new ArrayList<>(grade.percent().stream()
                        .map(share -> share.movePointRight(1))
                        .toList());
                if (rest != null && off <= 0) {
                    shares.add(hundred.subtract(sum).movePointRight(1));
                } else if (rest == null && off != 0 && Math.abs(off) <= explained) {
                    rounded.put(grade.line(), sum.doubleValue());
                    double[] parts = grade.percent().stream()
                            .mapToDouble(share -> share.doubleValue() * 1000 / sum.doubleValue())
                            .toArray();
                    shares = Rounding.figuresAdding(parts, 1000, G_DECIMALS);
                } else if (off != 0) {
                    problem(
                            grade.line(),
                            "",
                            "",
                            grade.words() + " adds up to " + percent(sum.doubleValue()) + " %, "
                                    + (rest != null
                                            ? "more than 100, so that nothing is left for " + rest
                                            : "not 100; rounding to " + decimals
                                                    + (decimals == 1 ? " decimal" : " decimals") + " explains at most "
                                                    + percent(explained) + " %"
                                                    + (off < 0
                                                            ? "; if what is missing is one cut, declare it: withRest(...), --rest"
                                                            : "")));
                }
                closed.add(shares);
            }
            return closed;
        }

        private String percent(double value) {
            return Numbers.upTo(value, PERCENT_DECIMALS);
        }

        // the table

        /** The shipped edition's level that has most of the cuts; what stands at all levels doesn't tell. */
        private String level(List<Cut> all) {
            String first = shippedTable.levels().get(0);
            Map<String, Long> counts = all.stream()
                    .filter(cut -> known.contains(cut.code()))
                    .map(cut -> shippedTable.catalogue().cut(cut.code()).level())
                    .collect(Collectors.groupingBy(level -> level, LinkedHashMap::new, Collectors.counting()));
            return shippedTable.levels().stream()
                    .filter(counts::containsKey)
                    .max(Comparator.comparingLong(level -> level.equals(first) ? 0 : counts.getOrDefault(level, 0L)))
                    .orElse(LEVEL);
        }

        private Cut at(String level, Cut cut) {
            return Cut.of(cut.code(), cut.name(), level, cut.kind())
                    .withPiecesPerSide(cut.piecesPerSide())
                    .withSideSplitSdPct(cut.sideSplitSdPct())
                    .withFatPct(cut.fatPct())
                    .withUnece(cut.unece())
                    .withNote(cut.note());
        }

        private LookUpSheet made(List<Grade> grades, Set<Category> served, List<List<BigDecimal>> shares) {
            List<Cut> all = new ArrayList<>(ofColumn.values());
            if (rest != null) {
                all.add(Objects.requireNonNull(cut(rest)));
            }
            String itsLevel = level(all);
            Range conformations = range(grades.stream()
                    .map(grade -> ends(
                            grade.conformation().position(),
                            grade.conformation().width()))
                    .toList());
            Range fats = range(grades.stream()
                    .map(grade -> ends(grade.fat().position(), grade.fat().width()))
                    .toList());
            Range weights =
                    weightsKg == null ? shippedTable.definition().allowed().weightKg() : weightsKg;
            TableRange range = new TableRange(conformations, fats, weights);
            ReferencePoint at = reference == null ? middle(range) : reference;
            TableDefinition.Builder builder = TableDefinition.builder(name, version)
                    .about(
                            "Look-up sheet " + name,
                            "Shares of cold weight by grade, from the caller's own look-up sheet")
                    .levels(itsLevel)
                    .reference(at.conformation(), at.fat(), at.weightKg())
                    .ranges(range, range)
                    .widthFit(Math.max(
                            grades.get(0).conformation().width(),
                            grades.get(0).fat().width()))
                    .categories(served.toArray(Category[]::new))
                    .source(new SourceRow(
                            SOURCE,
                            SourceKind.UNVERIFIED,
                            "The caller's own look-up sheet " + file.replaceFirst(".*[/\\\\]", ""),
                            ""));
            all.forEach(cut -> builder.cut(at(itsLevel, cut)));
            int decimals = 0;
            List<Long> lines = new ArrayList<>();
            for (int g = 0; g < grades.size(); g++) {
                Grade grade = grades.get(g);
                for (int k = 0; k < all.size(); k++) {
                    BigDecimal share = shares.get(g).get(k);
                    decimals = Math.max(decimals, share.stripTrailingZeros().scale());
                    double sd = k < grade.sds().size() ? grade.sds().get(k) : 0;
                    builder.row(new ClassRow(
                            grade.category(),
                            BreakdownRow.ANY,
                            BreakdownRow.ROOT,
                            grade.conformation().toString(),
                            grade.fat().toString(),
                            all.get(k).code(),
                            share.doubleValue(),
                            BigDecimal.valueOf(sd).movePointRight(1).doubleValue(),
                            SOURCE));
                    lines.add(grade.line());
                }
            }
            builder.decimals(TableColumn.G_PER_KG, decimals);
            try {
                YieldTable table = YieldTable.of(builder.build());
                addNotes(table, all, shares);
                return new LookUpSheet(table, rounded, notes);
            } catch (InvalidTableException e) {
                throw new InvalidDataException(
                        e.problems().stream().map(one -> located(one, lines)).toList(), e);
            }
        }

        private Problem located(TableProblem problem, List<Long> lines) {
            boolean ofRow = problem.resource().equals(TableSchema.BREAKDOWN_BY_CLASS.code());
            long line = ofRow && problem.row() >= 0 && problem.row() < lines.size() ? lines.get(problem.row()) : 0;
            return new Problem(file, line, problem.column(), problem.value(), problem.message());
        }

        private Range ends(double position, double width) {
            double half = width == 3 ? 1 : 0;
            return new Range(position - half, position + half);
        }

        private Range range(List<Range> all) {
            return new Range(
                    all.stream().mapToDouble(Range::low).min().orElseThrow(),
                    all.stream().mapToDouble(Range::high).max().orElseThrow());
        }

        private ReferencePoint middle(TableRange range) {
            double kg = shippedTable.definition().reference().weightKg();
            return new ReferencePoint(
                    Math.floor(
                            (range.conformation().low() + range.conformation().high()) / 2),
                    Math.floor((range.fat().low() + range.fat().high()) / 2),
                    range.weightKg().contains(kg)
                            ? kg
                            : (range.weightKg().low() + range.weightKg().high()) / 2);
        }

        private void addNotes(YieldTable table, List<Cut> all, List<List<BigDecimal>> shares) {
            rounded.forEach((line, sum) -> notes.add(
                    "Line " + line + " adds up to " + percent(sum) + " %: rounding, taken off in proportion"));
            if (rest != null) {
                List<Double> rests = shares.stream()
                        .map(row -> row.get(row.size() - 1).doubleValue() / TO_G_PER_KG)
                        .sorted()
                        .toList();
                String least = percent(rests.get(0));
                String most = percent(rests.get(rests.size() - 1));
                notes.add(
                        "What rows lack of 100 % is " + all.get(all.size() - 1).code() + ": " + least
                                + (least.equals(most) ? "" : " to " + most) + " %");
            }
            if (!ignored.isEmpty()) {
                notes.add("Left out: " + String.join(", ", ignored));
            }
            if (!known.isEmpty()) {
                notes.add("Kind, pieces, fat content and notes are those of the shipped edition for "
                        + String.join(", ", known));
            }
            notes.add("All cuts stand at one level, " + table.levels().get(0)
                    + (table.levels().get(0).equals(LEVEL)
                            ? ""
                            : ", which is compared with the level of that name of another table"));
            TableRange range = table.definition().allowed();
            notes.add("It serves conformation "
                    + table.definition().axes().conformation().step((int)
                            range.conformation().low())
                    + " to "
                    + table.definition().axes().conformation().step((int)
                            range.conformation().high())
                    + ", fat class "
                    + table.definition().axes().fat().step((int) range.fat().low()) + " to "
                    + table.definition().axes().fat().step((int) range.fat().high()) + " and " + range.weightKg()
                    + " kg" + (weightsKg == null ? ", the weights of the shipped edition, for none are given" : "")
                    + "; a share is the same at every weight");
            if (!hasSd && sdOfColumn.isEmpty()) {
                notes.add("No SDs are given: intervals hold nothing of how carcasses of a grade differ");
            }
            notes.add(
                    "Nothing is said of how lots, runs and halls differ, of standard errors, ways of cutting, quarters and of"
                            + " how the carcasses were handled; what it promises of itself is nothing but shares of 0 or more");
        }
    }
}
