/**
 * What a carcass is cut into: a {@link org.beefyield.cut.Cut} has a code, a name, a kind and the first level at which
 * it stands; a {@link org.beefyield.cut.CutCatalogue} holds the cuts of one table in the order in which they print.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.cut;

import org.jspecify.annotations.NullMarked;
