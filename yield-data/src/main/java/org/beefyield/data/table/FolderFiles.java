package org.beefyield.data.table;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SecureDirectoryStream;
import java.nio.file.attribute.BasicFileAttributeView;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicLong;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.file.Guard;
import org.jspecify.annotations.Nullable;

/**
 * The files of a folder, which may be replaced by another one while it is read, or in which files may be. They are read
 * whole and looked at again at the end: if the folder is still the same one and none of them changed, they all stood there
 * together before the first of these looks.
 *
 * <p>The folder is kept open until then, so that no other one can get its key in the file system. Where there are no
 * keys, times stand for them.
 *
 * <p>A folder that is copied over file by file, in the middle of which nothing changes while it is read, can't be told
 * from a whole one; the digest in its descriptor tells.
 */
final class FolderFiles implements PackageFiles {
    /** What tells a file from another one that gets its place. */
    private record State(@Nullable Object key, long size, FileTime modified) {}

    /** A file as it was read; without a state it is missing, without content it can't be read. */
    @SuppressWarnings("ArrayRecordComponent") // nobody compares them
    private record Taken(
            @Nullable State state,
            byte @Nullable [] content,
            @Nullable IOException failure) {}

    private final String where;
    private final Path folder;
    private final boolean aside;
    private final @Nullable DirectoryStream<Path> held;
    private final Object key;
    private final AtomicLong read = new AtomicLong();
    private final Map<String, Taken> taken = new LinkedHashMap<>();
    private boolean whole;

    private FolderFiles(String where, Path folder, boolean aside) throws IOException {
        this.where = where;
        this.folder = folder;
        this.aside = aside;
        held = held(folder);
        boolean known = false;
        try {
            key = key(
                    held instanceof SecureDirectoryStream<Path> itself
                            ? itself.getFileAttributeView(BasicFileAttributeView.class)
                                    .readAttributes()
                            : Files.readAttributes(folder, BasicFileAttributes.class));
            known = true;
        } finally {
            if (!known) {
                close();
            }
        }
    }

    /**
     * The files of a folder, or of the one that stands aside because this one is being replaced or a run that replaced it
     * was killed.
     *
     * @return null if there is neither
     * @throws IOException if it is replaced just now
     */
    static @Nullable FolderFiles of(String where, Path path) throws IOException {
        if (Files.isDirectory(path)) {
            return new FolderFiles(where, path, false);
        }
        Path old = Files.exists(path) ? null : Guard.old(path);
        return old != null && Files.isDirectory(old) ? new FolderFiles(where, old, true) : null;
    }

    @SuppressWarnings("StreamResourceLeak") // closed with the files
    private static @Nullable DirectoryStream<Path> held(Path folder) throws IOException {
        try {
            return Files.newDirectoryStream(folder);
        } catch (AccessDeniedException e) {
            // one may read the files of a folder without being allowed to list it
            return null;
        }
    }

    private static Object key(BasicFileAttributes attributes) {
        return Objects.requireNonNullElse(attributes.fileKey(), attributes.creationTime());
    }

    @Override
    public @Nullable InputStream open(String name) throws IOException {
        Taken file = taken.get(name);
        if (file == null) {
            file = take(name);
            taken.put(name, file);
        }
        if (file.failure() != null) {
            throw file.failure();
        }
        return file.content() == null ? null : new ByteArrayInputStream(file.content());
    }

    private Taken take(String name) {
        Path file = folder.resolve(name);
        State state = state(file);
        try {
            return new Taken(state, state == null ? null : content(file), null);
        } catch (IOException e) {
            return new Taken(state, null, e);
        }
    }

    private static @Nullable State state(Path file) {
        try {
            BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
            return new State(attributes.fileKey(), attributes.size(), attributes.lastModifiedTime());
        } catch (IOException e) {
            return null;
        }
    }

    private byte[] content(Path file) throws IOException {
        Path real = file.toRealPath();
        if (!real.startsWith(folder.toRealPath())) {
            throw new IOException("it is a link to a place outside the table's folder");
        }
        if (!Files.isRegularFile(real)) {
            throw new IOException("it is no file but a folder or a device");
        }
        try (InputStream stream = PackageFiles.limited(Files.newInputStream(real), read)) {
            return stream.readAllBytes();
        }
    }

    @Override
    public void take(Collection<String> names) {
        for (String name : names) {
            taken.computeIfAbsent(name, this::take);
        }
        if (isReplaced()) {
            throw new InvalidDataException(List.of(new Problem(where, 0, "", "", REPLACED)));
        }
        whole = true;
    }

    @Override
    public boolean isReplaced() {
        if (whole) {
            return false;
        }
        for (Map.Entry<String, Taken> file : taken.entrySet()) {
            State before = file.getValue().state();
            // what stands aside is deleted file by file once the new folder has its place
            if (!Objects.equals(before, state(folder.resolve(file.getKey()))) || (aside && before == null)) {
                return true;
            }
        }
        return !isSame();
    }

    private boolean isSame() {
        try {
            return key.equals(key(Files.readAttributes(folder, BasicFileAttributes.class)));
        } catch (IOException e) {
            return false;
        }
    }

    @Override
    public void close() {
        if (held != null) {
            try {
                held.close();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
