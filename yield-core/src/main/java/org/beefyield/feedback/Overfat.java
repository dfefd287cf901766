package org.beefyield.feedback;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.Valuer;
import org.beefyield.text.Numbers;

/**
 * What it costs that carcasses are fatter than a target: each is held against one of the same weight, category and
 * conformation at the target. Carcasses at or below the target, all of it, cost nothing: against {@code 3} a {@code 3+} is
 * not overfat. One that stands right on the target's upper edge, such as {@code 4=} on that of {@code 4L}, counts by an
 * {@link EdgeRule}. Immutable.
 */
public final class Overfat {
    /**
     * Feed for a kg of fat over feed for a kg of meat, at farm level: common practice, no source. On energy alone a kg of
     * carcass fat takes at least 2.25 times that of muscle.
     */
    public static final double USUAL_FEED_RATIO = 3;

    private final YieldEstimator estimator;
    private final OverfatCost.Terms terms;

    private Overfat(YieldEstimator estimator, OverfatCost.Terms terms) {
        this.estimator = estimator;
        this.terms = terms;
    }

    /**
     * The cost of fat against a target.
     *
     * @param estimator estimator
     * @param target fat class that the customer wants
     * @return it, without feed and value
     */
    public static Overfat against(YieldEstimator estimator, FatClass target) {
        Objects.requireNonNull(estimator, "estimator");
        Objects.requireNonNull(target, "target");
        return new Overfat(estimator, new OverfatCost.Terms(target, EdgeRule.LOWER, USUAL_FEED_RATIO, null, null));
    }

    /**
     * The cost of fat against a target, in money too.
     *
     * @param valuer prices, and how carcasses are estimated
     * @param target fat class that the customer wants
     * @return it, without feed
     */
    public static Overfat against(Valuer valuer, FatClass target) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(target, "target");
        return new Overfat(
                valuer.estimator(), new OverfatCost.Terms(target, EdgeRule.LOWER, USUAL_FEED_RATIO, null, valuer));
    }

    /**
     * The same with the feed that the extra fat took.
     *
     * @param feedKgPerKgMeat feed for a kg of meat gained, kg of whatever feed the caller counts in, above 0
     * @param ratio feed for a kg of fat over that for a kg of meat, above 0; {@link #USUAL_FEED_RATIO} if not known
     * @return a copy
     * @throws IllegalArgumentException if a figure is not above 0
     */
    public Overfat withFeed(double feedKgPerKgMeat, double ratio) {
        if (!(feedKgPerKgMeat > 0 && ratio > 0)) {
            throw new IllegalArgumentException("feed " + Numbers.brief(feedKgPerKgMeat)
                    + " kg per kg of meat and ratio " + Numbers.brief(ratio) + " must be above 0");
        }
        return new Overfat(
                estimator, new OverfatCost.Terms(terms.target(), terms.edge(), ratio, feedKgPerKgMeat, terms.valuer()));
    }

    /**
     * The same with another rule for carcasses on the target's upper edge.
     *
     * @param rule to which side of an edge a grade counts; else {@link EdgeRule#LOWER}
     * @return a copy
     */
    public Overfat with(EdgeRule rule) {
        return new Overfat(
                estimator,
                new OverfatCost.Terms(
                        terms.target(),
                        Objects.requireNonNull(rule, "rule"),
                        terms.feedRatio(),
                        terms.feedPerKgMeat(),
                        terms.valuer()));
    }

    /**
     * The target.
     *
     * @return fat class
     */
    public FatClass target() {
        return terms.target();
    }

    private boolean isOverfat(Carcass carcass) {
        return terms.edge().isAbove(carcass.fatClass(), terms.target());
    }

    private Carcass atTarget(Carcass carcass) {
        return carcass.with(terms.target());
    }

    /**
     * What the fat of one carcass costs.
     *
     * @param carcass carcass
     * @return the cost, or empty if it is no fatter than the target
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it
     */
    public Optional<OverfatCost> cost(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        return isOverfat(carcass)
                ? Optional.of(
                        new OverfatCost(terms, 1, estimator.estimate(carcass), estimator.estimate(atTarget(carcass))))
                : Optional.empty();
    }

    /**
     * What the fat of a lot costs.
     *
     * @param carcasses carcasses
     * @return the cost of those that are fatter than the target, or empty if none is
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for one of them
     */
    public Optional<OverfatCost> cost(Iterable<Carcass> carcasses) {
        Objects.requireNonNull(carcasses, "carcasses");
        Collector collector = collector();
        carcasses.forEach(collector::add);
        return collector.cost();
    }

    /**
     * A collector for a lot of which not all carcasses are at hand.
     *
     * @return an empty collector
     */
    public Collector collector() {
        return new Collector();
    }

    /**
     * Adds carcasses up; memory does not grow with their number. Not thread-safe; let each thread have its own and merge
     * them.
     */
    public final class Collector {
        private final LotEstimate.Collector asGraded = estimator.collector();
        private final LotEstimate.Collector atTarget = estimator.collector();
        private long overfat;

        private Collector() {}

        /**
         * Adds a carcass; one that is no fatter than the target changes nothing.
         *
         * @param carcass carcass
         * @return this
         * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            if (isOverfat(carcass)) {
                asGraded.add(carcass);
                atTarget.add(atTarget(carcass));
                overfat++;
            }
            return this;
        }

        /**
         * Adds all that another collector holds; that one stays as it is.
         *
         * @param other a collector of an equal estimator against the same target, by the same rule
         * @return this
         * @throws IllegalArgumentException if its carcasses are estimated from another table or in another manner, or held
         *     against another target
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            OverfatCost.Terms theirs = other.terms();
            if (!terms.target().equals(theirs.target()) || terms.edge() != theirs.edge()) {
                throw new IllegalArgumentException(
                        "costs of fat go together only against the same target by the same rule: "
                                + terms.target() + ", " + terms.edge() + " against " + theirs.target() + ", "
                                + theirs.edge());
            }
            asGraded.add(other.asGraded);
            atTarget.add(other.atTarget);
            overfat += other.overfat;
            return this;
        }

        private OverfatCost.Terms terms() {
            return terms;
        }

        /**
         * What the fat of the carcasses so far costs.
         *
         * @return the cost, or empty if none is fatter than the target
         */
        public Optional<OverfatCost> cost() {
            return overfat == 0
                    ? Optional.empty()
                    : Optional.of(new OverfatCost(terms, overfat, asGraded.lot(), atTarget.lot()));
        }
    }
}
