package org.beefyield.data.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.beefyield.text.TextTable;

/** A page of HTML that needs no other file. */
final class Page {
    private Page() {}

    /**
     * Writes a page.
     *
     * @param title its title, as plain text
     * @param body its elements below the title
     * @throws UncheckedIOException if it can't be written
     */
    static void write(Path file, String title, String body) {
        String head = TextTable.escape(title);
        String page = "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                + "<meta name=\"viewport\" content=\"width=device-width\"><title>" + head
                + "</title></head>\n<body style=\"font-family:sans-serif;overflow-wrap:break-word\">\n<h1>" + head
                + "</h1>\n" + body + "</body></html>\n";
        try {
            Path parent = file.toAbsolutePath().getParent();
            if (parent != null) {
                Files.createDirectories(parent);
            }
            Files.writeString(file, page);
        } catch (IOException e) {
            throw new UncheckedIOException(file + " can't be written: " + e.getMessage(), e);
        }
    }
}
