package org.beefyield.data.table;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
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
interface PackageFiles {
    /** Most bytes that are read of a package, unpacked: far above any table, far below what fills a heap. */
    int LARGEST = 64 << 20;

    /** Most files read from a zip. */
    int MOST_FILES = 1000;

    /** Length of a zip's last record without its comment, its signature and the longest comment (APPNOTE, 4.3.16). */
    int END_LENGTH = 22;

    int END_SIGNATURE = 0x06054b50;

    int LONGEST_COMMENT = 0xFFFF;

    /** Opens a file, or gives null if there is none of that name. */
    @Nullable
    InputStream open(String name) throws IOException;

    /** A folder or a zip file, or the bytes of a zip from anywhere. */
    static PackageFiles of(Source source) {
        Path path = source.path().orElse(null);
        if (path == null || Files.isRegularFile(path)) {
            return zip(source);
        }
        if (Files.isDirectory(path)) {
            AtomicLong read = new AtomicLong();
            return name -> folderFile(path, name, read);
        }
        throw new InvalidDataException(
                List.of(new Problem(source.name(), 0, "", "", "there is no such folder or zip file")));
    }

    private static @Nullable InputStream folderFile(Path folder, String name, AtomicLong read) throws IOException {
        Path file = folder.resolve(name);
        if (!Files.exists(file)) {
            return null;
        }
        Path real = file.toRealPath();
        if (!real.startsWith(folder.toRealPath())) {
            throw new IOException("it is a link to a place outside the table's folder");
        }
        if (!Files.isRegularFile(real)) {
            throw new IOException("it is no file but a folder or a device");
        }
        return limited(Files.newInputStream(real), read);
    }

    private static PackageFiles zip(Source source) {
        Map<String, byte[]> files;
        try (InputStream stream = source.open()) {
            files = unpacked(limited(stream, new AtomicLong()).readAllBytes());
        } catch (IOException | IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(source.name(), 0, "", "", "it can't be read as a zip file: " + Reason.of(e))),
                    e);
        }
        if (files.isEmpty()) {
            throw new InvalidDataException(
                    List.of(new Problem(source.name(), 0, "", "", "it is no zip file, or an empty one")));
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

    private static Map<String, byte[]> unpacked(byte[] zipped) throws IOException {
        Map<String, byte[]> files = new HashMap<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(zipped))) {
            int left = LARGEST;
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                byte[] content = zip.readNBytes(left + 1);
                left -= content.length;
                if (left < 0 || files.size() == MOST_FILES) {
                    throw new IOException("it unpacks to more than " + LARGEST + " bytes or " + MOST_FILES + " files");
                }
                if (files.put(entry.getName(), content) != null) {
                    throw new IOException("it holds two files of the name " + entry.getName());
                }
            }
        }
        if (!files.isEmpty() && listed(zipped) != files.size()) {
            throw new IOException("its directory at the end is missing or is not that of the " + files.size()
                    + " files in it; it may have been cut off");
        }
        return files;
    }

    /** How many files the directory at the end of a zip lists, -1 if there is no directory that ends where it should. */
    private static int listed(byte[] zipped) {
        ByteBuffer bytes = ByteBuffer.wrap(zipped).order(ByteOrder.LITTLE_ENDIAN);
        int first = Math.max(0, zipped.length - END_LENGTH - LONGEST_COMMENT);
        for (int at = zipped.length - END_LENGTH; at >= first; at--) {
            if (bytes.getInt(at) == END_SIGNATURE) {
                long end =
                        Integer.toUnsignedLong(bytes.getInt(at + 12)) + Integer.toUnsignedLong(bytes.getInt(at + 16));
                return end == at ? Short.toUnsignedInt(bytes.getShort(at + 10)) : -1;
            }
        }
        return -1;
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
    private static InputStream limited(InputStream stream, AtomicLong read) {
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
