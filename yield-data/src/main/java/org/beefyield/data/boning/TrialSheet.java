package org.beefyield.data.boning;

import java.util.List;
import java.util.Objects;
import org.beefyield.boning.Trial;
import org.beefyield.data.Problem;
import org.beefyield.text.Numbers;

/**
 * Boning trials as read from a file: those that can be used, and every problem of the others.
 *
 * @param file name of the file
 * @param trials trials in the file's order
 * @param problems what is wrong with the rows that are no trials
 * @param leftOut how many carcasses the layout leaves out, see {@link TrialLayoutReader}
 */
public record TrialSheet(String file, List<Trial> trials, List<Problem> problems, int leftOut) {
    /**
     * Copies the lists.
     *
     * @throws IllegalArgumentException if fewer than none are left out
     */
    public TrialSheet {
        Objects.requireNonNull(file, "file");
        if (leftOut < 0) {
            throw new IllegalArgumentException(leftOut + " carcasses left out is below 0");
        }
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
                + (problems.size() == 1 ? " problem" : " problems")
                + (leftOut == 0
                        ? ""
                        : ", " + Numbers.counted(leftOut, "carcass", "carcasses") + " left out as declared");
    }
}
