package org.beefyield.data.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.RecallList;
import org.beefyield.boning.Trace;
import org.beefyield.data.Problem;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Where carcasses went, or what boxes came from and what is to be called back with them.
 *
 * @param option the option that asks
 * @param ids ids of carcasses or boxes
 */
record RecallQuestion(String option, List<String> ids) {
    private static final String CARCASS = "--carcass";
    private static final String BOX = "--box";
    private static final Pattern COMMA = Pattern.compile(",");

    static @Nullable RecallQuestion optional(Options options) {
        String carcasses = options.value(CARCASS);
        String boxes = options.value(BOX);
        if (carcasses != null && boxes != null) {
            throw new Options.UsageException(CARCASS + " and " + BOX + " are two questions; ask one at a time");
        }
        if (options.value("--day") != null && (carcasses != null || boxes != null)) {
            throw new Options.UsageException("--day shows what a run weighed; " + (carcasses != null ? CARCASS : BOX)
                    + " asks over all runs, so leave one of them out");
        }
        if (carcasses != null) {
            return new RecallQuestion(CARCASS, ids(carcasses));
        }
        return boxes == null ? null : new RecallQuestion(BOX, ids(boxes));
    }

    private static List<String> ids(String text) {
        return COMMA.splitAsStream(text).map(String::strip).toList();
    }

    /**
     * The lists that answer it; the last one has every box.
     *
     * @param trace trace of the runs
     * @param runs runs as far as their rows could be read
     * @param refused rows that couldn't be: what an id stands in may be among them
     */
    List<RecallList> answer(Trace trace, List<BoningRun> runs, List<Problem> refused) {
        boolean ofCarcasses = option.equals(CARCASS);
        TreeSet<String> known = new TreeSet<>();
        for (BoningRun run : runs) {
            Stream<String> its = ofCarcasses
                    ? run.boned().stream().map(Intake::id)
                    : run.boxes().stream().map(Box::id);
            its.forEach(known::add);
        }
        for (String id : ids) {
            if (!known.contains(id)) {
                throw new Options.UsageException(option + " \"" + id + "\": "
                        + (ofCarcasses ? "no run boned anything of such a carcass; " : "no run packed such a box; ")
                        + nearest(known, id)
                        + (refused.isEmpty()
                                ? ""
                                : "; it may stand in one of "
                                        + Numbers.counted(refused.size(), "row that is", "rows that are")
                                        + " refused, the first of them: " + refused.get(0)));
            }
        }
        return ofCarcasses ? List.of(trace.ofCarcasses(ids)) : List.of(trace.ofBoxes(ids), trace.recall(ids));
    }

    /** What is said of lists if rows of runs are refused: they may lack something. */
    static List<String> lacking(Set<String> incomplete) {
        return incomplete.isEmpty()
                ? List.of()
                : List.of("Not whole: rows that are refused are of " + String.join(", ", new TreeSet<>(incomplete))
                        + " or may be, so boxes and carcasses may be missing from these lists; mend those rows and ask"
                        + " again before anything is called back by them");
    }

    /** How many ids there are, and those that stand beside it when all are sorted. */
    private static String nearest(TreeSet<String> known, String id) {
        if (known.isEmpty()) {
            return "there is none";
        }
        List<String> beside = new ArrayList<>();
        Stream.of(known.lower(id), known.higher(id)).filter(Objects::nonNull).forEach(beside::add);
        return "there " + (known.size() == 1 ? "is 1, " : "are " + known.size() + ", such as ")
                + String.join(" and ", beside);
    }
}
