package consumer;

import java.util.Locale;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;

/** A caller's program: the shipped table, one carcass, one figure. */
public final class Consumer {
    private Consumer() {}

    /**
     * Prints the figure.
     *
     * @param args none
     */
    public static void main(String[] args) {
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340.0);
        System.out.printf(
                Locale.ROOT,
                "striploin %.2f kg%n",
                YieldEstimator.of(ShippedTables.boneless2026())
                        .withSpecification("steaks")
                        .estimate(carcass)
                        .kg("striploin"));
    }
}
