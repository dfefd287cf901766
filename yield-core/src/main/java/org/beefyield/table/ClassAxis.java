package org.beefyield.table;

import java.util.Collection;
import java.util.TreeSet;

/** One grade axis of a breakdown by class: the positions of the class middles that have values. */
final class ClassAxis {
    private final double[] middles;

    ClassAxis(Collection<Double> positions) {
        middles = new TreeSet<>(positions)
                .stream().mapToDouble(Double::doubleValue).toArray();
    }

    int size() {
        return middles.length;
    }

    double middle(int index) {
        return middles[index];
    }

    /** The left of the two middles that a position lies between or, outside of all, next to. */
    int left(double position) {
        int left = 0;
        while (left < middles.length - 2 && middles[left + 1] <= position) {
            left++;
        }
        return left;
    }

    /** Weight of the right one of the two; outside 0 to 1 over an outer half class, 0 if there is one middle alone. */
    double weight(double position) {
        if (middles.length == 1) {
            return 0;
        }
        int left = left(position);
        return (position - middles[left]) / (middles[left + 1] - middles[left]);
    }

    /** The middle nearest to a position, the lower one of two. */
    int nearest(double position) {
        int left = left(position);
        return weight(position) > 0.5 ? left + 1 : left;
    }
}
