package org.beefyield.table.definition;

import java.io.Serializable;

/**
 * The reference carcass of a table, at which every slope is out of play.
 *
 * @param conformation position on the 18-point scale
 * @param fat position on the 15-point scale
 * @param weightKg cold weight, kg
 * @serial exclude
 */
public record ReferencePoint(double conformation, double fat, double weightKg) implements Serializable {}
