package org.beefyield.pay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;

class OverpaymentProperties {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);
    private static final PaymentGrid GRID = PaymentGrid.builder("EUR")
            .base(null, 6.1)
            .base(Category.COW, 5.4)
            .grade(null, null, null, 0)
            .grade(null, Conformation.parse("U"), null, 0.23)
            .grade(null, null, FatClass.parse("5"), -0.31)
            .weight(null, 400.0, null, -0.15)
            .inSpecification(null, 0.08)
            .build()
            .with(carcass -> carcass.coldWeightKg() < 350);

    private static List<Carcass> carcasses(long seed) {
        Random random = new Random(seed);
        List<Carcass> all = new ArrayList<>();
        int n = 4 + random.nextInt(20);
        for (int i = 0; i < n; i++) {
            Carcass carcass = RandomTables.carcass(ESTIMATOR.table().definition(), random)
                    .withKillDate("2026-11-0" + (1 + i % 3));
            all.add(i % 5 == 0 ? carcass : carcass.withSupplier("farm " + random.nextInt(4)));
        }
        return all;
    }

    private static Overpayment of(List<Carcass> carcasses) {
        Overpayment.Collector collector = Overpayment.collector(VALUER, GRID);
        carcasses.forEach(collector::add);
        return collector.result();
    }

    /** Causes add up to what a supplier lies off, suppliers to nothing, heads and money to those of all, by either cut. */
    @Property(tries = 25)
    void everythingAddsUp(@ForAll long seed) {
        List<Carcass> carcasses = carcasses(seed);
        Overpayment overpayment = of(carcasses);
        MarginReport.Collector margins = MarginReport.collector(VALUER, GRID);
        carcasses.forEach(margins::add);
        Margin total = margins.result().total().orElseThrow();
        for (List<PaidBeside> lines : List.of(overpayment.suppliers(), overpayment.grades())) {
            assertThat(lines.stream().mapToDouble(PaidBeside::beside).sum()).isCloseTo(0, within(1e-6));
            assertThat(lines.stream()
                            .mapToLong(line -> line.margin().carcasses())
                            .sum())
                    .isEqualTo(carcasses.size());
            assertThat(lines.stream()
                            .mapToDouble(line -> line.margin().amount())
                            .sum())
                    .isCloseTo(total.amount(), within(1e-6));
            for (PaidBeside line : lines) {
                double causes = line.effects().values().stream()
                        .mapToDouble(PayEffect::amount)
                        .sum();
                assertThat(causes).isCloseTo(line.beside(), within(1e-6));
                assertThat(line.beside())
                        .isCloseTo(
                                line.margin().amount()
                                        - total.perKg() * line.margin().coldWeightKg(),
                                within(1e-6));
            }
        }
        // those beyond their interval come first
        List<Double> beyond =
                overpayment.suppliers().stream().map(PaidBeside::beyond).toList();
        assertThat(beyond).isSortedAccordingTo((a, b) -> Double.compare(b, a));
        overpayment.gridChanges().forEach(change -> {
            PaidBeside grade = overpayment.grades().stream()
                    .filter(line -> line.name().equals(Overpayment.words(change.grade())))
                    .findFirst()
                    .orElseThrow();
            assertThat(change.cost()).isCloseTo(-grade.beside(), within(1e-6));
        });
    }

    /** The interval is that of the supplier's worth less its share of all, of what will be weighed. */
    @Property(tries = 15)
    void theIntervalIsThatOfTheDifferenceToTheOthers(@ForAll long seed) {
        List<Carcass> carcasses = carcasses(seed);
        double kg = carcasses.stream().mapToDouble(Carcass::coldWeightKg).sum();
        for (PaidBeside line : of(carcasses).suppliers()) {
            List<Carcass> ours = carcasses.stream()
                    .filter(carcass -> carcass.supplier().orElse("not stated").equals(line.name()))
                    .toList();
            List<Carcass> others = carcasses.stream()
                    .filter(carcass -> !ours.contains(carcass))
                    .toList();
            if (others.isEmpty()) {
                assertThat(line.interval()).isNull();
                continue;
            }
            Value own = VALUER.value(ESTIMATOR.estimateLot(ours));
            Value rest = VALUER.value(ESTIMATOR.estimateLot(others));
            double part = line.margin().coldWeightKg() / kg;
            double sd = own.outturn()
                    .minus(
                            own.figure().times(1 - part),
                            rest.outturn(),
                            rest.figure().times(part))
                    .sdKg();
            Interval expected = Interval.normal(line.beside(), sd, 0.9);
            assertThat(line.interval().low()).isCloseTo(expected.low(), within(1e-6 * Math.max(1, sd)));
            assertThat(line.interval().high()).isCloseTo(expected.high(), within(1e-6 * Math.max(1, sd)));
        }
    }

    /** Collected in parts and merged, or in another order, it is the same. */
    @Property(tries = 10)
    void partsMerge(@ForAll long seed) {
        List<Carcass> carcasses = carcasses(seed);
        Overpayment whole = of(carcasses);
        Overpayment.Collector left = Overpayment.collector(VALUER, GRID);
        Overpayment.Collector right = Overpayment.collector(VALUER, GRID);
        for (int i = carcasses.size() - 1; i >= 0; i--) {
            (i % 2 == 0 ? left : right).add(carcasses.get(i));
        }
        Overpayment merged = left.add(right).result();
        Map<String, PaidBeside> byName = new java.util.HashMap<>();
        merged.suppliers().forEach(line -> byName.put(line.name(), line));
        assertThat(byName).hasSameSizeAs(whole.suppliers());
        for (PaidBeside line : whole.suppliers()) {
            PaidBeside other = byName.get(line.name());
            assertThat(other.beside()).isCloseTo(line.beside(), within(1e-6));
            for (PayCause cause : PayCause.values()) {
                assertThat(other.effect(cause).paid())
                        .isCloseTo(line.effect(cause).paid(), within(1e-6));
            }
        }
    }
}
