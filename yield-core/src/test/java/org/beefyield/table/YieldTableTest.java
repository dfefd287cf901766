package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableResource;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class YieldTableTest {
    private static final TableDefinition SMALL = TestTables.small();
    private static final TableDefinition THREE = TestTables.threeLevels();
    private static final String SOURCE = TestTables.SOURCE;

    /** The definition can't be used, for exactly these reasons. */
    private static void refused(TableDefinition.Builder builder, String... problems) {
        TableDefinition definition = builder.build();
        InvalidTableException refusal =
                catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(definition));
        assertThat(refusal).as("a refusal").isNotNull();
        assertThat(refusal.problems()).extracting(TableProblem::toString).containsExactlyInAnyOrder(problems);
    }

    private static TableDefinition.Builder small() {
        return SMALL.toBuilder();
    }

    private static TableDefinition.Builder three() {
        return THREE.toBuilder();
    }

    @Test
    void theTablesOfTheTestsHold() {
        assertThat(YieldTable.of(SMALL).closingCorrections()).isEmpty();
        assertThat(YieldTable.of(THREE).closingCorrections()).isEmpty();
    }

    @Test
    void aRefusalSaysHowManyProblemsThereAreAndEachOnALineOfItsOwn() {
        assertThatThrownBy(() -> YieldTable.of(small().widthFit(4).build()))
                .isInstanceOf(InvalidTableException.class)
                .hasMessage("""
                        table small can't be used, 1 problem:
                          table, width_fit "4": width_fit is 0 to 3 points""");
        TableDefinition two = small().widthFit(4).source(TestTables.source(" ")).build();
        assertThatThrownBy(() -> YieldTable.of(two)).hasMessage("""
                        table small can't be used, 2 problems:
                          table, width_fit "4": width_fit is 0 to 3 points
                          sources row 2, source " ": a source has a short name""");
    }

    @Nested
    class Keys {
        private TableDefinition.Builder named(String name, String version) {
            return TestTables.smallRows(TableDefinition.builder(name, version)
                            .levels("tissue", "primal")
                            .source(TestTables.source(SOURCE))
                            .categories(Category.COW))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("fore", "Fore", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("hind", "Hind", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS));
        }

        @ParameterizedTest
        @ValueSource(strings = {"Hall table", "-hall", "hall/2026", "halle-für-rinder"})
        void aNameOfOtherCharactersIsRefused(String name) {
            refused(named(name, "1"), "table, name \"" + name + "\": a name is lower-case letters, digits and . _ -");
        }

        @Test
        void anEmptyNameOrVersionIsRefused() {
            refused(
                    named("", ""),
                    "table, name: a name is lower-case letters, digits and . _ -",
                    "table, version: a version is letters, digits and . + -");
        }

        @ParameterizedTest
        @ValueSource(strings = {"1 0", "1@0", "v#1"})
        void aVersionOfOtherCharactersIsRefused(String version) {
            refused(
                    named("hall", version),
                    "table, version \"" + version + "\": a version is letters, digits and . + -");
        }

        @Test
        void aTableWithoutLevelsIsRefused() {
            InvalidTableException refusal = catchThrowableOfType(
                    InvalidTableException.class,
                    () -> YieldTable.of(small().levels().build()));
            assertThat(refusal.problems().get(0)).hasToString("table, levels: a table has at least one level");
        }

        @Test
        void aLevelThatStandsTwiceIsRefused() {
            refused(small().levels("tissue", "primal", "tissue"), "table, levels \"tissue\": this level stands twice");
        }

        @Test
        void aTableWithoutCategoriesIsRefused() {
            refused(
                    TestTables.withoutRows(SMALL, 5, 6).categories(),
                    "table, categories: a table serves at least one category");
        }

        @Test
        void aCategoryThatStandsTwiceIsRefused() {
            refused(
                    small().categories(Category.STEER, Category.COW, Category.STEER),
                    "table, categories \"C\": this category stands twice");
        }

        @ParameterizedTest
        @CsvSource({"0, 18, 0 to 18", "1, 19, 1 to 19", "1.5, 18, 1.5 to 18", "1, 17.5, 1 to 17.5"})
        void anAllowedConformationOffTheGridIsRefused(double low, double high, String range) {
            refused(
                    small().ranges(
                                    TestTables.range(8, 8, 8, 8, 340, 340),
                                    TestTables.range(low, high, 1, 15, 150, 600)),
                    "table, allowed_range \"" + range
                            + "\": the allowed range of conformation has whole positions from 1 to 18 as its ends");
        }

        @ParameterizedTest
        @CsvSource({"0, 15, 0 to 15", "1, 16, 1 to 16", "1, 14.5, 1 to 14.5"})
        void anAllowedFatOffTheGridIsRefused(double low, double high, String range) {
            refused(
                    small().ranges(
                                    TestTables.range(8, 8, 8, 8, 340, 340),
                                    TestTables.range(1, 18, low, high, 150, 600)),
                    "table, allowed_range \"" + range
                            + "\": the allowed range of fat has whole positions from 1 to 15 as its ends");
        }

        @Test
        void anAllowedWeightOfZeroIsRefused() {
            refused(
                    small().ranges(TestTables.range(8, 8, 8, 8, 340, 340), TestTables.range(1, 18, 1, 15, 0, 600)),
                    "table, allowed_range \"0 to 600\": weights of carcasses are above 0 kg and at most 1200 kg");
        }

        @Test
        void aFittedRangeThatReachesOutOfTheAllowedOneIsRefused() {
            TableRange allowed = TestTables.range(2, 14, 3, 13, 230, 500);
            refused(
                    small().ranges(TestTables.range(1, 14, 3, 13, 230, 500), allowed),
                    "table, fitted_range \"1 to 14\": the fitted range of conformation must lie inside the allowed"
                            + " range, 2 to 14");
            refused(
                    small().ranges(TestTables.range(2, 14, 3, 13.5, 229.9, 500), allowed),
                    "table, fitted_range \"3 to 13.5\": the fitted range of fat must lie inside the allowed range, 3 to"
                            + " 13",
                    "table, fitted_range \"229.9 to 500\": the fitted range of weight must lie inside the allowed range,"
                            + " 230 to 500");
        }

        @Test
        void aReferenceCarcassOutsideTheAllowedRangeIsRefused() {
            refused(
                    small().reference(0.5, 15.5, 601),
                    "table, reference \"0.5\": the reference carcass must lie inside the allowed range of conformation,"
                            + " 1 to 18",
                    "table, reference \"15.5\": the reference carcass must lie inside the allowed range of fat, 1 to 15",
                    "table, reference \"601\": the reference carcass must lie inside the allowed range of weight, 150 to"
                            + " 600");
            assertThatThrownBy(() -> small().reference(Double.NaN, 8, 340))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage(
                            "the conformation of a reference carcass is NaN; it should be a finite number, 0 or more");
        }

        @ParameterizedTest
        @CsvSource({"3.1, 3.1", "-0.5, -0.5", "NaN, NaN"})
        void aResolutionWiderThanAClassIsRefused(double width, String printed) {
            refused(small().widthFit(width), "table, width_fit \"" + printed + "\": width_fit is 0 to 3 points");
        }

        @Test
        void decimalsOfAnUnknownColumnOrBelowZeroAreRefused() {
            refused(
                    small().decimals("level", 2),
                    "table, decimals \"level\": no such column; columns: level_g_per_kg, per_conformation_point,"
                            + " per_fat_point, per_100kg, sd_g_per_kg, lot_sd_g_per_kg, run_sd_g_per_kg,"
                            + " hall_sd_g_per_kg, g_per_kg");
            refused(
                    small().decimals("level_g_per_kg", -2),
                    "table, decimals \"level_g_per_kg -2\": decimals are 0 to 15");
        }

        @Test
        void theEndsOfWhatKeysMayBeAreTaken() {
            for (double width : new double[] {0, 3}) {
                assertThat(YieldTable.of(small().widthFit(width).build())
                                .definition()
                                .widthFit())
                        .isEqualTo(width);
            }
            for (int places : new int[] {0, 15}) {
                assertThat(YieldTable.of(small().decimals("level_g_per_kg", places)
                                        .build())
                                .closingCorrections())
                        .isEmpty();
            }
            refused(
                    small().decimals("level_g_per_kg", 16),
                    "table, decimals \"level_g_per_kg 16\": decimals are 0 to 15");
            TableRange heaviest = TestTables.range(1, 18, 1, 15, 150, 1200);
            TableRange heavier = TestTables.range(1, 18, 1, 15, 150, 1200.5);
            assertThat(YieldTable.of(small().ranges(heaviest, heaviest).build())
                            .definition()
                            .allowed())
                    .isEqualTo(heaviest);
            refused(
                    small().ranges(heaviest, heavier),
                    "table, allowed_range \"150 to 1200.5\": weights of carcasses are above 0 kg and at most 1200 kg");
        }

        @ParameterizedTest
        @CsvSource({"CONFORMATION, 18", "FAT, 15"})
        void aKnotIsAPositionOfItsScale(Variable variable, int highest) {
            for (int knot : new int[] {1, highest}) {
                TableDefinition hinge = TestTables.smallRows(TestTables.smallWithoutRows()
                                .term(new Term.Hinge("bend", variable, Term.Side.BELOW, knot)))
                        .build();
                assertThat(YieldTable.of(hinge).definition().terms()).hasSize(1);
            }
            for (int knot : new int[] {0, highest + 1}) {
                refused(
                        TestTables.smallRows(TestTables.smallWithoutRows()
                                .term(new Term.Hinge("bend", variable, Term.Side.BELOW, knot))),
                        "table, terms \"" + knot + "\": a knot is a position from 1 to " + highest);
            }
        }

        @Test
        void aTermWithoutAUsableColumnOrKnotIsRefused() {
            for (String column : List.of("", "Fat", "a b")) {
                refused(
                        TestTables.smallRows(TestTables.smallWithoutRows()
                                .term(new Term.Hinge(column, Variable.FAT, Term.Side.BELOW, 3))),
                        "table, terms" + (column.isEmpty() ? "" : " \"" + column + "\"")
                                + ": the column of a term is lower-case letters, digits and _");
            }
            refused(
                    TestTables.smallRows(TestTables.smallWithoutRows()
                            .term(new Term.Hinge("fat_above_16", Variable.FAT, Term.Side.ABOVE, 16))),
                    "table, terms \"16\": a knot is a position from 1 to 15");
            refused(
                    TestTables.smallRows(TestTables.smallWithoutRows()
                            .term(new Term.Hinge("source", Variable.FAT, Term.Side.ABOVE, 3))),
                    "table, terms \"source\": a term has a column of its own; this one is taken");
        }

        @Test
        void twoTermsOfOneColumnAreRefused() {
            Term term = new Term.Hinge("lean", Variable.FAT, Term.Side.BELOW, 3);
            refused(
                    TestTables.smallRows(
                            TestTables.smallWithoutRows().term(term).term(term)),
                    "table, terms \"lean\": a term has a column of its own; this one is taken");
            Term plain = new Term.Hinge("per_100kg", Variable.FAT, Term.Side.BELOW, 3);
            refused(
                    TestTables.smallRows(TestTables.smallWithoutRows().term(plain)),
                    "table, terms \"per_100kg\": a term has a column of its own; this one is taken");
        }
    }

    @Nested
    class Sources {
        @Test
        void aSourceWithoutANameIsRefused() {
            refused(small().source(TestTables.source("")), "sources row 2, source: a source has a short name");
        }

        @Test
        void aSourceThatStandsTwiceIsRefused() {
            refused(
                    small().source(TestTables.source(SOURCE)),
                    "sources row 2, source \"invented\": a source of this name stands above");
        }

        @Test
        void aRowWithoutASourceIsRefused() {
            refused(
                    small().row("meat", "loss", 0, ""),
                    "breakdown row 9, source: every row names its source; write one of the names in sources");
        }

        @Test
        void aSourceThatNobodyDeclaredIsRefused() {
            refused(
                    small().row("meat", "loss", 0, "hearsay"),
                    "breakdown row 9, source \"hearsay\": no such source in sources");
        }
    }

    @Nested
    class Cuts {
        @Test
        void aCutCalledCarcassIsRefused() {
            refused(
                    small().cut(Cut.of("carcass", "Carcass", "tissue", CutKind.MEAT)),
                    "cuts row 7, cut \"carcass\": this word stands for the whole carcass; name the cut otherwise");
        }

        @Test
        void aCutThatStandsTwiceIsRefused() {
            refused(
                    small().cut(Cut.of("bone", "Bones", "tissue", CutKind.BONE)),
                    "cuts row 7, cut \"bone\": a cut of this code stands above");
        }

        @Test
        void aCutOfAnUnknownLevelIsRefused() {
            refused(
                    small().cut(Cut.of("steak", "Steak", "retail", CutKind.STEAK)),
                    "cuts row 7, level \"retail\": no such level; levels: tissue, primal");
        }

        @Test
        void inATableWithoutCutsNoneIsNearest() {
            refused(
                    TableDefinition.builder("no-cuts", "1")
                            .levels("tissue")
                            .categories(Category.COW)
                            .source(TestTables.source(SOURCE))
                            .row("carcass", "meat", 0, SOURCE, 1000),
                    "breakdown row 1, cut \"meat\": no such cut in cuts");
        }

        @Test
        void aCutThatNothingYieldsIsRefused() {
            refused(
                    small().cut(Cut.of("tongue", "Tongue", "tissue", CutKind.MEAT)),
                    "cuts row 7, cut \"tongue\": no breakdown yields it at level tissue, where cuts says that it first"
                            + " stands");
        }

        @Test
        void aCutThatComesOutLaterThanItsLevelSaysIsRefused() {
            TableDefinition.Builder late = small().cut(Cut.of("tongue", "Tongue", "tissue", CutKind.MEAT))
                    .row("meat", "tongue", 0, SOURCE);
            refused(
                    late,
                    "cuts row 7, cut \"tongue\": no breakdown yields it at level tissue, where cuts says that it first"
                            + " stands");
        }

        @Test
        void aCutThatComesOutSoonerThanItsLevelSaysIsRefused() {
            refused(
                    small().row("carcass", "hind", 0, SOURCE),
                    "breakdown row 9, cut \"hind\": it comes out at level tissue but its level in cuts is primal");
        }
    }

    @Nested
    class Rows {
        @ParameterizedTest
        @ValueSource(strings = {"Z", "CZ", "CC", "c", "C,E", "C*"})
        void lettersThatTheTableDoesNotServeAreRefused(String letters) {
            refused(
                    small().row(letters, "*", "meat", "hind", 0, SOURCE),
                    "breakdown row 9, category \"" + letters
                            + "\": a category is * or letters of the categories that this table serves (CED), each"
                            + " once");
        }

        @Test
        void aRowWithoutCategoryIsRefused() {
            refused(
                    small().row("", "*", "meat", "hind", 0, SOURCE),
                    "breakdown row 9, category: a category is * or letters of the categories that this table serves (CED), each"
                            + " once");
        }

        @Test
        void aRowWithoutWayIsRefused() {
            refused(
                    small().row("*", " ", "meat", "hind", 0, SOURCE),
                    "breakdown row 9, way \" \": a way is a name, or * for every way");
        }

        @Test
        void anUnknownParentIsRefused() {
            refused(
                    small().row("ribs", "loss", 0, SOURCE),
                    "breakdown row 9, parent \"ribs\": unknown parent: it is neither carcass nor a cut of this table; nearest: hind, loss, meat");
        }

        @Test
        void anUnknownCutIsRefused() {
            refused(
                    small().row("meat", "tongue", 0, SOURCE),
                    "breakdown row 9, cut \"tongue\": no such cut in cuts; nearest: bone, fore, hind");
        }

        @Test
        void aRowOfTheWrongLengthIsRefused() {
            refused(
                    small().row(new BreakdownRow("*", "*", "meat", "loss", List.of(0.0, 0.0, 0.0), 0, SOURCE)),
                    "breakdown row 9: the row has 3 coefficients; a row of this table has 4: level_g_per_kg, per_conformation_point, per_fat_point, per_100kg");
            refused(
                    three().row(new BreakdownRow("*", "*", "meat", "loss", List.of(0.0, 0.0, 0.0, 0.0), 0, SOURCE)),
                    "breakdown row 40: the row has 4 coefficients; a row of this table has 8: level_g_per_kg, per_conformation_point, per_fat_point, per_100kg, fat_below_3, conformation_above_15, conformation_by_fat, fat_by_100kg");
        }

        @ParameterizedTest
        @CsvSource({
            "0, NaN, level_g_per_kg, NaN",
            "1, Infinity, per_conformation_point, Infinity",
            "2, -Infinity, per_fat_point, -Infinity",
            "3, NaN, per_100kg, NaN"
        })
        void aCoefficientThatIsNoFiniteNumberIsRefused(int column, double value, String name, String printed) {
            refused(
                    TestTables.changeCoefficient(SMALL, 2, column, value),
                    "breakdown row 2, " + name + " \"" + printed + "\": a coefficient is a finite number");
        }

        @Test
        void aCoefficientOfATermThatIsNoFiniteNumberIsRefusedUnderTheNameOfTheTerm() {
            refused(
                    TestTables.changeCoefficient(THREE, 1, 7, Double.NaN),
                    "breakdown row 1, fat_by_100kg \"NaN\": a coefficient is a finite number");
        }

        @ParameterizedTest
        @CsvSource({"-1, -1", "1000.5, 1000.5", "NaN, NaN"})
        void anSdThatIsNoneIsRefused(double sd, String printed) {
            refused(
                    TestTables.changeRow(
                            SMALL,
                            7,
                            row -> new BreakdownRow(
                                    row.category(),
                                    row.way(),
                                    row.parent(),
                                    row.cut(),
                                    row.coefficients(),
                                    sd,
                                    row.source())),
                    "breakdown row 7, sd_g_per_kg \"" + printed + "\": an SD is 0 to 1000 g/kg");
        }

        @Test
        void aRowThatStandsTwiceIsRefusedWithTheNumberOfTheOther() {
            refused(
                    small().row("meat", "fore", 5, SOURCE, 1),
                    "breakdown row 9, cut \"fore\": a row above has the same category, way, parent and cut (row 7)");
        }

        @Test
        void twoEquallySpecificRowsAreRefused() {
            refused(
                    small().row("ED", "*", "carcass", "loss", 1, SOURCE, 6)
                            .row("CD", "*", "carcass", "loss", 1, SOURCE, 6),
                    "breakdown row 10, cut \"loss\": another row serves the same cut of the same parent and is equally"
                            + " specific; make one of them more specific (category D) (row 9)");
        }

        @Test
        void aRowForACategoryAndOneForAWayAreEquallySpecific() {
            refused(
                    three().row("E", "*", "rump", "rump-joint", 0, SOURCE, 850, 0, 0, 2),
                    // under "steaks" the joint is one child too many
                    "breakdown row 40, cut \"rump-joint\": another row serves the same cut of the same parent and is equally"
                            + " specific; make one of them more specific (category E) (row 25)",
                    "breakdown, per_100kg \"2\": the children of rump in the way steaks add up to 2 g/kg per 100 kg,"
                            + " not 0; rounding explains at most 0; they are rump-steak 2, dice 0, lean-trim 0, fat-trim -2,"
                            + " loss 0, rump-joint 2 (category E) (rows 20 to 24, 40)",
                    "breakdown, level_g_per_kg \"1850\": the children of rump in the way steaks add up to 1850 g/kg,"
                            + " not 1000; rounding explains at most 0; they are rump-steak 750, dice 120, lean-trim 60,"
                            + " fat-trim 62, loss 8, rump-joint 850 (category E) (rows 20 to 24, 40)");
        }
    }

    @Nested
    class TheTree {
        @Test
        void aTableThatBreaksNoCarcassDownIsRefused() {
            refused(
                    TestTables.withoutRows(SMALL, 1, 2, 3, 4, 5, 6),
                    "breakdown, parent: no row has the parent carcass");
        }

        @Test
        void aParentThatIsItsOwnChildIsRefused() {
            refused(
                    small().row("meat", "meat", 0, SOURCE),
                    "breakdown, parent: the breakdowns run in a circle: meat -> meat");
        }

        @Test
        void aCircleOfSeveralParentsIsRefusedInOrder() {
            refused(
                    small().row("fore", "bone", 0, SOURCE).row("bone", "meat", 0, SOURCE),
                    "breakdown, parent: the breakdowns run in a circle: meat -> fore -> bone -> meat");
        }

        @Test
        void aCutOfTheLastLevelCanNotBeBrokenDown() {
            refused(
                    small().row("hind", "loss", 0, SOURCE, 1000),
                    "breakdown row 9, parent \"hind\": it stands at the last level, which nothing follows; a parent is"
                            + " broken down at the level after its own");
        }

        @Test
        void aCategoryThatLostABreakdownIsRefused() {
            refused(
                    TestTables.changeRows(SMALL, row -> row.parent().equals("meat") ? forCategory(row, "CD") : row),
                    "breakdown, parent \"meat\": no row breaks it down (category E)");
        }

        @Test
        void aCategoryThatLostAChildIsRefused() {
            refused(
                    TestTables.changeRow(SMALL, 4, row -> forCategory(row, "CE")),
                    "breakdown, level_g_per_kg \"994\": the children of carcass add up to 994 g/kg, not 1000;"
                            + " rounding explains at most 0; they are bone 184, meat 680, fat-trim 130 (category D) (rows 3,"
                            + " 5, 6)");
        }

        @Test
        void aCategoryThatLostAWayIsRefused() {
            refused(
                    TestTables.changeRows(THREE, row -> row.way().equals("trim") ? forCategory(row, "CEA") : row),
                    "breakdown, parent \"chuck\": no row breaks it down in the way trim (category D)");
        }

        @Test
        void aParentThatSomeCategoriesYieldNeedsRowsForTheseOnly() {
            TableDefinition.Builder udder = small().cut(Cut.of("udder", "Udder", "tissue", CutKind.MEAT))
                    .cut(Cut.of("udder-trim", "Trimmed udder", "primal", CutKind.LEAN_TRIM))
                    .row("D", "*", "carcass", "bone", 10, SOURCE, 164, -7, -2, -5)
                    .row("D", "*", "carcass", "udder", 5, SOURCE, 20);
            TableDefinition cows =
                    udder.row("D", "*", "udder", "udder-trim", 0, SOURCE, 1000).build();
            YieldTable table = YieldTable.of(cows);
            int slot = Engine.layout(table).slot(1, "udder-trim");
            assertThat(Engine.grid(table, Category.COW, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[slot])
                    .isCloseTo(0.020, within(1e-12));
            assertThat(Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[slot])
                    .isZero();
            // rows that serve steers alone are no use to cows
            refused(
                    TestTables.changeRow(cows, 11, row -> forCategory(row, "C")),
                    "breakdown, parent \"udder\": no row breaks it down (category D)");
        }

        private BreakdownRow forCategory(BreakdownRow row, String letters) {
            return new BreakdownRow(
                    letters, row.way(), row.parent(), row.cut(), row.coefficients(), row.sdGPerKg(), row.source());
        }

        @Test
        void fourLevelsWithAWeightTermOnOnePathAreRefused() {
            TableDefinition.Builder builder = TableDefinition.builder("four", "1")
                    .levels("l1", "l2", "l3", "l4")
                    .categories(Category.STEER)
                    .source(TestTables.source(SOURCE));
            String parent = "carcass";
            for (int level = 1; level <= 4; level++) {
                String child = "a" + level;
                builder.cut(Cut.of(child, child, "l" + level, CutKind.MEAT))
                        .cut(Cut.of("b" + level, "b" + level, "l" + level, CutKind.LOSS))
                        .row(parent, child, 0, SOURCE, 500, 0, 0, 1)
                        .row(parent, "b" + level, 0, SOURCE, 500, 0, 0, -1);
                parent = child;
            }
            refused(
                    builder,
                    "cuts row 8, cut \"b4\": 4 levels on its path have a weight term; at most 3 may",
                    "cuts row 7, cut \"a4\": 4 levels on its path have a weight term; at most 3 may");
        }
    }

    @Nested
    class Closing {
        @Test
        void levelsThatDoNotCloseAreRefused() {
            refused(
                    TestTables.changeCoefficient(SMALL, 3, 0, 183.0),
                    "breakdown, level_g_per_kg \"999\": the children of carcass add up to 999 g/kg, not 1000;"
                            + " rounding explains at most 0; they are meat 700, fat-trim 110, bone 183, loss 6 (category CE)"
                            + " (rows 1 to 4)",
                    "breakdown, level_g_per_kg \"999\": the children of carcass add up to 999 g/kg, not 1000;"
                            + " rounding explains at most 0; they are bone 183, loss 6, meat 680, fat-trim 130 (category D)"
                            + " (rows 3 to 6)");
        }

        @ParameterizedTest
        @CsvSource({
            "1, per_conformation_point, 0.5, g/kg per point of conformation",
            "2, per_fat_point, -0.25, g/kg per point of fat",
            "3, per_100kg, 0.00001, g/kg per 100 kg"
        })
        void slopesThatDoNotCloseAreRefused(int column, String name, double excess, String unit) {
            double slope = SMALL.breakdown().get(2).coefficients().get(column);
            String printed = excess == 0.00001 ? "0.00001" : Double.toString(excess);
            InvalidTableException refusal = catchThrowableOfType(
                    InvalidTableException.class,
                    () -> YieldTable.of(TestTables.changeCoefficient(SMALL, 3, column, slope + excess)
                            .build()));
            // cows have rows of their own beside the one that is off
            assertThat(refusal.problems())
                    .extracting(TableProblem::otherRows)
                    .containsExactly(List.of(0, 1, 2, 3), List.of(2, 3, 4, 5));
            assertThat(refusal.problems()).allSatisfy(problem -> {
                assertThat(problem.column()).isEqualTo(name);
                assertThat(problem.message())
                        .startsWith("the children of carcass add up to " + printed + " " + unit
                                + ", not 0; rounding explains at most 0; they are ");
            });
        }

        @Test
        void aTermThatDoesNotCloseIsRefused() {
            refused(
                    TestTables.changeCoefficient(THREE, 3, 5, 0.5),
                    "breakdown, conformation_above_15 \"0.5\": the children of carcass add up to 0.5 g/kg per point"
                            + " of conformation above position 15, not 0; rounding explains at most 0; they are meat -4,"
                            + " fat-trim 4, bone 0.5, loss 0 (category CEA) (rows 1 to 4)",
                    "breakdown, conformation_above_15 \"0.5\": the children of carcass add up to 0.5 g/kg per point"
                            + " of conformation above position 15, not 0; rounding explains at most 0; they are bone 0.5, loss"
                            + " 0, meat -4, fat-trim 4 (category D) (rows 3 to 6)");
        }

        @Test
        void aWayThatDoesNotCloseIsNamed() {
            refused(
                    TestTables.withoutRows(THREE, 15),
                    "breakdown, level_g_per_kg \"992\": the children of striploin in the way steaks add up to 992"
                            + " g/kg, not 1000; rounding explains at most 0; they are striploin-steak 800, dice 40, lean-trim"
                            + " 60, fat-trim 92 (category CEAD) (rows 11 to 14)");
        }

        @Test
        void moreThanTheDeclaredRoundingExplainsIsRefused() {
            // four children at 2 decimals: 4 x 0.005 = 0.02
            refused(
                    TestTables.changeCoefficient(SMALL, 3, 0, 184.03).decimals("level_g_per_kg", 2),
                    "breakdown, level_g_per_kg \"1000.03\": the children of carcass add up to 1000.03 g/kg, not"
                            + " 1000; rounding explains at most 0.02; they are meat 700, fat-trim 110, bone 184.03, loss 6"
                            + " (category CE) (rows 1 to 4)",
                    "breakdown, level_g_per_kg \"1000.03\": the children of carcass add up to 1000.03 g/kg, not"
                            + " 1000; rounding explains at most 0.02; they are bone 184.03, loss 6, meat 680, fat-trim 130"
                            + " (category D) (rows 3 to 6)");
        }

        @Test
        void theRoundingOfOneColumnExcusesNoOther() {
            refused(
                    TestTables.changeCoefficient(SMALL, 3, 1, -6.99).decimals("level_g_per_kg", 2),
                    "breakdown, per_conformation_point \"0.01\": the children of carcass add up to 0.01 g/kg per"
                            + " point of conformation, not 0; rounding explains at most 0; they are meat 8, fat-trim -1, bone"
                            + " -6.99, loss 0 (category CE) (rows 1 to 4)",
                    "breakdown, per_conformation_point \"0.01\": the children of carcass add up to 0.01 g/kg per"
                            + " point of conformation, not 0; rounding explains at most 0; they are bone -6.99, loss 0, meat"
                            + " 8, fat-trim -1 (category D) (rows 3 to 6)");
        }

        @Test
        void roundingIsTakenOffInProportionToLevelAndReported() {
            YieldTable table = YieldTable.of(TestTables.changeCoefficient(SMALL, 3, 0, 184.02)
                    .decimals("level_g_per_kg", 2)
                    .build());
            assertThat(table.closingCorrections()).singleElement().satisfies(correction -> {
                assertThat(correction.categories()).isEqualTo("CED");
                assertThat(correction.parent()).isEqualTo("carcass");
                assertThat(correction.way()).isEqualTo("*");
                assertThat(correction.column()).isEqualTo("level_g_per_kg");
                assertThat(correction.excess()).isCloseTo(0.02, within(1e-9));
            });
            double[] shares = Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                    .shares(8, 8, 340);
            // every child gives up the same fraction of its level: 0.02 of 1000.02
            List<Double> levels = List.of(700.0, 110.0, 184.02, 6.0);
            List<String> cuts = List.of("meat", "fat-trim", "bone", "loss");
            for (int i = 0; i < 4; i++) {
                assertThat(shares[Engine.layout(table).slot(0, cuts.get(i))])
                        .as(cuts.get(i))
                        .isCloseTo((levels.get(i) - 0.02 * levels.get(i) / 1000.02) / 1000, within(1e-15));
            }
        }

        @Test
        void theRoundingOfASlopeIsTakenOffInProportionToLevelToo() {
            YieldTable table = YieldTable.of(TestTables.changeCoefficient(SMALL, 8, 1, 1.01)
                    .decimals("per_conformation_point", 2)
                    .build());
            assertThat(table.closingCorrections())
                    .extracting(ClosingCorrection::parent, ClosingCorrection::column)
                    .containsExactly(tuple("meat", "per_conformation_point"));
            assertThat(table.closingCorrections().get(0).excess()).isCloseTo(0.01, within(1e-9));
            double[] shares = Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                    .shares(10, 8, 340);
            double meat = shares[Engine.layout(table).slot(0, "meat")];
            assertThat(shares[Engine.layout(table).slot(1, "hind")] / meat)
                    .isCloseTo((440 + 2 * (1.01 - 0.01 * 440 / 1000)) / 1000, within(1e-15));
            assertThat(shares[Engine.layout(table).slot(1, "fore")] / meat)
                    .isCloseTo((560 + 2 * (-1 - 0.01 * 560 / 1000)) / 1000, within(1e-15));
        }

        @Test
        void categoriesWithDifferentExcessesAreReportedApart() {
            YieldTable table = YieldTable.of(TestTables.changeCoefficient(SMALL, 6, 0, 130.02)
                    .decimals("level_g_per_kg", 2)
                    .build());
            assertThat(table.closingCorrections())
                    .extracting(ClosingCorrection::categories)
                    .containsExactly("D");
        }
    }

    @Nested
    class Positivity {
        @Test
        void aShareBelowZeroOnlyAtOneCornerIsNamedWithGradeAndWeight() {
            // at S+ 5+ the loss is 6 - 10 x 0.3 - 7 x 0.3 = 0.9, less 1.9 x 0.5 = 0.95 at 150 kg; a point less of
            // either grade leaves 0.25
            TableDefinition loss = TestTables.changeRow(SMALL, 4, row -> coefficients(row, 6.0, -0.3, -0.3, 0.5))
                    .build();
            refused(
                    TestTables.changeRow(loss, 3, row -> coefficients(row, 184.0, -6.7, -1.7, -5.5)),
                    "breakdown row 4, cut \"loss\": its share of carcass is -0.050 g/kg at category CE, loss of"
                            + " carcass, S+ 5+, 150 kg; a share is at least 0 over the whole allowed range",
                    "breakdown row 4, cut \"loss\": its share of carcass is -0.050 g/kg at category D, loss of"
                            + " carcass, S+ 5+, 150 kg; a share is at least 0 over the whole allowed range");
        }

        private BreakdownRow coefficients(BreakdownRow row, Double... coefficients) {
            return new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    List.of(coefficients),
                    row.sdGPerKg(),
                    row.source());
        }

        @Test
        void aShareBelowZeroAtTheHighWeightOnlyIsFound() {
            // 6 - 3 t: at 600 kg t = 2.6
            TableDefinition bone =
                    TestTables.changeCoefficient(SMALL, 3, 3, -2.0).build();
            refusedByProof(
                    TestTables.changeCoefficient(bone, 4, 3, -3.0),
                    "breakdown row 4, cut \"loss\": its share of carcass is -1.800 g/kg at category CE, loss of"
                            + " carcass, P- 1-, 600 kg; a share is at least 0 over the whole allowed range (and at 269"
                            + " more nodes)");
        }

        @Test
        void aShareBelowZeroInOneWayIsNamedWithTheWay() {
            TableDefinition steak =
                    TestTables.changeCoefficient(THREE, 14, 3, -50.0).build();
            refusedByProof(
                    TestTables.changeCoefficient(steak, 11, 3, 50.0),
                    "breakdown row 14, cut \"fat-trim\": its share of striploin is -38.000 g/kg at category CEA, way"
                            + " steaks, fat-trim of striploin, P- 1-, 600 kg; a share is at least 0 over the whole"
                            + " allowed range (and at 269 more nodes)");
        }

        @Test
        void aShareBelowZeroInAWayThatNoSpecificationChoosesIsFound() {
            TableDefinition lean = TestTables.changeRow(
                            THREE, 33, row -> coefficients(row, 997.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0))
                    .build();
            refusedByProof(
                    TestTables.changeRow(lean, 34, row -> coefficients(row, -5.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)),
                    "breakdown row 34, cut \"fat-trim\": its share of chuck is -5.000 g/kg at category CEA, way trim,"
                            + " fat-trim of chuck, P- 1-, 150 kg; a share is at least 0 over the whole allowed range"
                            + " (and at 269 more nodes)");
        }

        private void refusedByProof(TableDefinition.Builder builder, String first) {
            InvalidTableException refusal =
                    catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(builder.build()));
            assertThat(refusal).isNotNull();
            assertThat(refusal.problems().get(0)).hasToString(first);
        }

        @Test
        void aShareOfExactlyZeroIsNoFault() {
            TableDefinition bone =
                    TestTables.changeCoefficient(SMALL, 3, 0, 190.0).build();
            YieldTable table =
                    YieldTable.of(TestTables.changeCoefficient(bone, 4, 0, 0.0).build());
            assertThat(table.proof().findings().get(0).marginGPerKg()).isZero();
        }
    }

    @Nested
    class Specifications {
        @Test
        void aSpecificationWithoutANameIsRefused() {
            refused(
                    three().specification(" ", "striploin", "steaks")
                            .specification(" ", "rump", "steaks")
                            .specification(" ", "chuck", "dice"),
                    "specifications row 7, specification: a specification has a name",
                    "specifications row 8, specification: a specification has a name",
                    "specifications row 9, specification: a specification has a name");
        }

        @Test
        void aWayThatTheCutDoesNotHaveIsRefusedWithThoseItHas() {
            refused(
                    three().specification("other", "striploin", "dice")
                            .specification("other", "rump", "steaks")
                            .specification("other", "chuck", "dice"),
                    "specifications row 7, way \"dice\": no way \"dice\" of striploin; its ways: joints, steaks");
        }

        @Test
        void aWayOfACutWithoutWaysIsRefusedWithTheCutsThatHaveSome() {
            refused(
                    three().specification("steaks", "brisket", "joints"),
                    "specifications row 7, parent \"brisket\": \"brisket\" has no ways to choose from; cuts that have:"
                            + " striploin, rump, chuck");
        }

        @Test
        void aWayOfACutThatIsNotThereIsRefusedWithTheNearest() {
            refused(
                    three().specification("steaks", "stripoin", "steaks"),
                    "specifications row 7, parent \"stripoin\": no cut \"stripoin\"; nearest: striploin, brisket, rump");
        }

        @Test
        void aWayInATableWithoutWaysIsRefused() {
            refused(
                    small().specification("steaks", "hind", "steaks"),
                    "specifications row 1, parent \"hind\": no cut of this table has ways to choose from");
        }

        @Test
        void twoWaysOfOneCutAreRefused() {
            refused(
                    three().specification("steaks", "rump", "joints"),
                    "specifications row 7, parent \"rump\": this specification has a way for it above");
        }

        @Test
        void anIncompleteSpecificationIsRefusedWithWhatIsMissing() {
            refused(
                    three().specification("half", "rump", "joints"),
                    "specifications, specification \"half\": no way is given for striploin (joints, steaks), chuck (dice, trim)");
        }

        @Test
        void aSpecificationIsFoundByName() {
            YieldTable table = YieldTable.of(THREE);
            assertThat(table.specifications())
                    .extracting(CuttingSpecification::name)
                    .containsExactly("steaks", "joints");
            assertThat(table.specification("joints").ways())
                    .isEqualTo(Map.of("striploin", "joints", "rump", "joints", "chuck", "dice"));
            assertThatThrownBy(() -> table.specification("trim"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no cutting specification \"trim\" in table three-levels; it has steaks, joints");
            assertThatThrownBy(() -> YieldTable.of(SMALL).specification("trim"))
                    .hasMessage("no cutting specification \"trim\" in table small; it has none");
        }

        @Test
        void aSpecificationOfTheCallerIsChecked() {
            YieldTable table = YieldTable.of(THREE);
            assertThatThrownBy(() -> table.check(CuttingSpecification.of("mine", Map.of("rump", "joints"))))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage(
                            "cutting specification \"mine\" is incomplete: no way is given for striploin (joints, steaks), chuck (dice, trim)");
            assertThatThrownBy(() -> table.check(CuttingSpecification.NONE))
                    .hasMessage(
                            "table three-levels needs a cutting specification: no way is given for striploin (joints, steaks), rump (joints, steaks), chuck (dice, trim)");
            assertThatThrownBy(() -> table.check(table.specification("steaks").with("rump", "dice")))
                    .hasMessage("no way \"dice\" of rump; its ways: joints, steaks");
        }

        @Test
        void theWaysOfACutAreListed() {
            YieldTable table = YieldTable.of(THREE);
            assertThat(table.ways("striploin")).containsExactly("joints", "steaks");
            assertThat(table.ways("brisket")).isEmpty();
            assertThat(table.ways("carcass")).isEmpty();
        }

        @Test
        void theWaysOfAnUnknownCutAreRefusedWithTheCutsThatHaveWays() {
            assertThatThrownBy(() -> YieldTable.of(THREE).ways("sirloin"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no cut \"sirloin\"; cuts with ways: striploin, rump, chuck");
            assertThatThrownBy(() -> YieldTable.of(SMALL).ways("sirloin"))
                    .hasMessage("no cut \"sirloin\"; no cut of table small has ways");
        }

        @Test
        void oneChangedWayShowsInTheName() {
            CuttingSpecification steaks = YieldTable.of(THREE).specification("steaks");
            CuttingSpecification changed = steaks.with("striploin", "joints");
            assertThat(changed).hasToString("steaks, striploin as joints");
            assertThat(changed.ways()).isEqualTo(Map.of("striploin", "joints", "rump", "steaks", "chuck", "dice"));
            assertThat(steaks.with("striploin", "steaks")).isSameAs(steaks);
            assertThat(CuttingSpecification.NONE.with("rump", "joints")).hasToString("rump as joints");
        }

        @Test
        void specificationsOfEqualNameAndWaysAreEqual() {
            CuttingSpecification one = CuttingSpecification.of("a", Map.of("rump", "joints"));
            assertThat(one)
                    .isEqualTo(CuttingSpecification.of("a", Map.of("rump", "joints")))
                    .hasSameHashCodeAs(CuttingSpecification.of("a", Map.of("rump", "joints")))
                    .isNotEqualTo(CuttingSpecification.of("b", Map.of("rump", "joints")))
                    .isNotEqualTo(CuttingSpecification.of("a", Map.of("rump", "steaks")));
        }
    }

    @Nested
    class Quartering {
        private TableDefinition.Builder quartered(String... cuts) {
            TableDefinition.Builder builder = small();
            for (String cut : cuts) {
                builder.quartering(new QuarteringRow("pistola", cut, 0.5, SOURCE));
            }
            return builder;
        }

        @Test
        void aQuarteringThatCoversALevelIsTaken() {
            YieldTable table = YieldTable.of(
                    quartered("loss", "fore", "hind", "bone", "fat-trim").build());
            assertThat(table.quarterings()).containsExactly("pistola");
            assertThat(table.quarteredLevel("pistola")).isEqualTo(1);
            assertThat(table.foreShares("pistola")).hasSize(5).containsEntry("fore", 0.5);
            assertThat(YieldTable.of(quartered("meat", "fat-trim", "bone", "loss")
                                    .build())
                            .quarteredLevel("pistola"))
                    .isZero();
        }

        @Test
        void aQuarteringThatLeavesACutOutIsRefused() {
            refused(
                    quartered("fore", "hind", "bone", "fat-trim"),
                    "quartering, quartering \"pistola\": its cuts are not all the cuts of one level"
                            + "; the nearest level is primal; missing: loss");
        }

        @Test
        void aQuarteringOfTwoLevelsIsRefused() {
            refused(
                    quartered("meat", "fore", "hind", "bone", "fat-trim", "loss"),
                    "quartering, quartering \"pistola\": its cuts are not all the cuts of one level"
                            + "; the nearest level is primal; too many: meat");
        }

        @Test
        void anUnknownCutInAQuarteringIsRefused() {
            refused(
                    quartered("fore", "hind", "bone", "fat-trim", "loss", "tongue"),
                    "quartering row 6, cut \"tongue\": no such cut in cuts; nearest: bone, fore, hind",
                    "quartering, quartering \"pistola\": its cuts are not all the cuts of one level"
                            + "; the nearest level is primal; too many: tongue");
        }

        @Test
        void aCutThatStandsTwiceInAQuarteringIsRefused() {
            refused(
                    quartered("fore", "hind", "bone", "fat-trim", "loss", "hind"),
                    "quartering row 6, cut \"hind\": this quartering has a row for it above");
        }

        @ParameterizedTest
        @CsvSource({"-0.01, -0.01", "1.5, 1.5", "NaN, NaN"})
        void aShareOutsideZeroToOneIsRefused(double share, String printed) {
            refused(
                    quartered("fore", "hind", "bone", "fat-trim")
                            .quartering(new QuarteringRow("pistola", "loss", share, SOURCE)),
                    "quartering row 5, fore_share \"" + printed + "\": a share is 0 to 1");
        }

        @Test
        void aQuarteringWithoutSourceIsRefused() {
            refused(
                    quartered("fore", "hind", "bone", "fat-trim")
                            .quartering(new QuarteringRow("pistola", "loss", 1, "")),
                    "quartering row 5, source: every row names its source; write one of the names in sources");
        }

        @Test
        void aQuarteringWithoutANameIsRefused() {
            TableDefinition.Builder builder = small();
            for (String cut : List.of("meat", "fat-trim", "bone", "loss")) {
                builder.quartering(new QuarteringRow("pistola", cut, cut.equals("meat") ? 0 : 1, SOURCE));
            }
            assertThat(YieldTable.of(builder.build()).foreShares("pistola")).containsEntry("meat", 0.0);
            refused(
                    TestTables.small().toBuilder()
                            .quartering(new QuarteringRow(" ", "meat", 0.5, SOURCE))
                            .quartering(new QuarteringRow(" ", "fat-trim", 0.5, SOURCE))
                            .quartering(new QuarteringRow(" ", "bone", 0.5, SOURCE))
                            .quartering(new QuarteringRow(" ", "loss", 0.5, SOURCE)),
                    "quartering row 1, quartering: a quartering has a name",
                    "quartering row 2, quartering: a quartering has a name",
                    "quartering row 3, quartering: a quartering has a name",
                    "quartering row 4, quartering: a quartering has a name");
        }

        @Test
        void anUnknownQuarteringIsRefusedWithThoseThereAre() {
            assertThatThrownBy(() -> YieldTable.of(THREE).foreShares("pistola"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no quartering \"pistola\" in table three-levels; it has 10-rib forequarter");
            assertThatThrownBy(() -> YieldTable.of(SMALL).quarteredLevel("pistola"))
                    .hasMessage("no quartering \"pistola\" in table small; it has none");
        }
    }

    @Nested
    class NotesNamesAndExtraColumns {
        private CoefficientNote note(String category, String cut, String term, Double error, String source) {
            return new CoefficientNote(category, "*", "meat", cut, term, error, source);
        }

        @Test
        void aNoteOnARowThatIsNotThereIsRefused() {
            refused(
                    small().coefficientNote(note("C", "hind", "per_100kg", 1.0, SOURCE)),
                    "coefficient-notes row 1, cut \"hind\": no row of breakdown has these keys");
        }

        @Test
        void aNoteOnATermThatIsNotThereIsRefused() {
            refused(
                    small().coefficientNote(note("*", "hind", "per_kg", null, SOURCE)),
                    "coefficient-notes row 1, term \"per_kg\": no such term; terms: level_g_per_kg, per_conformation_point,"
                            + " per_fat_point, per_100kg, sd_g_per_kg, lot_sd_g_per_kg, run_sd_g_per_kg,"
                            + " hall_sd_g_per_kg");
        }

        @Test
        void aNoteOfAnUnknownSourceIsRefused() {
            refused(
                    small().coefficientNote(note("*", "hind", "sd_g_per_kg", null, "hearsay")),
                    "coefficient-notes row 1, source \"hearsay\": no such source in sources");
        }

        @Test
        void aSecondNoteOnOneCoefficientIsRefused() {
            refused(
                    small().coefficientNote(note("*", "hind", "per_100kg", null, SOURCE))
                            .coefficientNote(note("*", "hind", "per_fat_point", null, SOURCE))
                            .coefficientNote(note("*", "fore", "per_100kg", null, SOURCE))
                            .coefficientNote(note("*", "hind", "per_100kg", 0.4, SOURCE)),
                    "coefficient-notes row 4, term \"per_100kg\": a note on the same coefficient stands above");
        }

        @Test
        void aStandardErrorOfNothingIsOne() {
            YieldTable table = YieldTable.of(small().coefficientNote(note("*", "hind", "per_100kg", 0.0, SOURCE))
                    .build());
            assertThat(table.definition().coefficientNotes()).hasSize(1);
        }

        @ParameterizedTest
        @CsvSource({"-1, -1", "NaN, NaN", "Infinity, Infinity"})
        void aStandardErrorThatIsNoneIsRefused(double error, String printed) {
            refused(
                    small().coefficientNote(note("*", "hind", "per_100kg", error, SOURCE)),
                    "coefficient-notes row 1, standard_error \"" + printed + "\": a standard error is 0 or more");
        }

        @Test
        void aNameOfAnUnknownCutIsRefused() {
            refused(
                    small().name(new CutName("tongue", "de", "Zunge")),
                    "names row 1, cut \"tongue\": no such cut in cuts; nearest: bone, fore, hind");
        }

        @Test
        void aNameIsFoundByCutAndLanguage() {
            YieldTable table = YieldTable.of(THREE);
            assertThat(table.name("striploin", "de")).contains("Roastbeef");
            assertThat(table.name("striploin", "fr")).isEmpty();
            assertThat(table.name("rump", "de")).isEmpty();
            assertThatThrownBy(() -> table.name("stripoin", "de"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no cut \"stripoin\"; nearest: striploin, brisket, rump");
        }

        @Test
        void anExtraColumnWithAValueTooFewIsRefused() {
            refused(
                    small().extraColumn(new ExtraColumn("sources", "checked_by", "string", List.of())),
                    "sources, checked_by: an extra column has a value for each row: it has 0, sources has 1 rows");
        }

        @Test
        void anExtraColumnOfATakenNameIsRefused() {
            refused(
                    small().extraColumn(new ExtraColumn("sources", "note", "string", List.of(""))),
                    "sources, note: an extra column has a name of its own; sources has this one");
        }

        @Test
        void anExtraColumnWithBlanksInFrontOfItsNameIsRefused() {
            refused(
                    small().extraColumn(new ExtraColumn("sources", " by", "string", List.of(""))),
                    "sources,  by: a column has a name without blanks at its ends and without control characters");
        }

        @ParameterizedTest
        @CsvSource({
            "number, 1.5e3, '1,5'",
            "integer, -12, 1.5",
            "boolean, true, yes",
            "date, 2026-02-28, 2026-02-30",
            "year, 2026, '26 AD'"
        })
        void theValuesOfAnExtraColumnAreOfItsDeclaredType(String type, String good, String bad) {
            YieldTable.of(small().extraColumn(new ExtraColumn("sources", "x", type, List.of(good)))
                    .build());
            YieldTable.of(small().extraColumn(new ExtraColumn("sources", "x", type, List.of("")))
                    .build());
            refused(
                    small().extraColumn(new ExtraColumn("sources", "x", type, List.of(bad))),
                    "sources row 1, x \"" + bad + "\": the column is declared as " + type);
        }

        @Test
        void aNameGivenTwiceInOneLanguageIsRefused() {
            refused(
                    small().name(new CutName("bone", "de", "Knochen")).name(new CutName("bone", "de", "Bein")),
                    "names row 2, language \"de\": the cut's name in this language stands above");
        }

        @ParameterizedTest
        @ValueSource(strings = {" x", "x ", "a\nb", "a\u0007b", "a\ud800b"})
        void aTextThatAFileWouldNotGiveBackIsRefused(String text) {
            refused(
                    small().name(new CutName("bone", "de", text)),
                    "names row 1, name \"" + text + "\": a text has no blanks at its ends, and no line break, control"
                            + " character or half a character in it");
        }

        @Test
        void anExtraColumnOfNoPartIsRefused() {
            refused(
                    small().extraColumn(new ExtraColumn("prices", "checked_by", "string", List.of("me"))),
                    "prices, checked_by: an extra column belongs to a part of the table that has rows; parts: cuts, breakdown, sources");
        }

        @Test
        void anExtraColumnIsCarriedBehindTheTablesOwn() {
            YieldTable table =
                    YieldTable.of(small().extraColumn(new ExtraColumn("sources", "checked_by", "string", List.of("mb")))
                            .build());
            TableResource sources = table.definition().resources().get(2);
            assertThat(sources.name()).isEqualTo("sources");
            assertThat(sources.columns()).containsExactly("source", "kind", "citation", "note", "checked_by");
            assertThat(sources.rows())
                    .containsExactly(List.of("invented", "assumption", "invented for tests", "", "mb"));
        }
    }

    @Nested
    class AllTogether {
        @Test
        void everyFaultOfADefinitionIsReported() {
            refused(
                    small().widthFit(9)
                            .source(TestTables.source(SOURCE))
                            .cut(Cut.of("steak", "Steak", "retail", CutKind.STEAK))
                            .row("ribs", "tongue", -1, "", Double.NaN)
                            .row("*", "", "meat", "hind", 0, SOURCE),
                    "table, width_fit \"9\": width_fit is 0 to 3 points",
                    "sources row 2, source \"invented\": a source of this name stands above",
                    "cuts row 7, level \"retail\": no such level; levels: tissue, primal",
                    "breakdown row 9, parent \"ribs\": unknown parent: it is neither carcass nor a cut of this table; nearest: hind, loss, meat",
                    "breakdown row 9, cut \"tongue\": no such cut in cuts; nearest: bone, fore, hind",
                    "breakdown row 9, source: every row names its source; write one of the names in sources",
                    "breakdown row 9, level_g_per_kg \"NaN\": a coefficient is a finite number",
                    "breakdown row 9, sd_g_per_kg \"-1\": an SD is 0 to 1000 g/kg",
                    "breakdown row 10, way: a way is a name, or * for every way");
        }

        @Test
        void everyBreakdownThatDoesNotCloseIsReported() {
            TableDefinition one =
                    TestTables.changeCoefficient(SMALL, 7, 0, 561.0).build();
            refused(
                    TestTables.changeCoefficient(one, 6, 1, 0.0),
                    "breakdown, level_g_per_kg \"1001\": the children of meat add up to 1001 g/kg, not 1000;"
                            + " rounding explains at most 0; they are fore 561, hind 440 (category CED) (rows 7, 8)",
                    "breakdown, per_conformation_point \"1\": the children of carcass add up to 1 g/kg per point of"
                            + " conformation, not 0; rounding explains at most 0; they are bone -7, loss 0, meat 8, fat-trim 0"
                            + " (category D) (rows 3 to 6)");
        }

        @Test
        void everyFaultAroundTheBreakdownsIsReported() {
            refused(
                    three().specification("half", "rump", "joints")
                            .quartering(new QuarteringRow("pistola", "rump", 2, SOURCE))
                            .coefficientNote(new CoefficientNote("*", "*", "meat", "rump", "x", null, SOURCE))
                            .name(new CutName("tongue", "de", "Zunge"))
                            .extraColumn(new ExtraColumn("prices", "x", "string", List.of())),
                    "specifications, specification \"half\": no way is given for striploin (joints, steaks), chuck (dice, trim)",
                    "quartering row 8, fore_share \"2\": a share is 0 to 1",
                    "quartering, quartering \"pistola\": its cuts are not all the cuts of one level"
                            + "; the nearest level is tissue; missing: meat, fat-trim, bone, loss; too many: rump",
                    "coefficient-notes row 3, term \"x\": no such term; terms: level_g_per_kg, per_conformation_point, per_fat_point,"
                            + " per_100kg, fat_below_3, conformation_above_15, conformation_by_fat, fat_by_100kg,"
                            + " sd_g_per_kg, lot_sd_g_per_kg, run_sd_g_per_kg, hall_sd_g_per_kg",
                    "names row 2, cut \"tongue\": no such cut in cuts; nearest: bone, dice, loss",
                    "prices, x: an extra column belongs to a part of the table that has rows; parts: cuts, breakdown, specifications, quartering, coefficient-notes, expectations, names, sources");
        }
    }

    @Nested
    class Specificity {
        private double share(TableDefinition.Builder builder, Category category, String way, String cut) {
            YieldTable table = YieldTable.of(builder.build());
            CuttingSpecification specification = table.specification("steaks").with("rump", way);
            double[] shares = Engine.grid(table, category, specification).shares(8, 8, 340);
            return 1000
                    * shares[Engine.layout(table).slot(2, cut)]
                    / shares[Engine.layout(table).slot(1, "rump")];
        }

        @Test
        void aRowForACategoryWinsOverOneForAll() {
            YieldTable table = YieldTable.of(SMALL);
            int meat = Engine.layout(table).slot(0, "meat");
            assertThat(Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[meat])
                    .isEqualTo(0.7);
            assertThat(Engine.grid(table, Category.COW, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[meat])
                    .isEqualTo(0.68);
        }

        @Test
        void theRowsOfACategoryReplaceSingleCutsOnly() {
            YieldTable table = YieldTable.of(SMALL);
            int bone = Engine.layout(table).slot(0, "bone");
            assertThat(Engine.grid(table, Category.COW, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[bone])
                    .isEqualTo(Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                            .shares(8, 8, 340)[bone]);
        }

        @Test
        void aRowForAWayWinsOverOneForAll() {
            // loss in any way 8; as joints 10, made up for by the fat trim
            TableDefinition.Builder builder = TestTables.changeRows(
                    THREE,
                    row -> row.parent().equals("rump")
                                    && row.cut().equals("loss")
                                    && row.way().equals("steaks")
                            ? new BreakdownRow("*", "*", "rump", "loss", row.coefficients(), 2, SOURCE)
                            : row);
            TableDefinition any = builder.build();
            int joints = any.breakdown()
                    .indexOf(any.breakdown().stream()
                            .filter(row -> row.parent().equals("rump")
                                    && row.cut().equals("loss")
                                    && row.way().equals("joints"))
                            .findFirst()
                            .orElseThrow());
            TableDefinition ten =
                    TestTables.changeCoefficient(any, joints + 1, 0, 10.0).build();
            TableDefinition closed =
                    TestTables.changeCoefficient(ten, joints, 0, 60.0).build();
            assertThat(share(closed.toBuilder(), Category.STEER, "steaks", "rump-steak"))
                    .isCloseTo(750, within(1e-9));
            YieldTable table = YieldTable.of(closed);
            assertThat(fatTrimOfRump(table, "joints")).isCloseTo(60, within(1e-9));
            assertThat(fatTrimOfRump(table, "steaks")).isCloseTo(62, within(1e-9));
        }

        /** Fat trim per kg of rump: that of the last level less what the others gave. */
        private double fatTrimOfRump(YieldTable table, String way) {
            CuttingSpecification specification = table.specification("steaks").with("rump", way);
            double[] shares = Engine.grid(table, Category.STEER, specification).shares(8, 8, 340);
            double ofOthers = shares[Engine.layout(table).slot(1, "striploin")] * 0.092
                    + shares[Engine.layout(table).slot(1, "brisket")] * 0.082
                    + shares[Engine.layout(table).slot(1, "chuck")] * 0.092
                    + shares[Engine.layout(table).slot(1, "fat-trim")];
            return 1000
                    * (shares[Engine.layout(table).slot(2, "fat-trim")] - ofOthers)
                    / shares[Engine.layout(table).slot(1, "rump")];
        }

        @Test
        void aRowForACategoryAndAWayWinsOverOneForAWay() {
            TableDefinition.Builder builder = three().row("D", "steaks", "rump", "rump-steak", 15, SOURCE, 700, 0, 0, 2)
                    .row("D", "steaks", "rump", "dice", 15, SOURCE, 170);
            assertThat(share(builder, Category.COW, "steaks", "rump-steak")).isCloseTo(700, within(1e-9));
            assertThat(share(builder, Category.HEIFER, "steaks", "rump-steak")).isCloseTo(750, within(1e-9));
            assertThat(share(builder, Category.COW, "joints", "rump-joint")).isCloseTo(850, within(1e-9));
        }

        @Test
        void theMostSpecificRowSettlesWhatTwoOthersLeaveOpen() {
            // a row for cows, one for steaks, and one for both that wins over either, in whatever order
            for (int order = 0; order < 3; order++) {
                List<BreakdownRow> rows =
                        new ArrayList<>(List.of(loss("D", "*", 8), loss("*", "steaks", 8), loss("D", "steaks", 9)));
                Collections.rotate(rows, order);
                TableDefinition.Builder builder = THREE.toBuilder().clearBreakdown();
                THREE.breakdown().stream()
                        .filter(row -> !(row.parent().equals("rump")
                                && row.cut().equals("loss")
                                && row.way().equals("steaks")))
                        .filter(row -> !(row.parent().equals("rump")
                                && row.cut().equals("loss")
                                && row.way().equals("joints")))
                        .forEach(builder::row);
                rows.forEach(builder::row);
                builder.row(loss("*", "*", 8)).row("D", "steaks", "rump", "rump-steak", 15, SOURCE, 749, 0, 0, 2);
                // were it 8, the breakdown of a cow's rump to steaks would not close
                assertThat(share(builder, Category.COW, "steaks", "rump-steak")).isCloseTo(749, within(1e-9));
            }
        }

        private BreakdownRow loss(String category, String way, double level) {
            return new BreakdownRow(
                    category, way, "rump", "loss", List.of(level, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0), 2, SOURCE);
        }

        @Test
        void categoriesWithEqualRowsShareAGroup() {
            assertThat(YieldTable.of(SMALL).categoryGroups())
                    .containsExactly(List.of(Category.STEER, Category.HEIFER), List.of(Category.COW));
            assertThat(YieldTable.of(TestTables.withoutRows(SMALL, 5, 6).build())
                            .categoryGroups())
                    .containsExactly(List.of(Category.STEER, Category.HEIFER, Category.COW));
        }
    }

    @Nested
    class Facts {
        @Test
        void aCategoryThatIsNotServedHasNoGridAndNoErrors() {
            YieldTable table = YieldTable.of(SMALL);
            YieldGrid grid = Engine.grid(table, Category.STEER, CuttingSpecification.NONE);
            CompiledTable compiled = table.unwrap(CompiledTable.class);
            assertThatThrownBy(() -> compiled.group(Category.CALF))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("category Z is not served");
            assertThatThrownBy(() -> compiled.errors(Category.CALF, Map.of(), grid))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("category Z is not served");
            assertThat(table.notServed(Category.CALF))
                    .isEqualTo("category Z is not served by table small, which serves C E D");
        }

        @Test
        void aTableIsCompiledToTheEngineAndToNothingElse() {
            assertThatThrownBy(() -> YieldTable.of(SMALL).unwrap(String.class))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("a table is not compiled to a String");
        }

        @Test
        void theCutsOfALevelAreThoseThatStandThere() {
            YieldTable table = YieldTable.of(SMALL);
            assertThat(table.cutsAt("tissue"))
                    .extracting(Cut::code)
                    .containsExactly("meat", "fat-trim", "bone", "loss");
            assertThat(table.cutsAt("primal"))
                    .extracting(Cut::code)
                    .containsExactly("fore", "hind", "fat-trim", "bone", "loss");
            assertThatThrownBy(() -> table.cutsAt("retail"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no level \"retail\"; levels: tissue, primal");
        }

        @Test
        void theIdentityIsNameVersionAndTwelveDigitsOfTheDigest() {
            YieldTable table = YieldTable.of(SMALL);
            assertThat(table.digest()).matches("[0-9a-f]{64}");
            assertThat(table.identity()).isEqualTo("small@1.0#" + table.digest().substring(0, 12));
            assertThat(table).hasToString(table.identity());
        }

        @Test
        void cutsThatMinceNeedsAFatContentOfAreListed() {
            assertThat(YieldTable.of(THREE).cutsWithoutFatContent()).isEmpty();
            assertThat(YieldTable.of(SMALL).cutsWithoutFatContent()).containsExactly("fat-trim");
            TableDefinition.Builder unstated = TableDefinition.builder("unstated", "1")
                    .levels("all")
                    .categories(Category.COW)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("trimmings", "Trimmings", "all", CutKind.LEAN_TRIM))
                    .cut(Cut.of("suet", "Suet", "all", CutKind.FAT_TRIM))
                    .row("carcass", "trimmings", 0, SOURCE, 800)
                    .row("carcass", "suet", 0, SOURCE, 200);
            assertThat(YieldTable.of(unstated.build()).cutsWithoutFatContent())
                    .containsExactly("lean trim of carcass", "suet");
        }

        @Test
        void theLayoutTellsWhereACutStands() {
            TableLayout layout = Engine.layout(YieldTable.of(SMALL));
            assertThat(layout.levels()).containsExactly("tissue", "primal");
            assertThat(layout.cutsAt(0)).extracting(Cut::code).containsExactly("meat", "fat-trim", "bone", "loss");
            assertThat(layout.cutsAt(1))
                    .extracting(Cut::code)
                    .containsExactly("fore", "hind", "fat-trim", "bone", "loss");
            assertThat(layout.size()).isEqualTo(9);
            assertThat(layout.start(1)).isEqualTo(4);
            assertThat(layout.slot(1, "hind")).isEqualTo(5);
            assertThat(layout.lastSlot("meat")).isZero();
            assertThat(layout.lastSlot("bone")).isEqualTo(7);
            assertThat(layout.levelIndex("primal")).isEqualTo(1);
        }

        @Test
        void theLayoutRefusesInWords() {
            TableLayout layout = Engine.layout(YieldTable.of(SMALL));
            assertThatThrownBy(() -> layout.levelIndex("retail"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no level \"retail\"; levels: tissue, primal");
            assertThatThrownBy(() -> layout.slot(1, "meat"))
                    .hasMessage("cut \"meat\" does not stand at level primal; it stands at tissue");
            assertThatThrownBy(() -> layout.slot(1, "hint")).hasMessage("no cut \"hint\"; nearest: hind, meat, bone");
            assertThatThrownBy(() -> layout.lastSlot("hint")).hasMessage("no cut \"hint\"; nearest: hind, meat, bone");
        }

        @Test
        void tablesOfEqualDefinitionsAreEqualAndHashAlike() {
            assertThat(YieldTable.of(SMALL))
                    .isEqualTo(YieldTable.of(TestTables.small()))
                    .hasSameHashCodeAs(YieldTable.of(TestTables.small()))
                    .doesNotHaveSameHashCodeAs(YieldTable.of(THREE));
            assertThat(YieldTable.of(THREE).levels()).containsExactly("tissue", "primal", "retail");
        }

        @Test
        void theDefinitionComesBackAsItWasGiven() {
            assertThat(YieldTable.of(THREE).definition()).isEqualTo(THREE);
            assertThat(THREE.toBuilder().build()).isEqualTo(THREE);
            TableDefinition rounded = small().decimals("per_100kg", 2)
                    .residualDegreesOfFreedom(30)
                    .build();
            assertThat(rounded.toBuilder().build()).isEqualTo(rounded).isNotEqualTo(SMALL);
        }
    }
}
