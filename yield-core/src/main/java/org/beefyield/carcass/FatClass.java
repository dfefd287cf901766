package org.beefyield.carcass;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.beefyield.carcass.GradeScale.Part;
import org.jspecify.annotations.Nullable;

/**
 * Fat class of a carcass: 1 low, 2 slight, 3 average, 4 high, 5 very high (Regulation (EU) No 1308/2013, Annex IV),
 * whole, split into thirds, or, 4 and 5, into a low and a high half.
 *
 * <p>Its {@link #position()} stands on the 15-point scale 1- = 1, 1= = 2, 1+ = 3 ... 5+ = 15, where 4L is 10.25 and 4H
 * 11.75; its {@link #width()} is how much of that scale the class covers. Immutable.
 *
 * <p>Two are equal if they cover the same part of the scale: {@code 3=} and the position 8 with a width of 1 are. The order is
 * that of positions, and of widths where these are the same. {@link #parse(String)} of {@link #toString()} gives an equal
 * object, whatever it came from; to keep a fat class in a database, keep that text.
 *
 * @serial exclude
 */
public final class FatClass implements Comparable<FatClass>, Serializable {
    private static final long serialVersionUID = 1;
    private static final String POSITIONS =
            "; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition";
    private static final Pattern NUMBER = Pattern.compile("[0-9]+");
    private static final Pattern DECIMAL = Pattern.compile("[0-9]+[.,][0-9]+");

    private final double position;
    private final double width;
    /** As it was given; equal classes may print differently, as 3= and 8p. */
    private final String label;

    private FatClass(double position, double width, String label) {
        this.position = position;
        this.width = width;
        this.label = label;
    }

    /**
     * Reads a fat class: {@code 3}, {@code 3+}, {@code 3 =}, {@code 4L}, {@code 4h}; and whatever {@link #toString()}
     * prints, so also {@code 7.4p} and {@code 7.4p width 0.2}.
     *
     * @param text the class as it stands on the sheet, or as it was printed
     * @return the fat class
     * @throws IllegalArgumentException if the text is no such class
     */
    public static FatClass parse(String text) {
        String grade = GradeScale.normalise(text);
        FatClass position = GradeScale.parsePosition(grade, text, FatClass::ofPosition);
        if (position != null) {
            return position;
        }
        String digit = grade.isEmpty() ? "" : grade.substring(0, 1);
        int classNumber = GradeScale.FAT.classNumber(digit);
        Part part = classNumber == 0 ? null : part(classNumber, grade.substring(1));
        if (part != null) {
            return new FatClass(GradeScale.position(classNumber, part), part.width(), grade);
        }
        if (DECIMAL.matcher(grade).matches()) {
            throw new IllegalArgumentException("fat class " + text.strip() + " is no class of 1 to 5" + POSITIONS);
        }
        if (NUMBER.matcher(grade).matches()) {
            throw new IllegalArgumentException(
                    "fat class " + text.strip() + " is outside 1 to 5" + (grade.startsWith("0") ? "" : POSITIONS));
        }
        throw new IllegalArgumentException(
                "fat class \"" + text + "\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H");
    }

    private static @Nullable Part part(int classNumber, String suffix) {
        boolean halved = classNumber >= 4;
        return switch (suffix) {
            case "" -> Part.WHOLE;
            case "-" -> Part.LOWER_THIRD;
            case "=" -> Part.MIDDLE_THIRD;
            case "+" -> Part.UPPER_THIRD;
            case "L" -> halved ? Part.LOWER_HALF : null;
            case "H" -> halved ? Part.UPPER_HALF : null;
            default -> null;
        };
    }

    /**
     * A numeric position, such as a grading machine gives.
     *
     * @param position on the 15-point scale, 1 to 15
     * @param width part of the scale that the figure stands for, 0 to 3 points
     * @return the fat class, printed as {@code 7.4p} if the width is 1, and as {@code 7.4p width 0.2} if it is another
     * @throws IllegalArgumentException if either is outside its range or not a number
     */
    public static FatClass ofPosition(double position, double width) {
        GradeScale.FAT.checkPosition(position, width);
        // a width of -0 is one of 0
        return new FatClass(position, width + 0.0, GradeScale.label(position, width));
    }

    /**
     * Every third of the scale, in order of positions.
     *
     * @return 1- to 5+
     */
    public static List<FatClass> thirds() {
        return GradeScale.FAT.positions().mapToObj(FatClass::third).toList();
    }

    /**
     * The class at a whole position: 8 is {@code 3=}.
     *
     * @param position on the 15-point scale, a whole number from 1 to 15
     * @return the third of a class that has its middle there
     * @throws IllegalArgumentException if the position is outside the scale
     */
    public static FatClass third(int position) {
        GradeScale.FAT.checkPosition(position, 1);
        return new FatClass(position, 1, GradeScale.FAT.nodeLabel(position));
    }

    /**
     * The whole classes.
     *
     * @return 1 to 5, leanest first
     */
    public static List<FatClass> classes() {
        return Stream.of("1", "2", "3", "4", "5").map(FatClass::parse).toList();
    }

    /**
     * Position on the 15-point scale.
     *
     * @return the middle of the part of the class that is covered
     */
    public double position() {
        return position;
    }

    /**
     * Width of the part of the scale that is covered, in points.
     *
     * @return 3 for a whole class, 1.5 for a half, 1 for a third
     */
    public double width() {
        return width;
    }

    /**
     * Number of the whole class.
     *
     * @return 1 to 5
     */
    public int classNumber() {
        return GradeScale.FAT.classAt(position);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof FatClass that && position == that.position && width == that.width;
    }

    @Override
    public int hashCode() {
        return Objects.hash(position, width);
    }

    /**
     * Compares by position, then by width.
     *
     * @param other another fat class
     * @return below 0 for the leaner one, or the narrower one at the same position; 0 for an equal one
     */
    @Override
    public int compareTo(FatClass other) {
        Objects.requireNonNull(other, "other");
        int byPosition = Double.compare(position, other.position);
        return byPosition != 0 ? byPosition : Double.compare(width, other.width);
    }

    /**
     * The class in the form that {@link #parse(String)} reads back.
     *
     * @return such as {@code 3=}, {@code 4H}, {@code 7.4p} or {@code 7.4p width 0.2}
     */
    @Override
    public String toString() {
        return label;
    }
}
