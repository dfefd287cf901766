package org.beefyield.data.table;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.Reason;
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

    /** How often a folder is looked for, and how long one waits in between: it is away for far less while it is replaced. */
    int LOOKS = 5;

    long BETWEEN_LOOKS_NANOSECONDS = 1_000_000;

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

    /** A folder or a zip file, or the bytes of a zip from anywhere. */
    static PackageFiles of(Source source) {
        Path path = source.path().orElse(null);
        for (int look = 0; look < LOOKS; look++) {
            if (path == null || Files.isRegularFile(path)) {
                return zip(source);
            }
            try {
                FolderFiles folder = FolderFiles.of(source.name(), path);
                if (folder != null) {
                    return folder;
                }
            } catch (IOException e) {
                // it got another name just now
            }
            LockSupport.parkNanos(BETWEEN_LOOKS_NANOSECONDS);
        }
        throw new InvalidDataException(
                List.of(new Problem(source.name(), 0, "", "", "there is no such folder or zip file")));
    }

    private static PackageFiles zip(Source source) {
        Map<String, byte[]> files;
        try (InputStream stream = source.open()) {
            files = ZipFiles.unpacked(limited(stream, new AtomicLong()).readAllBytes());
        } catch (IOException e) {
            throw new InvalidDataException(
                    List.of(new Problem(source.name(), 0, "", "", "it can't be read as a zip file: " + Reason.of(e))),
                    e);
        }
        String folder = folder(files.keySet());
        return name -> {
            byte[] content = files.get(folder + name);
            return content == null ? null : new ByteArrayInputStream(content);
        };
    }

    /** The folder of a zip that a table lies in: its top, or the one folder that was zipped. */
    private static String folder(Set<String> names) {
        List<String> tables = names.stream()
                .filter(name -> name.equals(Descriptor.FILE) || name.endsWith("/" + Descriptor.FILE))
                .toList();
        return tables.size() == 1 ? tables.get(0).substring(0, tables.get(0).length() - Descriptor.FILE.length()) : "";
    }

    /** A location on the class path. */
    static PackageFiles classPath(ClassLoader loader, String location) {
        String folder = location.endsWith("/") ? location : location + "/";
        AtomicLong read = new AtomicLong();
        return name -> {
            InputStream stream = loader.getResourceAsStream(folder + name);
            return stream == null ? null : limited(stream, read);
        };
    }

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
