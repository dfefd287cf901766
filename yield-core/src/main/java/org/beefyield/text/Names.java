package org.beefyield.text;

import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

/** Names as files have them, and what to offer who asks for one that isn't there. */
public final class Names {
    private static final int OFFERED = 3;

    private Names() {}

    /**
     * The name of a constant in files and output.
     *
     * @param constant one of a closed set of things
     * @return its name in small letters, hyphens for the underscores, such as {@code lean-trim}
     */
    public static String code(Enum<?> constant) {
        return Objects.requireNonNull(constant, "constant")
                .name()
                .toLowerCase(Locale.ROOT)
                .replace('_', '-');
    }

    /**
     * A text as it begins a sentence or a line.
     *
     * @param text text
     * @return the text, its first letter a capital
     */
    public static String capital(String text) {
        Objects.requireNonNull(text, "text");
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /**
     * The constant that goes by a name in files.
     *
     * @param type the closed set of things
     * @param what what the name stands for, as a message calls it
     * @param code a name as {@link #code} makes it
     * @param <E> type of the constants
     * @return the constant
     * @throws IllegalArgumentException if there is none of that name; the message lists those that there are
     */
    public static <E extends Enum<E>> E parse(Class<E> type, String what, String code) {
        Objects.requireNonNull(type, "type");
        Objects.requireNonNull(what, "what");
        Objects.requireNonNull(code, "code");
        EnumSet<E> all = EnumSet.allOf(type);
        for (E constant : all) {
            if (code(constant).equals(code)) {
                return constant;
            }
        }
        throw new IllegalArgumentException(what + " \"" + code + "\" is none of "
                + all.stream().map(Names::code).collect(Collectors.joining(" ")));
    }

    /**
     * The names that are nearest to one that is not among them.
     *
     * @param name name that was asked for
     * @param known names that there are
     * @return such as {@code striploin, topside, brisket}, empty if there are none
     */
    public static String nearest(String name, Collection<String> known) {
        Objects.requireNonNull(name, "name");
        Checks.noNullIn(known, "known");
        String meant = name.strip().toLowerCase(Locale.ROOT).replace(' ', '-').replace('_', '-');
        return known.stream()
                .sorted(Comparator.comparingInt(one -> distance(meant, one)))
                .limit(OFFERED)
                .collect(Collectors.joining(", "));
    }

    /** Levenshtein's edit distance. */
    private static int distance(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int substituted = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(substituted, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[b.length()];
    }
}
