package org.beefyield.pack;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.MinceWorth.Trims;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * Pieces against the windows of their packs: the chances of a carcass, what misfits are expected to cost, the ways of
 * cutting it that are expected to return most, and how heavy a carcass of a grade may be. Thread-safe.
 *
 * <p>A piece that misses its window goes another way, with the value of that way. What a misfit costs is looked at cut by cut:
 * what a way is worth is the value of the carcass with that cut alone cut that way, less its value under the fixed
 * specification. The best ways are those of all cuts together, with the mince that all their trim makes; a cut with ways that
 * comes of another such cut is looked at as the fixed specification brings it. Labour is not counted.
 *
 * <p>Chances are those of pieces in a hall that cuts as the table does: see {@link PieceWeight}.
 */
public final class PackFit {
    private static final double WEIGHT_TOLERANCE_KG = 0.01;

    private final Valuer fixed;

    private final List<SizeWindow> windows;
    /** By cut and way, the valuer with that cut alone cut otherwise; without an entry there is no price. */
    private final Map<String, Map<String, Valuer>> single = new LinkedHashMap<>();
    /** By the valuer itself: the estimator of the same without mince. */
    private final IdentityHashMap<Valuer, YieldEstimator> unminced = new IdentityHashMap<>();

    private final Map<String, String> unpriced = new LinkedHashMap<>();
    private final Set<String> assumed;
    private final List<Valuer> declared = new ArrayList<>();
    private final Map<Map<String, String>, Valuer> combined = new ConcurrentHashMap<>();

    private final boolean anyHall;
    private final MinceWorth minceWorth;

    private PackFit(Valuer fixed, List<SizeWindow> windows, boolean anyHall) {
        this.fixed = fixed;
        this.anyHall = anyHall;
        this.windows = List.copyOf(windows);
        this.assumed = AssumedWays.of(fixed.estimator().table());
        this.minceWorth = MinceWorth.of(fixed);
        this.unminced.put(fixed, fixed.estimator().withoutMince());
    }

    /**
     * Pieces of a valuer's carcasses against windows.
     *
     * @param valuer prices, and the fixed specification; it values the last level
     * @param windows windows, at most one for each way of a cut
     * @return it
     * @throws IllegalArgumentException if a window is for a cut, or a way, that the table doesn't have or that isn't sold
     *     by the piece, two windows are for one way, or a way that misfits go has no price
     */
    public static PackFit of(Valuer valuer, List<SizeWindow> windows) {
        Objects.requireNonNull(valuer, "valuer");
        Checks.noNullIn(windows, "windows");
        return of(valuer, windows, false);
    }

    /**
     * The same with chances that hold what any hall does otherwise than the table, where the valuer's estimator counts that.
     *
     * @return pieces against the same windows
     */
    public PackFit inAnyHall() {
        return of(fixed, windows, true);
    }

    private static PackFit of(Valuer valuer, List<SizeWindow> windows, boolean anyHall) {
        PackFit fit = new PackFit(valuer, windows, anyHall);
        fit.checkWindows();
        fit.priceWays();
        for (SizeWindow window : windows) {
            if (!window.otherwise().isEmpty() && !fit.ways(window.cut()).containsKey(window.otherwise())) {
                throw new IllegalArgumentException(
                        "pieces of " + window.cut() + " that don't fit go as " + window.otherwise() + ": "
                                + fit.unpriced.get(AssumedWays.words(window.cut(), window.otherwise())));
            }
        }
        return fit;
    }

    /**
     * Prices, and the fixed specification.
     *
     * @return the valuer
     */
    public Valuer valuer() {
        return fixed;
    }

    /**
     * The windows.
     *
     * @return an unmodifiable list
     */
    public List<SizeWindow> windows() {
        return windows;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof PackFit that
                && fixed.equals(that.fixed)
                && windows.equals(that.windows)
                && anyHall == that.anyHall;
    }

    @Override
    public int hashCode() {
        return Objects.hash(fixed, windows);
    }

    /**
     * One line.
     *
     * @return number of windows, and the valuer
     */
    @Override
    public String toString() {
        return windows.size() + (windows.size() == 1 ? " window" : " windows") + " at " + fixed;
    }

    private YieldEstimator estimator() {
        return fixed.estimator();
    }

    private PieceWeight piece(YieldEstimate estimate, String cut) {
        return anyHall ? PieceWeight.inAnyHall(estimate, cut) : PieceWeight.of(estimate, cut);
    }

    private void checkWindows() {
        Set<List<String>> seen = new HashSet<>();
        for (SizeWindow window : windows) {
            Cut cut = estimator().table().catalogue().cut(window.cut());
            if (cut.piecesPerSide() == null) {
                throw new IllegalArgumentException(
                        "cut \"" + cut.code() + "\" isn't sold by the piece, so that no window" + " is for it");
            }
            Set<String> ways = estimator().table().ways(window.cut());
            for (String way : List.of(window.way(), window.otherwise())) {
                if (!way.isEmpty() && !way.equals(BreakdownRow.ANY) && !ways.contains(way)) {
                    throw new IllegalArgumentException(
                            "no way \"" + way + "\" of " + window.cut() + "; its ways: " + String.join(", ", ways));
                }
            }
            if (!seen.add(List.of(window.cut(), window.way()))) {
                throw new IllegalArgumentException("two windows are for " + window.cut() + " as " + window.way());
            }
        }
    }

    private void priceWays() {
        estimator().specification().ways().forEach((cut, way) -> {
            Map<String, Valuer> priced = new LinkedHashMap<>();
            for (String other : estimator().table().ways(cut)) {
                try {
                    priced.put(
                            other,
                            other.equals(way) ? fixed : valuer(estimator().with(cut, other)));
                } catch (IllegalArgumentException e) {
                    unpriced.put(AssumedWays.words(cut, other), String.valueOf(e.getMessage()));
                }
            }
            single.put(cut, priced);
            priced.values()
                    .forEach(valuer -> unminced.put(valuer, valuer.estimator().withoutMince()));
        });
        for (CuttingSpecification specification : estimator().table().specifications()) {
            try {
                declared.add(valuer(estimator().with(specification)));
            } catch (IllegalArgumentException e) {
                unpriced.put("specification " + specification, String.valueOf(e.getMessage()));
            }
        }
    }

    private Valuer valuer(YieldEstimator other) {
        return Valuer.of(fixed.prices(), other, fixed.level());
    }

    private Map<String, Valuer> ways(String cut) {
        return single.getOrDefault(cut, Map.of());
    }

    /**
     * The chances of every window that is for a cut or for the way in which the fixed specification cuts it.
     *
     * @param carcass carcass
     * @return chances in the order of the windows
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it
     */
    public List<WindowChance> chances(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        YieldEstimate estimate = estimator().estimate(carcass);
        return windows.stream()
                .filter(window -> window.isFor(way(estimator().specification(), window.cut())))
                .map(window -> WindowChance.of(window, piece(estimate, window.cut())))
                .toList();
    }

    private static String way(CuttingSpecification specification, String cut) {
        return specification.ways().getOrDefault(cut, BreakdownRow.ANY);
    }

    /**
     * The value of a carcass under the fixed specification, misfits going their other way.
     *
     * @param carcass carcass
     * @return the value
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it
     * @throws MissingPriceException if its mince, or that of a way that misfits go, turns out fatter than any that has a
     *     price
     */
    public PackedValue value(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        Carving carving = new Carving(carcass);
        return carving.packed(fixed, carving.fixedValue.amount());
    }

    /**
     * The ways that together are expected to return most of a carcass: never less than the fixed specification or any
     * specification of the table with prices. Where ways are equal the fixed one stays. Ways are not looked at if one alone
     * makes mince that has no price.
     *
     * @param carcass carcass
     * @return them, beside the fixed specification
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it
     * @throws MissingPriceException as {@link #value}
     */
    public BestWays best(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        Carving carving = new Carving(carcass);
        PackedValue start = carving.packed(fixed, carving.fixedValue.amount());
        PackedValue best = start;
        Map<String, String> chosen = carving.bestWays();
        if (!chosen.equals(estimator().specification().ways())) {
            best = carving.better(best, combined.computeIfAbsent(chosen, this::combined));
        }
        // one of the table's may have ways that weren't looked at
        for (Valuer other : declared) {
            best = carving.better(best, other);
        }
        Map<String, String> notPriced = new LinkedHashMap<>(unpriced);
        carving.unpriced.forEach((what, missing) -> notPriced.put(what, String.valueOf(missing.getMessage())));
        List<String> changed = new ArrayList<>();
        BestWays.changed(start, best).forEach((cut, way) -> changed.add(AssumedWays.words(cut, way)));
        changed.retainAll(assumed);
        Difference gain = best.specification().equals(start.specification())
                ? null
                : valuerOf(best.specification()).value(carcass).changeFrom(carving.fixedValue);
        return new BestWays(start, best, notPriced, changed, gain);
    }

    private Valuer valuerOf(CuttingSpecification specification) {
        return Stream.concat(declared.stream(), combined.values().stream())
                .filter(valuer -> valuer.estimator().specification().equals(specification))
                .findFirst()
                .orElse(fixed);
    }

    private Valuer combined(Map<String, String> ways) {
        CuttingSpecification specification = estimator().specification();
        for (Map.Entry<String, String> entry : ways.entrySet()) {
            if (!entry.getValue().equals(way(estimator().specification(), entry.getKey()))) {
                specification = specification.with(entry.getKey(), entry.getValue());
            }
        }
        return valuer(estimator().with(specification));
    }

    /** One carcass: what each way of each cut is worth. */
    private final class Carving {
        private final Carcass carcass;
        private final YieldEstimate estimate;
        private final Value fixedValue;
        /** By the valuer itself: one compares its whole price list. */
        private final IdentityHashMap<Valuer, Optional<Value>> values = new IdentityHashMap<>();
        /** Ways that make mince of which the fat content has no price. */
        private final Map<String, MissingPriceException> unpriced = new LinkedHashMap<>();

        private final Map<String, PieceWeight> pieces = new HashMap<>();

        Carving(Carcass carcass) {
            this.carcass = carcass;
            this.estimate = estimator().estimate(carcass);
            this.fixedValue = fixed.value(estimate);
            values.put(fixed, Optional.of(fixedValue));
        }

        /** What the carcass is worth by another valuer; empty if a price is missing, which is then noted. */
        private Optional<Value> value(Valuer valuer, String what) {
            return values.computeIfAbsent(valuer, one -> {
                try {
                    return Optional.of(one.value(carcass));
                } catch (MissingPriceException e) {
                    unpriced.put(what, e);
                    return Optional.empty();
                }
            });
        }

        PackedValue better(PackedValue before, Valuer other) {
            CuttingSpecification specification = other.estimator().specification();
            return value(other, "specification " + specification)
                    .map(worth -> packed(other, worth.amount()))
                    .filter(now -> now.expected() > before.expected() + BestOfWays.SAME)
                    .orElse(before);
        }

        /** What a cut is worth in a way beyond the fixed way, or null if there is no price. */
        private @Nullable Double beyond(String cut, String way) {
            Valuer valuer = ways(cut).get(way);
            return valuer == null
                    ? null
                    : value(valuer, AssumedWays.words(cut, way))
                            .map(value -> value.amount() - fixedValue.amount())
                            .orElse(null);
        }

        private List<Downgrade> downgrades(String cut, String way) {
            List<Downgrade> downgrades = new ArrayList<>();
            for (SizeWindow window : windows) {
                if (window.cut().equals(cut) && window.isFor(way)) {
                    PieceWeight piece = pieces.computeIfAbsent(cut, one -> piece(estimate, one));
                    Double own = beyond(cut, way);
                    Double other = beyond(cut, window.otherwise());
                    MissingPriceException missing = unpriced.get(AssumedWays.words(cut, window.otherwise()));
                    if (missing != null) {
                        // a cost that can't be said is not one of 0
                        throw missing;
                    }
                    double lossPerKg = own == null || other == null ? 0 : (own - other) / estimate.kg(cut);
                    double kg = window.otherwise().isEmpty() ? 0 : piece.pieces() * piece.kgOutside(window);
                    downgrades.add(new Downgrade(WindowChance.of(window, piece), kg, lossPerKg));
                }
            }
            return downgrades;
        }

        PackedValue packed(Valuer valuer, double amount) {
            CuttingSpecification specification = valuer.estimator().specification();
            List<Downgrade> downgrades = new ArrayList<>();
            Set<String> cuts = new LinkedHashSet<>();
            windows.forEach(window -> cuts.add(window.cut()));
            cuts.forEach(cut -> downgrades.addAll(downgrades(cut, way(specification, cut))));
            return new PackedValue(specification, amount, downgrades, fixed.prices());
        }

        /** The ways of all cuts that together are expected to return most; the fixed way where another is no better. */
        Map<String, String> bestWays() {
            Trims usual = trims(fixed);
            List<List<String>> names = new ArrayList<>();
            List<List<Trims>> changes = new ArrayList<>();
            for (String cut : single.keySet()) {
                Set<String> priced = new LinkedHashSet<>(List.of(way(estimator().specification(), cut)));
                ways(cut).keySet().stream()
                        .filter(way -> beyond(cut, way) != null)
                        .forEach(priced::add);
                names.add(List.copyOf(priced));
                changes.add(priced.stream().map(way -> change(usual, cut, way)).toList());
            }
            int[] best = BestOfWays.choice(minceWorth, usual, changes);
            Map<String, String> chosen = new LinkedHashMap<>();
            for (String cut : single.keySet()) {
                chosen.put(cut, names.get(chosen.size()).get(best[chosen.size()]));
            }
            return chosen;
        }

        /** What a way of a cut changes, the downgrades that are expected in it taken off. */
        private Trims change(Trims usual, String cut, String way) {
            double cost =
                    downgrades(cut, way).stream().mapToDouble(Downgrade::amount).sum();
            Trims change = way.equals(way(estimator().specification(), cut))
                    ? Trims.NONE
                    : trims(Objects.requireNonNull(ways(cut).get(way))).plus(-1, usual);
            return change.plus(-cost, Trims.OTHER);
        }

        /** The trims of the carcass by a valuer that was found to have a price for all of it. */
        private Trims trims(Valuer valuer) {
            Value value = values.getOrDefault(valuer, Optional.empty()).orElseThrow();
            return minceWorth.trims(value, carcass, Objects.requireNonNull(unminced.get(valuer)));
        }
    }

    /**
     * The lightest carcass of a grade whose pieces are too heavy with more than a chance.
     *
     * @param grade a carcass of the category and grade; its weight doesn't matter
     * @param window window
     * @param chance chance, above 0 and below 1
     * @return cold weight, kg, to a hundredth; the table's least allowed weight if even that is too heavy, empty if none
     *     is
     * @throws IllegalArgumentException if the chance is outside its range or the cut isn't sold by the piece
     */
    public OptionalDouble tooHeavyFrom(Carcass grade, SizeWindow window, double chance) {
        Objects.requireNonNull(grade, "grade");
        Objects.requireNonNull(window, "window");
        if (!(chance > 0 && chance < 1)) {
            throw new IllegalArgumentException("chance " + chance + " is outside 0 to 1 (both excluded)");
        }
        TableRange allowed = estimator().table().definition().allowed();
        Range weights = allowed.weightKg();
        double low = weights.low();
        double high = weights.high();
        if (above(grade, window, high) <= chance) {
            return OptionalDouble.empty();
        }
        if (above(grade, window, low) > chance) {
            return OptionalDouble.of(low);
        }
        while (high - low > WEIGHT_TOLERANCE_KG) {
            double middle = (low + high) / 2;
            if (above(grade, window, middle) > chance) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(high);
    }

    /**
     * {@link #tooHeavyFrom} for whole classes: best conformation first, a column for each fat class; a dash where no
     * allowed weight is too heavy.
     *
     * @param category category
     * @param window window
     * @param chance chance, above 0 and below 1
     * @return whole kg, rounded down
     * @throws IllegalArgumentException as {@link #tooHeavyFrom}
     */
    public TextTable tooHeavyTable(Category category, SizeWindow window, double chance) {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(window, "window");
        TableRange allowed = estimator().table().definition().allowed();
        List<FatClass> fats = FatClass.classes().stream()
                .filter(fat -> allowed.fat().contains(fat.position()))
                .toList();
        List<String> header = new ArrayList<>(List.of("cold weight, kg"));
        fats.forEach(fat -> header.add("fat " + fat));
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (Conformation conformation : Conformation.classes()) {
            if (allowed.conformation().contains(conformation.position())) {
                List<String> row = new ArrayList<>(List.of(conformation.toString()));
                for (FatClass fat : fats) {
                    Carcass grade = Carcass.of(
                            category, conformation, fat, allowed.weightKg().low());
                    OptionalDouble kg = tooHeavyFrom(grade, window, chance);
                    row.add(kg.isPresent() ? Integer.toString((int) kg.getAsDouble()) : "-");
                }
                table.row(row);
            }
        }
        return table;
    }

    private double above(Carcass grade, SizeWindow window, double kg) {
        Carcass carcass = Carcass.of(grade.category(), grade.conformation(), grade.fatClass(), kg);
        return piece(estimator().estimate(carcass), window.cut()).chanceAbove(window.toKg());
    }
}
