/**
 * Statistics that know nothing of carcasses: {@link org.beefyield.stats.Regression} of several responses on the same terms
 * with shrinkage towards prior coefficients, and the plain figures of a {@link org.beefyield.stats.Sample}.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.stats;

import org.jspecify.annotations.NullMarked;
