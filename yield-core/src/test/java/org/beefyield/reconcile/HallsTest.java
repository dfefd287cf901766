package org.beefyield.reconcile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class HallsTest {
    private static final int RUNS = 12;

    /** The halls bone dice at the table's, at 6 % more, and at 6 % less. */
    private static Season season(String hall, long seed, double dice) {
        return Season.of(
                TestRuns.season(hall, RUNS, seed, (run, group) -> group.equals("Dice") ? dice : 1),
                TestRuns.ESTIMATOR,
                TestRuns.PRODUCTS);
    }

    private static final List<Season> SEASONS =
            List.of(season("Mereside", 1, 1), season("Overdale", 2, 1.06), season("Netherton", 3, 0.94));

    private static final Halls HALLS = Halls.of(SEASONS);

    private static HallEffect effect(String group) {
        return HALLS.effects().stream()
                .filter(effect -> effect.group().equals(group))
                .findFirst()
                .orElseThrow();
    }

    /** 6 % of the dice are some 16.6 g per kg of the intake, and so is the SD of three that are one apart. */
    @Test
    void whatHallsDifferByIsToldFromWhatRunsDiffer() {
        double expected = SEASONS.get(0).runs().get(0).line("Dice").scaledKg()
                / SEASONS.get(0).runs().get(0).intakeKg()
                * 60;
        HallEffect dice = effect("Dice");
        assertThat(dice.runs()).isEqualTo(3 * RUNS);
        assertThat(dice.hallSd()).isCloseTo(expected, within(2.5));
        assertThat(dice.hallSdBounds().low()).isBetween(5.0, expected);
        assertThat(dice.hallSdBounds().high()).isGreaterThan(2 * expected);
        // runs of a hall differ as the table states it, whatever halls do
        assertThat(dice.runSd()).isBetween(1.5, 6.0);
        assertThat(effect("Bone").hallSd()).isLessThan(3);
    }

    @Test
    void aHallsOwnMeanIsDrawnTowardsThatOfAll() {
        HallEffect dice = effect("Dice");
        double[] own = SEASONS.stream()
                .mapToDouble(
                        season -> season.chart("Dice").learnt().orElseThrow().mean())
                .toArray();
        int hall = 0;
        for (double mean : dice.ofHalls().values()) {
            assertThat(Math.abs(mean - dice.mean())).isLessThan(Math.abs(own[hall] - dice.mean()));
            assertThat(mean).isCloseTo(own[hall], within(1.0));
            hall++;
        }
        assertThat(dice.ofHalls().keySet()).containsExactly("Mereside", "Overdale", "Netherton");
    }

    @Test
    void groupsThatOneHallDoesNotKnowAreLeftOut() {
        Season one =
                Season.of(TestRuns.season("Lone", 1, 4, (run, group) -> 1.0), TestRuns.ESTIMATOR, TestRuns.PRODUCTS);
        assertThat(Halls.of(List.of(SEASONS.get(0), one)).effects()).isEmpty();
    }

    @Test
    void theFrameHasARowForEachGroupAndHall() {
        assertThat(HALLS.toFrame().texts("hall").subList(0, 3)).containsExactly("Mereside", "Overdale", "Netherton");
        assertThat(HALLS.toFrame().rows()).isEqualTo(3 * HALLS.effects().size());
        double[] means = HALLS.toFrame()
                .where(row -> row.text("group").equals("Dice"))
                .numbers("weighed less expected, g per kg");
        assertThat(IntStream.range(0, 3).mapToObj(i -> means[i]))
                .containsExactlyElementsOf(effect("Dice").ofHalls().values());
    }

    @Test
    void itIsSaidInTables() {
        assertThat(HALLS.toText()).isEqualTo("""
                3 halls: Mereside, Overdale, Netherton

                g per kg of intake  runs  weighed less expected  90 % interval: low   high  SD from hall to hall    low   high  SD from run to run
                ----------------------------------------------------------------------------------------------------------------------------------
                Striploin steak       36                   0.30               -0.33   0.93                  0.00   0.00   1.05                0.93
                Rump steak            36                   0.20               -0.36   0.76                  0.00   0.00   0.00                0.71
                Brisket joint         36                  -0.10               -1.02   0.83                  0.42   0.00   2.40                0.87
                Dice                  36                  -0.47              -30.27  29.34                 17.61  10.09  78.04                3.32
                Lean trim             36                  -0.28              -33.95  33.40                 19.89  11.40  88.17                4.79
                Bone                  36                   0.25               -2.66   3.16                  0.00   0.00   1.04                4.38
                Fat                   36                   0.20               -4.32   4.73                  0.00   0.00   8.66                4.75
                losses, unweighed     36                  -0.12               -0.50   0.26                  0.13   0.00   0.98                0.39

                weighed less expected, g per kg of intake  Mereside  Overdale  Netherton
                ------------------------------------------------------------------------
                Striploin steak                                0.30      0.30       0.30
                Rump steak                                     0.20      0.20       0.20
                Brisket joint                                 -0.10      0.22      -0.41
                Dice                                           2.78     15.22     -19.41
                Lean trim                                     -1.79    -19.29      20.25
                Bone                                           0.25      0.25       0.25
                Fat                                            0.20      0.20       0.20
                losses, unweighed                             -0.20     -0.04      -0.11

                A hall's own figures are drawn towards those of all halls, the more the less its runs tell
                """);
    }

    @Test
    void oneHallIsNoneToCompare() {
        assertThatThrownBy(() -> Halls.of(SEASONS.subList(0, 1)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("halls are compared two by two or more; there is 1 season");
        assertThatThrownBy(() -> Halls.of(List.of(SEASONS.get(0), SEASONS.get(0))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("two seasons are of hall \"Mereside\"; each is of a hall of its own");
    }
}
