/** Benchmarks of what the calibration keeps to itself. */
@NullMarked
package org.beefyield.calibrate;

import org.jspecify.annotations.NullMarked;
