/**
 * Files of buying and selling. {@link org.beefyield.data.trade.PriceListReader} reads what cuts are worth,
 * {@link org.beefyield.data.trade.PaymentGridReader} what is paid for a carcass by its grade and weight,
 * {@link org.beefyield.data.trade.MarketSpecificationReader} which carcasses a market takes,
 * {@link org.beefyield.data.trade.SizeWindowReader} how heavy the pieces in a pack may be,
 * {@link org.beefyield.data.trade.OrderReader} what is ordered, {@link org.beefyield.data.trade.StockReader} what lies in the chill and
 * {@link org.beefyield.data.trade.LabourRateReader} how fast a hall cuts. Each is a small CSV file with a
 * header, and each is read whole or refused with everything that is wrong in it: half a price list is worse than none.
 *
 * <p>{@link org.beefyield.data.trade.FeedbackWriter} writes the sheets that suppliers get, a page for each.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.trade;

import org.jspecify.annotations.NullMarked;
