package org.beefyield.data.samples;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;

/**
 * Writes the table of six groups that open boning trials are held against, and invented trials in the layout of that open
 * data set: 45 carcasses, most of two sides, boned by a detailed or a rough pattern. Every weight in them is invented. The same
 * seed gives the same bytes everywhere.
 *
 * <p>To write them anew, run {@link #main(String[])} with the folder {@code yield-data/examples/open-trials}.
 */
public final class OpenTrials {
    /** Name of the folder with the table. */
    public static final String TABLE = "six-groups";

    /** Name of the file of invented trials. */
    public static final String FILE = "invented-trials.csv";

    /** Name of the layout, which nobody writes but a person. */
    public static final String LAYOUT = "trial-layout.csv";

    private static final String ASSUMED = "assumed";
    private static final String[] TERMS = {"level_g_per_kg", "per_conformation_point", "per_fat_point", "per_100kg"};
    private static final double[] STANDARD_ERRORS = {30, 2, 2.5, 12};

    /** A group: what it is and what a table has of it, all of which is assumed. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Group(
            String code, String name, CutKind kind, double sd, double[] coefficients, double forequarter) {}

    private static final List<Group> GROUPS = List.of(
            new Group("dear-cuts", "Dear cuts", CutKind.PRIMAL, 12, new double[] {170, 3, -1.5, 0}, 0.2),
            new Group("lean-5", "Lean of 5 % fat", CutKind.LEAN_TRIM, 20, new double[] {150, 2.5, -3.5, 0}, 0.4),
            new Group("trim-14", "Trim of 14 % fat", CutKind.LEAN_TRIM, 25, new double[] {275, 2.5, -4, 0}, 0.65),
            new Group("trim-21", "Trim of 21 % fat", CutKind.LEAN_TRIM, 20, new double[] {90, -0.5, 4, 0}, 0.55),
            new Group("fat", "Fat", CutKind.FAT_TRIM, 15, new double[] {72, -1, 7, 0}, 0.45),
            new Group("bone-and-waste", "Bone and waste", CutKind.BONE, 14, new double[] {238, -6.5, -2, 0}, 0.5),
            new Group("loss", "Loss", CutKind.LOSS, 3, new double[] {5, 0, 0, 0}, 0.5));

    /** Codes of categories with what their carcasses have more of each group, g/kg; invented. */
    private static final Map<String, double[]> CATEGORIES = categories();

    private static final int CARCASSES = 45;
    private static final long SEED = 20_261_129;

    private record Column(String name, String group, String quarter) {}

    private OpenTrials() {}

    private static Map<String, double[]> categories() {
        Map<String, double[]> categories = new LinkedHashMap<>();
        categories.put("162", new double[] {14, 6, 0, -8, -12, 0, 0});
        categories.put("166", new double[] {6, 0, -8, 4, 14, -16, 0});
        categories.put("168", new double[] {-4, 0, 0, 4, 6, -6, 0});
        categories.put("169", new double[] {-14, -8, 0, 6, 4, 12, 0});
        return categories;
    }

    /**
     * Writes both.
     *
     * @param arguments the folder
     * @throws IOException if it can't be written
     */
    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        TableWriter.write(table(), folder.resolve(TABLE));
        Files.write(folder.resolve(FILE), bytes(folder.resolve(LAYOUT)));
    }

    /**
     * The table.
     *
     * @return six groups of a carcass, assumed
     */
    public static YieldTable table() {
        TableDefinition.Builder table = TableDefinition.builder(TABLE, "1")
                .about(
                        "Six groups of a carcass, assumed",
                        "What open boning trials are held against: dear cuts, lean and trim by fat content, fat, bone and waste. All"
                                + " figures are assumptions with wide errors; trials are to replace them.")
                .license(new License("Apache-2.0", "https://www.apache.org/licenses/LICENSE-2.0", "Apache License 2.0"))
                .levels("group")
                .reference(6, 6, 300)
                .ranges(
                        new TableRange(new Range(2, 11), new Range(2, 11), new Range(180, 400)),
                        new TableRange(new Range(1, 15), new Range(1, 15), new Range(120, 500)))
                .widthFit(1)
                .categories(Category.YOUNG_BULL, Category.COW, Category.HEIFER);
        for (Group group : GROUPS) {
            table.cut(Cut.of(group.code(), group.name(), "group", group.kind()));
        }
        for (Group group : GROUPS) {
            boolean loss = group.kind() == CutKind.LOSS;
            table.row(
                    BreakdownRow.ROOT,
                    group.code(),
                    group.sd(),
                    loss ? SharedSds.of(1, 1, 3) : SharedSds.of(8, 5, 25),
                    ASSUMED,
                    group.coefficients());
            for (int i = 0; i < TERMS.length && !loss; i++) {
                table.coefficientNote(new CoefficientNote(
                        BreakdownRow.ANY,
                        BreakdownRow.ANY,
                        BreakdownRow.ROOT,
                        group.code(),
                        TERMS[i],
                        STANDARD_ERRORS[i],
                        ASSUMED));
            }
        }
        return YieldTable.of(table.source(new SourceRow(
                        ASSUMED,
                        SourceKind.ASSUMPTION,
                        "Round figures that close: no trial and no publication stands behind them",
                        "Wide errors, so that any trials outweigh them"))
                .build());
    }

    /**
     * The trials.
     *
     * @param layout the file of the layout, whose columns they have
     * @return the file
     */
    public static byte[] bytes(Path layout) {
        List<Column> columns = columns(layout);
        StringBuilder csv = new StringBuilder(
                String.join(";", columns.stream().map(OpenTrials::inFile).toList()));
        csv.append('\n');
        Random random = new Random(SEED);
        List<String> codes = List.copyOf(CATEGORIES.keySet());
        for (int i = 0; i < CARCASSES; i++) {
            String category = i % 15 == 14 ? "160" : codes.get(i % codes.size());
            int conformation = 3 + random.nextInt(category.equals("169") ? 4 : 7);
            int fat = 3 + random.nextInt(7);
            double weight = 220 + 10 * random.nextInt(14) + 4 * conformation;
            double[] shares = shares(category, conformation, fat, weight, random);
            boolean detailed = random.nextInt(3) > 0;
            int sides = i == 20 ? 1 : 2;
            for (int side = 0; side < sides; side++) {
                Map<String, String> cells = new LinkedHashMap<>();
                cells.put("ID", Integer.toString(7001 + i));
                cells.put("Kategori", category);
                cells.put("Klasse", Integer.toString(conformation));
                cells.put("FettGruppe", Integer.toString(fat));
                cells.put("Slaktevekt", number(weight, 1));
                cells.put("Rase", Integer.toString(1 + i % 4));
                // drip in the chiller and the saw take a little
                double cut = weight / 2 * (0.988 + 0.004 * side + 0.003 * random.nextGaussian());
                // a box of one side was not weighed
                side(cells, columns, cut, shares, detailed, i == 11 && side == 1, random);
                csv.append(String.join(
                        ";",
                        columns.stream()
                                .map(column -> cells.getOrDefault(column.name(), ""))
                                .toList()));
                csv.append('\n');
            }
        }
        return csv.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** The columns of the layout, each once. */
    private static List<Column> columns(Path layout) {
        try {
            Map<String, Column> columns = new LinkedHashMap<>();
            for (String line : Files.readAllLines(layout)) {
                String[] cells = line.split(";", -1);
                if (!cells[0].isEmpty() && !cells[0].equals("column")) {
                    columns.putIfAbsent(cells[0], new Column(cells[0], cells[1], cells[2]));
                }
            }
            return new ArrayList<>(columns.values());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A name of which R makes that of the column. */
    private static String inFile(Column column) {
        return column.quarter().isEmpty()
                ? column.name()
                : column.name().substring(1).replace('.', '-');
    }

    private static double[] shares(String category, int conformation, int fat, double weight, Random random) {
        double[] more = CATEGORIES.getOrDefault(category, new double[GROUPS.size()]);
        double[] shares = new double[GROUPS.size()];
        double sum = 0;
        for (int k = 0; k < shares.length; k++) {
            Group group = GROUPS.get(k);
            double[] of = group.coefficients();
            double noise = group.kind() == CutKind.LOSS ? 1 : 0.5 * group.sd();
            shares[k] = of[0]
                    + of[1] * (conformation - 6)
                    + of[2] * (fat - 6)
                    + more[k]
                    + (group.kind() == CutKind.BONE ? -4 * (weight - 300) / 100 : 0)
                    + noise * random.nextGaussian();
            sum += shares[k];
        }
        for (int k = 0; k < shares.length; k++) {
            shares[k] /= sum;
        }
        return shares;
    }

    private static void side(
            Map<String, String> cells,
            List<Column> columns,
            double kg,
            double[] shares,
            boolean detailed,
            boolean boxMissing,
            Random random) {
        for (String quarter : List.of("forequarter", "hindquarter")) {
            double whole = 0;
            for (int k = 0; k < shares.length; k++) {
                Group group = GROUPS.get(k);
                double part = quarter.equals("forequarter") ? group.forequarter() : 1 - group.forequarter();
                double weight = kg * shares[k] * part;
                whole += weight;
                List<Column> into = columns.stream()
                        .filter(column -> column.group().equals(group.code())
                                && column.quarter().equals(quarter)
                                && isDetailed(column) == detailed)
                        .toList();
                if (into.isEmpty()) {
                    continue;
                }
                double[] parts = random.doubles(into.size(), 0, 1)
                        .map(one -> one < 0.2 ? 0 : one)
                        .toArray();
                // what is left goes into the last
                parts[parts.length - 1] += 0.1;
                double sum = 0;
                for (double one : parts) {
                    sum += one;
                }
                boolean missing = boxMissing
                        && quarter.equals("hindquarter")
                        && group.code().equals("trim-14");
                for (int i = 0; i < parts.length && !missing; i++) {
                    if (parts[i] > 0) {
                        cells.put(into.get(i).name(), number(weight * parts[i] / sum, 2));
                    }
                }
            }
            for (Column column : columns) {
                if (column.group().equals("cutting_weight_kg")
                        && column.quarter().equals(quarter)
                        && isDetailed(column) == detailed) {
                    cells.put(column.name(), number(whole, 2));
                }
            }
        }
    }

    /** Columns of the rough pattern begin with a number from 250. */
    private static boolean isDetailed(Column column) {
        return Integer.parseInt(column.name().substring(1, 4)) < 250;
    }

    private static String number(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value).replace('.', ',');
    }
}
