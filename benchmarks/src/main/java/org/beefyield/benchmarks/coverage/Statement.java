package org.beefyield.benchmarks.coverage;

import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Something that the library says of a set of carcasses before they are drawn: between which bounds a figure will lie.
 *
 * @param figure the figure's name
 * @param low lower bound
 * @param high upper bound, infinite if there is none
 * @param sd SD stated for the figure
 * @param outcome the figure in what was drawn, by herd and manner of cutting
 * @param apart what should lie far from 0
 */
record Statement(
        String figure,
        double low,
        double high,
        double sd,
        ToDoubleFunction<Outcome[][]> outcome,
        List<ToDoubleFunction<Outcome[][]>> apart) {}
