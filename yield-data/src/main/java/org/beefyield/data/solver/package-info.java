/**
 * Solvers of linear programs, each of which needs a library that is optional: {@link org.beefyield.data.solver.OjAlgoSolver}.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.solver;

import org.jspecify.annotations.NullMarked;
