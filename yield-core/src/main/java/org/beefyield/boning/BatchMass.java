package org.beefyield.boning;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * What went into a batch and what was packed from it, in whole grams.
 *
 * @param hall name of the hall, or empty
 * @param batch name of the batch
 * @param days days on which it was boned or packed
 * @param carcasses how many carcasses have a piece in it
 * @param pieces how many pieces were boned in it
 * @param bonedG what they weigh, g
 * @param boxes how many boxes were packed from it, those packed again left out
 * @param boxedG by the product that was cut, what these boxes hold, g
 */
public record BatchMass(
        String hall,
        String batch,
        List<String> days,
        int carcasses,
        int pieces,
        long bonedG,
        int boxes,
        Map<String, Long> boxedG) {
    /** Copies the collections. */
    public BatchMass {
        Objects.requireNonNull(hall, "hall");
        Objects.requireNonNull(batch, "batch");
        Checks.noNullIn(days, "days");
        Checks.noNullIn(boxedG, "boxedG");
        days = List.copyOf(days);
        boxedG = Collections.unmodifiableMap(new LinkedHashMap<>(boxedG));
    }

    /**
     * What was packed from it.
     *
     * @return g
     */
    public long allBoxedG() {
        return boxedG.values().stream().mapToLong(Long::longValue).sum();
    }

    /**
     * What the batch goes by.
     *
     * @return such as {@code batch B7 of Mereside}
     */
    public String name() {
        return name(hall, batch);
    }

    static String name(String hall, String batch) {
        return "batch " + batch + (hall.isEmpty() ? "" : " of " + hall);
    }
}
