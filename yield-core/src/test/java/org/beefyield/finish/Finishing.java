package org.beefyield.finish;

import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.table.definition.SourceKind;

/** What tests of hold or sell have in common; all of it invented. */
public final class Finishing {
    private Finishing() {}

    /** One price for every carcass. */
    public static PaymentGrid flat(double perKg) {
        return PaymentGrid.builder("EUR")
                .base(null, perKg)
                .grade(null, null, null, 0)
                .build();
    }

    /** A price, less for class 4 and much less for class 5, and a bonus for being in specification. */
    public static PaymentGrid stepped() {
        return PaymentGrid.builder("EUR")
                .base(null, 5.5)
                .grade(null, null, null, 0)
                .grade(null, null, FatClass.parse("4"), -0.3)
                .grade(null, null, FatClass.parse("5"), -0.8)
                .weight(null, 400.0, null, -0.2)
                .inSpecification(null, 0.2)
                .build();
    }

    public static MarketSpecification market() {
        return MarketSpecification.builder("retail")
                .coldWeightKg(270, 380)
                .conformation(Conformation.parse("O="), null)
                .fatClass(FatClass.parse("2+"), FatClass.parse("4="))
                .underMonths(30)
                .build();
    }

    public static Assumptions with(Assumptions assumed, Quantity quantity, double value) {
        return assumed.with(new Assumption(quantity, value, SourceKind.ASSUMPTION, "invented"));
    }

    /** Nothing changes but the weight, and nothing is unsure. */
    public static Assumptions still(double share) {
        Assumptions assumed = with(Assumptions.shipped(), Quantity.CARCASS_SHARE_OF_GAIN, share);
        assumed = with(assumed, Quantity.FAT_POINTS_PER_DAY, 0);
        assumed = with(assumed, Quantity.FAT_POINTS_PER_DAY_SD, 0);
        return with(assumed, Quantity.CONFORMATION_POINTS_PER_KG, 0);
    }

    public static FinishAnimal sure(FinishAnimal animal) {
        return animal.withGradeSd(0, 0).withGainSd(0).withKillingOutSd(0).withWeightSdKg(0);
    }

    public static FinishAnimal steer(double liveKg, String fat, DayCurve gain) {
        return FinishAnimal.ofLiveKg(Category.STEER, Conformation.parse("R="), FatClass.parse(fat), liveKg, gain);
    }
}
