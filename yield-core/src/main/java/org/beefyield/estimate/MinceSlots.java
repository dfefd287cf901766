package org.beefyield.estimate;

import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.TableLayout;

/** The slots of the last level that mincing touches. */
final class MinceSlots {
    final int[] lean;
    final int[] fatTrim;
    /** Fat content of each fat trim, a fraction. */
    final double[] fatOfFatTrim;

    private final int fatInLean;

    MinceSlots(TableLayout layout) {
        int last = layout.levels().size() - 1;
        List<Cut> cuts = layout.cutsAt(last);
        lean = slots(layout.start(last), cuts, CutKind.LEAN_TRIM);
        fatTrim = slots(layout.start(last), cuts, CutKind.FAT_TRIM);
        fatOfFatTrim = new double[fatTrim.length];
        for (int i = 0; i < fatTrim.length; i++) {
            Double pct = cuts.get(fatTrim[i] - layout.start(last)).fatPct();
            fatOfFatTrim[i] = pct == null ? 0 : pct / 100;
        }
        fatInLean = layout.size();
    }

    private static int[] slots(int start, List<Cut> cuts, CutKind kind) {
        return IntStream.range(0, cuts.size())
                .filter(i -> cuts.get(i).kind() == kind)
                .map(i -> start + i)
                .toArray();
    }

    /** Lean trim before mincing, kg. */
    double leanKg(double[] kg) {
        return sum(lean, kg);
    }

    /** Fat in the lean trim, kg. */
    double fatInLeanKg(double[] kg) {
        return kg[fatInLean];
    }

    /** Fat trim before mincing, kg. */
    double fatTrimKg(double[] kg) {
        return sum(fatTrim, kg);
    }

    private static double sum(int[] slots, double[] kg) {
        double sum = 0;
        for (int slot : slots) {
            sum += kg[slot];
        }
        return sum;
    }

    /** Fat content of all fat trim together, a fraction; 1 where there is none. */
    double fatOfFatTrim(double[] kg) {
        double trim = fatTrimKg(kg);
        double fat = 0;
        for (int i = 0; i < fatTrim.length; i++) {
            fat += kg[fatTrim[i]] * fatOfFatTrim[i];
        }
        return trim == 0 ? 1 : fat / trim;
    }
}
