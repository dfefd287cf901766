package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.PlannedOrder;
import org.beefyield.plan.Planner;
import org.junit.jupiter.api.Test;

/** The bars of a plan's orders, read back from the picture. */
class OrderPictureTest {
    private static final Drawn DRAWN = drawn();

    private static Drawn drawn() {
        try {
            return Drawn.of(Pictures.orders(Kinds.PLAN));
        } catch (Exception e) {
            throw new AssertionError(e);
        }
    }

    /** Per cent at which the fill of a colour begins and ends in the row at a height; outlines are a pixel wide. */
    private static double[] ends(Ink ink, double y) {
        return DRAWN.lines.stream()
                .filter(line -> line.isLevel() && Math.abs(line.y1() - y) < 1 && line.rgb() == ink.rgb())
                .map(line -> new double[] {
                    DRAWN.readX(line.left() - 1, "0", "100"), DRAWN.readX(line.right() + 1, "0", "100")
                })
                .findFirst()
                .orElse(new double[0]);
    }

    private static double height(String promise, String plan) {
        return DRAWN.texts.stream()
                        .filter(text -> text.words().equals(promise)
                                && DRAWN.texts.stream()
                                        .anyMatch(other -> other.y() == text.y()
                                                && other.words().equals(plan)))
                        .findFirst()
                        .orElseThrow()
                        .y()
                - 4;
    }

    @Test
    void aBarIsPromisedThenPlannedThenMissingInPercent() {
        PlannedOrder dice = Kinds.PLAN.order("T-3");
        assertThat(dice.shortKg()).isPositive();
        assertThat(dice.promiseKg()).isBetween(0.0, dice.kg());
        double y = height(Figures.fixed(Math.floor(dice.promiseKg()), 0), Figures.fixed(dice.kg(), 0));
        assertThat(ends(Ink.BLUE, y)).containsExactly(new double[] {0, 100 * dice.promiseKg() / 2000}, within(0.1));
        assertThat(ends(Ink.SKY_BLUE, y))
                .containsExactly(new double[] {100 * dice.promiseKg() / 2000, 100 * dice.kg() / 2000}, within(0.1));
        assertThat(ends(Ink.ORANGE, y)).containsExactly(new double[] {100 * dice.kg() / 2000, 100}, within(0.1));
        assertThat(least(y)).isCloseTo(100, within(0.1));
    }

    private static double least(double y) {
        return DRAWN.lines.stream()
                .filter(line ->
                        line.x1() == line.x2() && line.width() == 2 && Math.abs((line.y1() + line.y2()) / 2 - y) < 1)
                .mapToDouble(line -> DRAWN.readX(line.x1(), "0", "100"))
                .findFirst()
                .orElse(Double.NaN);
    }

    @Test
    void whereMoreIsPlannedThanTheLeastTheBarIsOfThat() {
        PlannedOrder steaks = Kinds.PLAN.order("T-1");
        assertThat(steaks.kg()).isGreaterThan(steaks.order().minKg());
        double y = height(Figures.fixed(Math.floor(steaks.promiseKg()), 0), Figures.fixed(steaks.kg(), 0));
        assertThat(ends(Ink.SKY_BLUE, y)[1]).isCloseTo(100, within(0.1));
        assertThat(ends(Ink.ORANGE, y)).isEmpty();
        assertThat(least(y)).isCloseTo(100 * 200 / steaks.kg(), within(0.1));
        // an order without a least has no line
        assertThat(least(height("300", "300"))).isNaN();
    }

    @Test
    void itSaysAllFiguresInWords() {
        PlannedOrder dice = Kinds.PLAN.order("T-3");
        assertThat(Pictures.orders(Kinds.PLAN).altText())
                .startsWith(
                        "What orders get. 40 carcasses, 13,180 kg cold: 2 of 4 orders expected to be met."
                                + " Kilograms, promises at 95 %. T-1, Mere Street Butchers, striploin steak: least 200, planned 500,"
                                + " promise "
                                + Figures.fixed(
                                        Math.floor(Kinds.PLAN.order("T-1").promiseKg()), 0)
                                + ", chance 100 %. T-2, striploin joint: least 150, planned 0, promise 0, missing 150.0, chance 0 %.")
                .contains(" T-3, Long Lane Kitchens, dice: least 2,000, planned " + Figures.fixed(dice.kg(), 0))
                .contains(" missing " + Figures.fixed(dice.shortKg(), 1) + ",")
                .endsWith(" T-4, mince up to 10 % fat: planned 300, promise 300, chance 100 %."
                        + " Promise: on 95 of 100 such days so much or more comes out.");
    }

    @Test
    void withoutOrdersThereIsNothingToDraw() {
        Plan plan = Planner.builder(Kinds.ESTIMATOR, Kinds.VALUER.prices(), OjAlgoSolver.create())
                .freedom(PlanFreedom.FIXED)
                .build()
                .plan(List.copyOf(Kinds.herd(1, 1)));
        assertThatThrownBy(() -> Pictures.orders(plan))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the plan has no orders to draw; a picture of orders needs one or more");
    }
}
