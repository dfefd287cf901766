package org.beefyield.data.file;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Parts of files in one folder, and a lock that says that whoever writes them is alive. It is made before the first part
 * and goes after the last, so that what a killed run left is known by a lock that nobody holds: the next run that writes
 * into the folder takes it away.
 */
public final class Guard implements AutoCloseable {
    private static final String ID = "[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}";
    private static final String BEFORE = ".beefyield-";
    private static final String AFTER = ".lock";
    private static final Pattern LOCK = Pattern.compile(Pattern.quote(BEFORE) + "(?<id>" + ID + ")" + AFTER);
    private static final Pattern PART = Pattern.compile("\\.(?<of>.+)\\.(?<id>" + ID + ")\\.(?<what>part|old)");

    /**
     * Guards of this virtual machine. Opening and closing the file of one, as a look whether its lock is held does, would
     * drop the lock: the system keeps locks by process.
     */
    private static final Set<String> ALIVE = ConcurrentHashMap.newKeySet();

    private final Path folder;
    private final String id;
    private final Path file;
    private final FileChannel channel;
    /** Parts that stood in the folder without a guard. */
    private List<Path> orphans = List.of();

    private Guard(Path folder, String id, Path file, FileChannel channel) {
        this.folder = folder;
        this.id = id;
        this.file = file;
        this.channel = channel;
    }

    /**
     * Guards parts in a folder, after what killed runs left there is gone.
     *
     * @param folder its real path
     */
    static Guard of(Path folder) throws IOException {
        List<Path> orphans = sweep(folder);
        while (true) {
            Guard guard = tried(folder);
            if (guard != null) {
                guard.orphans = orphans;
                return guard;
            }
        }
    }

    /** A guard, or null if another run took its file for one that was left, before it was locked. */
    private static @Nullable Guard tried(Path folder) throws IOException {
        String id = UUID.randomUUID().toString();
        Path file = folder.resolve(BEFORE + id + AFTER);
        ALIVE.add(id);
        boolean stands = false;
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
            try {
                stands = locked(channel) && Files.exists(file);
            } finally {
                if (!stands) {
                    channel.close();
                }
            }
            return stands ? new Guard(folder, id, file, channel) : null;
        } finally {
            if (!stands) {
                ALIVE.remove(id);
            }
        }
    }

    private static boolean locked(FileChannel channel) {
        try {
            return channel.tryLock() != null;
        } catch (IOException | UnsupportedOperationException e) {
            // a file system without locks: nobody there can take a run for dead, so nothing of this one is taken away
            return true;
        }
    }

    /**
     * Where the part of a file or folder goes; one that stood there without a guard is taken away.
     *
     * @param name name of the file or folder
     * @return the path of its part
     * @throws IOException if what stood there can't be taken away
     */
    public Path part(Path name) throws IOException {
        for (Path orphan : orphans) {
            Matcher matcher = PART.matcher(orphan.getFileName().toString());
            if (matcher.matches()
                    && matcher.group("of").equals(name.toString())
                    && !guarded(folder, matcher.group("id"))) {
                delete(orphan);
            }
        }
        return named(name, "part");
    }

    private static boolean guarded(Path folder, String id) {
        return ALIVE.contains(id) || Files.exists(folder.resolve(BEFORE + id + AFTER), LinkOption.NOFOLLOW_LINKS);
    }

    /**
     * Where what is replaced waits until the new one has its place.
     *
     * @param name name of the file or folder
     * @return the path
     */
    public Path aside(Path name) {
        return named(name, "old");
    }

    /**
     * What waits beside a place that it was taken from, while the new one isn't there yet, or because the run that took it
     * was killed then.
     *
     * @param place the place, where nothing stands
     * @return what stood there, or null if there is nothing or more than one
     */
    public static @Nullable Path old(Path place) {
        try {
            Path real = Place.real(place);
            Path folder = real.getParent();
            String name = real.getFileName().toString();
            List<Path> olds = folder == null
                    ? List.of()
                    : entries(folder).stream()
                            .filter(entry -> {
                                Matcher part = PART.matcher(entry.getFileName().toString());
                                return part.matches()
                                        && part.group("what").equals("old")
                                        && part.group("of").equals(name);
                            })
                            .toList();
            return olds.size() == 1 ? olds.get(0) : null;
        } catch (IOException e) {
            return null;
        }
    }

    private Path named(Path name, String what) {
        return folder.resolve("." + name + "." + id + "." + what);
    }

    @Override
    public void close() throws IOException {
        try {
            Files.deleteIfExists(file);
        } finally {
            channel.close();
            ALIVE.remove(id);
        }
    }

    /** Takes away what killed runs left, and gives the parts that have no guard. */
    private static List<Path> sweep(Path folder) {
        List<Path> entries;
        try {
            entries = entries(folder);
        } catch (IOException e) {
            // one may write into it without being allowed to list it
            return List.of();
        }
        List<Path> orphans = new ArrayList<>();
        for (Path entry : entries) {
            String name = entry.getFileName().toString();
            Matcher lock = LOCK.matcher(name);
            if (lock.matches() && !ALIVE.contains(lock.group("id"))) {
                sweep(folder, entry, lock.group("id"));
            }
            Matcher part = PART.matcher(name);
            if (part.matches() && part.group("what").equals("part") && !guarded(folder, part.group("id"))) {
                orphans.add(entry);
            }
        }
        return orphans;
    }

    private static void sweep(Path folder, Path lock, String id) {
        try (FileChannel channel = FileChannel.open(lock, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
                FileLock held = channel.tryLock()) {
            if (held == null) {
                return;
            }
            for (Path entry : entries(folder)) {
                Matcher part = PART.matcher(entry.getFileName().toString());
                if (part.matches() && part.group("id").equals(id)) {
                    Path place = folder.resolve(part.group("of"));
                    if (part.group("what").equals("old") && Files.notExists(place, LinkOption.NOFOLLOW_LINKS)) {
                        // killed between two renamings: what stood there goes back
                        Files.move(entry, place);
                    } else {
                        delete(entry);
                    }
                }
            }
            Files.deleteIfExists(lock);
        } catch (IOException | UncheckedIOException | OverlappingFileLockException | UnsupportedOperationException e) {
            // it went by itself, or it isn't for this run to delete; neither is a reason to write nothing
        }
    }

    private static List<Path> entries(Path folder) throws IOException {
        List<Path> entries = new ArrayList<>();
        try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder, ".*")) {
            stream.forEach(entries::add);
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return entries;
    }

    /**
     * Deletes a file, or a folder with what is in it; a link goes, what it leads to stays.
     *
     * @param path the file or folder; it may be missing
     * @throws IOException if that fails
     */
    public static void delete(Path path) throws IOException {
        if (Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)) {
            try (Stream<Path> all = Files.walk(path)) {
                for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.deleteIfExists(one);
                }
            }
        } else {
            Files.deleteIfExists(path);
        }
    }
}
