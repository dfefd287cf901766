package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.Overfat;
import org.beefyield.feedback.OverfatCost;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pack.WindowChance;
import org.junit.jupiter.api.Test;

/** Pack sizes and overfat with the shipped table. */
class FitReferenceTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(ShippedTables.boneless2026());

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    /**
     * Common practice, no source: striploins of 360 kg carcasses suit the retail pack, those of 495 kg carcasses are above
     * common pack limits, here 10 kg a piece before trimming. The left-right SD of 3 % is an assumption of the table.
     */
    @Test
    void aStriploinOf360KgFitsAPackOf10KgAndOneOf495KgDoesNot() {
        SizeWindow window = new SizeWindow("striploin", "*", 0, 10, "");
        WindowChance suits =
                WindowChance.of(window, PieceWeight.of(ESTIMATOR.estimate(steer("R=", "3=", 360)), "striploin"));
        WindowChance large =
                WindowChance.of(window, PieceWeight.of(ESTIMATOR.estimate(steer("U=", "4=", 495)), "striploin"));

        assertThat(suits.inside()).isGreaterThanOrEqualTo(0.9);
        assertThat(large.inside()).isLessThanOrEqualTo(0.05);
    }

    /**
     * From fat class 3= to 4H at 300 kg is 3.75 points. Published slopes: a point of fat takes 9.6 g/kg of meat and brings
     * 12.0 g/kg of fat trim (Conroy and others 2010, Animal 4:234-241, of meat, fat and bone together), so that about 10.8 kg
     * of meat go and 13.5 kg of fat trim come, a little less of the whole carcass with its cutting loss.
     */
    @Test
    void fatterByThreeQuartersOfAClassCostsTenKilogramsOfMeat() {
        OverfatCost cost = Overfat.against(ESTIMATOR, FatClass.parse("3="))
                .cost(steer("R=", "4H", 300))
                .orElseThrow();

        assertThat(cost.more(Figure.cut("tissue", "meat")).kg()).isBetween(-10.8, -10.2);
        assertThat(cost.more(Figure.cut("tissue", "fat-trim")).kg()).isBetween(13.0, 13.5);
        assertThat(cost.more(Figure.cut("tissue", "bone")).kg()).isBetween(-2.8, -2.5);
        assertThat(cost.extraFatTrim().sdKg()).isPositive();
        assertThat(cost.toText())
                .startsWith("1 carcass is fatter than 3=: ")
                .contains("retail level")
                .contains("\nStriploin steak ");
    }
}
