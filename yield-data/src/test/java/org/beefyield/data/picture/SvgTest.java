package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.w3c.dom.Element;

@Isolated("changes the default locale")
class SvgTest {
    /** Texts that would end an element, an attribute or a comment, and characters that XML has no place for. */
    private static final List<String> HOSTILE = List.of(
            "</text><script>alert(1)</script>",
            "\" onload=\"alert(1)",
            "' x='1",
            "]]><!-- -->&amp;&#0;&nbsp;",
            "a\u0000b\u0007c\u001Fd\u007Fe",
            "\uFFFE\uFFFF",
            "half a pair \uD83D and the other \uDC04",
            "a pair \uD83D\uDC04",
            "two\nlines\tand a tab\u0085end",
            "");

    private static String around(Svg inner) {
        return new Svg()
                .start("svg")
                .with("xmlns", "http://www.w3.org/2000/svg")
                .around("svg", inner.toString());
    }

    @Test
    void whateverATextHoldsAParserReadsItBack() throws Exception {
        Svg svg = new Svg();
        for (String text : HOSTILE) {
            svg.start("text").with("x", 1).with("y", 2).with("fill", "#000000").end("text", text);
        }
        assertThat(Drawn.of(around(svg)).words())
                .containsExactly(
                        "</text><script>alert(1)</script>",
                        "\" onload=\"alert(1)",
                        "' x='1",
                        "]]><!-- -->&amp;&#0;&nbsp;",
                        "a b c d e",
                        " ",
                        "half a pair and the other ",
                        "a pair \uD83D\uDC04",
                        "two lines and a tab\u0085end",
                        "");
    }

    @Test
    void anAttributeHoldsAnyTextAndAddsNoOther() throws Exception {
        for (String text : HOSTILE) {
            Svg svg = new Svg();
            svg.start("rect").with("id", text).end();
            Element element = (Element)
                    Drawn.of(around(svg)).root.getElementsByTagName("rect").item(0);
            assertThat(element.getAttributes().getLength()).isEqualTo(1);
            assertThat(element.getAttribute("id")).isEqualTo(Svg.plain(text));
        }
    }

    @Test
    void figuresHaveTwoDecimalsAtMostAndNoExponentUnderAnyLocale() {
        Locale locale = Locale.getDefault();
        try {
            for (String language : List.of("en", "de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva")) {
                Locale.setDefault(Locale.forLanguageTag(language));
                assertThat(List.of(0.0, -0.0, 1e-9, -0.004, 0.1, 10.0, 100.5, 12.345, -7.128, 1234567.0))
                        .extracting(Svg::number)
                        .as(language)
                        .containsExactly("0", "0", "0", "0", "0.1", "10", "100.5", "12.35", "-7.13", "1234567");
                assertThat(Svg.number(1e18)).isEqualTo("1000000000000000000");
                assertThat(Svg.number(-1e-300)).isEqualTo("0");
                assertThat(Svg.point(0.5, 1e9)).isEqualTo("0.5,1000000000");
                assertThat(List.of(Svg.colour(0), Svg.colour(0xE69F00))).containsExactly("#000000", "#E69F00");
            }
        } finally {
            Locale.setDefault(locale);
        }
    }

    @Test
    void whatIsNoFigureIsRefused() {
        for (double none : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThatThrownBy(() -> new Svg().start("line").with("x1", none))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("nothing can be drawn at " + none + ", only at a finite number of pixels");
        }
    }

    @Test
    void whatIsWrittenIsAsShortAsThis() {
        Svg svg = new Svg();
        svg.start("line").with("x1", 1.5).with("stroke", "#0072B2").end();
        svg.start("text").with("x", 2).end("text", "R & E");
        Pen.line(Ink.BLUE, 1.5, 6, 4).draw(svg.start("line"));
        assertThat(around(svg)).isEqualTo("""
                <svg xmlns="http://www.w3.org/2000/svg">
                <line x1="1.5" stroke="#0072B2"/>
                <text x="2">R &amp; E</text>
                <line class="s-blue" stroke="#0072B2" stroke-width="1.5" stroke-dasharray="6 4"/>
                </svg>
                """);
    }

    @Test
    void eachMarkHasItsShapeAroundItsMiddle() {
        Svg svg = new Svg();
        for (Mark mark : Mark.values()) {
            mark.draw(svg, Ink.VERMILLION, 100, 50, 10);
        }
        assertThat(svg).hasToString("""
                <circle cx="100" cy="50" r="10" class="f-vermillion" fill="#D55E00"/>
                <polygon points="90,40 110,40 110,60 90,60" class="f-vermillion" fill="#D55E00"/>
                <polygon points="100,37 113,50 100,63 87,50" class="f-vermillion" fill="#D55E00"/>
                <polygon points="90,60 110,60 100,40" class="f-vermillion" fill="#D55E00"/>
                <polygon points="90,40 110,40 100,60" class="f-vermillion" fill="#D55E00"/>
                <polygon points="110,40 110,60 90,50" class="f-vermillion" fill="#D55E00"/>
                <polygon points="90,40 90,60 110,50" class="f-vermillion" fill="#D55E00"/>
                """);
    }
}
