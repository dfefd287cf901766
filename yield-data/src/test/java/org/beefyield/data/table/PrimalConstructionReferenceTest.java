package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.table.definition.BreakdownRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The primals of the shipped table: do they come out as they were meant to, from judge2019 (cuts.csv) and strata2019
 * (strata-full.csv)? The same cattle stand on both sides, so that nothing here says whether they are like other cattle.
 */
class PrimalConstructionReferenceTest {
    private static final List<String> STRATA = List.of("very_low", "low", "high", "very_high");

    /** printed-primals.csv: worked out apart from the table's derivation, to the digits printed there. */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/printed-primals.csv", numLinesToSkip = 1)
    void coefficientsAreThePrintedOnes(
            String cut, double level, double perConformationPoint, double perFatPoint, double per100Kg) {
        List<Double> coefficients = Shipped.row(cut).coefficients();

        // half a digit of what is printed and half of one of the file
        assertThat(coefficients.get(0)).isCloseTo(level, within(0.0055));
        assertThat(coefficients.get(1)).isCloseTo(perConformationPoint, within(0.00055));
        assertThat(coefficients.get(2)).isCloseTo(perFatPoint, within(0.00055));
        assertThat(coefficients.get(3)).isCloseTo(per100Kg, within(0.00505));
        assertThat(coefficients.subList(4, coefficients.size())).containsOnly(0.0);
    }

    /**
     * strata2019: the means of four strata as they are and at equal carcass weight. What weight adds to a cut, regressed on
     * what it adds to all of them, leaves at most 0.031 kg; the slope at the adjusted means is the printed exponent, and
     * what the table says per 100 kg differs from cut to cut as the exponents do.
     */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/printed-primals.csv", numLinesToSkip = 1)
    void exponentOnMeatIsThatOfTheStrata(
            String cut, double level, double conformation, double fat, double per100Kg, double exponent) {
        double[] ofAll = added(ReferenceRows.of("strata-full.csv"));
        Map<String, String> stratum = strata(cut);
        double[] ofCut = added(List.of(stratum));
        double slope = slope(ofAll, ofCut);
        double intercept = mean(ofCut) - slope * mean(ofAll);
        for (int i = 0; i < ofAll.length; i++) {
            assertThat(ofCut[i] - intercept - slope * ofAll[i])
                    .as(STRATA.get(i))
                    .isBetween(-0.031, 0.031);
        }
        assertThat(slope * adjusted(ReferenceRows.of("strata-full.csv")) / adjusted(List.of(stratum)))
                .isCloseTo(exponent, within(0.0005));
        assertThat(3.4 * (relativeWeightSlope(cut) - relativeWeightSlope("topside")))
                .isCloseTo(exponent - 0.934, within(0.0011));
    }

    /**
     * What the slopes imply of one herd: correlation of a cut at equal weight with a grade. With all of the genetic pattern
     * topside and eye of round would have correlations above 1.
     */
    @Test
    void noImpliedCorrelationWithAGradeIsMoreThanAHerdCanHave() {
        for (String cut : Shipped.primals()) {
            assertThat(impliedCorrelation(cut, "conformation")).as(cut).isBetween(0.0, 0.755);
            assertThat(impliedCorrelation(cut, "fat")).as(cut).isBetween(-0.755, 0.02);
        }
        assertThat(impliedCorrelation("topside", "conformation")).isCloseTo(0.75, within(0.005));
        assertThat(impliedCorrelation("topside", "fat")).isCloseTo(-0.55, within(0.005));
    }

    /** The part of a cut's variance at equal weight that both grades explain, at a correlation of 0.3 between them. */
    @ParameterizedTest
    @CsvSource({"topside, 61.5", "eye-of-round, 40", "knuckle, 40", "heel-shank, 37.5", "flank, 1.7"})
    void gradesExplainThePrintedPartOfAPrimal(String cut, double percent) {
        assertThat(100 * explainedByGrades(cut)).isCloseTo(percent, within(0.2));
    }

    @Test
    void gradesExplainLessOfEveryOtherPrimal() {
        assertThat(Shipped.primals())
                .filteredOn(
                        cut -> !List.of("topside", "eye-of-round", "knuckle").contains(cut))
                .hasSize(11)
                .allSatisfy(
                        cut -> assertThat(100 * explainedByGrades(cut)).as(cut).isBetween(1.5, 38.0));
    }

    /** From P= to E= at fat 3=. */
    @ParameterizedTest
    @CsvSource({"meat, 23", "topside, 39", "eye-of-round, 51", "striploin, 32", "chuck-neck, 15"})
    void aCutGrowsWithConformationByThePrintedPercentage(String cut, double percent) {
        assertThat(change(Shipped.steer("P=", "3=", Shipped.KG), Shipped.steer("E=", "3=", Shipped.KG), cut))
                .isCloseTo(percent, within(0.5));
    }

    @Test
    void noCutFallsWithConformationOrGrowsMoreThanThreeTimesAsMuchAsTheMeat() {
        YieldEstimate poor = Shipped.steer("P=", "3=", Shipped.KG);
        YieldEstimate excellent = Shipped.steer("E=", "3=", Shipped.KG);

        for (String primal : Shipped.primals()) {
            assertThat(change(poor, excellent, primal)).as(primal).isBetween(0.0, 3 * change(poor, excellent, "meat"));
        }
    }

    /** From fat 2= to 5= at R=. */
    @ParameterizedTest
    @CsvSource({"meat, -12", "topside, -19", "striploin, -5", "cube-roll, -10", "flank, 0"})
    void aCutFallsWithFatByThePrintedPercentage(String cut, double percent) {
        assertThat(change(Shipped.steer("R=", "2=", Shipped.KG), Shipped.steer("R=", "5=", Shipped.KG), cut))
                .isCloseTo(percent, within(0.5));
    }

    /** By hand: eye of round 28.133 - 7 × 0.4939 - 7 × 0.1808 - 1.9 × 0.1797 = 23.07 g/kg, at P- 5+ and 150 kg. */
    @Test
    void smallestShareOfTheMeatOfSteersIsTwentyThreeGrams() {
        double smallest = Double.POSITIVE_INFINITY;
        for (int c = 1; c <= 18; c++) {
            for (int f = 1; f <= 15; f++) {
                for (double kg : new double[] {150, 600}) {
                    YieldEstimate estimate = Shipped.estimate(Category.STEER, c, f, kg);
                    for (String cut : Shipped.primals()) {
                        smallest = Math.min(smallest, 1000 * estimate.kg("primal", cut) / estimate.meatKg());
                    }
                }
            }
        }
        assertThat(smallest).isCloseTo(23.07, within(0.005));
    }

    private static double change(YieldEstimate from, YieldEstimate to, String cut) {
        String level = cut.equals("meat") ? "tissue" : "primal";
        return 100 * (to.kg(level, cut) / from.kg(level, cut) - 1);
    }

    private static double impliedCorrelation(String cut, String variable) {
        double half = 0.5;
        double c = variable.equals("conformation") ? half : 0;
        double perPoint = Shipped.grams(Category.STEER, 8 + c, 8 + half - c, "primal", cut)
                - Shipped.grams(Category.STEER, 8 - c, 8 - half + c, "primal", cut);
        return perPoint * factor("sd_of_points", variable) / sdAtWeight(cut);
    }

    static double explainedByGrades(String cut) {
        double conformation = impliedCorrelation(cut, "conformation");
        double fat = impliedCorrelation(cut, "fat");
        return conformation * conformation + fat * fat + 2 * factor("correlation_of_points", "") * conformation * fat;
    }

    /** judge2019: SD of a cut at equal weight is its genetic SD over the root of its heritability; g per kg of 340. */
    static double sdAtWeight(String cut) {
        Map<String, String> row = ReferenceRows.row(
                "cuts.csv",
                "cut",
                ReferenceRows.row("table-cuts.csv", "cut", cut).getOrDefault("reference_name", ""));
        return 1000 * number(row, "sg_at_weight_kg") / Math.sqrt(number(row, "h2_at_weight")) / Shipped.KG;
    }

    private static double factor(String factor, String key) {
        return ReferenceRows.of("factors.csv").stream()
                .filter(row -> factor.equals(row.get("factor")) && key.equals(row.get("key")))
                .map(row -> number(row, "value"))
                .findFirst()
                .orElseThrow();
    }

    private static Map<String, String> strata(String cut) {
        return ReferenceRows.row(
                "strata-full.csv",
                "cut",
                ReferenceRows.row("table-cuts.csv", "cut", cut).getOrDefault("strata_name", ""));
    }

    /** kg that weight adds to cuts in each stratum. */
    private static double[] added(List<Map<String, String>> cuts) {
        return STRATA.stream()
                .mapToDouble(stratum -> cuts.stream()
                        .mapToDouble(cut -> number(cut, stratum + "_kg") - number(cut, stratum + "_at_weight_kg"))
                        .sum())
                .toArray();
    }

    private static double adjusted(List<Map<String, String>> cuts) {
        List<Double> kg = new ArrayList<>();
        cuts.forEach(cut -> STRATA.forEach(stratum -> kg.add(number(cut, stratum + "_at_weight_kg"))));
        return kg.stream().mapToDouble(Double::doubleValue).sum();
    }

    private static double slope(double[] x, double[] y) {
        double products = 0;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            products += (x[i] - mean(x)) * y[i];
            squares += (x[i] - mean(x)) * x[i];
        }
        return products / squares;
    }

    private static double mean(double[] values) {
        return Arrays.stream(values).average().orElseThrow();
    }

    private static double relativeWeightSlope(String cut) {
        BreakdownRow row = Shipped.row(cut);
        return row.coefficients().get(3) / row.coefficients().get(0);
    }

    private static double number(Map<String, String> row, String column) {
        return Double.parseDouble(row.getOrDefault(column, ""));
    }
}
