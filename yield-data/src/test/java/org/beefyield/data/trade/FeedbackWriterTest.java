package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
                .isEqualTo("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>"
                        + "<meta name=\"viewport\" content=\"width=device-width\"/><title>Feedback for Mere &lt;End&gt;"
                        + "</title></head>\n<body style=\"font-family:sans-serif;overflow-wrap:break-word\">\n"
                        + sheets.sheet("Mere <End>").toHtml() + "</body></html>\n");
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
    void aPlaceThatCanNotBeWrittenIsNamed() throws IOException {
        Path file = Files.writeString(folder.resolve("file"), "");

        assertThatThrownBy(() -> FeedbackWriter.write(sheets("Mere End"), file))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(file + " can't be written: it is a file, not a folder");
    }
}
