/**
 * Linear programs and what can be said of their solutions, whoever finds them.
 *
 * <p>A {@link org.beefyield.lp.LinearProgram} is always a maximum. A {@link org.beefyield.lp.LinearSolver} is handed in by the
 * caller; this package has none. What it returns need not be believed: {@link org.beefyield.lp.OptimumCheck} works out from the
 * program, the values and the multipliers alone how far a solution is off, and {@link org.beefyield.lp.CheckedSolver} lets
 * nothing else pass. {@link org.beefyield.lp.ShadowPrices} say what moving a bound is worth, up and down;
 * {@link org.beefyield.lp.Conflict} names the fewest demands that can't be met together.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.lp;

import org.jspecify.annotations.NullMarked;
