package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.boning.Product;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.boning.BoningRunReader;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.data.boning.ProductReader;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/**
 * The files of boning runs.
 *
 * @param intake what went in
 * @param boxes what was packed
 * @param products what is packed under which code
 * @param rest what was weighed beside the boxes
 */
record RunFiles(
        Path intake, Path boxes, Path products, @Nullable Path rest) {
    static final List<String> NAMED = List.of("--intake", "--boxes", "--products", "--rest");

    static RunFiles of(Options options) {
        return new RunFiles(
                Options.path(options.needed("--intake")),
                Options.path(options.needed("--boxes")),
                Options.path(options.needed("--products")),
                options.optionalPath("--rest"));
    }

    void claim(Outputs outputs) {
        outputs.input("--intake", intake);
        outputs.input("--boxes", boxes);
        outputs.input("--products", products);
        if (rest != null) {
            outputs.input("--rest", rest);
        }
    }

    List<Product> products(CsvForm form, YieldTable table) {
        return ProductReader.read(Source.of(products), form, table);
    }

    BoningRunSheet sheet(List<Product> known, CsvForm form, YieldTable table) {
        return BoningRunReader.read(
                Source.of(intake), Source.of(boxes), rest == null ? null : Source.of(rest), known, form, table);
    }

    /** What was read, and what of it is left out. */
    static List<String> head(BoningRunSheet sheet, List<Problem> notes, List<String> leftOut) {
        List<String> head = new ArrayList<>();
        head.add("Runs: " + sheet);
        sheet.problems().forEach(problem -> head.add("  " + problem));
        notes.forEach(note -> head.add("Note: " + note));
        head.addAll(leftOut);
        return head;
    }
}
