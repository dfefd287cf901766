package org.beefyield.feedback;

import java.util.List;
import java.util.Optional;
import org.beefyield.estimate.YieldEstimate;

/** Says what animals would have left their farmer on another day of sale, where costs are known; it asks for nothing that a customer forbids. */
@FunctionalInterface
public interface TimeOfSale {
    /**
     * A sentence about the animals of one supplier.
     *
     * @param animals estimates of their carcasses
     * @return a clause that begins in lower case and ends with a full stop, or empty if nothing can be said
     */
    Optional<String> advise(List<YieldEstimate> animals);
}
