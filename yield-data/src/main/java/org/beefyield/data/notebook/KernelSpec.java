package org.beefyield.data.notebook;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** What Jupyter wants to know of a kernel: a folder of its name with {@code kernel.json}, and here the jar that it names. */
final class KernelSpec {
    static final String NAME = "beefyield";
    static final String DISPLAY_NAME = "Java with beefyield";

    private static final String JAR = "beefyield-kernel.jar";
    private static final String JSON = "kernel.json";

    private KernelSpec() {}

    /** The description of a kernel that is started with these arguments of the virtual machine. */
    static Map<String, Object> description(Path java, List<String> start) {
        List<String> argv = new ArrayList<>(
                List.of(java.toString(), "-Djava.awt.headless=true", "-Dslf4j.internal.verbosity=ERROR"));
        argv.addAll(start);
        argv.add("{connection_file}");
        Map<String, Object> kernel = new LinkedHashMap<>();
        kernel.put("argv", argv);
        kernel.put("display_name", DISPLAY_NAME);
        kernel.put("language", "java");
        kernel.put("interrupt_mode", "message");
        return kernel;
    }

    /** Writes a description into a kernel's folder. */
    static void write(Path folder, Map<String, Object> description) throws IOException {
        Files.createDirectories(folder);
        Files.write(
                folder.resolve(JSON),
                JsonMapper.builder()
                        .enable(SerializationFeature.INDENT_OUTPUT)
                        .build()
                        .writeValueAsBytes(description));
    }

    /** Puts a copy of the jar and its description into a kernel's folder; the jar of an earlier installation is replaced. */
    static void install(Path jar, Path folder, Path javaHome) throws IOException {
        Files.createDirectories(folder);
        Path part = Files.createTempFile(folder, JAR, ".part");
        try {
            Files.copy(jar, part, StandardCopyOption.REPLACE_EXISTING);
            Files.move(part, folder.resolve(JAR), StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
        // Jupyter puts the folder's path in, so that the whole may be moved
        write(folder, description(javaHome.resolve("bin").resolve("java"), List.of("-jar", "{resource_dir}/" + JAR)));
    }

    /** Takes away what {@link #install} put there, and says whether there was anything. */
    static boolean uninstall(Path folder) throws IOException {
        boolean described = Files.deleteIfExists(folder.resolve(JSON));
        boolean copied = Files.deleteIfExists(folder.resolve(JAR));
        if (described || copied) {
            Files.deleteIfExists(folder);
        }
        return described || copied;
    }

    /** The folder in which Jupyter keeps what is a user's own. */
    static Path userData(Map<String, String> environment, String system, String home) {
        String own = environment.get("JUPYTER_DATA_DIR");
        if (own != null && !own.isEmpty()) {
            return Path.of(own);
        }
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("mac")) {
            return Path.of(home, "Library", "Jupyter");
        }
        if (name.startsWith("windows")) {
            return Path.of(environment.getOrDefault("APPDATA", home), "jupyter");
        }
        String data = environment.get("XDG_DATA_HOME");
        return (data == null || data.isEmpty() ? Path.of(home, ".local", "share") : Path.of(data)).resolve("jupyter");
    }
}
