package org.beefyield.pack;

import java.util.List;
import org.beefyield.estimate.Cautions;
import org.beefyield.price.PriceList;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What a carcass is worth under a cutting specification when pieces that miss their window go another way. Immutable.
 *
 * @param specification how the primals are cut
 * @param amount value if every piece fitted
 * @param downgrades one for each window that the specification's ways need
 * @param prices the prices; amounts are printed with their decimals
 */
public record PackedValue(
        CuttingSpecification specification, double amount, List<Downgrade> downgrades, PriceList prices)
        implements ShownInBlocks {
    /**
     * Copies the list.
     *
     * @param specification how the primals are cut
     * @param amount value if every piece fitted
     * @param downgrades one for each window that the specification's ways need
     * @param prices the prices; amounts are printed with their decimals
     */
    public PackedValue {
        downgrades = List.copyOf(downgrades);
    }

    /**
     * The expected value: what it would be if every piece fitted, less the expected downgrades.
     *
     * @return amount
     */
    public double expected() {
        return amount - downgrades.stream().mapToDouble(Downgrade::amount).sum();
    }

    /**
     * The windows for people: piece, chances in per cent, kg that is expected to go another way and what that costs.
     *
     * @return a table
     */
    public TextTable table() {
        TextTable table = new TextTable(
                "window",
                "mean piece, kg",
                "too light, %",
                "fits, %",
                "too heavy, %",
                "other way, kg",
                "costs, " + prices.currency());
        for (Downgrade downgrade : downgrades) {
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
                    prices.money(downgrade.amount()));
        }
        return table;
    }

    /**
     * The value for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return figures().sentence(Cautions.NO_SETTLEMENT);
    }

    Blocks figures() {
        Blocks blocks = new Blocks().sentence(toString());
        return downgrades.isEmpty() ? blocks : blocks.add(table());
    }

    /**
     * One line.
     *
     * @return specification and expected value
     */
    @Override
    public String toString() {
        return "Cut as " + specification + ", expected " + prices.money(expected()) + " " + prices.currency() + " of "
                + prices.money(amount) + " if every piece fitted";
    }
}
