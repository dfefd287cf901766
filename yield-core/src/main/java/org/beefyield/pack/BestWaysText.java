package org.beefyield.pack;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.price.PriceList;
import org.beefyield.text.Blocks;
import org.beefyield.text.Place;

/** The best ways of a carcass in words. */
final class BestWaysText {
    private final BestWays ways;

    BestWaysText(BestWays ways) {
        this.ways = ways;
    }

    Blocks blocks() {
        Blocks blocks =
                new Blocks().sentence(sentence()).sentences(sure()).add(new PackedValueText(ways.fixed()).figures());
        if (!ways.changed().isEmpty()) {
            blocks.add(new PackedValueText(ways.best()).figures()).sentences(AssumedWays.caution(ways.assumed()));
        }
        if (!ways.fixed().downgrades().isEmpty() || !ways.best().downgrades().isEmpty()) {
            blocks.sentence(PackedValueText.IN_OWN_HALL);
        }
        ways.unpriced().forEach((cut, reason) -> blocks.sentence("Note: " + cut + ": " + reason));
        return blocks.sentence(Cautions.NO_SETTLEMENT);
    }

    /** How sure the gain is. */
    private List<String> sure() {
        return ways.uncertainty()
                .map(gain -> {
                    Interval interval = gain.interval(Interval.SHOWN_PROBABILITY);
                    PriceList prices = ways.fixed().prices();
                    Place place = interval.placeOfMoney(prices.decimals());
                    List<String> sentences = new ArrayList<>();
                    sentences.add(
                            "If every piece fits, " + prices.money(gain.kg()) + " more; 90 % sure, prices as given: "
                                    + place.text(interval.low()) + " to " + place.text(interval.high()));
                    sentences.addAll(gain.intervalWords());
                    return sentences;
                })
                .orElse(List.of());
    }

    String sentence() {
        if (ways.changed().isEmpty()) {
            return "No other way is expected to return more than "
                    + ways.fixed().specification();
        }
        return ways.changed().entrySet().stream()
                        .map(changed -> AssumedWays.words(changed.getKey(), changed.getValue()))
                        .collect(Collectors.joining(", "))
                + ": expected to return " + ways.gainMoney() + " more than "
                + ways.fixed().specification() + ", labour not counted";
    }
}
