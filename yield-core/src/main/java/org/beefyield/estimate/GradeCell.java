package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;

/**
 * Whole classes of a carcass, for counts.
 *
 * @param category category
 * @param conformation letter of the conformation class, one of S E U R O P
 * @param fatClass fat class, 1 to 5
 * @serial exclude
 */
public record GradeCell(Category category, String conformation, int fatClass)
        implements Comparable<GradeCell>, Serializable {
    /** Checks that nothing is missing. */
    public GradeCell {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(conformation, "conformation");
    }

    private static final String BEST_FIRST = "SEUROP";

    /**
     * The cell of a carcass.
     *
     * @param carcass carcass
     * @return its category and whole classes
     */
    public static GradeCell of(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        return new GradeCell(
                carcass.category(),
                carcass.conformation().classLetter(),
                carcass.fatClass().classNumber());
    }

    /**
     * The cell in words.
     *
     * @return such as {@code steers R 3}
     */
    public String words() {
        return category.plural() + " " + conformation + " " + fatClass;
    }

    /** Category, then best conformation first, then leanest first. */
    @Override
    public int compareTo(GradeCell other) {
        Objects.requireNonNull(other, "other");
        int byCategory = category.compareTo(other.category);
        int byConformation = BEST_FIRST.indexOf(conformation) - BEST_FIRST.indexOf(other.conformation);
        return byCategory != 0
                ? byCategory
                : byConformation != 0 ? byConformation : Integer.compare(fatClass, other.fatClass);
    }
}
