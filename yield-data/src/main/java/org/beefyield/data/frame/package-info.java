/**
 * Frames as files. {@link org.beefyield.data.frame.FrameFile} writes the columns of a result as CSV, with their units in the
 * header and numbers in full, and reads them back equal.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.frame;

import org.jspecify.annotations.NullMarked;
