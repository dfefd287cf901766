import com.google.ortools.Loader;
import com.google.ortools.linearsolver.MPConstraint;
import com.google.ortools.linearsolver.MPObjective;
import com.google.ortools.linearsolver.MPSolver;
import com.google.ortools.linearsolver.MPVariable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Solves a linear program by solvers of OR-tools: FILE ROUNDS; prints solver, maximum and seconds of each round. */
public final class PlanOrTools {
    private PlanOrTools() {}

    public static void main(String[] args) throws Exception {
        Loader.loadNativeLibraries();
        List<String> lines = Files.readAllLines(Path.of(args[0]));
        for (String name : new String[] {"CLP", "GLOP", "HIGHS_LP"}) {
            StringBuilder times = new StringBuilder();
            double maximum = Double.NaN;
            for (int round = 0; round <= Integer.parseInt(args[1]); round++) {
                MPSolver solver = MPSolver.createSolver(name);
                if (solver == null) {
                    break;
                }
                fill(solver, lines);
                long start = System.nanoTime();
                if (solver.solve() != MPSolver.ResultStatus.OPTIMAL) {
                    throw new IllegalStateException(name + " found no maximum");
                }
                times.append(',').append((System.nanoTime() - start) / 1e9);
                maximum = solver.objective().value();
                solver.delete();
            }
            if (times.length() > 0) {
                System.out.println("OR-tools " + name + "," + maximum + times);
            }
        }
    }

    private static void fill(MPSolver solver, List<String> lines) {
        String[] sizes = lines.get(0).split(" ");
        MPVariable[] variables = new MPVariable[Integer.parseInt(sizes[0])];
        MPObjective objective = solver.objective();
        objective.setMaximization();
        for (int variable = 0; variable < variables.length; variable++) {
            String[] words = lines.get(1 + variable).split(" ");
            variables[variable] = solver.makeNumVar(Double.parseDouble(words[0]), Double.parseDouble(words[1]), "");
            objective.setCoefficient(variables[variable], Double.parseDouble(words[2]));
        }
        for (int row = 0; row < Integer.parseInt(sizes[1]); row++) {
            String[] words = lines.get(1 + variables.length + row).split(" ");
            MPConstraint constraint =
                    solver.makeConstraint(Double.parseDouble(words[0]), Double.parseDouble(words[1]), "");
            for (int word = 3; word < words.length; word += 2) {
                constraint.setCoefficient(variables[Integer.parseInt(words[word])], Double.parseDouble(words[word + 1]));
            }
        }
    }
}
