package org.beefyield.table;

import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.BeefyieldException;

/** A table that can't be built; the exception lists everything found wrong with it, also after serialization. */
public final class InvalidTableException extends BeefyieldException {
    private static final long serialVersionUID = 1;

    /**
     * What was found.
     *
     * @serial one or more, as they were found
     */
    private final TableProblem[] problems;

    InvalidTableException(String table, List<TableProblem> problems) {
        super("table " + table + " can't be used, " + problems.size()
                + (problems.size() == 1 ? " problem:" : " problems:")
                + problems.stream().map(problem -> "\n  " + problem).collect(Collectors.joining()));
        this.problems = problems.toArray(TableProblem[]::new);
    }

    /**
     * Everything found wrong.
     *
     * @return at least one problem
     */
    public List<TableProblem> problems() {
        return List.of(problems);
    }
}
