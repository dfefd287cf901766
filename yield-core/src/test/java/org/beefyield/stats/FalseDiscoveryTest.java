package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class FalseDiscoveryTest {
    /** Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57, 289 to 300, section 4. */
    private static final double[] CHANCES = {
        .0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528, .7590, 1
    };

    @Test
    void ofTheFifteenTestsOfTheSourceFourAreCalledOutWhereBonferroniHasThree() {
        assertThat(FalseDiscovery.of(CHANCES).calledOut(.05)).containsExactly(0, 1, 2, 3);
        assertThat(Arrays.stream(CHANCES).filter(chance -> chance <= .05 / 15)).hasSize(3);
    }

    /** By R's p.adjust(method = "BH"). */
    @Test
    void adjustedChancesAreThoseOfTheReference() {
        double[] expected = {
            .0015, .003, .0095, .035625, .0603, .063857, .063857, .0645, .0765, .486, .581182, .714875, .753231,
            .813214, 1
        };
        FalseDiscovery adjusted = FalseDiscovery.of(CHANCES);

        assertThat(adjusted.count()).isEqualTo(15);
        for (int test = 0; test < expected.length; test++) {
            assertThat(adjusted.adjusted(test)).isCloseTo(expected[test], within(5e-7));
        }
    }

    @Test
    void theOrderOfTheTestsDoesNotMatter() {
        int[] order = IntStream.range(0, CHANCES.length).toArray();
        Random random = new Random(4);
        for (int i = order.length - 1; i > 0; i--) {
            int other = random.nextInt(i + 1);
            int kept = order[i];
            order[i] = order[other];
            order[other] = kept;
        }
        FalseDiscovery shuffled = FalseDiscovery.of(
                Arrays.stream(order).mapToDouble(i -> CHANCES[i]).toArray());
        FalseDiscovery inOrder = FalseDiscovery.of(CHANCES);

        for (int i = 0; i < order.length; i++) {
            assertThat(shuffled.adjusted(i)).isEqualTo(inOrder.adjusted(order[i]));
        }
        assertThat(Arrays.stream(shuffled.calledOut(.05)).map(i -> order[i]).sorted())
                .containsExactly(0, 1, 2, 3);
    }

    /** 1.959964 is exceeded on either side with a chance of .05, 3.290527 with .001 (any table of the normal distribution). */
    @Test
    void scoresCountOnBothSides() {
        FalseDiscovery three = FalseDiscovery.ofScores(new double[] {-3.290527, 0, 1.959964});

        assertThat(three.adjusted(0)).isCloseTo(.003, within(1e-8));
        assertThat(three.adjusted(1)).isEqualTo(1);
        assertThat(three.adjusted(2)).isCloseTo(.075, within(1e-7));
        assertThat(three.calledOut(.01)).containsExactly(0);
        assertThat(FalseDiscovery.ofScores(new double[0]).calledOut(.01)).isEmpty();
    }

    /** 1.644854 and 3.090232 are exceeded with a chance of .05 and .001 (any table of the normal distribution). */
    @Test
    void aLimitForManyIsExceededByOneOfThemWithThatChance() {
        assertThat(FalseDiscovery.limit(1, .05)).isCloseTo(1.644854, within(1e-6));
        assertThat(FalseDiscovery.limit(50, .05)).isCloseTo(3.090232, within(1e-6));
        assertThat(FalseDiscovery.limit(1, .9)).isCloseTo(0, within(1e-12));
    }

    @Test
    void whatIsNoChanceIsRefused() {
        assertThatThrownBy(() -> FalseDiscovery.of(new double[] {.1, 1.5}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the chance 1.5 at 1 is outside 0 to 1");
        assertThatThrownBy(() -> FalseDiscovery.of(new double[] {Double.NaN}))
                .hasMessage("the chance NaN at 0 is outside 0 to 1");
        assertThatThrownBy(() -> FalseDiscovery.ofScores(new double[] {0, Double.NaN}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the score at 1 is not a number");
        assertThatThrownBy(() -> FalseDiscovery.of(CHANCES).calledOut(0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the rate 0.0 is outside 0 to 1, both left out");
        assertThatThrownBy(() -> FalseDiscovery.limit(0, .05))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("0 tests are none; 1 or more have a limit");
        assertThatThrownBy(() -> FalseDiscovery.limit(1, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the chance 1.0 is outside 0 to 1, both left out");
    }
}
