/**
 * Yield tables: how a carcass is broken down step by step, where every step closes.
 *
 * <p>A {@link org.beefyield.table.definition.TableDefinition} is a table as written down: plain data, nothing checked but its
 * shape. {@link org.beefyield.table.YieldTable#of} checks it, takes file rounding off so that every
 * breakdown closes, compiles it to a grid of grades and proves the table's
 * promises at every node; a table that fails can't be built, and the
 * {@link org.beefyield.table.InvalidTableException exception} lists every failure. A
 * {@link org.beefyield.table.CuttingSpecification} says which way each primal is cut.
 *
 * <p>Shares are fractions inside and g per kg in definitions; grades are positions on the 18- and 15-point scales;
 * weights are cold carcass weights in kg.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.table;

import org.jspecify.annotations.NullMarked;
