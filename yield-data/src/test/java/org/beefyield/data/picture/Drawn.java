package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.InputSource;

/** What stands where in a picture, read back from its SVG by an XML parser. Places are pixels of the picture. */
final class Drawn {
    /** A text. */
    record Text(double x, double y, String anchor, Letters letters, String words) {
        double left() {
            double width = letters.widthPx(words);
            return x - (anchor.equals("end") ? width : anchor.equals("middle") ? width / 2 : 0);
        }

        double right() {
            return left() + letters.widthPx(words);
        }

        /** Where tall letters end, as a part of the size as in usual fonts. */
        double top() {
            return y - 0.78 * letters.sizePx();
        }

        double bottom() {
            return y + 0.24 * letters.sizePx();
        }

        boolean isOn(Text other) {
            return left() < other.right() && other.left() < right() && top() < other.bottom() && other.top() < bottom();
        }
    }

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
    record Point(double x, double y, int rgb, boolean isHollow) {}

    /** A filled area with level and upright sides. */
    record Box(double left, double top, double right, double bottom, int rgb) {}

    final Document document;
    final Element root;
    final List<Text> texts = new ArrayList<>();
    final List<Line> lines = new ArrayList<>();
    final List<Point> marks = new ArrayList<>();
    final List<Box> boxes = new ArrayList<>();
    final List<Line> grid = new ArrayList<>();

    private Drawn(Document document) {
        this.document = document;
        this.root = document.getDocumentElement();
        walk(root);
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

    private void walk(Element parent) {
        for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
            if (node instanceof Element element) {
                read(element);
                walk(element);
            }
        }
    }

    private void read(Element element) {
        switch (element.getTagName()) {
            case "text" ->
                texts.add(new Text(
                        number(element, "x"),
                        number(element, "y"),
                        element.getAttribute("text-anchor"),
                        Letters.valueOf(
                                element.getAttribute("font-weight").isEmpty()
                                        ? "TEXT"
                                        : element.getAttribute("font-size").equals("13") ? "BOLD" : "TITLE"),
                        element.getTextContent()));
            case "line" ->
                line(
                        element,
                        List.of(
                                number(element, "x1"),
                                number(element, "y1"),
                                number(element, "x2"),
                                number(element, "y2")));
            case "polyline" -> line(element, numbers(element.getAttribute("points")));
            case "circle" -> mark(element, number(element, "cx"), number(element, "cy"));
            case "rect" -> {
                if (element.hasAttribute("x")) {
                    double x = number(element, "x");
                    double y = number(element, "y");
                    boxes.add(new Box(
                            x,
                            y,
                            x + number(element, "width"),
                            y + number(element, "height"),
                            rgb(element.getAttribute("fill"))));
                }
            }
            case "polygon" -> {
                List<Double> at = numbers(element.getAttribute("points"));
                mark(element, middle(at, 0), middle(at, 1));
            }
            case "svg", "title", "desc", "style" -> {}
            default -> throw new AssertionError("unexpected element " + element.getTagName());
        }
    }

    private void line(Element element, List<Double> at) {
        for (int i = 2; i < at.size(); i += 2) {
            boolean isGrid = element.getAttribute("class").equals("s-grid");
            (isGrid ? grid : lines)
                    .add(new Line(
                            at.get(i - 2),
                            at.get(i - 1),
                            at.get(i),
                            at.get(i + 1),
                            number(element, "stroke-width"),
                            rgb(element.getAttribute("stroke")),
                            element.hasAttribute("stroke-dasharray")));
        }
    }

    private static double middle(List<Double> at, int axis) {
        DoubleSummaryStatistics all = IntStream.range(0, at.size())
                .filter(i -> i % 2 == axis)
                .mapToDouble(at::get)
                .summaryStatistics();
        return (all.getMin() + all.getMax()) / 2;
    }

    private void mark(Element element, double x, double y) {
        boolean isHollow = element.hasAttribute("stroke");
        marks.add(new Point(x, y, rgb(element.getAttribute(isHollow ? "stroke" : "fill")), isHollow));
    }

    private static int rgb(String colour) {
        assertThat(colour).matches("#[0-9A-F]{6}");
        return Integer.parseInt(colour.substring(1), 16);
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
        return read(px, text(first).x(), figure(first), text(second).x(), figure(second));
    }

    static double figure(String text) {
        return Double.parseDouble(text.replace(",", ""));
    }

    double readY(double px, String first, String second) {
        return read(px, text(first).y() - 4, figure(first), text(second).y() - 4, figure(second));
    }
}
