package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.text.Numbers;
import org.junit.jupiter.api.Test;

class ValuerTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static final PriceList PRICES = TestPrices.BY_KIND;

    private static final Valuer VALUER = Valuer.of(PRICES, ESTIMATOR);

    private static final Carcass CARCASS = steer("U-", "3+", 361.5);

    @Test
    void aCarcassIsWorthItsKilogramsAtTheirPrices() {
        YieldEstimate estimate = ESTIMATOR.estimate(CARCASS);
        double expected = 22 * estimate.kg(CutKind.STEAK)
                + 14 * estimate.kg(CutKind.JOINT)
                + 9 * estimate.kg(CutKind.DICE)
                + 5 * estimate.kg(CutKind.LEAN_TRIM)
                + 0.3 * estimate.kg(CutKind.FAT_TRIM)
                - 0.1 * estimate.kg(CutKind.BONE);
        Value value = VALUER.value(CARCASS);

        assertThat(value.amount()).isCloseTo(expected, within(1e-9));
        assertThat(value.perKg()).isCloseTo(expected / 361.5, within(1e-12));
        assertThat(value.perHead()).isEqualTo(value.amount());
        assertThat(value.lines().stream().mapToDouble(ValueLine::quantity).sum())
                .isCloseTo(361.5, within(1e-9));
    }

    @Test
    void thePriceOfACutGoesBeforeThatOfItsKind() {
        Cut steak = ESTIMATOR.yields("retail").stream()
                .filter(cut -> cut.kind() == CutKind.STEAK)
                .findFirst()
                .orElseThrow();
        Value dearer = Valuer.of(PRICES.toBuilder().cut(steak.code(), 30).build(), ESTIMATOR)
                .value(CARCASS);

        assertThat(dearer.amount() - VALUER.value(CARCASS).amount())
                .isCloseTo(8 * ESTIMATOR.estimate(CARCASS).kg("retail", steak.code()), within(1e-9));
    }

    @Test
    void anotherLevelIsValuedAtItsOwnPrices() {
        Valuer primals = Valuer.of(PRICES.toBuilder().kind(CutKind.PRIMAL, 10).build(), ESTIMATOR, "primal");
        YieldEstimate estimate = ESTIMATOR.estimate(CARCASS);

        assertThat(primals.value(estimate).amount())
                .isCloseTo(
                        10 * estimate.kg("primal", CutKind.PRIMAL)
                                + 0.3 * estimate.kg("primal", CutKind.FAT_TRIM)
                                - 0.1 * estimate.kg("primal", CutKind.BONE),
                        within(1e-9));
    }

    @Test
    void minceHasAPriceByItsFatContent() {
        YieldEstimator minced = ESTIMATOR.with(MinceTarget.chemicalLean(75));
        double kg = minced.estimate(CARCASS).kg(CutKind.MINCE);
        double base = Valuer.of(PRICES, minced).value(CARCASS).amount();
        PriceList own = PRICES.toBuilder().mince(25, 8).mince(15, 99).build();

        assertThat(kg).isPositive();
        assertThat(Valuer.of(own, minced).value(CARCASS).amount() - base).isCloseTo(2 * kg, within(1e-9));
        assertThat(Valuer.of(PRICES.toBuilder().mince(7).build(), minced)
                                .value(CARCASS)
                                .amount()
                        - base)
                .isCloseTo(kg, within(1e-9));
    }

    /** Lean trim of these primals is fatter than a lean mince asks for. */
    private static YieldEstimator lean(double percent) {
        return ESTIMATOR.with(MinceTarget.fatPercent(percent));
    }

    private static double reached(YieldEstimator minced) {
        return 100 * minced.estimate(CARCASS).mince().orElseThrow().fat();
    }

    private static ValueLine minceLine(PriceList prices, YieldEstimator minced) {
        return Valuer.of(prices, minced).value(CARCASS).lines().stream()
                .filter(line -> line.code().equals("mince"))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void minceIsSoldAtTheFatThatItHas() {
        // the lean trim holds more than 5 % fat, so that 5 % can't be had
        YieldEstimator minced = lean(5);
        double fat = reached(minced);
        assertThat(fat).isBetween(10.0, 15.0);
        PriceList list = TestPrices.BY_KIND.toBuilder()
                .mince(5, 9)
                .mince(10, 8)
                .mince(15, 6)
                .mince(20, 5)
                .build();
        ValueLine line = minceLine(list, minced);

        assertThat(line.price()).isEqualTo(6);
        assertThat(line.amount()).isCloseTo(6 * line.quantity(), within(1e-9));
        assertThat(line.title()).isEqualTo("Mince, " + Numbers.brief(fat) + " % fat, at the price for 15 %");
        Value value = Valuer.of(list, minced).value(CARCASS);
        assertThat(value.toText())
                .contains("Mince, " + Numbers.brief(fat) + " % fat, at the price for 15 %")
                .endsWith(
                        "\nThis is no settlement: payment follows the contract and the official weights and grades.\n");
        assertThat(value.amount())
                .isLessThan(Valuer.of(list, lean(15)).value(CARCASS).amount());
        // the interval is that of the yields at the price that was got
        PriceList only = TestPrices.BY_KIND.toBuilder().mince(6).build();
        assertThat(value.sd()).isCloseTo(Valuer.of(only, minced).value(CARCASS).sd(), within(1e-9));
        // a lot too
        LotEstimate lot = minced.estimateLot(List.of(CARCASS, CARCASS));
        assertThat(Valuer.of(list, minced).value(lot).amount()).isCloseTo(2 * value.amount(), within(1e-6));
    }

    @Test
    void minceThatIsAsAskedAndPricedAsAskedNeedsNoWord() {
        PriceList list =
                TestPrices.BY_KIND.toBuilder().mince(15, 6).mince(20, 5).build();

        assertThat(minceLine(list, lean(15)).title()).isEqualTo("Mince");
        assertThat(minceLine(list, lean(16)).title()).isEqualTo("Mince, 16 % fat, at the price for 20 %");
        assertThat(minceLine(TestPrices.BY_KIND, lean(16)).title()).isEqualTo("Mince");
        assertThat(minceLine(list.toBuilder().mince(4).build(), lean(25)).title())
                .isEqualTo("Mince, 25 % fat, at the price for any mince");
        assertThat(minceLine(list.toBuilder().mince(4).build(), lean(25)).price())
                .isEqualTo(4);
    }

    @Test
    void minceFatterThanAnyPriceIsRefusedByName() {
        YieldEstimator minced = lean(5);
        PriceList.Builder builder = PriceList.builder("EUR").mince(5, 9).mince(10, 8);
        for (CutKind kind : CutKind.values()) {
            if (kind != CutKind.MINCE) {
                builder.kind(kind, 1);
            }
        }
        Valuer valuer = Valuer.of(builder.build(), minced);

        assertThatThrownBy(() -> valuer.value(CARCASS))
                .isInstanceOf(MissingPriceException.class)
                .hasMessage("no price is given for mince at " + Numbers.brief(reached(minced))
                        + " % fat (5 % asked), the fattest that has one is 10 %; give one for "
                        + Numbers.brief(reached(minced)) + " % or fatter, or for mince of any fat content");
        assertThat(Valuer.of(builder.mince(2).build(), minced).value(CARCASS).amount())
                .isPositive();
    }

    @Test
    void minceHeldLeanForWantOfFatTrimIsSoldAtTheFatThatItHas() {
        YieldEstimator fatter = lean(60);
        double fat = reached(fatter);
        assertThat(fat).isLessThan(59);
        PriceList list = TestPrices.BY_KIND.toBuilder()
                .mince(60, 1)
                .mince(Math.ceil(fat), 2)
                .build();

        assertThat(minceLine(list, fatter).price()).isEqualTo(2);
    }

    @Test
    void everyCutWithoutAPriceIsNamedAndNoneIsWorthNothingInSilence() {
        PriceList few = PriceList.builder("EUR").kind(CutKind.STEAK, 22).build();

        assertThatThrownBy(() -> Valuer.of(few, ESTIMATOR))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("no price is given for ")
                .hasMessageContaining("bone (bone)")
                .hasMessageContaining("fat-trim (fat-trim)")
                .hasMessageContaining("(lean-trim)")
                .hasMessageEndingWith("; give one for the cut or for its kind, 0 if it is worth nothing");
        assertThatThrownBy(() -> Valuer.of(
                        PriceList.builder("EUR")
                                .kind(CutKind.STEAK, 1)
                                .kind(CutKind.JOINT, 1)
                                .kind(CutKind.DICE, 1)
                                .kind(CutKind.FAT_TRIM, 1)
                                .kind(CutKind.BONE, 1)
                                .kind(CutKind.LOSS, 1)
                                .mince(15, 6)
                                .build(),
                        ESTIMATOR.with(MinceTarget.fatPercent(20))))
                .hasMessage("no price is given for " + MinceTarget.fatPercent(20)
                        + "; give one for the cut or for its kind, 0 if it is worth nothing");
    }

    @Test
    void aCutThatNoWayInUseYieldsNeedsNoPrice() {
        YieldEstimator trim =
                ESTIMATOR.with("chuck", "trim").with("rump", "joints").with("striploin", "joints");
        boolean dice = trim.yields("retail").stream().anyMatch(cut -> cut.kind() == CutKind.DICE);
        PriceList noDice = PriceList.builder("EUR")
                .kind(CutKind.STEAK, 22)
                .kind(CutKind.JOINT, 14)
                .kind(CutKind.LEAN_TRIM, 5)
                .kind(CutKind.FAT_TRIM, 0)
                .kind(CutKind.BONE, 0)
                .kind(CutKind.LOSS, 0)
                .build();

        assertThat(dice).isFalse();
        assertThat(Valuer.of(noDice, trim).value(CARCASS).amount()).isPositive();
    }

    @Test
    void aPriceOfACutThatTheTableDoesNotHaveIsRefusedWithTheNearestCodes() {
        assertThatThrownBy(() -> Valuer.of(PRICES.toBuilder().cut("stripoin", 9).build(), ESTIMATOR))
                .hasMessageStartingWith(
                        "a price is given for what the table doesn't have: no cut \"stripoin\"; nearest:"
                                + " striploin");
    }

    @Test
    void otherLinesCountByHeadAndByColdWeight() {
        Valuer others = Valuer.of(
                PRICES.toBuilder()
                        .otherPerHead("Hide", 25)
                        .otherPerKg("Boning", -0.45)
                        .build(),
                ESTIMATOR);
        LotEstimate lot = ESTIMATOR.estimateLot(List.of(CARCASS, steer("O=", "3=", 300)));

        assertThat(others.value(CARCASS).amount() - VALUER.value(CARCASS).amount())
                .isCloseTo(25 - 0.45 * 361.5, within(1e-9));
        assertThat(others.value(lot).amount() - VALUER.value(lot).amount()).isCloseTo(50 - 0.45 * 661.5, within(1e-9));
        assertThat(others.value(lot).perHead()).isCloseTo(others.value(lot).amount() / 2, within(1e-9));
    }

    @Test
    void valueIsLinearInPrices() {
        for (double factor : new double[] {0, 0.5, 2}) {
            assertThat(Valuer.of(PRICES.times(factor), ESTIMATOR).value(CARCASS).amount())
                    .isCloseTo(factor * VALUER.value(CARCASS).amount(), within(1e-9));
        }
    }

    @Test
    void aBetterPriceNeverLowersTheValue() {
        for (CutKind kind : PRICES.kinds().keySet()) {
            PriceList better =
                    PRICES.toBuilder().kind(kind, PRICES.kinds().get(kind) + 1).build();
            assertThat(Valuer.of(better, ESTIMATOR).value(CARCASS).amount())
                    .as(kind.code())
                    .isGreaterThanOrEqualTo(VALUER.value(CARCASS).amount());
        }
    }

    @Test
    void aLotIsWorthWhatItsCarcassesAre() {
        List<Carcass> carcasses = new ArrayList<>();
        double sum = 0;
        for (String grade : List.of("U=", "R+", "O-", "P=")) {
            carcasses.add(steer(grade, "4L", 280 + 10 * carcasses.size()));
            sum += VALUER.value(carcasses.get(carcasses.size() - 1)).amount();
        }

        assertThat(VALUER.value(ESTIMATOR.estimateLot(carcasses)).amount()).isCloseTo(sum, within(1e-8));
    }

    @Test
    void theIntervalFollowsFromDrawnCarcasses() {
        YieldEstimate estimate = ESTIMATOR.estimate(CARCASS);
        Value value = VALUER.value(estimate);
        double[] drawn = estimate.sample(new Random(3), 4000).carcasses().stream()
                .mapToDouble(carcass -> VALUER.value(carcass).amount())
                .toArray();
        Interval ninety = value.interval(0.9);
        double inside = Arrays.stream(drawn).filter(ninety::contains).count() / 4000.0;

        assertThat(inside).isCloseTo(0.9, within(0.02));
    }

    /** Student's t with 10 degrees of freedom has 1.812 at 0.95 (any table of it). */
    @Test
    void theIntervalIsThatOfTheCutsMovedByOtherIncomeAndCost() {
        YieldEstimator tenDegrees = YieldEstimator.of(YieldTable.of(TableDefinition.builder("ten-degrees", "1")
                .levels("tissue")
                .categories(Category.STEER)
                .source(TestTables.source("invented"))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .row("carcass", "meat", 20, "invented", 800, 0, 0, 0)
                .row("carcass", "bone", 20, "invented", 200, 0, 0, 0)
                .covariance(CovarianceRow.residual("carcass", "meat", "meat", 400))
                .covariance(CovarianceRow.residual("carcass", "meat", "bone", -400))
                .covariance(CovarianceRow.residual("carcass", "bone", "bone", 400))
                .residualDegreesOfFreedom(10)
                .build()));
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.MEAT, 8)
                .kind(CutKind.BONE, 0)
                .otherPerHead("Hide", 25)
                .build();
        Value value = Valuer.of(prices, tenDegrees).value(steer("R=", "3=", 300));

        // 20 g/kg of 300 kg at 8 a kg
        assertThat(value.sd()).isCloseTo(48, within(1e-9));
        assertThat(value.interval(0.9).low()).isCloseTo(1945 - 1.812 * 48, within(0.05));
        assertThat(value.interval(0.9).high()).isCloseTo(1945 + 1.812 * 48, within(0.05));
    }

    @Test
    void anOutturnOfAnotherEstimatorIsRefused() {
        YieldEstimate other = ESTIMATOR.with("chuck", "trim").estimate(CARCASS);

        assertThatThrownBy(() -> VALUER.value(other)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void amountsAddUpAsPrintedAndNamesAreEscaped() {
        PriceList prices = PRICES.toBuilder().otherPerHead("Hide <wet>", 25.005).build();
        Value value = Valuer.of(prices, ESTIMATOR).value(CARCASS);
        List<String> lines = value.table().toText().lines().toList();
        BigDecimal sum = BigDecimal.ZERO;
        for (int i = 2; i < lines.size() - 2; i++) {
            sum = sum.add(new BigDecimal(
                    lines.get(i).substring(lines.get(i).lastIndexOf(' ') + 1).replace(",", "")));
        }

        assertThat(sum).isEqualTo(value.money().amount());
        assertThat(lines.get(lines.size() - 1))
                .endsWith(" " + Numbers.grouped(value.money().amountText()));
        assertThat(value.toHtml()).contains("Hide &lt;wet&gt;").doesNotContain("<wet>");
        assertThat(value.toText())
                .startsWith("Worth " + Numbers.grouped(value.money().amountText()) + " EUR, ");
    }
}
