package org.beefyield.data.killsheet;

import org.beefyield.data.Problem;

/** Takes a kill sheet row by row, in the order of the file, so that a long one needn't be held. */
public interface KillSheetHandler {
    /**
     * Takes a row that can be used.
     *
     * @param entry the row
     */
    void entry(KillSheetEntry entry);

    /**
     * Takes what is wrong with a row, or with the whole file; a row may have several problems, and then has no entry.
     *
     * @param problem file, line, column, value and what would be valid
     */
    void problem(Problem problem);

    /**
     * Takes a condemned carcass. Ignores it by default: the counts have it.
     *
     * @param condemned the row
     */
    default void condemned(KillSheet.Condemned condemned) {}

    /**
     * Takes something worth knowing about a row that is used all the same; it comes before its row. Ignores it by
     * default.
     *
     * @param note file, line, column, value and what is worth knowing
     */
    default void note(Problem note) {}

    /**
     * Takes how far the reading has come, about once a second, and once more behind the last row. Ignores it by default.
     *
     * @param progress rows, refused rows and rows a second
     */
    default void progress(KillSheet.Progress progress) {}
}
