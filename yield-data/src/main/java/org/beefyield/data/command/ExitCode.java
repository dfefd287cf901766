package org.beefyield.data.command;

/** Exit codes of the runnable jar. */
final class ExitCode {
    /** All good. */
    static final int GOOD = 0;

    /** Some rows were refused. Not 1, with which the virtual machine ends when the program breaks or never starts. */
    static final int SOME_REFUSED = 4;

    /** It could not run. */
    static final int COULD_NOT_RUN = 2;

    private ExitCode() {}
}
