package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * One reason why a table gives no estimate for a carcass. Immutable.
 *
 * @serial exclude
 */
public final class Refusal implements Serializable {
    private static final long serialVersionUID = 1;

    private final On variable;
    private final String value;
    private final @Nullable Double number;
    private final @Nullable Range range;
    private final Category[] categories;
    private final boolean byPolicy;
    private final String text;

    /** What a carcass is refused for. */
    public enum On {
        /** Its category isn't served. */
        CATEGORY("category"),
        /** Its conformation is outside the range. */
        CONFORMATION("conformation"),
        /** Its fat class is outside the range. */
        FAT_CLASS("fat class"),
        /** Its cold weight is outside the range. */
        COLD_WEIGHT("cold weight");

        private final String words;

        On(String words) {
            this.words = words;
        }

        /**
         * The variable in words.
         *
         * @return such as {@code fat class}
         */
        public String words() {
            return words;
        }
    }

    private Refusal(
            On variable,
            String value,
            @Nullable Double number,
            @Nullable Range range,
            List<Category> categories,
            boolean byPolicy,
            String text) {
        this.variable = variable;
        this.value = value;
        this.number = number;
        this.range = range;
        this.categories = categories.toArray(new Category[0]);
        this.byPolicy = byPolicy;
        this.text = text;
    }

    /** A category that isn't served. */
    static Refusal notServed(YieldTable table, Category category) {
        List<Category> served =
                table.categoryGroups().stream().flatMap(List::stream).sorted().toList();
        return new Refusal(On.CATEGORY, category.letter(), null, null, served, false, table.notServed(category));
    }

    /** A figure outside the allowed range. */
    static Refusal outsideAllowed(Carcass carcass, Variable variable, double number, Range allowed) {
        return new Refusal(
                on(variable),
                value(carcass, variable),
                number,
                allowed,
                List.of(),
                false,
                RangeNote.describe(variable, number, allowed, "allowed"));
    }

    /** A figure outside the fitted range, where that is refused too. */
    static Refusal outsideFitted(Carcass carcass, RangeNote note) {
        return new Refusal(
                on(note.variable()),
                value(carcass, note.variable()),
                note.value(),
                note.fitted(),
                List.of(),
                true,
                note.toString());
    }

    private static On on(Variable variable) {
        return switch (variable) {
            case CONFORMATION -> On.CONFORMATION;
            case FAT -> On.FAT_CLASS;
            case WEIGHT -> On.COLD_WEIGHT;
        };
    }

    private static String value(Carcass carcass, Variable variable) {
        return switch (variable) {
            case CONFORMATION -> carcass.conformation().toString();
            case FAT -> carcass.fatClass().toString();
            case WEIGHT -> Numbers.exact(carcass.coldWeightKg());
        };
    }

    /**
     * What the carcass is refused for.
     *
     * @return the variable
     */
    public On variable() {
        return variable;
    }

    /**
     * The carcass's value as text.
     *
     * @return letter of the category, the grade, or kg, such as {@code Z}, {@code S+} or {@code 149.5}
     */
    public String value() {
        return value;
    }

    /**
     * The carcass's value as a number.
     *
     * @return position on the scale, or kg; empty for a category
     */
    public OptionalDouble number() {
        return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
    }

    /**
     * The range in which it would not be refused.
     *
     * @return positions on the scale, or kg: what the table allows, or, if it {@link #isByPolicy}, the range of the data
     *     behind the table; empty for a category
     */
    public Optional<Range> range() {
        return Optional.ofNullable(range);
    }

    /**
     * The categories that the table serves.
     *
     * @return categories, empty unless it is the category that is refused
     */
    public List<Category> categories() {
        return List.of(categories);
    }

    /**
     * Whether the table allows it and {@link RangePolicy#REFUSE_OUTSIDE_FITTED} alone refuses it.
     *
     * @return true if so
     */
    public boolean isByPolicy() {
        return byPolicy;
    }

    /**
     * The reason in words.
     *
     * @return such as {@code cold weight 149.5 kg is 0.5 kg outside the allowed range 150 to 600 kg}
     */
    public String text() {
        return text;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Refusal that
                && variable == that.variable
                && value.equals(that.value)
                && Objects.equals(number, that.number)
                && Objects.equals(range, that.range)
                && Arrays.equals(categories, that.categories)
                && byPolicy == that.byPolicy
                && text.equals(that.text);
    }

    @Override
    public int hashCode() {
        return Objects.hash(variable, value, number, range, Arrays.hashCode(categories), byPolicy, text);
    }

    /**
     * One line.
     *
     * @return the reason in words
     */
    @Override
    public String toString() {
        return text;
    }
}
