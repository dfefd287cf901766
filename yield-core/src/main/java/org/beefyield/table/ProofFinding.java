package org.beefyield.table;

/**
 * One promise of a table that was proved, with the place where it is tightest.
 *
 * @param claim the promise in words
 * @param marginGPerKg how far the tightest place is from breaking it, g per kg; 0 where it just holds
 * @param where the tightest place: categories, way or specification, grade and weight
 */
public record ProofFinding(String claim, double marginGPerKg, String where) {}
