package org.beefyield.data;

import java.io.IOException;
import java.io.InputStream;

/** Opens the bytes of a source when a reader wants them; the reader closes them. */
@FunctionalInterface
public interface InputOpener {
    /**
     * Opens the source.
     *
     * @return its bytes from the start
     * @throws IOException if it can't be opened
     */
    InputStream open() throws IOException;
}
