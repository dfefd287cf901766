package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ExcerptTest {
    @Test
    void aLongTextIsCutBetweenCharacters() {
        assertThat(Excerpt.clip("abcdef", 6)).isEqualTo("abcdef");
        assertThat(Excerpt.clip("abcdefg", 6)).isEqualTo("abcdef...");
        assertThat(Excerpt.clip("abcde\uD83D\uDC04", 6)).isEqualTo("abcde...");
        assertThat(Excerpt.quote("x".repeat(81))).isEqualTo("\"" + "x".repeat(80) + "...\"");
    }
}
