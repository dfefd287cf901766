package org.beefyield.carcass;

import java.io.Serializable;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * A graded carcass: category, conformation, fat class and cold weight, with an optional id, lot, supplier, kill date, hall, age and
 * assurance.
 *
 * <p>Immutable. The cold weight is that of the reference dressing, kg; see {@link CarcassWeights} for a hot weight and
 * {@link DressingCorrection} for another dressing.
 *
 * @serial exclude
 */
public final class Carcass implements Serializable {
    private static final long serialVersionUID = 1;

    private final Category category;
    private final Conformation conformation;
    private final FatClass fatClass;
    private final double coldWeightKg;
    private final @Nullable String id;
    private final @Nullable String lot;
    private final @Nullable String supplier;
    private final @Nullable String killDate;
    private final @Nullable String hall;
    private final @Nullable Integer ageMonths;
    private final @Nullable Boolean assured;

    /** A carcass in the making, so that a copy with one change names that change alone. */
    private static final class Draft {
        private final Category category;
        private Conformation conformation;
        private FatClass fatClass;
        private double coldWeightKg;
        private @Nullable String id;
        private @Nullable String lot;
        private @Nullable String supplier;
        private @Nullable String killDate;
        private @Nullable String hall;
        private @Nullable Integer ageMonths;
        private @Nullable Boolean assured;

        Draft(Category category, Conformation conformation, FatClass fatClass, double coldWeightKg) {
            this.category = category;
            this.conformation = conformation;
            this.fatClass = fatClass;
            this.coldWeightKg = coldWeightKg;
        }
    }

    private Carcass(Draft draft) {
        this.category = Objects.requireNonNull(draft.category, "category");
        this.conformation = Objects.requireNonNull(draft.conformation, "conformation");
        this.fatClass = Objects.requireNonNull(draft.fatClass, "fatClass");
        this.coldWeightKg = CarcassWeights.check("cold weight", draft.coldWeightKg);
        this.id = draft.id;
        this.lot = draft.lot;
        this.supplier = draft.supplier;
        this.killDate = draft.killDate;
        this.hall = draft.hall;
        this.ageMonths = draft.ageMonths;
        this.assured = draft.assured;
        if (draft.ageMonths != null) {
            category.checkAge(draft.ageMonths);
        }
    }

    private Draft draft() {
        Draft draft = new Draft(category, conformation, fatClass, coldWeightKg);
        draft.id = id;
        draft.lot = lot;
        draft.supplier = supplier;
        draft.killDate = killDate;
        draft.hall = hall;
        draft.ageMonths = ageMonths;
        draft.assured = assured;
        return draft;
    }

    /**
     * A carcass without id, lot, supplier, kill date, hall, age or assurance.
     *
     * @param category sex and age category
     * @param conformation conformation
     * @param fatClass fat class
     * @param coldWeightKg cold weight in the reference dressing, kg, above 0 and at most
     *     {@value CarcassWeights#HEAVIEST_KG}
     * @return the carcass
     * @throws IllegalArgumentException if the weight is outside its range or not a number
     */
    public static Carcass of(Category category, Conformation conformation, FatClass fatClass, double coldWeightKg) {
        Objects.requireNonNull(fatClass, "fatClass");
        return new Carcass(new Draft(category, conformation, fatClass, coldWeightKg));
    }

    /**
     * The same carcass graded otherwise.
     *
     * @param newConformation conformation
     * @return a carcass
     */
    public Carcass with(Conformation newConformation) {
        Objects.requireNonNull(newConformation, "newConformation");
        Draft draft = draft();
        draft.conformation = newConformation;
        return new Carcass(draft);
    }

    /**
     * The same carcass graded otherwise.
     *
     * @param newFatClass fat class
     * @return a carcass
     */
    public Carcass with(FatClass newFatClass) {
        Objects.requireNonNull(newFatClass, "newFatClass");
        Draft draft = draft();
        draft.fatClass = newFatClass;
        return new Carcass(draft);
    }

    /**
     * The same carcass of another weight.
     *
     * @param newColdWeightKg cold weight in the reference dressing, kg, above 0 and at most
     *     {@value CarcassWeights#HEAVIEST_KG}
     * @return a carcass
     * @throws IllegalArgumentException if the weight is outside its range or not a number
     */
    public Carcass withColdWeightKg(double newColdWeightKg) {
        Draft draft = draft();
        draft.coldWeightKg = newColdWeightKg;
        return new Carcass(draft);
    }

    /**
     * The same carcass with an id, such as its tag or kill number.
     *
     * @param newId the id
     * @return a carcass
     */
    public Carcass withId(String newId) {
        Objects.requireNonNull(newId, "newId");
        Draft draft = draft();
        draft.id = newId;
        return new Carcass(draft);
    }

    /**
     * The same carcass in a lot.
     *
     * @param newLot name of the lot
     * @return a carcass
     */
    public Carcass withLot(String newLot) {
        Objects.requireNonNull(newLot, "newLot");
        Draft draft = draft();
        draft.lot = newLot;
        return new Carcass(draft);
    }

    /**
     * The same carcass with its supplier.
     *
     * @param newSupplier name of the supplier
     * @return a carcass
     */
    public Carcass withSupplier(String newSupplier) {
        Objects.requireNonNull(newSupplier, "newSupplier");
        Draft draft = draft();
        draft.supplier = newSupplier;
        return new Carcass(draft);
    }

    /**
     * The same carcass with the day on which it was slaughtered. Carcasses of one day and one hall are one boning run.
     *
     * @param newKillDate the day as a text that is the same for all its carcasses, such as {@code 2026-11-03}
     * @return a carcass
     * @throws IllegalArgumentException if the text is blank
     */
    public Carcass withKillDate(String newKillDate) {
        Objects.requireNonNull(newKillDate, "newKillDate");
        if (newKillDate.isBlank()) {
            throw new IllegalArgumentException("the kill date is blank; it is a day such as 2026-11-03");
        }
        Draft draft = draft();
        draft.killDate = newKillDate;
        return new Carcass(draft);
    }

    /**
     * The same carcass with the hall that bones it. Carcasses without one are boned in one hall, the caller's own.
     *
     * @param newHall name of the hall
     * @return a carcass
     * @throws IllegalArgumentException if the name is blank
     */
    public Carcass withHall(String newHall) {
        Objects.requireNonNull(newHall, "newHall");
        if (newHall.isBlank()) {
            throw new IllegalArgumentException("the hall is blank; it is a name such as Mereside");
        }
        Draft draft = draft();
        draft.hall = newHall;
        return new Carcass(draft);
    }

    /**
     * The same carcass with its age.
     *
     * @param newAgeMonths completed months of age at slaughter
     * @return a carcass
     * @throws IllegalArgumentException if the law puts that age in another category
     */
    public Carcass withAgeMonths(int newAgeMonths) {
        Draft draft = draft();
        draft.ageMonths = newAgeMonths;
        return new Carcass(draft);
    }

    /**
     * The same carcass with what is known of its farm assurance.
     *
     * @param newAssured whether farm assurance covers the animal
     * @return a carcass
     */
    public Carcass withAssured(boolean newAssured) {
        Draft draft = draft();
        draft.assured = newAssured;
        return new Carcass(draft);
    }

    /**
     * Sex and age category.
     *
     * @return the category
     */
    public Category category() {
        return category;
    }

    /**
     * Conformation.
     *
     * @return the conformation
     */
    public Conformation conformation() {
        return conformation;
    }

    /**
     * Fat class.
     *
     * @return the fat class
     */
    public FatClass fatClass() {
        return fatClass;
    }

    /**
     * Cold weight in the reference dressing.
     *
     * @return kg
     */
    public double coldWeightKg() {
        return coldWeightKg;
    }

    /**
     * Id, such as the tag or kill number.
     *
     * @return the id, or empty
     */
    public Optional<String> id() {
        return Optional.ofNullable(id);
    }

    /**
     * Lot.
     *
     * @return the lot, or empty
     */
    public Optional<String> lot() {
        return Optional.ofNullable(lot);
    }

    /**
     * Supplier.
     *
     * @return the supplier, or empty
     */
    public Optional<String> supplier() {
        return Optional.ofNullable(supplier);
    }

    /**
     * Day of slaughter.
     *
     * @return the day as it was given, or empty
     */
    public Optional<String> killDate() {
        return Optional.ofNullable(killDate);
    }

    /**
     * Hall that bones it.
     *
     * @return the name of the hall, or empty
     */
    public Optional<String> hall() {
        return Optional.ofNullable(hall);
    }

    /**
     * Age at slaughter.
     *
     * @return completed months, or empty
     */
    public OptionalInt ageMonths() {
        return ageMonths == null ? OptionalInt.empty() : OptionalInt.of(ageMonths);
    }

    /**
     * Whether farm assurance covers the animal.
     *
     * @return true or false, or empty if not known
     */
    public Optional<Boolean> assured() {
        return Optional.ofNullable(assured);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Carcass that
                && category == that.category
                && conformation.equals(that.conformation)
                && fatClass.equals(that.fatClass)
                && coldWeightKg == that.coldWeightKg
                && Objects.equals(id, that.id)
                && Objects.equals(lot, that.lot)
                && Objects.equals(supplier, that.supplier)
                && Objects.equals(killDate, that.killDate)
                && Objects.equals(hall, that.hall)
                && Objects.equals(ageMonths, that.ageMonths)
                && Objects.equals(assured, that.assured);
    }

    @Override
    public int hashCode() {
        return Objects.hash(
                category, conformation, fatClass, coldWeightKg, id, lot, supplier, killDate, hall, ageMonths, assured);
    }

    /**
     * One line: id, category, grades and weight.
     *
     * @return such as {@code 372 C R= 3+ 342 kg}
     */
    @Override
    public String toString() {
        return (id == null ? "" : id + " ") + category + " " + conformation + " " + fatClass + " "
                + Numbers.exact(coldWeightKg) + " kg";
    }
}
