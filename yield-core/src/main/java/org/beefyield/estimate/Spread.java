package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleBiFunction;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Category;
import org.beefyield.grid.CoefficientEffect;
import org.beefyield.grid.CoefficientSums;
import org.beefyield.grid.FigureEffects;
import org.beefyield.grid.PowerSums;
import org.beefyield.grid.SharedErrors;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.SharedBy;
import org.jspecify.annotations.Nullable;

/**
 * How far one figure of some carcasses may come out otherwise, part by part, and together with another figure. What errors do
 * to it is worked out once, when it is asked for. Not thread-safe.
 */
final class Spread {
    private final Moments moments;
    private final Model model;
    private final double referenceWeightKg;
    private final double[] figure;
    private final IdentityHashMap<YieldGrid, FigureEffects> effects = new IdentityHashMap<>();
    private @Nullable CoefficientSums coefficients;

    Spread(Moments moments, double[] figure) {
        this.moments = moments;
        this.model = moments.model();
        this.referenceWeightKg = moments.referenceWeightKg();
        this.figure = figure;
    }

    private FigureEffects in(YieldErrors errors) {
        return effects.computeIfAbsent(errors.grid(), grid -> errors.effects(figure));
    }

    private FigureEffects in(Category category) {
        return in(errors(category));
    }

    private YieldErrors errors(Category category) {
        return model.errors(category, moments.part());
    }

    /** Variance from one part, kg squared; 0 of a part that isn't counted. */
    double variance(UncertaintyPart part) {
        return covariance(this, part);
    }

    /** Variance from all counted parts together. */
    double variance() {
        return covariance(this);
    }

    /** Covariance with another figure of the same carcasses, from all counted parts together. */
    double covariance(Spread other) {
        double total = 0;
        for (UncertaintyPart part : UncertaintyPart.values()) {
            total += covariance(other, part);
        }
        return total;
    }

    /** Covariance with another figure of the same carcasses from one part. */
    double covariance(Spread other, UncertaintyPart part) {
        if (!model.counted().contains(part)) {
            return 0;
        }
        return switch (part) {
            case BETWEEN_CARCASSES -> betweenCarcasses(other);
            case COEFFICIENTS -> coefficients().times(other.coefficients());
            case GRADE_RESOLUTION -> gradeResolution(other);
            case LOT -> common(other, SharedBy.LOT, weights -> weights.lots, lot -> true);
            case RUN -> common(other, SharedBy.RUN, weights -> weights.runs, run -> true);
            case HALL -> common(other, SharedBy.HALL, weights -> weights.halls, hall -> true);
            case SCALE_REPEATABILITY -> repeatability(other);
            case SCALE_BIAS -> bias(other, run -> true);
        };
    }

    /**
     * Variance of this figure less one of other carcasses from one part: errors that both have in common cancel.
     *
     * @param same whether the carcasses are the same ones, so that what single carcasses err cancels too
     */
    double varianceOfDifference(Spread other, UncertaintyPart part, boolean same) {
        if (!model.counted().contains(part)) {
            return 0;
        }
        return switch (part) {
            case LOT -> commonOfDifference(other, SharedBy.LOT, weights -> weights.lots, lot -> same || lot.isKnown());
            case RUN -> commonOfDifference(other, SharedBy.RUN, weights -> weights.runs, run -> same || run.isKnown());
            case HALL -> commonOfDifference(other, SharedBy.HALL, weights -> weights.halls, hall -> true);
            case SCALE_BIAS -> biasOfDifference(other, same);
            case COEFFICIENTS -> ofDifference(other, part);
            case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY ->
                same ? ofDifference(other, part) : variance(part) + other.variance(part);
        };
    }

    /** Covariance with a figure of other carcasses from one part, of errors that surely are common to both. */
    double commonCovariance(Spread other, UncertaintyPart part, boolean same) {
        if (!model.counted().contains(part)) {
            return 0;
        }
        return switch (part) {
            case LOT -> common(other, SharedBy.LOT, weights -> weights.lots, lot -> same || lot.isKnown());
            case RUN -> common(other, SharedBy.RUN, weights -> weights.runs, run -> same || run.isKnown());
            case SCALE_BIAS -> bias(other, run -> same || run.isKnown());
            case HALL, COEFFICIENTS -> covariance(other, part);
            case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY -> 0;
        };
    }

    private double ofDifference(Spread other, UncertaintyPart part) {
        return Math.max(0, variance(part) - 2 * covariance(other, part) + other.variance(part));
    }

    private double betweenCarcasses(Spread other) {
        // of categories that err alike once for a node
        Map<Integer, double[]> ofShares = new HashMap<>();
        double total = 0;
        for (Map.Entry<Moments.Key, PowerSums> entry : moments.entries()) {
            Category category = entry.getKey().category();
            int node = entry.getKey().node();
            YieldErrors errors = errors(category);
            int cell = moments.cell(model.alike(category), node);
            double[] ofShare = ofShares.get(cell);
            if (ofShare == null) {
                ofShare = errors.betweenCarcasses(node, in(errors), other.errors(category), other.in(category));
                ofShares.put(cell, ofShare);
            }
            total += entry.getValue().ofWeightSquared(ofShare, referenceWeightKg);
        }
        return total;
    }

    private CoefficientSums coefficients() {
        CoefficientSums sums = coefficients;
        if (sums == null) {
            sums = model.anyErrors().noCoefficients();
            addCoefficients(sums);
            coefficients = sums;
        }
        return sums;
    }

    private void addCoefficients(CoefficientSums sums) {
        if (model.hasSharedErrors()) {
            for (Moments.Weighed weighed : moments.weights().all) {
                YieldErrors errors = errors(weighed.category());
                for (int n = 0; n < weighed.nodes().length; n++) {
                    errors.addCoefficients(weighed.nodes()[n], in(errors), weighed.sums()[n], sums);
                }
            }
        } else {
            for (Map.Entry<Moments.Key, PowerSums> entry : moments.entries()) {
                Moments.Key key = entry.getKey();
                YieldErrors errors = errors(key.category());
                errors.addCoefficients(key.node(), in(errors), entry.getValue(), sums);
            }
        }
    }

    /** What the figures of several outturns have in common: by what carcasses share, the figures' change together. */
    static final class Common {
        private final Model model;
        private final SortedMap<LotKey, SharedErrors> lots = new TreeMap<>();
        private final SortedMap<RunKey, SharedErrors> runs = new TreeMap<>();
        private final SortedMap<@Nullable String, SharedErrors> halls = new TreeMap<>(LotKey.nullsFirst());
        private final SortedMap<RunKey, Double> biases = new TreeMap<>();
        private final CoefficientSums coefficients;

        Common(Model model) {
            this.model = model;
            this.coefficients = model.anyErrors().noCoefficients();
        }

        void add(Spread spread) {
            Set<UncertaintyPart> counted = model.counted();
            Moments.Weights weights = spread.moments.weights();
            if (counted.contains(UncertaintyPart.LOT)) {
                add(spread, SharedBy.LOT, weights.lots, lots);
            }
            if (counted.contains(UncertaintyPart.RUN)) {
                add(spread, SharedBy.RUN, weights.runs, runs);
            }
            if (counted.contains(UncertaintyPart.HALL)) {
                add(spread, SharedBy.HALL, weights.halls, halls);
            }
            if (counted.contains(UncertaintyPart.COEFFICIENTS)) {
                spread.addCoefficients(coefficients);
            }
            if (counted.contains(UncertaintyPart.SCALE_BIAS)
                    && model.scaleError().biasKg() > 0) {
                spread.perKgByRun().forEach((run, perKg) -> biases.merge(run, perKg, Double::sum));
            }
        }

        private <K extends @Nullable Object> void add(
                Spread spread,
                SharedBy by,
                SortedMap<K, List<Moments.Weighed>> weights,
                SortedMap<K, SharedErrors> sums) {
            weights.forEach((key, ofKey) -> spread.addShared(
                    by,
                    ofKey,
                    sums.computeIfAbsent(key, first -> model.anyErrors().noShared())));
        }

        /** Variance of the figures' sum from one part that carcasses share. */
        double variance(UncertaintyPart part) {
            return switch (part) {
                case LOT -> squares(lots);
                case RUN -> squares(runs);
                case HALL -> squares(halls);
                case COEFFICIENTS -> coefficients.times(coefficients);
                case SCALE_BIAS -> {
                    double bias = model.scaleError().biasKg();
                    yield biases.values().stream()
                            .mapToDouble(perKg -> bias * bias * perKg * perKg)
                            .sum();
                }
                case BETWEEN_CARCASSES, GRADE_RESOLUTION, SCALE_REPEATABILITY -> 0;
            };
        }

        private static double squares(SortedMap<?, SharedErrors> sums) {
            return sums.values().stream()
                    .mapToDouble(errors -> errors.times(errors))
                    .sum();
        }
    }

    private void addShared(SharedBy by, List<Moments.Weighed> weights, SharedErrors sum) {
        for (Moments.Weighed weighed : weights) {
            YieldErrors errors = errors(weighed.category());
            errors.addShared(by, in(errors), weighed.nodes(), weighed.sums(), sum);
        }
    }

    private <K> SortedMap<K, SharedErrors> shared(SharedBy by, SortedMap<K, List<Moments.Weighed>> weights) {
        SortedMap<K, SharedErrors> all = new TreeMap<>(weights.comparator());
        weights.forEach((key, ofKey) -> {
            SharedErrors sum = model.anyErrors().noShared();
            addShared(by, ofKey, sum);
            all.put(key, sum);
        });
        return all;
    }

    /** Variance of this figure, for which what each key does needn't be kept. */
    private <K> double square(SharedBy by, SortedMap<K, List<Moments.Weighed>> weights) {
        double total = 0;
        SharedErrors sum = model.anyErrors().noShared();
        for (List<Moments.Weighed> ofKey : weights.values()) {
            sum.clear();
            addShared(by, ofKey, sum);
            total += sum.times(sum);
        }
        return total;
    }

    private <K> double common(
            Spread other,
            SharedBy by,
            Function<Moments.Weights, SortedMap<K, List<Moments.Weighed>>> keys,
            Predicate<K> counts) {
        return other == this
                ? square(by, keys.apply(moments.weights()))
                : product(
                        shared(by, keys.apply(moments.weights())),
                        other.shared(by, keys.apply(other.moments.weights())),
                        counts);
    }

    private <K> double commonOfDifference(
            Spread other,
            SharedBy by,
            Function<Moments.Weights, SortedMap<K, List<Moments.Weighed>>> keys,
            Predicate<K> cancels) {
        return squares(
                shared(by, keys.apply(moments.weights())),
                other.shared(by, keys.apply(other.moments.weights())),
                cancels,
                errors -> errors.times(errors),
                SharedErrors::squareOfDifference);
    }

    private static <K> double product(SortedMap<K, SharedErrors> a, SortedMap<K, SharedErrors> b, Predicate<K> counts) {
        double total = 0;
        for (Map.Entry<K, SharedErrors> entry : a.entrySet()) {
            SharedErrors other = counts.test(entry.getKey()) ? b.get(entry.getKey()) : null;
            total += other == null ? 0 : entry.getValue().times(other);
        }
        return total;
    }

    /** Sum of the squares of differences; errors of a key that isn't surely the same elsewhere don't cancel. */
    private static <K, V> double squares(
            SortedMap<K, V> a,
            SortedMap<K, V> b,
            Predicate<K> cancels,
            ToDoubleFunction<V> square,
            ToDoubleBiFunction<V, V> squareOfDifference) {
        double total = 0;
        for (Map.Entry<K, V> entry : a.entrySet()) {
            V own = entry.getValue();
            V other = cancels.test(entry.getKey()) ? b.get(entry.getKey()) : null;
            total += other == null ? square.applyAsDouble(own) : squareOfDifference.applyAsDouble(own, other);
        }
        for (Map.Entry<K, V> entry : b.entrySet()) {
            boolean done = cancels.test(entry.getKey()) && a.containsKey(entry.getKey());
            total += done ? 0 : square.applyAsDouble(entry.getValue());
        }
        return total;
    }

    private double gradeResolution(Spread other) {
        double total = 0;
        for (Map.Entry<Moments.Key, PowerSums> entry : moments.entries()) {
            double[] ofShares = gradeResolution(entry.getKey(), other);
            total += ofShares.length == 0 ? 0 : entry.getValue().ofWeightSquared(ofShares, referenceWeightKg);
        }
        return total;
    }

    /** Covariance of two figures' shares at a node from the width of the grades, as a polynomial in t; empty if there is none. */
    private double[] gradeResolution(Moments.Key key, Spread other) {
        double fit = model.table().definition().widthFit();
        double wideConformation = key.conformationWidth() * key.conformationWidth() - fit * fit;
        double wideFat = key.fatWidth() * key.fatWidth() - fit * fit;
        if (!(wideConformation > 0) && !(wideFat > 0)) {
            return new double[0];
        }
        double[] covariance = new double[2 * model.anyGrid().coefficients() - 1];
        if (wideConformation > 0) {
            double[] own = gradient(key, key.conformationWidth(), 0);
            add(
                    covariance,
                    product(own, other == this ? own : other.gradient(key, key.conformationWidth(), 0)),
                    wideConformation / 12);
        }
        if (wideFat > 0) {
            double[] own = gradient(key, 0, key.fatWidth());
            add(covariance, product(own, other == this ? own : other.gradient(key, 0, key.fatWidth())), wideFat / 12);
        }
        return covariance;
    }

    /** Change of the figure's share per point: central difference over half the width to each side, cut at the range. */
    private double[] gradient(Moments.Key key, double widthC, double widthF) {
        var allowed = model.table().definition().allowed();
        int c = model.nodes().conformation(key.node());
        int f = model.nodes().fat(key.node());
        double lowC = Math.max(allowed.conformation().low(), c - widthC / 2);
        double highC = Math.min(allowed.conformation().high(), c + widthC / 2);
        double lowF = Math.max(allowed.fat().low(), f - widthF / 2);
        double highF = Math.min(allowed.fat().high(), f + widthF / 2);
        double[] gradient = new double[model.anyGrid().coefficients()];
        double length = widthC > 0 ? highC - lowC : highF - lowF;
        if (length > 0) {
            FigureEffects here = in(key.category());
            addShares(gradient, here, highC, highF, 1 / length);
            addShares(gradient, here, lowC, lowF, -1 / length);
        }
        return gradient;
    }

    private void addShares(double[] sum, FigureEffects here, double conformation, double fat, double factor) {
        model.nodes().corners(conformation, fat, (node, weight) -> {
            double[] polynomial = here.share(node);
            for (int j = 0; j < sum.length; j++) {
                sum[j] += factor * weight * polynomial[j];
            }
        });
    }

    private static void add(double[] sum, double[] polynomial, double factor) {
        for (int j = 0; j < polynomial.length; j++) {
            sum[j] += factor * polynomial[j];
        }
    }

    private static double[] product(double[] a, double[] b) {
        double[] product = new double[a.length + b.length - 1];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                product[i + j] += a[i] * b[j];
            }
        }
        return product;
    }

    /** A polynomial times w = w0 + 100 t. */
    private double[] timesWeight(double[] polynomial) {
        double[] product = new double[polynomial.length + 1];
        for (int j = 0; j < polynomial.length; j++) {
            product[j] += referenceWeightKg * polynomial[j];
            product[j + 1] += 100 * polynomial[j];
        }
        return product;
    }

    /** Change of the figure's kg per kg of weight: share + w d(share)/dw. */
    private double[] perKg(Category category, int node) {
        double[] share = in(category).share(node);
        double[] perKg = share.clone();
        double[] derivative = new double[Math.max(1, share.length - 1)];
        for (int j = 1; j < share.length; j++) {
            derivative[j - 1] = j * share[j] / 100;
        }
        double[] byWeight = timesWeight(derivative);
        for (int j = 0; j < perKg.length; j++) {
            perKg[j] += byWeight[j];
        }
        return perKg;
    }

    private double repeatability(Spread other) {
        double sd = model.scaleError().repeatabilityKg();
        double total = 0;
        for (Map.Entry<Moments.Key, PowerSums> entry :
                sd == 0 ? List.<Map.Entry<Moments.Key, PowerSums>>of() : moments.entries()) {
            Category category = entry.getKey().category();
            int node = entry.getKey().node();
            total += sd * sd * entry.getValue().of(product(perKg(category, node), other.perKg(category, node)));
        }
        return total;
    }

    /** By run, the figure's change when every carcass of it weighs 1 kg more. */
    private SortedMap<RunKey, Double> perKgByRun() {
        SortedMap<RunKey, Double> byRun = new TreeMap<>();
        moments.forEach(Group.Key::run, Comparator.naturalOrder(), (run, sums) -> byRun.put(run, perKg(sums)));
        if (byRun.size() == 1) {
            // all carcasses, whose sums are kept to the last bit
            double total = 0;
            for (Map.Entry<Moments.Key, PowerSums> entry : moments.entries()) {
                total += entry.getValue()
                        .of(perKg(entry.getKey().category(), entry.getKey().node()));
            }
            byRun.put(byRun.firstKey(), total);
        }
        return byRun;
    }

    private double perKg(Group.Sums sums) {
        double total = 0;
        for (int cell : sums.cells()) {
            double[] perKg = perKg(moments.category(cell), moments.node(cell));
            for (int j = 0; j < perKg.length; j++) {
                total += perKg[j] * sums.of(cell, j);
            }
        }
        return total;
    }

    private double bias(Spread other, Predicate<RunKey> counts) {
        double sd = model.scaleError().biasKg();
        if (sd == 0) {
            return 0;
        }
        SortedMap<RunKey, Double> theirs = other.perKgByRun();
        double total = 0;
        for (Map.Entry<RunKey, Double> own : perKgByRun().entrySet()) {
            total += counts.test(own.getKey()) ? sd * sd * own.getValue() * theirs.getOrDefault(own.getKey(), 0.0) : 0;
        }
        return total;
    }

    private double biasOfDifference(Spread other, boolean same) {
        double sd = model.scaleError().biasKg();
        if (sd == 0) {
            return 0;
        }
        double squares = squares(
                perKgByRun(),
                other.perKgByRun(),
                run -> same || run.isKnown(),
                perKg -> perKg * perKg,
                (perKg, theirs) -> (perKg - theirs) * (perKg - theirs));
        return sd * sd * squares;
    }

    /**
     * Covariance with another figure of one carcass at a node from all counted parts together, kg squared, as a polynomial in t.
     */
    double[] covariance(Category category, int node, double conformationWidth, double fatWidth, Spread other) {
        YieldErrors errors = errors(category);
        FigureEffects own = in(errors);
        FigureEffects theirs = other.in(errors);
        double[] ofShare = new double[moments.powers()];
        if (isCounted(UncertaintyPart.BETWEEN_CARCASSES)) {
            add(ofShare, errors.betweenCarcasses(node, own, errors, theirs), 1);
        }
        if (isCounted(UncertaintyPart.COEFFICIENTS)) {
            List<CoefficientEffect> ofOwn = errors.coefficients(node, own);
            List<CoefficientEffect> ofTheirs = own == theirs ? ofOwn : errors.coefficients(node, theirs);
            CoefficientEffect.covariances(ofOwn, ofTheirs).forEach(covariance -> add(ofShare, covariance, 1));
        }
        if (isCounted(UncertaintyPart.GRADE_RESOLUTION)) {
            add(ofShare, gradeResolution(new Moments.Key(category, node, conformationWidth, fatWidth), other), 1);
        }
        for (SharedBy by : SharedBy.values()) {
            if (isCounted(UncertaintyPart.of(by))) {
                add(ofShare, errors.shared(by, node, own, theirs), 1);
            }
        }
        double[] covariance = timesWeight(timesWeight(ofShare));
        double repeatability = isCounted(UncertaintyPart.SCALE_REPEATABILITY)
                ? model.scaleError().repeatabilityKg()
                : 0;
        double bias = isCounted(UncertaintyPart.SCALE_BIAS) ? model.scaleError().biasKg() : 0;
        double[] perKg = perKg(category, node);
        add(
                covariance,
                product(perKg, other == this ? perKg : other.perKg(category, node)),
                repeatability * repeatability + bias * bias);
        return covariance;
    }

    /** Covariance of two figures of one carcass of a grade from all counted parts together, kg squared, as a polynomial in t. */
    static double[] ofCarcass(
            Model model,
            Category category,
            double conformation,
            double fat,
            double conformationWidth,
            double fatWidth,
            double[] a,
            double[] b) {
        Moments none = new Moments(model);
        Spread first = new Spread(none, a);
        return first.covariance(
                category, conformation, fat, conformationWidth, fatWidth, a == b ? first : new Spread(none, b));
    }

    /**
     * The same of a carcass between nodes: errors in common go through all nodes around it together, others by their weights.
     */
    double[] covariance(
            Category category,
            double conformation,
            double fat,
            double conformationWidth,
            double fatWidth,
            Spread other) {
        if (conformation == Math.rint(conformation) && fat == Math.rint(fat)) {
            int node = model.nodes().at((int) conformation, (int) fat);
            return covariance(category, node, conformationWidth, fatWidth, other);
        }
        YieldErrors errors = errors(category);
        double[] ofShare = new double[moments.powers()];
        double[] ofPerKg = new double[moments.powers()];
        double[] ownPerKg = new double[model.anyGrid().coefficients()];
        double[] theirPerKg = new double[model.anyGrid().coefficients()];
        ByPower own = new ByPower();
        ByPower theirs = other == this ? own : other.new ByPower();
        model.nodes().corners(conformation, fat, (node, weight) -> {
            if (isCounted(UncertaintyPart.BETWEEN_CARCASSES)) {
                add(ofShare, errors.betweenCarcasses(node, in(errors), errors, other.in(errors)), weight);
            }
            if (isCounted(UncertaintyPart.GRADE_RESOLUTION)) {
                add(
                        ofShare,
                        gradeResolution(new Moments.Key(category, node, conformationWidth, fatWidth), other),
                        weight);
            }
            double[] perKg = perKg(category, node);
            double[] perKgOfOther = other == this ? perKg : other.perKg(category, node);
            add(ofPerKg, product(perKg, perKgOfOther), weight);
            add(ownPerKg, perKg, weight);
            add(theirPerKg, perKgOfOther, weight);
            own.add(errors, node, weight);
            if (other != this) {
                theirs.add(errors, node, weight);
            }
        });
        own.addTimes(theirs, ofShare);
        double[] covariance = timesWeight(timesWeight(ofShare));
        if (isCounted(UncertaintyPart.SCALE_REPEATABILITY)) {
            double sd = model.scaleError().repeatabilityKg();
            add(covariance, ofPerKg, sd * sd);
        }
        if (isCounted(UncertaintyPart.SCALE_BIAS)) {
            double sd = model.scaleError().biasKg();
            add(covariance, product(ownPerKg, theirPerKg), sd * sd);
        }
        return covariance;
    }

    /** What errors in common do to the share of one carcass, by power of t. */
    private final class ByPower {
        private final List<CoefficientSums> coefficients = new ArrayList<>();
        private final Map<SharedBy, List<SharedErrors>> shared = new EnumMap<>(SharedBy.class);

        ByPower() {
            YieldErrors errors = model.anyErrors();
            int powers = model.anyGrid().coefficients();
            for (int j = 0; j <= powers && isCounted(UncertaintyPart.COEFFICIENTS); j++) {
                coefficients.add(errors.noCoefficients());
            }
            for (SharedBy by : SharedBy.values()) {
                List<SharedErrors> byPower = new ArrayList<>();
                for (int j = 0; j < powers && isCounted(UncertaintyPart.of(by)); j++) {
                    byPower.add(errors.noShared());
                }
                shared.put(by, byPower);
            }
        }

        void add(YieldErrors errors, int node, double weight) {
            errors.addCoefficients(node, in(errors), weight, coefficients);
            shared.forEach((by, byPower) -> {
                for (int j = 0; j < byPower.size(); j++) {
                    double[] sums = new double[byPower.size()];
                    sums[j] = weight;
                    errors.addShared(by, in(errors), new int[] {node}, new double[][] {sums}, byPower.get(j));
                }
            });
        }

        void addTimes(ByPower other, double[] polynomial) {
            for (int i = 0; i < coefficients.size(); i++) {
                for (int j = 0; j < coefficients.size(); j++) {
                    polynomial[i + j] += coefficients.get(i).times(other.coefficients.get(j));
                }
            }
            shared.forEach((by, byPower) -> {
                List<SharedErrors> theirs = other.shared.getOrDefault(by, List.of());
                for (int i = 0; i < byPower.size(); i++) {
                    for (int j = 0; j < theirs.size(); j++) {
                        polynomial[i + j] += byPower.get(i).times(theirs.get(j));
                    }
                }
            });
        }
    }

    private boolean isCounted(UncertaintyPart part) {
        return model.counted().contains(part);
    }
}
