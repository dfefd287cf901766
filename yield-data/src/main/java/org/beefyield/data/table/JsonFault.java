package org.beefyield.data.table;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.data.file.Excerpt;
import org.jspecify.annotations.Nullable;

/**
 * Looks for the first place where a text stops being JSON (RFC 8259), for the words that a person who edited it by hand
 * can use. It is asked only about texts that can't be read.
 *
 * @param line number of the line, counted from 1
 * @param message what is wrong, where in the line, and what would be valid
 */
record JsonFault(int line, String message) {
    private static final Pattern NUMBER = Pattern.compile("-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][-+]?[0-9]+)?");
    private static final Pattern WORD = Pattern.compile("[^\\s,:{}\\[\\]\"']+");

    /** The first fault of a text, or null if none of those that are looked for is in it. */
    static @Nullable JsonFault of(String text) {
        try {
            new Scanner(text).scan();
            return null;
        } catch (Found found) {
            return found.fault;
        }
    }

    private static final class Found extends Exception {
        private static final long serialVersionUID = 1;

        // it never leaves this class
        @SuppressWarnings("serial")
        private final JsonFault fault;

        Found(JsonFault fault) {
            super(null, null, false, false);
            this.fault = fault;
        }
    }

    private static final class Scanner {
        private final String text;
        /** Where the brackets stand that aren't closed, the innermost first. */
        private final Deque<Integer> open = new ArrayDeque<>();

        private int at;

        /** Where the last comma stands, and where the value or bracket before the current place ends. */
        private int comma;

        private int end;

        Scanner(String text) {
            this.text = text;
        }

        void scan() throws Found {
            blanks();
            if (at == text.length()) {
                throw found(0, "the file is empty");
            }
            value("");
            while (!open.isEmpty()) {
                next();
            }
            blanks();
            if (at < text.length() && (text.charAt(at) == '}' || text.charAt(at) == ']')) {
                throw found(at, "this " + text.charAt(at) + " closes nothing: one bracket is too many");
            }
        }

        /** What stands in the innermost bracket from here to its next comma or its end. */
        private void next() throws Found {
            boolean isObject = text.charAt(open.getFirst()) == '{';
            boolean first = at == open.getFirst() + 1;
            blanks();
            if (at == text.length()) {
                throw notClosed();
            }
            char c = text.charAt(at);
            if (c == '}' || c == ']') {
                close(c);
                return;
            }
            if (!first) {
                if (c != ',') {
                    throw missingComma(c);
                }
                comma = at;
                at++;
                blanks();
                if (at == text.length()) {
                    throw notClosed();
                }
                c = text.charAt(at);
                if (c == '}' || c == ']') {
                    throw found(comma, "nothing follows this comma but the closing " + c + "; take the comma out");
                }
            }
            if (c == ',') {
                throw found(at, "nothing stands before this comma; take it out, or write what is missing");
            }
            if (isObject) {
                keyAndValue(first);
            } else {
                value("");
            }
        }

        private void keyAndValue(boolean first) throws Found {
            char c = text.charAt(at);
            if (c != '"') {
                quotes(c);
                String word = word();
                boolean decimal = !first && Character.isDigit(c) && comma == at - 1;
                throw found(
                        at,
                        decimal
                                ? "the comma before " + word + " ends a number; decimals stand behind a point"
                                : Character.isLetter(c) || c == '_'
                                        ? "the key " + word + " needs double quotes around it"
                                        : "a key in double quotes is needed here");
            }
            int from = at;
            string();
            String key = text.substring(from, at);
            end = at;
            blanks();
            if (at == text.length() || text.charAt(at) != ':') {
                throw found(end, "a colon and a value are needed behind the key " + Excerpt.clip(key, 80));
            }
            at++;
            blanks();
            value(" behind the key " + Excerpt.clip(key, 80));
        }

        private void value(String where) throws Found {
            if (at == text.length()) {
                throw open.isEmpty() ? found(at, "the file ends where a value is needed") : notClosed();
            }
            char c = text.charAt(at);
            if (c == '{' || c == '[') {
                open.push(at);
                at++;
            } else if (c == '"') {
                string();
                end = at;
            } else {
                quotes(c);
                if (c == ',' || c == '}' || c == ']' || c == ':') {
                    throw found(at, "a value is missing" + where);
                }
                String word = word();
                boolean valid = word.equals("true")
                        || word.equals("false")
                        || word.equals("null")
                        || NUMBER.matcher(word).matches();
                if (!valid) {
                    throw found(
                            at,
                            Excerpt.clip(word, 80) + " is no value; valid: a text in double quotes, a number such as"
                                    + " -0.5, true, false, null");
                }
                at += word.length();
                end = at;
            }
        }

        private void close(char c) throws Found {
            int opening = open.pop();
            char wanted = text.charAt(opening) == '{' ? '}' : ']';
            if (c != wanted) {
                throw found(
                        at,
                        "this " + c + " can't close the " + text.charAt(opening) + " of line " + line(opening) + "; a "
                                + wanted + " is missing before it");
            }
            at++;
            end = at;
        }

        private Found missingComma(char c) throws Found {
            quotes(c);
            return found(
                    end, "a comma is missing here, before " + (c == '"' ? "the next text" : Excerpt.clip(word(), 80)));
        }

        private Found notClosed() {
            int opening = open.getFirst();
            char bracket = text.charAt(opening);
            return found(
                    text.length(),
                    "the file ends, and the " + bracket + " of line " + line(opening) + " is not closed; a "
                            + (bracket == '{' ? '}' : ']') + " is missing");
        }

        /** Refuses what people take for JSON's quotes. */
        private void quotes(char c) throws Found {
            if (c == '\'') {
                throw found(at, "single quotes are none of JSON; use double quotes");
            }
            if (c >= '\u2018' && c <= '\u201F') {
                throw found(at, "curly quotes are none of JSON; use straight double quotes");
            }
        }

        private void string() throws Found {
            int from = at;
            at++;
            while (at < text.length() && text.charAt(at) != '"') {
                char c = text.charAt(at);
                if (c == '\n' || c == '\r') {
                    throw found(
                            from,
                            "the text that begins here has no closing double quote on its line; a line break is"
                                    + " written \\n");
                }
                if (c == '\t') {
                    throw found(at, "a tab stands in a text; write \\t, or a blank");
                }
                if (c < ' ') {
                    throw found(
                            at,
                            "the control character U+" + String.format("%04X", (int) c) + " stands in a text; take it"
                                    + " out");
                }
                if (c == '\\') {
                    escape();
                }
                at++;
            }
            if (at >= text.length()) {
                throw found(from, "the text that begins here has no closing double quote");
            }
            at++;
        }

        private void escape() throws Found {
            char next = at + 1 < text.length() ? text.charAt(at + 1) : ' ';
            if (next == 'u' && isHex(at + 2)) {
                at += 5;
            } else if ("\"\\/bfnrt".indexOf(next) >= 0) {
                at++;
            } else {
                throw found(at, "a backslash in a text is written twice");
            }
        }

        private boolean isHex(int from) {
            return from + 4 <= text.length()
                    && text.substring(from, from + 4).chars().allMatch(c -> Character.digit(c, 16) >= 0);
        }

        /** A run of characters that are no sign of JSON, at least one. */
        private String word() {
            Matcher matcher = WORD.matcher(text).region(at, text.length());
            return matcher.lookingAt() ? matcher.group() : text.substring(at, at + 1);
        }

        private void blanks() throws Found {
            while (at < text.length() && " \t\r\n".indexOf(text.charAt(at)) >= 0) {
                at++;
            }
            boolean comment = at < text.length()
                    && (text.charAt(at) == '#' || text.startsWith("//", at) || text.startsWith("/*", at));
            if (comment) {
                throw found(at, "a comment begins here, and JSON has none; take it out, a \"description\" may say it");
            }
        }

        private int line(int place) {
            return 1
                    + (int) text.substring(0, place)
                            .chars()
                            .filter(c -> c == '\n')
                            .count();
        }

        private Found found(int place, String message) {
            int lineStart = place == 0 ? 0 : text.lastIndexOf('\n', place - 1) + 1;
            return new Found(
                    new JsonFault(line(place), message + " (character " + (place - lineStart + 1) + " of the line)"));
        }
    }
}
