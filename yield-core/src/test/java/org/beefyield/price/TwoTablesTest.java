package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;
import static org.beefyield.table.TestTables.range;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

class TwoTablesTest {
    private static final TableDefinition DEFINITION = TestTables.threeLevels();
    private static final YieldTable BEFORE = YieldTable.of(DEFINITION);
    private static final Carcass LIGHT = steer("R=", "3=", 200);
    private static final Carcass HEAVY = steer("U-", "3+", 361.5);

    /** Of a kg of rump cut to steaks 20 g go from steaks to fat trim. */
    private static YieldTable moved() {
        return YieldTable.of(changed().build());
    }

    private static TableDefinition.Builder changed() {
        return TestTables.changeRows(DEFINITION, row -> {
            boolean isHere = row.parent().equals("rump") && row.way().equals("steaks");
            double more = !isHere
                    ? 0
                    : row.cut().equals("rump-steak") ? -20 : row.cut().equals("fat-trim") ? 20 : 0;
            return withMore(row, more);
        });
    }

    private static BreakdownRow withMore(BreakdownRow row, double g) {
        List<Double> coefficients = new ArrayList<>(row.coefficients());
        coefficients.set(0, coefficients.get(0) + g);
        return new BreakdownRow(
                row.category(),
                row.way(),
                row.parent(),
                row.cut(),
                coefficients,
                row.sdGPerKg(),
                row.shared(),
                row.source());
    }

    private static TwoTables of(YieldTable after, Carcass... carcasses) {
        TwoTables.Collector collector = TwoTables.collector(
                Valuer.of(TestPrices.BY_KIND, YieldEstimator.of(BEFORE)),
                Valuer.of(TestPrices.BY_KIND, YieldEstimator.of(after)));
        for (Carcass carcass : carcasses) {
            collector.add(carcass);
        }
        return collector.result();
    }

    private static TwoTables.Line line(List<TwoTables.Line> lines, String level, String code) {
        return lines.stream()
                .filter(line -> line.level().equals(level) && line.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void everyCutIsTheSumOfItsCarcassesUnderEitherTable() {
        YieldTable moved = moved();
        TwoTables both = of(moved, LIGHT, HEAVY);
        for (TwoTables.Line line : both.changed()) {
            for (Carcass carcass : List.of(LIGHT, HEAVY)) {
                assertThat(YieldEstimator.of(moved).estimate(carcass).kg(line.level(), line.code()))
                        .isNotCloseTo(
                                YieldEstimator.of(BEFORE).estimate(carcass).kg(line.level(), line.code()),
                                within(1e-6));
            }
        }
        TwoTables.Line steak = line(both.changed(), "retail", "rump-steak");
        double beforeKg = YieldEstimator.of(BEFORE).estimate(LIGHT).kg("rump-steak")
                + YieldEstimator.of(BEFORE).estimate(HEAVY).kg("rump-steak");
        double rump = YieldEstimator.of(BEFORE).estimate(LIGHT).kg("rump")
                + YieldEstimator.of(BEFORE).estimate(HEAVY).kg("rump");

        assertThat(Objects.requireNonNull(steak.beforeKg())).isCloseTo(beforeKg, within(1e-9));
        assertThat(steak.differenceKg()).isCloseTo(-0.02 * rump, within(1e-9));
        assertThat(Objects.requireNonNull(steak.differencePercent())).isCloseTo(-2 * rump / beforeKg, within(1e-9));
        assertThat(Objects.requireNonNull(steak.differenceAmount())).isCloseTo(-0.02 * rump * 22, within(1e-9));
        assertThat(both.changed()).extracting(TwoTables.Line::code).containsExactlyInAnyOrder("rump-steak", "fat-trim");
        assertThat(both.before().carcasses()).isEqualTo(2);
        assertThat(both.after().table()).isEqualTo(moved);
    }

    @Test
    void linesOfBothListsAreAllLinesAndTheLargestDifferenceIsFirst() {
        Map<String, Double> more = Map.of("striploin", 3.0, "rump", 2.0, "chuck", -5.0);
        YieldTable other = YieldTable.of(TestTables.changeRows(
                        DEFINITION,
                        row -> row.parent().equals("meat") ? withMore(row, more.getOrDefault(row.cut(), 0.0)) : row)
                .build());
        TwoTables both = of(other, HEAVY);

        assertThat(both.changed().stream().map(line -> Math.abs(line.differenceKg())))
                .isSortedAccordingTo((a, b) -> Double.compare(b, a));
        assertThat(both.changed().get(0).code()).isEqualTo("chuck");
        assertThat(both.changed().size() + both.equal().size())
                .isEqualTo(BEFORE.levels().stream()
                        .mapToInt(level -> both.before().lines(level).size())
                        .sum());
    }

    @Test
    void whatOneTableAloneRefusesIsToldApartAndOnNeitherSide() {
        YieldTable narrower = YieldTable.of(changed()
                .ranges(range(2, 14, 3, 13, 234, 501), range(1, 18, 1, 15, 220, 600))
                .build());
        YieldTable wider = BEFORE;
        Carcass calf = Carcass.of(Category.CALF, Conformation.parse("R="), FatClass.parse("3="), 200);
        TwoTables.Collector collector = TwoTables.collector(YieldEstimator.of(wider), YieldEstimator.of(narrower));

        assertThat(collector.isEmpty()).isTrue();
        assertThat(collector.add(LIGHT).before()).isEmpty();
        assertThat(collector.add(LIGHT).after())
                .extracting(reason -> reason.text())
                .containsExactly("cold weight 200 kg is 20 kg outside the allowed range 220 to 600 kg");
        assertThat(collector.add(calf).before()).isNotEmpty();
        assertThat(collector.isEmpty()).isTrue();
        assertThat(collector.add(HEAVY).isEmpty()).isTrue();
        TwoTables both = collector.result();

        assertThat(both.before().carcasses()).isEqualTo(1);
        assertThat(both.after().carcasses()).isEqualTo(1);
        assertThat(both.refusedBeforeOnly()).isZero();
        assertThat(both.refusedAfterOnly()).isEqualTo(2);
        assertThat(both.refusedByBoth()).isEqualTo(1);
        assertThat(both.toText())
                .contains(
                        "Not in it, for a table refuses them: 3 carcasses; the table before alone refuses 0, the table after"
                                + " alone 2, both 1\n");
        TwoTables.Collector other = TwoTables.collector(YieldEstimator.of(narrower), YieldEstimator.of(wider));
        other.add(LIGHT);
        other.add(HEAVY);
        assertThat(other.result().refusedBeforeOnly()).isEqualTo(1);
        assertThat(other.result().refusedAfterOnly()).isZero();
    }

    @Test
    void differencesInMoneyAddUpToThatOfTheValues() {
        TwoTables both = of(moved(), LIGHT, HEAVY);
        double sum = both.changed().stream()
                .map(TwoTables.Line::differenceAmount)
                .filter(Objects::nonNull)
                .mapToDouble(Double::doubleValue)
                .sum();

        assertThat(both.difference().orElseThrow().amount().doubleValue()).isCloseTo(sum, within(0.01));
        assertThat(both.beforeValue().orElseThrow().outturn()).isEqualTo(both.before());
        assertThat(both.afterValue().orElseThrow().outturn()).isEqualTo(both.after());
        List<String> printed = both.toText()
                .lines()
                .filter(line ->
                        line.startsWith("Fat trim") || line.startsWith("Rump steak") || line.startsWith("Worth"))
                .map(line -> line.replaceAll(".* ", ""))
                .toList();
        assertThat(printed).hasSize(3);
        assertThat(new BigDecimal(printed.get(0)).add(new BigDecimal(printed.get(1))))
                .isEqualByComparingTo(new BigDecimal(printed.get(2)))
                .isEqualByComparingTo(both.difference().orElseThrow().amount());
    }

    @Test
    void theTextSaysWhatChangesThenWhatIsEqual() {
        YieldTable moved = moved();
        TwoTables both = of(moved, HEAVY);
        List<String> lines = both.toText().lines().toList();

        assertThat(lines.get(0)).isEqualTo("1 carcass, 361.5 kg cold, under two tables");
        assertThat(lines.get(1)).isEqualTo("Before: table " + BEFORE.identity() + ", cutting specification steaks");
        assertThat(lines.get(2)).isEqualTo("After: table " + moved.identity() + ", cutting specification steaks");
        assertThat(lines.get(4))
                .matches("cut +level +before, kg +after, kg +difference, kg +difference, % +before, EUR +after, EUR"
                        + " +difference, EUR");
        assertThat(lines.subList(6, 8))
                .allSatisfy(line -> assertThat(line).matches("(Rump steak|Fat trim) +retail .*"));
        assertThat(lines.get(9)).startsWith("Worth in all ");
        assertThat(lines.get(11))
                .isEqualTo(
                        "Equal under both: at tissue level meat, fat-trim, bone, loss; at primal level striploin, rump,"
                                + " brisket, chuck, fat-trim, bone, loss; at retail level striploin-steak, striploin-joint,"
                                + " rump-joint, brisket-joint, dice, lean-trim, bone, loss");
        assertThat(lines.get(12))
                .isEqualTo(
                        "Two tables on the same carcasses share the carcasses, not the errors: their difference has no"
                                + " interval");
        assertThat(both)
                .hasToString(
                        "1 carcass under " + moved.identity() + " and " + BEFORE.identity() + ": 2 figures differ");
    }

    @Test
    void theSameTableTwiceComesOutAlike() {
        TwoTables both = of(BEFORE, HEAVY, LIGHT);

        assertThat(both.changed()).isEmpty();
        assertThat(both.difference().orElseThrow().signum()).isZero();
        assertThat(both.toText()).contains("\nEvery cut comes out alike\n").doesNotContain("Equal under both");
        assertThat(both).isEqualTo(of(BEFORE, HEAVY, LIGHT)).isNotEqualTo(of(BEFORE, HEAVY));
    }

    @Test
    void aFatterLeanTrimShowsInTheMinceOnTheSameKilogramsOfCarcass() {
        // nothing but the fat content of the chuck's lean trim differs
        TableDefinition.Builder fatter = DEFINITION.toBuilder();
        fatter.replaceRows(
                DEFINITION.cuts().stream()
                        .map(cut -> cut.code().equals("chuck") ? cut.withFatPct(10.0) : cut)
                        .toList(),
                DEFINITION.breakdown(),
                DEFINITION.breakdownByClass(),
                DEFINITION.coefficientNotes(),
                DEFINITION.covariances(),
                DEFINITION.expectations(),
                DEFINITION.sources(),
                DEFINITION.decimals(),
                DEFINITION.provenance());
        TwoTables.Collector collector = TwoTables.collector(
                YieldEstimator.of(BEFORE).with(MinceTarget.fatPercent(20)),
                YieldEstimator.of(YieldTable.of(fatter.build())).with(MinceTarget.fatPercent(20)));
        collector.add(HEAVY);
        TwoTables both = collector.result();

        assertThat(both.changed()).extracting(TwoTables.Line::code).containsExactlyInAnyOrder("mince", "fat-trim");
        assertThat(line(both.changed(), "retail", "mince").differenceKg())
                .isCloseTo(both.after().kg(CutKind.MINCE) - both.before().kg(CutKind.MINCE), within(1e-9))
                .isPositive();
        assertThat(both.difference()).isEmpty();
    }

    @Test
    void pricesInTwoCurrenciesAreRefused() {
        PriceList pounds = PriceList.builder("GBP")
                .kind(CutKind.STEAK, 22)
                .kind(CutKind.JOINT, 14)
                .kind(CutKind.DICE, 9)
                .kind(CutKind.LEAN_TRIM, 5)
                .kind(CutKind.FAT_TRIM, 0.3)
                .kind(CutKind.BONE, -0.1)
                .kind(CutKind.LOSS, 0)
                .build();
        Valuer euros = Valuer.of(TestPrices.BY_KIND, YieldEstimator.of(BEFORE));

        assertThatThrownBy(() -> TwoTables.collector(euros, Valuer.of(pounds, YieldEstimator.of(BEFORE))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("prices in EUR and in GBP with 2 and 2 decimals can't be set side by side");
    }

    @Test
    void nothingCanBeSaidOfNoCarcass() {
        TwoTables.Collector none = TwoTables.collector(YieldEstimator.of(BEFORE), YieldEstimator.of(BEFORE));

        assertThatThrownBy(none::result)
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("a lot has at least one carcass");
    }
}
