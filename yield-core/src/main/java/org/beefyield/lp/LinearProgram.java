package org.beefyield.lp;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;

/**
 * A linear program: values of variables within their bounds that meet all rows and make the objective as high as it can be.
 * A row is a sum of variables times coefficients that has a bound below, above, on both sides, or one value for both.
 * Variables and rows have names, and numbers from 0 in the order in which they were added.
 */
public final class LinearProgram {
    private final List<String> variableNames;
    private final List<String> rowNames;
    private final Map<String, Integer> variables;
    private final Map<String, Integer> rows;
    private final double[] low;
    private final double[] high;
    private final double[] objective;
    private final double[] rowLow;
    private final double[] rowHigh;
    /** Where each row's terms begin, and where the last ones end. */
    private final int[] starts;

    private final int[] columns;
    private final double[] coefficients;

    private LinearProgram(Builder builder) {
        variableNames = Collections.unmodifiableList(new ArrayList<>(builder.variables.keySet()));
        rowNames = Collections.unmodifiableList(new ArrayList<>(builder.rows.keySet()));
        variables = new HashMap<>(builder.variables);
        rows = new HashMap<>(builder.rows);
        low = builder.low.toArray();
        high = builder.high.toArray();
        objective = builder.objective.toArray();
        rowLow = builder.rowLow.toArray();
        rowHigh = builder.rowHigh.toArray();
        Terms terms = Terms.of(builder, rowLow.length, low.length);
        starts = terms.starts;
        columns = terms.columns;
        coefficients = terms.coefficients;
        for (int place = 0; place < coefficients.length; place++) {
            if (!Double.isFinite(coefficients[place])) {
                throw new IllegalArgumentException("coefficients of variable \"" + variableNames.get(columns[place])
                        + "\" in one row add up to " + coefficients[place] + ", which is not a finite number");
            }
        }
    }

    private LinearProgram(LinearProgram other, double[] objective, double[] rowLow, double[] rowHigh) {
        variableNames = other.variableNames;
        rowNames = other.rowNames;
        variables = other.variables;
        rows = other.rows;
        low = other.low;
        high = other.high;
        this.objective = objective;
        this.rowLow = rowLow;
        this.rowHigh = rowHigh;
        starts = other.starts;
        columns = other.columns;
        coefficients = other.coefficients;
    }

    /**
     * Begins a program.
     *
     * @return a builder without variables and rows
     */
    public static Builder builder() {
        return new Builder();
    }

    /**
     * Begins a program as this one.
     *
     * @return a builder with all variables and rows of this program, which keep their numbers
     */
    public Builder toBuilder() {
        Builder builder = new Builder();
        for (int variable = 0; variable < variables(); variable++) {
            builder.variable(variableName(variable), low[variable], high[variable], objective[variable]);
        }
        for (int row = 0; row < rows(); row++) {
            builder.row(rowName(row), rowLow[row], rowHigh[row]);
            for (int place = starts[row]; place < starts[row + 1]; place++) {
                builder.add(row, columns[place], coefficients[place]);
            }
        }
        return builder;
    }

    /**
     * This program with other bounds of a row.
     *
     * @param row number of a row
     * @param low the least it may be, minus infinity if there is none
     * @param high the most it may be, infinity if there is none
     * @return another program
     * @throws IndexOutOfBoundsException if there is no such row
     * @throws IllegalArgumentException if a bound is not a number or no value lies between them
     */
    public LinearProgram withRow(int row, double low, double high) {
        Objects.checkIndex(row, rows());
        checkBounds("row", rowName(row), low, high);
        double[] lows = rowLow.clone();
        double[] highs = rowHigh.clone();
        lows[row] = low;
        highs[row] = high;
        return new LinearProgram(this, objective, lows, highs);
    }

    /**
     * How many variables there are.
     *
     * @return number
     */
    public int variables() {
        return low.length;
    }

    /**
     * How many rows there are.
     *
     * @return number
     */
    public int rows() {
        return rowLow.length;
    }

    /**
     * How many coefficients there are that aren't 0.
     *
     * @return number
     */
    public int terms() {
        return coefficients.length;
    }

    /**
     * Number of a variable.
     *
     * @param name its name
     * @return number from 0
     * @throws IllegalArgumentException if there is no such variable; the message offers the nearest
     */
    public int variable(String name) {
        return find(variables, variableNames, "variable", name);
    }

    /**
     * Number of a row.
     *
     * @param name its name
     * @return number from 0
     * @throws IllegalArgumentException if there is no such row; the message offers the nearest
     */
    public int row(String name) {
        return find(rows, rowNames, "row", name);
    }

    private static int find(Map<String, Integer> numbers, List<String> names, String what, String name) {
        Integer number = numbers.get(Objects.requireNonNull(name, "name"));
        if (number == null) {
            throw new IllegalArgumentException("no " + what + " \"" + name + "\""
                    + (names.isEmpty() ? "" : ", nearest are " + Names.nearest(name, names)));
        }
        return number;
    }

    /**
     * Name of a variable.
     *
     * @param variable its number
     * @return name
     */
    public String variableName(int variable) {
        return variableNames.get(variable);
    }

    /**
     * Name of a row.
     *
     * @param row its number
     * @return name
     */
    public String rowName(int row) {
        return rowNames.get(row);
    }

    /**
     * The least that a variable may be.
     *
     * @param variable its number
     * @return minus infinity if there is no bound
     */
    public double low(int variable) {
        return low[variable];
    }

    /**
     * The most that a variable may be.
     *
     * @param variable its number
     * @return infinity if there is no bound
     */
    public double high(int variable) {
        return high[variable];
    }

    /**
     * What one of a variable adds to the objective.
     *
     * @param variable its number
     * @return coefficient
     */
    public double objective(int variable) {
        return objective[variable];
    }

    /**
     * The least that a row may be.
     *
     * @param row its number
     * @return minus infinity if there is no bound
     */
    public double rowLow(int row) {
        return rowLow[row];
    }

    /**
     * The most that a row may be.
     *
     * @param row its number
     * @return infinity if there is no bound
     */
    public double rowHigh(int row) {
        return rowHigh[row];
    }

    /**
     * How many coefficients of a row aren't 0.
     *
     * @param row its number
     * @return number of its terms
     */
    public int terms(int row) {
        return starts[row + 1] - starts[row];
    }

    /**
     * A variable of a row.
     *
     * @param row number of the row
     * @param term number of the term in the row, from 0, by ascending numbers of variables
     * @return number of the variable
     */
    public int termVariable(int row, int term) {
        return columns[starts[row] + Objects.checkIndex(term, terms(row))];
    }

    /**
     * A coefficient of a row.
     *
     * @param row number of the row
     * @param term number of the term in the row, from 0
     * @return coefficient, which is not 0
     */
    public double termCoefficient(int row, int term) {
        return coefficients[starts[row] + Objects.checkIndex(term, terms(row))];
    }

    /**
     * The objective at given values.
     *
     * @param values a value for each variable
     * @return sum of values times coefficients
     * @throws IllegalArgumentException if there are more or fewer values than variables
     */
    public double objectiveAt(double[] values) {
        checkSize(values, variables(), "values", "variables");
        double sum = 0;
        for (int variable = 0; variable < values.length; variable++) {
            sum += objective[variable] * values[variable];
        }
        return sum;
    }

    /**
     * A row at given values.
     *
     * @param row number of the row
     * @param values a value for each variable
     * @return sum of values times coefficients
     * @throws IllegalArgumentException if there are more or fewer values than variables
     */
    public double rowAt(int row, double[] values) {
        checkSize(values, variables(), "values", "variables");
        double sum = 0;
        for (int place = starts[row]; place < starts[row + 1]; place++) {
            sum += coefficients[place] * values[columns[place]];
        }
        return sum;
    }

    static void checkSize(double[] given, int size, String what, String ofWhat) {
        Objects.requireNonNull(given, what);
        if (given.length != size) {
            throw new IllegalArgumentException(given.length + " " + what + " for " + size + " " + ofWhat);
        }
    }

    @Override
    public String toString() {
        return "maximum over " + Numbers.counted(variables(), "variable", "variables") + " in "
                + Numbers.counted(rows(), "row", "rows") + " of " + Numbers.counted(terms(), "term", "terms");
    }

    private static void checkBounds(String what, String name, double low, double high) {
        if (!(low <= high) || low == Double.POSITIVE_INFINITY || high == Double.NEGATIVE_INFINITY) {
            throw new IllegalArgumentException(what + " \"" + name + "\": no number lies from " + Numbers.exact(low)
                    + " to " + Numbers.exact(high));
        }
    }

    /** Collects the variables and rows of a program; it belongs to one thread. */
    public static final class Builder {
        private final Map<String, Integer> variables = new LinkedHashMap<>();
        private final Map<String, Integer> rows = new LinkedHashMap<>();
        private final Doubles low = new Doubles();
        private final Doubles high = new Doubles();
        private final Doubles objective = new Doubles();
        private final Doubles rowLow = new Doubles();
        private final Doubles rowHigh = new Doubles();
        private final Doubles coefficients = new Doubles();
        private int[] termRows = new int[16];
        private int[] termVariables = new int[16];

        private Builder() {}

        /**
         * Adds a variable.
         *
         * @param name name that no other variable has
         * @param low the least it may be, minus infinity if there is none
         * @param high the most it may be, infinity if there is none
         * @param objective what one of it adds to the objective
         * @return its number, from 0
         * @throws IllegalArgumentException if another variable has that name, a bound is not a number, no value lies between
         *     the bounds, or the coefficient is not finite
         */
        public int variable(String name, double low, double high, double objective) {
            Objects.requireNonNull(name, "name");
            checkBounds("variable", name, low, high);
            if (!Double.isFinite(objective)) {
                throw new IllegalArgumentException(
                        "variable \"" + name + "\": " + objective + " in the objective is not a finite number");
            }
            int number = add(variables, "variable", name);
            this.low.add(low);
            this.high.add(high);
            this.objective.add(objective);
            return number;
        }

        /**
         * Adds a row without terms.
         *
         * @param name name that no other row has
         * @param low the least it may be, minus infinity if there is none
         * @param high the most it may be, infinity if there is none, the same as {@code low} of an equation
         * @return its number, from 0
         * @throws IllegalArgumentException if another row has that name, a bound is not a number, or no value lies between the
         *     bounds
         */
        public int row(String name, double low, double high) {
            Objects.requireNonNull(name, "name");
            checkBounds("row", name, low, high);
            int number = add(rows, "row", name);
            rowLow.add(low);
            rowHigh.add(high);
            return number;
        }

        private static int add(Map<String, Integer> numbers, String what, String name) {
            int number = numbers.size();
            if (numbers.putIfAbsent(name, number) != null) {
                throw new IllegalArgumentException("a second " + what + " \"" + name + "\"");
            }
            return number;
        }

        /**
         * Adds a term to a row; what is added of one variable to one row adds up.
         *
         * @param row number of the row
         * @param variable number of the variable
         * @param coefficient what one of the variable adds to the row
         * @return this
         * @throws IndexOutOfBoundsException if there is no such row or variable
         * @throws IllegalArgumentException if the coefficient is not finite
         */
        public Builder add(int row, int variable, double coefficient) {
            Objects.checkIndex(row, rows.size());
            Objects.checkIndex(variable, variables.size());
            if (!Double.isFinite(coefficient)) {
                throw new IllegalArgumentException("coefficient " + coefficient + " of variable " + variable
                        + " in row " + row + " is not a finite number");
            }
            int place = coefficients.size;
            if (place == termRows.length) {
                termRows = Arrays.copyOf(termRows, 2 * place);
                termVariables = Arrays.copyOf(termVariables, 2 * place);
            }
            termRows[place] = row;
            termVariables[place] = variable;
            coefficients.add(coefficient);
            return this;
        }

        /** A name that no variable has, and a row doesn't have either. */
        String unused(String name) {
            String free = name;
            for (int number = 2; variables.containsKey(free) || rows.containsKey(free); number++) {
                free = name + " " + number;
            }
            return free;
        }

        /**
         * Ends the program.
         *
         * @return an immutable program of what was added so far
         */
        public LinearProgram build() {
            return new LinearProgram(this);
        }
    }

    /** Terms by row, and in each by variable, added up, those that aren't 0. */
    private static final class Terms {
        private final int[] starts;
        private final int[] columns;
        private final double[] coefficients;

        private Terms(int[] starts, int[] columns, double[] coefficients) {
            this.starts = starts;
            this.columns = columns;
            this.coefficients = coefficients;
        }

        static Terms of(Builder builder, int rows, int variables) {
            int size = builder.coefficients.size;
            // Sorted by variable, then by row: each time the order of before stays.
            int[] byVariable = sorted(builder.termVariables, identity(size), variables);
            int[] order = sorted(builder.termRows, byVariable, rows);
            int[] starts = new int[rows + 1];
            int[] columns = new int[size];
            double[] coefficients = new double[size];
            int end = 0;
            int next = 0;
            for (int row = 0; row < rows; row++) {
                starts[row] = end;
                while (next < size && builder.termRows[order[next]] == row) {
                    int variable = builder.termVariables[order[next]];
                    double sum = 0;
                    while (next < size
                            && builder.termRows[order[next]] == row
                            && builder.termVariables[order[next]] == variable) {
                        sum += builder.coefficients.values[order[next++]];
                    }
                    if (sum != 0) {
                        columns[end] = variable;
                        coefficients[end++] = sum;
                    }
                }
            }
            starts[rows] = end;
            return new Terms(starts, Arrays.copyOf(columns, end), Arrays.copyOf(coefficients, end));
        }

        private static int[] identity(int size) {
            int[] order = new int[size];
            Arrays.setAll(order, place -> place);
            return order;
        }

        private static int[] sorted(int[] keys, int[] order, int most) {
            int[] next = new int[most + 1];
            for (int place : order) {
                next[keys[place] + 1]++;
            }
            for (int key = 0; key < most; key++) {
                next[key + 1] += next[key];
            }
            int[] sorted = new int[order.length];
            for (int place : order) {
                sorted[next[keys[place]]++] = place;
            }
            return sorted;
        }
    }

    private static final class Doubles {
        private double[] values = new double[16];
        private int size;

        void add(double value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, 2 * size);
            }
            values[size++] = value;
        }

        double[] toArray() {
            return Arrays.copyOf(values, size);
        }
    }
}
