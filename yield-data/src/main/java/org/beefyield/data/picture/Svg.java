package org.beefyield.data.picture;

import java.util.HexFormat;
import java.util.regex.Pattern;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/**
 * SVG elements as they are written, one behind the other. Whatever a text holds, what comes out can be parsed; figures have
 * no exponent and the same digits under every locale.
 */
final class Svg {
    /** Hundredths of a pixel. */
    private static final int DECIMALS = 2;

    private static final Pattern NEEDLESS = Pattern.compile("\\.?0+$");
    /** Blanks, and what XML forbids. */
    private static final Pattern BLANKS = Pattern.compile("[\\s\\p{Cntrl}\\p{Cs}\\uFFFE\\uFFFF]+");

    private final StringBuilder out = new StringBuilder();

    /** A text on one line, of characters that XML allows. */
    static String plain(String text) {
        return BLANKS.matcher(text).replaceAll(" ");
    }

    static String number(double px) {
        if (!Double.isFinite(px)) {
            throw new IllegalArgumentException("nothing can be drawn at " + px + ", only at a finite number of pixels");
        }
        return NEEDLESS.matcher(Numbers.fixed(px, DECIMALS)).replaceFirst("");
    }

    static String point(double px, double py) {
        return number(px) + "," + number(py);
    }

    static String colour(int rgb) {
        return "#" + HexFormat.of().withUpperCase().toHexDigits(rgb, 6);
    }

    /** Begins an element; its attributes follow, then its end. */
    Svg start(String element) {
        out.append('<').append(element);
        return this;
    }

    Svg with(String attribute, String value) {
        out.append(' ').append(attribute).append("=\"").append(escaped(value)).append('"');
        return this;
    }

    Svg with(String attribute, double px) {
        return with(attribute, number(px));
    }

    /** Ends an element that holds nothing. */
    void end() {
        out.append("/>\n");
    }

    /** Ends an element that holds a text. */
    void end(String element, String text) {
        out.append('>').append(escaped(text)).append("</").append(element).append(">\n");
    }

    /** Ends the outermost element, which holds others, and gives it whole. */
    String around(String element, String elements) {
        return out.append(">\n")
                .append(elements)
                .append("</")
                .append(element)
                .append(">\n")
                .toString();
    }

    private static String escaped(String text) {
        return TextTable.escape(plain(text));
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
