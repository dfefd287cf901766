package org.beefyield.data.killsheet;

import java.time.LocalDate;
import java.util.regex.Pattern;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.jspecify.annotations.Nullable;

/** Notes what is odd in a row beside those above it. */
final class OddRows {
    /** A shorter number is a kill number, which may have any length, and no tag. */
    private static final int SHORTEST_TAG = 8;

    private static final Pattern SHORTENED =
            Pattern.compile("[0-9][.,][0-9]+[eE]\\+?[0-9]{1,3}|[0-9][eE]\\+[0-9]{1,3}");

    /** Notes of one carcass in two places; where there are more, ids are numbers that start anew each day or lot. */
    private static final int MOST_REPEATED = 20;

    private int repeated;

    /** Digits of the longest number among the ids so far, and its line. */
    private int digits;

    private long digitsLine;
    private @Nullable LocalDate day;
    private long dayLine;

    /** Looks at a row that is used; the line in which its carcass stands in another lot or on another day, or 0. */
    void look(KillSheetRow row, @Nullable LocalDate killDate, long elsewhere) {
        if (elsewhere > 0 && repeated < MOST_REPEATED) {
            repeated++;
            row.note(
                    Column.CARCASS,
                    "stands in line " + elsewhere + " too, in another lot or on another day"
                            + (repeated < MOST_REPEATED
                                    ? ""
                                    : "; so did " + (MOST_REPEATED - 1)
                                            + " above, and no more is said of it: these may be numbers that start anew"));
        }
        lookAtId(row, row.text(Column.CARCASS));
        if (killDate != null) {
            LocalDate above = day;
            if (above != null && row.line() > dayLine && killDate.isBefore(above)) {
                row.note(
                        Column.KILL_DATE,
                        "kill date " + killDate + " is before " + above + ", that of line " + dayLine + " above it");
            }
            if (row.line() > dayLine) {
                day = killDate;
                dayLine = row.line();
            }
        }
    }

    private void lookAtId(KillSheetRow row, String id) {
        if (SHORTENED.matcher(id).matches()) {
            row.note(
                    Column.CARCASS,
                    "the id looks like a number that a spreadsheet has shortened; its last digits may be lost");
            return;
        }
        if (!id.chars().allMatch(c -> c >= '0' && c <= '9')) {
            return;
        }
        boolean odd = digits >= SHORTEST_TAG && id.length() != digits;
        if (odd) {
            row.note(
                    Column.CARCASS,
                    "the id has " + id.length() + " digits, that of line " + digitsLine + " has " + digits
                            + "; the shorter one may have lost its leading digits");
        }
        if (id.length() > digits) {
            digits = id.length();
            digitsLine = row.line();
        }
    }
}
