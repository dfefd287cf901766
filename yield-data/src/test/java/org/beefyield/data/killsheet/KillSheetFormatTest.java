package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.junit.jupiter.api.Test;

class KillSheetFormatTest {
    private static final CsvForm SEMICOLONS = CsvForm.builder().separator(';').build();

    private final KillSheetFormat standard = KillSheetFormat.standard();

    @Test
    void nothingIsDeclaredByDefault() {
        assertThat(standard.form()).isEqualTo(CsvForm.standard());
        assertThat(standard.conformationReading()).isEqualTo(GradeReading.THIRDS);
        assertThat(standard.conformationPointsWidth()).isEqualTo(1);
        assertThat(standard.fatPointsWidth()).isEqualTo(1);
        assertThat(standard.totals()).isEmpty();
        assertThat(standard.isRowASide()).isFalse();
        assertThat(standard.sidesApart()).isInfinite();
        assertThat(standard)
                .hasToString("separator \",\", decimal point, UTF-8, dates year-month-day, yes or no; thirds");
    }

    @Test
    void eachDeclarationKeepsTheOthersAndLeavesTheFormatItCameFromAlone() {
        KillSheetFormat all = KillSheetFormat.of(SEMICOLONS)
                .withFatPointsWidth(0.1)
                .withConformationPointsWidth(0.5)
                .withConformationReading(GradeReading.HALVES)
                .withTotalsRow(" Summe ")
                .withRowASide()
                .withSidesApart(0.05);
        assertThat(all)
                .hasToString(
                        "separator \";\", decimal point, UTF-8, dates year-month-day, yes or no; halves, points 0.5"
                                + " and 0.1 wide, totals in rows of Summe, a row a side, sides apart by 0.05")
                .isEqualTo(KillSheetFormat.of(SEMICOLONS)
                        .withSidesApart(0.05)
                        .withRowASide()
                        .withTotalsRow("Summe")
                        .withConformationReading(GradeReading.HALVES)
                        .withConformationPointsWidth(0.5)
                        .withFatPointsWidth(0.1))
                .isNotEqualTo(KillSheetFormat.of(SEMICOLONS));
        nothingIsDeclaredByDefault();
    }

    @Test
    void whatMakesNoSenseIsRefused() {
        assertThatThrownBy(() -> standard.withTotalsRow(" "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the word of a totals row is blank; it is such as Total");
        assertThatThrownBy(() -> standard.withSidesApart(1.5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("share 1.5 of the weight is outside 0 to 1");
        assertThatThrownBy(() -> standard.withSidesApart(Double.NaN))
                .hasMessage("share NaN of the weight is outside 0 to 1");
    }

    @Test
    void aWidthOutsideItsRangeIsRefused() {
        assertThatThrownBy(() -> standard.withConformationPointsWidth(3.5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation width 3.5 is outside 0 to 3 points");
        assertThatThrownBy(() -> standard.withFatPointsWidth(Double.NaN))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("fat width NaN is outside 0 to 3 points");
    }
}
