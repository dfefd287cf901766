package org.beefyield.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Numbers as text, the one way in which each of them is written: with a decimal point, without grouping and but
 * for one form without exponent, zero without a sign but where a sign is asked for. A number that is not finite is written as Java names it.
 * Figures that must add up are {@link Rounding}'s.
 */
public final class Numbers {
    private static final int PERCENT_DECIMALS = 2;
    private static final int SAID_DECIMALS = 3;
    private static final double SMALL = 0.001;

    private static final Pattern WHOLE = Pattern.compile("(?<=^|^[+-])[0-9]{4,}(?=$|\\.)");
    private static final Pattern THOUSAND = Pattern.compile("(?<=[0-9])(?=([0-9]{3})+$)");

    private Numbers() {}

    /**
     * A number of things.
     *
     * @param count how many there are
     * @param one what one of them is called
     * @param many what several are called, and none
     * @return such as {@code 1 box}, {@code 12 boxes}
     */
    public static String counted(long count, String one, String many) {
        Objects.requireNonNull(one, "one");
        Objects.requireNonNull(many, "many");
        return count + " " + (count == 1 ? one : many);
    }

    /**
     * A printed number with its thousands apart, as people read it.
     *
     * @param number a number as text
     * @return such as {@code 419,036.50}; anything else, and a number with an exponent, as it is
     */
    public static String grouped(String number) {
        Objects.requireNonNull(number, "number");
        Matcher whole = WHOLE.matcher(number);
        return whole.find() && !number.contains("E")
                ? number.substring(0, whole.start())
                        + THOUSAND.matcher(whole.group()).replaceAll(",")
                        + number.substring(whole.end())
                : number;
    }

    /**
     * With fixed decimals, half up.
     *
     * @param value value
     * @param decimals decimals to print, 0 or more
     * @return such as {@code 0.50}
     * @throws IllegalArgumentException if the decimals are below 0
     */
    public static String fixed(double value, int decimals) {
        checkDecimals(decimals);
        double size = Math.abs(value);
        if (Units.isShort(size, decimals)) {
            long units = Units.rounded(size, decimals);
            return Units.text(value < 0 ? -units : units, decimals);
        }
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
        return rounded.toPlainString();
    }

    static void checkDecimals(int decimals) {
        if (decimals < 0) {
            throw new IllegalArgumentException(decimals + " decimals can't be printed; 0 or more can");
        }
    }

    /**
     * With fixed decimals, half up, and always a sign.
     *
     * @param value a finite value
     * @param decimals decimals to print, 0 or more
     * @return such as {@code +0.50}; what is below 0 has a minus even if it rounds to 0
     */
    public static String signed(double value, int decimals) {
        return (value < 0 ? "-" : "+") + fixed(Math.abs(value), decimals);
    }

    /**
     * With three decimals, half up; what is so small that they would hardly show, with three significant digits and, below
     * 0.0001, in powers of ten.
     *
     * @param value a finite value
     * @return such as {@code 0.250} or {@code 4.10e-05}
     */
    public static String visible(double value) {
        return String.format(Locale.ROOT, Math.abs(value) < SMALL ? "%.3g" : "%.3f", value);
    }

    /**
     * All decimals: the shortest text that reads back to the same double.
     *
     * @param value value
     * @return such as {@code 0.25}
     */
    public static String exact(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        return value == 0 ? "0" : exact(BigDecimal.valueOf(value));
    }

    /**
     * All decimals but zeros at the end.
     *
     * @param value value
     * @return such as {@code 0.25}
     */
    public static String exact(BigDecimal value) {
        Objects.requireNonNull(value, "value");
        return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
    }

    /**
     * Rounded half up, without zeros at the end.
     *
     * @param value value
     * @param decimals most decimals to print, 0 or more
     * @return such as {@code 0.5}
     */
    public static String upTo(double value, int decimals) {
        return Double.isFinite(value)
                ? exact(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP))
                : Double.toString(value);
    }

    /**
     * As a sentence says it: three decimals at most, and none at the end that is zero.
     *
     * @param value value
     * @return such as {@code 342.5}
     */
    public static String brief(double value) {
        return upTo(value, SAID_DECIMALS);
    }

    /**
     * Rounded half up to significant digits, without zeros at the end.
     *
     * @param value value
     * @param digits most significant digits to print, 1 or more
     * @return such as {@code 0.0041}
     */
    public static String digits(double value, int digits) {
        return Double.isFinite(value)
                ? exact(BigDecimal.valueOf(value).round(new MathContext(digits)))
                : Double.toString(value);
    }

    /**
     * A fraction as per cent with all its decimals.
     *
     * @param fraction fraction of 1
     * @return such as {@code 12.5} for 0.125, without the sign of per cent
     */
    public static String percent(double fraction) {
        return Double.isFinite(fraction)
                ? exact(BigDecimal.valueOf(fraction).movePointRight(PERCENT_DECIMALS))
                : Double.toString(fraction);
    }

    /**
     * A fraction as per cent with fixed decimals, half up.
     *
     * @param fraction fraction of 1, finite
     * @param decimals decimals to print, 0 or more
     * @return such as {@code 12.5} for 0.1253, without the sign of per cent
     */
    public static String percent(double fraction, int decimals) {
        return fixed(100 * fraction, decimals);
    }

    /**
     * Where something stands, in brackets behind a message, with runs of more than two drawn together.
     *
     * @param word what is numbered, such as row or line
     * @param numbers ascending numbers
     * @return such as {@code  (row 9)} or {@code  (lines 2 to 5, 8, 9)} with a blank before it, empty for no number
     */
    public static String places(String word, List<Long> numbers) {
        Objects.requireNonNull(word, "word");
        Objects.requireNonNull(numbers, "numbers");
        long[] all = numbers.stream()
                .mapToLong(number -> Objects.requireNonNull(number, "numbers"))
                .toArray();
        List<String> runs = new ArrayList<>();
        int i = 0;
        while (i < all.length) {
            int last = i;
            while (last + 1 < all.length && all[last + 1] == all[last] + 1) {
                last++;
            }
            if (last > i + 1) {
                runs.add(all[i] + " to " + all[last]);
                i = last + 1;
            } else {
                runs.add(Long.toString(all[i]));
                i++;
            }
        }
        return runs.isEmpty() ? "" : " (" + word + (all.length == 1 ? " " : "s ") + String.join(", ", runs) + ")";
    }
}
