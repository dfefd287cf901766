package org.beefyield.reconcile;

/** What a difference between expected and weighed is shared out to, in the order in which it is worked out. */
public enum Cause {
    /** Other grades and weights than those of the baseline. */
    MIX("mix of grades"),
    /** Another way of cutting than the baseline's. */
    WAY("way of cutting"),
    /** The intake weighed more or less than the carcasses' cold weight: scale and chill. */
    WEIGHT("intake weight"),
    /** More or less came off the line than that intake should return. */
    CUTTING("cutting"),
    /** Boxes packed as something less than what was cut. */
    DOWNGRADED("downgraded boxes"),
    /** Other prices than those of the baseline. */
    PRICE("prices");

    private final String words;

    Cause(String words) {
        this.words = words;
    }

    /**
     * The cause in words.
     *
     * @return such as {@code intake weight}
     */
    public String words() {
        return words;
    }

    /**
     * Whether kilograms can differ for it; the others are causes of money alone.
     *
     * @return true of all but downgraded boxes and prices
     */
    public boolean movesKg() {
        return this != DOWNGRADED && this != PRICE;
    }
}
