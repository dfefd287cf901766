/** What carcasses are worth, and whether they fit. */
@NullMarked
package org.beefyield.value;

import org.jspecify.annotations.NullMarked;
