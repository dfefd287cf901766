package org.beefyield.table.definition;

import java.io.Serializable;

/**
 * One line of a cutting specification.
 *
 * @param specification name of the specification
 * @param parent code of the cut that is broken down
 * @param way the way it is cut
 * @serial exclude
 */
public record SpecificationRow(String specification, String parent, String way) implements Serializable {}
