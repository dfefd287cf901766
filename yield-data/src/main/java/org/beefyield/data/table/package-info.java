/**
 * Yield tables as files. {@link org.beefyield.data.table.ShippedTables} has the editions that come with this library;
 * {@link org.beefyield.data.table.TableReader} reads a table of your own, from a folder, a zip file or the class path, and
 * describes its files: a descriptor and a CSV file for each part. A table is proved as it is read, so that whoever has one
 * can use it. Its limits are far above any plant's table.
 *
 * <p>{@link org.beefyield.data.table.TableWriter} writes a table so that it reads back equal, the same bytes each time.
 * {@link org.beefyield.data.table.LookUpSheetReader} makes a table by class of a plant's own look-up sheet, a row for each grade and a
 * column for each cut, and says what the sheet doesn't.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.table;

import org.jspecify.annotations.NullMarked;
