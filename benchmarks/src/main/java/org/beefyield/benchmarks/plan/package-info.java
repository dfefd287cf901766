/** How long linear programs of the form of a plan take, beside other solvers. */
@NullMarked
package org.beefyield.benchmarks.plan;

import org.jspecify.annotations.NullMarked;
