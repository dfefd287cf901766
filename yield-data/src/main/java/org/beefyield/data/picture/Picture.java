package org.beefyield.data.picture;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.regex.Pattern;

/**
 * A picture and the words that say the same. {@link #toSvg()} is an SVG element to put into a page as it is: it needs no
 * style sheet, font or script, keeps its size on a wide page, and becomes narrower on a narrow one. On the screen of a reader
 * who prefers dark pages it is dark, by custom properties within the element; on paper and in programs without style sheets
 * it is as by day. Its text is text. Equal results give equal pictures, byte for byte. Immutable.
 */
public final class Picture {
    private static final Pattern PREFIX = Pattern.compile("[A-Za-z][A-Za-z0-9_-]*+");
    private static final int DIGEST_BYTES = 5;

    private final String title;
    private final String description;
    private final int widthPx;
    private final int heightPx;
    private final Svg drawing;

    Picture(String title, String description, int widthPx, int heightPx, Svg drawing) {
        this.title = title;
        this.description = description;
        this.widthPx = widthPx;
        this.heightPx = heightPx;
        this.drawing = drawing;
    }

    /**
     * What it shows.
     *
     * @return a line without markup
     */
    public String title() {
        return title;
    }

    /**
     * Its text alternative: the title and, in sentences, the figures that it shows, with their units.
     *
     * @return text without markup
     */
    public String altText() {
        return title + ". " + description;
    }

    /**
     * Width at full size.
     *
     * @return CSS pixels
     */
    public int widthPx() {
        return widthPx;
    }

    /**
     * Height at full size.
     *
     * @return CSS pixels
     */
    public int heightPx() {
        return heightPx;
    }

    /**
     * The picture as an SVG element. Its ids come from what it shows, so different pictures on a page don't disturb each
     * other; for the same one twice on a page use {@link #toSvg(String)}.
     *
     * @return the element, in the SVG namespace, with its title and description for screen readers
     */
    public String toSvg() {
        return toSvg("picture-" + digest());
    }

    /**
     * The picture as an SVG element whose ids begin with a prefix.
     *
     * @param idPrefix a letter, then letters, digits, {@code _ -}; no other picture on the page has it
     * @return the element
     * @throws IllegalArgumentException if the prefix has other characters
     */
    public String toSvg(String idPrefix) {
        if (!PREFIX.matcher(idPrefix).matches()) {
            throw new IllegalArgumentException(
                    "id prefix \"" + idPrefix + "\" is not a letter and then letters, digits, _ or -");
        }
        Svg svg = new Svg();
        svg.start("title").with("id", idPrefix + "-title").end("title", title);
        svg.start("desc").with("id", idPrefix + "-desc").end("desc", description);
        svg.start("style").end("style", drawing.style(idPrefix));
        return new Svg()
                .start("svg")
                .with("xmlns", "http://www.w3.org/2000/svg")
                .with("id", idPrefix)
                .with("role", "img")
                .with("aria-labelledby", idPrefix + "-title " + idPrefix + "-desc")
                .with("viewBox", "0 0 " + widthPx + " " + heightPx)
                .with("width", widthPx)
                .with("height", heightPx)
                .with("style", "max-width:100%;height:auto")
                .with("font-family", "sans-serif")
                .around("svg", svg.toString() + drawing);
    }

    private String digest() {
        try {
            byte[] digest =
                    MessageDigest.getInstance("SHA-256").digest((altText() + drawing).getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest, 0, DIGEST_BYTES);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Picture that
                && title.equals(that.title)
                && description.equals(that.description)
                && widthPx == that.widthPx
                && heightPx == that.heightPx
                && drawing.toString().equals(that.drawing.toString());
    }

    @Override
    public int hashCode() {
        return 31 * title.hashCode() + drawing.toString().hashCode();
    }

    /**
     * One line.
     *
     * @return title and size
     */
    @Override
    public String toString() {
        return title + " (" + widthPx + " by " + heightPx + " pixels)";
    }
}
