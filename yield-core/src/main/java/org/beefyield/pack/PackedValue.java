package org.beefyield.pack;

import java.util.List;
import java.util.Objects;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
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
    /** Copies the list. */
    public PackedValue {
        Objects.requireNonNull(specification, "specification");
        Checks.noNullIn(downgrades, "downgrades");
        Objects.requireNonNull(prices, "prices");
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
     * Value if every piece fitted, as money.
     *
     * @return amount rounded to the list's decimals
     */
    public Money money() {
        return prices.money(amount);
    }

    /**
     * The expected value as money.
     *
     * @return amount rounded to the list's decimals
     */
    public Money expectedMoney() {
        return prices.money(expected());
    }

    /**
     * The windows for people: piece, chances in per cent, kg that is expected to go another way and what that costs.
     *
     * @return a table
     */
    public TextTable table() {
        return new PackedValueText(this).table();
    }

    /**
     * The value for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new PackedValueText(this).blocks();
    }

    /**
     * One line.
     *
     * @return specification and expected value
     */
    @Override
    public String toString() {
        return new PackedValueText(this).sentence();
    }
}
