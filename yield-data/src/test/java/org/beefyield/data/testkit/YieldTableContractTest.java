package org.beefyield.data.testkit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.defects.Draft;
import org.beefyield.data.defects.SmallTable;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The contract run as a build runs it, on tables that break it against their baseline: each defect is caught and named. */
class YieldTableContractTest {
    private static final String ANY = BreakdownRow.ANY;
    private static final String BUDGET = "noCutMovesBeyondTheBudget";
    private static final String LOST = "nothingOfTheBaselineIsLost";
    private static final String ELSE = "nothingElseChangesBeyondTheBudget";

    @AfterEach
    void forgetThePlants() {
        PlantedContract.planted = null;
        PlantedContract.before = null;
        PlantedContract.budget = 0;
        PlantedContract.digest = null;
    }

    private static YieldTable small(Consumer<Draft> change) {
        Draft draft = new Draft(SmallTable.definition());
        change.accept(draft);
        return YieldTable.of(draft.build());
    }

    private static DynamicTest defect(
            String what, double budget, Consumer<Draft> plant, Map<String, List<String>> failures) {
        return DynamicTest.dynamicTest(what, () -> {
            PlantedContract.before = small(draft -> {});
            PlantedContract.planted = small(plant);
            PlantedContract.budget = budget;
            ContractRun run = ContractRun.of(PlantedContract.class);
            assertThat(run.failures.keySet()).as("%s: %s", what, run.failures).isEqualTo(failures.keySet());
            failures.forEach(
                    (test, words) -> assertThat(run.failures.get(test)).as(what).contains(words));
        });
    }

    @Test
    void anUnchangedTablePassesEveryTest() {
        PlantedContract.planted = small(draft -> {});
        PlantedContract.before = small(draft -> {});
        PlantedContract.digest = PlantedContract.planted.digest();
        ContractRun run = ContractRun.of(PlantedContract.class);
        assertThat(run.failures).isEmpty();
        assertThat(run.skipped).isEmpty();
        assertThat(run.passed).hasSize(11);
    }

    @Test
    void withoutABaselineOnlyItsTestsAreSkipped() {
        PlantedContract.planted = small(draft -> {});
        ContractRun run = ContractRun.of(PlantedContract.class);
        assertThat(run.failures).isEmpty();
        assertThat(run.passed)
                .containsExactly(
                        "aFolderReadsBackEqual",
                        "aZipReadsBackEqual",
                        "estimatesRunFromGradeToGradeWithoutAJump",
                        "everyLevelAddsUpToTheCarcass",
                        "noShareIsBelowZero",
                        "theDigestIsStable",
                        "theOrderOfRowsMeansNothing",
                        "whatTheTableExpectsOfItselfHolds");
        assertThat(run.skipped).hasSize(3);
    }

    @Test
    void aChangedEditionIsCaughtByItsDigest() {
        PlantedContract.digest = small(draft -> {}).digest();
        PlantedContract.planted = small(draft -> draft.set(ANY, "carcass", "meat", "level_g_per_kg", 700.01));
        ContractRun run = ContractRun.of(PlantedContract.class);
        assertThat(run.failures).containsOnlyKeys("theDigestIsStable");
        assertThat(run.failures.get("theDigestIsStable"))
                .contains(PlantedContract.digest, PlantedContract.planted.digest());
    }

    @TestFactory
    Stream<DynamicTest> defectsAgainstTheBaseline() {
        return Stream.of(
                defect(
                        "a cut moves beyond the budget",
                        1,
                        draft -> {
                            draft.set(ANY, "carcass", "bone", "per_fat_point", -1.8);
                            draft.set(ANY, "carcass", "loss", "per_fat_point", -0.2);
                        },
                        // 7 points x 0.2 g/kg, as far below the reference as above it: the first is named
                        Map.of(
                                BUDGET,
                                List.of("bone at level tissue by -1.400 g/kg", "1-", "the budget is 1.000 g/kg"))),
                defect(
                        "a cut moves at one weight only",
                        1,
                        draft -> {
                            draft.set(ANY, "carcass", "loss", "per_100kg", 0.5);
                            draft.set(ANY, "carcass", "bone", "per_100kg", -6.5);
                        },
                        // 260 kg from the reference x 0.5 per 100 kg
                        Map.of(BUDGET, List.of("loss at level tissue by 1.300 g/kg", "600 kg"))),
                defect(
                        "one class of a look-up table is mistyped",
                        1,
                        draft -> {
                            draft.setCell("chuck", "R", "3", "dice", 380);
                            draft.setCell("chuck", "R", "3", "lean-trim", 560);
                        },
                        Map.of(BUDGET, List.of("lean-trim at level retail by ", "R= 3="))),
                defect(
                        "a cut moves in a way that no specification uses any more",
                        1,
                        draft -> {
                            draft.specifications.remove(1);
                            draft.set("trim", "loin", "dice", "level_g_per_kg", 440);
                            draft.set("trim", "loin", "lean-trim", "level_g_per_kg", 490);
                        },
                        Map.of(
                                BUDGET,
                                List.of("dice at level retail by ", "loin as trim"),
                                LOST,
                                List.of("cutting specification trim is lost: "))),
                defect(
                        "a cut is gone",
                        1000,
                        draft -> {
                            draft.change(
                                    "steaks",
                                    "loin",
                                    "loin-steak",
                                    row -> Draft.with(row, ANY, "steaks", "loin", "steak", row.coefficients()));
                            int index = draft.cut("loin-steak");
                            draft.cuts.set(index, Cut.of("steak", "Steak", "retail", CutKind.STEAK));
                        },
                        Map.of(
                                LOST,
                                List.of("cut at level retail loin-steak is lost: "),
                                ELSE,
                                List.of("What is new: cut at level retail steak; the budget for additions is 0"))),
                defect(
                        "a cut is of another kind",
                        0,
                        draft -> draft.cuts.set(draft.cut("dice"), Cut.of("dice", "Dice", "retail", CutKind.LEAN_TRIM)),
                        Map.of(
                                ELSE,
                                List.of("Kinds of cuts: dice: dice, now lean-trim; the budget for cut-kinds is 0"))),
                defect(
                        "a category is served no more",
                        0,
                        draft -> draft.categories.remove(Category.HEIFER),
                        Map.of(LOST, List.of("category E is lost: "))),
                defect(
                        "the allowed range is narrowed",
                        0,
                        draft ->
                                draft.allowed = new TableRange(new Range(1, 18), new Range(1, 15), new Range(180, 600)),
                        Map.of(LOST, List.of("allowed weight 150 to 600, now 180 to 600 is lost: "))),
                defect(
                        "the fitted range is narrowed",
                        0,
                        draft -> draft.fitted = new TableRange(new Range(2, 14), new Range(3, 11), new Range(220, 480)),
                        Map.of(ELSE, List.of("Ranges: fitted fat: 3 to 13, now 3 to 11; the budget for ranges is 0"))),
                defect(
                        "a specification cuts another way",
                        1000,
                        draft -> draft.specifications.set(1, new SpecificationRow("trim", "loin", "steaks")),
                        Map.of(
                                ELSE,
                                List.of("Cutting specifications: specification trim, loin: trim, now steaks; the budget"
                                        + " for specifications is 0"))),
                defect(
                        "an expectation is dropped",
                        0,
                        draft -> draft.expectations.remove(1),
                        Map.of(
                                ELSE,
                                List.of(
                                        "Promises: fat-trim at level tissue rises strictly with fat",
                                        ": promised, now not promised; the budget for expectations is 0"))),
                defect(
                        "an expectation is weakened",
                        0,
                        draft -> draft.expectations.set(2, weaker(draft.expectations.get(2))),
                        Map.of(
                                ELSE,
                                List.of(
                                        "bone at level tissue falls strictly with fat over the allowed range: promised, now"
                                                + " not promised",
                                        "bone at level tissue falls with fat over the allowed range: not promised, now"
                                                + " promised"))),
                defect(
                        "a quartering divides a cut elsewhere",
                        0,
                        draft -> draft.quartering.set(3, new QuarteringRow(SmallTable.FORE, "bone", 0.45, "guess")),
                        Map.of(
                                ELSE,
                                List.of("Quarterings: per cent fore of bone, " + SmallTable.FORE
                                        + ": 55, now 45 (10.000 points); the budget for quarterings is 0 points"))),
                DynamicTest.dynamicTest("errors that lots have in common are stated no more", () -> {
                    PlantedContract.before = small(draft -> draft.share(new SharedSds(0.0, null, 0.0)));
                    PlantedContract.planted = small(draft -> draft.share(new SharedSds(null, 0.0, 0.0)));
                    ContractRun run = ContractRun.of(PlantedContract.class);
                    assertThat(run.failures).containsOnlyKeys(ELSE);
                    assertThat(run.failures.get(ELSE))
                            .contains(
                                    "lot_sd_g_per_kg: stated, now not stated; the budget for shared-sds is 0 %",
                                    "run_sd_g_per_kg: not stated, now stated; the budget for shared-sds is 0 %")
                            .doesNotContain("hall_sd_g_per_kg");
                }),
                defect(
                        "the table speaks of another fat cover",
                        0,
                        draft -> draft.basis =
                                Basis.NOT_STATED.withFatCoverMm(5.0).withBoneless(true),
                        Map.of(ELSE, List.of("Basis: fat cover in mm: not stated, now 5; the budget for basis is 0"))));
    }

    private static Expectation weaker(Expectation expectation) {
        return new Expectation(
                expectation.cut(),
                expectation.kind(),
                expectation.level(),
                expectation.variable(),
                expectation.direction(),
                false,
                expectation.over(),
                "");
    }

    @Test
    void aBudgetIsKeptToTheLastGram() {
        PlantedContract.before = small(draft -> {});
        PlantedContract.planted = small(draft -> {
            draft.set(ANY, "carcass", "loss", "per_100kg", 0.5);
            draft.set(ANY, "carcass", "bone", "per_100kg", -6.5);
        });
        PlantedContract.budget = 1.3;
        assertThat(ContractRun.of(PlantedContract.class).failures).isEmpty();
        PlantedContract.budget = 1.299;
        assertThat(ContractRun.of(PlantedContract.class).failures).containsOnlyKeys(BUDGET);
    }
}
