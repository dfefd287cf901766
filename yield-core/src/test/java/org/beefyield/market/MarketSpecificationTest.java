package org.beefyield.market;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.text.Numbers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MarketSpecificationTest {
    private static MarketSpecification.Builder narrow() {
        return MarketSpecification.builder("narrow")
                .hotWeightKg(270, 380)
                .categories(Category.STEER, Category.HEIFER)
                .conformation(Conformation.parse("R"), Conformation.parse("U"))
                .fatClass(FatClass.parse("3"), FatClass.parse("4L"))
                .underMonths(30)
                .assured();
    }

    @Test
    void everyLimitCanBeRead() {
        MarketSpecification narrow = narrow().edge(EdgeRule.UPPER).build();
        assertThat(narrow.fromKg()).hasValue(270);
        assertThat(narrow.toKg()).hasValue(380);
        assertThat(narrow.isOfHotWeight()).isTrue();
        assertThat(narrow.categories()).containsExactlyInAnyOrder(Category.STEER, Category.HEIFER);
        assertThat(narrow.poorestConformation()).contains(Conformation.parse("R"));
        assertThat(narrow.bestConformation()).contains(Conformation.parse("U"));
        assertThat(narrow.leanest()).contains(FatClass.parse("3"));
        assertThat(narrow.fattest()).contains(FatClass.parse("4L"));
        assertThat(narrow.underMonths()).hasValue(30);
        assertThat(narrow.asksForAssurance()).isTrue();
        assertThat(narrow.edge()).isEqualTo(EdgeRule.UPPER);
        MarketSpecification open = MarketSpecification.builder("open").build();
        assertThat(open.fromKg()).isEmpty();
        assertThat(open.toKg()).isEmpty();
        assertThat(open.isOfHotWeight()).isFalse();
        assertThat(open.categories()).containsExactlyInAnyOrder(Category.values());
        assertThat(open.poorestConformation()).isEmpty();
        assertThat(open.bestConformation()).isEmpty();
        assertThat(open.leanest()).isEmpty();
        assertThat(open.fattest()).isEmpty();
        assertThat(open.underMonths()).isEmpty();
        assertThat(open.asksForAssurance()).isFalse();
        assertThat(MarketSpecification.builder("from")
                        .coldWeightFromKg(270)
                        .build()
                        .toKg())
                .isEmpty();
    }

    @Test
    void specificationsWithTheSameLimitsAreEqual() {
        MarketSpecification narrow = narrow().build();
        assertThat(narrow).isEqualTo(narrow().build()).hasSameHashCodeAs(narrow().build());
        assertThat(narrow)
                .isNotEqualTo(narrow.with(EdgeRule.UPPER))
                .isNotEqualTo(narrow().coldWeightKg(270, 380).build())
                .isNotEqualTo(narrow().hotWeightKg(270, 381).build())
                .isNotEqualTo(narrow().hotWeightFromKg(270).build())
                .isNotEqualTo(narrow().categories(Category.STEER).build())
                .isNotEqualTo(
                        narrow().conformation(Conformation.parse("R"), null).build())
                .isNotEqualTo(narrow().fatClass(null, FatClass.parse("4L")).build())
                .isNotEqualTo(narrow().underMonths(31).build());
    }

    @Test
    void anInfiniteWeightIsNoLimit() {
        MarketSpecification.Builder builder = MarketSpecification.builder("x");
        assertThatThrownBy(() -> builder.coldWeightKg(270, Double.POSITIVE_INFINITY))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("weights up to Infinity kg: a finite weight is needed;"
                        + " coldWeightFromKg and hotWeightFromKg set no greatest");
        assertThatThrownBy(() -> builder.hotWeightFromKg(Double.POSITIVE_INFINITY))
                .hasMessage("weights from Infinity to Infinity kg: two ascending weights of 0 kg or more are needed");
        assertThatThrownBy(() -> builder.coldWeightFromKg(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    /** The usual window for prime cattle in Ireland and the UK: common practice, no source. */
    private static final MarketSpecification RETAIL = MarketSpecification.builder("retail")
            .coldWeightKg(270, 380)
            .categories(Category.STEER, Category.HEIFER, Category.YOUNG_BULL)
            .conformation(Conformation.parse("R"), Conformation.parse("U"))
            .fatClass(FatClass.parse("3"), FatClass.parse("4L"))
            .underMonths(30)
            .assured()
            .build();

    private static Carcass carcass(String category, String conformation, String fatClass, double kg) {
        return Carcass.of(
                        Category.parse(category),
                        Conformation.parse(
                                conformation, conformation.startsWith("-") ? GradeReading.HALVES : GradeReading.THIRDS),
                        FatClass.parse(fatClass),
                        kg)
                .withAgeMonths(23)
                .withAssured(true);
    }

    private static List<String> faults(Carcass carcass) {
        return RETAIL.check(carcass).stream().map(MarketFault::toString).toList();
    }

    @ParameterizedTest
    @CsvSource({"C, R-, 3-, 270", "A, U+, 4L, 380", "E, R, 3, 300", "C, -U, 4=, 300", "C, U, 4, 300"})
    void limitsAreInclusive(String category, String conformation, String fatClass, double kg) {
        Carcass carcass = carcass(category, conformation, fatClass, kg);

        assertThat(RETAIL.check(carcass)).isEmpty();
        assertThat(RETAIL.test(carcass)).isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "C | R= | 3= | 269.9 | WEIGHT | 0.1 | cold weight 269.9 kg is 0.1 kg below 270 kg",
                "C | R= | 3= | 392.4 | WEIGHT | 12.4 | cold weight 392.4 kg is 12.4 kg above 380 kg",
                "C | O+ | 3= | 300 | CONFORMATION | 0.5 | conformation O+ is one third below R",
                "C | P= | 3= | 300 | CONFORMATION | 4.5 | conformation P= is one class and two thirds below R",
                "C | E- | 3= | 300 | CONFORMATION | 0.5 | conformation E- is one third above U",
                "C | R= | 2+ | 300 | FAT_CLASS | 0.5 | fat class 2+ is one third below 3",
                "C | R= | 4H | 300 | FAT_CLASS | 0.75 | fat class 4H is half a class above 4L",
                "C | R= | 4+ | 300 | FAT_CLASS | 1 | fat class 4+ is half a class above 4L"
            })
    void aMissedLimitTellsHowFarItIsOff(
            String category,
            String conformation,
            String fatClass,
            double kg,
            MarketFault.Limit limit,
            double distance,
            String text) {
        List<MarketFault> faults = RETAIL.check(carcass(category, conformation, fatClass, kg));

        assertThat(faults).hasSize(1);
        assertThat(faults.get(0).limit()).isEqualTo(limit);
        assertThat(faults.get(0).distance().orElseThrow()).isCloseTo(distance, within(1e-9));
        assertThat(faults.get(0)).hasToString(text);
    }

    @Test
    void everyReasonIsGiven() {
        Carcass cow = Carcass.of(Category.COW, Conformation.parse("P+"), FatClass.parse("1="), 402.25);

        assertThat(faults(cow))
                .containsExactly(
                        "cold weight 402.25 kg is 22.25 kg above 380 kg",
                        "category D is none of C A E",
                        "conformation P+ is one class and a third below R",
                        "fat class 1= is one class and two thirds below 3",
                        "its age is not stated and has to be under 30 months",
                        "farm assurance is asked for and not stated");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"30 | age 30 months is not under 30 months", "33 | age 33 months is not under 30 months"})
    void underThirtyMonthsLeavesThirtyOut(int months, String text) {
        assertThat(faults(carcass("C", "R", "3", 300).withAgeMonths(months))).containsExactly(text);
        assertThat(faults(carcass("C", "R", "3", 300).withAgeMonths(29))).isEmpty();
    }

    @Test
    void anAnimalWithoutAssuranceIsToldFromOneThatDoesNotSay() {
        assertThat(faults(carcass("C", "R", "3", 300).withAssured(false))).containsExactly("it is not farm-assured");
    }

    @ParameterizedTest
    @ValueSource(doubles = {270, 288.6, 312.7, 380})
    void aHotWeightFromWhichTheColdOneWasWorkedOutIsFoundAgain(double hot) {
        MarketSpecification exactly =
                MarketSpecification.builder("x").hotWeightKg(hot, hot).build();
        Carcass carcass = carcass("C", "R", "3", CarcassWeights.coldFromHot(hot));

        assertThat(exactly.check(carcass)).isEmpty();
        assertThat(MarketSpecification.builder("x")
                        .hotWeightKg(0, hot - 10)
                        .build()
                        .check(carcass))
                .extracting(MarketFault::toString)
                .containsExactly(
                        "hot weight " + Numbers.brief(hot) + " kg is 10 kg above " + Numbers.brief(hot - 10) + " kg");
    }

    @Test
    void withoutLimitsEverythingIsTaken() {
        MarketSpecification open = MarketSpecification.builder("open").build();

        assertThat(open.test(Carcass.of(Category.BULL, Conformation.parse("S+"), FatClass.parse("5+"), 900)))
                .isTrue();
        assertThat(open).hasToString("open: no limits");
    }

    @Test
    void itTellsItsLimitsInOneLine() {
        assertThat(RETAIL)
                .hasToString(
                        "retail: 270 to 380 kg cold; category C A E; conformation R to U; fat class 3 to 4L (4= and 4"
                                + " count as 4L); under 30 months; farm-assured");
        assertThat(MarketSpecification.builder("light")
                        .hotWeightKg(0, 260.5)
                        .conformation(Conformation.parse("O"), null)
                        .fatClass(null, FatClass.parse("3"))
                        .build())
                .hasToString("light: up to 260.5 kg hot; conformation from O; fat class up to 3");
    }

    @Test
    void limitsTheWrongWayRoundAreRefused() {
        MarketSpecification.Builder builder = MarketSpecification.builder("x");
        assertThatThrownBy(() -> builder.coldWeightKg(380, 270))
                .hasMessage("weights from 380 to 270 kg: two ascending weights of 0 kg or more are needed");
        assertThatThrownBy(() -> builder.hotWeightKg(Double.NaN, 270)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> builder.conformation(Conformation.parse("U"), Conformation.parse("R")))
                .hasMessage("conformation from U to R: the poorer comes first");
        assertThatThrownBy(() -> builder.fatClass(FatClass.parse("4"), FatClass.parse("3")))
                .hasMessage("fat class from 4 to 3: the leaner comes first");
        assertThatThrownBy(() -> builder.underMonths(0))
                .hasMessage("under 0 months takes no carcass; 1 or more is needed");
        assertThatThrownBy(builder::categories).hasMessage("a market specification takes at least one category");
    }

    @Test
    void aLotIsSummedUpWithTheFarthestOfEachLimit() {
        MarketSummary summary = MarketSummary.collector(RETAIL)
                .add(carcass("C", "R", "3", 300))
                .add(carcass("C", "R", "3", 392.4).withId("<7>"))
                .add(carcass("C", "P=", "3", 385).withId("8"))
                .result();

        assertThat(summary.carcasses()).isEqualTo(3);
        assertThat(summary.inSpecification()).isEqualTo(1);
        assertThat(summary.missed())
                .containsOnly(entry(MarketFault.Limit.WEIGHT, 2L), entry(MarketFault.Limit.CONFORMATION, 1L));
        assertThat(summary.toText()).isEqualTo("""
            1 of 3 carcasses is in specification retail: 270 to 380 kg cold; category C A E; conformation R to U; fat class 3 to 4L (4= and 4 count as 4L); under 30 months; farm-assured

            limit missed  carcasses  % of all  farthest off
            -------------------------------------------------------------------------------------------------
            weight                2      66.7  carcass <7>: cold weight 392.4 kg is 12.4 kg above 380 kg
            conformation          1      33.3  carcass 8: conformation P= is one class and two thirds below R
            """);
        assertThat(summary.toHtml()).contains("carcass &lt;7&gt;: cold weight").doesNotContain("<7>");
    }

    private static MarketSummary.Collector collected(List<Carcass> carcasses) {
        MarketSummary.Collector collector = MarketSummary.collector(RETAIL);
        carcasses.forEach(collector::add);
        return collector;
    }

    @Test
    void partsOfALotAreMergedAsIfOneHadSeenThemAll() {
        List<Carcass> lot = List.of(
                carcass("C", "R", "3", 300),
                carcass("C", "R", "3", 392.4).withId("7"),
                carcass("C", "P=", "3", 385).withId("8"),
                carcass("C", "R", "3", 392.4).withId("9"),
                carcass("C", "R", "3", 262).withId("10"));
        String all = collected(lot).result().toText();
        assertThat(all).contains("  carcass 7: cold weight 392.4 kg ");

        for (int split = 0; split <= lot.size(); split++) {
            MarketSummary.Collector second = collected(lot.subList(split, lot.size()));
            MarketSummary.Collector both = collected(lot.subList(0, split)).add(second);
            assertThat(both.result().toText()).isEqualTo(all);
            assertThat(second.result().carcasses()).isEqualTo(lot.size() - split);
            MarketSummary turned = second.add(collected(lot.subList(0, split))).result();
            assertThat(turned.carcasses()).isEqualTo(5);
            assertThat(turned.inSpecification()).isEqualTo(1);
            assertThat(turned.missed())
                    .containsOnly(entry(MarketFault.Limit.WEIGHT, 4L), entry(MarketFault.Limit.CONFORMATION, 1L));
        }
    }

    @Test
    void aSummaryStaysAsItIsWhenMoreIsCollected() {
        MarketSummary.Collector collector = collected(List.of(carcass("C", "R", "3", 300)));
        MarketSummary before = collector.result();
        collector.add(carcass("C", "R", "3", 392.4));

        assertThat(before.carcasses()).isEqualTo(1);
        assertThat(before.missed()).isEmpty();
        assertThat(collector.result().missed()).containsOnlyKeys(MarketFault.Limit.WEIGHT);
    }

    @Test
    void summariesOfOtherSpecificationsAreNotMerged() {
        MarketSpecification light =
                MarketSpecification.builder("light").coldWeightKg(0, 270).build();
        assertThatThrownBy(() -> MarketSummary.collector(light)
                        .add(MarketSummary.collector(MarketSpecification.builder("heavy")
                                .coldWeightKg(380, 500)
                                .build())))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("summaries go together only of one market specification: " + light
                        + " against heavy: 380 to 500 kg cold");
    }
}
