package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.file.NumberForm;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class KillSheetFormatTest {
    private final KillSheetFormat standard = KillSheetFormat.standard();

    @Test
    void nothingIsDeclaredByDefault() {
        assertThat(standard.separator()).isEqualTo(',');
        assertThat(standard.numberForm()).isEqualTo(NumberForm.POINT);
        assertThat(standard.charset()).isEqualTo(StandardCharsets.UTF_8);
        assertThat(standard.conformationReading()).isEqualTo(GradeReading.THIRDS);
        assertThat(standard.conformationPointsWidth()).isEqualTo(1);
        assertThat(standard.fatPointsWidth()).isEqualTo(1);
        assertThat(standard.name(Column.COLD_WEIGHT_KG)).isEqualTo("cold_weight_kg");
    }

    @Test
    void eachDeclarationKeepsTheOthersAndLeavesTheFormatItCameFromAlone() {
        KillSheetFormat all = standard.withColumns(Map.of("lot", " Partie "))
                .withFatPointsWidth(0.1)
                .withConformationPointsWidth(0.5)
                .withConformationReading(GradeReading.HALVES)
                .withCharset(StandardCharsets.ISO_8859_1)
                .withDecimalComma()
                .withSeparator('\t')
                .withColumns(Map.of("supplier", "Betrieb"));
        assertThat(all.separator()).isEqualTo('\t');
        assertThat(all.numberForm()).isEqualTo(NumberForm.COMMA);
        assertThat(all.charset()).isEqualTo(StandardCharsets.ISO_8859_1);
        assertThat(all.conformationReading()).isEqualTo(GradeReading.HALVES);
        assertThat(all.conformationPointsWidth()).isEqualTo(0.5);
        assertThat(all.fatPointsWidth()).isEqualTo(0.1);
        assertThat(all.name(Column.LOT)).isEqualTo("Partie");
        assertThat(all.name(Column.SUPPLIER)).isEqualTo("Betrieb");
        nothingIsDeclaredByDefault();
    }

    @Test
    void namesMayBeSwapped() {
        KillSheetFormat swapped = standard.withColumns(Map.of("lot", "carcass", "carcass", "lot"));
        assertThat(swapped.name(Column.LOT)).isEqualTo("carcass");
        assertThat(swapped.name(Column.CARCASS)).isEqualTo("lot");
    }

    @Test
    void namesThatCannotServeAreRefused() {
        assertThatThrownBy(() -> standard.withColumns(Map.of("weight", "kg")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("column \"weight\" is none of carcass category conformation conformation_points fat_class"
                        + " fat_points cold_weight_kg hot_weight_kg age_months lot supplier kill_date assured dressing"
                        + " left_kg right_kg trimmed_kg status");
        assertThatThrownBy(() -> standard.withColumns(Map.of("carcass", "lot")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("columns carcass and lot would both be read from \"lot\"; each needs a name of its own");
        assertThatThrownBy(() -> standard.withColumns(Map.of("carcass", " ")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the name declared for column carcass is blank");
    }

    @ParameterizedTest
    @ValueSource(chars = {'"', '\n', '\r', ' ', '.', '-', '+', '=', '_', 'x', '7', '\u00e9', '\ud83d'})
    void aCharacterThatCellsHoldCannotSeparateThem(char separator) {
        assertThatThrownBy(() -> standard.withSeparator(separator))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"" + separator
                        + "\" can't separate cells; a comma, a semicolon, a tab or | can, for instance");
    }

    @Test
    void aCharsetWithoutByteLinesIsRefused() {
        assertThatThrownBy(() -> standard.withCharset(StandardCharsets.UTF_16LE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("charset UTF-16LE can't be read line by line; UTF-8 or a single-byte charset such as"
                        + " windows-1252 can");
    }

    @Test
    void aWidthOutsideItsRangeIsRefused() {
        assertThatThrownBy(() -> standard.withConformationPointsWidth(3.5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation width 3.5 is outside 0 to 3 points");
        assertThatThrownBy(() -> standard.withFatPointsWidth(Double.NaN))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("fat width NaN is outside 0 to 3 points");
    }
}
