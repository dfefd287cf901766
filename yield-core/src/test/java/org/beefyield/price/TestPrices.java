package org.beefyield.price;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;

/** What tests of values have in common. */
public final class TestPrices {
    /** Invented prices of every kind that a retail level has. */
    public static final PriceList BY_KIND = PriceList.builder("EUR")
            .kind(CutKind.STEAK, 22)
            .kind(CutKind.JOINT, 14)
            .kind(CutKind.DICE, 9)
            .kind(CutKind.LEAN_TRIM, 5)
            .kind(CutKind.MINCE, 6)
            .kind(CutKind.FAT_TRIM, 0.3)
            .kind(CutKind.BONE, -0.1)
            .kind(CutKind.LOSS, 0)
            .build();

    private TestPrices() {}

    public static Carcass steer(String conformation, String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }
}
