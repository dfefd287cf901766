package org.beefyield.text;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

/** What to offer who asks for a name that isn't there. */
public final class Names {
    private static final int OFFERED = 3;

    private Names() {}

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
