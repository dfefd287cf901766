package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.beefyield.Serial;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.CutKind;
import org.beefyield.price.Attribution;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Quarters, sides and mixtures: words, refusals, values. The table and its quarterings are invented. */
class PartEstimateTest {
    private static final String TEN_RIB = "10-rib forequarter";
    private static final CarcassPart FORE = CarcassPart.forequarters(TEN_RIB);
    private static final CarcassPart HIND = CarcassPart.hindquarters(TEN_RIB);

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(withPistola(TestTables.share(
                    TestTables.threeLevels(),
                    row -> SharedSds.of(0, row.parent().equals("carcass") ? row.sdGPerKg() : 0, 0)))))
            .withSpecification("steaks");

    private static TableDefinition withPistola(TableDefinition.Builder builder) {
        for (String cut : List.of("striploin", "rump", "brisket", "chuck", "fat-trim", "bone", "loss")) {
            builder.quartering(new QuarteringRow("pistola", cut, cut.equals("rump") ? 0 : 0.6, TestTables.SOURCE));
        }
        return builder.build();
    }

    private static Carcass steer(double kg) {
        return TestPrices.steer("R=", "3=", kg).withHall("Tarrowmere").withKillDate("2026-03-02");
    }

    private static YieldEstimate estimate() {
        return ESTIMATOR.estimate(steer(340));
    }

    private static LotEstimate lot(double... kg) {
        return ESTIMATOR.estimateLot(
                Arrays.stream(kg).mapToObj(PartEstimateTest::steer).toList());
    }

    @Test
    void aCutLiesInTheForequarterByItsFractionAndWhatComesOfItToo() {
        YieldEstimate carcass = estimate();
        PartEstimate fore = carcass.part(FORE);
        assertThat(fore.kg("brisket")).isCloseTo(0.8 * carcass.kg("brisket"), within(1e-12));
        assertThat(fore.kg("brisket-joint")).isCloseTo(0.8 * carcass.kg("brisket-joint"), within(1e-12));
        assertThat(fore.kg("striploin-steak")).isZero();
        double meat = 0.8 * carcass.kg("primal", "brisket") + 0.9 * carcass.kg("primal", "chuck");
        assertThat(fore.kg("meat")).isCloseTo(meat, within(1e-10));
        assertThat(fore.coldWeightKg())
                .isCloseTo(
                        meat
                                + 0.5 * carcass.kg("tissue", "fat-trim")
                                + 0.55 * carcass.kg("bone")
                                + 0.5 * carcass.kg("tissue", "loss"),
                        within(1e-10));
        assertThat(fore.share("brisket")).isEqualTo(fore.kg("brisket") / fore.coldWeightKg());
        // dice come of the chuck and of the rump
        assertThat(fore.kg("dice")).isCloseTo(0.9 * 0.5 * carcass.kg("primal", "chuck"), within(0.1));
        assertThat(fore.kg("dice")).isLessThan(0.95 * carcass.kg("dice"));
    }

    @Test
    void sdsOfACutThatIsDividedAreThoseOfItsPart() {
        YieldEstimate carcass = estimate();
        PartEstimate fore = carcass.part(FORE);
        Figure joint = Figure.cut("brisket-joint");
        assertThat(fore.sd(joint)).isCloseTo(0.8 * carcass.sd(joint), within(1e-12));
        assertThat(fore.sdByPart(joint).keySet())
                .isEqualTo(carcass.sdByPart(joint).keySet());
        Interval whole = carcass.interval(joint, 0.9);
        Interval interval = fore.interval(joint, 0.9);
        assertThat(interval.low()).isCloseTo(0.8 * whole.low(), within(1e-9));
        assertThat(interval.high()).isCloseTo(0.8 * whole.high(), within(1e-9));
        // what a quarter weighs isn't certain, what a carcass weighs is
        Figure all = Figure.saleable()
                .plus(Figure.kind(CutKind.FAT_TRIM))
                .plus(Figure.kind(CutKind.BONE))
                .plus(Figure.kind(CutKind.LOSS));
        assertThat(carcass.sd(all)).isCloseTo(0, within(1e-6));
        assertThat(fore.kg(all)).isCloseTo(fore.coldWeightKg(), within(1e-10));
        assertThat(fore.sd(all)).isBetween(1.0, 10.0);
    }

    @Test
    void onePartOfOneCarcassHasTheDegreesOfFreedomOfACarcass() {
        YieldEstimator few = YieldEstimator.of(YieldTable.of(TestTables.threeLevels().toBuilder()
                        .residualDegreesOfFreedom(5)
                        .build()))
                .withSpecification("steaks");
        YieldEstimate carcass = few.estimate(steer(340));
        Interval interval = carcass.interval("bone", 0.9);
        assertThat(carcass.part(CarcassPart.carcass()).interval("bone", 0.9).high())
                .isCloseTo(interval.high(), within(1e-9));
        PartEstimate two = carcass.part(FORE).plus(few.estimate(steer(340)).part(HIND));
        assertThat(two.interval("bone", 0.9).high() - two.kg("bone")).isCloseTo(1.6449 * two.sd("bone"), within(1e-3));
    }

    @Test
    void forequartersOfOneLotAndHindquartersOfAnotherErrTogetherByRun() {
        PartEstimate fore = lot(300, 320, 340).part(FORE);
        PartEstimate hind = lot(350, 360).part(HIND);
        PartEstimate both = fore.plus(hind);
        Figure meat = Figure.cut("tissue", "meat");
        assertThat(both.kg(meat)).isCloseTo(fore.kg(meat) + hind.kg(meat), within(1e-10));
        // one error does the same to meat of either kind, here and there: it adds up
        Figure bone = Figure.kind(CutKind.BONE);
        assertThat(both.sd(bone, UncertaintyPart.RUN))
                .isCloseTo(fore.sd(bone, UncertaintyPart.RUN) + hind.sd(bone, UncertaintyPart.RUN), within(1e-9));
        assertThat(both.sd(bone, UncertaintyPart.BETWEEN_CARCASSES))
                .isCloseTo(
                        Math.hypot(
                                fore.sd(bone, UncertaintyPart.BETWEEN_CARCASSES),
                                hind.sd(bone, UncertaintyPart.BETWEEN_CARCASSES)),
                        within(1e-9));
        assertThat(both.carcasses()).containsExactly(Map.entry(FORE, 3L), Map.entry(HIND, 2L));
        assertThat(both.head()).isEqualTo(5);
        assertThat(hind.plus(fore)).isEqualTo(both);
        assertThat(fore.plus(fore).carcasses()).containsExactly(Map.entry(FORE, 6L));
        assertThat(fore.carcasses()).containsExactly(Map.entry(FORE, 3L));
    }

    @Test
    void theySayWhatTheyAre() {
        PartEstimate fore = estimate().part(FORE);
        assertThat(fore.toText().lines().limit(2))
                .containsExactly(
                        "2 forequarters (10-rib forequarter) of 1 carcass, 233.60 kg cold",
                        "Table " + ESTIMATOR.table().identity() + ", cutting specification steaks");
        assertThat(fore.toText()).doesNotContain("Quarters (").contains("Brisket joint");
        assertThat(estimate().toText()).contains("Quarters (10-rib forequarter): forequarters 233.60 kg");
        assertThat(fore)
                .hasToString("2 forequarters (10-rib forequarter) of 1 carcass, 233.6 kg cold: meat "
                        + String.format(Locale.ROOT, "%.1f", fore.kg("meat")) + " kg ("
                        + ESTIMATOR.table().identity() + ")");
        PartEstimate mixture = lot(300, 320)
                .part(new CarcassPart(TEN_RIB, 1, 2))
                .plus(lot(330).part(CarcassPart.side()))
                .plus(lot(300, 300, 310).part(CarcassPart.carcass()))
                .plus(lot(340, 350).part(HIND));
        assertThat(mixture.words())
                .isEqualTo(
                        "3 carcasses, 2 forequarters and 4 hindquarters (10-rib forequarter) of 2 carcasses, 1 side of 1 carcass"
                                + " and 4 hindquarters (10-rib forequarter) of 2 carcasses");
        assertThat(mixture.toFrame().texts("parts")).containsOnly(mixture.words());
        assertThat(mixture.toFrame().numbers("carcasses")).containsOnly(8);
    }

    @Test
    void rangeNotesAreOfAllParts() {
        PartEstimate parts = lot(300, 520).part(FORE).plus(lot(220, 540, 530).part(HIND));
        assertThat(parts.rangeNotes())
                .singleElement()
                .satisfies(note -> assertThat(note)
                        .hasToString(
                                "4 carcasses outside the fitted range in weight; the farthest: cold weight 540 kg is 39 kg outside"
                                        + " the fitted range 234 to 501 kg"));
        assertThat(parts.notes()).contains(parts.rangeNotes().get(0).toString());
    }

    @Test
    void theirQuartersAreKnownByTheirOwnQuartering() {
        LotEstimate lot = lot(300, 340);
        Quarters quarters = lot.quarters(TEN_RIB);
        PartEstimate parts = lot.part(new CarcassPart(TEN_RIB, 2, 1)).plus(lot.part(CarcassPart.side()));
        assertThat(parts.quarters(TEN_RIB).foreKg()).isCloseTo(1.5 * quarters.foreKg(), within(1e-9));
        assertThat(parts.quarters(TEN_RIB).hindKg()).isCloseTo(quarters.hindKg(), within(1e-9));
        assertThat(lot.part(CarcassPart.side()).quarters("pistola").foreKg())
                .isCloseTo(lot.quarters("pistola").foreKg() / 2, within(1e-9));
        assertThat(lot.part(HIND).quarters(TEN_RIB).foreKg()).isZero();
        assertThatThrownBy(() -> parts.quarters("pistola"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("2 forequarters and 1 hindquarter (10-rib forequarter) can't be divided again by quartering"
                        + " \"pistola\"; ask for \"10-rib forequarter\"");
        assertThatThrownBy(() -> parts.quarters("straight"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no quartering \"straight\" in table three-levels; it has 10-rib forequarter, pistola");
    }

    @Test
    void aQuarterHasNoPieces() {
        assertThat(estimate().pieceKg("striploin")).isPresent();
        assertThat(estimate().part(HIND).pieceKg("striploin")).isEmpty();
        assertThatThrownBy(() -> estimate().part(HIND).pieceKg("striplion"))
                .hasMessageStartingWith("no cut \"striplion\"");
    }

    @Test
    void whatDoesNotGoTogetherIsRefused() {
        PartEstimate fore = lot(300, 320).part(FORE);
        assertThatThrownBy(() -> estimate().part(CarcassPart.forequarters("8-rib forequarter")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "no quartering \"8-rib forequarter\" in table three-levels; it has 10-rib forequarter, pistola");
        assertThatThrownBy(() -> fore.plus(ESTIMATOR
                        .withSpecification("joints")
                        .estimate(steer(300))
                        .part(FORE)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith(
                        "outturns go together only with the same table, cutting specification, mince, scale");
        assertThatThrownBy(() -> fore.changeFrom(lot(300, 321).part(HIND), Figure.cut("bone")))
                .hasMessage("the change of a figure is that of the same carcasses; these are others, see minus");
        assertThatThrownBy(() -> fore.changeFrom(lot(300).part(HIND).plus(lot(320).part(FORE)), Figure.cut("bone")))
                .hasMessage("the change of a figure is that of the same carcasses; these are others, see minus");
    }

    @Test
    void theChangeOfAMixtureCutInAnotherWayCancelsCarcassByCarcass() {
        YieldEstimator joints = ESTIMATOR.withSpecification("joints");
        PartEstimate steaks = lot(300, 320).part(FORE).plus(lot(310).part(HIND));
        PartEstimate other = joints.estimateLot(List.of(steer(300), steer(320)))
                .part(FORE)
                .plus(joints.estimate(steer(310)).part(HIND));
        Difference brisket = other.changeFrom(steaks, Figure.cut("brisket-joint"));
        assertThat(brisket.kg()).isCloseTo(0, within(1e-12));
        assertThat(brisket.sdKg()).isCloseTo(0, within(1e-6));
        assertThat(other.minus(steaks, Figure.cut("brisket-joint")).sdKg()).isGreaterThan(1);
    }

    @Test
    void theyAreValuesAndTravel() {
        PartEstimate parts = lot(300, 320).part(FORE).plus(estimate().part(HIND));
        PartEstimate same = lot(300, 320).part(FORE).plus(estimate().part(HIND));
        assertThat(parts).isEqualTo(same).hasSameHashCodeAs(same).hasToString(same.toString());
        assertThat(parts)
                .isNotEqualTo(lot(300, 320).part(HIND).plus(estimate().part(FORE)))
                .isNotEqualTo(lot(300, 321).part(FORE).plus(estimate().part(HIND)));
        PartEstimate copy = Serial.copy(parts);
        assertThat(copy).isEqualTo(parts);
        assertThat(copy.toText()).isEqualTo(parts.toText());
        assertThat(copy.sd("dice")).isEqualTo(parts.sd("dice"));
    }

    @Test
    void theyAreValuedButNotAttributed() {
        Valuer valuer = Valuer.of(
                TestPrices.BY_KIND.toBuilder().otherPerHead("hide", 40).build(), ESTIMATOR);
        PartEstimate fore = lot(300, 320).part(FORE);
        PartEstimate hind = lot(300, 320).part(HIND);
        assertThat(valuer.value(fore).amount() + valuer.value(hind).amount() - 80)
                .isCloseTo(valuer.value(lot(300, 320)).amount(), within(1e-9));
        assertThatThrownBy(() -> Attribution.of(valuer.value(lot(300, 320)), valuer.value(hind)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "4 hindquarters (10-rib forequarter) of 2 carcasses can't be attributed; take the estimate of a"
                                + " carcass or a lot");
    }

    @ParameterizedTest
    @CsvSource({
        "2, 2, 2 sides",
        "1, 1, 1 side",
        "2, 0, 2 forequarters (10-rib forequarter)",
        "0, 1, 1 hindquarter (10-rib forequarter)",
        "1, 2, 1 forequarter and 2 hindquarters (10-rib forequarter)"
    })
    void aPartIsCountedInQuarters(int fore, int hind, String words) {
        assertThat(new CarcassPart(TEN_RIB, fore, hind)).hasToString(words);
    }

    @Test
    void partsAreValues() {
        assertThat(new CarcassPart(TEN_RIB, 1, 1)).isEqualTo(CarcassPart.side());
        assertThat(new CarcassPart(TEN_RIB, 2, 2)).isEqualTo(CarcassPart.carcass());
        assertThat(new CarcassPart(TEN_RIB, 2, 0)).isEqualTo(FORE).isNotEqualTo(CarcassPart.forequarters("pistola"));
        assertThatThrownBy(() -> new CarcassPart(TEN_RIB, 3, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("3 forequarters of a carcass are outside 0 to 2");
        assertThatThrownBy(() -> new CarcassPart(TEN_RIB, 0, -1))
                .hasMessage("-1 hindquarters of a carcass are outside 0 to 2");
        assertThatThrownBy(() -> new CarcassPart(TEN_RIB, 0, 0))
                .hasMessage("a part of a carcass has at least one quarter");
        assertThatThrownBy(() -> CarcassPart.forequarters(" "))
                .hasMessage("a quarter needs the name of the table's quartering that divides the sides");
    }
}
