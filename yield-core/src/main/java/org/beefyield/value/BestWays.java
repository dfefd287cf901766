package org.beefyield.value;

import java.util.LinkedHashMap;
import java.util.Map;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * The way of each cut that is expected to return most of a carcass, beside the fixed specification.
 *
 * @param fixed value under the fixed specification
 * @param best value under the best ways; the fixed ones if nothing is better
 * @param unpriced ways that could not be looked at for lack of a price, by cut, with the reason
 */
public record BestWays(PackedValue fixed, PackedValue best, Map<String, String> unpriced) implements ShownInBlocks {
    /**
     * Copies the map.
     *
     * @param fixed value under the fixed specification
     * @param best value under the best ways
     * @param unpriced ways that could not be looked at for lack of a price
     */
    public BestWays {
        unpriced = Map.copyOf(unpriced);
    }

    /**
     * What the best ways are expected to bring beyond the fixed ones.
     *
     * @return amount, 0 or more
     */
    public double gain() {
        return best.expected() - fixed.expected();
    }

    /**
     * The cuts that go another way than under the fixed specification.
     *
     * @return way by code of cut
     */
    public Map<String, String> changed() {
        Map<String, String> changed = new LinkedHashMap<>();
        best.specification().ways().forEach((cut, way) -> {
            if (!way.equals(fixed.specification().ways().get(cut))) {
                changed.put(cut, way);
            }
        });
        return changed;
    }

    /**
     * The best ways beside the fixed ones for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        Blocks blocks = new Blocks().sentence(toString()).add(fixed);
        if (!changed().isEmpty()) {
            blocks.add(best);
        }
        unpriced.forEach((cut, reason) -> blocks.sentence("Note: " + cut + ": " + reason));
        return blocks;
    }

    /**
     * One line.
     *
     * @return what changes and what that is expected to bring
     */
    @Override
    public String toString() {
        if (changed().isEmpty()) {
            return "No other way is expected to return more than " + fixed.specification();
        }
        StringBuilder text = new StringBuilder();
        changed()
                .forEach((cut, way) -> text.append(text.isEmpty() ? "" : ", ")
                        .append(cut)
                        .append(" as ")
                        .append(way));
        return text + ": expected to return " + fixed.prices().money(gain()) + " "
                + fixed.prices().currency() + " more than " + fixed.specification();
    }
}
