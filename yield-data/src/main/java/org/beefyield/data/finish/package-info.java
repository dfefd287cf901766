/**
 * Files of the farm: {@link org.beefyield.data.finish.PenReader} reads the animals of a pen,
 * {@link org.beefyield.data.finish.HoldingReader} what it costs to hold them and what is assumed of them, and
 * {@link org.beefyield.data.finish.PriceMoveReader} how prices move.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.finish;

import org.jspecify.annotations.NullMarked;
