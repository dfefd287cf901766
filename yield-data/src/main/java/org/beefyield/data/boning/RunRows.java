package org.beefyield.data.boning;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.function.Consumer;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
import org.beefyield.data.file.SmallCsv;

/**
 * The rows of a file of runs.
 *
 * @param required columns that it has
 * @param optional columns that it may have
 */
record RunRows(List<String> required, List<String> optional) {
    /** What takes the rows. */
    interface Taker {
        /** A row; what is wrong with it goes to it. */
        void row(CsvRow row);

        /** A line that is no row at all. */
        void lost(Problem problem);

        /** What is wrong with a row. */
        void problem(Problem problem);
    }

    /**
     * Hands all rows on.
     *
     * @throws InvalidDataException if the file can't be read, or its header is wrong
     */
    void each(Source source, CsvForm form, Taker taker) {
        String file = source.name();
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(file, in, form, taker::lost);
            SmallCsv.checkHeader(file, csv, required, optional);
            Consumer<Problem> problems = taker::problem;
            for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                taker.row(CsvRow.of(file, csv.columns(), form, row, problems));
            }
        } catch (IOException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file, 0, "", "", "the file can't be read: " + Reason.of(e))), e);
        }
    }
}
