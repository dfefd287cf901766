package org.beefyield.data.boning;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.regex.Pattern;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvHeader;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** Reads boning trials of a declared layout: rows first, then the carcasses that they make. */
final class LaidOutTrials {
    /**
     * How far what went to the knife may be off the cold weight, %. Drip, trimming and the halving of a carcass keep within it,
     * a wrong column or a row of another carcass doesn't (our limit, no source).
     */
    private static final double CUTTING_LIMIT_PCT = 10;

    private static final Pattern NO_NAME_IN_R = Pattern.compile("[^\\p{L}\\p{N}._]");
    private static final Pattern NO_START_IN_R = Pattern.compile("[^\\p{L}.].*|\\.[0-9].*");

    /** Of a carcass, what each of its rows says alike. */
    private record Graded(
            Category category,
            Conformation conformation,
            FatClass fatClass,
            @Nullable Double coldKg,
            String day) {}

    /**
     * A row.
     *
     * @param line its line
     * @param quarter the quarter that it is, empty if it is a side or a carcass
     * @param side name of its side, empty if that isn't known
     * @param graded what other rows of the carcass say alike
     * @param sideKg cold weight of its side, kg
     * @param cutting what went to the knife by quarter, kg
     * @param kg kg by quarter and cut
     */
    private record Piece(
            long line,
            String quarter,
            String side,
            Graded graded,
            double sideKg,
            Map<String, Double> cutting,
            Map<String, Map<String, Double>> kg) {}

    private final String file;
    private final TrialLayout layout;
    private final TrialLayout.Settings settings;
    private final List<Problem> problems = new ArrayList<>();
    /** By column of the layout, its name in a row. */
    private final Map<String, String> keys = new HashMap<>();

    private final Map<String, List<Piece>> carcasses = new LinkedHashMap<>();
    /** Lines that can't be used, by carcass. */
    private final Map<String, Long> bad = new HashMap<>();

    private final Map<String, Long> leftOut = new LinkedHashMap<>();

    private LaidOutTrials(String file, TrialLayout layout) {
        this.file = file;
        this.layout = layout;
        this.settings = layout.settings();
    }

    static TrialSheet read(Source source, CsvForm form, TrialLayout layout) {
        return new LaidOutTrials(source.name(), layout).read(source, form);
    }

    private TrialSheet read(Source source, CsvForm form) {
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(file, in, form, problems::add);
            checkHeader(csv);
            for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                take(CsvRow.of(file, csv.columns(), form, row, problems::add));
            }
            if (csv.rows() == 0) {
                problems.add(new Problem(
                        file,
                        0,
                        "",
                        "",
                        "the file has a header but no row; a row for each " + rowWord() + " is needed"));
            }
        } catch (IOException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file, 0, "", "", "the file can't be read: " + Reason.of(e))), e);
        }
        List<Trial> trials = new ArrayList<>();
        carcasses.forEach((id, pieces) -> {
            Trial trial = trial(id, pieces);
            if (trial != null) {
                trials.add(trial);
            }
        });
        // those of carcasses came after those of rows
        problems.sort(Comparator.comparingLong(Problem::line));
        return new TrialSheet(file, trials, problems, leftOut.size());
    }

    private String rowWord() {
        return settings.rows().name().toLowerCase(Locale.ROOT);
    }

    /** The name of a column as R's read.csv makes it; it may differ for a reserved word, which no column here is. */
    private static String nameInR(String name) {
        String valid = NO_NAME_IN_R.matcher(name).replaceAll(".");
        return NO_START_IN_R.matcher(name).matches() ? "X" + valid : valid;
    }

    private void checkHeader(CsvReader csv) {
        CsvHeader header = csv.columns();
        List<Problem> found = new ArrayList<>();
        for (int i = 0; i < header.names().size(); i++) {
            String name = header.names().get(i);
            String key = header.ours(i);
            String named = settings.namesOfR() ? nameInR(name) : key;
            if (!layout.columns().containsKey(named)) {
                found.add(new Problem(
                        file,
                        csv.headerLine(),
                        name,
                        "",
                        key.isEmpty()
                                ? header.unknown(i)
                                : "layout " + layout.name() + " doesn't say what the column \"" + named
                                        + "\" holds; a row there says it, or that it is " + TrialLayout.IGNORED));
            } else if (keys.putIfAbsent(named, key) != null) {
                found.add(new Problem(
                        file,
                        csv.headerLine(),
                        name,
                        "",
                        "R calls another column \"" + named + "\" too; rename one of them"));
            }
        }
        layout.columns().values().stream()
                .filter(column ->
                        !keys.containsKey(column.name()) && !column.holds().equals(TrialLayout.IGNORED))
                .forEach(column -> found.add(new Problem(
                        file,
                        csv.headerLine(),
                        column.name(),
                        "",
                        "the column \"" + column.name() + "\" is missing, which layout " + layout.name()
                                + " has in line " + column.line())));
        if (!found.isEmpty()) {
            throw new InvalidDataException(found);
        }
    }

    private String key(TrialLayout.Column column) {
        return keys.getOrDefault(column.name(), column.name());
    }

    private void take(CsvRow row) {
        TrialLayout.Column carcass = layout.column(TrialLayout.CARCASS).orElseThrow();
        String id = row.text(key(carcass));
        if (id.isEmpty()) {
            row.refuse(key(carcass), "every row names a carcass");
        } else if (isLeftOut(row)) {
            leftOut.putIfAbsent(id, row.line());
            return;
        }
        Graded graded = graded(row);
        String quarter = "";
        if (settings.rows() == TrialLayout.Rows.QUARTER) {
            String named = coded(row, TrialLayout.QUARTER, text -> text);
            quarter = named == null ? "" : named;
        }
        String side = text(row, TrialLayout.SIDE);
        layout.column(TrialLayout.SIDE)
                .filter(column -> side.isEmpty())
                .ifPresent(column -> row.refuse(key(column), "every row names its side"));
        Double sideKg = sum(row, layout.all(TrialLayout.SIDE_WEIGHT_KG, ""));
        layout.column(TrialLayout.SIDE_WEIGHT_KG)
                .filter(column -> sideKg == null || sideKg == 0)
                .ifPresent(column -> row.refuse(key(column), "the weight of the side is missing"));
        Map<String, Double> cutting = new LinkedHashMap<>();
        Map<String, Map<String, Double>> kg = new LinkedHashMap<>();
        for (String part : layout.parts()) {
            weigh(row, part, part.isEmpty() ? quarter : part, cutting, kg);
        }
        if (!row.isBad() && cutting.isEmpty() && kg.isEmpty()) {
            row.refuse(key(carcass), "nothing was weighed of carcass " + id);
        }
        if (row.isBad() || graded == null) {
            bad.putIfAbsent(id, row.line());
            return;
        }
        carcasses
                .computeIfAbsent(id, any -> new ArrayList<>())
                .add(new Piece(row.line(), quarter, side, graded, sideKg == null ? 0 : sideKg, cutting, kg));
    }

    private boolean isLeftOut(CsvRow row) {
        return layout.columns().values().stream()
                .anyMatch(column -> TrialLayout.LEAVE_OUT.equals(column.codes().get(row.text(key(column)))));
    }

    private String text(CsvRow row, String holds) {
        return layout.column(holds).map(column -> row.text(key(column))).orElse("");
    }

    private @Nullable Graded graded(CsvRow row) {
        Category category = coded(row, TrialLayout.CATEGORY, Category::parse);
        TrialLayout.Column points =
                layout.column(TrialLayout.CONFORMATION_POINTS).orElse(null);
        Conformation conformation = points == null
                ? coded(row, TrialLayout.CONFORMATION, Conformation::parse)
                : position(row, points, Conformation::third, Conformation::ofPosition);
        TrialLayout.Column fat = layout.column(TrialLayout.FAT_POINTS).orElse(null);
        FatClass fatClass = fat == null
                ? coded(row, TrialLayout.FAT_CLASS, FatClass::parse)
                : position(row, fat, FatClass::third, FatClass::ofPosition);
        TrialLayout.Column cold = layout.column(TrialLayout.COLD_WEIGHT_KG).orElse(null);
        Double coldKg = cold == null ? null : Double.valueOf(row.number(key(cold)) * cold.factor());
        return category == null || conformation == null || fatClass == null
                ? null
                : new Graded(
                        category,
                        conformation,
                        fatClass,
                        coldKg,
                        layout.column(TrialLayout.DAY)
                                .map(day -> row.day(key(day)))
                                .orElse(""));
    }

    /** What a cell says, or the code in it; null if it is refused. */
    private <T> @Nullable T coded(CsvRow row, String holds, Function<String, T> parser) {
        TrialLayout.Column column = layout.column(holds).orElseThrow();
        return row.parsedOrNull(key(column), text -> {
            Map<String, String> codes = column.codes();
            String meaning = codes.isEmpty() ? text : codes.get(text);
            if (meaning == null) {
                throw new IllegalArgumentException(holds + " \"" + text + "\" is none of the codes "
                        + String.join(" ", codes.keySet()) + " of layout " + layout.name());
            }
            return parser.apply(meaning);
        });
    }

    /** A third of a class at a whole position, else the position; null if it is refused. */
    private <T> @Nullable T position(
            CsvRow row, TrialLayout.Column column, IntFunction<T> third, BiFunction<Double, Double, T> between) {
        double position = row.number(key(column));
        if (Double.isNaN(position)) {
            return null;
        }
        return row.parsedOrNull(
                key(column),
                text -> position == Math.rint(position) && Math.abs(position) < 100
                        ? third.apply((int) position)
                        : between.apply(position, 1.0));
    }

    /** What went to the knife of a part of a row, and what came of it. */
    private void weigh(
            CsvRow row, String part, String quarter, Map<String, Double> cutting, Map<String, Map<String, Double>> kg) {
        Map<String, @Nullable Double> weighed = new LinkedHashMap<>();
        layout.cuts(part).forEach(cut -> weighed.put(cut, sum(row, layout.all(cut, part))));
        List<TrialLayout.Column> ofCutting = layout.all(TrialLayout.CUTTING_WEIGHT_KG, part);
        Double whole = sum(row, ofCutting);
        boolean any = whole != null || weighed.values().stream().anyMatch(Objects::nonNull);
        Map<String, Double> known = new LinkedHashMap<>();
        weighed.forEach((cut, weight) -> {
            if (weight != null || (any && settings.blankIsZero())) {
                known.put(cut, weight == null ? 0 : weight);
            }
        });
        if (!known.isEmpty()) {
            kg.put(quarter, known);
        }
        if (whole != null && whole > 0) {
            cutting.put(quarter, whole);
        } else if (!ofCutting.isEmpty() && !row.isBad()) {
            row.refuse(
                    key(ofCutting.get(0)),
                    "what went to the knife" + (quarter.isEmpty() ? "" : " of the " + quarter) + " is missing");
        }
    }

    /** Weights added up, kg; null if all are blank. */
    private @Nullable Double sum(CsvRow row, List<TrialLayout.Column> columns) {
        double sum = 0;
        String blank = "";
        boolean any = false;
        for (TrialLayout.Column column : columns) {
            boolean missing = row.text(key(column)).equals(settings.missing());
            Double weight = missing ? null : row.optionalNumber(key(column));
            if (weight == null) {
                blank = key(column);
            } else if (weight < 0) {
                row.refuse(
                        key(column),
                        "a weight is 0 or more; blank " + (settings.blankIsZero() ? "is 0" : "if it was not weighed"));
            } else {
                any = true;
                sum += weight * column.factor();
            }
        }
        if (any && !blank.isEmpty() && !settings.blankIsZero()) {
            row.refuse(
                    blank,
                    "the column is blank, but others that hold "
                            + columns.get(0).holds() + " are not; where blank is 0, the layout says so");
        }
        return any ? Double.valueOf(sum) : null;
    }

    private void refuse(long line, String holds, String value, String message) {
        String column = layout.column(holds).map(this::key).orElse("");
        problems.add(new Problem(file, line, column, value, message));
    }

    private @Nullable Trial trial(String id, List<Piece> pieces) {
        Piece first = pieces.get(0);
        Long badLine = bad.containsKey(id) ? bad.get(id) : leftOut.get(id);
        if (badLine != null) {
            pieces.forEach(piece -> refuse(
                    piece.line(),
                    TrialLayout.CARCASS,
                    id,
                    "carcass " + id + " is not made of this row alone: line " + badLine + " of it "
                            + (bad.containsKey(id) ? "can't be used" : "is left out")));
            return null;
        }
        boolean good = true;
        for (Piece piece : pieces.subList(1, pieces.size())) {
            good &= settings.rows() == TrialLayout.Rows.CARCASS ? isOnce(id, piece) : agrees(id, first, piece);
        }
        int sides = good ? sides(id, pieces) : 0;
        return sides == 0 ? null : trial(id, pieces, sides);
    }

    private boolean isOnce(String id, Piece piece) {
        refuse(piece.line(), TrialLayout.CARCASS, id, "a trial of this carcass stands above");
        return false;
    }

    private boolean agrees(String id, Piece first, Piece piece) {
        Map<String, String> before = said(first.graded());
        List<String> apart = new ArrayList<>();
        said(piece.graded()).forEach((holds, here) -> {
            String there = before.getOrDefault(holds, "");
            if (!here.equals(there)) {
                apart.add(holds);
                refuse(
                        piece.line(),
                        holds,
                        here,
                        holds + " of carcass " + id + " is " + here + " here and " + there + " in line " + first.line()
                                + "; its rows say the same");
            }
        });
        return apart.isEmpty();
    }

    /** By what holds it, what each row of a carcass says alike. */
    private Map<String, String> said(Graded graded) {
        boolean points = layout.column(TrialLayout.CONFORMATION_POINTS).isPresent();
        boolean fatPoints = layout.column(TrialLayout.FAT_POINTS).isPresent();
        Double coldKg = graded.coldKg();
        Map<String, String> said = new LinkedHashMap<>();
        said.put(TrialLayout.CATEGORY, graded.category().letter());
        said.put(
                points ? TrialLayout.CONFORMATION_POINTS : TrialLayout.CONFORMATION,
                graded.conformation().toString());
        said.put(
                fatPoints ? TrialLayout.FAT_POINTS : TrialLayout.FAT_CLASS,
                graded.fatClass().toString());
        said.put(TrialLayout.COLD_WEIGHT_KG, coldKg == null ? "" : Numbers.exact(coldKg) + " kg");
        said.put(TrialLayout.DAY, graded.day());
        return said;
    }

    /** Of how many sides there are rows, 0 if that is refused; a row that is a carcass counts for both. */
    private int sides(String id, List<Piece> pieces) {
        if (settings.rows() == TrialLayout.Rows.CARCASS) {
            return 2;
        }
        Map<String, List<Piece>> byQuarter = new LinkedHashMap<>();
        if (settings.rows() == TrialLayout.Rows.QUARTER) {
            layout.column(TrialLayout.QUARTER).orElseThrow().codes().values().stream()
                    .filter(quarter -> !quarter.equals(TrialLayout.LEAVE_OUT))
                    .forEach(quarter -> byQuarter.put(quarter, new ArrayList<>()));
        }
        pieces.forEach(piece -> byQuarter
                .computeIfAbsent(piece.quarter(), any -> new ArrayList<>())
                .add(piece));
        int sides = byQuarter.values().iterator().next().size();
        boolean even = byQuarter.values().stream().allMatch(rows -> rows.size() == sides);
        long line = pieces.get(pieces.size() - 1).line();
        if (!even || sides > 2) {
            List<String> counts = new ArrayList<>();
            byQuarter.forEach((quarter, rows) -> counts.add(
                    Numbers.counted(rows.size(), "row", "rows") + (quarter.isEmpty() ? "" : " of a " + quarter)));
            refuse(
                    line,
                    TrialLayout.CARCASS,
                    id,
                    "carcass " + id + " has " + String.join(", ", counts) + "; a whole one has 2"
                            + (byQuarter.size() > 1 ? " of each, one side has 1 of each" : ", one a side"));
            return 0;
        }
        boolean alike = byQuarter.values().stream()
                .allMatch(rows -> rows.size() < 2 || areTwoSides(id, rows.get(0), rows.get(1)));
        if (alike && sides == 1 && !settings.doubled()) {
            refuse(
                    line,
                    TrialLayout.CARCASS,
                    id,
                    "carcass " + id
                            + " has rows of one side; if one stands for both, the layout says so: one-side doubled");
            return 0;
        }
        return alike ? sides : 0;
    }

    private boolean areTwoSides(String id, Piece one, Piece other) {
        if (!one.side().isEmpty() && one.side().equals(other.side())) {
            refuse(
                    other.line(),
                    TrialLayout.SIDE,
                    other.side(),
                    "side " + other.side() + " of carcass " + id + " stands in line " + one.line() + " already");
            return false;
        }
        Set<String> apart = new LinkedHashSet<>();
        for (List<Piece> pair : List.of(List.of(one, other), List.of(other, one))) {
            weighed(pair.get(0)).stream()
                    .filter(name -> !weighed(pair.get(1)).contains(name))
                    .forEach(apart::add);
        }
        if (!apart.isEmpty()) {
            refuse(
                    other.line(),
                    TrialLayout.CARCASS,
                    id,
                    String.join(", ", apart) + " of carcass " + id + " was weighed here or in line " + one.line()
                            + " only; what is weighed of one side is weighed of the other");
        }
        return apart.isEmpty();
    }

    private static Set<String> weighed(Piece piece) {
        Set<String> names = new LinkedHashSet<>();
        piece.kg()
                .forEach((quarter, cuts) ->
                        cuts.keySet().forEach(cut -> names.add(quarter.isEmpty() ? cut : quarter + ":" + cut)));
        return names;
    }

    private @Nullable Trial trial(String id, List<Piece> pieces, int sides) {
        double times = 2.0 / sides;
        Graded graded = pieces.get(0).graded();
        Map<String, Double> cutting = new LinkedHashMap<>();
        Map<String, Map<String, Double>> kg = new LinkedHashMap<>();
        double sideKg = 0;
        for (Piece piece : pieces) {
            sideKg += times * piece.sideKg();
            piece.cutting().forEach((quarter, weight) -> cutting.merge(quarter, times * weight, Double::sum));
            piece.kg()
                    .forEach((quarter, cuts) ->
                            cuts.forEach((cut, weight) -> kg.computeIfAbsent(quarter, any -> new LinkedHashMap<>())
                                    .merge(cut, times * weight, Double::sum)));
        }
        double cut = cutting.values().stream().mapToDouble(Double::doubleValue).sum();
        Double given = graded.coldKg();
        double cold = given != null ? given : sideKg > 0 ? sideKg : cut;
        long line = pieces.get(0).line();
        if (settings.ofCutting() && layout.hasCuttingWeight()) {
            if (Math.abs(cut - cold) > CUTTING_LIMIT_PCT / 100 * cold) {
                refuse(
                        line,
                        TrialLayout.CARCASS,
                        id,
                        "of carcass " + id + " " + Numbers.fixed(cut, 1)
                                + " kg went to the knife, both sides together, and its"
                                + " cold weight is " + Numbers.fixed(cold, 1) + " kg; at most "
                                + Numbers.fixed(CUTTING_LIMIT_PCT, 0) + " % may lie between them");
                return null;
            }
            double scale = cold / cut;
            cutting.replaceAll((quarter, weight) -> scale * weight);
            kg.values().forEach(cuts -> cuts.replaceAll((name, weight) -> scale * weight));
        }
        try {
            Carcass carcass = Carcass.of(graded.category(), graded.conformation(), graded.fatClass(), cold)
                    .withId(id);
            Trial trial = Trial.of(carcass, kg.getOrDefault("", Map.of())).withDay(graded.day());
            for (Map.Entry<String, Map<String, Double>> quarter : kg.entrySet()) {
                if (!quarter.getKey().isEmpty()) {
                    trial = trial.withQuarter(new Quarter(
                            quarter.getKey(), cutting.getOrDefault(quarter.getKey(), 0.0), quarter.getValue()));
                }
            }
            return trial;
        } catch (IllegalArgumentException e) {
            refuse(line, TrialLayout.CARCASS, id, String.valueOf(e.getMessage()));
            return null;
        }
    }
}
