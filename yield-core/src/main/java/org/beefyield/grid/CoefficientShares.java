package org.beefyield.grid;

import java.util.List;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** Shares from coefficients: level, plain slopes, products and hinges. */
public final class CoefficientShares {
    private final Nodes nodes;
    private final List<Term> terms;
    private final ReferencePoint reference;
    private final double[][] constants;
    private final double[][] slopes;

    public CoefficientShares(Nodes nodes, List<Term> terms, ReferencePoint reference) {
        this.nodes = nodes;
        this.terms = terms;
        this.reference = reference;
        int columns = BreakdownRow.PLAIN_COLUMNS.size() + terms.size();
        this.constants = new double[columns][nodes.size()];
        this.slopes = new double[columns][nodes.size()];
        for (int i = 0; i < columns; i++) {
            int column = i;
            double[] unit = new double[columns];
            unit[column] = 1;
            nodes.forEach(node -> {
                constants[column][node] = share(unit, node);
                slopes[column][node] = slope(unit, node);
            });
        }
    }

    /** What coefficients give at the reference weight, in their unit. */
    public double share(double[] k, int node) {
        int conformation = nodes.conformation(node);
        int fat = nodes.fat(node);
        double c = conformation - reference.conformation();
        double f = fat - reference.fat();
        double share = k[0] + k[1] * c + k[2] * f;
        for (int i = 0; i < terms.size(); i++) {
            double coefficient = k[BreakdownRow.PLAIN_COLUMNS.size() + i];
            if (terms.get(i) instanceof Term.Hinge hinge) {
                int x = hinge.variable() == Variable.FAT ? fat : conformation;
                share += coefficient
                        * Math.max(0, hinge.side() == Term.Side.BELOW ? hinge.knot() - x : x - hinge.knot());
            } else if (terms.get(i) instanceof Term.Product product && !hasWeight(product)) {
                share += coefficient * c * f;
            }
        }
        return share;
    }

    /** Change of that per 100 kg. */
    public double slope(double[] k, int node) {
        int conformation = nodes.conformation(node);
        int fat = nodes.fat(node);
        double slope = k[3];
        for (int i = 0; i < terms.size(); i++) {
            if (terms.get(i) instanceof Term.Product product && hasWeight(product)) {
                boolean withFat = product.first() == Variable.FAT || product.second() == Variable.FAT;
                slope += k[BreakdownRow.PLAIN_COLUMNS.size() + i]
                        * (withFat ? fat - reference.fat() : conformation - reference.conformation());
            }
        }
        return slope;
    }

    /** The most that coefficients give in size, in their unit, at any node and any weight of a range. */
    public double most(double[] k, Range weightKg) {
        double[] most = {0};
        nodes.forEach(node -> {
            // a straight line in weight is farthest from 0 at an end
            for (double kg : new double[] {weightKg.low(), weightKg.high()}) {
                most[0] = Math.max(
                        most[0], Math.abs(share(k, node) + slope(k, node) * (kg - reference.weightKg()) / 100));
            }
        });
        return most[0];
    }

    /** What a coefficient column is multiplied by at a node at the reference weight. */
    double constant(int column, int node) {
        return constants[column][node];
    }

    /** What it is multiplied by per 100 kg. */
    double slopeOf(int column, int node) {
        return slopes[column][node];
    }

    private static boolean hasWeight(Term.Product product) {
        return product.first() == Variable.WEIGHT || product.second() == Variable.WEIGHT;
    }
}
