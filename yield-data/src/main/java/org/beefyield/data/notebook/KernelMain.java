package org.beefyield.data.notebook;

import java.io.IOException;
import java.io.PrintStream;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.List;
import java.util.Locale;
import org.dflib.jjava.jupyter.channels.JupyterConnection;
import org.dflib.jjava.jupyter.kernel.KernelConnectionProperties;

/**
 * Entry of the kernel's jar: installs it for Jupyter or, with a connection file as its argument, runs it, which is what Jupyter
 * does. Exit code 0: installed; 2: it could not.
 */
final class KernelMain {
    static final String USAGE = """
            Installs the Java kernel with beefyield for Jupyter. The jar is copied, so that it stays when this one is gone.
              --install                    for you alone
              --install --prefix FOLDER    for the Python whose sys.prefix this is, such as a virtual environment
              --install --name NAME        under another name than beefyield
              --uninstall [--prefix FOLDER] [--name NAME]
                                           takes it away
            Exit code 0: all good; 2: it could not.
            """;

    private static final int COULD_NOT = 2;

    private KernelMain() {}

    /**
     * Runs the kernel, or installs it.
     *
     * @param arguments a connection file or options
     * @throws IOException if the connection file can't be read
     * @throws GeneralSecurityException if messages can't be signed as it says
     */
    public static void main(String[] arguments) throws IOException, GeneralSecurityException {
        if (arguments.length == 1 && !arguments[0].startsWith("-")) {
            serve(Path.of(arguments[0]));
        } else {
            PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
            PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
            System.exit(run(List.of(arguments), jar(), out, err));
        }
    }

    private static void serve(Path file) throws IOException, GeneralSecurityException {
        JupyterConnection connection = new JupyterConnection(KernelConnectionProperties.parse(Files.readString(file)));
        NotebookKernel kernel = new NotebookKernel();
        kernel.becomeHandlerForConnection(connection);
        kernel.onStartup();
        connection.connect();
        connection.waitUntilClose();
    }

    private static Path jar() throws IOException {
        try {
            return Path.of(KernelMain.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toURI());
        } catch (URISyntaxException e) {
            throw new IOException(e);
        }
    }

    static int run(List<String> arguments, Path jar, PrintStream out, PrintStream err) {
        if (arguments.contains("--help")) {
            out.print(USAGE);
            return 0;
        }
        String prefix = "";
        String name = KernelSpec.NAME;
        String action = "";
        for (int i = 0; i < arguments.size(); i++) {
            String argument = arguments.get(i);
            String next = i + 1 < arguments.size() ? arguments.get(i + 1) : "";
            switch (argument) {
                case "--install", "--uninstall" -> {
                    if (!action.isEmpty()) {
                        return refused(err, argument + " beside " + action + "; one of the two");
                    }
                    action = argument;
                }
                case "--prefix", "--name" -> {
                    if (next.isEmpty() || next.startsWith("-")) {
                        return refused(err, argument + " needs a value");
                    }
                    prefix = argument.equals("--prefix") ? next : prefix;
                    name = argument.equals("--name") ? next : name;
                    i++;
                }
                default -> {
                    return refused(err, "unknown option \"" + argument + '"');
                }
            }
        }
        if (action.isEmpty()) {
            return refused(err, "--install is missing");
        }
        if (!name.matches("[a-z0-9][a-z0-9._-]*")) {
            return refused(
                    err, "--name \"" + name + "\" is not lower-case letters, digits, . _ and - such as beefyield");
        }
        if (!Files.isRegularFile(jar)) {
            return refused(err, "the kernel is installed from its jar, the one whose name ends in -kernel.jar");
        }
        try {
            Path data = prefix.isEmpty()
                    ? KernelSpec.userData(
                            System.getenv(), System.getProperty("os.name"), System.getProperty("user.home"))
                    : Path.of(prefix, "share", "jupyter");
            Path folder = data.toAbsolutePath().resolve("kernels").resolve(name);
            if (action.equals("--install")) {
                KernelSpec.install(jar, folder, Path.of(System.getProperty("java.home")));
                out.println("Installed as " + name + " in " + folder);
                out.println("Now: jupyter lab, and choose the kernel \"" + KernelSpec.DISPLAY_NAME + '"');
            } else {
                out.println((KernelSpec.uninstall(folder) ? "Taken away: " : "There was none: ") + folder);
            }
            return 0;
        } catch (FileSystemException e) {
            String reason =
                    e.getReason() == null ? e.getClass().getSimpleName().toLowerCase(Locale.ROOT) : e.getReason();
            err.println(e.getFile() + ": can't be written (" + reason + ")");
        } catch (IOException e) {
            err.println(e.getMessage());
        }
        return COULD_NOT;
    }

    private static int refused(PrintStream err, String message) {
        err.println(message);
        err.print(USAGE);
        return COULD_NOT;
    }
}
