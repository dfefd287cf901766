package org.beefyield.cut;

import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/** The cuts of one table, in the order in which they print. Immutable. */
public final class CutCatalogue {
    private static final int OFFERED = 3;

    private final Map<String, Cut> byCode;

    private CutCatalogue(Map<String, Cut> byCode) {
        this.byCode = byCode;
    }

    /**
     * A catalogue of these cuts.
     *
     * @param cuts cuts in printing order
     * @return the catalogue
     * @throws IllegalArgumentException if a code stands twice
     */
    public static CutCatalogue of(List<Cut> cuts) {
        Checks.noNullIn(cuts, "cuts");
        Map<String, Cut> byCode = new LinkedHashMap<>();
        for (Cut cut : cuts) {
            if (byCode.put(cut.code(), cut) != null) {
                throw new IllegalArgumentException("cut \"" + cut.code() + "\" stands twice in the catalogue");
            }
        }
        return new CutCatalogue(byCode);
    }

    /**
     * The cut of a code.
     *
     * @param code code
     * @return the cut
     * @throws IllegalArgumentException if there is none; the message offers the nearest codes
     */
    public Cut cut(String code) {
        Objects.requireNonNull(code, "code");
        return find(code).orElseThrow(() -> new IllegalArgumentException(unknown(code)));
    }

    /**
     * The cut of a code, if there is one.
     *
     * @param code code
     * @return the cut, or empty
     */
    public Optional<Cut> find(String code) {
        Objects.requireNonNull(code, "code");
        return Optional.ofNullable(byCode.get(code));
    }

    /**
     * The cuts in printing order.
     *
     * @return an unmodifiable list
     */
    public List<Cut> cuts() {
        return List.copyOf(byCode.values());
    }

    /**
     * What to say about a code that isn't here: the code and the nearest ones that are.
     *
     * @param code code
     * @return such as {@code no cut "stripoin"; nearest: striploin, topside, brisket}
     */
    public String unknown(String code) {
        Objects.requireNonNull(code, "code");
        return "no cut \"" + code + "\"; "
                + (byCode.isEmpty() ? "the catalogue is empty" : "nearest: " + nearest(code, byCode.keySet()));
    }

    /**
     * The codes that are nearest to one that is not among them.
     *
     * @param code code
     * @param known codes that there are
     * @return such as {@code striploin, topside, brisket}, empty if there are none
     */
    public static String nearest(String code, Collection<String> known) {
        Objects.requireNonNull(code, "code");
        Checks.noNullIn(known, "known");
        String meant = code.strip().toLowerCase(Locale.ROOT).replace(' ', '-').replace('_', '-');
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

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CutCatalogue that && cuts().equals(that.cuts());
    }

    @Override
    public int hashCode() {
        return cuts().hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code 3 cuts: striploin, rump, bone}
     */
    @Override
    public String toString() {
        return byCode.size() + (byCode.size() == 1 ? " cut: " : " cuts: ") + String.join(", ", byCode.keySet());
    }
}
