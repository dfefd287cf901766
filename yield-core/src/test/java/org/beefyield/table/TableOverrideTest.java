package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;

class TableOverrideTest {
    private static final String SOURCE = TestTables.SOURCE;
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());

    private static TableOverride override(YieldTable base) {
        return TableOverride.of(base, "hall", "7");
    }

    private static TableOverride override(TableDefinition.Builder base) {
        return override(YieldTable.of(base.build()));
    }

    private static BreakdownRow row(
            String category, String parent, String cut, double sd, String source, Double... coefficients) {
        return new BreakdownRow(category, "*", parent, cut, List.of(coefficients), sd, source);
    }

    /** A row of the meat of the three-level table: 4 terms, all 0. */
    private static BreakdownRow meatRow(String cut, double level, double c, double f, double kg, double sd) {
        return row("*", "meat", cut, sd, SOURCE, level, c, f, kg, 0.0, 0.0, 0.0, 0.0);
    }

    private static Provenance code(String part) {
        return new Provenance(part, "given in code");
    }

    private static Provenance from(String part, YieldTable table) {
        return new Provenance(part, table.identity());
    }

    @Test
    void withoutAChangeItIsTheSameTableUnderAnotherName() {
        YieldTable hall = override(THREE).build();
        assertThat(hall.definition())
                .isEqualTo(TestTables.threeLevels().toBuilder("hall", "7")
                        .provenance(from("table", THREE))
                        .build());
        assertThat(hall.digest()).isNotEqualTo(THREE.digest());
        assertThat(TableComparison.of(THREE, hall).within(0)).isTrue();
    }

    @Test
    void whatTheBaseCameFromIsKept() {
        YieldTable hall = override(SMALL).build();
        YieldTable second = TableOverride.of(hall, "hall", "8")
                .cut(Cut.of("bone", "Bones", "tissue", CutKind.BONE))
                .build();
        assertThat(second.definition().provenance())
                .containsExactly(from("table", SMALL), from("table", hall), code("cut bone"));
        assertThat(second.identity()).startsWith("hall@8#");
    }

    @Nested
    class BreakdownsInOneWay {
        private static final List<BreakdownRow> STRIPLOIN = List.of(
                inWay("steaks", "striploin-steak", 820),
                inWay("steaks", "lean-trim", 100),
                inWay("steaks", "fat-trim", 80));

        private static BreakdownRow inWay(String way, String cut, double level) {
            return new BreakdownRow(
                    "*", way, "striploin", cut, List.of(level, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0), 5, SOURCE);
        }

        private static CovarianceRow variance(String way, String cut, String otherCut, double value) {
            return new CovarianceRow("*", way, "striploin", cut, "", otherCut, "", value);
        }

        @Test
        void newRowsAndTheirErrorsTakeThePlaceOfAllInThatWayAndNoOther() {
            CoefficientNote note =
                    new CoefficientNote("*", "steaks", "striploin", "lean-trim", "per_fat_point", null, SOURCE);
            YieldTable hall = override(THREE)
                    .breakdown("striploin", "steaks", STRIPLOIN, List.of(note), List.of())
                    .build();

            assertThat(hall.definition().breakdown().stream()
                            .filter(row -> row.parent().equals("striploin"))
                            .filter(row -> row.way().equals("steaks")))
                    .isEqualTo(STRIPLOIN);
            assertThat(hall.definition().breakdown().stream()
                            .filter(row -> !row.parent().equals("striploin")
                                    || !row.way().equals("steaks")))
                    .isEqualTo(THREE.definition().breakdown().stream()
                            .filter(row -> !row.parent().equals("striploin")
                                    || !row.way().equals("steaks"))
                            .toList());
            assertThat(hall.definition().coefficientNotes()).contains(note).hasSize(3);
            assertThat(hall.definition().provenance())
                    .containsExactly(from("table", THREE), code("breakdown of striploin, steaks"));
        }

        @Test
        void whatBelongsToAnotherParentOrWayIsRefused() {
            assertThatThrownBy(() -> override(THREE).breakdown("striploin", "joints", STRIPLOIN, List.of(), List.of()))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("what belongs to the breakdown of striploin, steaks is none of striploin, joints, whose"
                            + " rows are given");
            assertThatThrownBy(() -> override(SMALL)
                            .breakdown(
                                    "meat",
                                    "*",
                                    List.of(),
                                    List.of(),
                                    List.of(variance("steaks", "lean-trim", "lean-trim", 1))))
                    .hasMessage(
                            "what belongs to the breakdown of striploin, steaks is none of meat, whose rows are given");
        }
    }

    @Test
    void rangesErrorsAndOriginsCanBeStated() {
        TableRange range = TestTables.range(3, 13, 3, 13, 250, 430);
        Provenance origin = new Provenance("table", "our own trials");

        TableDefinition hall = override(SMALL)
                .ranges(range, range)
                .widthFit(3)
                .residualDegreesOfFreedom(12.5)
                .provenance(List.of(origin))
                .build()
                .definition();

        assertThat(hall.fitted()).isEqualTo(range);
        assertThat(hall.allowed()).isEqualTo(range);
        assertThat(hall.widthFit()).isEqualTo(3);
        assertThat(hall.residualDegreesOfFreedom()).isEqualTo(12.5);
        assertThat(hall.provenance()).containsExactly(origin);
        assertThat(override(YieldTable.of(hall)).build().definition().residualDegreesOfFreedom())
                .isEqualTo(12.5);
    }

    @Nested
    class Rows {
        @Test
        void aRowTakesThePlaceOfTheOneWithItsKeys() {
            YieldTable hall = override(SMALL)
                    .row(row("*", "meat", "fore", 6, SOURCE, 570.0, 0.0, 0.0, 8.0))
                    .row(row("*", "meat", "hind", 6, SOURCE, 430.0, 0.0, 0.0, -8.0))
                    .build();
            List<BreakdownRow> expected = new ArrayList<>(SMALL.definition().breakdown());
            expected.set(6, row("*", "meat", "fore", 6, SOURCE, 570.0, 0.0, 0.0, 8.0));
            expected.set(7, row("*", "meat", "hind", 6, SOURCE, 430.0, 0.0, 0.0, -8.0));
            assertThat(hall.definition().breakdown()).containsExactlyElementsOf(expected);
            assertThat(hall.definition().provenance())
                    .containsExactly(from("table", SMALL), code("row * * meat fore"), code("row * * meat hind"));
            assertThat(SMALL.definition()).as("the base").isEqualTo(TestTables.small());
        }

        @Test
        void aRowOfAnotherCategoryIsAddedAndServesIt() {
            YieldTable hall = override(SMALL)
                    .row(row("D", "meat", "fore", 5, SOURCE, 600.0, 0.0, 0.0, 0.0))
                    .row(row("D", "meat", "hind", 5, SOURCE, 400.0, 0.0, 0.0, 0.0))
                    .build();
            assertThat(hall.definition().breakdown()).hasSize(10);
            assertThat(fore(hall, Category.COW)).isCloseTo(0.680 * 0.600, within(1e-12));
            assertThat(fore(hall, Category.STEER)).isCloseTo(0.700 * 0.560, within(1e-12));
        }

        private double fore(YieldTable table, Category category) {
            return Engine.grid(table, category, CuttingSpecification.NONE)
                    .shares(8, 8, 340)[Engine.layout(table).slot(1, "fore")];
        }

        @Test
        void aRowOfAnotherWayOrParentStays() {
            BreakdownRow joint = new BreakdownRow(
                    "*", "joints", "rump", "rump-joint", List.of(840.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 0.0), 15, SOURCE);
            BreakdownRow lean = new BreakdownRow(
                    "*", "joints", "rump", "lean-trim", List.of(90.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0), 15, SOURCE);
            YieldTable hall = override(THREE).row(joint).row(lean).build();
            List<BreakdownRow> expected = THREE.definition().breakdown().stream()
                    .map(row -> !row.parent().equals("rump") || !row.way().equals("joints")
                            ? row
                            : row.cut().equals("rump-joint") ? joint : row.cut().equals("lean-trim") ? lean : row)
                    .toList();
            assertThat(hall.definition().breakdown())
                    .containsExactlyElementsOf(expected)
                    .isNotEqualTo(THREE.definition().breakdown());
        }

        @Test
        void aTableThatNoLongerClosesIsRefused() {
            TableOverride open = override(SMALL).row(row("*", "meat", "fore", 5, SOURCE, 570.0, -1.0, 0.0, 8.0));
            InvalidTableException refusal = catchThrowableOfType(InvalidTableException.class, open::build);
            assertThat(refusal.problems())
                    .extracting(TableProblem::toString)
                    .containsExactly(
                            "breakdown, level_g_per_kg \"1010\": the children of meat add up to 1010 g/kg, not 1000;"
                                    + " rounding explains at most 0; they are fore 570, hind 440 (category CED) (rows 7, 8)");
        }
    }

    @Nested
    class Notes {
        private static final CoefficientNote RUMP = note("meat", "rump", "per_100kg", 0.4);
        private static final CoefficientNote CHUCK = note("meat", "chuck", "per_100kg", 0.4);
        private static final CoefficientNote OF_LEVEL = note("meat", "striploin", "level_g_per_kg", null);
        private static final CoefficientNote OF_OTHER_CUT = note("meat", "brisket", "level_g_per_kg", null);
        private static final CoefficientNote OF_SD = note("meat", "striploin", "sd_g_per_kg", null);
        private static final CoefficientNote LOSS = note("carcass", "loss", "per_100kg", 0.3);
        private static final CoefficientNote BONE = note("carcass", "bone", "per_100kg", 0.3);

        private static CoefficientNote note(String parent, String cut, String term, Double error) {
            return new CoefficientNote("*", "*", parent, cut, term, error, SOURCE);
        }

        private TableOverride noted() {
            TableDefinition.Builder builder = TestTables.threeLevels().toBuilder();
            List.of(OF_LEVEL, OF_OTHER_CUT, OF_SD, LOSS, BONE).forEach(builder::coefficientNote);
            return override(builder);
        }

        private List<CoefficientNote> notes(TableOverride override) {
            return override.build().definition().coefficientNotes();
        }

        @Test
        void allStayWhereNothingChanges() {
            assertThat(notes(noted())).containsExactly(RUMP, CHUCK, OF_LEVEL, OF_OTHER_CUT, OF_SD, LOSS, BONE);
        }

        @Test
        void aNoteOnACoefficientThatChangesGoesAndThoseOnOtherCoefficientsStay() {
            TableOverride override = noted().row(meatRow("striploin", 71, 1, 1.5, -0.8, 4))
                    .row(meatRow("chuck", 779, -1.6, -3.5, 3.9, 6));
            assertThat(notes(override)).containsExactly(RUMP, CHUCK, OF_OTHER_CUT, LOSS, BONE);
        }

        @Test
        void standardErrorsOfAColumnGoTogetherInTheWholeBreakdown() {
            TableOverride override =
                    noted().row(meatRow("striploin", 70, 1, 1.5, -0.7, 4)).row(meatRow("brisket", 69, 0, 1.6, 0.1, 4));
            // the level of the brisket stays as it was
            assertThat(notes(override)).containsExactly(OF_LEVEL, OF_OTHER_CUT, LOSS, BONE);
        }

        @Test
        void aNewRowTakesTheStandardErrorsOfItsBreakdownAway() {
            TableOverride override = noted();
            for (BreakdownRow old : THREE.definition().breakdown()) {
                if (old.parent().equals("meat")) {
                    override.row(new BreakdownRow("D", "*", "meat", old.cut(), old.coefficients(), 5, SOURCE));
                }
            }
            assertThat(notes(override)).containsExactly(OF_LEVEL, OF_OTHER_CUT, OF_SD, LOSS, BONE);
        }

        @Test
        void aRowOfTheWrongLengthIsRefusedInWords() {
            TableOverride override = noted().row(row("*", "meat", "striploin", 4, SOURCE, 70.0, 1.0, 1.5));
            InvalidTableException refusal = catchThrowableOfType(InvalidTableException.class, override::build);
            assertThat(refusal.problems())
                    .extracting(TableProblem::message)
                    .anyMatch(message -> message.startsWith("the row has 3 coefficients; a row of this table has 8: "));
        }
    }

    @Nested
    class Covariances {
        private final CovarianceRow between = CovarianceRow.residual("meat", "fore", "fore", 25);
        private final CovarianceRow across = CovarianceRow.residual("meat", "fore", "hind", -25);
        private final CovarianceRow other = CovarianceRow.residual("meat", "hind", "hind", 25);

        private CovarianceRow ofLevels(String cut, String otherCut, double value) {
            return new CovarianceRow("*", "*", "meat", cut, "level_g_per_kg", otherCut, "level_g_per_kg", value);
        }

        private final List<CovarianceRow> all = List.of(
                between,
                across,
                other,
                ofLevels("fore", "fore", 4),
                ofLevels("fore", "hind", -4),
                ofLevels("hind", "hind", 4));

        private TableOverride stated() {
            TableDefinition.Builder builder = TestTables.small().toBuilder();
            all.forEach(builder::covariance);
            return override(builder);
        }

        private List<CovarianceRow> covariances(TableOverride override) {
            return override.build().definition().covariances();
        }

        @Test
        void theyStayWhereNothingOfTheirBreakdownChanges() {
            assertThat(covariances(stated())).containsExactlyElementsOf(all);
            assertThat(covariances(stated().row(row("*", "carcass", "loss", 1, SOURCE, 7.0, 0.0, 0.0, 0.0))
                            .row(row("*", "carcass", "bone", 10, SOURCE, 183.0, -7.0, -2.0, -5.0))))
                    .containsExactlyElementsOf(all);
        }

        @Test
        void thoseOfCoefficientsGoWhereACoefficientChanges() {
            assertThat(covariances(stated().row(row("*", "meat", "fore", 5, SOURCE, 570.0, -1.0, 0.0, 8.0))
                            .row(row("*", "meat", "hind", 5, SOURCE, 430.0, 1.0, 0.0, -8.0))))
                    .containsExactly(between, across, other);
        }

        @Test
        void thoseBetweenCarcassesGoWhereAnSdChanges() {
            assertThat(covariances(stated().row(row("*", "meat", "fore", 6, SOURCE, 560.0, -1.0, 0.0, 8.0))
                            .row(row("*", "meat", "hind", 6, SOURCE, 440.0, 1.0, 0.0, -8.0))))
                    .containsExactlyElementsOf(all.subList(3, 6));
        }

        @Test
        void aNewRowTakesAllOfThemAway() {
            assertThat(covariances(stated().row(row("D", "meat", "fore", 5, SOURCE, 560.0, -1.0, 0.0, 8.0))
                            .row(row("D", "meat", "hind", 5, SOURCE, 440.0, 1.0, 0.0, -8.0))))
                    .isEmpty();
        }

        @Test
        void othersTakeThePlaceOfAllOfABreakdown() {
            List<CovarianceRow> three =
                    List.of(ofLevels("fore", "fore", 9), ofLevels("fore", "hind", -9), ofLevels("hind", "hind", 9));
            YieldTable hall = stated().covariances("meat", three).build();
            assertThat(hall.definition().covariances()).containsExactlyElementsOf(three);
            assertThat(hall.definition().provenance()).contains(code("covariances of meat"));
            assertThat(covariances(stated().covariances("carcass", List.of()))).containsExactlyElementsOf(all);
            assertThat(covariances(stated().covariances("meat", List.of()))).isEmpty();
        }

        @Test
        void thoseOfAnotherBreakdownAreRefused() {
            TableOverride override = stated();
            assertThatThrownBy(() -> override.covariances("carcass", List.of(between)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("a covariance of meat is none of carcass, whose are given");
        }

        @Test
        void theyComeAlongWithABreakdownThatIsTakenOver() {
            TableDefinition.Builder builder = TestTables.small().toBuilder();
            all.forEach(builder::covariance);
            YieldTable stating = YieldTable.of(builder.build());
            assertThat(covariances(override(SMALL).breakdown("meat", stating))).containsExactlyElementsOf(all);
            assertThat(covariances(override(SMALL).breakdown("carcass", stating)))
                    .isEmpty();
            assertThat(covariances(override(stating).breakdown("meat", SMALL))).isEmpty();
        }
    }

    @Nested
    class PartsOfATable {
        @Test
        void aCutTakesThePlaceOfTheOneOfItsCodeAndKeepsItsPosition() {
            YieldTable hall = override(SMALL)
                    .cut(Cut.of("fore", "Forequarter meat", "primal", CutKind.PRIMAL)
                            .withPiecesPerSide(1.0))
                    .build();
            assertThat(hall.definition().cuts())
                    .extracting(Cut::name)
                    .containsExactly("Meat", "Forequarter meat", "Hind primal", "Fat trim", "Bone", "Loss");
            assertThat(hall.definition().provenance()).containsExactly(from("table", SMALL), code("cut fore"));
        }

        @Test
        void otherExpectationsTakeThePlaceOfTheTables() {
            Expectation bone = TestTables.expectation("bone", "tissue", Variable.FAT, Expectation.Direction.FALLS);
            YieldTable hall = override(THREE).expectations(List.of(bone)).build();
            assertThat(hall.definition().expectations()).containsExactly(bone);
            assertThat(hall.definition().provenance()).containsExactly(from("table", THREE), code("expectations"));
            assertThat(override(THREE)
                            .expectations(List.of())
                            .build()
                            .definition()
                            .expectations())
                    .isEmpty();
        }

        @Test
        void aSourceTakesThePlaceOfTheOneOfItsNameOrIsAdded() {
            SourceRow other = new SourceRow(SOURCE, SourceKind.ASSUMPTION, "Guessed again", "");
            YieldTable hall = override(SMALL)
                    .source(other)
                    .source(TestTables.source("hall"))
                    .row(row("*", "carcass", "loss", 1, "hall", 6.0, 0.0, 0.0, 0.0))
                    .build();
            assertThat(hall.definition().sources()).containsExactly(other, TestTables.source("hall"));
        }
    }

    @Nested
    class ByClass {
        private final TableRange r3 = TestTables.range(7, 9, 7, 9, 150, 600);

        private static ClassRow cell(String category, String way, String cut, String fat, double g) {
            return new ClassRow(category, way, "carcass", "R", fat, cut, g, 0, SOURCE);
        }

        private TableDefinition.Builder table(TableRange range) {
            return TableDefinition.builder("by-class", "1")
                    .levels("cut")
                    .categories(Category.STEER, Category.COW)
                    .ranges(range, range)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("meat", "Meat", "cut", CutKind.MEAT))
                    .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE));
        }

        private TableDefinition.Builder r3() {
            return table(r3).row(cell("*", "*", "meat", "3", 700)).row(cell("*", "*", "bone", "3", 300));
        }

        @Test
        void aCellTakesThePlaceOfTheOneWithItsKeys() {
            YieldTable hall = override(r3())
                    .row(cell("*", "*", "meat", "3", 710))
                    .row(cell("*", "*", "bone", "3", 290))
                    .build();
            assertThat(hall.definition().breakdownByClass())
                    .containsExactly(cell("*", "*", "meat", "3", 710), cell("*", "*", "bone", "3", 290));
            assertThat(hall.definition().provenance().subList(1, 3))
                    .containsExactly(code("cell * * carcass R 3 meat"), code("cell * * carcass R 3 bone"));
        }

        @Test
        void cellsOfAnotherCategoryWayOrClassAreAdded() {
            List<ClassRow> others = List.of(
                    cell("D", "*", "meat", "3", 650),
                    cell("D", "*", "bone", "3", 350),
                    cell("*", "boned", "meat", "3", 690),
                    cell("*", "boned", "bone", "3", 310),
                    cell("*", "*", "meat", "4", 700),
                    cell("*", "*", "bone", "4", 300),
                    new ClassRow("*", "*", "carcass", "U", "3", "meat", 705, 0, SOURCE),
                    new ClassRow("*", "*", "carcass", "U", "3", "bone", 295, 0, SOURCE));
            TableOverride override = override(r3());
            others.forEach(override::row);
            InvalidTableException refusal = catchThrowableOfType(InvalidTableException.class, override::build);
            // nothing was replaced: both rows for cows and rows for the way "boned" serve a boned cow, and U 4 is
            // missing
            assertThat(refusal.problems())
                    .extracting(TableProblem::toString)
                    .contains(
                            "breakdown-by-class row 5, cut \"meat\": another row serves the same cut of the same parent and"
                                    + " is equally specific; make one of them more specific (category D) (row 3)",
                            "breakdown-by-class, parent \"carcass\": 2 cells are missing in the way boned: meat U 4; bone"
                                    + " U 4 (category C)");
        }

        @Test
        void aBreakdownByClassTakesThePlaceOfOneByCoefficients() {
            TableDefinition coefficients = table(r3)
                    .row("carcass", "meat", 0, SOURCE, 690)
                    .row("carcass", "bone", 0, SOURCE, 310)
                    .build();
            YieldTable cells = YieldTable.of(r3().decimals("g_per_kg", 1).build());
            YieldTable hall = override(coefficients.toBuilder())
                    .breakdown("carcass", cells)
                    .build();
            assertThat(hall.definition().breakdown()).isEmpty();
            assertThat(hall.definition().breakdownByClass())
                    .isEqualTo(cells.definition().breakdownByClass());
            assertThat(hall.definition().decimals())
                    .containsOnlyKeys("g_per_kg")
                    .containsEntry("g_per_kg", 1);
            YieldTable back = TableOverride.of(hall, "back", "1")
                    .breakdown("carcass", YieldTable.of(coefficients))
                    .build();
            assertThat(back.definition().breakdownByClass()).isEmpty();
            assertThat(back.definition().breakdown()).isEqualTo(coefficients.breakdown());
        }

        @Test
        void cellsAreTakenOverFromATableAboutAnotherReferenceCarcass() {
            YieldTable cells = YieldTable.of(r3().reference(9, 9, 300).build());
            YieldTable base = YieldTable.of(table(r3)
                    .row("carcass", "meat", 0, SOURCE, 690)
                    .row("carcass", "bone", 0, SOURCE, 310)
                    .build());
            YieldTable hall = override(base).breakdown("carcass", cells).build();
            assertThat(hall.definition().reference())
                    .isEqualTo(base.definition().reference());
            assertThat(hall.definition().breakdownByClass()).hasSize(2);
        }
    }

    @Nested
    class TakenOver {
        /** The small table whose meat is broken down into three, one of them with a note and a source of its own. */
        private TableDefinition.Builder trade() {
            return TestTables.withoutRows(TestTables.small(), 7, 8)
                    .cut(Cut.of("flank", "Flank", "primal", CutKind.PRIMAL))
                    .source(TestTables.source("trial"))
                    .source(TestTables.source("book"))
                    .source(TestTables.source("unused"))
                    .row("meat", "fore", 5, SOURCE, 500)
                    .row("meat", "hind", 5, SOURCE, 400)
                    .row("meat", "flank", 5, "trial", 100)
                    .coefficientNote(new CoefficientNote("*", "*", "meat", "flank", "per_100kg", null, "book"));
        }

        @Test
        void everyRowOfTheParentComesWithItsCutsNotesAndSources() {
            YieldTable trade = YieldTable.of(trade().build());
            YieldTable hall = override(SMALL).breakdown("meat", trade).build();
            assertThat(hall.definition().breakdown().subList(0, 6))
                    .isEqualTo(SMALL.definition().breakdown().subList(0, 6));
            assertThat(hall.definition().breakdown().subList(6, 9))
                    .isEqualTo(trade.definition().breakdown().subList(6, 9));
            assertThat(hall.definition().breakdown()).hasSize(9);
            assertThat(hall.definition().cuts())
                    .extracting(Cut::code)
                    .containsExactly("meat", "fore", "hind", "fat-trim", "bone", "loss", "flank");
            assertThat(hall.definition().coefficientNotes())
                    .isEqualTo(trade.definition().coefficientNotes());
            assertThat(hall.definition().sources())
                    .extracting(SourceRow::source)
                    .containsExactly(SOURCE, "trial", "book");
            assertThat(hall.definition().provenance())
                    .containsExactly(from("table", SMALL), from("breakdown of meat", trade));
        }

        @Test
        void ofOtherParentsNothingComes() {
            YieldTable trade = YieldTable.of(TestTables.changeRow(
                            trade().build(), 4, row -> row("*", "carcass", "loss", 1, SOURCE, 6.0, 0.0, 0.0, 0.0))
                    .build());
            YieldTable hall = override(SMALL).breakdown("carcass", trade).build();
            assertThat(hall.definition().coefficientNotes()).isEmpty();
            assertThat(hall.definition().sources())
                    .extracting(SourceRow::source)
                    .containsExactly(SOURCE);
            assertThat(hall.definition().cuts()).hasSize(6);
            assertThat(TableComparison.of(SMALL, hall).within(0)).isTrue();
        }

        @Test
        void notesOfTheRowsThatGoGoWithThem() {
            TableDefinition.Builder noted = TestTables.small().toBuilder()
                    .coefficientNote(new CoefficientNote("*", "*", "meat", "fore", "per_100kg", null, SOURCE))
                    .coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", "per_100kg", null, SOURCE));
            YieldTable hall = override(noted).breakdown("meat", SMALL).build();
            assertThat(hall.definition().coefficientNotes())
                    .extracting(CoefficientNote::parent)
                    .containsExactly("carcass");
        }

        @Test
        void aCutThatTheBaseHasKeepsItsOwnDescription() {
            TableDefinition.Builder named = TestTables.small().toBuilder();
            YieldTable other = override(SMALL)
                    .cut(Cut.of("fore", "Other words", "primal", CutKind.PRIMAL).withPiecesPerSide(2.0))
                    .build();
            YieldTable hall = override(named).breakdown("meat", other).build();
            assertThat(hall.definition().cuts()).isEqualTo(SMALL.definition().cuts());
        }

        @Test
        void aColumnIsAsRoughAsItsRoughestPart() {
            YieldTable rough = YieldTable.of(TestTables.small().toBuilder()
                    .decimals("level_g_per_kg", 1)
                    .decimals("per_fat_point", 2)
                    .decimals("sd_g_per_kg", 0)
                    .build());
            TableDefinition.Builder base = TestTables.small().toBuilder()
                    .decimals("level_g_per_kg", 3)
                    .decimals("per_fat_point", 0)
                    .decimals("per_100kg", 4);
            assertThat(override(base)
                            .breakdown("meat", rough)
                            .build()
                            .definition()
                            .decimals())
                    .containsOnlyKeys("level_g_per_kg", "per_fat_point", "per_100kg")
                    .containsEntry("level_g_per_kg", 1)
                    .containsEntry("per_fat_point", 0)
                    .containsEntry("per_100kg", 4);
        }

        @Test
        void aParentThatTheOtherTableDoesNotBreakDownIsRefused() {
            TableOverride override = override(THREE);
            assertThatThrownBy(() -> override.breakdown("chuck", SMALL))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("table " + SMALL.identity() + " does not break down \"chuck\"");
        }

        @Test
        void rowsAboutAnotherReferenceCarcassOrOtherTermsAreRefused() {
            YieldTable moved = YieldTable.of(
                    TestTables.small().toBuilder().reference(8, 8, 341).build());
            String rest = " can't be taken over: it has another reference carcass or other terms than ";
            TableOverride override = override(SMALL);
            assertThatThrownBy(() -> override.breakdown("meat", moved))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("rows of table " + moved.identity() + rest + "small");
            assertThatThrownBy(() -> override.breakdown("meat", THREE))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("rows of table " + THREE.identity() + rest + "small");
            assertThat(override.build().definition().breakdown())
                    .as("untouched by the refusals")
                    .isEqualTo(SMALL.definition().breakdown());
        }

        @Test
        void aSourceThatMeansAnotherThingInEachTableIsRefused() {
            YieldTable other = YieldTable.of(TestTables.smallRows(TestTables.smallKeys()
                            .levels("tissue", "primal")
                            .source(new SourceRow(SOURCE, SourceKind.PUBLISHED, "A book", "")))
                    .build());
            TableOverride override = override(SMALL);
            assertThatThrownBy(() -> override.breakdown("meat", other))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage(
                            "source \"invented\" means another thing in each table: invented for tests / A book; rename"
                                    + " one of them");
        }
    }

    @Nested
    class ExtraColumns {
        private ExtraColumn column(String resource, String... values) {
            return new ExtraColumn(resource, "checked_by", "string", List.of(values));
        }

        private TableDefinition.Builder checked() {
            return TestTables.small().toBuilder()
                    .extraColumn(column("breakdown", "a", "b", "c", "d", "e", "f", "g", "h"))
                    .extraColumn(column("sources", "s"))
                    .extraColumn(column("cuts", "1", "2", "3", "4", "5", "6"));
        }

        @Test
        void theyFollowTheRowsThatStayAndAreEmptyForNewOnes() {
            YieldTable hall = override(checked())
                    .source(TestTables.source("hall"))
                    .row(row("*", "carcass", "loss", 1, "hall", 6.0, 0.0, 0.0, 0.0))
                    .row(row("D", "carcass", "loss", 1, "hall", 6.0, 0.0, 0.0, 0.0))
                    .build();
            assertThat(hall.definition().extraColumns())
                    .containsExactly(
                            column("breakdown", "a", "b", "c", "", "e", "f", "g", "h", ""),
                            column("sources", "s", ""),
                            column("cuts", "1", "2", "3", "4", "5", "6"));
        }

        @Test
        void thoseOfPartsThatAnOverrideDoesNotTouchStay() {
            YieldTable hall = override(
                            checked().name(new CutName("bone", "de", "Knochen")).extraColumn(column("names", "n")))
                    .build();
            assertThat(hall.definition().extraColumns()).last().isEqualTo(column("names", "n"));
        }

        @Test
        void theyGoWithTheLastRowOfTheirPart() {
            YieldTable hall = override(checked()
                            .expectation(
                                    TestTables.expectation("bone", "tissue", Variable.FAT, Expectation.Direction.FALLS))
                            .extraColumn(column("expectations", "me")))
                    .expectations(List.of())
                    .build();
            assertThat(hall.definition().extraColumns())
                    .extracting(ExtraColumn::resource)
                    .containsExactly("breakdown", "sources", "cuts");
        }

        @Test
        void thoseOfCovariancesFollowTheirRowsToo() {
            TableDefinition.Builder stated = checked()
                    .covariance(CovarianceRow.residual("meat", "fore", "fore", 25))
                    .covariance(CovarianceRow.residual("meat", "fore", "hind", -25))
                    .covariance(CovarianceRow.residual("meat", "hind", "hind", 25))
                    .extraColumn(column("residual-covariance", "x", "y", "z"));
            YieldTable hall = override(stated)
                    .covariances(
                            "meat",
                            List.of(
                                    CovarianceRow.residual("meat", "hind", "hind", 25),
                                    CovarianceRow.residual("meat", "hind", "fore", -25),
                                    CovarianceRow.residual("meat", "fore", "fore", 25)))
                    .build();
            assertThat(hall.definition().extraColumns()).last().isEqualTo(column("residual-covariance", "z", "", "x"));
            assertThat(override(stated)
                            .covariances("meat", List.of())
                            .build()
                            .definition()
                            .extraColumns())
                    .hasSize(3);
        }
    }
}
