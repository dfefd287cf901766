package org.beefyield.data.notebook;

import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import jdk.jshell.EvalException;
import jdk.jshell.JShell;
import jdk.jshell.JShellException;
import jdk.jshell.Snippet;
import jdk.jshell.SnippetEvent;
import jdk.jshell.SourceCodeAnalysis;
import jdk.jshell.execution.DirectExecutionControl;
import jdk.jshell.spi.ExecutionControl;
import jdk.jshell.spi.ExecutionControlProvider;
import jdk.jshell.spi.ExecutionEnv;
import org.dflib.jjava.jupyter.channels.JupyterConnection;
import org.dflib.jjava.jupyter.kernel.BaseKernel;
import org.dflib.jjava.jupyter.kernel.JupyterIO;
import org.dflib.jjava.jupyter.kernel.KernelConnectionProperties;
import org.dflib.jjava.jupyter.kernel.LanguageInfo;
import org.dflib.jjava.jupyter.kernel.ReplacementOptions;
import org.dflib.jjava.jupyter.kernel.comm.CommManager;
import org.dflib.jjava.jupyter.kernel.display.DisplayData;
import org.dflib.jjava.jupyter.kernel.display.Renderer;
import org.dflib.jjava.jupyter.kernel.magic.MagicsRegistry;
import org.dflib.jjava.jupyter.kernel.util.StringStyler;

/**
 * A Jupyter kernel that evaluates cells of plain Java with JShell in its own process, so that the value of a cell is a live
 * object. It knows no magic: what a notebook needs stands on the class path that the kernel was started with.
 */
class NotebookKernel extends BaseKernel {
    private static final Set<Snippet.SubKind> SHOWN = Set.of(
            Snippet.SubKind.VAR_VALUE_SUBKIND,
            Snippet.SubKind.OTHER_EXPRESSION_SUBKIND,
            Snippet.SubKind.TEMP_VAR_EXPRESSION_SUBKIND);

    /** Runs snippets in this process and keeps the last value. */
    private static final class LiveControl extends DirectExecutionControl implements ExecutionControlProvider {
        private Object value;

        @Override
        protected String invoke(Method method) throws Exception {
            value = method.invoke(null);
            return valueString(value);
        }

        @Override
        public String name() {
            return "live";
        }

        @Override
        public ExecutionControl generate(ExecutionEnv environment, Map<String, String> parameters) {
            return this;
        }
    }

    private final LiveControl control = new LiveControl();
    private final JShell shell =
            JShell.builder().executionEngine(control, Map.of()).build();

    NotebookKernel() {
        super(
                "beefyield",
                "1",
                new LanguageInfo.Builder("Java")
                        .version(System.getProperty("java.specification.version"))
                        .mimetype("text/x-java-source")
                        .fileExtension(".jshell")
                        .pygments("java")
                        .codemirror("text/x-java")
                        .build(),
                List.of(),
                null,
                new JupyterIO(StandardCharsets.UTF_8),
                new CommManager(),
                new Renderer(),
                null,
                new MagicsRegistry(),
                true,
                new StringStyler.Builder().build());
        shell.addToClasspath(System.getProperty("java.class.path"));
        evalRaw("import static org.dflib.jjava.jupyter.kernel.BaseNotebookStatics.display;");
    }

    @Override
    public Object evalRaw(String cell) {
        Object shown = null;
        String rest = cell;
        while (!rest.isBlank()) {
            SourceCodeAnalysis.CompletionInfo next = shell.sourceCodeAnalysis().analyzeCompletion(rest);
            for (SnippetEvent event : shell.eval(next.completeness().isComplete() ? next.source() : rest)) {
                // what a later declaration does to an earlier one needs no word
                if (event.causeSnippet() == null) {
                    check(event);
                    shown = SHOWN.contains(event.snippet().subKind()) ? control.value : null;
                }
            }
            rest = next.remaining();
        }
        return shown;
    }

    private void check(SnippetEvent event) {
        if (event.status() == Snippet.Status.REJECTED || event.status() == Snippet.Status.RECOVERABLE_NOT_DEFINED) {
            throw new IllegalArgumentException(event.snippet().source().strip() + "\n"
                    + shell.diagnostics(event.snippet())
                            .map(diagnostic -> diagnostic.getMessage(Locale.ROOT))
                            .collect(Collectors.joining("\n")));
        }
        JShellException thrown = event.exception();
        if (thrown != null) {
            String type = thrown instanceof EvalException evaluated ? evaluated.getExceptionClassName() + ": " : "";
            throw new IllegalStateException(type + thrown.getMessage(), thrown);
        }
    }

    @Override
    public DisplayData inspect(String code, int at, boolean extraDetail) {
        return null;
    }

    @Override
    public ReplacementOptions complete(String code, int at) {
        return null;
    }

    @Override
    public String isComplete(String code) {
        return IS_COMPLETE_MAYBE;
    }

    @Override
    public void onShutdown(boolean isRestarting) {
        super.onShutdown(isRestarting);
        shell.close();
    }

    public static void main(String[] arguments) throws IOException, GeneralSecurityException {
        JupyterConnection connection =
                new JupyterConnection(KernelConnectionProperties.parse(Files.readString(Path.of(arguments[0]))));
        NotebookKernel kernel = new NotebookKernel();
        kernel.becomeHandlerForConnection(connection);
        kernel.onStartup();
        connection.connect();
        connection.waitUntilClose();
    }
}
