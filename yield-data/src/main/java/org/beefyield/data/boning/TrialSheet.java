package org.beefyield.data.boning;

import java.util.List;
import org.beefyield.boning.Trial;
import org.beefyield.data.Problem;

/**
 * Boning trials as read from a file: those that can be used, and every problem of the others.
 *
 * @param file name of the file
 * @param trials trials in the file's order
 * @param problems what is wrong with the rows that are no trials
 */
public record TrialSheet(String file, List<Trial> trials, List<Problem> problems) {
    /** Copies the lists. */
    public TrialSheet {
        trials = List.copyOf(trials);
        problems = List.copyOf(problems);
    }

    /**
     * One line.
     *
     * @return such as {@code tarrowmere-trials.csv: 300 trials, 2 problems}
     */
    @Override
    public String toString() {
        return file + ": " + trials.size() + (trials.size() == 1 ? " trial, " : " trials, ") + problems.size()
                + (problems.size() == 1 ? " problem" : " problems");
    }
}
