/**
 * {@link org.beefyield.BeefyieldException}, which all exceptions of the library's own are. What the library does begins in
 * {@link org.beefyield.table}, where yield tables come from, and {@link org.beefyield.estimate}, what carcasses return.
 */
@NullMarked
package org.beefyield;

import org.jspecify.annotations.NullMarked;
