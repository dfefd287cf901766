package org.beefyield.table;

import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A proof in words. */
final class TableProofText {
    private static final int DECIMALS = 3;

    private TableProofText() {}

    static Blocks blocks(TableProof proof) {
        TextTable table = new TextTable("proved", "margin, g/kg", "tightest at");
        for (ProofFinding finding : proof.findings()) {
            // what merely holds within the arithmetic's noise prints as 0
            table.row(finding.claim(), Numbers.fixed(Math.max(0, finding.marginGPerKg()), DECIMALS), finding.where());
        }
        return new Blocks().sentence("Proved over " + proof.scope()).add(table).sentences(proof.notes());
    }
}
