package org.beefyield.data.command;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.data.Problem;
import org.beefyield.data.killsheet.ProblemWriter;
import org.jspecify.annotations.Nullable;

/**
 * Refusals and notes of a run: all of them go to a file if there is one. To be printed the first notes are kept, and the
 * first refusals, equal ones of several rows as one.
 */
final class Findings {
    /** Refusals, and notes, that are printed. */
    private static final int SHOWN = 1000;

    /** Reasons that stand on the first page. */
    private static final int REASONS = 3;

    /** Lines that are listed one by one. */
    private static final int LISTED = 5;

    /** What several rows are refused for. */
    private static final class Group {
        private final Problem first;
        private final List<Long> lines = new ArrayList<>();
        private boolean sameValue = true;
        private long rows;
        private long last;

        Group(Problem first) {
            this.first = first;
        }

        void add(Problem problem) {
            if (rows > 0 && problem.line() == last) {
                return;
            }
            rows++;
            last = problem.line();
            sameValue &= problem.message().equals(first.message());
            if (lines.size() <= LISTED) {
                lines.add(problem.line());
            }
        }

        /** Without lines, and without the values where they differ. */
        String reason() {
            String words = first.message();
            return (first.column().isEmpty() ? "" : first.column() + ": ")
                    + words
                    + (sameValue ? "" : " (such as this)");
        }

        @Override
        public String toString() {
            if (rows == 1) {
                return first.toString();
            }
            String where = rows > LISTED
                    ? "lines " + lines.get(0) + " to " + last
                    : "lines "
                            + lines.subList(0, (int) rows - 1).stream()
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(", "))
                            + " and " + last;
            // a file can't break the line, for the problem sees to that
            Problem all = new Problem("", 0, first.column(), "", first.message());
            return rows + " rows" + (sameValue ? "" : ", such as line " + first.line()) + all.toString() + "; " + where;
        }
    }

    private final @Nullable ProblemWriter file;
    private final Map<String, Group> groups = new LinkedHashMap<>();
    private final List<Problem> firstNotes = new ArrayList<>();
    private long refusals;
    private long notes;
    private long notShown;

    Findings(@Nullable ProblemWriter file) {
        this.file = file;
    }

    void refuse(Problem problem) {
        if (file != null) {
            file.problem(problem);
        }
        refusals++;
        String key = key(problem);
        Group group = groups.get(key);
        if (group == null && groups.size() == SHOWN) {
            notShown++;
            return;
        }
        if (group == null) {
            group = new Group(problem);
            groups.put(key, group);
        }
        group.add(problem);
    }

    /** Equal but for the value of the cell. */
    private static String key(Problem problem) {
        String value = problem.value().strip();
        String message = problem.message();
        if (!value.isEmpty()) {
            String ofCarcass = "carcass " + value + ": ";
            message = message.startsWith(ofCarcass)
                    ? message.substring(ofCarcass.length())
                    : message.replace('"' + value + '"', "\"\"");
        }
        return problem.column() + "\n" + message + (problem.line() == 0 ? "\n" + problem.file() : "");
    }

    void note(Problem note) {
        if (file != null) {
            file.note(note);
        }
        if (notes++ < SHOWN) {
            firstNotes.add(note);
        }
    }

    long refusals() {
        return refusals;
    }

    /** Why rows are refused, those of most rows first, and no more than the first of them. */
    Map<String, Long> reasons() {
        Map<String, Long> reasons = new LinkedHashMap<>();
        List<Group> byRows = groups.values().stream()
                .sorted(Comparator.comparingLong((Group group) -> -group.rows))
                .toList();
        for (Group group : byRows.subList(0, Math.min(REASONS, byRows.size()))) {
            reasons.merge(group.reason(), group.rows, Long::sum);
        }
        return reasons;
    }

    /** Reasons that are not among the first; one row may have several. */
    long otherReasons() {
        return Math.max(0, groups.size() - REASONS) + notShown;
    }

    long notes() {
        return notes;
    }

    void printNotes(PrintStream print) {
        firstNotes.forEach(note -> print.println("Note: " + note));
        printMore(print, "Note: and ", notes - firstNotes.size());
    }

    void printRefusals(PrintStream print) {
        groups.values().forEach(group -> print.println("  " + group));
        printMore(print, "  and ", notShown);
    }

    private void printMore(PrintStream print, String before, long more) {
        if (more > 0) {
            print.println(
                    before + more + " more" + (file == null ? "; with --problems FILE all of them are written" : ""));
        }
    }
}
