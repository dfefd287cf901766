/**
 * What is paid for carcasses, and what that leaves.
 *
 * <p>A {@link org.beefyield.pay.PaymentGrid} says what is paid for a kg of a carcass, a {@link org.beefyield.pay.MarginReport}
 * adds up what carcasses are worth less what was paid for them, and {@link org.beefyield.pay.GradeDifferentials} are the grid
 * that a plant could defend, beside the one that it pays.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.pay;

import org.jspecify.annotations.NullMarked;
