package org.beefyield.data.picture;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Outturn;
import org.beefyield.text.Names;

/** Level by level what a carcass or a lot becomes: each bar begins where the one above ends, so a level fills the weight. */
final class CarcassSteps {
    private static final int TICKS = 5;

    private CarcassSteps() {}

    /** Colour and stripes of a kind; kinds of one level differ by stripes or in lightness. */
    static Pen pen(CutKind kind) {
        return switch (kind) {
            case MEAT, PRIMAL -> Pen.line(Ink.SKY_BLUE, Rows.BAR_PX);
            case STEAK -> Pen.line(Ink.BLUE, Rows.BAR_PX);
            case JOINT -> Pen.line(Ink.BLUISH_GREEN, Rows.BAR_PX);
            case DICE -> Pen.line(Ink.ORANGE, Rows.BAR_PX);
            case LEAN_TRIM, MINCE -> Pen.line(Ink.REDDISH_PURPLE, Rows.BAR_PX, 7, 2);
            case FAT_TRIM -> Pen.line(Ink.YELLOW, Rows.BAR_PX, 4, 2);
            case BONE -> Pen.line(Ink.STRONG, Rows.BAR_PX, 1.5, 3);
            case LOSS -> Pen.line(Ink.VERMILLION, Rows.BAR_PX, 1, 6);
        };
    }

    static Picture draw(Outturn outturn) {
        Rows rows = new Rows("kg");
        StringBuilder words = new StringBuilder("Kilograms of both sides together, each level adding up to "
                + Outturns.kg(outturn.coldWeightKg(), outturn) + " kg cold.");
        Set<CutKind> kinds = EnumSet.noneOf(CutKind.class);
        for (String level : outturn.table().levels()) {
            List<CutLine> lines =
                    outturn.lines(level).stream().filter(line -> line.kg() != 0).toList();
            List<String> kg = outturn.printedKg(level, Outturns.decimals(outturn)).stream()
                    .map(figure -> Figures.grouped(figure.toPlainString()))
                    .toList();
            rows.heading(Names.capital(level) + " level", Outturns.kg(outturn.coldWeightKg(), outturn));
            words.append(' ').append(Names.capital(level)).append(" level:");
            double from = 0;
            for (int i = 0; i < lines.size(); i++) {
                CutLine line = lines.get(i);
                CutKind kind = line.cut().kind();
                double start = from;
                double end = from + line.kg();
                kinds.add(kind);
                rows.row(
                        line.cut().name(),
                        List.of(kg.get(i)),
                        (plot, centrePx) -> plot.bar(pen(kind), start, end, centrePx));
                words.append(i == 0 ? " " : ", ")
                        .append(line.cut().name())
                        .append(' ')
                        .append(kg.get(i));
                from = end;
            }
            words.append('.');
        }
        Map<Pen, String> keys = new LinkedHashMap<>();
        for (CutKind kind : kinds) {
            keys.merge(pen(kind), Outturns.words(kind.code()), (before, now) -> before + ", " + now);
        }
        Legend legend = new Legend();
        keys.forEach((pen, kindsOfPen) -> legend.bar(kindsOfPen, pen));
        Plot plot = rows.plot(
                "What " + Outturns.what(outturn) + " becomes",
                Outturns.subtitles(outturn),
                legend,
                "kg, each bar beginning where the one above ends",
                roomPx -> Axis.between(0, outturn.coldWeightKg(), TICKS, roomPx));
        plot.notes(Outturns.notes(outturn));
        return plot.picture(words.toString());
    }
}
