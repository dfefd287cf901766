package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackedValue;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.table.CuttingSpecification;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The best ways of carcasses by the shipped table, where mince is nearly as dear as dice and cheaper if it is too fat. */
class BestWaysTest {
    private static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(ShippedTables.boneless2026()).with(MinceTarget.fatPercent(12));

    private static final PriceList PRICES = PriceList.builder("EUR")
            .cut("fillet-steak", 34)
            .cut("striploin-steak", 21.5)
            .cut("cube-roll-steak", 20)
            .kind(CutKind.STEAK, 13.2)
            .kind(CutKind.JOINT, 9.4)
            .kind(CutKind.DICE, 8.6)
            .kind(CutKind.FAT_TRIM, 0.3)
            .kind(CutKind.BONE, -0.05)
            .kind(CutKind.LOSS, 0)
            .mince(12, 8.8)
            .mince(8)
            .build();

    private static final PackFit FIT = PackFit.of(Valuer.of(PRICES, ESTIMATOR), List.of());

    /** All ways of four cuts, the others as in the best ways. The first fell 47 EUR short when cuts were looked at one by one. */
    @ParameterizedTest
    @CsvSource({"O=, 4=, 360", "R=, 3=, 340", "U=, 2=, 300"})
    void noMixOfWaysReturnsMore(String conformation, String fat, double kg) {
        Carcass steer = Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), kg);

        PackedValue best = FIT.best(steer).best();

        List<CuttingSpecification> mixes = List.of(best.specification());
        for (String cut : List.of("topside", "silverside", "eye-of-round", "knuckle")) {
            mixes = mixes.stream()
                    .flatMap(mix -> ESTIMATOR.table().ways(cut).stream().map(way -> mix.with(cut, way)))
                    .toList();
        }
        assertThat(mixes.stream()
                        .mapToDouble(mix -> Valuer.of(PRICES, ESTIMATOR.with(mix))
                                .value(steer)
                                .amount())
                        .max())
                .hasValueCloseTo(best.amount(), within(1e-6));
    }
}
