package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What spreadsheets make of a table's files is the same table, or is refused in words that say what happened. */
class SpreadsheetFilesTest {
    private static final String DESCRIPTOR = "datapackage.json";
    private static final String STRICT = "\"name\": \"strict\",\n            \"type\": \"boolean\"";

    @TempDir
    Path temporary;

    private PackageCopy hall;

    @BeforeEach
    void copyTheShippedPackage() {
        hall = new PackageCopy(temporary);
    }

    @ParameterizedTest
    @ValueSource(strings = {"commas", "semicolons"})
    void everyFileSavedByASpreadsheetIsTheSameTable(String kind) throws IOException {
        int files = 0;
        for (String name : PackageCopy.FILES) {
            try (InputStream in = getClass().getResourceAsStream("spreadsheets/" + kind + "/" + name)) {
                if (in != null) {
                    byte[] saved = in.readAllBytes();
                    assertThat(saved).as(name).isNotEqualTo(hall.text(name).getBytes(UTF_8));
                    hall.write(name, saved);
                    files++;
                }
            }
        }

        YieldTable read = hall.read();
        assertThat(read.digest()).isEqualTo(ShippedTables.boneless2026().digest());
        assertThat(read.definition()).isEqualTo(ShippedTables.boneless2026().definition());
        assertThat(files).isGreaterThanOrEqualTo(PackageCopy.FILES.size() - 2);
    }

    // booleans

    @Test
    void everyBooleanOfTheStandardIsRead() {
        for (String yes : List.of("true", "True", "TRUE", "1", "\"TRUE\"")) {
            hall.write(
                    "expectations.csv",
                    PackageCopyText.shipped("expectations.csv").replace(",true,", "," + yes + ","));
            assertThat(hall.read()).as(yes).isEqualTo(ShippedTables.boneless2026());
        }
        String strict = PackageCopyText.shipped("expectations.csv");
        hall.write("expectations.csv", strict.replaceFirst(",true,", ",false,"));
        YieldTable loose = hall.read();
        assertThat(loose).isNotEqualTo(ShippedTables.boneless2026());
        for (String no : List.of("False", "FALSE", "0")) {
            hall.write("expectations.csv", strict.replaceFirst(",true,", "," + no + ","));
            assertThat(hall.read()).as(no).isEqualTo(loose);
        }
    }

    @Test
    void wordsForTrueAndFalseMayBeDeclaredAndThenCountAlone() {
        hall.replace(DESCRIPTOR, STRICT, STRICT + ", \"trueValues\": [\"ja\"], \"falseValues\": [\"nein\"]");
        hall.replaceAll("expectations.csv", ",true,", ",ja,");
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        hall.write("expectations.csv", hall.text("expectations.csv").replaceFirst(",ja,", ",TRUE,"));
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "expectations.csv",
                        2,
                        "strict",
                        "TRUE",
                        "\"TRUE\" is none of true false; other words are declared as \"trueValues\" and \"falseValues\""
                                + " of the field in datapackage.json"));
    }

    @Test
    void furtherBooleansAndNumbersAreCarriedInOneForm() {
        hall.replace(
                DESCRIPTOR,
                STRICT,
                "\"name\": \"checked\",\n            \"type\": \"boolean\"\n          },\n          {\n            \"name\":"
                        + " \"weighed_kg\",\n            \"type\": \"number\"\n          },\n          {\n            "
                        + STRICT);
        String plain = hall.text("expectations.csv").replace(",note\n", ",note,checked,weighed_kg\n");
        hall.write("expectations.csv", plain.replace(",\n", ",,true,12.50\n"));
        YieldTable table = hall.read();
        assertThat(table.definition().extraColumns().get(0).values()).contains("true");
        assertThat(table.definition().extraColumns().get(1).values()).contains("12.5");

        hall.write("expectations.csv", plain.replace(",\n", ",,TRUE,1.25E+01\n"));
        assertThat(hall.read()).isEqualTo(table);
    }

    // numbers

    @Test
    void numbersThatASpreadsheetWritesOtherwiseAreTheSame() {
        hall.replace(
                "breakdown.csv",
                "carcass,meat,693.119,11.7292,-9.5424,0,",
                "carcass,meat,6.93119E+02,11.72920,-9.5424,0.0,");
        hall.replace("quartering.csv", "flank,0.15,", "flank,1.5E-01,");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void trailingZerosThatAreDroppedDontChangeDeclaredDecimals() {
        hall.replaceAll("breakdown.csv", ",693.119,", ",693.1190,");
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void anExponentHasTheDecimalsThatTheNumberHasWithoutIt() {
        hall.write(DESCRIPTOR, hall.text(DESCRIPTOR).replaceFirst("\"decimals\": \\{[^}]*}", "\"decimals\": {}"));
        int before = hall.read().definition().decimals().get("per_conformation_point");
        hall.replace("breakdown.csv", "carcass,meat,693.119,11.7292,", "carcass,meat,693.119,1.17292E+01,");

        assertThat(before).isEqualTo(4);
        assertThat(hall.read().definition().decimals()).containsEntry("per_conformation_point", before);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            693,119      | ; a table has decimal points: save the file with them, or declare "decimalChar": "," of the field in datapackage.json
            06. Dez      | ; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and open the file with this column as text
            12-Jun       | ; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and open the file with this column as text
            2026-06-12   | ; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and open the file with this column as text
            12.06.2026   | ; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and open the file with this column as text
            6/12         | ; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and open the file with this column as text
            1.693,119    | ; leave out what separates thousands
            1 693.119    | ; leave out what separates thousands
            #NAME?       | ; a spreadsheet writes this where it can't show a number: widen the column or mend the formula, and save again
            #####        | ; a spreadsheet writes this where it can't show a number: widen the column or mend the formula, and save again
            69.3%        | ; leave out the sign
            NA           | ; where nothing is known the cell is empty, or its word is declared under "missingValues" of the schema in datapackage.json
            about 700 kg | ''
            """)
    void whatCantBeRecoveredIsRefusedWithWhatHappened(String cell, String hint) {
        long line = hall.replace("breakdown.csv", "carcass,meat,693.119,", "carcass,meat,\"" + cell + "\",");

        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "breakdown.csv",
                        line,
                        "level_g_per_kg",
                        cell,
                        "\"" + cell + "\" is not a plain number such as 342.5" + hint));
    }

    // rows and columns

    @Test
    void emptyCellsBehindTheLastAndRowsOfSeparatorsAloneDontCount() {
        hall.write("specifications.csv", hall.text("specifications.csv").replace("\n", ",,\n") + ",,,,\n,,,,\n\n");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void aCellBehindTheLastColumnIsACellTooMany() {
        long line = hall.replace("specifications.csv", "steaks,topside,joints", "steaks,topside,joints,,x");

        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "specifications.csv",
                        line,
                        "",
                        "steaks,topside,joints,,x",
                        "the row has 5 cells but the header has 3; a text or number that holds \",\" belongs in double"
                                + " quotes"));
    }

    @Test
    void rowsEndBeforeCellsThatMayBeEmptyAndBeforeNoOthers() {
        hall.replaceAll("cuts.csv", ",,,,,\n", "\n");
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        long line = hall.replace("specifications.csv", "steaks,topside,joints", "steaks,topside");
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "specifications.csv",
                        line,
                        "",
                        "steaks,topside",
                        "the row has 2 cells but the header has 3; an empty cell keeps its \",\""));
    }

    @Test
    void separatorAndCharsetOfASpreadsheetAreToldWhereTheyAreDeclared() {
        hall.replaceAll("quartering.csv", ",", ";");
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "quartering.csv",
                        1,
                        "",
                        "quartering;cut;fore_share;source",
                        "the line is a single cell that holds \";\", but the declared separator is \",\"; declare the"
                                + " one that the whole file uses as \"delimiter\" under \"dialect\" of the resource in"
                                + " datapackage.json, or save the file with \",\""));

        hall.replaceAll("quartering.csv", ";", ",");
        String sources = hall.text("sources.csv");
        hall.write("sources.csv", sources.getBytes(Charset.forName("windows-1252")));
        assertThat(hall.problems())
                .hasSize(2)
                .allSatisfy(problem -> assertThat(problem.message())
                        .isEqualTo("the line is not valid UTF-8; save the file as UTF-8, or declare its \"encoding\" in"
                                + " datapackage.json"));
    }

    /** A shipped file as it is. */
    private static final class PackageCopyText {
        static String shipped(String file) {
            return new String(PackageCopy.shipped().get(file), UTF_8);
        }
    }
}
