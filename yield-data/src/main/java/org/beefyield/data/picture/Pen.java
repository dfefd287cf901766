package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/**
 * How a line is drawn.
 *
 * @param rgb colour
 * @param widthPx width
 * @param dashPx lengths of dashes and gaps, none for a whole line
 */
record Pen(int rgb, double widthPx, List<Double> dashPx) {
    static Pen line(Ink ink, double widthPx, double... dashPx) {
        return new Pen(ink.rgb(), widthPx, Arrays.stream(dashPx).boxed().toList());
    }

    /** Ends a line that has been begun. */
    void draw(Svg line) {
        line.with("stroke", Svg.colour(rgb)).with("stroke-width", widthPx);
        if (!dashPx.isEmpty()) {
            line.with("stroke-dasharray", dashPx.stream().map(Svg::number).collect(Collectors.joining(" ")));
        }
        line.end();
    }
}
