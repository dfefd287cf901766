package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.CsvForm.DateForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class KillSheetNotesTest {
    private static final String HEADER = "carcass,category,conformation,fat_class,cold_weight_kg";
    private static final String DATED = HEADER + ",kill_date,lot";
    private static final KillSheetFormat SIDES = KillSheetFormat.standard().withRowASide();

    private static KillSheet read(KillSheetFormat format, String... lines) {
        return KillSheetReader.read(
                Source.of("sheet.csv", String.join("\n", lines).getBytes(StandardCharsets.UTF_8)), format);
    }

    private static List<String> notes(String... lines) {
        KillSheet sheet = read(KillSheetFormat.standard(), lines);
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.entries()).hasSize(lines.length - 1);
        return sheet.notes().stream().map(Problem::toString).toList();
    }

    private static List<String> problems(KillSheet sheet) {
        return sheet.problems().stream().map(Problem::toString).toList();
    }

    // odd rows

    @Test
    void theSameTagInAnotherLotOrOnAnotherDayIsNoted() {
        assertThat(notes(
                        DATED,
                        "TM-1,C,R=,3+,342,2026-11-03,L1",
                        "TM-1,C,R=,3+,342,2026-11-03,L2",
                        "TM-2,C,R=,3+,342,2026-11-03,L2",
                        "TM-1,C,R=,3+,342,2026-11-04,L1"))
                .containsExactly(
                        "sheet.csv line 3, carcass: carcass TM-1: stands in line 2 too, in another lot or on another day",
                        "sheet.csv line 5, carcass: carcass TM-1: stands in line 2 too, in another lot or on another day");
    }

    @Test
    void numbersThatStartAnewEachDayAreNotNotedForEver() {
        List<String> lines = new ArrayList<>(List.of(DATED));
        for (int day = 3; day <= 4; day++) {
            for (int number = 1; number <= 30; number++) {
                lines.add(number + ",C,R=,3+,342,2026-11-0" + day + ",L1");
            }
        }
        List<String> notes = notes(lines.toArray(String[]::new));
        assertThat(notes).hasSize(20);
        assertThat(notes.get(18)).endsWith("stands in line 20 too, in another lot or on another day");
        assertThat(notes.get(19))
                .isEqualTo(
                        "sheet.csv line 51, carcass: carcass 20: stands in line 21 too, in another lot or on another day;"
                                + " so did 19 above, and no more is said of it: these may be numbers that start anew");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.23E+11", "3,72E+11", "4E+11", "1.2e9"})
    void anIdThatASpreadsheetShortenedIsNoted(String id) {
        assertThat(notes(HEADER, "\"" + id + "\",C,R=,3+,342"))
                .containsExactly("sheet.csv line 2, carcass: carcass " + id + ": the id looks like a number that a"
                        + " spreadsheet has shortened; its last digits may be lost");
    }

    @Test
    void anIdThatLostItsLeadingDigitsIsNotedWhicheverComesFirst() {
        String tail = ",C,R=,3+,342";
        assertThat(notes(HEADER, "037100100101" + tail, "37100100118" + tail, "037100100125" + tail))
                .containsExactly(
                        "sheet.csv line 3, carcass: carcass 37100100118: the id has 11 digits, that of line 2 has"
                                + " 12; the shorter one may have lost its leading digits");
        assertThat(notes(HEADER, "37100100118" + tail, "037100100101" + tail))
                .containsExactly(
                        "sheet.csv line 3, carcass: carcass 037100100101: the id has 12 digits, that of line 2 has"
                                + " 11; the shorter one may have lost its leading digits");
    }

    @Test
    void killNumbersMayHaveAnyLength() {
        String tail = ",C,R=,3+,342";
        assertThat(notes(HEADER, "9" + tail, "10" + tail, "1234567" + tail, "3" + tail, "1E5" + tail, "TM-1" + tail))
                .isEmpty();
    }

    @Test
    void aDateBeforeTheOneAboveIsNoted() {
        assertThat(notes(
                        DATED,
                        "TM-1,C,R=,3+,342,2026-11-04,",
                        "TM-2,C,R=,3+,342,,",
                        "TM-3,C,R=,3+,342,2026-11-03,",
                        "TM-4,C,R=,3+,342,2026-11-03,"))
                .containsExactly(
                        "sheet.csv line 4, kill_date: carcass TM-3: kill date 2026-11-03 is before 2026-11-04, that"
                                + " of line 2 above it");
    }

    @Test
    void textInAnotherCharacterSetIsNotedWhereUtf8WasReadAsSomethingElse() {
        KillSheetFormat windows = KillSheetFormat.of(
                CsvForm.builder().charset(Charset.forName("windows-1252")).build());
        KillSheet sheet = read(
                windows,
                HEADER + ",supplier,pen",
                "TM-1,C,R=,3+,342,Z\u00fcchter \u20ac,\u00e1",
                "TM-2,C,R=,3+,342,Mere,");
        assertThat(sheet.notes())
                .containsExactly(
                        new Problem(
                                "sheet.csv",
                                2,
                                "supplier",
                                "Z\u00c3\u00bcchter \u00e2\u201a\u00ac",
                                "carcass TM-1: \"Z\u00c3\u00bcchter \u00e2\u201a\u00ac\" looks like text in another character set than"
                                        + " windows-1252; declare the one of the file, or mend it where it was saved"),
                        new Problem(
                                "sheet.csv",
                                2,
                                "pen",
                                "\u00c3\u00a1",
                                "carcass TM-1: \"\u00c3\u00a1\" looks like text in another character set than windows-1252;"
                                        + " declare the one of the file, or mend it where it was saved"));
    }

    @Test
    void aReplacementCharacterIsNotedAndLettersOfEuropeAreNot() {
        assertThat(notes(
                        HEADER + ",supplier",
                        "TM-1,C,R=,3+,342,Z\ufffdchter",
                        "TM-2,C,R=,3+,342,\u00c4rmel \u00c5ngstr\u00f6m S\u00c3O \u00c2ge \u00a9"))
                .containsExactly("sheet.csv line 2, supplier: carcass TM-1: \"Z\ufffdchter\" looks like text in another"
                        + " character set than UTF-8; declare the one of the file, or mend it where it was saved");
    }

    @Test
    void sidesFurtherApartThanDeclaredAreNoted() {
        KillSheet sheet = read(
                KillSheetFormat.standard().withSidesApart(0.025),
                HEADER + ",left_kg,right_kg",
                "TM-1,C,R=,3+,400,205,195",
                "TM-2,C,R=,3+,400,205.5,194.5");
        assertThat(sheet.notes())
                .extracting(Problem::toString)
                .containsExactly(
                        "sheet.csv line 3, left_kg: carcass TM-2: left side 205.5 kg and right side 194.5 kg differ by"
                                + " more than 2.5 % of the carcass");
    }

    // totals

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            684.2  | 684.2 is right to the decimal
            684    | as it is rounded
            """)
    void aTotalThatAddsUpIsSilent(String total, String why) {
        KillSheet sheet = read(
                KillSheetFormat.standard().withTotalsRow("Total"),
                HEADER + ",status",
                "TM-1,C,R=,3+,342.1,",
                "TM-2,C,R=,9,342.1,",
                "TM-3,C,,,90,condemned",
                "TOTAL,,,," + total + ",");
        assertThat(sheet.notes()).as(why).isEmpty();
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(3, 1, 1, 1));
    }

    @Test
    void aTotalThatDoesNotAddUpIsNoted() {
        KillSheet sheet = read(
                KillSheetFormat.standard().withTotalsRow("Total"),
                HEADER,
                "TM-1,C,R=,3+,342.1",
                "TM-2,C,R=,3+,x",
                "total,,,,684.2",
                "TM-3,C,R=,3+,300",
                "Total,,,,300.0",
                "Total,,,,642.1",
                "Total,,,,?");
        assertThat(sheet.notes())
                .extracting(Problem::toString)
                .containsExactly(
                        "sheet.csv line 4, cold_weight_kg: the total 684.2 kg is not the sum of the 2 rows above, 342.1 kg; 1"
                                + " of them can't be read",
                        "sheet.csv line 8, cold_weight_kg: the total ? is no number, so that nothing was checked");
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(3, 2, 0, 1));
    }

    @Test
    void withoutTheDeclarationATotalIsARowLikeAnyOther() {
        assertThat(problems(read(KillSheetFormat.standard(), HEADER, "TM-1,C,R=,3+,342", "Total,,,,342")))
                .first()
                .isEqualTo("sheet.csv line 3, category: no category is given; every row needs one of C A B D E Z");
    }

    // a row a side

    @Test
    void twoSidesAddUpWhereverTheyStand() {
        KillSheet sheet = read(
                SIDES,
                HEADER + ",hot_weight_kg,trimmed_kg,side,dressing",
                "TM-1,C,R=,3+,170,173,,left,tail-left-on",
                "TM-2,C,R=,3+,150,,,left,",
                "TM-2,C,R=,3+,151,,0.5,right,",
                "TM-1,C,R=,3+,172,175,1.5,right,tail-left-on");
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(2, 2, 0, 0));
        KillSheetEntry first = sheet.entries().get(1);
        assertThat(first.line()).isEqualTo(2);
        assertThat(first.dressedColdWeightKg()).isEqualTo(342);
        // the tail is 0.4 % of the weight
        assertThat(first.carcass().coldWeightKg()).isCloseTo(342 * 0.996, within(1e-9));
        assertThat(first.hotWeightKg()).isEqualTo(OptionalDouble.of(348));
        assertThat(first.trimmedKg()).hasValue(1.5);
        assertThat(first.otherColumns()).containsExactly(entry("side", "left; right"));
        KillSheetEntry second = sheet.entries().get(0);
        assertThat(second.carcass().coldWeightKg()).isEqualTo(301);
        assertThat(second.hotWeightKg()).isEmpty();
        assertThat(second.trimmedKg()).hasValue(0.5);
        assertThat(sheet.notes())
                .extracting(Problem::message)
                .containsExactly(
                        "carcass TM-1: cold weight 170 kg counts, hot weight 173 kg is given too",
                        "carcass TM-1: cold weight 172 kg counts, hot weight 175 kg is given too");
    }

    @Test
    void sidesThatDoNotAgreeAreBothRefused() {
        KillSheet sheet = read(
                SIDES,
                HEADER + ",age_months,hall,status",
                "TM-1,C,R=,3+,170,21,,",
                "TM-1,C,R+,3+,170,,Mereside,",
                "TM-2,C,R=,3+,170,21,,passed",
                "TM-2,C,R=,3+,170,21,,condemned");
        assertThat(problems(sheet))
                .containsExactly(
                        "sheet.csv line 2, carcass: the other side, in line 3, doesn't agree with this one",
                        "sheet.csv line 3, conformation: the other side, in line 2, has \"R=\", this one \"R+\"; the sides of a"
                                + " carcass agree",
                        "sheet.csv line 3, age_months: the other side, in line 2, has \"21\", this one nothing; the sides of a"
                                + " carcass agree",
                        "sheet.csv line 3, hall: the other side, in line 2, has nothing, this one \"Mereside\"; the sides of"
                                + " a carcass agree",
                        "sheet.csv line 4, carcass: the other side, in line 5, doesn't agree with this one",
                        "sheet.csv line 5, status: the other side, in line 4, has \"passed\", this one \"condemned\"; the sides"
                                + " of a carcass agree");
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(4, 0, 0, 4));
    }

    @Test
    void noSideIsTakenForACarcass() {
        KillSheet sheet = read(
                SIDES,
                HEADER,
                "TM-1,C,R=,3+,170",
                "TM-2,C,R=,9,170",
                "TM-2,C,R=,3+,170",
                "TM-3,C,R=,3+,170",
                "TM-3,C,R=,3+,x",
                "TM-4,C,R=,3+,170",
                "TM-4,C,R=,3+,170",
                "TM-4,C,R=,3+,170",
                ",C,R=,3+,170");
        assertThat(problems(sheet))
                .containsExactly(
                        "sheet.csv line 3, fat_class: fat class 9 is outside 1 to 5; a position on the 15-point scale belongs"
                                + " in fat_points, in code in FatClass.ofPosition",
                        "sheet.csv line 4, carcass: the other side, in line 3, is refused",
                        "sheet.csv line 5, carcass: the other side, in line 6, is refused",
                        "sheet.csv line 6, cold_weight_kg: \"x\" is not a plain number such as 342.5",
                        "sheet.csv line 9, carcass: carcass \"TM-4\" of the same kill date and lot has two rows already, the"
                                + " first in line 7; each side has one row",
                        "sheet.csv line 10, carcass: no carcass id is given; every row needs one",
                        "sheet.csv line 2, carcass: the other side is missing; each side has a row, so a carcass has two");
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(8, 1, 0, 7));
    }

    @Test
    void aCondemnedCarcassOfTwoSidesIsOne() {
        KillSheet sheet = read(
                SIDES,
                HEADER + ",status",
                "TM-1,,,,,condemned",
                "TM-1,,,,,condemned",
                "TM-2,C,R=,3+,601,",
                "TM-2,C,R=,3+,600,");
        assertThat(sheet.condemned()).hasSize(1);
        assertThat(problems(sheet))
                .containsExactly(
                        "sheet.csv line 4, cold_weight_kg: both sides together, cold weight 1201 kg is not above 0 and at most 1200 kg",
                        "sheet.csv line 5, cold_weight_kg: both sides together, cold weight 1201 kg is not above 0 and at most 1200 kg");
        assertThat(sheet.counts()).isEqualTo(new KillSheet.Counts(3, 0, 1, 2));
    }

    @Test
    void sidesOfTwoRowsThatAreFurtherApartThanDeclaredAreNoted() {
        KillSheet sheet = read(SIDES.withSidesApart(0.05), HEADER, "TM-1,C,R=,3+,190", "TM-1,C,R=,3+,160");
        assertThat(sheet.notes())
                .extracting(Problem::toString)
                .containsExactly(
                        "sheet.csv line 2, cold_weight_kg: carcass TM-1: sides of 190 kg and 160 kg in line 3 differ by"
                                + " more than 5 % of the carcass");
    }

    // forms

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            SLASHES | 3/11/2026   |
            SLASHES | 03/11/2026  |
            SLASHES | 3.11.2026   | "3.11.2026" is not a date such as 3/11/2026 (day/month/year)
            SLASHES | 11/31/2026  | "11/31/2026" is not a date such as 3/11/2026 (day/month/year)
            SLASHES | 2026-11-03  | "2026-11-03" is not a date such as 3/11/2026 (day/month/year)
            SLASHES | 3/11/26     | "3/11/26" is not a date such as 3/11/2026 (day/month/year)
            POINTS  | 03.11.2026  |
            POINTS  | 3.11/2026   | "3.11/2026" is not a date such as 3.11.2026 (day.month.year)
            POINTS  | 31.11.2026  | "31.11.2026" is not a date such as 3.11.2026 (day.month.year)
            """)
    void datesAreOfTheFormDeclared(DateForm form, String date, String message) {
        KillSheet sheet = read(
                KillSheetFormat.of(CsvForm.builder().dates(form).build()), DATED, "TM-1,C,R=,3+,342," + date + ",");
        if (message == null) {
            assertThat(sheet.entries().get(0).killDate()).contains(LocalDate.of(2026, 11, 3));
            assertThat(sheet.carcasses().get(0).killDate()).contains("2026-11-03");
        } else {
            assertThat(sheet.problems()).extracting(Problem::message).containsExactly(message);
        }
    }

    @Test
    void oneDayWrittenInTwoWaysIsOneDay() {
        KillSheet sheet = read(
                KillSheetFormat.of(CsvForm.builder().dates(DateForm.POINTS).build()),
                DATED,
                "TM-1,C,R=,3+,342,3.11.2026,L1",
                "TM-1,C,R=,3+,342,03.11.2026,L1");
        assertThat(problems(sheet))
                .containsExactly(
                        "sheet.csv line 3, carcass: carcass \"TM-1\" of the same kill date and lot stands in line 2"
                                + " already; each has one row; if each side has one, declare that: KillSheetFormat.withRowASide(), --row-a-side");
    }

    @Test
    void aUnitIsLeftOutAndNoOtherOne() {
        KillSheet sheet = read(
                KillSheetFormat.of(CsvForm.builder().unit("kg").build()),
                HEADER,
                "TM-1,C,R=,3+,342.5 kg",
                "TM-2,C,R=,3+,342.5kg",
                "TM-3,C,R=,3+,342.5",
                "TM-4,C,R=,3+,342.5 lb",
                "TM-5,C,R=,3+,kg");
        assertThat(sheet.carcasses())
                .extracting(carcass -> carcass.coldWeightKg())
                .containsOnly(342.5);
        assertThat(problems(sheet))
                .containsExactly(
                        "sheet.csv line 5, cold_weight_kg: \"342.5 lb\" is not a plain number such as 342.5",
                        "sheet.csv line 6, cold_weight_kg: \"kg\" is not a plain number such as 342.5");
    }

    @Test
    void aColumnDeclaredAsNoneOfOursIsRefusedWhereTheSheetHasIt() {
        KillSheetFormat format = KillSheetFormat.of(
                CsvForm.builder().column("Betrieb", "suplier").build());
        assertThat(read(format, HEADER, "TM-1,C,R=,3+,342").entries()).hasSize(1);
        assertThatThrownBy(() -> read(format, HEADER + ",Betrieb", "TM-1,C,R=,3+,342,Mere"))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "sheet.csv line 1, Betrieb: the column \"Betrieb\" is declared as \"suplier\", which is none of"
                                + " carcass category conformation conformation_points fat_class fat_points cold_weight_kg"
                                + " hot_weight_kg age_months lot supplier kill_date hall assured dressing left_kg right_kg trimmed_kg"
                                + " trimmed_hind_kg trimmed_flank_kg trimmed_fore_kg trimmed_neck_kg"
                                + " status");
    }

    @Test
    void twoColumnsDeclaredAsOneAreRefusedAndOursMakesWay() {
        KillSheetFormat format = KillSheetFormat.of(
                CsvForm.builder().column("Los", "lot").column("Partie", "lot").build());
        assertThatThrownBy(() -> read(format, HEADER + ",Los,Partie", "TM-1,C,R=,3+,342,1,2"))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "sheet.csv line 1, Partie: columns \"Los\" and \"Partie\" are both declared as lot; a file has one"
                                + " of them");
        KillSheetEntry entry = read(format, HEADER + ",lot,Los", "TM-1,C,R=,3+,342,a,b")
                .entries()
                .get(0);
        assertThat(entry.carcass().lot()).contains("b");
        assertThat(entry.otherColumns()).containsExactly(entry("lot", "a"));
    }

    @Test
    void twoSidesAreTheWholeCarcassToTheLastBit() {
        assertThat(read(SIDES, HEADER, "A,C,R=,3=,170.1", "A,C,R=,3=,170.2").carcasses())
                .extracting(Carcass::coldWeightKg)
                .containsExactly(340.3);
    }

    @Test
    void sidesOfOneWeightAreNotedForEachMayBeTheWholeCarcass() {
        KillSheet sheet = read(SIDES, HEADER, "A,C,R=,3=,280", "A,C,R=,3=,280");
        assertThat(sheet.notes().stream().map(Problem::toString))
                .containsExactly(
                        "sheet.csv line 2, cold_weight_kg: carcass A: both rows weigh 280 kg, the other in line 3;"
                                + " if each is the whole carcass, it counts twice here");
    }

    @ParameterizedTest
    @CsvSource({"assured,yes,no", "dressing,,kidneys-left-on", "left_kg,150,160", "right_kg,150,160"})
    void sidesThatDifferInWhatACarcassHasOnceAreRefused(String column, String one, String other) {
        KillSheet sheet = read(
                SIDES, HEADER + "," + column, "A,C,R=,3=,150," + (one == null ? "" : one), "A,C,R=,3=,160," + other);
        assertThat(sheet.entries()).isEmpty();
        assertThat(problems(sheet)).hasSize(2);
        assertThat(problems(sheet).get(0))
                .isEqualTo("sheet.csv line 2, carcass: the other side, in line 3, doesn't agree with this one");
        assertThat(problems(sheet).get(1))
                .startsWith("sheet.csv line 3, " + column + ": the other side, in line 2, has");
    }

    @Test
    void theSideOfEachRowIsKept() {
        KillSheetEntry entry = read(SIDES, HEADER + ",left_kg,right_kg", "A,C,R=,3=,150,150,", "A,C,R=,3=,160,,160")
                .entries()
                .get(0);
        assertThat(entry.leftKg()).hasValue(150);
        assertThat(entry.rightKg()).hasValue(160);
    }

    @Test
    void datesAreComparedInTheOrderOfTheLines() {
        KillSheet sheet = read(
                SIDES,
                DATED,
                "A,C,R=,3=,150,2026-11-03,L",
                "B,C,R=,3=,150,2026-11-04,L",
                "B,C,R=,3=,151,2026-11-04,L",
                "A,C,R=,3=,151,2026-11-03,L");
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.notes()).noneMatch(note -> note.column().equals("kill_date"));
    }
}
