package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mean run lengths that others have published. */
class RunLengthOutsideReferenceTest {
    private static RunLength sum(double reference, double decision, double shift) {
        return new RunLength(reference, decision, Double.POSITIVE_INFINITY, shift);
    }

    /**
     * Lucas and Crosier 1982, Technometrics 24, 199 to 205, table 1: reference .5, decision 4; without and with a start of half
     * the decision. Theirs have three digits, by a Markov chain; they print 1.32 for the 1.325 of a shift of 3.
     */
    @ParameterizedTest
    @CsvSource({
        "0, 168, 149, 0.5",
        "0.25, 74.2, 62.7, 0.05",
        "0.5, 26.6, 20.1, 0.05",
        "0.75, 13.3, 8.97, 0.05",
        "1, 8.38, 5.29, 0.005",
        "1.5, 4.75, 2.86, 0.005",
        "2, 3.34, 2.01, 0.005",
        "2.5, 2.62, 1.59, 0.005",
        "3, 2.19, 1.32, 0.006",
        "4, 1.71, 1.07, 0.005",
        "5, 1.31, 1.01, 0.005"
    })
    void bothSidesTogetherAreAsInTheTableOfLucasAndCrosier(
            double shift, double atZero, double headStart, double rounding) {
        assertThat(sum(.5, 4, shift).twoSidedMean(0)).isCloseTo(atZero, within(rounding));
        assertThat(sum(.5, 4, shift).twoSidedMean(2)).isCloseTo(headStart, within(rounding));
    }

    /**
     * Brook and Evans 1972, Biometrika 59, 539 to 549 (117.59 and 3.75); Waldmann 1986, Technometrics 28, 61 to 67 (1963, 117.4,
     * 17.35: bounds); Vance 1986, Journal of Quality Technology 18, 189 to 193 (the rest).
     */
    @ParameterizedTest
    @CsvSource({
        "0.5, 3, 0, 117.59, 0.01",
        "0.5, 3, 1.5, 3.75, 0.005",
        "0.5, 3, -0.5, 1963, 5",
        "0.5, 3, 0.5, 17.35, 0.05",
        "0, 10, -0.25, 2071.51, 0.1",
        "0, 10, -0.125, 400.28, 0.01",
        "0, 10, 0, 124.66, 0.01",
        "0, 10, 0.125, 59.30, 0.005",
        "0, 10, 0.25, 36.71, 0.005",
        "0, 10, 0.5, 20.37, 0.005",
        "0, 10, 0.75, 14.06, 0.005",
        "0, 10, 1, 10.75, 0.005"
    })
    void oneSideIsAsOthersHaveIt(double reference, double decision, double shift, double mean, double rounding) {
        assertThat(sum(reference, decision, shift).mean(0)).isCloseTo(mean, within(rounding));
    }
}
