package org.beefyield.feedback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class FeedbackSheetTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static final MarketSpecification RETAIL = MarketSpecification.builder("retail")
            .coldWeightKg(270, 380)
            .categories(Category.STEER, Category.HEIFER)
            .conformation(Conformation.parse("R"), Conformation.parse("U"))
            .fatClass(FatClass.parse("3"), FatClass.parse("4L"))
            .underMonths(30)
            .assured()
            .build();

    private static final Overfat OVERFAT = Overfat.against(ESTIMATOR, FatClass.parse("4L"));

    private static Carcass carcass(String id, String category, String conformation, String fatClass, double kg) {
        return Carcass.of(Category.parse(category), Conformation.parse(conformation), FatClass.parse(fatClass), kg)
                .withId(id)
                .withSupplier("Upper Tarrow")
                .withAgeMonths(23)
                .withAssured(true);
    }

    /** A hall that has ten steers of two other suppliers beside the carcasses. */
    private static FeedbackSheet sheet(
            @Nullable MarketSpecification market, @Nullable Overfat overfat, Carcass... carcasses) {
        return sheetOf(builder(market, overfat), carcasses);
    }

    private static FeedbackSheets.Builder builder(@Nullable MarketSpecification market, @Nullable Overfat overfat) {
        FeedbackSheets.Builder builder = FeedbackSheets.builder(ESTIMATOR);
        if (market != null) {
            builder.market(market);
        }
        return overfat == null ? builder : builder.overfat(overfat);
    }

    private static FeedbackSheet sheetOf(FeedbackSheets.Builder builder, Carcass... carcasses) {
        FeedbackSheets.Collector sheets = builder.collector();
        for (int i = 0; i < 10; i++) {
            sheets.add(carcass("O" + i, "C", "R=", "3=", 330).withSupplier(i < 5 ? "Lower Tarrow" : "Mere End"));
        }
        for (Carcass carcass : carcasses) {
            sheets.add(carcass);
        }
        return sheets.result().sheet("Upper Tarrow");
    }

    private static String advice(Carcass... carcasses) {
        return sheet(RETAIL, null, carcasses).advice().orElse("");
    }

    @Test
    void whatASheetSaysCanBeReadAsData() {
        FeedbackSheet sheet = sheetOf(
                builder(RETAIL, OVERFAT).shownPrices(Valuer.of(TestPrices.BY_KIND, ESTIMATOR)),
                good("A"),
                carcass("B", "C", "R=", "3=", 395),
                carcass("C", "C", "R=", "3=", 390));
        assertThat(sheet.market()).contains(RETAIL);
        assertThat(sheet.inSpecification()).isEqualTo(1);
        assertThat(sheet.averages()).containsOnlyKeys(Category.STEER);
        assertThat(sheet.average(sheet.animals().get(0)).orElseThrow().carcasses())
                .isEqualTo(13);
        assertThat(sheet.faults(sheet.animals().get(0))).isEmpty();
        assertThat(sheet.faults(sheet.animals().get(1)))
                .extracting(fault -> fault.limit(), fault -> fault.distance().orElse(0))
                .containsExactly(tuple(MarketFault.Limit.WEIGHT, 15.0));
        assertThat(sheet.adviceFact().orElseThrow().cause()).isEqualTo(AdviceFact.Cause.TOO_HEAVY);
        assertThat(sheet.adviceFact().orElseThrow().animals())
                .containsExactly(sheet.animals().get(1), sheet.animals().get(2));
        assertThat(sheet.value(sheet.animals().get(0)).orElseThrow())
                .isEqualTo(Valuer.of(TestPrices.BY_KIND, ESTIMATOR).value(good("A")));
        // all that is printed but title and table
        assertThat(sheet.toText().lines().toList())
                .containsAll(sheet.summary())
                .containsAll(sheet.reasons())
                .containsAll(sheet.remarks());
        assertThat(sheet.summary()).hasSize(2).contains(sheet.advice().orElseThrow());
        assertThat(sheet.reasons()).hasSize(2);
        FeedbackSheet plain = sheet(null, null, good("A"));
        assertThat(plain.market()).isEmpty();
        assertThat(plain.adviceFact()).isEmpty();
        assertThat(plain.value(plain.animals().get(0))).isEmpty();
        assertThat(plain.saleableBesideHall().orElseThrow()).isCloseTo(0, within(1e-12));
    }

    private static Carcass good(String id) {
        return carcass(id, "C", "R=", "3=", 330);
    }

    @Test
    void everyAnimalStandsBesideTheHallsAverageWithItsReasons() {
        FeedbackSheet sheet = sheet(RETAIL, null, good("T1"), carcass("T2", "C", "U-", "4H", 392.4));

        assertThat(sheet.toText())
                .startsWith("Feedback for Upper Tarrow\n2 animals, 722.4 kg cold\n\n")
                .contains("""

                        on average         animals  cold, kg  saleable, %  fat trim, %
                        --------------------------------------------------------------
                        your steers (C)          2     361.2         61.9         19.3
                        the hall's steers       12     335.2         62.2         17.7

                        animal  grade    cold, kg  saleable, kg     %  fat trim, kg     %  suits
                        ------------------------------------------------------------------------
                        T1      C R= 3=     330.0           205  62.2            57  17.3  yes
                        T2      C U- 4H     392.4           242  61.5            82  20.9  no
                        """)
                .contains("1 of 2 is in specification retail: 270 to 380 kg cold; ")
                .contains(
                        "\nT2: cold weight 392.4 kg is 12.4 kg above 380 kg; fat class 4H is half a class above 4L.\n")
                .contains(
                        "\nCold weights are as recorded. Saleable meat and fat trim are estimated from weight and grade,"
                                + " not weighed; per cents are of the cold weight.\n")
                .contains("\nThis is no settlement: payment follows the contract and the official weights and"
                        + " grades.\n")
                .contains(Cautions.PLANNING)
                .doesNotContain("Lower Tarrow");
    }

    /** A farm in three spellings is one supplier, and its only neighbour would work it out. */
    @Test
    void oneFarmInSeveralSpellingsIsNoCrowd() {
        FeedbackSheets.Collector collector = builder(null, null).collector();
        int i = 0;
        for (String supplier : List.of("Mere End", "MERE END", "Mere-End ", "Mere End", "Long Tarrow", "Long Tarrow")) {
            collector.add(carcass("T" + i, "C", "R=", "3=", 330 + i++).withSupplier(supplier));
        }
        assertThat(collector.result().sheet("Long Tarrow").averages()).isEmpty();
        collector.add(carcass("T9", "C", "R=", "3=", 340).withSupplier("Stonegate"));
        assertThat(collector.result().sheet("Long Tarrow").averages()).isNotEmpty();
    }

    /** Two suppliers know each other's sum from their own; four animals of three are too few all the same. */
    @Test
    void nobodyCanWorkOutANeighboursFigures() {
        for (int suppliers = 1; suppliers <= 4; suppliers++) {
            for (int animals = suppliers; animals <= 8; animals++) {
                FeedbackSheets.Collector collector = builder(null, null).collector();
                for (int i = 0; i < animals; i++) {
                    collector.add(carcass("T" + i, "C", "R=", "3=", 330 + i).withSupplier("farm " + i % suppliers));
                }
                FeedbackSheet sheet = collector.result().sheet("farm 0");
                boolean shown = animals >= 5 && suppliers >= 3;
                assertThat(sheet.averages().isEmpty()).isEqualTo(!shown);
                assertThat(sheet.average(sheet.animals().get(0)).isPresent()).isEqualTo(shown);
                assertThat(sheet.saleableBesideHall().isPresent()).isEqualTo(shown);
                assertThat(sheet.toText().contains("the hall's steers")).isEqualTo(shown);
                assertThat(sheet.toText().contains("No hall's average of steers"))
                        .isEqualTo(!shown);
                assertThat(Double.isNaN(sheet.toFrame().numbers("hall's saleable share")[0]))
                        .isEqualTo(!shown);
            }
        }
    }

    @Test
    void dayHallAndWeightsStandAsRecorded() {
        FeedbackSheet sheet = sheet(
                null,
                null,
                carcass("T1", "C", "R=", "3=", 330.25)
                        .withKillDate("2026-11-04")
                        .withHall("Mereside"),
                carcass("T2", "C", "R=", "3=", 1.0 * 330)
                        .withKillDate("2026-11-03")
                        .withHall("Mereside"));
        assertThat(sheet.killDates()).containsExactly("2026-11-03", "2026-11-04");
        assertThat(sheet.halls()).containsExactly("Mereside");
        assertThat(sheet.toText())
                .contains("\n2 animals, 660.25 kg cold, killed 2026-11-03 and 2026-11-04, boned at Mereside\n")
                .contains("  330.25  ")
                .contains("  330.00  ");
    }

    @Test
    void whatItWasWorthStandsOnlyIfTheCallerAllows() {
        Valuer valuer = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);
        Carcass carcass = good("T1");
        FeedbackSheet with = builder(null, null)
                .shownPrices(valuer)
                .collector()
                .add(carcass)
                .result()
                .sheet("Upper Tarrow");

        assertThat(with.toText())
                .contains("worth, EUR")
                .contains("  "
                        + Numbers.grouped(
                                Long.toString(Math.round(valuer.value(carcass).amount())))
                        + "\n");
        assertThat(sheet(null, null, carcass).toText()).doesNotContain("worth");
    }

    @Test
    void theAdviceIsAboutWhatMostAnimalsMiss() {
        assertThat(advice(good("1"), carcass("2", "C", "R=", "3=", 390), carcass("3", "C", "R=", "3=", 395)))
                .isEqualTo("Advice: 2 of 3 were heavier than this customer takes; sent in sooner, they would be within"
                        + " the limit.");
        assertThat(advice(carcass("1", "C", "R=", "3=", 250)))
                .isEqualTo(
                        "Advice: it was lighter than this customer takes; a little longer on feed would bring it in.");
        assertThat(advice(good("1"), carcass("2", "D", "R=", "3=", 300)))
                .isEqualTo("Advice: 1 of 2 was of a category that this customer doesn't take; ask the plant for another"
                        + " outlet.");
        assertThat(advice(carcass("1", "C", "O=", "3=", 300), carcass("2", "C", "O-", "3=", 300)))
                .isEqualTo(
                        "Advice: both were of plainer shape than this customer takes; shape comes from breed and sire"
                                + " more than from feed.");
        // an old cow is not brought in by less fat
        assertThat(advice(carcass("1", "D", "O-", "4H", 319).withAgeMonths(67)))
                .isEqualTo("Advice: it was of a category that this customer doesn't take; ask the plant for another"
                        + " outlet.");
        assertThat(sheet(RETAIL, null, carcass("1", "D", "O-", "4H", 319)).toText())
                .contains("\nNo hall's average of cows: it takes 5 animals of 3 suppliers.\n")
                .doesNotContain("the hall's cows");
        // shape is settled at birth: what can be done about weight goes first
        assertThat(advice(
                        carcass("1", "C", "O=", "3=", 300),
                        carcass("2", "C", "O-", "3=", 300),
                        carcass("3", "C", "R=", "3=", 390)))
                .startsWith("Advice: 1 of 3 was heavier than this customer takes; ");
        assertThat(advice(carcass("1", "C", "E-", "3=", 300)))
                .isEqualTo(
                        "Advice: it was of better shape than this customer asks for; ask the plant for an outlet that"
                                + " pays for it.");
        assertThat(advice(carcass("1", "C", "R-", "2=", 300)))
                .isEqualTo("Advice: it was leaner than this customer takes; a longer finish would cover it better.");
        assertThat(advice(carcass("1", "C", "R=", "3+", 330).withAgeMonths(31)))
                .isEqualTo("Advice: it was older than this customer takes; booked in earlier it would be under age.");
        assertThat(advice(good("1").withAssured(false)))
                .isEqualTo(
                        "Advice: it was not farm-assured, which this customer asks for; assurance has to be in place on"
                                + " the day.");
    }

    @Test
    void adviceAsksForNothingThatAnotherLimitForbids() {
        // light and already fatter than taken: staying longer would make them fatter still, selling sooner lighter
        assertThat(advice(
                        carcass("1", "E", "R=", "4+", 236),
                        carcass("2", "E", "O+", "4+", 250),
                        carcass("3", "E", "R-", "4+", 262)))
                .isEqualTo("Advice: all 3 were fatter for the weight than this customer takes; sooner they would be too"
                        + " light and later fatter still, so feed and breed are what to look at.");
        // light at the fattest class that is taken: a month on feed would take it beyond
        assertThat(advice(carcass("1", "E", "R=", "4L", 250))).isEmpty();
        // lean or light at 29 months where 30 are too many
        assertThat(advice(carcass("1", "C", "R=", "2=", 300).withAgeMonths(29))).isEmpty();
        assertThat(advice(carcass("1", "C", "R=", "3=", 265).withAgeMonths(29))).isEmpty();
        assertThat(advice(carcass("1", "C", "R=", "2=", 300).withAgeMonths(27)))
                .isEqualTo("Advice: it was leaner than this customer takes; a longer finish would cover it better.");
        // a young bull of 23 months would be a bull
        MarketSpecification bulls = MarketSpecification.builder("bulls")
                .coldWeightKg(300, 400)
                .categories(Category.YOUNG_BULL, Category.BULL)
                .build();
        assertThat(sheet(bulls, null, carcass("1", "A", "R=", "3=", 290).withAgeMonths(23))
                        .advice())
                .isEmpty();
        assertThat(sheet(bulls, null, carcass("1", "A", "R=", "3=", 290).withAgeMonths(20))
                        .advice())
                .hasValue(
                        "Advice: it was lighter than this customer takes; a little longer on feed would bring it in.");
        // heavy and lean: sooner it would be leaner still
        assertThat(advice(carcass("1", "C", "R=", "2+", 390))).isEmpty();
        assertThat(advice(carcass("1", "C", "R=", "3-", 420))).isEmpty();
        // too fat, and a month sooner too light
        assertThat(advice(carcass("1", "E", "R=", "5=", 280)))
                .startsWith("Advice: it was fatter for the weight than this customer takes; ");
        // a month too old, but a month sooner too light
        assertThat(advice(carcass("1", "C", "R=", "3=", 275).withAgeMonths(30))).isEmpty();
        // whether one whose age isn't stated may stay longer nobody knows
        Carcass ageless = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 260)
                .withAssured(true)
                .withSupplier("Upper Tarrow");
        assertThat(advice(ageless))
                .isEqualTo("Advice: it was sent in without an age; with one it may be in specification.");
    }

    @Test
    void oneThatIsSilentIsNotCountedWithTheOthers() {
        assertThat(advice(
                        carcass("1", "C", "R=", "3=", 260),
                        carcass("2", "C", "R=", "3=", 262).withAgeMonths(29),
                        carcass("3", "E", "R=", "4+", 240)))
                .startsWith("Advice: 1 of 3 was lighter than this customer takes; ");
        FeedbackSheet silent =
                sheet(RETAIL, null, carcass("1", "C", "R=", "3=", 265).withAgeMonths(29));
        assertThat(silent.toText())
                .startsWith("Feedback for Upper Tarrow\n1 animal, 265 kg cold\n\n0 of 1 are in specification ")
                .doesNotContain("Advice");
        assertThat(silent).hasToString("Upper Tarrow, 1 animal");
    }

    @Test
    void nobodyIsToldToBookCowsInYearsAgo() {
        MarketSpecification any = MarketSpecification.builder("any")
                .coldWeightKg(270, 380)
                .underMonths(30)
                .build();
        FeedbackSheet cow = sheet(any, null, carcass("1", "D", "O-", "3=", 300).withAgeMonths(96));

        assertThat(cow.advice())
                .hasValue(
                        "Advice: it was older than this customer takes; ask the plant for an outlet for older cattle.");
        assertThat(cow.toText()).contains("\n1: age 96 months is not under 30 months.\n");
        assertThat(sheet(any, null, carcass("1", "D", "O-", "3=", 260).withAgeMonths(29))
                        .advice())
                .isEmpty();
        assertThat(advice(good("1").withAgeMonths(33)))
                .isEqualTo(
                        "Advice: it was older than this customer takes; ask the plant for an outlet for older cattle.");
        assertThat(advice(carcass("1", "C", "R=", "4-", 340).withAgeMonths(32)))
                .isEqualTo("Advice: it was older than this customer takes; booked in earlier it would be under age.");
    }

    @Test
    void adviceOnWeightNamesNoPacks() {
        assertThat(advice(carcass("1", "C", "R=", "3=", 380.1)))
                .isEqualTo("Advice: it was heavier than this customer takes; sent in sooner, it would be within the"
                        + " limit.");
    }

    @Test
    void causesAreRankedByWhatTheAnimalsAreWorthIfThereArePrices() {
        Carcass[] animals = {
            carcass("1", "C", "R=", "3=", 264),
            carcass("2", "C", "R=", "3=", 262),
            carcass("3", "C", "R=", "3=", 1.9 * 264)
        };
        MarketSpecification market = MarketSpecification.builder("any")
                .coldWeightKg(270, 495)
                .conformation(Conformation.parse("R"), null)
                .build();
        // two light ones against a heavy one: by number the light ones, by worth too
        assertThat(sheet(market, null, animals).advice()).get().asString().contains("2 of 3 were lighter");
        Valuer perKg = Valuer.of(
                TestPrices.BY_KIND.toBuilder().otherPerHead("slaughter", -1500).build(), ESTIMATOR);
        FeedbackSheet ranked = sheetOf(builder(market, null).prices(perKg), animals);
        assertThat(ranked.advice()).get().asString().contains("1 of 3 was heavier");
        assertThat(ranked.toText()).doesNotContain("worth");
    }

    @Test
    void whatIsNotStatedIsAskedFor() {
        Carcass bare = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 330)
                .withSupplier("Upper Tarrow")
                .withAssured(true);

        assertThat(sheet(RETAIL, null, bare).advice())
                .hasValue("Advice: it was sent in without an age; with one it may be in specification.");
        assertThat(sheet(RETAIL, null, bare).toText()).contains("\nNo tag: its age is not stated");
    }

    @Test
    void fatAnimalsAreToldHowMuchFatTrimThatMeans() {
        assertThat(sheet(RETAIL, OVERFAT, carcass("1", "C", "R=", "4+", 360))
                        .advice()
                        .orElse(""))
                .matches("Advice: it was fatter than this customer takes; drawn sooner it would have taken less feed,"
                        + " and at 4L and the same weight there would be about [1-9][0-9]* kg less fat trim\\.");
        assertThat(advice(carcass("1", "C", "R=", "4+", 360)))
                .isEqualTo("Advice: it was fatter than this customer takes; drawn sooner it would have lost less to fat"
                        + " trim and taken less feed.");
    }

    @Test
    void aSupplierWhoseAnimalsAllFitIsToldHowTheyCompare() {
        assertThat(advice(good("1"), carcass("2", "C", "U=", "3=", 330)))
                .matches("Advice: both suit this customer; they gave [0-9.]+ % of the cold weight more saleable meat"
                        + " than the hall's average: more of the same is welcome\\.");
        assertThat(advice(carcass("1", "C", "R-", "4-", 330)))
                .matches("Advice: it suits this customer; it gave [0-9.]+ % of the cold weight less saleable meat than"
                        + " the hall's average: shape and fat cover are what to look at\\.");
        assertThat(sheet(null, null, good("1")).advice())
                .hasValue("Advice: it gave as much saleable meat for the weight as the hall's average.");
    }

    @Test
    void namesAreEscapedAndLongTagsKept() {
        String tag = "372<b>\"&" + "0123456789".repeat(8);
        FeedbackSheets sheets = builder(RETAIL, null)
                .collector()
                .add(carcass(tag, "C", "R=", "3=", 390).withSupplier("<Hill & \"Field\">"))
                .result();
        String html = sheets.sheet("<Hill & \"Field\">").toHtml();

        assertThat(html)
                .startsWith(
                        "<h1>Feedback for &lt;Hill &amp; &quot;Field&quot;&gt;</h1>\n<p>1 animal, 390 kg cold</p>\n<p>0 of 1 are"
                                + " in specification ")
                .contains("372&lt;b&gt;&quot;&amp;0123456789")
                .doesNotContain("<Hill", "<b>");
    }

    @Test
    void suppliersAreThoseOfTheCarcasses() {
        FeedbackSheets sheets = builder(null, null)
                .collector()
                .add(good("1"))
                .add(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 330))
                .add(good("2").withSupplier("Lower Tarrow"))
                .result();

        assertThat(sheets.suppliers()).containsExactly("Upper Tarrow", "Lower Tarrow");
        assertThat(sheets.withoutSupplier()).isEqualTo(1);
        assertThat(sheets.sheet("Upper Tarrow").toText()).contains("No hall's average of steers");
        assertThat(List.copyOf(sheets.sheet("Lower Tarrow").animals())).hasSize(1);
        assertThatThrownBy(() -> sheets.sheet("Hill")).hasMessage("no carcass has the supplier \"Hill\"");
    }

    @Test
    void partsOfAHallAreMergedAsIfOneHadSeenThemAll() {
        FeedbackSheets.Builder builder = builder(RETAIL, OVERFAT);
        List<Carcass> hall = List.of(
                good("1"),
                carcass("2", "E", "R=", "4+", 290).withSupplier("Lower Tarrow"),
                carcass("3", "E", "O=", "3=", 280),
                Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 300),
                good("5").withSupplier("Lower Tarrow"),
                good("6").withSupplier("Mere End"),
                good("7").withSupplier("Mere End"));
        FeedbackSheets.Collector all = builder.collector();
        hall.forEach(all::add);
        FeedbackSheets.Collector first = builder.collector();
        hall.subList(0, 2).forEach(first::add);
        FeedbackSheets.Collector second = builder.collector();
        hall.subList(2, 7).forEach(second::add);
        FeedbackSheets turned = builder.collector().add(second).add(first).result();
        FeedbackSheets both = first.add(second).result();

        assertThat(both.suppliers()).containsExactly("Upper Tarrow", "Lower Tarrow", "Mere End");
        assertThat(both.sheet("Upper Tarrow").averages()).containsOnlyKeys(Category.STEER);
        assertThat(both.withoutSupplier()).isEqualTo(1);
        for (String supplier : both.suppliers()) {
            assertThat(both.sheet(supplier).toText())
                    .isEqualTo(all.result().sheet(supplier).toText());
            assertThat(both.sheet(supplier).animals()).hasSize(2);
            assertThat(turned.sheet(supplier).advice())
                    .isEqualTo(both.sheet(supplier).advice());
        }
        assertThat(second.result().sheet("Lower Tarrow").animals()).hasSize(1);
    }

    @Test
    void sheetsStayAsTheyAreWhenMoreIsCollected() {
        FeedbackSheets.Collector collector = builder(null, null).collector().add(good("1"));
        FeedbackSheets before = collector.result();
        collector.add(good("2")).add(good("3").withSupplier("Lower Tarrow"));

        assertThat(before.suppliers()).containsExactly("Upper Tarrow");
        assertThat(before.sheet("Upper Tarrow").animals()).hasSize(1);
        assertThat(collector.result().sheet("Upper Tarrow").animals()).hasSize(2);
    }

    @Test
    void sheetsThatSaySomethingElseAreNotMerged() {
        FeedbackSheets.Collector collector = builder(RETAIL, null).collector();
        assertThatThrownBy(() -> collector.add(builder(null, null).collector()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("feedback sheets go together only if they are to say the same: same estimator, market"
                        + " specification, cost of fat and prices");
    }

    @Test
    void aRefusedCarcassLeavesNothingBehind() {
        FeedbackSheets.Collector collector = builder(null, null).collector().add(good("1"));
        assertThatThrownBy(() -> collector.add(carcass("2", "E", "R=", "3=", 900)))
                .isInstanceOf(RefusedCarcassException.class);

        assertThat(collector.result().suppliers()).containsExactly("Upper Tarrow");
        assertThat(collector.result().sheet("Upper Tarrow").animals()).hasSize(1);
    }
}
