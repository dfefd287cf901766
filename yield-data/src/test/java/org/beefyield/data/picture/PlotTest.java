package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class PlotTest {
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

    @Test
    void everySoManiethFigureOfAnAxisIsCountedFromNoughtOrElseFromTheFirst() {
        assertThat(Axis.rounded(-20, 20, 5).everyNth(1)).containsExactly(-20.0, -10.0, 0.0, 10.0, 20.0);
        assertThat(Axis.rounded(-20, 20, 5).everyNth(2)).containsExactly(-20.0, 0.0, 20.0);
        assertThat(Axis.rounded(-20, 20, 5).everyNth(3)).containsExactly(0.0);
        assertThat(Axis.rounded(130, 160, 4).everyNth(2)).containsExactly(130.0, 150.0);
    }
}
