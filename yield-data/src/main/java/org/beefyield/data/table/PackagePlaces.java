package org.beefyield.data.table;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.Reason;

/** Where the files of a package are found: in a folder, in a zip, on the class path. */
final class PackagePlaces {
    /** How often a folder is looked for, and how long one waits in between: it is away for far less while it is replaced. */
    private static final int LOOKS = 5;

    private static final long BETWEEN_LOOKS_NANOSECONDS = 1_000_000;

    private PackagePlaces() {}

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
            files = ZipFiles.unpacked(
                    PackageFiles.limited(stream, new AtomicLong()).readAllBytes());
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
            return stream == null ? null : PackageFiles.limited(stream, read);
        };
    }
}
