package org.beefyield.data.notebook;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.Map;
import java.util.Objects;
import jdk.jshell.execution.LocalExecutionControl;
import jdk.jshell.spi.ExecutionControl;
import jdk.jshell.spi.ExecutionControlProvider;
import jdk.jshell.spi.ExecutionEnv;
import org.jspecify.annotations.Nullable;

/**
 * Runs snippets in this process, each in a thread that can be stopped, and keeps the last value. What it stands on stops a
 * thread wherever it is on JDK 17, and on newer ones in the code of cells and where a thread waits.
 */
final class LiveControl extends LocalExecutionControl implements ExecutionControlProvider {
    private static final Method RUN = run();

    /** The one that runs; a kernel has one cell at a time, and the thread of a snippet is not ours. */
    private static volatile @Nullable LiveControl running;

    private @Nullable Method snippet;
    private volatile @Nullable Object value;

    private static Method run() {
        try {
            Method run = LiveControl.class.getDeclaredMethod("runSnippet");
            // called from the JDK's package, and this class is this package's own
            run.setAccessible(true);
            return run;
        } catch (NoSuchMethodException e) {
            throw new IllegalStateException(e);
        }
    }

    /** What the last snippet gave. */
    @Nullable
    Object value() {
        return value;
    }

    /** LocalExecutionControl makes a text of what a method gives, and keeps nothing else: so it runs one that keeps it. */
    @Override
    protected String invoke(Method method) throws Exception {
        snippet = method;
        value = null;
        running = this;
        return super.invoke(RUN);
    }

    /** Called as {@link #RUN} in the thread of a snippet, gives what the snippet gave and throws what it threw. */
    @SuppressWarnings("UnusedMethod")
    private static @Nullable Object runSnippet() throws Throwable {
        LiveControl control = Objects.requireNonNull(running);
        try {
            Object given = Objects.requireNonNull(control.snippet).invoke(null);
            control.value = given;
            return given;
        } catch (InvocationTargetException e) {
            throw e.getCause() == null ? e : e.getCause();
        }
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
