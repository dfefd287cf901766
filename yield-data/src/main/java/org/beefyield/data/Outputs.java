package org.beefyield.data;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

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
    /** How a file or folder gets its place; another one in a test. */
    interface Move {
        void move(Path from, Path to) throws IOException;
    }

    /** A file or folder that was written beside its place. */
    abstract static class Part {
        private final Path target;

        Part(Path target) {
            this.target = target;
        }

        /** Whether it was written to its end; what can be found out before the first one gets its place is found out. */
        abstract boolean ready() throws IOException;

        abstract void put(Move move) throws IOException;

        abstract void discard() throws IOException;

        final UncheckedIOException cannotBeWritten(IOException e) {
            return Outputs.cannotBeWritten(target, e);
        }
    }

    private enum Kind {
        INPUT,
        FILE,
        ZIP,
        TABLE,
        FOLDER
    }

    /** What is known of a path. */
    private static final class Claim {
        private final String name;
        private final Path given;
        private final Path real;
        private final Kind kind;
        private boolean started;

        Claim(String name, Path given, Path real, Kind kind) {
            this.name = name;
            this.given = given;
            this.real = real;
            this.kind = kind;
        }

        /** Whether all that stands in it belongs to it. */
        boolean isWhole() {
            return kind == Kind.TABLE || (kind == Kind.INPUT && Files.isDirectory(real));
        }
    }

    private final Move move;
    private final List<Claim> claims = new ArrayList<>();
    private final Map<Path, Guard> guards = new LinkedHashMap<>();
    private final List<Part> parts = new ArrayList<>();
    private final List<Path> made = new ArrayList<>();

    /** No files yet. */
    public Outputs() {
        this(Outputs::atomically);
    }

    Outputs(Move move) {
        this.move = move;
    }

    private static void atomically(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** A file that gets its place as soon as it is finished. */
    static AtomicFile alone(Path target) {
        Outputs outputs = new Outputs();
        return outputs.started("", target, true);
    }

    /**
     * Names a file, or a table's folder, that is read.
     *
     * @param name what it is called in messages, such as the option that names it
     * @param path its path; it may be missing, which is for its reader to say
     * @return this
     * @throws UncheckedIOException if an output named before would replace it or stand in it
     */
    public Outputs input(String name, Path path) {
        claim(new Claim(name, path, realInput(path), Kind.INPUT));
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
        claimOutput(name, path, Kind.FILE);
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
        claimOutput(name, path, Kind.TABLE);
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
        claimOutput(name, path, Kind.FOLDER);
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
        write("", target, content);
    }

    /** Writes a text file that has a name of its own in messages. */
    void write(String name, Path target, String content) {
        try (AtomicFile file = started(name, target, false)) {
            file.write(content);
            file.finish();
        }
    }

    /** Starts a file that gets its place with the others. */
    AtomicFile started(Path target) {
        return started("", target, false);
    }

    private AtomicFile started(String name, Path target, boolean alone) {
        boolean started = false;
        try {
            Path place = start(name, target, Kind.FILE);
            AtomicFile file = new AtomicFile(target, place, guard(place).part(place.getFileName()), this, alone);
            parts.add(file);
            started = true;
            return file;
        } catch (IOException e) {
            throw cannotBeWritten(target, e);
        } finally {
            if (alone && !started) {
                close();
            }
        }
    }

    /** Where a table will stand: a zip file, if its name says so, or a folder. */
    Path startTable(Path target) throws IOException {
        return start("", target, Kind.TABLE);
    }

    /** Makes a folder that files are written into, unless it is there. */
    void makeFolder(Path target) {
        try {
            Path place = start("", target, Kind.FOLDER);
            if (!Files.exists(place)) {
                Files.createDirectory(place);
                made.add(place);
            }
        } catch (IOException e) {
            throw cannotBeWritten(target, e);
        }
    }

    void add(Part part) {
        parts.add(part);
    }

    /** What guards the parts beside a place. */
    Guard guard(Path place) throws IOException {
        Path folder = place.getParent();
        if (folder == null) {
            throw new IOException("a root folder can't be replaced");
        }
        Guard guard = guards.get(folder);
        if (guard == null) {
            guard = Guard.of(folder);
            guards.put(folder, guard);
        }
        return guard;
    }

    /** Takes what was named before under this path, or claims it now. */
    private Path start(String name, Path target, Kind kind) throws IOException {
        for (Claim claim : claims) {
            boolean same = claim.kind == kind || (claim.kind == Kind.ZIP && kind == Kind.TABLE);
            if (same && !claim.started && claim.given.equals(target)) {
                claim.started = true;
                check(claim.kind, claim.real);
                return claim.real;
            }
        }
        Claim claim = claimOutput(name, target, kind);
        claim.started = true;
        return claim.real;
    }

    private Claim claimOutput(String name, Path path, Kind kind) {
        try {
            if (Place.isOther(path)) {
                // before its real path is asked for, which a pipe behind a device name hasn't
                Place.checkFile(path);
            }
            Path real = Place.real(path);
            Kind its = kind == Kind.TABLE && isZip(real) ? Kind.ZIP : kind;
            Claim claim = new Claim(name, path, real, its);
            claim(claim);
            check(its, real);
            return claim;
        } catch (IOException e) {
            throw cannotBeWritten(path, e);
        }
    }

    /** Whether a table there is a zip file. */
    static boolean isZip(Path real) {
        return real.toString().toLowerCase(Locale.ROOT).endsWith(".zip");
    }

    private static void check(Kind kind, Path real) throws IOException {
        if (kind == Kind.ZIP && Files.isDirectory(real)) {
            throw new IOException("there is a folder of that name; a name that ends in .zip is a file");
        }
        if (kind == Kind.FILE || kind == Kind.ZIP) {
            Place.checkFile(real);
        } else if (Files.exists(real) && !Files.isDirectory(real)) {
            throw new IOException(
                    kind == Kind.TABLE
                            ? "there is a file of that name; a table is a folder or a .zip"
                            : "it is a file, not a folder");
        }
    }

    private static Path realInput(Path path) {
        try {
            return Place.real(path);
        } catch (IOException e) {
            return path.toAbsolutePath().normalize();
        }
    }

    private void claim(Claim claim) {
        for (Claim other : claims) {
            String clash = null;
            try {
                if (claim.kind != Kind.INPUT) {
                    clash = clash(claim, other);
                } else if (other.kind != Kind.INPUT) {
                    clash = clash(other, claim);
                }
            } catch (IOException e) {
                throw cannotBeWritten(claim.given, e);
            }
            if (clash != null) {
                throw new UncheckedIOException(clash, new IOException(clash));
            }
        }
        claims.add(claim);
    }

    /** What an output would do to an input or another output, or null. */
    private static @Nullable String clash(Claim output, Claim other) throws IOException {
        String would = name(output) + " would ";
        String replace = would + "replace " + name(other) + ": ";
        if (isSame(output, other)) {
            return replace
                    + (output.given.equals(other.given)
                            ? "both are " + other.given
                            : output.given + " and " + other.given + " are the same")
                    + "; name another place";
        }
        if (other.isWhole() && isIn(output.real, other.real)) {
            return would + "stand in " + name(other) + ": " + output.given + " is in " + other.given
                    + "; name another place";
        }
        if (output.isWhole() && isIn(other.real, output.real)) {
            return replace + other.given + " is in " + output.given + "; name another place";
        }
        if (other.kind == Kind.INPUT && other.isWhole() && Files.exists(output.real)) {
            Path its = among(output.real, other.real);
            if (its != null) {
                return replace + output.given + " and " + its + " are the same; name another place";
            }
        }
        return null;
    }

    private static String name(Claim claim) {
        return claim.name.isEmpty() ? "an output" : claim.name;
    }

    private static boolean isSame(Claim one, Claim other) throws IOException {
        if (one.real.equals(other.real)) {
            return true;
        }
        if (Files.exists(one.real) && Files.exists(other.real)) {
            return Files.isSameFile(one.real, other.real);
        }
        Path folder = one.real.getParent();
        return folder != null
                && folder.equals(other.real.getParent())
                && one.real
                        .getFileName()
                        .toString()
                        .equalsIgnoreCase(other.real.getFileName().toString())
                && Files.notExists(one.real)
                && Files.notExists(other.real)
                && !tellsCasesApart(folder);
    }

    /** Whether two names that differ in their case are two files there. An empty folder doesn't say; then they aren't. */
    private static boolean tellsCasesApart(Path folder) throws IOException {
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
            for (Path entry : entries) {
                String name = entry.getFileName().toString();
                String other = name.equals(name.toUpperCase(Locale.ROOT))
                        ? name.toLowerCase(Locale.ROOT)
                        : name.toUpperCase(Locale.ROOT);
                if (!other.equals(name) && Files.exists(entry)) {
                    Path cased = folder.resolve(other);
                    return Files.notExists(cased) || !Files.isSameFile(entry, cased);
                }
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return false;
    }

    private static boolean isIn(Path inner, Path outer) throws IOException {
        for (Path above = inner.getParent(); above != null; above = above.getParent()) {
            if (above.equals(outer) || (Files.exists(above) && Files.exists(outer) && Files.isSameFile(above, outer))) {
                return true;
            }
        }
        return false;
    }

    /** The file of a table's folder that is also another one, by a hard link. */
    private static @Nullable Path among(Path file, Path folder) throws IOException {
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
            for (Path entry : entries) {
                if (Files.exists(entry) && Files.isSameFile(entry, file)) {
                    return entry;
                }
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return null;
    }

    static UncheckedIOException cannotBeWritten(Path target, IOException e) {
        return new UncheckedIOException(target + " can't be written: " + PackageFiles.reason(e), e);
    }

    /**
     * Puts all files that were written to their end in their places, one after the other.
     *
     * @throws UncheckedIOException if one can't be put there; what can be known is found out before the first one is, so
     *     that some stand and others don't only if a renaming itself fails
     */
    public void finish() {
        List<Part> ready = new ArrayList<>();
        for (Part part : parts) {
            try {
                if (part.ready()) {
                    ready.add(part);
                }
            } catch (IOException e) {
                throw part.cannotBeWritten(e);
            }
        }
        for (Part part : ready) {
            try {
                part.put(move);
            } catch (IOException e) {
                throw part.cannotBeWritten(e);
            }
            parts.remove(part);
        }
        made.clear();
        close();
    }

    /**
     * Ends the run; what didn't get its place is taken away.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    public void close() {
        IOException failed = null;
        List<Closing> all = new ArrayList<>();
        parts.forEach(part -> all.add(part::discard));
        guards.values().forEach(guard -> all.add(guard::close));
        made.forEach(folder -> all.add(() -> deleteIfEmpty(folder)));
        parts.clear();
        guards.clear();
        made.clear();
        for (Closing one : all) {
            try {
                one.close();
            } catch (IOException e) {
                failed = e;
            }
        }
        if (failed != null) {
            throw new UncheckedIOException("what was left can't be taken away: " + PackageFiles.reason(failed), failed);
        }
    }

    private static void deleteIfEmpty(Path folder) throws IOException {
        try {
            Files.deleteIfExists(folder);
        } catch (DirectoryNotEmptyException e) {
            // another run writes into it by now
        }
    }

    /** Something to be taken away. */
    private interface Closing {
        void close() throws IOException;
    }
}
