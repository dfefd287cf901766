package org.beefyield.data.picture;

import java.util.List;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlannedOrder;

/**
 * What each order gets by a plan: what may be promised, what is planned beyond that, and what is missing of its least. Bars are in
 * % of the least, or of what is planned if that is more: on one axis of kg those of small orders would be too short to see.
 */
final class OrderBars {
    private static final int TICKS = 5;
    private static final int LEAST_PX = 10;
    /** Less than this prints as nothing. */
    private static final double SHOWN_KG = 0.05;

    private static final Pen PROMISED = Pen.line(Ink.BLUE, Rows.BAR_PX);
    private static final Pen PLANNED = Pen.line(Ink.SKY_BLUE, Rows.BAR_PX, 5, 2);
    private static final Pen MISSING = Pen.line(Ink.ORANGE, Rows.BAR_PX, 1.5, 4);
    private static final Pen LEAST = Pen.line(Ink.STRONG, 2);

    private OrderBars() {}

    /** What of an order is drawn, in per cent of the longest of its bars. */
    private record Bar(double promised, double planned, double all, double least) {
        static Bar of(PlannedOrder one) {
            double least = one.order().minKg();
            double whole = Math.max(least, one.kg());
            if (whole < SHOWN_KG) {
                return new Bar(0, 0, 0, 0);
            }
            double part = 100 / whole;
            return new Bar(
                    part * Math.min(one.kg(), one.promiseKg()),
                    part * one.kg(),
                    part * (one.shortKg() > 0 ? least : one.kg()),
                    part * least);
        }

        void draw(Plot plot, double centrePx) {
            bar(plot, PROMISED, 0, promised, centrePx);
            bar(plot, PLANNED, promised, planned, centrePx);
            bar(plot, MISSING, planned, all, centrePx);
            if (least > 0) {
                least(plot, plot.px(least), centrePx);
            }
        }

        private static void bar(Plot plot, Pen pen, double from, double to, double centrePx) {
            if (to > from) {
                plot.bar(pen, from, to, centrePx);
            }
        }

        static void least(Plot plot, double px, double centrePx) {
            plot.linePx(LEAST, px, centrePx - LEAST_PX, px, centrePx + LEAST_PX);
        }
    }

    static Picture draw(Plan plan) {
        if (plan.orders().isEmpty()) {
            throw new IllegalArgumentException("the plan has no orders to draw; a picture of orders needs one or more");
        }
        String sure = Figures.upTo(100 * plan.promised(), 2) + " %";
        long met = plan.orders().stream().filter(one -> one.shortKg() == 0).count();
        String day = Figures.count(plan.carcasses(), "carcass", "carcasses") + ", "
                + Figures.fixed(plan.coldWeightKg(), 0) + " kg cold: " + met + " of "
                + Figures.count(plan.orders().size(), "order", "orders") + " expected to be met";
        Rows rows = new Rows("least", "plan", "promise");
        StringBuilder words = new StringBuilder(day + ". Kilograms, promises at " + sure + ".");
        for (PlannedOrder one : plan.orders()) {
            String least = one.order().minKg() > 0 ? Figures.fixed(one.order().minKg(), 0) : "";
            String planned = Figures.fixed(one.kg(), 0);
            String promise = Figures.fixed(Math.floor(one.promiseKg()), 0);
            rows.row(name(one.order()), List.of(least, planned, promise), Bar.of(one)::draw);
            words.append(' ')
                    .append(one.order().id())
                    .append(
                            one.order().customer().isEmpty()
                                    ? ""
                                    : ", " + one.order().customer())
                    .append(", ")
                    .append(what(one.order()))
                    .append(": ")
                    .append(least.isEmpty() ? "" : "least " + least + ", ")
                    .append("planned ")
                    .append(planned)
                    .append(", promise ")
                    .append(promise)
                    .append(one.shortKg() > 0 ? ", missing " + Figures.fixed(one.shortKg(), 1) : "")
                    .append(", chance ")
                    .append(Figures.fixed(100 * one.chance(), 0))
                    .append(" %.");
        }
        String note =
                "Promise: on " + Figures.upTo(100 * plan.promised(), 2) + " of 100 such days so much or more comes out";
        words.append(' ').append(note).append('.');
        Plot plot = rows.plot(
                "What orders get",
                List.of(day, "kg beside the bars"),
                new Legend()
                        .bar("promised at " + sure, PROMISED)
                        .bar("planned beyond that", PLANNED)
                        .bar("missing of the least", MISSING)
                        .sign("least", (drawn, left, right, centre) -> Bar.least(drawn, (left + right) / 2, centre)),
                "% of the least, or of what is planned if that is more",
                roomPx -> Axis.rounded(0, 100, TICKS, roomPx));
        plot.notes(List.of(note));
        return plot.picture(words.toString());
    }

    private static String name(Order order) {
        return order.id() + " " + what(order);
    }

    private static String what(Order order) {
        return Outturns.words(order.product())
                + (order.fatPercent().isPresent()
                        ? " up to " + Outturns.plain(order.fatPercent().getAsDouble()) + " % fat"
                        : "");
    }
}
