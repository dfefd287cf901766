package org.beefyield.data.finish;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.finish.PriceMove;
import org.jspecify.annotations.Nullable;

/**
 * Reads how prices move: a CSV file, a row for each move, days ascending. Columns:
 *
 * <ul>
 *   <li>{@code from_day}: days from today from which it counts, until the next move
 *   <li>{@code paid_per_kg}: how much more than today is paid for a kg of cold carcass, below 0 for less
 *   <li>{@code worth_per_kg}: how much more than today a kg of cold carcass is worth to the hall; blank for 0
 *   <li>{@code currency}: label of the currency, that of the payment
 * </ul>
 */
public final class PriceMoveReader {
    private static final List<String> COLUMNS = List.of("from_day", "paid_per_kg", "worth_per_kg", "currency");

    private final String currency;
    private int last = -1;

    private PriceMoveReader(String currency) {
        this.currency = currency;
    }

    /**
     * Reads moves from a file of the standard form.
     *
     * @param file the file
     * @param currency label of the currency of the payment
     * @return moves, days ascending
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static List<PriceMove> read(Path file, String currency) {
        return read(Source.of(file), CsvForm.standard(), currency);
    }

    /**
     * Reads moves.
     *
     * @param source the file
     * @param form how it is written
     * @param currency label of the currency of the payment
     * @return moves, days ascending
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static List<PriceMove> read(Source source, CsvForm form, String currency) {
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(form, "form");
        Objects.requireNonNull(currency, "currency");
        return SmallCsv.read(source, form, COLUMNS, new PriceMoveReader(currency)::move);
    }

    private @Nullable PriceMove move(CsvRow row) {
        Integer day = row.parsedOrNull("from_day", PriceMoveReader::day);
        double paid = row.number("paid_per_kg");
        Double worth = row.optionalNumber("worth_per_kg");
        if (!row.text("currency").equals(currency)) {
            row.refuse(
                    "currency",
                    "currency " + Excerpt.quote(row.text("currency")) + " is not " + currency + ", in which is paid");
        }
        if (day != null && day <= last) {
            row.refuse("from_day", "day " + day + " stands behind day " + last + "; days ascend");
        }
        if (row.isBad() || day == null) {
            return null;
        }
        last = day;
        return row.parsedOrNull("paid_per_kg", text -> new PriceMove(day, paid, worth == null ? 0 : worth));
    }

    private static Integer day(String text) {
        if (!text.matches("[0-9]{1,4}")) {
            throw new IllegalArgumentException(Excerpt.quote(text) + " is not a whole number of days such as 14");
        }
        return Integer.valueOf(text);
    }
}
