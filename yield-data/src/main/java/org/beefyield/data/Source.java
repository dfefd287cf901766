package org.beefyield.data;

import java.io.ByteArrayInputStream;
import java.io.FileNotFoundException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;

/**
 * Where a reader gets its bytes, and what its messages call them. Every reader of this module takes one: a file, bytes in
 * memory, a stream such as a web request's, or a resource on the class path. Nothing is opened before a reader wants it.
 */
public final class Source {
    /** Opens the bytes. */
    @FunctionalInterface
    private interface Opener {
        InputStream open() throws IOException;
    }

    private final String name;
    private final @Nullable Path path;
    private final Opener opener;

    private Source(String name, @Nullable Path path, Opener opener) {
        this.name = Objects.requireNonNull(name, "name");
        this.path = path;
        this.opener = opener;
    }

    /**
     * A file, or a table's folder. A pipe or a device, which may never end or never begin, can't be opened.
     *
     * @param path the file; it may be missing, which is for its reader to say
     * @return a source of that name
     */
    public static Source of(Path path) {
        return new Source(path.toString(), path, () -> {
            if (Files.exists(path) && !Files.isRegularFile(path)) {
                throw new IOException("it is no file but a folder or a device");
            }
            return Files.newInputStream(path);
        });
    }

    /**
     * Bytes in memory.
     *
     * @param name what messages call them
     * @param bytes the content of a file; copied
     * @return a source
     */
    public static Source of(String name, byte[] bytes) {
        byte[] own = bytes.clone();
        return new Source(name, null, () -> new ByteArrayInputStream(own));
    }

    /**
     * A stream, which can be read once and stays the caller's to close.
     *
     * @param name what messages call it
     * @param stream the stream
     * @return a source that fails when it is opened again
     */
    public static Source of(String name, InputStream stream) {
        Objects.requireNonNull(stream, "stream");
        AtomicBoolean taken = new AtomicBoolean();
        return new Source(name, null, () -> {
            if (taken.getAndSet(true)) {
                throw new IOException("its stream was read before; a stream can be read once");
            }
            return new FilterInputStream(stream) {
                @Override
                public int read(byte[] to, int offset, int length) throws IOException {
                    int read = in.read(to, offset, length);
                    if (read != 0 || length == 0) {
                        return read;
                    }
                    // nothing is not the end, though some streams give it; one byte is waited for
                    int one = in.read();
                    if (one < 0) {
                        return -1;
                    }
                    to[offset] = (byte) one;
                    return 1;
                }

                @Override
                public void close() {
                    // the caller's
                }
            };
        });
    }

    /**
     * A resource on the class path. A package of a module must be open to {@code org.beefyield.data}.
     *
     * @param beside the class that it stands beside
     * @param resource its name, as in {@link Class#getResourceAsStream(String)}
     * @return a source of the name of that resource
     */
    public static Source ofResource(Class<?> beside, String resource) {
        Objects.requireNonNull(beside, "beside");
        return new Source(resource, null, () -> {
            InputStream stream = beside.getResourceAsStream(resource);
            if (stream == null) {
                throw new FileNotFoundException(
                        "there is no such resource beside " + beside.getName() + " on its class path");
            }
            return stream;
        });
    }

    /**
     * What messages call it.
     *
     * @return the name, or the path as it was given
     */
    public String name() {
        return name;
    }

    /**
     * Where it is, if it is a file or a folder.
     *
     * @return the path as it was given
     */
    public Optional<Path> path() {
        return Optional.ofNullable(path);
    }

    /**
     * Opens it.
     *
     * @return its bytes from the start, as they are there: packed ones stay packed
     * @throws IOException if it can't be opened
     */
    public InputStream open() throws IOException {
        return opener.open();
    }

    /**
     * Its name.
     *
     * @return the name
     */
    @Override
    public String toString() {
        return name;
    }
}
