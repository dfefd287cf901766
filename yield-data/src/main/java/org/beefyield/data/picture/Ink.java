package org.beefyield.data.picture;

/**
 * Colours that people who see colours differently tell apart: the set of M. Okabe and K. Ito, Color Universal Design: How
 * to make figures and presentations that are friendly to colorblind people (2002, as of 2008),
 * https://jfly.uni-koeln.de/color/. Greys are for what is no data.
 */
enum Ink {
    BLACK(0x000000),
    ORANGE(0xE69F00),
    SKY_BLUE(0x56B4E9),
    BLUISH_GREEN(0x009E73),
    YELLOW(0xF0E442),
    BLUE(0x0072B2),
    VERMILLION(0xD55E00),
    REDDISH_PURPLE(0xCC79A7),
    TEXT(0x333333),
    GRID(0xD9D9D9),
    WHITE(0xFFFFFF);

    private static final double LINEAR_BELOW = 0.04045;
    private static final double DARKEST_SHARE = 0.75;

    private final int rgb;

    Ink(int rgb) {
        this.rgb = rgb;
    }

    int rgb() {
        return rgb;
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

    /** From white towards blue, the darker the more, as far as black figures stay easy to read on it. */
    static int shade(double part) {
        double share = DARKEST_SHARE * Math.max(0, Math.min(1, part));
        int mixed = 0;
        for (int shift = 16; shift >= 0; shift -= 8) {
            double from = WHITE.rgb >> shift & 0xFF;
            double to = BLUE.rgb >> shift & 0xFF;
            mixed |= (int) Math.round(from + share * (to - from)) << shift;
        }
        return mixed;
    }
}
