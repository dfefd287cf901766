package org.beefyield.data.table;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;

/** The shipped table as its reference tests ask it: carcasses by position, rows by cut. */
final class Shipped {
    static final YieldTable TABLE = ShippedTables.boneless2026();
    static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    /** Cold weight of the reference carcass, kg. */
    static final double KG = 340;

    private Shipped() {}

    static YieldEstimate steer(String conformation, String fatClass, double kg) {
        return estimate(Category.STEER, conformation, fatClass, kg);
    }

    static YieldEstimate estimate(Category category, String conformation, String fatClass, double kg) {
        return ESTIMATOR.estimate(Carcass.of(category, Conformation.parse(conformation), FatClass.parse(fatClass), kg));
    }

    /** Positions on the 18- and the 15-step scale, each a third of a class wide. */
    static YieldEstimate estimate(Category category, double conformation, double fat, double kg) {
        return ESTIMATOR.estimate(
                Carcass.of(category, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), kg));
    }

    /** g of a cut, at the last level at which it stands but retail, per kg of a carcass. */
    static double grams(Category category, double conformation, double fat, String level, String cut) {
        return 1000 * estimate(category, conformation, fat, KG).kg(level, cut) / KG;
    }

    /** The steers' row of a child of the carcass or of the meat. */
    static BreakdownRow row(String cut) {
        return TABLE.definition().breakdown().stream()
                .filter(row -> row.category().equals(BreakdownRow.ANY)
                        && row.way().equals(BreakdownRow.ANY)
                        && row.cut().equals(cut))
                .findFirst()
                .orElseThrow();
    }

    /** Codes of the primals in the table's order. */
    static List<String> primals() {
        return TABLE.catalogue().cuts().stream()
                .filter(cut -> cut.kind() == CutKind.PRIMAL)
                .map(Cut::code)
                .toList();
    }
}
