package org.beefyield.price;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Values what an estimator's carcasses return, at one price list and one level of cutting. Every cut that can come out has
 * a price, or there is no valuer. Mince is valued at the fat that it has, not at what was asked for. Immutable and thread-safe.
 */
public final class Valuer implements Serializable {
    private static final long serialVersionUID = 1;

    private final transient PriceList prices;
    private final transient YieldEstimator estimator;
    private final transient String level;
    private final transient Map<Cut, Double> priced;

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
        Objects.requireNonNull(prices, "prices");
        Objects.requireNonNull(estimator, "estimator");
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
        Objects.requireNonNull(prices, "prices");
        Objects.requireNonNull(estimator, "estimator");
        Objects.requireNonNull(level, "level");
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
            Optional<MinceTarget> target = estimator.minceTarget().filter(any -> isMade(cut));
            Optional<Double> price = target.isPresent()
                    ? target.flatMap(asked -> prices.ofMince(asked.fat())).map(PriceList.MincePrice::perKg)
                    : prices.of(cut);
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

    /** Whether a cut is mince that is made of lean trim, which has the fat that it turns out to have. */
    private static boolean isMade(Cut cut) {
        return cut.code().equals(Outturn.MINCE_CODE);
    }

    /** The price of the mince of an outturn, by the fat that it has. */
    private PriceList.MincePrice price(Mince mince) {
        // none was made: any price will do, and that of what was asked is there
        double fat = mince.kg() == 0 ? mince.target().fat() : mince.fat();
        return prices.ofMince(fat)
                .orElseThrow(() -> new MissingPriceException(
                        "no price is given for mince at " + percent(fat) + " % fat ("
                                + percent(mince.target().fat())
                                + " % asked)"
                                + prices.fattestMincePercent().stream()
                                        .mapToObj(most -> ", the fattest that has one is " + Numbers.exact(most) + " %")
                                        .findFirst()
                                        .orElse("")
                                + "; give one for " + percent(fat) + " % or fatter, or for mince of any fat content",
                        fat));
    }

    private static String percent(double fat) {
        return Numbers.brief(100 * fat);
    }

    /** Which price mince is sold at, unless it is as fat as asked and has a price of its own. */
    private String note(Mince mince, PriceList.MincePrice price) {
        Double upTo = price.upToPercent();
        if (mince.kg() == 0
                || (upTo == null
                        ? prices.fattestMincePercent().isEmpty()
                        : mince.note().isEmpty() && upTo == PriceList.percent(mince.fat()))) {
            return "";
        }
        return percent(mince.fat()) + " % fat, at the price for "
                + (upTo == null ? "any mince" : Numbers.exact(upTo) + " %");
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
     * @throws MissingPriceException if its mince turns out fatter than any that has a price
     */
    public Value value(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        return value(estimator.estimate(carcass));
    }

    /** Carcasses, those of which only a part is there too. */
    private static long head(Outturn outturn) {
        if (outturn instanceof LotEstimate lot) {
            return lot.carcasses();
        }
        return outturn instanceof PartEstimate parts ? parts.head() : 1;
    }

    /**
     * Values an outturn. A price per head is that of each carcass, also if only a part of it is there.
     *
     * @param outturn an estimate of a carcass, a lot or parts of carcasses by the valuer's estimator or an equal one
     * @return its value
     * @throws IllegalArgumentException if it was estimated from another table or in another manner
     * @throws MissingPriceException if its mince turned out fatter than any that has a price
     */
    public Value value(Outturn outturn) {
        Objects.requireNonNull(outturn, "outturn");
        estimator.check(outturn);
        long head = head(outturn);
        List<ValueLine> lines = new ArrayList<>();
        priced.forEach((cut, listed) -> {
            Mince mince = isMade(cut) ? outturn.mince().orElse(null) : null;
            PriceList.MincePrice sold = mince == null ? null : price(mince);
            double price = sold == null ? listed : sold.perKg();
            double kg = outturn.kg(level, cut.code());
            String note = mince == null || sold == null ? "" : note(mince, sold);
            lines.add(new ValueLine(cut.name(), cut.code(), kg, price, kg * price, note));
        });
        for (PriceList.OtherLine other : prices.others()) {
            double quantity = other.per() == PriceList.OtherLine.Per.HEAD ? head : outturn.coldWeightKg();
            lines.add(new ValueLine(other.name(), "", quantity, other.amount(), quantity * other.amount(), ""));
        }
        return new Value(prices, estimator, level, outturn, head, lines);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Valuer that
                && prices.equals(that.prices)
                && estimator.equals(that.estimator)
                && level.equals(that.level);
    }

    @Override
    public int hashCode() {
        return Objects.hash(prices, estimator, level);
    }

    /**
     * What goes over the wire.
     *
     * @param prices prices
     * @param estimator how carcasses are estimated and cut
     * @param level the level that is valued
     * @serial exclude
     */
    private record Form(PriceList prices, YieldEstimator estimator, String level) implements Serializable {
        private Object readResolve() {
            return of(prices, estimator, level);
        }
    }

    /**
     * What is written in its place.
     *
     * @return prices, estimator and level
     */
    private Object writeReplace() {
        return new Form(prices, estimator, level);
    }

    /**
     * Refuses a valuer that was not written as prices, estimator and level.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("a valuer arrives as prices, estimator and level");
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
