package org.beefyield.boning;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

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
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code cold-weighed}
     * @return how the intake was weighed
     * @throws IllegalArgumentException if there is none of that name
     */
    public static IntakeWeighing parse(String code) {
        Objects.requireNonNull(code, "code");
        for (IntakeWeighing weighing : values()) {
            if (weighing.code().equals(code)) {
                return weighing;
            }
        }
        throw new IllegalArgumentException("weighing \"" + code + "\" is none of "
                + Arrays.stream(values()).map(IntakeWeighing::code).collect(Collectors.joining(" ")));
    }
}
