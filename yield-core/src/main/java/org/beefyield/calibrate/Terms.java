package org.beefyield.calibrate;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** The values that the coefficients of a table are multiplied by, in the order of its columns. */
final class Terms {
    private final List<Term> optional;
    private final ReferencePoint reference;
    final List<String> columns;

    Terms(TableDefinition definition) {
        this.optional = definition.terms();
        this.reference = definition.reference();
        this.columns = definition.coefficientColumns();
    }

    double[] of(Carcass carcass) {
        return of(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg());
    }

    double[] of(double conformation, double fat, double weightKg) {
        double[] x = new double[columns.size()];
        x[0] = 1;
        x[1] = conformation - reference.conformation();
        x[2] = fat - reference.fat();
        x[3] = (weightKg - reference.weightKg()) / 100;
        for (int i = 0; i < optional.size(); i++) {
            x[BreakdownRow.PLAIN_COLUMNS.size() + i] = value(optional.get(i), conformation, fat, x);
        }
        return x;
    }

    /** What coefficients, columns by children or parts, make of terms. */
    static double[] shares(double[][] coefficients, double[] terms) {
        double[] shares = new double[coefficients[0].length];
        for (int j = 0; j < coefficients.length; j++) {
            for (int k = 0; k < shares.length; k++) {
                shares[k] += terms[j] * coefficients[j][k];
            }
        }
        return shares;
    }

    // hinges stand at whole positions, so that this is the table's grid between its nodes too
    private static double value(Term term, double conformation, double fat, double[] x) {
        if (term instanceof Term.Hinge hinge) {
            double position = hinge.variable() == Variable.FAT ? fat : conformation;
            return Math.max(0, hinge.side() == Term.Side.BELOW ? hinge.knot() - position : position - hinge.knot());
        }
        Term.Product product = (Term.Product) term;
        return plain(product.first(), x) * plain(product.second(), x);
    }

    private static double plain(Variable variable, double[] x) {
        return switch (variable) {
            case CONFORMATION -> x[1];
            case FAT -> x[2];
            case WEIGHT -> x[3];
        };
    }
}
