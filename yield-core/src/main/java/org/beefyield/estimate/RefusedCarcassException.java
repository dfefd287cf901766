package org.beefyield.estimate;

import java.util.List;
import java.util.stream.Collectors;
import org.beefyield.BeefyieldException;
import org.beefyield.carcass.Carcass;

/**
 * A carcass for which a table gives no estimate: its category isn't served, it lies outside the allowed range, or outside the
 * fitted range where the estimator refuses that too. {@link YieldEstimator#tryEstimate} and {@link
 * LotEstimate.Collector#tryAdd} ask without it.
 */
public final class RefusedCarcassException extends BeefyieldException {
    private static final long serialVersionUID = 1;

    /**
     * The carcass.
     *
     * @serial the carcass
     */
    private final Carcass carcass;

    /**
     * Why it is refused.
     *
     * @serial one or more
     */
    private final Refusal[] reasons;

    RefusedCarcassException(Carcass carcass, List<Refusal> reasons) {
        super(reasons.stream().map(Refusal::text).collect(Collectors.joining("; ")));
        this.carcass = carcass;
        this.reasons = reasons.toArray(new Refusal[0]);
    }

    /**
     * The carcass that is refused.
     *
     * @return the carcass
     */
    public Carcass carcass() {
        return carcass;
    }

    /**
     * Why it is refused; the message has them all.
     *
     * @return one or more reasons, as data
     */
    public List<Refusal> reasons() {
        return List.of(reasons);
    }
}
