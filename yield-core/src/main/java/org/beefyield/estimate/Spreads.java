package org.beefyield.estimate;

import java.util.List;
import java.util.Set;

/**
 * The same as a {@link Spread} of carcasses of which several parts are taken, of each carcass one: what carcasses have in common
 * is common to those of all parts. Not thread-safe.
 */
final class Spreads {
    private static final Set<UncertaintyPart> INDEPENDENT = Set.of(
            UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.GRADE_RESOLUTION, UncertaintyPart.SCALE_REPEATABILITY);

    /** By part that is taken; none if nothing is uncertain. */
    private final List<Spread> each;

    Spreads(List<Moments> moments, double[] figure) {
        each = moments.stream().map(ofPart -> new Spread(ofPart, figure)).toList();
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
    double covariance(Spreads other) {
        double total = 0;
        for (UncertaintyPart part : UncertaintyPart.values()) {
            total += covariance(other, part);
        }
        return total;
    }

    private double covariance(Spreads other, UncertaintyPart part) {
        double total = 0;
        for (int i = 0; i < each.size(); i++) {
            for (int j = 0; j < other.each.size(); j++) {
                total += i == j || !INDEPENDENT.contains(part) ? each.get(i).covariance(other.each.get(j), part) : 0;
            }
        }
        return total;
    }

    /**
     * Variance of this figure less one of other carcasses from one part: errors that both have in common cancel.
     *
     * @param same whether the carcasses are the same ones, so that what single carcasses err cancels too
     */
    double varianceOfDifference(Spreads other, UncertaintyPart part, boolean same) {
        if (each.size() == 1 && other.each.size() == 1) {
            return each.get(0).varianceOfDifference(other.each.get(0), part, same);
        }
        double common = 0;
        if (INDEPENDENT.contains(part)) {
            common = same ? covariance(other, part) : 0;
        } else {
            for (Spread own : each) {
                for (Spread theirs : other.each) {
                    common += own.commonCovariance(theirs, part, same);
                }
            }
        }
        return Math.max(0, variance(part) - 2 * common + other.variance(part));
    }
}
