/**
 * Whether the SD from run to run is found, and whether control boards hold their rate of false alarms: see
 * {@link org.beefyield.benchmarks.control.ControlStudy}.
 */
@NullMarked
package org.beefyield.benchmarks.control;

import org.jspecify.annotations.NullMarked;
