package org.beefyield.data.command;

import org.beefyield.text.TextTable;

/** A page of HTML that needs no other file. */
final class Page {
    private Page() {}

    /**
     * Makes a page.
     *
     * @param title its title, as plain text
     * @param body its elements below the title
     */
    static String of(String title, String body) {
        String head = TextTable.escape(title);
        return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                + "<meta name=\"viewport\" content=\"width=device-width\">"
                // pictures are dark for who prefers it, so the page about them is
                + "<meta name=\"color-scheme\" content=\"light dark\">"
                // wide tables fit on paper
                + "<style>@media print{body{font-size:70%}}</style><title>" + head
                + "</title></head>\n<body style=\"font-family:sans-serif;overflow-wrap:break-word\">\n<h1>" + head
                + "</h1>\n" + body + "</body></html>\n";
    }
}
