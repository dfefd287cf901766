package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.table.YieldTable;

/** A copy of the shipped package in a folder {@code hall}, to be spoilt by tests. */
final class PackageCopy {
    static final String CLASS_PATH = "org/beefyield/data/tables/boneless-2026";

    static final List<String> FILES = List.of(
            "datapackage.json",
            "cuts.csv",
            "breakdown.csv",
            "specifications.csv",
            "quartering.csv",
            "coefficient-notes.csv",
            "residual-covariance.csv",
            "expectations.csv",
            "sources.csv",
            "README.md");

    final Path folder;

    PackageCopy(Path parent) {
        try {
            folder = Files.createDirectories(parent.resolve("hall"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        shipped().forEach(this::write);
    }

    /** The shipped files by name. */
    static Map<String, byte[]> shipped() {
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (String name : FILES) {
            try (InputStream in = PackageCopy.class.getResourceAsStream("/" + CLASS_PATH + "/" + name)) {
                assertThat(in).as(name).isNotNull();
                files.put(name, in.readAllBytes());
            } catch (IOException e) {
                throw new UncheckedIOException(name, e);
            }
        }
        return files;
    }

    static byte[] zip(Map<String, byte[]> files) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(file.getKey()));
                zip.write(file.getValue());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    String text(String file) {
        try {
            return Files.readString(folder.resolve(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void write(String file, String text) {
        write(file, text.getBytes(UTF_8));
    }

    void write(String file, byte[] bytes) {
        try {
            Files.write(folder.resolve(file), bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void delete(String file) {
        try {
            Files.delete(folder.resolve(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Replaces the one place where a text stands; the line on which it begins. */
    long replace(String file, String text, String other) {
        String whole = text(file);
        int at = whole.indexOf(text);
        assertThat(at).as(text + " in " + file).isNotNegative();
        assertThat(whole.indexOf(text, at + 1))
                .as(text + " in " + file + " again")
                .isNegative();
        write(file, whole.replace(text, other));
        return lineAt(whole, at);
    }

    /** Replaces a text wherever it stands. */
    void replaceAll(String file, String text, String other) {
        assertThat(text(file)).contains(text);
        write(file, text(file).replace(text, other));
    }

    /** Adds a line at the end; its number. */
    long append(String file, String line) {
        write(file, text(file) + line + "\n");
        return text(file).lines().count();
    }

    /** Number of the first line that has a text in it. */
    long line(String file, String text) {
        String whole = text(file);
        int at = whole.indexOf(text);
        assertThat(at).as(text + " in " + file).isNotNegative();
        return lineAt(whole, at);
    }

    private static long lineAt(String whole, int at) {
        return 1 + whole.substring(0, at).chars().filter(c -> c == '\n').count();
    }

    /** Takes a column out of a CSV file without quoted cells. */
    void dropColumn(String file, String column) {
        List<String> lines = text(file).lines().toList();
        int index = List.of(lines.get(0).split(",", -1)).indexOf(column);
        assertThat(index).as(column + " in " + file).isNotNegative();
        StringBuilder kept = new StringBuilder();
        for (String line : lines) {
            assertThat(line).doesNotContain("\"");
            List<String> cells = new ArrayList<>(List.of(line.split(",", -1)));
            cells.remove(index);
            kept.append(String.join(",", cells)).append('\n');
        }
        write(file, kept.toString());
    }

    /** Adds a column of a CSV file, its cells the name with the number of the line. */
    void addColumn(String file, String column) {
        StringBuilder wider = new StringBuilder();
        int number = 0;
        for (String line : text(file).lines().toList()) {
            wider.append(line).append(',').append(column);
            wider.append(number++ == 0 ? "" : " " + number).append('\n');
        }
        write(file, wider.toString());
    }

    /** Declares a further resource, with text columns. */
    void declare(String resource, String path, String... columns) {
        StringBuilder fields = new StringBuilder();
        for (String column : columns) {
            fields.append(fields.length() == 0 ? "" : ", ")
                    .append("{\"name\": \"")
                    .append(column)
                    .append("\", \"type\": \"string\"}");
        }
        replace(
                "datapackage.json",
                "\"resources\": [",
                "\"resources\": [{\"name\": \"" + resource + "\", \"path\": \"" + path
                        + "\", \"schema\": {\"fields\": [" + fields + "]}},");
    }

    YieldTable read() {
        return TableReader.read(folder);
    }

    /** What is found wrong with it. */
    List<Problem> problems() {
        InvalidDataException refused = catchThrowableOfType(InvalidDataException.class, this::read);
        assertThat(refused).as("what is wrong with " + folder).isNotNull();
        return refused.problems();
    }

    /** A problem of one of its files. */
    Problem problem(String file, long line, String column, String value, String message) {
        return new Problem(folder + "/" + file, line, column, value, message);
    }
}
