package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ProblemTest {
    @Test
    void aCellIsNamedByFileLineAndColumn() {
        assertThat(new Problem("sheet.csv", 12, "fat_class", "6", "fat class 6 is outside 1 to 5"))
                .hasToString("sheet.csv line 12, fat_class: fat class 6 is outside 1 to 5");
    }

    @Test
    void aWholeRowHasNoColumnAndAWholeFileNoLine() {
        assertThat(new Problem("sheet.csv", 12, "", "a,b", "the row is short"))
                .hasToString("sheet.csv line 12: the row is short");
        assertThat(new Problem("sheet.csv", 0, "", "", "the file is empty"))
                .hasToString("sheet.csv: the file is empty");
        assertThat(new Problem("sheet.csv", 0, "lot", "", "column lot is missing"))
                .hasToString("sheet.csv, lot: column lot is missing");
    }

    @Test
    void controlCharactersFromAFileCannotBreakTheLineOrTheTerminal() {
        assertThat(new Problem("a.csv", 2, "lot", "x", "lot \"\u001b[31m\r\nred\u009b\""))
                .hasToString("a.csv line 2, lot: lot \"\\u001b[31m\\u000d\\u000ared\\u009b\"");
    }

    @Test
    void aLineBelowZeroIsRefused() {
        assertThatThrownBy(() -> new Problem("a.csv", -1, "", "", "wrong"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("line -1 is below 0");
    }

    @Test
    void theExceptionListsUpToTwentyProblemsAndCountsTheRest() {
        assertThat(new InvalidDataException(problems(2)))
                .hasMessage("a.csv line 1: wrong 1\na.csv line 2: wrong 2")
                .extracting(InvalidDataException::problems)
                .isEqualTo(problems(2));
        assertThat(new InvalidDataException(problems(20)))
                .message()
                .hasLineCount(20)
                .endsWith("a.csv line 20: wrong 20");
        assertThat(new InvalidDataException(problems(23)))
                .message()
                .hasLineCount(21)
                .endsWith("a.csv line 20: wrong 20\nand 3 more");
    }

    @Test
    void theExceptionNeedsAProblem() {
        assertThatThrownBy(() -> new InvalidDataException(List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no problem is given; one or more are needed");
    }

    @Test
    void theExceptionKeepsItsProblemsOverSerialisation() throws IOException, ClassNotFoundException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(new InvalidDataException(problems(2)));
        }
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            assertThat(((InvalidDataException) in.readObject()).problems()).isEqualTo(problems(2));
        }
    }

    private static List<Problem> problems(int count) {
        return IntStream.rangeClosed(1, count)
                .mapToObj(k -> new Problem("a.csv", k, "", "", "wrong " + k))
                .toList();
    }
}
