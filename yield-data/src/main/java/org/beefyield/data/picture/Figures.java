package org.beefyield.data.picture;

import java.util.regex.Pattern;
import org.beefyield.text.Numbers;

/** Figures as pictures print them: a comma after each thousand, zero without a sign. */
final class Figures {
    private static final Pattern ZERO = Pattern.compile("[+-](0(\\.0+)?)");
    private static final int DIGITS = 3;
    private static final int MOST_DECIMALS = 4;

    private Figures() {}

    /** A printed number with its thousands apart. */
    static String grouped(String number) {
        return Numbers.grouped(number);
    }

    static String fixed(double value, int decimals) {
        return withoutSignOfZero(grouped(Numbers.fixed(value, decimals)));
    }

    static String signed(double value, int decimals) {
        return withoutSignOfZero(grouped(Numbers.signed(value, decimals)));
    }

    /** Without needless decimals. */
    static String upTo(double value, int decimals) {
        return withoutSignOfZero(grouped(Numbers.upTo(value, decimals)));
    }

    /** By its own size: three digits, of large ones all whole ones. */
    static String digits(double value) {
        return withoutSignOfZero(grouped(
                Math.abs(value) >= Math.pow(10, DIGITS) ? Numbers.fixed(value, 0) : Numbers.digits(value, DIGITS)));
    }

    /** Decimals with which figures of a size show three digits, at most four. */
    static int decimals(double size) {
        return size > 0 && Double.isFinite(size)
                ? (int) Math.max(0, Math.min(MOST_DECIMALS, DIGITS - 1 - Math.floor(Math.log10(size))))
                : 0;
    }

    private static String withoutSignOfZero(String figure) {
        return ZERO.matcher(figure).matches() ? figure.substring(1) : figure;
    }

    /** A number of things. */
    static String count(long number, String one, String many) {
        return grouped(Long.toString(number)) + " " + (number == 1 ? one : many);
    }
}
