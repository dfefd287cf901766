package org.beefyield.text;

/** Small figures in whole units of their last decimal, without an object for each step. */
final class Units {
    /** Most decimals that are rounded so. */
    private static final int MOST_DECIMALS = 6;

    /** Below it a double has more than six digits behind the last unit: its own rounding stays far below a hundred-thousandth. */
    private static final double MOST_UNITS = 1e9;

    private static final int LONGEST_TEXT = 16;

    private Units() {}

    static double power(int decimals) {
        return switch (decimals) {
            case 0 -> 1;
            case 1 -> 1e1;
            case 2 -> 1e2;
            case 3 -> 1e3;
            case 4 -> 1e4;
            case 5 -> 1e5;
            default -> 1e6;
        };
    }

    /** Whether a figure, its sign set aside, is small enough for the methods below. */
    static boolean isShort(double value, int decimals) {
        return decimals <= MOST_DECIMALS && value >= 0 && value * power(decimals) < MOST_UNITS;
    }

    /**
     * Whole units of the shortest decimal that reads back as the value. The nearest double to n units is that of the
     * decimal with n units, and reading decimals never turns their order round, so comparing doubles decides.
     */
    static long floor(double value, int decimals) {
        long units = (long) (value * power(decimals));
        if (value < units / power(decimals)) {
            return units - 1;
        }
        return value >= (units + 1) / power(decimals) ? units + 1 : units;
    }

    /** Half up. */
    static long rounded(double value, int decimals) {
        long units = floor(value, decimals);
        return value >= (units + 0.5) / power(decimals) ? units + 1 : units;
    }

    /** Room for one figure and a character before it. */
    static char[] room() {
        return new char[LONGEST_TEXT];
    }

    static String text(long units, int decimals) {
        char[] characters = room();
        int at = write(units, decimals, characters);
        return new String(characters, at, characters.length - at);
    }

    /** Writes a figure to the end of an array and says where it begins. */
    static int write(long units, int decimals, char[] to) {
        int at = to.length;
        long left = Math.abs(units);
        for (int written = 0; written <= decimals || left > 0; written++) {
            if (written == decimals && decimals > 0) {
                to[--at] = '.';
            }
            to[--at] = (char) ('0' + left % 10);
            left /= 10;
        }
        if (units < 0) {
            to[--at] = '-';
        }
        return at;
    }
}
