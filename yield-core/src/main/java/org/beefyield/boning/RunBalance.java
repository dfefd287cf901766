package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Numbers;

/**
 * What went into a run and what came of it, in whole grams, so that it adds up: intake = boxes + rest + change of stock +
 * unexplained. Each weight of the run is rounded to a gram, half up, before it is added.
 *
 * @param run name of the run
 * @param intakeG what came in, g
 * @param boxesG what was boxed from the line, without packing, g
 * @param restG what was weighed beside the boxes, g
 * @param stockChangeG what was left in stock less what was taken from it, g; below 0 if the stock fell
 */
public record RunBalance(String run, long intakeG, long boxesG, long restG, long stockChangeG) {
    private static final double G_PER_KG = 1000;

    /** Checks that nothing is missing. */
    public RunBalance {
        Objects.requireNonNull(run, "run");
    }

    /** A weight in whole grams. */
    static long grams(double kg) {
        return Math.round(G_PER_KG * kg);
    }

    /**
     * What was boned: the intake less what was left in stock, and what was taken from it.
     *
     * @return g
     */
    public long bonedG() {
        return intakeG - stockChangeG;
    }

    /**
     * What nobody weighed, such as evaporation and drip, with every slip of the scale or the pen.
     *
     * @return g, below 0 if more came out than went in
     */
    public long unexplainedG() {
        return intakeG - boxesG - restG - stockChangeG;
    }

    /**
     * What nobody weighed, of what was boned.
     *
     * @return per cent, below 0 if more came out than went in; 0 if that is nothing, and infinite if nothing was boned
     */
    public double unexplainedPct() {
        return unexplainedG() == 0 ? 0 : 100 * (double) unexplainedG() / Math.abs(bonedG());
    }

    /**
     * Whether it is within {@value Balance#LIMIT_PCT} % of what was boned.
     *
     * @return true if the run balances
     */
    public boolean holds() {
        return Math.abs(unexplainedPct()) <= Balance.LIMIT_PCT;
    }

    /**
     * The balance in words.
     *
     * @return such as {@code Mereside 2026-11-03: 1.9 kg of 342.0 kg boned (0.6 %) are unexplained}; a run that is further
     *     off than it may be says so
     */
    @Override
    public String toString() {
        double kg = unexplainedG() / G_PER_KG;
        String much = run + ": " + Numbers.fixed(Math.abs(kg), 1) + " kg ";
        if (bonedG() == 0) {
            return much + (kg < 0 ? "came out" : "are unexplained") + (holds() ? "" : "; nothing was boned");
        }
        String boned = Numbers.fixed(bonedG() / G_PER_KG, 1);
        String part = " (" + Numbers.fixed(Math.abs(unexplainedPct()), 1) + " %)";
        return much
                + (kg < 0
                        ? "more came out than the " + boned + " kg that were boned" + part
                        : "of " + boned + " kg boned" + part + " are unexplained")
                + (holds() ? "" : "; at most " + Numbers.fixed(Balance.LIMIT_PCT, 0) + " % may be");
    }
}
