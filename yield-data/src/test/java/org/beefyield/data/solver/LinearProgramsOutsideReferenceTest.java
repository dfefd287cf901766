package org.beefyield.data.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.ShadowPrice;
import org.beefyield.lp.ShadowPrices;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Published optima of test problems (reference/lp/sources.csv says whose), of a textbook, and multipliers that HiGHS through
 * SciPy and a second program found alike. All to 1e-7 of themselves.
 */
class LinearProgramsOutsideReferenceTest {
    private static final double NONE = Double.POSITIVE_INFINITY;
    /** 1e-7. */
    private static final double PER_CENT = 1e-5;

    private static final LinearSolver SOLVER = CheckedSolver.of(OjAlgoSolver.create());

    @ParameterizedTest
    @CsvSource({"afiro, -464.7531428571", "adlittle, 225494.96316238", "blending, -3200"})
    void optimaAreThePublishedOnes(String name, double minimum) {
        assertThat(-SOLVER.solve(Mps.maximum(name)).objective()).isCloseTo(minimum, withinPercentage(PER_CENT));
    }

    /** Hillier and Lieberman, Introduction to Operations Research: 36 at (2, 6), shadow prices 0, 1.5 and 1. */
    @Test
    void theProductMixOfTheTextbookHasItsPrices() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int doors = builder.variable("doors", 0, NONE, 3);
        int windows = builder.variable("windows", 0, NONE, 5);
        builder.add(builder.row("plant 1", -NONE, 4), doors, 1);
        builder.add(builder.row("plant 2", -NONE, 12), windows, 2);
        int third = builder.row("plant 3", -NONE, 18);
        LinearSolution solution =
                SOLVER.solve(builder.add(third, doors, 3).add(third, windows, 2).build());
        assertThat(solution.objective()).isCloseTo(36, withinPercentage(PER_CENT));
        assertThat(solution.values()).containsExactly(new double[] {2, 6}, within(1e-7));
        assertThat(solution.multipliers().orElseThrow()).containsExactly(new double[] {0, 1.5, 1}, within(1e-7));
    }

    /** Change of the minimum per unit of the right-hand side: the maximum's is the same with the sign turned. */
    @ParameterizedTest
    @CsvSource({
        "X21, -0.228571",
        "X44, -0.342857",
        "X46, -0.628571",
        "X48, -0.942857",
        "R09, -0.628571",
        "R19, -0.942857",
        "X05, -0.344771",
        "X27, -0.874343",
        "R10, 0"
    })
    void afiroHasTheMultipliersThatOthersFound(String row, double perUnit) {
        assertThat(-AFIRO.solution().multiplier(row)).isCloseTo(perUnit, within(1e-6));
        for (ShadowPrice.Direction direction : new ShadowPrice.Direction[] {
            price(row).up().orElseThrow(), price(row).down().orElseThrow()
        }) {
            assertThat(-direction.price()).isCloseTo(perUnit, within(1e-6));
        }
    }

    private static final ShadowPrices AFIRO = ShadowPrices.of(SOLVER, Mps.maximum("afiro"));

    private static ShadowPrice price(String row) {
        return AFIRO.high(row);
    }

    /** Where several bounds meet, tightening has a price and relaxing has none. */
    @ParameterizedTest
    @CsvSource({
        "X18, -2.249657",
        "X19, -2.2704",
        "X20, -2.2902",
        "X41, -2.0922",
        "X42, -2.120486",
        "X43, -2.148771",
        "X45, -0.942857"
    })
    void afiroHasOneSidedPrices(String row, double tightened) {
        ShadowPrice price = price(row);
        assertThat(-price.up().orElseThrow().price()).isCloseTo(0, within(1e-6));
        assertThat(-price.down().orElseThrow().price()).isCloseTo(tightened, within(1e-6));
        assertThat(price.down().orElseThrow().until()).isLessThan(price.bound());
    }

    /** HiGHS: 26.6667 less to be paid for each unit of F1 more. */
    @Test
    void blendingHasItsPrice() {
        ShadowPrice price = ShadowPrices.of(SOLVER, Mps.maximum("blending")).high("F1");
        assertThat(price.up().orElseThrow().price()).isCloseTo(80.0 / 3, withinPercentage(PER_CENT));
        assertThat(price.down().orElseThrow().price()).isCloseTo(80.0 / 3, withinPercentage(PER_CENT));
    }
}
