package org.beefyield.data.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.Support;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.json.CarcassJson;
import org.beefyield.json.EstimateJson;
import org.beefyield.json.InvalidFormException;
import org.beefyield.json.LotJson;
import org.beefyield.json.SupportJson;
import org.beefyield.json.ValueJson;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.definition.SourceKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class JsonTest {
    @Test
    void aCarcassIsWrittenAsItPrints() {
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R+"), FatClass.parse("4L"), 342.5)
                .withId("UK1")
                .withKillDate("2026-11-03");
        String text = Json.text(CarcassJson.of(carcass));

        assertThat(text)
                .isEqualTo(
                        "{\"id\":\"UK1\",\"lot\":null,\"supplier\":null,\"killDate\":\"2026-11-03\",\"hall\":null,\"category\":\"C\",\"conformation\":\"R+\","
                                + "\"fatClass\":\"4L\",\"coldWeightKg\":342.5,\"ageMonths\":null,\"assured\":null}");
        assertThat(Json.read("x", text, CarcassJson.class).carcass()).isEqualTo(carcass);
    }

    @Test
    void figuresOfAnEstimateAreThoseOfTheEstimate() {
        var estimate = YieldEstimator.of(ShippedTables.boneless2026())
                .estimate(Carcass.of(Category.HEIFER, Conformation.parse("O+"), FatClass.parse("4="), 291.3));
        EstimateJson form = Json.read("x", Json.text(EstimateJson.of(estimate, 0.8)), EstimateJson.class);

        for (var level : form.levels()) {
            for (var cut : level.cuts()) {
                assertThat(cut.kg()).isEqualTo(estimate.kg(level.level(), cut.code()));
                assertThat(cut.lowKg())
                        .isEqualTo(estimate.interval(level.level(), cut.code(), 0.8)
                                .low());
            }
        }
        assertThat(form.levels()).extracting("level").isEqualTo(estimate.table().levels());
        assertThat(form.cautions()).isNotEmpty();
    }

    @Test
    void everyCutTellsFromWhichPartsItsSdComes() {
        YieldEstimator estimator =
                YieldEstimator.of(ShippedTables.boneless2026()).with(new ScaleError(0.5, 1));
        LotEstimate lot = estimator.estimateLot(
                List.of(Carcass.of(Category.STEER, Conformation.parse("U"), FatClass.parse("3"), 342.5)));
        LotJson all = LotJson.of(lot, 0.9);
        LotJson own = LotJson.of(lot.inOwnHall(), 0.9);

        assertThat(all.countedParts())
                .containsExactly(
                        "between_carcasses",
                        "coefficients",
                        "grade_resolution",
                        "hall",
                        "lot",
                        "run",
                        "scale_bias",
                        "scale_repeatability");
        assertThat(own.countedParts()).hasSize(7).doesNotContain("hall");
        for (LotJson form : List.of(all, own)) {
            for (var level : form.levels()) {
                for (var cut : level.cuts()) {
                    if (cut.kg() == 0) {
                        assertThat(cut.sdKgByPart()).isEmpty();
                        assertThat(cut.largestPart()).isNull();
                        continue;
                    }
                    double squares = cut.sdKgByPart().values().stream()
                            .mapToDouble(sd -> sd * sd)
                            .sum();
                    assertThat(squares).as(cut.code()).isCloseTo(cut.sdKg() * cut.sdKg(), within(1e-9));
                    assertThat(cut.sdKgByPart().values()).allMatch(sd -> sd > 0);
                    assertThat(form.countedParts()).containsAll(cut.sdKgByPart().keySet());
                    assertThat(cut.sdKgByPart().get(cut.largestPart()))
                            .as(cut.code())
                            .isEqualTo(Collections.max(cut.sdKgByPart().values()));
                }
            }
        }
        assertThat(all.levels().get(0).cuts().get(0).sdKgByPart())
                .containsKeys(
                        "between_carcasses", "coefficients", "grade_resolution", "scale_bias", "scale_repeatability")
                .containsEntry("scale_bias", lot.sd(Figure.cut("meat"), UncertaintyPart.SCALE_BIAS));
    }

    @Test
    void anEstimateAndALotTellWhatTheyRestOn() {
        YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
        Carcass cow = Carcass.of(Category.COW, Conformation.parse("O-"), FatClass.parse("4H"), 280);
        LotEstimate lot = estimator.estimateLot(
                List.of(Carcass.of(Category.STEER, Conformation.parse("R+"), FatClass.parse("3="), 342.5), cow));
        Support ofLot = lot.support();
        SupportJson form = LotJson.of(lot, 0.9).support();

        assertThat(form.saleableKg()).isEqualTo(ofLot.saleableKg());
        assertThat(form.kgByWeakest())
                .containsOnlyKeys("published", "derived", "common-practice", "unverified", "assumption")
                .containsEntry("derived", ofLot.kg(SourceKind.DERIVED))
                .containsEntry("assumption", ofLot.kg(SourceKind.ASSUMPTION));
        assertThat(form.assumedKgByLevel())
                .containsOnlyKeys("tissue", "primal", "retail")
                .containsEntry("retail", ofLot.assumedKg("retail"));
        Support.CategoryRows first = ofLot.categories().get(0);
        assertThat(form.categories())
                .hasSameSizeAs(ofLot.categories())
                .first()
                .isEqualTo(new SupportJson.CategoryRows(
                        "D",
                        "carcass",
                        first.cuts().stream().map(Cut::code).toList(),
                        first.source().kind().code(),
                        first.source().source(),
                        first.source().citation()));
        assertThat(Json.text(EstimateJson.of(estimator.estimate(cow), 0.9)))
                .contains("\"support\":{\"saleableKg\":"
                        + estimator.estimate(cow).support().saleableKg() + ",");
    }

    @ParameterizedTest
    @EnumSource
    void lotsAndValuesAreReadBackAsTheyAre(Mapper mapper) {
        YieldEstimator estimator =
                YieldEstimator.of(ShippedTables.boneless2026()).with(MinceTarget.fatPercent(15));
        LotEstimate lot = estimator.estimateLot(List.of(
                Carcass.of(Category.STEER, Conformation.parse("R+"), FatClass.parse("3="), 342.5),
                Carcass.of(Category.COW, Conformation.parse("O-"), FatClass.parse("4H"), 280)));
        PriceList.Builder prices =
                PriceList.builder("JPY").decimals(0).mince(900).otherPerHead("slaughter", -5000);
        for (CutKind kind : CutKind.values()) {
            prices.kind(kind, kind == CutKind.STEAK ? 3000.5 : 700);
        }
        Value value = Valuer.of(prices.build(), estimator).value(lot);

        LotJson lotForm = LotJson.of(lot, 0.9);
        assertThat(mapper.read(mapper.write(lotForm), LotJson.class)).isEqualTo(lotForm);
        assertThat(lotForm.categories()).isEqualTo(Map.of("C", 1L, "D", 1L));
        assertThat(lotForm.mince()).isNotNull();
        ValueJson valueForm = ValueJson.of(value, 0.9);
        ValueJson back = mapper.read(mapper.write(valueForm), ValueJson.class);
        assertThat(back).isEqualTo(valueForm);
        assertThat(back.money()).isEqualTo(value.money().amount());
        assertThat(back.lines().stream().mapToDouble(ValueJson.Line::amount).sum())
                .isEqualTo(back.amount());
        assertThat(back.lines()).last().extracting(ValueJson.Line::cut).isNull();
    }

    @Test
    void anEmptyTextIsNamed() {
        assertThatThrownBy(() -> Json.read("r.json", " ", CarcassJson.class))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("r.json: the text is empty; a JSON object is needed");
    }

    @Test
    void everyFaultOfACarcassIsNamedAtOnce() {
        InvalidFormException found = catchThrowableOfType(
                InvalidFormException.class,
                () -> new CarcassJson(null, null, null, null, null, "X", null, "9", -90.0, null, null).carcass());
        assertThat(found.faults())
                .extracting(InvalidFormException.Fault::component)
                .containsExactly("category", "conformation", "fatClass", "coldWeightKg");
        assertThat(found.faults()).extracting(InvalidFormException.Fault::value).containsExactly("X", "", "9", "-90.0");
        assertThat(found.faults())
                .extracting(InvalidFormException.Fault::message)
                .startsWith("category \"X\" is none of C A B D E Z", "conformation is missing")
                .endsWith("cold weight -90 kg is not above 0 and at most 1200 kg");
        InvalidFormException old = catchThrowableOfType(
                InvalidFormException.class,
                () -> new CarcassJson(null, null, null, " ", "", "A", "R", "3", 340.0, 25, null).carcass());
        assertThat(old)
                .hasMessageStartingWith("killDate: the kill date is blank; it is a day such as 2026-11-03; the hall is"
                        + " blank; it is a name such as Mereside; ageMonths: age 25 months");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            {"id": "A", "fatclass": "3"}       | r.json line 1, fatclass: there is no component "fatclass"; components: id, lot, supplier, killDate, hall, category, conformation, fatClass, coldWeightKg, ageMonths, assured
            {"coldWeightKg": "342"}            | r.json line 1, coldWeightKg: a number is needed here
            {"id": [1]}                        | r.json line 1, id: text in quotes is needed here
            []                                 | r.json line 1: a JSON object is needed here
            null                               | r.json line 1: null stands here; a JSON object is needed
            {"id": "A", "id": "B"}             | r.json line 1: a component stands twice
            {"ageMonths": 23.9}                | r.json line 1, ageMonths: "23.9" stands here; a whole number is needed
            {"ageMonths": 99999999999}         | r.json line 1, ageMonths: the number is too large
            {"id": true}                       | r.json line 1, id: "true" stands here; text in quotes is needed
            {"id": 1e3}                        | r.json line 1, id: "1000.0" stands here; text in quotes is needed
            {"id": 12}                         | r.json line 1, id: "12" stands here; text in quotes is needed
            {                                  | r.json line 1: from character 2 on this is no JSON
            {"coldWeightKg": NaN}              | r.json line 1: from character 21 on this is no JSON
            """)
    void whatCantBeReadIsNamed(String text, String message) {
        assertThatThrownBy(() -> Json.read("r.json", text, CarcassJson.class))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(message);
    }
}
