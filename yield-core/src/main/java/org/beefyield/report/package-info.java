/**
 * Pages that join several results: what a manager asks for on a day, seasons and plants side by side, and what was trimmed off.
 *
 * <p>A {@link org.beefyield.report.Day} is what stands first: rows, head, kilograms, worth, payment and margin, each with how sure
 * it is. A {@link org.beefyield.report.Comparison} sets seasons or plants beside one another, as they are and at one mix of
 * carcasses. {@link org.beefyield.report.TrimmedParts} takes what meat inspection cut off from the cuts of that part of the
 * carcass.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.report;

import org.jspecify.annotations.NullMarked;
