package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableKey;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;

/** The schema of a table's resources is written once, and its documentation is that of the schema. */
class TableSchemaTest {
    private static final List<Path> SOURCES = List.of(Path.of("../yield-core/src/main/java"), Path.of("src/main/java"));
    private static final Path READER = Path.of("src/main/java/org/beefyield/data/table/TableReader.java");

    /** Comments, character literals, and texts in two groups: a block and a line. */
    private static final Pattern REFUSAL = Pattern.compile("(?:requireNonNull|noNullIn)\\((\\w+), \"\\1\"\\)");

    private static final Pattern TOKEN = Pattern.compile(
            "//[^\n]*|/\\*.*?\\*/|'(?:\\\\.|[^'\\\\])'"
                    + "|\"\"\"(?<block>.*?)\"\"\"|\"(?<line>(?:\\\\.|[^\"\\\\\n])*)\"",
            Pattern.DOTALL);

    /** Where a resource's name stands for something else: how the carcass was quartered, whose names a layout has. */
    private static final Set<String> OTHER_NAMES = Set.of(
            "quartering in OtherChanges",
            "quartering in Outturn",
            "quartering in Quarters",
            "names in TrialLayoutReader");

    /** Where a column's name of several words is that of another file: payment grids, trials and layouts of them. */
    private static final Set<String> OTHER_COLUMNS = Set.of(
            "fat_class in PaymentGridReader",
            "fat_class in TrialReader",
            "fat_class in TrialLayout",
            "fat_class in EstimateWriter",
            "fat_class in PenReader",
            "fat_pct in OrderReader",
            "fat_pct in StockReader");

    /** Classes that know a table's files or definition; in others one word, such as cut, is no column of a table. */
    private static final List<Pattern> OF_TABLES = List.of(
            Pattern.compile("org/beefyield/(?:table|grid)/.*"),
            Pattern.compile("org/beefyield/data/(?:testkit|table)/.*"));

    /** Where they have one word for something else. */
    private static final Set<String> OTHER_WORDS = Set.of(
            // what a message calls it
            "name in ZipFiles",
            // keys of the descriptor
            "name in TableCompiler",
            "name in Descriptor",
            "name in TableWriter",
            "kind in Descriptor",
            "kind in TableWriter",
            "variable in Descriptor",
            "variable in TableWriter",
            "conformation in Descriptor",
            // a line of what a digest is taken over
            "name in TableDigest",
            // what messages and tables for people call things
            "conformation in TableComparison",
            "category in TableComparison",
            "level in TableComparison",
            "way in TableComparison",
            "cut in TableComparisonText",
            "level in TableComparisonText");

    private static final List<Term> NO_TERMS = List.of();

    private static final Set<String> RESOURCES =
            Arrays.stream(TableSchema.values()).map(TableSchema::code).collect(Collectors.toCollection(TreeSet::new));

    private static final Set<String> COLUMNS = Arrays.stream(TableSchema.values())
            .flatMap(schema -> schema.columnNames(NO_TERMS).stream())
            .collect(Collectors.toCollection(TreeSet::new));

    /** Classes in which each text stands as a literal, once for each time that it does. */
    private static Map<String, List<String>> literals() throws IOException {
        Map<String, List<String>> literals = new TreeMap<>();
        for (Path source : SOURCES) {
            try (Stream<Path> files = Files.walk(source)) {
                for (Path file :
                        files.filter(path -> path.toString().endsWith(".java")).toList()) {
                    String path = source.relativize(file).toString().replace('\\', '/');
                    // where null is refused stands the name of the parameter, not of a column
                    String code = REFUSAL.matcher(Files.readString(file)).replaceAll("");
                    Matcher token = TOKEN.matcher(code);
                    while (token.find()) {
                        String text = token.group("line") == null ? token.group("block") : token.group("line");
                        if (text != null) {
                            literals.computeIfAbsent(text, key -> new ArrayList<>())
                                    .add(path.substring(0, path.length() - ".java".length()));
                        }
                    }
                }
            }
        }
        return literals;
    }

    private static String simple(String path) {
        return path.substring(path.lastIndexOf('/') + 1);
    }

    /** Places of a name other than those where it means something else. */
    private static List<String> places(Map<String, List<String>> literals, String name, Set<String> others) {
        return literals.getOrDefault(name, List.of()).stream()
                .map(TableSchemaTest::simple)
                .filter(place -> !others.contains(name + " in " + place))
                .toList();
    }

    @Test
    void theNameOfAResourceStandsInTheSchemaAndNowhereElse() throws IOException {
        Map<String, List<String>> literals = literals();
        for (String resource : RESOURCES) {
            // a column is called as its resource is
            List<String> once =
                    COLUMNS.contains(resource) ? List.of("TableColumn", "TableSchema") : List.of("TableSchema");
            assertThat(places(literals, resource, OTHER_NAMES)).as(resource).containsExactlyInAnyOrderElementsOf(once);
        }
    }

    @Test
    void theNameOfAColumnStandsOnceInMainCode() throws IOException {
        Map<String, List<String>> literals = literals();
        List<String> several =
                COLUMNS.stream().filter(column -> column.contains("_")).toList();
        assertThat(several).hasSize(18);
        for (String column : several) {
            // a cut checks its own figures and names them
            String once =
                    List.of("pieces_per_side", "side_split_sd_pct", "fat_pct").contains(column) ? "Cut" : "TableColumn";
            assertThat(places(literals, column, OTHER_COLUMNS)).as(column).containsExactly(once);
        }
    }

    @Test
    void theKeyOfADescriptorStandsOnceInMainCode() throws IOException {
        Map<String, List<String>> literals = literals();
        List<String> several = Stream.of(TableKey.values())
                .map(TableKey::code)
                .filter(key -> key.contains("_"))
                .toList();
        assertThat(several).hasSize(5);
        for (String key : several) {
            // a digest has words of its own, which may never change
            assertThat(places(literals, key, Set.of(key + " in TableDigest")))
                    .as(key)
                    .containsExactly("TableKey");
        }
    }

    @Test
    void aColumnOfOneWordStandsOnceInWhatKnowsTables() throws IOException {
        Map<String, List<String>> literals = literals();
        Set<String> met = new TreeSet<>();
        for (String column : COLUMNS) {
            if (column.contains("_") || RESOURCES.contains(column)) {
                continue;
            }
            List<String> ofTables = literals.getOrDefault(column, List.of()).stream()
                    .filter(path -> OF_TABLES.stream()
                            .anyMatch(pattern -> pattern.matcher(path).matches()))
                    .map(TableSchemaTest::simple)
                    .toList();
            ofTables.forEach(place -> met.add(column + " in " + place));
            assertThat(ofTables.stream().filter(place -> !OTHER_WORDS.contains(column + " in " + place)))
                    .as(column)
                    .containsExactly("TableColumn");
        }
        assertThat(met).as("exceptions that are no more").containsAll(OTHER_WORDS);
    }

    /** No longer text, such as a message, has the name of a resource or a column in it that no other word is. */
    @Test
    void namesOfSeveralWordsStandInNoLongerText() throws IOException {
        Set<String> names = Stream.concat(RESOURCES.stream(), COLUMNS.stream())
                .filter(name -> name.matches(".*[-_].*"))
                .collect(Collectors.toCollection(TreeSet::new));
        Pattern whole = Pattern.compile("(?<![\\w-])(?:" + String.join("|", names) + ")(?![\\w-])");
        List<String> found = new ArrayList<>();
        literals().forEach((text, places) -> {
            if (!names.contains(text) && whole.matcher(text).find()) {
                places.forEach(place -> found.add(simple(place) + ": " + text));
            }
        });
        assertThat(found).isEmpty();
    }

    /** The list in the Javadoc of the reader, without what it adds in brackets and behind a colon. */
    @Test
    void theJavadocOfTheReaderNamesTheResourcesAndTheirColumnsInOrder() throws IOException {
        String source = Files.readString(READER);
        String list = source.substring(source.indexOf("<ul>"), source.indexOf("</ul>"))
                .replaceAll("\\s*\n \\*\\s*", " ");
        List<String> documented = Stream.of(list.split("<li>"))
                .skip(1)
                .map(line -> line.replaceAll("\\{@code ([^}]*)}", "$1").strip())
                .toList();
        Term term = new Term.Hinge("a column for each term", Variable.FAT, Term.Side.BELOW, 3);
        Iterator<String> lines = documented.iterator();
        for (TableSchema schema : TableSchema.values()) {
            String[] parts = lines.next().split(": ", -1);
            boolean isOptional = !schema.isNeeded() && !schema.code().startsWith("breakdown");
            assertThat(parts[0])
                    .isEqualTo(
                            switch (schema) {
                                case BREAKDOWN_BY_CLASS -> "breakdown-by-class (beside breakdown or instead)";
                                default -> schema.code() + (isOptional ? " (optional)" : "");
                            });
            assertThat(parts[1].replaceAll(" \\([^)]*\\)", ""))
                    .as(schema.code())
                    .isEqualTo(String.join(", ", schema.columnNames(List.of(term))));
        }
        assertThat(documented).hasSameSizeAs(TableSchema.values());
    }

    @Test
    void everyColumnThatRefersToAnotherResourceFindsOneKeyThere() {
        for (TableSchema schema : TableSchema.values()) {
            for (TableColumn column : schema.columns(NO_TERMS)) {
                TableSchema other = TableSchema.referredTo(column.content());
                if (other != null) {
                    assertThat(other.columns(NO_TERMS))
                            .filteredOn(TableColumn::isKey)
                            .hasSize(1);
                }
            }
        }
    }
}
