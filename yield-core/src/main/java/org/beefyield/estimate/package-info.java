/**
 * From a carcass and a table to kilograms.
 *
 * <p>A {@link org.beefyield.estimate.YieldEstimator} binds a {@link org.beefyield.table.YieldTable} to a cutting
 * specification and, if wanted, a {@link org.beefyield.estimate.MinceTarget}; it turns a
 * {@link org.beefyield.carcass.Carcass} into a {@link org.beefyield.estimate.YieldEstimate} and many into a
 * {@link org.beefyield.estimate.LotEstimate}. Both are an {@link org.beefyield.estimate.Outturn}: kilograms of every
 * cut at every level, which add up to the cold weight at each. A lot keeps nothing of single carcasses, so that it can be
 * had under another cutting specification without reading them again. Quarters and sides of either, a
 * {@link org.beefyield.estimate.CarcassPart} of each carcass, are a {@link org.beefyield.estimate.PartEstimate}; those of several
 * lots add up. {@link org.beefyield.estimate.YieldColumns} does the
 * same for arrays.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.estimate;

import org.jspecify.annotations.NullMarked;
