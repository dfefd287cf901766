package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SupportTest {
    private static final String NONE_ASSUMED =
            "No saleable weight rests on figures that the maker of the table assumed";
    private static final String TISSUES_ASSUMED =
            "100 % of the saleable weight rests on figures that the maker of the table assumed, at tissue level";

    private static final SourceRow DISSECTED = new SourceRow("dissected", SourceKind.PUBLISHED, "Invented 1990", "");
    private static final SourceRow COWS =
            new SourceRow("cows", SourceKind.ASSUMPTION, "Ours: as the steers, but fatter", "");

    /** Carcasses of the reference grade and weight, where coefficients of the level alone count. */
    private static Carcass carcass(Category category) {
        return Carcass.of(category, Conformation.parse("R="), FatClass.parse("3="), 340);
    }

    /** Three levels whose rows come from sources of every kind. */
    private static TableDefinition threeLevels() {
        return TestTables.cite(TestTables.threeLevels(), SupportTest::source)
                .source(DISSECTED)
                .source(COWS)
                .source(new SourceRow("primals", SourceKind.DERIVED, "Invented 1991", ""))
                .source(new SourceRow("trade", SourceKind.COMMON_PRACTICE, "The trade", ""))
                .source(new SourceRow("read", SourceKind.UNVERIFIED, "Invented 1992", ""))
                .source(new SourceRow("split", SourceKind.ASSUMPTION, "Ours", ""))
                .build();
    }

    private static String source(BreakdownRow row) {
        if (row.category().equals("D")) {
            return "cows";
        }
        return switch (row.parent()) {
            case "carcass" -> row.cut().equals("loss") ? "split" : "dissected";
            case "meat" -> "primals";
            case "brisket" -> "trade";
            case "chuck" -> row.way().equals("dice") ? "dissected" : "read";
            default -> row.way().equals("steaks") ? "split" : "trade";
        };
    }

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(threeLevels()));

    @Test
    void kilogramsGoByTheWeakestRowOnTheirPath() {
        Support support = ESTIMATOR.estimate(carcass(Category.STEER)).support();

        // meat 340 x 0.69 = 234.6 kg; the striploin is 70 g/kg of it, steak 800, dice 40, lean trim 60 of that; the
        // rump 81, of
        // that 750, 120, 60; the brisket 69, of that joint 760 and lean trim 150; the chuck 780, of that dice 500, lean
        // trim 400
        double steaks = 234.6 * (0.07 * 0.9 + 0.081 * 0.93);
        double brisket = 234.6 * 0.069 * 0.91;
        double chuck = 234.6 * 0.78 * 0.9;
        assertThat(support.kg(SourceKind.PUBLISHED)).isZero();
        assertThat(support.kg(SourceKind.DERIVED)).isCloseTo(chuck, within(1e-9));
        assertThat(support.kg(SourceKind.COMMON_PRACTICE)).isCloseTo(brisket, within(1e-9));
        assertThat(support.kg(SourceKind.UNVERIFIED)).isZero();
        assertThat(support.kg(SourceKind.ASSUMPTION)).isCloseTo(steaks, within(1e-9));
        assertThat(support.saleableKg()).isCloseTo(steaks + brisket + chuck, within(1e-9));
        assertThat(support.share(SourceKind.ASSUMPTION)).isCloseTo(steaks / (steaks + brisket + chuck), within(1e-12));
        assertThat(support.assumedKg("tissue")).isZero();
        assertThat(support.assumedKg("primal")).isZero();
        assertThat(support.assumedKg("retail")).isCloseTo(steaks, within(1e-9));
        assertThat(support.categories()).isEmpty();
        assertThat(support)
                .hasToString("saleable 211.9 kg: derived 164.7 kg, common-practice 14.7 kg, assumption 32.5 kg");
    }

    @Test
    void theWayThatIsChosenCounts() {
        LotEstimate lot = ESTIMATOR.estimateLot(List.of(carcass(Category.STEER)));
        Support joints = lot.under("joints").support();

        assertThat(joints.kg(SourceKind.ASSUMPTION)).isZero();
        assertThat(joints.kg(SourceKind.COMMON_PRACTICE))
                .isCloseTo(234.6 * (0.07 * 0.9 + 0.081 * 0.93 + 0.069 * 0.91), within(1e-9));
        assertThat(joints.toText()).isEqualTo(NONE_ASSUMED + "\n");
        Support trim = ESTIMATOR
                .with("chuck", "trim")
                .estimate(carcass(Category.STEER))
                .support();
        assertThat(trim.kg(SourceKind.UNVERIFIED)).isCloseTo(234.6 * 0.78 * 0.9, within(1e-9));
    }

    @Test
    void aCategoryOfItsOwnRowsSaysWhatStandsBehindIt() {
        Support cow = ESTIMATOR.estimate(carcass(Category.COW)).support();

        assertThat(cow.share(SourceKind.ASSUMPTION)).isEqualTo(1);
        assertThat(cow.assumedKg("tissue")).isCloseTo(cow.saleableKg(), within(1e-9));
        assertThat(cow.assumedKg("retail")).isCloseTo(340 * 0.684 * (0.07 * 0.9 + 0.081 * 0.93), within(1e-9));
        assertThat(cow.categories())
                .containsExactly(new Support.CategoryRows(
                        Category.COW,
                        "carcass",
                        List.of(
                                Cut.of("meat", "Meat", "tissue", CutKind.MEAT),
                                Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM)
                                        .withFatPct(72.0)),
                        COWS));
        assertThat(cow.toText()).isEqualTo("""
                100 % of the saleable weight rests on figures that the maker of the table assumed: 100 % at tissue level and \
                15 % at retail level, some of it at both
                Cows (D): meat and fat trim are assumed (Ours: as the steers, but fatter)
                """);
    }

    @Test
    void aLotAddsItsCarcassesUp() {
        LotEstimate lot = ESTIMATOR.estimateLot(List.of(
                carcass(Category.COW), carcass(Category.STEER), carcass(Category.HEIFER), carcass(Category.HEIFER)));
        Support steer = ESTIMATOR.estimate(carcass(Category.STEER)).support();
        Support cow = ESTIMATOR.estimate(carcass(Category.COW)).support();

        for (SourceKind kind : SourceKind.values()) {
            assertThat(lot.support().kg(kind)).isCloseTo(3 * steer.kg(kind) + cow.kg(kind), within(1e-9));
        }
        // meat of the cow 232.56 of 3 x 234.6 + 232.56 kg; of the rest 32.45 of 211.87 kg, see above
        assertThat(lot.support().toText()).isEqualTo("""
                36 % of the saleable weight rests on figures that the maker of the table assumed: 25 % at tissue level and 15 % \
                at retail level, some of it at both
                Cows (D): meat and fat trim are assumed (Ours: as the steers, but fatter)
                """);
    }

    @Test
    void levelsOfDifferentCutsAddUp() {
        YieldTable table = YieldTable.of(TestTables.cite(threeLevels(), row -> switch (row.cut()) {
                    case "striploin-steak" -> "split";
                    case "rump", "chuck" -> row.parent().equals("meat") ? "cows" : "dissected";
                    default -> "dissected";
                })
                .build());

        assertThat(YieldEstimator.of(table)
                        .estimate(carcass(Category.STEER))
                        .support()
                        .toText())
                .isEqualTo("""
                92 % of the saleable weight rests on figures that the maker of the table assumed: 86 % at primal level and 6 % \
                at retail level
                """);
    }

    @Test
    void threeLevelsMayStandOnOnePath() {
        YieldTable table =
                YieldTable.of(TestTables.cite(threeLevels(), row -> "split").build());

        assertThat(YieldEstimator.of(table)
                        .estimate(carcass(Category.STEER))
                        .support()
                        .toText())
                .isEqualTo("""
                100 % of the saleable weight rests on figures that the maker of the table assumed: 100 % at tissue level, 100 % \
                at primal level and 100 % at retail level, some of it at more than one
                """);
    }

    @Test
    void minceCountsAsTheLeanTrimThatItWas() {
        YieldEstimator minced = ESTIMATOR.with(MinceTarget.fatPercent(25));
        YieldEstimate estimate = minced.estimate(carcass(Category.STEER));

        assertThat(estimate.support())
                .isEqualTo(ESTIMATOR.estimate(carcass(Category.STEER)).support());
        assertThat(estimate.support().saleableKg())
                .isCloseTo(
                        estimate.saleableKg() - estimate.mince().orElseThrow().fatTrimKg(), within(1e-9));
    }

    @Test
    void standsInTheTextsOfEstimatesAndLotsAboveTheCautions() {
        YieldEstimate cow = ESTIMATOR.estimate(carcass(Category.COW));
        LotEstimate lot = ESTIMATOR.estimateLot(List.of(carcass(Category.COW)));

        for (Outturn outturn : List.of(cow, lot)) {
            assertThat(outturn.toText()).endsWith("\n" + cow.support().toText() + Cautions.PLANNING + "\n");
            assertThat(outturn.toHtml())
                    .contains("<p>Cows (D): meat and fat trim are assumed (Ours: as the steers, but fatter)</p>");
        }
        assertThat(cow.sample(new SplittableRandom(1), 1).carcasses().get(0).toText())
                .doesNotContain("saleable weight rests");
    }

    @Test
    void aLevelThatIsNoneIsRefused() {
        Support support = ESTIMATOR.estimate(carcass(Category.COW)).support();
        assertThatThrownBy(() -> support.assumedKg("primals"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no level \"primals\"; levels: tissue, primal, retail");
        assertThatThrownBy(() -> new Support.CategoryRows(Category.COW, "meat", List.of(), COWS))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no cuts of meat; rows have at least one");
    }

    @Test
    void twoAreEqualIfTheyHoldTheSame() {
        Support support = ESTIMATOR.estimate(carcass(Category.COW)).support();
        assertThat(support)
                .isEqualTo(ESTIMATOR.estimate(carcass(Category.COW)).support())
                .hasSameHashCodeAs(ESTIMATOR.estimate(carcass(Category.COW)).support())
                .isNotEqualTo(ESTIMATOR.estimate(carcass(Category.STEER)).support())
                .isNotEqualTo(ESTIMATOR
                        .estimateLot(List.of(carcass(Category.COW), carcass(Category.COW)))
                        .support());
    }

    /** One level of which nothing is saleable. */
    @Test
    void whereNothingIsSaleableNothingIsSaid() {
        TableDefinition definition = TableDefinition.builder("bones", "1")
                .levels("cut")
                .categories(Category.STEER)
                .source(COWS)
                .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE))
                .cut(Cut.of("loss", "Loss", "cut", CutKind.LOSS))
                .row("carcass", "bone", 1, "cows", 900)
                .row("carcass", "loss", 1, "cows", 100)
                .build();
        Support support = YieldEstimator.of(YieldTable.of(definition))
                .estimate(carcass(Category.STEER))
                .support();

        assertThat(support.saleableKg()).isZero();
        assertThat(support.share(SourceKind.ASSUMPTION)).isZero();
        assertThat(support.toText()).isEmpty();
        assertThat(support).hasToString("saleable 0.0 kg");
    }

    @Nested
    class ByClass {
        /** Cells of three classes of conformation at one of fat, two from another source; meat is split by coefficients. */
        private TableDefinition definition() {
            TableDefinition.Builder builder = TableDefinition.builder("by-class", "1")
                    .levels("tissue", "primal")
                    .categories(Category.STEER, Category.COW)
                    .ranges(TestTables.range(5, 11, 8, 8, 200, 500), TestTables.range(5, 11, 8, 8, 200, 500))
                    .source(DISSECTED)
                    .source(COWS)
                    .source(new SourceRow("trade", SourceKind.COMMON_PRACTICE, "The trade", ""))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("fore", "Fore primal", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("hind", "Hind primal", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .row("meat", "fore", 1, "trade", 600)
                    .row("meat", "hind", 1, "trade", 400);
            for (String category : List.of("*", "D")) {
                for (String conformation : List.of("O", "R", "U")) {
                    String source = conformation.equals("O") ? "dissected" : "cows";
                    builder.row(cell(category, conformation, "meat", 700, source))
                            .row(cell(category, conformation, "bone", 300, source));
                }
            }
            return builder.build();
        }

        private ClassRow cell(String category, String conformation, String cut, double grams, String source) {
            return new ClassRow(category, "*", "carcass", conformation, "3", cut, grams, 0, source);
        }

        @ParameterizedTest
        @CsvSource({"O=, 0", "O+, 0", "R-, 1", "U=, 1"})
        void theRowOfTheClassOfAGradeCounts(String conformation, double assumed) {
            YieldEstimator estimator = YieldEstimator.of(YieldTable.of(definition()));
            Support support = estimator
                    .estimate(Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse("3="), 340))
                    .support();

            assertThat(support.share(SourceKind.ASSUMPTION)).isEqualTo(assumed);
            assertThat(support.share(SourceKind.COMMON_PRACTICE)).isEqualTo(1 - assumed);
        }

        @Test
        void aCutStandsOnceForAllOfItsCells() {
            YieldEstimator estimator = YieldEstimator.of(YieldTable.of(definition()));
            LotEstimate lot = estimator.estimateLot(List.of("O=", "O+", "R=", "U=").stream()
                    .map(conformation ->
                            Carcass.of(Category.COW, Conformation.parse(conformation), FatClass.parse("3="), 340))
                    .toList());

            assertThat(lot.support().toText()).isEqualTo("""
                    50 % of the saleable weight rests on figures that the maker of the table assumed, at tissue level
                    Cows (D): meat and bone are published (Invented 1990)
                    Cows (D): meat and bone are assumed (Ours: as the steers, but fatter)
                    """);
        }
    }

    @Nested
    class Words {
        /** One level: meat, bone and others, cited by category and cut. */
        private String text(Function<BreakdownRow, String> cited, Category... categories) {
            TableDefinition definition = TestTables.cite(table(), cited)
                    .source(DISSECTED)
                    .source(COWS)
                    .source(new SourceRow("trade", SourceKind.COMMON_PRACTICE, "The trade", ""))
                    .source(new SourceRow("read", SourceKind.UNVERIFIED, "Invented 1992", ""))
                    .source(new SourceRow("derived", SourceKind.DERIVED, "Invented 1993; Invented 1994", ""))
                    .source(new SourceRow(
                            "long",
                            SourceKind.DERIVED,
                            "Invented 1993: levels of dissected lean cull cows, taken from a table that stands in its place;"
                                    + " Invented 1994: the slopes",
                            ""))
                    .source(new SourceRow("no-blank", SourceKind.PUBLISHED, "x".repeat(120), ""))
                    .build();
            return YieldEstimator.of(YieldTable.of(definition))
                    .estimateLot(
                            Arrays.stream(categories).map(SupportTest::carcass).toList())
                    .support()
                    .toText();
        }

        private TableDefinition table() {
            TableDefinition.Builder builder = TableDefinition.builder("words", "1")
                    .levels("tissue", "retail")
                    .categories(Category.values())
                    .source(TestTables.source(TestTables.SOURCE))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("t-bone", "T-bone steak", "retail", CutKind.STEAK))
                    .cut(Cut.of("rump", "Rump", "retail", CutKind.JOINT))
                    .cut(Cut.of("flank", "Flank", "retail", CutKind.JOINT))
                    .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
                    .cut(Cut.of("lean-trim", "Lean trim", "retail", CutKind.LEAN_TRIM))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE));
            for (String category : List.of("*", "AB", "D", "E", "Z")) {
                builder.row(category, "*", "carcass", "meat", 1, TestTables.SOURCE, 800);
            }
            builder.row("carcass", "bone", 1, TestTables.SOURCE, 200)
                    .row("Z", "*", "carcass", "bone", 1, TestTables.SOURCE, 200);
            for (String category : List.of("*", "E", "Z")) {
                builder.row(category, "*", "meat", "t-bone", 1, TestTables.SOURCE, 4)
                        .row(category, "*", "meat", "rump", 1, TestTables.SOURCE, 300)
                        .row(category, "*", "meat", "flank", 1, TestTables.SOURCE, 300);
            }
            for (String category : List.of("*", "Z")) {
                builder.row(category, "*", "meat", "dice", 1, TestTables.SOURCE, 200)
                        .row(category, "*", "meat", "lean-trim", 1, TestTables.SOURCE, 196);
            }
            return builder.build();
        }

        @ParameterizedTest
        @CsvSource(
                delimiter = '|',
                value = {
                    "dissected | meat is published (Invented 1990)",
                    "derived | meat is derived (Invented 1993; Invented 1994)",
                    "trade | meat is common practice, without a source (The trade)",
                    "read | meat is not checked against the source (Invented 1992)",
                    "long | meat is derived (Invented 1993: levels of dissected lean cull cows, taken"
                            + " from a table that stands in its place ...)",
                })
        void aSourceIsSaidByItsKind(String source, String said) {
            assertThat(text(row -> row.category().equals("D") ? source : "dissected", Category.COW))
                    .isEqualTo(NONE_ASSUMED + "\nCows (D): " + said + "\n");
        }

        @Test
        void aCitationWithoutABlankIsCutAll() {
            assertThat(text(row -> row.category().equals("D") ? "no-blank" : "dissected", Category.COW))
                    .isEqualTo(NONE_ASSUMED + "\nCows (D): meat is published (" + "x".repeat(100) + " ...)\n");
        }

        @Test
        void categoriesWithTheSameBehindThemStandTogether() {
            String text = text(
                    row -> row.category().equals("AB") || row.category().equals("D") ? "cows" : "dissected",
                    Category.STEER,
                    Category.COW,
                    Category.BULL,
                    Category.YOUNG_BULL);
            assertThat(text).isEqualTo("""
                    75 % of the saleable weight rests on figures that the maker of the table assumed, at tissue level
                    Young bulls (A), bulls (B) and cows (D): meat is assumed (Ours: as the steers, but fatter)
                    """);
        }

        @Test
        void aGroupOfCategoriesStandsForThoseOfTheLot() {
            assertThat(text(row -> row.category().equals("AB") ? "cows" : "dissected", Category.BULL))
                    .isEqualTo(TISSUES_ASSUMED + "\nBulls (B): meat is assumed (Ours: as the steers, but fatter)\n");
        }

        @Test
        void cutsOfAPrimalNameIt() {
            String text = text(
                    row -> row.parent().equals("meat") && row.category().equals("E") ? "trade" : "dissected",
                    Category.HEIFER);
            assertThat(text).isEqualTo(NONE_ASSUMED + """

                    Heifers (E): meat is published (Invented 1990)
                    Heifers (E): T-bone steak, rump and flank of meat are common practice, without a source (The trade)
                    """);
        }

        @Test
        void manyCutsAreCounted() {
            assertThat(text(
                            row -> row.parent().equals("meat") && row.category().equals("Z") ? "trade" : "dissected",
                            Category.CALF))
                    .isEqualTo(NONE_ASSUMED + """

                            Calves (Z): meat and bone are published (Invented 1990)
                            Calves (Z): 5 cuts of meat are common practice, without a source (The trade)
                            """);
            assertThat(text(row -> "dissected", Category.CALF))
                    .isEqualTo(NONE_ASSUMED + "\nCalves (Z): 7 cuts of 2 breakdowns are published (Invented 1990)\n");
        }

        @Test
        void aSmallPartIsNotRoundedAway() {
            assertThat(text(row -> row.cut().equals("t-bone") ? "cows" : "dissected", Category.STEER))
                    .isEqualTo(
                            "under 1 % of the saleable weight rests on figures that the maker of the table assumed, at"
                                    + " retail level\n");
            assertThat(text(
                            row -> row.cut().equals("t-bone") || row.parent().equals("carcass") ? "dissected" : "cows",
                            Category.STEER))
                    .isEqualTo(
                            "over 99 % of the saleable weight rests on figures that the maker of the table assumed, at"
                                    + " retail level\n");
        }
    }
}
