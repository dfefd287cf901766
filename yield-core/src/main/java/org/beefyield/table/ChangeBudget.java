package org.beefyield.table;

import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * How far one table may differ from another: the shares of its cuts, and each other kind of change by itself. What isn't
 * said may not change at all, but for {@link TableChange.Kind#DESCRIPTION}. Immutable.
 *
 * <pre>{@code
 * ChangeBudget budget = ChangeBudget.ofShares(5)
 *         .allowing(TableChange.Kind.NAMES, TableChange.Kind.NOTES)
 *         .upTo(TableChange.Kind.SDS, 10);
 * }</pre>
 */
public final class ChangeBudget {
    private final double sharesGPerKg;
    private final Map<TableChange.Kind, Double> most;

    private ChangeBudget(double sharesGPerKg, Map<TableChange.Kind, Double> most) {
        this.sharesGPerKg = sharesGPerKg;
        this.most = most;
    }

    /**
     * A budget for the shares of cuts, and nothing for anything else.
     *
     * @param gPerKg largest change of a share allowed, g per kg of carcass, 0 or more
     * @return the budget
     * @throws IllegalArgumentException if it is negative or not a number
     */
    public static ChangeBudget ofShares(double gPerKg) {
        if (!(gPerKg >= 0)) {
            throw new IllegalArgumentException("budget " + gPerKg + " g/kg is below 0");
        }
        Map<TableChange.Kind, Double> most = new EnumMap<>(TableChange.Kind.class);
        most.put(TableChange.Kind.DESCRIPTION, Double.POSITIVE_INFINITY);
        return new ChangeBudget(gPerKg, most);
    }

    private ChangeBudget with(TableChange.Kind kind, double size) {
        Map<TableChange.Kind, Double> more = new EnumMap<>(most);
        more.put(kind, size);
        return new ChangeBudget(sharesGPerKg, more);
    }

    /**
     * The same with kinds that may change by any size.
     *
     * @param kinds the kinds
     * @return a budget
     */
    public ChangeBudget allowing(TableChange.Kind... kinds) {
        Checks.noNullIn(kinds, "kinds");
        ChangeBudget budget = this;
        for (TableChange.Kind kind : kinds) {
            budget = budget.with(kind, Double.POSITIVE_INFINITY);
        }
        return budget;
    }

    /**
     * The same with a kind that may change by so much.
     *
     * @param kind a kind that is measured
     * @param size most that is allowed, in the unit of the kind, 0 or more
     * @return a budget
     * @throws IllegalArgumentException if the kind isn't measured, or the size is negative or not a number
     */
    public ChangeBudget upTo(TableChange.Kind kind, double size) {
        Objects.requireNonNull(kind, "kind");
        if (kind.unit().isEmpty()) {
            throw new IllegalArgumentException(kind.code() + " are not measured: they may change or not");
        }
        if (!(size >= 0)) {
            throw new IllegalArgumentException(
                    "budget " + size + " " + kind.unit() + " for " + kind.code() + " is below 0");
        }
        return with(kind, size);
    }

    /**
     * For the shares of cuts.
     *
     * @return largest change allowed, g per kg of carcass
     */
    public double sharesGPerKg() {
        return sharesGPerKg;
    }

    /**
     * For one of the other kinds.
     *
     * @param kind the kind
     * @return largest change allowed in the unit of the kind: 0 for none, infinite for any
     */
    public double of(TableChange.Kind kind) {
        Objects.requireNonNull(kind, "kind");
        return most.getOrDefault(kind, 0.0);
    }

    /**
     * Whether a change is within it.
     *
     * @param change the change
     * @return true if it is
     */
    public boolean allows(TableChange change) {
        Objects.requireNonNull(change, "change");
        double allowed = of(change.kind());
        // a little more than it, for the noise of the arithmetic
        return allowed > 0 && change.size() <= allowed * (1 + 1e-9);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof ChangeBudget that && sharesGPerKg == that.sharesGPerKg && most.equals(that.most);
    }

    @Override
    public int hashCode() {
        return Objects.hash(sharesGPerKg, most);
    }

    /**
     * One line.
     *
     * @return such as {@code shares up to 5 g/kg, sds up to 10 %, names, description}
     */
    @Override
    public String toString() {
        return "shares up to " + Numbers.exact(sharesGPerKg) + " g/kg"
                + most.entrySet().stream()
                        .map(entry -> ", " + entry.getKey().code()
                                + (Double.isInfinite(entry.getValue())
                                        ? ""
                                        : " up to " + Numbers.exact(entry.getValue()) + " "
                                                + entry.getKey().unit()))
                        .collect(Collectors.joining());
    }
}
