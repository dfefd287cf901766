/** The library beside what people use, in one run on the same table and input. */
@NullMarked
package org.beefyield.benchmarks.compare;

import org.jspecify.annotations.NullMarked;
