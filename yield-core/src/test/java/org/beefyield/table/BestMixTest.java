package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The best of all mixes against all of them, with figures that tie often. */
class BestMixTest {
    private static final int ANY = WayShares.ANY;

    private static BestMix.Part part(double value, Integer... picks) {
        return new BestMix.Part(List.of(picks), new double[] {value, 0, 0, 0});
    }

    @Test
    void choicesThatMatterOnlyTogetherAreNamed() {
        // the second choice matters under the other of the first alone, and the first under the other of the second
        // alone
        List<BestMix.Part> parts = List.of(part(5, 0, 0), part(5, 0, 1), part(5, 1, 0), part(2, 1, 1));
        BestMix mix = new BestMix(new int[] {2, 2}, 0, 1);
        List<Integer> picks = mix.thatMatter(parts, mix.most(parts));
        for (int first = 0; first < 2; first++) {
            for (int second = 0; second < 2; second++) {
                if (isOf(new int[] {first, second}, picks)) {
                    assertThat(BestMix.value(parts, new int[] {first, second}, 0))
                            .isEqualTo(5);
                }
            }
        }
        assertThat(picks).contains(ANY).isNotEqualTo(List.of(ANY, ANY));
    }

    @Test
    void everyMixThatMakesTheNamedChoicesReachesTheBestOfAllMixes() {
        Random random = new Random(20261129);
        int ofFewer = 0;
        for (int run = 0; run < 2000; run++) {
            int[] counts = {2 + random.nextInt(2), 2 + random.nextInt(2), 2, 2};
            List<BestMix.Part> parts = parts(random, counts);
            List<int[]> mixes = mixes(counts);
            double[] weights = {-1, 0.25, 2};
            BestMix mix = new BestMix(counts, -1, 2);
            BestMix.Best best = mix.most(parts);
            double most = Double.NEGATIVE_INFINITY;
            for (int[] one : mixes) {
                for (double t : weights) {
                    most = Math.max(most, BestMix.value(parts, one, t));
                }
            }
            assertThat(best.value()).isGreaterThanOrEqualTo(most - 1e-12);
            List<Integer> picks = mix.thatMatter(parts, best);
            for (int[] one : mixes) {
                if (isOf(one, picks)) {
                    assertThat(BestMix.value(parts, one, best.t()))
                            .as("%s of %s", picks, List.of(one))
                            .isCloseTo(best.value(), within(1e-11));
                }
            }
            ofFewer += picks.contains(ANY) ? 1 : 0;
        }
        assertThat(ofFewer).isGreaterThan(200);
    }

    @Test
    void boundsHoldEveryMixAndOneMixReachesThemAtAnEnd() {
        Random random = new Random(20261130);
        for (int run = 0; run < 500; run++) {
            int[] counts = {2 + random.nextInt(2), 2 + random.nextInt(2), 2, 2};
            List<BestMix.Part> parts = new ArrayList<>();
            List<List<Integer>> picks = new ArrayList<>();
            BitSet counting = new BitSet();
            for (int i = 0; i < 12; i++) {
                List<Integer> picked = new ArrayList<>(List.of(ANY, ANY, ANY, ANY));
                for (int k = random.nextInt(3); k > 0; k--) {
                    int parent = random.nextInt(counts.length);
                    picked.set(parent, random.nextInt(counts[parent]));
                }
                parts.add(new BestMix.Part(picked, random.doubles(4, -1, 1).toArray()));
                picks.add(picked);
                counting.set(i);
            }
            MixBounds.Bounds bounds = new BestMix(counts, -1.5, 2)
                    .bounds(picks, counting, List.of(parts))
                    .get(0);
            double reached = 0;
            for (int[] mix : mixes(counts)) {
                for (double t = -1.5; t <= 2; t += 0.25) {
                    assertThat(BestMix.value(parts, mix, t)).isBetween(bounds.least() - 1e-12, bounds.most() + 1e-12);
                }
                reached = Math.max(reached, Math.abs(BestMix.value(parts, mix, -1.5)));
                reached = Math.max(reached, Math.abs(BestMix.value(parts, mix, 2)));
            }
            assertThat(bounds.reached()).isCloseTo(reached, within(1e-12));
        }
    }

    /** Straight lines of small whole numbers, each of one or two choices. */
    private static List<BestMix.Part> parts(Random random, int[] counts) {
        List<BestMix.Part> parts = new ArrayList<>();
        for (int first = 0; first < counts.length; first += 2) {
            for (int i = 0; i < counts[first]; i++) {
                for (int j = 0; j < counts[first + 1]; j++) {
                    List<Integer> picks = new ArrayList<>(List.of(ANY, ANY, ANY, ANY));
                    picks.set(first, i);
                    if (random.nextInt(4) > 0) {
                        picks.set(first + 1, j);
                    }
                    parts.add(new BestMix.Part(picks, new double[] {random.nextInt(3), random.nextInt(2), 0, 0}));
                }
            }
        }
        return parts;
    }

    private static List<int[]> mixes(int[] counts) {
        List<int[]> mixes = new ArrayList<>(List.of(new int[counts.length]));
        for (int i = 0; i < counts.length; i++) {
            List<int[]> more = new ArrayList<>();
            for (int[] mix : mixes) {
                for (int choice = 0; choice < counts[i]; choice++) {
                    int[] one = mix.clone();
                    one[i] = choice;
                    more.add(one);
                }
            }
            mixes = more;
        }
        return mixes;
    }

    private static boolean isOf(int[] mix, List<Integer> picks) {
        for (int i = 0; i < mix.length; i++) {
            if (picks.get(i) != ANY && picks.get(i) != mix[i]) {
                return false;
            }
        }
        return true;
    }
}
