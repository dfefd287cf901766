package org.beefyield.data.notebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The kernel's jar as a command; {@code src/test/kernel} has what Jupyter sees of it. */
class KernelMainTest {
    @TempDir
    Path folder;

    private Path jar;
    private String said;

    @BeforeEach
    void aJar() throws IOException {
        jar = Files.writeString(folder.resolve("target.jar"), "the kernel");
    }

    private int run(String... arguments) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream print = new PrintStream(out, true, StandardCharsets.UTF_8);
        int code = KernelMain.run(List.of(arguments), jar, print, print);
        said = out.toString(StandardCharsets.UTF_8);
        return code;
    }

    @Test
    void theKernelHasAJarOfItsOwn() throws IOException {
        Path kernel = folder.resolve("share/jupyter/kernels/beefyield");

        assertThat(run("--install", "--prefix", folder.toString())).isZero();

        assertThat(said).startsWith("Installed as beefyield in " + kernel);
        Files.delete(jar);
        assertThat(kernel.resolve("beefyield-kernel.jar")).hasContent("the kernel");
        JsonNode json = JsonMapper.builder().build().readTree(kernel.resolve("kernel.json"));
        assertThat(json.path("argv")).last().hasToString("\"{connection_file}\"");
        assertThat(json.path("argv").toString()).contains("\"-jar\",\"{resource_dir}/beefyield-kernel.jar\"");
        assertThat(Path.of(json.path("argv").path(0).asString())).isAbsolute();
        assertThat(json.path("interrupt_mode").asString()).isEqualTo("message");
        assertThat(json.path("display_name").asString()).isEqualTo("Java with beefyield");
    }

    @Test
    void aNewerOneTakesThePlaceOfAnOlder() throws IOException {
        run("--install", "--prefix", folder.toString(), "--name", "mine");
        Files.writeString(jar, "newer");

        assertThat(run("--install", "--prefix", folder.toString(), "--name", "mine"))
                .isZero();

        Path kernel = folder.resolve("share/jupyter/kernels/mine");
        assertThat(kernel.resolve("beefyield-kernel.jar")).hasContent("newer");
        try (var files = Files.list(kernel)) {
            assertThat(files).hasSize(2);
        }
        assertThat(run("--uninstall", "--prefix", folder.toString(), "--name", "mine"))
                .isZero();
        assertThat(said).startsWith("Taken away: ");
        assertThat(kernel).doesNotExist();
        run("--uninstall", "--prefix", folder.toString(), "--name", "mine");
        assertThat(said).startsWith("There was none: ");
    }

    @Test
    void whatItDoesNotUnderstandChangesNothing() {
        assertThat(run("--instal")).isEqualTo(2);
        assertThat(said).startsWith("unknown option \"--instal\"\n").endsWith(KernelMain.USAGE);
        assertThat(run()).isEqualTo(2);
        assertThat(said).startsWith("--install is missing\n");
        assertThat(run("--install", "--prefix")).isEqualTo(2);
        assertThat(said).startsWith("--prefix needs a value\n");
        assertThat(run("--install", "--uninstall")).isEqualTo(2);
        assertThat(said).startsWith("--uninstall beside --install; one of the two\n");
        assertThat(run("--install", "--name", "../x")).isEqualTo(2);
        assertThat(said).startsWith("--name \"../x\" is not lower-case letters, digits, . _ and - such as beefyield\n");
        assertThat(run("--help", "--install")).isZero();
        assertThat(said).isEqualTo(KernelMain.USAGE);
        assertThat(folder.resolve("share")).doesNotExist();
    }

    @Test
    void classesOfABuildAreNoJar() {
        jar = folder;
        assertThat(run("--install", "--prefix", folder.toString())).isEqualTo(2);
        assertThat(said).startsWith("the kernel is installed from its jar, the one whose name ends in -kernel.jar\n");
    }

    @Test
    void aFolderThatCanNotBeMadeIsNamed() {
        assertThat(run("--install", "--prefix", jar.toString())).isEqualTo(2);
        assertThat(said).contains(jar.toString()).contains("can't be written");
    }

    @Test
    void usersKeepTheirKernelsWhereJupyterLooks() {
        assertThat(KernelSpec.userData(Map.of(), "Linux", "/home/a"))
                .isEqualTo(Path.of("/home/a/.local/share/jupyter"));
        assertThat(KernelSpec.userData(Map.of("XDG_DATA_HOME", "/d"), "Linux", "/home/a"))
                .isEqualTo(Path.of("/d/jupyter"));
        assertThat(KernelSpec.userData(Map.of("JUPYTER_DATA_DIR", "/j"), "Linux", "/home/a"))
                .isEqualTo(Path.of("/j"));
        assertThat(KernelSpec.userData(Map.of(), "Mac OS X", "/Users/a"))
                .isEqualTo(Path.of("/Users/a/Library/Jupyter"));
        assertThat(KernelSpec.userData(Map.of("APPDATA", "/roaming"), "Windows 11", "/Users/a"))
                .isEqualTo(Path.of("/roaming/jupyter"));
    }

    @Test
    void namesAreCompletedInTheSnippetOfTheCursor() {
        NotebookKernel kernel = new NotebookKernel();
        try {
            kernel.evalRaw("import java.util.List; var names = List.of(1);");
            String code = "int a = 1;\nnames.siz";
            assertThat(kernel.complete(code, code.length()).getReplacements()).containsExactly("size()");
            assertThat(kernel.complete(code, code.length()).getSourceStart()).isEqualTo(code.indexOf("siz"));
            assertThat(kernel.complete("nothingOfThis", 13)).isNull();
            assertThat(kernel.inspect("names.size(", 11, false)).isNotNull();
            assertThat(kernel.isComplete("int b = 1; b")).isEqualTo("complete");
            assertThat(kernel.isComplete("for (int i = 0; i < 2; i++) {")).isEmpty();
        } finally {
            kernel.onShutdown(false);
        }
    }
}
