package org.beefyield.frame;

import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a column of numbers comes to over all rows: their sum, their mean weighted by another column, or nothing. Immutable.
 */
public final class Total {
    /** The sum: of kg, of head, of money. */
    public static final Total SUM = new Total("sum", null);

    /** Nothing; the total is blank: of an age, the end of an interval, a mean of means. */
    public static final Total NONE = new Total("none", null);

    private static final String WEIGHTED = "mean weighted by ";

    private final String words;
    private final @Nullable String weight;

    private Total(String words, @Nullable String weight) {
        this.words = words;
        this.weight = weight;
    }

    /**
     * The mean, weighted: of shares of the cold weight by the cold weight, of prices a kg by the kg.
     *
     * @param column name of the column of weights; the total is blank in a frame that has no such column, or of whose
     *     weights one is below 0 or all are 0
     * @return the total
     * @throws IllegalArgumentException if the name is blank
     */
    public static Total meanWeightedBy(String column) {
        if (Objects.requireNonNull(column, "column").isBlank()) {
            throw new IllegalArgumentException("the name of the column of weights is blank");
        }
        return new Total(WEIGHTED + column, column);
    }

    /**
     * Reads a total.
     *
     * @param text {@code sum}, {@code none}, or {@code mean weighted by} and the name of a column, as {@link #toString()}
     *     prints them
     * @return the total
     * @throws IllegalArgumentException if it is none of these
     */
    public static Total parse(String text) {
        Objects.requireNonNull(text, "text");
        if (text.startsWith(WEIGHTED) && text.length() > WEIGHTED.length()) {
            return meanWeightedBy(text.substring(WEIGHTED.length()));
        }
        return switch (text) {
            case "sum" -> SUM;
            case "none" -> NONE;
            default ->
                throw new IllegalArgumentException(
                        "\"" + text + "\" is no total; sum, none, or mean weighted by and the name of a column are");
        };
    }

    /**
     * What the mean is weighted by.
     *
     * @return name of the column of weights, or empty if the total is no mean
     */
    public Optional<String> weight() {
        return Optional.ofNullable(weight);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Total that && words.equals(that.words);
    }

    @Override
    public int hashCode() {
        return words.hashCode();
    }

    /**
     * In words.
     *
     * @return such as {@code mean weighted by cold weight}
     */
    @Override
    public String toString() {
        return words;
    }
}
