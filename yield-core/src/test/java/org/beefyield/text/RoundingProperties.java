package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class RoundingProperties {
    /** Kilograms of up to 40 cuts: mostly real ones, some absent, some with the noise of a sum around zero. */
    @Provide
    Arbitrary<double[]> parts() {
        Arbitrary<Double> present = Arbitraries.doubles().between(0, 400).ofScale(7);
        Arbitrary<Double> absent = Arbitraries.of(0.0, -0.0, 1e-17, -1e-17, 4e-16, -4e-16);
        Arbitrary<Double> half = Arbitraries.integers().between(0, 9999).map(n -> (n + 0.5) / 1000);
        return Arbitraries.frequencyOf(Tuple.of(6, present), Tuple.of(2, absent), Tuple.of(2, half))
                .array(Double[].class)
                .ofMinSize(1)
                .ofMaxSize(40)
                .map(boxed ->
                        Arrays.stream(boxed).mapToDouble(Double::doubleValue).toArray());
    }

    @Property
    void printedPartsAddUpToThePrintedWhole(@ForAll("parts") double[] parts, @ForAll @IntRange(max = 4) int decimals) {
        double whole = Arrays.stream(parts).sum();

        List<String> printed = Rounding.adding(parts, whole, decimals);

        BigDecimal sum = printed.stream().map(BigDecimal::new).reduce(BigDecimal.ZERO, BigDecimal::add);
        assertThat(sum).isEqualByComparingTo(Numbers.fixed(whole, decimals));
        assertThat(printed).hasSameSizeAs(Arrays.stream(parts).boxed().toList());
    }

    @Property
    void eachPrintedPartIsWithinOneUnitOfItsValue(
            @ForAll("parts") double[] parts, @ForAll @IntRange(max = 4) int decimals) {
        BigDecimal unit = BigDecimal.ONE.movePointLeft(decimals);

        List<String> printed = Rounding.adding(parts, Arrays.stream(parts).sum(), decimals);

        for (int i = 0; i < parts.length; i++) {
            BigDecimal off = new BigDecimal(printed.get(i)).subtract(BigDecimal.valueOf(parts[i]));
            assertThat(off.abs()).isLessThanOrEqualTo(unit);
            assertThat(new BigDecimal(printed.get(i)).scale()).isEqualTo(decimals);
        }
    }

    @Property
    void noPartIsRoundedDownWhereOneThatLostLessIsRoundedUp(
            @ForAll("parts") double[] parts, @ForAll @IntRange(max = 4) int decimals) {
        List<String> printed = Rounding.adding(parts, Arrays.stream(parts).sum(), decimals);

        for (int up = 0; up < parts.length; up++) {
            for (int down = 0; down < parts.length; down++) {
                if (isUp(printed.get(up), parts[up], decimals) && !isUp(printed.get(down), parts[down], decimals)) {
                    BigDecimal lostByUp = lost(parts[up], decimals);
                    BigDecimal lostByDown = lost(parts[down], decimals);
                    assertThat(lostByUp).isGreaterThanOrEqualTo(lostByDown);
                    if (lostByUp.compareTo(lostByDown) == 0) {
                        assertThat(up)
                                .as("in a tie the earlier part gets the unit")
                                .isLessThan(down);
                    }
                }
            }
        }
    }

    private static boolean isUp(String printed, double part, int decimals) {
        return new BigDecimal(printed).compareTo(floor(part, decimals)) > 0;
    }

    private static BigDecimal floor(double part, int decimals) {
        return BigDecimal.valueOf(part).setScale(decimals, RoundingMode.FLOOR);
    }

    /** What rounding down takes off, to a double's precision, in which the noise of two parts may be alike. */
    private static BigDecimal lost(double part, int decimals) {
        return BigDecimal.valueOf(
                BigDecimal.valueOf(part).subtract(floor(part, decimals)).doubleValue());
    }

    @Property
    void noiseAroundZeroNeverPrintsAsAFigure(@ForAll("parts") double[] parts, @ForAll @IntRange(max = 4) int decimals) {
        List<String> printed = Rounding.adding(parts, Arrays.stream(parts).sum(), decimals);

        for (int i = 0; i < parts.length; i++) {
            if (Math.abs(parts[i]) < 1e-15) {
                assertThat(printed.get(i)).isEqualTo(Numbers.fixed(0, decimals));
            }
        }
    }

    @Property
    void aFixedFigureIsWithinHalfAUnit(@ForAll("figures") double value, @ForAll @IntRange(max = 6) int decimals) {
        String printed = Numbers.fixed(value, decimals);

        assertThat(new BigDecimal(printed).scale()).isEqualTo(decimals);
        assertThat(new BigDecimal(printed)
                        .subtract(BigDecimal.valueOf(value))
                        .abs()
                        .multiply(BigDecimal.valueOf(2)))
                .isLessThanOrEqualTo(BigDecimal.ONE.movePointLeft(decimals));
        assertThat(printed).doesNotMatch("-0(\\.0*)?");
    }

    /** Where doubles and their decimals part: around halves and whole units, tiny, huge and below zero. */
    @Provide
    Arbitrary<Double> awkward() {
        Arbitrary<Double> halves = Arbitraries.longs().between(0, 4_000_000).map(n -> n / 2000.0);
        Arbitrary<Double> beside = Arbitraries.oneOf(halves.map(Math::nextUp), halves.map(Math::nextDown));
        Arbitrary<Double> any = Arbitraries.doubles().between(-2e3, 2e3).ofScale(12);
        Arbitrary<Double> large = Arbitraries.doubles().between(1e5, 1e16).ofScale(3);
        Arbitrary<Double> products = Arbitraries.integers().between(1, 6000).map(n -> 0.006 * (n / 10.0));
        return Arbitraries.frequencyOf(
                Tuple.of(4, halves),
                Tuple.of(4, beside),
                Tuple.of(4, any),
                Tuple.of(2, products),
                Tuple.of(1, large),
                Tuple.of(1, Arbitraries.of(0.0, -0.0, 1e-300, -1e-12, 4.9e-324)));
    }

    @Property
    void aFixedFigureIsThatOfItsDecimals(@ForAll("awkward") double value, @ForAll @IntRange(max = 8) int decimals) {
        assertThat(Numbers.fixed(value, decimals))
                .isEqualTo(BigDecimal.valueOf(value)
                        .setScale(decimals, RoundingMode.HALF_UP)
                        .toPlainString());
    }

    @Property
    void addingPartsPrintTheFiguresOfTheirDecimals(
            @ForAll @Size(min = 1, max = 20) List<@From("awkward") Double> parts,
            @ForAll @IntRange(max = 8) int decimals) {
        double[] values = parts.stream().mapToDouble(Double::doubleValue).toArray();
        double whole = Arrays.stream(values).sum();
        StringBuilder line = new StringBuilder("x");
        List<String> expected = largestRemainder(parts, whole, decimals);
        // large figures may lose more in their sum than there are parts to give it to
        Assume.that(!expected.isEmpty());
        Rounding.appendAdding(line, ';', values, whole, decimals);

        assertThat(Rounding.adding(values, whole, decimals)).isEqualTo(expected);
        assertThat(line).hasToString("x;" + String.join(";", expected));
    }

    /** The definition, in decimals alone. */
    private static List<String> largestRemainder(List<Double> parts, double whole, int decimals) {
        BigDecimal unit = BigDecimal.ONE.movePointLeft(decimals);
        BigDecimal missing = BigDecimal.valueOf(whole).setScale(decimals, RoundingMode.HALF_UP);
        List<BigDecimal> rounded = new ArrayList<>();
        for (double part : parts) {
            rounded.add(floor(part, decimals));
            missing = missing.subtract(floor(part, decimals));
        }
        List<Integer> order =
                new ArrayList<>(IntStream.range(0, parts.size()).boxed().toList());
        order.sort(Comparator.comparing((Integer i) -> lost(parts.get(i), decimals))
                .reversed());
        long units = missing.movePointRight(decimals).longValueExact();
        if (units < 0 || units > parts.size()) {
            return List.of();
        }
        for (int i : order.subList(0, (int) units)) {
            rounded.set(i, rounded.get(i).add(unit));
        }
        return rounded.stream().map(BigDecimal::toPlainString).toList();
    }

    @Provide
    Arbitrary<Double> figures() {
        return Arbitraries.doubles().between(-1e6, 1e6).ofScale(8);
    }

    /** Rows and columns of money: some whole cents, some nothing, some of either sign. */
    @Property
    void aTableThatIsRoundedBothWaysAddsUpBothWays(@ForAll long seed, @ForAll @IntRange(max = 4) int decimals) {
        Random random = new Random(seed);
        double[][] parts = new double[1 + random.nextInt(12)][1 + random.nextInt(7)];
        double sum = 0;
        for (double[] row : parts) {
            for (int j = 0; j < row.length; j++) {
                row[j] = switch (random.nextInt(4)) {
                    case 0 -> 0;
                    case 1 -> random.nextInt(500) / 100.0;
                    default -> 200 * random.nextDouble() - 100;
                };
                sum += row[j];
            }
        }
        BigDecimal whole = BigDecimal.valueOf(sum).setScale(decimals, RoundingMode.HALF_UP);

        List<List<BigDecimal>> printed = Rounding.addingBothWays(parts, whole);

        double unit = Math.pow(10, -decimals);
        int columns = parts[0].length;
        BigDecimal[] totals = new BigDecimal[columns + 1];
        Arrays.fill(totals, BigDecimal.ZERO);
        int farther = 0;
        for (int i = 0; i < parts.length; i++) {
            BigDecimal row = BigDecimal.ZERO;
            for (int j = 0; j < columns; j++) {
                BigDecimal cell = printed.get(i).get(j);
                double off = Math.abs(cell.doubleValue() - parts[i][j]);
                farther += off > 1.0001 * unit ? 1 : 0;
                assertThat(off).isLessThan(2.0001 * unit);
                row = row.add(cell);
                totals[j] = totals[j].add(cell);
            }
            assertThat(row).isEqualTo(printed.get(i).get(columns));
            totals[columns] = totals[columns].add(row);
        }
        assertThat(farther).as("cells a unit away").isLessThanOrEqualTo(1);
        assertThat(printed.get(parts.length)).containsExactly(totals);
        assertThat(totals[columns]).isEqualTo(whole);
    }
}
