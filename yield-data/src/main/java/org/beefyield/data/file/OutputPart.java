package org.beefyield.data.file;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;

/** A file or folder that was written beside its place. */
public abstract class OutputPart {
    /** How a file or folder gets its place; another one in a test. */
    @FunctionalInterface
    public interface Move {
        /**
         * Moves a file or folder.
         *
         * @param from where it stands
         * @param to where it goes, in the same folder
         * @throws IOException if it can't be moved
         */
        void move(Path from, Path to) throws IOException;
    }

    private final Path target;

    /**
     * A part of what will stand in a place.
     *
     * @param target what the place is called
     */
    protected OutputPart(Path target) {
        this.target = target;
    }

    /**
     * Whether it was written to its end; what can be found out before the first one gets its place is found out.
     *
     * @return true if it may be put in its place
     * @throws IOException if it can't get its place
     */
    protected abstract boolean ready() throws IOException;

    /**
     * Puts it in its place.
     *
     * @param move how
     * @throws IOException if that fails
     */
    protected abstract void put(Move move) throws IOException;

    /**
     * Takes it away.
     *
     * @throws IOException if that fails
     */
    protected abstract void discard() throws IOException;

    final UncheckedIOException cannotBeWritten(IOException e) {
        return cannotBeWritten(target, e);
    }

    /**
     * The complaint that a file can't be written.
     *
     * @param target what its place is called
     * @param e why
     * @return the exception to throw
     */
    public static UncheckedIOException cannotBeWritten(Path target, IOException e) {
        return new UncheckedIOException(target + " can't be written: " + Reason.of(e), e);
    }
}
