package org.beefyield.data.derivation;

import java.util.Iterator;
import java.util.List;
import java.util.Map;

/** JSON text of maps, lists, strings, whole numbers, booleans and null: two spaces, LF. */
final class JsonText {
    private final StringBuilder out = new StringBuilder();

    private JsonText() {}

    static String of(Object value) {
        JsonText text = new JsonText();
        text.append(value, "\n");
        return text.out.toString();
    }

    private void append(Object value, String newLine) {
        if (value instanceof Map<?, ?> map) {
            appendAll('{', map.entrySet().iterator(), '}', newLine);
        } else if (value instanceof List<?> list) {
            appendAll('[', list.iterator(), ']', newLine);
        } else if (value instanceof Map.Entry<?, ?> entry) {
            append(entry.getKey(), newLine);
            out.append(": ");
            append(entry.getValue(), newLine);
        } else if (value instanceof String string) {
            out.append('"')
                    .append(string.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n"))
                    .append('"');
        } else {
            out.append(value);
        }
    }

    private void appendAll(char open, Iterator<?> items, char close, String newLine) {
        out.append(open);
        String separator = "";
        while (items.hasNext()) {
            out.append(separator).append(newLine).append("  ");
            append(items.next(), newLine + "  ");
            separator = ",";
        }
        out.append(newLine).append(close);
    }
}
