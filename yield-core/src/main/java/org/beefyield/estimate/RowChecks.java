package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.grid.Nodes;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;

/** What {@link Model#check} says of a carcass, for rows of columns: as bits, without allocating. */
final class RowChecks {
    private static final int LETTERS = 256;

    private final Nodes nodes;
    private final List<Category> categories = new ArrayList<>();
    /** By letter. */
    private final int[] indexOf = new int[LETTERS];
    /** By letter, where nodes are counted from. */
    private final int[] nodesOf = new int[LETTERS];

    private final TableRange allowed;
    private final TableRange fitted;
    private final double lowConformation;
    private final double highConformation;
    private final double lowFat;
    private final double highFat;
    private final double lowKg;
    private final double highKg;
    private final int lowThirdOfConformation;
    private final int highThirdOfConformation;
    private final int lowThirdOfFat;
    private final int highThirdOfFat;
    private final boolean refusesOutsideFitted;

    RowChecks(Model model) {
        nodes = model.nodes();
        Arrays.fill(indexOf, -1);
        Arrays.fill(nodesOf, -1);
        for (Category category : model.categories()) {
            char letter = category.letter().charAt(0);
            indexOf[letter] = categories.size();
            nodesOf[letter] = categories.size() * nodes.size();
            categories.add(category);
        }
        allowed = model.table().definition().allowed();
        fitted = model.table().definition().fitted();
        lowConformation = fitted.conformation().low();
        highConformation = fitted.conformation().high();
        lowFat = fitted.fat().low();
        highFat = fitted.fat().high();
        lowKg = fitted.weightKg().low();
        highKg = fitted.weightKg().high();
        lowThirdOfConformation = (int) Math.ceil(lowConformation);
        highThirdOfConformation = (int) highConformation;
        lowThirdOfFat = (int) Math.ceil(lowFat);
        highThirdOfFat = (int) highFat;
        refusesOutsideFitted = model.policy() == RangePolicy.REFUSE_OUTSIDE_FITTED;
    }

    /** The categories served; a category's index is its place in this list. */
    List<Category> categories() {
        return categories;
    }

    /** Index of a category by its letter, below 0 if it isn't served. */
    int category(byte letter) {
        return indexOf[letter & 0xff];
    }

    /** The lowest conformation that is usual: the first whole position in the fitted range. */
    int lowThirdOfConformation() {
        return lowThirdOfConformation;
    }

    /** The highest conformation that is usual. */
    int highThirdOfConformation() {
        return highThirdOfConformation;
    }

    /** The lowest fat that is usual. */
    int lowThirdOfFat() {
        return lowThirdOfFat;
    }

    /** The highest fat that is usual. */
    int highThirdOfFat() {
        return highThirdOfFat;
    }

    /** Number of nodes of all categories. */
    int nodes() {
        return categories.size() * nodes.size();
    }

    /** Where a node stands among those of all categories. */
    int node(int category, int node) {
        return category * nodes.size() + node;
    }

    /** The node of a row in thirds to which there is nothing to say; below 0 if {@link #flags} has a word on it. */
    int usualNode(byte letter, int conformation, int fat, double coldWeightKg) {
        int first = nodesOf[letter & 0xff];
        return first >= 0
                        && conformation >= lowThirdOfConformation
                        && conformation <= highThirdOfConformation
                        && fat >= lowThirdOfFat
                        && fat <= highThirdOfFat
                        && coldWeightKg >= lowKg
                        && coldWeightKg <= highKg
                ? first + nodes.at(conformation, fat)
                : -1;
    }

    /** A row's flags, see {@link RowFlag}. */
    byte flags(CarcassColumns carcasses, int row) {
        byte flags = flags(
                category(carcasses.category(row)),
                carcasses.conformation(row),
                carcasses.fat(row),
                carcasses.coldWeightKg(row));
        return carcasses.hasWidths() ? (byte) (flags | widthFlags(carcasses, row)) : flags;
    }

    /** A grade of a width that none has is no grade. */
    private static int widthFlags(CarcassColumns carcasses, int row) {
        return (CarcassColumns.isWidth(carcasses.conformationWidth(row)) ? 0 : RowFlag.CONFORMATION_REFUSED.bit())
                | (CarcassColumns.isWidth(carcasses.fatWidth(row)) ? 0 : RowFlag.FAT_CLASS_REFUSED.bit());
    }

    private byte flags(int category, double conformation, double fat, double coldWeightKg) {
        if (category >= 0
                && conformation >= lowConformation
                && conformation <= highConformation
                && fat >= lowFat
                && fat <= highFat
                && coldWeightKg >= lowKg
                && coldWeightKg <= highKg) {
            return 0;
        }
        int flags = category >= 0 ? 0 : RowFlag.CATEGORY_REFUSED.bit();
        flags |= flags(Variable.CONFORMATION, conformation, RowFlag.CONFORMATION_OUTSIDE_FITTED)
                | flags(Variable.FAT, fat, RowFlag.FAT_CLASS_OUTSIDE_FITTED)
                | flags(Variable.WEIGHT, coldWeightKg, RowFlag.WEIGHT_OUTSIDE_FITTED);
        return (byte) flags;
    }

    private int flags(Variable variable, double value, RowFlag outsideFitted) {
        if (fitted.of(variable).contains(value)) {
            return 0;
        }
        RowFlag refused = switch (variable) {
            case CONFORMATION -> RowFlag.CONFORMATION_REFUSED;
            case FAT -> RowFlag.FAT_CLASS_REFUSED;
            case WEIGHT -> RowFlag.WEIGHT_REFUSED;
        };
        boolean isRefused = refusesOutsideFitted || !allowed.of(variable).contains(value);
        return outsideFitted.bit() | (isRefused ? refused.bit() : 0);
    }
}
