/**
 * Whether pieces fit their packs, and how each cut is best cut.
 *
 * <p>{@link org.beefyield.pack.PackFit} holds the pieces of a carcass against {@link org.beefyield.market.SizeWindow windows},
 * prices what misses them, and finds the ways of cutting that are expected to return most
 * ({@link org.beefyield.pack.BestWays}); {@link org.beefyield.pack.PackSummary} adds that up over a lot. Labour is not counted.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.pack;

import org.jspecify.annotations.NullMarked;
