package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Kinds of letters and the room they need. An SVG can't know a reader's font, so letters are taken to be as wide as in the
 * widest of the usual sans-serif fonts.
 */
enum Letters {
    TEXT(13, false),
    BOLD(13, true),
    TITLE(16, true);

    private static final double BOLD_BY = 1.15;
    private static final String THIN = " ',.ijl";
    private static final String NARROW = "!()-/:;IJ[\\]frt|";
    private static final String ROUND = "csz";
    private static final String WIDE =
            "%@MWmw\u00A9\u00AE\u00BC\u00BD\u00BE\u00C6\u00E6\u0126\u0127\u0149\u0152\u0153\u0174\u0175";
    private static final String SIGNS = "#&+<=>^~\u00AC\u00B1\u00D7\u00F7";
    /** Of the letters with accents that languages of western and central Europe use. */
    private static final int LATIN_END = 0x180;

    private final int sizePx;
    private final boolean isBold;

    Letters(int sizePx, boolean isBold) {
        this.sizePx = sizePx;
        this.isBold = isBold;
    }

    int sizePx() {
        return sizePx;
    }

    boolean isBold() {
        return isBold;
    }

    /** The most that a text is wide. */
    int widthPx(String text) {
        return (int) Math.ceil(text.codePoints().mapToDouble(this::px).sum());
    }

    private double px(int letter) {
        return em(letter) * sizePx * (isBold ? BOLD_BY : 1);
    }

    private static double em(int letter) {
        if (THIN.indexOf(letter) >= 0) {
            return 0.37;
        }
        if (NARROW.indexOf(letter) >= 0) {
            return 0.46;
        }
        if (ROUND.indexOf(letter) >= 0) {
            return 0.56;
        }
        if (WIDE.indexOf(letter) >= 0) {
            return 1.08;
        }
        if (SIGNS.indexOf(letter) >= 0) {
            return 0.84;
        }
        if (letter < LATIN_END) {
            return Character.isUpperCase(letter) ? 0.84 : 0.64;
        }
        return Character.isLowerCase(letter) ? 0.97 : 1.25;
    }

    /** Lines that fit a width; a word too long for a line is cut. */
    List<String> wrap(String text, int widthPx) {
        List<String> wrapped = new ArrayList<>();
        String line = "";
        for (String word : Svg.plain(text).strip().split(" ", -1)) {
            String longer = line.isEmpty() ? word : line + " " + word;
            if (widthPx(longer) > widthPx && !line.isEmpty()) {
                wrapped.add(line);
                longer = word;
            }
            for (int cut = cut(longer, widthPx); cut < longer.length(); cut = cut(longer, widthPx)) {
                wrapped.add(longer.substring(0, cut));
                longer = longer.substring(cut);
            }
            line = longer;
        }
        wrapped.add(line);
        return Collections.unmodifiableList(wrapped);
    }

    /** How much of a word fits, at least its first letter. */
    private int cut(String word, int widthPx) {
        int at = 0;
        for (double px = 0; at < word.length(); at += Character.charCount(word.codePointAt(at))) {
            px += px(word.codePointAt(at));
            if (px > widthPx && at > 0) {
                return at;
            }
        }
        return at;
    }
}
