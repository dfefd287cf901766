package org.beefyield.data.solver;

import java.util.HashMap;
import java.util.Map;
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

    static LinearSolution solve(LinearProgram program) {
        Method method = faster(program);
        try {
            LinearSolution solution = solve(program, method);
            if (!solution.isOptimal() || OptimumCheck.of(solution).holds()) {
                return solution;
            }
        } catch (UnsolvedProgramException e) {
            return again(program, method.other(), e);
        }
        return again(program, method.other(), null);
    }

    private static LinearSolution again(
            LinearProgram program, Method method, @Nullable UnsolvedProgramException before) {
        try {
            return solve(program, method);
        } catch (UnsolvedProgramException e) {
            if (before != null) {
                e.addSuppressed(before);
            }
            throw e;
        }
    }

    private static Method faster(LinearProgram program) {
        double rows = program.rows();
        double variables = program.variables();
        return program.terms() >= DENSE * rows * variables || rows * (variables + 2 * rows) > LARGEST_TABLEAU
                ? Method.DUAL
                : Method.PRIMAL;
    }

    private static LinearSolution solve(LinearProgram program, Method method) {
        Optimisation.Options options = new Optimisation.Options();
        if (method == Method.PRIMAL) {
            options.linear().primal();
        } else {
            options.linear().dual();
        }
        Optimisation.Environment environment = Optimisation.newEnvironment();
        // What they take out has no multipliers, and others have come out wrong.
        environment.clearPresolvers();
        ExpressionsBasedModel model = environment.newModel(options);
        Map<String, Integer> rows = fill(model, program);
        Optimisation.Result result;
        try {
            result = model.maximise();
        } catch (RuntimeException e) {
            throw new UnsolvedProgramException("ojAlgo failed: " + e, e);
        }
        return switch (result.getState()) {
            case OPTIMAL, DISTINCT -> LinearSolution.optimal(
                    program, values(result, program.variables()), multipliers(result, rows));
            case INFEASIBLE -> LinearSolution.infeasible(program);
            case UNBOUNDED -> LinearSolution.unbounded(program);
            default -> throw new UnsolvedProgramException(
                    "ojAlgo ended without an answer: " + result.getState());
        };
    }

    private static Map<String, Integer> fill(ExpressionsBasedModel model, LinearProgram program) {
        Variable[] variables = new Variable[program.variables()];
        for (int number = 0; number < variables.length; number++) {
            Variable variable = model.newVariable("v" + number).weight(program.objective(number));
            bound(variable, program.low(number), program.high(number));
            variables[number] = variable;
        }
        Map<String, Integer> rows = new HashMap<>();
        for (int row = 0; row < program.rows(); row++) {
            Expression expression = model.newExpression("r" + row);
            for (int term = 0; term < program.terms(row); term++) {
                expression.set(variables[program.termVariable(row, term)], program.termCoefficient(row, term));
            }
            bound(expression, program.rowLow(row), program.rowHigh(row));
            rows.put(expression.getName(), row);
        }
        return rows;
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

    private static double[] values(Optimisation.Result result, int size) {
        double[] values = new double[size];
        for (int variable = 0; variable < size; variable++) {
            values[variable] = result.doubleValue(variable);
        }
        return values;
    }

    /** Ojalgo's are 0 or more of bounds on either side; ours are so of bounds above. */
    private static double[] multipliers(Optimisation.Result result, Map<String, Integer> rows) {
        double[] multipliers = new double[rows.size()];
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
