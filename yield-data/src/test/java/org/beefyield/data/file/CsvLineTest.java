package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.beefyield.data.CsvForm;
import org.junit.jupiter.api.Test;

class CsvLineTest {
    @Test
    void aCellIsQuotedWhereverInItStandsWhatNeedsQuotes() {
        assertThat(CsvLine.of(List.of("a b", "", "a,b", ",", "\"a\"", "a\"", "\nb", "a\n", "\rb", "a\r", ";")))
                .isEqualTo("a b,,\"a,b\",\",\",\"\"\"a\"\"\",\"a\"\"\",\"\nb\",\"a\n\",\"\rb\",\"a\r\",;\n");
    }

    @Test
    void whatHasNoLineBreakIsReadBackAsItWas() throws IOException {
        List<String> cells = List.of("\"", ",\",", " a ", "Z\u00fcchter, \"A\"", "");
        byte[] file =
                (CsvLine.of(List.of("a", "b", "c", "d", "e")) + CsvLine.of(cells)).getBytes(StandardCharsets.UTF_8);
        CsvReader reader = new CsvReader("a.csv", new ByteArrayInputStream(file), CsvForm.standard(), problem -> {
            throw new AssertionError(problem);
        });

        assertThat(reader.next()).isEqualTo(new CsvReader.Row(2, cells));
    }
}
