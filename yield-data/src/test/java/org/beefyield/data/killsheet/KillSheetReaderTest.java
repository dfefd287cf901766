package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;
import static org.assertj.core.api.Assertions.tuple;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.DressingCorrection;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class KillSheetReaderTest {
    private static final String HEADER = "carcass,category,conformation,fat_class,cold_weight_kg";
    private static final String GOOD = "TM-1,C,R=,3+,342.0";

    @TempDir
    Path folder;

    // what a good sheet gives

    @Test
    void theSmallestSheetGivesACarcass() {
        KillSheet sheet = read(HEADER, GOOD);
        assertThat(sheet.carcasses())
                .containsExactly(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3+"), 342)
                        .withId("TM-1"));
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.notes()).isEmpty();
        assertThat(sheet).hasToString("sheet.csv: 1 row, 1 used, 0 condemned, 0 refused, 0 notes");
        KillSheetEntry entry = sheet.entries().get(0);
        assertThat(entry.line()).isEqualTo(2);
        assertThat(entry.dressedColdWeightKg()).isEqualTo(342);
        assertThat(entry.killDate()).isEmpty();
        assertThat(entry.hotWeightKg()).isEmpty();
        assertThat(entry.carcass().assured()).isEmpty();
        assertThat(entry.dressing()).isEmpty();
        assertThat(entry.leftKg()).isEmpty();
        assertThat(entry.rightKg()).isEmpty();
        assertThat(entry.trimmedKg()).isEmpty();
        assertThat(entry.otherColumns()).isEmpty();
    }

    @Test
    void everyColumnArrives() {
        KillSheet sheet = read(
                "status,trimmed_kg,right_kg,left_kg,dressing,assured,hall,kill_date,supplier,lot,age_months,hot_weight_kg,"
                        + "cold_weight_kg,fat_class,conformation,category,carcass",
                "Passed,1.5,170.2,171.8,kidneys-left-on  tail-left-on,YES, Mere side ,2026-11-03,Upper Tarrow, L1 ,21,349.0,342.0,3+,r +,"
                        + "c,TM-1");
        assertThat(sheet.problems()).isEmpty();
        KillSheetEntry entry = sheet.entries().get(0);
        // Commission Implementing Regulation (EU) 2017/1184, Annex: kidneys 0.4 % and tail 0.4 % come off
        assertThat(entry.carcass())
                .isEqualTo(Carcass.of(Category.STEER, Conformation.parse("R+"), FatClass.parse("3+"), 342 * 0.992)
                        .withId("TM-1")
                        .withLot("L1")
                        .withSupplier("Upper Tarrow")
                        .withKillDate("2026-11-03")
                        .withHall("Mere side")
                        .withAgeMonths(21)
                        .withAssured(true));
        assertThat(entry.dressedColdWeightKg()).isEqualTo(342);
        assertThat(entry.hotWeightKg()).hasValue(349);
        assertThat(entry.killDate()).contains(LocalDate.of(2026, 11, 3));
        assertThat(entry.dressing())
                .containsExactlyInAnyOrder(DressingCorrection.KIDNEYS_LEFT_ON, DressingCorrection.TAIL_LEFT_ON);
        assertThat(entry.leftKg()).hasValue(171.8);
        assertThat(entry.rightKg()).hasValue(170.2);
        assertThat(entry.trimmedKg()).hasValue(1.5);
    }

    @Test
    void otherColumnsAreCarriedAsTheyStandInTheirOrder() {
        KillSheet sheet = read("pen," + HEADER + ",remark,breed", " 7 ," + GOOD + ",\"hide, torn\",");
        assertThat(sheet.entries().get(0).otherColumns())
                .containsExactly(entry("pen", " 7 "), entry("remark", "hide, torn"), entry("breed", ""));
    }

    @Test
    void theColdWeightIsTwoPerCentBelowTheHotWhereOnlyThatIsGiven() {
        // Commission Delegated Regulation (EU) 2017/1182, Art. 14(3)
        KillSheetEntry entry = read("carcass,category,conformation,fat_class,hot_weight_kg", "TM-1,C,R=,3+,350")
                .entries()
                .get(0);
        assertThat(entry.carcass().coldWeightKg()).isEqualTo(343);
        assertThat(entry.dressedColdWeightKg()).isEqualTo(343);
        assertThat(entry.hotWeightKg()).isEqualTo(OptionalDouble.of(350));
    }

    @ParameterizedTest
    @CsvSource({"350,332.5", "350,350", "350,343"})
    void withBothWeightsTheColdOneCountsAndANoteSaysSo(String hot, String cold) {
        KillSheet sheet = read(HEADER + ",hot_weight_kg", "TM-1,C,R=,3+," + cold + "," + hot);
        assertThat(sheet.carcasses().get(0).coldWeightKg()).isEqualTo(Double.parseDouble(cold));
        assertThat(sheet.notes())
                .containsExactly(new Problem(
                        "sheet.csv",
                        2,
                        "cold_weight_kg",
                        cold,
                        "carcass TM-1: cold weight " + cold + " kg counts, hot weight " + hot + " kg is given too"));
    }

    @Test
    void gradesAndPointsMayTakeTurnsInOneSheet() {
        KillSheet sheet = read(
                "carcass,category,conformation,conformation_points,fat_class,fat_points,cold_weight_kg",
                "TM-1,C,R=,,,7.4,342",
                "TM-2,E,,8.2,4L,,300");
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.carcasses())
                .extracting(Carcass::conformation)
                .containsExactly(Conformation.parse("R="), Conformation.ofPosition(8.2, 1));
        assertThat(sheet.carcasses())
                .extracting(Carcass::fatClass)
                .containsExactly(FatClass.ofPosition(7.4, 1), FatClass.parse("4L"));
    }

    @Test
    void theWidthOfPointsIsDeclared() {
        KillSheetFormat format =
                KillSheetFormat.standard().withConformationPointsWidth(0.5).withFatPointsWidth(0.1);
        Carcass carcass = read(
                        format, "carcass,category,conformation_points,fat_points,cold_weight_kg", "TM-1,C,8.2,7.4,342")
                .carcasses()
                .get(0);
        assertThat(carcass.conformation().width()).isEqualTo(0.5);
        assertThat(carcass.fatClass().width()).isEqualTo(0.1);
    }

    @Test
    void anotherPlantsSheetReadsWellOnceDeclared() throws IOException {
        Path file = folder.resolve("schlachtliste.csv");
        Files.write(
                file,
                ("Nr;Kat;Handel;Fett;Kalt kg;Hinweis\r\nTM-1;C;-U;4H;342,5;Z\u00fcchter\r\nTM-2;A;U+;2;401;\r\n")
                        .getBytes(Charset.forName("windows-1252")));
        KillSheetFormat format = KillSheetFormat.of(CsvForm.builder()
                        .separator(';')
                        .decimalComma()
                        .charset(Charset.forName("windows-1252"))
                        .columns(Map.of(
                                "Nr", "carcass", "Kat", "category", "Handel", "conformation", "Fett", "fat_class"))
                        .column("Kalt kg", "cold_weight_kg")
                        .build())
                .withConformationReading(GradeReading.HALVES);
        KillSheet sheet = KillSheetReader.read(Source.of(file), format);
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.carcasses())
                .containsExactly(
                        Carcass.of(
                                        Category.STEER,
                                        Conformation.parse("-U", GradeReading.HALVES),
                                        FatClass.parse("4H"),
                                        342.5)
                                .withId("TM-1"),
                        Carcass.of(
                                        Category.YOUNG_BULL,
                                        Conformation.parse("U+", GradeReading.HALVES),
                                        FatClass.parse("2"),
                                        401)
                                .withId("TM-2"));
        assertThat(sheet.entries().get(0).otherColumns()).containsExactly(entry("Hinweis", "Z\u00fcchter"));
    }

    @Test
    void aProblemNamesTheColumnAsTheSheetDoes() {
        KillSheetFormat format =
                KillSheetFormat.of(CsvForm.builder().column("fat", "fat_class").build());
        assertThat(read(format, "carcass,category,conformation,fat,cold_weight_kg", "TM-1,C,R=,6,342")
                        .problems())
                .extracting(Problem::toString)
                .containsExactly(
                        "sheet.csv line 2, fat: fat class 6 is outside 1 to 5; a position on the 15-point scale"
                                + " belongs in fat_points, in code in FatClass.ofPosition");
    }

    @Test
    void condemnedCarcassesAreCountedApartAndNeedNeitherGradeNorWeight() {
        KillSheet sheet = read(
                HEADER + ",lot,supplier,kill_date,status,reason",
                GOOD + ",L1,Upper Tarrow,2026-11-03,passed,",
                "TM-2,,,,,L1,Upper Tarrow,2026-11-03,condemned,fever",
                "TM-3,C,,,0.0,,,,Condemned,");
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(3, 1, 2, 0));
        KillSheet.Condemned second = sheet.condemned().get(0);
        assertThat(second.line()).isEqualTo(3);
        assertThat(second.id()).isEqualTo("TM-2");
        assertThat(second.killDate()).contains(LocalDate.of(2026, 11, 3));
        assertThat(second.lot()).contains("L1");
        assertThat(second.supplier()).contains("Upper Tarrow");
        assertThat(second.cells()).hasSize(10).containsEntry("reason", "fever");
        KillSheet.Condemned third = sheet.condemned().get(1);
        assertThat(third.lot()).isEqualTo(Optional.empty());
        assertThat(third.supplier()).isEmpty();
        assertThat(third.cells()).containsEntry("cold_weight_kg", "0.0");
    }

    @Test
    void aCondemnedCarcassNeedsItsIdAndAValidDate() {
        assertThat(problems(HEADER + ",kill_date,status", ",,,,,3.11.2026,condemned"))
                .containsExactly(
                        "sheet.csv line 2, carcass: no carcass id is given; every row needs one",
                        "sheet.csv line 2, kill_date: \"3.11.2026\" is not a date such as 2026-11-03 (year-month-day)");
    }

    @Test
    void sidesThatDifferFromTheWholeByMoreThanTwoPerCentAreNoted() {
        KillSheet sheet = read(
                HEADER + ",left_kg,right_kg",
                "TM-1,C,R=,3+,300,155,151",
                "TM-2,C,R=,3+,300,155,151.1",
                "TM-3,C,R=,3+,300,148,145.9",
                "TM-4,C,R=,3+,300,120,");
        assertThat(sheet.entries()).hasSize(4);
        assertThat(sheet.notes())
                .extracting(Problem::toString)
                .containsExactly(
                        "sheet.csv line 3, left_kg: carcass TM-2: left side 155 kg and right side 151.1 kg together differ from the weight"
                                + " 300 kg by more than 2 %",
                        "sheet.csv line 4, left_kg: carcass TM-3: left side 148 kg and right side 145.9 kg together differ from the weight"
                                + " 300 kg by more than 2 %");
    }

    @Test
    void theSidesOfASheetWithHotWeightsAreComparedWithThose() {
        String header = "carcass,category,conformation,fat_class,hot_weight_kg,left_kg,right_kg";
        assertThat(read(header, "TM-1,C,R=,3+,300,150,155").notes()).isEmpty();
        assertThat(read(header, "TM-1,C,R=,3+,300,150,143").notes())
                .extracting(Problem::message)
                .containsExactly(
                        "carcass TM-1: left side 150 kg and right side 143 kg together differ from the weight 300 kg by more"
                                + " than 2 %");
    }

    // what a bad file gives

    @Test
    void anEmptyFileIsRefused() {
        assertThatThrownBy(() -> read(""))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("sheet.csv: the file is empty; a header with the names of the columns is needed");
    }

    @Test
    void onlyAHeaderIsAProblemOfTheWholeFile() {
        KillSheet sheet = read(HEADER);
        assertThat(sheet.entries()).isEmpty();
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(0, 0, 0, 0));
        assertThat(sheet.problems())
                .containsExactly(new Problem(
                        "sheet.csv", 0, "", "", "the sheet has a header but no row; a row for each carcass is needed"));
    }

    @Test
    void everyMissingColumnIsNamedAtOnce() {
        assertThatThrownBy(() -> read("category,lot,age_months", "C,L1,20"))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "sheet.csv, carcass: column carcass is missing; the header has category, lot, age_months; if it goes by another name, declare that: CsvForm.builder().column(theirs, ours), --columns theirs=ours\n"
                                + "sheet.csv, conformation: column conformation or conformation_points is missing; the header has"
                                + " category, lot, age_months\n"
                                + "sheet.csv, fat_class: column fat_class or fat_points is missing; the header has category, lot,"
                                + " age_months\n"
                                + "sheet.csv, cold_weight_kg: column cold_weight_kg or hot_weight_kg is missing; the header has"
                                + " category, lot, age_months");
    }

    @Test
    void aMissingColumnIsNamedAsDeclared() {
        KillSheetFormat format = KillSheetFormat.of(CsvForm.builder()
                .column("warm", "hot_weight_kg")
                .column("cat", "category")
                .build());
        assertThatThrownBy(() -> read(format, "carcass,kind,conformation,fat_class", "TM-1,C,R,3"))
                .hasMessage("sheet.csv, cat: column cat is missing; the header has carcass, kind, conformation,"
                        + " fat_class; if it goes by another name, declare that: CsvForm.builder().column(theirs, ours), --columns theirs=ours\n"
                        + "sheet.csv, cold_weight_kg: column cold_weight_kg or warm is missing; the header has carcass,"
                        + " kind, conformation, fat_class");
    }

    @Test
    void aSheetWithoutTheDeclaredNameMayHaveOurs() {
        KillSheetFormat format =
                KillSheetFormat.of(CsvForm.builder().column("cat", "category").build());
        assertThat(read(format, HEADER, GOOD).carcasses())
                .extracting(Carcass::category)
                .containsExactly(Category.STEER);
    }

    @Test
    void semicolonsThatAreNotDeclaredAreNamed() {
        assertThatThrownBy(() -> read(HEADER.replace(',', ';'), "TM-1;C;R=;3+;342,5"))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "sheet.csv line 1: the line is a single cell that holds \";\", but the declared separator is"
                                + " \",\"; declare the one that the whole file uses");
    }

    @Test
    void aFileThatIsNotThereIsRefused() {
        Path file = folder.resolve("none.csv");
        assertThatThrownBy(() -> KillSheetReader.read(file))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(file + ": the file can't be read: there is no such file");
    }

    @Test
    void aFolderIsNoKillSheet() {
        assertThatThrownBy(() -> KillSheetReader.read(folder))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageStartingWith(folder + ": the file can't be read: ");
    }

    @Test
    void aSourceThatBreaksOffIsRefusedAfterTheRowsBefore() throws IOException {
        List<KillSheetEntry> before = new ArrayList<>();
        InputStream source =
                new FilterInputStream(source(HEADER + "\n" + GOOD + "\nTM-2,C").open()) {
                    @Override
                    public int read(byte[] target, int offset, int length) throws IOException {
                        int count = super.read(target, offset, length);
                        if (count < 0) {
                            throw new IOException("the line went dead");
                        }
                        return count;
                    }
                };
        assertThatThrownBy(() -> KillSheetReader.read(
                        Source.of("sheet.csv", source), KillSheetFormat.standard(), handler(before, new ArrayList<>())))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("sheet.csv: the file can't be read: the line went dead");
        assertThat(before).hasSize(1);
    }

    // what a bad row gives

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            category       | X      | category "X" is none of C A B D E Z
            conformation   | X      | conformation "X" is none of S E U R O P
            conformation   | 8      | conformation "8" is none of S E U R O P; a position on the 18-point scale belongs in conformation_points, in code in Conformation.ofPosition
            conformation   | R++    | conformation "R++" has more than one sign
            conformation   | -U     | conformation "-U" has its sign in front, which only the halves reading allows; valid under thirds: U- U= U+
            fat_class      | 0      | fat class 0 is outside 1 to 5
            fat_class      | 6      | fat class 6 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition
            fat_class      | 8      | fat class 8 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition
            fat_class      | 3L     | fat class "3L" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H
            cold_weight_kg | 0      | cold weight 0 kg is not above 0 and at most 1200 kg
            cold_weight_kg | -3     | cold weight -3 kg is not above 0 and at most 1200 kg
            cold_weight_kg | 3400   | cold weight 3400 kg is not above 0 and at most 1200 kg
            cold_weight_kg | NaN    | "NaN" is not a plain number such as 342.5
            cold_weight_kg | 1e2    | "1e2" is not a plain number such as 342.5
            cold_weight_kg | 342,5  | "342,5" is not a plain number such as 342.5; if its comma is a decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma
            hot_weight_kg  | 1201   | hot weight 1201 kg is not above 0 and at most 1200 kg
            hot_weight_kg  | 341    | hot weight 341 kg is below cold weight 342 kg; cold / hot must lie in 0.95 to 1
            age_months     | 9      | age 9 months does not fit category C (castrated male of 12 months and over)
            age_months     | 20.5   | "20.5" is not a whole number of months such as 21
            kill_date      | 2026-02-30 | "2026-02-30" is not a date such as 2026-11-03 (year-month-day)
            kill_date      | 03/11/2026 | "03/11/2026" is not a date such as 2026-11-03 (year-month-day)
            assured        | maybe  | "maybe" is neither yes nor no
            status         | dead   | "dead" is neither condemned nor passed
            left_kg        | 0      | left side 0 kg is not above 0 and at most 1200 kg
            right_kg       | x      | "x" is not a plain number such as 342.5
            trimmed_kg     | -0.5   | trimmed weight -0.5 kg is outside 0 to 1200 kg
            trimmed_kg     | 1200.1 | trimmed weight 1200.1 kg is outside 0 to 1200 kg
            """)
    void aBadCellIsNamedWithWhatIsValid(String column, String value, String message) {
        String optional = ",hot_weight_kg,age_months,kill_date,assured,status,left_kg,right_kg,trimmed_kg";
        List<String> columns = List.of((HEADER + optional).split(","));
        List<String> cells = new ArrayList<>(List.of("TM-1", "C", "R=", "3+", "342", "", "", "", "", "", "", "", ""));
        cells.set(columns.indexOf(column), '"' + value + '"');
        KillSheet sheet = read(HEADER + optional, String.join(",", cells), GOOD.replace("-1", "-2") + ",,,,,,,,");
        assertThat(sheet.problems()).containsExactly(new Problem("sheet.csv", 2, column, value, message));
        assertThat(sheet.carcasses()).extracting(Carcass::id).containsExactly(Optional.of("TM-2"));
    }

    @Test
    void aColdWeightFarBelowTheHotIsRefused() {
        assertThat(problems(HEADER + ",hot_weight_kg", "TM-1,C,R=,3+,332.4,350"))
                .containsExactly(
                        "sheet.csv line 2, cold_weight_kg: cold weight 332.4 kg is less than 0.95 of hot weight"
                                + " 350 kg; cold / hot must lie in 0.95 to 1");
    }

    @Test
    void aDecimalCommaWithoutQuotesMakesTheRowTooLong() {
        assertThat(problems(HEADER, "TM-1,C,R=,3+,342,5"))
                .containsExactly(
                        "sheet.csv line 2: the row has 6 cells but the header has 5; a text or number that holds"
                                + " \",\" belongs in double quotes");
    }

    @Test
    void positionsOutsideTheirScaleAreRefused() {
        assertThat(problems("carcass,category,conformation_points,fat_points,cold_weight_kg", "TM-1,C,18.5,0.9,342"))
                .containsExactly(
                        "sheet.csv line 2, conformation_points: conformation position 18.5 is outside 1 to 18 points",
                        "sheet.csv line 2, fat_points: fat position 0.9 is outside 1 to 15 points");
    }

    @Test
    void aGradeAndItsPositionInOneRowAreRefused() {
        assertThat(problems(
                        "carcass,category,conformation,conformation_points,fat_class,fat_points,cold_weight_kg",
                        "TM-1,C,R=,8,3+,9,342"))
                .containsExactly(
                        "sheet.csv line 2, conformation: conformation \"R=\" and conformation_points \"8\" are both given; a"
                                + " row has one of them",
                        "sheet.csv line 2, fat_class: fat_class \"3+\" and fat_points \"9\" are both given; a row has one of"
                                + " them");
        assertThat(problems("carcass,category,conformation,fat_class,fat_points,cold_weight_kg", "TM-1,C,R=,7,99,342"))
                .containsExactly(
                        "sheet.csv line 2, fat_class: fat_class \"7\" and fat_points \"99\" are both given; a row"
                                + " has one of them");
    }

    @Test
    void whatARowNeedsAndLacksIsNamed() {
        assertThat(problems(HEADER + ",lot", ",,,,,L1"))
                .containsExactly(
                        "sheet.csv line 2, carcass: no carcass id is given; every row needs one",
                        "sheet.csv line 2, category: no category is given; every row needs one of C A B D E Z",
                        "sheet.csv line 2, conformation: no conformation is given; every row needs conformation",
                        "sheet.csv line 2, fat_class: no fat class is given; every row needs fat_class",
                        "sheet.csv line 2, cold_weight_kg: no weight is given; every row needs cold_weight_kg");
        assertThat(problems(
                        "carcass,category,conformation,conformation_points,fat_points,cold_weight_kg,hot_weight_kg",
                        "TM-1,C,,,,,"))
                .containsExactly(
                        "sheet.csv line 2, conformation: no conformation is given; every row needs conformation or"
                                + " conformation_points",
                        "sheet.csv line 2, fat_points: no fat class is given; every row needs fat_points",
                        "sheet.csv line 2, cold_weight_kg: no weight is given; every row needs cold_weight_kg or"
                                + " hot_weight_kg");
    }

    @Test
    void aRowOfBlankCellsIsOneProblem() {
        assertThat(problems(HEADER, GOOD, ",, ,,"))
                .containsExactly(
                        "sheet.csv line 3: every cell of the row is blank; a row needs a carcass, or has to go");
    }

    @Test
    void everyProblemOfARowIsReported() {
        assertThat(problems(HEADER + ",assured", "TM-1,X,R++,6,0,perhaps"))
                .containsExactly(
                        "sheet.csv line 2, category: category \"X\" is none of C A B D E Z",
                        "sheet.csv line 2, conformation: conformation \"R++\" has more than one sign",
                        "sheet.csv line 2, fat_class: fat class 6 is outside 1 to 5; a position on the 15-point scale"
                                + " belongs in fat_points, in code in FatClass.ofPosition",
                        "sheet.csv line 2, cold_weight_kg: cold weight 0 kg is not above 0 and at most 1200 kg",
                        "sheet.csv line 2, assured: \"perhaps\" is neither yes nor no");
    }

    @Test
    void dressingCodesThatAreUnknownOrGivenTwiceAreRefused() {
        assertThat(problems(HEADER + ",dressing", GOOD + ",tail-left-on horns-left-on tail-left-on"))
                .containsExactly(
                        "sheet.csv line 2, dressing: dressing \"horns-left-on\" is none of kidneys-left-on"
                                + " kidney-fat-left-on pelvic-fat-left-on liver-left-on thin-skirt-left-on"
                                + " thick-skirt-left-on tail-left-on spinal-cord-left-on mammary-fat-left-on"
                                + " testicles-left-on cod-fat-left-on topside-inside-fat-left-on jugular-vein-left-on"
                                + " external-fat-removed brisket-fat-removed flank-fat-removed",
                        "sheet.csv line 2, dressing: dressing \"tail-left-on\" is given twice; once is enough");
    }

    @Test
    void aWeightThatTheDressingCorrectionLiftsOverTheLimitIsRefused() {
        assertThat(problems(HEADER + ",dressing", "TM-1,B,R=,5,1200,external-fat-removed"))
                .containsExactly("sheet.csv line 2, dressing: brought to the reference dressing, cold weight 1248 kg is"
                        + " not above 0 and at most 1200 kg");
    }

    @Test
    void theSecondOfTwoEqualCarcassesIsRefusedWithTheLineOfTheFirst() {
        KillSheet sheet = read(
                HEADER + ",lot,kill_date",
                GOOD + ",L1,2026-11-03",
                GOOD + ",L2,2026-11-03",
                GOOD + ",L1,2026-11-04",
                GOOD + ",L1 ,2026-11-03");
        assertThat(sheet.entries()).extracting(KillSheetEntry::line).containsExactly(2L, 3L, 4L);
        assertThat(sheet.problems())
                .containsExactly(
                        new Problem(
                                "sheet.csv",
                                5,
                                "carcass",
                                "TM-1",
                                "carcass \"TM-1\" of the same kill date and lot stands in line 2 already; each has one row; if each side has one, declare that: KillSheetFormat.withRowASide(), --row-a-side"));
    }

    @Test
    void aCarcassIsADuplicateAlsoOfARefusedOrCondemnedOne() {
        assertThat(read(HEADER + ",status", "TM-1,C,R=,6,342,", GOOD + ",", "TM-2,,,,,condemned", "TM-2,,,,,condemned")
                        .problems())
                .extracting(Problem::line, Problem::column)
                .containsExactly(tuple(2L, "fat_class"), tuple(3L, "carcass"), tuple(5L, "carcass"));
    }

    @Test
    void aBadRowStopsNoOtherAndNoneVanishes() {
        KillSheet sheet = read(
                HEADER + ",status",
                GOOD + ",",
                "TM-2,C,R=,3+,\"342,passed",
                "TM-3,C,R=,3+,342,passed,,",
                "TM-4,C",
                "",
                "TM-5,C,R=,9,342,",
                "TM-6,,,,,condemned",
                "TM-7,E,O+,3=,288.5,passed");
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(7, 2, 1, 4));
        assertThat(sheet.entries()).extracting(KillSheetEntry::line).containsExactly(2L, 9L);
        assertThat(sheet.condemned()).extracting(KillSheet.Condemned::line).containsExactly(8L);
        assertThat(sheet.problems()).extracting(Problem::line).containsExactly(3L, 4L, 5L, 7L);
        assertThat(sheet).hasToString("sheet.csv: 7 rows, 2 used, 1 condemned, 4 refused, 0 notes");
    }

    @Test
    void byteOrderMarkAndCrLfAreAccepted() throws IOException {
        Path file = folder.resolve("sheet.csv");
        Files.writeString(file, "\uFEFF" + HEADER + "\r\n" + GOOD + "\r\n");
        KillSheet sheet = KillSheetReader.read(file);
        assertThat(sheet.file()).isEqualTo(file.toString());
        assertThat(sheet.carcasses()).hasSize(1);
        assertThat(sheet.problems()).isEmpty();
    }

    // how much

    @Test
    void whatWasTrimmedIsFromNothingToTheHeaviestCarcass() {
        assertThat(read(HEADER + ",trimmed_kg", GOOD + ",0", "TM-2,C,R=,3+,342,1200")
                        .entries())
                .extracting(KillSheetEntry::trimmedKg)
                .containsExactly(OptionalDouble.of(0), OptionalDouble.of(1200));
    }

    @Test
    void aLongCellSpoilsItsRowOnly() {
        String longest = "r".repeat(1000);
        KillSheet sheet =
                read(HEADER + ",remark", GOOD + ",r" + longest, "TM-2,C,R=,3+,342," + longest, "TM-3,C,R=,3+,342,");

        assertThat(sheet.problems())
                .containsExactly(new Problem(
                        "sheet.csv",
                        2,
                        "remark",
                        "r".repeat(200) + "...",
                        "the cell has 1001 characters; at most 1000 are read"));
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(3, 2, 0, 1));
    }

    @Test
    void aSheetOfProblemsIsNotKeptWhole() {
        String most = HEADER + "\n" + ",,,,\n".repeat(100_000);

        assertThat(KillSheetReader.read(source(most), KillSheetFormat.standard())
                        .problems())
                .hasSize(100_000);
        assertThatThrownBy(() -> KillSheetReader.read(source(most + ",,,,\n"), KillSheetFormat.standard()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("sheet.csv line 100002: the sheet has more than 100000 problems; read it row by row, with a"
                        + " handler");
    }

    @Test
    void aSheetOfMoreCellsThanFitIsNotKeptWhole() {
        // 23 columns have a meaning, whether the sheet has them or not; a condemned carcass keeps all of its own as
        // well
        Source sheet = source(HEADER + ",status,pen,breed\n" + GOOD + ",,1,X\nTM-2,,,,,condemned,1,X\n");
        long cells = (23 + 2) + (23 + 8);
        KillSheetReader.Collector enough = new KillSheetReader.Collector("sheet.csv", cells);
        KillSheetReader.Collector tooFew = new KillSheetReader.Collector("sheet.csv", cells - 1);
        KillSheetReader.Collector none = new KillSheetReader.Collector("sheet.csv", 20);

        assertThat(KillSheetReader.read(sheet, KillSheetFormat.standard(), enough))
                .isEqualTo(new KillSheet.Counts(2, 1, 1, 0));
        assertThatThrownBy(() -> KillSheetReader.read(sheet, KillSheetFormat.standard(), tooFew))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("sheet.csv line 3: the sheet has more than 55 cells; read it row by row, with a handler");
        assertThatThrownBy(() -> KillSheetReader.read(sheet, KillSheetFormat.standard(), none))
                .hasMessage("sheet.csv line 2: the sheet has more than 20 cells; read it row by row, with a handler");
    }

    // row by row

    @Test
    void aHandlerGetsRowsProblemsAndCountsInTheOrderOfTheFile() {
        List<KillSheetEntry> entries = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        KillSheet.Counts counts = KillSheetReader.read(
                source(HEADER + "\n" + GOOD + "\nTM-2,C,R=,6,342\nTM-3,C,R=,3,342\n"),
                KillSheetFormat.standard(),
                handler(entries, problems));
        assertThat(counts).isEqualTo(new KillSheet.Counts(3, 2, 0, 1));
        assertThat(entries).extracting(KillSheetEntry::line).containsExactly(2L, 4L);
        assertThat(problems).extracting(Problem::line).containsExactly(3L);
    }

    @Test
    void whatAHandlerThrowsPassesThrough() {
        IllegalStateException full = new IllegalStateException("the disk is full");
        KillSheetHandler handler = new KillSheetHandler() {
            @Override
            public void entry(KillSheetEntry entry) {
                throw full;
            }

            @Override
            public void problem(Problem problem) {}
        };
        assertThatThrownBy(
                        () -> KillSheetReader.read(source(HEADER + "\n" + GOOD), KillSheetFormat.standard(), handler))
                .isSameAs(full);
    }

    private static KillSheetHandler handler(List<KillSheetEntry> entries, List<Problem> problems) {
        return new KillSheetHandler() {
            @Override
            public void entry(KillSheetEntry entry) {
                entries.add(entry);
            }

            @Override
            public void problem(Problem problem) {
                problems.add(problem);
            }
        };
    }

    private static List<String> problems(String... lines) {
        return read(lines).problems().stream().map(Problem::toString).toList();
    }

    private static KillSheet read(String... lines) {
        return read(KillSheetFormat.standard(), lines);
    }

    private static KillSheet read(KillSheetFormat format, String... lines) {
        return KillSheetReader.read(source(String.join("\n", lines)), format);
    }

    private static Source source(String text) {
        return Source.of("sheet.csv", text.getBytes(StandardCharsets.UTF_8));
    }
}
