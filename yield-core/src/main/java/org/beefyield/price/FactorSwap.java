package org.beefyield.price;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.estimate.RangePolicy;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;

/** Values the average carcass with any of the factors taken from the first, the others from the second. */
final class FactorSwap {
    private final Valuer first;
    private final Valuer second;
    private final Average from;
    private final Average to;
    private final List<Key> keys;
    private final List<Factor> differing;
    private final Map<Boolean, Map<Boolean, Valuer>> valuers = new LinkedHashMap<>();

    /** What tells lines apart. */
    record Key(String name, String code) {
        static Key of(ValueLine line) {
            return new Key(line.name(), line.code());
        }
    }

    /** An average carcass: one for each category, by its share. */
    record Average(Map<Category, Double> categories, double conformation, double fat, double kg) {
        static Average of(Value value) {
            if (value.outturn() instanceof YieldEstimate estimate) {
                Carcass carcass = estimate.carcass();
                return new Average(
                        Map.of(carcass.category(), 1.0),
                        carcass.conformation().position(),
                        carcass.fatClass().position(),
                        carcass.coldWeightKg());
            }
            if (value.outturn() instanceof LotEstimate lot) {
                Map<Category, Double> shares = new EnumMap<>(Category.class);
                lot.categories().forEach((category, count) -> shares.put(category, (double) count / lot.carcasses()));
                TableRange allowed = lot.table().definition().allowed();
                // a mean may lie beyond the range by the noise of its sum
                return new Average(
                        shares,
                        inside(allowed.conformation(), lot.meanConformation()),
                        inside(allowed.fat(), lot.meanFat()),
                        inside(allowed.weightKg(), lot.coldWeightKg() / lot.carcasses()));
            }
            throw new IllegalArgumentException(
                    (value.outturn() instanceof PartEstimate parts ? parts.words() : "a drawn carcass")
                            + " can't be attributed; take the estimate of a carcass or a lot");
        }

        private static double inside(Range range, double mean) {
            return Math.min(range.high(), Math.max(range.low(), mean));
        }
    }

    FactorSwap(Valuer first, Valuer second, Average from, Average to, List<Key> keys) {
        this.first = first;
        this.second = second;
        this.from = from;
        this.to = to;
        this.keys = keys;
        Set<Factor> differ = EnumSet.noneOf(Factor.class);
        add(differ, Factor.WEIGHT, from.kg() != to.kg());
        add(differ, Factor.CATEGORY, !from.categories().equals(to.categories()));
        add(differ, Factor.CONFORMATION, from.conformation() != to.conformation());
        add(differ, Factor.FAT_CLASS, from.fat() != to.fat());
        add(differ, Factor.CUTTING, !cutAlike(first.estimator(), second.estimator()));
        add(differ, Factor.PRICE, !first.prices().equals(second.prices()));
        this.differing = List.copyOf(differ);
    }

    private static void add(Set<Factor> differ, Factor factor, boolean differs) {
        if (differs) {
            differ.add(factor);
        }
    }

    private static boolean cutAlike(YieldEstimator a, YieldEstimator b) {
        return a.specification().equals(b.specification()) && a.minceTarget().equals(b.minceTarget());
    }

    /** What each factor does to kg and amount of each line, and to the value of a kg; one that is equal does nothing. */
    Map<Factor, double[]> effects() {
        int n = differing.size();
        double[][] values = new double[1 << n][];
        for (int subset = 0; subset < values.length; subset++) {
            values[subset] = value(subset);
        }
        Map<Factor, double[]> effects = new EnumMap<>(Factor.class);
        for (Factor factor : Factor.values()) {
            double[] mean = new double[2 * keys.size() + 1];
            int bit = 1 << differing.indexOf(factor);
            for (int subset = 0; differing.contains(factor) && subset < values.length; subset++) {
                if ((subset & bit) == 0) {
                    double share = partOfOrders(Integer.bitCount(subset), n);
                    for (int i = 0; i < mean.length; i++) {
                        mean[i] += share * (values[subset | bit][i] - values[subset][i]);
                    }
                }
            }
            effects.put(factor, mean);
        }
        return effects;
    }

    /** The part of all orders of n factors in which a given set of some of them, and no other, precedes a factor. */
    private static double partOfOrders(int before, int n) {
        double part = 1.0 / n;
        for (int k = 1; k <= before; k++) {
            part *= (double) k / (n - k);
        }
        return part;
    }

    private double[] value(int subset) {
        return average(
                valuer(has(subset, Factor.PRICE), has(subset, Factor.CUTTING)),
                new Average(
                        (has(subset, Factor.CATEGORY) ? from : to).categories(),
                        (has(subset, Factor.CONFORMATION) ? from : to).conformation(),
                        (has(subset, Factor.FAT_CLASS) ? from : to).fat(),
                        (has(subset, Factor.WEIGHT) ? from : to).kg()));
    }

    private boolean has(int subset, Factor factor) {
        int index = differing.indexOf(factor);
        return index >= 0 && (subset >> index & 1) == 1;
    }

    private Valuer valuer(boolean pricesOfFirst, boolean cuttingOfFirst) {
        return valuers.computeIfAbsent(pricesOfFirst, any -> new LinkedHashMap<>())
                .computeIfAbsent(
                        cuttingOfFirst,
                        any -> Valuer.of(
                                (pricesOfFirst ? first : second).prices(),
                                (cuttingOfFirst ? first : second)
                                        .estimator()
                                        // between carcasses that are estimated none is refused
                                        .with(RangePolicy.NOTE_OUTSIDE_FITTED),
                                first.level()));
    }

    double[] average(Valuer valuer, Average average) {
        double[] sum = new double[2 * keys.size() + 1];
        average.categories().forEach((category, share) -> {
            Carcass carcass = Carcass.of(
                    category,
                    Conformation.ofPosition(average.conformation(), 0),
                    FatClass.ofPosition(average.fat(), 0),
                    average.kg());
            double[] one = perHead(
                    valuer.value(valuer.estimator()
                            .with(RangePolicy.NOTE_OUTSIDE_FITTED)
                            .estimate(carcass)),
                    keys);
            for (int i = 0; i < sum.length; i++) {
                sum[i] += share * one[i];
            }
        });
        return sum;
    }

    /** kg of each line, then the amount of each, per head; last the value of a kg. */
    static double[] perHead(Value value, List<Key> keys) {
        double[] both = new double[2 * keys.size() + 1];
        both[2 * keys.size()] = value.perKg();
        for (ValueLine line : value.lines()) {
            int i = keys.indexOf(Key.of(line));
            both[i] += line.code().isEmpty() ? 0 : line.quantity() / value.head();
            both[keys.size() + i] += line.amount() / value.head();
        }
        return both;
    }
}
