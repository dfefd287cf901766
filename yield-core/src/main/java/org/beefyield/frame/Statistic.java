package org.beefyield.frame;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.beefyield.stats.Sample;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * A figure of a group of rows: how many there are, or the sum, mean, SD or a quantile of a column. Missing numbers are left
 * out; of nothing but missing ones the figure is missing. Immutable.
 */
public final class Statistic {
    /** What a column comes to: numbers, sorted, and their weights in the same order. */
    private interface Of {
        double apply(double[] sorted, double[] weights);
    }

    private final String words;
    private final String column;
    private final @Nullable String weight;
    private final boolean addsUp;
    private final Of of;

    private Statistic(String words, String column, @Nullable String weight, boolean addsUp, Of of) {
        this.words = words;
        this.column = Objects.requireNonNull(column, "column");
        this.weight = weight;
        this.addsUp = addsUp;
        this.of = of;
    }

    private static Statistic of(String words, String column, ToDoubleFunction<double[]> of) {
        return new Statistic(words + " of ", column, null, false, (sorted, weights) -> of.applyAsDouble(sorted));
    }

    /**
     * How many numbers of a column are known.
     *
     * @param column name or header
     * @return the figure, in a column such as {@code count of cold weight}
     */
    public static Statistic count(String column) {
        return new Statistic("count of ", column, null, true, (sorted, weights) -> sorted.length);
    }

    /**
     * The sum, of a column that {@linkplain Total#SUM adds up}.
     *
     * @param column name or header
     * @return the figure, in a column such as {@code sum of cold weight, kg}
     */
    public static Statistic sum(String column) {
        return new Statistic("sum of ", column, null, true, (sorted, weights) -> sum(sorted));
    }

    private static double sum(double[] values) {
        return values.length == 0 ? Double.NaN : Arrays.stream(values).sum();
    }

    /**
     * The plain mean, every row counted alike.
     *
     * @param column name or header
     * @return the figure, in a column such as {@code mean of cold weight, kg}
     */
    public static Statistic mean(String column) {
        return of("mean", column, Sample::mean);
    }

    /**
     * The mean weighted by another column, such as shares of the cold weight by the cold weight. Rows that lack the number or
     * its weight are left out.
     *
     * @param column name or header
     * @param weight name or header of the column of weights, 0 or more
     * @return the figure, in a column such as {@code mean of share by cold weight, %}
     */
    public static Statistic mean(String column, String weight) {
        Objects.requireNonNull(weight, "weight");
        return new Statistic("mean of ", column, weight, false, (sorted, weights) -> mean(sorted, weights));
    }

    /** Missing if a weight is below 0 or all are 0. */
    static double mean(double[] values, double[] weights) {
        double all = 0;
        double sum = 0;
        for (int i = 0; i < values.length; i++) {
            if (weights[i] < 0) {
                return Double.NaN;
            }
            all += weights[i];
            sum += weights[i] * values[i];
        }
        return all > 0 ? sum / all : Double.NaN;
    }

    /**
     * The SD, which divides by n - 1; missing of fewer than two numbers.
     *
     * @param column name or header
     * @return the figure, in a column such as {@code SD of cold weight, kg}
     */
    public static Statistic sd(String column) {
        return of("SD", column, Sample::sd);
    }

    /**
     * A quantile, interpolated linearly between the sorted numbers: the part p of n numbers lies at place 1 + (n - 1) p
     * (definition 7 of Hyndman and Fan 1996, The American Statistician 50, 361 to 365).
     *
     * @param column name or header
     * @param part 0 for the smallest number, 0.5 for the median, 1 for the largest
     * @return the figure, in a column such as {@code 10 % quantile of cold weight, kg}
     * @throws IllegalArgumentException if the part is outside 0 to 1
     */
    public static Statistic quantile(String column, double part) {
        if (!(part >= 0 && part <= 1)) {
            throw new IllegalArgumentException("the part " + part + " of a quantile is outside 0 to 1");
        }
        return of(Numbers.percent(part) + " % quantile", column, sorted -> Sample.quantile(sorted, part));
    }

    /**
     * The column that it is of.
     *
     * @return name or header
     */
    public String column() {
        return column;
    }

    /**
     * What the mean is weighted by.
     *
     * @return name or header, or empty if it is no weighted mean
     */
    public Optional<String> weight() {
        return Optional.ofNullable(weight);
    }

    /** Whether it needs a column that adds up. */
    boolean isSum() {
        return words.startsWith("sum");
    }

    /** The column of the figure. */
    Column header(Column its, @Nullable Column weights) {
        String name = words + its.name() + (weights == null ? "" : " by " + weights.name());
        boolean counts = words.startsWith("count");
        return new Column(name, counts ? "" : its.unit(), Column.Type.NUMBER, addsUp ? Total.SUM : Total.NONE);
    }

    /** The figure of the rows that are known. */
    double of(double[] values, double[] weights) {
        if (weight != null) {
            return of.apply(values, weights);
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return of.apply(sorted, weights);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Statistic that
                && words.equals(that.words)
                && column.equals(that.column)
                && Objects.equals(weight, that.weight);
    }

    @Override
    public int hashCode() {
        return Objects.hash(words, column, weight);
    }

    /**
     * One line.
     *
     * @return such as {@code SD of cold weight}
     */
    @Override
    public String toString() {
        return words + column + (weight == null ? "" : " by " + weight);
    }
}
