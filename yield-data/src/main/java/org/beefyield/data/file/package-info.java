/**
 * What the packages of files share and callers don't see: no part of the library's interface, and it may change with any
 * version.
 * {@link org.beefyield.data.file.CsvReader} reads CSV line by line and {@link org.beefyield.data.file.CsvRow} reads its cells;
 * {@link org.beefyield.data.file.SmallCsv} reads a whole file of a caller's.
 * {@link org.beefyield.data.file.OutputFiles} is what stands behind {@link org.beefyield.data.Outputs}: parts written beside
 * their places, such as an {@link org.beefyield.data.file.AtomicFile}, and put there at the end, with a
 * {@link org.beefyield.data.file.Guard} in each folder, a locked file that tells a run that is alive from what a killed one
 * left.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.file;

import org.jspecify.annotations.NullMarked;
