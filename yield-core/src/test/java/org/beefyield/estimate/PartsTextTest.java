package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What intervals and promises say of themselves. */
class PartsTextTest {
    private static final Carcass STEER =
            Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

    /** The small table with SDs between lots, runs and halls as fractions of those between carcasses. */
    private static YieldTable table(double lot, double run, double hall) {
        TableDefinition small = TestTables.small();
        TableDefinition.Builder table = TestTables.smallWithoutRows();
        small.breakdown()
                .forEach(row -> table.row(new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        SharedSds.of(lot * row.sdGPerKg(), run * row.sdGPerKg(), hall * row.sdGPerKg()),
                        row.source())));
        return YieldTable.of(table.build());
    }

    private static LotEstimate lot(YieldTable table, int head) {
        return YieldEstimator.of(table).estimateLot(Collections.nCopies(head, STEER));
    }

    @Test
    void aLotOfATableThatStatesAHallPartShowsBothIntervals() {
        // meat: 238 kg a head; SD of one 0.02 x 340 = 6.8 kg, of 100: between 68; lot 0.1 x 680 = 68, run 136, hall
        // 340;
        // any hall: root of 6 x 68^2 + 340^2 = 378.6, times 1.64485: 622.7; own hall: root of 6 x 68^2 = 166.6, times
        // 1.64485: 274.0. The largest SD of a level has its first digit in the hundreds, so kg stand to the tens
        LotEstimate lot = lot(table(0.1, 0.2, 0.5), 100);
        assertThat(lot.toText()).contains("""

                tissue level      kg  % of cold weight  any hall, kg: low    high  as the table cuts, kg: low    high
                -----------------------------------------------------------------------------------------------------
                Meat          23,800              70.0             23,180  24,420                      23,530  24,070
                Fat trim       3,740              11.0              3,120   4,360                       3,470   4,010
                Bone           6,260              18.4              5,940   6,570                       6,119   6,393
                Loss             200               0.6                173     235                       190.3   217.7
                -----------------------------------------------------------------------------------------------------
                Total         34,000             100.0

                90 % sure of what will be weighed. Any hall: how carcasses of one grade differ, how lots differ, how boning runs \
                differ and how your hall differs from the table; most of it: how your hall differs from the table. A hall that cuts as \
                the table does: all but how your hall differs from the table; most of it: how boning runs differ

                """);
        assertThat(lot.notes()).isEmpty();
        assertThat(lot.inOwnHall().toText()).contains("""
                tissue level      kg  % of cold weight  90 % interval, kg: low    high
                """).contains("""

                90 % sure of what will be weighed: how carcasses of one grade differ, how lots differ and how boning runs differ; most \
                of it: how boning runs differ; left out: how your hall differs from the table
                """);
    }

    @Test
    void aSingleCarcassShowsOneIntervalWithAllItHolds() {
        String text = YieldEstimator.of(table(0.1, 0.1, 0.5)).estimate(STEER).toText();
        assertThat(text)
                .contains("tissue level      kg  % of cold weight  90 % interval, kg: low    high\n")
                .contains(
                        "90 % sure of what will be weighed: how carcasses of one grade differ, how lots differ, how boning runs"
                                + " differ and how your hall differs from the table; most of it: how carcasses of one grade differ\n")
                .doesNotContain("as the table cuts");
    }

    @Test
    void whatATableDoesNotStateIsSaidOnEveryLot() {
        assertThat(lot(YieldTable.of(TestTables.small()), 2).notes())
                .containsExactly(
                        "errors that carcasses of a lot, a run or a hall have in common aren't in these intervals: the"
                                + " table states none");
        // a hall's own table states a hall part of 0
        LotEstimate own = lot(table(0.1, 0.1, 0), 2);
        assertThat(own.notes()).isEmpty();
        assertThat(own.toText()).contains("90 % interval, kg: low").doesNotContain("hall");
        TableDefinition small = TestTables.small();
        TableDefinition.Builder lotsAlone = TestTables.smallWithoutRows();
        small.breakdown()
                .forEach(row -> lotsAlone.row(new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        new SharedSds(row.sdGPerKg() / 10, null, null),
                        row.source())));
        assertThat(lot(YieldTable.of(lotsAlone.build()), 2).notes())
                .containsExactly(
                        "errors that carcasses of a run or a hall have in common aren't in these intervals: the table states"
                                + " none");
    }

    @Test
    void aTableWithoutSdsHasNoIntervalsAndSaysNothingOfThem() {
        TableDefinition.Builder sure = TestTables.smallWithoutRows();
        TestTables.small()
                .breakdown()
                .forEach(row -> sure.row(new BreakdownRow(
                        row.category(), row.way(), row.parent(), row.cut(), row.coefficients(), 0, row.source())));
        LotEstimate lot = lot(YieldTable.of(sure.build()), 2);
        assertThat(lot.notes()).isEmpty();
        assertThat(lot.toText()).doesNotContain("sure");
        assertThat(lot.intervalWords(Figure.saleable())).isEmpty();
    }

    @Test
    void promisesAreRoundedDownAndSayWhatTheyAreMostUncertainBy() {
        // fore primal: 560 g of 238 kg a head, 13328 kg; hind primal 10472 kg; z at 95 %: 1.64485
        // SD of fore, of 100: between, lot and run each 100 kg x root((0.56 x 6.8)^2 + (0.7 x 1.7)^2) / 10 = 39.9
        // hall 5 times that, 199.5; together root(3 x 39.9^2 + 199.5^2) = 211.1
        LotEstimate lot = lot(table(0.1, 0.1, 0.5), 100);
        assertThat(lot.promiseTable(0.95).toText()).isEqualTo("""
                primal level  expected, kg  promise, kg  largest doubt
                -----------------------------------------------------------------------------
                Fore primal         13,330       12,980  how your hall differs from the table
                Hind primal         10,470       10,190  how your hall differs from the table
                Fat trim             3,740        3,140  how your hall differs from the table
                Bone                 6,260        5,960  how your hall differs from the table
                Loss                   200          174  how your hall differs from the table
                """);
        assertThat(lot.inOwnHall().promiseTable(0.95).toText())
                .contains("how carcasses of one grade differ")
                .doesNotContain("your hall");
    }

    @ParameterizedTest
    @EnumSource
    void everyPartHasWordsOfItsOwn(UncertaintyPart part) {
        Set<UncertaintyPart> others = EnumSet.allOf(UncertaintyPart.class);
        others.remove(part);
        assertThat(PartsText.words(part)).isNotBlank();
        assertThat(others.stream().map(PartsText::words)).doesNotContain(PartsText.words(part));
    }

    @Test
    void figuresOfALotArePrintedToThePlaceThatTheLargestSdJustifiesButNoneIsRoundedAway() {
        // the SD of the meat of a million carcasses of one run is 0.005 x 340e6 = 1.7e6 kg: hundreds of tonnes; loss is
        // 6 g/kg of 340,000 t, 2040 t
        assertThat(million(lot(table(0, 0.25, 0), 1000)).toText())
                .contains("Meat          238,000,000")
                .contains("Loss            2,000,000");
        // where halls differ too, the kg have the place of the narrower interval beside them: 0.02 x 340 x 1000 = 6800
        // kg
        assertThat(million(lot(table(0, 0, 0.25), 1000)).toText()).contains("Loss            2,040,000");
        // SDs between runs alone, of the meat 0.3 x 0.02 x 34000 = 204 kg, so tens; loss is 204 kg, to the hundreds 200
        assertThat(lot(table(0, 0.3, 0), 100).toText()).contains("Loss             200 ");
        // of one head: SD 6.8 kg, so tenths; of ten: meat 29.6 kg, so ones
        assertThat(lot(table(0, 0.3, 0), 1).toText()).contains("Meat          238.0 ");
        assertThat(lot(table(0, 0.3, 0), 10).toText())
                .contains("Meat          2,380 ")
                .contains("Loss             20 ");
    }

    private static LotEstimate million(LotEstimate thousand) {
        LotEstimate sum = thousand;
        for (int i = 1; i < 1000; i++) {
            sum = sum.plus(thousand);
        }
        return sum;
    }

    @Test
    void aDifferenceSaysWhatItsTwoIntervalsMean() {
        YieldEstimator estimator = YieldEstimator.of(table(0.1, 0.1, 0.5));
        YieldEstimate good = estimator.estimate(STEER.with(Conformation.parse("U=")));
        Difference difference = good.minus(estimator.estimate(STEER), Figure.cut("meat"));
        assertThat(difference.toText()).endsWith("""

                        Errors that both sides have in common cancel
                        90 % sure of what will be weighed: how carcasses of one grade differ, how lots differ and how boning runs differ; \
                        most of it: how carcasses of one grade differ
                        """);
        assertThat(difference.expectedIntervalWords()).isEmpty();
    }

    @Test
    void theExpectationIsCalledThat() {
        TableDefinition.Builder noted = TestTables.small().toBuilder();
        for (String row : List.of("* meat", "* fat-trim", "* bone", "D meat", "D fat-trim")) {
            String[] key = row.split(" ", -1);
            noted.coefficientNote(new CoefficientNote(
                    key[0], "*", "carcass", key[1], "per_conformation_point", 2.0, TestTables.SOURCE));
        }
        YieldTable table = YieldTable.of(noted.build());
        YieldEstimator estimator = YieldEstimator.of(table);
        Difference difference = estimator
                .estimate(STEER.with(Conformation.parse("U=")))
                .minus(estimator.estimate(STEER), Figure.kind(CutKind.PRIMAL));
        assertThat(difference.expectedIntervalWords())
                .isEqualTo(List.of(
                        "90 % sure of what is expected, not of what will be weighed: how well the table is known"));
    }
}
