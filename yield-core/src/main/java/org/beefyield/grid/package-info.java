/**
 * The engine, for the library's own packages: a table multiplied through to polynomials in weight at numbered nodes, and
 * how its errors travel. Nothing public outside this package names one of its types.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.grid;

import org.jspecify.annotations.NullMarked;
