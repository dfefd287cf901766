package org.beefyield;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.AnnotatedArrayType;
import java.lang.reflect.AnnotatedParameterizedType;
import java.lang.reflect.AnnotatedType;
import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Parameter;
import java.lang.reflect.Proxy;
import java.math.BigDecimal;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.boning.BalanceRule;
import org.beefyield.boning.BatchExpectation;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.RecallList;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.boning.Trace;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.calibrate.RunCalibrated;
import org.beefyield.calibrate.RunCalibration;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CarcassColumns;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.CarcassSample;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.DrawnCarcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.FigureSum;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.PartEstimate;
import org.beefyield.estimate.RangeNote;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.Support;
import org.beefyield.estimate.YieldColumns;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.feedback.OverfatCost;
import org.beefyield.feedback.TimeOfSale;
import org.beefyield.finish.Age;
import org.beefyield.finish.Assumption;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.Feed;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.FinishDay;
import org.beefyield.finish.FinishState;
import org.beefyield.finish.Forecast;
import org.beefyield.finish.HeldCost;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.finish.HoldingCosts;
import org.beefyield.finish.NetEnergy;
import org.beefyield.finish.PenForecast;
import org.beefyield.finish.Replacement;
import org.beefyield.finish.SaleAdvice;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.OptimumCheck;
import org.beefyield.lp.ShadowPrices;
import org.beefyield.lp.TinySimplex;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.MarketSummary;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PackFit;
import org.beefyield.pack.PackSummary;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pack.WindowChance;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.pay.Margin;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.Overpayment;
import org.beefyield.pay.PaidBeside;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.plan.Order;
import org.beefyield.plan.Plan;
import org.beefyield.plan.Planner;
import org.beefyield.price.Attribution;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.price.TestPrices;
import org.beefyield.price.TwoTables;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.Baseline;
import org.beefyield.reconcile.GroupFigures;
import org.beefyield.reconcile.Halls;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.report.Compared;
import org.beefyield.report.Comparison;
import org.beefyield.report.Day;
import org.beefyield.report.TrimmedParts;
import org.beefyield.report.Unexplained;
import org.beefyield.stats.ControlBoard;
import org.beefyield.stats.ControlChart;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.stats.Regression;
import org.beefyield.table.ChangeBudget;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.TableChange;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.GradeAxis;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Place;
import org.beefyield.text.Shown;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Null is refused by name: every public constructor and method of every public type is called with null in one place at a
 * time, and with a null inside each list, map and array, but where null is declared.
 */
class NullsTest {
    private static final String PACKAGE = "org.beefyield.";

    /** The engine, which is not for callers. */
    private static final String ENGINE = PACKAGE + "grid.";

    /** Types that are left out, with the reason. */
    private static final Map<Class<?>, String> LEFT_OUT =
            Map.of(Checks.class, "it is what takes nulls and refuses them");

    private static final YieldTable TABLE = YieldTable.of(TestTables.threeLevels());
    private static final Carcass CARCASS = TestPrices.steer("R=", "3=", 340).withSupplier("Tarrowmere");
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);
    private static final MarketSpecification MARKET =
            MarketSpecification.builder("market").categories(Category.STEER).build();
    private static final PaymentGrid GRID =
            PaymentGrid.builder("EUR").base(null, 4).grade(null, null, null, 0).build();
    private static final SizeWindow WINDOW = new SizeWindow("rump", "*", 1, 9, "");
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());

    /** By type, what stands for it. */
    private static final Map<Class<?>, Supplier<?>> SAMPLES = samples();

    private static RefusedCarcassException refused() {
        try {
            throw new IllegalStateException(
                    ESTIMATOR.estimate(TestPrices.steer("R=", "3=", 1)).toString());
        } catch (RefusedCarcassException e) {
            return e;
        }
    }

    private static Compared compared(String name) {
        return new Compared(name, VALUER, ESTIMATOR.estimateLot(List.of(CARCASS)), null);
    }

    private static Map<Class<?>, Supplier<?>> samples() {
        Map<Class<?>, Supplier<?>> samples = new LinkedHashMap<>();
        samples.put(String.class, () -> "x");
        samples.put(Class.class, () -> Object.class);
        samples.put(Enum.class, () -> CutKind.BONE);
        samples.put(BigDecimal.class, () -> BigDecimal.ONE);
        samples.put(StringBuilder.class, StringBuilder::new);
        samples.put(RandomGenerator.class, () -> new SplittableRandom(1));
        samples.put(Optional.class, Optional::empty);
        samples.put(OptionalDouble.class, OptionalDouble::empty);
        samples.put(Carcass.class, () -> CARCASS);
        samples.put(Conformation.class, CARCASS::conformation);
        samples.put(FatClass.class, CARCASS::fatClass);
        samples.put(ChangeBudget.class, () -> ChangeBudget.ofShares(1));
        samples.put(TableChange.class, () -> new TableChange(TableChange.Kind.NAMES, "x", "a", "b", 1));
        samples.put(Cut.class, () -> Cut.of("x", "X", "retail", CutKind.DICE));
        samples.put(CutCatalogue.class, TABLE::catalogue);
        samples.put(Shown.class, () -> new TextTable("x"));
        samples.put(TextTable.class, () -> new TextTable("x"));
        samples.put(Blocks.class, Blocks::new);
        samples.put(ShownInBlocks.class, () -> (ShownInBlocks) Blocks::new);
        samples.put(Place.class, () -> Place.decimals(1));
        samples.put(Column.class, () -> Column.text("x"));
        samples.put(Frame.class, NullsTest::frame);
        samples.put(Frame.Groups.class, () -> frame().groupBy("x"));
        samples.put(Frame.Row.class, NullsTest::row);
        samples.put(Frame.Builder.class, () -> Frame.ofEach(List.of("a")));
        samples.put(Total.class, () -> Total.SUM);
        samples.put(
                Regression.class,
                () -> new Regression(
                        new double[][] {{1, 1}},
                        new double[][] {{1, 2}},
                        new double[0][],
                        new double[] {1, 1},
                        new double[][] {{0}},
                        new double[][] {{1}},
                        0));
        samples.put(Range.class, () -> new Range(1, 2));
        samples.put(TableRange.class, () -> TestTables.range(1, 18, 1, 15, 150, 600));
        samples.put(ReferencePoint.class, TABLE.definition()::reference);
        samples.put(Basis.class, () -> Basis.NOT_STATED);
        samples.put(Term.class, () -> new Term.Hinge("x", Variable.FAT, Term.Side.BELOW, 3));
        samples.put(TableColumn.class, () -> TableSchema.CUTS.columns(List.of()).get(0));
        samples.put(GradeAxis.class, () -> GradeAxis.FAT);
        samples.put(TableDefinition.class, TABLE::definition);
        samples.put(TableDefinition.Builder.class, () -> TABLE.definition().toBuilder());
        samples.put(YieldTable.class, () -> TABLE);
        samples.put(CuttingSpecification.class, () -> TABLE.specifications().get(0));
        samples.put(TableComparison.class, () -> TableComparison.of(TABLE, TABLE));
        samples.put(TableOverride.class, () -> TableOverride.of(TABLE, "x", "1"));
        samples.put(BreakdownRow.class, () -> TABLE.definition().breakdown().get(0));
        samples.put(Trial.class, NullsTest::trial);
        samples.put(Intake.class, NullsTest::intake);
        samples.put(Box.class, () -> Box.of("x", "x", "x", 2, 1));
        samples.put(Product.class, () -> Product.of("x", "X", "x"));
        samples.put(BoningRun.class, NullsTest::run);
        samples.put(Baseline.class, () -> Baseline.of(ESTIMATOR.estimateLot(List.of(CARCASS))));
        samples.put(
                Reconciliation.class,
                () -> Reconciliation.of("x", 340, 338, List.of(GroupFigures.of("x", 200, 190, Map.of())), "EUR", 2));
        samples.put(Season.class, () -> season("x"));
        samples.put(RunCalibration.class, NullsTest::runCalibration);
        samples.put(RunCalibrated.class, () -> runCalibration().fit());
        samples.put(GroupedRegression.class, NullsTest::regression);
        samples.put(Halls.class, () -> Halls.of(List.of(season("x"), season("y"))));
        samples.put(ControlBoard.class, () -> ControlBoard.of(1, 3, 100));
        samples.put(
                ControlChart.class,
                () -> ControlBoard.of(1, 3, 100).chart(new double[] {1, 2, 3}, new double[] {1, 1, 1}));
        samples.put(Trace.class, () -> Trace.of(List.of(run())));
        samples.put(BatchExpectation.class, () -> new BatchExpectation("x", "x", "x", 1, 1));
        samples.put(RecallList.class, () -> Trace.of(List.of(run())).ofBoxes(List.of("x")));
        samples.put(Quarter.class, () -> new Quarter("fore", 90, Map.of()));
        samples.put(BalanceRule.class, () -> BalanceRule.DEFAULT);
        samples.put(TrialSet.class, () -> TrialSet.of(SMALL, List.of(trial())));
        samples.put(
                WeighedBreakdown.class,
                () -> TrialSet.of(SMALL, List.of(trial())).breakdowns().get(0));
        samples.put(Calibration.class, () -> Calibration.of(trials()));
        samples.put(Calibrated.class, () -> Calibration.of(trials()).fit());
        samples.put(BreakdownFit.class, () -> Calibration.of(trials()).fit().fit("carcass"));
        samples.put(YieldEstimator.class, () -> ESTIMATOR);
        samples.put(YieldEstimate.class, () -> ESTIMATOR.estimate(CARCASS));
        samples.put(Outturn.class, () -> ESTIMATOR.estimate(CARCASS));
        samples.put(LotEstimate.class, () -> ESTIMATOR.estimateLot(List.of(CARCASS)));
        samples.put(PartEstimate.class, () -> ESTIMATOR.estimate(CARCASS).part(CarcassPart.side()));
        samples.put(CarcassPart.class, CarcassPart::side);
        samples.put(LotEstimate.Collector.class, ESTIMATOR::collector);
        samples.put(RefusedCarcassException.class, NullsTest::refused);
        samples.put(YieldColumns.class, () -> ESTIMATOR.columns("retail"));
        samples.put(
                CarcassColumns.class,
                () -> CarcassColumns.thirds(new byte[] {0}, new byte[] {8}, new byte[] {8}, new double[] {340}));
        samples.put(CarcassSample.class, () -> ESTIMATOR.estimate(CARCASS).sample(new SplittableRandom(1), 1));
        samples.put(
                DrawnCarcass.class,
                () -> ESTIMATOR
                        .estimate(CARCASS)
                        .sample(new SplittableRandom(1), 1)
                        .carcasses()
                        .get(0));
        samples.put(Figure.class, () -> Figure.cut("dice"));
        samples.put(GradeCell.class, () -> GradeCell.of(CARCASS));
        samples.put(Interval.class, () -> Interval.normal(1, 1, 0.9));
        samples.put(
                Difference.class,
                () -> ESTIMATOR.estimate(CARCASS).minus(ESTIMATOR.estimate(CARCASS), Figure.cut("dice")));
        samples.put(Support.class, () -> ESTIMATOR.estimate(CARCASS).support());
        samples.put(MinceTarget.class, () -> MinceTarget.fatPercent(20));
        samples.put(ScaleError.class, () -> new ScaleError(0.5, 0));
        samples.put(RangeNote.class, () -> new RangeNote(Variable.FAT, 14, new Range(1, 13)));
        samples.put(
                CutLine.class, () -> ESTIMATOR.estimate(CARCASS).lines("retail").get(0));
        samples.put(
                MarginReport.class,
                () -> MarginReport.collector(VALUER, GRID).add(CARCASS).result());
        samples.put(LinearProgram.class, NullsTest::linearProgram);
        samples.put(LinearProgram.Builder.class, LinearProgram::builder);
        samples.put(LinearSolver.class, () -> (LinearSolver) NullsTest::solved);
        samples.put(CheckedSolver.class, () -> CheckedSolver.of(NullsTest::solved));
        samples.put(LinearSolution.class, () -> solved(linearProgram()));
        samples.put(OptimumCheck.class, () -> OptimumCheck.of(solved(linearProgram())));
        samples.put(OptimumCheck.Violation.class, () -> new OptimumCheck.Violation("x", 1));
        samples.put(ShadowPrices.class, () -> ShadowPrices.of(NullsTest::solved, linearProgram()));
        samples.put(MarketSpecification.class, () -> MARKET);
        samples.put(MarketSpecification.Builder.class, () -> MarketSpecification.builder("market"));
        samples.put(MarketSummary.class, () -> MarketSummary.collector(MARKET).result());
        samples.put(TwoTables.Collector.class, () -> TwoTables.collector(ESTIMATOR, ESTIMATOR));
        samples.put(MarketSummary.Collector.class, () -> MarketSummary.collector(MARKET));
        samples.put(SizeWindow.class, () -> WINDOW);
        samples.put(PackFit.class, () -> pack());
        samples.put(PackSummary.Collector.class, () -> PackSummary.collector(pack()));
        samples.put(PieceWeight.class, () -> new PieceWeight(2, 1.5, 0.1));
        samples.put(WindowChance.class, () -> WindowChance.of(WINDOW, new PieceWeight(2, 1.5, 0.1)));
        samples.put(PriceList.class, () -> TestPrices.BY_KIND);
        samples.put(PriceList.Builder.class, () -> PriceList.builder("EUR"));
        samples.put(Valuer.class, () -> VALUER);
        samples.put(Value.class, () -> VALUER.value(CARCASS));
        samples.put(Attribution.class, () -> Attribution.of(VALUER.value(CARCASS), VALUER.value(CARCASS)));
        samples.put(PaymentGrid.class, () -> GRID);
        samples.put(PaymentGrid.Builder.class, () -> PaymentGrid.builder("EUR"));
        samples.put(MarginReport.Collector.class, () -> MarginReport.collector(VALUER, GRID));
        samples.put(Overpayment.Collector.class, () -> Overpayment.collector(VALUER, GRID));
        samples.put(
                Overpayment.class,
                () -> Overpayment.collector(VALUER, GRID).add(CARCASS).result());
        samples.put(
                PaidBeside.class,
                () -> Overpayment.collector(VALUER, GRID)
                        .add(CARCASS)
                        .result()
                        .suppliers()
                        .get(0));
        samples.put(
                Margin.class,
                () -> MarginReport.collector(VALUER, GRID)
                        .add(CARCASS)
                        .result()
                        .total()
                        .orElseThrow());
        samples.put(Compared.class, () -> compared("x"));
        samples.put(Comparison.class, () -> Comparison.of(List.of(compared("x"), compared("y"))));
        samples.put(Day.Builder.class, () -> Day.builder("x"));
        samples.put(Day.class, () -> Day.builder("x").build());
        samples.put(TrimmedParts.Collector.class, () -> TrimmedParts.collector(ESTIMATOR));
        samples.put(
                TrimmedParts.class,
                () -> TrimmedParts.collector(ESTIMATOR)
                        .add(CARCASS, Map.of(TrimmedParts.Region.HIND, 1.0))
                        .result());
        samples.put(GradeDifferentials.class, () -> GradeDifferentials.classes(VALUER, CARCASS));
        samples.put(FeedbackSheets.Builder.class, () -> FeedbackSheets.builder(ESTIMATOR));
        samples.put(FeedbackSheets.Collector.class, () -> sheets().collector());
        samples.put(FeedbackSheets.class, () -> {
            FeedbackSheets.Collector collector = sheets().collector();
            collector.add(CARCASS);
            return collector.result();
        });
        samples.put(FeedbackSheet.class, () -> {
            FeedbackSheets.Collector collector = sheets().collector();
            collector.add(CARCASS);
            return collector.result().sheet("Tarrowmere");
        });
        samples.put(Money.class, () -> VALUER.value(CARCASS).money());
        samples.put(Overfat.class, () -> Overfat.against(ESTIMATOR, CARCASS.fatClass()));
        samples.put(
                Overfat.Collector.class,
                () -> Overfat.against(ESTIMATOR, CARCASS.fatClass()).collector());
        samples.put(OverfatCost.class, NullsTest::overfat);
        samples.put(Age.class, () -> Age.months(25));
        samples.put(LocalDate.class, () -> LocalDate.of(2026, 11, 3));
        samples.put(OptionalInt.class, OptionalInt::empty);
        samples.put(DayCurve.class, () -> DayCurve.constant(1));
        samples.put(NetEnergy.Diet.class, NullsTest::diet);
        samples.put(Feed.class, () -> Feed.byEnergy(diet(), 1));
        samples.put(Replacement.class, () -> new Replacement(1, 1, 1));
        samples.put(HoldingCosts.class, () -> HoldingCosts.NONE);
        samples.put(HoldingCosts.Builder.class, HoldingCosts::builder);
        samples.put(FinishAnimal.class, NullsTest::animal);
        samples.put(Assumptions.class, Assumptions::shipped);
        samples.put(Assumption.class, () -> Assumptions.shipped().all().get(0));
        samples.put(HoldOrSell.class, () -> HoldOrSell.builder(GRID).build());
        samples.put(HoldOrSell.Builder.class, () -> HoldOrSell.builder(GRID));
        samples.put(Forecast.class, () -> HoldOrSell.builder(GRID).build().forecast(animal()));
        samples.put(PenForecast.class, () -> HoldOrSell.builder(GRID).build().pen(List.of(animal())));
        samples.put(
                FinishDay.class,
                () -> HoldOrSell.builder(GRID).build().forecast(animal()).today());
        samples.put(
                FinishState.class,
                () -> HoldOrSell.builder(GRID)
                        .build()
                        .forecast(animal())
                        .today()
                        .state());
        samples.put(HeldCost.class, () -> new HeldCost(1, 1, 1, 1, 1, 1));
        samples.put(
                SaleAdvice.class, () -> SaleAdvice.of(HoldOrSell.builder(GRID).build(), 1));
        samples.put(TimeOfSale.class, () -> (TimeOfSale) animals -> {
            Checks.noNullIn(animals, "animals");
            return Optional.empty();
        });
        samples.put(Throwable.class, RuntimeException::new);
        samples.put(Unexplained.class, () -> new Unexplained(0.1, 0.1, 2));
        samples.put(FigureSum.Builder.class, FigureSum::builder);
        samples.put(Order.class, () -> Order.builder("1", "striploin").build());
        samples.put(Order.Builder.class, () -> Order.builder("1", "striploin"));
        samples.put(Planner.Builder.class, NullsTest::planner);
        samples.put(Planner.class, () -> planner().build());
        samples.put(Plan.class, () -> planner().build().plan(List.of(CARCASS)));
        return samples;
    }

    private static NetEnergy.Diet diet() {
        return new NetEnergy.Diet(75, 18.45, 650, 0);
    }

    private static FinishAnimal animal() {
        return FinishAnimal.ofColdKg(
                Category.STEER, CARCASS.conformation(), CARCASS.fatClass(), 340, DayCurve.constant(1));
    }

    private static Planner.Builder planner() {
        return Planner.builder(ESTIMATOR, VALUER.prices(), new TinySimplex());
    }

    private static LinearProgram linearProgram() {
        return LinearProgram.builder().build();
    }

    private static LinearSolution solved(LinearProgram program) {
        Objects.requireNonNull(program, "program");
        return LinearSolution.optimal(program, new double[program.variables()], new double[program.rows()]);
    }

    private static FeedbackSheets.Builder sheets() {
        return FeedbackSheets.builder(ESTIMATOR);
    }

    private static PackFit pack() {
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.PRIMAL, 9)
                .kind(CutKind.FAT_TRIM, 0.3)
                .kind(CutKind.BONE, 0)
                .kind(CutKind.LOSS, 0)
                .build();
        return PackFit.of(Valuer.of(prices, ESTIMATOR, "primal"), List.of(WINDOW));
    }

    private static OverfatCost overfat() {
        return Overfat.against(ESTIMATOR, FatClass.parse("2")).cost(CARCASS).orElseThrow();
    }

    private static Frame frame() {
        return Frame.of(Map.of("x", List.of("a")));
    }

    private static Frame.Row row() {
        List<Frame.Row> rows = new ArrayList<>();
        frame().where(rows::add);
        return rows.get(0);
    }

    private static Intake intake() {
        return Intake.of(CARCASS.withId("x"), IntakePart.CARCASS, 340, Movement.BONED, "x");
    }

    private static RunCalibration runCalibration() {
        return RunCalibration.of(List.of(run("x")), ESTIMATOR, List.of(product()));
    }

    private static GroupedRegression regression() {
        return GroupedRegression.fit(
                new GroupedRegression.Rows(
                        new double[][] {{1}, {1}, {1}},
                        new double[][] {{1, -1}, {2, -2}, {4, -4}},
                        new double[] {1, 1, 1},
                        new int[] {0, 0, 0},
                        new int[] {0, 0, 0}),
                new GroupedRegression.Prior(new double[1][1][2], new double[][][][] {{{{1}, {-1}}}}, new boolean[] {true
                }),
                new GroupedRegression.Declared(
                        new double[2][2], 0, new double[2][2], 0, GroupedRegression.Between.KEPT));
    }

    private static Season season(String hall) {
        return Season.of(List.of(run(hall)), ESTIMATOR, List.of(product()));
    }

    private static BoningRun run() {
        return run("x");
    }

    private static BoningRun run(String hall) {
        return new BoningRun(
                hall,
                "x",
                IntakeWeighing.HOT,
                List.of(intake()),
                List.of(Box.of("x", "x", "x", 2, 1)),
                List.of(Rest.of(RestKind.BONE, 1)));
    }

    private static Product product() {
        List<String> levels = TABLE.levels();
        return Product.of(
                "x", "X", TABLE.cutsAt(levels.get(levels.size() - 1)).get(0).code());
    }

    private static Trial trial() {
        return trial(1);
    }

    private static Trial trial(int number) {
        double kg = 300 + 7 * number % 50;
        return Trial.of(
                Carcass.of(Category.STEER, Conformation.third(4 + number % 9), FatClass.third(4 + number % 7), kg)
                        .withId("T-" + number),
                Map.of("meat", 0.7 * kg, "fat-trim", 0.11 * kg, "bone", 0.184 * kg, "loss", 0.006 * kg));
    }

    private static TrialSet trials() {
        return TrialSet.of(
                SMALL, IntStream.rangeClosed(1, 40).mapToObj(NullsTest::trial).toList());
    }

    /** One call with null in one place. */
    private record Call(Class<?> type, Executable called, int index, boolean inside) {
        private Parameter parameter() {
            return called.getParameters()[index];
        }

        @Override
        public String toString() {
            String types = String.join(
                    ", ",
                    Arrays.stream(called.getParameterTypes())
                            .map(Class::getSimpleName)
                            .toList());
            return type.getName().substring(PACKAGE.length())
                    + (called instanceof Constructor ? "(" : "." + called.getName() + "(")
                    + types + "), " + (inside ? "in " : "") + parameter().getName();
        }

        /** What is wrong with it, empty if nothing is. */
        String fault() throws ReflectiveOperationException {
            Object[] arguments = Arrays.stream(called.getParameters())
                    .map(one -> sample(one.getType()))
                    .toArray();
            called.setAccessible(true);
            arguments[index] = inside ? holdingNull(parameter().getType()) : null;
            try {
                if (called instanceof Method method) {
                    boolean isStatic = Modifier.isStatic(method.getModifiers());
                    method.invoke(isStatic ? null : sample(type), arguments);
                } else {
                    ((Constructor<?>) called).newInstance(arguments);
                }
                return "null is accepted";
            } catch (InvocationTargetException thrown) {
                Throwable cause = thrown.getCause();
                String message = String.valueOf(cause.getMessage());
                // what the virtual machine says of a null that surfaces is no refusal
                boolean isNamed = names(message, parameter().getName()) && !message.startsWith("Cannot ");
                return cause instanceof NullPointerException && isNamed ? "" : cause.toString();
            }
        }

        private static boolean names(String message, String parameter) {
            return Pattern.compile("\\b" + Pattern.quote(parameter) + "\\b")
                    .matcher(message)
                    .find();
        }
    }

    private static Object holdingNull(Class<?> type) {
        if (type.isArray()) {
            return Array.newInstance(type.getComponentType(), 1);
        }
        return Map.class.isAssignableFrom(type)
                ? Collections.singletonMap("x", null)
                : type == Set.class ? Collections.singleton(null) : Collections.singletonList(null);
    }

    private static @Nullable Object sample(Class<?> type) {
        Supplier<?> given = SAMPLES.get(type);
        if (given != null) {
            return type.cast(given.get());
        }
        if (type.isPrimitive()) {
            return Array.get(Array.newInstance(type, 1), 0);
        }
        if (type.isEnum()) {
            return type.getEnumConstants()[0];
        }
        if (type.isArray()) {
            return Array.newInstance(type.getComponentType(), 0);
        }
        if (type == Double.class || type == Integer.class || type == Boolean.class) {
            return null;
        }
        if (Map.class.isAssignableFrom(type)) {
            return Map.of();
        }
        if (type == Set.class) {
            return Set.of();
        }
        if (type.isAssignableFrom(List.class)) {
            return List.of();
        }
        if (type.isInterface() && type.getName().startsWith("java.util.function.")) {
            return Proxy.newProxyInstance(
                    NullsTest.class.getClassLoader(), new Class<?>[] {type}, (proxy, method, arguments) -> {
                        Class<?> returned = method.getReturnType();
                        return returned.isPrimitive() ? sample(returned) : "x";
                    });
        }
        if (type.isRecord()) {
            return made(type);
        }
        throw new IllegalStateException("no sample of " + type.getName());
    }

    private static Object made(Class<?> record) {
        Constructor<?> constructor = record.getConstructors()[0];
        try {
            return constructor.newInstance(Arrays.stream(constructor.getParameterTypes())
                    .map(NullsTest::sample)
                    .toArray());
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("no sample of " + record.getName() + ": " + e.getCause(), e);
        }
    }

    private static boolean isNullable(AnnotatedType type) {
        return type.isAnnotationPresent(Nullable.class);
    }

    private static boolean mayHoldNull(AnnotatedType type) {
        if (type instanceof AnnotatedArrayType array) {
            return isNullable(array.getAnnotatedGenericComponentType());
        }
        return type instanceof AnnotatedParameterizedType generic
                && Arrays.stream(generic.getAnnotatedActualTypeArguments()).anyMatch(NullsTest::isNullable);
    }

    private static boolean holdsReferences(Class<?> type) {
        return Collection.class.isAssignableFrom(type)
                || Map.class.isAssignableFrom(type)
                || (type.isArray() && !type.getComponentType().isPrimitive());
    }

    private static Stream<Call> calls(Class<?> type, Executable called) {
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < called.getParameterCount(); i++) {
            Parameter parameter = called.getParameters()[i];
            AnnotatedType declared = parameter.getAnnotatedType();
            if (!parameter.getType().isPrimitive() && !isNullable(declared)) {
                calls.add(new Call(type, called, i, false));
            }
            if (holdsReferences(parameter.getType()) && !mayHoldNull(declared)) {
                calls.add(new Call(type, called, i, true));
            }
        }
        return calls.stream();
    }

    /** The methods and constructors of a type that a caller sees, but for those that the compiler makes. */
    private static Stream<Executable> executables(Class<?> type) {
        Stream<Executable> methods = Arrays.stream(type.getMethods())
                .filter(method -> method.getDeclaringClass().getName().startsWith(PACKAGE))
                .filter(method -> method.getDeclaringClass() == type
                        || !Modifier.isPublic(method.getDeclaringClass().getModifiers()))
                .filter(method -> !method.isSynthetic()
                        && !method.getName().equals("equals")
                        && !(type.isEnum() && method.getName().equals("valueOf")))
                .map(Function.identity());
        return Stream.concat(Arrays.stream(type.getConstructors()), methods);
    }

    private static List<Class<?>> publicTypes() {
        try {
            Path root = Path.of(YieldTable.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toURI());
            try (Stream<Path> files = Files.walk(root)) {
                return files.map(file -> root.relativize(file)
                                .toString()
                                .replace('/', '.')
                                .replace('\\', '.'))
                        .filter(name -> name.startsWith(PACKAGE) && name.endsWith(".class"))
                        .filter(name -> !name.startsWith(ENGINE) && !name.endsWith("-info.class"))
                        .sorted()
                        .<Class<?>>map(name -> type(name.substring(0, name.length() - ".class".length())))
                        .filter(NullsTest::isPublic)
                        .toList();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Class<?> type(String name) {
        try {
            return Class.forName(name);
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(e);
        }
    }

    private static boolean isPublic(Class<?> type) {
        Class<?> enclosing = type.getEnclosingClass();
        return Modifier.isPublic(type.getModifiers()) && (enclosing == null || isPublic(enclosing));
    }

    @Test
    void nullIsRefusedByNameWhereverItIsNotDeclared() throws ReflectiveOperationException {
        Map<String, String> faults = new TreeMap<>();
        int count = 0;
        for (Class<?> type : publicTypes()) {
            if (LEFT_OUT.containsKey(type)) {
                continue;
            }
            for (Call call :
                    executables(type).flatMap(called -> calls(type, called)).toList()) {
                count++;
                String fault;
                try {
                    fault = call.fault();
                } catch (IllegalStateException | ClassCastException e) {
                    fault = String.valueOf(e.getMessage());
                }
                if (!fault.isEmpty()) {
                    faults.put(call.toString(), fault);
                }
            }
        }

        assertThat(faults.entrySet().stream().map(Object::toString).collect(Collectors.joining("\n")))
                .as("faults in %s calls", count)
                .isEmpty();
        assertThat(count).isGreaterThan(190);
    }
}
