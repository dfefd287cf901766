package org.beefyield.grid;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.table.definition.BreakdownRow;

/**
 * Where the cuts of a table stand: level by level, each level's cuts in printing order, numbered through from 0. These
 * numbers (slots) are the indexes of every array of shares.
 */
public final class TableLayout {
    private final List<String> levels;
    private final List<List<Cut>> cutsAt;
    private final int[] start;
    private final CutCatalogue catalogue;

    public TableLayout(List<String> levels, List<List<Cut>> cutsAt, CutCatalogue catalogue) {
        this.levels = List.copyOf(levels);
        this.cutsAt = cutsAt.stream().map(List::copyOf).toList();
        this.catalogue = catalogue;
        this.start = new int[levels.size() + 1];
        for (int level = 0; level < levels.size(); level++) {
            start[level + 1] = start[level] + cutsAt.get(level).size();
        }
    }

    /**
     * Names of the levels, in order.
     *
     * @return an unmodifiable list
     */
    public List<String> levels() {
        return levels;
    }

    /**
     * Index of a level.
     *
     * @param level name
     * @return index from 0
     * @throws IllegalArgumentException if the table has no such level
     */
    public int levelIndex(String level) {
        int index = levels.indexOf(level);
        if (index < 0) {
            throw new IllegalArgumentException("no level \"" + level + "\"; levels: " + String.join(", ", levels));
        }
        return index;
    }

    /**
     * The cuts that stand at a level, in printing order.
     *
     * @param level index of the level
     * @return an unmodifiable list
     */
    public List<Cut> cutsAt(int level) {
        return cutsAt.get(level);
    }

    /**
     * First slot of a level.
     *
     * @param level index of the level
     * @return slot
     */
    public int start(int level) {
        return start[level];
    }

    /**
     * Number of slots.
     *
     * @return the sum over levels of the cuts that stand there
     */
    public int size() {
        return start[levels.size()];
    }

    /**
     * Slot of a cut at a level.
     *
     * @param level index of the level
     * @param cut code
     * @return slot
     * @throws IllegalArgumentException if there is no such cut, or it does not stand at that level
     */
    public int slot(int level, String cut) {
        int slot = find(level, cut);
        if (slot < 0) {
            catalogue.cut(cut);
            throw new IllegalArgumentException("cut \"" + cut + "\" does not stand at level " + levels.get(level)
                    + "; it stands at "
                    + String.join(
                            ", ",
                            levels.stream()
                                    .filter(name -> find(levels.indexOf(name), cut) >= 0)
                                    .toList()));
        }
        return slot;
    }

    /**
     * Slot of a cut at the last level at which it stands: a primal before it is cut up, fat trim when all of it is off.
     *
     * @param cut code
     * @return slot
     * @throws IllegalArgumentException if there is no such cut
     */
    public int lastSlot(String cut) {
        return find(lastLevelOf(cut), cut);
    }

    /**
     * The last level at which a cut stands.
     *
     * @param cut code
     * @return index of the level
     * @throws IllegalArgumentException if there is no such cut
     */
    public int lastLevelOf(String cut) {
        for (int level = levels.size() - 1; level >= 0; level--) {
            if (find(level, cut) >= 0) {
                return level;
            }
        }
        throw new IllegalArgumentException(catalogue.unknown(cut));
    }

    public int find(int level, String cut) {
        List<Cut> cuts = cutsAt.get(level);
        for (int i = 0; i < cuts.size(); i++) {
            if (cuts.get(i).code().equals(cut)) {
                return start[level] + i;
            }
        }
        return -1;
    }

    /**
     * The level whose cuts these are.
     *
     * @param cuts codes
     * @return index of the level, or -1 if they are all the cuts of none
     */
    public int levelOf(Set<String> cuts) {
        for (int level = 0; level < levels.size(); level++) {
            if (cutsAt.get(level).stream()
                    .map(Cut::code)
                    .collect(Collectors.toSet())
                    .equals(cuts)) {
                return level;
            }
        }
        return -1;
    }

    public static List<List<Cut>> walk(
            List<String> levels, CutCatalogue catalogue, Function<String, List<Cut>> children) {
        List<List<Cut>> cutsAt = new ArrayList<>();
        List<Cut> standing = children.apply(BreakdownRow.ROOT);
        for (int level = 0; level < levels.size(); level++) {
            List<Cut> next = new ArrayList<>();
            if (level == 0) {
                next.addAll(standing);
            } else {
                for (Cut cut : standing) {
                    List<Cut> parts = levels.indexOf(cut.level()) == level - 1 ? children.apply(cut.code()) : List.of();
                    next.addAll(parts.isEmpty() ? List.of(cut) : parts);
                }
            }
            List<Cut> inOrder = catalogue.cuts().stream().filter(next::contains).toList();
            cutsAt.add(inOrder);
            standing = inOrder;
        }
        return cutsAt;
    }
}
