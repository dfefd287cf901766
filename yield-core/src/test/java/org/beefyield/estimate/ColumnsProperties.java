package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.Engine;
import org.beefyield.table.RandomTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/** Columns against one carcass after another, on random tables, with rows that no table takes. */
class ColumnsProperties {
    private static final byte[] LETTERS = {'C', 'A', 'B', 'D', 'E', 'Z', 'X', 0, -1};

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** Columns and what each row of them is. */
    private static final class Rows {
        private final byte[] categories;
        private final byte[] thirds;
        private final byte[] fatThirds;
        private final double[] positions;
        private final double[] fatPositions;
        private final double[] kg;

        Rows(TableDefinition table, Random random, int size) {
            categories = new byte[size];
            thirds = new byte[size];
            fatThirds = new byte[size];
            positions = new double[size];
            fatPositions = new double[size];
            kg = new double[size];
            for (int i = 0; i < size; i++) {
                Carcass good = RandomTables.carcass(table, random);
                boolean bad = random.nextInt(5) == 0;
                categories[i] = bad
                        ? LETTERS[random.nextInt(LETTERS.length)]
                        : (byte) good.category().letter().charAt(0);
                thirds[i] = (byte)
                        (bad
                                ? random.nextInt(-128, 128)
                                : Math.round(good.conformation().position()));
                fatThirds[i] = (byte)
                        (bad
                                ? random.nextInt(-2, 18)
                                : Math.round(good.fatClass().position()));
                positions[i] = bad ? odd(random) : good.conformation().position();
                fatPositions[i] = bad ? odd(random) : good.fatClass().position();
                kg[i] = bad ? odd(random) : good.coldWeightKg();
            }
        }

        private static double odd(Random random) {
            double[] values = {Double.NaN, Double.POSITIVE_INFINITY, -1, 0, 0.99, 18.01, 15.5, 8.25, 1e300, 340};
            return values[random.nextInt(values.length)];
        }

        CarcassColumns carcasses(boolean inThirds) {
            return inThirds
                    ? CarcassColumns.thirds(categories, thirds, fatThirds, kg)
                    : CarcassColumns.positions(categories, positions, 1.5, fatPositions, 0, kg);
        }
    }

    private static List<YieldEstimator> estimators(TableDefinition definition, long seed) {
        TableDefinition.Builder builder = definition.toBuilder();
        RandomTables.mix(definition, new Random(seed)).forEach((cut, way) -> builder.specification("mix", cut, way));
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(builder.build()));
        List<YieldEstimator> estimators =
                new ArrayList<>(List.of(estimator, estimator.with(RangePolicy.REFUSE_OUTSIDE_FITTED)));
        if (Engine.layout(estimator.table()).cutsAt(definition.levels().size() - 1).stream()
                .anyMatch(cut -> cut.kind() == CutKind.LEAN_TRIM)) {
            estimators.add(estimator.with(MinceTarget.fatPercent(20)));
            estimators.add(estimator.with(MinceTarget.fatPercent(55)));
        }
        return estimators;
    }

    @Property(tries = 40)
    void everyNumberHasTheBitsOfItsEstimateAndEveryRefusalIsTheSame(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll long seed, @ForAll boolean inThirds) {
        TableDefinition definition = shape.table();
        Rows rows = new Rows(definition, new Random(seed), 150);
        CarcassColumns carcasses = rows.carcasses(inThirds);
        for (YieldEstimator estimator : estimators(definition, seed)) {
            YieldColumns columns = estimator.columns();
            int width = columns.columns().size();
            double[] byRow = new double[carcasses.size() * width];
            byte[] flags = new byte[carcasses.size()];
            int refused = columns.estimate(carcasses, 0, carcasses.size(), byRow, flags);
            int expectedRefused = 0;
            for (int i = 0; i < carcasses.size(); i++) {
                String why = null;
                YieldEstimate estimate = null;
                try {
                    estimate = estimator.estimate(carcasses.carcass(i));
                } catch (RefusedCarcassException | IllegalArgumentException refusal) {
                    why = refusal.getMessage();
                    expectedRefused++;
                }
                assertThat(RowFlag.isRefused(flags[i])).as("row %d: %s", i, why).isEqualTo(why != null);
                if (estimate != null) {
                    assertThat(RowFlag.of(flags[i])).isEqualTo(outside(estimate));
                }
                for (int k = 0; k < width; k++) {
                    YieldColumn column = columns.columns().get(k);
                    double expected = estimate == null
                            ? Double.NaN
                            : estimate.kg(column.level(), column.cut().code());
                    sameBits(byRow[i * width + k], expected, i, column);
                }
            }
            assertThat(refused).isEqualTo(expectedRefused);
        }
    }

    @Property(tries = 20)
    void sdsAreThoseOfTheEstimatesAndRowsMayBeGradedEachInItsOwnWay(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        Rows rows = new Rows(definition, random, 40);
        double[] widths = new double[40];
        double[] fatWidths = new double[40];
        double[] positions = rows.positions.clone();
        for (int i = 0; i < 40; i++) {
            double[] some = {0, 1, 1.5, 3, 3, 3.01, -1, Double.NaN};
            widths[i] = some[random.nextInt(some.length)];
            fatWidths[i] = some[random.nextInt(5)];
            positions[i] = random.nextBoolean() ? Math.rint(positions[i]) : positions[i];
            rows.fatPositions[i] = random.nextBoolean() ? Math.rint(rows.fatPositions[i]) : rows.fatPositions[i];
        }
        CarcassColumns mixed =
                CarcassColumns.positions(rows.categories, positions, widths, rows.fatPositions, fatWidths, rows.kg);
        for (CarcassColumns carcasses : List.of(rows.carcasses(true), rows.carcasses(false), mixed)) {
            for (YieldEstimator estimator : estimators(definition, seed)) {
                checkSds(estimator, carcasses);
                checkLot(estimator, carcasses);
            }
        }
    }

    private static void checkSds(YieldEstimator estimator, CarcassColumns carcasses) {
        YieldColumns columns = estimator.columns();
        int size = carcasses.size();
        double[][] kg = new double[columns.columns().size()][size];
        double[][] sd = new double[columns.columns().size()][size];
        byte[] flags = new byte[size];
        int refused = columns.estimate(carcasses, 0, size, kg, sd, flags);
        int expectedRefused = 0;
        for (int i = 0; i < size; i++) {
            YieldEstimate estimate = estimate(estimator, carcasses, i);
            expectedRefused += estimate == null ? 1 : 0;
            for (int k = 0; k < kg.length; k++) {
                YieldColumn column = columns.columns().get(k);
                String cut = column.cut().code();
                if (estimate == null) {
                    assertThat(kg[k][i]).isNaN();
                    assertThat(sd[k][i]).isNaN();
                } else {
                    sameBits(kg[k][i], estimate.kg(column.level(), cut), i, column);
                    double expected = estimate.sd(column.level(), cut);
                    assertThat(sd[k][i])
                            .as("SD of row %d, %s", i, column)
                            .isCloseTo(expected, within(1e-12 * (1 + expected)));
                }
            }
        }
        assertThat(refused).isEqualTo(expectedRefused);
    }

    private static void checkLot(YieldEstimator estimator, CarcassColumns carcasses) {
        LotEstimate.Collector expected = estimator.collector();
        int refused = 0;
        for (int i = 0; i < carcasses.size(); i++) {
            YieldEstimate estimate = estimate(estimator, carcasses, i);
            refused += estimate == null ? 1 : 0;
            if (estimate != null) {
                expected.add(estimate.carcass());
            }
        }
        LotEstimate.Collector collector = estimator.collector();
        assertThat(collector.add(carcasses, 0, carcasses.size(), new byte[carcasses.size()]))
                .isEqualTo(refused);
        if (refused < carcasses.size()) {
            LotEstimate lot = collector.lot();
            LotEstimate one = expected.lot();
            assertThat(lot.counts()).isEqualTo(one.counts());
            assertThat(lot.notes()).isEqualTo(one.notes());
            double sd = one.sd(Figure.saleable());
            assertThat(lot.sd(Figure.saleable())).isCloseTo(sd, within(1e-9 * (1 + sd)));
        }
    }

    private static @Nullable YieldEstimate estimate(YieldEstimator estimator, CarcassColumns carcasses, int row) {
        try {
            return estimator.estimate(carcasses.carcass(row));
        } catch (RefusedCarcassException | IllegalArgumentException refusal) {
            return null;
        }
    }

    private static void sameBits(double value, double expected, int row, YieldColumn column) {
        if (Double.doubleToRawLongBits(value) != Double.doubleToRawLongBits(expected)) {
            assertThat(value).as("row %d, %s", row, column).isEqualTo(expected);
        }
    }

    private static Set<RowFlag> outside(YieldEstimate estimate) {
        Set<RowFlag> flags = EnumSet.noneOf(RowFlag.class);
        for (RangeNote note : estimate.rangeNotes()) {
            flags.add(
                    switch (note.variable()) {
                        case CONFORMATION -> RowFlag.CONFORMATION_OUTSIDE_FITTED;
                        case FAT -> RowFlag.FAT_CLASS_OUTSIDE_FITTED;
                        case WEIGHT -> RowFlag.WEIGHT_OUTSIDE_FITTED;
                    });
        }
        return flags;
    }

    @Property(tries = 20)
    void chunksOneLevelAndColumnsBesideEachOtherHoldTheSameNumbers(
            @ForAll("shapes") RandomTables.Shape shape,
            @ForAll long seed,
            @ForAll boolean inThirds,
            @ForAll @IntRange(min = 1, max = 199) int cut) {
        TableDefinition definition = shape.table();
        CarcassColumns carcasses = new Rows(definition, new Random(seed), 200).carcasses(inThirds);
        int size = carcasses.size();
        for (YieldEstimator estimator : estimators(definition, seed)) {
            YieldColumns all = estimator.columns();
            int width = all.columns().size();
            double[] whole = new double[size * width];
            byte[] flags = new byte[size];
            all.estimate(carcasses, 0, size, whole, flags);
            for (String level : definition.levels()) {
                YieldColumns some = estimator.columns(level);
                double[][] head = new double[some.columns().size()][cut];
                double[][] tail = new double[some.columns().size()][size - cut];
                byte[] headFlags = new byte[cut];
                byte[] tailFlags = new byte[size - cut];
                some.estimate(carcasses, 0, cut, head, headFlags);
                some.estimate(carcasses, cut, size, tail, tailFlags);
                assertThat(headFlags).isEqualTo(Arrays.copyOf(flags, cut));
                assertThat(tailFlags).isEqualTo(Arrays.copyOfRange(flags, cut, size));
                for (int k = 0; k < some.columns().size(); k++) {
                    int column = all.columns().indexOf(some.columns().get(k));
                    for (int i = 0; i < size; i++) {
                        double value = i < cut ? head[k][i] : tail[k][i - cut];
                        sameBits(
                                value,
                                whole[i * width + column],
                                i,
                                some.columns().get(k));
                    }
                }
            }
        }
    }

    @Property(tries = 20)
    void totalsAreThoseOfALotInAnyOrderAndInAnyParts(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll long seed, @ForAll boolean inThirds) {
        TableDefinition definition = shape.table();
        CarcassColumns carcasses = new Rows(definition, new Random(seed), 300).carcasses(inThirds);
        for (YieldEstimator estimator : estimators(definition, seed)) {
            LotEstimate.Collector oneByOne = estimator.collector();
            List<Integer> order = new ArrayList<>();
            for (int i = 0; i < carcasses.size(); i++) {
                order.add(i);
            }
            Collections.shuffle(order, new Random(seed));
            int refused = 0;
            for (int i : order) {
                try {
                    oneByOne.add(carcasses.carcass(i));
                } catch (RefusedCarcassException | IllegalArgumentException refusal) {
                    refused++;
                }
            }
            byte[] flags = new byte[carcasses.size()];
            LotEstimate.Collector head = estimator.collector();
            LotEstimate.Collector tail = estimator.collector();
            int out = tail.add(carcasses, 100, carcasses.size(), flags) + head.add(carcasses, 0, 100, new byte[100]);
            assertThat(out).isEqualTo(refused);
            if (refused == carcasses.size()) {
                continue;
            }
            LotEstimate lot = tail.add(head).lot();
            LotEstimate expected = oneByOne.lot();

            assertThat(lot.counts()).isEqualTo(expected.counts());
            assertThat(lot.carcasses()).isEqualTo(expected.carcasses());
            assertThat(lot.outsideFitted()).isEqualTo(expected.outsideFitted());
            assertThat(farthest(lot)).isEqualTo(farthest(expected));
            for (String level : definition.levels()) {
                for (CutLine line : expected.lines(level)) {
                    String code = line.cut().code();
                    assertThat(lot.kg(level, code)).isCloseTo(line.kg(), within(1e-12 * expected.coldWeightKg()));
                    Figure figure = Figure.cut(level, code);
                    double sd = expected.sd(figure);
                    assertThat(lot.sd(figure)).isCloseTo(sd, within(1e-9 * (1 + sd)));
                }
            }
        }
    }

    private static List<String> farthest(LotEstimate lot) {
        return lot.rangeNotes().stream()
                .map(note -> note.extreme().variable() + " " + note.carcasses() + " "
                        + note.extreme().distance())
                .toList();
    }
}
