package org.beefyield.value;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
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

    /** A hall that has ten steers of another supplier beside the carcasses. */
    private static FeedbackSheet sheet(
            @Nullable MarketSpecification market, @Nullable Overfat overfat, Carcass... carcasses) {
        FeedbackSheets sheets = new FeedbackSheets(ESTIMATOR, market, overfat, null);
        for (int i = 0; i < 10; i++) {
            sheets.add(carcass("O" + i, "C", "R=", "3=", 330).withSupplier("Lower Tarrow"));
        }
        for (Carcass carcass : carcasses) {
            sheets.add(carcass);
        }
        return sheets.sheet("Upper Tarrow");
    }

    private static String advice(Carcass... carcasses) {
        return sheet(RETAIL, null, carcasses).advice();
    }

    private static Carcass good(String id) {
        return carcass(id, "C", "R=", "3=", 330);
    }

    @Test
    void everyAnimalStandsBesideTheHallsAverageWithItsReasons() {
        FeedbackSheet sheet = sheet(RETAIL, null, good("T1"), carcass("T2", "C", "U-", "4H", 392.4));

        assertThat(sheet.toText())
                .contains(
                        "\nT1      C         R=            3=              330           205  62.2               62.2            57  17.3"
                                + "               17.7  yes\n")
                .contains("1 of 2 is in specification retail: 270 to 380 kg cold; ")
                .contains("\nT2: cold weight 392.4 kg is 12.4 kg above 380 kg; fat class 4H is 0.75 points above 4L.\n")
                .contains("\nPer cents are of the cold weight.\nThe hall's average is that of 12 steers, category C.\n")
                .contains("\nThis sheet is no settlement: payment follows the contract and the official weights and"
                        + " grades.\n")
                .contains(Cautions.PLANNING)
                .doesNotContain("Lower Tarrow");
    }

    @Test
    void whatItWasWorthStandsOnlyIfTheCallerAllows() {
        Valuer valuer = Valuer.of(
                PriceList.builder("EUR")
                        .kind(CutKind.STEAK, 22)
                        .kind(CutKind.JOINT, 14)
                        .kind(CutKind.DICE, 9)
                        .kind(CutKind.LEAN_TRIM, 5)
                        .kind(CutKind.FAT_TRIM, 0)
                        .kind(CutKind.BONE, 0)
                        .kind(CutKind.LOSS, 0)
                        .build(),
                ESTIMATOR);
        Carcass carcass = good("T1");
        FeedbackSheet with =
                new FeedbackSheets(ESTIMATOR, null, null, valuer).add(carcass).sheet("Upper Tarrow");

        assertThat(with.toText())
                .contains("worth, EUR")
                .contains("  " + Math.round(valuer.value(carcass).amount()) + "\n");
        assertThat(sheet(null, null, carcass).toText()).doesNotContain("worth");
    }

    @Test
    void theAdviceIsAboutWhatMostAnimalsMiss() {
        assertThat(advice(good("1"), carcass("2", "C", "R=", "3=", 390), carcass("3", "C", "R=", "3=", 395)))
                .isEqualTo(
                        "Advice: 2 of 3 were heavier than this customer takes; sent in sooner, their cuts would fit the"
                                + " packs.");
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
                .isEqualTo(
                        "Advice: it was of a category that this customer doesn't take; ask the plant for another outlet.");
        assertThat(sheet(RETAIL, null, carcass("1", "D", "O-", "4H", 319)).toText())
                .contains("average is that of 1 cow, category D.");
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
        assertThat(advice(good("1").withAgeMonths(31)))
                .isEqualTo("Advice: it was older than this customer takes; booked in earlier it would be under age.");
        assertThat(advice(good("1").withAssured(false)))
                .isEqualTo(
                        "Advice: it was not farm-assured, which this customer asks for; assurance has to be in place on"
                                + " the day.");
    }

    @Test
    void whatIsNotStatedIsAskedFor() {
        Carcass bare = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 330)
                .withSupplier("Upper Tarrow")
                .withAssured(true);

        assertThat(sheet(RETAIL, null, bare).advice())
                .isEqualTo("Advice: it was sent in without an age; with one it may be in specification.");
        assertThat(sheet(RETAIL, null, bare).toText()).contains("\nNo tag: its age is not stated");
    }

    @Test
    void fatAnimalsAreToldHowMuchFatTrimThatMeans() {
        assertThat(sheet(RETAIL, OVERFAT, carcass("1", "C", "R=", "5+", 330)).advice())
                .matches(
                        "Advice: it was fatter than this customer takes; drawn sooner it would have taken less feed, and at"
                                + " 4L and the same weight there would be about [1-9][0-9]* kg less fat trim\\.");
        assertThat(advice(carcass("1", "C", "R=", "5+", 330)))
                .isEqualTo(
                        "Advice: it was fatter than this customer takes; drawn sooner it would have lost less to fat trim"
                                + " and taken less feed.");
    }

    @Test
    void aSupplierWhoseAnimalsAllFitIsToldHowTheyCompare() {
        assertThat(advice(good("1"), carcass("2", "C", "U=", "3=", 330)))
                .matches(
                        "Advice: both suit this customer; they gave [0-9.]+ % of the cold weight more saleable meat than the"
                                + " hall's average: more of the same is welcome\\.");
        assertThat(advice(carcass("1", "C", "R-", "4-", 330)))
                .matches(
                        "Advice: it suits this customer; it gave [0-9.]+ % of the cold weight less saleable meat than the"
                                + " hall's average: shape and fat cover are what to look at\\.");
        assertThat(sheet(null, null, good("1")).advice())
                .isEqualTo("Advice: it gave as much saleable meat for the weight as the hall's average.");
    }

    @Test
    void namesAreEscapedAndLongTagsKept() {
        String tag = "372<b>\"&" + "0123456789".repeat(8);
        FeedbackSheets sheets = new FeedbackSheets(ESTIMATOR, RETAIL, null, null)
                .add(carcass(tag, "C", "R=", "3=", 390).withSupplier("<Hill & \"Field\">"));
        String html = sheets.sheet("<Hill & \"Field\">").toHtml();

        assertThat(html)
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
                .contains("<h1>Feedback for &lt;Hill &amp; &quot;Field&quot;&gt;</h1>")
                .contains("372&lt;b&gt;&quot;&amp;0123456789")
                .doesNotContain("<Hill", "<b>");
    }

    @Test
    void suppliersAreThoseOfTheCarcasses() {
        FeedbackSheets sheets = new FeedbackSheets(ESTIMATOR, null, null, null)
                .add(good("1"))
                .add(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 330))
                .add(good("2").withSupplier("Lower Tarrow"));

        assertThat(sheets.suppliers()).containsExactly("Upper Tarrow", "Lower Tarrow");
        assertThat(sheets.withoutSupplier()).isEqualTo(1);
        assertThat(sheets.sheet("Upper Tarrow").toText()).contains("average is that of 3 steers");
        assertThat(List.copyOf(sheets.sheet("Lower Tarrow").animals())).hasSize(1);
        assertThatThrownBy(() -> sheets.sheet("Hill")).hasMessage("no carcass has the supplier \"Hill\"");
    }
}
