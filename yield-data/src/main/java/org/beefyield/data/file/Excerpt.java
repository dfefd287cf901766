package org.beefyield.data.file;

/** Texts of a file as messages show them. */
public final class Excerpt {
    private static final int SHOWN = 80;

    private Excerpt() {}

    /**
     * The text in double quotes, its end cut off where it is long.
     *
     * @param text the text
     * @return at most 80 characters of it, quotes and dots apart
     */
    public static String quote(String text) {
        return '"' + clip(text, SHOWN) + '"';
    }

    /**
     * The beginning of the text, cut between characters, with three dots where something is missing.
     *
     * @param text the text
     * @param length most characters of it
     * @return the text itself if it is no longer
     */
    public static String clip(String text, int length) {
        if (text.length() <= length) {
            return text;
        }
        int end = Character.isHighSurrogate(text.charAt(length - 1)) ? length - 1 : length;
        return text.substring(0, end) + "...";
    }
}
