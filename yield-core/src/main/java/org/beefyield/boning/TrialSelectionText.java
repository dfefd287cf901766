package org.beefyield.boning;

import java.util.OptionalDouble;
import org.beefyield.text.Numbers;

/** What a selection of trials says in words. */
final class TrialSelectionText {
    private TrialSelectionText() {}

    static String of(TrialSelection found) {
        boolean ofQuarters = found.weighed().equals(TrialSelection.QUARTER);
        int refused = found.checked() - found.passed();
        String words = refused + " of " + found.checked() + (ofQuarters ? " quarters" : " carcasses") + " ("
                + Numbers.percent(found.refusedShare(), 0) + " %) are refused, and "
                + Numbers.fixed(Math.abs(found.medianPct()), 1) + " % are "
                + (found.medianPct() < 0 ? "too much" : "missing") + " at the median of all";
        boolean isMore = found.medianPct() > found.expectedPct();
        if (found.passedMedianPct().isPresent()) {
            double passed = found.passedMedianPct().getAsDouble();
            words += ", " + Numbers.fixed(Math.abs(passed), 1) + " % "
                    + (passed < 0 != found.medianPct() < 0 ? (passed < 0 ? "too much " : "missing ") : "")
                    + "at the median of those that balance"
                    + (found.isAgainstLimit() ? ", which lie against the limit" : "")
                    + "; these are selected and their loss is too " + (isMore ? "low" : "high");
        }
        OptionalDouble expect = found.toExpectPct();
        if (expect.isEmpty()) {
            return words + "; look at "
                    + (found.medianPct() < 0 ? "the scales, and for a column in another unit" : "what was not weighed");
        }
        return words + "; if that is evaporation and drip that nobody weighed, expect "
                + Numbers.fixed(expect.getAsDouble(), 1) + " % to be missing"
                + (ofQuarters ? " of quarters weighed at intake" : "") + ", not "
                + Numbers.brief(found.expectedPct()) + " %";
    }
}
