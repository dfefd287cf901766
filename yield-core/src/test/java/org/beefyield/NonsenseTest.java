package org.beefyield;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.beefyield.boning.Balance;
import org.beefyield.boning.BalanceRule;
import org.beefyield.boning.Blank;
import org.beefyield.boning.Closing;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSelection;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.DressingCorrection;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.frame.Frame;
import org.beefyield.stats.Regression;
import org.beefyield.stats.Sample;
import org.beefyield.table.ClosingCorrection;
import org.beefyield.table.ProofFinding;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableProblem;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.GradeAxis;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Figures that mean nothing are refused when a value is made, in words that name what, the figure and what is valid. */
class NonsenseTest {
    private static final double NAN = Double.NaN;
    private static final double INFINITE = Double.POSITIVE_INFINITY;
    private static final Conformation R = Conformation.parse("R=");
    private static final FatClass THREE = FatClass.parse("3=");
    private static final Carcass CARCASS =
            Carcass.of(Category.STEER, R, THREE, 340).withId("T-1");
    private static final Cut CUT = Cut.of("rump", "Rump", "primal", CutKind.PRIMAL);

    private static Arguments of(String message, ThrowingCallable made) {
        return Arguments.of(Named.of(message, made), message);
    }

    private static Regression regression(double x, double y, double weight, double prior, double strength) {
        return new Regression(
                new double[][] {{1, x}},
                new double[][] {{1, y}},
                new double[0][],
                new double[] {1, weight},
                new double[][] {{prior}},
                new double[][] {{1}},
                strength);
    }

    static Stream<Arguments> nonsense() {
        return Stream.of(
                of(
                        "cold weight NaN kg is not above 0 and at most 1200 kg",
                        () -> Carcass.of(Category.COW, R, THREE, NAN)),
                of(
                        "cold weight 1000000000000000 kg is not above 0 and at most 1200 kg",
                        () -> Carcass.of(Category.COW, R, THREE, 1e15)),
                of(
                        "cold weight -1 kg is not above 0 and at most 1200 kg",
                        () -> Carcass.of(Category.COW, R, THREE, -1)),
                of(
                        "age -1 months does not fit category D (female that has calved)",
                        () -> CARCASS_OF_COW.withAgeMonths(-1)),
                of("age 601 months is above 600 months", () -> CARCASS_OF_COW.withAgeMonths(601)),
                of(
                        "hot weight Infinity kg is not above 0 and at most 1200 kg",
                        () -> CarcassWeights.coldFromHot(INFINITE)),
                of("cold weight NaN kg is not above 0 and at most 1200 kg", () -> CarcassWeights.hotFromCold(NAN)),
                of(
                        "weight NaN kg is not above 0 and at most 1200 kg",
                        () -> DressingCorrection.toReference(NAN, Set.of(), THREE)),
                of("conformation position NaN is outside 1 to 18 points", () -> Conformation.ofPosition(NAN, 1)),
                of("fat width Infinity is outside 0 to 3 points", () -> FatClass.ofPosition(8, INFINITE)),
                of("pieces_per_side 0 is outside 0 to 100 (0 excluded)", () -> CUT.withPiecesPerSide(0.0)),
                of("side_split_sd_pct Infinity is outside 0 to 100", () -> CUT.withSideSplitSdPct(INFINITE)),
                of("fat_pct -1 is outside 0 to 100", () -> CUT.withFatPct(-1.0)),
                of("range 3.0 to 2.0 is not two finite ascending numbers", () -> new Range(3, 2)),
                of("range NaN to 2.0 is not two finite ascending numbers", () -> new Range(NAN, 2)),
                of("range 1.0 to Infinity is not two finite ascending numbers", () -> new Range(1, INFINITE)),
                of(
                        "the conformation of a reference carcass is NaN; it should be a finite number, 0 or more",
                        () -> new ReferencePoint(NAN, 8, 340)),
                of(
                        "the fat of a reference carcass is -1; it should be a finite number, 0 or more",
                        () -> new ReferencePoint(8, -1, 340)),
                of(
                        "the weight of a reference carcass is Infinity; it should be a finite number, 0 or more",
                        () -> new ReferencePoint(8, 8, INFINITE)),
                of("fat cover in mm -1 is outside 0 to 1000", () -> Basis.NOT_STATED.withFatCoverMm(-1.0)),
                of("ageing in days NaN is outside 0 to 1000", () -> Basis.NOT_STATED.withAgeingDays(NAN)),
                of("ageing in days 1001 is outside 0 to 1000", () -> Basis.NOT_STATED.withAgeingDays(1001.0)),
                of("an axis has a step or more", () -> new GradeAxis(Variable.FAT, List.of())),
                of(
                        "term x is a product of fat with itself; a product takes two different variables",
                        () -> new Term.Product("x", Variable.FAT, Variable.FAT)),
                of(
                        "term x is a hinge in weight; a hinge takes conformation or fat",
                        () -> new Term.Hinge("x", Variable.WEIGHT, Term.Side.ABOVE, 3)),
                of(
                        "weight before, kg: 0 is not a finite number above 0",
                        () -> new Balance("1", "carcass", 0, 1, true, 0, 2)),
                of(
                        "weight before, kg: Infinity is not a finite number above 0",
                        () -> new Balance("1", "carcass", INFINITE, 1, true, 0, 2)),
                of(
                        "weight after, kg: -1 is not a finite number, 0 or more",
                        () -> new Balance("1", "rump", 1, -1, true, 0, 2)),
                of(
                        "expected to be missing: -0.1 % is outside 0 to 20 %",
                        () -> BalanceRule.DEFAULT.withExpectedPct(-0.1)),
                of(
                        "expected to be missing: NaN % is outside 0 to 20 %",
                        () -> new Balance("1", "carcass", 1, 1, true, NAN, 2)),
                of(
                        "limit of a balance: 0 % is not above 0 and at most 20 %",
                        () -> BalanceRule.DEFAULT.withLimitPct(0)),
                of(
                        "limit of a balance: 20.1 % is not above 0 and at most 20 %",
                        () -> BalanceRule.DEFAULT.withLimitPct(20.1)),
                of(
                        "bone blank in 0 of 3 trials is not one trial or more, and at most all",
                        () -> new Blank("carcass", "bone", 0, 3)),
                of(
                        "bone blank in 4 of 3 trials is not one trial or more, and at most all",
                        () -> new Blank("carcass", "bone", 4, 3)),
                of(
                        "weighed before: \"rump\" is neither carcass nor quarter",
                        () -> new TrialSelection("rump", 9, 1, 2.3, OptionalDouble.of(1.7), BalanceRule.DEFAULT)),
                of(
                        "10 of 9 pass is not none or more of one or more, with their median if any do",
                        () -> new TrialSelection("carcass", 9, 10, 2.3, OptionalDouble.of(1.7), BalanceRule.DEFAULT)),
                of(
                        "1 of 9 pass is not none or more of one or more, with their median if any do",
                        () -> new TrialSelection("carcass", 9, 1, 2.3, OptionalDouble.empty(), BalanceRule.DEFAULT)),
                of(
                        "missing at the median, %: NaN is not a finite number",
                        () -> new TrialSelection("carcass", 9, 1, NAN, OptionalDouble.of(1.7), BalanceRule.DEFAULT)),
                of(
                        "shares at [] are not at one place or more, each 0 or more",
                        () -> new WeighedBreakdown.PartRow(Trial.of(CARCASS, Map.of()), Map.of())),
                of(
                        "shares at [-1] are not at one place or more, each 0 or more",
                        () -> new WeighedBreakdown.PartRow(Trial.of(CARCASS, Map.of()), Map.of(-1, 20.0))),
                of(
                        "share, g/kg: NaN is not a finite number, 0 or more",
                        () -> new WeighedBreakdown.PartRow(Trial.of(CARCASS, Map.of()), Map.of(1, NAN))),
                of("residue, kg: NaN is not a finite number", () -> new Closing("1", "carcass", NAN, "")),
                of("fore: cold weight 0.0 kg is not above 0", () -> new Quarter("fore", 0, Map.of())),
                of(
                        "fore: cold weight 1201 kg is not above 0 and at most 1200 kg",
                        () -> new Quarter("fore", 1201, Map.of())),
                of(
                        "fore: rump weighs NaN kg; a weight is 0 or more",
                        () -> new Quarter("fore", 90, Map.of("rump", NAN))),
                of(
                        "carcass T-1: rump weighs 1000000000000000 kg; a weight is at most 1200 kg",
                        () -> Trial.of(CARCASS, Map.of("rump", 1e15))),
                of(
                        "carcass T-1: rump weighs -1.0 kg; a weight is 0 or more",
                        () -> Trial.of(CARCASS, Map.of("rump", -1.0))),
                of(
                        "members [] of rump are not one place or more, each 0 or more",
                        () -> new WeighedBreakdown.Part("rump", List.of())),
                of(
                        "members [-1] of rump are not one place or more, each 0 or more",
                        () -> new WeighedBreakdown.Part("rump", List.of(-1))),
                of(
                        "share, g/kg: Infinity is not a finite number",
                        () -> new WeighedBreakdown.Row(Trial.of(CARCASS, Map.of()), List.of(INFINITE))),
                of("fitted share, g/kg: NaN is not a finite number", () -> new BreakdownFit.Residual(CARCASS, NAN, 0)),
                of("residual, g/kg: NaN is not a finite number", () -> new BreakdownFit.Residual(CARCASS, 0, NAN)),
                of(
                        "3 carcasses on 4 days: there is one day or more, and a carcass on each",
                        () -> new BreakdownFit.Needed(3, 4)),
                of(
                        "excess: NaN is not a finite number",
                        () -> new ClosingCorrection("C", "rump", "*", "x", NAN, "g/kg")),
                of("margin, g/kg: NaN is not a finite number", () -> new ProofFinding("it holds", NAN, "everywhere")),
                of(
                        "difference, g/kg: NaN is not a finite number",
                        () -> new TableComparison.Difference(
                                "primal", "rump", NAN, Category.COW, "", Map.of(), R, THREE, 340)),
                of(
                        "weight 0 kg is not above 0 and at most 1200 kg",
                        () -> new TableComparison.Difference(
                                "primal", "rump", 1, Category.COW, "", Map.of(), R, THREE, 0)),
                of("row -2 is not -1 or more", () -> new TableProblem("cuts", -2, "", "", "wrong", List.of())),
                of("row -1 is not 0 or more", () -> new TableProblem("cuts", 0, "", "", "wrong", List.of(1, -1))),
                of(
                        "row 1, column \"x\": Infinity is beyond 1.0E12 in size; a figure that is missing is NaN",
                        () -> Frame.of(Map.of("x", new double[] {1, INFINITE}))),
                of("\"x\" holds NaN at 0, 1; it should hold finite numbers", () -> regression(NAN, 1, 1, 0, 0)),
                of(
                        "\"y\" holds Infinity at 0, 1; it should hold finite numbers",
                        () -> regression(1, INFINITE, 1, 0, 0)),
                of("\"prior\" holds NaN at 0, 0; it should hold finite numbers", () -> regression(1, 1, 1, NAN, 0)),
                of("a weight is above 0", () -> regression(1, 1, 0, 0, 0)),
                of("strength NaN is not a number of rows, 0 or more", () -> regression(1, 1, 1, 0, NAN)),
                of("the part NaN of a quantile is outside 0 to 1", () -> Sample.quantile(new double[] {1}, NAN)),
                of("-1 decimals can't be printed; 0 or more can", () -> Numbers.fixed(1, -1)),
                of("-1 decimals can't be printed; 0 or more can", () -> Rounding.adding(new double[] {1}, 1, -1)),
                of("part: NaN is not a finite number", () -> Rounding.adding(new double[] {NAN}, 1, 1)),
                of("whole: Infinity is not a finite number", () -> Rounding.adding(new double[] {1}, INFINITE, 1)),
                of("a table has a column or more", TextTable::new));
    }

    private static final Carcass CARCASS_OF_COW = Carcass.of(Category.COW, R, THREE, 340);

    @ParameterizedTest
    @MethodSource("nonsense")
    void whatMeansNothingIsRefusedWhenItIsMade(ThrowingCallable made, String message) {
        assertThatThrownBy(made).isInstanceOf(IllegalArgumentException.class).hasMessage(message);
    }
}
