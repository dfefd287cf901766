/**
 * Carcasses, estimates, lots, values and refusals in the form in which they travel as JSON: records of numbers, texts and
 * lists, which JSON libraries write and read without a setting of their own. The name of each component is the name in JSON.
 *
 * <p>Weights are kilograms, of both sides together; shares and {@code probability} are fractions; grades, categories and codes
 * of cuts are as they print and are read. A {@code null} component is one that isn't known or doesn't apply. Figures are not
 * rounded. Components may be added in a later version; none changes its meaning.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.json;

import org.jspecify.annotations.NullMarked;
