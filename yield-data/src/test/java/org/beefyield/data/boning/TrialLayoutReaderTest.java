package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Source;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a layout may say, and every fault that it can have. */
class TrialLayoutReaderTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final String HEADER = "column,holds,quarter,code,stands_for,factor\n";
    private static final String NEEDED =
            "Id,carcass,,,,\nKat,category,,,,\nConf,conformation,,,,\nFat,fat_class,,,,\nKg,cold_weight_kg,,,,\n";

    @TempDir
    Path folder;

    private static TrialLayout read(String content) {
        Source source = Source.of("l.csv", content.getBytes(StandardCharsets.UTF_8));
        return TrialLayoutReader.read(source, CsvForm.standard(), SHIPPED);
    }

    private static List<String> refused(String content) {
        return catchThrowableOfType(InvalidDataException.class, () -> read(content)).problems().stream()
                .map(problem -> problem + (problem.value().isEmpty() ? "" : " [" + problem.value() + "]"))
                .toList();
    }

    @Test
    void aLayoutHasColumnsAndGroups() throws IOException {
        Path file = Files.writeString(
                folder.resolve("l.csv"),
                HEADER + ",group,,rounds,topside+silverside,\n" + NEEDED + "R,rounds,,,,0.001\nB,bone,,,,\n");
        TrialLayout layout = TrialLayoutReader.read(file, SHIPPED);

        assertThat(layout.groups()).isEqualTo(Map.of("rounds", List.of("topside", "silverside")));
        assertThat(layout.name()).isEqualTo(file.toString());
        assertThat(layout).hasToString(file + ": 7 columns, a row for each carcass");
        assertThat(layout)
                .isEqualTo(TrialLayoutReader.read(file, SHIPPED))
                .hasSameHashCodeAs(TrialLayoutReader.read(file, SHIPPED))
                .isNotEqualTo(read(HEADER + NEEDED + "B,bone,,,,\n"));
    }

    @Test
    void aLayoutMayHaveSemicolonsAndDecimalCommas() {
        byte[] content = (HEADER + NEEDED + "B,bone,,,,\n")
                .replace(',', ';')
                .replace("bone;;;;", "bone;;;;0,45359237")
                .getBytes(StandardCharsets.UTF_8);
        TrialLayout layout = TrialLayoutReader.read(
                Source.of("l.csv", content),
                CsvForm.builder().separator(';').decimalComma().build(),
                SHIPPED);

        assertThat(layout.columns().get("B").factor()).isEqualTo(0.45359237);
    }

    @Test
    void whatIsDeclaredOfTheFileIsOneOfAFew() {
        assertThat(refused(HEADER + NEEDED
                        + "B,bone,,,,\n"
                        + ",rows,,,pig,\n"
                        + ",blank,,,0,\n,blank,,,0,\n"
                        + ",blanks,,,0,\n"
                        + ",missing,,,,\n"
                        + ",names,fore,x,as-in-r,2\n"))
                .containsExactly(
                        "l.csv line 8, stands_for: rows \"pig\" is none of carcass side quarter [pig]",
                        "l.csv line 10, holds: blank is declared above already [blank]",
                        "l.csv line 11, holds: \"blanks\" of a row without a column is none of rows one-side blank"
                                + " shares-of missing names group [blanks]",
                        "l.csv line 12, stands_for: missing is a word such as NA",
                        "l.csv line 13, quarter: stays blank where column is blank [fore]",
                        "l.csv line 13, factor: stays blank where column is blank [2]",
                        "l.csv line 13, code: stays blank where holds is names [x]");
    }

    @Test
    void groupsAreOfCutsOfTheTable() {
        assertThat(refused(HEADER + NEEDED
                        + "B,bone,,,,\n"
                        + ",group,,,topside+silverside,\n"
                        + ",group,,bone,topside+silverside,\n"
                        + ",group,,one,topside,\n"
                        + ",group,,one,rump+fillet,\n"
                        + ",group,,two,topside+silverzide,\n"))
                .containsExactly(
                        "l.csv line 8, code: every group has a name",
                        "l.csv line 9, code: group bone has the name of a cut; it has one of its own [bone]",
                        "l.csv line 10, stands_for: group one has two cuts or more, such as topside+silverside [topside]",
                        "l.csv line 11, code: group one is declared above already [one]",
                        "l.csv line 12, stands_for: topside is in another group too; a cut is in one at most"
                                + " [topside+silverzide]",
                        "l.csv line 12, stands_for: no cut \"silverzide\"; nearest: silverside, topside,"
                                + " fillet [topside+silverzide]");
    }

    @Test
    void aColumnHoldsSomethingThatThereIsAndStandsOnce() {
        assertThat(refused(HEADER + NEEDED
                        + ",group,,rounds,topside+silverside,\n"
                        + "B,bones,,,,\n"
                        + "L,striplion/dice,,,,\n"
                        + "C,bone,,,,\n"
                        + "C,bone,,,,\n"
                        + "Id2,carcass,,,,\n"
                        + "D,loss,,,,0\n"))
                .containsExactly("l.csv line 13, factor: factor 0 is not above 0 [0]");
        assertThat(refused(HEADER + NEEDED
                        + ",group,,rounds,topside+silverside,\n"
                        + "B,bones,,,,\n"
                        + "L,striplion/dice,,,,\n"
                        + "C,bone,,,,\n"
                        + "C,bone,,,,\n"
                        + "Id2,carcass,,,,2\n"
                        + "D,day,fore,,,\n"))
                .containsExactly(
                        "l.csv line 8, holds: no cut \"bones\"; nearest: bone, loss, blade; groups: rounds; else one of"
                                + " carcass side quarter category conformation conformation_points fat_class fat_points day"
                                + " cold_weight_kg side_weight_kg cutting_weight_kg ignored [bones]",
                        "l.csv line 9, holds: no cut \"striplion\"; nearest: striploin, topside, striploin-joint"
                                + " [striplion/dice]",
                        "l.csv line 11, column: the column stands in line 10 already [C]",
                        "l.csv line 12, factor: carcass is no weight, and has no factor [2]",
                        "l.csv line 12, holds: column Id in line 2 holds that already [carcass]",
                        "l.csv line 13, quarter: day is not of a quarter; cuts and cutting_weight_kg are [fore]",
                        "l.csv line 13, quarter: no column holds cutting_weight_kg of quarter fore; one does, or the cuts"
                                + " are of no quarter [fore]");
    }

    @Test
    void codesStandForSomething() {
        assertThat(refused(HEADER
                        + "Id,carcass,,7,x,\n"
                        + "Kat,category,,1,A,\n"
                        + "Kat,category,,1,C,\n"
                        + "Kat,category,,2,X,\n"
                        + "Kat,category,,3,,\n"
                        + "Kat,category,,4,leave-out,\n"
                        + "Conf,conformation,,,R,\n"
                        + "Fat,fat_class,,f,9,\n"
                        + "Kg,cold_weight_kg,,,,\nB,bone,,,,\n"))
                .containsExactly(
                        "l.csv line 2, code: carcass has no codes; category, conformation, fat_class, quarter may [7]",
                        "l.csv line 2, stands_for: carcass has no codes; category, conformation, fat_class, quarter may [x]",
                        "l.csv line 4, code: code 1 of the column is declared above already [1]",
                        "l.csv line 5, stands_for: category \"X\" is none of C A B D E Z; or leave-out [X]",
                        "l.csv line 6, stands_for: code 3 stands for something, or for leave-out",
                        "l.csv line 8, stands_for: stands for nothing without a code [R]",
                        "l.csv line 9, stands_for: fat class 9 is outside 1 to 5; a position on the 15-point scale belongs in"
                                + " fat_points, in code in FatClass.ofPosition; or leave-out [9]");
    }

    @Test
    void whatATrialNeedsIsHeld() {
        assertThat(refused(HEADER + "A,ignored,,,,\n"))
                .containsExactly(
                        "l.csv: no column holds carcass; one does",
                        "l.csv: no column holds category; one does",
                        "l.csv: no column holds conformation or conformation_points; one does",
                        "l.csv: no column holds fat_class or fat_points; one does",
                        "l.csv: no column holds cold_weight_kg or side_weight_kg or cutting_weight_kg; one does",
                        "l.csv: no column holds a cut; one does, such as bone");
        assertThat(refused(HEADER + NEEDED
                        + "B,bone,,,,\nP,conformation_points,,,,\nF,fat_points,,,,\nS,side_weight_kg,,,,\n"
                        + "L,side,,,,\nQ,quarter,,,,\nX,cutting_weight_kg,,,,\nY,cutting_weight_kg,fore,,,\n"))
                .containsExactly(
                        "l.csv: columns hold conformation and conformation_points; one of the two is enough, the other is"
                                + " ignored",
                        "l.csv: columns hold fat_class and fat_points; one of the two is enough, the other is ignored",
                        "l.csv: columns hold cold_weight_kg and side_weight_kg; one of the two is enough, the other is"
                                + " ignored",
                        "l.csv: a column holds quarter, but a row is a carcass; declare rows quarter, or the column as"
                                + " ignored",
                        "l.csv: a column holds side, but a row is a carcass; declare rows side, or the column as ignored",
                        "l.csv: a column holds side_weight_kg, but a row is a carcass; declare rows side, or cold_weight_kg"
                                + " with factor 2",
                        "l.csv: cutting_weight_kg is of quarters in some columns and of none in others; it is of every"
                                + " quarter or of none");
    }

    @Test
    void aRowThatIsAQuarterSaysWhich() {
        assertThat(refused(HEADER + ",rows,,,quarter,\n"
                        + NEEDED.replace("cold_weight_kg", "side_weight_kg")
                        + "Q,quarter,,,,\nB,bone,fore,,,\n"))
                .containsExactly(
                        "l.csv line 9, quarter: a row is a quarter as it is; another column holds which [fore]",
                        "l.csv: a row is a quarter: one column holds quarter, with a row for each code that stands there",
                        "l.csv: a column holds side_weight_kg, but a row is a quarter; the cold weight of a quarter is"
                                + " cutting_weight_kg");
    }

    @Test
    void aHeaderHasAllColumnsAndNoOther() {
        assertThat(refused("column,holds,quarter,code,factor,unit\n"))
                .containsExactly(
                        "l.csv line 1, stands_for: the column \"stands_for\" is missing; columns: column, holds, quarter,"
                                + " code, stands_for, factor",
                        "l.csv line 1, unit: there is no column \"unit\"; columns: column, holds, quarter, code, stands_for,"
                                + " factor");
    }
}
