package org.beefyield.data.notebook;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Executes the notebooks through Jupyter on {@link NotebookKernel}, checks what came out and leaves them as pages. A kernel
 * that doesn't start is started again, and that is counted; a cell that fails is not run again.
 */
final class NotebookRun {
    private static final int STARTS = 6;

    /** The name that the notebooks ask for. */
    private static final String KERNEL = KernelSpec.NAME;

    /** What nbconvert says of a kernel that didn't come up. */
    private static final List<String> NO_START =
            List.of("Kernel didn't respond", "Kernel died before replying to kernel_info");

    /** On a phone an output with a wide table would be as wide as the table, and its sentences with it. */
    private static final String NARROW = "<style>.jp-OutputArea-child{table-layout:fixed;width:100%}</style>";

    private final Path examples;
    private final Path out;
    private int retries;

    private NotebookRun(Path examples, Path out) {
        this.examples = examples.toAbsolutePath().normalize();
        this.out = out.toAbsolutePath().normalize();
    }

    /** Arguments: the folder of the notebooks, and the folder to write to. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        NotebookRun run = new NotebookRun(Path.of(arguments[0]), Path.of(arguments[1]));
        List<String> problems = run.run();
        problems.forEach(problem -> System.err.println("FAILED: " + problem));
        System.exit(problems.isEmpty() ? 0 : 1);
    }

    private List<String> run() throws IOException, InterruptedException {
        try {
            jupyter("nbconvert", "--version");
        } catch (IOException none) {
            return List.of("there is no command jupyter here; on Debian: apt-get install jupyter-nbconvert");
        }
        describeKernel();
        List<String> problems = new ArrayList<>();
        for (String name : ExecutedNotebook.NAMES) {
            int before = retries;
            List<String> own = execute(name);
            own.forEach(problem -> problems.add(name + ": " + problem));
            System.out.println(name + ": " + (own.isEmpty() ? "executed and checked" : own.size() + " problems") + ", "
                    + (retries - before) + " starts repeated");
        }
        System.out.println("Notebooks: " + ExecutedNotebook.NAMES.size() + ", starts of a kernel repeated: " + retries);
        return problems;
    }

    /** The kernel as Jupyter wants it described, quick to start; its class path is that of this process. */
    private void describeKernel() throws IOException {
        KernelSpec.write(
                out.resolve("kernels").resolve(KERNEL),
                KernelSpec.description(
                        Path.of(System.getProperty("java.home"), "bin", "java"),
                        List.of(
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-cp",
                                absolute(System.getProperty("java.class.path")),
                                KernelMain.class.getName())));
    }

    private static String absolute(String classPath) {
        return String.join(
                File.pathSeparator,
                Stream.of(classPath.split(File.pathSeparator, -1))
                        .map(entry -> Path.of(entry).toAbsolutePath().toString())
                        .toList());
    }

    private List<String> execute(String name) throws IOException, InterruptedException {
        Path executed = out.resolve(name + ".ipynb");
        Path page = out.resolve(name + ".html");
        Files.deleteIfExists(executed);
        Files.deleteIfExists(page);
        String said = NO_START.get(0);
        for (int start = 0; start < STARTS && NO_START.stream().anyMatch(said::contains); start++) {
            retries += start > 0 ? 1 : 0;
            said = jupyter(
                    "nbconvert",
                    "--to=notebook",
                    "--execute",
                    "--allow-errors",
                    "--ExecutePreprocessor.kernel_name=" + KERNEL,
                    "--ExecutePreprocessor.startup_timeout=15",
                    "--ExecutePreprocessor.timeout=120",
                    "--output-dir=" + out,
                    examples.resolve(name + ".ipynb").toString());
        }
        if (!Files.exists(executed)) {
            return List.of("not executed: " + said.strip());
        }
        ExecutedNotebook shown = ExecutedNotebook.of(ExecutedNotebook.read(executed));
        List<String> problems = new ArrayList<>(shown.problems(NotebookFigures.of(name, examples)));
        problems.addAll(shown.differences(ExecutedNotebook.of(
                ExecutedNotebook.read(examples.resolve("executed").resolve(name + ".ipynb")))));
        jupyter("nbconvert", "--to=html", "--no-prompt", "--output-dir=" + out, executed.toString());
        if (Files.exists(page)) {
            Files.writeString(page, Files.readString(page).replace("</head>", NARROW + "</head>"));
        } else {
            problems.add("no page was made of it");
        }
        return problems;
    }

    /** Runs Jupyter and gives what it said. */
    private String jupyter(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("jupyter"));
        command.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().put("JUPYTER_PATH", out.toString());
        Process process = builder.start();
        process.getOutputStream().close();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return said;
    }
}
