/**
 * What to cut for whom: orders, stock and hours against tomorrow's carcasses.
 *
 * <p>A {@link org.beefyield.plan.Planner} knows the orders, the prices of what no order takes, the hall's rates and what is free to be
 * chosen; {@link org.beefyield.plan.Planner#plan} makes a {@link org.beefyield.plan.Plan} of carcasses. The program is linear, in
 * fractions of cells of carcasses that needn't be told apart; whole carcasses are then taken for the fractions and everything is
 * worked out anew from that list. How sure an order is holds what lots, runs and halls have in common.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.plan;

import org.jspecify.annotations.NullMarked;
