package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.CoefficientEffect;
import org.beefyield.grid.YieldErrors;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableResource;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a table states of errors that carcasses, or coefficients, have in common. */
class SharedErrorsTest {
    private static final TableDefinition SMALL = TestTables.small();
    private static final String SOURCE = TestTables.SOURCE;

    /** The small table; SDs of lots are half of those between carcasses, of runs a quarter, of halls a fifth. */
    private static TableDefinition.Builder sharing() {
        return TestTables.share(SMALL, SharedErrorsTest::parts);
    }

    private static SharedSds parts(BreakdownRow row) {
        return SharedSds.of(row.sdGPerKg() / 2, row.sdGPerKg() / 4, row.sdGPerKg() / 5);
    }

    private static SharedSds one(SharedBy by, Double sd) {
        return new SharedSds(
                by == SharedBy.LOT ? sd : null, by == SharedBy.RUN ? sd : null, by == SharedBy.HALL ? sd : null);
    }

    private static void refused(TableDefinition.Builder builder, String... problems) {
        TableDefinition definition = builder.build();
        InvalidTableException refusal =
                catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(definition));
        assertThat(refusal).as("a refusal").isNotNull();
        assertThat(refusal.problems()).extracting(TableProblem::toString).containsExactlyInAnyOrder(problems);
    }

    @Nested
    class Statements {
        @Test
        void aTableStatesEachOfTheThreeOrNot() {
            YieldTable none = YieldTable.of(SMALL);
            assertThat(none.states(SharedBy.LOT)).isFalse();
            assertThat(none.sharedNotes())
                    .containsExactly(
                            "The table doesn't state the errors that carcasses of a lot, a run and a hall have in"
                                    + " common: they aren't in its intervals");
            YieldTable all = YieldTable.of(sharing().build());
            assertThat(SharedBy.values()).allMatch(all::states);
            assertThat(all.sharedNotes())
                    .containsExactly(
                            "The table states the errors that carcasses of a lot, a run and a hall have in common");
            YieldTable ofLots = YieldTable.of(
                    TestTables.share(SMALL, row -> one(SharedBy.LOT, 0.0)).build());
            assertThat(ofLots.states(SharedBy.LOT)).isTrue();
            assertThat(ofLots.states(SharedBy.RUN)).isFalse();
            assertThat(ofLots.states(SharedBy.HALL)).isFalse();
            assertThat(ofLots.sharedNotes())
                    .containsExactly(
                            "The table states the errors that carcasses of a lot have in common; it doesn't state"
                                    + " those of a run and a hall, which aren't in its intervals");
        }

        @Test
        void breakdownsOfOneHallAreNamed() {
            YieldTable table = YieldTable.of(TestTables.share(
                            SMALL, row -> row.parent().equals("meat") ? SharedSds.of(1, 1, 0) : SharedSds.of(0, 0, 1))
                    .build());
            assertThat(table.sharedNotes())
                    .containsExactly(
                            "The table states the errors that carcasses of a lot, a run and a hall have in common",
                            "Its SDs between halls are 0 in the breakdown of meat: good for the hall that they come from"
                                    + " alone");
            YieldTable three = YieldTable.of(TestTables.share(TestTables.threeLevels(), row -> SharedSds.of(1, 1, 0))
                    .build());
            assertThat(three.sharedNotes().get(1))
                    .startsWith("Its SDs between halls are 0 in the breakdowns of carcass; meat; striploin, steaks;");
        }

        @Test
        void theProofSaysItBehindWhatIsProved() {
            YieldTable table = YieldTable.of(sharing().build());
            assertThat(table.proof().notes()).isEqualTo(table.sharedNotes());
            assertThat(table.proof().toText())
                    .endsWith(
                            "\n\nThe table states the errors that carcasses of a lot, a run and a hall have in common\n");
        }

        @ParameterizedTest
        @EnumSource(SharedBy.class)
        void someRowsThatStateAnSdAndSomeThatDoNotAreRefused(SharedBy by) {
            String column = Map.of(SharedBy.LOT, "lot", SharedBy.RUN, "run", SharedBy.HALL, "hall")
                            .get(by) + "_sd_g_per_kg";
            refused(
                    TestTables.share(
                            SMALL, row -> row.parent().equals("meat") ? SharedSds.NOT_STATED : one(by, row.sdGPerKg())),
                    "breakdown row 7, " + column
                            + ": the row states none, and 6 other rows do; a table states this SD, 0 to"
                            + " 1000 g/kg, in every row of breakdown and breakdown-by-class or in none",
                    "breakdown row 8, " + column
                            + ": the row states none, and 6 other rows do; a table states this SD, 0 to"
                            + " 1000 g/kg, in every row of breakdown and breakdown-by-class or in none");
        }

        @Test
        void rowsByClassStateWhatRowsOfCoefficientsDo() {
            TableDefinition.Builder builder = byClass(SharedSds.NOT_STATED);
            refused(
                    builder,
                    "breakdown-by-class row 1, run_sd_g_per_kg: the row states none, and 4 other rows do; a table states this"
                            + " SD, 0 to 1000 g/kg, in every row of breakdown and breakdown-by-class or in none",
                    "breakdown-by-class row 2, run_sd_g_per_kg: the row states none, and 4 other rows do; a table states this"
                            + " SD, 0 to 1000 g/kg, in every row of breakdown and breakdown-by-class or in none");
            YieldTable table = YieldTable.of(byClass(one(SharedBy.RUN, 3.0)).build());
            assertThat(table.states(SharedBy.RUN)).isTrue();
            assertThat(table.states(SharedBy.LOT)).isFalse();
            refused(
                    byClass(one(SharedBy.RUN, 1000.5)),
                    "breakdown-by-class row 1, run_sd_g_per_kg \"1000.5\": an SD is 0 to 1000 g/kg",
                    "breakdown-by-class row 2, run_sd_g_per_kg \"1000.5\": an SD is 0 to 1000 g/kg");
        }

        /** The small table at one grade, its meat by class. */
        private TableDefinition.Builder byClass(SharedSds ofCells) {
            TableDefinition.Builder builder = TestTables.smallWithoutRows()
                    .ranges(TestTables.range(8, 8, 8, 8, 230, 500), TestTables.range(8, 8, 8, 8, 150, 600));
            SMALL.breakdown().subList(0, 4).forEach(row -> builder.row(row.withShared(one(SharedBy.RUN, 1.0))));
            return builder.row(new ClassRow("*", "*", "meat", "R", "3", "fore", 560, 5, ofCells, SOURCE))
                    .row(new ClassRow("*", "*", "meat", "R", "3", "hind", 440, 5, ofCells, SOURCE));
        }

        @Test
        void anSdIsZeroToAThousand() {
            for (SharedBy by : SharedBy.values()) {
                for (double sd : new double[] {-0.5, Double.NaN, 1000.25}) {
                    InvalidTableException refusal = catchThrowableOfType(
                            InvalidTableException.class,
                            () -> YieldTable.of(
                                    TestTables.share(SMALL, row -> one(by, sd)).build()));
                    assertThat(refusal.problems())
                            .hasSize(8)
                            .allMatch(problem -> problem.message().equals("an SD is 0 to 1000 g/kg"));
                }
            }
        }

        @Test
        void theColumnsStandInAFileIfTheTableStatesThem() {
            assertThat(columns(SMALL, "breakdown"))
                    .doesNotContain("lot_sd_g_per_kg")
                    .endsWith("sd_g_per_kg", "source");
            assertThat(columns(sharing().build(), "breakdown"))
                    .endsWith("sd_g_per_kg", "lot_sd_g_per_kg", "run_sd_g_per_kg", "hall_sd_g_per_kg", "source");
            TableDefinition ofRuns =
                    TestTables.share(SMALL, row -> one(SharedBy.RUN, 0.0)).build();
            assertThat(columns(ofRuns, "breakdown")).endsWith("sd_g_per_kg", "run_sd_g_per_kg", "source");
            assertThat(ofRuns.resources().get(1).rows().get(0)).endsWith("20", "0", SOURCE);
        }

        @Test
        void anExtraColumnCannotTakeTheNameOfOneThatIsNotThere() {
            refused(
                    SMALL.toBuilder()
                            .extraColumn(new ExtraColumn(
                                    "breakdown",
                                    "hall_sd_g_per_kg",
                                    "string",
                                    List.of("", "", "", "", "", "", "", ""))),
                    "breakdown, hall_sd_g_per_kg: an extra column has a name of its own; breakdown has this one");
        }

        @Test
        void theConvenienceRowCarriesThem() {
            TableDefinition definition = TestTables.smallWithoutRows()
                    .row("carcass", "meat", 20, SharedSds.of(9, 5, 15), SOURCE, 700, 8)
                    .build();
            assertThat(definition.breakdown())
                    .containsExactly(new BreakdownRow(
                            "*",
                            "*",
                            "carcass",
                            "meat",
                            List.of(700.0, 8.0, 0.0, 0.0),
                            20,
                            SharedSds.of(9, 5, 15),
                            SOURCE));
        }

        private static List<String> columns(TableDefinition definition, String resource) {
            return definition.resources().stream()
                    .filter(one -> one.name().equals(resource))
                    .map(TableResource::columns)
                    .findFirst()
                    .orElseThrow();
        }
    }

    @Nested
    class Closing {
        /** Fat trim of the steers has the largest SD; the others' are 3, 4 and 1. */
        private static TableDefinition.Builder ofFatTrim(SharedBy by, double sd) {
            Map<String, Double> sds =
                    Map.of("meat", 3.0, "fat-trim", sd, "bone", 4.0, "loss", 1.0, "fore", 0.0, "hind", 0.0);
            return TestTables.share(SMALL, row -> one(by, sds.get(row.cut())));
        }

        @ParameterizedTest
        @EnumSource(SharedBy.class)
        void theLargestSdIsAtMostTheSumOfTheOthers(SharedBy by) {
            String column = Map.of(SharedBy.LOT, "lot", SharedBy.RUN, "run", SharedBy.HALL, "hall")
                            .get(by) + "_sd_g_per_kg";
            assertThat(YieldTable.of(ofFatTrim(by, 8).build()).states(by)).isTrue();
            refused(
                    ofFatTrim(by, 8.01),
                    "breakdown row 2, " + column
                            + " \"8.01\": the SDs of the children of carcass can't belong to shares that"
                            + " add up to 1: fat-trim varies more than all others together (its SD is at most 8, the sum of"
                            + " the others'); correct them (category CE)",
                    "breakdown row 6, " + column
                            + " \"8.01\": the SDs of the children of carcass can't belong to shares that"
                            + " add up to 1: fat-trim varies more than all others together (its SD is at most 8, the sum of"
                            + " the others'); correct them (category D)");
        }

        /** Outside the range there are no cells, and the first row of the resource is not theirs. */
        @Test
        void classesOutsideTheRangeDoNotCount() {
            TableDefinition.Builder builder = TableDefinition.builder("one-child", "1")
                    .levels("tissue", "primal")
                    .categories(Category.STEER)
                    .ranges(TestTables.range(8, 8, 8, 8, 230, 500), TestTables.range(7, 9, 7, 9, 150, 600))
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .cut(Cut.of("side", "Side", "primal", CutKind.PRIMAL))
                    .row(new ClassRow("*", "*", "carcass", "R", "3", "meat", 800, 5, SharedSds.of(2, 2, 2), SOURCE))
                    .row(new ClassRow("*", "*", "carcass", "R", "3", "bone", 200, 5, SharedSds.of(2, 2, 2), SOURCE))
                    .row(new ClassRow("*", "*", "meat", "R", "3", "side", 1000, 0, SharedSds.of(0, 0, 0), SOURCE));
            assertThat(YieldTable.of(builder.build()).states(SharedBy.LOT)).isTrue();
        }

        @Test
        void eachColumnIsLookedAtByItself() {
            refused(
                    TestTables.share(
                            SMALL,
                            row -> row.cut().equals("fore")
                                    ? SharedSds.of(2, 3, 0)
                                    : row.cut().equals("hind") ? SharedSds.of(1, 3, 1) : SharedSds.of(0, 0, 0)),
                    "breakdown row 7, lot_sd_g_per_kg \"2\": the SDs of the children of meat can't belong to shares that add up"
                            + " to 1: fore varies more than all others together (two children have equal SDs); correct them"
                            + " (category CED)",
                    "breakdown row 8, hall_sd_g_per_kg \"1\": the SDs of the children of meat can't belong to shares that add"
                            + " up to 1: hind varies more than all others together (two children have equal SDs); correct"
                            + " them (category CED)");
        }
    }

    @Nested
    class NamedErrors {
        private static TableDefinition.Builder with(CoefficientNote... notes) {
            TableDefinition.Builder builder = SMALL.toBuilder();
            List.of(notes).forEach(builder::coefficientNote);
            return builder;
        }

        private static CoefficientNote note(String category, String parent, String cut, String term, String id) {
            return new CoefficientNote(category, "*", parent, cut, term, 2.0, id, SOURCE);
        }

        private static Set<List<String>> draws(TableDefinition.Builder builder, Category category) {
            YieldTable table = YieldTable.of(builder.build());
            YieldErrors errors = Engine.errors(table, category, CuttingSpecification.NONE);
            // a figure that hangs on all breakdowns
            double[] figure = new double[errors.grid().length()];
            Arrays.setAll(figure, slot -> 1 + slot);
            Set<List<String>> draws = new HashSet<>();
            for (CoefficientEffect effect : errors.coefficients(Engine.node(table, 8, 8), errors.effects(figure))) {
                draws.add(effect.error().draw());
            }
            return draws;
        }

        @Test
        void errorsOfOneNameAreOneDrawWhereverTheyStand() {
            TableDefinition.Builder builder = with(
                    note("*", "carcass", "meat", "level_g_per_kg", "fit"),
                    note("*", "carcass", "fat-trim", "level_g_per_kg", "fit"),
                    note("D", "carcass", "meat", "level_g_per_kg", "fit"),
                    note("D", "carcass", "fat-trim", "level_g_per_kg", "fit"));
            assertThat(draws(builder, Category.STEER)).containsExactly(List.of("fit"));
            assertThat(draws(builder, Category.COW)).containsExactly(List.of("fit"));
        }

        @Test
        void aCoefficientMayHaveErrorsOfSeveralNamesAndOneWithout() {
            TableDefinition.Builder builder = with(
                    note("D", "carcass", "meat", "level_g_per_kg", ""),
                    note("D", "carcass", "fat-trim", "level_g_per_kg", ""),
                    note("D", "carcass", "meat", "level_g_per_kg", "cows"),
                    note("D", "carcass", "fat-trim", "level_g_per_kg", "cows"));
            assertThat(draws(builder, Category.STEER)).isEmpty();
            assertThat(draws(builder, Category.COW))
                    .hasSize(2)
                    .contains(List.of("cows"))
                    .anyMatch(draw ->
                            draw.size() > 3 && draw.subList(0, 3).equals(List.of("carcass", "*", "level_g_per_kg")));
        }

        @Test
        void namedErrorsComeOnTopOfACovariance() {
            TableDefinition.Builder builder = with(
                            note("*", "meat", "fore", "per_100kg", "fit"),
                            note("*", "meat", "hind", "per_100kg", "fit"))
                    .covariance(covariance("fore", "fore", 4))
                    .covariance(covariance("fore", "hind", -4))
                    .covariance(covariance("hind", "hind", 4));
            assertThat(draws(builder, Category.STEER)).hasSize(2).contains(List.of("fit"));
        }

        private static CovarianceRow covariance(String cut, String other, double value) {
            return new CovarianceRow("*", "*", "meat", cut, "per_fat_point", other, "per_fat_point", value);
        }

        @Test
        void theSameErrorOfACoefficientStandsOnce() {
            refused(
                    with(
                            note("*", "meat", "fore", "per_100kg", "fit"),
                            note("*", "meat", "hind", "per_100kg", "fit"),
                            note("*", "meat", "hind", "per_100kg", "fit"),
                            note("*", "meat", "hind", "per_100kg", "")),
                    "coefficient-notes row 3, term \"per_100kg\": a note on the same coefficient's error fit stands above");
        }

        @Test
        void aNameWithoutAStandardErrorOfACoefficientIsRefused() {
            String message =
                    "an error has a name where a standard error of a coefficient is stated; state it, or leave the"
                            + " name empty";
            refused(
                    with(
                            new CoefficientNote("*", "*", "meat", "fore", "per_100kg", null, "fit", SOURCE),
                            new CoefficientNote("*", "*", "meat", "hind", "sd_g_per_kg", 2.0, "fit", SOURCE)),
                    "coefficient-notes row 1, error_id \"fit\": " + message,
                    "coefficient-notes row 2, error_id \"fit\": " + message);
        }

        @Test
        void errorsOfOneNameThatDoNotCloseAreRefusedWithTheName() {
            refused(
                    with(note("*", "meat", "fore", "per_100kg", "fit")),
                    "breakdown, per_100kg: the standard errors of the children of meat from the error fit can't belong to"
                            + " shares that add up to 1: the largest, 2, is above the sum of the others; state those of all"
                            + " children (category CED)");
        }

        @Test
        void theColumnStandsInAFileIfAnyNoteHasAName() {
            TableDefinition usual =
                    with(note("*", "meat", "fore", "per_100kg", "")).build();
            TableDefinition named = with(
                            note("*", "meat", "fore", "per_100kg", ""), note("*", "meat", "hind", "per_100kg", "fit"))
                    .build();
            assertThat(Statements.columns(usual, "coefficient-notes")).doesNotContain("error_id");
            assertThat(Statements.columns(named, "coefficient-notes")).endsWith("standard_error", "error_id", "source");
        }

        @Test
        void aNoteMayGiveTheSourceOfAnSdInCommon() {
            YieldTable table = YieldTable.of(sharing()
                    .coefficientNote(new CoefficientNote("*", "*", "meat", "fore", "hall_sd_g_per_kg", null, SOURCE))
                    .build());
            assertThat(table.definition().coefficientNotes()).hasSize(1);
        }
    }

    @Nested
    class Comparisons {
        private static List<String> changes(TableDefinition.Builder first, TableDefinition.Builder second) {
            return TableComparison.of(YieldTable.of(first.build()), YieldTable.of(second.build())).changes().stream()
                    .map(TableChange::words)
                    .toList();
        }

        @Test
        void sdsInCommonThatDifferAreChanges() {
            assertThat(changes(SMALL.toBuilder(), sharing()))
                    .containsExactly(
                            "lot_sd_g_per_kg: not stated, now stated",
                            "run_sd_g_per_kg: not stated, now stated",
                            "hall_sd_g_per_kg: not stated, now stated");
            TableDefinition.Builder other = TestTables.share(
                    SMALL,
                    row -> new SharedSds(
                            row.sdGPerKg() / 2,
                            row.sdGPerKg() / 4,
                            row.cut().equals("bone") ? 2.5 : row.sdGPerKg() / 5));
            assertThat(changes(sharing(), other))
                    .containsExactly("hall_sd_g_per_kg of bone of carcass: 2 g/kg, now 2.5 g/kg (25.000 %)");
            assertThat(changes(sharing(), sharing())).isEmpty();
        }

        @Test
        void theOrderOfRowsIsNoChangeAndTheirSourcesAre() {
            TableDefinition definition =
                    sharing().source(TestTables.source("other")).build();
            TableDefinition.Builder turned = definition.toBuilder().clearBreakdown();
            List<BreakdownRow> rows = definition.breakdown();
            for (int i = rows.size() - 1; i >= 0; i--) {
                BreakdownRow row = rows.get(i);
                turned.row(new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        row.shared(),
                        row.source()));
            }
            assertThat(changes(definition.toBuilder(), turned)).isEmpty();
            assertThat(changes(
                            definition.toBuilder(),
                            TestTables.cite(definition, row -> row.cut().equals("hind") ? "other" : row.source())))
                    .containsExactly("hind of meat: invented (assumption), now other (assumption)");
        }

        @Test
        void errorsOfCoefficientsThatDifferAreChanges() {
            TableDefinition.Builder usual = NamedErrors.with(
                    NamedErrors.note("*", "meat", "fore", "per_100kg", ""),
                    NamedErrors.note("*", "meat", "hind", "per_100kg", ""));
            TableDefinition.Builder named = NamedErrors.with(
                    NamedErrors.note("*", "meat", "fore", "per_100kg", "fit"),
                    NamedErrors.note("*", "meat", "hind", "per_100kg", "fit"));
            assertThat(changes(usual, named))
                    .containsExactly(
                            "per_100kg of fore of meat: 2 g/kg, now 0 g/kg (100.000 %)",
                            "per_100kg of fore of meat, error fit: 0 g/kg, now 2 g/kg",
                            "per_100kg of hind of meat: 2 g/kg, now 0 g/kg (100.000 %)",
                            "per_100kg of hind of meat, error fit: 0 g/kg, now 2 g/kg");
        }
    }

    @Nested
    class Overrides {
        private static final YieldTable BASE = YieldTable.of(sharing().build());

        private static BreakdownRow meat(SharedSds shared) {
            return new BreakdownRow("*", "*", "carcass", "meat", List.of(700.0, 8.0, -9.0, 5.0), 21, shared, SOURCE);
        }

        private static SharedSds ofMeat(TableOverride override) {
            return override.build().definition().breakdown().get(0).shared();
        }

        private static TableOverride override() {
            return TableOverride.of(BASE, "hall", "1");
        }

        @Test
        void aRowThatStatesNoneKeepsThoseOfTheRowInItsPlace() {
            assertThat(ofMeat(override().row(meat(SharedSds.NOT_STATED)))).isEqualTo(SharedSds.of(10, 5, 4));
            assertThat(ofMeat(override().row(meat(new SharedSds(null, 7.0, null)))))
                    .isEqualTo(SharedSds.of(10, 7, 4));
            assertThat(ofMeat(override().row(meat(SharedSds.of(9, 7, 6))))).isEqualTo(SharedSds.of(9, 7, 6));
        }

        @Test
        void aNewRowStatesWhatTheTableStates() {
            TableOverride override = override()
                    .row(new BreakdownRow("E", "*", "meat", "fore", List.of(560.0, -1.0, 0.0, 8.0), 5, SOURCE));
            InvalidTableException refusal = catchThrowableOfType(InvalidTableException.class, override::build);
            assertThat(refusal.problems())
                    .hasSize(3)
                    .allMatch(problem -> problem.message().startsWith("the row states none, and 8 other rows do"));
        }

        @Test
        void cellsAndBreakdownsTakenOverBringTheirOwn() {
            YieldTable other = YieldTable.of(
                    TestTables.share(SMALL, row -> SharedSds.of(1, 1, 0)).build());
            YieldTable taken = override().breakdown("meat", other).build();
            assertThat(taken.definition().breakdown())
                    .filteredOn(row -> row.parent().equals("meat"))
                    .hasSize(2)
                    .allMatch(row -> row.shared().equals(SharedSds.of(1, 1, 0)));
            YieldTable byClass = YieldTable.of(cells(SharedSds.of(4, 3, 2)).build());
            ClassRow cell =
                    cells(SharedSds.NOT_STATED).build().breakdownByClass().get(0);
            assertThat(TableOverride.of(byClass, "hall", "1")
                            .row(cell)
                            .build()
                            .definition()
                            .breakdownByClass()
                            .get(0)
                            .shared())
                    .isEqualTo(SharedSds.of(4, 3, 2));
        }

        private static TableDefinition.Builder cells(SharedSds shared) {
            return TableDefinition.builder("cells", "1")
                    .levels("tissue")
                    .categories(Category.STEER)
                    .ranges(TestTables.range(8, 8, 8, 8, 230, 500), TestTables.range(8, 8, 8, 8, 150, 600))
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .row(new ClassRow("*", "*", "carcass", "R", "3", "meat", 800, 5, shared, SOURCE))
                    .row(new ClassRow("*", "*", "carcass", "R", "3", "bone", 200, 5, shared, SOURCE));
        }
    }
}
