package org.beefyield.table.definition;

import java.util.Locale;
import java.util.Objects;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.text.Numbers;

/** What a share depends on. */
public enum Variable {
    /** Conformation, position on the 18-point scale. */
    CONFORMATION,
    /** Fat class, position on the 15-point scale. */
    FAT,
    /** Cold carcass weight; in a term, hundreds of kg from the reference weight. */
    WEIGHT;

    /**
     * The name used in files.
     *
     * @return conformation, fat or weight
     */
    public String code() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * A value as people write it: the third of a class that it is, or points of the scale, or kg.
     *
     * @param value position on the scale, or kg
     * @return such as {@code R=}, {@code 7.4p} or {@code 342.5 kg}
     */
    public String words(double value) {
        int third = (int) value;
        boolean isThird = third == value && third >= 1;
        if (this == FAT && isThird && third <= FatClass.thirds().size()) {
            return FatClass.third(third).toString();
        }
        if (this == CONFORMATION && isThird && third <= Conformation.thirds().size()) {
            return Conformation.third(third).toString();
        }
        return Numbers.upTo(value, 2) + (this == WEIGHT ? " kg" : "p");
    }

    /**
     * A range as people write it.
     *
     * @param range positions on the scale, or kg
     * @return such as {@code P- to E+} or {@code 150 to 600 kg}
     */
    public String words(Range range) {
        Objects.requireNonNull(range, "range");
        return this == WEIGHT ? range + " kg" : words(range.low()) + " to " + words(range.high());
    }
}
