package org.beefyield.reconcile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.boning.BatchExpectation;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.BoxKind;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.boning.Trace;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class RunReconciliationTest {
    private static final YieldTable TABLE = TestRuns.TABLE;
    private static final YieldEstimator ESTIMATOR = TestRuns.ESTIMATOR;
    private static final Valuer VALUER = TestRuns.VALUER;

    /** Rump dice and dice share a cut, rump steak goes with the first; a share of the lean trim is packed. */
    private static final List<Product> PRODUCTS = List.of(
            Product.of("SL", "Striploin steak", "striploin-steak"),
            Product.of("RS", "Rump steak", "rump-steak"),
            Product.of("BJ", "Brisket joint", "brisket-joint"),
            new Product("DS", "Stew", Map.of("dice", 1.0)),
            new Product("DG", "Goulash", Map.of("dice", 1.0)),
            new Product("LT", "Lean trim", Map.of("lean-trim", 0.9)));

    private static final List<Carcass> CARCASSES = List.of(
            steer("R=", "3=", 341.5).withId("T-1").withLot("Lowfold"),
            steer("U-", "3+", 372).withId("T-2").withLot("Lowfold"),
            steer("O+", "2+", 318.5).withId("T-3").withLot("Highfold").withKillDate("2026-11-02"));

    private static List<Intake> intake(double factor) {
        return CARCASSES.stream()
                .map(carcass ->
                        Intake.of(carcass, IntakePart.CARCASS, carcass.coldWeightKg() * factor, Movement.BONED, "1"))
                .toList();
    }

    private static BoningRun run(List<Intake> intake, List<Box> boxes, List<Rest> rest) {
        return new BoningRun("Mereside", "2026-11-03", IntakeWeighing.COLD_WEIGHED, intake, boxes, rest);
    }

    private static final List<Box> BOXES = List.of(
            Box.of("1", "SL", "1", 38.5, 0.5),
            Box.of("2", "RS", "1", 41.25, 0.25),
            Box.of("3", "BJ", "1", 36, 0),
            Box.of("4", "DS", "1", 200, 0),
            Box.of("5", "DG", "1", 98.4, 0.4),
            Box.of("6", "LT", "1", 250, 0),
            new Box("7", "DG", "1", 4, 0, "", BoxKind.DOWNGRADED, List.of("RS")),
            new Box("8", "DG", "1", 10, 0, "", BoxKind.REWORK, List.of("5")));

    private static final List<Rest> REST =
            List.of(Rest.of(RestKind.BONE, 201.3), Rest.of(RestKind.FAT, 160.2), Rest.of(RestKind.FLOOR, 1.7));

    @Test
    void theSmallestGroupsThatCanBeToldApart() {
        Reconciliation reconciliation = Reconciler.reconcile(run(intake(1), BOXES, REST), ESTIMATOR, PRODUCTS);
        assertThat(reconciliation.lines())
                .extracting(GroupLine::group)
                .containsExactly(
                        "Striploin steak",
                        "Rump steak",
                        "Brisket joint",
                        "Stew, Goulash",
                        "Lean trim",
                        "Bone",
                        "Fat",
                        "losses, unweighed");
        assertThat(reconciliation.line("Stew, Goulash").weighedKg()).isEqualTo(298);
        // what was downgraded was cut as rump steak; what was packed again is counted once
        assertThat(reconciliation.line("Rump steak").weighedKg()).isEqualTo(45);
        assertThat(reconciliation.line("losses, unweighed").weighedKg())
                .isEqualTo(reconciliation.balance().orElseThrow().unexplainedG() / 1000.0 + 1.7);
    }

    @Test
    void expectedIsWhatTheCarcassesReturnBroughtToTheIntake() {
        Reconciliation reconciliation = Reconciler.reconcile(run(intake(0.99), BOXES, REST), ESTIMATOR, PRODUCTS);
        LotEstimate lot = ESTIMATOR.estimateLot(CARCASSES);
        assertThat(reconciliation.factor()).isCloseTo(0.99, within(1e-6));
        for (String[] pair : new String[][] {
            {"Striploin steak", "striploin-steak"}, {"Stew, Goulash", "dice"}, {"Bone", "bone"}, {"Fat", "fat-trim"}
        }) {
            GroupLine line = reconciliation.line(pair[0]);
            assertThat(line.expectedKg()).isCloseTo(lot.kg("retail", pair[1]), within(1e-9));
            assertThat(line.scaledKg()).isCloseTo(reconciliation.factor() * lot.kg("retail", pair[1]), within(1e-9));
        }
        assertThat(reconciliation.line("Lean trim").expectedKg()).isCloseTo(0.9 * lot.kg("lean-trim"), within(1e-9));
        assertThat(reconciliation.line("losses, unweighed").expectedKg())
                .isCloseTo(lot.kg("loss") + 0.1 * lot.kg("lean-trim"), within(1e-9));
    }

    /** One run and one hall for all, whatever day they were killed; two lots. */
    @Test
    void carcassesOfOneRunHaveItsErrorInCommon() {
        GroupLine line = Reconciler.reconcile(run(intake(1), BOXES, REST), ESTIMATOR, PRODUCTS)
                .line("Bone");
        Figure bone = Figure.cut("retail", "bone");
        List<LotEstimate> apart = CARCASSES.stream()
                .map(carcass -> ESTIMATOR.estimateLot(List.of(carcass)))
                .toList();
        double run = apart.stream()
                .mapToDouble(lot -> lot.sd(bone, UncertaintyPart.RUN))
                .sum();
        double firstLot =
                apart.get(0).sd(bone, UncertaintyPart.LOT) + apart.get(1).sd(bone, UncertaintyPart.LOT);
        assertThat(line.sdKg(Set.of(UncertaintyPart.RUN))).isCloseTo(run, within(0.01 * run));
        assertThat(line.sdKg(Set.of(UncertaintyPart.LOT)))
                .isCloseTo(Math.hypot(firstLot, apart.get(2).sd(bone, UncertaintyPart.LOT)), within(0.01 * run));
        assertThat(line.sdKg(Set.of(UncertaintyPart.RUN))).isGreaterThan(0.1);
    }

    @Test
    void quartersAndSidesReturnWhatIsInThem() {
        List<Intake> pieces = List.of(
                Intake.of(CARCASSES.get(0), IntakePart.SIDE, 170, Movement.BONED, "1"),
                Intake.of(CARCASSES.get(0), IntakePart.SIDE, 170, Movement.BONED, "1")
                        .withPiece("left"),
                Intake.of(CARCASSES.get(1), IntakePart.FOREQUARTER, 98, Movement.TAKEN_FROM_STOCK, "1"),
                Intake.of(CARCASSES.get(1), IntakePart.HINDQUARTER, 90, Movement.LEFT_IN_STOCK, ""),
                Intake.of(CARCASSES.get(2), IntakePart.SIDE, 160, Movement.BONED, "1"));
        Reconciliation reconciliation = Reconciler.reconcile(run(pieces, BOXES, REST), ESTIMATOR, PRODUCTS);
        String quartering = "10-rib forequarter";
        for (String[] pair :
                new String[][] {{"Striploin steak", "striploin-steak"}, {"Brisket joint", "brisket-joint"}}) {
            double expected = ESTIMATOR.estimate(CARCASSES.get(0)).kg(pair[1])
                    + ESTIMATOR
                            .estimate(CARCASSES.get(1))
                            .part(new CarcassPart(quartering, 1, 0))
                            .kg(pair[1])
                    + ESTIMATOR.estimate(CARCASSES.get(2)).kg(pair[1]) / 2;
            assertThat(reconciliation.line(pair[0]).expectedKg()).isCloseTo(expected, within(1e-9));
        }
        assertThat(reconciliation.intakeKg()).isEqualTo(598);
        assertThat(reconciliation.lines().stream()
                        .mapToDouble(GroupLine::weighedKg)
                        .sum())
                .isCloseTo(598, within(1e-9));
        assertThat(reconciliation.lines().stream()
                        .mapToDouble(GroupLine::scaledKg)
                        .sum())
                .isCloseTo(598, within(1e-9));
    }

    @Test
    void moneyIsThatOfWhatWasCutLessWhatWasDowngraded() {
        Reconciliation reconciliation = Reconciler.reconcile(run(intake(1), BOXES, REST), VALUER, PRODUCTS);
        // steak 22, dice 9 a kg
        assertThat(reconciliation.money("Rump steak", Cause.DOWNGRADED)).hasToString("-52.00 EUR");
        double boxed = 38 * 22 + 41 * 22 + 4 * 9 + 36 * 14 + 298 * 9 + 250 * 5 - 201.3 * 0.1 + 160.2 * 0.3;
        assertThat(reconciliation.weighedMoney().amount().doubleValue()).isCloseTo(boxed, within(0.01));
        assertThat(reconciliation.money(Cause.MIX).signum()).isZero();
        assertThat(reconciliation.money(Cause.PRICE).signum()).isZero();
    }

    @Test
    void againstABaselineTheWayIsThatOfTheSameCarcasses() {
        YieldEstimator joints = YieldEstimator.of(TABLE, TABLE.specification("joints"));
        LotEstimate planned = joints.estimateLot(List.of(CARCASSES.get(1)));
        Reconciliation reconciliation =
                Reconciler.reconcile(run(intake(1), BOXES, REST), VALUER, PRODUCTS, Baseline.of(planned));
        LotEstimate sameWay = joints.estimateLot(CARCASSES);
        LotEstimate lot = ESTIMATOR.estimateLot(CARCASSES);
        String group = "Stew, Goulash";
        double ofPlanned = planned.share("dice") * lot.coldWeightKg();
        assertThat(reconciliation.kg(group, Cause.MIX)).isCloseTo(sameWay.kg("dice") - ofPlanned, within(1e-9));
        assertThat(reconciliation.kg(group, Cause.WAY)).isCloseTo(lot.kg("dice") - sameWay.kg("dice"), within(1e-9));
        assertThat(reconciliation.kg(group, Cause.WAY)).isGreaterThan(1);
        assertThat(reconciliation.lines().stream()
                        .mapToDouble(line -> reconciliation.kg(line.group(), Cause.MIX))
                        .sum())
                .isCloseTo(0, within(1e-9));
    }

    /** Joints of the striploin stand for no product of a run that cuts steaks, and are worth what they are. */
    @Test
    void cutsOfTheBaselinesWayAloneAreWorthSomethingToo() {
        YieldEstimator joints = YieldEstimator.of(TABLE, TABLE.specification("joints"));
        Reconciliation reconciliation = Reconciler.reconcile(
                run(intake(1), BOXES, REST), VALUER, PRODUCTS, Baseline.of(joints.estimateLot(CARCASSES)));
        LotEstimate sameWay = joints.estimateLot(CARCASSES);
        List<String> alone = joints.yields("retail").stream()
                .map(Cut::code)
                .filter(code -> ESTIMATOR.yields("retail").stream()
                        .noneMatch(cut -> cut.code().equals(code)))
                .toList();
        assertThat(alone).isNotEmpty();
        double kg = alone.stream().mapToDouble(sameWay::kg).sum();
        assertThat(reconciliation.kg("only in the baseline's way", Cause.WAY)).isCloseTo(-kg, within(1e-9));
        // all carcasses are the baseline's own, so that it is worth what a valuer says, but for what no product takes
        double left = 0.1 * sameWay.kg("lean-trim") * 5;
        assertThat(reconciliation.baselineMoney().amount().doubleValue())
                .isCloseTo(Valuer.of(TestPrices.BY_KIND, joints).value(sameWay).amount() - left, within(0.01));
        assertThat(reconciliation.money(Cause.MIX).signum()).isZero();
    }

    private static final Reconciliation AGAINST_JOINTS = Reconciler.reconcile(
            run(intake(0.99), BOXES, REST),
            VALUER,
            PRODUCTS,
            Baseline.of(YieldEstimator.of(TABLE, TABLE.specification("joints")).estimateLot(CARCASSES.subList(1, 3))));

    @Test
    void itIsSaidInWordsAndTables() {
        assertThat(AGAINST_JOINTS.toText()).isEqualTo("""
                Mereside 2026-11-03: 1021.7 kg boned against 1032.0 kg cold weight, factor 0.990000; farthest off: losses, unweighed, 42.1 kg less than the intake should return, 24.9 SDs
                Intake weighed cold; expected by the carcasses' cold weight and brought to that intake, three-levels@2.1#b49b666c8c31
                90 % sure of what will be weighed: how carcasses of one grade differ, how well the table is known, how lots differ, how boning runs differ and how your hall differs from the table; the largest of these: how carcasses of one grade differ
                Intake 1021.680 kg = boxes 667.000 + rest 363.200 + change of stock 0.000 + unexplained -8.520 kg

                group              expected, kg  for this intake  weighed  difference       %  90 % interval: low   high  SDs off  worth, EUR
                -----------------------------------------------------------------------------------------------------------------------------
                Striploin steak            39.9             39.6     38.0        -1.6    -3.9                35.7   43.4     -0.7      -33.98
                Rump steak                 43.4             43.0     45.0         2.0     4.7                39.1   46.8      0.9       44.81
                Brisket joint              37.4             37.0     36.0        -1.0    -2.7                33.2   40.8     -0.4      -14.19
                Stew, Goulash             288.6            285.7    298.0        12.3     4.3                 267    304      1.1      110.63
                Lean trim                 213.8            211.6    250.0        38.4    18.1               196.7  226.6      4.2      191.89
                Bone                      197.8            195.9    201.3         5.4     2.8                 179    213      0.5       -0.54
                Fat                       175.4            173.6    160.2       -13.4    -7.7                 140    208     -0.7       -4.03
                losses, unweighed          35.7             35.3     -6.8       -42.1  -119.3                32.5   38.1    -24.9        0.00
                -----------------------------------------------------------------------------------------------------------------------------
                Total                    1032.0           1021.7   1021.7         0.0                                                  294.59

                kg                          baseline  mix of grades  way of cutting  intake weight  cutting   weighed
                -----------------------------------------------------------------------------------------------------
                Striploin steak                0.000          0.000          39.944         -0.399   -1.545    38.000
                Rump steak                     0.000          0.000          43.397         -0.434    2.037    45.000
                Brisket joint                 37.407         -0.020           0.000         -0.374   -1.013    36.000
                Stew, Goulash                280.578         -0.924           8.940         -2.886   12.292   298.000
                Lean trim                    215.461         -0.659          -1.042         -2.137   38.377   250.000
                Bone                         197.759          0.097           0.000         -1.979    5.423   201.300
                Fat                          173.672          1.718           0.000         -1.754  -13.436   160.200
                only in the baseline's way    91.246         -0.123         -91.123          0.000    0.000     0.000
                losses, unweighed             35.877         -0.089          -0.116         -0.357  -42.135    -6.820
                -----------------------------------------------------------------------------------------------------
                Total                       1032.000          0.000           0.000        -10.320    0.000  1021.680

                EUR                         baseline  mix of grades  way of cutting  intake weight  cutting  downgraded boxes    worth
                ----------------------------------------------------------------------------------------------------------------------
                Striploin steak                 0.00           0.00          878.77          -8.79   -33.98              0.00   836.00
                Rump steak                      0.00           0.00          954.74          -9.55    44.81            -52.00   938.00
                Brisket joint                 523.70          -0.28            0.00          -5.23   -14.19              0.00   504.00
                Stew, Goulash                2525.21          -8.32           80.45         -25.97   110.63              0.00  2682.00
                Lean trim                    1077.30          -3.29           -5.21         -10.69   191.89              0.00  1250.00
                Bone                          -19.78          -0.01            0.00           0.20    -0.54              0.00   -20.13
                Fat                            52.10           0.52            0.00          -0.53    -4.03              0.00    48.06
                only in the baseline's way   1277.45          -1.72        -1275.73           0.00     0.00              0.00     0.00
                losses, unweighed               0.00           0.00            0.00           0.00     0.00              0.00     0.00
                ----------------------------------------------------------------------------------------------------------------------
                Total                        5435.98         -13.10          633.02         -60.56   294.59            -52.00  6237.93

                Causes add up from the first column to the last; figures are rounded so that rows and columns add up.
                More than 2 SDs off: losses, unweighed by 24.9, Lean trim by 4.2; of 20 groups of which none is off, one is on average
                This is no settlement: payment follows the contract and the official weights and grades.
                """);
    }

    /** Numbers of carcasses may start anew each day of slaughter. */
    @Test
    void carcassesOfOneNumberAndTwoDaysAreTwo() {
        Carcass first = CARCASSES.get(0).withKillDate("2026-11-01");
        Carcass second =
                CARCASSES.get(1).withId(CARCASSES.get(0).id().orElseThrow()).withKillDate("2026-11-02");
        List<Intake> both = List.of(
                Intake.of(first, IntakePart.CARCASS, 340, Movement.BONED, "1"),
                Intake.of(second, IntakePart.CARCASS, 370, Movement.BONED, "1"));
        Reconciliation reconciliation = Reconciler.reconcile(run(both, BOXES, REST), ESTIMATOR, PRODUCTS);
        assertThat(reconciliation.coldWeightKg()).isEqualTo(341.5 + 372);
    }

    /** Somebody cut joints that day, whatever the specification says: they bring what the price list says. */
    @Test
    void whatTheWayOfCuttingDoesNotYieldIsWorthItsPrice() {
        List<Product> more = new ArrayList<>(PRODUCTS);
        more.add(Product.of("SJ", "Striploin joint", "striploin-joint"));
        List<Box> boxes = new ArrayList<>(BOXES);
        boxes.add(Box.of("9", "SJ", "1", 10.5, 0.5));
        Reconciliation reconciliation = Reconciler.reconcile(run(intake(1), boxes, REST), VALUER, more);
        assertThat(reconciliation.line("Striploin joint").expectedKg()).isZero();
        assertThat(reconciliation.money("Striploin joint", Cause.CUTTING)).hasToString("140.00 EUR");
        assertThat(reconciliation.toText())
                .contains("\nWeighed, though this way of cutting returns none of it: Striploin joint, 10.0 kg\n");
    }

    @Test
    void groupsHaveNamesOfTheirOwn() {
        for (String name : List.of("Striploin steak", "Bone", "losses, unweighed")) {
            List<Product> more = new ArrayList<>(PRODUCTS.subList(0, 1));
            more.add(Product.of("RS", name, "rump-steak"));
            assertThatThrownBy(() -> Reconciler.reconcile(run(intake(1), List.of(), REST), ESTIMATOR, more))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("two groups of products, or one and a line of its own, are called " + name
                            + "; products, bone and fat have names of their own");
        }
    }

    @Test
    void whatDoesNotFitIsRefusedByName() {
        List<Intake> twice = new ArrayList<>(intake(1));
        twice.add(twice.get(0).withPiece("again"));
        assertThatThrownBy(() -> Reconciler.reconcile(run(twice, BOXES, REST), ESTIMATOR, PRODUCTS))
                .hasMessage("Mereside 2026-11-03: 4 forequarters and 4 hindquarters of carcass T-1 were boned; it has 2"
                        + " of each");
        assertThatThrownBy(() -> Reconciler.reconcile(
                        run(intake(1), List.of(Box.of("9", "XX", "1", 2, 1)), REST), ESTIMATOR, PRODUCTS))
                .hasMessage("Mereside 2026-11-03: box 9 is of product XX, which isn't listed; there are SL, RS, BJ, DS,"
                        + " DG, LT");
        assertThatThrownBy(() -> Reconciler.reconcile(
                        run(intake(1), List.of(), REST), ESTIMATOR, List.of(Product.of("X", "Oxtail", "oxtail"))))
                .hasMessageStartingWith(
                        "products have what doesn't stand at level retail of table three-levels: oxtail;"
                                + " there are ");
        assertThatThrownBy(() -> Reconciler.reconcile(run(List.of(), List.of(), REST), ESTIMATOR, PRODUCTS))
                .hasMessage("Mereside 2026-11-03: nothing was boned; a run bones one piece or more");
    }

    @Test
    void aBatchThatGivesMoreThanItsCarcassesCanIsNamed() {
        List<Carcass> eight = new ArrayList<>();
        List<Intake> pieces = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            Carcass carcass = CARCASSES.get(0).withId("T-" + i);
            eight.add(carcass);
            pieces.add(Intake.of(carcass, IntakePart.CARCASS, 0.99 * carcass.coldWeightKg(), Movement.BONED, "B7"));
        }
        BoningRun run =
                run(pieces, List.of(Box.of("1", "SL", "B7", 150, 0), Box.of("2", "BJ", "B7", 90, 0)), List.of());
        List<BatchExpectation> all =
                Reconciler.of(ESTIMATOR, PRODUCTS, List.of()).batches(run, Map.of());
        BatchExpectation expected = all.get(0);
        LotEstimate lot = ESTIMATOR.estimateLot(eight);
        Figure steak = Figure.cut("retail", "striploin-steak");
        double variance = 0;
        for (UncertaintyPart part : UncertaintyPart.values()) {
            variance += lot.sd(steak, part) * lot.sd(steak, part);
        }
        double factor = run.balance().bonedG() / 1000.0 / lot.coldWeightKg();
        assertThat(expected.product()).isEqualTo("SL");
        assertThat(expected.kg()).isCloseTo(factor * lot.kg("striploin-steak"), within(1e-9));
        assertThat(expected.sdKg()).isCloseTo(factor * Math.sqrt(variance), within(1e-9));
        assertThat(Trace.of(List.of(run)).excess(all, 3))
                .singleElement()
                .satisfies(excess -> assertThat(excess.expected()).isEqualTo(expected));
        // products that share cuts have no expectation of their own
        assertThat(all).extracting(BatchExpectation::product).containsExactly("SL", "RS", "BJ", "LT");
    }
}
