package org.beefyield.data.file;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Locale;
import java.util.zip.GZIPOutputStream;

/**
 * A file that appears whole or not at all: it is written beside its place and moved there at the end, alone or with the
 * other outputs of a run. UTF-8; packed with gzip if its name ends in {@code .gz}. What fails names the file.
 */
public class AtomicFile extends OutputPart implements TextOutput {
    private static final int BUFFER = 1 << 15;

    private final Path place;
    private final Path part;
    private final OutputStream bytes;
    private final OutputStream packed;
    private BufferedWriter writer;
    private char[] characters = new char[0];
    private boolean ended;

    /**
     * Starts a file.
     *
     * @param target what it is called
     * @param place where it really stands
     * @param part where it is written
     * @throws IOException if it can't be written there
     */
    public AtomicFile(Path target, Path place, Path part) throws IOException {
        super(target);
        this.place = place;
        this.part = part;
        // not a temporary file of the JDK's: that one would keep its owner-only permissions in the end
        bytes = Files.newOutputStream(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        boolean gzip = place.toString().toLowerCase(Locale.ROOT).endsWith(".gz");
        try {
            packed = gzip ? new GZIPOutputStream(bytes, BUFFER) : bytes;
            writer = writer(packed, StandardCharsets.UTF_8);
        } catch (IOException e) {
            // gzip writes its header at once
            bytes.close();
            Files.deleteIfExists(part);
            throw e;
        }
    }

    private static BufferedWriter writer(OutputStream out, Charset charset) {
        // an encoder of its own: the default one would write a question mark in the place of half a character
        return new BufferedWriter(new OutputStreamWriter(out, charset.newEncoder()), BUFFER);
    }

    @Override
    public void encode(Charset charset) {
        writer = writer(packed, charset);
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
        if (characters.length < text.length()) {
            characters = new char[2 * text.length()];
        }
        text.getChars(0, text.length(), characters, 0);
        try {
            writer.write(characters, 0, text.length());
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }

    /**
     * Writes bytes as they are; no text goes with them.
     *
     * @param content the bytes
     * @throws UncheckedIOException if writing fails
     */
    public void write(byte[] content) {
        try {
            bytes.write(content);
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }

    @Override
    public void finish() {
        try {
            writer.close();
            force(part);
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
        ended = true;
    }

    /**
     * Has the system write to disk what it holds of a file, so that no renaming gets there first.
     *
     * @param file the file
     * @throws IOException if that fails
     */
    public static void force(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    @Override
    protected boolean ready() throws IOException {
        if (ended) {
            Place.checkWritten(part);
            Place.checkFile(place);
            Place.keepPermissions(place, part);
        }
        return ended;
    }

    @Override
    protected void put(OutputPart.Move move) throws IOException {
        move.move(part, place);
    }

    @Override
    protected void discard() throws IOException {
        try {
            writer.close();
        } catch (IOException e) {
            // what is still buffered is for a file that goes
        } finally {
            bytes.close();
            Files.deleteIfExists(part);
        }
    }

    @Override
    public void close() {
        try {
            if (!ended) {
                discard();
            }
        } catch (IOException e) {
            throw cannotBeWritten(e);
        }
    }
}
