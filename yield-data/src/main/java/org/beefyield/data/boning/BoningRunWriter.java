package org.beefyield.data.boning;

import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.Excerpt;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Writes runs and products as the files that {@link BoningRunReader} and {@link ProductReader} read, in the standard form:
 * {@code intake.csv}, {@code boxes.csv}, {@code rest.csv} and {@code products.csv}. What is read of them is what was written,
 * but that carcasses have the hall of their run.
 */
public final class BoningRunWriter {
    private static final char DELETE = 0x7F;

    private BoningRunWriter() {}

    /**
     * Writes runs and products. All files appear, or are replaced, together.
     *
     * @param runs runs, each with intake
     * @param products products
     * @param folder where the files go, which exists
     * @throws IllegalArgumentException if a run has no intake, its day or a kill date is no date such as
     *     {@code 2026-11-03}, a carcass has another hall, a product has no name or that of another or of a line of a
     *     reconciliation, or a text holds a control character or blanks at its ends: what could
     *     not be read back isn't written
     * @throws UncheckedIOException if a file can't be written; all places are as they were
     */
    public static void write(List<BoningRun> runs, List<Product> products, Path folder) {
        try (Outputs outputs = new Outputs()) {
            write(runs, products, folder, outputs);
            outputs.finish();
        }
    }

    /**
     * Writes runs and products so that they get their places with the other outputs of a run.
     *
     * @param runs runs, each with intake
     * @param products products
     * @param folder where the files go, which exists
     * @param outputs the outputs
     * @throws IllegalArgumentException as {@link #write(List, List, Path)}
     * @throws UncheckedIOException if a file can't be written, or would replace an input or another output
     */
    public static void write(List<BoningRun> runs, List<Product> products, Path folder, Outputs outputs) {
        Objects.requireNonNull(folder, "folder");
        String intake = intake(runs);
        String boxes = boxes(runs);
        String rest = rest(runs);
        String goods = products(products);
        outputs.write(folder.resolve("intake.csv"), intake);
        outputs.write(folder.resolve("boxes.csv"), boxes);
        outputs.write(folder.resolve("rest.csv"), rest);
        outputs.write(folder.resolve("products.csv"), goods);
    }

    private static String intake(List<BoningRun> runs) {
        StringBuilder text = new StringBuilder(CsvLine.of(List.of(
                RunColumns.HALL,
                RunColumns.DAY,
                RunColumns.WEIGHING,
                RunColumns.CARCASS,
                RunColumns.CATEGORY,
                RunColumns.CONFORMATION,
                RunColumns.FAT_CLASS,
                RunColumns.COLD_WEIGHT_KG,
                RunColumns.KILL_DATE,
                RunColumns.LOT,
                RunColumns.SUPPLIER,
                RunColumns.AGE_MONTHS,
                RunColumns.ASSURED,
                RunColumns.PART,
                RunColumns.PIECE,
                RunColumns.WEIGHT_KG,
                RunColumns.MOVEMENT,
                RunColumns.BATCH,
                RunColumns.SLAUGHTERHOUSE,
                RunColumns.BORN,
                RunColumns.REARED)));
        for (BoningRun run : runs) {
            if (run.intake().isEmpty()) {
                throw new IllegalArgumentException(
                        run.name() + " has no intake; a run without it could not be read back");
            }
            run.intake().forEach(piece -> text.append(intake(run, piece)));
        }
        return text.toString();
    }

    private static String intake(BoningRun run, Intake piece) {
        Carcass carcass = piece.carcass();
        String hall = carcass.hall().orElse(run.hall());
        if (!hall.equals(run.hall())) {
            throw new IllegalArgumentException(run.name() + ": carcass " + piece.id() + " is boned in " + hall
                    + "; the run has its own carcasses");
        }
        return CsvLine.of(List.of(
                text(run.hall()),
                day(run.day()),
                run.weighing().code(),
                text(piece.id()),
                carcass.category().toString(),
                carcass.conformation().toString(),
                carcass.fatClass().toString(),
                Numbers.exact(carcass.coldWeightKg()),
                carcass.killDate().map(BoningRunWriter::day).orElse(""),
                text(carcass.lot().orElse("")),
                text(carcass.supplier().orElse("")),
                carcass.ageMonths().isEmpty()
                        ? ""
                        : Integer.toString(carcass.ageMonths().getAsInt()),
                carcass.assured().map(assured -> assured ? "yes" : "no").orElse(""),
                piece.part().code(),
                text(piece.piece()),
                Numbers.exact(piece.weightKg()),
                piece.movement().code(),
                text(piece.batch()),
                text(piece.origin().slaughterhouse()),
                text(piece.origin().born()),
                text(piece.origin().reared())));
    }

    private static String boxes(List<BoningRun> runs) {
        StringBuilder text = new StringBuilder(CsvLine.of(List.of(
                RunColumns.HALL,
                RunColumns.DAY,
                RunColumns.BOX,
                RunColumns.PRODUCT,
                RunColumns.BATCH,
                RunColumns.GROSS_KG,
                RunColumns.TARE_KG,
                RunColumns.TIME,
                RunColumns.KIND,
                RunColumns.FROM)));
        for (BoningRun run : runs) {
            for (Box box : run.boxes()) {
                text.append(CsvLine.of(List.of(
                        text(run.hall()),
                        day(run.day()),
                        text(box.id()),
                        text(box.product()),
                        text(box.batch()),
                        Numbers.exact(box.grossKg()),
                        Numbers.exact(box.tareKg()),
                        text(box.time()),
                        box.kind().code(),
                        text(String.join(" ", box.from())))));
            }
        }
        return text.toString();
    }

    private static String rest(List<BoningRun> runs) {
        StringBuilder text = new StringBuilder(
                CsvLine.of(List.of(RunColumns.HALL, RunColumns.DAY, RunColumns.KIND, RunColumns.KG, RunColumns.CUT)));
        for (BoningRun run : runs) {
            for (Rest rest : run.rest()) {
                text.append(CsvLine.of(List.of(
                        text(run.hall()),
                        day(run.day()),
                        rest.kind().code(),
                        Numbers.exact(rest.kg()),
                        text(rest.cut()))));
            }
        }
        return text.toString();
    }

    private static String products(List<Product> products) {
        StringBuilder text = new StringBuilder(CsvLine.of(RunColumns.PRODUCTS));
        Map<String, String> codes = new HashMap<>();
        for (Product product : products) {
            checkName(product, codes.putIfAbsent(product.name(), product.code()));
            product.cuts()
                    .forEach((cut, share) -> text.append(CsvLine.of(
                            List.of(text(product.code()), text(product.name()), text(cut), Numbers.exact(share)))));
        }
        return text.toString();
    }

    private static void checkName(Product product, @Nullable String other) {
        String wrong = product.name().isBlank()
                ? "it has no name"
                : other != null
                        ? "product " + other + " has the name \"" + product.name()
                                + "\" too; each has a name of its own"
                        : ProductNames.wrong(product.name());
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException("product " + product.code() + ": " + wrong);
        }
    }

    private static String day(String day) {
        try {
            return LocalDate.parse(day).toString();
        } catch (DateTimeException e) {
            throw new IllegalArgumentException(Excerpt.quote(day) + " is not a date such as 2026-11-03", e);
        }
    }

    private static String text(String text) {
        if (!text.equals(text.strip()) || text.chars().anyMatch(c -> c < ' ' || c == DELETE)) {
            throw new IllegalArgumentException(Excerpt.quote(text.replaceAll("\\p{Cntrl}", "?"))
                    + " has blanks at its ends or holds a control character, which no cell of a file can");
        }
        return text;
    }
}
