package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.Overpayment;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Attribution;
import org.beefyield.price.Valuer;
import org.jspecify.annotations.Nullable;

/** What was paid for the carcasses of a sheet, what that leaves, and who was overpaid; beside an earlier sheet if there is one. */
final class Paid {
    private final Valuer valuer;
    private final PaymentGrid grid;
    private final MarginReport.Collector margins;
    private final Overpayment.@Nullable Collector overpaid;
    private final List<String> words = new ArrayList<>();
    private LotEstimate.@Nullable Collector earlierLot;
    private Overpayment.@Nullable Collector earlier;

    Paid(Valuer valuer, PaymentGrid grid) {
        this.valuer = valuer;
        this.grid = grid;
        this.margins = MarginReport.collector(valuer, grid);
        this.overpaid = overpaid();
    }

    private Overpayment.@Nullable Collector overpaid() {
        try {
            return Overpayment.collector(valuer, grid);
        } catch (IllegalArgumentException e) {
            words.add("Who was overpaid is left out: " + e.getMessage());
            return null;
        }
    }

    void add(Carcass carcass) {
        margins.add(carcass);
        if (overpaid != null) {
            overpaid.add(carcass);
        }
    }

    /** Reads an earlier sheet; what of it can't be used is noted. */
    List<Problem> readBaseline(Path file, KillSheetFormat format) {
        KillSheet sheet = KillSheetReader.read(Source.of(file), format);
        List<Problem> notes = new ArrayList<>(sheet.problems());
        LotEstimate.Collector lot = valuer.estimator().collector();
        Overpayment.Collector then = overpaid == null ? null : Overpayment.collector(valuer, grid);
        long used = 0;
        for (KillSheetEntry entry : sheet.entries()) {
            try {
                if (then != null) {
                    then.add(entry.carcass());
                }
                lot.add(entry.carcass());
                used++;
            } catch (RefusedCarcassException e) {
                notes.add(new Problem(
                        file.toString(), entry.line(), "", "", e.getMessage() + "; the baseline leaves it out"));
            } catch (IllegalArgumentException e) {
                notes.add(new Problem(
                        file.toString(), entry.line(), "", "", e.getMessage() + "; the baseline leaves it out"));
            }
        }
        words.add("Baseline " + file + ": " + used + (used == 1 ? " carcass" : " carcasses"));
        if (used > 0) {
            earlier = then;
            earlierLot = lot;
        }
        return notes;
    }

    MarginReport margins() {
        return margins.result();
    }

    @Nullable
    Overpayment overpayment() {
        if (overpaid == null) {
            return null;
        }
        Overpayment now = overpaid.result();
        return earlier == null ? now : now.since(earlier.result());
    }

    /** Why a head is worth more or less than one of the earlier sheet. */
    Optional<Attribution> why(LotEstimate.Collector now) {
        return earlierLot == null
                ? Optional.empty()
                : Optional.of(Attribution.of(
                        valuer.value(now.lot().withName("this sheet")),
                        valuer.value(earlierLot.lot().withName("the baseline"))));
    }

    List<String> words() {
        return words;
    }
}
