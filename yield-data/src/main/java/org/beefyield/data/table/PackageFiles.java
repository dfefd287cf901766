package org.beefyield.data.table;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.Collection;
import java.util.concurrent.atomic.AtomicLong;
import org.beefyield.data.InvalidDataException;
import org.jspecify.annotations.Nullable;

/**
 * The files of a package, wherever they are: a name gives a stream, and every message can name its file.
 *
 * <p>Names come from the descriptor, which admits nothing but relative ones. Nothing of a zip is unpacked to disk, so the
 * names in it only say what can be asked for. A link in a folder is followed as long as it leads to a place inside.
 */
interface PackageFiles extends AutoCloseable {
    /** Most bytes that are read of a package, unpacked: far above any table, far below what fills a heap. */
    int LARGEST = 64 << 20;

    /** Most files read from a zip. */
    int MOST_FILES = 1000;

    /** What a folder is read again for, and then refused for. */
    String REPLACED = "the folder was being replaced while it was read; read it again";

    /** Opens a file, or gives null if there is none of that name. */
    @Nullable
    InputStream open(String name) throws IOException;

    /**
     * Takes the files of those names all at once, where they can change meanwhile.
     *
     * @throws InvalidDataException if they did; {@link #isReplaced} is true then
     */
    default void take(Collection<String> names) {}

    /** Whether what was found wrong may come from files that changed while they were read. */
    default boolean isReplaced() {
        return false;
    }

    @Override
    default void close() {}

    /** The same stream, which fails when all that was read of the package goes beyond {@link #LARGEST}. */
    static InputStream limited(InputStream stream, AtomicLong read) {
        return new FilterInputStream(stream) {
            private int count(int bytes) throws IOException {
                if (read.addAndGet(Math.max(0, bytes)) > LARGEST) {
                    throw new IOException("the table's files are larger than " + LARGEST + " bytes");
                }
                return bytes;
            }

            @Override
            public int read() throws IOException {
                int value = super.read();
                count(value < 0 ? 0 : 1);
                return value;
            }

            @Override
            public int read(byte[] buffer, int offset, int length) throws IOException {
                return count(super.read(buffer, offset, length));
            }
        };
    }
}
