package org.beefyield.report;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.price.Attribution;
import org.beefyield.price.Value;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;

/**
 * Seasons or plants side by side: each against the first, for what reasons, and all at one mix of carcasses, that of all of them
 * together, where only cutting, prices and what was weighed without a reason differ. Immutable.
 */
public final class Comparison implements ShownInBlocks {
    private final List<Compared> parts;
    private final List<Value> atOneMix;
    private final List<Attribution> attributions;

    /**
     * Places among what is compared, at one mix.
     *
     * @param best the best place that it may have, 1 for the first
     * @param worst the worst
     */
    public record Rank(int best, int worst) {
        /**
         * Checks the places.
         *
         * @throws IllegalArgumentException if they are not ascending from 1
         */
        public Rank {
            if (!(best >= 1 && best <= worst)) {
                throw new IllegalArgumentException(
                        "rank " + best + " to " + worst + ": two ascending places from 1 are needed");
            }
        }

        @Override
        public String toString() {
            return best == worst ? Integer.toString(best) : best + " to " + worst;
        }
    }

    private Comparison(List<Compared> parts) {
        this.parts = parts;
        this.atOneMix = parts.stream().map(this::atOneMix).toList();
        List<Attribution> all = new ArrayList<>();
        for (Compared part : parts.subList(1, parts.size())) {
            all.add(Attribution.of(part.value(), parts.get(0).value()));
        }
        this.attributions = List.copyOf(all);
    }

    /**
     * Sets them side by side.
     *
     * @param parts two or more; the first is what the others are compared with
     * @return the comparison
     * @throws IllegalArgumentException if there are fewer than two, two have one name, or they differ in anything but cutting
     *     specification, prices and carcasses
     */
    public static Comparison of(List<Compared> parts) {
        Checks.noNullIn(parts, "parts");
        if (parts.size() < 2) {
            throw new IllegalArgumentException(
                    "a comparison takes two or more; there is " + Numbers.counted(parts.size(), "lot", "lots"));
        }
        Compared first = parts.get(0);
        Set<String> names = new HashSet<>();
        for (Compared part : parts) {
            if (!names.add(part.name())) {
                throw new IllegalArgumentException(
                        "two lots are called \"" + part.name() + "\"; each has its own name");
            }
            first.valuer().prices().checkCurrency(part.valuer().prices().currency());
            if (!first.valuer().level().equals(part.valuer().level())
                    || !first.valuer()
                            .estimator()
                            .with(part.valuer().estimator().specification())
                            .equals(part.valuer().estimator())) {
                throw new IllegalArgumentException("lots are compared only at one level, by one table, mince, scale and"
                        + " parts of the uncertainty: " + first.valuer() + " against " + part.valuer());
            }
        }
        return new Comparison(List.copyOf(parts));
    }

    /** All carcasses as one part cuts and prices them. */
    private Value atOneMix(Compared part) {
        LotEstimate all = parts.stream()
                .map(other -> other.lot().under(part.valuer().estimator().specification()))
                .reduce(LotEstimate::plus)
                .orElseThrow();
        return part.valuer().value(all);
    }

    /**
     * What is compared.
     *
     * @return two or more, the first of them what the others are compared with
     */
    public List<Compared> parts() {
        return parts;
    }

    /**
     * Why a head of one is worth more than one of the first.
     *
     * @param part its place, 1 or more
     * @return the reasons
     * @throws IndexOutOfBoundsException if there is none of that place
     */
    public Attribution attribution(int part) {
        return attributions.get(part - 1);
    }

    /**
     * What a kg of all carcasses together is worth as one cuts and prices them, with what it weighed without a reason.
     *
     * @param part its place, 0 for the first
     * @return amount per kg of cold weight
     * @throws IndexOutOfBoundsException if there is none of that place
     */
    public double atOneMixPerKg(int part) {
        return atOneMix.get(part).perKg() + parts.get(part).unexplainedPerKg();
    }

    /**
     * How much more that is than of another, with how sure it is: what errs in both alike cancels. Few runs are less sure than many
     * (Student's t, degrees of freedom after Satterthwaite).
     *
     * @param part place of the one
     * @param other place of the other
     * @return the 90 % interval, per kg of cold weight; empty where nothing is known that would tell the two apart: they cut and
     *     price alike and neither has runs, or only one has
     * @throws IndexOutOfBoundsException if there is none of these places
     */
    public Optional<Interval> atOneMixMore(int part, int other) {
        Compared our = parts.get(part);
        Compared their = parts.get(other);
        boolean ofRuns = our.unexplained() != null;
        if (ofRuns != (their.unexplained() != null) || (!ofRuns && our.valuer().equals(their.valuer()))) {
            return Optional.empty();
        }
        Value ours = atOneMix.get(part);
        double sd = ours.changeFrom(atOneMix.get(other)).expectedSdKg()
                / ours.outturn().coldWeightKg();
        double more = atOneMixPerKg(part) - atOneMixPerKg(other);
        double variance = sd * sd + our.unexplainedVariance() + their.unexplainedVariance();
        double spread = our.unexplainedSpread() + their.unexplainedSpread();
        return Optional.of(
                spread > 0
                        ? Interval.student(
                                more, Math.sqrt(variance), variance * variance / spread, Interval.SHOWN_PROBABILITY)
                        : Interval.normal(more, Math.sqrt(variance), Interval.SHOWN_PROBABILITY));
    }

    /** Whether anything is known that would tell two of them apart at one mix. */
    boolean tellsApart() {
        for (int i = 1; i < parts.size(); i++) {
            for (int j = 0; j < i; j++) {
                if (atOneMixMore(i, j).isPresent()) {
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Which place one has at one mix: those count before it whose 90 % interval of the difference lies above 0.
     *
     * @param part its place in the list
     * @return the places that it may have
     * @throws IndexOutOfBoundsException if there is none of that place
     */
    public Rank rank(int part) {
        Objects.checkIndex(part, parts.size());
        int better = 0;
        int worse = 0;
        for (int other = 0; other < parts.size(); other++) {
            if (other != part) {
                Optional<Interval> more = atOneMixMore(part, other);
                better += more.filter(interval -> interval.high() < 0).isPresent() ? 1 : 0;
                worse += more.filter(interval -> interval.low() > 0).isPresent() ? 1 : 0;
            }
        }
        return new Rank(1 + better, parts.size() - worse);
    }

    /**
     * The comparison as a frame, a row for each part.
     *
     * @return {@code table}; {@code name}; {@code specification}; {@code carcasses}; {@code cold weight} in kg and {@code mean weight}
     *     in kg a head; {@code conformation} and {@code fat} in points; {@code worth}, {@code unexplained} (missing if not known) and
     *     {@code at one mix}, {@code more than the first} with {@code 90 % interval low} and {@code high}, missing where nothing is known, in the currency
     *     a kg;
     *     {@code best rank} and {@code worst rank}; and for each factor what it makes beside the first, in the currency a kg
     */
    public Frame toFrame() {
        return new ComparisonText(this).frame();
    }

    /**
     * The comparison for people: all side by side, then each against the first.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new ComparisonText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code Mereside, Bridgefoot: worth 6.266, 6.301 EUR a kg}
     */
    @Override
    public String toString() {
        return new ComparisonText(this).sentence();
    }
}
