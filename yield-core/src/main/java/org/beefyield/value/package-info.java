/**
 * What carcasses are worth, what was paid for them, why one is worth more than another, and whether they fit.
 *
 * <p>A {@link org.beefyield.value.Valuer} binds a {@link org.beefyield.value.PriceList} to an estimator and one level of
 * cutting, and refuses to if any cut that can come out has no price; it turns an estimate of a carcass or lot into a
 * {@link org.beefyield.value.Value}. A {@link org.beefyield.value.PaymentGrid} says what is paid, and a
 * {@link org.beefyield.value.MarginReport} adds up the margins. {@link org.beefyield.value.Attribution} shares a difference
 * in value out to its reasons; {@link org.beefyield.value.GradeDifferentials} are the grid that a plant could defend.
 *
 * <p>What a customer takes is a {@link org.beefyield.value.MarketSpecification}, how heavy a piece may be a
 * {@link org.beefyield.value.SizeWindow}; {@link org.beefyield.value.Overfat} says what carcasses lose that are fatter than
 * asked, and {@link org.beefyield.value.FeedbackSheets} tell all of it to suppliers.
 *
 * <p>Amounts are worked out in doubles and rounded once, where they are printed, so that what is printed adds up. A currency
 * is a label; two of them don't mix.
 */
@NullMarked
package org.beefyield.value;

import org.jspecify.annotations.NullMarked;
