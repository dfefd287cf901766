package org.beefyield.price;

/** What a difference is shared out to. */
public enum Factor {
    /** Cold weight. */
    WEIGHT("weight"),
    /** Category; of lots the share of each. */
    CATEGORY("category"),
    /** Conformation; of lots its mean. */
    CONFORMATION("conformation"),
    /** Fat class; of lots its mean. */
    FAT_CLASS("fat class"),
    /** Cutting specification and mince. */
    CUTTING("cutting"),
    /** Prices and other income and cost. */
    PRICE("prices"),
    /** Of lots, what their averages don't show. */
    MIX("mix of grades and weights");

    private final String words;

    Factor(String words) {
        this.words = words;
    }

    /**
     * The factor in words.
     *
     * @return such as {@code fat class}
     */
    public String words() {
        return words;
    }
}
