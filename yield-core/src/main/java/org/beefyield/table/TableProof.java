package org.beefyield.table;

import java.util.List;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What was proved of a table: not sampled, but decided at every node of its grid over the whole weight range, where
 * shares are polynomials of third degree or less whose extremes are known exactly. Between nodes shares are bilinear, so
 * what holds at the nodes holds everywhere.
 *
 * @param scope over what: categories, ranges, nodes, cutting specifications
 * @param findings one for each promise, with the place where it is tightest
 */
public record TableProof(String scope, List<ProofFinding> findings) implements ShownInBlocks {
    private static final int DECIMALS = 3;

    /**
     * Copies the findings.
     *
     * @param scope over what: categories, ranges, nodes, cutting specifications
     * @param findings one for each promise, with the place where it is tightest
     */
    public TableProof {
        findings = List.copyOf(findings);
    }

    private TextTable table() {
        TextTable table = new TextTable("proved", "margin, g/kg", "tightest at");
        for (ProofFinding finding : findings) {
            // what merely holds within the arithmetic's noise prints as 0
            table.row(finding.claim(), Numbers.fixed(Math.max(0, finding.marginGPerKg()), DECIMALS), finding.where());
        }
        return table;
    }

    /**
     * The proof for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new Blocks().sentence("Proved over " + scope).add(table());
    }
}
