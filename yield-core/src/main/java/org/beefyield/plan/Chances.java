package org.beefyield.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.FigureSum;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.pack.PieceWeight;
import org.jspecify.annotations.Nullable;

/**
 * How sure it is that orders are met by a list of carcasses. An order has of what is cut for it what the plan gives it, and of what
 * comes out beyond the plan its part before anything is sold otherwise. What a lot, a run and a hall have in common is common to all
 * that is cut.
 */
final class Chances {
    /** Carcasses of which a cut is cut up in the same ways and goes to the same places. */
    private record Alike(int cut, int takers, List<Integer> ways) {}

    /** What a set of carcasses adds to a pool. */
    private static final class Part {
        final Outturn outturn;
        final Figure figure;
        final double scatter;

        Part(Outturn outturn, Figure figure, double scatter) {
            this.outturn = outturn;
            this.figure = figure;
            this.scatter = scatter;
        }
    }

    private final Planning planning;
    private final Map<Outlets.Pool, List<Part>> parts = new LinkedHashMap<>();

    Chances(Planning planning, Planning.Cutting cutting) {
        this.planning = planning;
        Map<Alike, List<CarvedCarcass>> sets = new LinkedHashMap<>();
        for (int i = 0; i < cutting.ways.length; i++) {
            CarvedCarcass one = planning.carcasses.get(i);
            for (int p = 0; p < cutting.ways[i].length; p++) {
                List<Integer> ways =
                        Arrays.stream(cutting.ways[i][p]).boxed().toList();
                sets.computeIfAbsent(new Alike(p, one.takers, ways), key -> new ArrayList<>())
                        .add(one);
            }
        }
        sets.forEach(this::addParts);
    }

    private void addParts(Alike alike, List<CarvedCarcass> carcasses) {
        PlanCut cut = planning.cuts.get(alike.cut());
        List<Carcass> them = carcasses.stream().map(one -> one.carcass).toList();
        Map<Integer, Outturn> byWay = new LinkedHashMap<>();
        for (int band = 0; band < cut.bands.size(); band++) {
            int w = alike.ways().get(band);
            PlanCut.Way way = cut.ways.get(w);
            for (int c = 0; c < way.children.size(); c++) {
                Outlets.Pool pool = planning.outlets.pool(alike.takers(), alike.cut(), w, c, band);
                if (pool.isFree()) {
                    continue;
                }
                Outturn outturn = byWay.computeIfAbsent(
                        w, key -> way.estimator.estimateLot(them).part(cut.part()));
                Part part = part(cut, alike.cut(), cut.bands.get(band), band, w, c, carcasses, outturn);
                if (part != null) {
                    parts.computeIfAbsent(pool, key -> new ArrayList<>()).add(part);
                }
            }
        }
    }

    private static @Nullable Part part(
            PlanCut cut,
            int p,
            SizeBand band,
            int b,
            int w,
            int c,
            List<CarvedCarcass> carcasses,
            Outturn outturn) {
        Cut child = cut.ways.get(w).children.get(c);
        Figure figure = Figure.cut(child.code());
        double childKg = 0;
        double inBandKg = 0;
        double cutKg = 0;
        double heavier = 0;
        double scatter = 0;
        for (CarvedCarcass one : carcasses) {
            double kg = one.figures.childKg[p][w][c];
            childKg += kg;
            inBandKg += kg * one.figures.inBand[p][b];
            cutKg += one.figures.kg[p];
            PieceWeight piece = one.figures.pieces[p];
            if (piece != null && !band.equals(SizeBand.ALL) && piece.meanKg() > 0) {
                SizeBand.Moment moment = SizeBand.Moment.of(band, piece);
                double perCutKg = kg / one.figures.kg[p];
                heavier += perCutKg * piece.pieces() * moment.slope * piece.meanKg();
                double all = perCutKg * piece.pieces();
                scatter += all * all * moment.scatter;
            }
        }
        if (!(inBandKg > 0)) {
            return null;
        }
        if (band.equals(SizeBand.ALL)) {
            return new Part(outturn, figure, 0);
        }
        // what a per cent more of the cut does: as much more of what is in the band, and pieces that grow into it or out of it
        double share = inBandKg / childKg;
        double elasticity = heavier / inBandKg;
        return new Part(
                outturn,
                figure.times(share).plus(Figure.cut(cut.code).times((elasticity - 1) * inBandKg / cutKg)),
                scatter);
    }

    /** What an order may get of what is cut; empty if all it gets is from stock. The figure's own kg aren't what is planned. */
    Optional<Supply> supply(int order, Allocation allocation) {
        FigureSum.Builder sum = FigureSum.builder();
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
        double perLeanKg = planning.outlets.orders.get(order).isMince() && leanKg > 0 ? 1 + fatKg / leanKg : 1;
        double expected = 0;
        boolean any = false;
        for (Map.Entry<Outlets.Pool, Allocation.FromPool> entry : allocation.fromPools.entrySet()) {
            double kg = into(order, entry.getValue());
            if (kg <= 0 || (isFatTrim(entry.getKey()) && leanKg > 0)) {
                continue;
            }
            double toOrders = 0;
            for (int o = 0; o < planning.outlets.orders.size(); o++) {
                toOrders += into(o, entry.getValue());
            }
            double part = perLeanKg * kg / toOrders;
            for (Part of : parts.getOrDefault(entry.getKey(), List.of())) {
                sum.add(of.outturn, of.figure.times(part)).scatter(part * part * of.scatter);
                any = true;
            }
            expected += part * supplied(entry.getValue(), Objects.requireNonNull(allocation.sold.get(entry.getKey())));
        }
        return any ? Optional.of(new Supply(expected, sum.build())) : Optional.empty();
    }

    /**
     * What an order may get.
     *
     * @param kg expected, kg
     * @param sum how that may come out; its own kg is that but for pieces
     */
    record Supply(double kg, FigureSum sum) {
        /** The chance of so much. */
        double chance(double asked) {
            return sum.chanceOfAtLeast(asked - kg + sum.kg());
        }

        /** The part from which most of the uncertainty comes. */
        Optional<UncertaintyPart> largestPart() {
            return sum.sdByPart().entrySet().stream()
                    .max(Map.Entry.comparingByValue())
                    .map(Map.Entry::getKey);
        }

        /** What one may promise. */
        double promise(double probability) {
            return Math.max(0, sum.promise(probability) + kg - sum.kg());
        }
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
