package org.beefyield.data.notebook;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.dflib.jjava.jupyter.kernel.display.DisplayData;
import org.dflib.jjava.jupyter.kernel.display.mime.MIMEType;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What the code cells of a notebook gave, whether Jupyter ran them or this process. */
final class ExecutedNotebook {
    static final List<String> NAMES = List.of(
            "what-will-this-lot-yield",
            "our-own-table",
            "what-did-the-hall-do",
            "whom-to-cut-for",
            "hold-or-sell",
            "a-year-of-carcasses");

    private static final int MESSAGE = 300;
    private static final int BEFORE = 40;

    private static final String HTML = "text/html";
    private static final String SVG = "image/svg+xml";

    private static final String TEXT = "text/plain";
    private static final String ERROR = "error";
    private static final String CODE = "code";

    /** The one line of a notebook that says where its files lie. */
    private static final String FOLDER = "Path folder = Path.of(\"\");";

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final Pattern TAGS = Pattern.compile("<[^>]*>|\\s+");

    /** A cell whose output depends on what is installed beside Java. */
    private static final String ELSEWHERE = "pandas";

    /** An output of a cell: its MIME type, or {@code error}, and what it holds; the forms of one result have one number. */
    record Output(String type, String data, int result) {}

    /** A cell that draws calls these. */
    private static final String DRAWS = "Pictures.";

    private final Map<String, List<Output>> cells = new LinkedHashMap<>();
    private final Set<String> drawing = new LinkedHashSet<>();

    private void add(JsonNode cell, List<Output> outputs) {
        String id = cell.path("id").asString();
        cells.put(id, List.copyOf(outputs));
        if (source(cell).contains(DRAWS)) {
            drawing.add(id);
        }
    }

    /** A notebook as it stands in a file. */
    static JsonNode read(Path file) {
        return JSON.readTree(file);
    }

    /** A notebook as it would stand in a file. */
    static JsonNode parse(String notebook) {
        return JSON.readTree(notebook);
    }

    /** Whether a cell says where the files lie. */
    static boolean saysFolder(JsonNode cell) {
        return source(cell).contains(FOLDER);
    }

    /** The source of a cell. */
    static String source(JsonNode cell) {
        return text(cell.path("source"));
    }

    /** The code cells of a notebook. */
    static List<JsonNode> codeCells(JsonNode notebook) {
        List<JsonNode> code = new ArrayList<>();
        notebook.path("cells").forEach(cell -> {
            if (cell.path("cell_type").asString().equals(CODE)) {
                code.add(cell);
            }
        });
        return code;
    }

    /** Text stands as one string or as a list of lines. */
    private static String text(JsonNode node) {
        if (!node.isArray()) {
            return node.asString();
        }
        StringBuilder text = new StringBuilder();
        node.forEach(line -> text.append(line.asString()));
        return text.toString();
    }

    /** What Jupyter wrote. */
    static ExecutedNotebook of(JsonNode notebook) {
        ExecutedNotebook executed = new ExecutedNotebook();
        for (JsonNode cell : codeCells(notebook)) {
            List<Output> outputs = new ArrayList<>();
            int number = 0;
            for (JsonNode output : cell.path("outputs")) {
                int result = number++;
                String type = output.path("output_type").asString();
                if (type.equals(ERROR)) {
                    outputs.add(new Output(ERROR, text(output.path("evalue")), result));
                } else if (type.equals("stream")) {
                    outputs.add(new Output(TEXT, text(output.path("text")), result));
                } else {
                    output.path("data")
                            .properties()
                            .forEach(data -> outputs.add(new Output(data.getKey(), text(data.getValue()), result)));
                }
            }
            executed.add(cell, outputs);
        }
        return executed;
    }

    /** Runs the cells of a notebook in this process, in the kernel that Jupyter starts too. */
    static ExecutedNotebook run(JsonNode notebook, Path folder) throws IOException {
        ExecutedNotebook executed = new ExecutedNotebook();
        List<Output> outputs = new ArrayList<>();
        NotebookKernel kernel = new NotebookKernel() {
            @Override
            public void display(DisplayData data) {
                add(outputs, data);
            }
        };
        PrintStream before = System.out;
        kernel.onStartup();
        try {
            for (JsonNode cell : codeCells(notebook)) {
                ByteArrayOutputStream printed = new ByteArrayOutputStream();
                System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
                try {
                    DisplayData value = kernel.eval(source(cell)
                            .replace(
                                    FOLDER,
                                    FOLDER.replace(
                                            "\"\"", '"' + folder.toString().replace("\\", "\\\\") + '"')));
                    if (value != null) {
                        add(outputs, value);
                    }
                } catch (IllegalStateException | IllegalArgumentException failure) {
                    outputs.add(new Output(ERROR, failure.getMessage(), outputs.size()));
                }
                if (printed.size() > 0) {
                    outputs.add(new Output(TEXT, printed.toString(StandardCharsets.UTF_8), outputs.size()));
                }
                executed.add(cell, outputs);
                outputs.clear();
            }
        } finally {
            System.setOut(before);
            kernel.onShutdown(false);
        }
        return executed;
    }

    private static void add(List<Output> outputs, DisplayData data) {
        int result = outputs.size();
        for (MIMEType type : List.of(MIMEType.TEXT_PLAIN, MIMEType.TEXT_HTML, MIMEType.IMAGE_SVG)) {
            if (data.hasDataForType(type)) {
                outputs.add(new Output(type.toString(), String.valueOf(data.getData(type)), result));
            }
        }
    }

    private Stream<String> outputs(String cell, String... types) {
        return cells.getOrDefault(cell, List.of()).stream()
                .filter(output -> List.of(types).contains(output.type()))
                .map(Output::data);
    }

    /** What a cell shows a reader as HTML and pictures, without tags and with single blanks. */
    String shown(String cell) {
        StringBuilder shown = new StringBuilder();
        outputs(cell, HTML, SVG)
                .forEach(html -> shown.append(' ').append(TAGS.matcher(html).replaceAll(" ")));
        return shown.toString()
                .replace("&quot;", "\"")
                .replace("&#39;", "'")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&amp;", "&")
                .replaceAll(" +", " ");
    }

    /**
     * What is wrong with the outputs: errors, cells without their picture, and for each cell that has to show something,
     * what it doesn't show as HTML.
     *
     * @param expected by cell, what a reader has to find there
     * @return a line for each fault
     */
    List<String> problems(Map<String, List<String>> expected) {
        List<String> problems = new ArrayList<>();
        cells.forEach((cell, outputs) -> outputs.stream()
                .filter(output -> output.type().equals(ERROR))
                .forEach(output -> problems.add("cell " + cell + " ends with an error: " + output.data())));
        drawing.stream()
                .filter(cell -> outputs(cell, SVG).findAny().isEmpty())
                .forEach(cell -> problems.add("cell " + cell + " draws and shows no picture"));
        expected.forEach((cell, figures) -> {
            // as figures are worked out here, without the thousands apart
            String shown = shown(cell).replaceAll("(?<=[0-9]),(?=[0-9]{3})", "");
            figures.stream()
                    .filter(figure -> !shown.contains(figure))
                    .forEach(figure ->
                            problems.add("cell " + cell + " doesn't show \"" + figure + "\" but" + start(shown)));
        });
        return problems;
    }

    private static String start(String text) {
        return text.length() > MESSAGE ? text.substring(0, MESSAGE) + " ..." : text;
    }

    /** Everything that the cells show as HTML, in order. */
    List<String> html() {
        return all(HTML);
    }

    /** Every picture, in order. */
    List<String> pictures() {
        return all(SVG);
    }

    private List<String> all(String type) {
        return cells.keySet().stream().flatMap(cell -> outputs(cell, type)).toList();
    }

    /** Where the outputs are other than those of another execution, by cell; empty if they are the same. */
    List<String> differences(ExecutedNotebook kept) {
        List<String> differences = new ArrayList<>();
        if (!List.copyOf(cells.keySet()).equals(List.copyOf(kept.cells.keySet()))) {
            differences.add("cells " + cells.keySet() + ", but kept are " + kept.cells.keySet());
        }
        cells.forEach((cell, outputs) -> {
            List<String> now = forms(outputs);
            List<String> then = forms(kept.cells.getOrDefault(cell, List.of()));
            if (!cell.equals(ELSEWHERE) && !now.equals(then)) {
                int at = 0;
                while (at < now.size() && at < then.size() && now.get(at).equals(then.get(at))) {
                    at++;
                }
                differences.add("cell " + cell + " shows otherwise than the page that is kept: "
                        + firstDifference(at < now.size() ? now.get(at) : "", at < then.size() ? then.get(at) : ""));
            }
        });
        return differences;
    }

    private static String firstDifference(String now, String then) {
        int at = 0;
        while (at < now.length() && at < then.length() && now.charAt(at) == then.charAt(at)) {
            at++;
        }
        int from = Math.max(0, at - BEFORE);
        return '"' + start(now.substring(Math.min(from, now.length()))) + "\", kept is \""
                + start(then.substring(Math.min(from, then.length()))) + '"';
    }

    /** Kernels give the forms of a result in any order. */
    private static List<String> forms(List<Output> outputs) {
        return outputs.stream()
                .sorted(Comparator.comparing(Output::type))
                .map(output -> output.type() + ": " + output.data().strip())
                .toList();
    }

    /** A notebook with these outputs in it, as Jupyter writes one; the outputs that it has don't matter. */
    String page(JsonNode notebook) {
        ObjectNode page = (ObjectNode) notebook.deepCopy();
        int count = 0;
        for (JsonNode cell : codeCells(page)) {
            ((ObjectNode) cell).put("execution_count", ++count);
            ArrayNode outputs = ((ObjectNode) cell).putArray("outputs");
            Map<Integer, ObjectNode> results = new LinkedHashMap<>();
            for (Output output : cells.get(cell.path("id").asString())) {
                ObjectNode data = results.computeIfAbsent(output.result(), result -> {
                    ObjectNode made = outputs.addObject();
                    made.put("output_type", "display_data");
                    made.putObject("metadata");
                    return made.putObject("data");
                });
                ArrayNode lines = data.putArray(output.type());
                output.data().lines().forEach(line -> lines.add(line + "\n"));
            }
        }
        return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(page) + "\n";
    }
}
