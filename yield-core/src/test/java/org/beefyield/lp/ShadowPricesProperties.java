package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

class ShadowPricesProperties {
    private static final LinearSolver SIMPLEX = CheckedSolver.of(new TinySimplex());

    /** As far as a price is said to hold the maximum changes by it, and beyond it doesn't. */
    @Property(tries = 150)
    void pricesHoldAsFarAsTheySayAndNoFurther(@ForAll long seed) {
        LinearProgram program = Programs.random(seed, true);
        Assume.that(program.rows() > 0);
        Assume.that(SIMPLEX.solve(program).isOptimal());
        ShadowPrices prices = ShadowPrices.of(SIMPLEX, program);
        for (int row = 0; row < program.rows(); row++) {
            boolean equation = program.rowLow(row) == program.rowHigh(row);
            if (Double.isFinite(program.rowHigh(row))) {
                holds(prices, prices.high(program.rowName(row)), row, true, equation);
            }
            if (Double.isFinite(program.rowLow(row))) {
                holds(prices, prices.low(program.rowName(row)), row, equation, true);
            }
        }
    }

    private static void holds(ShadowPrices prices, ShadowPrice price, int row, boolean high, boolean low) {
        holds(prices, price.bound(), price.up(), 1, row, high, low);
        holds(prices, price.bound(), price.down(), -1, row, high, low);
    }

    private static void holds(
            ShadowPrices prices,
            double bound,
            Optional<ShadowPrice.Direction> found,
            int sign,
            int row,
            boolean high,
            boolean low) {
        double before = prices.solution().objective();
        if (found.isEmpty()) {
            assertThat(maximum(prices, row, bound + sign * 1e-3, high, low)).isNaN();
            return;
        }
        ShadowPrice.Direction direction = found.get();
        double far = direction.until() - bound;
        for (double part : new double[] {0.25, 0.5, 1 - 1e-6}) {
            assertThat(maximum(prices, row, bound + part * far, high, low))
                    .isCloseTo(before + direction.price() * part * far, within(1e-6));
        }
        double beyond = maximum(prices, row, direction.until() + sign * 1e-2, high, low);
        if (!direction.further() && !Double.isNaN(beyond)) {
            assertThat(beyond).isLessThan(before + direction.price() * (far + sign * 1e-2) - 1e-6);
        }
    }

    /** With a bound moved; no number if nothing is possible. */
    private static double maximum(ShadowPrices prices, int row, double bound, boolean high, boolean low) {
        LinearProgram program = prices.solution().program();
        double least = low ? bound : program.rowLow(row);
        double most = high ? bound : program.rowHigh(row);
        if (least > most) {
            return Double.NaN;
        }
        LinearSolution moved = SIMPLEX.solve(program.withRow(row, least, most));
        return moved.isOptimal() ? moved.objective() : Double.NaN;
    }
}
