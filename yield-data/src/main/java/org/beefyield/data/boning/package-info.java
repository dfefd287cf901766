/**
 * Boning trials and runs as files. {@link org.beefyield.data.boning.TrialReader} reads the weights of boned carcasses, a row for each,
 * for the cuts of a catalogue. The result, a {@link org.beefyield.data.boning.TrialSheet}, holds the trials that can be used
 * and every problem of the other rows, so that one slip of a pen doesn't cost a day's work. Trials of another layout, such as
 * open data, are read as they are by a {@link org.beefyield.data.boning.TrialLayout} that says what their columns hold.
 *
 * <p>{@link org.beefyield.data.boning.BoningRunReader} reads a run or a season of them: intake, boxes and rest, a file for
 * each; {@link org.beefyield.data.boning.ProductReader} reads which cuts go into which product.
 * {@link org.beefyield.data.boning.BoningRunWriter} writes what both read.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.boning;

import org.jspecify.annotations.NullMarked;
