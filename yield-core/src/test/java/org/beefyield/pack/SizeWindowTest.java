package org.beefyield.pack;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.DrawnCarcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SizeWindowTest {
    private static final double INFINITE = Double.POSITIVE_INFINITY;

    /** A loin of 50 g/kg, SD 4, in two pieces that differ by 3 %, and a round of 60 in one. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("pieces", "1")
            .levels("primal")
            .categories(Category.STEER)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(Cut.of("loin", "Loin", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(1.0)
                    .withSideSplitSdPct(3.0))
            .cut(Cut.of("round", "Round", "primal", CutKind.PRIMAL)
                    .withPiecesPerSide(0.5)
                    .withSideSplitSdPct(3.0))
            .cut(Cut.of("rest", "Rest", "primal", CutKind.LOSS))
            .row("carcass", "loin", 4, "made", 50)
            .row("carcass", "round", 5, "made", 60)
            .row("carcass", "rest", 5, "made", 890)
            .build());

    private static YieldEstimate estimate(double kg) {
        return YieldEstimator.of(TABLE)
                .estimate(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), kg));
    }

    private static SizeWindow window(double from, double to) {
        return new SizeWindow("loin", "*", from, to, "");
    }

    @Test
    void aPieceOfASideIsHalfOfTheCutWithLeftAndRightApart() {
        PieceWeight piece = PieceWeight.of(estimate(360), "loin");

        // 18 kg in two pieces; SD 1.44 kg of both, 0.72 of half, and 3 % of 9 kg beside it
        assertThat(piece.pieces()).isEqualTo(2);
        assertThat(piece.meanKg()).isCloseTo(9, within(1e-12));
        assertThat(piece.sdKg()).isCloseTo(Math.hypot(0.72, 0.27), within(1e-9));
    }

    @Test
    void aCutInOnePieceHasNoLeftAndRight() {
        PieceWeight piece = PieceWeight.of(estimate(300), "round");

        assertThat(piece.pieces()).isCloseTo(1, within(1e-12));
        assertThat(piece.meanKg()).isCloseTo(18, within(1e-12));
        assertThat(piece.sdKg()).isCloseTo(1.5, within(1e-9));
    }

    @Test
    void aCutThatIsNotSoldByThePieceIsRefused() {
        assertThatThrownBy(() -> PieceWeight.of(estimate(300), "rest"))
                .hasMessage("cut \"rest\" isn't sold by the piece: table " + TABLE.identity()
                        + " states no pieces_per_side of it");
        assertThatThrownBy(() -> PieceWeight.of(estimate(300), "lion"))
                .hasMessage("no cut \"lion\"; nearest: loin, round, rest");
    }

    @Test
    void chancesAreThoseOfDrawnCarcasses() {
        YieldEstimate estimate = estimate(360);
        WindowChance chance = WindowChance.of(window(8.5, 10), PieceWeight.of(estimate, "loin"));
        Random random = new Random(7);
        int below = 0;
        int above = 0;
        double kgOutside = 0;
        int draws = 200_000;
        for (DrawnCarcass carcass : estimate.sample(random, draws).carcasses()) {
            double piece = carcass.kg(Figure.cut("loin")) / 2 * (1 + 0.03 * random.nextGaussian());
            below += piece < 8.5 ? 1 : 0;
            above += piece > 10 ? 1 : 0;
            kgOutside += piece < 8.5 || piece > 10 ? piece : 0;
        }

        // standard error of a chance near 0.3 is 0.001 with so many draws
        assertThat(chance.below()).isCloseTo((double) below / draws, within(0.004));
        assertThat(chance.above()).isCloseTo((double) above / draws, within(0.004));
        assertThat(chance.inside()).isCloseTo(1 - (double) (below + above) / draws, within(0.004));
        assertThat(chance.piece().kgOutside(chance.window())).isCloseTo(kgOutside / draws, within(0.04));
    }

    @Test
    void withTheWeightOfTheCarcassAboveRisesAndBelowFalls() {
        WindowChance before = WindowChance.of(window(8, 10), PieceWeight.of(estimate(200), "loin"));
        for (double kg = 205; kg <= 600; kg += 5) {
            WindowChance now = WindowChance.of(window(8, 10), PieceWeight.of(estimate(kg), "loin"));
            assertThat(now.above()).isGreaterThan(before.above());
            assertThat(now.below()).isLessThan(before.below());
            before = now;
        }
    }

    @Test
    void aWindowWithoutLimitsIsNeverMissed() {
        WindowChance chance = WindowChance.of(window(0, INFINITE), PieceWeight.of(estimate(600), "loin"));

        assertThat(chance.inside()).isCloseTo(1, within(1e-12));
        assertThat(chance.piece().kgOutside(chance.window())).isCloseTo(0, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"8.9, 0, 1", "9, 0, 0", "9.1, 1, 0"})
    void withoutSdsAPieceIsInOrOut(double limit, double below, double above) {
        PieceWeight piece = new PieceWeight(2, 9, 0);

        assertThat(piece.chanceBelow(limit)).isEqualTo(below);
        assertThat(piece.chanceAbove(limit)).isEqualTo(above);
        assertThat(piece.kgOutside(window(0, limit))).isEqualTo(9 * above);
    }

    @Test
    void aWindowThatIsNoneIsRefused() {
        assertThatThrownBy(() -> window(10, 5))
                .hasMessage("pieces from 10 to 5 kg: two ascending weights of 0 kg or more are needed");
        assertThatThrownBy(() -> window(-1, 5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> window(Double.NaN, 5)).isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @ValueSource(strings = {"*", "joints"})
    void aWayOutThatNeedsTheWindowTooIsRefused(String way) {
        assertThatThrownBy(() -> new SizeWindow("loin", way, 5, 10, "joints"))
                .hasMessage("a piece of loin that doesn't fit as " + way
                        + " can't go as joints; name a way that needs the" + " window and another one without it");
    }

    @Test
    void itTellsItselfInWords() {
        assertThat(new SizeWindow("loin", "steaks", 5, 10.5, "joints"))
                .hasToString("loin as steaks, pieces of 5 to 10.5 kg");
        assertThat(window(0, 10)).hasToString("loin, pieces up to 10 kg");
        assertThat(window(5, INFINITE)).hasToString("loin, pieces from 5 kg");
        assertThat(window(0, INFINITE)).hasToString("loin, pieces of any weight");
    }
}
