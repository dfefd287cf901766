package org.beefyield.data.boning;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Origin;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.DateCell;
import org.beefyield.data.file.Excerpt;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads boning runs, one or a season of them: three CSV files with columns in any order, in which hall and day say which run
 * a row is of.
 *
 * <p>In all of them:
 *
 * <ul>
 *   <li>{@code day}: day of boning, required
 *   <li>{@code hall}: name of the hall; blank, or no such column: the one hall of the caller
 * </ul>
 *
 * <p>{@code intake}, a row for each carcass, side or quarter:
 *
 * <ul>
 *   <li>{@code weighing}: what the intake weights are, {@code cold-by-law}, {@code cold-weighed} or {@code hot}; required, the
 *       same in all rows of a run
 *   <li>{@code carcass}, {@code category}, {@code conformation}, {@code fat_class}, {@code cold_weight_kg}: the whole carcass
 *       as on a kill sheet, in every row of it; required
 *   <li>{@code kill_date}, {@code lot}, {@code supplier}, {@code age_months}, {@code assured}: more of it, as on a kill sheet.
 *       Carcasses of one id and kill date are one
 *   <li>{@code part}: {@code carcass}, {@code side}, {@code forequarter} or {@code hindquarter}; required
 *   <li>{@code weight_kg}: the hall's own weight of this piece, kg; required
 *   <li>{@code piece}: what tells it from others of its carcass, such as {@code left}
 *   <li>{@code movement}: {@code boned}, {@code taken-from-stock} or {@code left-in-stock}; blank: boned
 *   <li>{@code batch}: batch that it was boned in
 *   <li>{@code slaughterhouse}, {@code born}, {@code reared}: where the animal comes from
 * </ul>
 *
 * <p>{@code boxes}, a row for each box:
 *
 * <ul>
 *   <li>{@code box}: id, required and unique in a run; without blanks
 *   <li>{@code product}: code of the product, required
 *   <li>{@code gross_kg}: weight, kg, required; {@code tare_kg}: weight of the packing in it, kg, blank for none
 *   <li>{@code batch}, {@code time}: batch that it was packed from, and when
 *   <li>{@code kind}: {@code first}, {@code rework} or {@code downgraded}; blank: first
 *   <li>{@code from}: of a downgraded box the product that was cut; of a reworked one the ids of the boxes that it was packed
 *       from, blanks between
 * </ul>
 *
 * <p>{@code rest}, a row for each weight beside the boxes:
 *
 * <ul>
 *   <li>{@code kind}: {@code bone}, {@code fat}, {@code waste}, {@code samples}, {@code floor} or {@code loss}; required
 *   <li>{@code kg}: kg, required
 *   <li>{@code cut}: code of the cut of a yield table that it is, one of its last level
 * </ul>
 *
 * <p>A bad row is a problem and doesn't stop the others; the run lacks it then, see {@link BoningRunSheet#incomplete()}. A
 * file without the required columns, or with a column that is none of these, can't be used at all.
 */
public final class BoningRunReader {
    /** A side or a carcass may weigh this fraction more or less than its cold weight says, before a note (our limit). */
    private static final double TOLERANCE = 0.1;

    /** What a quarter may weigh of the cold weight of its carcass before a note (our limits). */
    private static final double LEAST_OF_QUARTER = 0.15;

    private static final double MOST_OF_QUARTER = 0.35;

    private record RunKey(String hall, String day) {
        String name() {
            return hall.isEmpty() ? day : hall + " " + day;
        }
    }

    private record CarcassKey(String killDate, String id) {}

    private record Seen(Carcass carcass, long line) {}

    private record PieceKey(RunKey run, CarcassKey carcass) {}

    /** A row of which the day isn't known, and the hall neither if it is null. */
    private record Stray(@Nullable String hall, String file, long line) {}

    /** The problem of the first row of a run without intake, and how many more rows it has. */
    private static final class Missing {
        private final int problem;
        private int more;

        private Missing(int problem) {
            this.problem = problem;
        }
    }

    /** A run as far as it is read. */
    private static final class Draft {
        private final IntakeWeighing weighing;
        private final long line;
        private final List<Intake> intake = new ArrayList<>();
        private final List<Box> boxes = new ArrayList<>();
        private final List<Rest> rest = new ArrayList<>();
        private final Map<String, Long> lineOfBox = new HashMap<>();

        private Draft(IntakeWeighing weighing, long line) {
            this.weighing = weighing;
            this.line = line;
        }
    }

    private final CsvForm form;
    private final Set<String> products;
    private final @Nullable CutsOfLevel cuts;
    private final Map<RunKey, Draft> runs = new LinkedHashMap<>();
    private final Map<CarcassKey, Seen> carcasses = new HashMap<>();
    private final Map<PieceKey, double[]> quarters = new HashMap<>();
    private final List<Problem> problems = new ArrayList<>();
    private final List<Problem> notes = new ArrayList<>();
    private final Set<RunKey> incomplete = new LinkedHashSet<>();
    private final List<Stray> strays = new ArrayList<>();
    /** Runs of which boxes or rests were found but no intake. */
    private final Map<RunKey, Missing> missing = new LinkedHashMap<>();
    /** Runs of which rows of the intake were refused. */
    private Set<RunKey> intakeRefused = Set.of();

    private BoningRunReader(CsvForm form, List<Product> products, @Nullable CutsOfLevel cuts) {
        this.form = form;
        this.cuts = cuts;
        this.products = products.stream().map(Product::code).collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /**
     * Reads runs from files of the standard form.
     *
     * @param intake what went in
     * @param boxes what was packed
     * @param rest what was weighed beside the boxes
     * @param products the products that boxes may be of
     * @return the runs and every problem of a row
     * @throws InvalidDataException if a file can't be read at all, or its header is wrong
     */
    public static BoningRunSheet read(Path intake, Path boxes, Path rest, List<Product> products) {
        return read(Source.of(intake), Source.of(boxes), Source.of(rest), products, CsvForm.standard());
    }

    /**
     * Reads runs. A rest may be of any cut, for there is no table to look it up in.
     *
     * @param intake what went in
     * @param boxes what was packed
     * @param rest what was weighed beside the boxes, or null if nothing was
     * @param products the products that boxes may be of; none if they may be of any
     * @param form how the files are written
     * @return the runs and every problem of a row
     * @throws InvalidDataException if a file can't be read at all, or its header is wrong
     */
    public static BoningRunSheet read(
            Source intake, Source boxes, @Nullable Source rest, List<Product> products, CsvForm form) {
        return read(intake, boxes, rest, products, form, (CutsOfLevel) null);
    }

    /**
     * Reads runs that are to be judged by a table.
     *
     * @param intake what went in
     * @param boxes what was packed
     * @param rest what was weighed beside the boxes, or null if nothing was
     * @param products the products that boxes may be of; none if they may be of any
     * @param form how the files are written
     * @param table the table at whose last level the cuts stand that a rest may be of
     * @return the runs and every problem of a row
     * @throws InvalidDataException if a file can't be read at all, or its header is wrong
     */
    public static BoningRunSheet read(
            Source intake,
            Source boxes,
            @Nullable Source rest,
            List<Product> products,
            CsvForm form,
            YieldTable table) {
        return read(intake, boxes, rest, products, form, CutsOfLevel.last(table));
    }

    private static BoningRunSheet read(
            Source intake,
            Source boxes,
            @Nullable Source rest,
            List<Product> products,
            CsvForm form,
            @Nullable CutsOfLevel cuts) {
        BoningRunReader reader = new BoningRunReader(
                Objects.requireNonNull(form, "form"), Objects.requireNonNull(products, "products"), cuts);
        reader.each(RunColumns.INTAKE, intake, reader::intake);
        if (reader.runs.isEmpty() && reader.problems.isEmpty()) {
            reader.problems.add(new Problem(
                    intake.name(), 0, "", "", "the file has a header but no row; a row for each piece is needed"));
        }
        reader.intakeRefused = Set.copyOf(reader.incomplete);
        reader.each(RunColumns.BOXES, boxes, reader::box);
        if (rest != null) {
            reader.each(RunColumns.REST, rest, reader::rest);
        }
        return reader.sheet();
    }

    private BoningRunSheet sheet() {
        List<BoningRun> read = new ArrayList<>();
        Map<String, String> lacking = new LinkedHashMap<>();
        Set<String> halls = runs.keySet().stream().map(RunKey::hall).collect(Collectors.toSet());
        runs.forEach((key, draft) -> {
            BoningRun run = new BoningRun(key.hall(), key.day(), draft.weighing, draft.intake, draft.boxes, draft.rest);
            read.add(run);
            String why = Stream.of(incomplete.contains(key) ? "rows of it are refused" : "", strays(key.hall(), halls))
                    .filter(reason -> !reason.isEmpty())
                    .collect(Collectors.joining("; "));
            if (!why.isEmpty()) {
                lacking.put(run.name(), why);
            }
        });
        incomplete.stream()
                .filter(key -> !runs.containsKey(key))
                .forEach(key -> lacking.put(
                        key.name(),
                        intakeRefused.contains(key)
                                ? "every row of its intake is refused"
                                : "the intake has no row of it"));
        missing.values().stream().filter(run -> run.more > 0).forEach(this::sayHowMany);
        return new BoningRunSheet(read, problems, notes, lacking);
    }

    /** What is said of rows that may be of any run of a hall; empty if there are none. */
    private String strays(String hall, Set<String> halls) {
        // a hall that no run has is a slip of the pen for any
        List<Stray> of = strays.stream()
                .filter(row -> row.hall() == null || row.hall().equals(hall) || !halls.contains(row.hall()))
                .toList();
        if (of.isEmpty()) {
            return "";
        }
        Stray first = of.get(0);
        String place = first.file() + (first.line() > 0 ? " line " + first.line() : "");
        return of.size() == 1
                ? "a row whose day can't be read (" + place + ") may be of it"
                : of.size() + " rows whose day can't be read (the first: " + place + ") may be of it";
    }

    private void sayHowMany(Missing run) {
        Problem first = problems.get(run.problem);
        problems.set(
                run.problem,
                new Problem(
                        first.file(),
                        first.line(),
                        first.column(),
                        first.value(),
                        first.message() + "; so it is with "
                                + Numbers.counted(run.more, "further row", "further rows")));
    }

    private interface RowOfRun {
        void add(CsvRow row, @Nullable RunKey key);
    }

    private void each(RunRows rows, Source source, RowOfRun adding) {
        rows.each(source, form, new RunRows.Taker() {
            @Override
            public void row(CsvRow row) {
                String day = row.parsedOrNull(RunColumns.DAY, text -> date(text).toString());
                RunKey key = day == null ? null : new RunKey(row.text(RunColumns.HALL), day);
                adding.add(row, key);
                if (row.isBad() && key != null) {
                    incomplete.add(key);
                }
                if (key == null) {
                    strays.add(new Stray(row.text(RunColumns.HALL), source.name(), row.line()));
                }
            }

            @Override
            public void lost(Problem problem) {
                strays.add(new Stray(null, problem.file(), problem.line()));
                problems.add(problem);
            }

            @Override
            public void problem(Problem problem) {
                problems.add(problem);
            }
        });
    }

    private LocalDate date(String text) {
        return DateCell.parse(text, form.dates());
    }

    private void intake(CsvRow row, @Nullable RunKey key) {
        IntakeWeighing weighing = row.parsedOrNull(RunColumns.WEIGHING, IntakeWeighing::parse);
        Carcass carcass = carcass(row);
        IntakePart part = row.parsedOrNull(RunColumns.PART, IntakePart::parse);
        double kg = row.number(RunColumns.WEIGHT_KG);
        Movement movement = row.text(RunColumns.MOVEMENT).isEmpty()
                ? Movement.BONED
                : row.parsedOrNull(RunColumns.MOVEMENT, Movement::parse);
        Draft run = key == null ? null : runs.get(key);
        if (run != null && weighing != null && run.weighing != weighing) {
            row.refuse(
                    RunColumns.WEIGHING,
                    "line " + run.line + " says " + run.weighing.code() + " of the same run; a run has one weighing");
        }
        if (movement != null
                && !movement.wasBoned()
                && !row.text(RunColumns.BATCH).isEmpty()) {
            row.refuse(RunColumns.BATCH, "what was left in stock is in no batch; only what is boned is in one");
        }
        if (row.isBad() || key == null || weighing == null || carcass == null || part == null || movement == null) {
            return;
        }
        Intake piece = row.parsedOrNull(
                RunColumns.WEIGHT_KG,
                text -> Intake.of(
                                key.hall().isEmpty() ? carcass : carcass.withHall(key.hall()),
                                part,
                                kg,
                                movement,
                                row.text(RunColumns.BATCH))
                        .withPiece(row.text(RunColumns.PIECE))
                        .withOrigin(new Origin(
                                row.text(RunColumns.SLAUGHTERHOUSE),
                                row.text(RunColumns.BORN),
                                row.text(RunColumns.REARED))));
        if (piece == null || isTooMuch(row, new PieceKey(key, key(carcass)), piece)) {
            return;
        }
        carcasses.putIfAbsent(key(carcass), new Seen(carcass, row.line()));
        note(row, piece);
        carcass.killDate()
                .filter(killed -> LocalDate.parse(killed).isAfter(LocalDate.parse(key.day())))
                .ifPresent(killed -> notes.add(row.problem(
                        RunColumns.KILL_DATE,
                        "carcass " + piece.id() + " was killed on " + killed + ", after " + key.day()
                                + ", the day of boning; one of the two is wrong")));
        runs.computeIfAbsent(key, any -> new Draft(weighing, row.line())).intake.add(piece);
    }

    private static CarcassKey key(Carcass carcass) {
        return new CarcassKey(carcass.killDate().orElse(""), carcass.id().orElse(""));
    }

    /** The carcass without its hall: quarters of one may go to two. */
    private @Nullable Carcass carcass(CsvRow row) {
        String id = row.text(RunColumns.CARCASS);
        if (id.isEmpty()) {
            row.refuse(RunColumns.CARCASS, "every row names a carcass");
        }
        Category category = row.parsedOrNull(RunColumns.CATEGORY, Category::parse);
        Conformation conformation = row.parsedOrNull(RunColumns.CONFORMATION, Conformation::parse);
        FatClass fatClass = row.parsedOrNull(RunColumns.FAT_CLASS, FatClass::parse);
        double cold = row.number(RunColumns.COLD_WEIGHT_KG);
        String killed = row.optional(RunColumns.KILL_DATE, text -> date(text).toString());
        Double age = row.optionalNumber(RunColumns.AGE_MONTHS);
        Boolean assured = row.yesNo(RunColumns.ASSURED);
        if (row.isBad() || category == null || conformation == null || fatClass == null) {
            return null;
        }
        Carcass carcass = row.parsedOrNull(
                RunColumns.COLD_WEIGHT_KG,
                text -> Carcass.of(category, conformation, fatClass, cold).withId(id));
        if (carcass != null && age != null) {
            Carcass whole = carcass;
            carcass = row.parsedOrNull(RunColumns.AGE_MONTHS, text -> whole.withAgeMonths(months(text, age)));
        }
        if (carcass == null) {
            return null;
        }
        carcass = assured == null ? carcass : carcass.withAssured(assured);
        carcass = killed == null ? carcass : carcass.withKillDate(killed);
        carcass = row.text(RunColumns.LOT).isEmpty() ? carcass : carcass.withLot(row.text(RunColumns.LOT));
        carcass =
                row.text(RunColumns.SUPPLIER).isEmpty() ? carcass : carcass.withSupplier(row.text(RunColumns.SUPPLIER));
        Seen seen = carcasses.get(key(carcass));
        if (seen != null && !seen.carcass().equals(carcass)) {
            row.refuse(
                    RunColumns.CARCASS,
                    "carcass " + id + " of the same kill date stands in line " + seen.line()
                            + " with another grade, weight, lot, supplier, age or assurance; a carcass has one of each");
        }
        return carcass;
    }

    private static int months(String text, double age) {
        if (age != Math.rint(age) || Math.abs(age) > Integer.MAX_VALUE) {
            throw new IllegalArgumentException(Excerpt.quote(text) + " is not a whole number of months such as 21");
        }
        return (int) age;
    }

    /** Whether a run has more quarters of a carcass than there are, with this row; it is refused then. */
    private boolean isTooMuch(CsvRow row, PieceKey key, Intake piece) {
        double[] shares = quarters.computeIfAbsent(key, any -> new double[2]);
        IntakePart part = piece.part();
        if (shares[0] + part.foreShare() > 1 || shares[1] + part.hindShare() > 1) {
            row.refuse(
                    RunColumns.PART,
                    "with this row the run has more of carcass " + piece.id()
                            + " than there is: two forequarters and two hindquarters");
            return true;
        }
        shares[0] += part.foreShare();
        shares[1] += part.hindShare();
        return false;
    }

    private void note(CsvRow row, Intake piece) {
        double share = piece.weightKg() / piece.carcass().coldWeightKg();
        double least;
        double most;
        switch (piece.part()) {
            case CARCASS, SIDE -> {
                least = piece.part().foreShare() * (1 - TOLERANCE);
                most = piece.part().foreShare() * (1 + TOLERANCE);
            }
            default -> {
                least = LEAST_OF_QUARTER;
                most = MOST_OF_QUARTER;
            }
        }
        if (share < least || share > most) {
            notes.add(row.problem(
                    RunColumns.WEIGHT_KG,
                    (piece.part() == IntakePart.CARCASS
                                    ? ""
                                    : "the " + piece.part().code() + " of ") + "carcass "
                            + piece.id() + " weighs "
                            + Numbers.percent(share, 0) + " % of the cold weight of "
                            + Numbers.brief(piece.carcass().coldWeightKg())
                            + " kg; " + Numbers.percent(least, 0) + " to " + Numbers.percent(most, 0) + " % is usual"));
        }
    }

    /** The run of a row beside the intake, or null if there is none; the first row of it is refused then, for all of them. */
    private @Nullable Draft run(CsvRow row, @Nullable RunKey key) {
        Draft run = key == null ? null : runs.get(key);
        if (key == null || run != null) {
            return run;
        }
        Missing known = missing.get(key);
        if (known != null) {
            known.more++;
            return null;
        }
        row.refuse(
                RunColumns.DAY,
                intakeRefused.contains(key)
                        ? "every row of the intake of this run was refused"
                        : "the intake has no row of " + key.name() + "; runs: " + names());
        missing.put(key, new Missing(problems.size() - 1));
        return null;
    }

    private String names() {
        return runs.isEmpty()
                ? "none"
                : Excerpt.clip(runs.keySet().stream().map(RunKey::name).collect(Collectors.joining(", ")), 120);
    }

    private void box(CsvRow row, @Nullable RunKey key) {
        Draft run = run(row, key);
        String id = row.text(RunColumns.BOX);
        String product = row.text(RunColumns.PRODUCT);
        if (product.isEmpty()) {
            row.refuse(RunColumns.PRODUCT, "every box is of a product");
        } else {
            checkProduct(row, RunColumns.PRODUCT, product);
        }
        double gross = row.number(RunColumns.GROSS_KG);
        Double tare = row.optionalNumber(RunColumns.TARE_KG);
        BoxKind kind =
                row.text(RunColumns.KIND).isEmpty() ? BoxKind.FIRST : row.parsedOrNull(RunColumns.KIND, BoxKind::parse);
        List<String> from = from(row, kind);
        if (kind == BoxKind.DOWNGRADED && from.size() == 1) {
            checkProduct(row, RunColumns.FROM, from.get(0));
        }
        Long first = run == null || id.isEmpty() ? null : run.lineOfBox.putIfAbsent(id, row.line());
        if (first != null) {
            row.refuse(RunColumns.BOX, "box " + id + " of the same run stands in line " + first + " already");
        }
        if (row.isBad() || run == null || kind == null) {
            return;
        }
        // what is wrong with it but for what it comes from is wrong with a box from the line too
        Box box = row.parsedOrNull(
                column(id, tare),
                text -> Box.of(id, product, row.text(RunColumns.BATCH), gross, tare == null ? 0 : tare));
        Box whole = box == null
                ? null
                : row.parsedOrNull(
                        RunColumns.FROM,
                        text -> new Box(
                                id, product, box.batch(), gross, box.tareKg(), row.text(RunColumns.TIME), kind, from));
        if (whole != null) {
            run.boxes.add(whole);
        }
    }

    /** Where a box is wrong, if it is not in what it comes from. */
    private static String column(String id, @Nullable Double tare) {
        if (id.isEmpty() || id.chars().anyMatch(Character::isWhitespace)) {
            return RunColumns.BOX;
        }
        return tare != null && tare < 0 ? RunColumns.TARE_KG : RunColumns.GROSS_KG;
    }

    private static List<String> from(CsvRow row, @Nullable BoxKind kind) {
        String text = row.text(RunColumns.FROM);
        if (text.isEmpty()) {
            return List.of();
        }
        return kind == BoxKind.REWORK ? Arrays.asList(text.split("\\s+")) : List.of(text);
    }

    private void checkProduct(CsvRow row, String column, String product) {
        if (!products.isEmpty() && !products.contains(product)) {
            row.refuse(
                    column,
                    "there is no product " + Excerpt.quote(product) + "; products: "
                            + Excerpt.clip(String.join(", ", products), 200));
        }
    }

    private void rest(CsvRow row, @Nullable RunKey key) {
        Draft run = run(row, key);
        RestKind kind = row.parsedOrNull(RunColumns.KIND, RestKind::parse);
        double kg = row.number(RunColumns.KG);
        CutsOfLevel known = cuts;
        if (known != null) {
            row.optional(RunColumns.CUT, known::cut);
        }
        if (row.isBad() || run == null || kind == null) {
            return;
        }
        Rest rest = row.parsedOrNull(RunColumns.KG, text -> new Rest(kind, kg, row.text(RunColumns.CUT)));
        if (rest != null) {
            run.rest.add(rest);
        }
    }
}
