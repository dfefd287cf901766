/**
 * Whether "90 % sure" holds 90 % of what a user will weigh: {@link org.beefyield.benchmarks.coverage.World} draws tables,
 * halls, runs, lots and carcasses as a table declares them to err, by reckoning of its own, and
 * {@link org.beefyield.benchmarks.coverage.CoverageStudy} counts how often the library's intervals hold what comes out.
 */
@NullMarked
package org.beefyield.benchmarks.coverage;

import org.jspecify.annotations.NullMarked;
