package org.beefyield.cut;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.text.Checks;
import org.beefyield.text.Names;
import org.jspecify.annotations.Nullable;

/** The cuts of one table, in the order in which they print. Immutable. */
public final class CutCatalogue {

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
                + (byCode.isEmpty() ? "the catalogue is empty" : "nearest: " + Names.nearest(code, byCode.keySet()));
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
