/**
 * Frames as files. {@link org.beefyield.data.frame.FrameFile} writes the columns of a result as CSV, with their units in the
 * header and numbers in full, beside it the descriptor of a Tabular Data Package with the types of its columns, and reads
 * them back equal, whole or in part.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.frame;

import org.jspecify.annotations.NullMarked;
