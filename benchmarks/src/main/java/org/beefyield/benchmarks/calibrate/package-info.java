/** Whether a table that was calibrated is nearer to its hall and as sure of itself as it says. */
@NullMarked
package org.beefyield.benchmarks.calibrate;

import org.jspecify.annotations.NullMarked;
