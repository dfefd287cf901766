package org.beefyield.calibrate;

import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * What runs taught of a group of products that can't be told apart, or of one alone. Shares are g per kg of intake, the mean of the
 * carcasses of the runs that weighed it.
 *
 * @param name name of the group
 * @param products products in it
 * @param runs runs that weighed it
 * @param beforeGPerKg what the table in use expects
 * @param beforeSd how far that may be off in a hall that it doesn't know, SD
 * @param weighedGPerKg what was weighed
 * @param afterGPerKg what the new table expects
 * @param afterSd how far that may be off, SD
 * @param runSd SD from run to run, what the table in use states counting for 10 degrees of freedom
 * @param carcassesWorth how many boned trial carcasses tell as much of the share as one of the runs: the variance of one carcass
 *     in parts of that of a run's mean, in which what the run has in common is
 */
public record LearntGroup(
        String name,
        int products,
        int runs,
        double beforeGPerKg,
        double beforeSd,
        double weighedGPerKg,
        double afterGPerKg,
        double afterSd,
        double runSd,
        double carcassesWorth) {
    /**
     * Checks that nothing is missing.
     *
     * @throws IllegalArgumentException if a figure is not finite or below 0
     */
    public LearntGroup {
        Objects.requireNonNull(name, "name");
        Checks.notNegative(name + ": before, g/kg", beforeGPerKg);
        Checks.notNegative(name + ": SD before, g/kg", beforeSd);
        Checks.notNegative(name + ": weighed, g/kg", weighedGPerKg);
        Checks.notNegative(name + ": after, g/kg", afterGPerKg);
        Checks.notNegative(name + ": SD after, g/kg", afterSd);
        Checks.notNegative(name + ": SD from run to run, g/kg", runSd);
        Checks.notNegative(name + ": carcasses that a run is worth", carcassesWorth);
    }

    /**
     * One line.
     *
     * @return name and shares
     */
    @Override
    public String toString() {
        return name + ": expected " + Numbers.fixed(beforeGPerKg, 1) + " g/kg before, "
                + Numbers.fixed(weighedGPerKg, 1) + " weighed, " + Numbers.fixed(afterGPerKg, 1) + " expected now";
    }
}
