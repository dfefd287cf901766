package org.beefyield.grid;

import java.io.Serializable;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Sums of t^j, t = (w - w0)/100, each with the rounding that it has lost (Knuth's two-sum). */
public final class PowerSums implements Serializable {
    private static final long serialVersionUID = 1;

    private final double[] sum;
    private final double[] lost;

    public PowerSums(int powers) {
        sum = new double[powers];
        lost = new double[powers];
    }

    public void add(double t, double weight) {
        double power = weight;
        for (int j = 0; j < sum.length; j++) {
            add(j, power);
            power *= t;
        }
    }

    /** Whether it has so many sums. */
    public boolean has(int powers) {
        return sum.length == powers && lost.length == powers;
    }

    private void add(int j, double value) {
        double next = sum[j] + value;
        double added = next - sum[j];
        lost[j] += (sum[j] - (next - added)) + (value - added);
        sum[j] = next;
    }

    /** Adds so many carcasses, whose sums of t, t^2 and so on stand in an array from a place on. */
    public void add(int carcasses, double[] sums, int from) {
        add(0, carcasses);
        for (int j = 1; j < sum.length; j++) {
            add(j, sums[from + j - 1]);
        }
    }

    public void add(PowerSums other) {
        for (int j = 0; j < sum.length; j++) {
            add(j, other.sum[j]);
            lost[j] += other.lost[j];
        }
    }

    /** Equal to the last bit. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof PowerSums that && Arrays.equals(sum, that.sum) && Arrays.equals(lost, that.lost);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(sum);
    }

    /** The sums of w t^j of the first powers, w = w0 + 100 t. */
    public double[] timesWeight(int count, double referenceWeightKg) {
        double[] weighted = new double[count];
        for (int j = 0; j < count; j++) {
            weighted[j] = referenceWeightKg * (sum[j] + lost[j]) + 100 * (sum[j + 1] + lost[j + 1]);
        }
        return weighted;
    }

    /** The sum of a polynomial over the carcasses. */
    public double of(double[] polynomial) {
        double total = 0;
        for (int j = 0; j < polynomial.length; j++) {
            total += polynomial[j] * (sum[j] + lost[j]);
        }
        return total;
    }

    /** The sum of a polynomial times w = w0 + 100 t over the carcasses. */
    public double ofWeight(double[] polynomial, double referenceWeightKg) {
        double total = 0;
        double before = 0;
        for (int j = 0; j <= polynomial.length; j++) {
            double own = j < polynomial.length ? polynomial[j] : 0;
            total += (100 * before + referenceWeightKg * own) * (sum[j] + lost[j]);
            before = own;
        }
        return total;
    }

    /** The sum of a polynomial times the square of w = w0 + 100 t over the carcasses. */
    public double ofWeightSquared(double[] polynomial, double referenceWeightKg) {
        double total = 0;
        double before = 0;
        double timesWeightBefore = 0;
        for (int j = 0; j < polynomial.length + 2; j++) {
            double own = j < polynomial.length ? polynomial[j] : 0;
            double timesWeight = 100 * before + referenceWeightKg * own;
            total += (100 * timesWeightBefore + referenceWeightKg * timesWeight) * (sum[j] + lost[j]);
            before = own;
            timesWeightBefore = timesWeight;
        }
        return total;
    }
}
