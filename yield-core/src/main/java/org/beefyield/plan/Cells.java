package org.beefyield.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Carcasses that the program needn't tell apart. Those of one grade and ten kg that the same orders take are a cell; while there
 * are too many, the two that are most alike in what each way of each cut would bring become one (Ward's method: the pair that adds
 * least to the squared differences within cells).
 */
final class Cells {
    private static final double WEIGHT_BAND_KG = 10;
    /** Beyond these merging would take longer than it saves; weights are told apart more coarsely. */
    private static final int MOST_GROUPS = 600;

    private Cells() {}

    static List<List<CarvedCarcass>> of(List<CarvedCarcass> carcasses, List<PlanCut> cuts, Outlets outlets, int most) {
        double band = WEIGHT_BAND_KG;
        List<List<CarvedCarcass>> groups = groups(carcasses, band);
        while (groups.size() > MOST_GROUPS && band < 1000) {
            band *= 2;
            groups = groups(carcasses, band);
        }
        return groups.size() <= most ? groups : merged(groups, cuts, outlets, most);
    }

    private static List<List<CarvedCarcass>> groups(List<CarvedCarcass> carcasses, double band) {
        Map<List<Object>, List<CarvedCarcass>> groups = new LinkedHashMap<>();
        for (CarvedCarcass one : carcasses) {
            groups.computeIfAbsent(
                            List.of(
                                    one.takers,
                                    one.carcass.category(),
                                    one.carcass.conformation().position(),
                                    one.carcass.fatClass().position(),
                                    Math.floor(one.carcass.coldWeightKg() / band)),
                            key -> new ArrayList<>())
                    .add(one);
        }
        return new ArrayList<>(groups.values());
    }

    private static List<List<CarvedCarcass>> merged(
            List<List<CarvedCarcass>> groups, List<PlanCut> cuts, Outlets outlets, int most) {
        int size = groups.size();
        double[][] means = new double[size][];
        double[] counts = new double[size];
        for (int g = 0; g < size; g++) {
            means[g] = mean(groups.get(g), cuts, outlets);
            counts[g] = groups.get(g).size();
        }
        double[][] costs = new double[size][size];
        for (int a = 0; a < size; a++) {
            for (int b = 0; b < a; b++) {
                costs[a][b] = cost(groups, means, counts, a, b);
            }
        }
        boolean[] gone = new boolean[size];
        for (int left = size; left > most; left--) {
            int first = -1;
            int second = -1;
            for (int a = 0; a < size; a++) {
                for (int b = 0; b < a && !gone[a]; b++) {
                    if (!gone[b] && (first < 0 || costs[a][b] < costs[first][second])) {
                        first = a;
                        second = b;
                    }
                }
            }
            if (first < 0 || costs[first][second] == Double.POSITIVE_INFINITY) {
                break;
            }
            join(groups, means, counts, second, first);
            gone[first] = true;
            for (int other = 0; other < size; other++) {
                if (!gone[other] && other != second) {
                    costs[Math.max(other, second)][Math.min(other, second)] =
                            cost(groups, means, counts, other, second);
                }
            }
        }
        List<List<CarvedCarcass>> cells = new ArrayList<>();
        for (int g = 0; g < size; g++) {
            if (!gone[g]) {
                cells.add(groups.get(g));
            }
        }
        return cells;
    }

    private static double cost(List<List<CarvedCarcass>> groups, double[][] means, double[] counts, int a, int b) {
        if (groups.get(a).get(0).takers != groups.get(b).get(0).takers) {
            return Double.POSITIVE_INFINITY;
        }
        double square = 0;
        for (int i = 0; i < means[a].length; i++) {
            double difference = means[a][i] - means[b][i];
            square += difference * difference;
        }
        return square * counts[a] * counts[b] / (counts[a] + counts[b]);
    }

    private static void join(List<List<CarvedCarcass>> groups, double[][] means, double[] counts, int into, int from) {
        for (int i = 0; i < means[into].length; i++) {
            means[into][i] =
                    (means[into][i] * counts[into] + means[from][i] * counts[from]) / (counts[into] + counts[from]);
        }
        counts[into] += counts[from];
        List<CarvedCarcass> both = new ArrayList<>(groups.get(into));
        both.addAll(groups.get(from));
        groups.set(into, both);
    }

    /** By way of each cut and band, what a carcass would bring at the best price. */
    private static double[] mean(List<CarvedCarcass> group, List<PlanCut> cuts, Outlets outlets) {
        List<Double> values = new ArrayList<>();
        for (int p = 0; p < cuts.size(); p++) {
            PlanCut cut = cuts.get(p);
            for (int w = 0; w < cut.ways.size(); w++) {
                for (int b = 0; b < cut.bands.size(); b++) {
                    double sum = 0;
                    for (CarvedCarcass one : group) {
                        for (int c = 0; c < one.figures.childKg[p][w].length; c++) {
                            sum += one.figures.childKg[p][w][c]
                                    * one.figures.inBand[p][b]
                                    * bestPrice(outlets, outlets.pool(one.takers, p, w, c, b));
                        }
                    }
                    values.add(sum / group.size());
                }
            }
        }
        return values.stream().mapToDouble(value -> value).toArray();
    }

    private static double bestPrice(Outlets outlets, Outlets.Pool pool) {
        double best = pool.price() == null ? 0 : pool.price();
        for (int o : pool.orders()) {
            best = Math.max(best, outlets.orders.get(o).price());
        }
        for (int m : pool.minces()) {
            best = Math.max(best, outlets.minces.get(m).price);
        }
        return best;
    }
}
