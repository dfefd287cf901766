package org.beefyield.data;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/** A file that appears whole or not at all: it is written beside its place and moved there at the end. */
final class AtomicFile implements AutoCloseable {
    private final Path target;
    private final Path part;
    private final BufferedWriter writer;
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
        this.writer = Files.newBufferedWriter(part, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
    }

    void write(String text) throws IOException {
        writer.write(text);
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
