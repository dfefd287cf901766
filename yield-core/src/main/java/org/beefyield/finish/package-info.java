/**
 * Hold or sell: what an animal or a pen near finish brings today and on each day to come, and on which day it leaves most.
 *
 * <p>{@link org.beefyield.finish.HoldOrSell} is made of what decides: a payment grid, and as far as known the customer's
 * specification, the hall's prices, what a day costs ({@link org.beefyield.finish.HoldingCosts}), what an animal becomes
 * ({@link org.beefyield.finish.Assumptions}, each with source and kind, each replaceable) and how prices move. Of a
 * {@link org.beefyield.finish.FinishAnimal} it makes a {@link org.beefyield.finish.Forecast} day by day, of several a
 * {@link org.beefyield.finish.PenForecast}: which to draw first, and in which loads.
 *
 * <p>{@link org.beefyield.finish.SaleAdvice} says on feedback sheets what another day of sale would have left.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.finish;

import org.jspecify.annotations.NullMarked;
