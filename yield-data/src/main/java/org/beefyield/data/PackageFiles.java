package org.beefyield.data;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.jspecify.annotations.Nullable;

/** The files of a package, wherever they are: a name gives a stream, and every message can name its file. */
interface PackageFiles {
    /** Largest file that is read, bytes: far above any table, far below what fills a heap. */
    int LARGEST_FILE = 64 << 20;

    /** Most files read from a zip. */
    int MOST_FILES = 1000;

    /** Opens a file, or gives null if there is none of that name. */
    @Nullable
    InputStream open(String name) throws IOException;

    /** A folder or a zip file. */
    static PackageFiles of(Path path) {
        if (Files.isDirectory(path)) {
            return name -> {
                Path file = path.resolve(name);
                return Files.isRegularFile(file) ? limited(Files.newInputStream(file), name) : null;
            };
        }
        if (Files.isRegularFile(path)) {
            return zip(path);
        }
        throw new InvalidDataException(
                List.of(new Problem(path.toString(), 0, "", "", "there is no such folder or zip file")));
    }

    private static PackageFiles zip(Path path) {
        Map<String, byte[]> files = new HashMap<>();
        try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(path))) {
            long total = 0;
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (entry.isDirectory()) {
                    continue;
                }
                byte[] content = limited(zip, entry.getName()).readAllBytes();
                total += content.length;
                if (total > LARGEST_FILE || files.size() >= MOST_FILES) {
                    throw new IOException(
                            "it unpacks to more than " + LARGEST_FILE + " bytes or " + MOST_FILES + " files");
                }
                if (files.put(entry.getName(), content) != null) {
                    throw new IOException("it holds two files of the name " + entry.getName());
                }
            }
        } catch (IOException | IllegalArgumentException e) {
            throw new InvalidDataException(List.of(
                    new Problem(path.toString(), 0, "", "", "it can't be read as a zip file: " + e.getMessage())));
        }
        if (files.isEmpty()) {
            throw new InvalidDataException(
                    List.of(new Problem(path.toString(), 0, "", "", "it is no zip file, or an empty one")));
        }
        return name -> {
            byte[] content = files.get(name);
            return content == null ? null : new ByteArrayInputStream(content);
        };
    }

    /** A location on the class path. */
    static PackageFiles classPath(ClassLoader loader, String location) {
        String folder = location.endsWith("/") ? location : location + "/";
        return name -> {
            InputStream stream = loader.getResourceAsStream(folder + name);
            return stream == null ? null : limited(stream, name);
        };
    }

    /** The same stream, which fails behind {@link #LARGEST_FILE} bytes. */
    private static InputStream limited(InputStream stream, String name) {
        return new java.io.FilterInputStream(stream) {
            private long read;

            private int count(int bytes) throws IOException {
                read += Math.max(0, bytes);
                if (read > LARGEST_FILE) {
                    throw new IOException(name + " is larger than " + LARGEST_FILE + " bytes");
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
