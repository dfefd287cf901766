package org.beefyield.data.table;

import org.beefyield.table.YieldTable;

/** The table editions that come with this library. An edition, once shipped, never changes. */
public final class ShippedTables {
    private static final String FOLDER = "org/beefyield/data/tables/";

    private ShippedTables() {}

    /**
     * Edition {@code boneless-2026}: boneless primals and their retail cuts, from published dissections. The page beside
     * its files says what it rests on.
     *
     * @return the table, read and proved at the first call; later ones return the same
     */
    public static YieldTable boneless2026() {
        return Boneless2026.TABLE;
    }

    /** Loaded when the table is first asked for. */
    private static final class Boneless2026 {
        private static final YieldTable TABLE =
                TableReader.read(ShippedTables.class.getClassLoader(), FOLDER + "boneless-2026");
    }
}
