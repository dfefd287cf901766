package org.beefyield.value;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;

/**
 * Values what an estimator's carcasses return, at one price list and one level of cutting. Every cut that can come out has
 * a price, or there is no valuer. Immutable and thread-safe.
 */
public final class Valuer {
    private final PriceList prices;
    private final YieldEstimator estimator;
    private final String level;
    private final Map<Cut, Double> priced;

    private Valuer(PriceList prices, YieldEstimator estimator, String level, Map<Cut, Double> priced) {
        this.prices = prices;
        this.estimator = estimator;
        this.level = level;
        this.priced = priced;
    }

    /**
     * Values the table's last level.
     *
     * @param prices prices
     * @param estimator how carcasses are estimated and cut
     * @return a valuer
     * @throws IllegalArgumentException as {@link #of(PriceList, YieldEstimator, String)}
     */
    public static Valuer of(PriceList prices, YieldEstimator estimator) {
        List<String> levels = estimator.table().levels();
        return of(prices, estimator, levels.get(levels.size() - 1));
    }

    /**
     * Values a level, such as the primals of a plant that sells primals.
     *
     * @param prices prices
     * @param estimator how carcasses are estimated and cut
     * @param level name of the level
     * @return a valuer
     * @throws IllegalArgumentException if the table has no such level, a cut that can come out has no price, or a price is
     *     for a cut that the table doesn't have; it names them all
     */
    public static Valuer of(PriceList prices, YieldEstimator estimator, String level) {
        CutCatalogue catalogue = estimator.table().catalogue();
        List<String> wrong = new ArrayList<>();
        for (String code : prices.cuts().keySet()) {
            if (catalogue.find(code).isEmpty() && !code.equals(Outturn.MINCE_CODE)) {
                wrong.add("a price is given for what the table doesn't have: " + catalogue.unknown(code));
            }
        }
        Map<Cut, Double> priced = new LinkedHashMap<>();
        List<String> missing = new ArrayList<>();
        for (Cut cut : estimator.yields(level)) {
            Optional<MinceTarget> target = estimator.minceTarget().filter(any -> cut.kind() == CutKind.MINCE);
            Optional<Double> price = target.isPresent() ? target.flatMap(prices::of) : prices.of(cut);
            price.ifPresentOrElse(
                    perKg -> priced.put(cut, perKg),
                    () -> missing.add(target.map(MinceTarget::toString)
                            .orElse(cut.code() + " (" + cut.kind().code() + ")")));
        }
        if (!missing.isEmpty()) {
            wrong.add("no price is given for " + String.join(", ", missing)
                    + "; give one for the cut or for its kind, 0 if it is worth nothing");
        }
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException(String.join("; ", wrong));
        }
        return new Valuer(prices, estimator, level, priced);
    }

    /**
     * The prices.
     *
     * @return the list
     */
    public PriceList prices() {
        return prices;
    }

    /**
     * How carcasses are estimated and cut.
     *
     * @return the estimator
     */
    public YieldEstimator estimator() {
        return estimator;
    }

    /**
     * The level that is valued.
     *
     * @return name of the level
     */
    public String level() {
        return level;
    }

    /**
     * Estimates and values a carcass.
     *
     * @param carcass carcass
     * @return its value
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it
     */
    public Value value(Carcass carcass) {
        return value(estimator.estimate(carcass));
    }

    /**
     * Values an outturn.
     *
     * @param outturn an estimate of a carcass or lot by the valuer's estimator or an equal one
     * @return its value
     * @throws IllegalArgumentException if it was estimated from another table or in another manner
     */
    public Value value(Outturn outturn) {
        estimator.check(outturn);
        long head = outturn instanceof LotEstimate lot ? lot.carcasses() : 1;
        List<ValueLine> lines = new ArrayList<>();
        priced.forEach((cut, price) -> {
            double kg = outturn.kg(level, cut.code());
            lines.add(new ValueLine(cut.name(), cut.code(), kg, price, kg * price));
        });
        for (PriceList.OtherLine other : prices.others()) {
            double quantity = other.per() == PriceList.OtherLine.Per.HEAD ? head : outturn.coldWeightKg();
            lines.add(new ValueLine(other.name(), "", quantity, other.amount(), quantity * other.amount()));
        }
        return new Value(this, outturn, head, figure(), lines);
    }

    /** The value of the cuts as a figure, so that its uncertainty follows from theirs. */
    Figure figure() {
        return priced.entrySet().stream()
                .map(entry -> Figure.cut(level, entry.getKey().code()).times(entry.getValue()))
                .reduce(Figure::plus)
                .orElseThrow();
    }

    /**
     * One line.
     *
     * @return prices, estimator and level
     */
    @Override
    public String toString() {
        return prices + " for " + level + " cuts of " + estimator;
    }
}
