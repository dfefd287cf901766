package org.beefyield.plan;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pack.PieceWeight;
import org.jspecify.annotations.Nullable;

/** A carcass, and what each of its cuts is expected to return in each way. */
final class CarvedCarcass {
    /** Stands for the lot of carcasses of which neither supplier, kill date nor lot is known. */
    static final String NO_LOT = "no lot";

    final Carcass carcass;
    /** Which orders take it, as the planner numbers such sets. */
    final int takers;

    final Figures figures;

    CarvedCarcass(Carcass carcass, int takers, Figures figures) {
        this.carcass = carcass;
        this.takers = takers;
        this.figures = figures;
    }

    /** What single carcasses err is in the weights of their pieces. */
    static final Set<UncertaintyPart> OF_SINGLE_CARCASSES = Set.of(
            UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.GRADE_RESOLUTION, UncertaintyPart.SCALE_REPEATABILITY);

    /** Its supplier, kill date and lot, as far as they are known. */
    String lot() {
        String words = Stream.of(carcass.supplier(), carcass.killDate(), carcass.lot())
                .flatMap(Optional::stream)
                .collect(Collectors.joining(" "));
        return words.isEmpty() ? NO_LOT : words;
    }

    /** What carcasses of one grade and weight return. */
    static final class Figures {
        /** By cut, kg. */
        final double[] kg;
        /** By cut, way and child, kg. */
        final double[][][] childKg;
        /** By cut and band, what of the cut is in pieces of these weights, a fraction. */
        final double[][] inBand;
        /**
         * By cut, its pieces as far as single carcasses differ, without what lots, runs and halls have in common; null where there
         * are none.
         */
        final @Nullable PieceWeight[] ownPieces;
        /** By cut of the last level what comes there without being cut up last, kg. */
        final double[] besideKg;

        Figures(YieldEstimator base, List<PlanCut> cuts, List<Cut> lastCuts, String last, Carcass carcass) {
            YieldEstimate estimate = base.estimate(carcass);
            kg = new double[cuts.size()];
            childKg = new double[cuts.size()][][];
            inBand = new double[cuts.size()][];
            ownPieces = new PieceWeight[cuts.size()];
            besideKg = new double[lastCuts.size()];
            for (int i = 0; i < besideKg.length; i++) {
                besideKg[i] = estimate.kg(last, lastCuts.get(i).code());
            }
            for (int p = 0; p < cuts.size(); p++) {
                PlanCut cut = cuts.get(p);
                kg[p] = cut.cut == null ? estimate.coldWeightKg() : estimate.kg(levelAbove(base), cut.code);
                childKg[p] = new double[cut.ways.size()][];
                for (int w = 0; w < cut.ways.size(); w++) {
                    PlanCut.Way way = cut.ways.get(w);
                    Outturn part = way.estimator.estimate(carcass).part(cut.part());
                    childKg[p][w] = way.children.stream()
                            .mapToDouble(child -> part.kg(last, child.code()))
                            .toArray();
                    for (int c = 0; w == cut.usual && c < way.children.size(); c++) {
                        besideKg[lastCuts.indexOf(way.children.get(c))] -= childKg[p][w][c];
                    }
                }
                PieceWeight piece = cut.hasPieces() ? PieceWeight.of(estimate, cut.code) : null;
                ownPieces[p] = piece == null
                        ? null
                        : PieceWeight.inAnyHall(estimate.counting(ofSingleCarcasses(estimate)), cut.code);
                inBand[p] = cut.bands.stream()
                        .mapToDouble(band -> piece == null ? 1 : band.share(piece))
                        .toArray();
            }
        }

        private static Set<UncertaintyPart> ofSingleCarcasses(YieldEstimate estimate) {
            Set<UncertaintyPart> parts = EnumSet.copyOf(OF_SINGLE_CARCASSES);
            parts.retainAll(estimate.counted());
            return parts;
        }

        private static String levelAbove(YieldEstimator base) {
            List<String> levels = base.table().levels();
            return levels.get(levels.size() - 2);
        }
    }

    /** Makes them, those of equal grades and weights once. */
    static final class Maker {
        private final YieldEstimator base;
        private final List<PlanCut> cuts;
        private final List<Cut> lastCuts;
        private final String last;
        private final Map<List<Object>, Figures> known = new HashMap<>();

        Maker(YieldEstimator base, List<PlanCut> cuts) {
            this.base = base;
            this.cuts = cuts;
            List<String> levels = base.table().levels();
            this.last = levels.get(levels.size() - 1);
            this.lastCuts = new ArrayList<>(base.table().cutsAt(last));
        }

        Figures figures(Carcass carcass) {
            List<Object> key =
                    List.of(carcass.category(), carcass.conformation(), carcass.fatClass(), carcass.coldWeightKg());
            return known.computeIfAbsent(key, first -> new Figures(base, cuts, lastCuts, last, carcass));
        }
    }
}
