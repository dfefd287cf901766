package org.beefyield.json;

import java.util.List;
import java.util.Locale;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;

/** Names of the parts of an uncertainty. */
final class PartJson {
    private PartJson() {}

    /** Such as {@code between_carcasses}. */
    static String name(UncertaintyPart part) {
        return part.name().toLowerCase(Locale.ROOT);
    }

    static List<String> counted(Outturn outturn) {
        return outturn.counted().stream().map(PartJson::name).sorted().toList();
    }
}
