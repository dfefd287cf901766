package org.beefyield.value;

/**
 * What one cut, or one other line, comes to.
 *
 * @param name name for people
 * @param code code of the cut; empty for income and cost beside the cuts
 * @param quantity kg of the cut; of other lines the kg of cold weight or the carcasses that they are counted by
 * @param price price of one of these
 * @param amount quantity times price, not rounded
 */
public record ValueLine(String name, String code, double quantity, double price, double amount) {}
