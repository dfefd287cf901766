package org.beefyield.benchmarks.fuzz;

import java.io.ByteArrayOutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.benchmarks.fuzz.Json.Branch;
import org.beefyield.benchmarks.fuzz.Json.Leaf;
import org.beefyield.benchmarks.fuzz.Json.Member;
import tools.jackson.core.JacksonException;

/**
 * Changes files the way editors, spreadsheets, careless people and ill-meaning ones do. It knows their structure, so that
 * what it makes gets past the first check more often than not.
 */
final class Mutator {
    static final String DESCRIPTOR = "datapackage.json";

    private static final List<String> LINE_ENDS = List.of("\n", "\n", "\n", "\r\n", "\r", "\n\n");
    private static final Pattern WORD = Pattern.compile("[a-z][a-z0-9_-]{2,}");

    private final Draw draw;

    Mutator(Draw draw) {
        this.draw = draw;
    }

    /** Changes one thing about a package. */
    void mutatePackage(Map<String, byte[]> files) {
        List<String> names = new ArrayList<>(files.keySet());
        String name = draw.onceIn(3) ? DESCRIPTOR : draw.one(names);
        byte[] content = files.getOrDefault(name, new byte[0]);
        switch (draw.below(24)) {
            case 0 -> files.remove(name);
            case 1 -> files.put(name, files.getOrDefault(draw.one(names), new byte[0]));
            case 2 -> files.put(name, bytes(content));
            case 3, 6 -> renameEverywhere(files, draw.onceIn(2) ? "renamed" : draw.text());
            case 4, 7 -> declareColumn(files, draw.one(names));
            case 5 -> dropResource(files);
            default ->
                files.put(name, name.equals(DESCRIPTOR) && content.length > 0 ? json(content) : csv(content, ','));
        }
    }

    private byte[] json(byte[] content) {
        try {
            Branch root = Json.parse(content);
            mutate(root);
            return Json.write(root, draw.one(LINE_ENDS)).getBytes(StandardCharsets.UTF_8);
        } catch (JacksonException | ClassCastException e) {
            return bytes(content);
        }
    }

    private void mutate(Branch root) {
        List<Branch> branches = Json.branches(root);
        // most of a descriptor is the fields of its schemas; what else it says deserves as much
        Branch branch = draw.one(draw.onceIn(3) ? branches : Json.branches(withoutResources(root)));
        List<Object> children = branch.children();
        if (children.isEmpty()) {
            children.add(branch.object() ? new Member(draw.text(), leaf()) : leaf());
            return;
        }
        int at = draw.below(children.size());
        Object child = children.get(at);
        switch (draw.below(12)) {
            case 0 -> children.remove(at);
            case 1 -> children.add(draw.below(children.size() + 1), child);
            case 2 -> Collections.shuffle(children, new Random(draw.below(1 << 20)));
            case 3 -> replace(children, at, draw.one(branches));
            case 4 -> replace(children, at, nested(draw.below(draw.onceIn(10) ? 20_000 : 30)));
            case 5 -> {
                if (child instanceof Member member) {
                    children.set(at, new Member(draw.text(), member.value()));
                } else {
                    children.add(leaf());
                }
            }
            default -> replace(children, at, leaf());
        }
    }

    private static Branch withoutResources(Branch root) {
        return new Branch(
                root.object(),
                new ArrayList<>(root.children().stream()
                        .filter(child ->
                                !(child instanceof Member member && member.key().equals("resources")))
                        .toList()));
    }

    private static void replace(List<Object> children, int at, Object value) {
        // as text: a branch inside itself would have no end
        Object copy = new Leaf(Json.write(value, ""));
        children.set(at, children.get(at) instanceof Member member ? new Member(member.key(), copy) : copy);
    }

    private static Object nested(int depth) {
        return new Leaf("[".repeat(depth) + "]".repeat(depth));
    }

    private Leaf leaf() {
        return switch (draw.below(8)) {
            case 0 -> new Leaf("null");
            case 1 -> new Leaf("true");
            case 2 -> new Leaf("[]");
            case 3 -> new Leaf("{}");
            case 4 -> new Leaf(Json.quoted(draw.text()));
            case 5 -> new Leaf(Integer.toString(draw.below(20)));
            default -> new Leaf(draw.number());
        };
    }

    /** Changes one thing about a CSV file. */
    byte[] csv(byte[] content, char separator) {
        String text = new String(content, StandardCharsets.UTF_8);
        List<List<String>> rows = new ArrayList<>();
        text.lines()
                .forEach(line -> rows.add(
                        new ArrayList<>(Arrays.asList(line.split(Pattern.quote(String.valueOf(separator)), -1)))));
        if (rows.isEmpty()) {
            return draw.text().getBytes(StandardCharsets.UTF_8);
        }
        int at = draw.below(rows.size());
        List<String> row = rows.get(at);
        int column = draw.below(row.size());
        String lineEnd = "\n";
        switch (draw.below(19)) {
            case 18 -> rows.subList(1, rows.size()).clear();
            case 0 -> rows.remove(at);
            case 1 -> rows.add(draw.below(rows.size() + 1), new ArrayList<>(row));
            case 2 -> Collections.swap(rows, at, draw.below(rows.size()));
            case 3 -> Collections.shuffle(rows.subList(1, rows.size()), new Random(draw.below(1 << 20)));
            case 4 -> column(rows, column, its -> its.remove(column));
            case 5 -> column(rows, column, its -> its.add(its.get(column)));
            case 6 -> column(rows, column, its -> its.add(draw.text()));
            case 7 -> row.add(draw.text());
            case 8 -> row.remove(column);
            case 9 -> row.set(column, '"' + row.get(column).replace("\"", "\"\"") + '"');
            case 10 -> row.set(column, rows.get(draw.below(rows.size())).get(0));
            case 11 -> lineEnd = draw.one(LINE_ENDS);
            case 12 -> row.set(column, changedNumber(row.get(column)));
            case 13 -> row.set(column, cell(draw.text(), separator));
            case 14 -> row.set(column, draw.text());
            case 15 -> rows.add(at, new ArrayList<>(List.of(draw.onceIn(2) ? "" : draw.text())));
            default -> row.set(column, draw.number());
        }
        StringBuilder all = new StringBuilder();
        for (List<String> one : rows) {
            all.append(String.join(String.valueOf(separator), one))
                    .append(draw.onceIn(200) ? draw.one(LINE_ENDS) : lineEnd);
        }
        return all.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static void column(List<List<String>> rows, int column, Consumer<List<String>> change) {
        rows.stream().filter(row -> row.size() > column).forEach(change);
    }

    private static String cell(String text, char separator) {
        return text.indexOf(separator) >= 0 || text.indexOf('"') >= 0 ? '"' + text.replace("\"", "\"\"") + '"' : text;
    }

    /** The same number in another form, or one nearby. */
    private String changedNumber(String number) {
        try {
            double value = Double.parseDouble(number);
            return switch (draw.below(6)) {
                case 0 -> number.contains(".") ? number + "0" : number + ".0";
                case 1 -> Double.toString(value);
                case 2 -> String.format(Locale.ROOT, "%e", value);
                case 3 -> Double.toString(value * (1 + 1e-9 * draw.below(10)));
                case 4 -> Double.toString(-value);
                default -> Double.toString(value + draw.below(3) - 1);
            };
        } catch (NumberFormatException e) {
            return number.strip().isEmpty() ? draw.number() : number.toUpperCase(Locale.ROOT);
        }
    }

    /** Damages bytes: encodings, cuts, single bytes. */
    byte[] bytes(byte[] content) {
        String text = new String(content, StandardCharsets.UTF_8);
        int at = draw.below(content.length + 1);
        return switch (draw.below(9)) {
            case 0 -> text.getBytes(StandardCharsets.UTF_16);
            case 1 -> text.getBytes(StandardCharsets.UTF_16LE);
            case 2 -> (text + "\u00e4").getBytes(Charset.forName("windows-1252"));
            case 3 -> ("\ufeff" + text).getBytes(StandardCharsets.UTF_8);
            case 4 -> Arrays.copyOf(content, at);
            case 5 -> spliced(content, at, 0, new byte[] {(byte) draw.below(256)});
            case 6 -> spliced(content, at, 1, new byte[] {(byte) draw.below(256)});
            // an overlong form of "/", a surrogate of its own in UTF-8, and a byte that never stands in UTF-8
            case 7 ->
                spliced(
                        content,
                        at,
                        0,
                        draw.one(List.of(
                                new byte[] {(byte) 0xC0, (byte) 0xAF},
                                new byte[] {(byte) 0xED, (byte) 0xA0, (byte) 0x80},
                                new byte[] {(byte) 0xFF})));
            default -> spliced(content, at, draw.below(20), new byte[draw.below(3)]);
        };
    }

    private static byte[] spliced(byte[] content, int at, int gone, byte[] put) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        all.write(content, 0, at);
        all.writeBytes(put);
        int from = Math.min(content.length, at + gone);
        all.write(content, from, content.length - from);
        return all.toByteArray();
    }

    /** Gives one name another name in every file, as a consistent edit would. */
    private void renameEverywhere(Map<String, byte[]> files, String to) {
        String file = draw.onceIn(2) ? "cuts.csv" : draw.one(List.copyOf(files.keySet()));
        String text = new String(files.getOrDefault(file, new byte[0]), StandardCharsets.UTF_8);
        List<String> words =
                WORD.matcher(text).results().map(result -> result.group()).toList();
        if (words.isEmpty()) {
            return;
        }
        Pattern word = Pattern.compile("(?<![A-Za-z0-9_-])" + draw.one(words) + "(?![A-Za-z0-9_-])");
        files.replaceAll((name, content) -> {
            String before = new String(content, StandardCharsets.UTF_8);
            String its = name.equals(DESCRIPTOR)
                    ? Json.quoted(to).substring(1, Json.quoted(to).length() - 1)
                    : cell(to, ',');
            return word.matcher(before)
                    .replaceAll(Matcher.quoteReplacement(its))
                    .getBytes(StandardCharsets.UTF_8);
        });
    }

    /** Adds a column to a file and to its schema. */
    private void declareColumn(Map<String, byte[]> files, String file) {
        String name = "checked_" + draw.below(3);
        Branch root;
        try {
            root = Json.parse(files.getOrDefault(DESCRIPTOR, new byte[0]));
        } catch (JacksonException | ClassCastException e) {
            return;
        }
        for (Branch branch : Json.branches(root)) {
            boolean its = branch.children().stream()
                    .anyMatch(child -> child instanceof Member member
                            && member.key().equals("path")
                            && member.value().equals(new Leaf(Json.quoted(file))));
            for (Object child : its ? branch.children() : List.of()) {
                if (child instanceof Member member
                        && member.key().equals("schema")
                        && member.value() instanceof Branch schema
                        && !schema.children().isEmpty()
                        && schema.children().get(0) instanceof Member fields
                        && fields.value() instanceof Branch list) {
                    list.children()
                            .add(new Branch(
                                    true, new ArrayList<>(List.of(new Member("name", new Leaf(Json.quoted(name)))))));
                }
            }
        }
        files.put(DESCRIPTOR, Json.write(root, "\n").getBytes(StandardCharsets.UTF_8));
        StringBuilder all = new StringBuilder();
        String text = new String(files.getOrDefault(file, new byte[0]), StandardCharsets.UTF_8);
        text.lines()
                .forEach(line -> all.append(line)
                        .append(',')
                        .append(all.isEmpty() ? name : cell(draw.text(), ','))
                        .append('\n'));
        if (!file.equals(DESCRIPTOR)) {
            files.put(file, all.toString().getBytes(StandardCharsets.UTF_8));
        }
    }

    private void dropResource(Map<String, byte[]> files) {
        try {
            Branch root = Json.parse(files.getOrDefault(DESCRIPTOR, new byte[0]));
            for (Object child : root.children()) {
                if (child instanceof Member member
                        && member.key().equals("resources")
                        && member.value() instanceof Branch list
                        && !list.children().isEmpty()) {
                    list.children().remove(draw.below(list.children().size()));
                }
            }
            files.put(DESCRIPTOR, Json.write(root, "\n").getBytes(StandardCharsets.UTF_8));
        } catch (JacksonException | ClassCastException e) {
            files.remove(DESCRIPTOR);
        }
    }
}
