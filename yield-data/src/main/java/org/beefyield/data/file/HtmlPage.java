package org.beefyield.data.file;

import org.beefyield.text.TextTable;

/** A page of HTML that needs no other file: for a screen, a phone and paper. */
public final class HtmlPage {
    /**
     * Tables that are too wide scroll in their own box on a phone; on paper nothing scrolls, so that they get smaller letters, wrap
     * and break between rows.
     */
    private static final String STYLE = "<style>"
            + "body{font-family:sans-serif;overflow-wrap:break-word;max-width:75em;margin:0 auto;padding:0 .6em;line-height:1.35}"
            + "h1{font-size:1.4em}h2{font-size:1.15em;margin-top:1.6em}p{max-width:60em;margin:.5em 0}svg{max-width:100%;height:auto}"
            + ".pictures{display:flex;flex-wrap:wrap;gap:1em;align-items:flex-start}"
            + ".sheet td:nth-child(2){white-space:nowrap}"
            + "@media(max-width:500px){body{padding:0 .4em}table{font-size:78%}td,th{padding:2px 3px!important}"
            + ".sheet table{font-size:72%}ul{padding-left:1.2em;font-size:90%}}"
            + "@media print{@page{size:A4;margin:10mm}body{font-size:62%;max-width:none}div{overflow:visible!important;max-height:none!important}"
            + "td,th{white-space:normal!important;min-width:0!important;padding:1px 4px!important}tr,svg{break-inside:avoid}"
            + ".pictures svg{width:46%}ul{columns:2;margin:.5em 0}"
            // many animals in two columns, and why they miss limits in three, so that a sheet is one A4
            + ".animals{columns:2}.animals div{margin:0!important}.animals td{white-space:nowrap!important;padding:0 3px!important}"
            + ".animals+ul{columns:3;font-size:92%;padding:0;list-style:none}.sheet{line-height:1.25}"
            + ".sheet .pictures{gap:.5em}.sheet .pictures div{margin:.3em 0!important}.sheet .pictures svg{width:38%}}"
            + "</style>";

    private HtmlPage() {}

    /**
     * Makes a page.
     *
     * @param title its title, as plain text
     * @param body its elements; a heading with the title goes before them unless they begin with one
     * @return the page
     */
    public static String of(String title, String body) {
        String head = TextTable.escape(title);
        return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                + "<meta name=\"viewport\" content=\"width=device-width\">"
                // pictures are dark for who prefers it, so the page about them is
                + "<meta name=\"color-scheme\" content=\"light dark\">" + STYLE + "<title>" + head
                + "</title></head>\n<body>\n<main>\n" + (body.startsWith("<h1>") ? "" : "<h1>" + head + "</h1>\n")
                + body
                + "</main></body></html>\n";
    }
}
