package org.beefyield.data.picture;

import java.util.List;
import java.util.Locale;

/**
 * Colours by day and, for readers who want dark pages, by night. Those of data are, by day, the set that people who see
 * colours differently tell apart, of M. Okabe and K. Ito, Color Universal Design: How to make figures and presentations that
 * are friendly to colorblind people (2002, as of 2008), https://jfly.uni-koeln.de/color/; by night some are lighter, so that
 * they stand out. Greys are for what is no data, shades for figures on both sides of zero.
 */
enum Ink {
    /** Black by day: outlines and what counts most. */
    STRONG(0x000000, 0xFFFFFF),
    ORANGE(0xE69F00, 0xFFB81C),
    SKY_BLUE(0x56B4E9, 0x6CC0EE),
    BLUISH_GREEN(0x009E73, 0x24AD82),
    YELLOW(0xF0E442, 0xF0E442),
    BLUE(0x0072B2, 0x2F7FC1),
    VERMILLION(0xD55E00, 0xF0803C),
    REDDISH_PURPLE(0xCC79A7, 0xD98CB8),
    TEXT(0x333333, 0xD6D9DE),
    GRID(0xD9D9D9, 0x3E434B),
    GROUND(0xFFFFFF, 0x16181D),
    MORE_1(1),
    MORE_2(2),
    MORE_3(3),
    MORE_4(4),
    MORE_5(5),
    LESS_1(-1),
    LESS_2(-2),
    LESS_3(-3),
    LESS_4(-4),
    LESS_5(-5);

    /** Shades to either side of zero. */
    static final int SHADES = 5;

    private static final List<Ink> MORE = List.of(MORE_1, MORE_2, MORE_3, MORE_4, MORE_5);
    private static final List<Ink> LESS = List.of(LESS_1, LESS_2, LESS_3, LESS_4, LESS_5);

    private static final double LINEAR_BELOW = 0.04045;
    /** Of the colour in the darkest shade by day: black figures stay easy to read on it. */
    private static final double DARKEST_SHARE = 0.75;
    /** Of the colour in the lightest shade by night: white figures stay easy to read on it. */
    private static final double LIGHTEST_SHARE_MORE = 0.8;

    private static final double LIGHTEST_SHARE_LESS = 0.5;

    private final int rgb;
    private final int darkRgb;

    Ink(int rgb, int darkRgb) {
        this.rgb = rgb;
        this.darkRgb = darkRgb;
    }

    Ink(int step) {
        int colour = step > 0 ? 0x0072B2 : 0xE69F00;
        double part = Math.abs(step) / 5.0;
        this.rgb = mixed(0xFFFFFF, colour, DARKEST_SHARE * part);
        this.darkRgb = mixed(0x16181D, colour, (step > 0 ? LIGHTEST_SHARE_MORE : LIGHTEST_SHARE_LESS) * part);
    }

    /** By day. */
    int rgb() {
        return rgb;
    }

    /** By night. */
    int darkRgb() {
        return darkRgb;
    }

    /** Its name in style sheets. */
    String css() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Relative luminance of sRGB as in the Web Content Accessibility Guidelines 2.1, 0 black to 1 white. */
    static double luminance(int rgb) {
        return 0.2126 * linear(rgb >> 16 & 0xFF) + 0.7152 * linear(rgb >> 8 & 0xFF) + 0.0722 * linear(rgb & 0xFF);
    }

    private static double linear(int channel) {
        double value = channel / 255.0;
        return value <= LINEAR_BELOW ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }

    /** Contrast ratio of the same guidelines, 1 to 21. */
    static double contrast(int a, int b) {
        double light = Math.max(luminance(a), luminance(b));
        double dark = Math.min(luminance(a), luminance(b));
        return (light + 0.05) / (dark + 0.05);
    }

    /** From the ground at 0 towards blue at 1 and towards orange at -1, in steps; what isn't 0 has a colour. */
    static Ink shade(double part) {
        int step = (int) Math.ceil(SHADES * Math.min(1, Math.abs(part)) - 1e-9);
        return step == 0 ? GROUND : (part > 0 ? MORE : LESS).get(step - 1);
    }

    private static int mixed(int ground, int colour, double share) {
        int mixed = 0;
        for (int shift = 16; shift >= 0; shift -= 8) {
            double from = ground >> shift & 0xFF;
            double to = colour >> shift & 0xFF;
            mixed |= (int) Math.round(from + share * (to - from)) << shift;
        }
        return mixed;
    }
}
