package org.beefyield.pay;

import java.util.List;
import org.beefyield.estimate.Cautions;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A payment in words. */
final class PaymentText {
    private final Payment payment;

    PaymentText(Payment payment) {
        this.payment = payment;
    }

    Blocks blocks() {
        return new Blocks().sentence(sentence()).add(table()).sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        return payment.carcass() + ": " + payment.money() + " paid, " + Numbers.exact(payment.perKg()) + " a kg";
    }

    TextTable table() {
        TextTable table = new TextTable("", payment.currency() + " per kg", payment.currency());
        double[] parts = payment.lines().stream()
                .mapToDouble(line -> line.perKg() * payment.carcass().coldWeightKg())
                .toArray();
        List<String> amounts = Rounding.adding(parts, payment.exactAmount().doubleValue(), payment.decimals());
        for (int i = 0; i < parts.length; i++) {
            table.row(
                    payment.lines().get(i).name(),
                    Numbers.exact(payment.lines().get(i).perKg()),
                    amounts.get(i));
        }
        return table.rule()
                .row("Paid", Numbers.exact(payment.perKg()), payment.money().amountText());
    }
}
