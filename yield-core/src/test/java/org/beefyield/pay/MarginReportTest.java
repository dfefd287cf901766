package org.beefyield.pay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class MarginReportTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);

    private static final PaymentGrid GRID = PaymentGrid.builder("EUR")
            .base(null, 4.1)
            .grade(null, null, null, 0)
            .grade(null, Conformation.parse("U"), null, 0.23)
            .build();

    /** Columns that add up: carcasses, margin, cold weight, value, paid. */
    private static final int[] ADDING = {1, 2, 7, 8, 9};

    private static final Pattern GAP = Pattern.compile(" {2,}");

    private static Carcass steer(String conformation, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse("3="), kg);
    }

    private static MarginReport report(int carcasses) {
        MarginReport.Collector report = MarginReport.collector(VALUER, GRID);
        Random random = new Random(5);
        for (int i = 0; i < carcasses; i++) {
            Carcass carcass = RandomTables.carcass(ESTIMATOR.table().definition(), random);
            report.add(i % 3 == 0 ? carcass : carcass.withSupplier(i % 3 == 1 ? "Mere <End>" : "Tarrow Bridge"));
        }
        return report.result();
    }

    @Test
    void theMarginOfACarcassIsItsValueLessItsPayment() {
        Carcass carcass = steer("U=", 340);
        Margin margin = MarginReport.collector(VALUER, GRID)
                .add(carcass)
                .result()
                .total()
                .orElseThrow();

        assertThat(margin.value()).isEqualTo(VALUER.value(carcass).amount());
        assertThat(margin.paid()).isCloseTo(4.33 * 340, within(1e-9));
        assertThat(margin.amount()).isEqualTo(margin.value() - margin.paid());
        assertThat(margin.perKg()).isCloseTo(margin.breakEvenPerKg() - margin.paidPerKg(), within(1e-12));
        assertThat(margin.breakEvenPerKg()).isCloseTo(VALUER.value(carcass).perKg(), within(1e-12));
        assertThat(margin.carcasses()).isEqualTo(1);
    }

    /** Payment is certain: a margin is as sure as the value of its carcasses, which have errors in common. */
    @Test
    void aMarginIsAsSureAsTheValueOfItsCarcassesTogether() {
        MarginReport.Collector collector = MarginReport.collector(VALUER, GRID);
        List<Carcass> here = List.of(
                steer("R-", 290).withSupplier("Mere End"),
                steer("U=", 355).withSupplier("Mere End"),
                steer("R=", 330).withSupplier("Mere End"));
        List<Carcass> all = new ArrayList<>(here);
        all.add(steer("U=", 410).withSupplier("Tarrow Bridge"));
        all.forEach(collector::add);
        MarginReport report = collector.result();
        double sd = VALUER.value(ESTIMATOR.estimateLot(here)).sd();
        double sdOfAll = VALUER.value(ESTIMATOR.estimateLot(all)).sd();
        Margin margin = report.bySupplier().get("Mere End");

        assertThat(report.interval("Mere End", 0.9).orElseThrow()).isEqualTo(Interval.normal(margin.amount(), sd, 0.9));
        Interval total = report.interval(0.9).orElseThrow();
        assertThat(total.high() - total.low()).isCloseTo(2 * 1.6448536 * sdOfAll, within(1e-6 * sdOfAll));
        assertThat(report.interval(Category.STEER, 0.9)).isEqualTo(report.interval(0.9));
        assertThat(report.interval(new GradeCell(Category.STEER, "U", 3), 0.9)).isPresent();
        assertThat(report.interval("nobody", 0.9)).isEmpty();
        assertThat(MarginReport.collector(VALUER, GRID).result().interval(0.9)).isEmpty();
    }

    /** What a cell's break-even price means: paid at it, the cell's carcasses leave nothing. */
    @Test
    void paidAtItsBreakEvenPriceACellLeavesNothing() {
        MarginReport.Collector report = MarginReport.collector(VALUER, GRID);
        List<Carcass> cell = List.of(steer("R-", 290), steer("R=", 355), steer("R+", 330));
        cell.forEach(report::add);
        double breakEven = report.result()
                .byGrade()
                .get(new GradeCell(Category.STEER, "R", 3))
                .breakEvenPerKg();
        MarginReport.Collector again = MarginReport.collector(
                VALUER,
                PaymentGrid.builder("EUR")
                        .base(null, breakEven)
                        .grade(null, null, null, 0)
                        .build());
        cell.forEach(again::add);

        // each payment is rounded to the cent
        assertThat(again.result().total().orElseThrow().amount()).isCloseTo(0, within(0.015));
    }

    @Test
    void everyGroupingAddsUpToTheTotal() {
        MarginReport report = report(60);
        Margin total = report.total().orElseThrow();

        assertThat(total.carcasses()).isEqualTo(60);
        assertThat(report.bySupplier().keySet()).containsExactly("Mere <End>", "Tarrow Bridge", "not stated");
        for (List<Margin> margins : List.of(
                new ArrayList<>(report.bySupplier().values()),
                new ArrayList<>(report.byGrade().values()))) {
            assertThat(margins.stream().mapToLong(Margin::carcasses).sum()).isEqualTo(60);
            assertThat(margins.stream().mapToDouble(Margin::value).sum()).isCloseTo(total.value(), within(1e-6));
            assertThat(margins.stream().mapToDouble(Margin::paid).sum()).isCloseTo(total.paid(), within(1e-6));
            assertThat(margins.stream().mapToDouble(Margin::coldWeightKg).sum())
                    .isCloseTo(total.coldWeightKg(), within(1e-6));
        }
    }

    @Test
    void printedColumnsAddUpAndMarginsAreValueLessPaidAsPrinted() {
        String[] tables = report(60).toText().split("\n\n", -1);
        assertThat(tables).hasSize(5);
        assertThat(tables[4]).isEqualTo(Cautions.NO_SETTLEMENT + "\n");
        for (int t = 1; t < tables.length - 1; t++) {
            List<String> lines = tables[t].lines().toList();
            BigDecimal[] sums = {BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO};
            for (String line : lines.subList(2, lines.size() - 2)) {
                String[] cells = GAP.split(line.replace(",", ""), -1);
                for (int i = 0; i < sums.length; i++) {
                    sums[i] = sums[i].add(new BigDecimal(cells[ADDING[i]]));
                }
                // no cents where the margin is sure to thousands
                assertThat(cells[2] + cells[8] + cells[9]).doesNotContain(".");
                assertThat(new BigDecimal(cells[8]).subtract(new BigDecimal(cells[9])))
                        .isEqualTo(new BigDecimal(cells[2]));
            }
            String[] total = GAP.split(lines.get(lines.size() - 1).replace(",", ""), -1);
            for (int i = 0; i < sums.length; i++) {
                assertThat(total[ADDING[i]]).isEqualTo(sums[i].toPlainString());
            }
        }
    }

    @Test
    void aCarcassThatCannotBeValuedOrPaidLeavesTheReportAsItWas() {
        MarginReport.Collector report = MarginReport.collector(
                VALUER,
                PaymentGrid.builder("EUR")
                        .base(null, 4)
                        .grade(null, Conformation.parse("R"), null, 0)
                        .build());
        report.add(steer("R=", 340));

        assertThatThrownBy(() -> report.add(steer("R=", 700))).isInstanceOf(RefusedCarcassException.class);
        assertThatThrownBy(() -> report.add(steer("U=", 340))).isInstanceOf(IllegalArgumentException.class);
        assertThat(report.result().total().orElseThrow().carcasses()).isEqualTo(1);
        assertThat(report.result().byGrade()).hasSize(1);
    }

    @Test
    void currenciesAreNotMixed() {
        PaymentGrid pounds = PaymentGrid.builder("GBP")
                .base(null, 4)
                .grade(null, null, null, 0)
                .build();
        assertThatThrownBy(() -> MarginReport.collector(VALUER, pounds))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("amounts in EUR and in GBP don't go together; bring them to one currency first");
    }

    @Test
    void namesAreEscaped() {
        assertThat(report(6).toHtml()).contains("Mere &lt;End&gt;").doesNotContain("Mere <End>");
        assertThat(MarginReport.collector(VALUER, GRID).result().toHtml()).startsWith("<p>no carcasses</p>");
    }

    @Test
    void partsOfAKillAreMergedAsIfOneHadSeenThemAll() {
        Random random = new Random(5);
        List<Carcass> kill = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            kill.add(
                    RandomTables.carcass(ESTIMATOR.table().definition(), random).withSupplier("Farm " + i % 7));
        }
        MarginReport.Collector all = MarginReport.collector(VALUER, GRID);
        kill.forEach(all::add);
        List<MarginReport.Collector> parts = new ArrayList<>();
        for (int from = 0; from < 60; from += 20) {
            MarginReport.Collector part = MarginReport.collector(VALUER, GRID);
            kill.subList(from, from + 20).forEach(part::add);
            parts.add(part);
        }
        MarginReport forwards = MarginReport.collector(VALUER, GRID)
                .add(parts.get(0))
                .add(parts.get(1))
                .add(parts.get(2))
                .result();
        MarginReport backwards = MarginReport.collector(VALUER, GRID)
                .add(parts.get(2))
                .add(parts.get(1))
                .add(parts.get(0))
                .result();

        assertThat(forwards.toText()).isEqualTo(all.result().toText());
        assertThat(backwards.toText()).isEqualTo(all.result().toText());
        assertThat(forwards.bySupplier()).hasSize(7);
        assertThat(parts.get(1).result().total().orElseThrow().carcasses()).isEqualTo(20);
    }

    @Test
    void aReportStaysAsItIsWhenMoreIsCollected() {
        MarginReport.Collector collector = MarginReport.collector(VALUER, GRID).add(steer("R=", 340));
        MarginReport before = collector.result();
        collector.add(steer("U=", 340).withSupplier("Mere End"));

        assertThat(before.total().orElseThrow().carcasses()).isEqualTo(1);
        assertThat(before.bySupplier()).containsOnlyKeys("not stated");
        assertThat(before.byGrade()).hasSize(1);
        assertThat(collector.result().byGrade()).hasSize(2);
    }

    @Test
    void marginsByOtherPricesOrGridsAreNotMerged() {
        PaymentGrid other = PaymentGrid.builder("EUR")
                .base(null, 4)
                .grade(null, null, null, 0)
                .build();
        MarginReport.Collector collector = MarginReport.collector(VALUER, GRID);
        assertThatThrownBy(() -> collector.add(MarginReport.collector(VALUER, other)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("margins go together only of one and the same valuer and payment grid: " + VALUER + " and "
                        + GRID + " against " + VALUER + " and " + other);
        assertThatThrownBy(() ->
                        collector.add(MarginReport.collector(Valuer.of(TestPrices.BY_KIND.times(2), ESTIMATOR), GRID)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("margins go together only of one and the same valuer and payment grid: ");
    }
}
