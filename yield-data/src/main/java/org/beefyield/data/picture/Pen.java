package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/**
 * How a line is drawn.
 *
 * @param ink colour
 * @param widthPx width
 * @param dashPx lengths of dashes and gaps, none for a whole line
 */
record Pen(Ink ink, double widthPx, List<Double> dashPx) {
    static Pen line(Ink ink, double widthPx, double... dashPx) {
        return new Pen(ink, widthPx, Arrays.stream(dashPx).boxed().toList());
    }

    Pen wide(double otherWidthPx) {
        return new Pen(ink, otherWidthPx, dashPx);
    }

    /** Ends a line that has been begun. */
    void draw(Svg line) {
        line.stroke(ink).with("stroke-width", widthPx);
        if (!dashPx.isEmpty()) {
            line.with("stroke-dasharray", dashPx.stream().map(Svg::number).collect(Collectors.joining(" ")));
        }
        line.end();
    }
}
