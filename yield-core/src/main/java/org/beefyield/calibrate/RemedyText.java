package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Numbers;

/** What would make a table hold, in words. */
final class RemedyText {
    private static final int LISTED = 5;

    private RemedyText() {}

    static String of(Remedy remedy) {
        if (remedy.problems().isEmpty()) {
            return "the table holds as it is\n";
        }
        List<String> lines = new ArrayList<>();
        lines.add("the table does not hold:");
        remedy.problems().stream().limit(LISTED).forEach(problem -> lines.add("  " + problem));
        if (remedy.problems().size() > LISTED) {
            lines.add("  and " + (remedy.problems().size() - LISTED) + " more");
        }
        TableRange allowed = remedy.allowed();
        if (allowed != null) {
            lines.add("it holds over a narrower allowed range: conformation " + allowed.conformation() + ", fat "
                    + allowed.fat() + ", " + allowed.weightKg() + " kg");
        }
        Double strength = remedy.strength();
        if (strength != null) {
            lines.add("it holds over the whole range if shrunk towards the prior table with the strength of "
                    + Numbers.exact(strength) + " carcasses");
        }
        if (allowed == null && strength == null) {
            lines.add("neither a narrower range nor more shrinkage helps; look at the trials and the expectations");
        }
        return String.join("\n", lines) + "\n";
    }
}
