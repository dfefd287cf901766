package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;

/** Signs and what they mean, side by side as far as there is room. */
final class Legend {
    private static final int LINE_PX = 22;
    private static final int SIGN_PX = 24;
    private static final int GAP_PX = 6;
    private static final int APART_PX = 12;
    private static final int BAR_PX = 14;

    /** What is drawn in a legend. */
    interface Sign {
        void at(Plot plot, double leftPx, double rightPx, double centrePx);
    }

    private record Key(Sign sign, String words) {
        int widthPx() {
            return SIGN_PX + GAP_PX + Letters.TEXT.widthPx(words) + APART_PX;
        }
    }

    private final List<Key> keys = new ArrayList<>();

    Legend sign(String words, Sign sign) {
        keys.add(new Key(sign, words));
        return this;
    }

    Legend bar(String words, Pen pen) {
        return sign(words, (plot, left, right, centre) -> plot.barPx(pen.wide(BAR_PX), left, right, centre));
    }

    Legend column(String words, Pen pen) {
        return sign(
                words,
                (plot, left, right, centre) ->
                        plot.columnPx(pen, left, right, centre + BAR_PX / 2.0, centre - BAR_PX / 2.0));
    }

    Legend line(String words, Pen pen) {
        return sign(words, (plot, left, right, centre) -> plot.linePx(pen, left, centre, right, centre));
    }

    /** Lines of keys; words too long for a line are wrapped below themselves. */
    private List<List<Key>> lines() {
        List<List<Key>> lines = new ArrayList<>();
        int usedPx = 0;
        for (Key key : keys) {
            if (lines.isEmpty() || usedPx + key.widthPx() > Plot.WIDTH_PX - Plot.MARGIN_PX) {
                lines.add(new ArrayList<>());
                usedPx = Plot.MARGIN_PX;
            }
            lines.get(lines.size() - 1).add(key);
            usedPx += key.widthPx();
        }
        return lines;
    }

    private static List<String> wrapped(Key key) {
        return Letters.TEXT.wrap(key.words, Plot.WIDTH_PX - 2 * Plot.MARGIN_PX - SIGN_PX - GAP_PX);
    }

    private static int heightPx(List<Key> line) {
        return LINE_PX
                * line.stream().mapToInt(key -> wrapped(key).size()).max().orElse(0);
    }

    int heightPx() {
        return lines().stream().mapToInt(Legend::heightPx).sum();
    }

    /** Draws it below the heading. */
    void draw(Plot plot) {
        double centrePx = plot.headEndPx() + LINE_PX / 2.0 + 3;
        for (List<Key> line : lines()) {
            double leftPx = Plot.MARGIN_PX;
            for (Key key : line) {
                key.sign.at(plot, leftPx, leftPx + SIGN_PX, centrePx);
                double atPx = centrePx + 4;
                for (String words : wrapped(key)) {
                    plot.text(leftPx + SIGN_PX + GAP_PX, atPx, words);
                    atPx += LINE_PX;
                }
                leftPx += key.widthPx();
            }
            centrePx += heightPx(line);
        }
    }
}
