package org.beefyield.data.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.finish.Age;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.Feed;
import org.beefyield.finish.FinishAnimal;
import org.beefyield.finish.NetEnergy;
import org.beefyield.finish.PriceMove;
import org.beefyield.finish.Quantity;
import org.beefyield.finish.Replacement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FarmFilesTest {
    private static final Path EXAMPLES = Path.of("examples");
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 3);

    private static Source source(String text) {
        return Source.of("file.csv", text.getBytes(StandardCharsets.UTF_8));
    }

    private static PenSheet pen(String text) {
        return PenReader.read(source(text), CsvForm.standard(), null, TODAY);
    }

    @Test
    void thePenOfTheExamplesIsRead() {
        DayCurve gain = DayCurve.constant(1.3);
        PenSheet sheet = PenReader.read(EXAMPLES.resolve("tarrowmere-pen.csv"), gain, TODAY);
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.animals()).hasSize(14);
        FinishAnimal first = sheet.animals().get(0);
        assertThat(first).hasToString("TM-2201 C R= 3- 604 kg live");
        assertThat(first.gain()).isEqualTo(gain);
        assertThat(first.age()).hasValue(Age.born(LocalDate.of(2024, 6, 12), TODAY));
        assertThat(first.assured()).hasValue(true);
        assertThat(sheet.animals().get(1).gain()).isEqualTo(DayCurve.constant(1.2));
    }

    @Test
    void everyColumnOfAPenIsRead() {
        PenSheet sheet = pen(
                "tag,category,conformation,fat_class,cold_kg,weight_sd_kg,gain_kg_per_day,gain_sd_kg_per_day," + """
                killing_out_pct,killing_out_sd_pct,conformation_sd_points,fat_sd_points,age_months
                T1,D,O-,4H,310,8,0.6,0.2,51.5,1.5,0.5,0.7,62.5
                """);
        assertThat(sheet.problems()).isEmpty();
        FinishAnimal cow = sheet.animals().get(0);
        assertThat(cow.category()).isEqualTo(Category.COW);
        assertThat(cow.isLiveWeight()).isFalse();
        assertThat(cow.weightKg()).isEqualTo(310);
        assertThat(cow.weightSdKg()).isEqualTo(8);
        assertThat(cow.gainSd()).hasValue(0.2);
        assertThat(cow.killingOut()).hasValue(0.515);
        assertThat(cow.killingOutSd()).hasValue(0.015);
        assertThat(cow.conformationSd()).hasValue(0.5);
        assertThat(cow.fatSd()).hasValue(0.7);
        assertThat(cow.age()).hasValue(Age.months(62.5));
        assertThat(cow.assured()).isEmpty();
    }

    @Test
    void aRowsOwnGainMaySlow() {
        PenSheet sheet = PenReader.read(source("""
                tag,category,conformation,fat_class,live_kg,gain_kg_per_day,gain_slows_kg_per_day,killing_out_pct,killing_out_sd_pct
                T1,C,R=,3=,600,1.5,0.01,,
                T2,C,R=,3=,600,1.5,,,
                T3,C,R=,3=,600,,,,
                T4,C,R=,3=,600,,0.01,,
                T5,C,R=,3=,600,1.5,-0.01,,
                T6,C,R=,3=,600,1.5,,0.55,
                T7,C,R=,3=,600,1.5,,,55
                """), CsvForm.standard(), DayCurve.falling(1.3, 0.005), TODAY);
        assertThat(sheet.animals())
                .extracting(FinishAnimal::gain)
                .containsExactly(DayCurve.falling(1.5, 0.01), DayCurve.constant(1.5), DayCurve.falling(1.3, 0.005));
        assertThat(sheet.problems())
                .extracting(Problem::toString)
                .containsExactly(
                        "file.csv line 5, gain_slows_kg_per_day: a row that says how its gain slows says gain_kg_per_day",
                        "file.csv line 6, gain_slows_kg_per_day: fall a day: -0.01 is not a finite number, 0 or more",
                        "file.csv line 7, killing_out_pct: killing-out 0.55 % of live weight is outside 30 to 75 %",
                        "file.csv line 8, killing_out_sd_pct: SD of killing-out, % of live weight: 55 is above 10, the most"
                                + " there can be");
    }

    @Test
    void badRowsAreNamedAndTheGoodOnesStay() {
        PenSheet sheet = pen("""
                tag,category,conformation,fat_class,live_kg,cold_kg,gain_kg_per_day,age_months,born
                T1,C,R=,3=,600,,1.2,,2024-06-01
                T1,C,R=,3=,610,,1.2,,
                T2,C,R=,6,610,,1.2,,
                T3,C,R=,3=,,,1.2,,
                T4,C,R=,3=,6100,,1.2,,
                T5,C,R=,3=,610,330,1.2,,
                T6,C,R=,3=,610,,,,
                T7,C,R=,3=,610,,12,,
                T8,A,R=,3=,610,,1.2,27,
                T9,C,R=,3=,610,,1.2,27,2024-06-01
                ,C,R=,3=,610,,1.2,27,
                """);
        assertThat(sheet.animals())
                .extracting(animal -> animal.id().orElseThrow())
                .containsExactly("T1");
        assertThat(sheet.problems())
                .extracting(Problem::toString)
                .containsExactly(
                        "file.csv line 3, tag: an animal with this tag stands in line 2",
                        "file.csv line 4, fat_class: fat class 6 is outside 1 to 5; a position on the"
                                + " 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                        "file.csv line 5, live_kg: a row says live_kg or cold_kg",
                        "file.csv line 6, live_kg: live weight 6100 kg is not above 0 and at most" + " 2000 kg",
                        "file.csv line 7, live_kg: a row says live_kg or cold_kg, not both",
                        "file.csv line 8, gain_kg_per_day: no gain is given, here or in the costs file (a row gain);"
                                + " kg of live weight a day",
                        "file.csv line 9, gain_kg_per_day: live gain 12 kg a day is outside -5 to 5 kg a day",
                        "file.csv line 10, age_months: age 27 months does not fit category A (uncastrated"
                                + " male from 12 to under 24 months)",
                        "file.csv line 11, age_months: a row says born or age_months, not both",
                        "file.csv line 12, tag: every animal has a tag");
    }

    @Test
    void aDayOfBirthNeedsToday() {
        PenSheet sheet = PenReader.read(
                source(
                        "tag,category,conformation,fat_class,live_kg,gain_kg_per_day,born\nT1,C,R=,3=,600,1.2,2024-06-01\n"),
                CsvForm.standard(),
                null,
                null);
        assertThat(sheet.problems())
                .singleElement()
                .hasToString(
                        "file.csv line 2, born: the day of the forecast isn't given (in the command by --day), so that a"
                                + " day of birth says no age");
        assertThatThrownBy(() -> pen("tag,category,conformation,fat_class,weight\n"))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageContaining("weight");
    }

    @Test
    void theCostsOfTheExamplesAreRead() {
        HoldingSheet sheet = HoldingReader.read(EXAMPLES.resolve("tarrowmere-costs.csv"));
        assertThat(sheet.currency()).isEqualTo("EUR");
        assertThat(sheet.costs().feed())
                .hasValue(Feed.byEnergy(new NetEnergy.Diet(75, NetEnergy.USUAL_GROSS_MJ_PER_KG, 650, 0), 0.27));
        assertThat(sheet.costs().yardagePerDay()).isEqualTo(0.9);
        assertThat(sheet.costs().interestPercentPerYear()).isEqualTo(6);
        assertThat(sheet.costs().deathsPercentPerYear()).isEqualTo(1.5);
        assertThat(sheet.costs().replacement()).hasValue(new Replacement(60, 120, 10));
        assertThat(sheet.costs().haulagePerLoad()).isEqualTo(180);
        assertThat(sheet.gain()).hasValue(DayCurve.falling(1.3, 0.005));
        assertThat(sheet.assumptions().value(Quantity.FAT_POINTS_PER_DAY)).isEqualTo(0.035);
        assertThat(sheet.assumptions()).hasToString("10 assumptions, 1 of the caller's");
    }

    @Test
    void everyAssumptionCanBeReplacedByItsCode() {
        StringBuilder text = new StringBuilder("item,value,unit,kind,source\n");
        Assumptions.shipped()
                .all()
                .forEach(one -> text.append(one.quantity().code())
                        .append(',')
                        .append(one.value())
                        .append(',')
                        .append(one.quantity().unit())
                        .append(",common-practice,ours\n"));
        Assumptions read =
                HoldingReader.read(source(text.toString()), CsvForm.standard()).assumptions();
        assertThat(read).hasToString("10 assumptions, 10 of the caller's");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "feed,12,kg a day,,|line 2, item: \"feed\" is none of feed-kg-per-day feed-digestible",
                "yardage,0.9,EUR a head,,|line 2, unit: unit \"EUR a head\" is not a currency and a"
                        + " day, such as EUR a day",
                "feed-kg-per-day,12,t a day,,|line 2, unit: unit \"t a day\" is not \"kg a day\", that"
                        + " of this item",
                "feed-kg-per-day,12,kg a day,,|line 2, item: feed-kg-per-day needs a row" + " feed-price",
                "gain-slows,0.01,kg a day a day,,|gain-slows needs a row gain",
                "gain,9,kg a day,,|line 2, value: live gain 9 kg a day is outside -5 to 5 kg a day",
                "empty-days,7,days,,|empty-days needs a row next-margin",
                "mature-weight,650,kg,,|mature-weight needs a row feed-digestible",
                "interest,120,% a year,,|value: interest, % a year: 120 is above 100, the most there can be",
                "yardage,-1,EUR a day,,|value: yardage a day: -1 is not a finite number, 0 or more",
                "fat-points-per-day,3,points a day,assumption,ours|fat gained, points a day: 3 is outside -0.2 to 0.2",
                "fat-points-per-day,0.03,points a day,,ours|kind: an assumption says its kind: published",
                "fat-points-per-day,0.03,points a day,assumption,|source: an assumption says where it comes from",
            })
    void costsThatCantBeUsedAreNamed(String row, String message) {
        assertThatThrownBy(() ->
                        HoldingReader.read(source("item,value,unit,kind,source\n" + row + "\n"), CsvForm.standard()))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageContaining(message);
    }

    @Test
    void aCostsFileHasOneCurrencyAndEachItemOnce() {
        assertThatThrownBy(() -> HoldingReader.read(
                        source(
                                "item,value,unit,kind,source\nyardage,1,EUR a day,,\nhaulage,1,GBP a load,,\nyardage,2,EUR a day,,\n"),
                        CsvForm.standard()))
                .hasMessageContaining("line 3, unit: currency \"GBP\" differs from \"EUR\" in line 2")
                .hasMessageContaining("line 4, item: this item stands in line 2");
        assertThatThrownBy(() -> HoldingReader.read(source("""
                item,value,unit,kind,source
                feed-kg-per-day,12,kg a day,,
                feed-price,0.3,EUR a kg,,
                feed-digestible,75,% of gross energy,,
                mature-weight,650,kg,,
                """), CsvForm.standard()))
                .hasMessageContaining("feed is counted by kg or by energy, not both");
    }

    @Test
    void movesOfPricesAreRead() {
        assertThat(PriceMoveReader.read(EXAMPLES.resolve("tarrowmere-price-moves.csv"), "EUR"))
                .isEqualTo(List.of(new PriceMove(14, 0.05, 0.03), new PriceMove(35, -0.1, -0.05)));
        assertThatThrownBy(() -> PriceMoveReader.read(
                        source(
                                "from_day,paid_per_kg,worth_per_kg,currency\n14,0.1,,GBP\n10,0.1,,EUR\nsoon,0.1,,EUR\n10,0.2,,EUR\n"),
                        CsvForm.standard(),
                        "EUR"))
                .hasMessageContaining("line 2, currency: currency \"GBP\" is not EUR, in which is paid")
                .hasMessageContaining("line 4, from_day: \"soon\" is not a whole number of days such as 14")
                .hasMessageContaining("line 5, from_day: day 10 stands behind day 10; days ascend");
    }
}
