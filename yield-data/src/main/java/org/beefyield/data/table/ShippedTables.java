package org.beefyield.data.table;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.OutputPart;
import org.beefyield.table.YieldTable;

/** The table editions that come with this library. An edition, once shipped, never changes. */
public final class ShippedTables {
    private static final String FOLDER = "org/beefyield/data/tables/";
    private static final String BONELESS_2026 = "boneless-2026";
    private static final String PAGE = "README.md";

    private ShippedTables() {}

    /**
     * Edition {@code boneless-2026}: boneless primals and their retail cuts, from published dissections. The page beside
     * its files says what it rests on.
     *
     * @return the table, read and proved at the first call; later ones return the same
     */
    public static YieldTable boneless2026() {
        return Boneless2026.TABLE;
    }

    /**
     * Names of the editions.
     *
     * @return such as {@code boneless-2026}, the newest last
     */
    public static List<String> names() {
        return List.of(BONELESS_2026);
    }

    /**
     * The edition of a name.
     *
     * @param name such as {@code boneless-2026}
     * @return the table, or empty if no edition is called so
     */
    public static Optional<YieldTable> find(String name) {
        Objects.requireNonNull(name, "name");
        return name.equals(BONELESS_2026) ? Optional.of(boneless2026()) : Optional.empty();
    }

    /**
     * Writes the files of an edition for a person to edit: the same bytes that come with this library, and the page that
     * says what its figures rest on. No digest stands in the descriptor, so that an edited copy is read as it is.
     *
     * @param name name of the edition
     * @param target a file name ending in {@code .zip}, or a folder; nothing is there yet, and the folder above it exists
     * @throws IllegalArgumentException if no edition is called so
     * @throws UncheckedIOException if something is there, or it can't be written; nothing is written then
     */
    public static void export(String name, Path target) {
        try (Outputs outputs = new Outputs()) {
            export(name, target, outputs);
            outputs.finish();
        }
    }

    /**
     * Writes the files of an edition, which get their place with the other outputs of a run.
     *
     * @param name name of the edition
     * @param target as {@link #export(String, Path)}
     * @param outputs the outputs of the run
     * @throws IllegalArgumentException if no edition is called so
     * @throws UncheckedIOException if something is there, it can't be written, or it would replace an input or another output
     */
    public static void export(String name, Path target, Outputs outputs) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(outputs, "outputs");
        Objects.requireNonNull(target, "target");
        if (!names().contains(name)) {
            throw new IllegalArgumentException("no edition \"" + name + "\"; there is " + String.join(", ", names()));
        }
        if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            throw OutputPart.cannotBeWritten(
                    target,
                    new IOException("there is something of that name, and an edition is never written over anything;"
                            + " name another place"));
        }
        TableWriter.write(files(name), target, outputs.unwrap(OutputFiles.class));
    }

    private static Map<String, byte[]> files(String name) {
        ClassLoader loader = ShippedTables.class.getClassLoader();
        PackageFiles shipped = PackagePlaces.classPath(loader, FOLDER + name);
        List<Problem> problems = new ArrayList<>();
        try {
            Map<String, byte[]> files = new LinkedHashMap<>();
            add(files, shipped, Descriptor.FILE);
            try (InputStream stream = opened(shipped, Descriptor.FILE)) {
                Descriptor descriptor = Descriptor.read(Descriptor.FILE, stream, problems);
                if (descriptor == null) {
                    throw new InvalidDataException(problems);
                }
                for (Descriptor.Resource resource : descriptor.resources().values()) {
                    add(files, shipped, resource.path());
                }
            }
            add(files, shipped, PAGE);
            return files;
        } catch (IOException e) {
            throw new UncheckedIOException("edition " + name + " can't be read", e);
        }
    }

    private static void add(Map<String, byte[]> files, PackageFiles shipped, String file) throws IOException {
        try (InputStream stream = opened(shipped, file)) {
            files.put(file, stream.readAllBytes());
        }
    }

    private static InputStream opened(PackageFiles shipped, String file) throws IOException {
        InputStream stream = shipped.open(file);
        if (stream == null) {
            throw new IOException(file + " isn't there");
        }
        return stream;
    }

    /** Loaded when the table is first asked for. */
    private static final class Boneless2026 {
        private static final YieldTable TABLE =
                TableReader.read(ShippedTables.class.getClassLoader(), FOLDER + BONELESS_2026);
    }
}
