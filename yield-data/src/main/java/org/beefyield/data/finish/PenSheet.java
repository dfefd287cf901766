package org.beefyield.data.finish;

import java.util.List;
import org.beefyield.data.Problem;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.text.Checks;

/**
 * What a file of a pen holds.
 *
 * @param animals animals of all rows that can be used, in the order of the file
 * @param problems what is wrong with the others, by line and column
 */
public record PenSheet(List<FinishAnimal> animals, List<Problem> problems) {
    /** Copies the lists. */
    public PenSheet {
        Checks.noNullIn(animals, "animals");
        Checks.noNullIn(problems, "problems");
        animals = List.copyOf(animals);
        problems = List.copyOf(problems);
    }
}
