package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Carcass;

/** Carcasses, each with the number of its lot, run and hall: equal numbers are the same ones, in other herds too. */
public final class Herd {
    /**
     * One carcass.
     *
     * @param carcass as it is graded and weighed, without keys
     * @param lot number of its lot
     * @param run number of its run
     * @param hall number of its hall
     */
    public record Head(Carcass carcass, int lot, int run, int hall) {}

    private final List<Head> heads = new ArrayList<>();

    public Herd add(Head head) {
        heads.add(head);
        return this;
    }

    List<Head> heads() {
        return heads;
    }

    int size() {
        return heads.size();
    }

    /** One more than the largest number of a lot, a run or a hall. */
    int keys() {
        return 1
                + heads.stream()
                        .mapToInt(head -> Math.max(head.lot(), Math.max(head.run(), head.hall())))
                        .max()
                        .orElse(-1);
    }

    /**
     * Carcasses of one lot, boned in one run.
     *
     * @param breed draws a carcass
     */
    static Herd lot(int size, int lot, int run, int hall, Breed breed, RandomGenerator random) {
        Herd herd = new Herd();
        for (int i = 0; i < size; i++) {
            herd.add(new Head(breed.next(random), lot, run, hall));
        }
        return herd;
    }

    /** Draws a carcass. */
    interface Breed {
        Carcass next(RandomGenerator random);
    }
}
