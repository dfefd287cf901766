package org.beefyield.data.file;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.jspecify.annotations.Nullable;

/**
 * Reads a caller's small CSV file, such as prices, whole, in the form that he declares: a header with exactly the columns
 * asked for, in any order.
 */
public final class SmallCsv {
    private static final int MOST_ROWS = 100_000;

    private SmallCsv() {}

    /**
     * Refuses a header with other columns than those asked for.
     *
     * @param file name of the file
     * @param csv the file
     * @param columns the columns asked for
     * @param between what stands between columns where they are listed
     * @throws InvalidDataException if the header has others
     */
    public static void checkHeader(String file, CsvReader csv, List<String> columns, String between) {
        checkHeader(file, csv, columns, List.of(), "; columns: " + names(csv.columns(), columns, between));
    }

    /**
     * Refuses a header that lacks a column, or has one that isn't known.
     *
     * @param file name of the file
     * @param csv the file
     * @param required the columns that it has
     * @param optional the columns that it may have
     * @throws InvalidDataException if the header lacks one or has others
     */
    public static void checkHeader(String file, CsvReader csv, List<String> required, List<String> optional) {
        CsvHeader header = csv.columns();
        checkHeader(
                file,
                csv,
                required,
                optional,
                "; required: " + names(header, required, ", ") + "; optional: " + names(header, optional, ", "));
    }

    private static String names(CsvHeader header, List<String> columns, String between) {
        return String.join(between, columns.stream().map(header::name).toList());
    }

    private static void checkHeader(
            String file, CsvReader csv, List<String> required, List<String> optional, String listed) {
        CsvHeader header = csv.columns();
        List<Problem> problems = new ArrayList<>();
        for (String column : required) {
            if (header.position(column) < 0) {
                String name = header.name(column);
                problems.add(new Problem(
                        file, csv.headerLine(), name, "", "the column \"" + name + "\" is missing" + listed));
            }
        }
        for (int i = 0; i < header.names().size(); i++) {
            String ours = header.ours(i);
            if (!required.contains(ours) && !optional.contains(ours)) {
                problems.add(
                        new Problem(file, csv.headerLine(), header.names().get(i), "", header.unknown(i) + listed));
            }
        }
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
    }

    /**
     * Every row as what it stands for.
     *
     * @param source the file, plain or packed with gzip
     * @param form how it is written
     * @param columns its columns
     * @param reader makes something of a row, or null after it has refused a cell
     * @param <T> what a row stands for
     * @return in the order of the file
     * @throws InvalidDataException with everything that is wrong
     */
    public static <T> List<T> read(
            Source source, CsvForm form, List<String> columns, Function<CsvRow, @Nullable T> reader) {
        List<Problem> problems = new ArrayList<>();
        List<T> read = rows(source, form, columns, List.of(), reader, problems);
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        return read;
    }

    /**
     * Every good row as what it stands for, and a problem for each cell that was refused.
     *
     * @param source the file, plain or packed with gzip
     * @param form how it is written
     * @param required the columns that it has
     * @param optional the columns that it may have
     * @param reader makes something of a row, or null after it has refused a cell
     * @param problems takes what is wrong with rows
     * @param <T> what a row stands for
     * @return in the order of the file
     * @throws InvalidDataException if the header lacks a column or has another
     */
    public static <T> List<T> rows(
            Source source,
            CsvForm form,
            List<String> required,
            List<String> optional,
            Function<CsvRow, @Nullable T> reader,
            List<Problem> problems) {
        List<T> read = new ArrayList<>();
        String name = source.name();
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(name, in, form, problems::add);
            if (optional.isEmpty()) {
                checkHeader(name, csv, required, ", ");
            } else {
                checkHeader(name, csv, required, optional);
            }
            for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                if (csv.rows() > MOST_ROWS) {
                    problems.add(new Problem(name, row.line(), "", "", "at most " + MOST_ROWS + " rows are read here"));
                    break;
                }
                T one = reader.apply(CsvRow.of(name, csv.columns(), form, row, problems::add));
                if (one != null) {
                    read.add(one);
                }
            }
            if (csv.rows() == 0) {
                problems.add(new Problem(name, 0, "", "", "the file has a header but no row"));
            }
        } catch (IOException e) {
            problems.add(new Problem(name, 0, "", "", "the file can't be read: " + Reason.of(e)));
        }
        return read;
    }
}
