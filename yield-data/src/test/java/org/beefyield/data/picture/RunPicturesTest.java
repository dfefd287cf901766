package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.carcass.Carcass;
import org.beefyield.reconcile.GroupFigures;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.stats.Bounds;
import org.junit.jupiter.api.Test;

/** Pictures of runs of which weighed and expected are given. */
class RunPicturesTest {
    private static final String GROUP = "Striploin steak";
    private static final List<Product> PRODUCTS = List.of(Product.of("SL", GROUP, "striploin-steak"));
    private static final LocalDate FIRST = LocalDate.of(2026, 10, 1);
    private static final double INTAKE_KG = 300;

    /** A run of a carcass that weighed 40 kg less than its cold weight, with so many per cent of the striploin expected. */
    private static BoningRun run(String hall, String day, double percent) {
        Carcass carcass = Kinds.herd(1, 1).get(0);
        double kg = percent
                / 100
                * INTAKE_KG
                / 340
                * Kinds.ESTIMATOR.estimate(carcass).kg("retail", "striploin-steak");
        return new BoningRun(
                hall,
                day,
                IntakeWeighing.COLD_WEIGHED,
                List.of(Intake.of(carcass, IntakePart.CARCASS, INTAKE_KG, Movement.BONED, "")),
                List.of(Box.of("1", "SL", "", kg, 0)),
                List.of(new Rest(RestKind.WASTE, INTAKE_KG - kg, "")));
    }

    private static Season season(String hall, int runs, int much) {
        return Season.of(
                IntStream.range(0, runs)
                        .mapToObj(i -> run(hall, FIRST.plusDays(i).toString(), i == much ? 140 : i % 2 == 0 ? 98 : 102))
                        .toList(),
                Kinds.ESTIMATOR,
                PRODUCTS);
    }

    @Test
    void aSeriesHasTheLast30RunsInPercentOfWhatTheIntakeShouldReturn() throws Exception {
        Picture picture = Pictures.series(season("Tarrowmere", 33, 31), GROUP);
        StringBuilder values = new StringBuilder();
        for (int i = 3; i < 33; i++) {
            values.append(i == 3 ? "" : ", ")
                    .append(FIRST.plusDays(i))
                    .append(i == 31 ? " 140.0" : i % 2 == 0 ? " 98.0" : " 102.0");
        }
        assertThat(picture.altText())
                .isEqualTo(
                        "Striploin steak, run by run. Tarrowmere: Striploin steak, % of expected. Weighed, % of what the"
                                + " intake should return, 2026-10-04 to 2026-11-02, 30 values, 1 run in an alarm. Values: "
                                + values
                                + ". Alarm: 2026-11-01 140.0.");
        assertThat(Drawn.of(picture).words())
                .contains(
                        "Striploin steak, run by run",
                        "Tarrowmere: Striploin steak, % of expected",
                        "2026-10-04 to 2026-11-02, 30 values, 1 run in an alarm",
                        "Weighed, % of what the intake should return",
                        "90 % interval",
                        "Alarm: 2026-11-01 140.0")
                .doesNotContain("control limits");
    }

    @Test
    void theIntervalOfARunIsThatOfTheSeasonInPercent() throws Exception {
        Season season = season("", 33, 31);
        Picture picture = Pictures.series(season, GROUP);
        Drawn drawn = Drawn.of(picture);
        assertThat(drawn.words()).contains("Striploin steak, % of expected");
        double legend =
                drawn.text("Weighed, % of what the intake should return").y();
        List<Drawn.Line> limits = drawn.lines.stream()
                .filter(line -> line.isDashed() && line.y1() > legend)
                .sorted(Comparator.comparingDouble(Drawn.Line::x1))
                .toList();
        assertThat(limits).hasSize(2 * 29);
        double scaled = season.judged().get(3).line(GROUP).scaledKg();
        List<Double> expected = new ArrayList<>();
        for (int run : List.of(3, 31)) {
            Bounds bounds = season.bounds(GROUP, run).orElseThrow();
            expected.add(100 + bounds.low() * INTAKE_KG / 1000 / scaled * 100);
            expected.add(100 + bounds.high() * INTAKE_KG / 1000 / scaled * 100);
        }
        assertThat(expected.get(0)).isBetween(80.0, 99.0);
        assertThat(expected.get(1)).isBetween(101.0, 120.0);
        List<Double> first = limits.stream()
                .filter(line -> line.x1() == limits.get(0).x1())
                .map(line -> drawn.readY(line.y1(), "100", "120"))
                .sorted()
                .toList();
        assertThat(first.get(0)).isCloseTo(expected.get(0), within(0.1));
        assertThat(first.get(1)).isCloseTo(expected.get(1), within(0.1));
        List<Drawn.Point> alarm = drawn.marks.stream()
                .filter(mark -> mark.y() > legend && mark.rgb() == Ink.VERMILLION.rgb())
                .toList();
        assertThat(alarm).hasSize(2);
        assertThat(drawn.readY(alarm.get(0).y(), "100", "120")).isCloseTo(140, within(0.1));
        assertThat(picture.toSvg())
                .isEqualTo(Pictures.series(season("", 33, 31), GROUP).toSvg());
    }

    @Test
    void oneRunAloneHasNoInterval() throws Exception {
        Picture picture = Pictures.series(season("", 1, 5), GROUP);
        assertThat(picture.altText())
                .isEqualTo(
                        "Striploin steak, run by run. Striploin steak, % of expected. Weighed, % of what the intake should"
                                + " return, 2026-10-01 to 2026-10-01, 1 value, 0 runs in an alarm. Values: 2026-10-01 98.");
        assertThat(Drawn.of(picture).words()).contains("value", "alarm").doesNotContain("90 % interval");
    }

    @Test
    void whatNoSeriesCanBeDrawnOfIsRefusedInWords() {
        assertThatThrownBy(() -> Pictures.series(season("", 2, 5), "Fillet"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no group \"Fillet\" is watched; there are Striploin steak, losses, unweighed");
        Season weekly = Season.of(List.of(run("Tarrowmere", "week 45", 100)), Kinds.ESTIMATOR, PRODUCTS);
        assertThatThrownBy(() -> Pictures.series(weekly, GROUP))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "Tarrowmere week 45: its day is no date such as 2026-11-03, which a picture over time needs");
    }

    /** 1000 kg cold weight weighed 990 kg: 2 kg of 200 kg at 10 EUR, 6 of 600 kg at 5; then 8 kg less and 4 kg more come off. */
    private static Reconciliation priced() {
        return Reconciliation.of(
                "Tarrowmere 2026-11-03",
                1000,
                990,
                List.of(
                        new GroupFigures(GROUP, 200, 200, 200, 190, 10, 10, -12.5, Map.of()),
                        GroupFigures.of("Dice", 600, 598, Map.of()).at(5)),
                "EUR",
                2);
    }

    @Test
    void moneyGoesFromExpectedToWeighedCauseByCause() throws Exception {
        Picture picture = Pictures.causes(priced());
        assertThat(picture.altText())
                .isEqualTo(
                        "From expected to weighed, EUR. Tarrowmere 2026-11-03, 990.0 kg boned. In EUR. Expected: 5,000.00. Intake weight -50.00. Cutting -60.00."
                                + " Downgraded boxes -12.50. Weighed: 4,877.50.");
        Drawn drawn = Drawn.of(picture);
        assertThat(drawn.words())
                .contains("Tarrowmere 2026-11-03, 990.0 kg boned", "EUR; the axis doesn't begin at 0", "-60.00")
                .doesNotContain("Mix of grades", "Way of cutting", "Prices", "Baseline");
        List<Drawn.Point> ends = drawn.marks.stream()
                .filter(mark -> mark.y() > drawn.text("Expected").y() - 6)
                .toList();
        assertThat(ends).hasSize(2);
        assertThat(drawn.readX(ends.get(0).x(), "4,900", "4,950")).isCloseTo(5000, within(0.2));
        assertThat(drawn.readX(ends.get(1).x(), "4,900", "4,950")).isCloseTo(4877.5, within(0.2));
        double at = ends.get(0).x();
        for (String cause : List.of("Intake weight", "Cutting", "Downgraded boxes")) {
            double y = cause.equals("Downgraded boxes")
                    ? drawn.text("-12.50").y()
                    : drawn.text(cause).y();
            Drawn.Line bar = drawn.lines.stream()
                    .filter(line -> line.isLevel() && line.width() == Rows.BAR_PX && Math.abs(line.y1() - (y - 4)) < 1)
                    .findFirst()
                    .orElseThrow();
            assertThat(bar.right()).as(cause).isCloseTo(at, within(0.02));
            at = bar.left();
        }
        assertThat(at).isCloseTo(ends.get(1).x(), within(0.02));
        assertThat(Pictures.causes(priced()).toSvg()).isEqualTo(picture.toSvg());
    }

    @Test
    void againstABaselineItBeginsThere() {
        Reconciliation run = Reconciliation.of(
                "Tarrowmere 2026-11-03",
                1000,
                1000,
                List.of(GroupFigures.of(GROUP, 200, 200, Map.of()).at(10).against(190, 195, 9)),
                "EUR",
                2);
        assertThat(Pictures.causes(run).altText())
                .isEqualTo(
                        "From baseline to weighed, EUR. Tarrowmere 2026-11-03, 1,000.0 kg boned. In EUR. Baseline: 1,710.00. Mix of grades +45.00. Way of cutting"
                                + " +45.00. Prices +200.00. Weighed: 2,000.00.");
    }

    @Test
    void withoutPricesThereIsNoMoneyToDraw() {
        assertThatThrownBy(
                        () -> Pictures.causes(season("Tarrowmere", 1, 5).runs().get(0)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("Tarrowmere 2026-10-01: nothing is priced; reconcile it with a valuer");
    }
}
