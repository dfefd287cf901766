package org.beefyield.carcass;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.beefyield.carcass.GradeScale.Part;

/**
 * Conformation of a carcass: S superior, E excellent, U very good, R good, O fair, P poor (Regulation (EU) No
 * 1308/2013, Annex IV), whole or split into thirds or halves.
 *
 * <p>Its {@link #position()} stands on the 18-point scale P- = 1, P= = 2, P+ = 3, O- = 4 ... E+ = 15, S- = 16, S= = 17,
 * S+ = 18; its {@link #width()} is how much of that scale the grade covers. Immutable.
 *
 * <p>Two are equal if they cover the same part of the scale: {@code R=} and the position 8 with a width of 1 are. The order is
 * that of positions, and of widths where these are the same. {@link #parse(String)} of {@link #toString()} gives an equal
 * object, whatever reading or position it came from; to keep a grade in a database, keep that text.
 *
 * @serial exclude
 */
public final class Conformation implements Comparable<Conformation>, Serializable {
    private static final long serialVersionUID = 1;
    private static final String HALF = "HALF";
    private static final Pattern NUMBER = Pattern.compile("[0-9][0-9.,]*");

    private final double position;
    private final double width;
    /** As it was given; equal grades may print differently, as R= and 8p. */
    private final String label;

    private Conformation(double position, double width, String label) {
        this.position = position;
        this.width = width;
        this.label = label;
    }

    /**
     * Reads a grade split into thirds, or whole: {@code R}, {@code R+}, {@code r =}, {@code R -}; and whatever
     * {@link #toString()} prints: {@code -U half}, {@code U+ half}, {@code 7.4p}, {@code 7.4p width 0.2}.
     *
     * @param text the grade as it stands on the sheet, or as it was printed
     * @return the conformation
     * @throws IllegalArgumentException if the text is no such grade
     */
    public static Conformation parse(String text) {
        return parse(text, GradeReading.THIRDS);
    }

    /**
     * Reads a grade under a declared reading. Under halves {@code U+} is the upper half of the class (11.75) and
     * {@code -U} the lower (10.25); under thirds {@code U+} is the upper third (12). {@code U+ half} and
     * {@code 7.4p}, as {@link #toString()} prints halves and positions, say themselves what they are and are read the same
     * under both.
     *
     * @param text the grade as it stands on the sheet
     * @param reading how the sheet splits its classes
     * @return the conformation
     * @throws IllegalArgumentException if the text is no grade under that reading
     */
    public static Conformation parse(String text, GradeReading reading) {
        Objects.requireNonNull(reading, "reading");
        String written = GradeScale.normalise(text);
        Conformation position = GradeScale.parsePosition(written, text, Conformation::ofPosition);
        if (position != null) {
            return position;
        }
        boolean halfIsNamed = written.endsWith(HALF);
        String grade = halfIsNamed ? written.substring(0, written.length() - HALF.length()) : written;
        boolean signInFront = grade.startsWith("-") || grade.startsWith("+") || grade.startsWith("=");
        String letter = grade.replace("-", "").replace("+", "").replace("=", "");
        int classNumber = GradeScale.CONFORMATION.classNumber(letter);
        if (classNumber == 0) {
            throw new IllegalArgumentException("conformation \"" + text + "\" is none of S E U R O P"
                    + (NUMBER.matcher(letter).matches()
                            ? "; a position on the 18-point scale belongs in conformation_points, in code in"
                                    + " Conformation.ofPosition"
                            : ""));
        }
        if (grade.length() > letter.length() + 1) {
            throw new IllegalArgumentException("conformation \"" + text + "\" has more than one sign");
        }
        if (halfIsNamed) {
            return half(text, classNumber, letter, grade);
        }
        if (grade.equals(letter)) {
            return of(classNumber, Part.WHOLE, letter);
        }
        return reading == GradeReading.HALVES
                ? half(text, classNumber, letter, grade)
                : third(text, classNumber, letter, grade, signInFront);
    }

    private static Conformation half(String text, int classNumber, String letter, String grade) {
        if (grade.equals("-" + letter)) {
            return of(classNumber, Part.LOWER_HALF, grade + " half");
        }
        if (grade.equals(letter + "+")) {
            return of(classNumber, Part.UPPER_HALF, grade + " half");
        }
        throw new IllegalArgumentException("conformation \"" + text + "\" is none of " + letter + "+ " + letter + " -"
                + letter + " under the halves reading");
    }

    private static Conformation third(String text, int classNumber, String letter, String grade, boolean signInFront) {
        if (signInFront) {
            throw new IllegalArgumentException("conformation \"" + text
                    + "\" has its sign in front, which only the halves reading allows; valid under thirds: " + letter
                    + "- " + letter + "= " + letter + "+");
        }
        return switch (grade.charAt(letter.length())) {
            case '-' -> of(classNumber, Part.LOWER_THIRD, grade);
            case '=' -> of(classNumber, Part.MIDDLE_THIRD, grade);
            default -> of(classNumber, Part.UPPER_THIRD, grade);
        };
    }

    private static Conformation of(int classNumber, Part part, String label) {
        return new Conformation(GradeScale.position(classNumber, part), part.width(), label);
    }

    /**
     * A numeric position, such as a grading machine gives.
     *
     * @param position on the 18-point scale, 1 to 18
     * @param width part of the scale that the figure stands for, 0 to 3 points
     * @return the conformation, printed as {@code 7.4p} if the width is 1, and as {@code 7.4p width 0.2} if it is another
     * @throws IllegalArgumentException if either is outside its range or not a number
     */
    public static Conformation ofPosition(double position, double width) {
        GradeScale.CONFORMATION.checkPosition(position, width);
        // a width of -0 is one of 0
        return new Conformation(position, width + 0.0, GradeScale.label(position, width));
    }

    /**
     * Every third of the scale, in order of positions.
     *
     * @return P- to S+
     */
    public static List<Conformation> thirds() {
        return GradeScale.CONFORMATION.positions().mapToObj(Conformation::third).toList();
    }

    /**
     * The grade at a whole position: 8 is {@code R=}.
     *
     * @param position on the 18-point scale, a whole number from 1 to 18
     * @return the third of a class that has its middle there
     * @throws IllegalArgumentException if the position is outside the scale
     */
    public static Conformation third(int position) {
        GradeScale.CONFORMATION.checkPosition(position, 1);
        return new Conformation(position, 1, GradeScale.CONFORMATION.nodeLabel(position));
    }

    /**
     * The whole classes.
     *
     * @return S E U R O P, best first
     */
    public static List<Conformation> classes() {
        return Stream.of("S", "E", "U", "R", "O", "P").map(Conformation::parse).toList();
    }

    /**
     * Position on the 18-point scale.
     *
     * @return the middle of the part of the class that the grade covers
     */
    public double position() {
        return position;
    }

    /**
     * Width of the part of the scale that the grade covers, in points.
     *
     * @return 3 for a whole class, 1.5 for a half, 1 for a third
     */
    public double width() {
        return width;
    }

    /**
     * Letter of the whole class.
     *
     * @return one of S E U R O P
     */
    public String classLetter() {
        return GradeScale.CONFORMATION.classLabel(GradeScale.CONFORMATION.classAt(position));
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Conformation that && position == that.position && width == that.width;
    }

    @Override
    public int hashCode() {
        return Objects.hash(position, width);
    }

    /**
     * Compares by position, then by width.
     *
     * @param other another conformation
     * @return below 0 for the poorer one, or the narrower one at the same position; 0 for an equal one
     */
    @Override
    public int compareTo(Conformation other) {
        Objects.requireNonNull(other, "other");
        int byPosition = Double.compare(position, other.position);
        return byPosition != 0 ? byPosition : Double.compare(width, other.width);
    }

    /**
     * The grade in the form that {@link #parse(String)} reads back. A half says so, since {@code U+} alone is a third.
     *
     * @return such as {@code R=}, {@code -U half}, {@code 7.4p} or {@code 7.4p width 0.2}
     */
    @Override
    public String toString() {
        return label;
    }
}
