/**
 * What came off the line against what should have.
 *
 * <p>A {@link org.beefyield.reconcile.Reconciliation} sets what a {@link org.beefyield.boning.BoningRun} weighed against the
 * estimate of exactly what went in, brought to the intake weight: by the smallest groups of products that can be told apart, with
 * what nobody weighed as the last of them, so that all of it adds up to the intake to the gram. Each difference is shared out to
 * its {@link org.beefyield.reconcile.Cause}s in kg and money.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.reconcile;

import org.jspecify.annotations.NullMarked;
