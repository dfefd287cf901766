package org.beefyield.data.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.beefyield.table.definition.Range;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.Node;

/**
 * Lines and marks as SVG shapes: XChart places and paints them, Batik writes them down. No text passes through here, for
 * XChart paints letters as outlines, which nobody can search, and measures them with the fonts of one machine. The only
 * class that needs the two libraries.
 */
final class Painter {
    private static final String SVG = "http://www.w3.org/2000/svg";
    private static final int DECIMALS = 2;

    /** Of what Batik writes, all that says how a shape looks. */
    private static final Set<String> SHAPES = Set.of("g", "path", "line", "rect", "circle", "ellipse", "polygon");

    private static final Set<String> ATTRIBUTES = Set.of(
            "fill",
            "stroke",
            "stroke-width",
            "stroke-dasharray",
            "stroke-linecap",
            "stroke-linejoin",
            "stroke-miterlimit",
            "transform",
            "d",
            "x",
            "y",
            "x1",
            "x2",
            "y1",
            "y2",
            "cx",
            "cy",
            "r",
            "rx",
            "ry",
            "width",
            "height",
            "points");

    private Painter() {}

    /** A line through points, in units of the axes. */
    record Line(List<Double> x, List<Double> y, Pen pen) {}

    /**
     * Paints lines, in their order, into an area whose corners are the ends of the axes.
     *
     * @return SVG elements whose origin is the upper left corner of the area
     */
    static String paint(int widthPx, int heightPx, Range x, Range y, int markPx, List<Line> lines) {
        XYChart chart = new XYChart(widthPx, heightPx);
        XYStyler styler = chart.getStyler();
        styler.setChartTitleVisible(false);
        styler.setLegendVisible(false);
        styler.setAxisTitlesVisible(false);
        styler.setAxisTicksVisible(false);
        styler.setPlotGridLinesVisible(false);
        styler.setPlotBorderVisible(false);
        styler.setChartPadding(0);
        styler.setPlotMargin(0);
        styler.setPlotContentSize(1);
        styler.setChartBackgroundColor(Color.WHITE);
        styler.setPlotBackgroundColor(Color.WHITE);
        styler.setMarkerSize(markPx);
        styler.setXAxisMin(x.low());
        styler.setXAxisMax(x.high());
        styler.setYAxisMin(y.low());
        styler.setYAxisMax(y.high());
        for (Line line : lines) {
            XYSeries series = chart.addSeries(
                    Integer.toString(chart.getSeriesMap().size()),
                    line.x().stream().mapToDouble(Double::doubleValue).toArray(),
                    line.y().stream().mapToDouble(Double::doubleValue).toArray());
            Pen pen = line.pen();
            series.setXYSeriesRenderStyle(
                    pen.widthPx() == 0 ? XYSeries.XYSeriesRenderStyle.Scatter : XYSeries.XYSeriesRenderStyle.Line);
            series.setLineColor(new Color(pen.rgb()));
            series.setLineStyle(stroke(pen));
            series.setMarkerColor(new Color(pen.rgb()));
            series.setMarker(marker(pen.mark()));
        }
        SVGGeneratorContext context = SVGGeneratorContext.createDefault(document());
        context.setPrecision(DECIMALS);
        SVGGraphics2D graphics = new SVGGraphics2D(context, false);
        chart.paint(graphics, widthPx, heightPx);
        StringBuilder shapes = new StringBuilder();
        write(graphics.getRoot(), shapes);
        return shapes.toString();
    }

    private static Document document() {
        try {
            return DocumentBuilderFactory.newDefaultInstance()
                    .newDocumentBuilder()
                    .getDOMImplementation()
                    .createDocument(SVG, "svg", null);
        } catch (ParserConfigurationException e) {
            throw new IllegalStateException(e);
        }
    }

    private static BasicStroke stroke(Pen pen) {
        float width = (float) pen.widthPx();
        if (pen.dashPx().isEmpty()) {
            return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER);
        }
        float[] dash = new float[pen.dashPx().size()];
        for (int i = 0; i < dash.length; i++) {
            dash[i] = pen.dashPx().get(i).floatValue();
        }
        return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, dash, 0);
    }

    private static Marker marker(Pen.Mark mark) {
        return switch (mark) {
            case NONE -> SeriesMarkers.NONE;
            case CIRCLE -> SeriesMarkers.CIRCLE;
            case SQUARE -> SeriesMarkers.SQUARE;
            case DIAMOND -> SeriesMarkers.DIAMOND;
            case TRIANGLE_UP -> SeriesMarkers.TRIANGLE_UP;
            case TRIANGLE_DOWN -> SeriesMarkers.TRIANGLE_DOWN;
        };
    }

    /** Shapes alone, without Batik's definitions, fonts and clips: nothing here lies outside the picture. */
    private static void write(Element parent, StringBuilder out) {
        for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
            if (node instanceof Element element && SHAPES.contains(element.getTagName())) {
                Map<String, String> attributes = attributes(element);
                boolean isEmpty = element.getTagName().equals("g") && element.getFirstChild() == null;
                if (isEmpty) {
                    continue;
                }
                out.append('<').append(element.getTagName());
                attributes.forEach((name, value) ->
                        out.append(' ').append(name).append("=\"").append(value).append('"'));
                if (element.getFirstChild() == null) {
                    out.append("/>\n");
                } else {
                    out.append(">\n");
                    write(element, out);
                    out.append("</").append(element.getTagName()).append(">\n");
                }
            }
        }
    }

    private static Map<String, String> attributes(Element element) {
        Map<String, String> attributes = new TreeMap<>();
        NamedNodeMap all = element.getAttributes();
        for (int i = 0; i < all.getLength(); i++) {
            Node attribute = all.item(i);
            if (ATTRIBUTES.contains(attribute.getNodeName())) {
                attributes.put(attribute.getNodeName(), attribute.getNodeValue());
            }
        }
        return attributes;
    }
}
