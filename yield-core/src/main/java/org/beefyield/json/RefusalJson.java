package org.beefyield.json;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.table.definition.Range;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * A carcass for which a table gives no estimate.
 *
 * @param carcass the carcass
 * @param reasons why, one or more
 */
public record RefusalJson(CarcassJson carcass, List<Reason> reasons) {
    /**
     * One reason.
     *
     * @param variable what the carcass is refused for: {@code category}, {@code conformation}, {@code fat_class} or {@code
     *     cold_weight}
     * @param value the carcass's value as text
     * @param number the carcass's value as a position or in kg, or null for a category
     * @param low least value that would not be refused, or null for a category
     * @param high greatest value that would not be refused, or null for a category
     * @param categories letters of the categories served if the category is refused, else empty
     * @param byPolicy whether the table itself allows it
     * @param text the reason in words
     */
    public record Reason(
            String variable,
            String value,
            @Nullable Double number,
            @Nullable Double low,
            @Nullable Double high,
            List<String> categories,
            boolean byPolicy,
            String text) {
        /** Refuses what is missing and copies the categories. */
        public Reason {
            Objects.requireNonNull(variable, "variable");
            Objects.requireNonNull(value, "value");
            Checks.noNullIn(categories, "categories");
            Objects.requireNonNull(text, "text");
            categories = List.copyOf(categories);
        }

        private static Reason of(Refusal refusal) {
            Range range = refusal.range().orElse(null);
            return new Reason(
                    refusal.variable().name().toLowerCase(Locale.ROOT),
                    refusal.value(),
                    refusal.number().isPresent() ? (Double) refusal.number().getAsDouble() : null,
                    range == null ? null : (Double) range.low(),
                    range == null ? null : (Double) range.high(),
                    refusal.categories().stream().map(Category::letter).toList(),
                    refusal.isByPolicy(),
                    refusal.text());
        }
    }

    /** Refuses what is missing and copies the reasons. */
    public RefusalJson {
        Objects.requireNonNull(carcass, "carcass");
        Checks.noNullIn(reasons, "reasons");
        reasons = List.copyOf(reasons);
    }

    /**
     * The form of a refusal.
     *
     * @param refused what an estimator threw
     * @return its form
     */
    public static RefusalJson of(RefusedCarcassException refused) {
        Objects.requireNonNull(refused, "refused");
        return of(refused.carcass(), refused.reasons());
    }

    /**
     * The form of a refusal that was asked for without an exception.
     *
     * @param carcass carcass
     * @param reasons why it is refused, one or more
     * @return its form
     */
    public static RefusalJson of(Carcass carcass, List<Refusal> reasons) {
        Objects.requireNonNull(carcass, "carcass");
        Checks.noNullIn(reasons, "reasons");
        return new RefusalJson(
                CarcassJson.of(carcass), reasons.stream().map(Reason::of).toList());
    }
}
