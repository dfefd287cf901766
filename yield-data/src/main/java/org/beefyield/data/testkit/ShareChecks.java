package org.beefyield.data.testkit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import java.util.function.Predicate;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.YieldColumn;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;

/** Checks of the shares of one category under one cutting specification; each failure says what and where. */
final class ShareChecks {
    /** Noise of the arithmetic in a share; what is wrong is wrong by more. */
    private static final double NOISE = 1e-12;
    /** How close below the next node a jump is looked for, points. */
    private static final double NEAR = 1e-6;
    /** Weights at which expectations are looked at, the ends of the range included. */
    private static final int WEIGHTS = 9;
    /** Below this width a range of weights is one weight for an expectation about weight, kg. */
    private static final double ONE_WEIGHT_KG = 1;

    private final TableDefinition definition;
    private final List<YieldColumn> columns;
    private final String label;
    private final Shares shares;

    /**
     * Checks to be made.
     *
     * @param columns what the shares are of: level by level every cut that stands there
     * @param label category and cutting specification, for messages
     */
    ShareChecks(TableDefinition definition, List<YieldColumn> columns, String label, Shares shares) {
        this.definition = definition;
        this.columns = columns;
        this.label = label;
        this.shares = shares;
    }

    private String where(double conformation, double fat, double weightKg) {
        return label + ", "
                + (conformation == Math.rint(conformation)
                        ? Conformation.third((int) conformation)
                        : Conformation.ofPosition(conformation, 1))
                + " " + (fat == Math.rint(fat) ? FatClass.third((int) fat) : FatClass.ofPosition(fat, 1)) + ", "
                + Numbers.exact(weightKg) + " kg";
    }

    static String gPerKg(double share) {
        return Numbers.visible(1000 * share) + " g/kg";
    }

    private String cutAt(int column) {
        return columns.get(column).cut().code() + " at level "
                + columns.get(column).level();
    }

    /** The cuts of every level add up to the carcass. */
    List<String> closure(double conformation, double fat, double weightKg) {
        double[] at = shares.at(conformation, fat, weightKg);
        List<String> failures = new ArrayList<>();
        for (String level : definition.levels()) {
            double sum = total(level, at, cut -> true);
            if (!(Math.abs(sum - 1) <= NOISE)) {
                failures.add("the cuts of level " + level + " add up to " + gPerKg(sum) + " at "
                        + where(conformation, fat, weightKg) + "; they must add up to 1000 g/kg");
            }
        }
        return failures;
    }

    /** No share is below 0. */
    List<String> positivity(double conformation, double fat, double weightKg) {
        double[] at = shares.at(conformation, fat, weightKg);
        List<String> failures = new ArrayList<>();
        for (int column = 0; column < columns.size(); column++) {
            if (!(at[column] >= -NOISE)) {
                failures.add(cutAt(column) + " is " + gPerKg(at[column]) + " at " + where(conformation, fat, weightKg)
                        + "; a share is at least 0");
            }
        }
        return failures;
    }

    /**
     * Shares lie between those of the four whole positions around a grade, and run into those of the next position
     * without a jump.
     */
    List<String> continuity(double conformation, double fat, double weightKg) {
        double lowC = Math.floor(conformation);
        double lowF = Math.floor(fat);
        double highC = Math.min(Math.ceil(definition.allowed().conformation().high()), lowC + 1);
        double highF = Math.min(Math.ceil(definition.allowed().fat().high()), lowF + 1);
        double[] here = shares.at(conformation, fat, weightKg);
        List<double[]> corners = List.of(
                shares.at(lowC, lowF, weightKg),
                shares.at(highC, lowF, weightKg),
                shares.at(lowC, highF, weightKg),
                shares.at(highC, highF, weightKg));
        double[] beforeC = shares.at(Math.max(lowC, highC - NEAR), highF, weightKg);
        double[] beforeF = shares.at(highC, Math.max(lowF, highF - NEAR), weightKg);
        List<String> failures = new ArrayList<>();
        for (int column = 0; column < columns.size(); column++) {
            int at = column;
            double low =
                    corners.stream().mapToDouble(corner -> corner[at]).min().orElseThrow();
            double high =
                    corners.stream().mapToDouble(corner -> corner[at]).max().orElseThrow();
            if (!(here[column] >= low - NOISE && here[column] <= high + NOISE)) {
                failures.add(cutAt(column) + " is " + gPerKg(here[column]) + " at " + where(conformation, fat, weightKg)
                        + "; between the whole positions around it, it must lie between " + gPerKg(low) + " and "
                        + gPerKg(high));
            }
            double next = corners.get(3)[column];
            double steepest = NEAR * (high - low) + NOISE;
            if (!(Math.abs(next - beforeC[column]) <= steepest && Math.abs(next - beforeF[column]) <= steepest)) {
                failures.add(cutAt(column) + " jumps to " + gPerKg(next) + " at " + where(highC, highF, weightKg)
                        + " from " + gPerKg(beforeC[column]) + " just below it in conformation and "
                        + gPerKg(beforeF[column]) + " just below it in fat class; it must run into it without a jump");
            }
        }
        return failures;
    }

    /** What the table expects of itself, looked at step by step over the whole positions and some weights. */
    List<String> expectation(Expectation expectation) {
        TableRange range = expectation.over() == Expectation.Over.FITTED ? definition.fitted() : definition.allowed();
        double[] conformations = positions(range.conformation());
        double[] fats = positions(range.fat());
        double[] weights = weights(range.weightKg());
        double[][][] totals = new double[conformations.length][fats.length][weights.length];
        boolean stands = false;
        for (int i = 0; i < conformations.length; i++) {
            for (int j = 0; j < fats.length; j++) {
                for (int k = 0; k < weights.length; k++) {
                    totals[i][j][k] = total(expectation, shares.at(conformations[i], fats[j], weights[k]));
                    stands |= totals[i][j][k] != 0;
                }
            }
        }
        List<String> failures = new ArrayList<>();
        // a specification that doesn't cut the thing at all says nothing about it
        for (int i = 0; stands && i < conformations.length; i++) {
            for (int j = 0; j < fats.length; j++) {
                for (int k = 0; k < weights.length; k++) {
                    int nextI = i + (expectation.variable() == Variable.CONFORMATION ? 1 : 0);
                    int nextJ = j + (expectation.variable() == Variable.FAT ? 1 : 0);
                    int nextK = k + (expectation.variable() == Variable.WEIGHT ? 1 : 0);
                    if (nextI < conformations.length && nextJ < fats.length && nextK < weights.length) {
                        double change = totals[nextI][nextJ][nextK] - totals[i][j][k];
                        double rise = expectation.direction() == Expectation.Direction.RISES ? change : -change;
                        if (expectation.strict() ? !(rise > 0) : !(rise >= -NOISE)) {
                            failures.add("expected that " + words(expectation) + ", but it goes from "
                                    + gPerKg(totals[i][j][k]) + " at "
                                    + where(conformations[i], fats[j], weights[k]) + " to "
                                    + gPerKg(totals[nextI][nextJ][nextK]) + " at "
                                    + where(conformations[nextI], fats[nextJ], weights[nextK]));
                        }
                    }
                }
            }
        }
        return failures;
    }

    /** An expectation in words. */
    static String words(Expectation expectation) {
        return (expectation.cut() != null
                        ? expectation.cut()
                        : "the total of kind "
                                + (expectation.kind() == null
                                        ? ""
                                        : expectation.kind().code()))
                + " at level " + expectation.level() + " "
                + expectation.direction().name().toLowerCase(Locale.ROOT)
                + (expectation.strict() ? " strictly" : "") + " with "
                + expectation.variable().code() + " over the "
                + expectation.over().name().toLowerCase(Locale.ROOT) + " range";
    }

    private double total(Expectation expectation, double[] at) {
        return total(
                expectation.level(),
                at,
                cut -> expectation.cut() == null
                        ? cut.kind() == expectation.kind()
                        : cut.code().equals(expectation.cut()));
    }

    private double total(String level, double[] at, Predicate<Cut> counts) {
        double total = 0;
        for (int k = 0; k < columns.size(); k++) {
            YieldColumn column = columns.get(k);
            total += column.level().equals(level) && counts.test(column.cut()) ? at[k] : 0;
        }
        return total;
    }

    private static double[] positions(Range range) {
        int low = (int) Math.ceil(range.low());
        int high = (int) Math.floor(range.high());
        return steps(Math.max(0, high - low + 1), index -> low + index);
    }

    private static double[] weights(Range range) {
        double width = range.high() - range.low();
        return width < ONE_WEIGHT_KG
                ? new double[] {range.low()}
                : steps(WEIGHTS, index -> Math.min(range.high(), range.low() + width * index / (WEIGHTS - 1)));
    }

    private static double[] steps(int number, IntToDoubleFunction step) {
        double[] steps = new double[number];
        for (int i = 0; i < number; i++) {
            steps[i] = step.applyAsDouble(i);
        }
        return steps;
    }
}
