/**
 * The forms of {@link org.beefyield.json} as text, for who has no JSON library at hand.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.json;

import org.jspecify.annotations.NullMarked;
