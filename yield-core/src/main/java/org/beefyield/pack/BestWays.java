package org.beefyield.pack;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.estimate.Difference;
import org.beefyield.price.Money;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * The way of each cut that is expected to return most of a carcass, beside the fixed specification. Labour is not counted.
 *
 * @param fixed value under the fixed specification
 * @param best value under the best ways; the fixed ones if nothing is better
 * @param unpriced ways that could not be looked at for lack of a price, by cut, with the reason
 * @param assumed those of the best ways that the fixed specification doesn't have and that rest on rows which the maker of
 *     the table assumed, such as {@code striploin as joints}
 * @param change what the best ways bring beyond the fixed ones if every piece fits, with its uncertainty, or null if the fixed
 *     ones are the best
 */
public record BestWays(
        PackedValue fixed,
        PackedValue best,
        Map<String, String> unpriced,
        List<String> assumed,
        @Nullable Difference change)
        implements ShownInBlocks {
    /** Copies map and list. */
    public BestWays {
        Objects.requireNonNull(fixed, "fixed");
        Objects.requireNonNull(best, "best");
        Checks.noNullIn(unpriced, "unpriced");
        Checks.noNullIn(assumed, "assumed");
        unpriced = Map.copyOf(unpriced);
        assumed = List.copyOf(assumed);
    }

    /**
     * What the best ways are expected to bring beyond the fixed ones, labour not counted.
     *
     * @return amount, 0 or more
     */
    public double gain() {
        return best.expected() - fixed.expected();
    }

    /**
     * How sure the gain is: what the carcass brings in the best ways beyond the fixed ones if every piece fits, with the interval
     * of what will be weighed and of what is expected. Errors that both have in common cancel. Pieces that don't fit are in
     * {@link #gain}, not in this.
     *
     * @return the difference, in the currency in place of kg, or empty if the fixed ways are the best
     */
    public Optional<Difference> uncertainty() {
        return Optional.ofNullable(change);
    }

    /**
     * The gain as money.
     *
     * @return amount rounded to the list's decimals
     */
    public Money gainMoney() {
        return fixed.prices().money(gain());
    }

    /**
     * The cuts that go another way than under the fixed specification.
     *
     * @return way by code of cut
     */
    public Map<String, String> changed() {
        return changed(fixed, best);
    }

    static Map<String, String> changed(PackedValue fixed, PackedValue best) {
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
        return new BestWaysText(this).blocks();
    }

    /**
     * One line.
     *
     * @return what changes and what that is expected to bring
     */
    @Override
    public String toString() {
        return new BestWaysText(this).sentence();
    }
}
