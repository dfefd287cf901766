package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a descriptor declares of its files is honoured, or refused by its name with what would help. */
class DeclaredFormTest {
    private static final String DESCRIPTOR = "datapackage.json";
    private static final String NOT_SO = ": files are not read in this way here; ";

    @TempDir
    Path temporary;

    private PackageCopy hall;

    @BeforeEach
    void copyTheShippedPackage() {
        hall = new PackageCopy(temporary);
    }

    // honoured

    @Test
    void separatorsAreThoseDeclared() {
        for (String separator : List.of(";", "|", "\t")) {
            PackageCopy other = new PackageCopy(temporary);
            other.write("specifications.csv", other.text("specifications.csv").replace(",", separator));
            declare(other, "\"delimiter\": \"" + separator.replace("\t", "\\t") + "\"", "\"delimiter\": \",\"");

            assertThat(other.read()).as(separator).isEqualTo(ShippedTables.boneless2026());
        }
    }

    @Test
    void encodingIsTheOneDeclared() {
        hall.write("sources.csv", hall.text("sources.csv").getBytes(ISO_8859_1));
        replaceAll("\"encoding\": \"utf-8\"", "\"encoding\": \"ISO-8859-1\"");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void missingValuesAndTheNullSequenceSayAsMuchAsAnEmptyCell() {
        replaceAll("\"missingValues\": [\n          \"\"\n        ]", "\"missingValues\": [\"\", \"NA\"]");
        hall.replaceAll("cuts.csv", ",,", ",NA,");
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        replaceAll("\"missingValues\": [\"\", \"NA\"]", "\"missingValues\": []");
        replaceAll("\"delimiter\": \",\"", "\"delimiter\": \",\", \"nullSequence\": \"NA\"");
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    @Test
    void blanksBeforeCellsAreSkippedWhereThatIsDeclared() {
        replaceAll("\"delimiter\": \",\"", "\"delimiter\": \",\", \"skipInitialSpace\": true");
        hall.write("cuts.csv", hall.text("cuts.csv").replace(",\"", ",  \""));

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        replaceAll("\"skipInitialSpace\": true", "\"skipInitialSpace\": false");
        assertThat(hall.problems())
                .allSatisfy(
                        problem -> assertThat(problem.message()).startsWith("a double quote stands inside the cell "));
    }

    @Test
    void decimalCommasAreReadWhereTheyAreDeclaredAndPointsThenNot() {
        declare(hall, "\"type\": \"number\", \"decimalChar\": \",\"", "\"type\": \"number\"");
        hall.write("quartering.csv", hall.text("quartering.csv").replaceAll("([01])\\.([0-9]+)", "\"$1,$2\""));
        String breakdown = hall.text("breakdown.csv").replaceAll("(-?[0-9]+)\\.([0-9]+)", "\"$1,$2\"");
        hall.write("breakdown.csv", breakdown);
        hall.write("cuts.csv", hall.text("cuts.csv").replaceAll(",([0-9]+)\\.([0-9]+),", ",\"$1,$2\","));
        for (String file : List.of("coefficient-notes.csv", "residual-covariance.csv")) {
            hall.write(file, hall.text(file).replaceAll("(-?[0-9]+)\\.([0-9]+)", "\"$1,$2\""));
        }
        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());

        hall.write("breakdown.csv", breakdown.replaceFirst("\"693,119\"", "693.119"));
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "breakdown.csv",
                        2,
                        "level_g_per_kg",
                        "693.119",
                        "\"693.119\" is not a plain number such as 342,5; the decimal comma is declared"));
    }

    @Test
    void whatChangesNothingIsAccepted() {
        replaceAll(
                "\"delimiter\": \",\"",
                "\"delimiter\": \",\", \"csvddfVersion\": \"1.2\", \"caseSensitiveHeader\": false, \"escapeChar\": null");
        replaceAll("\"lineTerminator\": \"\\n\"", "\"lineTerminator\": \"\\r\\n\"");

        assertThat(hall.read()).isEqualTo(ShippedTables.boneless2026());
    }

    // refused by name

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "header": true           | "header": false            | dialect.header           | false | write the names of the columns in the first line and take this key out
            "quoteChar": "\\""       | "quoteChar": "'"           | dialect.quoteChar        | '     | put cells into double quotes where they need some, and take this key out
            "doubleQuote": true      | "doubleQuote": false       | dialect.doubleQuote      | false | write a double quote inside a cell twice, and take this key out
            "header": true           | "escapeChar": "/"          | dialect.escapeChar       | /     | write a double quote inside a cell twice, and take this key out
            "header": true           | "commentChar": "#"         | dialect.commentChar      | #     | take the lines of comment and this key out; a row's note has a column of its own
            "lineTerminator": "\\n"  | "lineTerminator": ";"      | dialect.lineTerminator   | ;     | lines end with \\n or \\r\\n
            """)
    void otherDialectsAreRefusedByName(String text, String other, String key, String value, String advice) {
        assertRefusedFirst(text, other, "resources.0." + key, value, "\"" + value + "\"" + NOT_SO + advice);
    }

    @Test
    void groupsAndUnitsOfNumbersAreRefusedByName() {
        assertRefusedFirst(
                "\"type\": \"number\"",
                "\"type\": \"number\", \"groupChar\": \".\"",
                "resources.0.schema.fields.4.groupChar",
                ".",
                "\".\"" + NOT_SO + "leave out what separates thousands, and take this key out");
        assertRefusedFirst(
                "\"type\": \"number\"",
                "\"type\": \"number\", \"bareNumber\": false",
                "resources.0.schema.fields.4.bareNumber",
                "false",
                "\"false\"" + NOT_SO + "write numbers without units and signs, and take this key out");
        assertRefusedFirst(
                "\"type\": \"number\"",
                "\"type\": \"number\", \"decimalChar\": \"_\"",
                "resources.0.schema.fields.4.decimalChar",
                "_",
                "\"_\": decimals stand behind . or ,");
        assertRefusedFirst(
                "\"type\": \"number\"",
                "\"type\": \"number\", \"format\": \"currency\"",
                "resources.0.schema.fields.4.format",
                "currency",
                "\"currency\": cells are read in the default format alone, dates such as 2026-11-03; write them so and"
                        + " take this key out");
    }

    @Test
    void separatorsAndEncodingsThatCantBeAreRefused() {
        assertRefusedFirst(
                "\"delimiter\": \",\"",
                "\"delimiter\": \"::\"",
                "resources.0.dialect.delimiter",
                "::",
                "\"::\": one character separates cells; a comma, a semicolon, a tab or | can, for instance");
        assertRefusedFirst(
                "\"encoding\": \"utf-8\"",
                "\"encoding\": \"utf-16\"",
                "resources.0.encoding",
                "utf-16",
                "\"utf-16\": charset UTF-16 can't be read line by line; UTF-8 or a single-byte charset such as"
                        + " windows-1252 can");
        assertRefusedFirst(
                "\"encoding\": \"utf-8\"",
                "\"encoding\": \"plain text\"",
                "resources.0.encoding",
                "plain text",
                "\"plain text\": no such encoding; utf-8 and windows-1252 are ones, for instance");
    }

    @Test
    void anUnknownKeyOfADialectIsRefused() {
        assertRefusedFirst(
                "\"delimiter\": \",\"",
                "\"delimeter\": \";\"",
                "resources.0.dialect.delimeter",
                "",
                "unknown key; valid here: caseSensitiveHeader, commentChar, csvddfVersion, delimiter, doubleQuote,"
                        + " escapeChar, header, lineTerminator, nullSequence, quoteChar, skipInitialSpace");
    }

    @Test
    void aDialectOfThePackageOrInAnotherFileIsRefused() {
        for (String key : List.of("dialect", "encoding", "missingValues", "schema")) {
            PackageCopy other = new PackageCopy(temporary);
            long line = other.replace(
                    DESCRIPTOR,
                    "\"profile\": \"tabular-data-package\",",
                    "\"profile\":" + " \"tabular-data-package\", \"" + key + "\": \";\",");
            assertThat(other.problems())
                    .containsExactly(other.problem(
                            DESCRIPTOR,
                            line,
                            key,
                            "\";\"",
                            "\"\";\"\": this key is read of each resource alone, "
                                    + (key.equals("missingValues") ? "under its schema" : "beside its path")
                                    + "; write it there"));
        }
        PackageCopy other = new PackageCopy(temporary);
        other.write(
                DESCRIPTOR,
                other.text(DESCRIPTOR).replaceFirst("\"dialect\": \\{[^}]*}", "\"dialect\": \"dialect.json\""));
        assertThat(other.problems())
                .containsExactly(other.problem(
                        DESCRIPTOR,
                        other.line(DESCRIPTOR, "dialect.json"),
                        "resources.0.dialect",
                        "\"dialect.json\"",
                        "\"\"dialect.json\"\": an object with keys is needed here"));
    }

    // constraints

    @Test
    void constraintsOfFieldsAreHeldOnceNothingElseIsWrong() {
        assertBroken("\"minimum\": 0.5", "0.15", "it is below it: \"minimum\"");
        assertBroken("\"minimum\": \"0.5\"", "0.15", "it is below it: \"minimum\"");
        assertBroken("\"maximum\": 0.1", "0.15", "it is above it: \"maximum\"");
        assertBroken("\"maxLength\": 3", "0.15", "it has 4 characters: \"maxLength\"");
        assertBroken("\"enum\": [\"0.0\", 1]", "0.15", "it isn't listed there: \"enum\"");
    }

    @Test
    void constraintsOfFurtherColumnsAreHeldToo() {
        hall.addColumn("specifications.csv", "page");
        String field = "\"name\": \"way\",\n            \"type\": \"string\",";
        String whole = hall.text(DESCRIPTOR);
        int at = whole.indexOf(field, whole.indexOf("\"name\": \"specifications\""));
        hall.write(
                DESCRIPTOR,
                whole.substring(0, at)
                        + "\"name\": \"page\", \"constraints\": {\"required\": true, \"unique\": true}}, {"
                        + whole.substring(at));
        assertThat(hall.read().definition().extraColumns()).hasSize(1);

        hall.replace("specifications.csv", "page 3\n", "page 2\n");
        hall.replace("specifications.csv", "page 4\n", "\n");
        String forbids = " under \"constraints\" of the field in datapackage.json forbids it; change the cell or the"
                + " constraint";
        assertThat(hall.problems())
                .containsExactly(
                        hall.problem(
                                "specifications.csv",
                                3,
                                "page",
                                "page 2",
                                "\"page 2\": it stands above too: \"unique\"" + forbids),
                        hall.problem("specifications.csv", 4, "page", "", "the cell is empty: \"required\"" + forbids));
    }

    @Test
    void aPatternOrABoundOfATextIsRefusedByName() {
        String at = "resources.0.schema.fields.0.constraints.";
        assertRefusedFirst(
                "\"required\": true",
                "\"pattern\": \"[a-z]+\"",
                at + "pattern",
                "[a-z]+",
                "\"[a-z]+\"" + NOT_SO + "list the words as \"enum\", or take this key out");
        assertRefusedFirst(
                "\"required\": true",
                "\"minimum\": \"a\"",
                at + "minimum",
                "\"a\"",
                "\"\"a\"\": only numbers are held to bounds here; take this key out");
        assertRefusedFirst(
                "\"required\": true",
                "\"requierd\": true",
                at + "requierd",
                "",
                "unknown key; valid here: enum, maxLength, maximum, minLength, minimum, pattern, required, unique");
    }

    /** Exactly the cells of the quartering that are 0.15 break a constraint of fore_share. */
    private void assertBroken(String constraint, String value, String message) {
        PackageCopy copy = new PackageCopy(temporary);
        String whole = copy.text(DESCRIPTOR);
        int at = whole.indexOf("\"constraints\": {", whole.indexOf("\"name\": \"fore_share\""));
        copy.write(
                DESCRIPTOR,
                whole.substring(0, at) + "\"constraints\": {" + constraint + "}, \"was\": {"
                        + whole.substring(at + "\"constraints\": {".length()));
        copy.write(
                "quartering.csv",
                copy.text("quartering.csv").replaceAll(",0\\.[0-9]+,", constraint.contains("maximum") ? ",0," : ",1,"));
        copy.write("quartering.csv", copy.text("quartering.csv").replaceFirst("flank,[01],", "flank," + value + ","));
        if (constraint.contains("minimum")) {
            copy.write("quartering.csv", copy.text("quartering.csv").replace(",0,", ",1,"));
        }
        if (constraint.contains("maximum")) {
            copy.write("quartering.csv", copy.text("quartering.csv").replace(",1,", ",0,"));
        }
        assertThat(copy.problems())
                .containsExactly(copy.problem(
                        "quartering.csv",
                        copy.line("quartering.csv", "flank,"),
                        "fore_share",
                        value,
                        "\"" + value + "\": " + message + " under \"constraints\" of the field in datapackage.json"
                                + " forbids it; change the cell or the constraint"));
    }

    private void assertRefusedFirst(String text, String other, String column, String value, String message) {
        PackageCopy copy = new PackageCopy(temporary);
        String whole = copy.text(DESCRIPTOR);
        int at = whole.indexOf(text);
        assertThat(at).as(text).isNotNegative();
        copy.write(DESCRIPTOR, whole.substring(0, at) + other + whole.substring(at + text.length()));
        long line = 1 + whole.substring(0, at).chars().filter(c -> c == '\n').count();

        assertThat(copy.problems()).containsExactly(copy.problem(DESCRIPTOR, line, column, value, message));
    }

    private void replaceAll(String text, String other) {
        hall.replaceAll(DESCRIPTOR, text, other);
    }

    private static void declare(PackageCopy copy, String text, String instead) {
        String whole = copy.text(DESCRIPTOR);
        if (text.startsWith("\"delimiter\"")) {
            int resource = whole.indexOf("\"name\": \"specifications\"");
            int at = whole.indexOf(instead, resource);
            copy.write(DESCRIPTOR, whole.substring(0, at) + text + whole.substring(at + instead.length()));
        } else {
            copy.replaceAll(DESCRIPTOR, instead, text);
        }
    }
}
