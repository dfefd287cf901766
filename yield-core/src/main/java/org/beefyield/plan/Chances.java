package org.beefyield.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Outturn;

/**
 * How sure it is that orders are met by a list of carcasses. An order has of what is cut for it what the plan gives it, and of what
 * comes out beyond the plan its part before anything is sold otherwise. What a lot, a run and a hall have in common is common to all
 * that is cut.
 */
final class Chances {
    /** Carcasses of which a cut is cut up in the same ways and goes to the same places. */
    private record Alike(int cut, int takers, List<Integer> ways) {}

    /** What of such carcasses goes into a pool: a child of a cut in a way. */
    private record Into(Alike alike, Outlets.Pool pool, int way, int child) {}

    private final Planning planning;
    private final Map<Outlets.Pool, List<Part>> parts = new LinkedHashMap<>();

    Chances(Planning planning, Planning.Cutting cutting) {
        this.planning = planning;
        Map<Alike, List<CarvedCarcass>> sets = new LinkedHashMap<>();
        for (int i = 0; i < cutting.ways.length; i++) {
            CarvedCarcass one = planning.carcasses.get(i);
            for (int p = 0; p < cutting.ways[i].length; p++) {
                List<Integer> ways = Arrays.stream(cutting.ways[i][p]).boxed().toList();
                sets.computeIfAbsent(new Alike(p, one.takers, ways), key -> new ArrayList<>())
                        .add(one);
            }
        }
        sets.forEach(this::addParts);
    }

    private void addParts(Alike alike, List<CarvedCarcass> carcasses) {
        PlanCut cut = planning.cuts.get(alike.cut());
        Map<Into, List<Integer>> bands = new LinkedHashMap<>();
        for (int band = 0; band < cut.bands.size(); band++) {
            int w = alike.ways().get(band);
            List<Cut> children = cut.ways.get(w).children;
            for (int c = 0; c < children.size(); c++) {
                Outlets.Pool pool = planning.outlets.pool(alike.takers(), alike.cut(), w, c, band);
                if (!pool.isFree()) {
                    bands.computeIfAbsent(new Into(alike, pool, w, c), key -> new ArrayList<>())
                            .add(band);
                }
            }
        }
        List<Carcass> them = carcasses.stream().map(one -> one.carcass).toList();
        Map<Integer, Outturn> byWay = new LinkedHashMap<>();
        bands.forEach((into, of) -> {
            PlanCut.Way way = cut.ways.get(into.way());
            Outturn outturn = byWay.computeIfAbsent(
                    into.way(), key -> way.estimator.estimateLot(them).part(cut.part()));
            Part part = new Part(cut, alike.cut(), into.way(), into.child(), of, carcasses, outturn);
            if (part.kg() > 0) {
                parts.computeIfAbsent(into.pool(), key -> new ArrayList<>()).add(part);
            }
        });
    }

    /** What an order may get of what is cut; empty if all it gets is from stock. */
    Optional<Supply> supply(int order, Allocation allocation) {
        double leanKg = 0;
        double fatKg = 0;
        for (Map.Entry<Outlets.Pool, Allocation.FromPool> entry : allocation.fromPools.entrySet()) {
            double kg = into(order, entry.getValue());
            if (isFatTrim(entry.getKey())) {
                fatKg += kg;
            } else {
                leanKg += kg;
            }
        }
        // fat trim goes with the lean trim that it is mixed with
        double perLeanKg = planning.outlets.orders.get(order).isMince() && leanKg > 0 ? 1 + fatKg / leanKg : 1;
        Supply.Builder supply = new Supply.Builder();
        for (Map.Entry<Outlets.Pool, Allocation.FromPool> entry : allocation.fromPools.entrySet()) {
            double toOrders = toOrders(entry.getValue());
            double share = 0;
            if (toOrders > 0) {
                share = perLeanKg * (into(order, entry.getValue()) / toOrders);
            } else if (leanKg + fatKg > 0 && allocation.shortKg[order] == 0) {
                share = ofUnneeded(order, entry.getKey());
            }
            if (share <= 0 || (isFatTrim(entry.getKey()) && leanKg > 0)) {
                continue;
            }
            for (Part part : parts.getOrDefault(entry.getKey(), List.of())) {
                supply.add(part, share);
            }
            supply.expect(
                    share * supplied(entry.getValue(), Objects.requireNonNull(allocation.sold.get(entry.getKey()))));
        }
        return supply.build();
    }

    private double toOrders(Allocation.FromPool from) {
        return IntStream.range(0, planning.outlets.orders.size())
                .mapToDouble(o -> into(o, from))
                .sum();
    }

    /**
     * Of a pool that no order needs, an equal share for each that could have it in place of sale: otherwise whether an order is
     * met would hang on which of several like pools the plan draws on.
     */
    private double ofUnneeded(int order, Outlets.Pool pool) {
        if (!couldGo(order, pool)) {
            return 0;
        }
        return 1.0
                / IntStream.range(0, planning.outlets.orders.size())
                        .filter(o -> couldGo(o, pool))
                        .count();
    }

    private boolean couldGo(int order, Outlets.Pool pool) {
        return pool.orders().contains(order)
                || pool.minces().stream()
                        .map(planning.outlets.minces::get)
                        .anyMatch(
                                mince -> mince.order == order && (mince.isLeanTrimAlone() || pool.fat() <= mince.fat));
    }

    private static double supplied(Allocation.FromPool from, double sold) {
        return Arrays.stream(from.toOrders()).sum()
                + Arrays.stream(from.intoMinces()).sum()
                + sold;
    }

    private double into(int order, Allocation.FromPool from) {
        double kg = from.toOrders()[order];
        for (int m = 0; m < from.intoMinces().length; m++) {
            kg += planning.outlets.minces.get(m).order == order ? from.intoMinces()[m] : 0;
        }
        return kg;
    }

    private static boolean isFatTrim(Outlets.Pool pool) {
        return pool.kind() == CutKind.FAT_TRIM;
    }
}
