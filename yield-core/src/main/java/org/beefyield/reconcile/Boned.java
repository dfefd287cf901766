package org.beefyield.reconcile;

import java.util.Set;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Intake;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.table.YieldTable;

/** What a run boned of a carcass. */
final class Boned {
    private static final int SIDES = 2;

    private final Carcass given;
    private int forequarters;
    private int hindquarters;

    /**
     * Nothing yet.
     *
     * @param given the carcass as its first piece has it
     */
    Boned(Carcass given) {
        this.given = given;
    }

    Carcass carcass() {
        return given;
    }

    void add(Intake piece, BoningRun run) {
        if (!piece.carcass().equals(given)) {
            throw new IllegalArgumentException(run.name() + ": pieces of carcass " + piece.id() + " are of " + given
                    + " and of " + piece.carcass() + "; all of them are of one carcass");
        }
        forequarters += (int) Math.round(SIDES * piece.part().foreShare());
        hindquarters += (int) Math.round(SIDES * piece.part().hindShare());
        if (forequarters > SIDES || hindquarters > SIDES) {
            throw new IllegalArgumentException(run.name() + ": " + forequarters + " forequarters and " + hindquarters
                    + " hindquarters of carcass " + piece.id() + " were boned; it has 2 of each");
        }
    }

    /** What was boned, quartered as the table is. */
    CarcassPart part(YieldTable table) {
        return new CarcassPart(forequarters == hindquarters ? "" : quartering(table), forequarters, hindquarters);
    }

    private static String quartering(YieldTable table) {
        Set<String> known = table.quarterings();
        String basis = table.definition().basis().quartering();
        if (basis != null && known.contains(basis)) {
            return basis;
        }
        if (known.size() != 1) {
            throw new IllegalArgumentException("table " + table.definition().name() + " has "
                    + (known.isEmpty()
                            ? "no quartering"
                            : "the quarterings " + String.join(", ", known)
                                    + " and doesn't say which of them is its own")
                    + ", so quarters can't be estimated; whole carcasses and sides can");
        }
        return known.iterator().next();
    }
}
