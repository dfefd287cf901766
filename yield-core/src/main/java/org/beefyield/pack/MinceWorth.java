package org.beefyield.pack;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;

/**
 * What a carcass is worth by its trims: what becomes of them hangs on their sums alone, and linearly so in each of a few cases.
 * The fat trim suffices for the mince, or it runs short, or the lean trim is fatter than asked and nothing is added; and in each
 * the mince has one of the list's prices. Immutable.
 */
final class MinceWorth {
    /** Fat content, a fraction: farther from a step of the prices than their rounding. */
    private static final double BESIDE = 1e-8;

    private static final double NO_KG = 1e-9;

    private static final Trims FAT_TRIM_KG = new Trims(0, 0, 0, 1, 0, 0);

    private final PriceList prices;
    private final String level;
    /** What mince is brought to; empty where none is valued. */
    private final Optional<MinceTarget> target;

    private final List<FatTrim> fatTrims;

    /**
     * Trims of a carcass, or what a way of one cut changes in them; also the coefficients of a linear function of these.
     *
     * @param other worth of all but the trims
     * @param leanKg lean trim
     * @param fatInLeanKg fat in it
     * @param fatTrimKg fat trim before mincing
     * @param fatInFatTrimKg fat in it
     * @param fatTrim what it is worth if none goes into the mince
     */
    record Trims(
            double other, double leanKg, double fatInLeanKg, double fatTrimKg, double fatInFatTrimKg, double fatTrim) {
        static final Trims NONE = new Trims(0, 0, 0, 0, 0, 0);
        /** One of what is worth something else. */
        static final Trims OTHER = new Trims(1, 0, 0, 0, 0, 0);

        Trims plus(double times, Trims more) {
            return new Trims(
                    other + times * more.other,
                    leanKg + times * more.leanKg,
                    fatInLeanKg + times * more.fatInLeanKg,
                    fatTrimKg + times * more.fatTrimKg,
                    fatInFatTrimKg + times * more.fatInFatTrimKg,
                    fatTrim + times * more.fatTrim);
        }

        /** The linear function with these coefficients. */
        double of(Trims trims) {
            return other * trims.other
                    + leanKg * trims.leanKg
                    + fatInLeanKg * trims.fatInLeanKg
                    + fatTrimKg * trims.fatTrimKg
                    + fatInFatTrimKg * trims.fatInFatTrimKg
                    + fatTrim * trims.fatTrim;
        }
    }

    /**
     * A fat trim.
     *
     * @param code code of the cut
     * @param fat its fat content, a fraction
     * @param price price per kg
     */
    private record FatTrim(String code, double fat, double price) {}

    /**
     * What can become of the trims.
     *
     * @param worth no less than trims of this case are worth; just that if there is one fat trim
     * @param signs functions that are 0 or more of all trims of this case
     */
    record Case(Trims worth, List<Trims> signs) {}

    private MinceWorth(PriceList prices, String level, Optional<MinceTarget> target, List<FatTrim> fatTrims) {
        this.prices = prices;
        this.level = level;
        this.target = target;
        this.fatTrims = fatTrims;
    }

    static MinceWorth of(Valuer valuer) {
        PriceList prices = valuer.prices();
        YieldTable table = valuer.estimator().table();
        List<String> levels = table.levels();
        boolean last = valuer.level().equals(levels.get(levels.size() - 1));
        List<FatTrim> fatTrims = new ArrayList<>();
        for (Cut cut : table.cutsAt(valuer.level())) {
            Double fatPct = cut.fatPct();
            Optional<Double> price = prices.of(cut);
            // without a price none comes out in a way that is looked at
            if (cut.kind() == CutKind.FAT_TRIM && fatPct != null && price.isPresent()) {
                fatTrims.add(new FatTrim(cut.code(), fatPct / 100, price.get()));
            }
        }
        return new MinceWorth(
                prices, valuer.level(), valuer.estimator().minceTarget().filter(any -> last), List.copyOf(fatTrims));
    }

    /**
     * The trims behind a value.
     *
     * @param value value of a carcass
     * @param carcass the carcass
     * @param unminced what cuts it in the same ways and makes no mince
     */
    Trims trims(Value value, Carcass carcass, YieldEstimator unminced) {
        if (target.isEmpty()) {
            return Trims.NONE.plus(value.amount(), Trims.OTHER);
        }
        Mince mince = value.outturn().mince().orElseThrow();
        double fatInLeanKg = mince.fat() * mince.kg() - mince.fatOfFatTrim() * mince.fatTrimKg();
        Trims trims = new Trims(0, mince.leanTrimKg(), fatInLeanKg, 0, 0, 0);
        Outturn asCut = unminced.estimate(carcass);
        for (FatTrim trim : fatTrims) {
            trims = trims.plus(asCut.kg(level, trim.code), new Trims(0, 0, 0, 1, trim.fat, trim.price));
        }
        return trims.plus(value.amount() - of(trims), Trims.OTHER);
    }

    /** What a carcass with these trims is worth; below everything if its mince has no price. */
    double of(Trims trims) {
        if (target.isEmpty()) {
            return trims.other;
        }
        double fatTrimKg = Math.max(0, trims.fatTrimKg);
        double fat = fatTrimKg < NO_KG ? 1 : trims.fatInFatTrimKg / fatTrimKg;
        double wanted = Math.max(0, lack().of(trims) / (fat - asked()));
        double added = Math.min(wanted, fatTrimKg);
        double left = added < NO_KG ? trims.fatTrim : trims.fatTrim * (1 - added / fatTrimKg);
        double kg = trims.leanKg + added;
        if (kg < NO_KG) {
            return trims.other + left;
        }
        double content = (trims.fatInLeanKg + added * fat) / kg;
        OptionalDouble price = prices.minceAt(Math.min(Math.max(0, content), 1));
        return price.isEmpty() ? Double.NEGATIVE_INFINITY : trims.other + left + price.getAsDouble() * kg;
    }

    /** All cases. */
    List<Case> cases() {
        if (target.isEmpty()) {
            return List.of(new Case(Trims.OTHER, List.of()));
        }
        List<Case> cases = new ArrayList<>();
        addCaseAsAsked(cases);
        double above = 0;
        for (double percent : prices.mince().keySet()) {
            addOtherCases(cases, above, percent / 100);
            above = percent / 100;
        }
        addOtherCases(cases, above, 1);
        return cases;
    }

    /** The lean trim lacks fat, and the fat trim suffices. */
    private void addCaseAsAsked(List<Case> cases) {
        prices.minceAt(asked()).ifPresent(price -> {
            double gained = fatTrims.stream()
                    .mapToDouble(
                            trim -> (price - trim.price) / ((price > trim.price ? leastFat() : mostFat()) - asked()))
                    .max()
                    .orElse(0);
            Trims left = FAT_TRIM_KG.plus(-1 / (mostFat() - asked()), lack());
            cases.add(new Case(nothingAdded(price).plus(gained, lack()), List.of(lack(), left)));
        });
    }

    /** All fat trim goes in, or none, and the mince has a fat content above one and up to another. */
    private void addOtherCases(List<Case> cases, double above, double upTo) {
        prices.minceAt(upTo).ifPresent(price -> {
            double from = above - BESIDE;
            double to = upTo + BESIDE;
            if (above < asked()) {
                Trims missing =
                        Trims.NONE.plus(1 / (leastFat() - asked()), lack()).plus(-1, FAT_TRIM_KG);
                cases.add(new Case(
                        new Trims(1, price, 0, price, 0, 0),
                        List.of(missing, new Trims(0, -from, 1, -from, 1, 0), new Trims(0, to, -1, to, -1, 0))));
            }
            if (asked() < to) {
                cases.add(new Case(
                        nothingAdded(price),
                        List.of(
                                Trims.NONE.plus(-1, lack()),
                                new Trims(0, -from, 1, 0, 0, 0),
                                new Trims(0, to, -1, 0, 0, 0))));
            }
        });
    }

    private double asked() {
        return target.orElseThrow().fat();
    }

    /** Fat that the lean trim lacks, kg. */
    private Trims lack() {
        return new Trims(0, asked(), -1, 0, 0, 0);
    }

    private static Trims nothingAdded(double price) {
        return new Trims(1, price, 0, 0, 0, 1);
    }

    private double leastFat() {
        return fatTrims.stream().mapToDouble(FatTrim::fat).min().orElse(1);
    }

    private double mostFat() {
        return fatTrims.stream().mapToDouble(FatTrim::fat).max().orElse(1);
    }
}
