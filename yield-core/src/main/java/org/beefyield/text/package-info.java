/**
 * Figures for people: {@link org.beefyield.text.TextTable tables} as plain text and HTML, and
 * {@link org.beefyield.text.Rounding rounding} that keeps printed parts adding up to the printed whole. Knows nothing of
 * beef; every package may use it.
 */
@NullMarked
package org.beefyield.text;

import org.jspecify.annotations.NullMarked;
