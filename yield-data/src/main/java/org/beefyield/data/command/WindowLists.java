package org.beefyield.data.command;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.data.picture.Picture;
import org.beefyield.data.picture.Pictures;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackSummary;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pack.WindowChance;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** Whether pieces fit their windows, and the carcasses whose pieces more likely don't. */
final class WindowLists {
    private static final double LIKELY = 0.5;

    private final PackFit fit;
    private final PackSummary.Collector summary;
    private final boolean drawn;
    /** By window the pieces, for pictures alone. */
    private final Map<SizeWindow, List<PieceWeight>> pieces = new LinkedHashMap<>();

    private final TextTable table =
            new TextTable("carcass", "supplier", "grade", "cold, kg", "window", "piece, kg", "fits, %");
    private long missing;

    WindowLists(PackFit fit, boolean drawn) {
        this.fit = fit;
        this.summary = PackSummary.collector(fit);
        this.drawn = drawn;
    }

    void add(Carcass carcass) {
        summary.add(carcass);
        for (WindowChance chance : fit.chances(carcass)) {
            if (drawn) {
                pieces.computeIfAbsent(chance.window(), any -> new ArrayList<>())
                        .add(chance.piece());
            }
            if (chance.inside() < LIKELY && missing++ < MarketLists.LISTED) {
                List<String> row = new ArrayList<>(MarketLists.heads(carcass));
                row.add(named(chance.window()));
                row.add(Numbers.fixed(chance.piece().meanKg(), 2));
                row.add(Numbers.percent(chance.inside(), 0));
                table.row(row);
            }
        }
    }

    /** With the table's name of the cut. */
    private String named(SizeWindow window) {
        return window.words(fit.valuer()
                .estimator()
                .table()
                .catalogue()
                .find(window.cut())
                .map(Cut::name)
                .orElse(window.cut()));
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().add(summary.result());
        if (missing == 0) {
            return blocks.sentence("No carcass has pieces that more likely miss their window than fit");
        }
        blocks.sentence("Carcasses whose pieces more likely miss their window than fit:")
                .add(table);
        return missing > MarketLists.LISTED
                ? blocks.sentence("and " + (missing - MarketLists.LISTED) + " more")
                : blocks;
    }

    List<Picture> pictures() {
        return pieces.entrySet().stream()
                .map(entry -> Pictures.pieceWeights(entry.getKey(), entry.getValue()))
                .toList();
    }
}
