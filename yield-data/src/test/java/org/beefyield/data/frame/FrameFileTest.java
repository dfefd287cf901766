package org.beefyield.data.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Frames;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FrameFileTest {
    @TempDir
    Path folder;

    private static Frame lots() {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("lot", List.of("Mere", "=1+1", "", "a \"b\", c"));
        columns.put("cold weight, kg", new double[] {340, 1 / 3.0, Double.NaN, -1e-300});
        return Frame.of(columns);
    }

    private Path file(String content) throws IOException {
        return Files.writeString(folder.resolve("x.csv"), content);
    }

    @Test
    void theHeaderHasUnitsAndTextsStandAsTheyAre() throws IOException {
        Path file = Files.createDirectory(folder.resolve("new")).resolve("lots.csv");
        FrameFile.write(lots(), file);
        assertThat(file).content().isEqualTo("""
                lot,"cold weight, kg"
                Mere,340.0
                =1+1,0.3333333333333333
                ,
                "a ""b"", c",-1.0E-300
                """);
        try (Stream<Path> files = Files.list(file.getParent())) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void whatIsReadIsWhatWasWrittenWithItsDeclaredTypes() {
        Path file = folder.resolve("lots.csv");
        FrameFile.write(lots(), file);
        assertThat(FrameFile.read(file, lots().columns())).isEqualTo(lots());
        Frame asText = FrameFile.read(file, List.of(Column.text("cold weight, kg"), Column.text("lot")));
        assertThat(asText.texts("cold weight")).containsExactly("340.0", "0.3333333333333333", "", "-1.0E-300");
        assertThat(asText.columns().get(1)).isEqualTo(Column.text("lot"));
        FrameFile.write(lots().head(0), file);
        assertThat(FrameFile.read(file, lots().columns())).isEqualTo(lots().head(0));
    }

    @Test
    void aSheetOfTwoHundredComesBackEqual() {
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        Frame cuts = Frames.longForm(
                KillSheetReader.read(Path.of(System.getProperty("basedir", ""), "examples/tarrowmere-2026-11.csv"))
                        .carcasses()
                        .stream()
                        .map(estimator::estimate)
                        .toList());
        assertThat(cuts.rows()).isGreaterThan(200 * 10);
        FrameFile.write(cuts, folder.resolve("cuts.csv"));
        assertThat(FrameFile.read(folder.resolve("cuts.csv"), cuts.columns())).isEqualTo(cuts);
    }

    @Test
    void everyBadCellIsNamed() throws IOException {
        Path file = file("lot,\"cold weight, kg\"\nMere,x\nMere,\"3,5\"\nHill,1e13\nHill,\n");
        assertThatThrownBy(() -> FrameFile.read(file, lots().columns()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(file + " line 2, cold weight, kg: \"x\" is not a plain number such as 342.5\n"
                        + file
                        + " line 3, cold weight, kg: \"3,5\" is not a plain number such as 342.5; if its comma is a"
                        + " decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma\n"
                        + file + " line 4, cold weight, kg: \"1e13\" is beyond 1.0E12 in size");
    }

    @Test
    void columnsAreThoseDeclared() throws IOException {
        Path file = file("lot,cold weight\nMere,1\n");
        assertThatThrownBy(() -> FrameFile.read(file, lots().columns()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        file + " line 1, cold weight, kg: the column \"cold weight, kg\" is missing; columns: lot; cold"
                                + " weight, kg\n"
                                + file
                                + " line 1, cold weight: there is no column \"cold weight\"; columns: lot; cold weight, kg");
        assertThatThrownBy(() -> FrameFile.read(file("lot\nx\n"), List.of(Column.text("lot"), Column.number("lot"))))
                .hasMessage("two columns are declared as \"lot\"");
        assertThatThrownBy(() -> FrameFile.read(folder.resolve("none.csv"), lots().columns()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageContaining("the file can't be read");
    }

    @Test
    void whatCouldNotBeReadBackIsNotWritten() throws IOException {
        Path file = file("as before");
        assertThatThrownBy(() -> FrameFile.write(lots().withText("lot", row -> row.index() == 2 ? "a\nb" : ""), file))
                .hasMessage(
                        "row 2, column \"lot\": \"a?b\" holds a line end or another control character, which no row of a"
                                + " file can");
        // half of a character pair is no UTF-8: it fails while writing
        assertThatThrownBy(() -> FrameFile.write(lots().withText("lot", row -> "\ud800"), file))
                .hasMessageContaining("x.csv can't be written");
        assertThat(file).content().isEqualTo("as before");
        Map<String, Object> many = new LinkedHashMap<>();
        for (int i = 0; i <= 1000; i++) {
            many.put("c" + i, Collections.nCopies(1, "x"));
        }
        assertThatThrownBy(() -> FrameFile.write(Frame.of(many), file))
                .hasMessage("1001 columns are more than the 1000 of a file");
        assertThatThrownBy(() -> FrameFile.write(Frame.of(Map.of("a;b", List.of("x"))), file))
                .hasMessage("a file of the one column \"a;b\" could not be told from one with another separator");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }
}
