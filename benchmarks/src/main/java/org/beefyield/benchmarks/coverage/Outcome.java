package org.beefyield.benchmarks.coverage;

import java.util.function.Predicate;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;

/** What a herd gave: kilograms of every cut at every level, and the mince that is made of all of it at once. */
public final class Outcome {
    private final Tree tree;
    private final double[] kg;

    /**
     * What a herd gave.
     *
     * @param tree how it was cut
     * @param kg by level and cut; behind them the fat in the lean trim
     */
    Outcome(Tree tree, double[] kg) {
        this.tree = tree;
        this.kg = kg;
    }

    public double kg(int level, String cut) {
        return sum(level, one -> one.code().equals(cut));
    }

    double kg(int level, CutKind kind) {
        return sum(level, one -> one.kind() == kind);
    }

    /** The last level, before anything is minced. */
    double kg(CutKind kind) {
        return kg(tree.levels() - 1, kind);
    }

    private double sum(int level, Predicate<Cut> wanted) {
        double sum = 0;
        for (int i = 0; i < tree.cuts().size(); i++) {
            sum += wanted.test(tree.cuts().get(i)) ? kg[tree.at(level, i)] : 0;
        }
        return sum;
    }

    /**
     * Fat trim that goes into mince of a fat content, by Pearson's square, or all there is.
     *
     * @param fat fat content asked for, a fraction
     */
    double fatIntoMince(double fat) {
        return Math.max(0, Math.min(kg(CutKind.FAT_TRIM), fatWanted(fat)));
    }

    /** Fat trim that mince of a fat content wants; below 0 if the lean trim is fatter than that. */
    double fatWanted(double fat) {
        double lean = kg(CutKind.LEAN_TRIM);
        double fatOfTrim = 0;
        double trim = 0;
        int last = tree.levels() - 1;
        for (int i = 0; i < tree.cuts().size(); i++) {
            if (tree.cuts().get(i).kind() == CutKind.FAT_TRIM) {
                trim += kg[tree.at(last, i)];
                fatOfTrim += kg[tree.at(last, i)] * Tree.fat(tree.cuts().get(i));
            }
        }
        return (fat * lean - kg[tree.size()]) / (fatOfTrim / trim - fat);
    }
}
