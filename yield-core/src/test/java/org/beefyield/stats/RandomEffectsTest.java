package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class RandomEffectsTest {
    private static final double[] VALUES = {3, 7, 4, 9, 6};
    private static final double[] EQUAL = {.5, .5, .5, .5, .5};

    /** With equal known variances the variance of the effects is that of the values less theirs. */
    @Test
    void ofEqualVariancesItIsThatOfTheValuesLessThem() {
        RandomEffects effects = RandomEffects.of(VALUES, EQUAL);

        // squares about 5.8: 7.84 + 1.44 + 3.24 + 10.24 + .04 = 22.8, by 4 5.7
        assertThat(effects.variance()).isCloseTo(5.2, within(1e-12));
        assertThat(effects.sd()).isCloseTo(Math.sqrt(5.2), within(1e-12));
        assertThat(effects.mean()).isCloseTo(5.8, within(1e-12));
        assertThat(effects.meanError()).isCloseTo(Math.sqrt(5.7 / 5), within(1e-12));
        assertThat(effects.effect(3)).isCloseTo(5.2 / 5.7 * 3.2, within(1e-12));
        assertThat(effects.nextSd(2)).isCloseTo(Math.sqrt(5.2 + 2 + 5.7 / 5), within(1e-12));
        assertThat(effects.count()).isEqualTo(5);
        assertThat(effects).hasToString("5 units, mean " + effects.mean() + ", SD " + effects.sd());
    }

    /** 2.776445 is the .975 quantile of Student's t with 4 degrees of freedom (any table). */
    @Test
    void theMeanHasStudentsBounds() {
        Bounds bounds = RandomEffects.of(VALUES, EQUAL).meanBounds(.95);

        assertThat(bounds.low()).isCloseTo(5.8 - 2.776445 * Math.sqrt(5.7 / 5), within(1e-6));
        assertThat(bounds.high()).isCloseTo(5.8 + 2.776445 * Math.sqrt(5.7 / 5), within(1e-6));
    }

    @Test
    void valuesWithoutAnySpreadHaveNoEffectsButTheirMeanStillAnError() {
        RandomEffects effects = RandomEffects.of(new double[] {2, 2, 2}, new double[] {.3, .3, .3});

        assertThat(effects.variance()).isZero();
        assertThat(effects.varianceBounds(.9)).isEqualTo(new Bounds(0, 0));
        assertThat(effects.widenedMeanError()).isCloseTo(Math.sqrt(.1), within(1e-12));
    }

    @Test
    void theErrorOfAnEffectIsWhatItsErrorsAreWhenDrawn() {
        Random random = new Random(5);
        double[] variances = {.2, 1, 4, .5, 2, 1, 1, .3};
        double sd = 1.5;
        double[] squares = new double[variances.length];
        double[] stated = new double[variances.length];
        int draws = 20_000;
        for (int draw = 0; draw < draws; draw++) {
            double[] effects = new double[variances.length];
            double[] values = new double[variances.length];
            for (int i = 0; i < values.length; i++) {
                effects[i] = sd * random.nextGaussian();
                values[i] = 7 + effects[i] + Math.sqrt(variances[i]) * random.nextGaussian();
            }
            // the true variance, so that the formula alone is tried
            RandomEffects known = RandomEffects.ofKnown(values, variances, sd * sd);
            for (int i = 0; i < values.length; i++) {
                squares[i] += Math.pow(known.effect(i) - effects[i], 2);
                stated[i] = known.effectError(i);
            }
        }
        for (int i = 0; i < variances.length; i++) {
            assertThat(Math.sqrt(squares[i] / draws)).as("unit %d", i).isCloseTo(stated[i], within(.02 * stated[i]));
        }
    }

    /** At the bounds of the variance, Q has the chance stated; values far apart have a lower bound above 0. */
    @Test
    void theTrueVarianceLiesWithinItsBoundsAsOftenAsStated() {
        Random random = new Random(8);
        int held = 0;
        int draws = 4000;
        for (int draw = 0; draw < draws; draw++) {
            double[] variances = random.doubles(12, .2, 2).toArray();
            double[] values = new double[12];
            for (int i = 0; i < 12; i++) {
                values[i] = Math.sqrt(variances[i] + 1.44) * random.nextGaussian();
            }
            Bounds bounds = RandomEffects.of(values, variances).varianceBounds(.9);
            held += bounds.low() <= 1.44 && bounds.high() >= 1.44 ? 1 : 0;
        }
        // the bounds are exact; four standard errors
        assertThat(held / (double) draws).isCloseTo(.9, within(4 * Math.sqrt(.09 / draws)));
    }

    @Test
    void whatCanNotBeEstimatedFromIsRefused() {
        assertThatThrownBy(() -> RandomEffects.of(new double[] {1}, new double[] {1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("there are 1 values; 2 or more are needed");
        assertThatThrownBy(() -> RandomEffects.of(new double[] {1, 2}, new double[] {1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("there are 2 values, but 1 variances");
        assertThatThrownBy(() -> RandomEffects.of(new double[] {1, Double.NaN}, new double[] {1, 1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the value NaN at 1 is not a finite number");
        assertThatThrownBy(() -> RandomEffects.of(new double[] {1, 2}, new double[] {0, 1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the variance 0.0 at 0 is not a finite number above 0");
        RandomEffects effects = RandomEffects.of(VALUES, EQUAL);
        assertThatThrownBy(() -> effects.next(-1, .9))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the variance -1.0 is not a finite number, 0 or more");
        assertThatThrownBy(() -> effects.meanBounds(1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("how sure, 1.0 is outside 0 to 1, both left out");
        assertThatThrownBy(() -> new Bounds(2, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the lower bound 2.0 isn't at most the upper one, 1.0");
    }
}
