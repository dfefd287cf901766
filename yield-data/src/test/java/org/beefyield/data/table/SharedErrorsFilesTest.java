package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files of tables with and without SDs of errors in common and names of coefficient errors. */
class SharedErrorsFilesTest {
    @TempDir
    Path temporary;

    private static TableDefinition.Builder table(SharedSds shared) {
        TableRange one = new TableRange(new Range(8, 8), new Range(8, 8), new Range(200, 500));
        return TableDefinition.builder("hall", "1")
                .levels("side", "cuts")
                .categories(Category.STEER, Category.COW)
                .ranges(one, one)
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "An assumption", ""))
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT))
                .cut(Cut.of("rest", "Rest", "side", CutKind.BONE))
                .cut(Cut.of("loin", "Loin", "cuts", CutKind.STEAK))
                .cut(Cut.of("trim", "Trim", "cuts", CutKind.LEAN_TRIM))
                .row("carcass", "lean", 20, shared, "guess", 700)
                .row("carcass", "rest", 20, shared, "guess", 300)
                .row(new ClassRow("*", "*", "lean", "R", "3", "loin", 400, 10, shared, "guess"))
                .row(new ClassRow("*", "*", "lean", "R", "3", "trim", 600, 10, shared, "guess"));
    }

    private static TableDefinition.Builder named(String... ids) {
        TableDefinition.Builder table = table(SharedSds.NOT_STATED);
        for (String id : ids) {
            for (String cut : List.of("lean", "rest")) {
                table.coefficientNote(
                        new CoefficientNote("*", "*", "carcass", cut, "level_g_per_kg", 4.5, id, "guess"));
            }
        }
        return table;
    }

    private Path written(TableDefinition.Builder table) {
        Path folder = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(table.build()), folder);
        return folder;
    }

    private static String text(Path folder, String file) {
        try {
            return Files.readString(folder.resolve(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void replace(Path folder, String file, String text, String other) throws IOException {
        assertThat(text(folder, file)).contains(text);
        Files.writeString(folder.resolve(file), text(folder, file).replace(text, other));
    }

    /** The descriptor states a digest, which no changed file has. */
    private static void dropDigest(Path folder) throws IOException {
        Files.writeString(
                folder.resolve("datapackage.json"),
                text(folder, "datapackage.json").replaceFirst("\\s*\"digest\": \"[0-9a-f]{64}\",", ""));
    }

    private static List<Problem> problems(Path folder) {
        InvalidDataException refused = catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(folder));
        assertThat(refused).as("what is wrong").isNotNull();
        return refused.problems();
    }

    private static void readsBack(Path folder, TableDefinition.Builder table) {
        YieldTable back = TableReader.read(folder);
        assertThat(back.definition()).isEqualTo(table.build());
        Path again = folder.resolveSibling("again");
        TableWriter.write(back, again);
        for (String file : List.of("datapackage.json", "breakdown.csv", "breakdown-by-class.csv")) {
            assertThat(text(again, file)).isEqualTo(text(folder, file));
        }
    }

    @Test
    void aTableThatStatesNoneHasNoneOfTheColumns() {
        Path folder = written(named(""));
        assertThat(text(folder, "breakdown.csv"))
                .startsWith(
                        "category,way,parent,cut,level_g_per_kg,per_conformation_point,per_fat_point,per_100kg,sd_g_per_kg,"
                                + "source\n*,*,carcass,lean,700,0,0,0,20,guess\n");
        assertThat(text(folder, "breakdown-by-class.csv"))
                .startsWith("category,way,parent,conformation,fat_class,cut,g_per_kg,sd_g_per_kg,source\n");
        assertThat(text(folder, "coefficient-notes.csv"))
                .startsWith(
                        "category,way,parent,cut,term,standard_error,source\n*,*,carcass,lean,level_g_per_kg,4.5,guess\n");
        assertThat(text(folder, "datapackage.json"))
                .doesNotContain("lot_sd_g_per_kg", "run_sd_g_per_kg", "hall_sd_g_per_kg", "error_id");
        readsBack(folder, named(""));
    }

    @Test
    void allThreeAreWrittenBesideTheSdAndReadBack() {
        Path folder = written(table(SharedSds.of(9, 5.25, 0)));
        assertThat(text(folder, "breakdown.csv"))
                .startsWith(
                        "category,way,parent,cut,level_g_per_kg,per_conformation_point,per_fat_point,per_100kg,sd_g_per_kg,"
                                + "lot_sd_g_per_kg,run_sd_g_per_kg,hall_sd_g_per_kg,source\n"
                                + "*,*,carcass,lean,700,0,0,0,20,9,5.25,0,guess\n");
        assertThat(text(folder, "breakdown-by-class.csv"))
                .startsWith("category,way,parent,conformation,fat_class,cut,g_per_kg,sd_g_per_kg,lot_sd_g_per_kg,"
                        + "run_sd_g_per_kg,hall_sd_g_per_kg,source\n*,*,lean,R,3,loin,400,10,9,5.25,0,guess\n");
        assertThat(packed(folder))
                .contains("{\"name\":\"hall_sd_g_per_kg\",\"type\":\"number\",\"constraints\":{\"required\":true,"
                        + "\"minimum\":0,\"maximum\":1000}}");
        readsBack(folder, table(SharedSds.of(9, 5.25, 0)));
    }

    @Test
    void oneOfThemStandsByItself() {
        for (SharedBy by : SharedBy.values()) {
            SharedSds one = new SharedSds(
                    by == SharedBy.LOT ? 2.5 : null, by == SharedBy.RUN ? 2.5 : null, by == SharedBy.HALL ? 2.5 : null);
            String column = Map.of(SharedBy.LOT, "lot", SharedBy.RUN, "run", SharedBy.HALL, "hall")
                            .get(by) + "_sd_g_per_kg";
            Path folder = written(table(one));
            assertThat(text(folder, "breakdown.csv"))
                    .contains("sd_g_per_kg," + column + ",source\n", ",20,2.5,guess\n");
            readsBack(folder, table(one));
        }
    }

    @Test
    void namesOfErrorsAreWrittenAndReadBack() {
        Path folder = written(named("fit", "", "cows"));
        assertThat(text(folder, "coefficient-notes.csv")).isEqualTo("""
                category,way,parent,cut,term,standard_error,error_id,source
                *,*,carcass,lean,level_g_per_kg,4.5,fit,guess
                *,*,carcass,rest,level_g_per_kg,4.5,fit,guess
                *,*,carcass,lean,level_g_per_kg,4.5,,guess
                *,*,carcass,rest,level_g_per_kg,4.5,,guess
                *,*,carcass,lean,level_g_per_kg,4.5,cows,guess
                *,*,carcass,rest,level_g_per_kg,4.5,cows,guess
                """);
        readsBack(folder, named("fit", "", "cows"));
    }

    /** A primary key has no empty cell, and no two rows of the same. */
    @Test
    void theNameIsPartOfThePrimaryKeyWhereEveryNoteHasOne() {
        String all = "\"primaryKey\":[\"category\",\"way\",\"parent\",\"cut\",\"term\",\"error_id\"]";
        String without = "\"primaryKey\":[\"category\",\"way\",\"parent\",\"cut\",\"term\"]";
        assertThat(packed(written(named("fit", "cows")))).contains(all).doesNotContain(without);
        assertThat(packed(written(named("")))).contains(without).doesNotContain(all);
        assertThat(packed(written(named("fit", "")))).doesNotContain(all, without);
        TableDefinition.Builder differ = named("fit")
                .coefficientNote(new CoefficientNote("*", "*", "carcass", "lean", "per_100kg", 0.0, "guess"));
        assertThat(packed(written(differ))).contains(without).doesNotContain(all);
    }

    private static String packed(Path folder) {
        return text(folder, "datapackage.json").replaceAll("\\s", "");
    }

    @Test
    void aRowThatStatesNoneAmongRowsThatDoIsNamedWithLineAndColumn() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        replace(folder, "breakdown.csv", "*,*,carcass,rest,300,0,0,0,20,9,5,1", "*,*,carcass,rest,300,0,0,0,20,9,,1");
        dropDigest(folder);
        assertThat(problems(folder))
                .containsExactly(new Problem(
                        folder + "/breakdown.csv",
                        3,
                        "run_sd_g_per_kg",
                        "",
                        "the row states none, and 3 other rows do; a table states this SD, 0 to 1000 g/kg, in every row of"
                                + " breakdown and breakdown-by-class or in none"));
    }

    @Test
    void aColumnWithoutAnyFigureStatesNothing() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        for (String file : List.of("breakdown.csv", "breakdown-by-class.csv")) {
            replace(folder, file, ",9,5,1,guess", ",9,,1,guess");
        }
        dropDigest(folder);
        YieldTable table = TableReader.read(folder);
        assertThat(table.states(SharedBy.RUN)).isFalse();
        assertThat(table.definition())
                .isEqualTo(table(new SharedSds(9.0, null, 1.0)).build());
    }

    @Test
    void aFigureThatIsNoneOrOutOfRangeIsRefused() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        replace(folder, "breakdown.csv", "300,0,0,0,20,9,5,1", "300,0,0,0,20,nine,5,1");
        assertThat(problems(folder)).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(3);
            assertThat(problem.column()).isEqualTo("lot_sd_g_per_kg");
            assertThat(problem.value()).isEqualTo("nine");
        });
        replace(folder, "breakdown.csv", "300,0,0,0,20,nine,5,1", "300,0,0,0,20,9,5,1001");
        assertThat(problems(folder))
                .containsExactly(new Problem(
                        folder + "/breakdown.csv", 3, "hall_sd_g_per_kg", "1001", "\"1001\": an SD is 0 to 1000 g/kg"));
    }

    @Test
    void fieldAndColumnStandTogether() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        String descriptor = text(folder, "datapackage.json");
        Files.writeString(
                folder.resolve("datapackage.json"), descriptor.replace("\"hall_sd_g_per_kg\"", "\"hall_sd\""));
        assertThat(problems(folder))
                .extracting(Problem::column, Problem::message)
                .contains(tuple("resources", "\"hall_sd_g_per_kg\": the schema of breakdown lacks this field"));
        Files.writeString(folder.resolve("datapackage.json"), descriptor);
        replace(folder, "breakdown.csv", ",hall_sd_g_per_kg", "");
        replace(folder, "breakdown.csv", ",9,5,1,", ",9,5,");
        assertThat(problems(folder))
                .containsExactly(new Problem(
                        folder + "/breakdown.csv",
                        1,
                        "hall_sd_g_per_kg",
                        "",
                        "the column \"hall_sd_g_per_kg\" is declared in the schema and missing here"));
    }

    @Test
    void theColumnsThatMayBeMissingAreAmongThoseThatAMisspeltOneIsToldOf() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        replace(folder, "breakdown-by-class.csv", "lot_sd_g_per_kg", "lots_sd_g_per_kg");
        replace(folder, "datapackage.json", "lot_sd_g_per_kg", "any");
        assertThat(problems(folder))
                .contains(new Problem(
                        folder + "/breakdown-by-class.csv",
                        1,
                        "lots_sd_g_per_kg",
                        "",
                        "the column \"lots_sd_g_per_kg\" is not declared; columns of breakdown-by-class: category, way,"
                                + " parent, conformation, fat_class, cut, g_per_kg, sd_g_per_kg, lot_sd_g_per_kg,"
                                + " run_sd_g_per_kg, hall_sd_g_per_kg, source; a further one is declared in the schema, as a"
                                + " term if it is one"));
    }

    @Test
    void theStatedDigestNoticesAChangedFigure() throws IOException {
        Path folder = written(table(SharedSds.of(9, 5, 1)));
        String before = YieldTable.of(table(SharedSds.of(9, 5, 1)).build()).digest();
        for (String file : List.of("breakdown.csv", "breakdown-by-class.csv")) {
            replace(folder, file, ",9,5,1,", ",9,5,2,");
        }
        assertThat(problems(folder)).singleElement().satisfies(problem -> {
            assertThat(problem.column()).isEqualTo("beefyield.digest");
            assertThat(problem.value()).isEqualTo(before);
        });
    }

    @Test
    void decimalsMayBeDeclared() {
        TableDefinition.Builder table =
                table(SharedSds.of(9, 5, 1)).decimals("lot_sd_g_per_kg", 1).decimals("hall_sd_g_per_kg", 0);
        readsBack(written(table), table);
    }
}
