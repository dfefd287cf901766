package org.beefyield.pay;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.price.Valuer;

/** What each cause does to the worth and the payment of a kg, from a reference carcass to a given one. */
final class PaySwap {
    private final Valuer valuer;
    private final PaymentGrid grid;
    private final Carcass reference;

    PaySwap(Valuer valuer, PaymentGrid grid, Carcass reference) {
        this.valuer = valuer;
        this.grid = grid;
        this.reference = reference;
    }

    /** The mean over every order of causes, for the kg of the carcass; adds up to its margin less the reference's. */
    Map<PayCause, PayEffect> effects(Carcass carcass, Margin actual) {
        boolean in = !grid.asksForSpecification() || grid.isInSpecification(carcass);
        List<PayCause> differing = differing(carcass, in);
        int n = differing.size();
        PayEffect[] steps = new PayEffect[1 << n];
        for (int subset = 0; subset < steps.length; subset++) {
            steps[subset] = step(carcass, in, differing, subset, actual.paidPerKg());
        }
        Map<PayCause, PayEffect> effects = new EnumMap<>(PayCause.class);
        for (int i = 0; i < n; i++) {
            PayEffect mean = PayEffect.NONE;
            for (int subset = 0; subset < steps.length; subset++) {
                if ((subset >> i & 1) == 0) {
                    double part = partOfOrders(Integer.bitCount(subset), n) * actual.coldWeightKg();
                    mean = mean.plus(steps[subset | 1 << i].times(part)).plus(steps[subset].times(-part));
                }
            }
            effects.put(differing.get(i), mean);
        }
        // a payment is rounded once, for all of the carcass
        double rounded = actual.paid() - steps[steps.length - 1].paid() * actual.coldWeightKg();
        effects.merge(PayCause.WEIGHT, new PayEffect(0, rounded), PayEffect::plus);
        return effects;
    }

    /** The part of all orders of n causes in which a given set of some of them, and no other, precedes a cause. */
    private static double partOfOrders(int before, int n) {
        double part = 1.0 / n;
        for (int k = 1; k <= before; k++) {
            part *= (double) k / (n - k);
        }
        return part;
    }

    private List<PayCause> differing(Carcass carcass, boolean in) {
        List<PayCause> differing = new ArrayList<>();
        add(differing, PayCause.CATEGORY, carcass.category() != reference.category());
        add(differing, PayCause.WEIGHT, carcass.coldWeightKg() != reference.coldWeightKg());
        add(
                differing,
                PayCause.CONFORMATION,
                carcass.conformation().position() != reference.conformation().position());
        add(
                differing,
                PayCause.FAT_CLASS,
                carcass.fatClass().position() != reference.fatClass().position());
        add(differing, PayCause.SPECIFICATION, !in);
        return differing;
    }

    private static void add(List<PayCause> differing, PayCause cause, boolean differs) {
        if (differs) {
            differing.add(cause);
        }
    }

    /** Worth and payment of a kg with some causes as the carcass has them, the others as the reference. */
    private PayEffect step(Carcass carcass, boolean in, List<PayCause> differing, int subset, double paidPerKg) {
        Carcass mixed = Carcass.of(
                (has(differing, subset, PayCause.CATEGORY) ? carcass : reference).category(),
                (has(differing, subset, PayCause.CONFORMATION) ? carcass : reference).conformation(),
                (has(differing, subset, PayCause.FAT_CLASS) ? carcass : reference).fatClass(),
                (has(differing, subset, PayCause.WEIGHT) ? carcass : reference).coldWeightKg());
        boolean isIn = in || !has(differing, subset, PayCause.SPECIFICATION);
        return new PayEffect(
                valuer.value(mixed).perKg(), grid.perKg(mixed, isIn).orElse(paidPerKg));
    }

    private static boolean has(List<PayCause> differing, int subset, PayCause cause) {
        int index = differing.indexOf(cause);
        return index >= 0 && (subset >> index & 1) == 1;
    }
}
