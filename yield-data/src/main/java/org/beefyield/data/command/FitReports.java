package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Outputs;
import org.beefyield.data.trade.FeedbackWriter;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.MarketSummary;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackSummary;
import org.jspecify.annotations.Nullable;

/** Whether the carcasses of a kill sheet fit market, packs and fat target, and what their suppliers are told. */
final class FitReports {
    private final MarketSummary.@Nullable Collector market;
    private final PackSummary.@Nullable Collector packs;
    private final Overfat.@Nullable Collector overfat;
    private final FeedbackSheets.@Nullable Collector feedback;
    private final @Nullable Path feedbackFolder;
    /** What was written. */
    private @Nullable FeedbackSheets sheets;

    FitReports(
            @Nullable MarketSpecification market,
            @Nullable PackFit packs,
            @Nullable Overfat overfat,
            FeedbackSheets.@Nullable Collector feedback,
            @Nullable Path feedbackFolder) {
        this.market = market == null ? null : MarketSummary.collector(market);
        this.packs = packs == null ? null : PackSummary.collector(packs);
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

    void print(PrintStream print) {
        if (market != null) {
            print.println();
            print.print(market.result().toText());
        }
        if (packs != null) {
            print.println();
            print.print(packs.result().toText());
        }
        if (overfat != null) {
            print.println();
            overfat.cost()
                    .ifPresentOrElse(
                            cost -> print.print(cost.toText()),
                            () -> print.println("No carcass is fatter than the target"));
        }
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
