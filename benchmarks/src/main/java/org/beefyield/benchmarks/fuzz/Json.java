package org.beefyield.benchmarks.fuzz;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.json.JsonMapper;

/**
 * A JSON text as a tree that needn't be valid: an object may hold a key twice, and a leaf is any text. Objects are lists
 * of {@link Member}, arrays lists of anything else.
 */
final class Json {
    private static final JsonMapper MAPPER = new JsonMapper();

    /** A key with its value. */
    record Member(String key, Object value) {}

    /** An object or an array. */
    record Branch(boolean object, List<Object> children) {}

    /** Anything else, as it is written. */
    record Leaf(String text) {}

    private Json() {}

    static Branch parse(byte[] bytes) {
        return (Branch) tree(MAPPER.readValue(bytes, Object.class));
    }

    private static Object tree(Object value) {
        List<Object> children = new ArrayList<>();
        if (value instanceof Map<?, ?> map) {
            map.forEach((key, its) -> children.add(new Member(String.valueOf(key), tree(its))));
            return new Branch(true, children);
        }
        if (value instanceof List<?> list) {
            list.forEach(its -> children.add(tree(its)));
            return new Branch(false, children);
        }
        return new Leaf(MAPPER.writeValueAsString(value));
    }

    static String write(Object node, String lineEnd) {
        StringBuilder text = new StringBuilder();
        write(node, lineEnd, text);
        return text.append(lineEnd).toString();
    }

    private static void write(Object node, String lineEnd, StringBuilder text) {
        if (node instanceof Member member) {
            text.append(quoted(member.key())).append(": ");
            write(member.value(), lineEnd, text);
        } else if (node instanceof Branch branch) {
            text.append(branch.object() ? "{" : "[");
            String comma = "";
            for (Object child : branch.children()) {
                text.append(comma).append(lineEnd);
                write(child, lineEnd, text);
                comma = ",";
            }
            text.append(branch.object() ? "}" : "]");
        } else if (node instanceof Leaf leaf) {
            text.append(leaf.text());
        }
    }

    /** A text in quotes, what is not ASCII as its code: so a lone surrogate can be said. */
    static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.chars().forEach(c -> {
            if (c == '"' || c == '\\') {
                quoted.append('\\').append((char) c);
            } else if (c < ' ' || c > '~') {
                quoted.append(String.format("\\u%04x", c));
            } else {
                quoted.append((char) c);
            }
        });
        return quoted.append('"').toString();
    }

    /** Every branch of a tree, itself included. */
    static List<Branch> branches(Branch root) {
        List<Branch> all = new ArrayList<>();
        collect(root, all);
        return all;
    }

    private static void collect(Object node, List<Branch> all) {
        if (node instanceof Member member) {
            collect(member.value(), all);
        } else if (node instanceof Branch branch) {
            all.add(branch);
            branch.children().forEach(child -> collect(child, all));
        }
    }
}
