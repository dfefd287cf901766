package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.Range;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Published figures that stand in the shipped table as they are: were they copied right? */
class ShippedTableTranscriptionReferenceTest {
    private static final Pattern STANDARD_ERROR = Pattern.compile("standard error ([0-9.]+)");

    /** What the boning loss leaves of a dissected tissue. */
    private static final double LEFT = 0.994;

    /** grange, composition.csv: the published levels add to 1001. */
    @ParameterizedTest
    @CsvSource({"meat, meat", "fat-trim, fat", "bone, bone"})
    void levelOfATissueIsThePublishedOne(String cut, String name) {
        assertThat(dissected(8, 8, cut)).isCloseTo(published(name + " level") * 1000 / 1001, within(0.005));
    }

    /** grange, composition.csv: all over the fitted range, at fixed fat or conformation. */
    @ParameterizedTest
    @CsvSource({
        "meat, meat, conformation", "meat, meat, fat",
        "fat-trim, fat, conformation", "fat-trim, fat, fat",
        "bone, bone, conformation", "bone, bone, fat"
    })
    void slopeOfATissueIsThePublishedOneAllOverTheFittedRange(String cut, String name, String variable) {
        double perPoint = published(name + " per " + variable + " point");
        int moreConformation = variable.equals("conformation") ? 1 : 0;
        for (int c = 2; c < 14; c++) {
            for (int f = 3; f < 13; f++) {
                assertThat(dissected(c + moreConformation, f + 1 - moreConformation, cut) - dissected(c, f, cut))
                        .as("conformation %d, fat %d", c, f)
                        .isCloseTo(perPoint, within(0.005));
            }
        }
    }

    /** grange, composition.csv: as printed, less the boning loss. */
    @ParameterizedTest
    @CsvSource({
        "meat, meat, conformation, 0.40", "meat, meat, fat, 0.47",
        "fat-trim, fat, conformation, 0.36", "fat-trim, fat, fat, 0.56",
        "bone, bone, conformation, 0.20", "bone, bone, fat, 0.24"
    })
    void standardErrorOfATissueSlopeIsThePublishedOne(String cut, String name, String variable, double printed) {
        Matcher stated = STANDARD_ERROR.matcher(
                ReferenceRows.row("composition.csv", "quantity", name + " per " + variable + " point")
                        .getOrDefault("condition", ""));
        assertThat(stated.find()).isTrue();
        assertThat(Double.parseDouble(stated.group(1))).isEqualTo(printed);

        assertThat(Shipped.TABLE.definition().coefficientNotes().stream()
                        .filter(note -> note.cut().equals(cut)
                                && note.term().equals("per_" + variable + "_point")
                                && note.source().equals("grange-derived"))
                        .map(CoefficientNote::standardError))
                .isNotEmpty()
                .allSatisfy(error -> assertThat(error).isCloseTo(printed * LEFT, within(0.00005)));
    }

    /**
     * grange and mcgee2016: conformation 2.0 to 12.0 (steers) or 14.4 (bulls), fat 2.8 to 13.3 (steers), 234 to 501 kg,
     * rounded inwards.
     */
    @Test
    void fittedRangeIsThatOfTheDissectedCattle() {
        assertThat(numbers("fitted conformation range")).containsExactly(2.0, 12.0, 14.4);
        assertThat(numbers("fitted fat range")).containsExactly(2.8, 13.3);
        assertThat(numbers("fitted weight range")).containsExactly(234.0, 501.0);
        assertThat(Shipped.TABLE.definition().fitted().conformation()).isEqualTo(new Range(2, 14));
        assertThat(Shipped.TABLE.definition().fitted().fat()).isEqualTo(new Range(3, 13));
        assertThat(Shipped.TABLE.definition().fitted().weightKg()).isEqualTo(new Range(234, 501));
    }

    /** charles1986: the hindquarter's part of fat and bone. */
    @ParameterizedTest
    @CsvSource({"fat-trim, 0.570", "bone, 0.450"})
    void hindquarterHoldsThePublishedPartOfFatAndBone(String cut, double part) {
        assertThat(1 - Shipped.TABLE.foreShares("10-rib forequarter").get(cut)).isCloseTo(part, within(1e-9));
    }

    /** heggli2023: fat trim is taken as 72 % fat. */
    @Test
    void fatTrimHasThePublishedFatContent() {
        assertThat(Shipped.TABLE.catalogue().cut("fat-trim").fatPct()).isEqualTo(72.0);
    }

    private static double published(String quantity) {
        return numbers(quantity).get(0);
    }

    private static List<Double> numbers(String quantity) {
        return ReferenceRows.numbers(
                ReferenceRows.row("composition.csv", "quantity", quantity).getOrDefault("value", ""));
    }

    /** g of a tissue per kg of meat, fat trim and bone: dissections have no boning loss. */
    private static double dissected(double conformation, double fat, String tissue) {
        YieldEstimate estimate = Shipped.estimate(Category.STEER, conformation, fat, Shipped.KG);
        return 1000
                * estimate.kg("tissue", tissue)
                / (estimate.kg("tissue", "meat") + estimate.kg("tissue", "fat-trim") + estimate.kg("tissue", "bone"));
    }
}
