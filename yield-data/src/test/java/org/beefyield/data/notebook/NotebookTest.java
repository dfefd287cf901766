package org.beefyield.data.notebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.api.parallel.Resources;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** The notebooks as they lie in the project, and what their cells give when the kernel runs them without Jupyter. */
@ResourceLock(Resources.SYSTEM_OUT)
class NotebookTest {
    private static final Path EXAMPLES = Path.of(System.getProperty("basedir", ""), "examples");

    static Stream<String> notebooks() {
        return ExecutedNotebook.NAMES.stream();
    }

    private static Path file(String notebook) {
        return EXAMPLES.resolve(notebook + ".ipynb");
    }

    @Test
    void everyNotebookOfTheExamplesIsExecuted() throws IOException {
        try (Stream<Path> files = Files.list(EXAMPLES)) {
            assertThat(files.map(path -> path.getFileName().toString()).filter(name -> name.endsWith(".ipynb")))
                    .containsExactlyInAnyOrderElementsOf(
                            notebooks().map(name -> name + ".ipynb").toList());
        }
    }

    @ParameterizedTest
    @MethodSource("notebooks")
    void noOutputIsKept(String notebook) {
        assertThat(ExecutedNotebook.codeCells(ExecutedNotebook.read(file(notebook))))
                .isNotEmpty()
                .allSatisfy(cell -> {
                    assertThat(cell.path("outputs").isArray()).isTrue();
                    assertThat(cell.path("outputs")).isEmpty();
                    assertThat(cell.path("execution_count").isNull()).isTrue();
                    assertThat(cell.path("metadata")).isEmpty();
                });
    }

    @ParameterizedTest
    @MethodSource("notebooks")
    void theCodeIsPlainJavaWithoutMagic(String notebook) {
        assertThat(ExecutedNotebook.codeCells(ExecutedNotebook.read(file(notebook))))
                .allSatisfy(cell ->
                        assertThat(ExecutedNotebook.source(cell)).doesNotContainPattern("(?m)^\\s*([%!]|/(?!/))"));
    }

    @ParameterizedTest
    @MethodSource("notebooks")
    void noPathIsThatOfAMachine(String notebook) {
        assertThat(ExecutedNotebook.read(file(notebook)).path("cells"))
                .allSatisfy(cell -> assertThat(ExecutedNotebook.source(cell))
                        .doesNotContainPattern("(^|[\\s\"'(])/\\w+/")
                        .doesNotContainPattern("\\b[A-Za-z]:[\\\\/]")
                        .doesNotContain("file:"));
    }

    @ParameterizedTest
    @MethodSource("notebooks")
    void everyCellRunsAndShowsItsFigures(String notebook) throws IOException {
        JsonNode read = ExecutedNotebook.read(file(notebook));
        assertThat(ExecutedNotebook.codeCells(read))
                .filteredOn(ExecutedNotebook::saysFolder)
                .hasSize(1);

        ExecutedNotebook executed = ExecutedNotebook.run(read, EXAMPLES);

        Path kept = EXAMPLES.resolve("executed").resolve(notebook + ".ipynb");
        if (Boolean.getBoolean("beefyield.rewrite")) {
            Files.writeString(kept, executed.page(read));
        }
        assertThat(executed.problems(NotebookFigures.of(notebook, EXAMPLES))).isEmpty();
        assertThat(executed.pictures()).hasSizeGreaterThanOrEqualTo(notebook.equals("a-year-of-carcasses") ? 0 : 1);
        assertThat(executed.html()).filteredOn(html -> html.contains("<table")).hasSizeGreaterThan(3);
        assertThat(executed.differences(ExecutedNotebook.of(ExecutedNotebook.read(kept))))
                .as("the page that is kept; where the change is meant, write it anew")
                .isEmpty();
    }

    @Test
    void anotherFigureThanThatOfThePageIsSeen() throws IOException {
        String notebook = """
                {"cells": [{"cell_type": "code", "id": "one", "source": "System.out.println(%s)"}]}
                """;
        ExecutedNotebook was = ExecutedNotebook.run(ExecutedNotebook.parse(notebook.formatted("12.5")), EXAMPLES);
        ExecutedNotebook is = ExecutedNotebook.run(ExecutedNotebook.parse(notebook.formatted("12.6")), EXAMPLES);
        ExecutedNotebook kept = ExecutedNotebook.of(ExecutedNotebook.parse(was.page(ExecutedNotebook.parse(notebook))));

        assertThat(was.differences(kept)).isEmpty();
        assertThat(is.differences(kept))
                .containsExactly("cell one shows otherwise than the page that is kept: \"text/plain: 12.6\", kept is"
                        + " \"text/plain: 12.5\"");
    }

    @Test
    void faultsOfCellsAreFound() throws IOException {
        JsonNode notebook = ExecutedNotebook.parse("""
                {"cells": [
                  {"cell_type": "code", "id": "good", "source": ["display(\\"<b>12</b>\\", \\"text/html\\");\\n", "7 * 6"]},
                  {"cell_type": "code", "id": "wrong", "source": "int x = \\"a\\";"},
                  {"cell_type": "markdown", "id": "words", "source": "int y = z"},
                  {"cell_type": "code", "id": "thrown", "source": "Object o = null;\\no.hashCode()"},
                  {"cell_type": "code", "id": "blank", "source": "class Pictures {}\\nnew Pictures(); // Pictures."}]}
                """);
        ExecutedNotebook executed = ExecutedNotebook.run(notebook, EXAMPLES);

        assertThat(executed.html()).containsExactly("<b>12</b>");
        List<String> problems = executed.problems(Map.of("good", List.of("12", "43")));
        assertThat(problems).hasSize(4);
        assertThat(problems.get(0)).contains("cell wrong ends with an error", "String cannot be converted to int");
        assertThat(problems.get(1)).contains("cell thrown ends with an error: java.lang.NullPointerException");
        assertThat(problems.get(2)).isEqualTo("cell blank draws and shows no picture");
        assertThat(problems.get(3)).startsWith("cell good doesn't show \"43\" but 12");
    }

    @Test
    void aBareResultIsShownAsTablesAndAPictureAsItself() throws IOException {
        JsonNode notebook = ExecutedNotebook.parse("""
                {"cells": [
                  {"cell_type": "code", "id": "import", "source": "import org.beefyield.carcass.*;\\nimport org.beefyield.estimate.*;"},
                  {"cell_type": "code", "id": "estimate", "source": ["var estimate = YieldEstimator.of(\\n",
                    "    org.beefyield.data.table.ShippedTables.boneless2026()).estimate(Carcass.of(\\n",
                    "    Category.STEER, Conformation.parse(\\"R=\\"), FatClass.parse(\\"3=\\"), 340));\\n", "estimate"]},
                  {"cell_type": "code", "id": "picture", "source": "org.beefyield.data.picture.Pictures.breakdown(estimate)"},
                  {"cell_type": "code", "id": "assigned", "source": "var again = estimate;\\nestimate = again;"}]}
                """);
        ExecutedNotebook executed = ExecutedNotebook.run(notebook, EXAMPLES);

        assertThat(executed.problems(Map.of())).isEmpty();
        assertThat(executed.shown("estimate")).contains("Striploin 16.25 4.8 11.64 20.87", "Quarters");
        assertThat(executed.shown("picture")).contains("What a carcass becomes");
        assertThat(executed.shown("assigned")).isEmpty();
        assertThat(executed.html()).hasSize(1);
        assertThat(executed.pictures()).hasSize(1);
    }
}
