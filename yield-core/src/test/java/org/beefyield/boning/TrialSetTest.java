package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class TrialSetTest {
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());
    private static final YieldTable LEVELS = YieldTable.of(TestTables.threeLevels());

    private static Carcass carcass(String id, double coldKg) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3+"), coldKg)
                .withId(id);
    }

    private static Trial trial(String id, double coldKg, double meat, double fatTrim, double bone) {
        return Trial.of(carcass(id, coldKg), Map.of("meat", meat, "fat-trim", fatTrim, "bone", bone));
    }

    private static List<Double> shares(TrialSet trials, String parent) {
        return trials.breakdowns().stream()
                .filter(breakdown -> breakdown.parent().equals(parent))
                .flatMap(breakdown -> breakdown.rows().stream())
                .findFirst()
                .orElseThrow()
                .shares();
    }

    /** The limit of 2 %: Heggli and others 2023, Animal, who apply it to quarters. */
    @Test
    void aTrialMoreThanTwoPerCentOffIsRefusedInWords() {
        TrialSet trials = TrialSet.of(
                SMALL,
                List.of(
                        trial("T-16", 342, 240, 38, 62),
                        trial("T-17", 342, 234.1, 38, 62),
                        trial("T-18", 300, 220, 30, 56),
                        trial("T-19", 300, 220, 30, 56.1)));

        assertThat(trials.accepted()).extracting(Trial::id).containsExactly("T-16", "T-18");
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass T-17: 7.9 kg of 342.0 kg (2.3 %) are missing; at most 2 % may",
                        "carcass T-19: 6.1 kg of 300.0 kg (2.03 %) are too much; at most 2 % may");
        assertThat(trials.balances())
                .extracting(Balance::toString)
                .startsWith(
                        "carcass T-16: 2.0 kg of 342.0 kg (0.6 %) are missing",
                        "carcass T-17: 7.9 kg of 342.0 kg (2.3 %) are missing; at most 2 % may");
    }

    @Test
    void whatIsMissingGoesToTheLossAndIsShown() {
        TrialSet trials = TrialSet.of(SMALL, List.of(trial("T-16", 400, 280, 44, 74)));

        assertThat(shares(trials, "carcass")).containsExactly(700.0, 110.0, 185.0, 5.0);
        assertThat(trials.closings())
                .extracting(Closing::toString)
                .containsExactly("carcass T-16, carcass: 2.0 kg missing, added to loss");
        assertThat(trials.closingSummary())
                .containsExactly("carcass: 1 carcass, 0.50 % missing on average; closed by the loss in 1,"
                        + " in proportion in 0");
    }

    @Test
    void aWeighedLossTakesUpWhatIsMissingOrTooMuchAsLongAsThereIsEnough() {
        Trial missing = Trial.of(carcass("A", 400), Map.of("meat", 280.0, "fat-trim", 44.0, "bone", 72.0, "loss", 2.0));
        Trial tooMuch = Trial.of(carcass("A", 400), Map.of("meat", 280.0, "fat-trim", 44.0, "bone", 75.0, "loss", 2.0));

        assertThat(shares(TrialSet.of(SMALL, List.of(missing)), "carcass")).containsExactly(700.0, 110.0, 180.0, 10.0);
        assertThat(shares(TrialSet.of(SMALL, List.of(tooMuch)), "carcass")).containsExactly(700.0, 110.0, 187.5, 2.5);
        assertThat(TrialSet.of(SMALL, List.of(tooMuch)).closings())
                .extracting(Closing::toString)
                .containsExactly("carcass A, carcass: 1.0 kg too much, taken off loss");
    }

    @Test
    void aResidueThatWouldMakeTheLossNegativeIsSpreadOverAllCuts() {
        TrialSet trials = TrialSet.of(SMALL, List.of(trial("T-16", 400, 282, 44, 78)));

        List<Double> shares = shares(trials, "carcass");
        assertThat(shares.get(0)).isCloseTo(1000 * 282 / 404.0, within(1e-10));
        assertThat(shares.get(3)).isZero();
        assertThat(shares.stream().mapToDouble(Double::doubleValue).sum()).isCloseTo(1000, within(1e-10));
        assertThat(trials.closings())
                .extracting(Closing::toString)
                .containsExactly("carcass T-16, carcass: 4.0 kg too much, all cuts scaled in proportion");
    }

    @Test
    void quartersAreCheckedOneByOneAndAgainstTheCarcass() {
        Trial balanced = Trial.of(carcass("A", 300), Map.of())
                .withQuarter(new Quarter("forequarter", 160, Map.of("fore", 112.0, "fat-trim", 16.0, "bone", 31.0)))
                .withQuarter(new Quarter("hindquarter", 139, Map.of("hind", 100.0, "fat-trim", 14.0, "bone", 24.0)));
        Trial off = Trial.of(carcass("B", 300), Map.of())
                .withQuarter(new Quarter("forequarter", 160, Map.of("fore", 108.0, "fat-trim", 16.0, "bone", 31.0)))
                .withQuarter(new Quarter("hindquarter", 140, Map.of("hind", 104.0, "fat-trim", 14.0, "bone", 24.0)));
        Trial light = Trial.of(carcass("C", 310), Map.of())
                .withQuarter(new Quarter("forequarter", 160, Map.of("fore", 112.0, "fat-trim", 16.0, "bone", 31.0)))
                .withQuarter(new Quarter("hindquarter", 140, Map.of("hind", 101.0, "fat-trim", 14.0, "bone", 24.0)));

        TrialSet trials = TrialSet.of(SMALL, List.of(balanced, off, light));

        assertThat(trials.accepted()).containsExactly(balanced);
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass B, forequarter: 5.0 kg of 160.0 kg (3.1 %) are missing; at most 2 % may",
                        "carcass C, quarters: 10.0 kg of 310.0 kg (3.2 %) are missing; at most 2 % may");
        assertThat(shares(trials, "carcass").get(1)).isCloseTo(100, within(1e-10));
        // the meat was not weighed: it is what came of it
        assertThat(shares(trials, "meat").get(0)).isCloseTo(1000 * 112 / 212.0, within(1e-10));
    }

    @Test
    void whatWasWeighedTwiceCountsOnceInAQuarter() {
        Quarter whole = new Quarter(
                "both", 300, Map.of("meat", 210.0, "fore", 110.0, "hind", 100.0, "fat-trim", 30.0, "bone", 58.0));

        TrialSet trials =
                TrialSet.of(SMALL, List.of(Trial.of(carcass("A", 300), Map.of()).withQuarter(whole)));

        assertThat(trials.balances().get(0).outKg()).isCloseTo(298, within(1e-10));
    }

    @Test
    void aPartOfAPartCountsInItsWholeAlone() {
        Quarter whole = new Quarter(
                "both", 300, Map.of("meat", 210.0, "striploin-steak", 12.0, "fat-trim", 30.0, "bone", 57.0));

        TrialSet trials = TrialSet.of(
                LEVELS, List.of(Trial.of(carcass("A", 300), Map.of()).withQuarter(whole)));

        assertThat(trials.balances().get(0).outKg()).isCloseTo(297, within(1e-10));
    }

    @Test
    void aCutThatDoesNotBalanceLosesItsBreakdownAndTheTrialStays() {
        Trial trial = Trial.of(
                carcass("A", 300), Map.of("meat", 210.0, "fore", 110.0, "hind", 94.0, "fat-trim", 30.0, "bone", 58.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(trial));

        assertThat(trials.accepted()).hasSize(1);
        assertThat(shares(trials, "carcass").get(0)).isCloseTo(700, within(1e-10));
        assertThat(trials.breakdowns())
                .filteredOn(one -> one.parent().equals("meat"))
                .allMatch(one -> one.rows().isEmpty());
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly("carcass A, meat: 6.0 kg of 210.0 kg (2.9 %) are missing; at most 2 % may;"
                        + " its breakdown of meat is left out");
    }

    @Test
    void aBreakdownWithoutLossIsClosedInProportion() {
        Trial trial = Trial.of(
                carcass("A", 300), Map.of("meat", 210.0, "fore", 110.0, "hind", 99.0, "fat-trim", 30.0, "bone", 58.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(trial));

        assertThat(shares(trials, "meat").get(0)).isCloseTo(1000 * 110 / 209.0, within(1e-10));
        assertThat(trials.closings())
                .extracting(Closing::toString)
                .contains("carcass A, meat: 1.0 kg missing, all cuts scaled in proportion");
    }

    @Test
    void aCutThatComesFromSeveralParentsIsNamedWithItsParent() {
        Trial trial = Trial.of(
                carcass("A", 300),
                Map.of(
                        "striploin",
                        15.0,
                        "rump",
                        17.0,
                        "brisket",
                        15.0,
                        "chuck",
                        163.0,
                        "fat-trim",
                        30.0,
                        "bone",
                        57.0,
                        "striploin-steak",
                        12.0,
                        "striploin/dice",
                        0.6,
                        "striploin/lean-trim",
                        0.9,
                        "striploin/fat-trim",
                        1.4));

        TrialSet trials = TrialSet.of(LEVELS, List.of(trial));

        assertThat(shares(trials, "carcass").subList(0, 3)).containsExactly(700.0, 100.0, 190.0);
        assertThat(shares(trials, "meat").get(0)).isCloseTo(15000 / 210.0, within(1e-10));
        List<Double> striploin = shares(trials, "striploin");
        assertThat(striploin.get(0)).isCloseTo(800, within(1e-10));
        assertThat(striploin.get(3)).isCloseTo(1000 * 1.4 / 15, within(1e-10));
        assertThat(striploin.get(4)).isCloseTo(1000 * 0.1 / 15, within(1e-10));
    }

    @Test
    void cutsOfAGroupAreOneWeight() {
        Trial trial = Trial.of(
                carcass("A", 300),
                Map.of("striploin", 15.0, "hind-cuts", 32.0, "chuck", 163.0, "fat-trim", 30.0, "bone", 57.0));

        TrialSet trials = TrialSet.of(
                LEVELS,
                LEVELS.specification("steaks"),
                Map.of("hind-cuts", List.of("rump", "brisket")),
                List.of(trial));

        assertThat(shares(trials, "meat")).hasSize(3);
        assertThat(shares(trials, "meat").get(1)).isCloseTo(32000 / 210.0, within(1e-10));
    }

    @Test
    void incompleteTrialsAreKeptForWhatTheyWeighed() {
        Trial trial = Trial.of(carcass("A", 300), Map.of("fore", 110.0, "hind", 100.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(trial));

        assertThat(trials.accepted()).hasSize(1);
        assertThat(trials.balances().get(0)).hasToString("carcass A: 90.0 kg of 300.0 kg (30.0 %) are not weighed");
        assertThat(shares(trials, "meat").get(0)).isCloseTo(110000 / 210.0, within(1e-10));
    }

    @Test
    void wrongNamesWeightsAndIdsAreSaid() {
        Carcass a = carcass("A", 300);
        assertThatThrownBy(() -> TrialSet.of(SMALL, List.of(Trial.of(a, Map.of("bones", 50.0)))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("carcass A: no cut \"bones\"; nearest: bone, fore, loss");
        assertThatThrownBy(() -> Trial.of(a, Map.of("bone", -1.0)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("carcass A: bone weighs -1.0 kg; a weight is 0 or more");
        assertThatThrownBy(() -> new Quarter("forequarter", 0, Map.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("forequarter: cold weight 0.0 kg is not above 0");
        assertThatThrownBy(() -> Trial.of(
                        Carcass.of(Category.STEER, Conformation.parse("R"), FatClass.parse("3"), 300), Map.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("carcass C R 3 300 kg has no id; a trial is named by it");
        Carcass bull = Carcass.of(Category.BULL, Conformation.parse("R"), FatClass.parse("3"), 300)
                .withId("B");
        TrialSet trials = TrialSet.of(
                SMALL,
                new ArrayList<>(List.of(
                        trial("A", 300, 210, 30, 58),
                        trial("A", 300, 210, 30, 57),
                        Trial.of(bull, Map.of("bone", 50.0)))));
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass A: a trial of this id stands above",
                        "carcass B: category B is not served by table small, which serves C E D");
    }

    @Test
    void wrongGroupsAreSaid() {
        CuttingSpecification steaks = LEVELS.specification("steaks");
        assertThatThrownBy(() -> TrialSet.of(LEVELS, steaks, Map.of("rump", List.of("brisket")), List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("group \"rump\" has the name of a cut; give it one of its own");
        assertThatThrownBy(() -> TrialSet.of(LEVELS, steaks, Map.of("both", List.of("brisket", "brisket")), List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("group \"both\": brisket is in another group too");
    }

    @Test
    void whatIsExpectedToBeMissingIsSaidAndTheLimitLiesAroundIt() {
        BalanceRule rule = BalanceRule.DEFAULT.withExpectedPct(1.4);
        Trial partOnly = Trial.of(carcass("E", 300), Map.of("meat", 260.0, "bone", 43.0));

        TrialSet trials = TrialSet.of(
                        SMALL,
                        List.of(
                                trial("A", 300, 206, 30, 56.2),
                                trial("B", 300, 206, 30, 53.7),
                                trial("C", 300, 206, 34, 58.2),
                                trial("D", 300, 206, 34, 62),
                                partOnly))
                .with(rule);

        assertThat(trials.rule()).isEqualTo(rule);
        assertThat(trials.accepted()).extracting(Trial::id).containsExactly("A", "C");
        assertThat(trials.balances())
                .extracting(Balance::toString)
                .containsExactly(
                        "carcass A: 7.8 kg of 300.0 kg (2.6 %) are missing; 1.4 % are expected",
                        "carcass B: 10.3 kg of 300.0 kg (3.43 %) are missing; 1.4 % are expected, at most 2 % more or"
                                + " less may",
                        "carcass C: 1.8 kg of 300.0 kg (0.6 %) are missing; 1.4 % are expected",
                        "carcass D: 2.0 kg of 300.0 kg (0.7 %) are too much; 1.4 % are expected to be missing, at most"
                                + " 2 % more or less may",
                        "carcass E: 3.0 kg of 300.0 kg (1.0 %) are too much; 1.4 % are expected to be missing, at most"
                                + " 2 % more or less may");
        assertThat(trials.balances().get(0).expectedPct()).isEqualTo(1.4);
        assertThat(trials.balances().get(0).limitPct()).isEqualTo(2);
        // shares stay those of the weight at intake: what is missing is loss
        assertThat(shares(trials, "carcass").get(0)).isCloseTo(206000 / 300.0, within(1e-10));
        assertThat(shares(trials, "carcass").get(3)).isCloseTo(26, within(1e-10));
    }

    @Test
    void theLimitItselfIsWithinWhateverIsExpected() {
        for (double expected : List.of(0.0, 0.1, 0.7, 1.4, 2.3, 3.1)) {
            TrialSet trials = TrialSet.of(
                            SMALL, List.of(trial("A", 1000 / 3.0, 0, 0, 1000 / 3.0 * (1 - (expected + 2) / 100))))
                    .with(BalanceRule.DEFAULT.withExpectedPct(expected));

            assertThat(trials.accepted()).as("expected %s", expected).hasSize(1);
        }
    }

    @Test
    void anotherLimitHoldsForCarcassesAndCuts() {
        Trial trial = Trial.of(
                carcass("A", 300), Map.of("meat", 210.0, "fore", 110.0, "hind", 94.0, "fat-trim", 30.0, "bone", 51.0));

        assertThat(TrialSet.of(SMALL, List.of(trial))
                        .with(BalanceRule.DEFAULT.withLimitPct(2.9))
                        .refused())
                .extracting(RefusedTrial::toString)
                .containsExactly("carcass A: 9.0 kg of 300.0 kg (3.0 %) are missing; at most 2.9 % may");
        assertThat(TrialSet.of(SMALL, List.of(trial))
                        .with(BalanceRule.DEFAULT.withLimitPct(3))
                        .refused())
                .isEmpty();
    }

    private static Trial inQuarters(String id, double coldKg, double foreKg, double hindKg, double boneOfHind) {
        return Trial.of(carcass(id, coldKg), Map.of())
                .withQuarter(new Quarter("forequarter", foreKg, Map.of("fore", 112.0, "fat-trim", 16.0, "bone", 31.0)))
                .withQuarter(new Quarter(
                        "hindquarter", hindKg, Map.of("hind", 100.0, "fat-trim", 14.0, "bone", boneOfHind)));
    }

    @Test
    void whatIsExpectedIsMissingOfQuartersOrOfWhatCameOfThemAsTheyWereWeighed() {
        Trial hungBefore = inQuarters("A", 309, 160, 139, 24);
        Trial hungAfter = inQuarters("B", 309, 165, 143, 24);
        BalanceRule rule = BalanceRule.DEFAULT.withExpectedPct(3);

        TrialSet atBoning = TrialSet.of(SMALL, List.of(hungBefore, hungAfter)).with(rule);
        TrialSet atIntake = atBoning.with(rule.withQuarters(BalanceRule.Quarters.AT_INTAKE));

        assertThat(atBoning.accepted()).containsExactly(hungBefore);
        assertThat(atBoning.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass B, forequarter: 6.0 kg of 165.0 kg (3.6 %) are missing; at most 2 % may",
                        "carcass B, hindquarter: 5.0 kg of 143.0 kg (3.5 %) are missing; at most 2 % may",
                        "carcass B, quarters: 1.0 kg of 309.0 kg (0.3 %) are missing; 3 % are expected, at most 2 % more"
                                + " or less may");
        assertThat(atIntake.accepted()).containsExactly(hungAfter);
        assertThat(atIntake.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass A, forequarter: 1.0 kg of 160.0 kg (0.6 %) are missing; 3 % are expected, at most 2 % more"
                                + " or less may",
                        "carcass A, hindquarter: 1.0 kg of 139.0 kg (0.7 %) are missing; 3 % are expected, at most 2 % more"
                                + " or less may",
                        "carcass A, quarters: 10.0 kg of 309.0 kg (3.2 %) are missing; at most 2 % may");
        // the breakdown of the carcass as a whole lost the 3 % in either case
        assertThat(shares(atBoning, "carcass").get(3)).isCloseTo(1000 * 12 / 309.0, within(1e-10));
    }

    @Test
    void aCarcassThatTheTableDoesNotServeIsRefusedWithTheRange() {
        Carcass wide = Carcass.of(Category.STEER, Conformation.parse("S+"), FatClass.parse("5+"), 149.96)
                .withId("T-10");
        YieldTable narrow = YieldTable.of(TestTables.small().toBuilder()
                .ranges(TestTables.range(2, 14, 3, 13, 230, 500), TestTables.range(2, 14, 3, 13, 150, 600))
                .build());

        TrialSet trials = TrialSet.of(
                narrow,
                List.of(
                        trial("T-9", 1000, 700, 110, 184),
                        Trial.of(wide, Map.of("bone", 20.0)),
                        trial("T-11", 600, 420, 66, 110.4),
                        trial("T-12", 600.1, 420, 66, 110.4)));

        assertThat(trials.accepted()).extracting(Trial::id).containsExactly("T-11");
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass T-9: cold weight 1000 kg is outside the 150 to 600 kg that table small serves",
                        "carcass T-10: conformation S+ is outside the P= to E= that table small serves",
                        "carcass T-10: fat class 5+ is outside the 1+ to 5- that table small serves",
                        "carcass T-10: cold weight 149.96 kg is outside the 150 to 600 kg that table small serves",
                        "carcass T-12: cold weight 600.1 kg is outside the 150 to 600 kg that table small serves");
        assertThat(trials.balances()).hasSize(1);
    }

    private static WeighedBreakdown breakdown(TrialSet trials, String parent) {
        return trials.breakdowns().stream()
                .filter(breakdown -> breakdown.parent().equals(parent))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aPartlyWeighedCarcassKeepsWhatItTells() {
        Trial noBone = Trial.of(carcass("A", 300), Map.of("meat", 210.0, "fat-trim", 30.0, "fore", 110.0));
        Trial nothing = Trial.of(carcass("B", 300), Map.of());
        Trial lossOnly = Trial.of(carcass("C", 300), Map.of("loss", 3.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(noBone, nothing, lossOnly, trial("D", 300, 210, 30, 56)));

        assertThat(trials.accepted()).hasSize(4);
        assertThat(trials.refused()).isEmpty();
        assertThat(breakdown(trials, "carcass").rows())
                .extracting(row -> row.trial().id())
                .containsExactly("D");
        assertThat(breakdown(trials, "carcass").partlyWeighed())
                .containsExactly(
                        new WeighedBreakdown.PartRow(noBone, Map.of(0, 700.0, 1, 100.0)),
                        new WeighedBreakdown.PartRow(lossOnly, Map.of(3, 10.0)));
        // the hind primal is all that is blank, and yet it isn't taken for what is missing
        assertThat(breakdown(trials, "meat").rows()).isEmpty();
        assertThat(breakdown(trials, "meat").partlyWeighed())
                .containsExactly(new WeighedBreakdown.PartRow(noBone, Map.of(0, 1000 * 110.0 / 210.0)));
        assertThat(trials.closings()).extracting(Closing::carcass).containsExactly("D");
    }

    @Test
    void whatCameOfACutThatWasNotWeighedTellsNothingOfItIfSomeIsBlank() {
        Trial noHind = Trial.of(carcass("A", 300), Map.of("fore", 110.0, "fat-trim", 30.0, "bone", 56.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(noHind));

        assertThat(breakdown(trials, "meat").partlyWeighed()).isEmpty();
        assertThat(breakdown(trials, "carcass").partlyWeighed().get(0).shares())
                .containsExactly(Map.entry(1, 100.0), Map.entry(2, 1000 * 56.0 / 300));
    }

    @Test
    void partsThatWeighMoreThanTheirWholeAreRefusedInWords() {
        Trial carcass = Trial.of(carcass("A", 300), Map.of("meat", 250.0, "bone", 57.0));
        Trial cut = Trial.of(carcass("B", 300), Map.of("meat", 210.0, "fore", 215.0, "fat-trim", 30.0, "bone", 57.0));

        TrialSet trials = TrialSet.of(SMALL, List.of(carcass, cut));

        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass A: 7.0 kg of 300.0 kg (2.3 %) are too much; at most 2 % may",
                        "carcass B, meat: 5.0 kg of 210.0 kg (2.4 %) are too much; at most 2 % may; its breakdown of meat"
                                + " is left out");
        assertThat(breakdown(trials, "meat").partlyWeighed()).isEmpty();
    }

    @Test
    void aPartThatIsBlankInEveryQuarterIsNotMissingOfThem() {
        Trial noBone = Trial.of(carcass("A", 300), Map.of())
                .withQuarter(new Quarter("forequarter", 160, Map.of("fore", 112.0, "fat-trim", 16.0)))
                .withQuarter(new Quarter("hindquarter", 139, Map.of("hind", 100.0, "fat-trim", 14.0)));
        Trial noBoneOfHind = Trial.of(carcass("B", 300), Map.of())
                .withQuarter(new Quarter("forequarter", 160, Map.of("fore", 112.0, "fat-trim", 16.0, "bone", 31.0)))
                .withQuarter(new Quarter("hindquarter", 139, Map.of("hind", 100.0, "fat-trim", 14.0)));

        TrialSet trials = TrialSet.of(SMALL, List.of(noBone, noBoneOfHind));

        assertThat(trials.accepted()).containsExactly(noBone);
        assertThat(trials.balances().get(0))
                .hasToString("carcass A, forequarter: 32.0 kg of 160.0 kg (20.0 %) are not weighed");
        assertThat(breakdown(trials, "carcass").partlyWeighed()).hasSize(1);
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly("carcass B, hindquarter: 25.0 kg of 139.0 kg (18.0 %) are missing; at most 2 % may");
    }

    @Test
    void blanksAreCountedWhereTheRestWasWeighed() {
        List<Trial> all = new ArrayList<>();
        for (int i = 1; i <= 10; i++) {
            all.add(
                    i % 3 == 0
                            ? Trial.of(carcass("T-" + i, 300), Map.of("fore", 110.0, "hind", 100.0, "fat-trim", 30.0))
                            : trial("T-" + i, 300, 210, 30, 56));
        }
        all.add(Trial.of(carcass("T-11", 300), Map.of("fore", 110.0, "fat-trim", 30.0, "bone", 56.0)));
        all.add(Trial.of(carcass("T-12", 300), Map.of("fat-trim", 90.0, "bone", 220.0)));

        TrialSet trials = TrialSet.of(SMALL, all);

        // the last is refused, and the meat of the last but one is not blank but its hind primal
        assertThat(trials.blanks())
                .containsExactly(new Blank("carcass", "bone", 3, 11), new Blank("meat", "hind", 1, 4));
        assertThat(trials.blanks())
                .extracting(Blank::toString)
                .containsExactly("bone is blank in 3 of 11 trials", "hind of meat is blank in 1 of 4 trials");
        assertThat(TrialSet.of(SMALL, all.subList(0, 2)).blanks()).isEmpty();
    }

    @Test
    void cutsThatNobodyMeantToWeighAreNotBlank() {
        Trial striploin = Trial.of(
                carcass("A", 300),
                Map.of("striploin", 15.0, "striploin-steak", 12.0, "striploin/dice", 0.6, "striploin/fat-trim", 1.4));

        assertThat(TrialSet.of(LEVELS, List.of(striploin)).blanks())
                .extracting(Blank::toString)
                .containsExactly("lean-trim of striploin is blank in 1 of 1 trial");
    }
}
