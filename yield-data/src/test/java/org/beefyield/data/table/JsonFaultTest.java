package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.data.Problem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What a person who edited a descriptor by hand is told, word for word, with line and character. */
class JsonFaultTest {
    @TempDir
    Path temporary;

    @ParameterizedTest(name = "[{index}]")
    @MethodSource("faults")
    void everyFaultIsNamedWhereItStands(String text, int line, String message) {
        assertThat(JsonFault.of(text)).isEqualTo(new JsonFault(line, message));
    }

    static Stream<Arguments> faults() {
        return Stream.of(
                fault(
                        "{\n  \"a\": 1,\n}",
                        2,
                        "nothing follows this comma but the closing }; take the comma out (character 9 of the line)"),
                fault(
                        "[1,\n 2, ]",
                        2,
                        "nothing follows this comma but the closing ]; take the comma out (character 3 of the line)"),
                fault(
                        "{\n  \"a\": 1\n  \"b\": 2\n}",
                        2,
                        "a comma is missing here, before the next text (character 9 of the line)"),
                fault("[1 2]", 1, "a comma is missing here, before 2 (character 3 of the line)"),
                fault(
                        "{\"a\": {\n  \"b\": [1, 2]\n",
                        3,
                        "the file ends, and the { of line 1 is not closed; a } is missing (character 1 of the line)"),
                fault(
                        "{\n\"a\": [\n1",
                        3,
                        "the file ends, and the [ of line 2 is not closed; a ] is missing (character 2 of the line)"),
                fault(
                        "{\"a\": [1, 2}",
                        1,
                        "this } can't close the [ of line 1; a ] is missing before it (character 12 of the line)"),
                fault(
                        "[{\"a\": 1]",
                        1,
                        "this ] can't close the { of line 1; a } is missing before it (character 9 of the line)"),
                fault("{}}", 1, "this } closes nothing: one bracket is too many (character 3 of the line)"),
                fault(
                        "{\n  \"a\": 1, // the first\n}",
                        2,
                        "a comment begins here, and JSON has none; take it out, a \"description\" may say it"
                                + " (character 11 of the line)"),
                fault(
                        "{ /* a */ }",
                        1,
                        "a comment begins here, and JSON has none; take it out, a \"description\" may say it"
                                + " (character 3 of the line)"),
                fault(
                        "# a\n{}",
                        1,
                        "a comment begins here, and JSON has none; take it out, a \"description\" may say it"
                                + " (character 1 of the line)"),
                fault("{'a': 1}", 1, "single quotes are none of JSON; use double quotes (character 2 of the line)"),
                fault("{\"a\": 'x'}", 1, "single quotes are none of JSON; use double quotes (character 7 of the line)"),
                fault(
                        "{\"a\": \u201Cx\u201D}",
                        1,
                        "curly quotes are none of JSON; use straight double quotes (character 7 of the line)"),
                fault("{a: 1}", 1, "the key a needs double quotes around it (character 2 of the line)"),
                fault(
                        "{\"a\": 1,5}",
                        1,
                        "the comma before 5 ends a number; decimals stand behind a point (character 9 of the line)"),
                fault("{1: 2}", 1, "a key in double quotes is needed here (character 2 of the line)"),
                fault("{\"a\" 1}", 1, "a colon and a value are needed behind the key \"a\" (character 5 of the line)"),
                fault("{\"a\"}", 1, "a colon and a value are needed behind the key \"a\" (character 5 of the line)"),
                fault("{\"a\": }", 1, "a value is missing behind the key \"a\" (character 7 of the line)"),
                fault(
                        "[1,,2]",
                        1,
                        "nothing stands before this comma; take it out, or write what is missing (character 4 of the"
                                + " line)"),
                fault(
                        "[,1]",
                        1,
                        "nothing stands before this comma; take it out, or write what is missing (character 2 of the"
                                + " line)"),
                value("True", 7),
                value("None", 7),
                value(".5", 7),
                value("+1", 7),
                value("01", 7),
                value("NaN", 7),
                fault(
                        "{\"a\": \"one\ttwo\"}",
                        1,
                        "a tab stands in a text; write \\t, or a blank (character 11 of the line)"),
                fault(
                        "{\"a\": \"one\ntwo\"}",
                        1,
                        "the text that begins here has no closing double quote on its line; a line break is written \\n"
                                + " (character 7 of the line)"),
                fault("[\"a", 1, "the text that begins here has no closing double quote (character 2 of the line)"),
                fault("[\"C:\\tables\\hall\"]", 1, "a backslash in a text is written twice (character 12 of the line)"),
                fault("[\"\\u00g1\"]", 1, "a backslash in a text is written twice (character 3 of the line)"),
                fault(
                        "[\"\u0001\"]",
                        1,
                        "the control character U+0001 stands in a text; take it out (character 3 of the line)"),
                fault("", 1, "the file is empty (character 1 of the line)"));
    }

    private static Arguments value(String word, int character) {
        return fault(
                "{\"a\": " + word + "}",
                1,
                word
                        + " is no value; valid: a text in double quotes, a number such as -0.5, true, false, null (character "
                        + character + " of the line)");
    }

    private static Arguments fault(String text, int line, String message) {
        return Arguments.of(text, line, message);
    }

    @Test
    void nothingIsWrongWithJson() {
        for (String text : List.of(
                "{}",
                "[]",
                " [ ] ",
                "[[], {}, 1]",
                "{\"a\": [1, -0.5e+3, true, false, null, \"\\u00e4\\n\\\\\"]}",
                "7")) {
            assertThat(JsonFault.of(text)).as(text).isNull();
        }
    }

    @Test
    void aReaderSaysItWithTheLine() {
        PackageCopy hall = new PackageCopy(temporary);
        long line = hall.replace("datapackage.json", "\"width_fit\": 1,", "\"width_fit\": 1,,");

        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "datapackage.json",
                        line,
                        "",
                        "",
                        "it can't be read as JSON: nothing stands before this comma; take it out, or write what is"
                                + " missing (character 20 of the line)"));

        hall.write("datapackage.json", "");
        assertThat(hall.problems())
                .extracting(Problem::message)
                .containsExactly("the file is empty; a Data Package descriptor is a JSON object");
    }
}
