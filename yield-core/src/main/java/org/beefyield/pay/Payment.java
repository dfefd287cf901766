package org.beefyield.pay;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.price.Money;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What is paid for a carcass, and what for. Worked out in decimals, as on an invoice, and rounded once, at the end.
 * Immutable.
 */
public final class Payment implements ShownInBlocks {
    private final Carcass carcass;
    private final String currency;
    private final int decimals;
    private final List<Line> lines;

    /**
     * One reason to pay.
     *
     * @param name name, such as {@code Base price}
     * @param perKg price or difference per kg of cold weight
     */
    public record Line(String name, double perKg) {
        /** Checks that nothing is missing. */
        public Line {
            Objects.requireNonNull(name, "name");
        }
    }

    Payment(Carcass carcass, String currency, int decimals, List<Line> lines) {
        this.carcass = carcass;
        this.currency = currency;
        this.decimals = decimals;
        this.lines = List.copyOf(lines);
    }

    /**
     * The carcass that is paid for.
     *
     * @return the carcass
     */
    public Carcass carcass() {
        return carcass;
    }

    /**
     * Label of the currency.
     *
     * @return such as {@code EUR}
     */
    public String currency() {
        return currency;
    }

    /**
     * The reasons.
     *
     * @return lines that add up to {@link #perKg()}
     */
    public List<Line> lines() {
        return lines;
    }

    /**
     * All lines together.
     *
     * @return price per kg of cold weight
     */
    public BigDecimal perKg() {
        return lines.stream().map(line -> BigDecimal.valueOf(line.perKg())).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /**
     * Decimals to which the money is rounded.
     *
     * @return those of the payment grid
     */
    public int decimals() {
        return decimals;
    }

    /**
     * The money.
     *
     * @return price per kg times cold weight, rounded half up to the payment grid's decimals
     */
    public Money money() {
        return Money.of(exactAmount().setScale(decimals, RoundingMode.HALF_UP), currency);
    }

    /** The money before it is rounded. */
    BigDecimal exactAmount() {
        return perKg().multiply(BigDecimal.valueOf(carcass.coldWeightKg()));
    }

    /**
     * Line by line: price per kg and money. The money adds up to the total as printed.
     *
     * @return a table with a total
     */
    public TextTable table() {
        return new PaymentText(this).table();
    }

    /**
     * The payment for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new PaymentText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code C R= 3= 340 kg: 1360.00 EUR paid, 4 a kg}
     */
    @Override
    public String toString() {
        return new PaymentText(this).sentence();
    }
}
