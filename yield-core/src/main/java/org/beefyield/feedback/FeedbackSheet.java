package org.beefyield.feedback;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Valuer;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What one supplier's carcasses came to, on one page: each animal by its tag, beside the hall's average of its category, in
 * specification or not and why, and a sentence of advice if there is a harmless one. Kilograms are whole ones. Immutable.
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
     */
    record Settings(
            YieldEstimator estimator,
            @Nullable MarketSpecification market,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer,
            boolean showsValue) {}

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

    /** The hall's averages of the animals' categories. */
    Map<Category, LotEstimate> averages() {
        return averages;
    }

    Settings settings() {
        return settings;
    }

    /** The hall's average of an animal's category. */
    LotEstimate average(YieldEstimate animal) {
        LotEstimate average = averages.get(animal.carcass().category());
        if (average == null) {
            throw new IllegalStateException("every animal is in its own hall's average");
        }
        return average;
    }

    /** Why an animal is not in specification; none if none is asked for. */
    List<MarketFault> faults(YieldEstimate animal) {
        MarketSpecification market = settings.market();
        return market == null ? List.of() : market.check(animal.carcass());
    }

    /**
     * One sentence of advice. If the customer doesn't take animals: about the cause that most is lost by, those that a
     * supplier can do something about before the next sale going before shape and category; causes are ranked by the worth
     * of the animals, or by their number if there are no prices. It never asks for what another limit of the customer
     * forbids, and where nothing harmless can be said there is none. If all are taken, or no specification is asked for:
     * how the animals compare with the hall.
     *
     * @return a sentence, or empty
     */
    public Optional<String> advice() {
        return new FeedbackSheetText(this).advice();
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
