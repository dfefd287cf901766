package org.beefyield.feedback;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What one supplier's carcasses came to, on one page: each animal by its tag, the supplier's own average beside the hall's of each
 * category, in specification or not and why, and a sentence of advice if there is a harmless one. Weights are as recorded,
 * estimated kilograms whole ones. Immutable.
 */
public final class FeedbackSheet implements Shown {
    private final String supplier;
    private final List<YieldEstimate> animals;
    private final Map<Category, LotEstimate> averages;
    private final Settings settings;

    /**
     * What sheets say.
     *
     * @param estimator estimator
     * @param market what the customer takes, or null to leave that out
     * @param overfat the cost of fat, or null to leave that out
     * @param valuer prices by which advice is ranked, or null if there are none
     * @param showsValue whether the sheets show what animals were worth
     * @param timeOfSale what is said about the day of sale, or null to leave that out
     */
    record Settings(
            YieldEstimator estimator,
            @Nullable MarketSpecification market,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer,
            boolean showsValue,
            @Nullable TimeOfSale timeOfSale) {}

    FeedbackSheet(
            String supplier, List<YieldEstimate> animals, Map<Category, LotEstimate> averages, Settings settings) {
        this.supplier = supplier;
        this.animals = animals;
        this.averages = averages;
        this.settings = settings;
    }

    /**
     * The supplier.
     *
     * @return name
     */
    public String supplier() {
        return supplier;
    }

    /**
     * The supplier's animals.
     *
     * @return an estimate of each, in the order in which they were added
     */
    public List<YieldEstimate> animals() {
        return animals;
    }

    /**
     * The supplier's own animals by category.
     *
     * @return an unmodifiable map of their lots
     */
    public Map<Category, LotEstimate> ownAverages() {
        Map<Category, LotEstimate> own = new EnumMap<>(Category.class);
        for (YieldEstimate animal : animals) {
            Category category = animal.carcass().category();
            own.computeIfAbsent(
                    category,
                    any -> settings.estimator()
                            .estimateLot(animals.stream()
                                    .map(YieldEstimate::carcass)
                                    .filter(carcass -> carcass.category() == category)
                                    .toList()));
        }
        return Collections.unmodifiableMap(own);
    }

    /**
     * The days on which the animals were killed.
     *
     * @return days as the carcasses have them, each once, in order; none if they don't say
     */
    public List<String> killDates() {
        return stated(Carcass::killDate);
    }

    /**
     * The halls in which the animals are boned.
     *
     * @return names, each once, in order; none if the carcasses don't say
     */
    public List<String> halls() {
        return stated(Carcass::hall);
    }

    private List<String> stated(Function<Carcass, Optional<String>> what) {
        return animals.stream()
                .map(animal -> what.apply(animal.carcass()))
                .flatMap(Optional::stream)
                .distinct()
                .sorted()
                .toList();
    }

    /**
     * The hall's averages of the animals' categories, as far as there are enough animals and suppliers for one.
     *
     * @return an unmodifiable map of the lots of all suppliers' animals of a category
     */
    public Map<Category, LotEstimate> averages() {
        return Collections.unmodifiableMap(averages);
    }

    Settings settings() {
        return settings;
    }

    /**
     * What the customer takes.
     *
     * @return the specification, or empty if none is asked for
     */
    public Optional<MarketSpecification> market() {
        return Optional.ofNullable(settings.market());
    }

    /**
     * The hall's average of an animal's category.
     *
     * @param animal one of the supplier's animals
     * @return the lot of all suppliers' animals of its category, or empty if these are too few to hide a neighbour's
     */
    public Optional<LotEstimate> average(YieldEstimate animal) {
        Objects.requireNonNull(animal, "animal");
        return Optional.ofNullable(averages.get(animal.carcass().category()));
    }

    /**
     * Why an animal is not in specification.
     *
     * @param animal an animal
     * @return the limits that it misses; none if it is in specification, or none is asked for
     */
    public List<MarketFault> faults(YieldEstimate animal) {
        Objects.requireNonNull(animal, "animal");
        MarketSpecification market = settings.market();
        return market == null ? List.of() : market.check(animal.carcass());
    }

    /**
     * Animals that miss no limit.
     *
     * @return number of animals, all of them if no specification is asked for
     */
    public long inSpecification() {
        return animals.stream().filter(animal -> faults(animal).isEmpty()).count();
    }

    /**
     * What an animal was worth, if the sheet shows that.
     *
     * @param animal one of the supplier's animals
     * @return its value, or empty if the sheet doesn't show it
     */
    public Optional<Value> value(YieldEstimate animal) {
        Objects.requireNonNull(animal, "animal");
        Valuer valuer = settings.valuer();
        return valuer == null || !settings.showsValue() ? Optional.empty() : Optional.of(valuer.value(animal));
    }

    /**
     * How much more saleable meat the animals gave than the hall's average of their categories would have.
     *
     * @return fraction of their cold weight, below 0 for less; of those that have an average beside them, empty if none has
     */
    public OptionalDouble saleableBesideHall() {
        double kg = 0;
        double expected = 0;
        double cold = 0;
        for (YieldEstimate animal : animals) {
            LotEstimate average = averages.get(animal.carcass().category());
            if (average != null) {
                kg += animal.saleableKg();
                expected += animal.coldWeightKg() * (average.saleableKg() / average.coldWeightKg());
                cold += animal.coldWeightKg();
            }
        }
        return cold > 0 ? OptionalDouble.of((kg - expected) / cold) : OptionalDouble.empty();
    }

    /**
     * What the advice is about: the cause that most is lost by and the animals that it concerns.
     *
     * @return cause and animals, or empty if all are taken, no specification is asked for, or nothing harmless can be said
     */
    public Optional<AdviceFact> adviceFact() {
        return new FeedbackSheetText(this).adviceFact();
    }

    /**
     * What a supplier reads first: how many animals are in specification, and the advice.
     *
     * @return sentences, each with a full stop
     */
    public List<String> summary() {
        return new FeedbackSheetText(this).summary();
    }

    /**
     * Why animals are not in specification, one sentence for each of them.
     *
     * @return sentences, each with a full stop
     */
    public List<String> reasons() {
        return new FeedbackSheetText(this).reasons();
    }

    /**
     * What stands at the foot of the sheet: what the averages are of, and cautions.
     *
     * @return sentences
     */
    public List<String> remarks() {
        return new FeedbackSheetText(this).remarks();
    }

    /**
     * Advice, in one sentence. If the customer doesn't take animals: about the cause that most is lost by, those that a
     * supplier can do something about before the next sale going before shape and category; causes are ranked by the worth
     * of the animals, or by their number if there are no prices. It never asks for what another limit of the customer
     * forbids, and where nothing harmless can be said there is none. If all are taken, or no specification is asked for:
     * how the animals compare with the hall. Where costs are known, what another day of sale would have left follows, and takes
     * the place of advice to sell sooner or later.
     *
     * @return one sentence or two, or empty
     */
    public Optional<String> advice() {
        return new FeedbackSheetText(this).advice();
    }

    /**
     * The animals as a frame, a row for each.
     *
     * @return the carcass as {@link org.beefyield.estimate.Frames} has it; {@code cold weight}, {@code saleable} and
     *     {@code fat trim} in kg; {@code saleable share} and {@code fat trim share} in % of cold weight, each beside the
     *     hall's of the category, missing where it has none; {@code missed limits}, missing where the animal is in specification, if a market is asked
     *     for; {@code worth} in the currency, if the sheet shows it
     */
    public Frame toFrame() {
        return new FeedbackSheetText(this).frame();
    }

    /**
     * The sheet for people.
     *
     * @return lines of plain text
     */
    @Override
    public String toText() {
        return new FeedbackSheetText(this).text();
    }

    /**
     * The sheet as HTML.
     *
     * @return elements: a heading, then sentences, table and reasons
     */
    @Override
    public String toHtml() {
        return new FeedbackSheetText(this).html();
    }

    /**
     * One line.
     *
     * @return supplier, number of animals and the advice, if there is any
     */
    @Override
    public String toString() {
        return new FeedbackSheetText(this).sentence();
    }
}
