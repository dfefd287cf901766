package org.beefyield.grid;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.table.definition.GradeAxis;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;

class NodesTest {
    private static final Range WEIGHTS = new Range(150, 600);
    private static final Nodes WHOLE = new Nodes(
            GradeAxes.EU,
            new TableRange(
                    GradeAxes.EU.conformation().range(), GradeAxes.EU.fat().range(), WEIGHTS));
    private static final Nodes PART =
            new Nodes(GradeAxes.EU, new TableRange(new Range(3, 5), new Range(14, 15), WEIGHTS));

    @Test
    void theAxesOfTheEuHaveEighteenAndFifteenSteps() {
        assertThat(GradeAxes.EU.conformation().steps())
                .containsExactly(
                        "P-", "P=", "P+", "O-", "O=", "O+", "R-", "R=", "R+", "U-", "U=", "U+", "E-", "E=", "E+", "S-",
                        "S=", "S+");
        assertThat(GradeAxes.EU.fat().steps())
                .containsExactly(
                        "1-", "1=", "1+", "2-", "2=", "2+", "3-", "3=", "3+", "4-", "4=", "4+", "5-", "5=", "5+");
        assertThat(GradeAxes.EU.conformation().range()).hasToString("1 to 18");
        assertThat(GradeAxes.EU.fat().step(8)).isEqualTo("3=");
    }

    @Test
    void everyNodeIsOneNumberAndEveryNumberOneNode() {
        List<Integer> numbers = new ArrayList<>();
        for (int conformation = 1; conformation <= 18; conformation++) {
            for (int fat = 1; fat <= 15; fat++) {
                int node = WHOLE.at(conformation, fat);
                numbers.add(node);
                assertThat(WHOLE.conformation(node)).isEqualTo(conformation);
                assertThat(WHOLE.fat(node)).isEqualTo(fat);
                assertThat(PART.at(conformation, fat)).isEqualTo(node);
            }
        }
        assertThat(numbers).isSorted().doesNotHaveDuplicates().hasSize(WHOLE.size());
        assertThat(numbers.get(0)).isZero();
        assertThat(numbers.get(numbers.size() - 1)).isEqualTo(WHOLE.size() - 1);
        assertThat(WHOLE.grades(WHOLE.at(15, 1))).isEqualTo("E+ 1-");
    }

    @Test
    void otherAxesHaveOtherNodes() {
        GradeAxes axes = new GradeAxes(
                new GradeAxis(Variable.CONFORMATION, List.of("thin", "full")),
                new GradeAxis(Variable.FAT, List.of("a", "b", "c")));
        Nodes nodes = new Nodes(
                axes, new TableRange(axes.conformation().range(), axes.fat().range(), WEIGHTS));
        List<String> grades = new ArrayList<>();
        nodes.forEach(node -> grades.add(nodes.grades(node)));
        assertThat(grades).containsExactly("thin a", "thin b", "thin c", "full a", "full b", "full c");
        assertThat(nodes.size()).isEqualTo(6);
    }

    @Test
    void aRangeHasItsOwnNodesAlone() {
        List<Integer> gone = new ArrayList<>();
        PART.forEach(gone::add);
        assertThat(gone)
                .containsExactly(
                        PART.at(3, 14), PART.at(3, 15), PART.at(4, 14), PART.at(4, 15), PART.at(5, 14), PART.at(5, 15));
        assertThat(gone).hasSize(PART.inRange()).allMatch(PART::contains);
        assertThat(PART.contains(PART.at(2, 14))).isFalse();
        assertThat(PART.contains(PART.at(5, 13))).isFalse();
        assertThat(PART.contains(-1)).isFalse();
        assertThat(WHOLE.contains(WHOLE.size())).isFalse();
    }

    @Test
    void theNextNodeIsOneStepOnInsideTheRange() {
        assertThat(PART.next(PART.at(3, 14), Variable.CONFORMATION)).isEqualTo(PART.at(4, 14));
        assertThat(PART.next(PART.at(3, 14), Variable.FAT)).isEqualTo(PART.at(3, 15));
        assertThat(PART.next(PART.at(3, 14), Variable.WEIGHT)).isEqualTo(PART.at(3, 14));
        assertThat(PART.next(PART.at(5, 14), Variable.CONFORMATION)).isEqualTo(-1);
        // one step on of the last fat class is no node of the next conformation
        assertThat(PART.next(PART.at(3, 15), Variable.FAT)).isEqualTo(-1);
    }

    @Test
    void aPlaceBetweenNodesHasPartsOfThoseAroundIt() {
        TreeMap<Integer, Double> parts = new TreeMap<>();
        WHOLE.corners(7.25, 8.5, parts::put);
        assertThat(parts)
                .containsOnlyKeys(WHOLE.at(7, 8), WHOLE.at(7, 9), WHOLE.at(8, 8), WHOLE.at(8, 9))
                .containsEntry(WHOLE.at(7, 8), 0.375)
                .containsEntry(WHOLE.at(8, 9), 0.125);
        parts.clear();
        WHOLE.corners(18, 15, parts::put);
        assertThat(parts).containsOnlyKeys(WHOLE.at(18, 15));
        assertThatThrownBy(() -> PART.corners(5.5, 14, parts::put))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation 5.5 or fat 14.0 is outside the grid of this table");
    }
}
