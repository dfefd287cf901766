package org.beefyield.json;

import org.beefyield.estimate.Mince;
import org.beefyield.estimate.Outturn;
import org.jspecify.annotations.Nullable;

/**
 * What became of the lean trim.
 *
 * @param askedFatPercent fat content asked for, %
 * @param fatPercent fat content reached, %; 0 if there is no mince
 * @param kg mince, kg
 * @param leanTrimKg lean trim that went in, kg
 * @param fatTrimKg fat trim that went in, kg
 */
public record MinceJson(double askedFatPercent, double fatPercent, double kg, double leanTrimKg, double fatTrimKg) {
    static @Nullable MinceJson of(Outturn outturn) {
        return outturn.mince().map(MinceJson::of).orElse(null);
    }

    private static MinceJson of(Mince mince) {
        return new MinceJson(
                100 * mince.target().fat(), 100 * mince.fat(), mince.kg(), mince.leanTrimKg(), mince.fatTrimKg());
    }
}
