package org.beefyield.cut;

import java.io.Serializable;
import java.util.Objects;
import java.util.OptionalDouble;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * A cut of a table. Immutable. {@link #of} makes one with nothing but its name, level and kind; what else is known is said
 * with the other calls.
 *
 * @serial exclude
 */
public final class Cut implements Serializable {
    private static final long serialVersionUID = 1;

    /** Name of the pieces per side in files and messages. */
    public static final String PIECES_PER_SIDE = "pieces_per_side";

    /** Name of the SD of one side's piece in files and messages. */
    public static final String SIDE_SPLIT_SD_PCT = "side_split_sd_pct";

    /** Name of the fat content in files and messages. */
    public static final String FAT_PCT = "fat_pct";

    private final String code;
    private final String name;
    private final String level;
    private final CutKind kind;
    private final @Nullable Double piecesPerSide;
    private final @Nullable Double sideSplitSdPct;
    private final @Nullable Double fatPct;
    private final String unece;
    private final String note;

    private Cut(
            String code,
            String name,
            String level,
            CutKind kind,
            @Nullable Double piecesPerSide,
            @Nullable Double sideSplitSdPct,
            @Nullable Double fatPct,
            String unece,
            String note) {
        this.code = Objects.requireNonNull(code, "code");
        this.name = Objects.requireNonNull(name, "name");
        this.level = Objects.requireNonNull(level, "level");
        this.kind = Objects.requireNonNull(kind, "kind");
        this.piecesPerSide = piecesPerSide;
        this.sideSplitSdPct = sideSplitSdPct;
        this.fatPct = fatPct;
        this.unece = Objects.requireNonNull(unece, "unece");
        this.note = Objects.requireNonNull(note, "note");
        if (!code.matches("[a-z0-9]++(?:-[a-z0-9]++)*+")) {
            throw new IllegalArgumentException(
                    "cut \"" + code + "\" is not lower-case letters and digits joined by single hyphens");
        }
        checkRange(PIECES_PER_SIDE, piecesPerSide, Double.MIN_VALUE, 100);
        checkRange(SIDE_SPLIT_SD_PCT, sideSplitSdPct, 0, 100);
        checkRange(FAT_PCT, fatPct, 0, 100);
    }

    private static void checkRange(String column, @Nullable Double value, double low, double high) {
        if (value != null && !(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    column + " " + Numbers.exact(value) + " is outside 0 to 100" + (low > 0 ? " (0 excluded)" : ""));
        }
    }

    /**
     * A cut with nothing but its name, level and kind.
     *
     * @param code short name used in files and calls: lower-case letters, digits and hyphens, such as {@code eye-of-round}
     * @param name name for people, such as {@code Eye of round}
     * @param level the first level of the table at which the cut stands
     * @param kind what sort of thing it is
     * @return the cut
     * @throws IllegalArgumentException if the code has other characters
     */
    public static Cut of(String code, String name, String level, CutKind kind) {
        return new Cut(code, name, level, kind, null, null, null, "", "");
    }

    /**
     * The same cut with pieces of it in one side.
     *
     * @param newPiecesPerSide pieces of it in one side, above 0 and at most 100, or null if it isn't sold by the piece; 0.5 is one piece per
     *     carcass
     * @return a cut
     * @throws IllegalArgumentException if it is outside that range
     */
    public Cut withPiecesPerSide(@Nullable Double newPiecesPerSide) {
        return new Cut(code, name, level, kind, newPiecesPerSide, sideSplitSdPct, fatPct, unece, note);
    }

    /**
     * The same cut with SD of one side's piece.
     *
     * @param newSideSplitSdPct SD of one side's piece around half of both, per cent of that half, 0 to 100, or null if not stated
     * @return a cut
     * @throws IllegalArgumentException if it is outside that range
     */
    public Cut withSideSplitSdPct(@Nullable Double newSideSplitSdPct) {
        return new Cut(code, name, level, kind, piecesPerSide, newSideSplitSdPct, fatPct, unece, note);
    }

    /**
     * The same cut with fat content.
     *
     * @param newFatPct of fat trim: its own fat content, per cent by weight; of a cut that is broken down into lean trim: the fat
     *     content of the lean trim that comes from it; 0 to 100, or null if not stated
     * @return a cut
     * @throws IllegalArgumentException if it is outside that range
     */
    public Cut withFatPct(@Nullable Double newFatPct) {
        return new Cut(code, name, level, kind, piecesPerSide, sideSplitSdPct, newFatPct, unece, note);
    }

    /**
     * The same cut with item numbers of the UNECE standard.
     *
     * @param newUnece item numbers of the UNECE standard for bovine meat, blank-separated, empty if none fits
     * @return a cut
     */
    public Cut withUnece(String newUnece) {
        Objects.requireNonNull(newUnece, "newUnece");
        return new Cut(code, name, level, kind, piecesPerSide, sideSplitSdPct, fatPct, newUnece, note);
    }

    /**
     * The same cut with note for readers of the table.
     *
     * @param newNote anything a reader of the table should know, empty if nothing
     * @return a cut
     */
    public Cut withNote(String newNote) {
        Objects.requireNonNull(newNote, "newNote");
        return new Cut(code, name, level, kind, piecesPerSide, sideSplitSdPct, fatPct, unece, newNote);
    }

    /**
     * Short name used in files and calls.
     *
     * @return short name used in files and calls: lower-case letters, digits and hyphens, such as {@code eye-of-round}
     */
    public String code() {
        return code;
    }

    /**
     * Name for people.
     *
     * @return name for people, such as {@code Eye of round}
     */
    public String name() {
        return name;
    }

    /**
     * The first level at which it stands.
     *
     * @return the first level of the table at which the cut stands
     */
    public String level() {
        return level;
    }

    /**
     * What sort of thing it is.
     *
     * @return what sort of thing it is
     */
    public CutKind kind() {
        return kind;
    }

    /**
     * Pieces of it in one side.
     *
     * @return pieces of it in one side, or null if it isn't sold by the piece; 0.5 is one piece per
     *     carcass
     */
    public @Nullable Double piecesPerSide() {
        return piecesPerSide;
    }

    /**
     * SD of one side's piece.
     *
     * @return SD of one side's piece around half of both, per cent of that half, or null if not stated
     */
    public @Nullable Double sideSplitSdPct() {
        return sideSplitSdPct;
    }

    /**
     * Fat content.
     *
     * @return of fat trim: its own fat content, per cent by weight; of a cut that is broken down into lean trim: the fat
     *     content of the lean trim that comes from it, or null if not stated
     */
    public @Nullable Double fatPct() {
        return fatPct;
    }

    /**
     * Item numbers of the UNECE standard.
     *
     * @return item numbers of the UNECE standard for bovine meat, blank-separated, empty if none fits
     */
    public String unece() {
        return unece;
    }

    /**
     * Note for readers of the table.
     *
     * @return anything a reader of the table should know, empty if nothing
     */
    public String note() {
        return note;
    }

    /**
     * Weight of one piece.
     *
     * @param kg kg of the cut in the whole carcass
     * @return mean kg of one piece, or empty if the cut isn't sold by the piece
     */
    public OptionalDouble pieceKg(double kg) {
        return piecesPerSide == null ? OptionalDouble.empty() : OptionalDouble.of(kg / (2 * piecesPerSide));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Cut that
                && code.equals(that.code)
                && name.equals(that.name)
                && level.equals(that.level)
                && kind == that.kind
                && Objects.equals(piecesPerSide, that.piecesPerSide)
                && Objects.equals(sideSplitSdPct, that.sideSplitSdPct)
                && Objects.equals(fatPct, that.fatPct)
                && unece.equals(that.unece)
                && note.equals(that.note);
    }

    @Override
    public int hashCode() {
        return Objects.hash(code, name, level, kind, piecesPerSide, sideSplitSdPct, fatPct, unece, note);
    }

    /**
     * One line.
     *
     * @return such as {@code striploin (Striploin), primal of level primal}
     */
    @Override
    public String toString() {
        return code + " (" + name + "), " + kind.code() + " of level " + level;
    }
}
