package org.beefyield.benchmarks.plan;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;

/**
 * Solves programs of the form of a plan by ojAlgo, each answer checked, and by other solvers in the same run; says how many times
 * as long ojAlgo takes. All must find the same maximum.
 *
 * <p>Run: {@code benchmarks/plan-solve}, which writes {@code benchmarks/plan-solve.csv}.
 */
public final class SolverStudy {
    /** How far maxima may differ, as a share of them. */
    static final double TOLERANCE = 1e-7;

    private SolverStudy() {}

    /**
     * What is solved.
     *
     * @param form by cell and primal or by group
     * @param size number of cells or groups
     * @param orders number of orders
     */
    record Plan(String form, int size, int orders) {
        LinearProgram program() {
            return form.equals("cells")
                    ? PlanPrograms.byCell(size, orders, 1)
                    : PlanPrograms.byGroup(size, 10, 60, orders, 1);
        }
    }

    /** From what a plan really solves to what it would be without cells. */
    static final List<Plan> PLANS = List.of(
            new Plan("cells", 15, 40),
            new Plan("cells", 30, 40),
            new Plan("cells", 15, 100),
            new Plan("cells", 40, 100),
            new Plan("groups", 200, 40),
            new Plan("groups", 500, 100));

    /**
     * What a solver did.
     *
     * @param solver name and version
     * @param objective maximum that it found
     * @param first seconds of the first time
     * @param median seconds of the times after that
     */
    record Outcome(String solver, double objective, double first, double median) {
        static Outcome of(String solver, double objective, double... seconds) {
            double[] after = Arrays.stream(seconds).skip(1).sorted().toArray();
            return new Outcome(solver, objective, seconds[0], after[after.length / 2]);
        }

        /** From a line: solver, objective, seconds. */
        static Outcome parse(String line) {
            String[] cells = line.split(",");
            return of(
                    cells[0],
                    Double.parseDouble(cells[1]),
                    Stream.of(cells).skip(2).mapToDouble(Double::parseDouble).toArray());
        }
    }

    static Outcome solve(LinearProgram program, int rounds) {
        LinearSolver solver = CheckedSolver.of(OjAlgoSolver.create());
        double[] seconds = new double[rounds + 1];
        double objective = Double.NaN;
        for (int round = 0; round < seconds.length; round++) {
            long start = System.nanoTime();
            LinearSolution solution = solver.solve(program);
            seconds[round] = (System.nanoTime() - start) / 1e9;
            objective = solution.objective();
        }
        return Outcome.of("ojAlgo", objective, seconds);
    }

    /** The outcomes that a peer prints, a line each; none if it can't run. */
    private static List<Outcome> peer(List<String> command) throws IOException, InterruptedException {
        Process process;
        try {
            process = new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException absent) {
            System.out.println("skipped: " + command.get(0) + " is not installed");
            return List.of();
        }
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (process.waitFor() != 0) {
            System.out.println("skipped: " + command + " ended with " + process.exitValue());
            return List.of();
        }
        // HiGHS has its say in between.
        return output.lines()
                .filter(line -> line.startsWith("OR-tools ") || line.startsWith("SciPy "))
                .map(Outcome::parse)
                .toList();
    }

    /** Numbers of variables and rows; bounds and objective of each variable; bounds of each row, number of terms, terms. */
    static void write(LinearProgram program, Path file) throws IOException {
        try (BufferedWriter writer = Files.newBufferedWriter(file)) {
            writer.write(program.variables() + " " + program.rows() + "\n");
            for (int variable = 0; variable < program.variables(); variable++) {
                writer.write(program.low(variable) + " " + program.high(variable) + " " + program.objective(variable)
                        + "\n");
            }
            for (int row = 0; row < program.rows(); row++) {
                writer.write(program.rowLow(row) + " " + program.rowHigh(row) + " " + program.terms(row));
                for (int term = 0; term < program.terms(row); term++) {
                    writer.write(" " + program.termVariable(row, term) + " " + program.termCoefficient(row, term));
                }
                writer.write("\n");
            }
        }
    }

    /**
     * Writes the results.
     *
     * @param args file of the results, rounds, folder of OR-tools' jars, folder of the peers
     * @throws IOException if something can't be written
     * @throws InterruptedException if it is interrupted
     */
    public static void main(String[] args) throws IOException, InterruptedException {
        int rounds = Integer.parseInt(args[1]);
        // So that the first program isn't solved by code that has never run.
        solve(PLANS.get(0).program(), rounds);
        List<String> lines = new ArrayList<>();
        lines.add(
                "form,size,orders,variables,rows,terms,solver,maximum,first_seconds,median_seconds,ojalgo_times_as_long");
        for (Plan plan : PLANS) {
            LinearProgram program = plan.program();
            Path file = Files.createTempFile("plan", ".txt");
            write(program, file);
            Outcome ours = solve(program, rounds);
            List<Outcome> all = new ArrayList<>(List.of(ours));
            all.addAll(peer(List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-cp",
                    Path.of(args[2], "*").toString(),
                    Path.of(args[3], "PlanOrTools.java").toString(),
                    file.toString(),
                    args[1])));
            all.addAll(
                    peer(List.of("python3", Path.of(args[3], "plan_highs.py").toString(), file.toString(), args[1])));
            Files.delete(file);
            for (Outcome outcome : all) {
                if (!(Math.abs(outcome.objective() - ours.objective()) <= TOLERANCE * Math.abs(ours.objective()))) {
                    throw new IllegalStateException(outcome + " doesn't agree with " + ours + " of " + plan);
                }
                String line = String.format(
                        Locale.ROOT,
                        "%s,%d,%d,%d,%d,%d,%s,%.6f,%.3f,%.3f,%.1f",
                        plan.form(),
                        plan.size(),
                        plan.orders(),
                        program.variables(),
                        program.rows(),
                        program.terms(),
                        outcome.solver(),
                        outcome.objective(),
                        outcome.first(),
                        outcome.median(),
                        ours.median() / outcome.median());
                System.out.println(line);
                lines.add(line);
            }
        }
        Files.write(Path.of(args[0]), lines);
    }
}
