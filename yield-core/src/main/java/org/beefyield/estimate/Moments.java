package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.grid.CoefficientEffect;
import org.beefyield.grid.PowerSums;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;

/**
 * Power sums of carcass weights, by category, node and width of the grades: all that totals and their uncertainty need,
 * however many carcasses there are. A grade between nodes counts at each of them with its bilinear weight, variance too.
 */
final class Moments {
    /** Where a carcass, or its part, counts. */
    record Key(Category category, int node, double conformationWidth, double fatWidth) implements Serializable {}

    private static final Comparator<Key> ORDER = Comparator.comparing(Key::category)
            .thenComparingInt(Key::node)
            .thenComparingDouble(Key::conformationWidth)
            .thenComparingDouble(Key::fatWidth);

    private final Model model;
    private final int powers;
    private final double referenceWeightKg;
    private final Map<Key, PowerSums> sums = new HashMap<>();
    private List<Map.Entry<Key, PowerSums>> ordered = List.of();

    Moments(Model model) {
        this.model = model;
        YieldGrid grid = model.anyGrid();
        // squares of shares, times the square of the weight
        this.powers = 2 * (grid.coefficients() - 1) + 3;
        this.referenceWeightKg = grid.referenceWeightKg();
    }

    void add(Carcass carcass) {
        double t = (carcass.coldWeightKg() - referenceWeightKg) / 100;
        model.grid(carcass.category())
                .nodes()
                .corners(
                        carcass.conformation().position(),
                        carcass.fatClass().position(),
                        (node, weight) -> sums.computeIfAbsent(
                                        new Key(
                                                carcass.category(),
                                                node,
                                                carcass.conformation().width(),
                                                carcass.fatClass().width()),
                                        key -> new PowerSums(powers))
                                .add(t, weight));
    }

    /** Adds power sums of carcasses at a node. */
    void add(Key node, PowerSums ofNode) {
        sums.computeIfAbsent(node, key -> new PowerSums(powers)).add(ofNode);
    }

    int powers() {
        return powers;
    }

    void add(Moments other) {
        add(other.sums);
    }

    private void add(Map<Key, PowerSums> others) {
        others.forEach(this::add);
    }

    /** All that is needed to make them again, for the same model. */
    Map<Key, PowerSums> form() {
        return new HashMap<>(sums);
    }

    /**
     * Adds what stands in a form.
     *
     * @throws IllegalArgumentException if it is none of these moments
     */
    void addForm(Map<Key, PowerSums> form) {
        form.forEach((key, theirs) -> {
            // refuses a node or category that the table doesn't have
            if (!model.grid(key.category()).nodes().contains(key.node()) || !theirs.has(powers)) {
                throw new IllegalArgumentException("power sums of another table");
            }
        });
        add(form);
    }

    /** Always in one order, so that results don't depend on that of the carcasses. Keys only ever come, so sorted once. */
    private List<Map.Entry<Key, PowerSums>> inOrder() {
        List<Map.Entry<Key, PowerSums>> entries = ordered;
        if (entries.size() != sums.size()) {
            entries = sums.entrySet().stream()
                    .sorted(Map.Entry.comparingByKey(ORDER))
                    .toList();
            ordered = entries;
        }
        return entries;
    }

    /** The total cold weight, kg. */
    double coldWeightKg() {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += entry.getValue().of(new double[] {referenceWeightKg, 100});
        }
        return total;
    }

    /** The sum of all carcasses' positions: of one between nodes the nodes' bilinear weights give its own. */
    private double positions(ToIntFunction<Key> position) {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += position.applyAsInt(entry.getKey()) * entry.getValue().of(new double[] {1});
        }
        return total;
    }

    double conformationPositions() {
        return positions(key -> model.nodes().conformation(key.node()));
    }

    double fatPositions() {
        return positions(key -> model.nodes().fat(key.node()));
    }

    /** Total kg of every slot, and behind them of the fat in the lean trim. */
    double[] kgBySlot() {
        double[] kg = new double[model.anyGrid().length()];
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            Key key = entry.getKey();
            YieldGrid grid = model.grid(key.category());
            grid.addSums(key.node(), entry.getValue().timesWeight(grid.coefficients(), referenceWeightKg), kg);
        }
        return kg;
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

    private static double[] product(double[] a, double[] b) {
        double[] product = new double[a.length + b.length - 1];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                product[i + j] += a[i] * b[j];
            }
        }
        return product;
    }

    /** Change of a figure's kg per kg of weight: share + w d(share)/dw. */
    private double[] perKg(double[] share) {
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

    /** Covariance of two figures from one part, kg squared. */
    double covariance(UncertaintyPart part, double[] a, double[] b) {
        return switch (part) {
            case BETWEEN_CARCASSES -> betweenCarcasses(a, b);
            case COEFFICIENTS -> coefficients(a, b);
            case GRADE_RESOLUTION -> gradeResolution(a, b);
            case SCALE_REPEATABILITY -> repeatability(a, b);
            case SCALE_BIAS -> bias(a, b);
        };
    }

    private double betweenCarcasses(double[] a, double[] b) {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            Key key = entry.getKey();
            double[] ofShares = model.errors(key.category()).betweenCarcasses(key.node(), a, b);
            total += entry.getValue().of(timesWeight(timesWeight(ofShares)));
        }
        return total;
    }

    /** What the errors of one coefficient column do to two totals: by child. */
    private static final class Common {
        private final CoefficientEffect effect;
        private final double[] a;
        private final double[] b;

        Common(CoefficientEffect effect) {
            this.effect = effect;
            a = new double[effect.children()];
            b = new double[effect.children()];
        }
    }

    private double coefficients(double[] a, double[] b) {
        return sharedCoefficients(a, this, b);
    }

    /** Covariance of a figure of these carcasses and one of others, from the errors that all carcasses share. */
    double shared(double[] a, Moments others, double[] b) {
        return sharedCoefficients(a, others, b) + sharedBias(a, others, b);
    }

    private double sharedCoefficients(double[] a, Moments others, double[] b) {
        Map<CoefficientEffect.Key, Common> all = new LinkedHashMap<>();
        addEffects(all, a, common -> common.a);
        if (others == this && a == b) {
            all.values().forEach(common -> System.arraycopy(common.a, 0, common.b, 0, common.b.length));
        } else {
            others.addEffects(all, b, common -> common.b);
        }
        return sum(all.values());
    }

    private void addEffects(Map<CoefficientEffect.Key, Common> all, double[] figure, Function<Common, double[]> total) {
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            Key key = entry.getKey();
            for (CoefficientEffect effect : model.errors(key.category()).coefficients(key.node(), figure)) {
                double[] ofChildren = total.apply(all.computeIfAbsent(effect.key(), k -> new Common(effect)));
                for (int child = 0; child < effect.children(); child++) {
                    ofChildren[child] += entry.getValue().of(timesWeight(effect.ofChild(child)));
                }
            }
        }
    }

    private static double sum(Collection<Common> all) {
        double total = 0;
        for (Common common : all) {
            total += common.effect.covariance(common.a, common.b);
        }
        return total;
    }

    /** The variance of a figure of one carcass at a node, all parts together, as a polynomial in t. */
    double[] variance(Category category, int node, double conformationWidth, double fatWidth, double[] figure) {
        Key key = new Key(category, node, conformationWidth, fatWidth);
        YieldErrors errors = model.errors(category);
        double[] ofShare = new double[powers];
        add(ofShare, errors.betweenCarcasses(node, figure, figure), 1);
        for (CoefficientEffect effect : errors.coefficients(node, figure)) {
            add(ofShare, effect.variance(), 1);
        }
        add(ofShare, gradeResolution(key, figure, figure), 1);
        double[] variance = timesWeight(timesWeight(ofShare));
        ScaleError scale = model.scaleError();
        double[] perKg = perKg(key, figure);
        add(
                variance,
                product(perKg, perKg),
                scale.repeatabilityKg() * scale.repeatabilityKg() + scale.biasKg() * scale.biasKg());
        return variance;
    }

    private static void add(double[] sum, double[] polynomial, double factor) {
        for (int j = 0; j < polynomial.length; j++) {
            sum[j] += factor * polynomial[j];
        }
    }

    private double gradeResolution(double[] a, double[] b) {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += entry.getValue().of(timesWeight(timesWeight(gradeResolution(entry.getKey(), a, b))));
        }
        return total;
    }

    /** Covariance of two figures' shares at a node from the width of the grades, as a polynomial in t. */
    private double[] gradeResolution(Key key, double[] a, double[] b) {
        double fit = model.table().definition().widthFit();
        YieldGrid grid = model.grid(key.category());
        double[] covariance = new double[2 * grid.coefficients() - 1];
        int conformation = grid.nodes().conformation(key.node());
        int fat = grid.nodes().fat(key.node());
        double wide = key.conformationWidth() * key.conformationWidth() - fit * fit;
        if (wide > 0) {
            double[] ofA = gradient(grid, a, conformation, fat, key.conformationWidth(), 0);
            double[] ofB = gradient(grid, b, conformation, fat, key.conformationWidth(), 0);
            add(covariance, product(ofA, ofB), wide / 12);
        }
        wide = key.fatWidth() * key.fatWidth() - fit * fit;
        if (wide > 0) {
            double[] ofA = gradient(grid, a, conformation, fat, 0, key.fatWidth());
            double[] ofB = gradient(grid, b, conformation, fat, 0, key.fatWidth());
            add(covariance, product(ofA, ofB), wide / 12);
        }
        return covariance;
    }

    /** Change of a figure's share per point: central difference over half the width to each side, cut at the range. */
    private double[] gradient(YieldGrid grid, double[] figure, int c, int f, double widthC, double widthF) {
        var allowed = model.table().definition().allowed();
        double lowC = Math.max(allowed.conformation().low(), c - widthC / 2);
        double highC = Math.min(allowed.conformation().high(), c + widthC / 2);
        double lowF = Math.max(allowed.fat().low(), f - widthF / 2);
        double highF = Math.min(allowed.fat().high(), f + widthF / 2);
        double[] gradient = new double[grid.coefficients()];
        double length = widthC > 0 ? highC - lowC : highF - lowF;
        if (length > 0) {
            addShares(gradient, grid, figure, highC, highF, 1 / length);
            addShares(gradient, grid, figure, lowC, lowF, -1 / length);
        }
        return gradient;
    }

    private static void addShares(
            double[] sum, YieldGrid grid, double[] figure, double conformation, double fat, double factor) {
        grid.nodes().corners(conformation, fat, (node, weight) -> {
            double[] polynomial = grid.ofFigure(node, figure);
            for (int j = 0; j < sum.length; j++) {
                sum[j] += factor * weight * polynomial[j];
            }
        });
    }

    private double repeatability(double[] a, double[] b) {
        double sd = model.scaleError().repeatabilityKg();
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : sd == 0 ? List.<Map.Entry<Key, PowerSums>>of() : inOrder()) {
            total += sd * sd * entry.getValue().of(product(perKg(entry.getKey(), a), perKg(entry.getKey(), b)));
        }
        return total;
    }

    private double bias(double[] a, double[] b) {
        return sharedBias(a, this, b);
    }

    private double sharedBias(double[] a, Moments others, double[] b) {
        double sd = model.scaleError().biasKg();
        return sd == 0 ? 0 : sd * sd * perKgOfAll(a) * others.perKgOfAll(b);
    }

    private double[] perKg(Key key, double[] figure) {
        return perKg(model.grid(key.category()).ofFigure(key.node(), figure));
    }

    /** Change of a figure's kg when every carcass weighs 1 kg more. */
    private double perKgOfAll(double[] figure) {
        double total = 0;
        for (Map.Entry<Key, PowerSums> entry : inOrder()) {
            total += entry.getValue().of(perKg(entry.getKey(), figure));
        }
        return total;
    }
}
