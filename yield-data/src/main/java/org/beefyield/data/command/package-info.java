/**
 * The command for daily use: {@code java -jar yield-data-VERSION-cli.jar --killsheet FILE}. No part of the library's
 * interface; embed {@link org.beefyield.estimate.YieldEstimator} instead.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.command;

import org.jspecify.annotations.NullMarked;
