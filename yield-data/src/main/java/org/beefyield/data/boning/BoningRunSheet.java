package org.beefyield.data.boning;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.boning.BoningRun;
import org.beefyield.data.Problem;

/**
 * Boning runs as read from files: what can be used of them, and every problem of the rest.
 *
 * @param runs runs in the order in which the intake names them
 * @param problems what is wrong with the rows that are in no run
 * @param notes what looks odd but is used all the same
 * @param incomplete by its name, why a run may lack a row: rows of it are refused, or there are rows whose day can't be read,
 *     of its hall or of one that has no run; and why a run that rows name is no run, for none of its intake could be read
 */
public record BoningRunSheet(
        List<BoningRun> runs, List<Problem> problems, List<Problem> notes, Map<String, String> incomplete) {
    /** Copies the lists. */
    public BoningRunSheet {
        runs = List.copyOf(runs);
        problems = List.copyOf(problems);
        notes = List.copyOf(notes);
        incomplete = Collections.unmodifiableMap(new LinkedHashMap<>(incomplete));
    }

    /**
     * One line.
     *
     * @return such as {@code 60 runs, 2 problems}
     */
    @Override
    public String toString() {
        return runs.size()
                + (runs.size() == 1 ? " run, " : " runs, ")
                + problems.size()
                + (problems.size() == 1 ? " problem" : " problems");
    }
}
