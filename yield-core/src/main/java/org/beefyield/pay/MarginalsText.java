package org.beefyield.pay;

import java.util.List;
import org.beefyield.estimate.Cautions;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** What points and kilograms are worth in words. */
final class MarginalsText {
    private final Marginals marginals;

    MarginalsText(Marginals marginals) {
        this.marginals = marginals;
    }

    /**
     * A change by its name.
     *
     * @param name what is changed
     * @param change what that is worth
     */
    private record Named(String name, Marginals.Change change) {}

    private List<Named> changes() {
        return List.of(
                new Named("one point of conformation", marginals.conformationPoint()),
                new Named("one point of fat", marginals.fatPoint()),
                new Named("10 kg cold weight", marginals.tenKg()));
    }

    Frame frame() {
        return Frame.ofEach(changes())
                .text("change", Named::name)
                .number(
                        "worth more, " + marginals.currency() + " a head",
                        named -> named.change().amount())
                .number(
                        "worth more a kg, " + marginals.currency() + " a kg",
                        named -> named.change().perKg())
                .frame();
    }

    Blocks blocks() {
        TextTable table = new TextTable(
                "more", marginals.currency() + " a head", marginals.currency() + " per kg of cold weight");
        changes().forEach(named -> row(table, named.name(), named.change()));
        return new Blocks().add(table).sentence(Cautions.NO_SETTLEMENT);
    }

    private void row(TextTable table, String name, Marginals.Change change) {
        table.row(name, marginals.money(change).amountText(), Numbers.fixed(change.perKg(), marginals.decimals() + 1));
    }
}
