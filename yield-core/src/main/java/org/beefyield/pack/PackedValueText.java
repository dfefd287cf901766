package org.beefyield.pack;

import java.util.List;
import org.beefyield.estimate.Cautions;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A packed value in words. */
final class PackedValueText {
    /** What chances of pieces leave out. */
    static final String IN_OWN_HALL =
            "Chances are those of pieces in a hall that cuts as the table does; how your hall differs from"
                    + " the table is left out";

    private final PackedValue value;

    PackedValueText(PackedValue value) {
        this.value = value;
    }

    Blocks blocks() {
        return (value.downgrades().isEmpty() ? figures() : figures().sentence(IN_OWN_HALL))
                .sentence(Cautions.NO_SETTLEMENT);
    }

    Blocks figures() {
        Blocks blocks = new Blocks().sentence(sentence());
        return value.downgrades().isEmpty() ? blocks : blocks.add(table());
    }

    String sentence() {
        return "Cut as " + value.specification() + ", expected " + value.expectedMoney() + " of "
                + value.money().amountText() + " if every piece fitted";
    }

    TextTable table() {
        TextTable table = new TextTable(
                "window",
                "mean piece, kg",
                "too light, %",
                "fits, %",
                "too heavy, %",
                "other way, kg",
                "costs, " + value.prices().currency());
        for (Downgrade downgrade : value.downgrades()) {
            WindowChance chance = downgrade.chance();
            List<String> percent = Rounding.adding(
                    new double[] {100 * chance.below(), 100 * chance.inside(), 100 * chance.above()}, 100, 1);
            table.row(
                    chance.window().toString(),
                    Numbers.fixed(chance.piece().meanKg(), 2),
                    percent.get(0),
                    percent.get(1),
                    percent.get(2),
                    Numbers.fixed(downgrade.kg(), 2),
                    value.prices().money(downgrade.amount()).amountText());
        }
        return table;
    }
}
