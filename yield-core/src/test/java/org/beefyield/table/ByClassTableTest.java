package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Predicate;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Look-up tables by class. All figures are invented. */
class ByClassTableTest {
    private static final String SOURCE = TestTables.SOURCE;
    private static final String CARCASS = BreakdownRow.ROOT;
    private static final List<String> CONFORMATIONS = List.of("P", "O", "R", "U", "E", "S");
    private static final List<String> FATS = List.of("1", "2", "3", "4", "5");

    /** Meat in g/kg by number of the classes from 1, bent so that each stretch between two middles has its own slope. */
    private static double meat(int conformation, int fat) {
        return 600 + conformation * conformation - 2 * fat * fat + 3 * conformation * fat;
    }

    private static TableDefinition.Builder empty() {
        return TableDefinition.builder("by-class", "1")
                .levels("cut")
                .categories(Category.STEER, Category.COW)
                .source(TestTables.source(SOURCE))
                .cut(Cut.of("meat", "Meat", "cut", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE));
    }

    private static ClassRow cell(String category, String conformation, String fat, String cut, double g, double sd) {
        return new ClassRow(category, "*", CARCASS, conformation, fat, cut, g, sd, SOURCE);
    }

    private static TableDefinition.Builder cells(
            TableDefinition.Builder builder,
            List<String> conformations,
            List<String> fats,
            BiFunction<Integer, Integer, Double> meat) {
        for (int i = 0; i < conformations.size(); i++) {
            for (int j = 0; j < fats.size(); j++) {
                double g = meat.apply(i + 1, j + 1);
                builder.row(cell("*", conformations.get(i), fats.get(j), "meat", g, i + j))
                        .row(cell("*", conformations.get(i), fats.get(j), "bone", 1000 - g, i + j));
            }
        }
        return builder;
    }

    private static TableDefinition.Builder whole() {
        return cells(empty(), CONFORMATIONS, FATS, ByClassTableTest::meat);
    }

    /** The whole table without some of its cells, or with others. */
    private static TableDefinition.Builder keep(Predicate<ClassRow> kept) {
        TableDefinition.Builder builder = empty();
        whole().build().breakdownByClass().stream().filter(kept).forEach(builder::row);
        return builder;
    }

    private static double share(TableDefinition.Builder builder, String cut, double c, double f, double kg) {
        return share(builder, Category.STEER, cut, c, f, kg);
    }

    private static double share(
            TableDefinition.Builder builder, Category category, String cut, double c, double f, double kg) {
        YieldTable table = YieldTable.of(builder.build());
        YieldGrid grid = Engine.grid(table, category, CuttingSpecification.NONE);
        return 1000 * grid.shares(c, f, kg)[Engine.layout(table).slot(0, cut)];
    }

    private static List<TableProblem> problems(TableDefinition.Builder builder) {
        TableDefinition definition = builder.build();
        InvalidTableException refusal =
                catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(definition));
        assertThat(refusal).as("a refusal").isNotNull();
        return refusal.problems();
    }

    private static void refused(TableDefinition.Builder builder, String... problems) {
        assertThat(problems(builder)).extracting(TableProblem::toString).containsExactlyInAnyOrder(problems);
    }

    @Nested
    class WholeClasses {
        @Test
        void aClassMiddleHasTheFigureOfItsCellAtEveryWeight() {
            for (int i = 1; i <= 6; i++) {
                for (int j = 1; j <= 5; j++) {
                    for (double kg : new double[] {150, 340, 600}) {
                        assertThat(share(whole(), "meat", 3 * i - 1, 3 * j - 1, kg))
                                .isCloseTo(meat(i, j), within(1e-9));
                        assertThat(share(whole(), "bone", 3 * i - 1, 3 * j - 1, kg))
                                .isCloseTo(1000 - meat(i, j), within(1e-9));
                    }
                }
            }
        }

        @Test
        void figuresBetweenMiddlesAreBilinear() {
            // R+ is a third of the way from R to U
            assertThat(share(whole(), "meat", 9, 8, 340))
                    .isCloseTo(meat(3, 3) + (meat(4, 3) - meat(3, 3)) / 3, within(1e-9));
            assertThat(share(whole(), "meat", 10, 8, 340))
                    .isCloseTo(meat(3, 3) + (meat(4, 3) - meat(3, 3)) * 2 / 3, within(1e-9));
            assertThat(share(whole(), "meat", 8, 9, 340))
                    .isCloseTo(meat(3, 3) + (meat(3, 4) - meat(3, 3)) / 3, within(1e-9));
            // U- 2+: two thirds of U and one of R, two thirds of 2 and one of 3
            double u = (2 * meat(4, 2) + meat(4, 3)) / 3;
            double r = (2 * meat(3, 2) + meat(3, 3)) / 3;
            assertThat(share(whole(), "meat", 10, 6, 340)).isCloseTo((2 * u + r) / 3, within(1e-9));
            // between thirds too
            assertThat(share(whole(), "meat", 9.5, 8, 340)).isCloseTo((meat(3, 3) + meat(4, 3)) / 2, within(1e-9));
        }

        @Test
        void theOuterHalfClassesGoOnAsTheStretchBesideThem() {
            assertThat(share(whole(), "meat", 1, 8, 340))
                    .isCloseTo(meat(1, 3) - (meat(2, 3) - meat(1, 3)) / 3, within(1e-9));
            assertThat(share(whole(), "meat", 18, 8, 340))
                    .isCloseTo(meat(6, 3) + (meat(6, 3) - meat(5, 3)) / 3, within(1e-9));
            assertThat(share(whole(), "meat", 8, 1, 340))
                    .isCloseTo(meat(3, 1) - (meat(3, 2) - meat(3, 1)) / 3, within(1e-9));
            assertThat(share(whole(), "meat", 8, 15, 340))
                    .isCloseTo(meat(3, 5) + (meat(3, 5) - meat(3, 4)) / 3, within(1e-9));
            double p = meat(1, 1) - (meat(1, 2) - meat(1, 1)) / 3;
            double o = meat(2, 1) - (meat(2, 2) - meat(2, 1)) / 3;
            assertThat(share(whole(), "meat", 1, 1, 340)).as("P- 1-").isCloseTo(p - (o - p) / 3, within(1e-9));
        }

        @Test
        void oneClassAloneHoldsThroughoutIt() {
            TableRange r3 = TestTables.range(7, 9, 7, 9, 150, 600);
            TableDefinition.Builder builder = empty().ranges(r3, r3)
                    .row(cell("*", "R", "3", "meat", 700, 5))
                    .row(cell("*", "R", "3", "bone", 300, 5));
            for (int c = 7; c <= 9; c++) {
                for (int f = 7; f <= 9; f++) {
                    assertThat(share(builder, "meat", c, f, 340)).isCloseTo(700, within(1e-9));
                }
            }
        }

        @Test
        void twoClassesOfOneAxisAreEnough() {
            TableRange range = TestTables.range(7, 12, 7, 9, 150, 600);
            TableDefinition.Builder builder = cells(
                    empty().ranges(range, range), List.of("R", "U"), List.of("3"), (i, j) -> i == 1 ? 700.0 : 730.0);
            assertThat(share(builder, "meat", 7, 7, 340)).isCloseTo(690, within(1e-9));
            assertThat(share(builder, "meat", 9, 9, 340)).isCloseTo(710, within(1e-9));
            assertThat(share(builder, "meat", 12, 8, 340)).isCloseTo(740, within(1e-9));
        }

        @Test
        void cellsOfClassesBeyondTheAllowedRangeShapeItsEdge() {
            TableRange rOnly = TestTables.range(7, 9, 7, 9, 150, 600);
            TableDefinition.Builder builder = cells(
                    empty().ranges(rOnly, rOnly), List.of("R", "U"), List.of("3"), (i, j) -> i == 1 ? 700.0 : 730.0);
            assertThat(share(builder, "meat", 9, 8, 340)).isCloseTo(710, within(1e-9));
        }

        @Test
        void theRowOfACategoryWinsCellByCell() {
            TableDefinition.Builder builder =
                    whole().row(cell("D", "R", "3", "meat", 580, 4)).row(cell("D", "R", "3", "bone", 420, 4));
            assertThat(share(builder, Category.COW, "meat", 8, 8, 340)).isCloseTo(580, within(1e-9));
            assertThat(share(builder, Category.STEER, "meat", 8, 8, 340)).isCloseTo(meat(3, 3), within(1e-9));
            assertThat(share(builder, Category.COW, "meat", 11, 8, 340)).isCloseTo(meat(4, 3), within(1e-9));
        }

        @Test
        void aNextLevelByCoefficientsStandsBesideACarcassByClass() {
            TableDefinition.Builder builder = TableDefinition.builder("both", "1")
                    .levels("tissue", "cut")
                    .categories(Category.STEER)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .cut(Cut.of("fore", "Fore", "cut", CutKind.PRIMAL))
                    .cut(Cut.of("hind", "Hind", "cut", CutKind.PRIMAL))
                    .row("meat", "fore", 0, SOURCE, 560, 0, 0, 8)
                    .row("meat", "hind", 0, SOURCE, 440, 0, 0, -8);
            YieldTable table = YieldTable.of(
                    cells(builder, CONFORMATIONS, FATS, ByClassTableTest::meat).build());
            double[] shares = Engine.grid(table, Category.STEER, CuttingSpecification.NONE)
                    .shares(11, 5, 440);
            assertThat(1000 * shares[Engine.layout(table).slot(1, "fore")]).isCloseTo(meat(4, 2) * 0.568, within(1e-9));
            assertThat(table.statesSds()).isTrue();
        }
    }

    @Nested
    class Thirds {
        private static final List<String> R_AND_U = List.of("R-", "R=", "R+", "U-", "U=", "U+");
        private static final List<String> CLASS_3 = List.of("3-", "3=", "3+");

        private TableDefinition.Builder thirds() {
            TableRange range = TestTables.range(7, 12, 7, 9, 150, 600);
            return cells(empty().ranges(range, range), R_AND_U, CLASS_3, ByClassTableTest::meat);
        }

        @Test
        void everyThirdHasTheFigureOfItsOwnCell() {
            for (int c = 7; c <= 12; c++) {
                for (int f = 7; f <= 9; f++) {
                    assertThat(share(thirds(), "meat", c, f, 250)).isCloseTo(meat(c - 6, f - 6), within(1e-9));
                }
            }
        }

        @Test
        void betweenTwoThirdsFiguresAreLinear() {
            assertThat(share(thirds(), "meat", 8.25, 8, 250))
                    .isCloseTo(0.75 * meat(2, 2) + 0.25 * meat(3, 2), within(1e-9));
        }

        @Test
        void oneAxisMayHaveThirdsAndTheOtherWholeClasses() {
            TableRange range = TestTables.range(7, 12, 7, 12, 150, 600);
            TableDefinition.Builder builder =
                    cells(empty().ranges(range, range), R_AND_U, List.of("3", "4"), ByClassTableTest::meat);
            assertThat(share(builder, "meat", 9, 8, 250)).isCloseTo(meat(3, 1), within(1e-9));
            assertThat(share(builder, "meat", 9, 9, 250)).isCloseTo((2 * meat(3, 1) + meat(3, 2)) / 3, within(1e-9));
        }

        @Test
        void aMissingThirdIsListedAsAThird() {
            TableDefinition.Builder builder =
                    empty().ranges(TestTables.range(7, 12, 7, 9, 150, 600), TestTables.range(7, 12, 7, 9, 150, 600));
            thirds().build().breakdownByClass().stream()
                    .filter(row -> !row.conformation().equals("U-"))
                    .forEach(builder::row);
            refused(
                    builder,
                    "breakdown-by-class, parent \"carcass\": 6 cells are missing: meat U- 3-; meat U- 3=; meat U- 3+; bone"
                            + " U- 3-; bone U- 3=; bone U- 3+ (category CD)");
        }

        @Test
        void wholeClassesAndThirdsOfConformationDoNotMix() {
            refused(
                    whole().row(cell("D", "R+", "3", "meat", 700, 0)).row(cell("D", "R+", "3", "bone", 300, 0)),
                    "breakdown-by-class, conformation: the breakdown of carcass mixes whole classes and thirds; use one"
                            + " kind (category D)");
        }

        @Test
        void wholeClassesAndThirdsOfFatDoNotMix() {
            refused(
                    whole().row(cell("*", "R", "3+", "meat", 700, 0)).row(cell("*", "R", "3+", "bone", 300, 0)),
                    "breakdown-by-class, fat_class: the breakdown of carcass mixes whole classes and thirds; use one kind"
                            + " (category CD)");
        }
    }

    @Nested
    class Gaps {
        @Test
        void oneMissingCellIsNamed() {
            refused(
                    keep(row -> !(row.conformation().equals("U")
                            && row.fatClass().equals("4")
                            && row.cut().equals("bone"))),
                    "breakdown-by-class, parent \"carcass\": 1 cell is missing: bone U 4 (category CD)");
        }

        @Test
        void aWholeMissingClassInsideTheAllowedRangeIsFound() {
            refused(
                    keep(row -> !row.conformation().equals("S")),
                    "breakdown-by-class, parent \"carcass\": 10 cells are missing: meat S 1; meat S 2; meat S 3; meat S 4;"
                            + " meat S 5; bone S 1; bone S 2; bone S 3; bone S 4; bone S 5 (category CD)");
            refused(
                    keep(row -> !row.fatClass().equals("1")),
                    "breakdown-by-class, parent \"carcass\": 12 cells are missing: meat P 1; meat O 1; meat R 1; meat U 1;"
                            + " meat E 1; meat S 1; bone P 1; bone O 1; bone R 1; bone U 1; bone E 1; bone S 1 (category"
                            + " CD)");
        }

        @Test
        void ofManyMissingCellsTwelveAreListedAndTheOthersCounted() {
            assertThat(problems(keep(
                            row -> !(row.conformation().equals("S") && row.cut().equals("bone"))
                                    && !(row.fatClass().equals("5")))))
                    .singleElement()
                    .extracting(TableProblem::message)
                    .asString()
                    .startsWith("16 cells are missing: meat P 5; meat O 5; meat R 5;")
                    .contains("; bone S 1; and 4 more")
                    .doesNotContain("bone S 2");
        }

        @Test
        void thirteenMissingCellsAreTwelveAndOneMore() {
            TableDefinition.Builder builder = keep(row -> !row.fatClass().equals("1")
                    && !(row.conformation().equals("P")
                            && row.fatClass().equals("2")
                            && row.cut().equals("bone")));
            assertThat(problems(builder))
                    .singleElement()
                    .extracting(TableProblem::message)
                    .asString()
                    .startsWith("13 cells are missing: ")
                    .endsWith("; and 1 more (category CD)");
        }

        @Test
        void aClassThatTheAllowedRangeOnlyTouchesIsNeeded() {
            TableRange range = TestTables.range(4, 10, 4, 12, 150, 600);
            refused(
                    keep(row -> List.of("O", "R").contains(row.conformation())
                                    && List.of("2", "3", "4").contains(row.fatClass()))
                            .ranges(range, range),
                    "breakdown-by-class, parent \"carcass\": 6 cells are missing: meat U 2; meat U 3; meat U 4; bone U 2;"
                            + " bone U 3; bone U 4 (category CD)");
        }

        @Test
        void cellsOfOneCategoryAloneLeaveTheOthersWithout() {
            TableDefinition.Builder builder = empty();
            whole().build().breakdownByClass().stream()
                    .map(row -> row.conformation().equals("O")
                            ? cell("C", "O", row.fatClass(), row.cut(), row.gPerKg(), row.sdGPerKg())
                            : row)
                    .forEach(builder::row);
            assertThat(problems(builder))
                    .singleElement()
                    .extracting(TableProblem::message)
                    .asString()
                    .startsWith("10 cells are missing: meat O 1;")
                    .endsWith("(category D)");
        }
    }

    @Nested
    class Refusals {
        @Test
        void aParentIsBrokenDownInOneFormOnly() {
            refused(
                    whole().row("D", "*", CARCASS, "meat", 0, SOURCE, 700)
                            .row("D", "*", CARCASS, "bone", 0, SOURCE, 300),
                    "breakdown-by-class, parent \"carcass\": rows of breakdown and of breakdown-by-class both break it"
                            + " down (category D)");
        }

        @Test
        void aCellThatStandsTwiceIsRefusedWithTheNumberOfTheOther() {
            refused(
                    whole().row(cell("*", "P", "1", "bone", 300, 0)),
                    "breakdown-by-class row 61, cut \"bone\": a row above has the same category, way, parent and cut in the"
                            + " same class (row 2)");
        }

        @Test
        void oneClassWrittenInTwoWaysIsFoundOutToo() {
            refused(
                    whole().row(cell("*", "p", "1", "bone", 300, 0)),
                    "breakdown-by-class row 61, cut \"bone\": another row serves the same cut of the same parent and is"
                            + " equally specific; make one of them more specific (category CD) (row 2)");
        }

        @Test
        void childrenThatDoNotAddUpAreRefusedWithTheirClass() {
            refused(
                    whole().row(cell("D", "U", "4", "meat", 700, 0)).row(cell("D", "U", "4", "bone", 299, 0)),
                    "breakdown-by-class, g_per_kg \"999\": the children of carcass at U 4 add up to 999 g/kg, not"
                            + " 1000; rounding explains at most 0; they are meat 700, bone 299 (category D) (rows 61, 62)");
        }

        @Test
        void childrenThatAreAllNothingAreRefusedToo() {
            refused(
                    whole().row(cell("D", "U", "4", "meat", 0, 0)).row(cell("D", "U", "4", "bone", 0, 0)),
                    "breakdown-by-class, g_per_kg \"0\": the children of carcass at U 4 add up to 0 g/kg, not 1000;"
                            + " rounding explains at most 0; they are meat 0, bone 0 (category D) (rows 61, 62)");
        }

        @Test
        void aCellOfACutThatIsNotThereIsRefused() {
            refused(
                    whole().row(cell("D", "U", "4", "tongue", 0, 0)),
                    "breakdown-by-class row 61, cut \"tongue\": no such cut in cuts; nearest: bone, meat");
        }

        @Test
        void anExpectationBrokenFromOneCellToTheNextIsNamedWithItsPlace() {
            // bone falls by 2 a point of fat, but for one step of R=
            TableRange r3 = TestTables.range(7, 9, 7, 9, 150, 600);
            refused(
                    cells(
                                    empty().ranges(r3, r3),
                                    List.of("R-", "R=", "R+"),
                                    List.of("3-", "3=", "3+"),
                                    (i, j) -> i == 2 && j == 3 ? 703.5 : 700.0 + 2 * j)
                            .expectation(
                                    TestTables.expectation("bone", "cut", Variable.FAT, Expectation.Direction.FALLS)),
                    "expectations row 1: expected that bone at level cut falls strictly with fat over the allowed range,"
                            + " but it changes by 0.500 g/kg to the next position of fat at category CD, R= 3=, 150 kg");
        }

        @Test
        void roundingOfTheColumnIsTakenOffInProportionToTheShares() {
            TableDefinition.Builder builder = whole().decimals("g_per_kg", 2)
                    .row(cell("D", "U", "4", "meat", 700, 0))
                    .row(cell("D", "U", "4", "bone", 300.01, 0));
            assertThat(share(builder, Category.COW, "meat", 11, 11, 340)).isCloseTo(700 - 7 / 1000.01, within(1e-9));
            assertThat(share(builder, Category.COW, "bone", 11, 11, 340))
                    .isCloseTo(300.01 - 3.0001 / 1000.01, within(1e-9));
            assertThat(YieldTable.of(builder.build()).closingCorrections())
                    .singleElement()
                    .satisfies(correction -> {
                        assertThat(correction)
                                .isEqualTo(new ClosingCorrection(
                                        "D", CARCASS, "*", "g_per_kg", correction.excess(), "g/kg"));
                        assertThat(correction.excess()).isCloseTo(0.01, within(1e-9));
                    });
        }

        @Test
        void wholeGramsThatAreOffAreRefusedForAGramIsNoRounding() {
            refused(
                    whole().decimals("g_per_kg", 0)
                            .row(cell("D", "U", "4", "meat", 700, 0))
                            .row(cell("D", "U", "4", "bone", 301, 0)),
                    "breakdown-by-class, g_per_kg \"1001\": the children of carcass at U 4 add up to 1001 g/kg, not"
                            + " 1000; at most 0.5 is taken for rounding; they are meat 700, bone 301 (category D)"
                            + " (rows 61, 62)");
        }

        @Test
        void ofSeveralExcessesOfAColumnTheLargestIsReported() {
            TableDefinition.Builder builder = whole().decimals("g_per_kg", 2);
            for (ClassRow row : List.of(
                    cell("D", "O", "4", "meat", 700, 0),
                    cell("D", "O", "4", "bone", 300.001, 0),
                    cell("D", "R", "4", "meat", 700.01, 0),
                    cell("D", "R", "4", "bone", 299.98, 0),
                    cell("D", "U", "4", "meat", 700, 0),
                    cell("D", "U", "4", "bone", 300.001, 0))) {
                builder.row(row);
            }
            assertThat(YieldTable.of(builder.build()).closingCorrections())
                    .extracting(correction -> Numbers.upTo(correction.excess(), 6))
                    .containsExactly("-0.01");
        }

        @Test
        void aClassThatIsNoneIsRefused() {
            refused(
                    whole().row(cell("*", "K", "3", "meat", 700, 0)),
                    "breakdown-by-class row 61, conformation \"K\": conformation \"K\" is none of S E U R O P");
            refused(
                    whole().row(cell("*", "R", "6", "meat", 700, 0)),
                    "breakdown-by-class row 61, fat_class \"6\": fat class 6 is outside 1 to 5; a position on the 15-point"
                            + " scale belongs in fat_points, in code in FatClass.ofPosition");
        }

        @Test
        void aHalfOfAFatClassIsRefused() {
            refused(
                    whole().row(cell("*", "R", "4L", "meat", 700, 0)),
                    "breakdown-by-class row 61, fat_class \"4L\": a class is whole or a third here");
        }

        @ParameterizedTest
        @CsvSource({"-0.5, -0.5", "1000.5, 1000.5", "NaN, NaN"})
        void aShareThatIsNoneIsRefused(double g, String printed) {
            refused(
                    whole().row(cell("D", "R", "3", "meat", g, 0)),
                    "breakdown-by-class row 61, g_per_kg \"" + printed + "\": a share is 0 to 1000 g/kg");
        }

        @ParameterizedTest
        @ValueSource(doubles = {-1, 1001})
        void anSdThatIsNoneIsRefused(double sd) {
            refused(
                    whole().row(cell("D", "R", "3", "meat", 700, sd)),
                    "breakdown-by-class row 61, sd_g_per_kg \"" + Numbers.exact(sd) + "\": an SD is 0 to 1000 g/kg");
        }

        @Test
        void nothingAndEverythingAreShares() {
            TableRange r3 = TestTables.range(7, 9, 7, 9, 150, 600);
            TableDefinition.Builder builder = empty().ranges(r3, r3)
                    .row(cell("*", "R", "3", "meat", 1000, 0))
                    .row(cell("*", "R", "3", "bone", 0, 0));
            assertThat(share(builder, "meat", 8, 8, 340)).isEqualTo(1000);
            assertThat(share(builder, "bone", 8, 8, 340)).isZero();
            assertThat(YieldTable.of(builder.build()).statesSds()).isFalse();
        }

        @Test
        void aShareBelowZeroOverAnOuterHalfClassPointsToTheRowOfThatClass() {
            // bone: 2 at P and 20 at O, so -4 at P-
            TableDefinition.Builder builder = empty();
            int row = 0;
            int expected = 0;
            for (String fat : FATS) {
                for (String conformation : CONFORMATIONS) {
                    double bone = conformation.equals("P") ? fat.equals("4") ? 2 : 20 : 20;
                    builder.row(cell("*", conformation, fat, "meat", 1000 - bone, 0))
                            .row(cell("*", conformation, fat, "bone", bone, 0));
                    row += 2;
                    expected = bone == 2 ? row : expected;
                }
            }
            refused(
                    builder,
                    "breakdown-by-class row " + expected + ", cut \"bone\": its share of carcass is -4.000 g/kg at"
                            + " category CD, bone of carcass, P- 4=, 150 kg; a share is at least 0 over the whole allowed"
                            + " range");
        }

        @Test
        void aShareBelowZeroInTheUpperOuterHalfClassPointsToTheRowOfThatClass() {
            TableDefinition.Builder builder = empty();
            int row = 0;
            int expected = 0;
            for (String conformation : CONFORMATIONS) {
                for (String fat : FATS) {
                    double bone = fat.equals("5") && conformation.equals("U") ? 3 : 30;
                    builder.row(cell("*", conformation, fat, "meat", 1000 - bone, 0))
                            .row(cell("*", conformation, fat, "bone", bone, 0));
                    row += 2;
                    expected = bone == 3 ? row : expected;
                }
            }
            refused(
                    builder,
                    "breakdown-by-class row " + expected + ", cut \"bone\": its share of carcass is -6.000 g/kg at"
                            + " category CD, bone of carcass, U= 5+, 150 kg; a share is at least 0 over the whole allowed"
                            + " range");
        }
    }

    @Nested
    class Sds {
        /** SD of meat between carcasses of one grade, g/kg. */
        private double sd(TableDefinition.Builder builder, int c, int f) {
            YieldTable table = YieldTable.of(builder.build());
            YieldGrid grid = Engine.grid(table, Category.STEER, CuttingSpecification.NONE);
            double[] meat = new double[grid.length()];
            meat[Engine.layout(table).slot(0, "meat")] = 1;
            return 1000
                    * Math.sqrt(
                            Engine.betweenCarcasses(
                                    Engine.errors(table, Category.STEER, CuttingSpecification.NONE),
                                    Engine.node(table, c, f),
                                    meat,
                                    meat)[0]);
        }

        @Test
        void anSdHoldsThroughoutItsClass() {
            // the cells have as many g/kg of SD as classes lie below them
            for (int c = 1; c <= 18; c++) {
                for (int f = 1; f <= 15; f++) {
                    int classes = (c + 2) / 3 - 1 + (f + 2) / 3 - 1;
                    assertThat(sd(whole(), c, f))
                            .as(Conformation.third(c) + " " + FatClass.third(f))
                            .isCloseTo(classes, within(1e-9));
                }
            }
        }

        @Test
        void sdsThatDoNotCloseInOneClassPointToItsRow() {
            refused(
                    whole().row(cell("D", "U", "4", "meat", 700, 6)).row(cell("D", "U", "4", "bone", 300, 8)),
                    "breakdown-by-class row 62, sd_g_per_kg \"8\": the SDs of the children of carcass can't belong to shares"
                            + " that add up to 1: bone varies more than all others together (two children have equal"
                            + " SDs); correct them, or state the covariance in the resource residual-covariance (category"
                            + " D)");
        }
    }

    @Nested
    class Ways {
        private TableDefinition.Builder ways(String other) {
            TableRange r3 = TestTables.range(7, 9, 7, 9, 150, 600);
            return empty().ranges(r3, r3)
                    .row(new ClassRow("*", "bone-out", CARCASS, "R", "3", "meat", 700, 0, SOURCE))
                    .row(new ClassRow("*", "*", CARCASS, "R", "3", "bone", 300, 0, SOURCE))
                    .row(new ClassRow("*", "bone-in", CARCASS, other, "3", "meat", 700, 0, SOURCE));
        }

        @Test
        void aRowForEveryWayServesEachOfThem() {
            YieldTable table = YieldTable.of(ways("R").build());
            assertThat(table.ways(CARCASS)).containsExactly("bone-in", "bone-out");
        }

        @Test
        void aRefusalNamesTheWay() {
            refused(
                    ways("U"),
                    "breakdown-by-class, parent \"carcass\": 2 cells are missing in the way bone-in: meat R 3; bone U 3"
                            + " (category CD)");
            refused(
                    ways("R+"),
                    "breakdown-by-class, conformation: the breakdown of carcass in the way bone-in mixes whole classes and"
                            + " thirds; use one kind (category CD)");
        }
    }
}
