package org.beefyield.boning;

import java.util.AbstractMap;
import java.util.AbstractSet;
import java.util.Collections;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;

/**
 * Weights by name of one carcass or quarter, in the order given: a fifth of the memory of a hash map, of which a hall's trials are
 * many. Immutable.
 */
final class FewWeights extends AbstractMap<String, Double> {
    /** Weights up to which going through their names takes no longer than hashing one. */
    private static final int FEW = 32;

    private final String[] names;
    private final double[] kg;

    private FewWeights(Map<String, Double> weights) {
        names = weights.keySet().toArray(String[]::new);
        kg = weights.values().stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** An unmodifiable copy. */
    static Map<String, Double> copyOf(Map<String, Double> weights) {
        return weights instanceof FewWeights
                ? weights
                : weights.size() > FEW
                        ? Collections.unmodifiableMap(new LinkedHashMap<>(weights))
                        : new FewWeights(weights);
    }

    private int find(@Nullable Object name) {
        int at = names.length - 1;
        while (at >= 0 && !names[at].equals(name)) {
            at--;
        }
        return at;
    }

    @Override
    public @Nullable Double get(@Nullable Object name) {
        int at = find(name);
        return at < 0 ? null : (Double) kg[at];
    }

    @Override
    public boolean containsKey(@Nullable Object name) {
        return find(name) >= 0;
    }

    @Override
    public int size() {
        return names.length;
    }

    @Override
    public void forEach(BiConsumer<? super String, ? super Double> action) {
        for (int i = 0; i < names.length; i++) {
            action.accept(names[i], kg[i]);
        }
    }

    @Override
    public Set<Map.Entry<String, Double>> entrySet() {
        return new AbstractSet<>() {
            @Override
            public int size() {
                return names.length;
            }

            @Override
            public Iterator<Map.Entry<String, Double>> iterator() {
                return new Iterator<>() {
                    private int next;

                    @Override
                    public boolean hasNext() {
                        return next < names.length;
                    }

                    @Override
                    public Map.Entry<String, Double> next() {
                        if (next == names.length) {
                            throw new NoSuchElementException();
                        }
                        next++;
                        return Map.entry(names[next - 1], kg[next - 1]);
                    }
                };
            }
        };
    }
}
