package org.beefyield.data;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.beefyield.value.FeedbackSheet;
import org.beefyield.value.FeedbackSheets;

/** Writes a page (HTML) and a text for each supplier. */
public final class FeedbackWriter {
    private static final int LONGEST_NAME = 80;

    private FeedbackWriter() {}

    /**
     * Writes the sheets of all suppliers, each as {@code name.html} and {@code name.txt}. Of a supplier's name the letters
     * a to z, digits, points and hyphens stay, anything else becomes a hyphen; suppliers whose names become the same get
     * numbers.
     *
     * @param sheets sheets
     * @param folder where they go; made as needed
     * @return the pages, in the order of the suppliers
     * @throws UncheckedIOException if a file can't be written; those before it stand
     */
    public static List<Path> write(FeedbackSheets sheets, Path folder) {
        List<Path> pages = new ArrayList<>();
        Set<String> taken = new HashSet<>();
        for (String supplier : sheets.suppliers()) {
            FeedbackSheet sheet = sheets.sheet(supplier);
            String name = name(supplier, taken);
            Path page = folder.resolve(name + ".html");
            write(page, sheet.toHtml());
            write(folder.resolve(name + ".txt"), sheet.toText());
            pages.add(page);
        }
        return pages;
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

    private static void write(Path target, String content) {
        try (AtomicFile file = new AtomicFile(target)) {
            file.write(content);
            file.finish();
        } catch (IOException e) {
            throw new UncheckedIOException(target + " can't be written: " + PackageFiles.reason(e), e);
        }
    }
}
