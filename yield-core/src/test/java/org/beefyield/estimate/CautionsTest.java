package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

class CautionsTest {
    private static YieldTable boneless(Boolean boneless) {
        TableDefinition definition = TestTables.small().toBuilder()
                .basis(Basis.NOT_STATED.withBoneless(boneless))
                .build();
        return YieldTable.of(definition);
    }

    @Test
    void aBonelessTableSaysWhatAnEstimateDoesNotReplace() {
        assertThat(Cautions.of(boneless(true)))
                .containsExactly(
                        "Estimates are for planning and comparison; they do not replace official classification by"
                                + " licensed classifiers, plant weighing, contracts or settlement.");
    }

    @Test
    void unlessATableIsDeclaredBonelessItWarnsOfRiskMaterial() {
        String warning = "Bone-in cuts of older cattle may contain specified risk material (vertebral column over 30"
                + " months, depending on a country's status: Regulation (EC) No 999/2001, Annex V); local rules and the"
                + " official veterinarian decide.";
        assertThat(Cautions.of(boneless(false))).containsExactly(Cautions.PLANNING, warning);
        assertThat(Cautions.of(boneless(null))).containsExactly(Cautions.PLANNING, warning);
    }
}
