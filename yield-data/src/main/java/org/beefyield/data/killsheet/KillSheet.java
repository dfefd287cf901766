package org.beefyield.data.killsheet;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Problem;

/**
 * What a kill sheet holds, nothing lost: each row is an entry, a condemned carcass, or has one or more problems.
 *
 * @param file name of the file
 * @param counts number of rows of each kind
 * @param entries rows that can be used, in the order of the file
 * @param condemned condemned carcasses
 * @param problems everything wrong with the other rows, each problem with its line; line 0 if the sheet has no row at
 *     all
 * @param notes what is worth knowing about rows that are used all the same
 */
public record KillSheet(
        String file,
        Counts counts,
        List<KillSheetEntry> entries,
        List<Condemned> condemned,
        List<Problem> problems,
        List<Problem> notes) {
    /** Copies the lists. */
    public KillSheet {
        entries = List.copyOf(entries);
        condemned = List.copyOf(condemned);
        problems = List.copyOf(problems);
        notes = List.copyOf(notes);
    }

    /**
     * How many rows a sheet has.
     *
     * @param rows all, without the header and blank lines
     * @param entries rows that can be used
     * @param condemned condemned carcasses
     * @param refused rows with one or more problems; {@code entries + condemned + refused = rows}
     */
    public record Counts(long rows, long entries, long condemned, long refused) {}

    /**
     * How far the reading of a sheet has come.
     *
     * @param rows rows read so far, without the header and blank lines
     * @param refused how many of them had one or more problems
     * @param rowsPerSecond rows a second since the reading began, with what the caller did with them
     */
    public record Progress(long rows, long refused, double rowsPerSecond) {}

    /**
     * A condemned carcass.
     *
     * @param line number of its line in the file, counted from 1
     * @param id its id
     * @param killDate day of slaughter
     * @param lot its lot
     * @param supplier its supplier
     * @param cells all cells of the row, name of the column in the sheet to text as it stands there, in the sheet's
     *     order
     */
    public record Condemned(
            long line,
            String id,
            Optional<LocalDate> killDate,
            Optional<String> lot,
            Optional<String> supplier,
            Map<String, String> cells) {
        /**
         * Copies the cells.
         */
        public Condemned {
            cells = Collections.unmodifiableMap(new LinkedHashMap<>(cells));
        }
    }

    /**
     * The carcasses of the entries.
     *
     * @return in the order of the file
     */
    public List<Carcass> carcasses() {
        return entries.stream().map(KillSheetEntry::carcass).toList();
    }

    /**
     * One line with the counts.
     *
     * @return such as {@code sheet.csv: 30 rows, 21 used, 1 condemned, 8 refused, 2 notes}
     */
    @Override
    public String toString() {
        return file + ": " + counts.rows() + (counts.rows() == 1 ? " row, " : " rows, ") + counts.entries() + " used, "
                + counts.condemned() + " condemned, " + counts.refused() + " refused, " + notes.size() + " notes";
    }
}
