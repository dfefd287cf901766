package org.beefyield.data.killsheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.beefyield.data.InputOpener;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.jspecify.annotations.Nullable;

/**
 * Reads kill sheets; {@link KillSheetFormat} says what they hold.
 *
 * <p>Every problem of every row is reported, and the other rows are read on. A sheet without rows is one problem of the
 * whole file. What can't be read as a kill sheet at all (no such file, an empty one, a pipe or device, a required column
 * missing, a header of more than 1000 columns) is an {@link InvalidDataException}. A line of more than 1 MiB or a
 * cell of more than 1000 characters is a problem. Read whole, a sheet has at most 100,000 problems and 10 million cells; read row by row there is no such limit.
 *
 * <p>A sheet packed with gzip is known by its first two bytes, whatever its name, and unpacked on the way, however large
 * it is then. One that was cut off, is damaged, or has something else behind it can't be read any further.
 */
public final class KillSheetReader {
    /** Most cells and problems of a sheet that is read whole: what fits in memory, far above a year of a large plant. */
    private static final long MOST_CELLS = 10_000_000;

    private static final int MOST_PROBLEMS = 100_000;

    /** Characters of a cell. */
    private static final int LONGEST_CELL = 1000;

    private static final int SHOWN = 200;

    /** Rows between two looks at the clock. */
    private static final int TOLD_AFTER = 256;

    private static final long TELLING_NANOS = 1_000_000_000;

    private final String file;
    private final KillSheetFormat format;
    private final KillSheetHandler handler;
    private final CarcassLines linesOfCarcasses = new CarcassLines();
    private final long begun = System.nanoTime();
    private long told = begun;
    private long refused;

    private KillSheetReader(String file, KillSheetFormat format, KillSheetHandler handler) {
        this.file = file;
        this.format = format;
        this.handler = handler;
    }

    /**
     * Reads a kill sheet in the standard format.
     *
     * @param file the file
     * @return everything in it
     * @throws InvalidDataException if it can't be read as a kill sheet at all
     */
    public static KillSheet read(Path file) {
        return read(file, KillSheetFormat.standard());
    }

    /**
     * Reads a kill sheet.
     *
     * @param file the file
     * @param format what its plant's sheets look like
     * @return everything in it
     * @throws InvalidDataException if it can't be read as a kill sheet at all
     */
    public static KillSheet read(Path file, KillSheetFormat format) {
        return read(file.toString(), () -> CsvReader.open(file), format);
    }

    /**
     * Reads a kill sheet that is no file.
     *
     * @param name what problems call it
     * @param source its bytes
     * @param format what its plant's sheets look like
     * @return everything in it
     * @throws InvalidDataException if it can't be read as a kill sheet at all
     */
    public static KillSheet read(String name, InputOpener source, KillSheetFormat format) {
        Collector all = new Collector(name, MOST_CELLS);
        KillSheet.Counts counts = read(name, source, format, all);
        return new KillSheet(name, counts, all.entries, all.condemned, all.problems, all.notes);
    }

    /**
     * Reads a kill sheet row by row. Of each row no more is kept than its lot and carcass, about 30 bytes.
     *
     * @param file the file
     * @param format what its plant's sheets look like
     * @param handler takes the rows; what it throws ends the reading and passes through
     * @return how many rows there were
     * @throws InvalidDataException if the file can't be read as a kill sheet at all, or no further; the rows before
     *     that place are with the handler by then
     */
    public static KillSheet.Counts read(Path file, KillSheetFormat format, KillSheetHandler handler) {
        return read(file.toString(), () -> CsvReader.open(file), format, handler);
    }

    /**
     * Reads a kill sheet that is no file row by row. Of each row no more is kept than its lot and carcass, about 30 bytes.
     *
     * @param name what problems call it
     * @param source its bytes
     * @param format what its plant's sheets look like
     * @param handler takes the rows; what it throws ends the reading and passes through
     * @return how many rows there were
     * @throws InvalidDataException if the source can't be read as a kill sheet at all, or no further; the rows before
     *     that place are with the handler by then
     */
    public static KillSheet.Counts read(
            String name, InputOpener source, KillSheetFormat format, KillSheetHandler handler) {
        try (InputStream packed = source.open();
                InputStream in = GzipInput.unpacked(packed)) {
            return new KillSheetReader(name, format, handler).read(in);
        } catch (IOException e) {
            String reason = e instanceof NoSuchFileException
                    ? "there is no such file"
                    : e instanceof AccessDeniedException ? "access is denied" : String.valueOf(e.getMessage());
            throw new InvalidDataException(
                    List.of(new Problem(name, 0, "", "", "the file can't be read: " + reason)), e);
        }
    }

    private KillSheet.Counts read(InputStream in) throws IOException {
        CsvReader csv = new CsvReader(file, in, format.separator(), format.charset(), problem -> {
            refused++;
            handler.problem(problem);
        });
        KillSheetRow.Layout layout = layout(csv.header());
        long entries = 0;
        long condemned = 0;
        for (CsvReader.Row cells = csv.next(); cells != null; cells = csv.next()) {
            Problem tooLong = tooLong(csv.header(), cells);
            if (csv.rows() % TOLD_AFTER == 0) {
                tell(csv.rows() - 1, false);
            }
            if (tooLong != null) {
                refused++;
                handler.problem(tooLong);
                continue;
            }
            KillSheetRow row = new KillSheetRow(file, format, layout, cells);
            refuseDuplicate(row);
            KillSheet.Condemned apart = row.isCondemned() ? row.condemned() : null;
            KillSheetEntry entry = row.isCondemned() ? null : row.entry();
            if (apart != null) {
                condemned++;
                handler.condemned(apart);
            } else if (entry != null) {
                entries++;
                row.notes().forEach(handler::note);
                handler.entry(entry);
            } else {
                refused++;
                row.problems().forEach(handler::problem);
            }
        }
        if (csv.rows() == 0) {
            handler.problem(new Problem(
                    file, 0, "", "", "the sheet has a header but no row; a row for each carcass is needed"));
        }
        tell(csv.rows(), true);
        return new KillSheet.Counts(csv.rows(), entries, condemned, refused);
    }

    private void tell(long rows, boolean last) {
        long now = System.nanoTime();
        if (last || now - told > TELLING_NANOS) {
            told = now;
            handler.progress(new KillSheet.Progress(rows, refused, rows * 1e9 / Math.max(1, now - begun)));
        }
    }

    private @Nullable Problem tooLong(List<String> header, CsvReader.Row row) {
        for (int i = 0; i < header.size(); i++) {
            String cell = row.cells().get(i);
            if (cell.length() > LONGEST_CELL) {
                return new Problem(
                        file,
                        row.line(),
                        header.get(i),
                        Excerpt.clip(cell, SHOWN),
                        "the cell has " + cell.length() + " characters; at most " + LONGEST_CELL + " are read");
            }
        }
        return null;
    }

    // dates are compared as text: a valid one has one form
    private void refuseDuplicate(KillSheetRow row) {
        String id = row.text(Column.CARCASS);
        if (id.isEmpty()) {
            return;
        }
        long first = linesOfCarcasses.putIfAbsent(row.text(Column.KILL_DATE), row.text(Column.LOT), id, row.line());
        if (first > 0) {
            row.refuse(
                    Column.CARCASS,
                    "carcass " + Excerpt.quote(id) + " of the same kill date and lot stands in line " + first
                            + " already; each has one row");
        }
    }

    private KillSheetRow.Layout layout(List<String> header) {
        Map<Column, Integer> positions = new EnumMap<>(Column.class);
        Map<Integer, String> others = new TreeMap<>();
        for (int position = 0; position < header.size(); position++) {
            others.put(position, header.get(position));
        }
        for (Column column : Column.values()) {
            int position = header.indexOf(format.name(column));
            if (position >= 0) {
                positions.put(column, position);
                others.remove(position);
            }
        }
        List<Problem> missing = new ArrayList<>();
        require(positions, header, missing, Column.CARCASS);
        require(positions, header, missing, Column.CATEGORY);
        require(positions, header, missing, Column.CONFORMATION, Column.CONFORMATION_POINTS);
        require(positions, header, missing, Column.FAT_CLASS, Column.FAT_POINTS);
        require(positions, header, missing, Column.COLD_WEIGHT_KG, Column.HOT_WEIGHT_KG);
        if (!missing.isEmpty()) {
            throw new InvalidDataException(missing);
        }
        return new KillSheetRow.Layout(header, positions, others);
    }

    private void require(
            Map<Column, Integer> positions,
            List<String> header,
            List<Problem> missing,
            Column column,
            Column... others) {
        StringBuilder names = new StringBuilder(format.name(column));
        boolean found = positions.containsKey(column);
        for (Column other : others) {
            names.append(" or ").append(format.name(other));
            found |= positions.containsKey(other);
        }
        if (!found) {
            missing.add(new Problem(
                    file,
                    0,
                    format.name(column),
                    "",
                    "column " + names + " is missing; the header has " + Excerpt.clip(String.join(", ", header), 200)));
        }
    }

    /** Keeps all of a sheet, up to a number of cells. */
    static final class Collector implements KillSheetHandler {
        private final List<KillSheetEntry> entries = new ArrayList<>();
        private final List<KillSheet.Condemned> condemned = new ArrayList<>();
        private final List<Problem> problems = new ArrayList<>();
        private final List<Problem> notes = new ArrayList<>();
        private final String file;
        private final long mostCells;
        private long cells;

        Collector(String file, long mostCells) {
            this.file = file;
            this.mostCells = mostCells;
        }

        private void stopAt(boolean tooMany, long line, String what) {
            if (tooMany) {
                throw new InvalidDataException(List.of(new Problem(
                        file,
                        line,
                        "",
                        "",
                        "the sheet has more than " + what + "; read it row by row, with a handler")));
            }
        }

        private void count(long line, int others) {
            cells += KillSheetFormat.Column.values().length + others;
            stopAt(cells > mostCells, line, mostCells + " cells");
        }

        @Override
        public void entry(KillSheetEntry entry) {
            count(entry.line(), entry.otherColumns().size());
            entries.add(entry);
        }

        @Override
        public void problem(Problem problem) {
            stopAt(problems.size() == MOST_PROBLEMS, problem.line(), MOST_PROBLEMS + " problems");
            problems.add(problem);
        }

        @Override
        public void condemned(KillSheet.Condemned carcass) {
            count(carcass.line(), carcass.cells().size());
            condemned.add(carcass);
        }

        @Override
        public void note(Problem note) {
            notes.add(note);
        }
    }
}
