package org.beefyield.carcass;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

/**
 * Sex and age category of a carcass, Regulation (EU) No 1308/2013, Annex IV, part A.
 *
 * <p>The letter is the one on the kill sheet; {@link #parse(String)} reads it and {@link #toString()} prints it.
 */
public enum Category {
    /** C: castrated male of 12 months and over. */
    STEER("C", "steers", "castrated male of 12 months and over", 12, Integer.MAX_VALUE),
    /** A: uncastrated male from 12 to under 24 months. */
    YOUNG_BULL("A", "young bulls", "uncastrated male from 12 to under 24 months", 12, 24),
    /** B: uncastrated male of 24 months and over. */
    BULL("B", "bulls", "uncastrated male of 24 months and over", 24, Integer.MAX_VALUE),
    /** D: female that has calved; the law sets no age. */
    COW("D", "cows", "female that has calved", 0, Integer.MAX_VALUE),
    /** E: other female of 12 months and over. */
    HEIFER("E", "heifers", "other female of 12 months and over", 12, Integer.MAX_VALUE),
    /** Z: from 8 to under 12 months, either sex. */
    CALF("Z", "calves", "from 8 to under 12 months, either sex", 8, 12);

    /** Oldest age taken for that of an animal; anything above is a slip of the pen (our limit, no source). */
    private static final int MOST_MONTHS = 600;

    private final String letter;
    private final String plural;
    private final String definition;
    private final int fromMonths;
    private final int belowMonths;

    Category(String letter, String plural, String definition, int fromMonths, int belowMonths) {
        this.letter = letter;
        this.plural = plural;
        this.definition = definition;
        this.fromMonths = fromMonths;
        this.belowMonths = belowMonths;
    }

    /**
     * The letter of EU law.
     *
     * @return one of C A B D E Z
     */
    public String letter() {
        return letter;
    }

    /**
     * What the law says the category holds, in words.
     *
     * @return such as {@code castrated male of 12 months and over}
     */
    public String definition() {
        return definition;
    }

    /**
     * What the trade calls several of them.
     *
     * @return such as {@code young bulls}
     */
    public String plural() {
        return plural;
    }

    /**
     * Checks an age against the limits of this category.
     *
     * @param ageMonths completed months of age at slaughter
     * @throws IllegalArgumentException if the age is negative, above 600 months, or the law puts it in another category
     */
    public void checkAge(int ageMonths) {
        if (ageMonths > MOST_MONTHS) {
            throw new IllegalArgumentException("age " + ageMonths + " months is above " + MOST_MONTHS + " months");
        }
        if (ageMonths < fromMonths || ageMonths >= belowMonths) {
            throw new IllegalArgumentException(
                    "age " + ageMonths + " months does not fit category " + letter + " (" + definition + ")");
        }
    }

    /**
     * Reads a category letter, upper or lower case, blanks around it ignored.
     *
     * @param text a letter
     * @return the category
     * @throws IllegalArgumentException if the text is no category letter
     */
    public static Category parse(String text) {
        Objects.requireNonNull(text, "text");
        String wanted = text.strip().toUpperCase(Locale.ROOT);
        for (Category category : values()) {
            if (category.letter.equals(wanted)) {
                return category;
            }
        }
        throw new IllegalArgumentException("category \"" + text + "\" is none of "
                + Arrays.stream(values()).map(Category::letter).collect(Collectors.joining(" ")));
    }

    /**
     * The letter.
     *
     * @return one of C A B D E Z
     */
    @Override
    public String toString() {
        return letter;
    }
}
