package org.beefyield.data.file;

import java.io.UncheckedIOException;
import java.nio.charset.Charset;

/** Where a writer's text goes: a file that appears whole, or a caller's stream. */
public interface TextOutput extends AutoCloseable {
    /**
     * Sets the encoding, which is UTF-8 without this call; nothing has been written by then.
     *
     * @param charset the encoding
     */
    void encode(Charset charset);

    /**
     * Writes a text.
     *
     * @param text the text
     * @throws UncheckedIOException if writing fails
     */
    void write(String text);

    /**
     * Writes a text.
     *
     * @param text the text, which stays as it is
     * @throws UncheckedIOException if writing fails
     */
    void write(StringBuilder text);

    /**
     * Ends what is written: a file gets its place, a stream is flushed.
     *
     * @throws UncheckedIOException if that fails
     */
    void finish();

    /**
     * Ends writing; a file that wasn't finished goes, a stream stays the caller's.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    void close();
}
