package org.beefyield.data.defects;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableProblem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation.Direction;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.Source;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Defects of definitions, by class of fault: each is found, and the message says where it is and what would be valid. */
class DefinitionDefectsTest {
    private static final String ANY = BreakdownRow.ANY;
    private static final int NO_ROW = TableProblem.NO_ROW;
    /** One of several rows may be named. */
    private static final int ANY_ROW = -2;

    private static DynamicTest defect(String what, Consumer<Draft> plant, String resource, int row, String... words) {
        return defect(what, SmallTable::definition, plant, resource, row, words);
    }

    private static DynamicTest defect(
            String what,
            Supplier<TableDefinition> table,
            Consumer<Draft> plant,
            String resource,
            int row,
            String... words) {
        return DynamicTest.dynamicTest(what, () -> {
            Draft draft = new Draft(table.get());
            plant.accept(draft);
            TableDefinition planted = draft.build();
            InvalidTableException refused =
                    catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(planted));
            assertThat(refused).as("%s is found", what).isNotNull();
            assertThat(refused.problems())
                    .as("%s, named in: %s", what, refused.getMessage())
                    .anySatisfy(problem -> {
                        assertThat(problem.resource()).isEqualTo(resource);
                        assertThat(row == ANY_ROW || problem.row() == row)
                                .as("row %s", row)
                                .isTrue();
                        assertThat(problem + " " + problem.value()).contains(words);
                    });
        });
    }

    private static int smallRow(String way, String parent, String cut) {
        return new Draft(SmallTable.definition()).row(way, parent, cut);
    }

    private static int smallCell(String conformation, String fatClass, String cut) {
        return new Draft(SmallTable.definition()).cell("chuck", conformation, fatClass, cut);
    }

    @Test
    void theTablesThatDefectsArePlantedInAreValid() {
        assertThatCode(() -> YieldTable.of(SmallTable.definition())).doesNotThrowAnyException();
        assertThatCode(() -> YieldTable.of(SmallTable.thirds())).doesNotThrowAnyException();
        assertThatCode(() -> YieldTable.of(SmallTable.dip(15))).doesNotThrowAnyException();
    }

    @TestFactory
    Stream<DynamicTest> sumsThatAreOff() {
        return Stream.of(
                defect(
                        "levels add up to 1001",
                        draft -> draft.set(ANY, "carcass", "bone", "level_g_per_kg", 185),
                        "breakdown",
                        NO_ROW,
                        "carcass",
                        "level_g_per_kg",
                        "1001",
                        "1000"),
                defect(
                        "levels are 0.5 off, which two decimals can't hide",
                        draft -> draft.set(ANY, "carcass", "bone", "level_g_per_kg", 184.5),
                        "breakdown",
                        NO_ROW,
                        "carcass",
                        "level_g_per_kg",
                        "1000.5",
                        "1000"),
                defect(
                        "a slope in fat doesn't add up to 0",
                        draft -> draft.set(ANY, "carcass", "bone", "per_fat_point", -1.5),
                        "breakdown",
                        NO_ROW,
                        "carcass",
                        "per_fat_point",
                        "0.5"),
                defect(
                        "a slope in weight doesn't add up to 0 in one way",
                        draft -> draft.set("steaks", "loin", "dice", "per_100kg", 5),
                        "breakdown",
                        NO_ROW,
                        "loin",
                        "steaks",
                        "per_100kg",
                        "10"),
                defect(
                        "a hinge doesn't add up to 0",
                        draft -> draft.set(ANY, "carcass", "bone", "fat_below_3", 1),
                        "breakdown",
                        NO_ROW,
                        "carcass",
                        "fat_below_3",
                        "1"),
                defect(
                        "a product doesn't add up to 0",
                        draft -> draft.set(ANY, "meat", "loin", "conformation_by_fat", 0.2),
                        "breakdown",
                        NO_ROW,
                        "meat",
                        "conformation_by_fat",
                        "0.1"),
                defect(
                        "one category's levels are off",
                        draft -> {
                            int row = draft.row(ANY, "carcass", "meat") + 4;
                            BreakdownRow ofA = draft.breakdown.get(row);
                            List<Double> coefficients = new ArrayList<>(ofA.coefficients());
                            coefficients.set(0, 708.0);
                            draft.breakdown.set(row, Draft.with(ofA, "A", ANY, "carcass", "meat", coefficients));
                        },
                        "breakdown",
                        NO_ROW,
                        "category A",
                        "carcass",
                        "1003"),
                defect(
                        "the children of one class add up to 1003",
                        draft -> draft.setCell("chuck", "R", "3", "dice", 403),
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "R 3",
                        "g_per_kg",
                        "1003",
                        "1000"),
                defect(
                        "the children of one class add up to 0",
                        draft -> {
                            draft.setCell("chuck", "S", "5", "dice", 0);
                            draft.setCell("chuck", "S", "5", "lean-trim", 0);
                            draft.setCell("chuck", "S", "5", "fat-trim", 0);
                        },
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "S 5",
                        "1000"));
    }

    @TestFactory
    Stream<DynamicTest> sharesBelowZero() {
        return Stream.of(
                defect(
                        "negative only at the heaviest weight",
                        draft -> {
                            draft.set(ANY, "carcass", "loss", "per_100kg", -2.4);
                            draft.set(ANY, "carcass", "bone", "per_100kg", -3.6);
                        },
                        "breakdown",
                        smallRow(ANY, "carcass", "loss"),
                        "loss",
                        "600 kg",
                        "-0.24",
                        "0"),
                defect(
                        "negative at one corner node and the heaviest weight only",
                        draft -> {
                            draft.set(ANY, "carcass", "loss", "per_conformation_point", -0.2);
                            draft.set(ANY, "carcass", "bone", "per_conformation_point", -5.8);
                            draft.set(ANY, "carcass", "loss", "per_fat_point", -0.5);
                            draft.set(ANY, "carcass", "bone", "per_fat_point", -1.5);
                            draft.set(ANY, "carcass", "loss", "per_100kg", -0.25);
                            draft.set(ANY, "carcass", "bone", "per_100kg", -5.75);
                        },
                        "breakdown",
                        smallRow(ANY, "carcass", "loss"),
                        "loss",
                        "S+ 5+",
                        "600 kg"),
                defect(
                        "a negative share that the total of the level hides",
                        draft -> {
                            draft.set("steaks", "loin", "fat-trim", "level_g_per_kg", -5);
                            draft.set("steaks", "loin", "dice", "level_g_per_kg", 155);
                        },
                        "breakdown",
                        smallRow("steaks", "loin", "fat-trim"),
                        "fat-trim",
                        "loin",
                        "steaks",
                        "-5"),
                defect(
                        "a negative share in a way that no cutting specification uses",
                        draft -> {
                            draft.specifications.remove(1);
                            draft.set("trim", "loin", "loss", "level_g_per_kg", -1);
                            draft.set("trim", "loin", "dice", "level_g_per_kg", 461);
                        },
                        "breakdown",
                        smallRow("trim", "loin", "loss"),
                        "loss",
                        "loin",
                        "trim",
                        "-1"),
                defect(
                        "a negative cell",
                        draft -> {
                            draft.setCell("chuck", "R", "3", "dice", -10);
                            draft.setCell("chuck", "R", "3", "lean-trim", 950);
                        },
                        "breakdown-by-class",
                        smallCell("R", "3", "dice"),
                        "g_per_kg",
                        "-10",
                        "0 to 1000"),
                defect(
                        "cells that are positive but fall below 0 over the outer half class",
                        draft -> {
                            draft.setCell("chuck", "P", "3", "fat-trim", 1);
                            draft.setCell("chuck", "P", "3", "lean-trim", 619);
                        },
                        "breakdown-by-class",
                        ANY_ROW,
                        "fat-trim",
                        "P- 3=",
                        "-18.667"));
    }

    @TestFactory
    Stream<DynamicTest> expectationsThatFail() {
        return Stream.of(
                defect(
                        "bone rises with fat class at one step of the grid",
                        SmallTable::thirds,
                        draft -> {
                            draft.setCell("carcass", "R=", "3=", "bone", 206.5);
                            draft.setCell("carcass", "R=", "3=", "soft", 793.5);
                        },
                        "expectations",
                        0,
                        "bone",
                        "falls",
                        "R= 3-",
                        "0.5"),
                defect(
                        "bone stands still with fat class at one step of the grid",
                        SmallTable::thirds,
                        draft -> {
                            draft.setCell("carcass", "S+", "5+", "bone", 192);
                            draft.setCell("carcass", "S+", "5+", "soft", 808);
                        },
                        "expectations",
                        0,
                        "bone",
                        "strictly",
                        "S+ 5="),
                defect(
                        "fat trim rises with conformation at the fattest node only",
                        draft -> {
                            keepTheRowsOfAll(draft);
                            draft.set(ANY, "carcass", "fat-trim", "conformation_by_fat", 0.6);
                            draft.set(ANY, "carcass", "meat", "conformation_by_fat", -0.6);
                            draft.set(ANY, "carcass", "fat-trim", "level_g_per_kg", 160);
                            draft.set(ANY, "carcass", "meat", "level_g_per_kg", 650);
                            draft.expectations.add(SmallTable.expectation(
                                    "fat-trim", null, "tissue", Variable.CONFORMATION, Direction.FALLS));
                        },
                        "expectations",
                        4,
                        "fat-trim",
                        "conformation",
                        "5+",
                        "0.200"),
                defect(
                        "the total of dice falls between two weights inside the range only",
                        () -> SmallTable.dip(13.5),
                        draft -> {},
                        "expectations",
                        0,
                        "dice",
                        "weight",
                        "562"),
                defect(
                        "an expectation about a cut that there isn't",
                        draft -> draft.expectations.add(
                                SmallTable.expectation("lion", null, "primal", Variable.FAT, Direction.RISES)),
                        "expectations",
                        4,
                        "cut",
                        "lion",
                        "loin"),
                defect(
                        "an expectation about a cut that stands at another level",
                        draft -> draft.expectations.add(
                                SmallTable.expectation("loin-steak", null, "primal", Variable.FAT, Direction.RISES)),
                        "expectations",
                        4,
                        "loin-steak",
                        "primal"),
                defect(
                        "an expectation about a kind that no cut of the level has",
                        draft -> draft.expectations.add(
                                SmallTable.expectation(null, CutKind.JOINT, "retail", Variable.FAT, Direction.RISES)),
                        "expectations",
                        4,
                        "joint",
                        "retail"),
                defect(
                        "an expectation about neither a cut nor a kind",
                        draft -> draft.expectations.add(
                                SmallTable.expectation(null, null, "retail", Variable.FAT, Direction.RISES)),
                        "expectations",
                        4,
                        "cut",
                        "kind"),
                defect(
                        "an expectation about both a cut and a kind",
                        draft -> draft.expectations.add(
                                SmallTable.expectation("bone", CutKind.BONE, "tissue", Variable.FAT, Direction.FALLS)),
                        "expectations",
                        4,
                        "cut",
                        "kind"),
                defect(
                        "an expectation at a level that there isn't",
                        draft -> draft.expectations.add(
                                SmallTable.expectation("bone", null, "tisue", Variable.FAT, Direction.FALLS)),
                        "expectations",
                        4,
                        "level",
                        "tisue",
                        "tissue, primal, retail"));
    }

    @TestFactory
    Stream<DynamicTest> rowsThatStandTwiceOrOverrideEachOther() {
        return Stream.of(
                defect(
                        "a row of coefficients stands twice",
                        draft -> draft.breakdown.add(draft.breakdown.get(draft.row(ANY, "meat", "loin"))),
                        "breakdown",
                        17,
                        "loin",
                        "has the same"),
                defect(
                        "a cell stands twice",
                        draft -> draft.byClass.add(draft.byClass.get(draft.cell("chuck", "R", "3", "dice"))),
                        "breakdown-by-class",
                        90,
                        "dice",
                        "has the same",
                        "same class"),
                defect(
                        "two rows serve one category equally specifically",
                        draft -> {
                            BreakdownRow loin = draft.breakdown.get(draft.row(ANY, "meat", "loin"));
                            draft.breakdown.add(Draft.with(loin, "CE", ANY, "meat", "loin", loin.coefficients()));
                            draft.breakdown.add(Draft.with(loin, "AE", ANY, "meat", "loin", loin.coefficients()));
                        },
                        "breakdown",
                        18,
                        "loin",
                        "category E",
                        "equally specific"),
                defect(
                        "a row for one category and a row for one way are equally specific",
                        draft -> {
                            BreakdownRow dice = draft.breakdown.get(draft.row("steaks", "loin", "dice"));
                            draft.breakdown.add(Draft.with(dice, "C", ANY, "loin", "dice", dice.coefficients()));
                        },
                        "breakdown",
                        17,
                        "dice",
                        "row 10",
                        "equally specific"),
                defect(
                        "a category letter stands twice in a row",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, "CEAC", ANY, "meat", "loin", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "category",
                        "CEAC"),
                defect("a cut stands twice", draft -> draft.cuts.add(draft.cuts.get(1)), "cuts", 9, "loin", "above"),
                defect(
                        "a source stands twice",
                        draft -> draft.sources.add(new Source("trial", SourceKind.PUBLISHED, "Another", "")),
                        "sources",
                        2,
                        "trial",
                        "above"),
                defect(
                        "a way is chosen twice in one specification",
                        draft -> draft.specifications.add(new SpecificationRow("steaks", "loin", "trim")),
                        "specifications",
                        2,
                        "loin",
                        "above"),
                defect(
                        "a quartering names a cut twice",
                        draft -> draft.quartering.add(new QuarteringRow(SmallTable.FORE, "loin", 0, "guess")),
                        "quartering",
                        5,
                        "loin",
                        "above"),
                defect(
                        "a level stands twice",
                        draft -> draft.levels.set(2, "primal"),
                        TableProblem.TABLE,
                        NO_ROW,
                        "levels",
                        "primal",
                        "twice"),
                defect(
                        "a category stands twice",
                        draft -> draft.categories.add(Category.STEER),
                        TableProblem.TABLE,
                        NO_ROW,
                        "categories",
                        "C",
                        "twice"),
                defect(
                        "a term's column is one that every table has",
                        draft -> draft.terms.set(0, new Term.Hinge("per_fat_point", Variable.FAT, Term.Side.BELOW, 3)),
                        TableProblem.TABLE,
                        NO_ROW,
                        "terms",
                        "per_fat_point"),
                defect(
                        "two terms have one column",
                        draft -> draft.terms.set(
                                0, new Term.Hinge("conformation_by_fat", Variable.FAT, Term.Side.BELOW, 3)),
                        TableProblem.TABLE,
                        NO_ROW,
                        "terms",
                        "conformation_by_fat",
                        "taken"));
    }

    @TestFactory
    Stream<DynamicTest> aTreeThatDoesNotHold() {
        return Stream.of(
                defect(
                        "a cut that nothing produces",
                        draft -> draft.cuts.add(Cut.of("rump", "Rump", "primal", CutKind.PRIMAL)),
                        "cuts",
                        9,
                        "rump",
                        "breakdown"),
                defect(
                        "a parent that is no cut",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, ANY, ANY, "meet", "loin", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "parent",
                        "meet",
                        "neither carcass nor a cut"),
                defect(
                        "a child that is no cut",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, ANY, ANY, "meat", "lion", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "cut",
                        "lion",
                        "no such cut"),
                defect(
                        "a parent at the last level, which is not broken down",
                        draft -> {
                            draft.breakdown.add(row("loin-steak", "dice", 900));
                            draft.breakdown.add(row("loin-steak", "lean-trim", 100));
                        },
                        "breakdown",
                        17,
                        "loin-steak",
                        "last level"),
                defect(
                        "a cut that stands one level earlier than it says",
                        draft -> draft.cuts.set(draft.cut("bone"), Cut.of("bone", "Bone", "primal", CutKind.BONE)),
                        "breakdown",
                        smallRow(ANY, "carcass", "bone"),
                        "bone",
                        "level",
                        "primal",
                        "tissue"),
                defect(
                        "a cut that stands one level later than it says",
                        draft -> draft.cuts.set(
                                draft.cut("loin-steak"), Cut.of("loin-steak", "Loin", "primal", CutKind.STEAK)),
                        "cuts",
                        3,
                        "loin-steak",
                        "primal"),
                defect(
                        "a cut at a level that there isn't",
                        draft -> draft.cuts.set(draft.cut("loin"), Cut.of("loin", "Loin", "prime", CutKind.PRIMAL)),
                        "cuts",
                        1,
                        "level",
                        "prime",
                        "tissue, primal, retail"),
                defect(
                        "a cut that is its own child",
                        draft -> draft.change(
                                "steaks",
                                "loin",
                                "dice",
                                row -> Draft.with(row, ANY, "steaks", "loin", "loin", row.coefficients())),
                        "breakdown",
                        NO_ROW,
                        "loin -> loin"),
                defect(
                        "a cycle of a parent and its child",
                        draft -> draft.change(
                                "steaks",
                                "loin",
                                "dice",
                                row -> Draft.with(row, ANY, "steaks", "loin", "meat", row.coefficients())),
                        "breakdown",
                        NO_ROW,
                        "meat -> loin -> meat"),
                defect(
                        "no breakdown of the carcass",
                        draft -> draft.breakdown.removeIf(row -> row.parent().equals("carcass")),
                        "breakdown",
                        NO_ROW,
                        "carcass"),
                defect("no level", draft -> draft.levels.clear(), TableProblem.TABLE, NO_ROW, "levels"),
                defect("no category", draft -> draft.categories.clear(), TableProblem.TABLE, NO_ROW, "categories"),
                defect("no cut", draft -> draft.cuts.clear(), "breakdown", 0, "no such cut"));
    }

    private static BreakdownRow row(String parent, String cut, double level) {
        return new BreakdownRow(ANY, ANY, parent, cut, List.of(level, 0.0, 0.0, 0.0, 0.0, 0.0), 1, "guess");
    }

    @TestFactory
    Stream<DynamicTest> categoriesAndWays() {
        return Stream.of(
                defect(
                        "a category that one child forgets",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, "CE", ANY, "meat", "loin", row.coefficients())),
                        "breakdown",
                        NO_ROW,
                        "category A",
                        "meat"),
                defect(
                        "a category that no row serves",
                        draft -> draft.breakdown.replaceAll(row -> row.parent().equals("meat")
                                ? Draft.with(row, "CE", row.way(), row.parent(), row.cut(), row.coefficients())
                                : row),
                        "breakdown",
                        NO_ROW,
                        "category A",
                        "meat"),
                defect(
                        "a category that the table doesn't serve",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, "CEAD", ANY, "meat", "loin", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "category",
                        "CEAD",
                        "CEA"),
                defect(
                        "a letter that is no category",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, "CEAX", ANY, "meat", "loin", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "category",
                        "CEAX",
                        "CEA"),
                defect(
                        "a blank category",
                        draft -> draft.change(
                                ANY,
                                "meat",
                                "loin",
                                row -> Draft.with(row, "", ANY, "meat", "loin", row.coefficients())),
                        "breakdown",
                        smallRow(ANY, "meat", "loin"),
                        "category",
                        "*"),
                defect(
                        "a blank way",
                        draft -> draft.change(
                                "steaks",
                                "loin",
                                "dice",
                                row -> Draft.with(row, ANY, "", "loin", "dice", row.coefficients())),
                        "breakdown",
                        smallRow("steaks", "loin", "dice"),
                        "way",
                        "*"),
                defect(
                        "a way that one child forgets",
                        draft -> draft.breakdown.remove(draft.row("trim", "loin", "lean-trim")),
                        "breakdown",
                        NO_ROW,
                        "loin",
                        "trim",
                        "520",
                        "1000"),
                defect(
                        "a specification with a way that there isn't",
                        draft -> draft.specifications.set(0, new SpecificationRow("steaks", "loin", "stakes")),
                        "specifications",
                        0,
                        "way",
                        "stakes",
                        "steaks, trim"),
                defect(
                        "a specification for a cut without ways",
                        draft -> draft.specifications.add(new SpecificationRow("steaks", "chuck", "dice")),
                        "specifications",
                        2,
                        "chuck"),
                defect(
                        "a specification for a cut that there isn't",
                        draft -> draft.specifications.add(new SpecificationRow("steaks", "lion", "steaks")),
                        "specifications",
                        2,
                        "parent",
                        "lion",
                        "loin"),
                defect(
                        "an incomplete specification",
                        draft -> {
                            draft.breakdown.add(wayRow("a", "dice"));
                            draft.breakdown.add(wayRow("b", "lean-trim"));
                            draft.byClass.clear();
                            draft.extraColumns.clear();
                        },
                        "specifications",
                        NO_ROW,
                        "steaks",
                        "chuck"));
    }

    /** Leaves every category the same rows. */
    private static void keepTheRowsOfAll(Draft draft) {
        draft.breakdown.removeIf(row -> row.category().equals("A"));
        draft.extraColumns.clear();
    }

    private static BreakdownRow wayRow(String way, String cut) {
        return new BreakdownRow(ANY, way, "chuck", cut, List.of(1000.0, 0.0, 0.0, 0.0, 0.0, 0.0), 0, "guess");
    }

    @TestFactory
    Stream<DynamicTest> breakdownsByClass() {
        return Stream.of(
                defect(
                        "a missing cell",
                        draft -> draft.byClass.remove(draft.cell("chuck", "R", "3", "dice")),
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "dice",
                        "R 3"),
                defect(
                        "a missing fat class",
                        draft -> draft.byClass.removeIf(cell -> cell.fatClass().equals("4")),
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "P 4",
                        "S 4"),
                defect(
                        "a missing outer class",
                        draft -> draft.byClass.removeIf(
                                cell -> cell.conformation().equals("S")),
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "S 1",
                        "S 5"),
                defect(
                        "whole classes and thirds mixed",
                        draft -> {
                            int index = draft.cell("chuck", "R", "3", "dice");
                            draft.byClass.set(index, Draft.cell(draft.byClass.get(index), "R=", "3", 400));
                        },
                        "breakdown-by-class",
                        NO_ROW,
                        "conformation",
                        "mixes whole classes and thirds"),
                defect(
                        "a class that there isn't",
                        draft -> {
                            int index = draft.cell("chuck", "R", "3", "dice");
                            draft.byClass.set(index, Draft.cell(draft.byClass.get(index), "R", "6", 400));
                        },
                        "breakdown-by-class",
                        smallCell("R", "3", "dice"),
                        "fat_class",
                        "6",
                        "1 to 5"),
                defect(
                        "half a class",
                        draft -> {
                            int index = draft.cell("chuck", "R", "4", "dice");
                            draft.byClass.set(index, Draft.cell(draft.byClass.get(index), "R", "4L", 400));
                        },
                        "breakdown-by-class",
                        smallCell("R", "4", "dice"),
                        "fat_class",
                        "4L"),
                defect(
                        "both forms of breakdown for one parent",
                        draft -> {
                            draft.breakdown.add(row("chuck", "dice", 400));
                            draft.breakdown.add(row("chuck", "lean-trim", 600));
                        },
                        "breakdown-by-class",
                        NO_ROW,
                        "chuck",
                        "breakdown-by-class both"),
                defect(
                        "a cell that is not a number",
                        draft -> draft.setCell("chuck", "R", "3", "dice", Double.NaN),
                        "breakdown-by-class",
                        smallCell("R", "3", "dice"),
                        "g_per_kg",
                        "NaN"),
                defect(
                        "a cell of another cut that there isn't",
                        draft -> draft.byClass.add(new ClassRow(ANY, ANY, "chuck", "R", "3", "lion", 0, 0, "guess")),
                        "breakdown-by-class",
                        90,
                        "cut",
                        "lion"));
    }

    @TestFactory
    Stream<DynamicTest> quarteringsNotesAndSources() {
        return Stream.of(
                defect(
                        "a quartering that misses a cut",
                        draft -> draft.quartering.remove(1),
                        "quartering",
                        NO_ROW,
                        SmallTable.FORE,
                        "chuck"),
                defect(
                        "a quartering with a cut of another level",
                        draft -> draft.quartering.add(new QuarteringRow(SmallTable.FORE, "dice", 0, "guess")),
                        "quartering",
                        NO_ROW,
                        SmallTable.FORE,
                        "dice"),
                defect(
                        "a fore share of 1.2",
                        draft -> draft.quartering.set(1, new QuarteringRow(SmallTable.FORE, "chuck", 1.2, "guess")),
                        "quartering",
                        1,
                        "fore_share",
                        "1.2",
                        "0 to 1"),
                defect(
                        "a fore share that is not a number",
                        draft -> draft.quartering.set(
                                1, new QuarteringRow(SmallTable.FORE, "chuck", Double.NaN, "guess")),
                        "quartering",
                        1,
                        "fore_share",
                        "NaN",
                        "0 to 1"),
                defect(
                        "a note on a row that there isn't",
                        draft -> draft.notes.add(
                                new CoefficientNote(ANY, "dice", "loin", "dice", "per_fat_point", 1.0, "trial")),
                        "coefficient-notes",
                        1,
                        "dice"),
                defect(
                        "a note on a term that there isn't",
                        draft -> draft.notes.add(
                                new CoefficientNote(ANY, ANY, "carcass", "meat", "per_fat", 1.0, "trial")),
                        "coefficient-notes",
                        1,
                        "term",
                        "per_fat",
                        "per_fat_point"),
                defect(
                        "a standard error below 0",
                        draft -> draft.notes.add(
                                new CoefficientNote(ANY, ANY, "carcass", "meat", "per_100kg", -1.0, "trial")),
                        "coefficient-notes",
                        1,
                        "standard_error",
                        "-1",
                        "0"),
                defect(
                        "a row whose source there isn't",
                        draft -> draft.sources.remove(0),
                        "breakdown",
                        0,
                        "source",
                        "trial",
                        "sources"),
                defect(
                        "a quartering whose source there isn't",
                        draft -> draft.quartering.set(1, new QuarteringRow(SmallTable.FORE, "chuck", 1, "book")),
                        "quartering",
                        1,
                        "source",
                        "book"),
                defect(
                        "a note whose source there isn't",
                        draft -> draft.notes.set(
                                0, new CoefficientNote(ANY, ANY, "carcass", "meat", "per_fat_point", 1.0, "book")),
                        "coefficient-notes",
                        0,
                        "source",
                        "book"),
                defect(
                        "a name for a cut that there isn't",
                        draft -> draft.names.add(new CutName("lion", "de", "Löwe")),
                        "names",
                        1,
                        "cut",
                        "lion"),
                defect(
                        "an extra column with a value too few",
                        draft -> draft.extraColumns.set(
                                0,
                                new ExtraColumn("breakdown", "checked_by", "string", Collections.nCopies(16, "hall"))),
                        "breakdown",
                        NO_ROW,
                        "checked_by",
                        "a value for each row"),
                defect(
                        "an extra column of a resource that there isn't",
                        draft -> draft.extraColumns.add(new ExtraColumn("prices", "checked_by", "string", List.of())),
                        "prices",
                        NO_ROW,
                        "checked_by"),
                defect(
                        "decimals of a column that there isn't",
                        draft -> draft.decimals.put("per_fat", 2),
                        TableProblem.TABLE,
                        NO_ROW,
                        "decimals",
                        "per_fat"),
                defect(
                        "decimals below 0",
                        draft -> draft.decimals.put("per_fat_point", -1),
                        TableProblem.TABLE,
                        NO_ROW,
                        "decimals",
                        "-1"));
    }

    @TestFactory
    Stream<DynamicTest> figuresOutsideTheirRange() {
        return Stream.of(
                        Stream.of(Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY)
                                .map(bad -> defect(
                                        "a coefficient of " + bad,
                                        draft -> draft.set(ANY, "carcass", "meat", "per_fat_point", bad),
                                        "breakdown",
                                        0,
                                        "per_fat_point",
                                        bad.toString())),
                        Stream.of(Double.NaN, -1.0)
                                .map(bad -> defect(
                                        "an SD of " + bad,
                                        draft -> draft.breakdown.set(
                                                0,
                                                new BreakdownRow(
                                                        ANY,
                                                        ANY,
                                                        "carcass",
                                                        "meat",
                                                        draft.breakdown.get(0).coefficients(),
                                                        bad,
                                                        "trial")),
                                        "breakdown",
                                        0,
                                        "sd_g_per_kg",
                                        bad < 0 ? "-1" : "NaN",
                                        "0")),
                        Stream.of(
                                defect(
                                        "a row with too few coefficients",
                                        draft -> draft.change(
                                                ANY,
                                                "meat",
                                                "loin",
                                                row -> Draft.with(row, ANY, ANY, "meat", "loin", List.of(300.0, 2.0))),
                                        "breakdown",
                                        smallRow(ANY, "meat", "loin"),
                                        "has 2 coefficients",
                                        "has 6"),
                                defect(
                                        "weight at four levels of one path",
                                        DefinitionDefectsTest::fourLevels,
                                        draft -> {
                                            draft.set(ANY, "d", "e", "per_100kg", 1);
                                            draft.set(ANY, "d", "loss", "per_100kg", -1);
                                        },
                                        "cuts",
                                        3,
                                        "e",
                                        "4 levels",
                                        "at most 3"),
                                defect(
                                        "a reference carcass outside the allowed range",
                                        draft -> draft.reference = new ReferencePoint(8, 8, 640),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "reference",
                                        "640",
                                        "inside the allowed range"),
                                defect(
                                        "a reference carcass that is not a number",
                                        draft -> draft.reference = new ReferencePoint(Double.NaN, 8, 340),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "reference",
                                        "NaN"),
                                defect(
                                        "a fitted range outside the allowed range",
                                        draft -> draft.fitted =
                                                new TableRange(new Range(2, 14), new Range(3, 13), new Range(140, 480)),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "fitted_range",
                                        "inside the allowed range"),
                                defect(
                                        "a weight range from 0",
                                        draft -> draft.allowed =
                                                new TableRange(new Range(1, 18), new Range(1, 15), new Range(0, 600)),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "allowed",
                                        "0 to 600"),
                                defect(
                                        "a range of grades that are no whole positions",
                                        draft -> draft.allowed = new TableRange(
                                                new Range(1.5, 18), new Range(1, 15), new Range(150, 600)),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "allowed",
                                        "1.5"),
                                defect(
                                        "a range of grades beyond the scale",
                                        draft -> draft.allowed =
                                                new TableRange(new Range(1, 18), new Range(1, 18), new Range(150, 600)),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "allowed",
                                        "18",
                                        "15"),
                                defect(
                                        "a hinge whose knot is off the scale",
                                        draft -> draft.terms.set(
                                                0, new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.BELOW, 16)),
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "terms",
                                        "16",
                                        "15"),
                                defect(
                                        "a resolution of four points",
                                        draft -> draft.widthFit = 4,
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "width_fit",
                                        "4",
                                        "0 to 3"),
                                defect(
                                        "a name with a blank",
                                        draft -> draft.name = "Small table",
                                        TableProblem.TABLE,
                                        NO_ROW,
                                        "name",
                                        "Small table")))
                .flatMap(defects -> defects);
    }

    private static TableDefinition fourLevels() {
        TableDefinition.Builder table = TableDefinition.builder("tarrowmere-tower", "1.0.0")
                .levels("one", "two", "three", "four")
                .categories(Category.STEER)
                .source(new Source("guess", SourceKind.ASSUMPTION, "Invented", ""));
        List<String> tower = List.of("carcass", "b", "c", "d", "e");
        IntStream.range(0, 4).forEach(level -> {
            String cut = tower.get(level + 1);
            table.cut(Cut.of(cut, cut, table.build().levels().get(level), CutKind.PRIMAL));
            table.row(tower.get(level), cut, 1, "guess", 900, 0, 0, level < 3 ? 1 : 0);
            table.row(tower.get(level), "loss", 1, "guess", 100, 0, 0, level < 3 ? -1 : 0);
        });
        return table.cut(Cut.of("loss", "Loss", "one", CutKind.LOSS)).build();
    }

    /** The plants of the expectations stand where they are said to stand. */
    @Test
    void theDipIsInsideTheRangeAndNowhereElse() {
        double[] slopes = IntStream.rangeClosed(0, 500)
                .mapToDouble(kg -> {
                    double t = (kg - 190) / 100.0;
                    return 13.5 - 5 - 8 * t + 1.8 * t * t;
                })
                .toArray();
        assertThat(slopes[0]).isPositive();
        assertThat(slopes[500]).isPositive();
        assertThat(IntStream.range(0, slopes.length).filter(kg -> slopes[kg] < 0))
                .isNotEmpty()
                .allMatch(kg -> kg > 360 && kg < 465);
    }
}
