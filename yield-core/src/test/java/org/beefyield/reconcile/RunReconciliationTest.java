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
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedSds;
import org.junit.jupiter.api.Test;

class RunReconciliationTest {
    private static final YieldTable TABLE = YieldTable.of(TestTables.share(
                    TestTables.threeLevels(),
                    row -> new SharedSds(row.sdGPerKg() / 4, row.sdGPerKg() / 3, row.sdGPerKg() / 2))
            .build());
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification("steaks"));
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);

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
        BatchExpectation expected = Reconciler.batches(run, ESTIMATOR, PRODUCTS).get(0);
        LotEstimate lot = ESTIMATOR.estimateLot(eight);
        Figure steak = Figure.cut("retail", "striploin-steak");
        double variance = 0;
        for (UncertaintyPart part : UncertaintyPart.values()) {
            if (part != UncertaintyPart.HALL && part != UncertaintyPart.COEFFICIENTS) {
                variance += lot.sd(steak, part) * lot.sd(steak, part);
            }
        }
        double factor = run.balance().bonedG() / 1000.0 / lot.coldWeightKg();
        assertThat(expected.product()).isEqualTo("SL");
        assertThat(expected.kg()).isCloseTo(factor * lot.kg("striploin-steak"), within(1e-9));
        assertThat(expected.sdKg()).isCloseTo(factor * Math.sqrt(variance), within(1e-9));
        assertThat(Trace.of(List.of(run)).excess(Reconciler.batches(run, ESTIMATOR, PRODUCTS), 3))
                .singleElement()
                .satisfies(excess -> assertThat(excess.expected()).isEqualTo(expected));
        // products that share cuts have no expectation of their own
        assertThat(Reconciler.batches(run, ESTIMATOR, PRODUCTS))
                .extracting(BatchExpectation::product)
                .containsExactly("SL", "RS", "BJ", "LT");
    }
}
