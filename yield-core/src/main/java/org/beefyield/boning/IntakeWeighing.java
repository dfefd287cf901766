package org.beefyield.boning;

import org.beefyield.text.Names;

/**
 * What the intake weights of a run are. The three differ by more than a good day from a bad one, so a run says which of them
 * it has.
 */
public enum IntakeWeighing {
    /** Cold by law: 0.98 of the hot weight, Commission Delegated Regulation (EU) 2017/1182, Art. 14(3). */
    COLD_BY_LAW("cold by law, 0.98 of the hot weight"),
    /** Weighed cold as it goes to the boning line. */
    COLD_WEIGHED("weighed cold"),
    /** Weighed hot, within 60 minutes of sticking. */
    HOT("weighed hot");

    private final String words;

    IntakeWeighing(String words) {
        this.words = words;
    }

    /**
     * In words.
     *
     * @return such as {@code weighed cold}
     */
    public String words() {
        return words;
    }

    /**
     * The name used in files and output.
     *
     * @return such as {@code cold-weighed}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code cold-weighed}
     * @return how the intake was weighed
     * @throws IllegalArgumentException if there is none of that name
     */
    public static IntakeWeighing parse(String code) {
        return Names.parse(IntakeWeighing.class, "weighing", code);
    }
}
