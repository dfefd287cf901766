package org.beefyield.data.trade;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.beefyield.data.Outputs;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.picture.Pictures;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;

/** Writes a page (HTML) and a text for each supplier. */
public final class FeedbackWriter {
    /** Names of the files that the last run wrote, a line each. */
    private static final String LIST = "feedback-sheets.txt";

    /** Names that Windows keeps for devices, whatever stands behind a point. */
    private static final Pattern DEVICE = Pattern.compile("(con|prn|aux|nul|com[0-9]|lpt[0-9])(\\..*)?");

    private static final Pattern OURS = Pattern.compile("[a-z0-9][a-z0-9.-]*\\.(html|txt)");
    private static final Pattern ACCENTS = Pattern.compile("\\p{M}+");

    private static final int LONGEST_NAME = 80;
    /** More animals stand in two columns on paper, if their ids leave room for that. */
    private static final int ONE_COLUMN = 24;

    private static final int LONGEST_ID = 12;
    private static final String SHEET = "a feedback sheet";

    private FeedbackWriter() {}

    /**
     * Writes the sheets of all suppliers, each as {@code name.html} and {@code name.txt}. Of a supplier's name letters become a
     * to z, digits, points and hyphens stay, anything else becomes a hyphen; a name that is no file name everywhere gets {@code
     * supplier-} before it, and suppliers whose names become the same get numbers. All get their places together, once all are
     * written; sheets of an earlier run that {@value #LIST} names and nobody gets any more are taken away.
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
        // a supplier may be called as the list is
        Set<String> taken = new HashSet<>(Set.of(LIST.replace(".txt", "")));
        Set<String> written = new TreeSet<>();
        for (String supplier : sheets.suppliers()) {
            FeedbackSheet sheet = sheets.sheet(supplier);
            String name = name(supplier, taken);
            Path page = folder.resolve(name + ".html");
            files.write(SHEET, page, page(sheet));
            files.write(SHEET, folder.resolve(name + ".txt"), sheet.toText());
            pages.add(page);
            written.add(name + ".html");
            written.add(name + ".txt");
        }
        for (String earlier : earlier(folder)) {
            if (!written.contains(earlier)) {
                files.takeAway(folder.resolve(earlier));
            }
        }
        files.write("the list of feedback sheets", folder.resolve(LIST), String.join("\n", written) + "\n");
        return pages;
    }

    /** Sheets that an earlier run left; names that none of ours has count for nothing. */
    private static List<String> earlier(Path folder) {
        try {
            return Files.readAllLines(folder.resolve(LIST)).stream()
                    .filter(name -> OURS.matcher(name).matches() && !name.equals(LIST))
                    .toList();
        } catch (IOException | UncheckedIOException e) {
            // none, or none that can be read
            return List.of();
        }
    }

    /** A page that needs nothing from elsewhere, with the picture beside the supplier's averages. */
    private static String page(FeedbackSheet sheet) {
        String html = inColumns(sheet, sheet.toHtml());
        if (!sheet.averages().isEmpty()) {
            int table = html.indexOf("<div");
            int behind = html.indexOf("</div>", table) + "</div>\n".length();
            html = html.substring(0, table) + "<div class=\"pictures\">\n" + html.substring(table, behind)
                    + Pictures.besideHall(sheet).toSvg() + "</div>\n" + html.substring(behind);
        }
        return HtmlPage.of(
                "Feedback for " + sheet.supplier(),
                html.replaceFirst("</h1>\n", "</h1>\n<div class=\"sheet\">\n") + "</div>\n");
    }

    /** The list of animals, which is the last table. */
    private static String inColumns(FeedbackSheet sheet, String html) {
        boolean fits = sheet.animals().stream()
                .allMatch(animal -> animal.carcass().id().orElse("").length() <= LONGEST_ID);
        if (!fits || sheet.animals().size() <= ONE_COLUMN) {
            return html;
        }
        int from = html.lastIndexOf("<div");
        int behind = html.indexOf("</div>\n", from) + "</div>\n".length();
        return html.substring(0, from) + "<div class=\"animals\">\n" + html.substring(from, behind) + "</div>\n"
                + html.substring(behind);
    }

    private static String name(String supplier, Set<String> taken) {
        String letters = ACCENTS.matcher(Normalizer.normalize(supplier, Normalizer.Form.NFKD))
                .replaceAll("");
        String plain = letters.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9.]+", "-");
        plain = plain.substring(0, Math.min(LONGEST_NAME, plain.length())).replaceAll("^[-.]+|[-.]+$", "");
        String base = plain.isEmpty() ? "supplier" : DEVICE.matcher(plain).matches() ? "supplier-" + plain : plain;
        String name = base;
        for (int i = 2; !taken.add(name); i++) {
            name = base + "-" + i;
        }
        return name;
    }
}
