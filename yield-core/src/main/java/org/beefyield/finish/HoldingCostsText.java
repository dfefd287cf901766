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
        List<String> parts = new ArrayList<>();
        parts.add(costs.feed().map(feed -> "feed " + feed).orElse("no feed"));
        parts.add(
                costs.yardagePerDay() > 0
                        ? "yardage " + Numbers.brief(costs.yardagePerDay()) + " a day"
                        : "no yardage");
        parts.add(
                costs.interestPercentPerYear() > 0
                        ? "interest " + Numbers.brief(costs.interestPercentPerYear())
                                + " % a year on what it would bring today"
                        : "no interest");
        parts.add(
                costs.deathsPercentPerYear() > 0
                        ? "deaths " + Numbers.brief(costs.deathsPercentPerYear()) + " % a year"
                        : "no deaths");
        parts.add(costs.replacement()
                .map(next ->
                        "place " + Numbers.brief(next.perDay()) + " a day, what the next animal leaves on average ("
                                + Numbers.brief(next.marginPerHead()) + " in " + Numbers.brief(next.daysOnPlace())
                                + " days and "
                                + Numbers.brief(next.emptyDays()) + " empty ones)")
                .orElse("no replacement"));
        return String.join("; ", parts);
    }
}
