package org.beefyield.data.notebook;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import jdk.jshell.EvalException;
import jdk.jshell.JShell;
import jdk.jshell.JShellException;
import jdk.jshell.Snippet;
import jdk.jshell.SnippetEvent;
import jdk.jshell.SourceCodeAnalysis.Completeness;
import jdk.jshell.SourceCodeAnalysis.CompletionInfo;
import jdk.jshell.SourceCodeAnalysis.Documentation;
import jdk.jshell.SourceCodeAnalysis.Suggestion;
import org.dflib.jjava.jupyter.kernel.BaseKernel;
import org.dflib.jjava.jupyter.kernel.JupyterIO;
import org.dflib.jjava.jupyter.kernel.LanguageInfo;
import org.dflib.jjava.jupyter.kernel.ReplacementOptions;
import org.dflib.jjava.jupyter.kernel.comm.CommManager;
import org.dflib.jjava.jupyter.kernel.display.DisplayData;
import org.dflib.jjava.jupyter.kernel.display.Renderer;
import org.dflib.jjava.jupyter.kernel.magic.MagicsRegistry;
import org.dflib.jjava.jupyter.kernel.util.StringStyler;
import org.jspecify.annotations.Nullable;

/**
 * A Jupyter kernel that evaluates cells of plain Java with JShell in its own process, so that the value of a cell is a live
 * object. It completes names, and stops a cell without losing what earlier ones made. It knows no magic: what a notebook
 * needs stands on the class path that the kernel was started with.
 */
class NotebookKernel extends BaseKernel {
    private static final Set<Snippet.SubKind> SHOWN = Set.of(
            Snippet.SubKind.VAR_VALUE_SUBKIND,
            Snippet.SubKind.OTHER_EXPRESSION_SUBKIND,
            Snippet.SubKind.TEMP_VAR_EXPRESSION_SUBKIND);

    private static final int MOST_STOPS = 100;
    private static final int PAUSE_MILLIS = 50;

    private final LiveControl control = new LiveControl();
    private final JShell shell =
            JShell.builder().executionEngine(control, Map.of()).build();
    private volatile boolean interrupted;
    private volatile boolean running;

    @SuppressWarnings("NullAway") // no history, no magic
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
    public @Nullable Object evalRaw(String cell) {
        interrupted = false;
        running = true;
        try {
            return evalSnippets(cell);
        } finally {
            running = false;
        }
    }

    private @Nullable Object evalSnippets(String cell) {
        Object shown = null;
        String rest = cell;
        while (!rest.isBlank()) {
            CompletionInfo next = shell.sourceCodeAnalysis().analyzeCompletion(rest);
            List<SnippetEvent> events = shell.eval(next.completeness().isComplete() ? next.source() : rest);
            if (interrupted) {
                throw new CancellationException("The cell was interrupted; what was made before is still there");
            }
            for (SnippetEvent event : events) {
                // what a later declaration does to an earlier one needs no word
                if (event.causeSnippet() == null) {
                    check(event);
                    shown = SHOWN.contains(event.snippet().subKind()) ? control.value() : null;
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

    /** Stops the cell that is running, and what the kernel holds stays. Called while {@link #evalRaw} runs elsewhere. */
    @Override
    public void interrupt() {
        interrupted = true;
        // a stop between two snippets of a cell stops neither: so it is said until it is heard
        for (int told = 0; running && told < MOST_STOPS; told++) {
            shell.stop();
            try {
                Thread.sleep(PAUSE_MILLIS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    @Override
    public @Nullable ReplacementOptions complete(String code, int at) {
        int start = snippetStart(code, at);
        String snippet = code.substring(start, at);
        int[] anchor = new int[1];
        List<Suggestion> suggestions =
                shell.sourceCodeAnalysis().completionSuggestions(snippet, snippet.length(), anchor);
        // those of the type that is wanted first
        List<String> names = new ArrayList<>();
        for (boolean wanted : new boolean[] {true, false}) {
            suggestions.stream()
                    .filter(suggestion -> suggestion.matchesType() == wanted)
                    .map(Suggestion::continuation)
                    .distinct()
                    .sorted()
                    .filter(name -> !names.contains(name))
                    .forEach(names::add);
        }
        return names.isEmpty() ? null : new ReplacementOptions(names, start + anchor[0], at);
    }

    @Override
    public @Nullable DisplayData inspect(String code, int at, boolean extraDetail) {
        int start = snippetStart(code, at);
        String found = shell.sourceCodeAnalysis().documentation(code.substring(start), at - start, false).stream()
                .map(Documentation::signature)
                .collect(Collectors.joining("\n"));
        return found.isEmpty() ? null : new DisplayData(found);
    }

    /** Where the snippet begins in which the cursor stands; JShell looks at one at a time. */
    private int snippetStart(String code, int at) {
        int start = 0;
        while (true) {
            String rest = code.substring(start, at);
            CompletionInfo next = shell.sourceCodeAnalysis().analyzeCompletion(rest);
            if (next.completeness() != Completeness.COMPLETE || next.remaining().isBlank()) {
                return start;
            }
            start = at - next.remaining().length();
        }
    }

    @Override
    public String isComplete(String code) {
        String rest = code;
        while (!rest.isBlank()) {
            CompletionInfo next = shell.sourceCodeAnalysis().analyzeCompletion(rest);
            if (!next.completeness().isComplete()) {
                // what can't be completed says so when it is run
                return next.completeness() == Completeness.UNKNOWN ? IS_COMPLETE_MAYBE : "";
            }
            rest = next.remaining();
        }
        return IS_COMPLETE_YES;
    }

    @Override
    public void onShutdown(boolean isRestarting) {
        super.onShutdown(isRestarting);
        shell.close();
    }
}
