package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.table.TableRange;
import org.beefyield.table.Variable;

/** What {@link YieldEstimator#check} says of a carcass, for rows of columns: as bits, without allocating. */
final class RowChecks {
    private static final int ASCII = 128;

    private final List<Category> categories = new ArrayList<>();
    private final byte[] indexOf = new byte[ASCII];
    private final TableRange allowed;
    private final TableRange fitted;
    private final double lowConformation;
    private final double highConformation;
    private final double lowFat;
    private final double highFat;
    private final double lowKg;
    private final double highKg;
    private final boolean refusesOutsideFitted;

    RowChecks(YieldEstimator estimator) {
        Arrays.fill(indexOf, (byte) -1);
        for (Category category : estimator.categories()) {
            indexOf[category.letter().charAt(0)] = (byte) categories.size();
            categories.add(category);
        }
        allowed = estimator.table().definition().allowed();
        fitted = estimator.table().definition().fitted();
        lowConformation = fitted.conformation().low();
        highConformation = fitted.conformation().high();
        lowFat = fitted.fat().low();
        highFat = fitted.fat().high();
        lowKg = fitted.weightKg().low();
        highKg = fitted.weightKg().high();
        refusesOutsideFitted = estimator.policy() == RangePolicy.REFUSE_OUTSIDE_FITTED;
    }

    /** The categories served; a category's index is its place in this list. */
    List<Category> categories() {
        return categories;
    }

    /** Index of a category by its letter, below 0 if it isn't served. */
    int category(byte letter) {
        return letter < 0 ? -1 : indexOf[letter];
    }

    /** A row's flags, see {@link RowFlag}. */
    byte flags(int category, double conformation, double fat, double coldWeightKg) {
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
