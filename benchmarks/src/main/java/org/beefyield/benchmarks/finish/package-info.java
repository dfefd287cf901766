/** Hold or sell against animals drawn by chance and against published groups. */
@NullMarked
package org.beefyield.benchmarks.finish;

import org.jspecify.annotations.NullMarked;
