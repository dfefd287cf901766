package org.beefyield.pay;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.Cautions;
import org.beefyield.price.PriceList;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What is paid for a carcass, and what for. Worked out in decimals, as on an invoice, and rounded to cents once, at the end.
 * Immutable.
 */
public final class Payment implements ShownInBlocks {
    private final Carcass carcass;
    private final String currency;
    private final List<Line> lines;

    /**
     * One reason to pay.
     *
     * @param name name, such as {@code Base price}
     * @param perKg price or difference per kg of cold weight
     */
    public record Line(String name, double perKg) {}

    Payment(Carcass carcass, String currency, List<Line> lines) {
        this.carcass = carcass;
        this.currency = currency;
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
     * The money.
     *
     * @return price per kg times cold weight, rounded half up to 2 decimals
     */
    public BigDecimal amount() {
        return exactAmount().setScale(PriceList.USUAL_DECIMALS, RoundingMode.HALF_UP);
    }

    private BigDecimal exactAmount() {
        return perKg().multiply(BigDecimal.valueOf(carcass.coldWeightKg()));
    }

    /**
     * Line by line: price per kg and money. The money adds up to the total as printed.
     *
     * @return a table with a total
     */
    public TextTable table() {
        TextTable table = new TextTable("", currency + " per kg", currency);
        double[] parts = lines.stream()
                .mapToDouble(line -> line.perKg() * carcass.coldWeightKg())
                .toArray();
        List<String> amounts = Rounding.adding(parts, exactAmount().doubleValue(), PriceList.USUAL_DECIMALS);
        for (int i = 0; i < parts.length; i++) {
            table.row(lines.get(i).name(), Numbers.exact(lines.get(i).perKg()), amounts.get(i));
        }
        return table.rule().row("Paid", Numbers.exact(perKg()), amount().toPlainString());
    }

    /**
     * The payment for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new Blocks().sentence(toString()).add(table()).sentence(Cautions.NO_SETTLEMENT);
    }

    /**
     * One line.
     *
     * @return such as {@code C R= 3= 340 kg: 1360.00 EUR paid, 4 a kg}
     */
    @Override
    public String toString() {
        return carcass + ": " + amount().toPlainString() + " " + currency + " paid, " + Numbers.exact(perKg())
                + " a kg";
    }
}
