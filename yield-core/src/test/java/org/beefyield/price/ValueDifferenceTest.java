package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedSds;
import org.junit.jupiter.api.Test;

/**
 * How sure differences in money are. Invented table: meat 20 g/kg between carcasses, 9 between lots, 5 between runs, 15 between
 * halls, taken from fat trim; reckoned by hand at prices that leave out everything else.
 */
class ValueDifferenceTest {
    private static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(YieldTable.of(TestTables.share(TestTables.small(), row -> switch (row.cut()) {
                        case "meat", "fat-trim" -> SharedSds.of(9, 5, 15);
                        default -> SharedSds.of(0, 0, 0);
                    })
                    .build()));

    /** A kg of primals at one price: meat, whatever it is split into. */
    private static Valuer meatAt(double price) {
        return Valuer.of(
                PriceList.builder("EUR")
                        .kind(CutKind.PRIMAL, price)
                        .kind(CutKind.FAT_TRIM, 0)
                        .kind(CutKind.BONE, 0)
                        .kind(CutKind.LOSS, 0)
                        .otherPerHead("Hide", 25)
                        .build(),
                ESTIMATOR);
    }

    private static Carcass steer(String conformation, String killDate, String farm) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse("3="), 340)
                .withKillDate(killDate)
                .withSupplier(farm);
    }

    private static Value value(double price, int size, Carcass carcass) {
        return meatAt(price).value(ESTIMATOR.estimateLot(Collections.nCopies(size, carcass)));
    }

    @Test
    void twoLotsOfOneRunErrApartByCarcassesAndLots() {
        Value good = value(5, 20, steer("U=", "monday", "Mere End"));
        Value fair = value(5, 20, steer("R=", "monday", "Tarrow Bridge"));
        Difference difference = good.minus(fair);
        double carcasses = Math.sqrt(2) * 20e-3 * 340 * Math.sqrt(20) * 5;
        double lots = Math.sqrt(2) * 9e-3 * 340 * 20 * 5;

        assertThat(difference.kg()).isCloseTo(good.amount() - fair.amount(), within(1e-9));
        assertThat(difference.sdKg()).isCloseTo(Math.hypot(carcasses, lots), within(1e-6));
        assertThat(difference.expectedSdKg()).isCloseTo(0, within(1e-6));
    }

    @Test
    void theSameCarcassesAtOtherPricesErrByTheDifferenceOfThePrices() {
        Carcass steer = steer("U=", "monday", "Mere End");
        Value before = value(4, 20, steer);
        Difference dearer = value(5.5, 20, steer).changeFrom(before);

        assertThat(dearer.kg()).isCloseTo(1.5 * 20 * ESTIMATOR.estimate(steer).meatKg(), within(1e-9));
        assertThat(dearer.sdKg()).isCloseTo(1.5 / 4 * before.sd(), within(1e-6));
        assertThatThrownBy(() -> value(5.5, 21, steer).changeFrom(before))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the change of a figure is that of the same carcasses; these are others, see minus");
    }

    @Test
    void anAttributionIsAsSureAsTheDifferencePerHead() {
        Value good = value(5, 40, steer("U=", "monday", "Mere End"));
        Value fair = value(5, 10, steer("R=", "tuesday", "Tarrow Bridge"));
        Difference perHead = Attribution.of(good, fair).uncertainty().orElseThrow();
        double carcasses = 20e-3 * 340 * 5 * Math.sqrt(1.0 / 40 + 1.0 / 10);
        double lots = Math.sqrt(2) * 9e-3 * 340 * 5;
        double runs = Math.sqrt(2) * 5e-3 * 340 * 5;

        assertThat(perHead.kg()).isCloseTo(Attribution.of(good, fair).difference(), within(1e-9));
        assertThat(perHead.sdKg())
                .isCloseTo(Math.sqrt(carcasses * carcasses + lots * lots + runs * runs), within(1e-6));
        // carcasses of one hall: what it does otherwise is the same share of either
        assertThat(perHead.sdKg(UncertaintyPart.HALL)).isCloseTo(0, within(1e-6));
    }

    @Test
    void twoTablesHaveNoErrorsInCommon() {
        YieldEstimator other = YieldEstimator.of(YieldTable.of(TestTables.small()));
        Carcass steer = steer("U=", "monday", "Mere End");
        Value here = meatAt(5).value(steer);
        Value there = Valuer.of(here.prices(), other).value(steer);

        for (org.assertj.core.api.ThrowableAssert.ThrowingCallable call :
                List.<org.assertj.core.api.ThrowableAssert.ThrowingCallable>of(
                        () -> here.minus(there), () -> here.changeFrom(there))) {
            assertThatThrownBy(call)
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageStartingWith(
                            "outturns go together only with the same table, scale and parts of the uncertainty: ");
        }
        assertThatThrownBy(() -> Attribution.of(here, there))
                .hasMessageEndingWith(
                        "; two tables have no errors in common, so that their difference would have no interval");
    }
}
