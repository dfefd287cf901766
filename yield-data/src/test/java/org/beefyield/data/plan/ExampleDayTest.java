package org.beefyield.data.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.LabourRateReader;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.OrderReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.plan.LabourRate;
import org.beefyield.plan.Order;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.Planner;
import org.beefyield.price.PriceList;
import org.junit.jupiter.api.Test;

/** What the first order of the example day costs, of a tenth of its carcasses. */
class ExampleDayTest {
    private static final Path EXAMPLES = Path.of("examples");
    private static final Path DAY = EXAMPLES.resolve("plan");
    private static final int CARCASSES = 24;

    private static final List<Carcass> CHILL =
            KillSheetReader.read(DAY.resolve("chill.csv")).carcasses();
    private static final PriceList PRICES = PriceListReader.read(EXAMPLES.resolve("tarrowmere-prices.csv"));
    private static final List<LabourRate> LABOUR = LabourRateReader.read(DAY.resolve("labour.csv"));
    private static final Order JOINTS = OrderReader.read(
                    DAY.resolve("orders.csv"), MarketSpecificationReader.read(DAY.resolve("market.csv")))
            .orders()
            .get(0);

    private static double value(List<Order> orders, PlanFreedom freedom, List<SizeWindow> windows) {
        return Planner.builder(
                        YieldEstimator.of(ShippedTables.boneless2026()).withSpecification("steaks"),
                        PRICES,
                        OjAlgoSolver.create())
                .orders(orders)
                .windows(windows)
                .labour(LABOUR, Double.POSITIVE_INFINITY, 24)
                .freedom(freedom)
                .build()
                .plan(CHILL.subList(0, CARCASSES))
                .value();
    }

    /** What the day brings more without the order. */
    private static double cost(PlanFreedom freedom, List<SizeWindow> windows) {
        double kg = JOINTS.minKg() * CARCASSES / CHILL.size() * 0.8;
        Order tenth = Order.builder(JOINTS.id(), JOINTS.product())
                .kg(kg, kg)
                .price(JOINTS.price())
                .build();
        return value(List.of(), freedom, windows) - value(List.of(tenth), freedom, windows);
    }

    @Test
    void jointsCostMostOfWholeCarcassesLessOfStriploinsAloneAndLeastOfThoseThatDontFitThePack() {
        assertThat(JOINTS.toString()).isEqualTo("T-501: striploin-joint, 1500 kg at 12.4");
        double ofCarcasses = cost(PlanFreedom.CARCASS, List.of());
        double ofStriploins = cost(PlanFreedom.PRIMAL, List.of());
        double ofMisfits = cost(PlanFreedom.PIECE, SizeWindowReader.read(EXAMPLES.resolve("tarrowmere-windows.csv")));
        assertThat(ofMisfits).isPositive();
        assertThat(ofStriploins).isGreaterThan(1.1 * ofMisfits);
        assertThat(ofCarcasses).isGreaterThan(1.5 * ofStriploins);
    }
}
