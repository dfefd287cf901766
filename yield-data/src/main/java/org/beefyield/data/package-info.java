/**
 * What all files share. What comes in comes from a {@link org.beefyield.data.Source}, and a CSV file is written as its
 * {@link org.beefyield.data.CsvForm} says. It is checked and named: every complaint is a {@link org.beefyield.data.Problem} with
 * file, line, column, value and what would be valid, and a file that can't be used at all is one
 * {@link org.beefyield.data.InvalidDataException} with all of them. What goes out appears whole or not at all, and the
 * files of one run get their places together with {@link org.beefyield.data.Outputs}.
 *
 * <p>A package for each kind of file: {@link org.beefyield.data.table} for yield tables, the shipped one too,
 * {@link org.beefyield.data.killsheet} for what was slaughtered and what is expected of it, {@link org.beefyield.data.trade}
 * for prices, payment grids, market specifications, pack sizes and feedback, {@link org.beefyield.data.boning} for boning
 * trials, {@link org.beefyield.data.frame} for columns of figures. {@link org.beefyield.data.picture} draws results, and
 * {@link org.beefyield.data.testkit} holds a table to its promises.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data;

import org.jspecify.annotations.NullMarked;
