package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Test;

/** What is counted against each limit of a table, at the limit and one step beyond it. */
class TableLimitsTest {
    private static TableDefinition.Builder table(int levels, int cuts) {
        TableDefinition.Builder table = TableDefinition.builder("large", "1").categories(Category.STEER);
        String[] names = new String[levels];
        for (int i = 0; i < levels; i++) {
            names[i] = "level" + i;
        }
        table.levels(names);
        for (int i = 0; i < cuts; i++) {
            table.cut(Cut.of("cut" + i, "Cut", "level0", CutKind.MEAT));
        }
        return allowing(table, new Range(8, 8), new Range(8, 8));
    }

    private static TableDefinition.Builder allowing(TableDefinition.Builder table, Range conformation, Range fat) {
        TableRange range = new TableRange(conformation, fat, new Range(300, 400));
        return table.ranges(range, range);
    }

    private static void row(TableDefinition.Builder table, String parent, String way, String cut) {
        table.row(BreakdownRow.ANY, way, parent, cut, 0, "made", 0, 0, 0, 0);
    }

    private static List<String> exceeded(TableDefinition.Builder table) {
        return TableLimits.exceeded(table.build());
    }

    @Test
    void cuts() {
        assertThat(exceeded(table(1, 1000))).isEmpty();
        assertThat(exceeded(table(1, 1001))).containsExactly("the table has 1001 cuts; at most 1000 are read");
    }

    @Test
    void childrenAreThoseOfEveryWayForEveryCategory() {
        // two categories, a parent in 200 ways with 250 children in all
        TableDefinition.Builder table = table(1, 1).categories(Category.STEER, Category.HEIFER);
        for (int i = 0; i < 250; i++) {
            row(table, "round", "way" + i % 200, "cut" + i);
        }
        assertThat(exceeded(table)).isEmpty();

        // another one without ways counts once, and a row for any way is no way more
        row(table, "loin", BreakdownRow.ANY, "cut0");
        row(table, "loin", BreakdownRow.ANY, "cut1");
        row(table, "round", BreakdownRow.ANY, "cut0");
        assertThat(exceeded(table))
                .containsExactly(
                        "the table has 100004 children in its breakdowns, each way and category counted; at most"
                                + " 100000 are read");
    }

    @Test
    void lookUpsAreBreakdownsTimesRowsOfBothKinds() {
        // 5000 ways by term, 5000 by class, a row in each
        TableDefinition.Builder table = table(1, 1);
        for (int i = 0; i < 5000; i++) {
            row(table, "round", "way" + i, "cut0");
            table.row(new ClassRow(BreakdownRow.ANY, "class" + i, "round", "R", "3", "cut0", 1000, 0, "made"));
        }
        assertThat(exceeded(table)).isEmpty();

        row(table, "round", "more", "cut0");
        assertThat(exceeded(table))
                .containsExactly(
                        "the table has 100020001 look-ups (breakdowns, each way and category counted, times rows);"
                                + " at most 100000000 are read");
    }

    @Test
    void sharesAreThoseOfEachNodeLevelAndCutUnderEachSpecificationAndWay() {
        // 2 categories, 3 specifications and 2 ways, 15 conformations by 12 fat positions, 20 levels, 4 coefficients:
        // 144,000 for each cut
        for (int cuts : new int[] {694, 695}) {
            TableDefinition.Builder table = allowing(table(20, cuts), new Range(2, 16), new Range(3, 14))
                    .categories(Category.STEER, Category.HEIFER);
            row(table, "round", "steaks", "cut0");
            row(table, "round", "joints", "cut0");
            row(table, "loin", "steaks", "cut0");
            for (String specification : List.of("one", "two", "three")) {
                table.specification(specification, "round", "joints").specification(specification, "loin", "steaks");
            }
            assertThat(exceeded(table)).isEqualTo(cuts == 694 ? List.of() : List.of(shares(100_080_000)));
        }
    }

    @Test
    void aTableWithoutWaysHasOneChoiceAndNoMoreNodesThanTheScalesHavePositions() {
        // a range that can't be is refused later, with its place; here it counts as the whole scale: 270 nodes
        TableDefinition.Builder table = allowing(table(20, 1000), new Range(1, 100), new Range(1, 100));
        for (int i = 0; i < 4; i++) {
            table.specification("s" + i, "round", "steaks");
        }
        assertThat(exceeded(table)).containsExactly(shares(5L * 270 * 20 * 1000 * 4));
    }

    private static String shares(long count) {
        return "the table has " + count
                + " shares to prove (categories, times specifications and ways, nodes, levels, cuts"
                + " and 4); at most 100000000 are read";
    }
}
