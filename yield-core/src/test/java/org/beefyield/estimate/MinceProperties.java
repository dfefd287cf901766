package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;

/** Mince against the linear system that it solves, in the unknowns lean trim, fat trim and mince. */
class MinceProperties {
    private static RealVector solve(double[][] equations, double[] right) {
        return new LUDecomposition(new Array2DRowRealMatrix(equations))
                .getSolver()
                .solve(new ArrayRealVector(right));
    }

    @Property
    void enoughFatTrimGivesTheSolutionOfWeightAndFatBalance(
            @ForAll @DoubleRange(min = 0.1, max = 500) double leanKg,
            @ForAll @DoubleRange(min = 0, max = 0.3) double leanFat,
            @ForAll @DoubleRange(min = 0.5, max = 0.95) double fatTrimFat,
            @ForAll @DoubleRange(min = 0.01, max = 0.45) double target) {
        Assume.that(target >= leanFat);
        RealVector solution = solve(
                new double[][] {
                    // all of the lean trim goes in
                    {1, 0, 0},
                    // weights add up
                    {1, 1, -1},
                    // and so does fat
                    {leanFat, fatTrimFat, -target}
                },
                new double[] {leanKg, 0, 0});
        Mince mince = Mince.of(MinceTarget.ofFraction(target), leanKg, leanKg * leanFat, 1e6, fatTrimFat);
        assertThat(mince.leanTrimKg()).isCloseTo(solution.getEntry(0), within(1e-9));
        assertThat(mince.fatTrimKg()).isCloseTo(solution.getEntry(1), within(1e-8));
        assertThat(mince.kg()).isCloseTo(solution.getEntry(2), within(1e-8));
        assertThat(mince.fat()).isCloseTo(target, within(1e-12));
        assertThat(mince.note()).isEmpty();
    }

    @Property
    void tooLittleFatTrimGivesTheSolutionWithAllOfIt(
            @ForAll @DoubleRange(min = 0.1, max = 500) double leanKg,
            @ForAll @DoubleRange(min = 0, max = 0.2) double leanFat,
            @ForAll @DoubleRange(min = 0.5, max = 0.95) double fatTrimFat,
            @ForAll @DoubleRange(min = 0.21, max = 0.45) double target,
            @ForAll @DoubleRange(min = 0, max = 0.99) double part) {
        double fatTrimKg = part * leanKg * (target - leanFat) / (fatTrimFat - target);
        // unknowns: lean trim, fat trim, fat in the mince
        RealVector solution = solve(
                new double[][] {{1, 0, 0}, {0, 1, 0}, {leanFat, fatTrimFat, -1}}, new double[] {leanKg, fatTrimKg, 0});
        Mince mince = Mince.of(MinceTarget.ofFraction(target), leanKg, leanKg * leanFat, fatTrimKg, fatTrimFat);
        assertThat(mince.kg()).isCloseTo(solution.getEntry(0) + solution.getEntry(1), within(1e-9));
        assertThat(mince.fat() * mince.kg()).isCloseTo(solution.getEntry(2), within(1e-9));
        assertThat(mince.fat()).isLessThan(target);
        assertThat(mince.note()).startsWith("mince is leaner than asked");
    }

    @Property
    void fatterLeanTrimTakesUpNothing(
            @ForAll @DoubleRange(min = 0.1, max = 500) double leanKg,
            @ForAll @DoubleRange(min = 0.2, max = 0.4) double leanFat,
            @ForAll @DoubleRange(min = 0.01, max = 0.19) double target) {
        Mince mince = Mince.of(MinceTarget.ofFraction(target), leanKg, leanKg * leanFat, 100, 0.7);
        assertThat(mince.fatTrimKg()).isZero();
        assertThat(mince.kg()).isEqualTo(leanKg);
        assertThat(mince.fat()).isCloseTo(leanFat, within(1e-12));
        assertThat(mince.note()).startsWith("mince is fatter than asked by ");
    }
}
