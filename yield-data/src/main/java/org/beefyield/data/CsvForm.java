package org.beefyield.data;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * How a caller's CSV files are written: what every reader of one takes, whatever the file holds, and what a writer may take.
 * Only what is declared counts; nothing is guessed.
 *
 * <p>Without a declaration: commas between cells, decimal points, UTF-8, dates as {@code 2026-11-03}, {@code yes} and
 * {@code no}, this library's names of columns. Decimals are plain ({@code 342.5}): no thousands separator. Immutable.
 *
 * <p>The CSV files of a yield table are an open standard's and have one form.
 */
public final class CsvForm {
    /** How dates are written. */
    public enum DateForm {
        /** Year, month and day, such as {@code 2026-11-03} (ISO 8601). */
        ISO("2026-11-03", "year-month-day"),
        /** Day, month and year, such as {@code 3/11/2026}. */
        SLASHES("3/11/2026", "day/month/year"),
        /** Day, month and year, such as {@code 3.11.2026}. */
        POINTS("3.11.2026", "day.month.year");

        private final String example;
        private final String words;

        DateForm(String example, String words) {
            this.example = example;
            this.words = words;
        }

        /**
         * The third of November 2026.
         *
         * @return the date in this form
         */
        public String example() {
            return example;
        }

        /**
         * In words.
         *
         * @return such as {@code day.month.year}
         */
        public String words() {
            return words;
        }
    }

    private static final CsvForm STANDARD = builder().build();

    private final char separator;
    private final char decimalMark;
    private final Charset charset;
    private final DateForm dates;
    private final Map<String, String> columns;
    private final String yes;
    private final String no;
    private final Set<String> units;
    private final boolean formulaCells;
    private final boolean blankRows;

    private CsvForm(Builder builder) {
        separator = builder.separator;
        decimalMark = builder.decimalMark;
        charset = builder.charset;
        dates = builder.dates;
        columns = Collections.unmodifiableMap(new LinkedHashMap<>(builder.columns));
        yes = builder.yes;
        no = builder.no;
        units = Collections.unmodifiableSet(new LinkedHashSet<>(builder.units));
        formulaCells = builder.formulaCells;
        blankRows = builder.blankRows;
    }

    /**
     * The form without any declaration.
     *
     * @return commas, decimal points, UTF-8, ISO dates, our names
     */
    public static CsvForm standard() {
        return STANDARD;
    }

    /**
     * Starts with nothing declared.
     *
     * @return a builder
     */
    public static Builder builder() {
        return new Builder();
    }

    /**
     * Starts with what is declared here.
     *
     * @return a builder
     */
    public Builder toBuilder() {
        Builder builder = new Builder();
        builder.separator = separator;
        builder.decimalMark = decimalMark;
        builder.charset = charset;
        builder.dates = dates;
        builder.columns.putAll(columns);
        builder.yes = yes;
        builder.no = no;
        builder.units.addAll(units);
        builder.formulaCells = formulaCells;
        builder.blankRows = blankRows;
        return builder;
    }

    /** Declares how files are written. */
    public static final class Builder {
        private char separator = ',';
        private char decimalMark = '.';
        private Charset charset = StandardCharsets.UTF_8;
        private DateForm dates = DateForm.ISO;
        private final Map<String, String> columns = new LinkedHashMap<>();
        private String yes = "yes";
        private String no = "no";
        private final Set<String> units = new LinkedHashSet<>();
        private boolean formulaCells;
        private boolean blankRows;

        private Builder() {}

        /**
         * Declares what separates the cells.
         *
         * @param character such as {@code ;}, a tab or {@code |}; no letter, digit, sign, point, double quote, blank or
         *     line end
         * @return this
         * @throws IllegalArgumentException if a cell could hold that character by itself
         */
        public Builder separator(char character) {
            boolean clash = Character.isLetterOrDigit(character)
                    || Character.isSurrogate(character)
                    || " \r\n\".+-=_".indexOf(character) >= 0;
            if (clash) {
                throw new IllegalArgumentException("\"" + character
                        + "\" can't separate cells; a comma, a semicolon, a tab or | can, for instance");
            }
            separator = character;
            return this;
        }

        /**
         * Declares decimal commas: {@code 342,5} is then a number and {@code 342.5} is none.
         *
         * @return this
         */
        public Builder decimalComma() {
            decimalMark = ',';
            return this;
        }

        /**
         * Declares the encoding.
         *
         * @param name such as windows-1252; not UTF-16 or UTF-32, whose lines can't be told apart byte by byte
         * @return this
         * @throws IllegalArgumentException if a line feed is not the single byte 10 in that charset
         */
        public Builder charset(Charset name) {
            if (!name.canEncode() || !Arrays.equals("\n".getBytes(name), new byte[] {'\n'})) {
                throw new IllegalArgumentException("charset " + name
                        + " can't be read line by line; UTF-8 or a single-byte charset such as windows-1252 can");
            }
            charset = name;
            return this;
        }

        /**
         * Declares how dates are written.
         *
         * @param form such as {@link DateForm#POINTS}
         * @return this
         */
        public Builder dates(DateForm form) {
            dates = Objects.requireNonNull(form, "form");
            return this;
        }

        /**
         * Declares a name of a column. A file that has no column of that name may have ours.
         *
         * @param theirs the file's name, such as {@code Weight cold}; blanks around it don't count
         * @param ours our name, such as {@code cold_weight_kg}; a reader refuses a name that it doesn't know
         * @return this
         * @throws IllegalArgumentException if a name is blank, or the file's name stands for another column already
         */
        public Builder column(String theirs, String ours) {
            String name = theirs.strip();
            if (name.isEmpty() || ours.isBlank()) {
                throw new IllegalArgumentException(
                        name.isEmpty()
                                ? "the name declared for column " + ours + " is blank"
                                : "the column that \"" + name + "\" stands for is blank");
            }
            String before = columns.putIfAbsent(name, ours.strip());
            if (before != null && !before.equals(ours.strip())) {
                throw new IllegalArgumentException("columns " + before + " and " + ours.strip()
                        + " would both be read from \"" + name + "\"; each needs a name of its own");
            }
            return this;
        }

        /**
         * Declares names of columns.
         *
         * @param names the file's name to our name, such as {@code Weight cold} to {@code cold_weight_kg}
         * @return this
         * @throws IllegalArgumentException as {@link #column}
         */
        public Builder columns(Map<String, String> names) {
            names.forEach(this::column);
            return this;
        }

        /**
         * Declares the words of cells that say {@code yes} or {@code no}; their case doesn't count.
         *
         * @param yesWord such as {@code ja}
         * @param noWord such as {@code nein}
         * @return this
         * @throws IllegalArgumentException if one is blank, or they are the same
         */
        public Builder yesNo(String yesWord, String noWord) {
            if (yesWord.isBlank() || noWord.isBlank() || yesWord.strip().equalsIgnoreCase(noWord.strip())) {
                throw new IllegalArgumentException(
                        "\"" + yesWord + "\" and \"" + noWord + "\" can't be told apart; two words are needed");
            }
            yes = yesWord.strip();
            no = noWord.strip();
            return this;
        }

        /**
         * Declares that numbers may have this behind them, as in {@code 342,50 kg}. It is left out; nothing is converted.
         * Several calls declare several.
         *
         * @param word such as {@code kg}
         * @return this
         * @throws IllegalArgumentException if it is blank, or a number could end with it
         */
        public Builder unit(String word) {
            String unit = word.strip();
            if (unit.isEmpty() || unit.chars().anyMatch(c -> c >= '0' && c <= '9') || ".,-".contains(unit)) {
                throw new IllegalArgumentException(
                        "\"" + word + "\" can't stand behind a number as its unit; kg can, for instance");
            }
            units.add(unit);
            return this;
        }

        /**
         * Declares that a cell may be a formula of a text, as in {@code ="0123"}, which spreadsheets are given so that they
         * leave an id alone. The text is what counts.
         *
         * @return this
         */
        public Builder formulaCells() {
            formulaCells = true;
            return this;
        }

        /**
         * Declares that rows with nothing in their cells, as in {@code ;;;;}, only part others and don't count.
         *
         * @return this
         */
        public Builder blankRows() {
            blankRows = true;
            return this;
        }

        /**
         * Makes the form.
         *
         * @return a form
         */
        public CsvForm build() {
            return new CsvForm(this);
        }
    }

    /**
     * What separates the cells.
     *
     * @return a character
     */
    public char separator() {
        return separator;
    }

    /**
     * What stands before the decimals of a number.
     *
     * @return a point or a comma
     */
    public char decimalMark() {
        return decimalMark;
    }

    /**
     * The encoding.
     *
     * @return a charset in which a line feed is the single byte 10
     */
    public Charset charset() {
        return charset;
    }

    /**
     * How dates are written.
     *
     * @return their form
     */
    public DateForm dates() {
        return dates;
    }

    /**
     * Names of columns.
     *
     * @return the file's names to ours, in the order in which they were declared
     */
    public Map<String, String> columns() {
        return columns;
    }

    /**
     * The word for yes.
     *
     * @return one word
     */
    public String yes() {
        return yes;
    }

    /**
     * The word for no.
     *
     * @return one word
     */
    public String no() {
        return no;
    }

    /**
     * What may stand behind numbers.
     *
     * @return units in the order in which they were declared
     */
    public Set<String> units() {
        return units;
    }

    /**
     * Whether cells may be formulas of a text.
     *
     * @return true if that is declared
     */
    public boolean hasFormulaCells() {
        return formulaCells;
    }

    /**
     * Whether rows of blank cells don't count.
     *
     * @return true if that is declared
     */
    public boolean hasBlankRows() {
        return blankRows;
    }

    private List<Object> parts() {
        return List.of(separator, decimalMark, charset, dates, columns, yes, no, units, formulaCells, blankRows);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof CsvForm form && form.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code separator ";", decimal comma, windows-1252, dates day.month.year, columns {Nr=carcass}, ja or
     *     nein}
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("separator ");
        text.append(separator == '\t' ? "tab" : "\"" + separator + "\"");
        text.append(", decimal ")
                .append(decimalMark == ',' ? "comma" : "point")
                .append(", ")
                .append(charset);
        text.append(", dates ").append(dates.words());
        text.append(columns.isEmpty() ? "" : ", columns " + columns);
        text.append(", ").append(yes).append(" or ").append(no);
        text.append(units.isEmpty() ? "" : ", units " + String.join(" ", units));
        text.append(formulaCells ? ", formula cells" : "").append(blankRows ? ", blank rows" : "");
        return text.toString();
    }
}
