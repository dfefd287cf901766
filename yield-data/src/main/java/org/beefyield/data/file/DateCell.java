package org.beefyield.data.file;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.data.CsvForm;

/** Reads dates as a caller's file writes them. */
public final class DateCell {
    private static final Pattern DAY_FIRST = Pattern.compile("([0-9]{1,2})([./])([0-9]{1,2})\\2([0-9]{4})");

    private DateCell() {}

    /**
     * A date.
     *
     * @param text the cell
     * @param dates how dates are written
     * @return the date
     * @throws IllegalArgumentException if it is none in that form
     */
    public static LocalDate parse(String text, CsvForm.DateForm dates) {
        try {
            if (dates != CsvForm.DateForm.ISO) {
                return dayFirst(text, dates == CsvForm.DateForm.POINTS ? '.' : '/');
            }
            return isPlain(text)
                    ? LocalDate.of(
                            Integer.parseInt(text, 0, 4, 10),
                            Integer.parseInt(text, 5, 7, 10),
                            Integer.parseInt(text, 8, 10, 10))
                    : LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException(
                    Excerpt.quote(text) + " is not a date such as " + dates.example() + " (" + dates.words() + ")", e);
        }
    }

    private static LocalDate dayFirst(String text, char mark) {
        Matcher parts = DAY_FIRST.matcher(text);
        if (!parts.matches() || parts.group(2).charAt(0) != mark) {
            throw new DateTimeException(text);
        }
        return LocalDate.of(
                Integer.parseInt(parts.group(4)), Integer.parseInt(parts.group(3)), Integer.parseInt(parts.group(1)));
    }

    /** Whether it is written as nearly all are, in which it is read much faster. */
    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            boolean dash = i == 4 || i == 7;
            if (dash ? c != '-' : !(c >= '0' && c <= '9')) {
                return false;
            }
        }
        return text.length() == 10;
    }
}
