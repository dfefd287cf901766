/**
 * Kill sheets, and what is written for their carcasses. A day's kill sheet is a CSV file with a row for each carcass.
 * {@link org.beefyield.data.killsheet.KillSheetReader} reads it, and
 * {@link org.beefyield.data.killsheet.KillSheetFormat} describes its columns and is where a caller declares what is different
 * in his own: a {@link org.beefyield.data.CsvForm}, grades in halves, totals, a row for each side. Nothing of that is ever
 * guessed. The result, a {@link org.beefyield.data.killsheet.KillSheet}, holds the rows that can be used as
 * {@linkplain org.beefyield.data.killsheet.KillSheetEntry entries}, the condemned carcasses apart, every problem and every
 * note; no row gets lost and no bad row stops the good ones. Sheets too long to hold go row by row to a
 * {@link org.beefyield.data.killsheet.KillSheetHandler}.
 *
 * <p>{@link org.beefyield.data.killsheet.EstimateWriter} writes the estimates of the carcasses, a row for each cut or for each
 * carcass, and {@link org.beefyield.data.killsheet.ProblemWriter} what was wrong with the rows that gave none. Neither holds
 * what it has written, and both pack with gzip if the name of the file says so.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.killsheet;

import org.jspecify.annotations.NullMarked;
