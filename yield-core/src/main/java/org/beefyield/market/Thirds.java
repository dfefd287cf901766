package org.beefyield.market;

import org.beefyield.text.Numbers;

/** How far one grade is from another in the words of the trade. */
final class Thirds {
    private static final int IN_A_CLASS = 3;
    private static final double HALF_A_CLASS = 1.5;

    private Thirds() {}

    /** Thirds of a class in words, such as {@code one third}, {@code half a class}, {@code two classes and a third}. */
    static String words(double thirds) {
        long classes = (long) Math.floor(thirds / IN_A_CLASS);
        double rest = thirds - IN_A_CLASS * classes;
        if (classes == 0) {
            return rest == 1 ? "one third" : rest == HALF_A_CLASS ? "half a class" : rest(rest);
        }
        String whole = classes == 1 ? "one class" : (classes == 2 ? "two" : Long.toString(classes)) + " classes";
        return rest == 0
                ? whole
                : whole + " and " + (rest == 1 ? "a third" : rest == HALF_A_CLASS ? "a half" : rest(rest));
    }

    private static String rest(double thirds) {
        if (thirds == 0.5) {
            return "half a third";
        }
        return thirds == 2 ? "two thirds" : thirds == 2.5 ? "two and a half thirds" : Numbers.brief(thirds) + " thirds";
    }
}
