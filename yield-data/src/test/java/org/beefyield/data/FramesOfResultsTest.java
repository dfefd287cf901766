package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.solver.OjAlgoSolver;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.feedback.OverfatCost;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.MarketSummary;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackSummary;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.pay.Margin;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.Marginals;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.plan.OpeningStock;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.PlanFreedom;
import org.beefyield.plan.PlannedOrder;
import org.beefyield.plan.Planner;
import org.beefyield.price.Attribution;
import org.beefyield.price.Factor;
import org.beefyield.price.TwoTables;
import org.beefyield.price.Value;
import org.beefyield.price.ValueLine;
import org.beefyield.price.Valuer;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.junit.jupiter.api.Test;

/** The frames that results make of themselves, of the sample sheet under the shipped table. */
class FramesOfResultsTest {
    private static final Path EXAMPLES = Path.of(System.getProperty("basedir", ""), "examples");
    private static final YieldEstimator ESTIMATOR =
            YieldEstimator.of(ShippedTables.boneless2026()).with(MinceTarget.fatPercent(15));
    private static final YieldEstimator CHANGED = YieldEstimator.of(moreLoss()).with(MinceTarget.fatPercent(15));
    private static final Valuer VALUER =
            Valuer.of(PriceListReader.read(EXAMPLES.resolve("tarrowmere-prices.csv")), ESTIMATOR);
    private static final PaymentGrid GRID = PaymentGridReader.read(EXAMPLES.resolve("tarrowmere-grid.csv"));
    private static final MarketSpecification MARKET =
            MarketSpecificationReader.read(EXAMPLES.resolve("tarrowmere-market.csv")).stream()
                    .filter(specification -> specification.name().equals("retail"))
                    .findFirst()
                    .orElseThrow();
    private static final List<Carcass> CARCASSES =
            KillSheetReader.read(EXAMPLES.resolve("tarrowmere-2026-11.csv")).carcasses();
    private static final String TABLE = ESTIMATOR.table().identity();

    /** Four grams more loss and less meat in a kilogram of every carcass. */
    private static YieldTable moreLoss() {
        TableOverride override = TableOverride.of(ESTIMATOR.table(), "more-loss", "1")
                .source(new SourceRow("test", SourceKind.ASSUMPTION, "Changed by a test", ""));
        Map<String, Integer> changes = Map.of("loss", 4, "meat", -4);
        ESTIMATOR.table().definition().breakdown().stream()
                .filter(row -> row.parent().equals("carcass") && changes.containsKey(row.cut()))
                .forEach(row -> {
                    List<Double> coefficients = new ArrayList<>(row.coefficients());
                    coefficients.set(0, coefficients.get(0) + changes.get(row.cut()));
                    override.row(new BreakdownRow(
                            row.category(),
                            row.way(),
                            row.parent(),
                            row.cut(),
                            coefficients,
                            row.sdGPerKg(),
                            row.shared(),
                            "test"));
                });
        return override.build();
    }

    private static Carcass steer(String conformation, String fat) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), 340);
    }

    /** Each column, and behind a dash what it comes to. */
    private static List<String> columns(Frame frame) {
        return frame.columns().stream()
                .map(column -> column.header() + (column.numeric() ? " - " + column.total() : ""))
                .toList();
    }

    private static double sum(Frame frame, String column) {
        return DoubleStream.of(frame.numbers(column)).sum();
    }

    @Test
    void ofAValueHasALineInARow() {
        Value value = VALUER.value(steer("R=", "3="));
        Frame frame = value.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table",
                        "line",
                        "cut",
                        "weight, kg - sum",
                        "quantity, kg or head - none",
                        "price, EUR each - none",
                        "amount, EUR - sum",
                        "note");
        assertThat(frame.texts("table")).containsOnly(TABLE);
        assertThat(frame.texts("line"))
                .isEqualTo(value.lines().stream().map(ValueLine::name).toList());
        assertThat(frame.texts("cut"))
                .isEqualTo(value.lines().stream().map(ValueLine::code).toList());
        assertThat(sum(frame, "amount")).isCloseTo(value.amount(), within(1e-9));
        for (int row = 0; row < frame.rows(); row++) {
            boolean cut = !frame.texts("cut").get(row).isEmpty();
            assertThat(Double.isNaN(frame.numbers("weight")[row])).isEqualTo(!cut);
            assertThat(frame.numbers("quantity")[row] * frame.numbers("price")[row])
                    .isCloseTo(frame.numbers("amount")[row], within(1e-9));
        }
        assertThat(frame.texts("cut")).contains("");
    }

    @Test
    void ofAnAttributionAddsUpByLineAndByFactor() {
        Attribution attribution = Attribution.of(VALUER.value(steer("U=", "4=")), VALUER.value(steer("O=", "3=")));
        Frame frame = attribution.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table",
                        "line",
                        "cut",
                        "more, kg a head - sum",
                        "worth more, EUR a head - sum",
                        "weight, EUR a head - sum",
                        "category, EUR a head - sum",
                        "conformation, EUR a head - sum",
                        "fat class, EUR a head - sum",
                        "cutting, EUR a head - sum",
                        "prices, EUR a head - sum",
                        "mix of grades and weights, EUR a head - sum");
        assertThat(sum(frame, "worth more")).isCloseTo(attribution.difference(), within(1e-9));
        for (Factor factor : Factor.values()) {
            assertThat(sum(frame, factor.words())).isCloseTo(attribution.amount(factor), within(1e-9));
        }
        assertThat(attribution.amount(Factor.CONFORMATION)).isNotZero();
        int striploin = frame.texts("cut").indexOf("striploin-steak");
        assertThat(frame.numbers("conformation")[striploin])
                .isEqualTo(attribution.amount(Factor.CONFORMATION, "striploin-steak"))
                .isNotZero();
    }

    private static MarginReport margins() {
        MarginReport.Collector collector = MarginReport.collector(VALUER, GRID);
        CARCASSES.forEach(collector::add);
        return collector.result();
    }

    @Test
    void ofMarginsLooksAtThemBySupplierCategoryOrGrade() {
        MarginReport report = margins();
        Frame suppliers = report.toFrame(MarginReport.By.SUPPLIER);
        assertThat(columns(suppliers))
                .containsExactly(
                        "table",
                        "supplier",
                        "carcasses - sum",
                        "cold weight, kg - sum",
                        "value, EUR - sum",
                        "paid, EUR - sum",
                        "margin, EUR - sum",
                        "90 % interval low, EUR - none",
                        "90 % interval high, EUR - none",
                        "margin a kg, EUR a kg - mean weighted by cold weight",
                        "break-even price, EUR a kg - mean weighted by cold weight");
        assertThat(suppliers.texts("supplier"))
                .isEqualTo(List.copyOf(report.bySupplier().keySet()));
        int mere = suppliers.texts("supplier").indexOf("Mere End");
        Margin margin = report.bySupplier().get("Mere End");
        Interval interval = report.interval("Mere End", 0.9).orElseThrow();
        assertThat(suppliers.numbers("carcasses")[mere]).isEqualTo((double) margin.carcasses());
        assertThat(suppliers.numbers("margin")[mere]).isEqualTo(margin.amount());
        assertThat(suppliers.numbers("90 % interval low")[mere]).isEqualTo(interval.low());
        assertThat(suppliers.numbers("90 % interval high")[mere]).isEqualTo(interval.high());
        // a mean of the suppliers' means would be another
        String total = suppliers
                .select("supplier", "cold weight", "margin a kg")
                .withTotal()
                .toText()
                .lines()
                .reduce((one, last) -> last)
                .orElseThrow();
        assertThat(Double.parseDouble(total.substring(total.lastIndexOf(' ') + 1)))
                .isCloseTo(report.total().orElseThrow().perKg(), within(0.0051));
        for (MarginReport.By by : MarginReport.By.values()) {
            assertThat(sum(report.toFrame(by), "margin"))
                    .isCloseTo(report.total().orElseThrow().amount(), within(1e-6));
        }
        assertThat(report.toFrame(MarginReport.By.CATEGORY).texts("category"))
                .isEqualTo(report.byCategory().keySet().stream()
                        .map(Category::letter)
                        .toList());
        Frame grades = report.toFrame(MarginReport.By.GRADE);
        assertThat(columns(grades)).startsWith("table", "category", "conformation", "fat class", "carcasses - sum");
        assertThat(grades.sortedBy("conformation").texts("conformation").stream()
                        .distinct())
                .containsExactly("U", "R", "O", "P");
    }

    @Test
    void ofDifferentialsHasAGradeInARow() {
        GradeDifferentials differentials =
                GradeDifferentials.classes(VALUER, steer("R=", "3=")).beside(GRID);
        Frame frame = differentials.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table",
                        "category",
                        "cold weight, kg - none",
                        "conformation",
                        "fat class",
                        "value, EUR a kg - none",
                        "worth more, EUR a kg - none",
                        "90 % interval low, EUR a kg - none",
                        "90 % interval high, EUR a kg - none",
                        "worth more share, % of the base's value - none",
                        "paid more, EUR a kg - none",
                        "gap, EUR a kg - none");
        int columns = differentials.fatClasses().size();
        assertThat(frame.rows()).isEqualTo(differentials.conformations().size() * columns);
        for (int row = 0; row < frame.rows(); row++) {
            int i = row / columns;
            int j = row % columns;
            assertThat(frame.texts("conformation").get(row))
                    .isEqualTo(differentials.conformations().get(i).toString());
            assertThat(frame.texts("fat class").get(row))
                    .isEqualTo(differentials.fatClasses().get(j).toString());
            assertThat(frame.numbers("worth more")[row]).isEqualTo(differentials.perKg()[i][j]);
            assertThat(frame.numbers("gap")[row])
                    .isEqualTo(differentials.gapPerKg().orElseThrow()[i][j]);
        }
        assertThat(columns(GradeDifferentials.classes(VALUER, steer("R=", "3=")).toFrame()))
                .endsWith("worth more share, % of the base's value - none");
    }

    @Test
    void ofAComparisonHasACutAtALevelInARow() {
        YieldTable second = CHANGED.table();
        TableComparison comparison = TableComparison.of(ESTIMATOR.table(), second);
        Frame frame = comparison.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table before",
                        "table after",
                        "level",
                        "cut",
                        "largest difference, g/kg - none",
                        "category",
                        "cutting",
                        "conformation",
                        "fat class",
                        "cold weight, kg - none");
        assertThat(frame.texts("table before")).containsOnly(TABLE);
        assertThat(frame.texts("table after")).containsOnly(second.identity());
        assertThat(frame.rows()).isEqualTo(comparison.differences().size());
        int moved = 0;
        for (int row = 0; row < frame.rows(); row++) {
            TableComparison.Difference difference = comparison.differences().get(row);
            assertThat(frame.texts("cut").get(row)).isEqualTo(difference.cut());
            assertThat(frame.numbers("largest difference")[row]).isEqualTo(difference.differenceGPerKg());
            assertThat(frame.numbers("cold weight")[row]).isEqualTo(difference.weightKg());
            assertThat(frame.texts("conformation").get(row))
                    .isEqualTo(difference.conformation().toString());
            moved += difference.differenceGPerKg() == 0 ? 0 : 1;
        }
        assertThat(moved).isPositive();
    }

    @Test
    void ofTwoTablesAddsUpToWhatTheLotIsWorthMore() {
        TwoTables.Collector collector = TwoTables.collector(VALUER, Valuer.of(VALUER.prices(), CHANGED));
        CARCASSES.forEach(collector::add);
        TwoTables both = collector.result();
        Frame frame = both.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table before",
                        "table after",
                        "level",
                        "cut",
                        "before, kg - none",
                        "after, kg - none",
                        "more, kg - none",
                        "worth before, EUR - sum",
                        "worth after, EUR - sum",
                        "worth more, EUR - sum");
        assertThat(frame.rows()).isEqualTo(both.changed().size() + both.equal().size());
        double most = Double.POSITIVE_INFINITY;
        for (int row = 0; row < both.changed().size(); row++) {
            double more = frame.numbers("more")[row];
            assertThat(frame.numbers("after")[row] - frame.numbers("before")[row])
                    .isCloseTo(more, within(1e-9));
            assertThat(Math.abs(more)).isLessThanOrEqualTo(most);
            most = Math.abs(more);
        }
        double cuts = DoubleStream.of(frame.numbers("worth more"))
                .filter(amount -> !Double.isNaN(amount))
                .sum();
        assertThat(cuts)
                .isNotZero()
                .isCloseTo(
                        both.afterValue().orElseThrow().amount()
                                - both.beforeValue().orElseThrow().amount(),
                        within(1e-6));
    }

    @Test
    void ofMarginalsHasAChangeInARow() {
        Marginals marginals = Marginals.of(VALUER, steer("R=", "3="));
        Frame frame = marginals.toFrame();
        assertThat(columns(frame))
                .containsExactly("change", "worth more, EUR a head - none", "worth more a kg, EUR a kg - none");
        assertThat(frame.texts("change"))
                .containsExactly("one point of conformation", "one point of fat", "10 kg cold weight");
        assertThat(frame.numbers("worth more"))
                .containsExactly(
                        marginals.conformationPoint().amount(),
                        marginals.fatPoint().amount(),
                        marginals.tenKg().amount());
    }

    @Test
    void ofPacksHasAWindowInARow() {
        PackSummary.Collector collector = PackSummary.collector(
                PackFit.of(VALUER, SizeWindowReader.read(EXAMPLES.resolve("tarrowmere-windows.csv"))));
        CARCASSES.subList(0, 20).forEach(collector::add);
        PackSummary packs = collector.result();
        Frame frame = packs.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table",
                        "window",
                        "carcasses - none",
                        "too light, % of carcasses - mean weighted by carcasses",
                        "fits, % of carcasses - mean weighted by carcasses",
                        "too heavy, % of carcasses - mean weighted by carcasses",
                        "other way, kg - sum",
                        "costs, EUR - sum");
        int row = 0;
        for (Map.Entry<?, PackSummary.Misfits> window : packs.windows().entrySet()) {
            assertThat(frame.texts("window").get(row)).isEqualTo(window.getKey().toString());
            assertThat(frame.numbers("too heavy")[row])
                    .isCloseTo(100 * window.getValue().above() / 20, within(1e-9));
            assertThat(frame.numbers("too light")[row] + frame.numbers("fits")[row] + frame.numbers("too heavy")[row])
                    .isCloseTo(100, within(1e-9));
            row++;
        }
        assertThat(frame.rows()).isEqualTo(row).isGreaterThan(1);
        assertThat(sum(frame, "costs")).isCloseTo(packs.cost(), within(1e-9));
    }

    @Test
    void ofAMarketHasALimitInARow() {
        MarketSummary.Collector collector = MarketSummary.collector(MARKET);
        CARCASSES.forEach(collector::add);
        MarketSummary summary = collector.result();
        Frame frame = summary.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "specification",
                        "limit",
                        "missed by, carcasses - none",
                        "share, % of carcasses - none",
                        "farthest off",
                        "distance - none",
                        "reason");
        List<MarketFault.Limit> limits = new ArrayList<>(summary.misses().keySet());
        assertThat(frame.texts("limit"))
                .isEqualTo(limits.stream().map(MarketFault.Limit::words).toList())
                .hasSizeGreaterThan(2);
        MarketSummary.Misses weight = summary.misses().get(MarketFault.Limit.WEIGHT);
        int row = limits.indexOf(MarketFault.Limit.WEIGHT);
        assertThat(frame.numbers("missed by")[row]).isEqualTo((double) weight.carcasses());
        assertThat(frame.numbers("share")[row]).isCloseTo(weight.carcasses() / 2.0, within(1e-9));
        assertThat(frame.texts("farthest off").get(row)).isEqualTo(weight.id());
        assertThat(frame.numbers("distance")[row])
                .isEqualTo(weight.farthest().distance().orElseThrow());
        assertThat(frame.texts("reason").get(row)).isEqualTo(weight.farthest().text());
    }

    private static final Plan PLAN = Planner.builder(ESTIMATOR, VALUER.prices(), OjAlgoSolver.create())
            .orders(List.of(
                    Order.builder("A", "striploin-joint")
                            .customer("Mere")
                            .kg(20, 30)
                            .price(12)
                            .penalty(3)
                            .build(),
                    Order.builder("B", "dice").price(9).build()))
            .stock(List.of(OpeningStock.of("dice", 25)))
            .freedom(PlanFreedom.FIXED)
            .build()
            .plan(CARCASSES.subList(0, 10));

    @Test
    void ofAPlanHasAnOrderInARow() {
        Frame frame = PLAN.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "order",
                        "customer",
                        "product",
                        "asked for",
                        "least, kg - sum",
                        "most, kg - sum",
                        "price, EUR/kg - none",
                        "planned, kg - sum",
                        "from stock, kg - sum",
                        "missing, kg - sum",
                        "chance, % - none",
                        "promise, kg - none",
                        "why missing",
                        "lots");
        assertThat(frame.texts("order")).containsExactly("A", "B");
        for (int row = 0; row < 2; row++) {
            PlannedOrder one = PLAN.orders().get(row);
            assertThat(frame.numbers("planned")[row]).isEqualTo(one.kg());
            assertThat(frame.numbers("missing")[row]).isEqualTo(one.shortKg());
            assertThat(frame.numbers("chance")[row]).isEqualTo(100 * one.chance());
            assertThat(frame.numbers("promise")[row]).isEqualTo(one.promiseKg());
        }
        assertThat(frame.numbers("most")).containsExactly(30, Double.NaN);
        assertThat(frame.numbers("from stock")).containsExactly(0, 25);
        assertThat(frame.texts("why missing").get(0)).isEqualTo("these carcasses don't return more");
        assertThat(frame.texts("why missing").get(1)).isEmpty();
        assertThat(frame.texts("lots").get(1)).contains(" kg");
    }

    @Test
    void ofTheListOfAHallHasACutOfACarcassInARow() {
        Frame frame = PLAN.cutsToFrame();
        assertThat(columns(frame)).containsExactly("lot", "carcass", "cold weight, kg - none", "cut", "pieces", "way");
        int cuts = (int) frame.texts("cut").stream().distinct().count();
        assertThat(frame.rows()).isEqualTo(10 * cuts);
        assertThat(frame.where(row ->
                                row.text("carcass").equals(CARCASSES.get(3).id().orElseThrow()))
                        .texts("cut"))
                .doesNotHaveDuplicates()
                .hasSize(cuts)
                .contains("striploin");
        assertThat(frame.where(row -> row.text("cut").equals("striploin")).texts("way"))
                .containsOnly("steaks");
    }

    @Test
    void ofTheCostOfFatHasACutInARow() {
        OverfatCost cost =
                Overfat.against(VALUER, FatClass.parse("4L")).cost(CARCASSES).orElseThrow();
        Frame frame = cost.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "table",
                        "cut",
                        "kind",
                        "as graded, kg - sum",
                        "at the target, kg - sum",
                        "more, kg - sum",
                        "90 % interval low, kg - none",
                        "90 % interval high, kg - none");
        assertThat(sum(frame, "as graded"))
                .isCloseTo(cost.asGraded().coldWeightKg(), within(1e-6))
                .isCloseTo(sum(frame, "at the target"), within(1e-6));
        Frame fat = frame.where(row -> row.text("kind").equals("fat-trim"));
        assertThat(sum(fat, "more"))
                .isCloseTo(cost.extraFatTrim().kg(), within(1e-9))
                .isPositive();
        assertThat(fat.numbers("90 % interval low")[0]).isLessThan(fat.numbers("more")[0]);
    }

    @Test
    void ofAFeedbackSheetHasAnAnimalInARow() {
        FeedbackSheets.Collector collector = FeedbackSheets.builder(ESTIMATOR)
                .market(MARKET)
                .shownPrices(VALUER)
                .collector();
        CARCASSES.forEach(collector::add);
        FeedbackSheet sheet = collector.result().sheet("Mere End");
        Frame frame = sheet.toFrame();
        assertThat(columns(frame))
                .containsExactly(
                        "carcass",
                        "lot",
                        "supplier",
                        "kill date",
                        "hall",
                        "category",
                        "conformation",
                        "fat class",
                        "class",
                        "table",
                        "cold weight, kg - sum",
                        "saleable, kg - sum",
                        "saleable share, % of cold weight - mean weighted by cold weight",
                        "hall's saleable share, % of cold weight - mean weighted by cold weight",
                        "fat trim, kg - sum",
                        "fat trim share, % of cold weight - mean weighted by cold weight",
                        "hall's fat trim share, % of cold weight - mean weighted by cold weight",
                        "missed limits",
                        "worth, EUR - sum");
        assertThat(frame.rows()).isEqualTo(sheet.animals().size());
        assertThat(frame.texts("supplier")).containsOnly("Mere End");
        assertThat(frame.columns().get(3).type()).isEqualTo(Column.Type.DATE);
        assertThat(frame.texts("missed limits").stream().filter(String::isEmpty).count())
                .isEqualTo(sheet.inSpecification());
        assertThat(sum(frame, "saleable"))
                .isCloseTo(
                        sheet.animals().stream()
                                .mapToDouble(one -> one.saleableKg())
                                .sum(),
                        within(1e-9));
        // the weighted total is the share of the whole
        Frame total = frame.groupBy().figures(org.beefyield.frame.Statistic.mean("saleable share", "cold weight"));
        assertThat(total.numbers(total.columns().get(1).name())[0])
                .isCloseTo(100 * sum(frame, "saleable") / sum(frame, "cold weight"), within(1e-9));
    }

    @Test
    void ofALotHasItsNameAndTable() {
        LotEstimate lot = ESTIMATOR.estimateLot(CARCASSES).withName("November");
        Frame frame = lot.toFrame();
        assertThat(frame.texts("lot")).containsOnly("November");
        assertThat(frame.texts("table")).containsOnly(TABLE);
        assertThat(frame.texts("cut")).contains("mince");
        assertThat(sum(frame, "weight")).isCloseTo(lot.coldWeightKg(), within(1e-6));
        assertThat(Arrays.stream(frame.numbers("SD"))).allMatch(sd -> sd > 0);
        assertThat(frame.columns())
                .filteredOn(column -> column.name().startsWith("90 %"))
                .allSatisfy(column -> assertThat(column.total()).isEqualTo(Total.NONE));
    }
}
