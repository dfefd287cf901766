package org.beefyield.grid;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;

class PolynomialsProperties {
    @Provide
    Arbitrary<double[]> coefficients() {
        return Arbitraries.doubles()
                .between(-1, 1)
                .array(double[].class)
                .ofMinSize(1)
                .ofMaxSize(4);
    }

    @Property(tries = 500)
    void nothingOnAFineMeshIsSmallerThanTheMinimum(
            @ForAll("coefficients") double[] coefficients,
            @ForAll @DoubleRange(min = -3, max = 0) double low,
            @ForAll @DoubleRange(min = 0, max = 3) double high) {
        double at = Polynomials.argMin(coefficients, low, high);
        assertThat(at).isBetween(low, high);
        double smallest = Polynomials.value(coefficients, at);
        double onMesh = Double.POSITIVE_INFINITY;
        int steps = 2000;
        for (int i = 0; i <= steps; i++) {
            onMesh = Math.min(onMesh, Polynomials.value(coefficients, low + (high - low) * i / steps));
        }
        assertThat(smallest).isLessThanOrEqualTo(onMesh + 1e-14);
        // second derivative at most 2 + 6 * 3 = 20, half a step of the mesh 0.0015: 20 / 2 * 0.0015^2
        assertThat(smallest).isGreaterThanOrEqualTo(onMesh - 2.3e-5);
    }
}
