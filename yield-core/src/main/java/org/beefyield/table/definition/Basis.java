package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * How the carcasses behind a table were handled; tables of different basis compare only with a note. Immutable. Begin with
 * {@link #NOT_STATED} and say what is known.
 *
 * @serial exclude
 */
public final class Basis implements Serializable {
    private static final long serialVersionUID = 1;

    /** Largest figure of a basis; anything above is a slip of the pen (our limit, no source). */
    private static final double MOST = 1000;

    /** Nothing stated. */
    public static final Basis NOT_STATED = new Basis(null, null, null, null, null);

    private final @Nullable String quartering;
    private final @Nullable String hanging;
    private final @Nullable Double fatCoverMm;
    private final @Nullable Double ageingDays;
    private final @Nullable Boolean boneless;

    private Basis(
            @Nullable String quartering,
            @Nullable String hanging,
            @Nullable Double fatCoverMm,
            @Nullable Double ageingDays,
            @Nullable Boolean boneless) {
        this.quartering = quartering;
        this.hanging = hanging;
        this.fatCoverMm = checked("fat cover in mm", fatCoverMm);
        this.ageingDays = checked("ageing in days", ageingDays);
        this.boneless = boneless;
    }

    private static @Nullable Double checked(String what, @Nullable Double value) {
        if (value != null && !(value >= 0 && value <= MOST)) {
            throw new IllegalArgumentException(
                    what + " " + Numbers.exact(value) + " is outside 0 to " + Numbers.exact(MOST));
        }
        return value;
    }

    /**
     * The same basis with another statement.
     *
     * @param newQuartering how sides were quartered, or null if not stated
     * @return a basis
     */
    public Basis withQuartering(@Nullable String newQuartering) {
        return new Basis(newQuartering, hanging, fatCoverMm, ageingDays, boneless);
    }

    /**
     * The same basis with another statement.
     *
     * @param newHanging how sides were hung, or null if not stated
     * @return a basis
     */
    public Basis withHanging(@Nullable String newHanging) {
        return new Basis(quartering, newHanging, fatCoverMm, ageingDays, boneless);
    }

    /**
     * The same basis with another statement.
     *
     * @param newFatCoverMm fat left on the primals, mm, 0 to 1000, or null if not stated
     * @return a basis
     * @throws IllegalArgumentException if it is outside that range
     */
    public Basis withFatCoverMm(@Nullable Double newFatCoverMm) {
        return new Basis(quartering, hanging, newFatCoverMm, ageingDays, boneless);
    }

    /**
     * The same basis with another statement.
     *
     * @param newAgeingDays days of ageing before weighing, 0 to 1000, or null if not stated
     * @return a basis
     * @throws IllegalArgumentException if it is outside that range
     */
    public Basis withAgeingDays(@Nullable Double newAgeingDays) {
        return new Basis(quartering, hanging, fatCoverMm, newAgeingDays, boneless);
    }

    /**
     * The same basis with another statement.
     *
     * @param newBoneless whether the cuts are boneless, or null if not stated
     * @return a basis
     */
    public Basis withBoneless(@Nullable Boolean newBoneless) {
        return new Basis(quartering, hanging, fatCoverMm, ageingDays, newBoneless);
    }

    /**
     * How sides were quartered.
     *
     * @return how sides were quartered, or null if not stated
     */
    public @Nullable String quartering() {
        return quartering;
    }

    /**
     * How sides were hung.
     *
     * @return how sides were hung, or null if not stated
     */
    public @Nullable String hanging() {
        return hanging;
    }

    /**
     * Fat left on the primals.
     *
     * @return fat left on the primals, mm, or null if not stated
     */
    public @Nullable Double fatCoverMm() {
        return fatCoverMm;
    }

    /**
     * Days of ageing before weighing.
     *
     * @return days of ageing before weighing, or null if not stated
     */
    public @Nullable Double ageingDays() {
        return ageingDays;
    }

    /**
     * Whether the cuts are boneless.
     *
     * @return whether the cuts are boneless, or null if not stated
     */
    public @Nullable Boolean boneless() {
        return boneless;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Basis that
                && Objects.equals(quartering, that.quartering)
                && Objects.equals(hanging, that.hanging)
                && Objects.equals(fatCoverMm, that.fatCoverMm)
                && Objects.equals(ageingDays, that.ageingDays)
                && Objects.equals(boneless, that.boneless);
    }

    @Override
    public int hashCode() {
        return Objects.hash(quartering, hanging, fatCoverMm, ageingDays, boneless);
    }

    /**
     * One line.
     *
     * @return such as {@code 10-rib forequarter, fat cover 5 mm, boneless}, or {@code not stated}
     */
    @Override
    public String toString() {
        List<String> stated = new ArrayList<>();
        if (quartering != null) {
            stated.add(quartering);
        }
        if (hanging != null) {
            stated.add("hung by " + hanging);
        }
        if (fatCoverMm != null) {
            stated.add("fat cover " + Numbers.exact(fatCoverMm) + " mm");
        }
        if (ageingDays != null) {
            stated.add(Numbers.exact(ageingDays) + " days of ageing");
        }
        if (boneless != null) {
            stated.add(boneless ? "boneless" : "bone in");
        }
        return stated.isEmpty() ? "not stated" : String.join(", ", stated);
    }
}
