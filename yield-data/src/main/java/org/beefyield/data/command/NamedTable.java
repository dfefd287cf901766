package org.beefyield.data.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/**
 * A table that an option names: a folder, a zip file, or the name of an edition that comes with this library. An edition's
 * name means nothing else: a folder that is called so and holds another table is asked for by a path, or else a gate could
 * hold the edition where its owner means the folder, or the folder where he means the edition.
 */
final class NamedTable {
    private final String option;
    private final String value;
    private final Path path;

    private NamedTable(String option, String value) {
        this.option = option;
        this.value = value;
        path = Options.path(value);
    }

    static NamedTable of(String option, String value) {
        return new NamedTable(option, value);
    }

    static @Nullable NamedTable optional(Options options, String option) {
        String value = options.value(option);
        return value == null ? null : of(option, value);
    }

    /** The edition boneless-2026 if none is named. */
    static YieldTable readOrShipped(@Nullable NamedTable table) {
        return table == null ? ShippedTables.boneless2026() : table.read();
    }

    /** The file or folder that is read. */
    Path path() {
        return path;
    }

    boolean isEdition() {
        return ShippedTables.names().contains(value);
    }

    void claim(Outputs outputs) {
        if (!isEdition() || Files.exists(path)) {
            outputs.input(option, path);
        }
    }

    /** Refuses a name under which there is nothing, or more than one table. */
    void check() {
        if (isEdition()) {
            if (Files.exists(path) && !holds(ShippedTables.find(value).orElseThrow())) {
                throw refused("this is the name of an edition that comes with beefyield, but another table is called so"
                        + " here; write ./" + value + " for that one, or give it another name");
            }
        } else if (!Files.exists(path)) {
            throw refused("there is no such folder or zip file; by its name alone there is "
                    + String.join(", ", ShippedTables.names()));
        }
    }

    private InvalidDataException refused(String message) {
        return new InvalidDataException(List.of(new Problem(value, 0, "", "", message)));
    }

    YieldTable read() {
        return read(TableReader::read);
    }

    /**
     * Reads it.
     *
     * @param reading how a folder or a zip file is read
     */
    YieldTable read(Function<Path, YieldTable> reading) {
        check();
        return isEdition() ? ShippedTables.find(value).orElseThrow() : reading.apply(path);
    }

    /** Whether what is there is the edition, such as just exported. */
    private boolean holds(YieldTable edition) {
        try {
            return TableReader.read(path).equals(edition);
        } catch (InvalidDataException e) {
            return false;
        }
    }
}
