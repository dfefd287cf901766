package org.beefyield.grid;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class PolynomialsTest {
    private static double argMin(double low, double high, double... coefficients) {
        return Polynomials.argMin(coefficients, low, high);
    }

    @Test
    void aPolynomialIsReadConstantFirst() {
        assertThat(Polynomials.value(new double[] {1, 2, 3, 4}, 2)).isEqualTo(1 + 2 * 2 + 3 * 4 + 4 * 8);
        assertThat(Polynomials.value(new double[] {5}, 2)).isEqualTo(5);
    }

    @Test
    void theDerivativeOfAConstantIsZero() {
        assertThat(Polynomials.derivative(new double[] {1, 2, 3, 4})).containsExactly(2, 6, 12);
        assertThat(Polynomials.derivative(new double[] {7})).containsExactly(0);
    }

    @Test
    void aConstantIsSmallestAtTheLowEnd() {
        assertThat(argMin(-1, 2, 5)).isEqualTo(-1);
        assertThat(argMin(-1, 2, 5, 0, 0, 0)).isEqualTo(-1);
    }

    @Test
    void aLineIsSmallestAtAnEnd() {
        assertThat(argMin(-1, 2, 5, 1)).isEqualTo(-1);
        assertThat(argMin(-1, 2, 5, -1)).isEqualTo(2);
        assertThat(argMin(-1, 2, 5, -1, 0, 0)).isEqualTo(2);
    }

    @Test
    void aParabolaThatOpensUpIsSmallestAtItsVertex() {
        assertThat(argMin(-1, 2, 4, -1, 1)).isCloseTo(0.5, within(1e-15));
        assertThat(argMin(1, 2, 4, -1, 1)).isEqualTo(1);
        assertThat(argMin(-2, -1, 4, -1, 1)).isEqualTo(-1);
    }

    @Test
    void aParabolaThatOpensDownIsSmallestAtTheEndFartherFromItsVertex() {
        assertThat(argMin(-1, 2, 4, 1, -1)).isEqualTo(-1);
        assertThat(argMin(-1, 3, 4, 1, -1)).isEqualTo(3);
    }

    @Test
    void aCubicIsSmallestAtItsInnerMinimumUnlessAnEndIsLower() {
        // t^3 - 3t: a maximum at -1, a minimum of -2 at 1
        assertThat(argMin(-1.5, 2, 0, -3, 0, 1)).isEqualTo(1);
        assertThat(argMin(-1.5, 0.5, 0, -3, 0, 1)).isEqualTo(0.5);
        assertThat(argMin(-3, 2, 0, -3, 0, 1)).isEqualTo(-3);
        // -t^3 + 3t: a minimum of -2 at -1
        assertThat(argMin(-1.5, 1.9, 0, 3, 0, -1)).isEqualTo(-1);
        assertThat(argMin(-1.5, 2.5, 0, 3, 0, -1)).isEqualTo(2.5);
    }

    @Test
    void theInnerMinimumOfACubicIsFoundOnEitherSideOfItsBend() {
        // t^3 - 3t^2 has its minimum at 2, right of the bend at 1; -t^3 - 3t^2 at -2, left of it
        assertThat(argMin(-0.5, 3.5, 0, 0, -3, 1)).isEqualTo(2);
        assertThat(argMin(-3.5, 0.5, 0, 0, -3, -1)).isEqualTo(-2);
        // t^3 + 3t^2 at 0, right of the bend at -1: the root that the other one is worked out from
        assertThat(argMin(-2.5, 1, 0, 0, 3, 1)).isEqualTo(0);
    }

    @Test
    void aShiftedPolynomialIsTheSameOneCountedFromAnotherPoint() {
        // (t + 2)^3 = 8 + 12 t + 6 t^2 + t^3
        assertThat(Polynomials.shifted(new double[] {0, 0, 0, 1}, 2)).containsExactly(8, 12, 6, 1);
        // 1 - 3 (t - 1) + 2 (t - 1)^2 = 6 - 7 t + 2 t^2
        assertThat(Polynomials.shifted(new double[] {1, -3, 2}, -1)).containsExactly(6, -7, 2);
        assertThat(Polynomials.shifted(new double[] {5, 4}, 0.5)).containsExactly(7, 4);
        assertThat(Polynomials.shifted(new double[] {5}, 3)).containsExactly(5);
        double[] given = {1, 1};
        assertThat(Polynomials.shifted(given, 1)).containsExactly(2, 1);
        assertThat(given).as("the polynomial itself").containsExactly(1, 1);
    }

    @Test
    void aCubicWithoutTurningPointsIsSmallestAtAnEnd() {
        assertThat(argMin(-1, 2, 0, 1, 0, 1)).isEqualTo(-1);
        assertThat(argMin(-1, 2, 0, -1, 0, -1)).isEqualTo(2);
        // t^3 stands still at 0
        assertThat(argMin(-1, 2, 0, 0, 0, 1)).isEqualTo(-1);
    }

    @Test
    void aVanishingCubicTermDoesNotLoseTheVertexOfTheParabola() {
        // (t - 0.5)^2 + 1e-15 t^3: the plain root formula would cancel
        assertThat(argMin(-1, 2, 0.25, -1, 1, 1e-15)).isCloseTo(0.5, within(1e-9));
        assertThat(argMin(-1, 2, 0.25, 1, 1, 1e-15)).isCloseTo(-0.5, within(1e-9));
    }
}
