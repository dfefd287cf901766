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
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.Frames;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
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
            assertThat(files).containsExactlyInAnyOrder(file, file.resolveSibling("lots.datapackage.json"));
        }
    }

    /** Of every type, unit and total. */
    private static Frame typed() {
        return Frame.ofEach(List.of("007", "008"))
                .text("carcass", id -> id)
                .text(Column.text("kill date").of(Column.Type.DATE), id -> id.equals("007") ? "2026-11-03" : "")
                .text(Column.text("conformation").of(Column.Type.CONFORMATION), id -> "R=")
                .text(Column.text("fat class").of(Column.Type.FAT_CLASS), id -> "4L")
                .number("cold weight, kg", id -> 340)
                .number("age, months", id -> Double.NaN)
                .number(
                        Column.number("share, % of cold weight").totalling(Total.meanWeightedBy("cold weight")),
                        id -> 1 / 3.0)
                .frame();
    }

    @Test
    void theDescriptorBesideItSaysTypesUnitsAndTotals() {
        FrameFile.write(typed(), folder.resolve("Lots of 2026.csv"));
        assertThat(folder.resolve("Lots of 2026.datapackage.json")).content().isEqualTo("""
                {
                  "profile" : "tabular-data-package",
                  "name" : "lots-of-2026",
                  "resources" : [ {
                    "profile" : "tabular-data-resource",
                    "name" : "lots-of-2026",
                    "path" : "Lots of 2026.csv",
                    "format" : "csv",
                    "mediatype" : "text/csv",
                    "encoding" : "utf-8",
                    "schema" : {
                      "fields" : [ {
                        "name" : "carcass",
                        "title" : "carcass",
                        "type" : "string"
                      }, {
                        "name" : "kill date",
                        "title" : "kill date",
                        "type" : "date"
                      }, {
                        "name" : "conformation",
                        "title" : "conformation",
                        "type" : "string",
                        "beefyield" : {
                          "type" : "conformation"
                        }
                      }, {
                        "name" : "fat class",
                        "title" : "fat class",
                        "type" : "string",
                        "beefyield" : {
                          "type" : "fat class"
                        }
                      }, {
                        "name" : "cold weight, kg",
                        "title" : "cold weight",
                        "type" : "number",
                        "description" : "Unit: kg",
                        "beefyield" : {
                          "total" : "sum"
                        }
                      }, {
                        "name" : "age, months",
                        "title" : "age",
                        "type" : "number",
                        "description" : "Unit: months",
                        "beefyield" : {
                          "total" : "none"
                        }
                      }, {
                        "name" : "share, % of cold weight",
                        "title" : "share",
                        "type" : "number",
                        "description" : "Unit: % of cold weight",
                        "beefyield" : {
                          "total" : "mean weighted by cold weight"
                        }
                      } ],
                      "missingValues" : [ "" ]
                    }
                  } ]
                }
                """);
    }

    @Test
    void byItsDescriptorItComesBackEqualWithoutADeclaration() {
        for (String name : List.of("typed.csv", "typed.csv.gz", "typed")) {
            FrameFile.write(typed(), folder.resolve(name));
            assertThat(FrameFile.read(folder.resolve(name))).isEqualTo(typed());
        }
        FrameFile.write(typed().head(0), folder.resolve("none.csv"));
        assertThat(FrameFile.read(folder.resolve("none.csv"))).isEqualTo(typed().head(0));
    }

    @Test
    void aDescriptorThatIsMissingOrDeclaresSomethingElseIsNamed() throws IOException {
        Path file = folder.resolve("lots.csv");
        Path beside = folder.resolve("lots.datapackage.json");
        FrameFile.write(lots(), file);
        Files.delete(beside);
        assertThatThrownBy(() -> FrameFile.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(beside + ": the descriptor can't be read: there is no file " + beside
                        + "; without one, declare the columns");
        Files.writeString(beside, "{}");
        assertThatThrownBy(() -> FrameFile.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(beside + ": it declares no fields of a first resource, which would be the columns");
        Files.writeString(beside, "nonsense");
        assertThatThrownBy(() -> FrameFile.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageStartingWith(beside + ": it is no JSON: ");
        Files.writeString(beside, """
                {"resources": [{"schema": {"fields": [{"name": "lot", "type": "boolean"}]}}]}""");
        assertThatThrownBy(() -> FrameFile.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(beside
                        + ", lot: the type \"boolean\" is none of a frame; string, number, integer and date are");
        Files.writeString(beside, """
                {"resources": [{"schema": {"fields": [{"name": "kg", "type": "number", "beefyield": {"total": "all"}}]}}]}""");
        assertThatThrownBy(() -> FrameFile.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(beside
                        + ", kg: \"all\" is no total; sum, none, or mean weighted by and the name of a column are");
    }

    @Test
    void someColumnsAndRowsAreReadAlone() throws IOException {
        Path file = folder.resolve("many.csv");
        Frame many = Frame.ofEach(IntStream.range(0, 9000).boxed().toList())
                .text("lot", row -> row % 3 == 0 ? "Mere" : "Hill")
                .number("cold weight, kg", row -> row)
                .number("age, months", row -> row % 30)
                .frame();
        FrameFile.write(many, file);
        FrameReader mere = FrameFile.reader(file)
                .select("age", "cold weight, kg")
                .where(row -> row.text("lot").equals("Mere"))
                .where(row -> row.number("cold weight") >= 3000);
        assertThat(mere.read())
                .isEqualTo(many.where(row -> row.text("lot").equals("Mere") && row.number("cold weight") >= 3000)
                        .select("age", "cold weight"));
        assertThat(mere.limit(5).read().numbers("cold weight")).containsExactly(3000, 3003, 3006, 3009, 3012);
        assertThat(mere.limit(0).read()).isEqualTo(mere.read().head(0));
        assertThat(FrameFile.reader(file).read()).isEqualTo(many);
        assertThat(FrameFile.reader(file).limit(4097).read()).isEqualTo(many.head(4097));
        assertThatThrownBy(() -> mere.limit(-1)).hasMessage("-1 rows are none; ask for 0 or more");
        assertThatThrownBy(() -> mere.select("lott")).hasMessage("no column \"lott\"; nearest: lot, age, cold weight");
        // what stands behind the last row that is asked for isn't looked at
        Files.writeString(file, Files.readString(file) + "Mere,x,1\n");
        assertThat(mere.limit(5).read().rows()).isEqualTo(5);
        assertThatThrownBy(mere::read)
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(file + " line 9002, cold weight, kg: \"x\" is not a plain number such as 342.5");
    }

    @Test
    void aDayThatIsNoneIsNamed() throws IOException {
        Path file = file("kill date\n2026-11-03\n3.11.2026\n2026-02-30\n");
        assertThatThrownBy(() ->
                        FrameFile.read(file, List.of(Column.text("kill date").of(Column.Type.DATE))))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(file + " line 3, kill date: \"3.11.2026\" is no day such as 2026-11-03\n" + file
                        + " line 4, kill date: \"2026-02-30\" is no day such as 2026-11-03");
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
        assertThat(FrameFile.read(folder.resolve("cuts.csv"))).isEqualTo(cuts);
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
