package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;

/** What a table proves about itself, by hand where a hand can. */
class ProofTest {
    private static final TableDefinition SMALL = TestTables.small();
    private static final TableDefinition THREE = TestTables.threeLevels();

    private static void refused(TableDefinition.Builder builder, String... problems) {
        InvalidTableException refusal =
                catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(builder.build()));
        assertThat(refusal).as("a refusal").isNotNull();
        assertThat(refusal.problems()).extracting(TableProblem::toString).containsExactlyInAnyOrder(problems);
    }

    private static ProofFinding finding(YieldTable table, String claim) {
        return table.proof().findings().stream()
                .filter(finding -> (finding.claim() + ",").startsWith(claim + ","))
                .findFirst()
                .orElseThrow(() -> new AssertionError(
                        "no finding \"" + claim + "\" among " + table.proof().findings()));
    }

    private static Expectation rises(String cut, String level, Variable variable) {
        return TestTables.expectation(cut, level, variable, Expectation.Direction.RISES);
    }

    private static Expectation falls(String cut, String level, Variable variable) {
        return TestTables.expectation(cut, level, variable, Expectation.Direction.FALLS);
    }

    @Test
    void everyPromiseIsFoundOnce() {
        assertThat(YieldTable.of(THREE).proof().findings())
                .extracting(ProofFinding::claim)
                .containsExactly(
                        "no share is below 0 (categories CEA)",
                        "no share is below 0 (categories D)",
                        "the cuts of level tissue add up to 1 within 1e-12, in every mix of ways",
                        "the cuts of level primal add up to 1 within 1e-12, in every mix of ways",
                        "the cuts of level retail add up to 1 within 1e-12, in every mix of ways",
                        "meat at level tissue rises strictly with conformation over the allowed range, in every mix of ways",
                        "fat-trim at level tissue rises strictly with fat over the allowed range, in every mix of ways",
                        "bone at level tissue falls strictly with fat over the allowed range, in every mix of ways",
                        "bone at level tissue falls strictly with weight over the allowed range, in every mix of ways");
    }

    @Test
    void theSmallestShareIsNamedWithItsPlace() {
        // the loss is 6 everywhere; of steers the fat trim comes nearest: 110 - 10 - 77 = 23 g/kg at S+ 1-, so the loss
        // it is
        ProofFinding steers = finding(YieldTable.of(SMALL), "no share is below 0 (categories CE)");
        assertThat(steers.marginGPerKg()).isCloseTo(6, within(1e-12));
        assertThat(steers.where()).isEqualTo("category CE, loss of carcass, P- 1-, 150 kg");
        // with a loss of 30 the fat trim is the smallest, at S+ 1- and any weight
        TableDefinition loss = TestTables.changeCoefficient(SMALL, 4, 0, 30.0).build();
        YieldTable table =
                YieldTable.of(TestTables.changeCoefficient(loss, 3, 0, 160.0).build());
        ProofFinding fat = finding(table, "no share is below 0 (categories CE)");
        assertThat(fat.marginGPerKg()).isCloseTo(23, within(1e-12));
        assertThat(fat.where()).isEqualTo("category CE, fat-trim of carcass, S+ 1-, 150 kg");
        // cows have 20 g/kg more
        assertThat(finding(table, "no share is below 0 (categories D)").marginGPerKg())
                .isCloseTo(30, within(1e-12));
    }

    @Test
    void theSmallestShareIsSoughtAtBothEndsOfTheWeights() {
        // fat trim of 23 g/kg at S+ 1-, and 2 more or less per 100 kg from 340
        for (double slope : new double[] {2, -2}) {
            TableDefinition loss =
                    TestTables.changeCoefficient(SMALL, 4, 0, 30.0).build();
            TableDefinition bone =
                    TestTables.changeCoefficient(loss, 3, 0, 160.0).build();
            TableDefinition meat =
                    TestTables.changeCoefficient(bone, 1, 3, 5 - slope).build();
            YieldTable table = YieldTable.of(
                    TestTables.changeCoefficient(meat, 2, 3, slope).build());
            ProofFinding fat = finding(table, "no share is below 0 (categories CE)");
            assertThat(fat.marginGPerKg()).isCloseTo(slope > 0 ? 23 - 3.8 : 23 - 5.2, within(1e-9));
            assertThat(fat.where())
                    .isEqualTo("category CE, fat-trim of carcass, S+ 1-, " + (slope > 0 ? "150 kg" : "600 kg"));
        }
    }

    @Test
    void everyLevelIsProvedToAddUpWithARoomOfNoiseAlone() {
        for (ProofFinding finding : YieldTable.of(THREE).proof().findings().subList(2, 5)) {
            assertThat(finding.marginGPerKg()).as(finding.claim()).isBetween(0.0, 1e-9);
            assertThat(finding.where()).matches("category (CEA|D), .*, [SEUROP][-=+] [1-5][-=+], [0-9.]+ kg");
        }
    }

    @Test
    void aShareThatStandsStillDoesNotFallByMinusNothing() {
        TableRange heavy = TestTables.range(1, 18, 1, 15, 340, 600);
        refused(
                SMALL.toBuilder().ranges(heavy, heavy).expectation(falls("loss", "tissue", Variable.CONFORMATION)),
                "expectations row 1: expected that loss at level tissue falls strictly with conformation over the"
                        + " allowed range, but it changes by 0.00 g/kg to the next position of conformation at category CE,"
                        + " P- 1-, 340 kg (and at 254 more nodes)");
    }

    @Test
    void theMarginOfAStepInAGradeIsItsSmallestChange() {
        // meat: 11 a point, 7 above E+, and 0.1 per point of fat from 8: 7 - 0.7 at fat 1-
        ProofFinding meat = finding(
                YieldTable.of(THREE), "meat at level tissue rises strictly with conformation over the allowed range");
        assertThat(meat.marginGPerKg()).isCloseTo(6.3, within(1e-9));
        // three steps in every category, specification and weight are equal but for the noise of adding
        assertThat(meat.where()).matches("category (CEA|D), (steaks|joints), (E\\+|S-|S=) 1-, (150|600) kg");
    }

    @Test
    void theMarginOfWeightIsTheSmallestSlopePerHundredKilograms() {
        ProofFinding bone =
                finding(YieldTable.of(THREE), "bone at level tissue falls strictly with weight over the allowed range");
        assertThat(bone.marginGPerKg()).isCloseTo(6, within(1e-12));
    }

    @Test
    void theSlopeOfAQuadraticShareIsTightestAtAnEnd() {
        // hind = (m + 5 t) (o - 8 t), in g/kg squared: it falls by 8 m - 5 o + 80 t per 100 kg; least for m = 680 - 56
        // -
        // 63 = 561 and o = 433, a cow of P- 5+, at t = -1.9: 4488 - 2165 - 152
        YieldTable table = YieldTable.of(SMALL.toBuilder()
                .expectation(falls("hind", "primal", Variable.WEIGHT))
                .build());
        ProofFinding hind = finding(table, "hind at level primal falls strictly with weight over the allowed range");
        assertThat(hind.marginGPerKg()).isCloseTo(2.171, within(1e-12));
        assertThat(hind.where()).isEqualTo("category D, P- 5+, 150 kg");
    }

    @Test
    void anExtremeBetweenTheEndsOfTheWeightsIsFound() {
        // (0.5 + 0.1 t) (0.5 + 0.1 t) (0.5 - 0.1 t) changes by 0.025 - 0.01 t - 0.003 t^2 per 100 kg: most at t = -5/3,
        // by 1/30
        TableDefinition.Builder builder = TableDefinition.builder("cubic", "1")
                .levels("l1", "l2", "l3")
                .categories(Category.STEER)
                .source(TestTables.source(TestTables.SOURCE));
        String parent = "carcass";
        for (int level = 1; level <= 3; level++) {
            double per100Kg = level < 3 ? 100 : -100;
            builder.cut(Cut.of("a" + level, "A", "l" + level, CutKind.MEAT))
                    .cut(Cut.of("b" + level, "B", "l" + level, CutKind.LOSS))
                    .row(parent, "a" + level, 0, TestTables.SOURCE, 500, 0, 0, per100Kg)
                    .row(parent, "b" + level, 0, TestTables.SOURCE, 500, 0, 0, -per100Kg);
            parent = "a" + level;
        }
        builder.expectation(falls("a3", "l3", Variable.WEIGHT));
        refused(
                builder,
                "expectations row 1: expected that a3 at level l3 falls strictly with weight over the allowed range, but"
                        + " it changes by 33.333 g/kg per 100 kg at category C, P- 1-, 173.333 kg (and at 269 more nodes)");
    }

    /**
     * In g per kg of carcass 50 (1 + 0.3 t) (1 - 0.2 t) (1 - 0.2 t) of dice from the loin and 300 + {@code straight} t of
     * other dice: the total changes by {@code straight} - 5 - 8 t + 1.8 t^2 per 100 kg, least at t = 20/9.
     */
    private static TableDefinition dice(double straight) {
        TableRange range = TestTables.range(8, 9, 8, 9, 150, 650);
        String source = TestTables.SOURCE;
        return TableDefinition.builder("dip", "1")
                .levels("tissue", "primal", "retail")
                .ranges(range, range)
                .categories(Category.STEER)
                .source(TestTables.source(source))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("other", "Other", "tissue", CutKind.MEAT))
                .cut(Cut.of("rest", "Rest", "tissue", CutKind.LOSS))
                .cut(Cut.of("loin", "Loin", "primal", CutKind.PRIMAL))
                .cut(Cut.of("lean-trim", "Lean trim", "primal", CutKind.LEAN_TRIM))
                .cut(Cut.of("other-dice", "Other dice", "primal", CutKind.DICE))
                .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
                .row("carcass", "meat", 1, source, 200, 0, 0, 60)
                .row("carcass", "other", 1, source, 300, 0, 0, straight)
                .row("carcass", "rest", 1, source, 500, 0, 0, -60 - straight)
                .row("meat", "loin", 1, source, 500, 0, 0, -100)
                .row("meat", "lean-trim", 1, source, 500, 0, 0, 100)
                .row("loin", "dice", 1, source, 500, 0, 0, -100)
                .row("loin", "lean-trim", 1, source, 500, 0, 0, 100)
                .row("other", "other-dice", 0, source, 1000)
                .expectation(new Expectation(
                        null,
                        CutKind.DICE,
                        "retail",
                        Variable.WEIGHT,
                        Expectation.Direction.RISES,
                        true,
                        Expectation.Over.ALLOWED,
                        ""))
                .build();
    }

    @Test
    void aTotalThatFallsOnlyBetweenTheEndsOfTheWeightsIsFound() {
        // 13.5: it rises by 30.2 at 150 kg and by 1.0 at 650 kg, and falls from 516 to 609 kg
        refused(
                dice(13.5).toBuilder(),
                "expectations row 1: expected that total of kind dice at level retail rises strictly with weight over the"
                        + " allowed range, but it changes by -0.389 g/kg per 100 kg at category C, R= 3=, 562.222 kg (and"
                        + " at 3 more nodes)");
        assertThat(finding(
                                YieldTable.of(dice(15)),
                                "total of kind dice at level retail rises strictly with weight over the allowed range")
                        .marginGPerKg())
                .isCloseTo(10 - 80.0 / 9, within(1e-9));
    }

    /** The small table of steers only, with a hinge and a product. */
    private static TableDefinition steers(Term hinge) {
        return TestTables.withoutRows(
                        TestTables.smallRows(TestTables.smallWithoutRows()
                                        .term(hinge)
                                        .term(new Term.Product("both", Variable.CONFORMATION, Variable.FAT)))
                                .build(),
                        5,
                        6)
                .categories(Category.STEER)
                .build();
    }

    /** Gives bone and takes from meat, or the other way round. */
    private static TableDefinition trade(TableDefinition definition, int column, double bone) {
        return TestTables.changeCoefficient(
                        TestTables.changeCoefficient(definition, 3, column, bone)
                                .build(),
                        1,
                        column,
                        -bone)
                .build();
    }

    @Test
    void anExpectationBrokenAtOneNodeIsNamedWithIt() {
        // bone falls by 2 g/kg a point of fat; a hinge above 14 gives 1.95 of the last step back, and the product
        // 0.0052 a
        // point of conformation above R=, which is 0.052 at S+ and 0.0468 at S=
        TableDefinition hinge =
                trade(steers(new Term.Hinge("fat_above_14", Variable.FAT, Term.Side.ABOVE, 14)), 4, 1.95);
        Expectation bone = falls("bone", "tissue", Variable.FAT);
        YieldTable holds = YieldTable.of(hinge.toBuilder().expectation(bone).build());
        assertThat(finding(holds, "bone at level tissue falls strictly with fat over the allowed range")
                        .marginGPerKg())
                .isCloseTo(0.05, within(1e-9));
        refused(
                trade(hinge, 5, 0.0052).toBuilder().expectation(bone),
                "expectations row 1: expected that bone at level tissue falls strictly with fat over the allowed range,"
                        + " but it changes by 0.002 g/kg to the next position of fat at category C, S+ 5=, 150 kg");
    }

    @Test
    void standingStillBreaksAStrictExpectationOnly() {
        Expectation strict = rises("loss", "tissue", Variable.CONFORMATION);
        refused(
                SMALL.toBuilder().expectation(strict),
                "expectations row 1: expected that loss at level tissue rises strictly with conformation over the"
                        + " allowed range, but it changes by 0.00 g/kg to the next position of conformation at category CE,"
                        + " P- 1-, 150 kg (and at 254 more nodes)");
        Expectation lax = new Expectation(
                "loss",
                null,
                "tissue",
                Variable.CONFORMATION,
                Expectation.Direction.RISES,
                false,
                Expectation.Over.ALLOWED,
                "");
        YieldTable table = YieldTable.of(SMALL.toBuilder().expectation(lax).build());
        assertThat(finding(table, "loss at level tissue rises with conformation over the allowed range")
                        .marginGPerKg())
                .isZero();
    }

    @Test
    void anExpectationOverTheFittedRangeLooksNoFarther() {
        // a hinge above 14 takes 13 off the 8 that meat gains: it falls there, outside the fitted 2 to 14
        TableDefinition hinge =
                trade(steers(new Term.Hinge("above_14", Variable.CONFORMATION, Term.Side.ABOVE, 14)), 4, 13);
        Expectation fitted = new Expectation(
                "meat",
                null,
                "tissue",
                Variable.CONFORMATION,
                Expectation.Direction.RISES,
                true,
                Expectation.Over.FITTED,
                "");
        YieldTable table = YieldTable.of(hinge.toBuilder().expectation(fitted).build());
        assertThat(finding(table, "meat at level tissue rises strictly with conformation over the fitted range")
                        .marginGPerKg())
                .isCloseTo(8, within(1e-9));
        // 4 steps above 14 at 15 fat classes
        TableDefinition allowed = hinge.toBuilder()
                .expectation(rises("meat", "tissue", Variable.CONFORMATION))
                .build();
        InvalidTableException refusal = catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(allowed));
        assertThat(refusal.problems())
                .singleElement()
                .satisfies(problem -> assertThat(problem.message())
                        .startsWith(
                                "expected that meat at level tissue rises strictly with conformation over the allowed range,"
                                        + " but it changes by -5.000 g/kg to the next position of conformation at category C, ")
                        .endsWith(" (and at 59 more nodes)"));
    }

    @Test
    void aFittedRangeBetweenTwoPositionsIsProvedAtBoth() {
        // meat gains 8 with each point of conformation, so a range inside one step can't have it fall
        Range narrow = new Range(8.2, 8.8);
        TableDefinition.Builder builder = TestTables.small().toBuilder()
                .ranges(
                        new TableRange(narrow, new Range(3, 13), new Range(230, 500)),
                        TestTables.small().allowed())
                .expectation(new Expectation(
                        "meat",
                        null,
                        "tissue",
                        Variable.CONFORMATION,
                        Expectation.Direction.FALLS,
                        false,
                        Expectation.Over.FITTED,
                        ""));
        refused(
                builder,
                "expectations row 1: expected that meat at level tissue falls with conformation over the fitted range, but it"
                        + " changes by 8.000 g/kg to the next position of conformation at category CE, R= 1+, 230 kg (and at"
                        + " 10 more nodes)");
    }

    @Test
    void anExpectationThatNoSpecificationCanTestIsRefused() {
        refused(
                TestTables.threeLevels().toBuilder()
                        .cut(Cut.of("chuck-joint", "Chuck joint", "retail", CutKind.JOINT))
                        .row("*", "joint", "chuck", "chuck-joint", 0, TestTables.SOURCE, 1000)
                        .expectation(new Expectation(
                                "chuck-joint",
                                null,
                                "retail",
                                Variable.FAT,
                                Expectation.Direction.RISES,
                                false,
                                Expectation.Over.ALLOWED,
                                "")),
                "expectations row 5: expected that chuck-joint at level retail rises with fat over the allowed range, but no"
                        + " cutting specification yields it");
    }

    @Test
    void theTotalOfAKindIsExpectedUnderEachSpecificationThatYieldsIt() {
        Expectation steaks = new Expectation(
                null,
                CutKind.STEAK,
                "retail",
                Variable.CONFORMATION,
                Expectation.Direction.RISES,
                true,
                Expectation.Over.ALLOWED,
                "");
        YieldTable table = YieldTable.of(THREE.toBuilder().expectation(steaks).build());
        ProofFinding finding = finding(
                table, "total of kind steak at level retail rises strictly with conformation over the allowed range");
        // under "joints" there are no steaks, which is no standing still
        assertThat(finding.where()).contains("steaks").doesNotContain("joints");
        assertThat(finding.marginGPerKg()).isPositive();
    }

    @Test
    void withoutSpecificationsAnExpectationHoldsInEveryWay() {
        TableDefinition.Builder builder = TableDefinition.builder("ways", "1")
                .levels("all")
                .categories(Category.STEER)
                .source(TestTables.source(TestTables.SOURCE))
                .cut(Cut.of("steak", "Steak", "all", CutKind.STEAK))
                .cut(Cut.of("rest", "Rest", "all", CutKind.BONE));
        for (String way : List.of("a", "b")) {
            double slope = way.equals("a") ? 1 : -1;
            builder.row("*", way, "carcass", "steak", 0, TestTables.SOURCE, 500, slope)
                    .row("*", way, "carcass", "rest", 0, TestTables.SOURCE, 500, -slope);
        }
        builder.expectation(rises("steak", "all", Variable.CONFORMATION));
        refused(
                builder,
                "expectations row 1: expected that steak at level all rises strictly with conformation over the allowed"
                        + " range, but it changes by -1.000 g/kg to the next position of conformation at category C, carcass"
                        + " as b, P- 1-, 150 kg (and at 254 more nodes)");
        assertThat(YieldTable.of(builder.specification("mine", "carcass", "a").build())
                        .specifications())
                .hasSize(1);
    }

    @Test
    void anExpectationAboutNothingOrBothIsRefused() {
        Expectation neither = new Expectation(
                null, null, "tissue", Variable.FAT, Expectation.Direction.FALLS, true, Expectation.Over.ALLOWED, "");
        Expectation both = new Expectation(
                "bone",
                CutKind.BONE,
                "tissue",
                Variable.FAT,
                Expectation.Direction.FALLS,
                true,
                Expectation.Over.ALLOWED,
                "");
        refused(
                SMALL.toBuilder().expectation(neither).expectation(both),
                "expectations row 1, cut: an expectation is about a cut or a kind: fill one of the two",
                "expectations row 2, cut: an expectation is about a cut or a kind: fill one of the two");
    }

    @Test
    void anExpectationAboutWhatIsNotThereIsRefused() {
        refused(
                SMALL.toBuilder()
                        .expectation(rises("bone", "retail", Variable.FAT))
                        .expectation(rises("tongue", "tissue", Variable.FAT)),
                "expectations row 1, level \"retail\": no such level; levels: tissue, primal",
                "expectations row 2, cut \"tongue\": no such cut in cuts; nearest: bone, fore, hind");
        refused(
                SMALL.toBuilder().expectation(rises("hind", "tissue", Variable.FAT)),
                "expectations row 1, cut \"hind\": nothing of the sort stands at level tissue");
        Expectation joints = new Expectation(
                null,
                CutKind.JOINT,
                "primal",
                Variable.FAT,
                Expectation.Direction.RISES,
                false,
                Expectation.Over.ALLOWED,
                "");
        refused(
                SMALL.toBuilder().expectation(joints),
                "expectations row 1, kind \"joint\": nothing of the sort stands at level primal");
    }

    @Test
    void everyBrokenExpectationIsReported() {
        InvalidTableException refusal = catchThrowableOfType(
                InvalidTableException.class,
                () -> YieldTable.of(SMALL.toBuilder()
                        .expectation(rises("bone", "tissue", Variable.FAT))
                        .expectation(rises("meat", "tissue", Variable.CONFORMATION))
                        .expectation(falls("fat-trim", "tissue", Variable.FAT))
                        .build()));
        assertThat(refusal.problems()).extracting(TableProblem::row).containsExactly(0, 2);
    }

    @Test
    void everyShareBelowZeroIsReported() {
        TableDefinition steers = steers(new Term.Hinge("idle", Variable.FAT, Term.Side.ABOVE, 14));
        TableDefinition fat = TestTables.changeCoefficient(steers, 2, 2, 20.0).build();
        TableDefinition loss = TestTables.changeCoefficient(fat, 4, 3, 4.0).build();
        TableDefinition bone = TestTables.changeCoefficient(loss, 3, 3, -9.0).build();
        InvalidTableException refusal = catchThrowableOfType(
                InvalidTableException.class,
                () -> YieldTable.of(
                        TestTables.changeCoefficient(bone, 3, 2, -11.0).build()));
        assertThat(refusal.problems()).extracting(TableProblem::value).containsExactly("fat-trim", "loss");
    }
}
