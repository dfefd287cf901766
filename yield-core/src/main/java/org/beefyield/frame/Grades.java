package org.beefyield.frame;

import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The order of grades as they print: conformation from S to P, fat from 1 to 5, each in thirds, halves or points. */
final class Grades {
    private static final String POOREST_FIRST = "PORUES";
    private static final Pattern CONFORMATION =
            Pattern.compile("(?<low>-)?(?<letter>[SEUROP])(?<part>[-=+])?(?: half)?");
    private static final Pattern FAT = Pattern.compile("(?<number>[1-5])(?<part>[-=+LH])?");
    private static final Pattern POINTS = Pattern.compile("(?<points>[0-9]+(?:\\.[0-9]+)?)p(?: width .*)?");
    private static final double CLASS = 3;
    private static final double MIDDLE = 2;
    private static final double THIRD = 1;
    private static final double HALF = 0.75;
    /** Behind all grades. */
    private static final double NO_GRADE = Double.POSITIVE_INFINITY;

    private Grades() {}

    /** Best first; whole classes such as R 3 then from lean to fat. */
    static int compareConformation(String one, String other) {
        return Comparator.comparingDouble(Grades::poorness)
                .thenComparing(Grades::behindBlank, Grades::compareFat)
                .compare(one, other);
    }

    /** Leanest first. */
    static int compareFat(String one, String other) {
        return Comparator.comparingDouble(Grades::fatness)
                .thenComparing(Comparator.naturalOrder())
                .compare(one, other);
    }

    private static String behindBlank(String text) {
        return isClass(text) ? text.substring(2) : text;
    }

    /** A class of conformation and one of fat. */
    private static boolean isClass(String text) {
        return text.length() > 2
                && text.charAt(1) == ' '
                && FAT.matcher(text.substring(2)).matches();
    }

    private static double poorness(String text) {
        Matcher points = POINTS.matcher(text);
        if (points.matches()) {
            return -Double.parseDouble(points.group("points"));
        }
        Matcher grade = CONFORMATION.matcher(isClass(text) ? text.substring(0, 1) : text);
        if (!grade.matches()) {
            return NO_GRADE;
        }
        boolean half = text.endsWith(" half");
        String part = grade.group("low") == null ? grade.group("part") : "-";
        return -(MIDDLE + CLASS * POOREST_FIRST.indexOf(grade.group("letter")) + sign(part) * (half ? HALF : THIRD));
    }

    private static double fatness(String text) {
        Matcher points = POINTS.matcher(text);
        if (points.matches()) {
            return Double.parseDouble(points.group("points"));
        }
        Matcher grade = FAT.matcher(text);
        if (!grade.matches()) {
            return NO_GRADE;
        }
        String part = grade.group("part");
        boolean half = "L".equals(part) || "H".equals(part);
        return MIDDLE
                + CLASS * (Integer.parseInt(grade.group("number")) - 1)
                + ("L".equals(part) ? -HALF : half ? HALF : sign(part));
    }

    private static int sign(String part) {
        return "+".equals(part) ? 1 : "-".equals(part) ? -1 : 0;
    }
}
