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
     * @return the table, read and proved anew at each call; keep it
     */
    public static YieldTable boneless2026() {
        return TableReader.read(ShippedTables.class.getClassLoader(), FOLDER + "boneless-2026");
    }
}
