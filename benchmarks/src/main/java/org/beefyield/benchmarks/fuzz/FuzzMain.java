package org.beefyield.benchmarks.fuzz;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;

/**
 * Fuzzes the readers and the writer with any number of cases.
 *
 * <p>Run: {@code java -cp benchmarks/target/benchmarks.jar org.beefyield.benchmarks.fuzz.FuzzMain --cases 1000000 --seed
 * 1}; one case again: {@code --seed 1 --from 4711 --cases 1}. Exit code 0: everything held; 1: something didn't, the seeds
 * and cases are printed; 2: it could not run.
 */
public final class FuzzMain {
    private static final long BATCH = 10_000;

    private FuzzMain() {}

    /**
     * Runs and ends the virtual machine with the exit code.
     *
     * @param arguments {@code --cases N}, {@code --seed S}, {@code --from CASE}
     * @throws IOException if no scratch folder can be made
     */
    public static void main(String[] arguments) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        int code;
        try {
            code = run(List.of(arguments), out);
        } catch (NumberFormatException e) {
            out.println("options: --cases N --seed S --from CASE, whole numbers; " + e.getMessage());
            code = 2;
        }
        System.exit(code);
    }

    private static long option(List<String> arguments, String name, long otherwise) {
        int at = arguments.indexOf(name);
        return at < 0 || at + 1 == arguments.size() ? otherwise : Long.parseLong(arguments.get(at + 1));
    }

    private static int run(List<String> arguments, PrintStream out) throws IOException {
        long cases = option(arguments, "--cases", 20_000);
        long seed = option(arguments, "--seed", 1);
        long from = option(arguments, "--from", 0);
        long start = System.nanoTime();
        Path scratch = Files.createTempDirectory("fuzz");
        Fuzz fuzz = new Fuzz(seed, scratch);
        int printed = 0;
        for (long done = 0; done < cases; done += BATCH) {
            fuzz.run(from + done, Math.min(BATCH, cases - done));
            List<Fuzz.Failure> failures = fuzz.failures();
            failures.subList(printed, failures.size()).forEach(out::println);
            printed = failures.size();
            out.println(Math.min(cases, done + BATCH) + " cases, "
                    + fuzz.failures().size() + " failures, " + (System.nanoTime() - start) / 1_000_000_000 + " s");
        }
        for (String name : List.of("seed.zip", "mutated.zip", "written.zip", "written-again.zip")) {
            Files.deleteIfExists(scratch.resolve(name));
        }
        Files.delete(scratch);
        new TreeMap<>(fuzz.outcomes()).forEach((outcome, count) -> out.println(outcome + ": " + count));
        out.println("slowest: " + fuzz.slowest());
        return fuzz.failures().isEmpty() ? 0 : 1;
    }
}
