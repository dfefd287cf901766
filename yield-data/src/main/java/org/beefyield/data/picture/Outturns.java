package org.beefyield.data.picture;

import java.util.List;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.estimate.YieldEstimate;

/** Words about carcasses and lots that several pictures share. */
final class Outturns {
    private static final double HEAVY_KG = 2000;

    private Outturns() {}

    /** A tenth of a kg for a carcass, whole kg for a lot. */
    static int decimals(Outturn outturn) {
        return outturn.coldWeightKg() < HEAVY_KG ? 1 : 0;
    }

    static String kg(double kg, Outturn outturn) {
        return Figures.fixed(kg, decimals(outturn));
    }

    /** A figure without needless decimals. */
    static String plain(double value) {
        return Figures.upTo(value, 1);
    }

    static String what(Outturn outturn) {
        if (outturn instanceof PartEstimate) {
            return "parts of carcasses";
        }
        return outturn instanceof LotEstimate ? "a lot" : "a carcass";
    }

    static List<String> subtitles(Outturn outturn) {
        String weight = kg(outturn.coldWeightKg(), outturn) + " kg cold";
        String which = weight;
        if (outturn instanceof YieldEstimate estimate) {
            which = estimate.carcass().id().map(id -> id + ": ").orElse("") + "category "
                    + estimate.carcass().category() + ", " + estimate.carcass().conformation() + " "
                    + estimate.carcass().fatClass() + ", " + weight;
        } else if (outturn instanceof LotEstimate lot) {
            which = lot.name().map(name -> name + ": ").orElse("") + carcasses(lot) + ", " + weight;
        } else if (outturn instanceof PartEstimate parts) {
            which = parts.words() + ", " + weight;
        }
        String specification = outturn.specification().name();
        return List.of(
                which,
                outturn.table().identity()
                        + (specification.isEmpty() ? "" : ", " + specification)
                        + outturn.mince().map(mince -> ", " + mince.target()).orElse(""));
    }

    static String carcasses(LotEstimate lot) {
        return Figures.count(lot.carcasses(), "carcass", "carcasses");
    }

    static List<String> notes(Outturn outturn) {
        return outturn.notes();
    }

    /** The code of a cut as words, such as {@code eye of round}. */
    static String words(String code) {
        return code.replace('-', ' ');
    }
}
