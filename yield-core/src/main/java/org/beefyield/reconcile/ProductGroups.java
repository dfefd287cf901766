package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.text.Names;

/** The smallest groups of products and weighed rests that can be told apart: those connected by cuts that they share. */
final class ProductGroups {
    private final List<ProductGroup> groups;
    /** By the code of a product, or the key of a rest. */
    private final Map<String, Integer> places;

    private ProductGroups(List<ProductGroup> groups, Map<String, Integer> places) {
        this.groups = groups;
        this.places = places;
    }

    /**
     * Groups products and rests.
     *
     * @param products every product
     * @param runs runs, whose rests are grouped too
     * @param cuts cuts that come off the line
     */
    static ProductGroups of(List<Product> products, List<BoningRun> runs, List<Cut> cuts) {
        Map<String, Product> byKey = new LinkedHashMap<>();
        for (Product product : products) {
            if (byKey.putIfAbsent(product.code(), product) != null) {
                throw new IllegalArgumentException(
                        "two products have the code " + product.code() + "; each has one of its own");
            }
        }
        runs.stream().flatMap(run -> run.rest().stream()).forEach(rest -> {
            Map<String, Double> whole = cutsOf(rest, cuts);
            if (!whole.isEmpty()) {
                byKey.computeIfAbsent(key(rest), key -> new Product(key, name(rest, cuts), whole));
            }
        });
        List<Set<String>> connected = connected(byKey);
        List<ProductGroup> groups = new ArrayList<>();
        Map<String, Integer> places = new LinkedHashMap<>();
        for (Set<String> keys : connected) {
            keys.forEach(key -> places.put(key, groups.size()));
            groups.add(group(keys.stream()
                    .map(key -> Objects.requireNonNull(byKey.get(key)))
                    .toList()));
        }
        Set<String> names = new HashSet<>(Set.of(Reconciliation.LOSSES, Reconciliation.OTHER_WAY));
        for (ProductGroup group : groups) {
            if (!names.add(group.name())) {
                throw new IllegalArgumentException("two groups of products, or one and a line of its own, are called "
                        + group.name() + "; products, bone and fat have names of their own");
            }
        }
        return new ProductGroups(List.copyOf(groups), places);
    }

    /** What tells a rest from products and from other rests: codes of products hold no line feed. */
    private static String key(Rest rest) {
        return "\n" + (rest.cut().isEmpty() ? rest.kind().code() : "cut " + rest.cut());
    }

    /** The cuts that a rest is: the one that it names, or all of its kind; none of what is a loss. */
    private static Map<String, Double> cutsOf(Rest rest, List<Cut> cuts) {
        if (!rest.cut().isEmpty()) {
            return Map.of(rest.cut(), 1.0);
        }
        Map<String, Double> whole = new LinkedHashMap<>();
        CutKind kind = switch (rest.kind()) {
            case BONE -> CutKind.BONE;
            case FAT -> CutKind.FAT_TRIM;
            case WASTE, SAMPLES, FLOOR, LOSS -> null;
        };
        cuts.stream().filter(cut -> cut.kind() == kind).forEach(cut -> whole.put(cut.code(), 1.0));
        return whole;
    }

    private static String name(Rest rest, List<Cut> cuts) {
        return cuts.stream()
                .filter(cut -> cut.code().equals(rest.cut()))
                .map(Cut::name)
                .findFirst()
                .orElse(Names.capital(rest.kind().code()));
    }

    private static List<Set<String>> connected(Map<String, Product> products) {
        List<Set<String>> groups = new ArrayList<>();
        List<Set<String>> cutsOf = new ArrayList<>();
        products.forEach((key, product) -> {
            Set<String> keys = new LinkedHashSet<>();
            Set<String> cuts = new LinkedHashSet<>(product.cuts().keySet());
            int first = -1;
            for (int i = 0; i < groups.size(); ) {
                if (cutsOf.get(i).stream().anyMatch(product.cuts()::containsKey)) {
                    first = first < 0 ? i : first;
                    keys.addAll(groups.remove(i));
                    cuts.addAll(cutsOf.remove(i));
                } else {
                    i++;
                }
            }
            keys.add(key);
            int at = first < 0 ? groups.size() : first;
            groups.add(at, keys);
            cutsOf.add(at, cuts);
        });
        return groups;
    }

    private static ProductGroup group(List<Product> products) {
        Map<String, Double> shares = new LinkedHashMap<>();
        for (Product product : products) {
            product.cuts().forEach((cut, share) -> shares.merge(cut, share, Double::sum));
        }
        // products among which a cut is divided at will have the whole of it each
        shares.replaceAll((cut, share) -> Math.min(1, share));
        return new ProductGroup(
                products.stream().map(Product::name).distinct().collect(Collectors.joining(", ")),
                shares,
                products.size());
    }

    List<ProductGroup> groups() {
        return groups;
    }

    /** Number of the group of a product; below 0 if there is none. */
    int ofProduct(String code) {
        return places.getOrDefault(code, -1);
    }

    /** Number of the group of a rest; below 0 if it is a loss. */
    int ofRest(Rest rest) {
        return places.getOrDefault(key(rest), -1);
    }
}
