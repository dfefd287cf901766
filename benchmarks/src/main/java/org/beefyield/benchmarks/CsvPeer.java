package org.beefyield.benchmarks;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.EstimateWriter;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetHandler;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.Range;

/**
 * Kill sheet to wide estimates, CSV to CSV, against {@code peers/csv_pandas.py}: that script reads the same sheet and the
 * table's nodes, which this writes for it, and checks its figures against these.
 *
 * <pre>
 * java -cp benchmarks/target/benchmarks.jar org.beefyield.benchmarks.CsvPeer inputs 1000000 FOLDER
 * java -Xmx64m -cp benchmarks/target/benchmarks.jar org.beefyield.benchmarks.CsvPeer estimate FOLDER ours.csv
 * /usr/bin/python3 benchmarks/peers/csv_pandas.py FOLDER theirs.csv
 * /usr/bin/python3 benchmarks/peers/csv_pandas.py --check FOLDER/ours.csv FOLDER/theirs.csv
 * </pre>
 */
public final class CsvPeer {
    private static final List<Category> CATEGORIES = List.of(Category.STEER, Category.HEIFER, Category.COW);
    private static final List<String> SUPPLIERS =
            List.of("Upper Tarrow", "Long Tarrow", "Tarrow Bridge", "Mere End", "Home Farm");
    private static final int CARCASSES_A_LOT = 40;
    private static final int LOTS_A_DAY = 10;

    private CsvPeer() {}

    /**
     * Writes the inputs or the estimates.
     *
     * @param arguments {@code inputs ROWS FOLDER}, or {@code estimate FOLDER NAME}, the name of the file to write there
     * @throws IOException if a file can't be written
     */
    public static void main(String[] arguments) throws IOException {
        if (arguments.length == 3 && arguments[0].equals("inputs")) {
            Path folder = Files.createDirectories(Path.of(arguments[2]));
            writeSheet(Integer.parseInt(arguments[1]), folder.resolve("killsheet.csv"));
            writeNodes(folder.resolve("nodes.csv"));
        } else if (arguments.length == 3 && arguments[0].equals("estimate")) {
            Path folder = Path.of(arguments[1]);
            print(estimate(folder.resolve("killsheet.csv"), folder.resolve(arguments[2])));
        } else {
            throw new IllegalArgumentException("inputs ROWS FOLDER or estimate FOLDER NAME is needed");
        }
    }

    @SuppressWarnings("SystemOut")
    private static void print(KillSheet.Counts counts) {
        System.out.println(counts);
    }

    /** Invented carcasses of the Tarrowmere farm group, all inside the fitted range, the same at each call. */
    private static void writeSheet(int rows, Path file) throws IOException {
        SplittableRandom random = new SplittableRandom(1);
        LocalDate first = LocalDate.of(1990, 1, 1);
        try (PrintStream out = new PrintStream(Files.newOutputStream(file), false, StandardCharsets.UTF_8)) {
            out.print("carcass,category,conformation,fat_class,cold_weight_kg,lot,supplier,kill_date\n");
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < rows; i++) {
                int lot = i / CARCASSES_A_LOT;
                line.setLength(0);
                line.append("TM-").append(i + 1).append(',');
                line.append(CATEGORIES.get(random.nextInt(CATEGORIES.size())).letter());
                line.append(',').append(Conformation.third(random.nextInt(2, 15)));
                line.append(',').append(FatClass.third(random.nextInt(3, 14)));
                line.append(',')
                        .append(random.nextInt(2340, 5011) / 10.0)
                        .append(",L")
                        .append(lot + 1);
                line.append(',').append(SUPPLIERS.get(lot % SUPPLIERS.size()));
                line.append(',').append(first.plusDays(lot / LOTS_A_DAY)).append('\n');
                out.append(line);
            }
            if (out.checkError()) {
                throw new IOException(file + " can't be written");
            }
        }
    }

    /** Shares of every cut at every node of the fitted range: polynomials in t = (w - w0)/100. */
    private static void writeNodes(Path file) throws IOException {
        YieldEstimator estimator = estimator();
        Range conformations = estimator.table().definition().fitted().conformation();
        Range fats = estimator.table().definition().fitted().fat();
        List<String> lines = new ArrayList<>(List.of("category,conformation,fat,cut,t0,t1,t2,t3"));
        for (Category category : CATEGORIES) {
            CompiledTable compiled = estimator.table().unwrap(CompiledTable.class);
            YieldGrid grid = compiled.grid(
                    compiled.group(category), estimator.specification().ways());
            for (int c = (int) conformations.low(); c <= conformations.high(); c++) {
                for (int f = (int) fats.low(); f <= fats.high(); f++) {
                    for (String level : estimator.table().levels()) {
                        for (Cut cut : estimator.yields(level)) {
                            lines.add(node(category, c, f, level, cut, grid));
                        }
                    }
                }
            }
        }
        Files.write(file, lines);
    }

    private static String node(Category category, int c, int f, String level, Cut cut, YieldGrid grid) {
        int slot = grid.layout().slot(grid.layout().levelIndex(level), cut.code());
        double[] share = grid.ofSlots(grid.nodes().at(c, f), slot);
        StringBuilder line = new StringBuilder();
        line.append(String.format(Locale.ROOT, "%s,%d,%d,%s.%s", category.letter(), c, f, level, cut.code()));
        for (int j = 0; j < 4; j++) {
            line.append(',').append(j < share.length ? share[j] : 0);
        }
        return line.toString();
    }

    private static YieldEstimator estimator() {
        return YieldEstimator.of(ShippedTables.boneless2026());
    }

    private static KillSheet.Counts estimate(Path sheet, Path out) {
        YieldEstimator estimator = estimator();
        try (EstimateWriter writer = EstimateWriter.wide(out, estimator)) {
            KillSheet.Counts counts =
                    KillSheetReader.read(Source.of(sheet), KillSheetFormat.standard(), new KillSheetHandler() {
                        @Override
                        public void entry(KillSheetEntry entry) {
                            writer.write(estimator.estimate(entry.carcass()));
                        }

                        @Override
                        public void problem(Problem problem) {
                            throw new IllegalStateException(problem.toString());
                        }
                    });
            writer.finish();
            return counts;
        }
    }
}
