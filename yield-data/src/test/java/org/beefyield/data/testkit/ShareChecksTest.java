package org.beefyield.data.testkit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.data.defects.Draft;
import org.beefyield.data.defects.SmallTable;
import org.beefyield.estimate.YieldColumn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Expectation.Direction;
import org.beefyield.table.definition.Expectation.Over;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;

/**
 * No table that can be built breaks closure, positivity, continuity or its own expectations, for it is proved. So the
 * checks of these look at shares that were spoilt on their way from the table.
 */
class ShareChecksTest {
    private static final YieldTable TABLE = YieldTable.of(SmallTable.definition());
    private static final Shares GOOD = Shares.of(
            YieldEstimator.of(TABLE),
            Category.STEER,
            YieldEstimator.of(TABLE).columns().columns());
    private static final List<YieldColumn> COLUMNS =
            YieldEstimator.of(TABLE).columns().columns();
    private static final int MEAT = column("tissue", "meat");
    private static final int BONE = column("tissue", "bone");
    private static final int DICE = column("retail", "dice");

    private static int column(String level, String cut) {
        return COLUMNS.stream().map(YieldColumn::toString).toList().indexOf(level + "." + cut);
    }

    private static ShareChecks checks(Shares shares) {
        return new ShareChecks(TABLE.definition(), COLUMNS, "category C, steaks", shares);
    }

    /** Something that goes wrong with an array of shares at a grade and weight. */
    private interface Spoiling {
        void spoil(double[] shares, double conformation, double fat, double weightKg);
    }

    private static ShareChecks spoilt(Spoiling spoiling) {
        return checks((conformation, fat, weightKg) -> {
            double[] shares = GOOD.at(conformation, fat, weightKg);
            spoiling.spoil(shares, conformation, fat, weightKg);
            return shares;
        });
    }

    @Test
    void goodSharesPassEveryCheck() {
        for (double weightKg : List.of(150.0, 333.3, 600.0)) {
            assertThat(checks(GOOD).closure(8.25, 14.5, weightKg)).isEmpty();
            assertThat(checks(GOOD).positivity(8.25, 14.5, weightKg)).isEmpty();
            assertThat(checks(GOOD).continuity(8.25, 14.5, weightKg)).isEmpty();
            assertThat(checks(GOOD).continuity(18, 15, weightKg)).isEmpty();
        }
        assertThat(TABLE.definition().expectations())
                .hasSize(4)
                .allSatisfy(expectation ->
                        assertThat(checks(GOOD).expectation(expectation)).isEmpty());
    }

    @Test
    void aLevelThatDoesNotAddUpIsNamed() {
        ShareChecks spoilt = spoilt((shares, c, f, w) -> shares[DICE] += 2e-12);
        assertThat(spoilt.closure(8, 8, 340))
                .singleElement()
                .asString()
                .isEqualTo("the cuts of level retail add up to 1000.000 g/kg at category C, steaks, R= 3=, 340 kg; they"
                        + " must add up to 1000 g/kg");
        assertThat(spoilt((shares, c, f, w) -> shares[MEAT] -= 0.001).closure(8.25, 8, 340.5))
                .singleElement()
                .asString()
                .isEqualTo("the cuts of level tissue add up to 999.000 g/kg at category C, steaks, 8.25p 3=, 340.5 kg;"
                        + " they must add up to 1000 g/kg");
        assertThat(spoilt((shares, c, f, w) -> shares[MEAT] = Double.NaN).closure(8, 8, 340))
                .hasSize(1);
    }

    @Test
    void aShareBelowZeroIsNamed() {
        assertThat(spoilt((shares, c, f, w) -> shares[DICE] = -0.002).positivity(8, 7.5, 340))
                .containsExactly("dice at level retail is -2.000 g/kg at category C, steaks, R= 7.5p, 340 kg; a share"
                        + " is at least 0");
        assertThat(spoilt((shares, c, f, w) -> shares[DICE] = Double.NaN).positivity(8, 8, 340))
                .hasSize(1);
    }

    @Test
    void aShareOutsideTheGradesAroundItIsNamed() {
        ShareChecks spoilt = spoilt((shares, c, f, w) -> shares[BONE] += c == Math.rint(c) ? 0 : 0.01);
        assertThat(spoilt.continuity(8.5, 8, 340))
                .anySatisfy(failure -> assertThat(failure)
                        .isEqualTo("bone at level tissue is 191.000 g/kg at category C, steaks, 8.5p 3=, 340 kg;"
                                + " between the whole positions around it, it must lie between 176.000 and"
                                        .replace("176.000", "176.000 g/kg")
                                + " 184.000 g/kg"));
    }

    @Test
    void aJumpAtAGradeIsNamed() {
        ShareChecks inConformation = spoilt((shares, c, f, w) -> shares[BONE] += c >= 9 ? 0.001 : 0);
        assertThat(inConformation.continuity(8.5, 7.5, 340))
                .singleElement()
                .asString()
                .startsWith("bone at level tissue jumps to 179.000 g/kg at category C, steaks, R+ 3=, 340 kg from"
                        + " 178.000 g/kg just below it in conformation");
        ShareChecks inFat = spoilt((shares, c, f, w) -> shares[MEAT] += f >= 15 ? 0.001 : 0);
        assertThat(inFat.continuity(8.5, 14.5, 340))
                .singleElement()
                .asString()
                .startsWith("meat at level tissue jumps to ")
                .contains("R+ 5+");
    }

    @Test
    void anExpectationThatEstimatesBreakIsNamedStepByStep() {
        Expectation bone = SmallTable.expectation("bone", null, "tissue", Variable.FAT, Direction.FALLS);
        ShareChecks spoilt = spoilt((shares, c, f, w) -> shares[BONE] += c == 9 && f == 10 && w == 600 ? 0.0025 : 0);
        assertThat(spoilt.expectation(bone))
                .containsExactly("expected that bone at level tissue falls strictly with fat over the allowed range,"
                        + " but it goes from 160.400 g/kg at category C, steaks, R+ 3+, 600 kg to 160.900 g/kg at"
                        + " category C, steaks, R+ 4-, 600 kg");
        ShareChecks constant = spoilt((shares, c, f, w) -> shares[BONE] = 0.18);
        // 18 conformations, 14 steps of fat, 9 weights
        assertThat(constant.expectation(bone)).hasSize(18 * 14 * 9);
        assertThat(constant.expectation(
                        new Expectation("bone", null, "tissue", Variable.FAT, Direction.FALLS, false, Over.FITTED, "")))
                .isEmpty();
    }

    @Test
    void expectationsAboutWeightAndKindsAreLookedAtToo() {
        Expectation steaks = new Expectation(
                null, CutKind.STEAK, "retail", Variable.WEIGHT, Direction.RISES, true, Over.ALLOWED, "");
        int steak = column("retail", "loin-steak");
        assertThat(checks(GOOD).expectation(steaks)).isEmpty();
        assertThat(spoilt((shares, c, f, w) -> shares[steak] -= w == 600 ? 0.1 : 0)
                        .expectation(steaks))
                .hasSize(18 * 15)
                .first()
                .asString()
                .contains("the total of kind steak at level retail rises strictly with weight", "543.75 kg", "600 kg");
        assertThat(spoilt((shares, c, f, w) -> shares[steak] = 0).expectation(steaks))
                .as("what is not cut at all")
                .isEmpty();
    }

    @Test
    void theSmallTableAndItsDraftAreTheSame() {
        assertThat(YieldTable.of(new Draft(SmallTable.definition()).build())).isEqualTo(TABLE);
    }
}
