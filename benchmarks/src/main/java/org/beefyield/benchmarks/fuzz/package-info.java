/**
 * Structure-aware mutation of table packages and kill sheets: {@link org.beefyield.benchmarks.fuzz.Fuzz} makes case
 * after case from a seed and checks what the readers and the writer promise about each,
 * {@link org.beefyield.benchmarks.fuzz.FuzzMain} runs as many as one likes.
 */
@NullMarked
package org.beefyield.benchmarks.fuzz;

import org.jspecify.annotations.NullMarked;
