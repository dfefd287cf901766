/**
 * Boning trials as files. {@link org.beefyield.data.boning.TrialReader} reads the weights of boned carcasses, a row for each,
 * for the cuts of a catalogue. The result, a {@link org.beefyield.data.boning.TrialSheet}, holds the trials that can be used
 * and every problem of the other rows, so that one slip of a pen doesn't cost a day's work.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.boning;

import org.jspecify.annotations.NullMarked;
