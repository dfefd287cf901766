package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;

/**
 * How many pieces of each weight are expected. What an estimate knows of a piece is a distribution, so each counts with its
 * chance in every bar; a bar of a histogram of the means alone would be too narrow.
 */
final class PieceWeights {
    private static final int TICKS = 7;
    private static final int BARS = 24;
    /** How far, in SDs, pieces are looked for. */
    private static final double REACH = 4;
    /** Of all pieces; a tail that has less is left out. */
    private static final double TAIL = 0.002;

    private static final Pen FITS = Pen.line(Ink.SKY_BLUE, 1);
    private static final Pen LIGHT = Pen.line(Ink.YELLOW, 1, 4, 2);
    private static final Pen HEAVY = Pen.line(Ink.VERMILLION, 1, 1.5, 3);
    private static final Pen EDGE = Pen.line(Ink.STRONG, 2, 6, 3);

    private PieceWeights() {}

    private static String named(SizeWindow window) {
        return window.words(Outturns.words(window.cut()));
    }

    static Picture draw(SizeWindow window, List<PieceWeight> pieces) {
        List<PieceWeight> stated =
                pieces.stream().filter(piece -> piece.pieces() > 0).toList();
        if (stated.isEmpty()) {
            throw new IllegalArgumentException(
                    "no pieces of " + window.cut() + " to draw; a histogram needs one or more, see PieceWeight.of");
        }
        double all = stated.stream().mapToDouble(PieceWeight::pieces).sum();
        double light = stated.stream()
                .mapToDouble(piece -> piece.pieces() * piece.chanceBelow(window.fromKg()))
                .sum();
        double heavy = stated.stream()
                .mapToDouble(piece -> piece.pieces() * piece.chanceAbove(window.toKg()))
                .sum();
        List<Bar> bars = bars(window, stated, all);
        double width = bars.get(0).binKg;
        double highest =
                bars.stream().mapToDouble(bar -> bar.height(stated)).max().orElse(0);
        String unit = "Pieces per " + Figures.upTo(width, 4) + " kg";
        Axis y = Axis.rounded(0, highest, TICKS);
        Axis x = Axis.between(bars.get(0).from, bars.get(bars.size() - 1).to, TICKS, Plot.chartPx(y));
        String fits = key("fit", all - light - heavy, all);
        String tooLight = key("too light", light, all);
        String tooHeavy = key("too heavy", heavy, all);
        Legend legend = new Legend().column(fits, FITS);
        if (window.fromKg() > 0) {
            legend.column(tooLight, LIGHT);
        }
        if (window.toKg() < Double.POSITIVE_INFINITY) {
            legend.column(tooHeavy, HEAVY);
        }
        legend.line("window", EDGE);
        String carcasses = Figures.count(stated.size(), "carcass", "carcasses");
        String number = Figures.fixed(all, all == Math.rint(all) ? 0 : 1) + " pieces of " + carcasses;
        Plot plot = Plot.chart(
                "Piece weights of " + Outturns.words(window.cut()),
                List.of(number, "Window: " + named(window)),
                legend.heightPx(),
                unit,
                x,
                y);
        legend.draw(plot);
        plot.gridX("Weight of a piece, kg");
        StringBuilder words = new StringBuilder(number + ". Window: " + named(window) + ". Expected " + fits + ", "
                + tooLight + ", " + tooHeavy + ". " + unit + ":");
        for (Bar bar : bars) {
            double height = bar.height(stated);
            if (height > 0) {
                plot.column(
                        bar.to <= window.fromKg() ? LIGHT : bar.from >= window.toKg() ? HEAVY : FITS,
                        bar.from,
                        bar.to,
                        height);
            }
            words.append(' ')
                    .append(Figures.upTo(bar.from, 4))
                    .append(" to ")
                    .append(Figures.upTo(bar.to, 4))
                    .append(" kg ")
                    .append(Figures.fixed(height, Figures.decimals(highest)))
                    .append(',');
        }
        words.setCharAt(words.length() - 1, '.');
        for (double edge : List.of(window.fromKg(), window.toKg())) {
            if (edge > 0 && x.range().contains(edge)) {
                plot.uprightLine(EDGE, edge);
            }
        }
        plot.notes(List.of("Expected numbers: each piece counts with its chance of each weight"));
        return plot.picture(words.toString());
    }

    private static String key(String what, double pieces, double all) {
        return what + " " + Figures.fixed(pieces, all < 100 ? 1 : 0) + " (" + Figures.fixed(100 * pieces / all, 1)
                + " %)";
    }

    /** A bar between two weights, cut short at an edge of the window; its height is as if it weren't. */
    private record Bar(double from, double to, double binKg) {
        double height(List<PieceWeight> pieces) {
            double count = pieces.stream()
                    .mapToDouble(piece -> piece.pieces() * (piece.chanceBelow(to) - piece.chanceBelow(from)))
                    .sum();
            return count * binKg / (to - from);
        }
    }

    private static List<Bar> bars(SizeWindow window, List<PieceWeight> pieces, double all) {
        double low = tail(pieces, TAIL * all, false);
        double high = tail(pieces, TAIL * all, true);
        double margin = high > low ? 0 : Math.max(0.1, low / 10);
        double bin = Axis.roundPart(high - low + 2 * margin, BARS);
        List<Bar> bars = new ArrayList<>();
        long first = Math.max(0, (long) Math.floor((low - margin) / bin));
        long last = (long) Math.ceil((high + margin) / bin);
        for (long k = first; k < Math.max(first + 1, last); k++) {
            double from = k * bin;
            for (double edge : List.of(window.fromKg(), window.toKg())) {
                if (edge > from && edge < (k + 1) * bin) {
                    bars.add(new Bar(from, edge, bin));
                    from = edge;
                }
            }
            bars.add(new Bar(from, (k + 1) * bin, bin));
        }
        return bars;
    }

    /** The weight below or above which so many pieces are expected, by halving. */
    private static double tail(List<PieceWeight> pieces, double count, boolean isAbove) {
        double low = pieces.stream()
                .mapToDouble(piece -> Math.max(0, piece.meanKg() - REACH * piece.sdKg()))
                .min()
                .orElseThrow();
        double high = pieces.stream()
                .mapToDouble(piece -> piece.meanKg() + REACH * piece.sdKg())
                .max()
                .orElseThrow();
        for (int i = 0; i < 30; i++) {
            double middle = (low + high) / 2;
            double beyond = pieces.stream()
                    .mapToDouble(
                            piece -> piece.pieces() * (isAbove ? piece.chanceAbove(middle) : piece.chanceBelow(middle)))
                    .sum();
            if (beyond > count == isAbove) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
