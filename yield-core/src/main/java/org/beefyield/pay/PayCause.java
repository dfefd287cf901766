package org.beefyield.pay;

/** In what carcasses differ from others so that more or less was paid for them than they are worth. */
public enum PayCause {
    /** Category. */
    CATEGORY("category"),
    /** Cold weight. */
    WEIGHT("weight"),
    /** Conformation. */
    CONFORMATION("conformation"),
    /** Fat class. */
    FAT_CLASS("fat class"),
    /** Being in specification, for which a grid may have a bonus. */
    SPECIFICATION("specification");

    private final String words;

    PayCause(String words) {
        this.words = words;
    }

    /**
     * The cause in words.
     *
     * @return such as {@code fat class}
     */
    public String words() {
        return words;
    }
}
