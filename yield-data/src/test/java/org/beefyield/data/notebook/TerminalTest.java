package org.beefyield.data.notebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import jdk.jshell.tool.JavaShellToolBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The start-up file of jshell, in jshell. It ends with 0 whatever happens, so its words are looked at. */
class TerminalTest {
    private static final Path START_UP = Path.of(System.getProperty("basedir", ""), "examples", "beefyield.jsh");

    @TempDir
    Path folder;

    private String jshell(String script) throws Exception {
        Path file = Files.writeString(folder.resolve("script.jsh"), script + "\n/exit\n");
        ByteArrayOutputStream said = new ByteArrayOutputStream();
        PrintStream out = new PrintStream(said, true, StandardCharsets.UTF_8);
        JavaShellToolBuilder.builder()
                .in(new ByteArrayInputStream(new byte[0]), null)
                .out(out)
                .err(out)
                .locale(Locale.ROOT)
                .persistence(new HashMap<>())
                .start(
                        "--class-path",
                        System.getProperty("java.class.path"),
                        "--startup",
                        "DEFAULT",
                        "--startup",
                        START_UP.toString(),
                        file.toString());
        return said.toString(StandardCharsets.UTF_8).replace(System.lineSeparator(), "\n");
    }

    @Test
    void anEstimateShowsAsATable() throws Exception {
        String said = jshell("""
                var estimator = YieldEstimator.of(ShippedTables.boneless2026()).withSpecification("steaks");
                var steer = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340.0);
                show(estimator.estimate(steer))
                show(List.of(1, 2))
                show(null)
                """);

        assertThat(said)
                .doesNotContain("Error")
                .doesNotContain("|")
                .startsWith("Carcass category C")
                .containsPattern("\\nStriploin +16.25 +4.8 +11.64 +20.87\\n")
                .endsWith("[1, 2]\nnull\n");
    }

    @Test
    void aPictureIsWordsAndAPageForABrowser() throws Exception {
        String said = jshell("""
                var estimator = YieldEstimator.of(ShippedTables.boneless2026());
                var steer = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340.0);
                show(Pictures.breakdown(estimator.estimate(steer)))
                """);

        assertThat(said).doesNotContain("Error").startsWith("What a carcass becomes");
        Path page = Path.of(URI.create(said.strip().replaceFirst("(?s).*\n", "")));
        assertThat(page).content().contains("<svg ", "<title");
        Files.delete(page);
    }

    @Test
    void anErrorIsSeenInWhatJshellSays() throws Exception {
        assertThat(jshell("show(nothing)")).contains("Error:", "cannot find symbol");
    }

    @Test
    void everyPackageOfCoreIsImported() throws IOException {
        try (var packages =
                Files.list(Path.of(System.getProperty("basedir", ""), "../yield-core/src/main/java/org/beefyield"))) {
            // but the engine, which is not for callers
            assertThat(packages.filter(path -> Files.isDirectory(path) && !path.endsWith("grid"))
                            .map(path -> "import org.beefyield." + path.getFileName() + ".*;")
                            .toList())
                    .isNotEmpty()
                    .allSatisfy(line -> assertThat(Files.readString(START_UP)).contains(line));
        }
    }
}
