/**
 * What a customer takes: which carcasses ({@link org.beefyield.market.MarketSpecification}) and pieces of which size
 * ({@link org.beefyield.market.SizeWindow}). {@link org.beefyield.market.MarketSummary} counts a lot's misses.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.market;

import org.jspecify.annotations.NullMarked;
