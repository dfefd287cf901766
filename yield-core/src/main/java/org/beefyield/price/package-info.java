/**
 * What carcasses are worth at a price list, and why one is worth more than another.
 *
 * <p>A {@link org.beefyield.price.Valuer} binds a {@link org.beefyield.price.PriceList} to an estimator and one level of
 * cutting, and refuses to if any cut that can come out has no price; it turns an estimate of a carcass or lot into a
 * {@link org.beefyield.price.Value}. {@link org.beefyield.price.Attribution} shares a difference in value out to its reasons.
 * {@link org.beefyield.price.TwoTables} sets two tables side by side on the same carcasses, in kg and at prices.
 *
 * <p>Amounts are worked out in doubles and rounded once, where they are printed, so that what is printed adds up. A currency
 * is a label; two of them don't mix.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.price;

import org.jspecify.annotations.NullMarked;
