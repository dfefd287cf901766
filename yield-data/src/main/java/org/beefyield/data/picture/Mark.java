package org.beefyield.data.picture;

import java.util.StringJoiner;

/** Shapes on points, which differ without colour. */
enum Mark {
    CIRCLE,
    SQUARE,
    DIAMOND,
    TRIANGLE_UP,
    TRIANGLE_DOWN;

    /** Right and down from the middle, in turn, as parts of half the size. */
    private double[] corners() {
        return switch (this) {
            case CIRCLE -> new double[0];
            case SQUARE -> new double[] {-1, -1, 1, -1, 1, 1, -1, 1};
            case DIAMOND -> new double[] {0, -1.3, 1.3, 0, 0, 1.3, -1.3, 0};
            case TRIANGLE_UP -> new double[] {-1, 1, 1, 1, 0, -1};
            case TRIANGLE_DOWN -> new double[] {-1, -1, 1, -1, 0, 1};
        };
    }

    void draw(Svg svg, int rgb, double px, double py, double halfPx) {
        if (this == CIRCLE) {
            svg.start("circle").with("cx", px).with("cy", py).with("r", halfPx);
        } else {
            double[] corners = corners();
            StringJoiner points = new StringJoiner(" ");
            for (int i = 0; i < corners.length; i += 2) {
                points.add(Svg.point(px + corners[i] * halfPx, py + corners[i + 1] * halfPx));
            }
            svg.start("polygon").with("points", points.toString());
        }
        svg.with("fill", Svg.colour(rgb)).end();
    }
}
