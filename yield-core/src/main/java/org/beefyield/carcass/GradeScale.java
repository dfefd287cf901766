package org.beefyield.carcass;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.BiFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What both grade scales share. Class k (counted from 1) covers 3k - 2.5 to 3k + 0.5 on the numeric scale; a third, a
 * half or the whole class sits at the middle of what it covers.
 */
final class GradeScale {
    static final GradeScale CONFORMATION = new GradeScale("conformation", List.of("P", "O", "R", "U", "E", "S"));
    static final GradeScale FAT = new GradeScale("fat", List.of("1", "2", "3", "4", "5"));

    private static final Pattern BLANKS = Pattern.compile("[\\s\u00a0]+");

    /** A numeric position as it prints, once it is normalised. */
    private static final Pattern POSITION = Pattern.compile("([0-9]+(?:\\.[0-9]+)?)P(?:WIDTH([0-9]+(?:\\.[0-9]+)?))?");

    /** The width of a position that prints without one, that of a third; kill sheets take their columns of positions so. */
    private static final double PLAIN_WIDTH = 1;

    /** The widest part there is: a whole class, in scale points. */
    static final double WHOLE_WIDTH = 3;

    /** A part of a class: where it begins above the class's lower edge and how far it reaches, in scale points. */
    enum Part {
        WHOLE(0, WHOLE_WIDTH),
        LOWER_THIRD(0, 1),
        MIDDLE_THIRD(1, 1),
        UPPER_THIRD(2, 1),
        LOWER_HALF(0, 1.5),
        UPPER_HALF(1.5, 1.5);

        private final double start;
        private final double width;

        Part(double start, double width) {
            this.start = start;
            this.width = width;
        }

        double width() {
            return width;
        }
    }

    private final String name;
    private final List<String> classes;

    private GradeScale(String name, List<String> classes) {
        this.name = name;
        this.classes = classes;
    }

    /** Number of the class from 1, or 0 if the scale has no such class. */
    int classNumber(String label) {
        return classes.indexOf(label) + 1;
    }

    String classLabel(int classNumber) {
        return classes.get(classNumber - 1);
    }

    int steps() {
        return 3 * classes.size();
    }

    /** The positions of the scale in order. */
    IntStream positions() {
        return IntStream.rangeClosed(1, steps());
    }

    static double position(int classNumber, Part part) {
        return 3 * classNumber - 2.5 + part.start + part.width / 2;
    }

    /** A numeric position as text. */
    static String label(double position, double width) {
        return Numbers.exact(position) + "p" + (width == PLAIN_WIDTH ? "" : " width " + Numbers.exact(width));
    }

    /** The grade of a numeric position as it prints, or null if the text is none. */
    static <G> @Nullable G parsePosition(String grade, String text, BiFunction<Double, Double, G> ofPosition) {
        Matcher written = POSITION.matcher(grade);
        if (!written.matches()) {
            return null;
        }
        double position = Double.parseDouble(written.group(1));
        double width = written.group(2) == null ? PLAIN_WIDTH : Double.parseDouble(written.group(2));
        try {
            return ofPosition.apply(position, width);
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException("\"" + text + "\": " + e.getMessage(), e);
        }
    }

    int classAt(double position) {
        return (int) Math.floor((position + 2.5) / 3);
    }

    void checkPosition(double position, double width) {
        if (!(position >= 1 && position <= steps())) {
            throw new IllegalArgumentException(
                    name + " position " + Numbers.exact(position) + " is outside 1 to " + steps() + " points");
        }
        if (!(width >= 0 && width <= WHOLE_WIDTH)) {
            throw new IllegalArgumentException(name + " width " + Numbers.exact(width) + " is outside 0 to "
                    + Numbers.exact(WHOLE_WIDTH) + " points");
        }
    }

    /** The node of a grid as the third it is the middle of, such as {@code E+} or {@code 1-}. */
    String nodeLabel(int node) {
        return classLabel((node + 2) / 3) + "+-=".charAt(node % 3);
    }

    static String normalise(String text) {
        Objects.requireNonNull(text, "text");
        if (isPlain(text)) {
            return text;
        }
        // word processors put other dashes in the place of the minus sign, spreadsheets blanks that don't break
        return BLANKS.matcher(text)
                .replaceAll("")
                .replace('\u2212', '-')
                .replace('\u2013', '-')
                .replace('\u2011', '-')
                .toUpperCase(Locale.ROOT);
    }

    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (!((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '=')) {
                return false;
            }
        }
        return true;
    }
}
