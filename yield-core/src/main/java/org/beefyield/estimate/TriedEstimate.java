package org.beefyield.estimate;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.jspecify.annotations.Nullable;

/** The estimate of a carcass, or why there is none: one of the two. Immutable. */
public final class TriedEstimate {
    private final Carcass carcass;
    private final @Nullable YieldEstimate estimate;
    private final List<Refusal> reasons;

    TriedEstimate(Carcass carcass, @Nullable YieldEstimate estimate, List<Refusal> reasons) {
        this.carcass = carcass;
        this.estimate = estimate;
        this.reasons = List.copyOf(reasons);
    }

    /**
     * The carcass.
     *
     * @return the carcass
     */
    public Carcass carcass() {
        return carcass;
    }

    /**
     * Its estimate.
     *
     * @return the estimate, or empty if the carcass is refused
     */
    public Optional<YieldEstimate> estimate() {
        return Optional.ofNullable(estimate);
    }

    /**
     * Why it is refused.
     *
     * @return reasons, empty if there is an estimate
     */
    public List<Refusal> reasons() {
        return reasons;
    }

    /**
     * Its estimate, or the exception that {@link YieldEstimator#estimate} throws.
     *
     * @return the estimate
     * @throws RefusedCarcassException if the carcass is refused
     */
    public YieldEstimate orElseThrow() {
        if (estimate == null) {
            throw new RefusedCarcassException(carcass, reasons);
        }
        return estimate;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof TriedEstimate that
                && carcass.equals(that.carcass)
                && Objects.equals(estimate, that.estimate)
                && reasons.equals(that.reasons);
    }

    @Override
    public int hashCode() {
        return Objects.hash(carcass, estimate, reasons);
    }

    /**
     * One line.
     *
     * @return the estimate, or the carcass and why it is refused
     */
    @Override
    public String toString() {
        return estimate == null
                ? carcass + " refused: " + reasons.stream().map(Refusal::text).collect(Collectors.joining("; "))
                : estimate.toString();
    }
}
