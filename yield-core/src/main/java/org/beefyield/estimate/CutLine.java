package org.beefyield.estimate;

import org.beefyield.cut.Cut;

/**
 * One cut of an outturn.
 *
 * @param cut the cut
 * @param kg kg of it
 * @param share fraction of the cold weight
 */
public record CutLine(Cut cut, double kg, double share) {}
