/** Benchmarks of the library: speed, and load and soak runs. */
@NullMarked
package org.beefyield.benchmarks;

import org.jspecify.annotations.NullMarked;
