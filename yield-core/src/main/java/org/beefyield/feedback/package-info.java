/**
 * What suppliers are told.
 *
 * <p>{@link org.beefyield.feedback.Overfat} says what carcasses lose that are fatter than a target.
 * {@link org.beefyield.feedback.FeedbackSheets} make a {@link org.beefyield.feedback.FeedbackSheet} for each supplier: every
 * animal beside the hall's average, in specification or not and why, and advice that harms nobody.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.feedback;

import org.jspecify.annotations.NullMarked;
