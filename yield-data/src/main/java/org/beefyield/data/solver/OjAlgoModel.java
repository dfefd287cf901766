package org.beefyield.data.solver;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.OptimumCheck;
import org.beefyield.lp.UnsolvedProgramException;
import org.jspecify.annotations.Nullable;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.ModelEntity;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.Optimisation.ConstraintType;
import org.ojalgo.optimisation.Variable;
import org.ojalgo.type.keyvalue.EntryPair;
import org.ojalgo.type.keyvalue.EntryPair.KeyedPrimitive;

/** All that touches ojAlgo. */
final class OjAlgoModel {
    /** Share of coefficients that aren't 0 from which the dual method is faster; a plan's own programs have far fewer. */
    private static final double DENSE = 0.02;

    /** Figures of a tableau for the primal method, 800 MB, beyond which it is left. */
    private static final double LARGEST_TABLEAU = 1e8;

    /** Iterations for each row and variable after which a method is taken to go round in a circle, as both sometimes do. */
    private static final long ITERATIONS = 20;

    /**
     * How often rows and columns are scaled, what is tried first first: unscaled, the dual method calls wrong corners of dense
     * programs of whole carcasses a maximum, and the primal one goes round in a circle there.
     */
    private static final List<Integer> SCALINGS = List.of(5, 10, 0);

    private OjAlgoModel() {}

    /** Ojalgo's two methods. */
    private enum Method {
        /** The primal simplex on a dense tableau: few and fast iterations where there are few coefficients. */
        PRIMAL,
        /** Phases of the dual and the primal simplex. */
        DUAL;

        Method other() {
            return this == PRIMAL ? DUAL : PRIMAL;
        }
    }

    /** Fails unless ojAlgo is there. */
    static void require() {
        Optimisation.newEnvironment();
    }

    /** A maximum that stands its check; that there is none is believed if two answers one after the other say so. */
    static LinearSolution solve(LinearProgram program) {
        Method faster = faster(program);
        UnsolvedProgramException failed = null;
        LinearSolution unsure = null;
        for (int scalings : SCALINGS) {
            for (Method method : List.of(faster, faster.other())) {
                try {
                    LinearSolution solution = solve(program, method, scalings);
                    if (solution.isOptimal()
                            ? OptimumCheck.of(solution).holds()
                            : unsure != null && unsure.status() == solution.status()) {
                        return solution;
                    }
                    unsure = solution;
                } catch (UnsolvedProgramException e) {
                    if (failed != null) {
                        e.addSuppressed(failed);
                    }
                    failed = e;
                }
            }
        }
        if (unsure != null) {
            return unsure;
        }
        throw Objects.requireNonNull(failed);
    }

    private static Method faster(LinearProgram program) {
        double rows = program.rows();
        double variables = program.variables();
        return program.terms() >= DENSE * rows * variables || rows * (variables + 2 * rows) > LARGEST_TABLEAU
                ? Method.DUAL
                : Method.PRIMAL;
    }

    private static LinearSolution solve(LinearProgram program, Method method, int scalings) {
        Optimisation.Options options = new Optimisation.Options();
        options.linear().equilibration(scalings);
        options.iterations_abort =
                (int) Math.min(Integer.MAX_VALUE, ITERATIONS * (program.rows() + program.variables()));
        if (method == Method.PRIMAL) {
            options.linear().primal();
        } else {
            options.linear().dual();
        }
        Optimisation.Environment environment = Optimisation.newEnvironment();
        // What they take out has no multipliers, and others have come out wrong.
        environment.clearPresolvers();
        return new Translation(program, environment.newModel(options)).solve();
    }

    /** A program as ojAlgo has it: without variables that have one value, a program of which alone it calls invalid. */
    private static final class Translation {
        /** How far a row that is nothing but such variables may lie off its bounds, as a share of them. */
        private static final double ROUNDING = 1e-9;

        private final LinearProgram program;
        private final ExpressionsBasedModel model;
        private final @Nullable Variable[] variables;
        private final double[] values;
        private final Map<String, Integer> rows = new HashMap<>();

        Translation(LinearProgram program, ExpressionsBasedModel model) {
            this.program = program;
            this.model = model;
            variables = new Variable[program.variables()];
            values = new double[program.variables()];
        }

        LinearSolution solve() {
            boolean fixed = true;
            for (int number = 0; number < variables.length; number++) {
                if (program.low(number) == program.high(number)) {
                    values[number] = program.low(number);
                } else {
                    Variable variable = model.newVariable("v" + number).weight(program.objective(number));
                    bound(variable, program.low(number), program.high(number));
                    variables[number] = variable;
                    fixed = false;
                }
            }
            for (int row = 0; row < program.rows(); row++) {
                if (!add(row)) {
                    return LinearSolution.infeasible(program);
                }
            }
            return fixed ? LinearSolution.optimal(program, values, new double[program.rows()]) : maximum();
        }

        /** Adds a row; false if it can't be met whatever the variables are. */
        private boolean add(int row) {
            double given = 0;
            Expression expression = null;
            for (int term = 0; term < program.terms(row); term++) {
                int number = program.termVariable(row, term);
                Variable variable = variables[number];
                if (variable == null) {
                    given += program.termCoefficient(row, term) * values[number];
                    continue;
                }
                if (expression == null) {
                    expression = model.newExpression("r" + row);
                    rows.put(expression.getName(), row);
                }
                expression.set(variable, program.termCoefficient(row, term));
            }
            double low = program.rowLow(row) - given;
            double high = program.rowHigh(row) - given;
            if (expression == null) {
                double off = ROUNDING * Math.max(1, Math.abs(given));
                return low <= off && high >= -off;
            }
            bound(expression, low, high);
            return true;
        }

        private static void bound(ModelEntity<?> entity, double low, double high) {
            if (low == high) {
                entity.level(low);
                return;
            }
            if (Double.isFinite(low)) {
                entity.lower(low);
            }
            if (Double.isFinite(high)) {
                entity.upper(high);
            }
        }

        private LinearSolution maximum() {
            Optimisation.Result result;
            try {
                result = model.maximise();
            } catch (RuntimeException e) {
                throw new UnsolvedProgramException("ojAlgo failed: " + e, e);
            }
            return switch (result.getState()) {
                case OPTIMAL, DISTINCT -> optimal(result);
                case INFEASIBLE -> LinearSolution.infeasible(program);
                case UNBOUNDED -> LinearSolution.unbounded(program);
                default -> throw new UnsolvedProgramException("ojAlgo ended without an answer: " + result.getState());
            };
        }

        private LinearSolution optimal(Optimisation.Result result) {
            int place = 0;
            for (int number = 0; number < values.length; number++) {
                if (variables[number] != null) {
                    values[number] = result.doubleValue(place++);
                }
            }
            return LinearSolution.optimal(program, values, multipliers(result));
        }

        /** Ojalgo's are 0 or more of bounds on either side; ours are so of bounds above. */
        private double[] multipliers(Optimisation.Result result) {
            double[] multipliers = new double[program.rows()];
            for (KeyedPrimitive<EntryPair<ModelEntity<?>, ConstraintType>> dual : result.getDualValues()) {
                EntryPair<ModelEntity<?>, ConstraintType> of = dual.getKey();
                Integer row = rows.get(of.left().getName());
                if (row != null) {
                    multipliers[row] += of.right() == ConstraintType.LOWER ? -dual.doubleValue() : dual.doubleValue();
                }
            }
            return multipliers;
        }
    }
}
