package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;

/**
 * How a line is drawn.
 *
 * @param rgb colour
 * @param widthPx width, 0 for no line
 * @param dashPx lengths of dashes and gaps, none for a whole line
 * @param mark what stands on each point
 */
record Pen(int rgb, double widthPx, List<Double> dashPx, Mark mark) {
    /** Shapes that differ without colour. */
    enum Mark {
        NONE,
        CIRCLE,
        SQUARE,
        DIAMOND,
        TRIANGLE_UP,
        TRIANGLE_DOWN
    }

    static Pen line(Ink ink, double widthPx, double... dashPx) {
        return new Pen(ink.rgb(), widthPx, Arrays.stream(dashPx).boxed().toList(), Mark.NONE);
    }

    static Pen mark(Ink ink, Mark mark) {
        return new Pen(ink.rgb(), 0, List.of(), mark);
    }

    Pen withoutMark() {
        return new Pen(rgb, widthPx, dashPx, Mark.NONE);
    }

    Pen withoutLine() {
        return new Pen(rgb, 0, List.of(), mark);
    }
}
