package org.beefyield.data.killsheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvHeader;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
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
    private long entries;
    private long condemned;
    /** Totals, and second sides, which count with the first. */
    private long notCounted;

    private long elsewhere;
    private final Sides sides = new Sides();
    private final OddRows odd = new OddRows();
    private final Totals totals;

    private KillSheetReader(String file, KillSheetFormat format, KillSheetHandler handler) {
        this.file = file;
        this.format = format;
        this.handler = handler;
        totals = new Totals(format.form().decimalMark());
    }

    /**
     * Reads a kill sheet in the standard format.
     *
     * @param file the file
     * @return everything in it
     * @throws InvalidDataException if it can't be read as a kill sheet at all
     */
    public static KillSheet read(Path file) {
        return read(Source.of(file), KillSheetFormat.standard());
    }

    /**
     * Reads a kill sheet.
     *
     * @param source the file
     * @param format what its plant's sheets look like
     * @return everything in it
     * @throws InvalidDataException if it can't be read as a kill sheet at all
     */
    public static KillSheet read(Source source, KillSheetFormat format) {
        Collector all = new Collector(source.name(), MOST_CELLS);
        KillSheet.Counts counts = read(source, format, all);
        return new KillSheet(source.name(), counts, all.entries, all.condemned, all.problems, all.notes);
    }

    /**
     * Reads a kill sheet row by row. Of each row no more is kept than its lot and carcass, about 40 bytes.
     *
     * @param source the file
     * @param format what its plant's sheets look like
     * @param handler takes the rows; what it throws ends the reading and passes through
     * @return how many rows there were
     * @throws InvalidDataException if the source can't be read as a kill sheet at all, or no further; the rows before
     *     that place are with the handler by then
     */
    public static KillSheet.Counts read(Source source, KillSheetFormat format, KillSheetHandler handler) {
        try (InputStream in = GzipInput.open(source)) {
            return new KillSheetReader(source.name(), format, handler).read(in);
        } catch (IOException e) {
            String reason = e instanceof NoSuchFileException ? "there is no such file" : Reason.of(e);
            throw new InvalidDataException(
                    List.of(new Problem(source.name(), 0, "", "", "the file can't be read: " + reason)), e);
        }
    }

    private KillSheet.Counts read(InputStream in) throws IOException {
        CsvReader csv = new CsvReader(file, in, format.form(), problem -> {
            refused++;
            handler.problem(problem);
        });
        KillSheetRow.Layout layout = layout(csv.columns(), csv.headerLine());
        for (CsvReader.Row cells = csv.next(); cells != null; cells = csv.next()) {
            Problem tooLong = tooLong(csv.header(), cells);
            if (csv.rows() % TOLD_AFTER == 0) {
                tell(csv.rows() - 1 - notCounted, false);
            }
            if (tooLong != null) {
                refused++;
                handler.problem(tooLong);
                continue;
            }
            KillSheetRow row = new KillSheetRow(file, format, layout, cells);
            if (!format.totals().isEmpty() && row.text(Column.CARCASS).equalsIgnoreCase(format.totals())) {
                notCounted++;
                totals.check(row);
                row.notes().forEach(handler::note);
                continue;
            }
            if (!format.totals().isEmpty()) {
                totals.add(row);
            }
            if (format.isRowASide()) {
                side(row);
            } else {
                refuseDuplicate(row);
                settle(Sides.Side.of(row, elsewhere));
            }
        }
        for (Sides.Side alone : sides.alone()) {
            alone.row().refuse(Column.CARCASS, "the other side is missing; each side has a row, so a carcass has two");
            refuse(alone.row());
        }
        long rows = csv.rows() - notCounted;
        if (rows == 0) {
            handler.problem(new Problem(
                    file, 0, "", "", "the sheet has a header but no row; a row for each carcass is needed"));
        }
        tell(rows, true);
        return new KillSheet.Counts(rows, entries, condemned, refused);
    }

    /** Hands on a carcass, or what is wrong with its row. */
    private void settle(Sides.Side read) {
        KillSheet.Condemned apart = read.condemned();
        KillSheetEntry entry = read.entry();
        // a duplicate is found before the rest of the row is read
        if (!read.row().problems().isEmpty()) {
            refuse(read.row());
        } else if (apart != null) {
            condemned++;
            handler.condemned(apart);
        } else if (entry != null) {
            entries++;
            odd.look(read.row(), entry.killDate().orElse(null), read.elsewhere());
            read.row().notes().forEach(handler::note);
            handler.entry(entry);
        }
    }

    private void refuse(KillSheetRow row) {
        refused++;
        row.problems().forEach(handler::problem);
    }

    private void side(KillSheetRow row) {
        long first = row.text(Column.CARCASS).isEmpty()
                ? 0
                : linesOfCarcasses.putIfAbsent(row.day(), row.text(Column.LOT), row.text(Column.CARCASS), row.line());
        Sides.Side waiting = first == 0 ? null : sides.take(row);
        Sides.Side read = Sides.Side.of(row, linesOfCarcasses.elsewhere());
        if (first == 0) {
            if (read.isRefused()) {
                refuse(row);
            }
            if (!row.text(Column.CARCASS).isEmpty()) {
                sides.wait(read);
            }
            return;
        }
        if (waiting == null) {
            row.refuse(
                    Column.CARCASS,
                    "carcass " + Excerpt.quote(row.text(Column.CARCASS))
                            + " of the same kill date and lot has two rows already, the first in line " + first
                            + "; each side has one row");
            refuse(row);
        } else if (waiting.isRefused() || read.isRefused()) {
            refuseHalf(waiting, row);
            refuseHalf(read, waiting.row());
        } else {
            Sides.Side both = Sides.joined(waiting, read);
            if (both == null) {
                refuse(waiting.row());
                refuse(row);
            } else {
                notCounted++;
                settle(both);
            }
        }
    }

    /** Refuses a side, and says why if it is for the other one; a first side that was refused is known already. */
    private void refuseHalf(Sides.Side side, KillSheetRow other) {
        if (!side.isRefused()) {
            side.row().refuse(Column.CARCASS, "the other side, in line " + other.line() + ", is refused");
            refuse(side.row());
        } else if (side.row().line() > other.line()) {
            refuse(side.row());
        }
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

    private void refuseDuplicate(KillSheetRow row) {
        String id = row.text(Column.CARCASS);
        if (id.isEmpty()) {
            return;
        }
        long first = linesOfCarcasses.putIfAbsent(row.day(), row.text(Column.LOT), id, row.line());
        elsewhere = first > 0 ? 0 : linesOfCarcasses.elsewhere();
        if (first > 0) {
            row.refuse(
                    Column.CARCASS,
                    "carcass " + Excerpt.quote(id) + " of the same kill date and lot stands in line " + first
                            + " already; each has one row; if each side has one, declare that:"
                            + " KillSheetFormat.withRowASide(), --row-a-side");
        }
    }

    private KillSheetRow.Layout layout(CsvHeader header, long line) {
        Map<Column, Integer> positions = new EnumMap<>(Column.class);
        Map<Integer, String> others = new TreeMap<>();
        for (int position = 0; position < header.names().size(); position++) {
            others.put(position, header.names().get(position));
        }
        for (Column column : Column.values()) {
            int position = header.position(column.ours());
            if (position >= 0) {
                positions.put(column, position);
                others.remove(position);
            }
        }
        List<Problem> found = new ArrayList<>();
        others.forEach((position, name) -> {
            if (format.form().columns().containsKey(name)) {
                found.add(new Problem(
                        file,
                        line,
                        name,
                        name,
                        header.unknown(position) + " of "
                                + Arrays.stream(Column.values())
                                        .map(Column::ours)
                                        .collect(Collectors.joining(" "))));
            }
        });
        require(positions, header, found, Column.CARCASS);
        require(positions, header, found, Column.CATEGORY);
        require(positions, header, found, Column.CONFORMATION, Column.CONFORMATION_POINTS);
        require(positions, header, found, Column.FAT_CLASS, Column.FAT_POINTS);
        require(positions, header, found, Column.COLD_WEIGHT_KG, Column.HOT_WEIGHT_KG);
        if (!found.isEmpty()) {
            throw new InvalidDataException(found);
        }
        return new KillSheetRow.Layout(header, positions, others);
    }

    private void require(
            Map<Column, Integer> positions, CsvHeader header, List<Problem> missing, Column column, Column... others) {
        StringBuilder names = new StringBuilder(header.name(column.ours()));
        boolean found = positions.containsKey(column);
        for (Column other : others) {
            names.append(" or ").append(header.name(other.ours()));
            found |= positions.containsKey(other);
        }
        if (!found) {
            missing.add(new Problem(
                    file,
                    0,
                    header.name(column.ours()),
                    "",
                    "column " + names + " is missing; the header has "
                            + Excerpt.clip(String.join(", ", header.names()), SHOWN)
                            + (missing.isEmpty()
                                    ? "; if it goes by another name, declare that: CsvForm.builder().column(theirs, ours),"
                                            + " --columns theirs=ours"
                                    : "")));
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
            stopAt(notes.size() == MOST_PROBLEMS, note.line(), MOST_PROBLEMS + " notes");
            notes.add(note);
        }
    }
}
