package org.beefyield.data;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Locale;
import java.util.UUID;
import java.util.zip.GZIPOutputStream;

/**
 * A file that appears whole or not at all: it is written beside its place and moved there at the end. UTF-8; packed with
 * gzip if its name ends in {@code .gz}.
 */
final class AtomicFile implements AutoCloseable {
    private static final int BUFFER = 1 << 15;

    private final Path target;
    private final Path part;
    private final BufferedWriter writer;
    private char[] characters = new char[0];
    private boolean closed;

    AtomicFile(Path target) throws IOException {
        this.target = target.toAbsolutePath();
        Path folder = this.target.getParent();
        if (folder == null || Files.isDirectory(this.target)) {
            throw new IOException("it is a folder, not a file");
        }
        Files.createDirectories(folder);
        // not a temporary file of the JDK's: that one would keep its owner-only permissions in the end
        this.part = folder.resolve("." + this.target.getFileName() + "." + UUID.randomUUID() + ".part");
        OutputStream bytes = Files.newOutputStream(part, StandardOpenOption.CREATE_NEW);
        boolean gzip = this.target.toString().toLowerCase(Locale.ROOT).endsWith(".gz");
        // an encoder of its own: the default one would write a question mark in the place of half a character
        this.writer = new BufferedWriter(
                new OutputStreamWriter(
                        gzip ? new GZIPOutputStream(bytes, BUFFER) : bytes, StandardCharsets.UTF_8.newEncoder()),
                BUFFER);
    }

    void write(String text) throws IOException {
        writer.write(text);
    }

    void write(StringBuilder text) throws IOException {
        if (characters.length < text.length()) {
            characters = new char[2 * text.length()];
        }
        text.getChars(0, text.length(), characters, 0);
        writer.write(characters, 0, text.length());
    }

    /** Puts the file in its place; without this call closing leaves the place as it was. */
    void finish() throws IOException {
        closed = true;
        writer.close();
        try {
            Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    @Override
    public void close() throws IOException {
        try {
            if (!closed) {
                closed = true;
                writer.close();
            }
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
