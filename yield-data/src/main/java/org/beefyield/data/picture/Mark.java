package org.beefyield.data.picture;

import java.util.StringJoiner;

/** Shapes on points, which differ without colour. */
enum Mark {
    CIRCLE,
    SQUARE,
    DIAMOND,
    TRIANGLE_UP,
    TRIANGLE_DOWN,
    TRIANGLE_LEFT,
    TRIANGLE_RIGHT;

    private static final double OUTLINE_PX = 1.5;

    /** Right and down from the middle, in turn, as parts of half the size. */
    private double[] corners() {
        return switch (this) {
            case CIRCLE -> new double[0];
            case SQUARE -> new double[] {-1, -1, 1, -1, 1, 1, -1, 1};
            case DIAMOND -> new double[] {0, -1.3, 1.3, 0, 0, 1.3, -1.3, 0};
            case TRIANGLE_UP -> new double[] {-1, 1, 1, 1, 0, -1};
            case TRIANGLE_DOWN -> new double[] {-1, -1, 1, -1, 0, 1};
            case TRIANGLE_LEFT -> new double[] {1, -1, 1, 1, -1, 0};
            case TRIANGLE_RIGHT -> new double[] {-1, -1, -1, 1, 1, 0};
        };
    }

    void draw(Svg svg, Ink ink, double px, double py, double halfPx) {
        shape(svg, px, py, halfPx).fill(ink).end();
    }

    /** An outline with the ground in it. */
    void drawHollow(Svg svg, Ink ink, double px, double py, double halfPx) {
        shape(svg, px, py, halfPx)
                .fillAndStroke(Ink.GROUND, ink)
                .with("stroke-width", OUTLINE_PX)
                .end();
    }

    private Svg shape(Svg svg, double px, double py, double halfPx) {
        if (this == CIRCLE) {
            return svg.start("circle").with("cx", px).with("cy", py).with("r", halfPx);
        }
        double[] corners = corners();
        StringJoiner points = new StringJoiner(" ");
        for (int i = 0; i < corners.length; i += 2) {
            points.add(Svg.point(px + corners[i] * halfPx, py + corners[i + 1] * halfPx));
        }
        return svg.start("polygon").with("points", points.toString());
    }
}
