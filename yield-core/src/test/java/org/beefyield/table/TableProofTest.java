package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class TableProofTest {
    private static final TableProof PROOF = new TableProof(
            "categories C & D, 150 to 600 kg",
            List.of(
                    new ProofFinding("no share is below 0", 6.0004, "category C, loss of carcass, P- 1-, 150 kg"),
                    new ProofFinding("the cuts add up to 1 within 1e-12", -1e-10, "category C, P- 1-, 150 kg")),
            List.of("A & B", "C"));

    @Test
    void theTextSaysOverWhatItWasProvedAndHowTightly() {
        assertThat(PROOF.toText()).isEqualTo("""
                Proved over categories C & D, 150 to 600 kg

                proved                             margin, g/kg  tightest at
                -------------------------------------------------------------------------------------------
                no share is below 0                       6.000  category C, loss of carcass, P- 1-, 150 kg
                the cuts add up to 1 within 1e-12         0.000  category C, P- 1-, 150 kg

                A & B
                C
                """);
    }

    @Test
    void theHtmlSaysTheSameAndIsEscaped() {
        assertThat(PROOF.toHtml())
                .startsWith(
                        "<p>Proved over categories C &amp; D, 150 to 600 kg</p>\n<div style=\"overflow-x:auto;margin:1em 0\">\n<table")
                .contains(">no share is below 0</td>", ">6.000</td>", ">category C, P- 1-, 150 kg</td>")
                .endsWith("</table>\n</div>\n<p>A &amp; B</p>\n<p>C</p>\n");
    }

    @Test
    void theScopeOfATableNamesItsRangesNodesAndSpecifications() {
        assertThat(YieldTable.of(TestTables.small()).proof().scope())
                .isEqualTo(
                        "categories C E D, conformation 1 to 18, fat 1 to 15 (270 nodes), 150 to 600 kg; there are no"
                                + " ways to choose from");
        assertThat(YieldTable.of(TestTables.threeLevels()).proof().scope())
                .endsWith("; shares in every mix of ways; what the table expects where ways matter, under its cutting"
                        + " specifications steaks, joints");
    }
}
