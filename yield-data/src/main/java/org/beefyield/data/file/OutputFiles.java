package org.beefyield.data.file;

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
import org.beefyield.data.Outputs;
import org.jspecify.annotations.Nullable;

/**
 * What the {@link Outputs} of a run do, and what the writers of this module need of them: parts written beside their
 * places, which get them together.
 *
 * <p>Not thread-safe.
 */
public final class OutputFiles implements AutoCloseable {

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

    /** A file that is all of its run. */
    private final class AloneFile extends AtomicFile {
        AloneFile(Path target, Path place, Path part) throws IOException {
            super(target, place, part);
        }

        @Override
        public void finish() {
            super.finish();
            OutputFiles.this.finish();
        }

        @Override
        public void close() {
            try {
                super.close();
            } finally {
                OutputFiles.this.close();
            }
        }
    }

    private final OutputPart.Move move;
    private final List<Claim> claims = new ArrayList<>();
    private final Map<Path, Guard> guards = new LinkedHashMap<>();
    private final List<OutputPart> parts = new ArrayList<>();
    private final List<Path> made = new ArrayList<>();
    private final List<Path> leftOver = new ArrayList<>();

    /** No files yet. */
    public OutputFiles() {
        this(OutputFiles::atomically);
    }

    /**
     * No files yet.
     *
     * @param move how each gets its place
     */
    public OutputFiles(OutputPart.Move move) {
        this.move = move;
    }

    private static void atomically(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /**
     * Starts a file that gets its place as soon as it is finished.
     *
     * @param target where it will stand
     * @return the file
     * @throws UncheckedIOException if it can't be written there
     */
    public static AtomicFile alone(Path target) {
        OutputFiles outputs = new OutputFiles();
        return outputs.started("", target, true);
    }

    /**
     * Names a file, or a table's folder, that is read.
     *
     * @param name what it is called in messages, such as the option that names it
     * @param path its path; it may be missing, which is for its reader to say
     * @throws UncheckedIOException if an output named before would replace it or stand in it
     */
    public void input(String name, Path path) {
        claim(new Claim(name, path, realInput(path), Kind.INPUT));
    }

    /**
     * Names a file that will be written.
     *
     * @param name what it is called in messages
     * @param path its path
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public void file(String name, Path path) {
        claimOutput(name, path, Kind.FILE);
    }

    /**
     * Names a table that will be written.
     *
     * @param name what it is called in messages
     * @param path its folder, or a file name ending in {@code .zip}
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public void table(String name, Path path) {
        claimOutput(name, path, Kind.TABLE);
    }

    /**
     * Names a folder that files will be written into.
     *
     * @param name what it is called in messages
     * @param path the folder; it is made if it is missing
     * @throws UncheckedIOException if it can't be made there, or would replace an input or another output
     */
    public void folder(String name, Path path) {
        claimOutput(name, path, Kind.FOLDER);
    }

    /**
     * Writes a text file, UTF-8, packed with gzip if its name ends in {@code .gz}.
     *
     * @param name what it is called in messages; empty for an output without a name
     * @param target where it will stand
     * @param content its content
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public void write(String name, Path target, String content) {
        try (AtomicFile file = started(name, target, false)) {
            file.write(content);
            file.finish();
        }
    }

    /**
     * Starts a file that gets its place with the others.
     *
     * @param target where it will stand
     * @return the file
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public AtomicFile started(Path target) {
        return started("", target, false);
    }

    private AtomicFile started(String name, Path target, boolean alone) {
        boolean started = false;
        try {
            Path place = start(name, target, Kind.FILE);
            Path part = guard(place).part(place.getFileName());
            AtomicFile file = alone ? new AloneFile(target, place, part) : new AtomicFile(target, place, part);
            parts.add(file);
            started = true;
            return file;
        } catch (IOException e) {
            throw OutputPart.cannotBeWritten(target, e);
        } finally {
            if (alone && !started) {
                close();
            }
        }
    }

    /**
     * Starts a table.
     *
     * @param target what its place is called
     * @return where it will stand: a zip file, if its name says so, or a folder
     * @throws IOException if it can't be written there
     * @throws UncheckedIOException if it would replace an input or another output
     */
    public Path startTable(Path target) throws IOException {
        return start("", target, Kind.TABLE);
    }

    /**
     * Makes a folder that files are written into, unless it is there.
     *
     * @param target where it will stand
     * @throws UncheckedIOException if it can't be made there, or would replace an input or another output
     */
    public void makeFolder(Path target) {
        try {
            Path place = start("", target, Kind.FOLDER);
            if (!Files.exists(place)) {
                Files.createDirectory(place);
                made.add(place);
            }
        } catch (IOException e) {
            throw OutputPart.cannotBeWritten(target, e);
        }
    }

    /**
     * Takes a file of an earlier run away, once all files have their places; not one that this run reads or writes.
     *
     * @param target where it stands
     */
    public void takeAway(Path target) {
        Path absolute = target.toAbsolutePath().normalize();
        if (claims.stream()
                .noneMatch(claim -> claim.given.toAbsolutePath().normalize().equals(absolute))) {
            leftOver.add(target);
        }
    }

    /**
     * Takes a part that gets its place with the others.
     *
     * @param part the part
     */
    public void add(OutputPart part) {
        parts.add(part);
    }

    /**
     * What guards the parts beside a place.
     *
     * @param place the place
     * @return the guard of its folder
     * @throws IOException if nothing can be written there
     */
    public Guard guard(Path place) throws IOException {
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
            throw OutputPart.cannotBeWritten(path, e);
        }
    }

    /**
     * Whether a table there is a zip file.
     *
     * @param real the table's place
     * @return true if its name says so
     */
    public static boolean isZip(Path real) {
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
                throw OutputPart.cannotBeWritten(claim.given, e);
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

    /**
     * Puts all files that were written to their end in their places, one after the other.
     *
     * @throws UncheckedIOException if one can't be put there; what can be known is found out before the first one is, so
     *     that some stand and others don't only if a renaming itself fails
     */
    public void finish() {
        List<OutputPart> ready = new ArrayList<>();
        for (OutputPart part : parts) {
            try {
                if (part.ready()) {
                    ready.add(part);
                }
            } catch (IOException e) {
                throw part.cannotBeWritten(e);
            }
        }
        for (OutputPart part : ready) {
            try {
                part.put(move);
            } catch (IOException e) {
                throw part.cannotBeWritten(e);
            }
            parts.remove(part);
        }
        made.clear();
        for (Path target : leftOver) {
            try {
                Files.deleteIfExists(target);
            } catch (IOException e) {
                throw new UncheckedIOException(target + " can't be taken away: " + Reason.of(e), e);
            }
        }
        leftOver.clear();
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
        leftOver.clear();
        for (Closing one : all) {
            try {
                one.close();
            } catch (IOException e) {
                failed = e;
            }
        }
        if (failed != null) {
            throw new UncheckedIOException("what was left can't be taken away: " + Reason.of(failed), failed);
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
