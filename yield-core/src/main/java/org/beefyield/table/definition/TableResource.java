package org.beefyield.table.definition;

import java.util.List;

/**
 * One part of a table as rows of text: what its file holds and what its digest is taken over.
 *
 * @param name name of the resource, such as {@code breakdown}
 * @param columns column names
 * @param rows rows, each with a cell for every column; numbers as the shortest decimal that reads back the same
 */
public record TableResource(String name, List<String> columns, List<List<String>> rows) {}
