package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** Errors of coefficients are one draw by their names, whatever the categories. Invented figures, reckoned by hand. */
class CoefficientDrawsTest {
    private static final Figure MEAT = Figure.cut("tissue", "meat");

    /** Steers and cows have rows of their own for meat and fat trim in the small table. */
    private static TableDefinition.Builder notes(
            double steers, double cows, String term, String idOfSteers, String idOfCows) {
        TableDefinition.Builder builder = TestTables.small().toBuilder();
        for (String cut : List.of("meat", "fat-trim")) {
            builder.coefficientNote(
                    new CoefficientNote("*", "*", "carcass", cut, term, steers, idOfSteers, TestTables.SOURCE));
            builder.coefficientNote(
                    new CoefficientNote("D", "*", "carcass", cut, term, cows, idOfCows, TestTables.SOURCE));
        }
        return builder;
    }

    private static List<Carcass> carcasses(Category category, int size) {
        // three points of fat above the reference
        return Collections.nCopies(size, Carcass.of(category, Conformation.parse("R="), FatClass.parse("4="), 344));
    }

    private static double sd(TableDefinition.Builder builder, int steers, int cows) {
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(builder.build()));
        LotEstimate.Collector lot = estimator.collector();
        carcasses(Category.STEER, steers).forEach(lot::add);
        carcasses(Category.COW, cows).forEach(lot::add);
        return lot.lot().sd(MEAT, UncertaintyPart.COEFFICIENTS);
    }

    @Test
    void theErrorOfASlopeIsOneDrawForAllCategories() {
        TableDefinition.Builder table = notes(0.75, 0.75, "per_fat_point", "", "");
        // 3 points, 0.75 g/kg each, 400 carcasses of 344 kg
        double one = 3 * 0.75e-3 * 400 * 344;
        assertThat(sd(table, 400, 0)).isCloseTo(309.6, within(1e-9)).isCloseTo(one, within(1e-9));
        assertThat(sd(table, 0, 400)).isCloseTo(one, within(1e-9));
        // taken for two draws it would be the root of two times that, 438 kg
        assertThat(sd(table, 400, 400)).isCloseTo(2 * one, within(1e-9)).isCloseTo(619.2, within(1e-9));
    }

    @Test
    void aDrawThatDoesMoreInOneCategoryStaysOneDraw() {
        TableDefinition.Builder table = notes(0.5, 1.25, "per_fat_point", "", "");
        assertThat(sd(table, 400, 400)).isCloseTo(3 * (0.5e-3 + 1.25e-3) * 400 * 344, within(1e-9));
    }

    @Test
    void theLevelOfRowsOfACategoryErrsOnItsOwnUnlessItIsNamed() {
        double steers = 2e-3 * 400 * 344;
        double cows = 5e-3 * 300 * 344;
        assertThat(sd(notes(2, 5, "level_g_per_kg", "", ""), 400, 300))
                .isCloseTo(Math.hypot(steers, cows), within(1e-9));
        assertThat(sd(notes(2, 5, "level_g_per_kg", "fit", "fit"), 400, 300)).isCloseTo(steers + cows, within(1e-9));
        assertThat(sd(notes(2, 5, "level_g_per_kg", "a fit", "another"), 400, 300))
                .isCloseTo(Math.hypot(steers, cows), within(1e-9));
    }

    @Test
    void termsOfOneNameAreOneDrawAndACoefficientMayErrForTwoReasons() {
        TableDefinition.Builder table = notes(2, 2, "level_g_per_kg", "fit", "fit");
        for (String category : List.of("*", "D")) {
            for (String cut : List.of("meat", "fat-trim")) {
                table.coefficientNote(new CoefficientNote(
                        category, "*", "carcass", cut, "per_fat_point", 0.5, "fit", TestTables.SOURCE));
                table.coefficientNote(new CoefficientNote(
                        category, "*", "carcass", cut, "per_fat_point", 0.25, "other cattle", TestTables.SOURCE));
            }
        }
        double fit = (2e-3 + 3 * 0.5e-3) * 10 * 344;
        double otherCattle = 3 * 0.25e-3 * 10 * 344;
        assertThat(sd(table, 10, 0)).isCloseTo(Math.hypot(fit, otherCattle), within(1e-9));
        // and of a single carcass, whose variance is kept as a polynomial in weight
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(table.build()))
                .counting(java.util.Set.of(UncertaintyPart.COEFFICIENTS));
        assertThat(estimator.estimate(carcasses(Category.COW, 1).get(0)).sd(MEAT))
                .isCloseTo(Math.hypot(fit, otherCattle) / 10, within(1e-9));
    }

    @Test
    void inADifferenceADrawCancelsAcrossCategories() {
        YieldEstimator estimator = YieldEstimator.of(
                YieldTable.of(notes(0.75, 0.75, "per_fat_point", "", "").build()));
        LotEstimate steers = estimator.estimateLot(carcasses(Category.STEER, 400));
        LotEstimate cows = estimator.estimateLot(carcasses(Category.COW, 300));
        assertThat(steers.minus(cows, MEAT).sdKg(UncertaintyPart.COEFFICIENTS))
                .isCloseTo(3 * 0.75e-3 * 100 * 344, within(1e-9));
    }
}
