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
                        "carcass T-19: 6.1 kg of 300.0 kg (2.0 %) are too much; at most 2 % may");
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
}
