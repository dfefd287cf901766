package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.spi.ToolProvider;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What callers can name stands in a text beside each module, as javap prints it, so that no change of it goes unseen. Written
 * anew with {@code -Dbeefyield.rewrite=true}.
 */
class ApiTest {
    /** Packages that no caller uses. */
    private static final Set<String> INSIDE = Set.of(
            "org.beefyield.grid",
            "org.beefyield.data.file",
            "org.beefyield.data.command",
            "org.beefyield.data.notebook");

    @ParameterizedTest
    @CsvSource({"yield-core, org.beefyield.carcass.Carcass", "yield-data, org.beefyield.data.Problem"})
    void theListedApiIsThatOfTheCode(String module, Class<?> anyOfIt) throws IOException, URISyntaxException {
        Path file = Path.of("..", module, "api.txt");
        String listed = listed(anyOfIt);

        if (Boolean.getBoolean("beefyield.rewrite")) {
            Files.writeString(file, listed);
        }
        assertThat(listed)
                .as("the API of " + module + "; where the change is meant, write its list anew")
                .isEqualTo(Files.readString(file));
        assertThat(listed).contains(" " + anyOfIt.getName() + " ");
    }

    private static String listed(Class<?> anyOfIt) throws IOException, URISyntaxException {
        Path classes = Path.of(
                anyOfIt.getProtectionDomain().getCodeSource().getLocation().toURI());
        List<List<String>> types = new ArrayList<>();
        Set<String> open = new HashSet<>();
        for (List<String> type : printed(classes, names(classes))) {
            String header = type.get(0);
            String name = header.replaceAll("<.*", "")
                    .replaceAll(".*(?:class|interface) ", "")
                    .replaceAll(" .*", "")
                    .strip();
            int nested = name.lastIndexOf('$');
            if (header.startsWith("public ") && (nested < 0 || open.contains(name.substring(0, nested)))) {
                open.add(name);
                types.add(type);
            }
        }
        long methods = types.stream()
                .flatMap(List::stream)
                .filter(line -> line.contains("("))
                .count();
        return types.size() + " types, " + methods + " constructors and methods\n"
                + types.stream()
                        .map(type -> "\n" + String.join("\n", type) + "\n")
                        .collect(Collectors.joining());
    }

    /** Names of the classes for callers, an enclosing one before those in it. */
    private static List<String> names(Path classes) throws IOException {
        if (Files.isDirectory(classes)) {
            return namesIn(classes);
        }
        try (FileSystem jar = FileSystems.newFileSystem(URI.create("jar:" + classes.toUri()), Map.of())) {
            return namesIn(jar.getPath("/"));
        }
    }

    private static List<String> namesIn(Path root) throws IOException {
        try (Stream<Path> files = Files.walk(root)) {
            return files.map(file -> root.relativize(file).toString())
                    .filter(file -> file.endsWith(".class") && !file.endsWith("-info.class"))
                    .map(file -> file.substring(0, file.length() - ".class".length())
                            .replace('/', '.')
                            .replace('\\', '.'))
                    .filter(name -> !INSIDE.contains(name.substring(0, name.lastIndexOf('.'))))
                    .sorted()
                    .toList();
        }
    }

    /** Each type as its header and its members, these in order. */
    private static List<List<String>> printed(Path classes, List<String> names) {
        StringWriter text = new StringWriter();
        List<String> arguments = new ArrayList<>(List.of("-protected", "-constants", "-cp", classes.toString()));
        arguments.addAll(names);
        int status = ToolProvider.findFirst("javap")
                .orElseThrow()
                .run(new PrintWriter(text), new PrintWriter(text), arguments.toArray(String[]::new));
        assertThat(status).as(text.toString()).isZero();
        return Arrays.stream(text.toString().split("\\R}\\R", -1))
                .map(type -> type.lines()
                        .filter(line -> !line.startsWith("Compiled from"))
                        .toList())
                .filter(type -> !type.isEmpty())
                .map(type -> Stream.concat(
                                type.stream().limit(1), type.stream().skip(1).sorted())
                        .toList())
                .toList();
    }
}
