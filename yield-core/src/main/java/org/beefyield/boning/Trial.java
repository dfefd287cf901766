package org.beefyield.boning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.text.Checks;

/**
 * A graded carcass that was boned, and what was weighed of it, both sides together.
 *
 * <p>A weight goes by the code of its cut. A cut that comes from more than one parent, such as lean trim, is named with
 * the parent, as {@code striploin/lean-trim}; without one it is what comes straight from the carcass. Cuts that weren't
 * weighed apart go by the name of their group, see {@link TrialSet}. What isn't there wasn't weighed; 0 is a weight.
 *
 * @param carcass the carcass; its id names the trial
 * @param kg kg by what was weighed, with what came of all {@link #quarters()}
 * @param quarters quarters that were weighed before boning, none if the carcass was weighed as a whole
 * @param day day of boning as the caller writes it, empty if not known
 */
public record Trial(Carcass carcass, Map<String, Double> kg, List<Quarter> quarters, String day) {
    /**
     * Checks the weights and copies them.
     *
     * @throws IllegalArgumentException if the carcass has no id, or a weight is below 0 or not a number
     */
    public Trial {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(day, "day");
        Checks.noNullIn(kg, "kg");
        Checks.noNullIn(quarters, "quarters");
        if (carcass.id().isEmpty()) {
            throw new IllegalArgumentException("carcass " + carcass + " has no id; a trial is named by it");
        }
        kg = Quarter.checked("carcass " + carcass.id().orElse(""), kg);
        quarters = List.copyOf(quarters);
    }

    /**
     * A trial without quarters and day.
     *
     * @param carcass the carcass; its id names the trial
     * @param kg kg by what was weighed
     * @return the trial
     * @throws IllegalArgumentException if the carcass has no id, or a weight is below 0 or not a number
     */
    public static Trial of(Carcass carcass, Map<String, Double> kg) {
        Objects.requireNonNull(carcass, "carcass");
        Checks.noNullIn(kg, "kg");
        return new Trial(carcass, kg, List.of(), "");
    }

    /**
     * The same trial on a day.
     *
     * @param newDay day of boning as the caller writes it
     * @return a trial
     */
    public Trial withDay(String newDay) {
        Objects.requireNonNull(newDay, "newDay");
        return new Trial(carcass, kg, quarters, newDay);
    }

    /**
     * The same trial with one more quarter, whose weights are added to those there are.
     *
     * @param quarter quarter
     * @return a trial
     */
    public Trial withQuarter(Quarter quarter) {
        Objects.requireNonNull(quarter, "quarter");
        Map<String, Double> all = new LinkedHashMap<>(kg);
        quarter.kg().forEach((cut, weight) -> all.merge(cut, weight, Double::sum));
        List<Quarter> more = new ArrayList<>(quarters);
        more.add(quarter);
        return new Trial(carcass, all, more, day);
    }

    /**
     * What the trial goes by.
     *
     * @return id of the carcass
     */
    public String id() {
        return carcass.id().orElseThrow();
    }
}
