package org.beefyield.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.boning.Product;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.lp.LinearSolver;
import org.beefyield.market.SizeWindow;
import org.beefyield.price.PriceList;
import org.beefyield.text.Checks;

/**
 * What a day is planned with: orders, stock, prices of what no order takes, the hall's hours and rates, and what is free to be
 * chosen. Immutable and thread-safe if the solver is; nothing is kept between plans.
 *
 * <p>Cuts that are cut up last (primals) are planned one by one; all before them follow the estimator's table. Mince is blended from
 * the lean trim of each of them and from fat trim, so that it has no more fat than is ordered or than its price allows.
 */
public final class Planner {
    /** Cells of carcasses that are told apart, where the caller doesn't say. */
    public static final int USUAL_CELLS = 40;

    /** The probability of what may be promised. */
    public static final double USUAL_PROMISE = 0.95;

    private final PlanSetting setting;

    private Planner(PlanSetting setting) {
        this.setting = setting;
    }

    /**
     * A day without orders, stock and labour.
     *
     * @param estimator table and the fixed cutting specification with which plans are compared
     * @param prices prices of what no order takes
     * @param solver finds the maximum of linear programs
     * @return a builder
     */
    public static Builder builder(YieldEstimator estimator, PriceList prices, LinearSolver solver) {
        Objects.requireNonNull(estimator, "estimator");
        Objects.requireNonNull(prices, "prices");
        Objects.requireNonNull(solver, "solver");
        return new Builder(estimator, prices, solver);
    }

    /** Collects what a day is planned with. Not thread-safe. */
    public static final class Builder {
        private final YieldEstimator estimator;
        private final PriceList prices;
        private final LinearSolver solver;
        private List<Order> orders = List.of();
        private List<OpeningStock> stock = List.of();
        private List<LabourRate> labour = List.of();
        private double hours = Double.POSITIVE_INFINITY;
        private double hourPrice;
        private List<SizeWindow> windows = List.of();
        private List<Product> products = List.of();
        private PlanFreedom freedom = PlanFreedom.PIECE;
        private double margin;
        private double promised = USUAL_PROMISE;
        private int cells = USUAL_CELLS;

        private Builder(YieldEstimator estimator, PriceList prices, LinearSolver solver) {
            this.estimator = estimator;
            this.prices = prices;
            this.solver = solver;
        }

        /**
         * Orders.
         *
         * @param ordered orders, each with a number of its own
         * @return this
         */
        public Builder orders(List<Order> ordered) {
            Checks.noNullIn(ordered, "ordered");
            orders = List.copyOf(ordered);
            return this;
        }

        /**
         * What lies in the chill already.
         *
         * @param lying stock
         * @return this
         */
        public Builder stock(List<OpeningStock> lying) {
            Checks.noNullIn(lying, "lying");
            stock = List.copyOf(lying);
            return this;
        }

        /**
         * How fast the hall cuts. Of rates that name a cut and way, the one that names them most closely counts; what none names
         * takes no hours.
         *
         * @param rates rates
         * @param mostHours hours of all people together that day, 0 or more, infinite for no limit
         * @param pricePerHour what an hour costs, 0 or more
         * @return this
         * @throws IllegalArgumentException if a figure is outside its range
         */
        public Builder labour(List<LabourRate> rates, double mostHours, double pricePerHour) {
            Checks.noNullIn(rates, "rates");
            if (!(mostHours >= 0)) {
                throw new IllegalArgumentException(mostHours + " hours are not 0 or more");
            }
            Checks.notNegative("price of an hour", pricePerHour);
            labour = List.copyOf(rates);
            hours = mostHours;
            hourPrice = pricePerHour;
            return this;
        }

        /**
         * Windows of packs: pieces outside a window that names another way can't go the way that needs it.
         *
         * @param sizes windows
         * @return this
         */
        public Builder windows(List<SizeWindow> sizes) {
            Checks.noNullIn(sizes, "sizes");
            windows = List.copyOf(sizes);
            return this;
        }

        /**
         * The hall's products, which orders may name.
         *
         * @param packed products
         * @return this
         */
        public Builder products(List<Product> packed) {
            Checks.noNullIn(packed, "packed");
            products = List.copyOf(packed);
            return this;
        }

        /**
         * What is free to be chosen; without it all that a hall can choose, {@link PlanFreedom#PIECE}.
         *
         * @param chosen what is chosen
         * @return this
         */
        public Builder freedom(PlanFreedom chosen) {
            freedom = Objects.requireNonNull(chosen, "chosen");
            return this;
        }

        /**
         * By what part more is cut for an order than it asks for at least, so that it is met more surely.
         *
         * @param part such as 0.03, 0 or more; no order is cut more for than it takes
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder margin(double part) {
            margin = Checks.notNegative("margin", part);
            return this;
        }

        /**
         * The probability with which promised kilograms come out.
         *
         * @param probability above 0 and below 1; 0.95 if it isn't said
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder promised(double probability) {
            if (!(probability > 0 && probability < 1)) {
                throw new IllegalArgumentException("probability " + probability + " is outside 0 to 1 (both excluded)");
            }
            promised = probability;
            return this;
        }

        /**
         * How many cells of carcasses are told apart at most: more of them come nearer to what can be had and take longer.
         *
         * @param most 1 or more
         * @return this
         * @throws IllegalArgumentException if it is below 1
         */
        public Builder cells(int most) {
            if (most < 1) {
                throw new IllegalArgumentException(most + " cells can't hold a carcass; 1 or more are needed");
            }
            cells = most;
            return this;
        }

        /**
         * The planner.
         *
         * @return it
         * @throws IllegalArgumentException if an order asks for what the table never returns, something of the fixed
         *     specification has neither a price nor an order, two orders have one number, or a rate names what isn't cut up
         */
        public Planner build() {
            return new Planner(new PlanSetting(
                    estimator, prices, solver, orders, stock, labour, hours, hourPrice, windows, products, freedom,
                    margin, promised, cells));
        }
    }

    /**
     * Table and fixed cutting specification.
     *
     * @return the estimator, without mince: the plan makes its own
     */
    public YieldEstimator estimator() {
        return setting.estimator();
    }

    /**
     * Prices of what no order takes.
     *
     * @return the list
     */
    public PriceList prices() {
        return setting.prices();
    }

    /**
     * Orders.
     *
     * @return an unmodifiable list
     */
    public List<Order> orders() {
        return setting.orders();
    }

    /**
     * What lies in the chill already.
     *
     * @return an unmodifiable list
     */
    public List<OpeningStock> stock() {
        return setting.stock();
    }

    /**
     * How fast the hall cuts.
     *
     * @return an unmodifiable list
     */
    public List<LabourRate> labour() {
        return setting.labour();
    }

    /**
     * Hours of all people together.
     *
     * @return hours, infinite for no limit
     */
    public double hours() {
        return setting.hours();
    }

    /**
     * What an hour costs.
     *
     * @return price per hour
     */
    public double hourPrice() {
        return setting.hourPrice();
    }

    /**
     * What is free to be chosen.
     *
     * @return what is chosen
     */
    public PlanFreedom freedom() {
        return setting.freedom();
    }

    /**
     * By what part more is cut for orders than they ask for at least.
     *
     * @return a fraction
     */
    public double margin() {
        return setting.margin();
    }

    /**
     * The probability with which promised kilograms come out.
     *
     * @return probability
     */
    public double promised() {
        return setting.promised();
    }

    /**
     * Ways that aren't looked at, since something of them has neither a price nor an order.
     *
     * @return an unmodifiable map: such as {@code rump as joints}, and what is missing
     */
    public Map<String, String> unpriced() {
        return setting.unpriced();
    }

    /**
     * The same day with something else free to be chosen, to see what that is worth.
     *
     * @param chosen what is chosen
     * @return a planner
     */
    public Planner choosing(PlanFreedom chosen) {
        return new Planner(setting.choosing(Objects.requireNonNull(chosen, "chosen")));
    }

    /**
     * Plans a day.
     *
     * @param carcasses carcasses that can be cut; those that the table gives no estimate for are left out and listed
     * @return the plan
     * @throws IllegalArgumentException if there is no carcass that can be estimated
     * @throws org.beefyield.lp.UnsolvedProgramException if the solver ends without an answer that is true
     */
    public Plan plan(Iterable<Carcass> carcasses) {
        Objects.requireNonNull(carcasses, "carcasses");
        List<RefusedCarcassException> refused = new ArrayList<>();
        return Plan.of(setting, planning(carcasses, refused), refused);
    }

    /**
     * What the limits of a day cost: what a kg more or less of the least of each order is worth, of the most it takes, and an hour.
     * Of carcasses in fractions, found by planning anew with each limit moved, so that it takes as long as several plans.
     *
     * @param carcasses carcasses that can be cut
     * @return prices of limits that bind
     * @throws IllegalArgumentException if there is no carcass that can be estimated
     * @throws org.beefyield.lp.UnsolvedProgramException if the solver ends without an answer that is true
     */
    public List<LimitPrice> limits(Iterable<Carcass> carcasses) {
        Objects.requireNonNull(carcasses, "carcasses");
        return planning(carcasses, new ArrayList<>()).limits();
    }

    Planning planning(Iterable<Carcass> carcasses, List<RefusedCarcassException> refused) {
        Outlets outlets = setting.outlets();
        CarvedCarcass.Maker maker = new CarvedCarcass.Maker(setting.estimator(), setting.cuts());
        List<CarvedCarcass> carved = new ArrayList<>();
        for (Carcass carcass : carcasses) {
            Objects.requireNonNull(carcass, "a carcass");
            try {
                carved.add(new CarvedCarcass(carcass, outlets.takers(carcass), maker.figures(carcass)));
            } catch (RefusedCarcassException e) {
                refused.add(e);
            }
        }
        if (carved.isEmpty()) {
            throw new IllegalArgumentException("there is no carcass to plan with"
                    + (refused.isEmpty()
                            ? ""
                            : ": " + refused.size() + " were refused, the first: "
                                    + refused.get(0).getMessage()));
        }
        return new Planning(setting, outlets, carved);
    }
}
