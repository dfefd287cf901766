package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Outputs;
import org.beefyield.data.picture.Picture;
import org.beefyield.data.trade.FeedbackWriter;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.market.MarketSummary;
import org.beefyield.text.Blocks;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/** Whether the carcasses of a kill sheet fit market, packs and fat target, and what their suppliers are told. */
final class FitReports {
    private final @Nullable MarketLists market;
    private final @Nullable WindowLists packs;
    private final Overfat.@Nullable Collector overfat;
    private final FeedbackSheets.@Nullable Collector feedback;
    private final @Nullable Path feedbackFolder;
    /** What was written. */
    private @Nullable FeedbackSheets sheets;

    FitReports(
            @Nullable MarketLists market,
            @Nullable WindowLists packs,
            @Nullable Overfat overfat,
            FeedbackSheets.@Nullable Collector feedback,
            @Nullable Path feedbackFolder) {
        this.market = market;
        this.packs = packs;
        this.overfat = overfat == null ? null : overfat.collector();
        this.feedback = feedback;
        this.feedbackFolder = feedbackFolder;
    }

    /** Adds a carcass for which there is an estimate. */
    void add(Carcass carcass) {
        if (market != null) {
            market.add(carcass);
        }
        if (packs != null) {
            packs.add(carcass);
        }
        if (overfat != null) {
            overfat.add(carcass);
        }
        if (feedback != null) {
            feedback.add(carcass);
        }
    }

    /** Writes the feedback sheets, which get their places with the other outputs. */
    void write(Outputs outputs) {
        if (feedback != null && feedbackFolder != null) {
            sheets = feedback.result();
            FeedbackWriter.write(sheets, feedbackFolder, outputs);
        }
    }

    /** Markets, for the first page. */
    List<MarketSummary> markets() {
        return market == null ? List.of() : market.summaries();
    }

    List<Picture> pictures() {
        return packs == null ? List.of() : packs.pictures();
    }

    /** What stands behind the figures of the lot. */
    Map<String, Shown> shown() {
        Map<String, Shown> shown = new LinkedHashMap<>();
        if (market != null) {
            shown.put("Who suits which customer", market.blocks());
        }
        if (packs != null) {
            shown.put("What fits its pack", packs.blocks());
        }
        if (overfat != null) {
            shown.put(
                    "What too much fat costs",
                    overfat.cost()
                            .<Shown>map(cost -> cost)
                            .orElseGet(() -> new Blocks().sentence("No carcass is fatter than the target")));
        }
        return shown;
    }

    void print(PrintStream print) {
        if (sheets != null) {
            int suppliers = sheets.suppliers().size();
            print.println();
            print.println("Feedback sheets for " + suppliers + (suppliers == 1 ? " supplier" : " suppliers")
                    + " written to " + feedbackFolder
                    + (sheets.withoutSupplier() == 0
                            ? ""
                            : "; " + sheets.withoutSupplier() + " carcasses name no supplier"));
        }
    }
}
