package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class FramesTest {
    private static final YieldEstimator SMALL = YieldEstimator.of(YieldTable.of(TestTables.small()));
    private static final YieldEstimator THREE = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static Carcass carcass(String conformation, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse("3="), kg);
    }

    private final List<YieldEstimate> estimates = List.of(
            THREE.estimate(carcass("R=", 340)
                    .withId("7")
                    .withLot("Mere")
                    .withSupplier("Mere End")
                    .withKillDate("2026-11-03")
                    .withHall("Mereside")),
            THREE.estimate(carcass("U+", 300)));

    @Test
    void wideHasARowForEachCarcassAndAColumnForEachCut() {
        Frame wide = Frames.wide(estimates, "primal");
        assertThat(wide.columns())
                .extracting(Column::header)
                .startsWith(
                        "carcass",
                        "lot",
                        "supplier",
                        "kill date",
                        "hall",
                        "category",
                        "conformation",
                        "fat class",
                        "class",
                        "table",
                        "cold weight, kg")
                .contains("bone, kg");
        assertThat(wide.texts("carcass")).containsExactly("7", "");
        assertThat(wide.texts("lot")).containsExactly("Mere", "");
        assertThat(wide.texts("supplier")).containsExactly("Mere End", "");
        assertThat(wide.texts("kill date")).containsExactly("2026-11-03", "");
        assertThat(wide.texts("hall")).containsExactly("Mereside", "");
        assertThat(wide.texts("category")).containsExactly("C", "C");
        assertThat(wide.texts("conformation")).containsExactly("R=", "U+");
        assertThat(wide.texts("fat class")).containsExactly("3=", "3=");
        assertThat(wide.texts("class")).containsExactly("R 3", "U 3");
        assertThat(wide.numbers("cold weight")).containsExactly(340, 300);
        assertThat(wide.numbers("bone"))
                .containsExactly(
                        estimates.get(0).kg("primal", "bone"), estimates.get(1).kg("primal", "bone"));
        assertThat(cutsOf(wide, 0)).isCloseTo(340, within(1e-9));
        assertThat(cutsOf(wide, 1)).isCloseTo(300, within(1e-9));
    }

    private double cutsOf(Frame wide, int row) {
        return wide.columns().stream()
                .skip(11)
                .mapToDouble(column -> wide.numbers(column.name())[row])
                .sum();
    }

    @Test
    void withoutALevelTheLastOneIsMeant() {
        List<String> levels = THREE.table().levels();
        String last = levels.get(levels.size() - 1);
        assertThat(Frames.wide(estimates)).isEqualTo(Frames.wide(estimates, last));
        assertThat(Frames.wide(estimates)).isNotEqualTo(Frames.wide(estimates, levels.get(0)));
        assertThat(Frames.longForm(estimates)).isEqualTo(Frames.longForm(estimates, last));
        assertThat(Frames.longForm(estimates).texts("level")).containsOnly(last);
        assertThatThrownBy(() -> Frames.wide(estimates, "retale")).hasMessageContaining("retale");
    }

    @Test
    void whatATableDoesNotKnowIsMissingAndWhatNeverComesOutHasNoColumn() {
        List<YieldEstimate> mixed = List.of(
                SMALL.estimate(carcass("R=", 340)),
                THREE.with(MinceTarget.fatPercent(30)).estimate(carcass("R=", 340)));
        Frame wide = Frames.wide(mixed);
        assertThat(wide.numbers("fore")[1]).isNaN();
        assertThat(wide.numbers("mince")[0]).isNaN();
        assertThat(wide.numbers("mince")[1]).isEqualTo(mixed.get(1).kg("mince"));
        for (Column column : wide.columns().subList(11, wide.columns().size())) {
            assertThat(Arrays.stream(wide.numbers(column.name()))).anyMatch(kg -> kg > 0);
        }
    }

    @Test
    void longHasARowForEachCarcassAndCut() {
        Frame cuts = Frames.longForm(estimates, "primal");
        assertThat(cuts.columns())
                .extracting(Column::header)
                .containsExactly(
                        "carcass",
                        "lot",
                        "supplier",
                        "kill date",
                        "hall",
                        "category",
                        "conformation",
                        "fat class",
                        "class",
                        "table",
                        "level",
                        "cut",
                        "kind",
                        "weight, kg",
                        "share, % of cold weight");
        Frame bone = cuts.where(row -> row.text("cut").equals("bone"));
        assertThat(bone.numbers("weight"))
                .containsExactly(
                        estimates.get(0).kg("primal", "bone"), estimates.get(1).kg("primal", "bone"));
        assertThat(bone.numbers("share")[0]).isCloseTo(100 * estimates.get(0).kg("primal", "bone") / 340, within(1e-9));
        assertThat(bone.texts("kind")).containsExactly("bone", "bone");
        Frame sums = cuts.groupBy("conformation").sum();
        assertThat(sums.columns()).extracting(Column::name).containsExactly("conformation", "weight");
        assertThat(sums.numbers("weight")[0]).isCloseTo(340, within(1e-9));
        assertThat(cuts.numbers("weight")).doesNotContain(0);
    }

    @Test
    void intervalsComeWhenAskedForAndDontAddUp() {
        Frame cuts = Frames.longFormWithIntervals(estimates, "tissue");
        Frame bone = cuts.where(row -> row.text("cut").equals("bone"));
        assertThat(bone.numbers("90 % interval low, kg")[0])
                .isEqualTo(estimates.get(0).interval("bone", 0.9).low());
        assertThat(bone.numbers("90 % interval high")[0])
                .isEqualTo(estimates.get(0).interval("bone", 0.9).high());
        assertThat(bone.numbers("SD")[0]).isEqualTo(estimates.get(0).sd("bone"));
        assertThat(cuts.groupBy("carcass").sum().columns())
                .extracting(Column::name)
                .containsExactly("carcass", "weight");
        assertThatThrownBy(() -> cuts.groupBy("carcass").sum("90 % interval low"))
                .hasMessageContaining("doesn't add up");
    }

    @Test
    void noEstimatesAreNoRows() {
        assertThat(Frames.wide(List.of()).rows()).isZero();
        assertThat(Frames.longFormWithIntervals(List.of(), "primal").rows()).isZero();
        assertThat(new ArrayList<>(Frames.wide(List.of()).columns())).hasSize(11);
    }

    @Test
    void everyRowSaysItsTableAndTheKillDatesAreDays() {
        Frame wide = Frames.wide(estimates, "primal");
        assertThat(wide.texts("table")).containsOnly(THREE.table().identity());
        assertThat(wide.columns().get(3)).isEqualTo(Column.text("kill date").of(Column.Type.DATE));
        assertThat(wide.columns().subList(6, 9))
                .containsExactly(
                        Column.text("conformation").of(Column.Type.CONFORMATION),
                        Column.text("fat class").of(Column.Type.FAT_CLASS),
                        Column.text("class").of(Column.Type.CONFORMATION));
        Frame odd = Frames.wide(List.of(THREE.estimate(carcass("R=", 340).withKillDate("Tuesday"))));
        assertThat(odd.columns().get(3)).isEqualTo(Column.text("kill date"));
    }

    @Test
    void aRefusedCarcassIsARowWithItsReasons() {
        TriedEstimate good = THREE.tryEstimate(carcass("R=", 340).withId("7"));
        TriedEstimate refused =
                THREE.tryEstimate(Carcass.of(Category.COW, Conformation.parse("R="), FatClass.parse("3="), 1100)
                        .withId("8"));
        assertThat(refused.estimate()).isEmpty();
        Frame tried = Frames.tried(List.of(good, refused), "tissue");
        assertThat(tried.texts("carcass")).containsExactly("7", "8");
        assertThat(tried.texts("refused"))
                .containsExactly(
                        "",
                        String.join(
                                "; ",
                                refused.reasons().stream().map(Refusal::text).toList()));
        assertThat(tried.texts("refused").get(1)).contains("1100");
        assertThat(tried.texts("table")).containsExactly(THREE.table().identity(), "");
        assertThat(tried.numbers("cold weight")).containsExactly(340, 1100);
        assertThat(tried.numbers("bone")).containsExactly(good.orElseThrow().kg("tissue", "bone"), Double.NaN);
        assertThat(Frames.tried(List.of(refused)).columns())
                .extracting(Column::name)
                .endsWith("table", "refused", "cold weight");
        assertThat(Frames.tried(List.of(good)).select("carcass", "refused", "cold weight"))
                .isEqualTo(Frames.tried(List.of(good), "retail").select("carcass", "refused", "cold weight"));
    }

    @Test
    void anEstimateMakesItsOwnFrame() {
        YieldEstimate estimate = estimates.get(0);
        List<String> levels = THREE.table().levels();
        assertThat(estimate.toFrame("primal")).isEqualTo(Frames.longFormWithIntervals(List.of(estimate), "primal"));
        assertThat(estimate.toFrame()).isEqualTo(estimate.toFrame(levels.get(levels.size() - 1)));
        assertThatThrownBy(() -> estimate.toFrame("primel")).hasMessageContaining("primel");
    }

    @Test
    void aLotMakesItsOwnFrame() {
        LotEstimate lot = THREE.collector()
                .add(carcass("R=", 340))
                .add(carcass("U=", 300))
                .lot()
                .withName("Mere");
        Frame frame = lot.toFrame("tissue");
        assertThat(frame.columns())
                .extracting(Column::header)
                .containsExactly(
                        "lot",
                        "carcasses",
                        "table",
                        "level",
                        "cut",
                        "kind",
                        "weight, kg",
                        "share, % of cold weight",
                        "SD, kg",
                        "90 % interval low, kg",
                        "90 % interval high, kg");
        assertThat(frame.texts("lot")).containsOnly("Mere");
        assertThat(frame.texts("table")).containsOnly(THREE.table().identity());
        assertThat(frame.numbers("carcasses")).containsOnly(2);
        assertThat(Arrays.stream(frame.numbers("weight")).sum()).isCloseTo(640, within(1e-9));
        Frame bone = frame.where(row -> row.text("cut").equals("bone"));
        assertThat(bone.numbers("weight")).containsExactly(lot.kg("bone"));
        assertThat(bone.numbers("SD")).containsExactly(lot.sd("bone"));
        assertThat(bone.numbers("90 % interval low"))
                .containsExactly(lot.interval("bone", 0.9).low());
        assertThat(frame.columns())
                .filteredOn(column -> column.total().equals(Total.SUM))
                .extracting(Column::name)
                .containsExactly("weight");
    }

    @Test
    void whatIsCertainHasNoInterval() {
        DrawnCarcass drawn =
                estimates.get(0).sample(new SplittableRandom(1), 1).carcasses().get(0);
        assertThat(drawn.toFrame("tissue").numbers("SD")).containsOnly(Double.NaN);
    }
}
