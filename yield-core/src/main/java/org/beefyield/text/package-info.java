/**
 * Figures for people: {@link org.beefyield.text.Numbers numbers} as text, {@link org.beefyield.text.TextTable tables}
 * as plain text and HTML, and {@link org.beefyield.text.Rounding rounding} that keeps printed parts adding up to the
 * printed whole. Every result of the
 * library is {@link org.beefyield.text.Shown}: text and HTML with the same in both. {@link org.beefyield.text.Blocks} puts
 * sentences and tables together. {@link org.beefyield.text.Checks} refuses null and figures that are none. Knows nothing
 * of beef; every package may use it.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.text;

import org.jspecify.annotations.NullMarked;
