package org.beefyield.data.picture;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.InputSource;

/** What stands where in a picture, read back from its SVG by an XML parser. Places are pixels of the picture. */
final class Drawn {
    /** A text. */
    record Text(double x, double y, String anchor, String words) {}

    /** A straight line, thick ones being bars. */
    record Line(double x1, double y1, double x2, double y2, double width, int rgb, boolean isDashed) {
        double left() {
            return Math.min(x1, x2);
        }

        double right() {
            return Math.max(x1, x2);
        }

        boolean isLevel() {
            return y1 == y2;
        }
    }

    /** A mark, by the middle of what it covers. */
    record Mark(double x, double y, int rgb) {}

    final Document document;
    final Element root;
    final List<Text> texts = new ArrayList<>();
    final List<Line> lines = new ArrayList<>();
    final List<Mark> marks = new ArrayList<>();

    private Drawn(Document document) {
        this.document = document;
        this.root = document.getDocumentElement();
        walk(root, 0, 0);
    }

    static Drawn of(String svg) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
        factory.setNamespaceAware(true);
        factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
        return new Drawn(factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg))));
    }

    static Drawn of(Picture picture) throws Exception {
        return of(picture.toSvg());
    }

    private void walk(Element parent, double left, double top) {
        for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
            if (node instanceof Element element) {
                double x = left;
                double y = top;
                String transform = element.getAttribute("transform");
                if (!transform.isEmpty()) {
                    List<Double> by = numbers(transform.substring("translate(".length(), transform.length() - 1));
                    x += by.get(0);
                    y += by.get(1);
                }
                read(element, x, y);
                walk(element, x, y);
            }
        }
    }

    private void read(Element element, double left, double top) {
        switch (element.getTagName()) {
            case "text" ->
                texts.add(new Text(
                        number(element, "x"),
                        number(element, "y"),
                        element.getAttribute("text-anchor"),
                        element.getTextContent()));
            case "line" ->
                lines.add(new Line(
                        left + number(element, "x1"),
                        top + number(element, "y1"),
                        left + number(element, "x2"),
                        top + number(element, "y2"),
                        Double.parseDouble(inherited(element, "stroke-width", "1")),
                        rgb(inherited(element, "stroke", "black")),
                        !inherited(element, "stroke-dasharray", "none").equals("none")));
            case "circle" -> mark(element, left + number(element, "cx"), top + number(element, "cy"));
            case "path" -> {
                List<Double> at = numbers(element.getAttribute("d").replaceAll("[A-Z]", " "));
                double x = 0;
                double y = 0;
                for (int axis = 0; axis < 2; axis++) {
                    double low = Double.POSITIVE_INFINITY;
                    double high = Double.NEGATIVE_INFINITY;
                    for (int i = axis; i < at.size(); i += 2) {
                        low = Math.min(low, at.get(i));
                        high = Math.max(high, at.get(i));
                    }
                    x = axis == 0 ? (low + high) / 2 : x;
                    y = axis == 1 ? (low + high) / 2 : y;
                }
                mark(element, left + x, top + y);
            }
            case "rect" -> {
                double width = number(element, "width");
                double height = number(element, "height");
                if (width < 20) {
                    mark(element, left + number(element, "x") + width / 2, top + number(element, "y") + height / 2);
                }
            }
            case "svg", "title", "desc", "g" -> {}
            default -> throw new AssertionError("unexpected element " + element.getTagName());
        }
    }

    private void mark(Element element, double x, double y) {
        marks.add(new Mark(x, y, rgb(inherited(element, "fill", "black"))));
    }

    private static String inherited(Element element, String name, String otherwise) {
        for (Node node = element; node instanceof Element one; node = node.getParentNode()) {
            if (one.hasAttribute(name)) {
                return one.getAttribute(name);
            }
        }
        return otherwise;
    }

    private static int rgb(String colour) {
        return switch (colour.toLowerCase(Locale.ROOT)) {
            case "black" -> 0;
            case "white" -> 0xFFFFFF;
            default -> {
                if (!colour.startsWith("rgb(")) {
                    throw new AssertionError("colour " + colour);
                }
                List<Double> parts = numbers(colour.substring("rgb(".length(), colour.length() - 1));
                yield parts.get(0).intValue() << 16
                        | parts.get(1).intValue() << 8
                        | parts.get(2).intValue();
            }
        };
    }

    private static double number(Element element, String name) {
        return Double.parseDouble(element.getAttribute(name));
    }

    private static List<Double> numbers(String text) {
        return java.util.regex.Pattern.compile("[\\s,]+")
                .splitAsStream(text.strip())
                .map(Double::valueOf)
                .toList();
    }

    List<String> words() {
        return texts.stream().map(Text::words).toList();
    }

    Text text(String words) {
        return texts.stream()
                .filter(text -> text.words().equals(words))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no text \"" + words + "\" in " + words()));
    }

    /** The last line of all that stand around a height and are as thick and as coloured as asked. */
    List<Line> level(double y, double width, int rgb) {
        return lines.stream()
                .filter(line ->
                        line.isLevel() && Math.abs(line.y1() - y) < 1 && line.width() == width && line.rgb() == rgb)
                .toList();
    }

    /** Reads a value off an axis by two of its figures, as a person with a ruler would. */
    static double read(double at, double firstAt, double first, double secondAt, double second) {
        return first + (at - firstAt) / (secondAt - firstAt) * (second - first);
    }

    double readX(double px, String first, String second) {
        return read(px, text(first).x(), Double.parseDouble(first), text(second).x(), Double.parseDouble(second));
    }

    double readY(double px, String first, String second) {
        return read(
                px, text(first).y() - 4, Double.parseDouble(first), text(second).y() - 4, Double.parseDouble(second));
    }
}
