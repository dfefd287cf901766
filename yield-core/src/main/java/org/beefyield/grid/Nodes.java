package org.beefyield.grid;

import java.util.function.IntConsumer;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.table.definition.GradeAxis;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;

/**
 * The nodes of a table, where a step of conformation and a step of fat cross, each as one number from 0: all of the axes are
 * numbered, and those of a range are gone through. Immutable.
 */
public final class Nodes {
    private final GradeAxes axes;
    private final int fatSteps;
    private final int lowConformation;
    private final int highConformation;
    private final int lowFat;
    private final int highFat;

    public Nodes(GradeAxes axes, TableRange range) {
        this.axes = axes;
        fatSteps = axes.fat().last();
        lowConformation = (int) Math.ceil(range.conformation().low());
        highConformation = (int) Math.floor(range.conformation().high());
        lowFat = (int) Math.ceil(range.fat().low());
        highFat = (int) Math.floor(range.fat().high());
    }

    /** How many nodes the axes have: the length of an array by node. */
    public int size() {
        return axes.conformation().last() * fatSteps;
    }

    /** How many nodes lie in the range. */
    public int inRange() {
        return (highConformation - lowConformation + 1) * (highFat - lowFat + 1);
    }

    public int lowConformation() {
        return lowConformation;
    }

    public int highConformation() {
        return highConformation;
    }

    public int lowFat() {
        return lowFat;
    }

    public int highFat() {
        return highFat;
    }

    /** The node of two steps. */
    public int at(int conformation, int fat) {
        return (conformation - GradeAxis.FIRST) * fatSteps + fat - GradeAxis.FIRST;
    }

    public int conformation(int node) {
        return node / fatSteps + GradeAxis.FIRST;
    }

    public int fat(int node) {
        return node % fatSteps + GradeAxis.FIRST;
    }

    /** Whether a number is that of a node in the range. */
    public boolean contains(int node) {
        return node >= 0 && node < size() && contains(conformation(node), fat(node));
    }

    /** Whether two positions, whole or not, lie in the range. */
    public boolean contains(double conformation, double fat) {
        return conformation >= lowConformation && conformation <= highConformation && fat >= lowFat && fat <= highFat;
    }

    /** The next node of the range in one variable, or -1 behind the last; in weight it is the node itself. */
    public int next(int node, Variable variable) {
        int conformation = conformation(node) + (variable == Variable.CONFORMATION ? 1 : 0);
        int fat = fat(node) + (variable == Variable.FAT ? 1 : 0);
        return contains(conformation, fat) ? at(conformation, fat) : -1;
    }

    /** The grades of a node, such as {@code E+ 1-}. */
    public String grades(int node) {
        return axes.conformation().step(conformation(node)) + " " + axes.fat().step(fat(node));
    }

    /** Goes through the nodes of the range in the order of their numbers. */
    public void forEach(IntConsumer visitor) {
        for (int c = lowConformation; c <= highConformation; c++) {
            for (int f = lowFat; f <= highFat; f++) {
                visitor.accept(at(c, f));
            }
        }
    }

    /** Takes a node and the part it has in a place between nodes. */
    public interface Corner {
        /**
         * Takes a node.
         *
         * @param node the node
         * @param weight its bilinear weight, above 0
         */
        void at(int node, double weight);
    }

    /**
     * The nodes around a place in the range and their bilinear weights: one, two or four nodes.
     *
     * @throws IllegalArgumentException if a position is outside the range
     */
    public void corners(double conformation, double fat, Corner corner) {
        check(conformation, fat);
        int c = (int) conformation;
        int f = (int) fat;
        double dc = conformation - c;
        double df = fat - f;
        corner.at(at(c, f), (1 - dc) * (1 - df));
        if (dc > 0) {
            corner.at(at(c + 1, f), dc * (1 - df));
        }
        if (df > 0) {
            corner.at(at(c, f + 1), (1 - dc) * df);
        }
        if (dc > 0 && df > 0) {
            corner.at(at(c + 1, f + 1), dc * df);
        }
    }

    /**
     * Refuses positions outside the range.
     *
     * @throws IllegalArgumentException if one is
     */
    void check(double conformation, double fat) {
        if (!contains(conformation, fat)) {
            throw new IllegalArgumentException(
                    "conformation " + conformation + " or fat " + fat + " is outside the grid of this table");
        }
    }
}
