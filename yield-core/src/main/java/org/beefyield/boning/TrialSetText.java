package org.beefyield.boning;

import org.beefyield.carcass.Carcass;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;

/** What a set of trials says in words. */
final class TrialSetText {
    private TrialSetText() {}

    /**
     * What closing one breakdown took.
     *
     * @param missingPct mean of what was missing, % of the parent
     * @param toLoss carcasses closed by the loss
     * @param inProportion carcasses closed in proportion
     */
    static String closing(WeighedBreakdown breakdown, double missingPct, long toLoss, long inProportion) {
        return breakdown + ", "
                + Numbers.fixed(Math.abs(missingPct), 2) + (missingPct < 0 ? " % too much" : " % missing")
                + " on average; closed by the loss in " + toLoss + ", in proportion in " + inProportion;
    }

    static String refusedDay(String day, int refused, int trials) {
        return "day " + day + ": " + refused + " of " + trials + " trials are refused; look at that day's scale";
    }

    static String outside(Carcass carcass, Variable variable, YieldTable table) {
        String value = switch (variable) {
            case CONFORMATION -> "conformation " + carcass.conformation();
            case FAT -> "fat class " + carcass.fatClass();
            case WEIGHT -> "cold weight " + variable.words(carcass.coldWeightKg());
        };
        return value + " is outside the "
                + variable.words(table.definition().allowed().of(variable)) + " that table "
                + table.definition().name() + " serves";
    }
}
