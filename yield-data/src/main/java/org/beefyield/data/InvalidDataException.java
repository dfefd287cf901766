package org.beefyield.data;

import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.BeefyieldException;
import org.jspecify.annotations.Nullable;

/**
 * A file that can't be used at all: it can't be opened or read, or what is wrong with it leaves nothing to work on.
 * Every reader of this module throws this one exception for that, and no other.
 *
 * <p>A file with some bad rows among good ones is no such case where a reader says that it returns both.
 */
public final class InvalidDataException extends BeefyieldException {
    private static final long serialVersionUID = 1;
    private static final int LISTED = 20;

    /**
     * What was found.
     *
     * @serial one or more
     */
    private final Problem[] problems;

    /**
     * An exception for everything that was found.
     *
     * @param problems what was found, one or more
     */
    public InvalidDataException(List<Problem> problems) {
        this(problems, null);
    }

    /**
     * An exception for everything that was found, and what led to it.
     *
     * @param problems what was found, one or more
     * @param cause what led to it, or null
     */
    public InvalidDataException(List<Problem> problems, @Nullable Throwable cause) {
        super(text(problems), cause);
        this.problems = problems.toArray(new Problem[0]);
    }

    private static String text(List<Problem> problems) {
        if (problems.isEmpty()) {
            throw new IllegalArgumentException("no problem is given; one or more are needed");
        }
        String listed = problems.stream().limit(LISTED).map(Problem::toString).collect(Collectors.joining("\n"));
        int more = problems.size() - LISTED;
        return more > 0 ? listed + "\nand " + more + " more" : listed;
    }

    /**
     * Everything that was found; the message lists the first twenty.
     *
     * @return one or more problems
     */
    public List<Problem> problems() {
        return List.of(problems);
    }
}
