package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.beefyield.boning.TraceFinding.Kind;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.junit.jupiter.api.Test;

/** Where boxes came from and where carcasses went, and what doesn't hold together. */
class TraceTest {
    private static final Origin HERE = new Origin("IE 565", "Ireland", "Ireland");

    private static Intake piece(String id, String killed, IntakePart part, Movement movement, String batch) {
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)
                .withId(id);
        return Intake.of(
                        killed.isEmpty() ? carcass : carcass.withKillDate(killed),
                        part,
                        340 * (part.foreShare() + part.hindShare()) / 2,
                        movement,
                        batch)
                .withOrigin(HERE);
    }

    private static Intake boned(String id, String batch) {
        return piece(id, "", IntakePart.CARCASS, Movement.BONED, batch);
    }

    private static Box again(String id, String batch, double kg, String... from) {
        return new Box(id, "mince", batch, kg, 0, "", BoxKind.REWORK, List.of(from));
    }

    private static BoningRun run(String day, List<Intake> intake, Box... boxes) {
        return new BoningRun("Mereside", day, IntakeWeighing.COLD_WEIGHED, intake, List.of(boxes), List.of());
    }

    private static List<String> findings(BoningRun... runs) {
        return Trace.of(List.of(runs)).findings().stream()
                .map(TraceFinding::toString)
                .toList();
    }

    private static List<String> boxes(RecallList list) {
        return list.boxes().stream()
                .map(traced -> traced.box().id() + (traced.sure() ? "" : "?"))
                .toList();
    }

    private static List<String> pieces(RecallList list) {
        return list.pieces().stream()
                .map(traced -> traced.piece().id() + " " + traced.piece().part().code() + (traced.sure() ? "" : "?"))
                .toList();
    }

    /** Fores and hinds of T-1 in two batches, the hind a day later; T-2 whole; a box packed again from both batches. */
    private static Trace twoDays() {
        String killed = "2026-11-02";
        return Trace.of(List.of(
                run(
                        "2026-11-04",
                        List.of(
                                piece("T-1", killed, IntakePart.HINDQUARTER, Movement.TAKEN_FROM_STOCK, "H"),
                                piece("T-1", killed, IntakePart.HINDQUARTER, Movement.TAKEN_FROM_STOCK, "H")),
                        Box.of("3", "striploin", "H", 20, 0.5),
                        again("4", "M", 30, "1", "3")),
                run(
                        "2026-11-03",
                        List.of(
                                piece("T-1", killed, IntakePart.FOREQUARTER, Movement.BONED, "F"),
                                piece("T-1", killed, IntakePart.FOREQUARTER, Movement.BONED, "F"),
                                piece("T-1", killed, IntakePart.HINDQUARTER, Movement.LEFT_IN_STOCK, ""),
                                piece("T-1", killed, IntakePart.HINDQUARTER, Movement.LEFT_IN_STOCK, ""),
                                piece("T-2", killed, IntakePart.CARCASS, Movement.BONED, "W")),
                        Box.of("1", "brisket", "F", 18, 0),
                        Box.of("2", "striploin", "W", 22.25, 0))));
    }

    @Test
    void aCarcassIsFollowedToEveryBoxThroughQuartersOfTwoDaysAndBoxesPackedAgain() {
        Trace trace = twoDays();

        assertThat(trace.findings()).isEmpty();
        assertThat(trace).hasToString("2 runs: 5 pieces of 2 carcasses, 4 batches, 4 boxes, 0 findings");
        RecallList first = trace.ofCarcasses(List.of("T-1"));
        assertThat(pieces(first))
                .containsExactly("T-1 forequarter", "T-1 forequarter", "T-1 hindquarter", "T-1 hindquarter");
        assertThat(first.batches()).containsExactly("batch F of Mereside", "batch H of Mereside");
        assertThat(boxes(first)).containsExactly("1", "3", "4");
        assertThat(boxes(trace.ofCarcasses(List.of("T-2")))).containsExactly("2");
        assertThat(first).hasToString("carcass T-1: 4 pieces of 1 carcass, 2 batches, 3 boxes with 67.5 kg");
    }

    @Test
    void aBoxIsFollowedBackToItsCarcassesAndCalledBackWithAllThatCameFromThem() {
        Trace trace = twoDays();

        RecallList back = trace.ofBoxes(List.of("4"));
        assertThat(pieces(back)).hasSize(4).allMatch(piece -> piece.startsWith("T-1 "));
        assertThat(boxes(back)).containsExactly("1", "3", "4");
        assertThat(pieces(trace.ofBoxes(List.of("1")))).containsExactly("T-1 forequarter", "T-1 forequarter");
        assertThat(trace.ofBoxes(List.of("2")).carcasses()).containsExactly("T-2");

        RecallList recall = trace.recall(List.of("1"));
        assertThat(boxes(recall)).containsExactly("1", "3", "4");
        assertThat(recall).hasToString("recall of box 1: 4 pieces of 1 carcass, 2 batches, 3 boxes with 67.5 kg");
        assertThatThrownBy(() -> trace.ofBoxes(List.of("9"))).hasMessage("no run packed a box 9");
        assertThatThrownBy(() -> trace.ofCarcasses(List.of("T-9")))
                .hasMessage("no run boned anything of a carcass T-9");
    }

    @Test
    void aRecallListIsShownAndIsFrames() {
        RecallList list = twoDays().ofCarcasses(List.of("T-2"));

        assertThat(list.toText()).isEqualTo("""
                        carcass T-2: 1 piece of 1 carcass, 1 batch, 1 box with 22.3 kg

                        run                  carcass  kill date   supplier  lot  part     batch  slaughterhouse  sure
                        ---------------------------------------------------------------------------------------------
                        Mereside 2026-11-03  T-2      2026-11-02                 carcass  W      IE 565          yes

                        run                  box  product    batch  net, kg  time  kind   sure
                        ----------------------------------------------------------------------
                        Mereside 2026-11-03    2  striploin  W       22.250        first  yes
                        """);
        assertThat(list.toFrame().texts("box")).containsExactly("2");
        assertThat(list.toFrame().numbers("net")).containsExactly(22.25);
        assertThat(list.piecesFrame().texts("slaughterhouse")).containsExactly("IE 565");
        assertThat(list.piecesFrame().texts("kill date")).containsExactly("2026-11-02");
    }

    @Test
    void whatHasNoBatchIsNotSureButNeverLeftOut() {
        BoningRun run = run(
                "2026-11-03",
                List.of(boned("T-1", "B1"), boned("T-2", ""), boned("T-3", "B2")),
                Box.of("1", "x", "B1", 10, 0),
                Box.of("2", "x", "", 10, 0),
                Box.of("3", "x", "B9", 10, 0),
                Box.of("4", "x", "B2", 10, 0));
        BoningRun next = run("2026-11-04", List.of(boned("T-4", "B4")), Box.of("5", "x", "B4", 10, 0));
        Trace trace = Trace.of(List.of(run, next));

        assertThat(boxes(trace.ofCarcasses(List.of("T-1")))).containsExactly("1", "2?", "3?");
        assertThat(boxes(trace.ofCarcasses(List.of("T-2")))).containsExactly("1?", "2?", "3?", "4?");
        assertThat(boxes(trace.ofCarcasses(List.of("T-4")))).containsExactly("5");
        assertThat(pieces(trace.ofBoxes(List.of("1")))).containsExactly("T-1 carcass", "T-2 carcass?");
        assertThat(pieces(trace.ofBoxes(List.of("3")))).containsExactly("T-1 carcass?", "T-2 carcass?", "T-3 carcass?");
        assertThat(trace.ofCarcasses(List.of("T-1")).toText())
                .contains(
                        "With \"no\" under sure: 2 pieces and boxes that can't be ruled out, for a batch is missing\n");
        assertThat(trace.findings()).extracting(TraceFinding::kind).containsOnly(Kind.ORPHAN);
        assertThat(trace.findings())
                .extracting(TraceFinding::toString)
                .containsExactly(
                        "Mereside 2026-11-03: 1 boned piece names no batch (T-2), so any box of the run may hold of it",
                        "Mereside 2026-11-03: 1 box names no batch (2), so it may hold of any carcass of the run",
                        "batch B9 of Mereside: nothing was boned in it, yet 1 box names it (3)");
    }

    @Test
    void aBatchThatNobodyPackedAndABoxPackedAgainFromNowhereHangOnNothing() {
        List<Intake> seven = new ArrayList<>();
        for (int i = 1; i <= 7; i++) {
            seven.add(boned("T-" + i, "B1"));
        }

        assertThat(findings(run("2026-11-03", seven, again("1", "B2", 5, "7", "8"))))
                .containsExactly(
                        "batch B1 of Mereside: 7 carcasses were boned in it (T-1, T-2, T-3, T-4, T-5 and 2 more), yet no"
                                + " box names it",
                        "batch B2 of Mereside: nothing was boned in it, yet 1 box names it (1)",
                        "Mereside 2026-11-03: box 1 was packed again from 7, 8, which no run up to its own packed");
    }

    @Test
    void whatIsThereTwiceIsNamed() {
        assertThat(findings(
                        run("2026-11-03", List.of(boned("T-1", "B1")), Box.of("1", "x", "B1", 10, 0)),
                        run(
                                "2026-11-04",
                                List.of(piece("T-1", "", IntakePart.FOREQUARTER, Movement.BONED, "B2")),
                                Box.of("1", "x", "B2", 10, 0))))
                .containsExactly(
                        "box 1 was packed 2 times (Mereside 2026-11-03, Mereside 2026-11-04)",
                        "carcass T-1: 3 forequarters came in (Mereside 2026-11-03, Mereside 2026-11-04); a carcass has"
                                + " two");
        assertThat(findings(
                        run(
                                "2026-11-03",
                                List.of(piece("T-1", "2026-11-03", IntakePart.SIDE, Movement.TAKEN_FROM_STOCK, "B1")),
                                Box.of("1", "x", "B1", 10, 0)),
                        run(
                                "2026-11-04",
                                List.of(
                                        piece("T-1", "2026-11-03", IntakePart.SIDE, Movement.TAKEN_FROM_STOCK, "B2"),
                                        piece("T-1", "2026-11-03", IntakePart.HINDQUARTER, Movement.BONED, "B2")),
                                Box.of("2", "x", "B2", 10, 0))))
                .containsExactly(
                        "carcass T-1 of 2026-11-03: 3 hindquarters were boned (Mereside 2026-11-03, Mereside"
                                + " 2026-11-04); a carcass has two",
                        "carcass T-1 of 2026-11-03: more of it was taken from stock than a run of an earlier day left"
                                + " there (Mereside 2026-11-03, Mereside 2026-11-04)");
        assertThat(findings(run(
                        "2026-11-03",
                        List.of(piece("T-1", "2026-11-02", IntakePart.SIDE, Movement.TAKEN_FROM_STOCK, "B1")),
                        Box.of("1", "x", "B1", 10, 0))))
                .as("what was left before the first run")
                .isEmpty();
        // two animals of one kill number on two days
        assertThat(findings(
                        run(
                                "2026-11-03",
                                List.of(piece("7", "2026-11-02", IntakePart.CARCASS, Movement.BONED, "B1")),
                                Box.of("1", "x", "B1", 10, 0)),
                        run(
                                "2026-11-04",
                                List.of(piece("7", "2026-11-03", IntakePart.CARCASS, Movement.BONED, "B2")),
                                Box.of("2", "x", "B2", 10, 0))))
                .isEmpty();
    }

    @Test
    void aBatchIsOfOneDayOneSlaughterhouseAndOneOrigin() {
        List<Intake> mixed = List.of(
                boned("T-1", "B1"),
                boned("T-2", "B1").withOrigin(new Origin("IE 301", "France", "Ireland")),
                boned("T-3", "B1").withOrigin(Origin.NOT_KNOWN));

        Trace trace = Trace.of(List.of(
                run("2026-11-03", mixed, Box.of("1", "x", "B1", 10, 0)),
                run("2026-11-04", List.of(boned("T-4", "B1")), Box.of("2", "x", "B1", 10, 0))));

        assertThat(trace.findings()).extracting(TraceFinding::kind).containsOnly(Kind.MIXED);
        assertThat(trace.findings())
                .extracting(TraceFinding::toString)
                .containsExactly(
                        "batch B1 of Mereside: it is of 2 days (2026-11-03, 2026-11-04); (EC) 1825/2000, Art. 4, allows"
                                + " one",
                        "batch B1 of Mereside: it is of 2 slaughterhouses (IE 565, IE 301); (EC) 1825/2000, Art. 4,"
                                + " allows one",
                        "batch B1 of Mereside: the slaughterhouse of 1 carcass is not known (T-3), but that of others"
                                + " is",
                        "batch B1 of Mereside: it is of 2 countries of birth (Ireland, France); (EC) 1825/2000, Art. 4,"
                                + " allows one",
                        "batch B1 of Mereside: the country of birth of 1 carcass is not known (T-3), but that of others"
                                + " is",
                        "batch B1 of Mereside: the country of rearing of 1 carcass is not known (T-3), but that of"
                                + " others is");
        assertThat(trace.findings().get(0).ids()).containsExactly("T-1", "T-2", "T-3", "T-4");
    }

    @Test
    void boxesPackedAgainCarryTheirOriginIntoTheBatchTheyArePackedAs() {
        assertThat(findings(run(
                        "2026-11-03",
                        List.of(
                                boned("T-1", "B1"),
                                boned("T-2", "B2").withOrigin(new Origin("IE 301", "Ireland", "Ireland"))),
                        Box.of("1", "x", "B1", 10, 0),
                        Box.of("2", "x", "B2", 10, 0),
                        again("3", "M", 20.5, "1", "2"))))
                .containsExactly(
                        "batch M of Mereside: it is of 2 slaughterhouses (IE 565, IE 301); (EC) 1825/2000, Art. 4,"
                                + " allows one",
                        "Mereside 2026-11-03: box 3 holds 20.5 kg, but was packed again from 20.0 kg");
    }

    @Test
    void theMassOfABatchIsWhatWasBonedAndWhatWasBoxed() {
        Trace trace = Trace.of(List.of(run(
                "2026-11-03",
                List.of(boned("T-1", "B1"), piece("T-2", "", IntakePart.SIDE, Movement.BONED, "B1")),
                Box.of("1", "striploin", "B1", 300, 0.5),
                Box.of("2", "mince", "B1", 210.25, 0),
                new Box("3", "mince", "B1", 10, 0, "", BoxKind.DOWNGRADED, List.of("striploin")),
                again("4", "B1", 10, "3"))));

        assertThat(trace.batches())
                .containsExactly(new BatchMass(
                        "Mereside",
                        "B1",
                        List.of("2026-11-03"),
                        2,
                        2,
                        510_000,
                        3,
                        Map.of("mince", 210_250L, "striploin", 309_500L)));
        assertThat(trace.findings())
                .containsExactly(new TraceFinding(
                        Kind.EXCESS,
                        List.of("T-1", "T-2"),
                        "batch B1 of Mereside: 519.8 kg were boxed, but 510.0 kg were boned in it"));
        assertThat(trace.toFrame().numbers("boxed")).containsExactly(519.75);
        assertThat(trace.toText()).isEqualTo("""
                        1 run: 2 pieces of 2 carcasses, 1 batch, 4 boxes, 1 finding
                        batch B1 of Mereside: 519.8 kg were boxed, but 510.0 kg were boned in it

                        hall      batch  days        carcasses  pieces  boned, kg  boxes  boxed, kg
                        ---------------------------------------------------------------------------
                        Mereside  B1     2026-11-03          2       2      510.0      3      519.8
                        """);
    }

    /** Figures made for this: eight carcasses that give 52.4 kg of fillet, and 61.8 kg in boxes. */
    @Test
    void moreFilletThanEightCarcassesHaveIsNamedWithItsKilogramsAndSds() {
        List<Intake> eight = Stream.of(1, 2, 3, 4, 5, 6, 7, 8)
                .map(number -> boned("T-" + number, "B7"))
                .toList();
        Box[] boxes = {
            Box.of("1", "fillet", "B7", 31.3, 0.5),
            Box.of("2", "fillet", "B7", 31.5, 0.5),
            Box.of("3", "striploin", "B7", 100, 0)
        };
        Trace trace = Trace.of(List.of(run("2026-11-03", eight, boxes)));
        double all = Math.sqrt(1.36 * 1.36 + 1.22 * 1.22 + 1.40 * 1.40);

        BatchExpectation within = new BatchExpectation("Mereside", "B7", "fillet", 52.4, 1.36);
        BatchExpectation besides = new BatchExpectation("Mereside", "B7", "fillet", 52.4, all);
        BatchExpectation usual = new BatchExpectation("Mereside", "B7", "striploin", 98, 2);
        assertThat(trace.excess(List.of(usual, besides, within), 3))
                .extracting(BatchExcess::toString)
                .containsExactly(
                        "batch B7 of Mereside: 61.8 kg of fillet boxed, 52.4 kg expected of its 8 carcasses: 9.4 kg or"
                                + " 6.9 SDs (1.36 kg each) too much",
                        "batch B7 of Mereside: 61.8 kg of fillet boxed, 52.4 kg expected of its 8 carcasses: 9.4 kg or"
                                + " 4.1 SDs (2.30 kg each) too much");
        assertThat(trace.excess(List.of(besides), 4.2)).isEmpty();
        assertThatThrownBy(() -> trace.excess(List.of(besides), 0)).hasMessage("0.0 SDs are not above 0; 3 are usual");
        assertThatThrownBy(() -> trace.excess(List.of(new BatchExpectation("", "B7", "fillet", 1, 1)), 3))
                .hasMessage("no run names batch B7, of which something is expected");
        assertThatThrownBy(() -> new BatchExpectation("", "B7", "fillet", 1, 0))
                .hasMessage("SD of what is expected, kg: 0 is not a finite number above 0");
    }

    @Test
    void aHallHasOneRunADay() {
        BoningRun run = run("2026-11-03", List.of());

        assertThatThrownBy(() -> Trace.of(Arrays.asList(run, run)))
                .hasMessage("two runs are Mereside 2026-11-03; a hall has one a day");
    }
}
