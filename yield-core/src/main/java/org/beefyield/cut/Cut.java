package org.beefyield.cut;

import java.io.Serializable;
import java.util.OptionalDouble;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * A cut of a table.
 *
 * @param code short name used in files and calls: lower-case letters, digits and hyphens, such as {@code eye-of-round}
 * @param name name for people, such as {@code Eye of round}
 * @param level the first level of the table at which the cut stands
 * @param kind what sort of thing it is
 * @param piecesPerSide pieces of it in one side, above 0, or null if it isn't sold by the piece; 0.5 is one piece per
 *     carcass
 * @param sideSplitSdPct SD of one side's piece around half of both, per cent of that half, or null if not stated
 * @param fatPct of fat trim: its own fat content, per cent by weight; of a cut that is broken down into lean trim: the
 *     fat content of the lean trim that comes from it; null if not stated
 * @param unece item numbers of the UNECE standard for bovine meat, blank-separated, empty if none fits
 * @param note anything a reader of the table should know, empty if nothing
 * @serial exclude
 */
public record Cut(
        String code,
        String name,
        String level,
        CutKind kind,
        @Nullable Double piecesPerSide,
        @Nullable Double sideSplitSdPct,
        @Nullable Double fatPct,
        String unece,
        String note)
        implements Serializable {
    /** Name of the pieces per side in files and messages. */
    public static final String PIECES_PER_SIDE = "pieces_per_side";

    /** Name of the SD of one side's piece in files and messages. */
    public static final String SIDE_SPLIT_SD_PCT = "side_split_sd_pct";

    /** Name of the fat content in files and messages. */
    public static final String FAT_PCT = "fat_pct";

    /**
     * Checks the code and the figures.
     *
     * @throws IllegalArgumentException if the code has other characters, or a figure is outside its range
     */
    public Cut {
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
     * @param code code
     * @param name name for people
     * @param level first level at which it stands
     * @param kind kind
     * @return the cut
     */
    public static Cut of(String code, String name, String level, CutKind kind) {
        return new Cut(code, name, level, kind, null, null, null, "", "");
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
}
