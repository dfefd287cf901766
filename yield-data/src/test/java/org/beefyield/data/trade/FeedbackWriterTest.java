package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FeedbackWriterTest {
    @TempDir
    Path folder;

    private static FeedbackSheets sheets(String... suppliers) {
        FeedbackSheets.Collector sheets = FeedbackSheets.builder(YieldEstimator.of(ShippedTables.boneless2026()))
                .collector();
        for (String supplier : suppliers) {
            sheets.add(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                    .withSupplier(supplier));
        }
        return sheets.result();
    }

    private List<String> names(FeedbackSheets sheets) {
        return FeedbackWriter.write(sheets, folder.resolve("sheets")).stream()
                .map(page -> page.getFileName().toString())
                .toList();
    }

    @Test
    void everySupplierGetsAPageAndAText() throws IOException {
        FeedbackSheets sheets = sheets("Upper Tarrow", "Mere <End>");

        assertThat(names(sheets)).containsExactly("upper-tarrow.html", "mere-end.html");
        assertThat(Files.readString(folder.resolve("sheets/mere-end.html")))
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">")
                .contains("<title>Feedback for Mere &lt;End&gt;</title>", "overflow:visible!important")
                // nothing from elsewhere
                .doesNotContain("http", "<script", "<link", "<img")
                .endsWith(sheets.sheet("Mere <End>").toHtml().replaceFirst("(?s)^<h1>.*?</h1>\n", "")
                        + "</div>\n</main></body></html>\n");
        assertThat(Files.readString(folder.resolve("sheets/mere-end.txt")))
                .isEqualTo(sheets.sheet("Mere <End>").toText());
    }

    @Test
    void namesThatNoFileCanHaveAreMadePlainAndStayApart() {
        assertThat(names(sheets(
                        "../../etc", "Hill & Field", "hill / field", "\u725b", "HILL FIELD", "x".repeat(200), "...")))
                .containsExactly(
                        "etc.html",
                        "hill-field.html",
                        "hill-field-2.html",
                        "supplier.html",
                        "hill-field-3.html",
                        "x".repeat(80) + ".html",
                        "supplier-2.html");
    }

    @Test
    void aNameThatIsADeviceOfWindowsOrHasAccentsIsAFileNameAllTheSame() {
        assertThat(names(sheets("Con", "nul.farm", "LPT1", "Z\u00fcchter M\u00e9re", "feedback sheets", "a.", "A")))
                .containsExactly(
                        "supplier-con.html",
                        "supplier-nul.farm.html",
                        "supplier-lpt1.html",
                        "zuchter-mere.html",
                        "feedback-sheets-2.html",
                        "a.html",
                        "a-2.html");
    }

    /** Yesterday's sheets go, and nothing else. */
    @Test
    void sheetsOfAnEarlierRunThatNobodyGetsAnyMoreAreTakenAway() throws IOException {
        Path place = folder.resolve("sheets");
        names(sheets("Mere End", "Upper Tarrow"));
        Files.writeString(place.resolve("our own.html"), "x");
        Files.writeString(place.resolve("notes.txt"), "x");
        names(sheets("Upper Tarrow", "Long Tarrow"));
        try (Stream<Path> files = Files.list(place)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .containsExactlyInAnyOrder(
                            "our own.html",
                            "notes.txt",
                            "feedback-sheets.txt",
                            "upper-tarrow.html",
                            "upper-tarrow.txt",
                            "long-tarrow.html",
                            "long-tarrow.txt");
        }
        // a list that names something else takes nothing away outside the folder
        Files.writeString(folder.resolve("kept.html"), "x");
        Files.writeString(place.resolve("feedback-sheets.txt"), "../kept.html\nour own.html\n");
        names(sheets("Mere End"));
        assertThat(folder.resolve("kept.html")).exists();
        assertThat(place.resolve("our own.html")).exists();
    }

    /** With a hall's average a picture stands beside the averages. */
    @Test
    void theFarmStandsBesideTheHallInAPicture() throws IOException {
        names(sheets("A", "A", "B", "B", "C"));
        assertThat(Files.readString(folder.resolve("sheets/a.html")))
                .contains("<svg", "Yours beside the hall&#39;s average");
        names(sheets("A", "A", "A", "B", "B"));
        assertThat(Files.readString(folder.resolve("sheets/a.html"))).doesNotContain("<svg");
    }

    @Test
    void aPlaceThatCanNotBeWrittenIsNamed() throws IOException {
        Path file = Files.writeString(folder.resolve("file"), "");

        assertThatThrownBy(() -> FeedbackWriter.write(sheets("Mere End"), file))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(file + " can't be written: it is a file, not a folder");
    }
}
