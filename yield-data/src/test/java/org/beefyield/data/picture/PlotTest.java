package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

class PlotTest {
    @Test
    void axesEndAndStepAtRoundFigures() {
        assertThat(Axis.rounded(52.3, 79.9, 7).ticks()).containsExactly(50.0, 55.0, 60.0, 65.0, 70.0, 75.0, 80.0);
        assertThat(Axis.rounded(0, 76.4, 5).ticks()).containsExactly(0.0, 20.0, 40.0, 60.0, 80.0);
        assertThat(Axis.rounded(-18.2, 18.2, 5).ticks()).containsExactly(-20.0, -10.0, 0.0, 10.0, 20.0);
        assertThat(Axis.between(0, 340, 5, 300).ticks()).containsExactly(0.0, 100.0, 200.0, 300.0);
        assertThat(Axis.between(0, 340, 5, 300).range().high()).isEqualTo(340);
        assertThat(Axis.rounded(5, 5, 5).ticks()).containsExactly(4.0, 4.5, 5.0, 5.5, 6.0);
        Axis fine = Axis.rounded(0, 0.3, 4);
        assertThat(fine.labels()).containsExactly("0.0", "0.1", "0.2", "0.3");
        assertThat(List.of(fine.part(0), fine.part(fine.range().high()))).containsExactly(0.0, 1.0);
    }

    @Test
    void ticksBecomeFewerUntilTheirFiguresStandSideBySide() {
        assertThat(Axis.between(0, 1_646_094, 5, 400).labels())
                .containsExactly("0", "500,000", "1,000,000", "1,500,000");
        assertThat(Axis.between(0, 1_646_094, 5, 150).labels()).containsExactly("0", "1,000,000");
        assertThat(Axis.around(18.2, 5, 300).labels()).containsExactly("-20", "-10", "0", "+10", "+20");
        assertThat(Axis.around(18.2, 5, 120).labels()).containsExactly("-20", "0", "+20");
        // where nothing fits, zero goes before all
        Axis huge = Axis.around(4e15, 5, 100);
        assertThat(huge.fits(100)).isFalse();
        assertThat(huge.apart(100).stream().map(huge.labels()::get)).containsExactly("0");
    }

    @Test
    void daysAreMarkedByTheSmallestPartOfTheCalendarThatHasRoom() {
        LocalDate monday = LocalDate.of(2026, 11, 2);
        assertThat(Axis.days(monday, monday, 400).labels()).containsExactly("2 Nov");
        assertThat(Axis.days(monday, monday.plusDays(4), 400).labels())
                .containsExactly("2 Nov", "3 Nov", "4 Nov", "5 Nov", "6 Nov");
        assertThat(Axis.days(monday.minusDays(2), monday.plusDays(25), 400).labels())
                .containsExactly("2 Nov", "9 Nov", "16 Nov", "23 Nov");
        assertThat(Axis.days(monday, monday.plusYears(1), 400).labels())
                .containsExactly("Jan 2027", "Apr 2027", "Jul 2027", "Oct 2027");
        assertThat(Axis.days(monday, monday.plusYears(13), 400).labels())
                .containsExactly("2028", "2030", "2032", "2034", "2036", "2038");
        Axis year = Axis.days(monday, monday.plusYears(1), 400);
        assertThat(year.ticks().get(0))
                .isEqualTo((double) LocalDate.of(2027, 1, 1).toEpochDay());
        assertThat(year.part(year.ticks().get(0))).isBetween(0.16, 0.17);
    }

    @Test
    void figuresHaveThousandsApartAndZeroHasNoSign() {
        assertThat(Figures.fixed(1_646_094.4, 0)).isEqualTo("1,646,094");
        assertThat(Figures.fixed(-12_345.678, 2)).isEqualTo("-12,345.68");
        assertThat(Figures.fixed(999, 1)).isEqualTo("999.0");
        assertThat(Figures.fixed(-0.001, 2)).isEqualTo("0.00");
        assertThat(Figures.signed(1234.5, 1)).isEqualTo("+1,234.5");
        assertThat(Figures.signed(0.001, 2)).isEqualTo("0.00");
        assertThat(Figures.digits(0.051583)).isEqualTo("0.0516");
        assertThat(Figures.digits(51583.4)).isEqualTo("51,583");
        assertThat(Figures.count(1, "carcass", "carcasses")).isEqualTo("1 carcass");
        assertThat(Figures.count(5000, "carcass", "carcasses")).isEqualTo("5,000 carcasses");
        assertThat(List.of(Figures.decimals(2500), Figures.decimals(42), Figures.decimals(0.3)))
                .containsExactly(0, 1, 3);
    }
}
