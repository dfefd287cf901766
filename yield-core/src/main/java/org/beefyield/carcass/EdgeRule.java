package org.beefyield.carcass;

import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.beefyield.text.Checks;

/**
 * Which side of an edge a grade counts to that stands right on it. Limits of a market, rows of a payment grid and fat targets
 * are parts of a scale: classes, halves or thirds. A carcass is judged by its position, the middle of what its grade covers.
 * Where limits are in halves, a grade in thirds or whole classes may stand on an edge: {@code 4=} and a whole {@code 4} lie
 * half in {@code 4L} and half in {@code 4H}, {@code U=} and {@code U} half in {@code -U} and half in {@code U+}.
 *
 * <p>There is no right answer, so the caller chooses one, and should choose the same one for market, grid and target. The
 * one in use where none is chosen is {@link #LOWER}.
 */
public enum EdgeRule {
    /** To the lower part: {@code 4=} counts as {@code 4L}, {@code U=} as {@code -U}. */
    LOWER,
    /** To the upper part: {@code 4=} counts as {@code 4H}, {@code U=} as {@code U+}. */
    UPPER;

    /**
     * Whether a conformation lies below a limit, all of it.
     *
     * @param conformation conformation, judged by its position
     * @param limit part of the scale; one without width holds its own position
     * @return true if it counts to what is below the limit
     */
    public boolean isBelow(Conformation conformation, Conformation limit) {
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(limit, "limit");
        return isBelow(conformation.position(), limit.position(), limit.width());
    }

    /**
     * Whether a conformation lies above a limit, all of it.
     *
     * @param conformation conformation, judged by its position
     * @param limit part of the scale; one without width holds its own position
     * @return true if it counts to what is above the limit
     */
    public boolean isAbove(Conformation conformation, Conformation limit) {
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(limit, "limit");
        return isAbove(conformation.position(), limit.position(), limit.width());
    }

    /**
     * Whether a fat class lies below a limit, all of it.
     *
     * @param fatClass fat class, judged by its position
     * @param limit part of the scale; one without width holds its own position
     * @return true if it counts to what is below the limit
     */
    public boolean isBelow(FatClass fatClass, FatClass limit) {
        Objects.requireNonNull(fatClass, "fatClass");
        Objects.requireNonNull(limit, "limit");
        return isBelow(fatClass.position(), limit.position(), limit.width());
    }

    /**
     * Whether a fat class lies above a limit, all of it.
     *
     * @param fatClass fat class, judged by its position
     * @param limit part of the scale; one without width holds its own position
     * @return true if it counts to what is above the limit
     */
    public boolean isAbove(FatClass fatClass, FatClass limit) {
        Objects.requireNonNull(fatClass, "fatClass");
        Objects.requireNonNull(limit, "limit");
        return isAbove(fatClass.position(), limit.position(), limit.width());
    }

    private boolean isBelow(double position, double middle, double width) {
        double edge = middle - width / 2;
        return position < edge || (position == edge && width > 0 && this == LOWER);
    }

    private boolean isAbove(double position, double middle, double width) {
        double edge = middle + width / 2;
        return position > edge || (position == edge && width > 0 && this == UPPER);
    }

    /**
     * What the rule does with limits, in words.
     *
     * @param conformations limits of conformation
     * @param fatClasses limits of fat class
     * @return such as {@code 4= and 4 count as 4L}, each once; nothing where no class or third stands on an edge
     */
    public List<String> words(Collection<Conformation> conformations, Collection<FatClass> fatClasses) {
        Checks.noNullIn(conformations, "conformations");
        Checks.noNullIn(fatClasses, "fatClasses");
        return Stream.concat(
                        conformations.stream()
                                .filter(limit -> isHalf(limit.width()))
                                .map(Conformation::classLetter)
                                .map(letter -> words(letter, "-" + letter, letter + "+")),
                        fatClasses.stream()
                                .filter(limit -> isHalf(limit.width()))
                                .map(limit -> Integer.toString(limit.classNumber()))
                                .map(digit -> words(digit, digit + "L", digit + "H")))
                .distinct()
                .toList();
    }

    private static boolean isHalf(double width) {
        return width == GradeScale.Part.LOWER_HALF.width();
    }

    private String words(String whole, String lower, String upper) {
        return whole + "= and " + whole + " count as " + (this == LOWER ? lower : upper);
    }
}
