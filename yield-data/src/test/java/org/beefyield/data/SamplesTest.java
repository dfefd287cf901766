package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.tools.DiagnosticCollector;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.api.parallel.Resources;

/** Compiles and runs every Java sample of the guides and the Javadoc; what stands behind one is what it must print. */
class SamplesTest {
    private static final List<Path> GUIDES = List.of(
            Path.of("../README.md"),
            Path.of("../DEVELOPERS.md"),
            Path.of("../CHANGELOG.md"),
            Path.of("GUIDE.md"),
            Path.of("examples/README.md"),
            Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026/README.md"));

    private static final List<Path> SOURCES = List.of(Path.of("../yield-core/src/main/java"), Path.of("src/main/java"));

    private static final Pattern IN_GUIDE =
            Pattern.compile("```java\\n(?<code>.*?)```\\n(\\s*```text\\n(?<output>.*?)```)?", Pattern.DOTALL);

    private static final Pattern IN_JAVADOC = Pattern.compile("<pre>\\{@code\\n(?<code>.*?)\\}</pre>", Pattern.DOTALL);

    /** What a sample may take for granted: the library's packages and a table. */
    private static final String FRAME = """
            import java.io.*;
            import java.nio.charset.*;
            import java.nio.file.*;
            import java.util.*;
            import org.beefyield.boning.*;
            import org.beefyield.calibrate.*;
            import org.beefyield.carcass.*;
            import org.beefyield.cut.*;
            import org.beefyield.data.*;
            import org.beefyield.data.boning.*;
            import org.beefyield.data.finish.*;
            import org.beefyield.data.frame.*;
            import org.beefyield.data.json.*;
            import org.beefyield.data.killsheet.*;
            import org.beefyield.data.picture.*;
            import org.beefyield.data.solver.*;
            import org.beefyield.data.table.*;
            import org.beefyield.data.trade.*;
            import org.beefyield.estimate.*;
            import org.beefyield.feedback.*;
            import org.beefyield.finish.*;
            import org.beefyield.frame.*;
            import org.beefyield.json.*;
            import org.beefyield.market.*;
            import org.beefyield.pack.*;
            import org.beefyield.pay.*;
            import org.beefyield.plan.*;
            import org.beefyield.price.*;
            import org.beefyield.reconcile.*;
            import org.beefyield.report.*;
            import org.beefyield.table.*;
            import org.beefyield.table.definition.*;

            public final class Sample%d {
                static final YieldTable table = ShippedTables.boneless2026();

                public static void main(String[] arguments) throws Exception {
            %s
                }
            }
            """;

    private record Sample(String where, String code, Optional<String> output) {}

    @TempDir
    static Path classes;

    @TestFactory
    @ResourceLock(Resources.SYSTEM_OUT)
    Stream<DynamicTest> everySampleRunsAndPrintsWhatStandsBehindIt() throws IOException {
        List<Sample> samples = samples();
        compile(samples);
        return IntStream.range(0, samples.size())
                .mapToObj(i -> DynamicTest.dynamicTest(samples.get(i).where(), () -> {
                    String printed = run(i);
                    if (samples.get(i).output().isPresent()) {
                        assertThat(printed).isEqualTo(samples.get(i).output().get());
                    }
                }));
    }

    @Test
    void theGuidesAndTheJavadocHaveSamples() throws IOException {
        assertThat(samples()).extracting(Sample::where).anyMatch(where -> where.contains("README.md"));
        assertThat(samples()).extracting(Sample::where).anyMatch(where -> where.contains("YieldEstimator.java"));
    }

    private static List<Sample> samples() throws IOException {
        List<Sample> samples = new ArrayList<>();
        for (Path guide : GUIDES) {
            add(samples, guide, IN_GUIDE, Files.readString(guide));
        }
        for (Path sources : SOURCES) {
            try (Stream<Path> files = Files.walk(sources)) {
                for (Path file : files.filter(path -> path.toString().endsWith(".java"))
                        .sorted()
                        .toList()) {
                    add(samples, file, IN_JAVADOC, Files.readString(file).replaceAll("(?m)^ *\\* ?", ""));
                }
            }
        }
        return samples;
    }

    private static void add(List<Sample> samples, Path file, Pattern pattern, String text) {
        Matcher matcher = pattern.matcher(text);
        while (matcher.find()) {
            Optional<String> output =
                    pattern == IN_GUIDE ? Optional.ofNullable(matcher.group("output")) : Optional.empty();
            long line = text.substring(0, matcher.start()).lines().count() + 1;
            samples.add(new Sample(file.getFileName() + " line " + line, matcher.group("code"), output));
        }
    }

    private static String name(int sample) {
        return "Sample" + sample;
    }

    private String run(int sample) throws Exception {
        PrintStream before = System.out;
        Locale locale = Locale.getDefault();
        ByteArrayOutputStream printed = new ByteArrayOutputStream();
        try (URLClassLoader loader = new URLClassLoader(
                new URL[] {classes.toUri().toURL()}, getClass().getClassLoader())) {
            System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
            Locale.setDefault(Locale.ROOT);
            loader.loadClass(name(sample)).getMethod("main", String[].class).invoke(null, (Object) new String[0]);
        } finally {
            System.setOut(before);
            Locale.setDefault(locale);
        }
        return printed.toString(StandardCharsets.UTF_8).replace(System.lineSeparator(), "\n");
    }

    /** All at once, as the compiler reads the class path but once then. */
    private static void compile(List<Sample> samples) {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        DiagnosticCollector<JavaFileObject> diagnostics = new DiagnosticCollector<>();
        Map<URI, Sample> bySource = new LinkedHashMap<>();
        List<JavaFileObject> files = new ArrayList<>();
        for (int i = 0; i < samples.size(); i++) {
            URI uri = URI.create("string:///" + name(i) + ".java");
            String source = FRAME.formatted(i, samples.get(i).code());
            bySource.put(uri, samples.get(i));
            files.add(new SimpleJavaFileObject(uri, JavaFileObject.Kind.SOURCE) {
                @Override
                public CharSequence getCharContent(boolean ignoreEncodingErrors) {
                    return source;
                }
            });
        }
        boolean compiled = compiler.getTask(
                        null,
                        null,
                        diagnostics,
                        List.of("-d", classes.toString(), "-cp", System.getProperty("java.class.path"), "-proc:none"),
                        null,
                        files)
                .call();
        assertThat(compiled)
                .as(() -> "the samples compile: "
                        + diagnostics.getDiagnostics().stream()
                                .map(one -> (one.getSource() == null
                                                ? ""
                                                : bySource.get(one.getSource().toUri())
                                                                .where() + ": ")
                                        + one)
                                .toList())
                .isTrue();
    }
}
