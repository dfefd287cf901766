/**
 * Statistics that know nothing of carcasses: {@link org.beefyield.stats.Regression} of several responses on the same terms
 * with shrinkage towards prior coefficients; {@link org.beefyield.stats.RandomEffects} of units whose values have known
 * variances, and {@link org.beefyield.stats.NestedEffects} where units stand in groups; {@link org.beefyield.stats.ControlBoard}, control charts that hold their rate of false alarms though neither mean
 * nor SD is known; {@link org.beefyield.stats.FalseDiscovery} among many tests; and the plain figures of a
 * {@link org.beefyield.stats.Sample}.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.stats;

import org.jspecify.annotations.NullMarked;
