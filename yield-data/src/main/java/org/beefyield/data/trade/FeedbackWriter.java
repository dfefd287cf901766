package org.beefyield.data.trade;

import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.text.TextTable;

/** Writes a page (HTML) and a text for each supplier. */
public final class FeedbackWriter {
    private static final int LONGEST_NAME = 80;
    private static final String SHEET = "a feedback sheet";

    private FeedbackWriter() {}

    /**
     * Writes the sheets of all suppliers, each as {@code name.html} and {@code name.txt}. Of a supplier's name the letters
     * a to z, digits, points and hyphens stay, anything else becomes a hyphen; suppliers whose names become the same get
     * numbers. All get their places together, once all are written.
     *
     * @param sheets sheets
     * @param folder where they go; it is made if it is missing, in a folder that exists
     * @return the pages, in the order of the suppliers
     * @throws UncheckedIOException if a file can't be written; all places are as they were
     */
    public static List<Path> write(FeedbackSheets sheets, Path folder) {
        try (Outputs outputs = new Outputs()) {
            List<Path> pages = write(sheets, folder, outputs);
            outputs.finish();
            return pages;
        }
    }

    /**
     * Writes the sheets of all suppliers so that they get their places with the other outputs of a run.
     *
     * @param sheets sheets
     * @param folder where they go; it is made if it is missing, in a folder that exists
     * @param outputs the outputs of the run
     * @return the pages, in the order of the suppliers
     * @throws UncheckedIOException if a file can't be written, or would replace an input or another output
     */
    public static List<Path> write(FeedbackSheets sheets, Path folder, Outputs outputs) {
        OutputFiles files = outputs.unwrap(OutputFiles.class);
        files.makeFolder(folder);
        List<Path> pages = new ArrayList<>();
        Set<String> taken = new HashSet<>();
        for (String supplier : sheets.suppliers()) {
            FeedbackSheet sheet = sheets.sheet(supplier);
            String name = name(supplier, taken);
            Path page = folder.resolve(name + ".html");
            files.write(SHEET, page, page(sheet));
            files.write(SHEET, folder.resolve(name + ".txt"), sheet.toText());
            pages.add(page);
        }
        return pages;
    }

    /** A page that needs nothing from elsewhere. */
    private static String page(FeedbackSheet sheet) {
        return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>"
                + "<meta name=\"viewport\" content=\"width=device-width\"/><title>Feedback for "
                + TextTable.escape(sheet.supplier())
                + "</title></head>\n<body style=\"font-family:sans-serif;overflow-wrap:break-word\">\n"
                + sheet.toHtml() + "</body></html>\n";
    }

    private static String name(String supplier, Set<String> taken) {
        String plain =
                supplier.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9.]+", "-").replaceAll("^[-.]+|[-.]+$", "");
        String base = plain.isEmpty() ? "supplier" : plain.substring(0, Math.min(LONGEST_NAME, plain.length()));
        String name = base;
        for (int i = 2; !taken.add(name); i++) {
            name = base + "-" + i;
        }
        return name;
    }
}
