package org.beefyield.feedback;

import java.util.List;
import java.util.Objects;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Checks;

/**
 * What a sentence of advice is about.
 *
 * @param cause why the customer doesn't take the animals
 * @param animals the animals that it concerns, one or more
 */
public record AdviceFact(Cause cause, List<YieldEstimate> animals) {
    /** Why animals are not taken, as far as a sentence can be said about it. */
    public enum Cause {
        /** Too heavy, and sold sooner they would have been within the limit. */
        TOO_HEAVY,
        /** Too light, and a little longer on feed would have brought them in. */
        TOO_LIGHT,
        /** Too fat, and drawn sooner they would have been leaner. */
        TOO_FAT,
        /** Too lean, and a longer finish would have covered them better. */
        TOO_LEAN,
        /** Too old, and booked in earlier they would have been under age. */
        TOO_OLD,
        /** Too fat at a weight that is not too high: sooner they would have been too light. */
        FAT_FOR_WEIGHT,
        /** Sent in without an age. */
        NO_AGE,
        /** Not farm-assured. */
        NOT_ASSURED,
        /** Sent in without a word on farm assurance. */
        ASSURANCE_NOT_STATED,
        /** Older than the time of a sale decides. */
        OLDER_CATTLE,
        /** Of a category that isn't taken. */
        CATEGORY,
        /** Of plainer shape. */
        PLAINER,
        /** Of better shape. */
        BETTER
    }

    /** Copies the list. */
    public AdviceFact {
        Checks.noNullIn(animals, "animals");
        Objects.requireNonNull(cause, "cause");
        animals = List.copyOf(animals);
    }
}
