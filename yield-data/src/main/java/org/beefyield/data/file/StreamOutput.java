package org.beefyield.data.file;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/** Writes to a caller's stream, UTF-8; it is flushed at the end and stays the caller's to close. */
public final class StreamOutput implements TextOutput {
    private static final int BUFFER = 1 << 15;

    private final OutputStream stream;
    private BufferedWriter writer;

    /**
     * Starts to write.
     *
     * @param stream the stream
     */
    public StreamOutput(OutputStream stream) {
        this.stream = stream;
        writer = writer(stream, StandardCharsets.UTF_8);
    }

    private static BufferedWriter writer(OutputStream stream, Charset charset) {
        // an encoder of its own: the default one would write a question mark in the place of what it can't write
        return new BufferedWriter(new OutputStreamWriter(stream, charset.newEncoder()), BUFFER);
    }

    @Override
    public void encode(Charset charset) {
        writer = writer(stream, charset);
    }

    @Override
    public void write(String text) {
        try {
            writer.write(text);
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }

    @Override
    public void write(StringBuilder text) {
        try {
            writer.append(text);
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }

    @Override
    public void finish() {
        try {
            writer.flush();
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }

    /**
     * The complaint that a stream can't be written.
     *
     * @param e why
     * @return the exception to throw
     */
    public static UncheckedIOException cannotBeWritten(IOException e) {
        return new UncheckedIOException("the stream can't be written: " + Reason.of(e), e);
    }

    @Override
    public void close() {
        // the stream is the caller's
    }
}
