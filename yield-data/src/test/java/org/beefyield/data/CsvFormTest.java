package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvFormTest {
    @Test
    void nothingIsDeclaredByDefault() {
        CsvForm form = CsvForm.standard();
        assertThat(form.separator()).isEqualTo(',');
        assertThat(form.decimalMark()).isEqualTo('.');
        assertThat(form.charset()).isEqualTo(StandardCharsets.UTF_8);
        assertThat(form.dates()).isEqualTo(CsvForm.DateForm.ISO);
        assertThat(form.columns()).isEmpty();
        assertThat(form.yes()).isEqualTo("yes");
        assertThat(form.no()).isEqualTo("no");
        assertThat(form.units()).isEmpty();
        assertThat(form.hasFormulaCells()).isFalse();
        assertThat(form.hasBlankRows()).isFalse();
    }

    @Test
    void whatIsDeclaredIsKeptAndCanBeAddedTo() {
        CsvForm form = CsvForm.builder()
                .separator(';')
                .decimalComma()
                .charset(Charset.forName("windows-1252"))
                .dates(CsvForm.DateForm.POINTS)
                .column(" Nr ", "carcass")
                .yesNo("ja", "nein")
                .unit("kg")
                .formulaCells()
                .blankRows()
                .build();
        assertThat(form)
                .hasToString(
                        "separator \";\", decimal comma, windows-1252, dates day.month.year, columns {Nr=carcass}, ja"
                                + " or nein, units kg, formula cells, blank rows")
                .isEqualTo(form.toBuilder().build())
                .hasSameHashCodeAs(form.toBuilder().build());
        CsvForm more =
                form.toBuilder().separator('\t').column("Kat", "category").build();
        assertThat(more.columns()).containsExactly(entry("Nr", "carcass"), entry("Kat", "category"));
        assertThat(more.toString()).startsWith("separator tab, decimal comma");
        assertThat(more).isNotEqualTo(form);
        assertThat(form.columns()).containsExactly(entry("Nr", "carcass"));
    }

    @ParameterizedTest
    @ValueSource(chars = {'"', '\n', '\r', ' ', '.', '-', '+', '=', '_', 'x', '7', '\u00e9', '\ud83d'})
    void aCharacterThatCellsHoldCannotSeparateThem(char separator) {
        assertThatThrownBy(() -> CsvForm.builder().separator(separator))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"" + separator
                        + "\" can't separate cells; a comma, a semicolon, a tab or | can, for instance");
    }

    @Test
    void aCharsetWithoutByteLinesIsRefused() {
        assertThatThrownBy(() -> CsvForm.builder().charset(StandardCharsets.UTF_16LE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("charset UTF-16LE can't be read line by line; UTF-8 or a single-byte charset such as"
                        + " windows-1252 can");
    }

    @Test
    void namesThatCannotServeAreRefused() {
        assertThatThrownBy(() -> CsvForm.builder().columns(Map.of(" ", "carcass")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the name declared for column carcass is blank");
        assertThatThrownBy(() -> CsvForm.builder().column("Nr", " "))
                .hasMessage("the column that \"Nr\" stands for is blank");
        assertThatThrownBy(() -> CsvForm.builder().column("Nr", "carcass").column("Nr", "lot"))
                .hasMessage("columns carcass and lot would both be read from \"Nr\"; each needs a name of its own");
    }

    @Test
    void wordsThatCannotBeToldApartAreRefused() {
        assertThatThrownBy(() -> CsvForm.builder().yesNo("Ja", "ja "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"Ja\" and \"ja \" can't be told apart; two words are needed");
        assertThatThrownBy(() -> CsvForm.builder().unit("m2"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"m2\" can't stand behind a number as its unit; kg can, for instance");
    }

    @Test
    void formsThatDifferInOnePartAloneAreNotEqual() {
        CsvForm form = CsvForm.builder().separator(';').build();
        List<CsvForm> others = List.of(
                form.toBuilder().separator('\t').build(),
                form.toBuilder().decimalComma().build(),
                form.toBuilder().charset(StandardCharsets.ISO_8859_1).build(),
                form.toBuilder().dates(CsvForm.DateForm.POINTS).build(),
                form.toBuilder().column("Nr", "carcass").build(),
                form.toBuilder().yesNo("ja", "no").build(),
                form.toBuilder().yesNo("yes", "nein").build(),
                form.toBuilder().unit("kg").build(),
                form.toBuilder().formulaCells().build(),
                form.toBuilder().blankRows().build());
        assertThat(others).doesNotContain(form).doesNotHaveDuplicates();
    }

    @Test
    void formatsThatDifferInOnePartAloneAreNotEqual() {
        KillSheetFormat format = KillSheetFormat.standard();
        List<KillSheetFormat> others = List.of(
                KillSheetFormat.of(CsvForm.builder().separator(';').build()),
                format.withConformationReading(GradeReading.HALVES),
                format.withConformationPointsWidth(0.5),
                format.withFatPointsWidth(0.5),
                format.withTotalsRow("Total"),
                format.withRowASide(),
                format.withSidesApart(0.05));
        assertThat(others).doesNotContain(format).doesNotHaveDuplicates();
    }
}
