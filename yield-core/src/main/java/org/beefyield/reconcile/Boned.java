package org.beefyield.reconcile;

import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Intake;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.text.Numbers;

/** What a run boned of a carcass. */
final class Boned {
    private static final double WHOLE = 1;

    private final Carcass given;
    private final Carcass ofRun;
    private double fore;
    private double hind;

    /**
     * Nothing yet.
     *
     * @param given the carcass as its pieces have it
     * @param ofRun the carcass as one of the run
     */
    Boned(Carcass given, Carcass ofRun) {
        this.given = given;
        this.ofRun = ofRun;
    }

    void add(Intake piece, BoningRun run) {
        if (!piece.carcass().equals(given)) {
            throw new IllegalArgumentException(run.name() + ": pieces of carcass " + piece.id() + " are of " + given
                    + " and of " + piece.carcass() + "; all of them are of one carcass");
        }
        fore += piece.part().foreShare();
        hind += piece.part().hindShare();
        if (fore > WHOLE || hind > WHOLE) {
            throw new IllegalArgumentException(run.name() + ": of carcass " + piece.id() + " "
                    + Numbers.exact(2 * fore) + " forequarters and " + Numbers.exact(2 * hind)
                    + " hindquarters were boned; it has 2 of each");
        }
    }

    void addTo(LotEstimate.Collector collector) {
        collector.add(ofRun);
    }
}
