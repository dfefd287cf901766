package org.beefyield.boning;

import java.util.Objects;

/**
 * Where an animal was born, reared and slaughtered, as its label will say: Regulation (EC) No 1760/2000, Art. 13.
 *
 * @param slaughterhouse approval number of the slaughterhouse, empty if not known
 * @param born country of birth, empty if not known
 * @param reared country or countries in which it was reared, as the label names them, empty if not known
 */
public record Origin(String slaughterhouse, String born, String reared) {
    /** Nothing is known. */
    public static final Origin NOT_KNOWN = new Origin("", "", "");

    /** Checks that nothing is missing. */
    public Origin {
        Objects.requireNonNull(slaughterhouse, "slaughterhouse");
        Objects.requireNonNull(born, "born");
        Objects.requireNonNull(reared, "reared");
    }
}
