package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class PlotTest {
    @Test
    void longNamesWrapAtBlanksAndEndlessWordsAreCut() {
        int px = Plot.widthPx("0123456789", 13);
        assertThat(Plot.wrap("Rump", px, 13)).containsExactly("Rump");
        assertThat(Plot.wrap("Rump and tail of rump", px, 13)).containsExactly("Rump and", "tail of", "rump");
        assertThat(Plot.wrap("Hinterviertelfleisch", px, 13))
                .containsExactly("Hinterviert".substring(0, 10), "telfleisch");
        assertThat(Plot.wrap("", px, 13)).containsExactly("");
        String pair = "\uD83D\uDC04";
        assertThat(Plot.wrap("012345678" + pair, px, 13)).containsExactly("012345678", pair);
    }

    @Test
    void axesEndAndStepAtRoundFigures() {
        assertThat(Axis.rounded(52.3, 79.9, 7).ticks()).containsExactly(50.0, 55.0, 60.0, 65.0, 70.0, 75.0, 80.0);
        assertThat(Axis.rounded(0, 76.4, 5).ticks()).containsExactly(0.0, 20.0, 40.0, 60.0, 80.0);
        assertThat(Axis.rounded(-18.2, 18.2, 5).ticks()).containsExactly(-20.0, -10.0, 0.0, 10.0, 20.0);
        assertThat(Axis.between(0, 340, 5).ticks()).containsExactly(0.0, 100.0, 200.0, 300.0);
        assertThat(Axis.between(0, 340, 5).range().high()).isEqualTo(340);
        assertThat(Axis.rounded(5, 5, 5).ticks()).containsExactly(4.0, 4.5, 5.0, 5.5, 6.0);
        Axis fine = Axis.rounded(0, 0.3, 4);
        assertThat(fine.ticks().stream().map(fine::figure)).containsExactly("0.0", "0.1", "0.2", "0.3");
        assertThat(List.of(fine.part(0), fine.part(fine.range().high()))).containsExactly(0.0, 1.0);
    }
}
