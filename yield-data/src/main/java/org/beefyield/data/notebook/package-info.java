/**
 * What a Java kernel of Jupyter needs to show results: a cell that ends with {@code estimate} shows the estimate as tables.
 *
 * <p>Only kernels built on {@code org.dflib.jjava:jjava-jupyter} find it, and that library is optional here. Any other kernel
 * shows what {@link org.beefyield.text.Shown#toHtml()} gives when asked to: {@code display(estimate.toHtml(), "text/html")}.
 *
 * @since 0.1.0
 */
@NullMarked
package org.beefyield.data.notebook;

import org.jspecify.annotations.NullMarked;
