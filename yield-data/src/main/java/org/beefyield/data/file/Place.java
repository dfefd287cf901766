package org.beefyield.data.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.util.Set;

/** Where an output really stands, and whether it may. */
public final class Place {
    private static final int MOST_LINKS = 40;

    private Place() {}

    /**
     * Follows links, also one that leads to nothing yet.
     *
     * @throws IOException if links lead in a circle, or the folder that it is to stand in is missing
     */
    static Path real(Path target) throws IOException {
        if (Files.exists(target)) {
            return target.toRealPath();
        }
        Path path = target;
        for (int links = 0; links <= MOST_LINKS; links++) {
            Path folder = path.getParent() == null ? path.toAbsolutePath().getParent() : path.getParent();
            if (folder == null || !Files.isDirectory(folder)) {
                throw new IOException("there is no folder " + folder);
            }
            Path at = folder.toRealPath().resolve(path.getFileName());
            if (!Files.isSymbolicLink(at)) {
                return at;
            }
            path = at.resolveSibling(Files.readSymbolicLink(at));
        }
        throw new IOException("it is a link that leads in a circle");
    }

    /** Makes sure that a file may stand or be replaced there. */
    static void checkFile(Path real) throws IOException {
        if (Files.isDirectory(real)) {
            throw new IOException("it is a folder, not a file");
        }
        if (isOther(real)) {
            throw new IOException("it is a pipe, a device or a socket, not a file");
        }
        if (isReadOnly(real)) {
            throw new IOException("it is read-only");
        }
    }

    /**
     * Makes sure that what was written beside a place still stands.
     *
     * @param part what was written
     * @throws IOException if it is gone
     */
    public static void checkWritten(Path part) throws IOException {
        if (!Files.exists(part)) {
            throw new IOException("what was written beside it is gone: " + part.getFileName());
        }
    }

    static boolean isOther(Path path) throws IOException {
        return Files.exists(path)
                && Files.readAttributes(path, BasicFileAttributes.class).isOther();
    }

    /**
     * Of a file that nobody may write, also if the one who asks may do anything.
     *
     * @param path the file or folder; it may be missing
     * @return true if it is read-only
     * @throws IOException if that can't be found out
     */
    public static boolean isReadOnly(Path path) throws IOException {
        if (!Files.exists(path)) {
            return false;
        }
        PosixFileAttributeView view = Files.getFileAttributeView(path, PosixFileAttributeView.class);
        if (view == null) {
            return !Files.isWritable(path);
        }
        Set<PosixFilePermission> permissions = view.readAttributes().permissions();
        return !Files.isWritable(path)
                || (!permissions.contains(PosixFilePermission.OWNER_WRITE)
                        && !permissions.contains(PosixFilePermission.GROUP_WRITE)
                        && !permissions.contains(PosixFilePermission.OTHERS_WRITE));
    }

    /**
     * Gives a part the permissions of what it replaces, where the file system has them.
     *
     * @param replaced what it replaces; it may be missing
     * @param part the part
     * @throws IOException if that fails
     */
    public static void keepPermissions(Path replaced, Path part) throws IOException {
        PosixFileAttributeView before = Files.getFileAttributeView(replaced, PosixFileAttributeView.class);
        if (before == null || !Files.exists(replaced)) {
            return;
        }
        Set<PosixFilePermission> permissions = before.readAttributes().permissions();
        if (!permissions.equals(Files.getPosixFilePermissions(part))) {
            Files.setPosixFilePermissions(part, permissions);
        }
    }
}
