package org.beefyield.table;

import java.util.List;
import java.util.Objects;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;

/**
 * What was proved of a table: not sampled, but decided at every node of its grid over the whole weight range, where
 * shares are polynomials of third degree or less whose extremes are known exactly. Between nodes shares are bilinear, so
 * what holds at the nodes holds everywhere.
 *
 * @param scope over what: categories, ranges, nodes, cutting specifications
 * @param findings one for each promise, with the place where it is tightest
 * @param notes what isn't proved and should be known: which errors that carcasses have in common the table states
 */
public record TableProof(String scope, List<ProofFinding> findings, List<String> notes) implements ShownInBlocks {
    /** Copies the findings and notes. */
    public TableProof {
        Checks.noNullIn(findings, "findings");
        Checks.noNullIn(notes, "notes");
        Objects.requireNonNull(scope, "scope");
        findings = List.copyOf(findings);
        notes = List.copyOf(notes);
    }

    /**
     * The proof for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return TableProofText.blocks(this);
    }
}
