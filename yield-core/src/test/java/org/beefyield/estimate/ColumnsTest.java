package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.Engine;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** What columns say of themselves, of wrong arrays and of rows without an estimate. */
class ColumnsTest {
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(THREE);

    private static CarcassColumns steers(int size, long seed) {
        Random random = new Random(seed);
        byte[] categories = new byte[size];
        byte[] conformation = new byte[size];
        byte[] fat = new byte[size];
        double[] kg = new double[size];
        for (int i = 0; i < size; i++) {
            categories[i] = 'C';
            conformation[i] = (byte) random.nextInt(5, 11);
            fat[i] = (byte) random.nextInt(5, 11);
            kg[i] = random.nextDouble(300, 505);
        }
        return CarcassColumns.thirds(categories, conformation, fat, kg);
    }

    @Test
    void aThirdAWholeClassAndAHalfStandInOneArray() {
        List<Carcass> carcasses = List.of(graded("R=", "3="), graded("R", "3"), graded("R=", "4L"), graded("R", "4L"));
        CarcassColumns mixed = CarcassColumns.of(carcasses);
        YieldColumns columns = ESTIMATOR.columns("retail");
        double[][] kg = new double[columns.columns().size()][4];
        double[][] sd = new double[columns.columns().size()][4];
        byte[] flags = new byte[4];
        assertThat(columns.estimate(mixed, 0, 4, kg, sd, flags)).isZero();
        int striploin = columns.columns().stream()
                .map(column -> column.cut().code())
                .toList()
                .indexOf("striploin-steak");
        for (int i = 0; i < 4; i++) {
            YieldEstimate estimate = ESTIMATOR.estimate(carcasses.get(i));
            assertThat(kg[striploin][i]).isEqualTo(estimate.kg("striploin-steak"));
            assertThat(sd[striploin][i]).isCloseTo(estimate.sd("striploin-steak"), within(1e-12));
            assertThat(mixed.carcass(i).coldWeightKg()).isEqualTo(340);
        }
        // a whole class says less than a third of it
        assertThat(sd[striploin][1]).isGreaterThan(sd[striploin][0]);
        LotEstimate.Collector collector = ESTIMATOR.collector();
        assertThat(collector.add(mixed, 0, 4, flags)).isZero();
        assertThat(collector.lot()).isEqualTo(ESTIMATOR.estimateLot(carcasses));
    }

    @Test
    void aWidthThatNoGradeHasRefusesTheRow() {
        CarcassColumns odd = CarcassColumns.positions(
                new byte[] {'C', 'C', 'C'},
                new double[] {8, 8, 8},
                new double[] {3, 3.5, 3},
                new double[] {8, 8, 8},
                new double[] {3, 3, Double.NaN},
                new double[] {340, 340, 340});
        byte[] flags = new byte[3];
        assertThat(ESTIMATOR.collector().add(odd, 0, 3, flags)).isEqualTo(2);
        assertThat(RowFlag.of(flags[0])).isEmpty();
        assertThat(RowFlag.of(flags[1])).containsExactly(RowFlag.CONFORMATION_REFUSED);
        assertThat(RowFlag.of(flags[2])).containsExactly(RowFlag.FAT_CLASS_REFUSED);
        assertThatThrownBy(() -> CarcassColumns.positions(
                        new byte[2], new double[2], new double[1], new double[2], new double[2], new double[2]))
                .hasMessage(
                        "columns of different lengths: 2 categories, 1 widths of conformation, 2 widths of fat classes");
    }

    @Test
    void sdColumnsOfAnotherShapeAreRefused() {
        YieldColumns columns = ESTIMATOR.columns("tissue");
        CarcassColumns steers = steers(3, 1);
        double[][] kg = new double[columns.columns().size()][3];
        assertThatThrownBy(() -> columns.estimate(steers, 0, 3, kg, new double[1][3], new byte[3]))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("1 arrays for " + columns.columns().size() + " columns");
        assertThatThrownBy(() -> columns.estimate(
                        steers, 0, 3, kg, new double[columns.columns().size()][2], new byte[3]))
                .hasMessage("a column has 2 places for 3 rows");
    }

    private static Carcass graded(String conformation, String fatClass) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), 340);
    }

    @Test
    void columnsAreNamedByLevelAndCut() {
        assertThat(ESTIMATOR.columns("tissue").columns())
                .extracting(YieldColumn::toString)
                .containsExactlyElementsOf(Engine.layout(THREE).cutsAt(0).stream()
                        .map(cut -> "tissue." + cut.code())
                        .toList());
        assertThat(ESTIMATOR.columns().columns()).hasSize(Engine.layout(THREE).size());
        List<YieldColumn> minced =
                ESTIMATOR.with(MinceTarget.fatPercent(20)).columns().columns();
        assertThat(minced).hasSize(Engine.layout(THREE).size() + 1);
        assertThat(minced.get(minced.size() - 1).cut().kind()).isEqualTo(CutKind.MINCE);
        assertThat(ESTIMATOR.with(MinceTarget.fatPercent(20)).columns("tissue").columns())
                .noneMatch(column -> column.cut().kind() == CutKind.MINCE);
        assertThatThrownBy(() -> ESTIMATOR.columns("tissues"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no level \"tissues\"");
    }

    @Test
    void aRowWithoutEstimateIsNotANumberAndSaysWhy() {
        byte[] categories = {'C', 'Z', 'C', 'C', 'C'};
        byte[] conformation = {8, 8, 0, 8, 8};
        byte[] fat = {8, 8, 16, 8, 8};
        double[] kg = {340, 340, 340, Double.NaN, 20_000};
        CarcassColumns carcasses = CarcassColumns.thirds(categories, conformation, fat, kg);
        YieldColumns columns = ESTIMATOR.columns("tissue");
        int width = columns.columns().size();
        double[] out = new double[5 * width];
        byte[] flags = new byte[5];

        assertThat(columns.estimate(carcasses, 0, 5, out, flags)).isEqualTo(4);

        assertThat(IntStream.range(0, 5)
                        .mapToObj(i -> RowFlag.of(flags[i]).stream()
                                .filter(flag -> RowFlag.isRefused((byte) flag.bit()))
                                .map(RowFlag::name)
                                .collect(Collectors.joining(" "))))
                .containsExactly(
                        "",
                        "CATEGORY_REFUSED",
                        "CONFORMATION_REFUSED FAT_CLASS_REFUSED",
                        "WEIGHT_REFUSED",
                        "WEIGHT_REFUSED");
        assertThat(Arrays.stream(out, 0, width).sum()).isCloseTo(340, within(1e-9));
        assertThat(Arrays.stream(out, width, out.length)).allMatch(value -> Double.isNaN(value));
        assertThatThrownBy(() -> ESTIMATOR.estimate(carcasses.carcass(1)))
                .hasMessageContaining("category Z is not served by table");
        assertThatThrownBy(() -> carcasses.carcass(2)).hasMessage("conformation position 0 is outside 1 to 18 points");
        assertThatThrownBy(() -> carcasses.carcass(5)).isInstanceOf(IndexOutOfBoundsException.class);
    }

    @Test
    void wrongArraysAreNamed() {
        byte[] two = new byte[2];
        byte[] three = new byte[3];
        assertThatThrownBy(() -> CarcassColumns.thirds(two, two, three, new double[2]))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("columns of different lengths: 2 categories, 2 conformations, 3 fat classes, 2 weights");
        assertThatThrownBy(() -> CarcassColumns.positions(two, new double[2], 3.5, new double[2], 1, new double[2]))
                .hasMessage("conformation width 3.5 is outside 0 to 3 points");
        assertThatThrownBy(() -> CarcassColumns.positions(two, new double[2], 3, new double[2], -1, new double[2]))
                .hasMessage("fat width -1 is outside 0 to 3 points");

        CarcassColumns carcasses = steers(3, 1);
        YieldColumns columns = ESTIMATOR.columns("tissue");
        int width = columns.columns().size();
        assertThatThrownBy(() -> columns.estimate(carcasses, 0, 3, new double[3 * width - 1], three))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("kg has " + (3 * width - 1) + " places, 3 rows of " + width + " columns need more");
        assertThatThrownBy(() -> columns.estimate(carcasses, 0, 3, new double[3 * width], two))
                .hasMessage("flags has 2 places for 3 rows");
        assertThatThrownBy(() -> columns.estimate(carcasses, 0, 4, new double[4 * width], new byte[4]))
                .isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> columns.estimate(carcasses, 0, 3, new double[width - 1][3], three))
                .hasMessage((width - 1) + " arrays for " + width + " columns");
        assertThatThrownBy(() -> columns.estimate(carcasses, 0, 3, new double[width][2], three))
                .hasMessage("a column has 2 places for 3 rows");
        assertThatThrownBy(() -> ESTIMATOR.collector().add(carcasses, 0, 3, two))
                .hasMessage("flags has 2 places for 3 rows");
        assertThat(carcasses).hasToString("3 carcasses in columns");
    }

    /** More rows than a block, in parts, backwards: nothing is lost between blocks. */
    @Test
    void totalsOfManyRowsDoNotDependOnTheirParts() {
        CarcassColumns carcasses = steers(50_000, 2);
        byte[] flags = new byte[carcasses.size()];
        LotEstimate.Collector once = ESTIMATOR.collector();
        once.add(carcasses, 0, carcasses.size(), flags);
        for (int i = 0; i < flags.length; i++) {
            // the table is fitted up to 501 kg
            assertThat(RowFlag.of(flags[i]).contains(RowFlag.WEIGHT_OUTSIDE_FITTED))
                    .isEqualTo(carcasses.coldWeightKg(i) > 501);
        }
        LotEstimate.Collector parts = ESTIMATOR.collector();
        for (int to = carcasses.size(); to > 0; to -= 10_000) {
            LotEstimate.Collector part = ESTIMATOR.collector();
            part.add(carcasses, to - 10_000, to, flags);
            parts.add(part);
        }
        LotEstimate.Collector chunks = ESTIMATOR.collector();
        for (int from = 0; from < carcasses.size(); from += 777) {
            chunks.add(carcasses, from, Math.min(carcasses.size(), from + 777), flags);
        }
        LotEstimate lot = once.lot();
        LotEstimate merged = parts.lot();
        LotEstimate inChunks = chunks.lot();
        double sum = 0;
        for (int i = 0; i < carcasses.size(); i++) {
            Carcass carcass = carcasses.carcass(i);
            sum += ESTIMATOR.estimate(carcass).kg("meat");
        }

        assertThat(lot.carcasses()).isEqualTo(50_000);
        assertThat(lot.kg("meat")).isCloseTo(sum, within(1e-12 * 50_000 * 340));
        for (CutLine line : lot.lines("tissue")) {
            String cut = line.cut().code();
            assertThat(merged.kg("tissue", cut)).isCloseTo(line.kg(), within(1e-12 * line.kg()));
            assertThat(inChunks.kg("tissue", cut)).isCloseTo(line.kg(), within(1e-12 * line.kg()));
            assertThat(merged.interval(cut, 0.9).low())
                    .isCloseTo(lot.interval(cut, 0.9).low(), within(1e-12 * sum));
        }
    }

    /** Longer than what is filled at a time, with a row in it here and there that takes another way. */
    @Test
    void longColumnsHoldWhatTheirRowsHold() {
        int size = 1300;
        byte[] categories = new byte[size];
        byte[] conformation = new byte[size];
        byte[] fat = new byte[size];
        double[] kg = new double[size];
        Random random = new Random(3);
        for (int i = 0; i < size; i++) {
            categories[i] = (byte) (i % 97 == 3 ? 'Z' : i % 2 == 0 ? 'C' : 'E');
            conformation[i] = (byte) random.nextInt(1, 19);
            fat[i] = (byte) random.nextInt(1, 16);
            kg[i] = i % 101 == 5 ? Double.NaN : random.nextDouble(150, 520);
        }
        CarcassColumns carcasses = CarcassColumns.thirds(categories, conformation, fat, kg);
        for (TableDefinition table : List.of(TestTables.small(), TestTables.threeLevels())) {
            YieldEstimator estimator = YieldEstimator.of(YieldTable.of(table));
            YieldColumns columns = estimator.columns();
            int width = columns.columns().size();
            double[] byRow = new double[size * width];
            double[][] byColumn = new double[width][size];
            byte[] flags = new byte[size];
            byte[] sameFlags = new byte[size];
            int refused = columns.estimate(carcasses, 0, size, byRow, flags);
            assertThat(columns.estimate(carcasses, 0, size, byColumn, sameFlags))
                    .isEqualTo(refused);
            assertThat(sameFlags).isEqualTo(flags);
            assertThat(refused).isBetween(20, size / 2);
            for (int i = 0; i < size; i++) {
                double[] row = new double[width];
                for (int k = 0; k < width; k++) {
                    row[k] = byColumn[k][i];
                }
                assertThat(row).isEqualTo(Arrays.copyOfRange(byRow, i * width, (i + 1) * width));
                if (!RowFlag.isRefused(flags[i])) {
                    YieldEstimate estimate = estimator.estimate(carcasses.carcass(i));
                    assertThat(flags[i] == 0).isEqualTo(estimate.rangeNotes().isEmpty());
                    for (int k = 0; k < width; k++) {
                        YieldColumn column = columns.columns().get(k);
                        assertThat(row[k])
                                .isEqualTo(
                                        estimate.kg(column.level(), column.cut().code()));
                    }
                }
            }
        }
    }

    /** Thirds, then whole classes, then carcasses one by one, then thirds again: each keeps the width of its grades. */
    @Test
    void aCollectorTakesGradesOfSeveralWidths() {
        CarcassColumns thirds = steers(300, 4);
        double[] classes = {8, 5, 8, 11};
        CarcassColumns whole = CarcassColumns.positions(
                new byte[] {'C', 'C', 'C', 'C'}, classes, 3, classes, 3, new double[] {320, 340, 330, 350});
        byte[] flags = new byte[300];
        LotEstimate.Collector collector = ESTIMATOR.collector();
        collector.add(thirds, 0, 100, flags);
        LotEstimate early = collector.lot();
        collector.add(whole, 0, 4, flags);
        collector.add(thirds.carcass(100));
        collector.add(thirds, 101, 300, flags);
        LotEstimate.Collector oneByOne = ESTIMATOR.collector();
        for (int i = 0; i < 300; i++) {
            oneByOne.add(thirds.carcass(i));
        }
        for (int i = 0; i < 4; i++) {
            oneByOne.add(whole.carcass(i));
        }
        LotEstimate expected = oneByOne.lot();

        for (LotEstimate lot : List.of(
                collector.lot(),
                collector.lot(),
                ESTIMATOR.collector().add(collector).lot(),
                collector.lot())) {
            assertThat(lot.counts()).isEqualTo(expected.counts());
            assertThat(lot.meatKg()).isCloseTo(expected.meatKg(), within(1e-12 * expected.meatKg()));
            for (UncertaintyPart part : UncertaintyPart.values()) {
                assertThat(lot.sd(Figure.cut("meat"), part))
                        .as(part.name())
                        .isCloseTo(expected.sd(Figure.cut("meat"), part), within(1e-9));
            }
        }
        assertThat(early.carcasses()).isEqualTo(100);
    }
}
