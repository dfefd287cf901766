package org.beefyield.json;

import java.util.Objects;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.jspecify.annotations.Nullable;

/**
 * A carcass. What a client sends may lack anything; {@link #carcass()} looks at it.
 *
 * @param id its tag or kill number
 * @param lot name of its lot
 * @param supplier its supplier
 * @param category letter of its category, needed
 * @param conformation conformation, needed, such as {@code R+}
 * @param fatClass fat class, needed, such as {@code 3=}
 * @param coldWeightKg cold weight, kg, needed
 * @param ageMonths age, months
 * @param assured whether it is assured
 */
public record CarcassJson(
        @Nullable String id,
        @Nullable String lot,
        @Nullable String supplier,
        @Nullable String category,
        @Nullable String conformation,
        @Nullable String fatClass,
        @Nullable Double coldWeightKg,
        @Nullable Integer ageMonths,
        @Nullable Boolean assured) {
    /**
     * The form of a carcass.
     *
     * @param carcass carcass
     * @return its form
     */
    public static CarcassJson of(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        return new CarcassJson(
                carcass.id().orElse(null),
                carcass.lot().orElse(null),
                carcass.supplier().orElse(null),
                carcass.category().letter(),
                carcass.conformation().toString(),
                carcass.fatClass().toString(),
                carcass.coldWeightKg(),
                carcass.ageMonths().isPresent() ? (Integer) carcass.ageMonths().getAsInt() : null,
                carcass.assured().orElse(null));
    }

    /**
     * The carcass.
     *
     * @return the carcass
     * @throws IllegalArgumentException if something that is needed is missing or can't be read; it names the component, the
     *     value and what would be valid
     */
    public Carcass carcass() {
        Carcass carcass = Carcass.of(
                read("category", category, Category::parse),
                read("conformation", conformation, Conformation::parse),
                read("fatClass", fatClass, FatClass::parse),
                read("coldWeightKg", coldWeightKg, kg -> kg));
        carcass = id == null ? carcass : carcass.withId(id);
        carcass = lot == null ? carcass : carcass.withLot(lot);
        carcass = supplier == null ? carcass : carcass.withSupplier(supplier);
        carcass = ageMonths == null ? carcass : carcass.withAgeMonths(ageMonths);
        return assured == null ? carcass : carcass.withAssured(assured);
    }

    private static <A, B> B read(String component, @Nullable A value, Function<A, B> reader) {
        if (value == null) {
            throw new IllegalArgumentException(component + " is missing");
        }
        try {
            return reader.apply(value);
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(component + ": " + e.getMessage(), e);
        }
    }
}
