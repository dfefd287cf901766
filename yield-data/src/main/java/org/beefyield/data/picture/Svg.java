package org.beefyield.data.picture;

import java.util.EnumSet;
import java.util.HexFormat;
import java.util.Set;
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
    private final Set<Ink> fills = EnumSet.noneOf(Ink.class);
    private final Set<Ink> strokes = EnumSet.noneOf(Ink.class);

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

    /**
     * Fills what has been begun. The colour stands there as it is by day, for programs without style sheets, and as a class,
     * which {@link #style} gives a colour by day and by night.
     */
    Svg fill(Ink ink) {
        fills.add(ink);
        return with("class", "f-" + ink.css()).with("fill", colour(ink.rgb()));
    }

    Svg stroke(Ink ink) {
        strokes.add(ink);
        return with("class", "s-" + ink.css()).with("stroke", colour(ink.rgb()));
    }

    Svg fillAndStroke(Ink fill, Ink stroke) {
        fills.add(fill);
        strokes.add(stroke);
        return with("class", "f-" + fill.css() + " s-" + stroke.css())
                .with("fill", colour(fill.rgb()))
                .with("stroke", colour(stroke.rgb()));
    }

    /** Adds all that another has, behind what is here. */
    Svg add(Svg other) {
        out.append(other.out);
        fills.addAll(other.fills);
        strokes.addAll(other.strokes);
        return this;
    }

    /** Colours of the classes within an element: custom properties by day, and others by night on a screen; print is as by day. */
    String style(String id) {
        Set<Ink> inks = EnumSet.copyOf(fills);
        inks.addAll(strokes);
        StringBuilder day = new StringBuilder();
        StringBuilder night = new StringBuilder();
        StringBuilder rules = new StringBuilder();
        for (Ink ink : inks) {
            day.append("--")
                    .append(ink.css())
                    .append(':')
                    .append(colour(ink.rgb()))
                    .append(';');
            night.append("--")
                    .append(ink.css())
                    .append(':')
                    .append(colour(ink.darkRgb()))
                    .append(';');
        }
        fills.forEach(ink -> rules.append(rule(id, "f-", "fill", ink)));
        strokes.forEach(ink -> rules.append(rule(id, "s-", "stroke", ink)));
        return "#" + id + "{" + day + "}@media screen and (prefers-color-scheme:dark){#" + id + "{" + night + "}}"
                + rules;
    }

    private static String rule(String id, String prefix, String property, Ink ink) {
        return "#" + id + " ." + prefix + ink.css() + "{" + property + ":var(--" + ink.css() + ")}";
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
