package org.beefyield.pack;

import java.util.stream.Collectors;
import org.beefyield.estimate.Cautions;
import org.beefyield.text.Blocks;

/** The best ways of a carcass in words. */
final class BestWaysText {
    private final BestWays ways;

    BestWaysText(BestWays ways) {
        this.ways = ways;
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence()).add(new PackedValueText(ways.fixed()).figures());
        if (!ways.changed().isEmpty()) {
            blocks.add(new PackedValueText(ways.best()).figures()).sentences(AssumedWays.caution(ways.assumed()));
        }
        ways.unpriced().forEach((cut, reason) -> blocks.sentence("Note: " + cut + ": " + reason));
        return blocks.sentence(Cautions.NO_SETTLEMENT);
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
