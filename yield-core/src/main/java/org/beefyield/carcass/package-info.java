/**
 * The carcass as the grading box describes it: a {@link org.beefyield.carcass.Category category}, a
 * {@link org.beefyield.carcass.Conformation conformation}, a {@link org.beefyield.carcass.FatClass fat class} and a
 * cold weight.
 *
 * <p>Grades are read as they stand on a kill sheet ({@code R+}, {@code 4H}, {@code -U}) and become a position on the
 * numeric scale together with the width of the part of the scale that the grade covers, so that a carcass graded only
 * {@code R} is known less well than one graded {@code R=}. {@link org.beefyield.carcass.CarcassWeights} turns a hot
 * weight into a cold one and {@link org.beefyield.carcass.DressingCorrection} brings a carcass that was dressed
 * differently to the reference dressing of EU law.
 *
 * <p>Nothing here knows a table, a file or another package of this library.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.carcass;

import org.jspecify.annotations.NullMarked;
