package org.beefyield.data;

import java.io.Serializable;
import java.util.Objects;

/**
 * What is wrong with, or worth knowing about, one place in a file.
 *
 * @param file name of the file, as the caller gave it
 * @param line number of the line, counted from 1; 0 means the whole file
 * @param column name of the column in the file; empty means the whole row, or the whole file
 * @param value text of the cell as it stands in the file; for a whole row its beginning; may be empty
 * @param message a clause that can stand alone: it names the thing and the value, and says what would be valid; no full
 *     stop at its end
 * @serial exclude
 */
public record Problem(String file, long line, String column, String value, String message) implements Serializable {
    /** Checks its parts. */
    public Problem {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(value, "value");
        Objects.requireNonNull(message, "message");
        if (line < 0) {
            throw new IllegalArgumentException("line " + line + " is below 0");
        }
    }

    /**
     * One line for people. Control characters from the file are printed as their code, so that no file can break the
     * line or the terminal.
     *
     * @return such as {@code sheet.csv line 12, fat_class: fat class 6 is outside 1 to 5}
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(file);
        if (line > 0) {
            text.append(" line ").append(line);
        }
        if (!column.isEmpty()) {
            text.append(", ").append(column);
        }
        text.append(": ").append(message);
        StringBuilder safe = new StringBuilder(text.length());
        text.chars().forEach(c -> {
            if (Character.isISOControl(c)) {
                safe.append(String.format("\\u%04x", c));
            } else {
                safe.append((char) c);
            }
        });
        return safe.toString();
    }
}
