package org.beefyield.finish;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * An animal near finish as it stands today: category, weight, conformation and fat class as seen alive, how it gains, and as far
 * as known killing-out, age, assurance and how sure all that is. Immutable; the {@code with} methods give a changed copy.
 */
public final class FinishAnimal {
    /** Heaviest animal, kg; anything above is a slip of the pen (our limit, no source). */
    public static final double HEAVIEST_KG = 2000;

    /** The most live weight that is gained or lost, kg a day (our limit, no source). */
    public static final double MOST_GAIN_KG = 5;

    /** Part of its weight that the SD of that weight may be. */
    private static final double MOST_WEIGHT_SD = 0.25;

    private static final double PER_CENT = 100;

    /** Least and most cold carcass in a kg of live weight. */
    static final double LEAST_KILLING_OUT = 0.3;

    static final double MOST_KILLING_OUT = 0.75;

    private final Category category;
    private final Conformation conformation;
    private final FatClass fatClass;
    private final double weightKg;
    private final boolean live;
    private final DayCurve gain;
    private final @Nullable Double gainSd;
    private final double weightSdKg;
    private final @Nullable Double killingOut;
    private final @Nullable Double killingOutSd;
    private final @Nullable Double conformationSd;
    private final @Nullable Double fatSd;
    private final @Nullable String id;
    private final @Nullable Age age;
    private final @Nullable Boolean assured;

    private FinishAnimal(Draft draft) {
        this.category = Objects.requireNonNull(draft.category, "category");
        this.conformation = Objects.requireNonNull(draft.conformation, "conformation");
        this.fatClass = Objects.requireNonNull(draft.fatClass, "fatClass");
        this.gain = Objects.requireNonNull(draft.gain, "gain");
        this.weightKg = draft.weightKg;
        this.live = draft.live;
        this.gainSd = draft.gainSd;
        this.weightSdKg = draft.weightSdKg;
        this.killingOut = draft.killingOut;
        this.killingOutSd = draft.killingOutSd;
        this.conformationSd = draft.conformationSd;
        this.fatSd = draft.fatSd;
        this.id = draft.id;
        this.age = draft.age;
        this.assured = draft.assured;
        check();
    }

    private void check() {
        if (live) {
            if (!(weightKg > 0 && weightKg <= HEAVIEST_KG)) {
                throw new IllegalArgumentException("live weight " + Numbers.exact(weightKg)
                        + " kg is not above 0 and at most " + Numbers.exact(HEAVIEST_KG) + " kg");
            }
        } else {
            CarcassWeights.check("cold weight", weightKg);
        }
        gain.points().forEach(point -> {
            if (Math.abs(point.value()) > MOST_GAIN_KG) {
                throw new IllegalArgumentException(
                        "live gain " + Numbers.exact(point.value()) + " kg a day is outside -"
                                + Numbers.exact(MOST_GAIN_KG) + " to " + Numbers.exact(MOST_GAIN_KG) + " kg a day");
            }
        });
        if (killingOut != null && !(killingOut >= LEAST_KILLING_OUT && killingOut <= MOST_KILLING_OUT)) {
            throw new IllegalArgumentException("killing-out " + Numbers.brief(PER_CENT * killingOut)
                    + " % of live weight is outside " + Numbers.brief(PER_CENT * LEAST_KILLING_OUT) + " to "
                    + Numbers.brief(PER_CENT * MOST_KILLING_OUT) + " %");
        }
        spread("SD of the weight, kg", weightSdKg, MOST_WEIGHT_SD * weightKg);
        spread("SD of live gain, kg a day", gainSd, Quantity.GAIN_SD_KG_PER_DAY.high());
        spread(
                "SD of killing-out, % of live weight",
                killingOutSd == null ? null : Double.valueOf(Numbers.percent(killingOutSd)),
                Quantity.KILLING_OUT_SD_PERCENT.high());
        spread("SD of conformation, points", conformationSd, Quantity.CONFORMATION_SD_POINTS.high());
        spread("SD of fat class, points", fatSd, Quantity.FAT_SD_POINTS.high());
        if (age != null) {
            category.checkAge(age.completedMonths(0));
        }
    }

    private static void spread(String what, @Nullable Double value, double most) {
        if (value != null) {
            Checks.atMost(what, Checks.notNegative(what, value), most);
        }
    }

    /** An animal in the making, so that a copy with one change names that change alone. */
    private static final class Draft {
        private Category category;
        private Conformation conformation;
        private FatClass fatClass;
        private double weightKg;
        private boolean live;
        private DayCurve gain;
        private @Nullable Double gainSd;
        private double weightSdKg;
        private @Nullable Double killingOut;
        private @Nullable Double killingOutSd;
        private @Nullable Double conformationSd;
        private @Nullable Double fatSd;
        private @Nullable String id;
        private @Nullable Age age;
        private @Nullable Boolean assured;

        Draft(
                Category category,
                Conformation conformation,
                FatClass fatClass,
                double weightKg,
                boolean live,
                DayCurve gain) {
            this.category = category;
            this.conformation = conformation;
            this.fatClass = fatClass;
            this.weightKg = weightKg;
            this.live = live;
            this.gain = gain;
        }
    }

    private Draft draft() {
        Draft draft = new Draft(category, conformation, fatClass, weightKg, live, gain);
        draft.gainSd = gainSd;
        draft.weightSdKg = weightSdKg;
        draft.killingOut = killingOut;
        draft.killingOutSd = killingOutSd;
        draft.conformationSd = conformationSd;
        draft.fatSd = fatSd;
        draft.id = id;
        draft.age = age;
        draft.assured = assured;
        return draft;
    }

    /**
     * An animal of which the live weight is known.
     *
     * @param category category
     * @param conformation conformation as seen alive
     * @param fatClass fat class as seen and felt alive
     * @param liveKg live weight today, kg, above 0 and at most {@value #HEAVIEST_KG}
     * @param gain live weight gained, kg a day by day, -5 to 5
     * @return the animal
     * @throws IllegalArgumentException if a figure is outside its range
     */
    public static FinishAnimal ofLiveKg(
            Category category, Conformation conformation, FatClass fatClass, double liveKg, DayCurve gain) {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fatClass, "fatClass");
        Objects.requireNonNull(gain, "gain");
        return new FinishAnimal(new Draft(category, conformation, fatClass, liveKg, true, gain));
    }

    /**
     * An animal of which the cold carcass weight is known, or guessed, instead.
     *
     * @param category category
     * @param conformation conformation as seen alive
     * @param fatClass fat class as seen and felt alive
     * @param coldKg cold carcass weight if it was slaughtered today, kg
     * @param gain live weight gained, kg a day by day, -5 to 5
     * @return the animal
     * @throws IllegalArgumentException if a figure is outside its range
     */
    public static FinishAnimal ofColdKg(
            Category category, Conformation conformation, FatClass fatClass, double coldKg, DayCurve gain) {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fatClass, "fatClass");
        Objects.requireNonNull(gain, "gain");
        return new FinishAnimal(new Draft(category, conformation, fatClass, coldKg, false, gain));
    }

    /**
     * The same with its tag.
     *
     * @param newId the tag
     * @return a copy
     */
    public FinishAnimal withId(String newId) {
        Draft draft = draft();
        draft.id = Objects.requireNonNull(newId, "newId");
        return new FinishAnimal(draft);
    }

    /**
     * The same with its age.
     *
     * @param newAge how old it is today
     * @return a copy
     * @throws IllegalArgumentException if the law puts that age in another category
     */
    public FinishAnimal withAge(Age newAge) {
        Draft draft = draft();
        draft.age = Objects.requireNonNull(newAge, "newAge");
        return new FinishAnimal(draft);
    }

    /**
     * The same with what is known of its farm assurance.
     *
     * @param newAssured whether farm assurance covers it
     * @return a copy
     */
    public FinishAnimal withAssured(boolean newAssured) {
        Draft draft = draft();
        draft.assured = newAssured;
        return new FinishAnimal(draft);
    }

    /**
     * The same with another gain.
     *
     * @param newGain live weight gained, kg a day by day, -5 to 5
     * @return a copy
     * @throws IllegalArgumentException if it is outside its range
     */
    public FinishAnimal withGain(DayCurve newGain) {
        Draft draft = draft();
        draft.gain = Objects.requireNonNull(newGain, "newGain");
        return new FinishAnimal(draft);
    }

    /**
     * The same with its own killing-out in place of that assumed for its conformation.
     *
     * @param newKillingOut cold carcass weight, kg a kg of live weight today, 0.3 to 0.75
     * @return a copy
     * @throws IllegalArgumentException if it is outside its range
     */
    public FinishAnimal withKillingOut(double newKillingOut) {
        Draft draft = draft();
        draft.killingOut = newKillingOut;
        return new FinishAnimal(draft);
    }

    /**
     * The same with how far its weight today may be off.
     *
     * @param newSdKg SD of the live or cold weight as given, kg, 0 to a quarter of the weight; 0 unless said
     * @return a copy
     * @throws IllegalArgumentException if it is outside its range
     */
    public FinishAnimal withWeightSdKg(double newSdKg) {
        Draft draft = draft();
        draft.weightSdKg = newSdKg;
        return new FinishAnimal(draft);
    }

    /**
     * The same with how far its killing-out may be off, in place of what is assumed.
     *
     * @param newSd SD, kg a kg of live weight, 0 to 0.1
     * @return a copy
     * @throws IllegalArgumentException if it is outside its range
     */
    public FinishAnimal withKillingOutSd(double newSd) {
        Draft draft = draft();
        draft.killingOutSd = newSd;
        return new FinishAnimal(draft);
    }

    /**
     * The same with how far its gain may be off, in place of what is assumed.
     *
     * @param newSdKgPerDay SD, kg a day, the same every day, 0 to 2
     * @return a copy
     * @throws IllegalArgumentException if it is outside its range
     */
    public FinishAnimal withGainSd(double newSdKgPerDay) {
        Draft draft = draft();
        draft.gainSd = newSdKgPerDay;
        return new FinishAnimal(draft);
    }

    /**
     * The same with how far its grades may be off, in place of what is assumed. A grade wider than a third is less sure by what
     * it leaves open.
     *
     * @param newConformationSd SD, points of the 18-point scale, 0 to 6
     * @param newFatSd SD, points of the 15-point scale, 0 to 6
     * @return a copy
     * @throws IllegalArgumentException if one is outside its range
     */
    public FinishAnimal withGradeSd(double newConformationSd, double newFatSd) {
        Draft draft = draft();
        draft.conformationSd = newConformationSd;
        draft.fatSd = newFatSd;
        return new FinishAnimal(draft);
    }

    /**
     * Category.
     *
     * @return the category today
     */
    public Category category() {
        return category;
    }

    /**
     * Conformation.
     *
     * @return conformation as seen alive
     */
    public Conformation conformation() {
        return conformation;
    }

    /**
     * Fat class.
     *
     * @return fat class as seen alive
     */
    public FatClass fatClass() {
        return fatClass;
    }

    /**
     * Weight today.
     *
     * @return kg, live or cold as {@link #isLiveWeight} says
     */
    public double weightKg() {
        return weightKg;
    }

    /**
     * Whether the weight is that of the live animal.
     *
     * @return true for live, false for the cold carcass
     */
    public boolean isLiveWeight() {
        return live;
    }

    /**
     * Live weight gained.
     *
     * @return kg a day by day
     */
    public DayCurve gain() {
        return gain;
    }

    /**
     * How far the weight may be off.
     *
     * @return SD, kg
     */
    public double weightSdKg() {
        return weightSdKg;
    }

    /**
     * Its own killing-out.
     *
     * @return kg a kg of live weight, or empty if that assumed for its conformation counts
     */
    public OptionalDouble killingOut() {
        return optional(killingOut);
    }

    /**
     * How far its killing-out may be off.
     *
     * @return SD, kg a kg of live weight, or empty if what is assumed counts
     */
    public OptionalDouble killingOutSd() {
        return optional(killingOutSd);
    }

    /**
     * How far its gain may be off.
     *
     * @return SD, kg a day, or empty if what is assumed counts
     */
    public OptionalDouble gainSd() {
        return optional(gainSd);
    }

    /**
     * How far its conformation may be off.
     *
     * @return SD, points, or empty if what is assumed counts
     */
    public OptionalDouble conformationSd() {
        return optional(conformationSd);
    }

    /**
     * How far its fat class may be off.
     *
     * @return SD, points, or empty if what is assumed counts
     */
    public OptionalDouble fatSd() {
        return optional(fatSd);
    }

    private static OptionalDouble optional(@Nullable Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /**
     * Tag.
     *
     * @return the tag, or empty
     */
    public Optional<String> id() {
        return Optional.ofNullable(id);
    }

    /**
     * Age.
     *
     * @return how old it is today, or empty if not known
     */
    public Optional<Age> age() {
        return Optional.ofNullable(age);
    }

    /**
     * Whether farm assurance covers it.
     *
     * @return true or false, or empty if not known
     */
    public Optional<Boolean> assured() {
        return Optional.ofNullable(assured);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof FinishAnimal that
                && category == that.category
                && conformation.equals(that.conformation)
                && fatClass.equals(that.fatClass)
                && weightKg == that.weightKg
                && live == that.live
                && gain.equals(that.gain)
                && Objects.equals(gainSd, that.gainSd)
                && weightSdKg == that.weightSdKg
                && Objects.equals(killingOut, that.killingOut)
                && Objects.equals(killingOutSd, that.killingOutSd)
                && Objects.equals(conformationSd, that.conformationSd)
                && Objects.equals(fatSd, that.fatSd)
                && Objects.equals(id, that.id)
                && Objects.equals(age, that.age)
                && Objects.equals(assured, that.assured);
    }

    @Override
    public int hashCode() {
        return Objects.hash(
                category,
                conformation,
                fatClass,
                weightKg,
                live,
                gain,
                gainSd,
                weightSdKg,
                killingOut,
                killingOutSd,
                conformationSd,
                fatSd,
                id,
                age,
                assured);
    }

    /**
     * One line.
     *
     * @return such as {@code 372 C R= 3- 640 kg live}
     */
    @Override
    public String toString() {
        return (id == null ? "" : id + " ") + category + " " + conformation + " " + fatClass + " "
                + Numbers.exact(weightKg) + " kg " + (live ? "live" : "cold");
    }
}
