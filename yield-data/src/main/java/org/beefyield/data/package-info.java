/**
 * Files in and out. What comes in is checked and named: every complaint is a {@link org.beefyield.data.Problem} with
 * file, line, column, value and what would be valid, and a file that can't be used at all is one
 * {@link org.beefyield.data.InvalidDataException} with all of them.
 *
 * <p>A day's kill sheet is a CSV file with a row for each carcass. {@link org.beefyield.data.KillSheetReader} reads it,
 * and {@link org.beefyield.data.KillSheetFormat} describes its columns and is where a caller declares what is different
 * in his own: another separator, decimal commas, another encoding, grades in halves, columns under other names. Nothing
 * of that is ever guessed. The result, a {@link org.beefyield.data.KillSheet}, holds the rows that can be used as
 * {@linkplain org.beefyield.data.KillSheetEntry entries}, the condemned carcasses apart, every problem and every note;
 * no row gets lost and no bad row stops the good ones. Sheets too long to hold go row by row to a
 * {@link org.beefyield.data.KillSheetHandler}.
 */
@NullMarked
package org.beefyield.data;

import org.jspecify.annotations.NullMarked;
