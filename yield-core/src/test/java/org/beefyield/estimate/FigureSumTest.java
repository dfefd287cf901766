package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedSds;
import org.junit.jupiter.api.Test;

/** Sums of figures of several outturns, and one cut of carcasses alone. */
class FigureSumTest {
    private static final YieldTable TABLE = YieldTable.of(TestTables.threeLevels());
    private static final YieldEstimator STEAKS = YieldEstimator.of(TABLE).withSpecification("steaks");

    private static List<Carcass> lot(String name, int size, double kg) {
        return IntStream.range(0, size)
                .mapToObj(i -> Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), kg + i % 7)
                        .withLot(name)
                        .withSupplier("farm " + name)
                        .withKillDate("2026-12-01"))
                .toList();
    }

    /** One hall's breakdown, of which the SDs in common are large. */
    private static YieldTable shared() {
        var builder = TestTables.threeLevels().toBuilder();
        builder.clearBreakdown();
        TestTables.threeLevels()
                .breakdown()
                .forEach(row -> builder.row(row.withShared(
                        new SharedSds(0.3 * row.sdGPerKg(), 0.5 * row.sdGPerKg(), 0.9 * row.sdGPerKg()))));
        return YieldTable.of(builder.build());
    }

    @Test
    void aSumOverLotsIsThatOfTheLotTogether() {
        YieldEstimator estimator = YieldEstimator.of(shared()).withSpecification("steaks");
        LotEstimate a = estimator.estimateLot(lot("A", 12, 300));
        LotEstimate b = estimator.estimateLot(lot("B", 9, 350));
        Figure figure =
                Figure.cut("striploin-steak").plus(Figure.cut("lean-trim").times(0.4));
        FigureSum sum = FigureSum.builder().add(a, figure).add(b, figure).build();
        LotEstimate both = a.plus(b);
        assertThat(sum.kg()).isCloseTo(both.kg(figure), within(1e-9));
        assertThat(sum.sdKg()).isCloseTo(both.sd(figure), within(1e-9));
        Map<UncertaintyPart, Double> parts = both.sdByPart(figure);
        assertThat(sum.sdByPart().keySet()).isEqualTo(parts.keySet());
        sum.sdByPart().forEach((part, sd) -> assertThat(sd).as(part.name()).isCloseTo(parts.get(part), within(1e-9)));
        assertThat(sum.promise(0.95)).isCloseTo(both.promise(figure, 0.95), within(1e-9));
        assertThat(sum.chanceOfAtLeast(50)).isCloseTo(both.chanceOfAtLeast(figure, 50), within(1e-9));
        assertThat(sum.interval(0.9).high())
                .isCloseTo(both.interval(figure, 0.9).high(), within(1e-9));
    }

    @Test
    void theCutsOfACarcassOneByOneAreTheCarcass() {
        YieldEstimator estimator = YieldEstimator.of(shared()).withSpecification("steaks");
        LotEstimate lot = estimator.estimateLot(lot("A", 12, 300));
        FigureSum.Builder sum = FigureSum.builder();
        double[] kg = new double[1];
        TABLE.cutsAt("primal").stream()
                .filter(cut -> TABLE.cutsAt("retail").stream()
                        .noneMatch(other -> other.code().equals(cut.code())))
                .forEach(cut -> {
                    PartEstimate part = lot.part(CarcassPart.cut(cut.code()));
                    sum.add(part, Figure.cut("retail", "lean-trim"));
                    kg[0] += part.coldWeightKg();
                    assertThat(part.coldWeightKg()).isCloseTo(lot.kg("primal", cut.code()), within(1e-9));
                });
        FigureSum lean = sum.build();
        assertThat(lean.kg()).isCloseTo(lot.kg("retail", "lean-trim"), within(1e-9));
        assertThat(lean.sdKg()).isCloseTo(lot.sd("retail", "lean-trim"), within(1e-9));
        assertThat(kg[0]).isLessThan(lot.coldWeightKg());
    }

    @Test
    void differentWaysOfTheSameCarcassesErrTogether() {
        LotEstimate steaks = STEAKS.estimateLot(lot("A", 12, 300));
        LotEstimate joints = STEAKS.withSpecification("joints").estimateLot(lot("A", 12, 300));
        Figure striploin = Figure.cut("striploin");
        FigureSum difference = FigureSum.builder()
                .add(steaks, striploin)
                .add(joints, striploin.times(-1))
                .build();
        assertThat(difference.kg()).isCloseTo(0, within(1e-9));
        assertThat(difference.sdKg()).isCloseTo(0, within(1e-6));
        assertThat(difference.toString()).startsWith("0 kg, SD 0 kg, of 2 figures");
    }

    @Test
    void aCutAloneHasNoQuartersAndIsOfAWholeCarcass() {
        PartEstimate part = STEAKS.estimateLot(lot("A", 2, 300)).part(CarcassPart.cut("striploin"));
        assertThat(part.words()).isEqualTo("striploin of 2 carcasses");
        assertThat(part.kg("rump-steak")).isZero();
        assertThatThrownBy(() -> new CarcassPart("", 1, 1, "striploin"))
                .hasMessage("a cut alone, here striploin, is taken of a whole carcass");
        assertThatThrownBy(() -> CarcassPart.cut(" ")).hasMessage("a cut alone needs its code");
        assertThatThrownBy(() -> STEAKS.estimateLot(lot("A", 2, 300)).part(CarcassPart.cut("oxtail")))
                .hasMessageContaining("oxtail");
    }

    @Test
    void whatDoesNotGoTogetherIsRefused() {
        LotEstimate a = STEAKS.estimateLot(lot("A", 2, 300));
        LotEstimate other = YieldEstimator.of(YieldTable.of(TestTables.small())).estimateLot(lot("A", 2, 300));
        assertThatThrownBy(() ->
                        FigureSum.builder().add(a, Figure.cut("striploin")).add(other, Figure.cut("meat")))
                .hasMessageContaining("outturns go together only with");
        assertThatThrownBy(() -> FigureSum.builder().build()).isInstanceOf(IllegalStateException.class);
    }
}
