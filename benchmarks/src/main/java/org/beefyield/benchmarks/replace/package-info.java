/**
 * A table that is read while another program replaces it, over and over: {@link
 * org.beefyield.benchmarks.replace.Replacement} counts which table comes out of each reading.
 */
@NullMarked
package org.beefyield.benchmarks.replace;

import org.jspecify.annotations.NullMarked;
