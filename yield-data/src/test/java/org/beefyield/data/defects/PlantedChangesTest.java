package org.beefyield.data.defects;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.ChangeBudget;
import org.beefyield.table.TableChange;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Changes of one thing each, held against the table as it was with a budget of 0: each is caught and named by its own words
 * and by nothing else. And changes of how a table is written down, which are none.
 */
class PlantedChangesTest {
    private static final String ANY = BreakdownRow.ANY;
    private static final TableDefinition BEFORE = before();

    /** The small table with something of every kind. */
    private static TableDefinition before() {
        Draft draft = new Draft(SmallTable.definition());
        draft.breakdown.replaceAll(
                row -> row.withShared(SharedSds.of(row.sdGPerKg() / 2, row.sdGPerKg() / 4, row.sdGPerKg() / 5)));
        draft.byClass.replaceAll(
                row -> row.withShared(SharedSds.of(row.sdGPerKg() / 2, row.sdGPerKg() / 4, row.sdGPerKg() / 5)));
        setCut(
                draft,
                "loin",
                cut -> cut.withPiecesPerSide(1.0)
                        .withSideSplitSdPct(5.0)
                        .withFatPct(12.0)
                        .withUnece("2140")
                        .withNote("with the chain"));
        setCut(draft, "chuck", cut -> cut.withFatPct(15.0));
        setCut(draft, "fat-trim", cut -> cut.withFatPct(75.0));
        draft.notes.add(note("loin", 0.4, ""));
        draft.notes.add(note("chuck", 0.4, ""));
        for (String cut : List.of("loin", "chuck")) {
            for (String other : List.of("loin", "chuck")) {
                draft.covariances.add(CovarianceRow.residual("meat", cut, other, cut.equals(other) ? 25 : -25));
            }
        }
        draft.covariances.remove(2);
        return draft.build().toBuilder()
                .residualDegreesOfFreedom(40)
                .runDegreesOfFreedom(17)
                .license(new License("CC0-1.0", "", ""))
                .build();
    }

    private static CoefficientNote note(String cut, Double error, String id) {
        return new CoefficientNote(ANY, ANY, "meat", cut, "per_100kg", error, id, "trial");
    }

    private static void setCut(Draft draft, String code, UnaryOperator<Cut> change) {
        draft.cuts.set(draft.cut(code), change.apply(draft.cuts.get(draft.cut(code))));
    }

    private static BreakdownRow with(BreakdownRow row, double sd, SharedSds shared, String source) {
        return new BreakdownRow(
                row.category(), row.way(), row.parent(), row.cut(), row.coefficients(), sd, shared, source);
    }

    private static void setRow(Draft draft, String way, String parent, String cut, UnaryOperator<BreakdownRow> change) {
        draft.change(way, parent, cut, change);
    }

    private static TableDefinition planted(Consumer<Draft> change) {
        Draft draft = new Draft(BEFORE);
        change.accept(draft);
        return draft.build();
    }

    private static DynamicTest plant(String what, Consumer<Draft> change, String... words) {
        return plant(what, planted(change), words);
    }

    /** What is said: shares that move by cut and level, what is lost, what changed by kind. */
    private static List<String> said(TableComparison comparison) {
        List<String> said = new ArrayList<>();
        comparison
                .beyond(0)
                .forEach(difference -> said.add("moves: " + difference.cut() + " at " + difference.level()));
        comparison.lost().forEach(lost -> said.add("lost: " + lost));
        comparison.changes().forEach(change -> said.add(change.kind().code() + ": " + change.words()));
        return said;
    }

    private static TableComparison compare(TableDefinition after) {
        return TableComparison.of(YieldTable.of(BEFORE), YieldTable.of(after));
    }

    private static DynamicTest plant(String what, TableDefinition after, String... words) {
        return DynamicTest.dynamicTest(what, () -> {
            TableComparison comparison = compare(after);
            assertThat(said(comparison)).containsExactly(words);
            assertThat(comparison.within(0)).as("at budget 0").isFalse();
            assertThat(comparison.toText()).doesNotContain("Nothing changed");
            // allowed by its own kind and by no other
            for (TableChange.Kind kind : TableChange.Kind.values()) {
                boolean all = comparison.beyond(0).isEmpty()
                        && comparison.lost().isEmpty()
                        && comparison.changes().stream().allMatch(change -> change.kind() == kind);
                assertThat(comparison.within(ChangeBudget.ofShares(0).allowing(kind)))
                        .as(kind.code())
                        .isEqualTo(all);
            }
        });
    }

    @TestFactory
    Stream<DynamicTest> everyPlantIsCaughtAndNamed() {
        List<DynamicTest> plants = new ArrayList<>();
        plants.addAll(shares());
        plants.addAll(errors());
        plants.addAll(cuts());
        plants.addAll(statements());
        plants.addAll(sources());
        assertThat(plants).hasSizeGreaterThanOrEqualTo(50);
        return plants.stream();
    }

    private static List<DynamicTest> shares() {
        return List.of(
                plant(
                        "a level",
                        draft -> {
                            draft.set(ANY, "meat", "loin", "level_g_per_kg", 300.01);
                            draft.set(ANY, "meat", "chuck", "level_g_per_kg", 699.99);
                        },
                        "moves: loin at primal",
                        "moves: chuck at primal",
                        "moves: loin-steak at retail",
                        "moves: dice at retail",
                        "moves: lean-trim at retail",
                        "moves: fat-trim at retail",
                        "moves: loss at retail"),
                plant(
                        "a slope",
                        draft -> {
                            draft.set("steaks", "loin", "loin-steak", "per_100kg", 5.01);
                            draft.set("steaks", "loin", "dice", "per_100kg", -5.01);
                        },
                        "moves: loin-steak at retail",
                        "moves: dice at retail"),
                plant(
                        "a hinge",
                        draft -> {
                            draft.set(ANY, "carcass", "bone", "fat_below_3", 0.1);
                            draft.set(ANY, "carcass", "loss", "fat_below_3", -0.1);
                        },
                        "moves: bone at tissue",
                        "moves: loss at tissue",
                        "moves: bone at primal",
                        "moves: loss at primal",
                        "moves: bone at retail",
                        "moves: loss at retail"),
                plant(
                        "a row of one category",
                        draft -> {
                            draft.breakdown.set(4, coefficient(draft.breakdown.get(4), 705.5));
                            draft.breakdown.set(5, coefficient(draft.breakdown.get(5), 104.5));
                        },
                        "moves: meat at tissue",
                        "moves: fat-trim at tissue",
                        "moves: loin at primal",
                        "moves: chuck at primal",
                        "moves: fat-trim at primal",
                        "moves: loin-steak at retail",
                        "moves: dice at retail",
                        "moves: lean-trim at retail",
                        "moves: fat-trim at retail",
                        "moves: loss at retail"),
                plant(
                        "a cell",
                        draft -> {
                            draft.setCell("chuck", "R", "3", "dice", 400.1);
                            draft.setCell("chuck", "R", "3", "lean-trim", 539.9);
                        },
                        "moves: dice at retail",
                        "moves: lean-trim at retail"),
                plant(
                        "a way is gone",
                        draft -> {
                            draft.breakdown.removeIf(row -> row.way().equals("trim"));
                            draft.specifications.remove(1);
                            draft.extraColumns.set(
                                    0,
                                    new ExtraColumn(
                                            "breakdown", "checked_by", "string", Collections.nCopies(13, "hall")));
                        },
                        "lost: cutting specification trim",
                        "lost: way \"trim\" of loin"),
                plant("a category is gone", draft -> draft.categories.remove(Category.HEIFER), "lost: category E"),
                plant("a category is new", draft -> draft.categories.add(Category.COW), "additions: category D"),
                plant(
                        "a specification is gone",
                        draft -> draft.specifications.remove(1),
                        "lost: cutting specification trim"),
                plant(
                        "a specification is new",
                        draft -> draft.specifications.add(new SpecificationRow("mince", "loin", "trim")),
                        "additions: cutting specification mince"));
    }

    private static BreakdownRow coefficient(BreakdownRow row, double level) {
        List<Double> coefficients = new ArrayList<>(row.coefficients());
        coefficients.set(0, level);
        return new BreakdownRow(
                row.category(),
                row.way(),
                row.parent(),
                row.cut(),
                coefficients,
                row.sdGPerKg(),
                row.shared(),
                row.source());
    }

    private static List<DynamicTest> errors() {
        List<DynamicTest> plants = new ArrayList<>(
                List.of(
                        plant(
                                "one SD",
                                draft -> setRow(
                                        draft,
                                        "trim",
                                        "loin",
                                        "dice",
                                        row -> with(row, 18.7, row.shared(), row.source())),
                                "sds: dice of loin as trim: 17 g/kg, now 18.7 g/kg (10.000 %)"),
                        plant(
                                "the SD of a category's row",
                                draft -> draft.breakdown.set(
                                        4,
                                        with(
                                                draft.breakdown.get(4),
                                                27.3,
                                                draft.breakdown.get(4).shared(),
                                                "guess")),
                                "sds: meat of carcass, category A: 26 g/kg, now 27.3 g/kg (5.000 %)"),
                        plant(
                                "the SD of a cell",
                                draft -> {
                                    int cell = draft.cell("chuck", "R", "3", "dice");
                                    ClassRow row = draft.byClass.get(cell);
                                    draft.byClass.set(
                                            cell,
                                            new ClassRow(
                                                    row.category(),
                                                    row.way(),
                                                    row.parent(),
                                                    row.conformation(),
                                                    row.fatClass(),
                                                    row.cut(),
                                                    row.gPerKg(),
                                                    16.5,
                                                    row.shared(),
                                                    row.source()));
                                },
                                "sds: dice of chuck, category C, R- 3- and 26 more places: 15 g/kg, now 16.5 g/kg (10.000 %)")));
        for (String by : List.of("lot", "run", "hall")) {
            plants.add(plant(
                    "an SD of a " + by,
                    draft -> setRow(draft, "trim", "loin", "dice", row -> {
                        SharedSds was = row.shared();
                        SharedSds now = new SharedSds(
                                by.equals("lot") ? 9.35 : was.lotGPerKg(),
                                by.equals("run") ? 4.675 : was.runGPerKg(),
                                by.equals("hall") ? 3.74 : was.hallGPerKg());
                        return with(row, row.sdGPerKg(), now, row.source());
                    }),
                    "shared-sds: " + by + "_sd_g_per_kg of dice of loin as trim: "
                            + (by.equals("lot")
                                    ? "8.5 g/kg, now 9.35"
                                    : by.equals("run") ? "4.25 g/kg, now 4.675" : "3.4 g/kg, now 3.74")
                            + " g/kg (10.000 %)"));
        }
        plants.addAll(List.of(
                plant(
                        "SDs of lots are stated no more",
                        draft -> {
                            draft.breakdown.replaceAll(row -> row.withShared(new SharedSds(
                                    null, row.shared().runGPerKg(), row.shared().hallGPerKg())));
                            draft.byClass.replaceAll(row -> row.withShared(new SharedSds(
                                    null, row.shared().runGPerKg(), row.shared().hallGPerKg())));
                        },
                        "shared-sds: lot_sd_g_per_kg: stated, now not stated"),
                plant(
                        "standard errors are gone",
                        draft -> draft.notes.removeIf(note -> note.parent().equals("meat")),
                        "standard-errors: per_100kg of loin of meat: 0.4 g/kg, now 0 g/kg (100.000 %)",
                        "standard-errors: per_100kg of chuck of meat: 0.4 g/kg, now 0 g/kg (100.000 %)",
                        "sources: per_100kg of loin of meat: trial (assumption), now none",
                        "sources: per_100kg of chuck of meat: trial (assumption), now none"),
                plant(
                        "standard errors are halved",
                        draft -> draft.notes.replaceAll(
                                note -> note.standardError() == null ? note : note(note.cut(), 0.2, "")),
                        "standard-errors: per_100kg of loin of meat: 0.4 g/kg, now 0.2 g/kg (50.000 %)",
                        "standard-errors: per_100kg of chuck of meat: 0.4 g/kg, now 0.2 g/kg (50.000 %)"),
                plant(
                        "errors have a name",
                        draft -> draft.notes.replaceAll(
                                note -> note.standardError() == null ? note : note(note.cut(), 0.4, "fit")),
                        "standard-errors: per_100kg of loin of meat: 0.4 g/kg, now 0 g/kg (100.000 %)",
                        "standard-errors: per_100kg of loin of meat, error fit: 0 g/kg, now 0.4 g/kg",
                        "standard-errors: per_100kg of chuck of meat: 0.4 g/kg, now 0 g/kg (100.000 %)",
                        "standard-errors: per_100kg of chuck of meat, error fit: 0 g/kg, now 0.4 g/kg"),
                plant(
                        "degrees of freedom",
                        BEFORE.toBuilder().residualDegreesOfFreedom(20).build(),
                        "degrees-of-freedom: residual degrees of freedom: 40, now 20 (50.000 %)"),
                plant("the width", draft -> draft.widthFit = 3, "width-fit: width_fit: 1, now 3 (2.000 points)")));
        return plants;
    }

    private static List<DynamicTest> cuts() {
        return List.of(
                plant(
                        "fat content of a cut",
                        draft -> setCut(draft, "chuck", cut -> cut.withFatPct(20.0)),
                        "fat-contents: chuck: 15, now 20 (5.000 points)"),
                plant(
                        "fat content of fat trim",
                        draft -> setCut(draft, "fat-trim", cut -> cut.withFatPct(70.0)),
                        "fat-contents: fat-trim: 75, now 70 (5.000 points)"),
                plant(
                        "fat content stated no more",
                        draft -> setCut(draft, "chuck", cut -> cut.withFatPct(null)),
                        "fat-contents: chuck: 15, now none"),
                plant(
                        "pieces",
                        draft -> setCut(draft, "loin", cut -> cut.withPiecesPerSide(2.0)),
                        "pieces: loin: 1, now 2 (100.000 %)"),
                plant(
                        "the difference between sides",
                        draft -> setCut(draft, "loin", cut -> cut.withSideSplitSdPct(6.0)),
                        "side-differences: loin: 5, now 6 (1.000 points)"),
                plant(
                        "an item number",
                        draft -> setCut(draft, "loin", cut -> cut.withUnece("2150")),
                        "codes: loin: 2140, now 2150"),
                plant(
                        "a note",
                        draft -> setCut(draft, "loin", cut -> cut.withNote("without the chain")),
                        "notes: loin: with the chain, now without the chain"),
                plant(
                        "a name",
                        draft ->
                                draft.cuts.set(draft.cut("dice"), Cut.of("dice", "Diced beef", "retail", CutKind.DICE)),
                        "names: dice: Dice, now Diced beef"),
                plant(
                        "a name in a language",
                        draft -> draft.names.set(0, new CutName("loin", "de", "Roastbeef")),
                        "names: loin in de: Lende, now Roastbeef"),
                plant(
                        "a name in a language is gone",
                        draft -> draft.names.remove(0),
                        "names: loin in de: Lende, now none"),
                plant(
                        "a name in another language",
                        draft -> draft.names.add(new CutName("loin", "fr", "Longe")),
                        "names: loin in fr: none, now Longe"),
                plant(
                        "the kind of a cut",
                        draft -> draft.cuts.set(draft.cut("dice"), Cut.of("dice", "Dice", "retail", CutKind.JOINT)),
                        "cut-kinds: dice: dice, now joint"),
                plant(
                        "the order of cuts",
                        draft -> Collections.swap(draft.cuts, draft.cut("bone"), draft.cut("loss")),
                        "order: order of cuts: meat, loin, chuck, loin-steak, dice, lean-trim, fat-trim, bone, loss, now"
                                + " meat, loin, chuck, loin-steak, dice, lean-trim, fat-trim, loss, bone"));
    }

    private static List<DynamicTest> statements() {
        return List.of(
                plant(
                        "the default specification",
                        draft -> Collections.reverse(draft.specifications),
                        "specifications: the default specification: steaks, now trim",
                        "specifications: order of specifications: steaks, trim, now trim, steaks"),
                plant(
                        "a new default specification",
                        draft -> draft.specifications.add(0, new SpecificationRow("mince", "loin", "trim")),
                        "additions: cutting specification mince",
                        "specifications: the default specification: steaks, now mince"),
                plant(
                        "a part of a cut in the forequarter",
                        draft -> draft.quartering.set(3, new QuarteringRow(SmallTable.FORE, "bone", 0.45, "guess")),
                        "quarterings: per cent fore of bone, 10-rib forequarter: 55, now 45 (10.000 points)"),
                plant(
                        "the fitted range",
                        draft -> draft.fitted = new TableRange(new Range(2, 14), new Range(3, 12), new Range(220, 480)),
                        "ranges: fitted fat: 3 to 13, now 3 to 12"),
                plant(
                        "the allowed range is wider",
                        draft ->
                                draft.allowed = new TableRange(new Range(1, 18), new Range(1, 15), new Range(140, 600)),
                        "ranges: allowed weight: 150 to 600, now 140 to 600"),
                plant(
                        "the allowed range is narrower",
                        draft ->
                                draft.allowed = new TableRange(new Range(1, 18), new Range(1, 15), new Range(150, 590)),
                        "lost: allowed weight 150 to 600, now 150 to 590"),
                plant(
                        "a promise is gone",
                        draft -> draft.expectations.remove(1),
                        "expectations: fat-trim at level tissue rises strictly with fat over the allowed range: promised,"
                                + " now not promised"),
                plant(
                        "a promise is new",
                        draft -> draft.expectations.add(SmallTable.expectation(
                                "bone", null, "tissue", Variable.WEIGHT, Expectation.Direction.FALLS)),
                        "expectations: bone at level tissue falls strictly with weight over the allowed range: not"
                                + " promised, now promised"),
                plant(
                        "fat cover",
                        draft -> draft.basis = Basis.NOT_STATED.withFatCoverMm(5.0),
                        "basis: fat cover in mm: not stated, now 5"),
                plant(
                        "hanging",
                        draft -> draft.basis = Basis.NOT_STATED.withHanging("hip"),
                        "basis: hanging: not stated, now hip"),
                plant(
                        "ageing",
                        draft -> draft.basis = Basis.NOT_STATED.withAgeingDays(7.0),
                        "basis: ageing in days: not stated, now 7"),
                plant(
                        "boneless",
                        draft -> draft.basis = Basis.NOT_STATED.withBoneless(false),
                        "basis: boneless: not stated, now false"),
                plant(
                        "quartering of the carcasses",
                        draft -> draft.basis = Basis.NOT_STATED.withQuartering("8-rib forequarter"),
                        "basis: quartering: not stated, now 8-rib forequarter"),
                plant(
                        "a licence",
                        BEFORE.toBuilder()
                                .license(new License("CC-BY-4.0", "", ""))
                                .build(),
                        "licences: licences: CC0-1.0, now CC-BY-4.0, CC0-1.0"));
    }

    private static List<DynamicTest> sources() {
        return List.of(
                plant(
                        "the source of a row",
                        draft -> setRow(draft, "trim", "loin", "dice", row -> with(row, 17, row.shared(), "trial")),
                        "sources: dice of loin as trim: guess (assumption), now trial (assumption)"),
                plant(
                        "the kind of a source",
                        draft -> draft.sources.set(
                                0, new SourceRow("trial", SourceKind.PUBLISHED, "Invented boning trial", "")),
                        "sources: source trial: assumption, now published"),
                plant(
                        "a citation",
                        draft -> draft.sources.set(
                                0, new SourceRow("trial", SourceKind.ASSUMPTION, "Another boning trial", "")),
                        "citations: source trial: Invented boning trial, now Another boning trial"),
                plant(
                        "a note on a source",
                        draft -> draft.sources.set(
                                0, new SourceRow("trial", SourceKind.ASSUMPTION, "Invented boning trial", "old")),
                        "notes: source trial: none, now old"),
                plant(
                        "the source of a coefficient",
                        draft -> draft.notes.set(
                                0, new CoefficientNote(ANY, ANY, "carcass", "meat", "per_fat_point", null, "guess")),
                        "sources: per_fat_point of meat of carcass, categories C E: trial (assumption), now guess"
                                + " (assumption)"),
                plant(
                        "the source of a quartering",
                        draft -> draft.quartering.set(3, new QuarteringRow(SmallTable.FORE, "bone", 0.55, "trial")),
                        "sources: per cent fore of bone, 10-rib forequarter: guess (assumption), now trial"
                                + " (assumption)"),
                plant(
                        "what stands in a column of one's own",
                        draft -> {
                            List<String> values = new ArrayList<>(Collections.nCopies(17, "hall"));
                            values.set(7, "office");
                            draft.extraColumns.set(0, new ExtraColumn("breakdown", "checked_by", "string", values));
                        },
                        "columns: checked_by of chuck of meat: hall, now office"),
                plant(
                        "a column of one's own",
                        draft -> draft.extraColumns.add(
                                new ExtraColumn("cuts", "shelf", "string", Collections.nCopies(9, ""))),
                        "columns: column shelf of cuts: none, now string"));
    }

    @Test
    void aTitleIsSaidAndAllowed() {
        TableComparison comparison = compare(
                BEFORE.toBuilder().about("Another title", "Another text").build());
        assertThat(said(comparison))
                .containsExactly(
                        "description: title: Small table, now Another title",
                        "description: description: Invented figures of the Tarrowmere hall, now Another text");
        assertThat(comparison.within(0)).isTrue();
        assertThat(comparison.within(ChangeBudget.ofShares(0))).isTrue();
    }

    private static void isNoChange(TableDefinition after) {
        TableComparison comparison = compare(after);
        assertThat(said(comparison)).isEmpty();
        assertThat(comparison.within(0)).isTrue();
        assertThat(comparison.toText()).endsWith(" shares of cuts at their levels: equal\nNothing changed\n");
    }

    @Test
    void theOrderOfRowsIsNoChange() {
        isNoChange(planted(draft -> {
            Random random = new Random(3);
            // the column of one's own says the same in every row
            Collections.shuffle(draft.breakdown, random);
            Collections.shuffle(draft.byClass, random);
            Collections.shuffle(draft.quartering, random);
            Collections.shuffle(draft.notes, random);
            Collections.shuffle(draft.covariances, random);
            Collections.shuffle(draft.expectations, random);
            Collections.shuffle(draft.names, random);
            Collections.shuffle(draft.sources, random);
        }));
    }

    @Test
    void categoriesSpelledOutAreNoChange() {
        isNoChange(planted(draft -> {
            draft.breakdown.replaceAll(row -> row.category().equals(ANY)
                    ? Draft.with(
                            row,
                            row.parent().equals("carcass")
                                            && (row.cut().equals("meat")
                                                    || row.cut().equals("fat-trim"))
                                    ? "CE"
                                    : "CEA",
                            row.way(),
                            row.parent(),
                            row.cut(),
                            row.coefficients())
                    : row);
            draft.notes.replaceAll(note -> new CoefficientNote(
                    note.parent().equals("carcass") ? "CE" : "CEA",
                    note.way(),
                    note.parent(),
                    note.cut(),
                    note.term(),
                    note.standardError(),
                    note.source()));
        }));
    }

    /** Every figure counted from another reference carcass, and a product with its variables turned round. */
    @Test
    void theSameSharesAboutAnotherReferenceCarcassAreNoChange() {
        TableDefinition plain = planted(draft -> draft.notes.clear());
        Draft draft = new Draft(plain);
        draft.reference = new ReferencePoint(10, 7, 400);
        draft.decimals.clear();
        draft.terms.set(1, new Term.Product("fat_by_conformation", Variable.FAT, Variable.CONFORMATION));
        draft.breakdown.replaceAll(row -> {
            List<Double> b = new ArrayList<>(row.coefficients());
            while (b.size() < 6) {
                b.add(0.0);
            }
            // c - 8 is (c - 10) + 2, f - 8 is (f - 7) - 1, t is that of 400 kg and 0.6
            double product = b.get(5);
            b.set(0, b.get(0) + 2 * b.get(1) - b.get(2) + 0.6 * b.get(3) - 2 * product);
            b.set(1, b.get(1) - product);
            b.set(2, b.get(2) + 2 * product);
            return Draft.with(row, row.category(), row.way(), row.parent(), row.cut(), b);
        });
        TableComparison comparison = TableComparison.of(YieldTable.of(plain), YieldTable.of(draft.build()));
        assertThat(said(comparison)).isEmpty();
        assertThat(comparison.within(0)).isTrue();
    }

    @Test
    void errorsOfCoefficientsAboutAnotherReferenceAreAChange() {
        assertThat(said(compare(planted(draft -> draft.reference = new ReferencePoint(8, 8, 341)))))
                .contains("standard-errors: the reference carcass of the errors: conformation 8, fat 8, 340 kg, now"
                        + " conformation 8, fat 8, 341 kg");
    }

    @Test
    void aCovarianceThatReplacesTheUsualOneIsAChange() {
        TableDefinition.Builder four = TableDefinition.builder("four", "1")
                .levels("cut")
                .categories(Category.STEER)
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "Invented", ""));
        for (String cut : List.of("a", "b", "c", "d")) {
            four.cut(Cut.of(cut, cut, "cut", CutKind.PRIMAL)).row("carcass", cut, 10, "guess", 250);
        }
        YieldTable usual = YieldTable.of(four.build());
        for (String cut : List.of("a", "b", "c", "d")) {
            for (String other : List.of("a", "b", "c", "d")) {
                if (cut.compareTo(other) <= 0) {
                    boolean opposite = (cut + other).equals("ab") || (cut + other).equals("cd");
                    four.covariance(CovarianceRow.residual(
                            "carcass", cut, other, cut.equals(other) ? 100 : opposite ? -100 : 0));
                }
            }
        }
        TableComparison comparison = TableComparison.of(usual, YieldTable.of(four.build()));
        assertThat(said(comparison))
                .containsExactly(
                        "covariances: correlation of a and b of carcass: -0.333333, now -1 (0.667 of correlation)",
                        "covariances: correlation of a and c of carcass: -0.333333, now 0 (0.333 of correlation)",
                        "covariances: correlation of b and c of carcass: -0.333333, now 0 (0.333 of correlation)",
                        "covariances: correlation of a and d of carcass: -0.333333, now 0 (0.333 of correlation)",
                        "covariances: correlation of b and d of carcass: -0.333333, now 0 (0.333 of correlation)",
                        "covariances: correlation of c and d of carcass: -0.333333, now -1 (0.667 of correlation)");
        assertThat(comparison.within(0)).isFalse();
    }
}
