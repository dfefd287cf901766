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
        assertThat(run.passed).hasSize(17);
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
        assertThat(run.skipped).hasSize(9);
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
                        // 7 points x 0.2 g/kg
                        Map.of(
                                BUDGET,
                                List.of("bone at level tissue by 1.400 g/kg", "5+", "the budget is 1.000 g/kg"))),
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
                                List.of("dice at level retail by ", "ways no. 2 of each cut"),
                                "everySpecificationOfTheBaselineCutsAsBefore",
                                List.of("trim", "is gone", "steaks"))),
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
                        Map.of("everyCutOfTheBaselineIsStillThere", List.of("loin-steak", "level retail", "no more"))),
                defect(
                        "a cut is of another kind",
                        0,
                        draft -> draft.cuts.set(draft.cut("dice"), Cut.of("dice", "Dice", "retail", CutKind.LEAN_TRIM)),
                        Map.of(
                                "everyCutOfTheBaselineIsStillThere",
                                List.of("dice", "was of kind dice", "is of kind lean-trim"))),
                defect(
                        "a category is served no more",
                        0,
                        draft -> draft.categories.remove(Category.HEIFER),
                        Map.of("everyCategoryOfTheBaselineIsStillServed", List.of("category E", "no more", "C A"))),
                defect(
                        "the allowed range is narrowed",
                        0,
                        draft ->
                                draft.allowed = new TableRange(new Range(1, 18), new Range(1, 15), new Range(180, 600)),
                        Map.of(
                                "noRangeOfTheBaselineIsNarrowed",
                                List.of("allowed range of weight", "150 to 600", "180 to 600"))),
                defect(
                        "the fitted range is narrowed",
                        0,
                        draft -> draft.fitted = new TableRange(new Range(2, 14), new Range(3, 11), new Range(220, 480)),
                        Map.of("noRangeOfTheBaselineIsNarrowed", List.of("fitted range of fat", "3 to 13", "3 to 11"))),
                defect(
                        "a specification cuts another way",
                        1000,
                        draft -> draft.specifications.set(1, new SpecificationRow("trim", "loin", "steaks")),
                        Map.of(
                                "everySpecificationOfTheBaselineCutsAsBefore",
                                List.of("specification trim cut loin the way trim and cuts it the way steaks"))),
                defect(
                        "an expectation is dropped",
                        0,
                        draft -> draft.expectations.remove(1),
                        Map.of(
                                "everyExpectationOfTheBaselineIsStillMade",
                                List.of("fat-trim at level tissue rises strictly with fat"))),
                defect(
                        "an expectation is weakened",
                        0,
                        draft -> draft.expectations.set(2, weaker(draft.expectations.get(2))),
                        Map.of(
                                "everyExpectationOfTheBaselineIsStillMade",
                                List.of("bone at level tissue falls strictly with fat over the allowed range"))),
                defect(
                        "a quartering divides a cut elsewhere",
                        0,
                        draft -> draft.quartering.set(3, new QuarteringRow(SmallTable.FORE, "bone", 0.45, "guess")),
                        Map.of(
                                "everyQuarteringOfTheBaselineDividesAsBefore",
                                List.of(SmallTable.FORE, "0.55 of bone", "0.45"))),
                DynamicTest.dynamicTest("errors that lots have in common are stated no more", () -> {
                    PlantedContract.before = small(draft -> draft.share(new SharedSds(0.0, null, 0.0)));
                    PlantedContract.planted = small(draft -> draft.share(new SharedSds(null, 0.0, 0.0)));
                    ContractRun run = ContractRun.of(PlantedContract.class);
                    assertThat(run.failures).containsOnlyKeys("errorsInCommonThatTheBaselineStatesAreStillStated");
                    assertThat(run.failures.get("errorsInCommonThatTheBaselineStatesAreStillStated"))
                            .contains(PlantedContract.before.identity() + " states lot_sd_g_per_kg and "
                                    + PlantedContract.planted.identity() + " does so no more")
                            .doesNotContain("hall_sd_g_per_kg", "run_sd_g_per_kg");
                }),
                defect(
                        "the table speaks of another fat cover",
                        0,
                        draft -> draft.basis =
                                Basis.NOT_STATED.withFatCoverMm(5.0).withBoneless(true),
                        Map.of("theBasisIsThatOfTheBaseline", List.of("fat cover 5 mm"))));
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
