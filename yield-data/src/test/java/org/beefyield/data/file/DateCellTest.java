package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import org.beefyield.data.CsvForm.DateForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class DateCellTest {
    private static final LocalDate THIRD = LocalDate.of(2026, 11, 3);

    @ParameterizedTest
    @EnumSource
    void aDateIsReadInTheFormThatIsDeclared(DateForm form) {
        assertThat(DateCell.parse(form.example(), form)).isEqualTo(THIRD);
    }

    @Test
    void daysAndMonthsMayHaveALeadingZero() {
        assertThat(DateCell.parse("03.11.2026", DateForm.POINTS)).isEqualTo(THIRD);
        assertThat(DateCell.parse("03/11/2026", DateForm.SLASHES)).isEqualTo(THIRD);
    }

    @ParameterizedTest
    @CsvSource({
        "2026-02-30, ISO, 2026-11-03 (year-month-day)",
        "2026-1-3, ISO, 2026-11-03 (year-month-day)",
        "3.11.2026, ISO, 2026-11-03 (year-month-day)",
        "3/11/2026, POINTS, 3.11.2026 (day.month.year)",
        "3.13.2026, POINTS, 3.11.2026 (day.month.year)",
        "3.11.26, POINTS, 3.11.2026 (day.month.year)",
        "2026-11-03, SLASHES, 3/11/2026 (day/month/year)"
    })
    void whatIsNoSuchDateIsNamedWithOneThatIs(String text, DateForm form, String valid) {
        assertThatThrownBy(() -> DateCell.parse(text, form))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"" + text + "\" is not a date such as " + valid);
    }
}
