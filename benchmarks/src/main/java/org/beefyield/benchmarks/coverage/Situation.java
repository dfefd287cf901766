package org.beefyield.benchmarks.coverage;

import java.util.List;
import java.util.random.RandomGenerator;

/**
 * Something that a user asks.
 *
 * @param name its name in the results
 * @param demand what coverage should be
 * @param nominal probability that the library states
 * @param nature how the world errs
 * @param cuttings numbers of the manners of cutting
 * @param sets sets of carcasses in the full study
 * @param asker draws a set of carcasses and asks the library
 */
record Situation(
        String name, Demand demand, double nominal, Nature nature, List<Integer> cuttings, int sets, Asker asker) {
    /** What coverage should be. */
    enum Demand {
        /** As stated, within a percentage point, where what is asked for is 3 SD from 0 or more. */
        HELD,
        /** Nothing: the world errs otherwise than declared. */
        NONE,
        /** Off by more than a percentage point: the library was told what isn't so. */
        MISSED
    }

    /** Asks the library. */
    interface Asker {
        Asked ask(StudyTable table, RandomGenerator random);
    }

    /**
     * A set of carcasses and what the library says of it.
     *
     * @param herds carcasses
     * @param statements what it says
     */
    record Asked(List<Herd> herds, List<Statement> statements) {}

    Situation reported(String newName, Nature newNature) {
        return new Situation(newName, Demand.NONE, nominal, newNature, cuttings, sets, asker);
    }
}
