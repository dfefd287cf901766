package org.beefyield.json;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
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
 * @param killDate day of slaughter, such as {@code 2026-11-03}; one that is given isn't blank
 * @param hall hall that bones it; one that is given isn't blank
 * @param category letter of its category, needed
 * @param conformation conformation, needed, such as {@code R+}, or a position of the 18-point scale such as {@code 8.4p}
 * @param fatClass fat class, needed, such as {@code 3=}, or a position of the 15-point scale such as {@code 7.2p}
 * @param coldWeightKg cold weight, kg, needed
 * @param ageMonths age, months
 * @param assured whether it is assured
 */
public record CarcassJson(
        @Nullable String id,
        @Nullable String lot,
        @Nullable String supplier,
        @Nullable String killDate,
        @Nullable String hall,
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
                carcass.killDate().orElse(null),
                carcass.hall().orElse(null),
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
     * @throws InvalidFormException if something that is needed is missing or can't be read; it has every fault with the
     *     component, its value and what would be valid
     */
    public Carcass carcass() {
        List<InvalidFormException.Fault> faults = new ArrayList<>();
        Category ofCategory = read("category", category, Category::parse, faults);
        Conformation ofConformation = read("conformation", conformation, Conformation::parse, faults);
        FatClass ofFatClass = read("fatClass", fatClass, FatClass::parse, faults);
        Double kg = read("coldWeightKg", coldWeightKg, weight -> CarcassWeights.check("cold weight", weight), faults);
        if (ofCategory == null || ofConformation == null || ofFatClass == null || kg == null) {
            throw new InvalidFormException(faults);
        }
        Carcass carcass = Carcass.of(ofCategory, ofConformation, ofFatClass, kg);
        carcass = given("killDate", killDate, carcass, Carcass::withKillDate, faults);
        carcass = given("hall", hall, carcass, Carcass::withHall, faults);
        carcass = given("ageMonths", ageMonths, carcass, Carcass::withAgeMonths, faults);
        if (!faults.isEmpty()) {
            throw new InvalidFormException(faults);
        }
        carcass = id == null ? carcass : carcass.withId(id);
        carcass = lot == null ? carcass : carcass.withLot(lot);
        carcass = supplier == null ? carcass : carcass.withSupplier(supplier);
        return assured == null ? carcass : carcass.withAssured(assured);
    }

    /** The carcass with what is given, or as it was if that is missing or wrong. */
    private static <A> Carcass given(
            String component,
            @Nullable A value,
            Carcass carcass,
            BiFunction<Carcass, A, Carcass> with,
            List<InvalidFormException.Fault> faults) {
        Carcass told = value == null ? carcass : read(component, value, text -> with.apply(carcass, text), faults);
        return told == null ? carcass : told;
    }

    private static <A, B> @Nullable B read(
            String component, @Nullable A value, Function<A, B> reader, List<InvalidFormException.Fault> faults) {
        if (value == null) {
            faults.add(new InvalidFormException.Fault(component, "", component + " is missing"));
            return null;
        }
        try {
            return reader.apply(value);
        } catch (IllegalArgumentException e) {
            faults.add(new InvalidFormException.Fault(component, value.toString(), String.valueOf(e.getMessage())));
            return null;
        }
    }
}
