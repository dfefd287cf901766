package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.junit.jupiter.api.Test;

/** A boning run and its parts. */
class BoningRunTest {
    private static Carcass carcass(String id) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                .withId(id);
    }

    private static Intake piece(String id, IntakePart part, double kg, Movement movement) {
        return Intake.of(carcass(id), part, kg, movement, movement.wasBoned() ? "B1" : "");
    }

    private static BoningRun run(List<Intake> intake, List<Box> boxes, List<Rest> rest) {
        return new BoningRun("Mereside", "2026-11-03", IntakeWeighing.COLD_WEIGHED, intake, boxes, rest);
    }

    @Test
    void whatComesInIsBoxesRestChangeOfStockAndWhatNobodyWeighed() {
        BoningRun run = run(
                List.of(
                        piece("T-1", IntakePart.CARCASS, 338.2, Movement.BONED),
                        piece("T-2", IntakePart.FOREQUARTER, 88.1, Movement.LEFT_IN_STOCK),
                        piece("T-3", IntakePart.HINDQUARTER, 84.4, Movement.TAKEN_FROM_STOCK)),
                List.of(
                        Box.of("1", "striploin", "B1", 200.5, 0.5),
                        Box.of("2", "mince", "B1", 130.75, 1.25),
                        // what other boxes hold already isn't counted again
                        new Box("3", "mince", "B1", 20, 0.6, "", BoxKind.REWORK, List.of("2")),
                        new Box("4", "mince", "B1", 10.6, 0.6, "", BoxKind.DOWNGRADED, List.of("striploin"))),
                List.of(Rest.of(RestKind.BONE, 78), new Rest(RestKind.FLOOR, 1.004, "")));

        RunBalance balance = run.balance();

        assertThat(balance).isEqualTo(new RunBalance("Mereside 2026-11-03", 426_300, 339_500, 79_004, 3_700));
        assertThat(balance.bonedG()).isEqualTo(422_600);
        assertThat(balance.unexplainedG()).isEqualTo(4_096);
        assertThat(balance.holds()).isTrue();
        assertThat(balance).hasToString("Mereside 2026-11-03: 4.1 kg of 422.6 kg boned (1.0 %) are unexplained");
        assertThat(run.boned()).extracting(Intake::id).containsExactly("T-1", "T-3");
        assertThat(run).hasToString("Mereside 2026-11-03: 3 pieces of intake, 4 boxes");
    }

    @Test
    void aRunThatIsFurtherOffThanAQuarterMayBeDoesNotBalance() {
        List<Intake> intake = List.of(piece("T-1", IntakePart.SIDE, 100, Movement.BONED));

        assertThat(run(intake, List.of(Box.of("1", "meat", "B1", 98, 0)), List.of())
                        .balance()
                        .holds())
                .isTrue();
        assertThat(run(intake, List.of(Box.of("1", "meat", "B1", 97.999, 0)), List.of())
                        .balance())
                .hasToString(
                        "Mereside 2026-11-03: 2.0 kg of 100.0 kg boned (2.0 %) are unexplained; at most 2 % may be");
        assertThat(run(intake, List.of(Box.of("1", "meat", "B1", 103, 0)), List.of())
                        .balance())
                .hasToString(
                        "Mereside 2026-11-03: 3.0 kg more came out than the 100.0 kg that were boned (3.0 %); at most 2 % may be");
        assertThat(run(List.of(), List.of(), List.of()).balance().holds()).isTrue();
        assertThat(run(List.of(), List.of(Box.of("1", "meat", "B1", 3, 0)), List.of())
                        .balance())
                .hasToString("Mereside 2026-11-03: 3.0 kg came out; nothing was boned");
    }

    @Test
    void aPartSaysHowMuchOfTheQuartersItIs() {
        for (IntakePart part : IntakePart.values()) {
            assertThat(IntakePart.parse(part.code())).isEqualTo(part);
        }
        assertThat(IntakePart.CARCASS.foreShare() + IntakePart.CARCASS.hindShare())
                .isEqualTo(2);
        assertThat(IntakePart.SIDE.foreShare())
                .isEqualTo(IntakePart.FOREQUARTER.foreShare())
                .isEqualTo(0.5);
        assertThat(IntakePart.SIDE.hindShare())
                .isEqualTo(IntakePart.HINDQUARTER.hindShare())
                .isEqualTo(0.5);
        assertThat(IntakePart.FOREQUARTER.hindShare())
                .isEqualTo(IntakePart.HINDQUARTER.foreShare())
                .isZero();
    }

    @Test
    void wordsOfFilesAreReadBackAndOthersNamed() {
        for (Movement movement : Movement.values()) {
            assertThat(Movement.parse(movement.code())).isEqualTo(movement);
        }
        for (BoxKind kind : BoxKind.values()) {
            assertThat(BoxKind.parse(kind.code())).isEqualTo(kind);
        }
        for (RestKind kind : RestKind.values()) {
            assertThat(RestKind.parse(kind.code())).isEqualTo(kind);
        }
        for (IntakeWeighing weighing : IntakeWeighing.values()) {
            assertThat(IntakeWeighing.parse(weighing.code())).isEqualTo(weighing);
        }
        assertThat(IntakeWeighing.COLD_BY_LAW.words()).isEqualTo("cold by law, 0.98 of the hot weight");
        assertThat(IntakeWeighing.COLD_WEIGHED.words()).isEqualTo("weighed cold");
        assertThat(IntakeWeighing.HOT.words()).isEqualTo("weighed hot");
        assertThatThrownBy(() -> IntakePart.parse("leg"))
                .hasMessage("part \"leg\" is none of carcass side forequarter hindquarter");
        assertThatThrownBy(() -> IntakeWeighing.parse("cold"))
                .hasMessage("weighing \"cold\" is none of cold-by-law cold-weighed hot");
        assertThatThrownBy(() -> Movement.parse("sold"))
                .hasMessage("movement \"sold\" is none of boned taken-from-stock left-in-stock");
        assertThatThrownBy(() -> BoxKind.parse("x")).hasMessage("kind of box \"x\" is none of first rework downgraded");
        assertThatThrownBy(() -> RestKind.parse("x"))
                .hasMessage("kind of rest \"x\" is none of bone fat waste samples floor loss");
    }

    @Test
    void anIntakeIsNamedByItsCarcassAndWhatIsLeftUncutHasNoBatch() {
        Intake left = piece("T-1", IntakePart.FOREQUARTER, 88.4, Movement.BONED).withPiece("left");

        assertThat(left).hasToString("T-1 forequarter left, 88.4 kg, boned, batch B1");
        assertThat(piece("T-1", IntakePart.SIDE, 170, Movement.LEFT_IN_STOCK))
                .hasToString("T-1 side, 170 kg, left in stock");
        Origin origin = new Origin("IE 565", "Ireland", "Ireland");
        assertThat(left.withOrigin(origin).origin()).isEqualTo(origin);
        assertThat(left.withOrigin(origin).piece()).isEqualTo("left");
        Carcass nameless = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);
        assertThatThrownBy(() -> Intake.of(nameless, IntakePart.SIDE, 170, Movement.BONED, "B1"))
                .hasMessage("carcass C R= 3= 340 kg has no id; what comes to a run is named by it");
        assertThatThrownBy(() -> piece("T-1", IntakePart.SIDE, 0, Movement.BONED))
                .hasMessage("carcass T-1: intake weight 0 kg is not above 0 and at most 1200 kg");
        assertThatThrownBy(() -> Intake.of(carcass("T-1"), IntakePart.SIDE, 170, Movement.LEFT_IN_STOCK, "B1"))
                .hasMessage(
                        "carcass T-1: the side was left in stock, but is in batch B1; only what is boned is in one");
    }

    @Test
    void aBoxHoldsMoreThanItsPackingAndSaysWhatItComesFrom() {
        Box box = Box.of("1", "striploin", "B1", 20.5, 0.75);
        Box less = new Box("2", "dice", "B1", 20, 0, "14:05", BoxKind.DOWNGRADED, List.of("striploin"));

        assertThat(box.netKg()).isEqualTo(19.75);
        assertThat(box.cutAs()).isEqualTo("striploin");
        assertThat(less.cutAs()).isEqualTo("striploin");
        assertThatThrownBy(() -> Box.of("1 a", "x", "", 2, 1))
                .hasMessage("box \"1 a\": the id of a box is not empty and holds no blank");
        assertThatThrownBy(() -> Box.of("", "x", "", 2, 1))
                .hasMessage("box \"\": the id of a box is not empty and holds no blank");
        assertThatThrownBy(() -> Box.of("1", " ", "", 2, 1)).hasMessage("box 1 has no product; every box is of one");
        assertThatThrownBy(() -> Box.of("1", "x", "", 2, 2))
                .hasMessage("box 1: gross weight 2 kg is not above the tare of 2 kg");
        assertThatThrownBy(() -> Box.of("1", "x", "", 2, -1))
                .hasMessage("box 1: tare, kg: -1 is not a finite number, 0 or more");
        assertThatThrownBy(() -> Box.of("1", "x", "", Double.NaN, 0))
                .hasMessage("box 1: gross weight, kg: NaN is not a finite number");
        assertThatThrownBy(() -> new Box("1", "x", "", 2, 1, "", BoxKind.FIRST, List.of("7")))
                .hasMessage("box 1 from 7: it was packed from the line, so it comes from nothing else");
        assertThatThrownBy(() -> new Box("1", "x", "", 2, 1, "", BoxKind.DOWNGRADED, List.of()))
                .hasMessage("box 1: it was downgraded, so it comes from one other product, the one that was cut");
        assertThatThrownBy(() -> new Box("1", "x", "", 2, 1, "", BoxKind.DOWNGRADED, List.of("x")))
                .hasMessage(
                        "box 1 from x: it was downgraded, so it comes from one other product, the one that was cut");
        assertThatThrownBy(() -> new Box("1", "x", "", 2, 1, "", BoxKind.REWORK, List.of("7", "7")))
                .hasMessage("box 1 from 7 7: it was packed again, so it comes from other boxes, each named once");
        assertThatThrownBy(() -> new Box("1", "x", "", 2, 1, "", BoxKind.REWORK, List.of("1")))
                .hasMessage("box 1 from 1: it was packed again, so it comes from other boxes, each named once");
        assertThat(new Box("1", "x", "", 2, 1, "", BoxKind.REWORK, List.of()).from())
                .isEmpty();
    }

    @Test
    void twoBoxesOfARunHaveTwoIdsAndARunHasADay() {
        Box box = Box.of("1", "striploin", "B1", 20.5, 0.75);

        assertThatThrownBy(() -> run(List.of(), List.of(box, box), List.of()))
                .hasMessage("Mereside 2026-11-03: two boxes are called 1; each has an id of its own");
        assertThatThrownBy(() -> new BoningRun("", " ", IntakeWeighing.HOT, List.of(), List.of(), List.of()))
                .hasMessage("the day of the run is blank; it is a day such as 2026-11-03");
        assertThat(new BoningRun("", "2026-11-03", IntakeWeighing.HOT, List.of(), List.of(), List.of()).name())
                .isEqualTo("2026-11-03");
    }

    @Test
    void aProductTakesSharesOfCuts() {
        assertThat(Product.of("4711", "Striploin steak", "striploin-steak").cuts())
                .isEqualTo(Map.of("striploin-steak", 1.0));
        assertThatThrownBy(() -> new Product("", "Steak", Map.of("rump", 1.0)))
                .hasMessage("the product \"Steak\" has no code; its boxes go by it");
        assertThatThrownBy(() -> new Product("4711", "Steak", Map.of()))
                .hasMessage("product 4711 has no cut; one or more go into it");
        for (double share : new double[] {0, 1.01, -1, Double.NaN}) {
            assertThatThrownBy(() -> new Product("4711", "Steak", Map.of("rump", share)))
                    .hasMessageStartingWith("product 4711: share ")
                    .hasMessageEndingWith(" of rump is not above 0 and at most 1");
        }
        assertThatThrownBy(() -> Rest.of(RestKind.BONE, -1))
                .hasMessage("bone, kg: -1 is not a finite number, 0 or more");
    }

    @Test
    void aBoxAndARestThatNoLorryHoldsAreSlips() {
        assertThatThrownBy(() -> Box.of("7", "S", "1", 1e12, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("box 7: gross weight, kg: 1000000000000 is above 100000, the most there can be");
        assertThatThrownBy(() -> Rest.of(RestKind.FAT, 100_001))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("fat, kg: 100001 is above 100000, the most there can be");
        assertThat(Rest.of(RestKind.FAT, 100_000).kg()).isEqualTo(Box.MOST_KG);
    }
}
