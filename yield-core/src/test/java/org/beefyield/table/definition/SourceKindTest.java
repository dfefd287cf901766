package org.beefyield.table.definition;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SourceKindTest {
    @ParameterizedTest
    @EnumSource
    void theKindOfASourceReadsBackFromItsCode(SourceKind kind) {
        assertThat(SourceKind.parse(kind.code())).isEqualTo(kind);
    }

    @Test
    void anUnknownKindOfSourceIsRefusedWithAllThereAre() {
        assertThat(SourceKind.COMMON_PRACTICE.code()).isEqualTo("common-practice");
        assertThatThrownBy(() -> SourceKind.parse("COMMON_PRACTICE"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("kind \"COMMON_PRACTICE\" is none of published derived common-practice unverified"
                        + " assumption");
    }
}
