package org.beefyield.finish;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.feedback.TimeOfSale;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What animals that were sold would have left on another day, for feedback sheets: each is followed back by its gain and what is
 * assumed of it, and then day by day to as many days after its sale. Immutable.
 *
 * <p>It says one number of days for all animals, and none on which fewer of them are in specification than on the day of their
 * sale, or one is past the limit of age or fat class that wasn't.
 */
public final class SaleAdvice implements TimeOfSale {
    /** Days to either side of the sale that are looked at. */
    public static final int DAYS = 28;

    /** Part of the payment below which another day isn't worth a word. */
    private static final double WORTH_A_WORD = 0.0025;

    private static final double DAYS_A_MONTH = 365.25 / 12;
    private static final double HALF_A_MONTH = 0.5;
    private static final int DECIMALS = 0;

    private final Setup setup;
    private final double gainKgPerDay;

    private SaleAdvice(Setup setup, double gainKgPerDay) {
        this.setup = setup;
        this.gainKgPerDay = gainKgPerDay;
    }

    /**
     * Advice by what decides.
     *
     * @param decides payment, specification, costs and assumptions; how prices move doesn't count
     * @param gainKgPerDay live weight that animals gain near their sale, kg a day, 0 to 5
     * @return the advice
     * @throws IllegalArgumentException if the gain is outside its range
     */
    public static SaleAdvice of(HoldOrSell decides, double gainKgPerDay) {
        Objects.requireNonNull(decides, "decides");
        Checks.atMost("live gain, kg a day", Checks.notNegative("live gain, kg a day", gainKgPerDay), 5);
        Setup setup = decides.setup();
        return new SaleAdvice(
                new Setup(
                        setup.grid(),
                        setup.market(),
                        null,
                        setup.costs(),
                        setup.assumptions()
                                .with(sure(setup, Quantity.FAT_POINTS_PER_DAY_SD))
                                .with(sure(setup, Quantity.GAIN_SD_KG_PER_DAY))
                                .with(sure(setup, Quantity.CONFORMATION_SD_POINTS))
                                .with(sure(setup, Quantity.FAT_SD_POINTS)),
                        List.of(),
                        2 * DAYS),
                gainKgPerDay);
    }

    /** A carcass that was graded is known. */
    private static Assumption sure(Setup setup, Quantity quantity) {
        Assumption assumed = setup.assumptions().of(quantity);
        return new Assumption(quantity, 0, assumed.kind(), assumed.source());
    }

    /**
     * What another day would have left more.
     *
     * @param animals estimates of carcasses as they were graded
     * @return days later, below 0 for sooner, and the amount a head; empty if none of the animals can be followed back
     */
    public Optional<OtherDay> otherDay(List<YieldEstimate> animals) {
        Checks.noNullIn(animals, "animals");
        List<Forecast> forecasts = new ArrayList<>();
        animals.forEach(animal -> before(animal.carcass()).ifPresent(forecasts::add));
        if (forecasts.isEmpty()) {
            return Optional.empty();
        }
        double sold = mean(forecasts, DAYS);
        int best = DAYS;
        for (int day = 0; day <= 2 * DAYS; day++) {
            if (isOffered(forecasts, day) && mean(forecasts, day) > mean(forecasts, best)) {
                best = day;
            }
        }
        return Optional.of(new OtherDay(forecasts.size(), best - DAYS, mean(forecasts, best) - sold, sold));
    }

    /**
     * Another day of sale.
     *
     * @param animals animals that were followed
     * @param daysLater days after their sale, below 0 for before
     * @param morePerHead what a head would have left more
     * @param netPerHead what a head left, its cost of the {@value #DAYS} days before its sale taken off
     */
    public record OtherDay(int animals, int daysLater, double morePerHead, double netPerHead) {}

    private Optional<Forecast> before(Carcass carcass) {
        double gained = gainKgPerDay * DAYS;
        double carcassGained = setup.assumptions().value(Quantity.CARCASS_SHARE_OF_GAIN) * gained;
        double conformation = carcass.conformation().position()
                - setup.assumptions().value(Quantity.CONFORMATION_POINTS_PER_KG) * carcassGained;
        double fat = carcass.fatClass().position() - setup.assumptions().value(Quantity.FAT_POINTS_PER_DAY) * DAYS;
        try {
            FinishAnimal animal = FinishAnimal.ofColdKg(
                    carcass.category(),
                    Conformation.ofPosition(conformation, 0),
                    FatClass.ofPosition(fat, 0),
                    carcass.coldWeightKg() - carcassGained,
                    DayCurve.constant(gainKgPerDay));
            OptionalInt months = carcass.ageMonths();
            if (months.isPresent()) {
                animal = animal.withAge(Age.months(months.getAsInt() + HALF_A_MONTH - DAYS / DAYS_A_MONTH));
            }
            if (carcass.assured().isPresent()) {
                animal = animal.withAssured(carcass.assured().orElseThrow());
            }
            Forecast forecast = Forecast.of(setup, animal, new Projection(setup, animal, Projection.noTables()));
            return forecast.days().size() == 2 * DAYS + 1 ? Optional.of(forecast) : Optional.empty();
        } catch (IllegalArgumentException e) {
            // so much sooner it was none of its category, or off the scale, or the grid pays nothing for what it may
            // become
            return Optional.empty();
        }
    }

    private static double mean(List<Forecast> forecasts, int day) {
        return forecasts.stream()
                .mapToDouble(one -> one.days().get(day).net())
                .average()
                .orElseThrow();
    }

    private boolean isOffered(List<Forecast> forecasts, int day) {
        return taken(forecasts, day) >= taken(forecasts, DAYS)
                && forecasts.stream().allMatch(one -> day <= Math.max(DAYS, one.lastWithinLimits()));
    }

    private static double taken(List<Forecast> forecasts, int day) {
        return forecasts.stream()
                .mapToDouble(one -> one.days().get(day).inSpecification().orElse(1))
                .sum();
    }

    @Override
    public Optional<String> advise(List<YieldEstimate> animals) {
        return otherDay(animals).map(this::words);
    }

    private String words(OtherDay other) {
        String who = other.animals() == 1 ? "it" : "they";
        if (other.daysLater() == 0 || other.morePerHead() < WORTH_A_WORD * Math.abs(other.netPerHead())) {
            return "at the costs given " + who + " left about as much as on any other day up to " + DAYS
                    + " days sooner or later.";
        }
        String sum = Numbers.fixed(other.morePerHead(), DECIMALS) + " "
                + setup.grid().currency() + (other.animals() == 1 ? "" : " a head");
        return "at the costs given and " + Numbers.brief(gainKgPerDay) + " kg of live gain a day, sold "
                + Numbers.counted(Math.abs(other.daysLater()), "day", "days")
                + (other.daysLater() < 0 ? " sooner" : " later")
                + (Math.abs(other.daysLater()) == DAYS ? ", the most that was looked at, " : " ")
                + who + " would have left about " + sum + " more.";
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof SaleAdvice that && setup.equals(that.setup) && gainKgPerDay == that.gainKgPerDay;
    }

    @Override
    public int hashCode() {
        return Objects.hash(setup, gainKgPerDay);
    }

    /**
     * One line.
     *
     * @return the gain by which animals are followed
     */
    @Override
    public String toString() {
        return "advice on the day of sale at " + Numbers.brief(gainKgPerDay) + " kg of live gain a day";
    }
}
