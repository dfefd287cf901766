package org.beefyield.data;

import java.io.UncheckedIOException;
import java.nio.file.Path;
import org.beefyield.data.file.OutputFiles;

/**
 * The files that one run writes: none replaces an input or another one, and all get their places together.
 *
 * <p>Name inputs and outputs first: a clash is refused before anything is read. Then hand this to the writers, which write
 * each file whole beside its place, and call {@link #finish()}. Until then, and whatever fails before, every place is as
 * it was; {@link #close()} takes away what was written beside them. What a killed run left goes when the next one writes
 * into the same folder; a run that is alive holds a lock there, and nothing of it is touched.
 *
 * <p>Links are followed, also one that leads to nothing yet. A missing folder isn't made, a pipe, a device, a socket and a
 * read-only file aren't replaced, and what is replaced hands its permissions on, where the file system has them. Paths are
 * the same if they lead to the same file, by whatever links, spelling or case.
 *
 * <p>Not thread-safe.
 */
public final class Outputs implements AutoCloseable {
    private final OutputFiles files = new OutputFiles();

    /** No files yet. */
    public Outputs() {}

    /**
     * Names a file, or a table's folder, that is read.
     *
     * @param name what it is called in messages, such as the option that names it
     * @param path its path; it may be missing, which is for its reader to say
     * @return this
     * @throws UncheckedIOException if an output named before would replace it or stand in it
     */
    public Outputs input(String name, Path path) {
        files.input(name, path);
        return this;
    }

    /**
     * Names a file that will be written.
     *
     * @param name what it is called in messages
     * @param path its path
     * @return this
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public Outputs file(String name, Path path) {
        files.file(name, path);
        return this;
    }

    /**
     * Names a table that will be written.
     *
     * @param name what it is called in messages
     * @param path its folder, or a file name ending in {@code .zip}
     * @return this
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public Outputs table(String name, Path path) {
        files.table(name, path);
        return this;
    }

    /**
     * Names a folder that files will be written into.
     *
     * @param name what it is called in messages
     * @param path the folder; it is made if it is missing
     * @return this
     * @throws UncheckedIOException if it can't be made there, or would replace an input or another output
     */
    public Outputs folder(String name, Path path) {
        files.folder(name, path);
        return this;
    }

    /**
     * Writes a text file, UTF-8, packed with gzip if its name ends in {@code .gz}.
     *
     * @param target where it will stand
     * @param content its content
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public void write(Path target, String content) {
        files.write("", target, content);
    }

    /**
     * Puts all files that were written to their end in their places, one after the other.
     *
     * @throws UncheckedIOException if one can't be put there; what can be known is found out before the first one is, so
     *     that some stand and others don't only if a renaming itself fails
     */
    public void finish() {
        files.finish();
    }

    /**
     * Ends the run; what didn't get its place is taken away.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    public void close() {
        files.close();
    }

    /**
     * What writes the files, for this library's own writers: it is no part of what is promised to callers and may change
     * with every version.
     *
     * @param type the type that the writers know
     * @return that which does the work of these outputs
     * @param <T> the type that the writers know
     * @throws IllegalArgumentException if something else does it
     */
    public <T> T unwrap(Class<T> type) {
        if (!type.isInstance(files)) {
            throw new IllegalArgumentException("outputs are not written by a " + type.getSimpleName());
        }
        return type.cast(files);
    }
}
