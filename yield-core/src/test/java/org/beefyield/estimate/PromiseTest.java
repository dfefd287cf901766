package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** What may be promised, which parts count, and what is common to a lot, a run and a hall. Invented figures. */
class PromiseTest {
    /** Meat and fat trim of the carcass, fore and hind of the meat: 9, 5 and 15 g/kg of lots, runs and halls. */
    private static final TableDefinition DEFINITION = TestTables.share(TestTables.small(), row -> switch (row.cut()) {
                case "meat", "fat-trim" -> SharedSds.of(9, 5, 15);
                case "fore", "hind" -> SharedSds.of(3, 2, 40);
                default -> SharedSds.of(0, 0, 0);
            })
            .build();

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(DEFINITION));
    private static final Figure MEAT = Figure.cut("tissue", "meat");
    private static final Carcass STEER =
            Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

    /** 95 % of a normal distribution lie above its mean less so many SDs (any table of the normal distribution). */
    private static final double Z95 = 1.6448536269514722;

    private static LotEstimate lot(int size) {
        return ESTIMATOR.estimateLot(Collections.nCopies(size, STEER));
    }

    @Test
    void whatALotARunAndAHallHaveInCommonDoesNotAverageOut() {
        for (int size : new int[] {1, 40, 400}) {
            LotEstimate lot = lot(size);
            double kg = 340.0 * size;
            assertThat(lot.sd(MEAT, UncertaintyPart.LOT)).isCloseTo(9e-3 * kg, within(1e-9 * kg));
            assertThat(lot.sd(MEAT, UncertaintyPart.RUN)).isCloseTo(5e-3 * kg, within(1e-9 * kg));
            assertThat(lot.sd(MEAT, UncertaintyPart.HALL)).isCloseTo(15e-3 * kg, within(1e-9 * kg));
            assertThat(lot.sd(MEAT, UncertaintyPart.BETWEEN_CARCASSES))
                    .isCloseTo(20e-3 * 340 * Math.sqrt(size), within(1e-9 * kg));
        }
    }

    @Test
    void overManyLotsAndRunsTheirErrorsAverageOutAndThatOfTheHallDoesNot() {
        LotEstimate.Collector season = ESTIMATOR.collector();
        for (int run = 0; run < 20; run++) {
            for (int lot = 0; lot < 2; lot++) {
                for (int i = 0; i < 5; i++) {
                    season.add(STEER.withSupplier("farm " + lot).withKillDate("day " + run));
                }
            }
        }
        LotEstimate all = season.lot();
        double kg = 200 * 340;
        assertThat(all.lots()).isEqualTo(40);
        assertThat(all.runs()).isEqualTo(20);
        assertThat(all.sd(MEAT, UncertaintyPart.LOT)).isCloseTo(9e-3 * kg / Math.sqrt(40), within(1e-9 * kg));
        assertThat(all.sd(MEAT, UncertaintyPart.RUN)).isCloseTo(5e-3 * kg / Math.sqrt(20), within(1e-9 * kg));
        assertThat(all.sd(MEAT, UncertaintyPart.HALL)).isCloseTo(15e-3 * kg, within(1e-9 * kg));
        // a caller of millions says that they are one lot: wider, never narrower
        LotEstimate one = ESTIMATOR.collector().asOneLot().add(season).lot();
        assertThat(one.lots()).isEqualTo(40);
    }

    @Test
    void aPromiseIsTheLowerEndOfTheIntervalThatHoldsTwiceTheRest() {
        LotEstimate lot = lot(40);
        double promised = lot.promise("fore", 0.95);
        assertThat(promised).isCloseTo(lot.kg("fore") - Z95 * lot.sd("fore"), within(1e-6));
        assertThat(promised).isCloseTo(lot.interval("fore", 0.90).low(), within(1e-9));
        assertThat(lot.promise(Figure.saleable(), 0.5)).isCloseTo(lot.saleableKg(), within(1e-6));
        assertThat(lot.promise(CutKind.BONE, 0.95)).isEqualTo(lot.promise(Figure.kind(CutKind.BONE), 0.95));
        assertThat(lot.chanceOfAtLeast("fore", promised)).isCloseTo(0.95, within(1e-9));
        assertThat(lot.chanceOfAtLeast(CutKind.BONE, lot.boneKg())).isCloseTo(0.5, within(1e-9));
        assertThat(lot.chanceOfAtLeast("fore", 0)).isEqualTo(1);
        assertThat(lot.chanceOfAtLeast("fore", 1e9)).isZero();
        // loss varies so much that nothing can be promised of it, and less than nothing is never promised
        assertThat(lot(1).promise("loss", 0.9999999999)).isZero();
    }

    @Test
    void insideOneHallThatCutsAsTheTableDoesTheHallIsLeftOut() {
        LotEstimate lot = lot(40);
        LotEstimate own = lot.inOwnHall();
        assertThat(own.sd(MEAT, UncertaintyPart.HALL)).isZero();
        assertThat(own.sd(MEAT))
                .isCloseTo(
                        Math.sqrt(lot.sd(MEAT) * lot.sd(MEAT) - Math.pow(lot.sd(MEAT, UncertaintyPart.HALL), 2)),
                        within(1e-9));
        assertThat(own.promise("fore", 0.95)).isGreaterThan(lot.promise("fore", 0.95));
        assertThat(own.counted()).isEqualTo(UncertaintyPart.inOwnHall()).doesNotContain(UncertaintyPart.HALL);
        assertThat(own).isEqualTo(ESTIMATOR.inOwnHall().estimateLot(Collections.nCopies(40, STEER)));
        assertThat(ESTIMATOR.estimate(STEER).inOwnHall())
                .isEqualTo(ESTIMATOR.inOwnHall().estimate(STEER))
                .isNotEqualTo(ESTIMATOR.estimate(STEER));
        assertThat(ESTIMATOR.estimate(STEER).inOwnHall().sd(MEAT))
                .isLessThan(ESTIMATOR.estimate(STEER).sd(MEAT));
        assertThat(lot.largestPart(MEAT)).contains(UncertaintyPart.HALL);
        assertThat(own.largestPart(MEAT)).contains(UncertaintyPart.LOT);
        assertThat(ESTIMATOR.estimate(STEER).largestPart(MEAT)).contains(UncertaintyPart.BETWEEN_CARCASSES);
        assertThatThrownBy(() -> lot.plus(own))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("outturns go together only with the same table, cutting specification, mince,"
                        + " scale and parts of the uncertainty: ");
        assertThat(lot.counting(Set.of()).sd(MEAT)).isZero();
        assertThat(lot.counting(Set.of()).largestPart(MEAT)).isEmpty();
    }

    @Test
    void twoLotsOfOneHallShareTheHallAsFarAsTheyAgree() {
        Carcass first = STEER.withSupplier("farm 1").withKillDate("monday").withHall("hall");
        LotEstimate lot = ESTIMATOR.estimateLot(Collections.nCopies(10, first));
        LotEstimate sameRun = ESTIMATOR.estimateLot(Collections.nCopies(10, first.withSupplier("farm 2")));
        LotEstimate otherRun = ESTIMATOR.estimateLot(Collections.nCopies(10, first.withKillDate("tuesday")));
        LotEstimate otherHall = ESTIMATOR.estimateLot(Collections.nCopies(10, first.withHall("another")));
        double kg = 3400;
        double carcasses = Math.sqrt(2) * 20e-3 * 340 * Math.sqrt(10);
        double lots = Math.sqrt(2) * 9e-3 * kg;
        double runs = Math.sqrt(2) * 5e-3 * kg;
        double halls = Math.sqrt(2) * 15e-3 * kg;
        assertThat(lot.minus(sameRun, MEAT).sdKg()).isCloseTo(Math.hypot(carcasses, lots), within(1e-9));
        assertThat(lot.minus(otherRun, MEAT).sdKg())
                .isCloseTo(Math.sqrt(carcasses * carcasses + lots * lots + runs * runs), within(1e-9));
        // the lot's name, supplier and date are the same: it was cut in two halls
        assertThat(lot.minus(otherHall, MEAT).sdKg())
                .isCloseTo(Math.sqrt(carcasses * carcasses + runs * runs + halls * halls), within(1e-9));
        assertThat(lot.minus(otherRun, MEAT).expectedSdKg()).isCloseTo(0, within(1e-9));
        assertThat(lot.minus(otherHall, MEAT).expectedSdKg()).isCloseTo(halls, within(1e-9));
        assertThat(lot.minus(otherRun, MEAT).interval(0.9).high())
                .isCloseTo(Z95 * lot.minus(otherRun, MEAT).sdKg(), within(1e-6));
    }

    @Test
    void aSampleDrawsWhatIsCounted() {
        YieldEstimate estimate = ESTIMATOR.estimate(STEER);
        for (YieldEstimate drawn :
                List.of(estimate, estimate.inOwnHall(), estimate.counting(Set.of(UncertaintyPart.LOT)))) {
            double[] kg = drawn.sample(new Random(19), 20_000).kg(MEAT);
            double mean = Arrays.stream(kg).average().orElseThrow();
            double sd = Math.sqrt(Arrays.stream(kg)
                    .map(one -> (one - mean) * (one - mean))
                    .average()
                    .orElseThrow());
            // four standard errors of an SD of so many draws
            assertThat(sd).isCloseTo(drawn.sd(MEAT), within(4 * drawn.sd(MEAT) / Math.sqrt(2 * 20_000)));
        }
    }

    @Test
    void theSameCarcassesErrAlikeAndOthersDoNot() {
        LotEstimate lot = lot(10);
        Difference nothing = lot.changeFrom(lot(10), MEAT);
        assertThat(nothing.kg()).isZero();
        assertThat(nothing.sdKg()).isCloseTo(0, within(1e-9));
        // fore at one price and at another: what it errs counts with the difference of the prices
        Figure cheap = Figure.cut("fore").times(4);
        Figure dear = Figure.cut("fore").times(7);
        Difference prices = lot.changeFrom(dear, lot, cheap);
        assertThat(prices.kg()).isCloseTo(3 * lot.kg("fore"), within(1e-9));
        assertThat(prices.sdKg()).isCloseTo(3 * lot.sd("fore"), within(1e-9));
        assertThatThrownBy(() -> lot.changeFrom(lot(11), MEAT))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the change of a figure is that of the same carcasses; these are others, see minus");
    }

    @Test
    void waysThatCarcassesAreCutInCompareByWhatBothHangOn() {
        TableDefinition three = TestTables.share(
                        TestTables.threeLevels(),
                        row -> SharedSds.of(0.3 * row.sdGPerKg(), 0.2 * row.sdGPerKg(), 0.5 * row.sdGPerKg()))
                .build();
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(three));
        LotEstimate lot = estimator.estimateLot(Collections.nCopies(20, STEER));
        List<String> names = estimator.table().specifications().stream()
                .map(specification -> specification.name())
                .toList();
        assertThat(names).hasSizeGreaterThan(1);
        LotEstimate other = lot.under(names.get(1));
        // at the level of primals nothing has changed
        String primal = estimator
                .table()
                .cutsAt(estimator.table().levels().get(1))
                .get(0)
                .code();
        Difference unchanged =
                other.changeFrom(lot, Figure.cut(estimator.table().levels().get(1), primal));
        assertThat(unchanged.kg()).isCloseTo(0, within(1e-9));
        assertThat(unchanged.sdKg()).isCloseTo(0, within(1e-6));
        // and behind it less changes than for other carcasses
        Difference change = other.changeFrom(lot, Figure.saleable());
        assertThat(change.sdKg())
                .isPositive()
                .isLessThan(other.minus(lot, Figure.saleable()).sdKg());
    }

    @Test
    void degreesOfFreedomAreThoseOfThePartThatWasEstimated() {
        // meat against bone, of 8 degrees of freedom; lots, runs and halls as declared
        TableDefinition fitted = DEFINITION.toBuilder()
                .residualDegreesOfFreedom(8)
                .covariance(CovarianceRow.residual("carcass", "meat", "meat", 400))
                .covariance(CovarianceRow.residual("carcass", "meat", "fat-trim", -400))
                .covariance(CovarianceRow.residual("carcass", "fat-trim", "fat-trim", 400))
                .covariance(CovarianceRow.residual("carcass", "meat", "bone", 0))
                .covariance(CovarianceRow.residual("carcass", "meat", "loss", 0))
                .covariance(CovarianceRow.residual("carcass", "fat-trim", "bone", 0))
                .covariance(CovarianceRow.residual("carcass", "fat-trim", "loss", 0))
                .covariance(CovarianceRow.residual("carcass", "bone", "bone", 0))
                .covariance(CovarianceRow.residual("carcass", "bone", "loss", 0))
                .covariance(CovarianceRow.residual("carcass", "loss", "loss", 0))
                .build();
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(withoutBone(fitted)));
        YieldEstimate estimate = estimator.estimate(STEER);
        double residual = 20e-3 * 340;
        double all = 340e-3 * Math.sqrt(400 + 81 + 25 + 225);
        assertThat(estimate.sd(MEAT)).isCloseTo(all, within(1e-9));
        // Satterthwaite: (sum of variances)^2 over variance^2 / degrees
        double degrees = Math.pow(all, 4) / Math.pow(residual, 4) * 8;
        Interval expected = Interval.student(estimate.kg(MEAT), all, degrees, 0.9);
        assertThat(estimate.interval(MEAT, 0.9).low()).isCloseTo(expected.low(), within(1e-9));
        assertThat(estimate.promise(MEAT, 0.95)).isCloseTo(expected.low(), within(1e-9));
        // without them those of the trial itself, as before
        YieldEstimate alone = estimate.counting(Set.of(UncertaintyPart.BETWEEN_CARCASSES));
        assertThat(alone.interval(MEAT, 0.9).low())
                .isCloseTo(Interval.student(estimate.kg(MEAT), residual, 8, 0.9).low(), within(1e-9));
    }

    private static TableDefinition withoutBone(TableDefinition definition) {
        TableDefinition.Builder builder = definition.toBuilder().clearBreakdown();
        for (BreakdownRow row : definition.breakdown()) {
            boolean certain = row.cut().equals("bone") || row.cut().equals("loss");
            builder.row(new BreakdownRow(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    row.coefficients(),
                    certain ? 0 : row.sdGPerKg(),
                    row.shared(),
                    row.source()));
        }
        return builder.build();
    }
}
