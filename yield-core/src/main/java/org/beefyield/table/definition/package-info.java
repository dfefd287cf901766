/**
 * A yield table as a person writes it: rows, terms, ranges, sources.
 *
 * <p>A {@link org.beefyield.table.definition.TableDefinition} is plain data: null and figures
 * without a meaning are refused at once, but what doesn't fit the rest is found when {@link org.beefyield.table} makes a table
 * of it, which lists all of it with its rows. {@link org.beefyield.table.definition.TableSchema} says which resources a table
 * has in its files and which columns each has; nothing else does. Shares and their errors are g per kg of parent here; grades are positions on
 * the 18- and 15-point scales; weights are cold carcass weights in kg.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.table.definition;

import org.jspecify.annotations.NullMarked;
