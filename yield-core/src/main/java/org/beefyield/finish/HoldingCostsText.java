package org.beefyield.finish;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.text.Numbers;

/** Costs in words: what is counted, and what isn't. */
final class HoldingCostsText {
    private final HoldingCosts costs;

    HoldingCostsText(HoldingCosts costs) {
        this.costs = costs;
    }

    String line() {
        List<String> counted = new ArrayList<>();
        List<String> left = new ArrayList<>();
        costs.feed().ifPresentOrElse(feed -> counted.add("feed " + feed), () -> left.add("feed"));
        rate("yardage", costs.yardagePerDay(), " a day", counted, left);
        rate("interest", costs.interestPercentPerYear(), " % a year on what it would bring today", counted, left);
        rate("deaths", costs.deathsPercentPerYear(), " % a year", counted, left);
        costs.replacement()
                .ifPresentOrElse(
                        next -> counted.add("place " + Numbers.brief(next.perDay())
                                + " a day, what the next animal leaves on average ("
                                + Numbers.brief(next.marginPerHead()) + " in " + Numbers.brief(next.daysOnPlace())
                                + " days and " + Numbers.brief(next.emptyDays()) + " empty ones)"),
                        () -> left.add("the next animal on its place"));
        if (counted.isEmpty()) {
            counted.add("nothing");
        }
        if (!left.isEmpty()) {
            counted.add("not counted: " + String.join(", ", left));
        }
        return String.join("; ", counted);
    }

    private static void rate(String what, double value, String unit, List<String> counted, List<String> left) {
        if (value > 0) {
            counted.add(what + " " + Numbers.brief(value) + unit);
        } else {
            left.add(what);
        }
    }
}
