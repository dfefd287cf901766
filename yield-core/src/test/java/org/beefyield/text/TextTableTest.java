package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class TextTableTest {
    @Test
    void theFirstColumnStandsLeftAndTheOthersRight() {
        TextTable table = new TextTable("cut", "kg", "% of cold weight")
                .row("Striploin", "13.42", "3.9")
                .row("Bone", "65.10", "19.0")
                .rule()
                .row(List.of("Total", "78.52", "22.9"));

        assertThat(table.toText()).isEqualTo("""
                        cut           kg  % of cold weight
                        ----------------------------------
                        Striploin  13.42               3.9
                        Bone       65.10              19.0
                        ----------------------------------
                        Total      78.52              22.9
                        """);
    }

    @Test
    void aHeaderWiderThanItsFiguresSetsTheWidth() {
        assertThat(new TextTable("a long title", "kilograms").row("x", "1").toText())
                .isEqualTo("""
                        a long title  kilograms
                        -----------------------
                        x                     1
                        """);
    }

    @Test
    void noLineEndsInBlanks() {
        assertThat(new TextTable("cut", "note").row("Rump", "").row("", "").toText())
                .isEqualTo("cut   note\n----------\nRump\n\n");
    }

    @Test
    void aTableWithoutRowsIsItsHeader() {
        assertThat(new TextTable("cut", "kg").toText()).isEqualTo("cut  kg\n-------\n");
        assertThat(new TextTable("cut").toText()).isEqualTo("cut\n---\n");
    }

    @Test
    void rulesDoNotDouble() {
        TextTable table =
                new TextTable("cut", "kg").rule().row("Rump", "9").rule().rule().row("Total", "9");

        assertThat(table.toText()).isEqualTo("cut    kg\n---------\nRump    9\n---------\nTotal   9\n");
    }

    @Test
    void aRowMustFillEveryColumn() {
        TextTable table = new TextTable("cut", "kg", "share");

        assertThatThrownBy(() -> table.row("Rump", "9"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("2 cells for 3 columns");
        assertThatThrownBy(() -> table.row(List.of("Rump", "9", "2.6", "?")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("4 cells for 3 columns");
        assertThat(table.toText()).isEqualTo("cut  kg  share\n--------------\n");
    }

    @Test
    void theHtmlIsATableWithItsRulesAndAlignment() {
        TextTable table = new TextTable("cut", "kg").row("Rump", "9").rule().row("Total", "9");

        assertThat(table.toHtml()).isEqualTo("""
                        <div style="overflow-x:auto;margin:1em 0">
                        <table style="border-collapse:collapse">
                        <thead><tr style="border-bottom:2px solid"><th style="padding:2px 8px;text-align:left">cut</th>\
                        <th style="padding:2px 8px;text-align:right">kg</th></tr>
                        </thead>
                        <tbody>
                        <tr style="border-bottom:2px solid"><td style="padding:2px 8px;text-align:left">Rump</td>\
                        <td style="padding:2px 8px;text-align:right">9</td></tr>
                        <tr style="border-bottom:1px solid #ccc"><td style="padding:2px 8px;text-align:left">Total</td>\
                        <td style="padding:2px 8px;text-align:right">9</td></tr>
                        </tbody>
                        </table>
                        </div>
                        """);
    }

    @Test
    void longTextWrapsAndFiguresDont() {
        assertThat(new TextTable("lot", "share").row("x".repeat(25), "3.9 %").toHtml())
                .contains(";text-align:left;min-width:12em;max-width:24em;overflow-wrap:break-word\">xxx")
                .contains(";text-align:right;white-space:nowrap\">3.9 %");
        assertThat(new TextTable("carcass", "cut")
                        .row("TM-0401", "eye of-round")
                        .toHtml())
                .contains(";text-align:left;white-space:nowrap\">TM-0401")
                .contains(";text-align:left\">eye of-round");
        assertThat(new TextTable("lot", "share").row("x".repeat(24), "3.9").toHtml())
                .doesNotContain("max-width", "nowrap");
    }

    @Test
    void aTallTableScrollsBelowItsHeader() {
        TextTable table = new TextTable("cut", "kg").row("Rump", "9");

        assertThat(table.toScrollingHtml())
                .startsWith("<div style=\"overflow:auto;max-height:32em;margin:1em 0\">\n<table")
                .contains("<th style=\"padding:2px 8px;position:sticky;top:0;background:Canvas;color:CanvasText;")
                .contains("<td style=\"padding:2px 8px;text-align");
        assertThat(table.toScrollingHtml().replaceAll("style=\"[^\"]*\"", ""))
                .isEqualTo(table.toHtml().replaceAll("style=\"[^\"]*\"", ""));
    }

    @Test
    void htmlEscapesWhatCallersPutInHeadersAndCells() {
        String html = new TextTable("<b>cut</b>", "kg & share")
                .row("<script>alert('x')</script>", "\"9\"")
                .toHtml();

        assertThat(html)
                .contains(">&lt;b&gt;cut&lt;/b&gt;</th>")
                .contains(">kg &amp; share</th>")
                .contains(">&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;</td>")
                .contains(">&quot;9&quot;</td>")
                .doesNotContain("<script", "<b>");
    }

    @Test
    void theFiveSpecialCharactersBecomeEntitiesOnce() {
        assertThat(TextTable.escape("a < b & \"c\" > 'd' &amp;"))
                .isEqualTo("a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39; &amp;amp;");
        assertThat(TextTable.escape("Entrec\u00f4te 1/2")).isEqualTo("Entrec\u00f4te 1/2");
    }
}
