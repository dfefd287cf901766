package org.beefyield.table.definition;

import java.io.Serializable;

/**
 * Where figures of a table come from.
 *
 * @param source short name that rows refer to
 * @param kind how solid the figures are
 * @param citation the citation
 * @param note anything to add, empty if nothing
 * @serial exclude
 */
public record Source(String source, SourceKind kind, String citation, String note) implements Serializable {}
