package org.beefyield.boning;

import java.util.AbstractList;
import java.util.List;
import java.util.RandomAccess;

/** Figures without an object for each. Immutable. */
final class Figures extends AbstractList<Double> implements RandomAccess {
    private final double[] all;

    private Figures(List<Double> figures) {
        this.all = figures.stream().mapToDouble(Double::doubleValue).toArray();
    }

    static List<Double> copyOf(List<Double> figures) {
        return figures instanceof Figures ? figures : new Figures(figures);
    }

    @Override
    public Double get(int place) {
        return all[place];
    }

    @Override
    public int size() {
        return all.length;
    }
}
