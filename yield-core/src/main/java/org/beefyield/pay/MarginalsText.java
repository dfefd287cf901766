package org.beefyield.pay;

import org.beefyield.estimate.Cautions;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** What points and kilograms are worth in words. */
final class MarginalsText {
    private final Marginals marginals;

    MarginalsText(Marginals marginals) {
        this.marginals = marginals;
    }

    Blocks blocks() {
        TextTable table = new TextTable(
                "more", marginals.currency() + " a head", marginals.currency() + " per kg of cold weight");
        row(table, "one point of conformation", marginals.conformationPoint());
        row(table, "one point of fat", marginals.fatPoint());
        row(table, "10 kg cold weight", marginals.tenKg());
        return new Blocks().add(table).sentence(Cautions.NO_SETTLEMENT);
    }

    private void row(TextTable table, String name, Marginals.Change change) {
        table.row(name, marginals.money(change).amountText(), Numbers.fixed(change.perKg(), marginals.decimals() + 1));
    }
}
