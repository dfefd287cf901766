package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.lp.Programs.NONE;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class ShadowPricesTest {
    private static final LinearSolver SIMPLEX = new TinySimplex();

    @Test
    void theProductMixHasItsPricesAndTheirRanges() {
        ShadowPrices prices = ShadowPrices.of(SIMPLEX, Programs.productMix());
        assertThat(prices.solution().objective()).isEqualTo(36);
        // Ranges as worked out by hand: the corner stays one of plants 2 and 3 while doors are 0 to 4.
        is(prices.high("plant 1").up(), 0, 8, true);
        is(prices.high("plant 1").down(), 0, 2, false);
        is(prices.high("plant 2").up(), 1.5, 18, false);
        is(prices.high("plant 2").down(), 1.5, 6, false);
        is(prices.high("plant 3").up(), 1, 24, false);
        is(prices.high("plant 3").down(), 1, 12, false);
    }

    @Test
    void whereBoundsMeetUpAndDownAreWorthDifferentThings() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int x = builder.variable("x", 0, NONE, 2);
        builder.add(builder.row("one", -NONE, 10), x, 1);
        builder.add(builder.row("other", -NONE, 10), x, 1);
        ShadowPrice price = ShadowPrices.of(SIMPLEX, builder.build()).high("one");
        is(price.up(), 0, 20, true);
        is(price.down(), 2, 0, true);
        assertThat(price.bound()).isEqualTo(10);
    }

    @Test
    void aBoundThatCantMoveHasNoPriceInThatDirection() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int x = builder.variable("x", 0, 4, 2);
        builder.add(builder.row("least", 4, NONE), x, 1);
        builder.add(builder.row("fixed", 4, 4), x, 1);
        ShadowPrices prices = ShadowPrices.of(SIMPLEX, builder.build());
        assertThat(prices.low("least").up()).isEmpty();
        is(prices.low("least").down(), 0, 0, true);
        assertThat(prices.high("fixed").up()).isEmpty();
        assertThat(prices.high("fixed").down()).isEmpty();
        assertThatThrownBy(() -> prices.high("least")).hasMessage("row \"least\" has no bound above");
    }

    @Test
    void aBoundBelowCostsWhatItIsRaised() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int x = builder.variable("x", 0, NONE, -3);
        builder.add(builder.row("least", 2, NONE), x, 1);
        ShadowPrices prices = ShadowPrices.of(SIMPLEX, builder.build());
        assertThat(prices.solution().multiplier("least")).isEqualTo(-3);
        is(prices.low("least").up(), -3, 4, true);
        is(prices.low("least").down(), -3, 0, false);
    }

    @Test
    void aProgramWithoutMaximumHasNoPrices() {
        LinearProgram.Builder builder = LinearProgram.builder();
        builder.variable("x", 0, NONE, 1);
        assertThatThrownBy(() -> ShadowPrices.of(SIMPLEX, builder.build()))
                .hasMessage("there are prices of a program that has a maximum, this one is unbounded");
    }

    private static void is(Optional<ShadowPrice.Direction> found, double price, double until, boolean further) {
        ShadowPrice.Direction direction = found.orElseThrow();
        assertThat(direction.price()).isCloseTo(price, within(1e-9));
        assertThat(direction.until()).isCloseTo(until, within(1e-6));
        assertThat(direction.further()).isEqualTo(further);
    }
}
