package org.beefyield.pay;

import java.util.Objects;
import java.util.function.DoubleFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.frame.Frame;
import org.beefyield.price.Money;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * What one point of conformation, one point of fat and 10 kg are worth on a carcass: central differences over half a point
 * or 5 kg to each side, the others held, cut at the ends of the table's allowed range.
 *
 * @param conformationPoint of one point, a third of a class, more on the 18-point scale
 * @param fatPoint of one point more on the 15-point scale
 * @param tenKg of 10 kg more cold weight
 * @param currency label of the currency
 * @param decimals decimals of its amounts
 */
public record Marginals(Change conformationPoint, Change fatPoint, Change tenKg, String currency, int decimals)
        implements ShownInBlocks {
    /** Checks that nothing is missing. */
    public Marginals {
        Objects.requireNonNull(conformationPoint, "conformationPoint");
        Objects.requireNonNull(fatPoint, "fatPoint");
        Objects.requireNonNull(tenKg, "tenKg");
        Objects.requireNonNull(currency, "currency");
    }

    private static final double POINT = 1;
    private static final double TEN_KG = 10;

    /**
     * A change in value.
     *
     * @param amount of the carcass
     * @param perKg of a kg of its cold weight
     */
    public record Change(double amount, double perKg) {}

    /**
     * What they are worth on a carcass.
     *
     * @param valuer prices and yields
     * @param carcass carcass
     * @return the changes, 0 where the table allows one value only
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for the carcass
     */
    public static Marginals of(Valuer valuer, Carcass carcass) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(carcass, "carcass");
        return new Marginals(
                change(
                        valuer,
                        Variable.CONFORMATION,
                        carcass.conformation().position(),
                        POINT,
                        c -> carcass.with(Conformation.ofPosition(c, 0))),
                change(
                        valuer,
                        Variable.FAT,
                        carcass.fatClass().position(),
                        POINT,
                        f -> carcass.with(FatClass.ofPosition(f, 0))),
                change(valuer, Variable.WEIGHT, carcass.coldWeightKg(), TEN_KG, carcass::withColdWeightKg),
                valuer.prices().currency(),
                valuer.prices().decimals());
    }

    private static Change change(
            Valuer valuer, Variable variable, double at, double step, DoubleFunction<Carcass> carcass) {
        Range allowed = valuer.estimator().table().definition().allowed().of(variable);
        double low = Math.max(allowed.low(), at - step / 2);
        double high = Math.min(allowed.high(), at + step / 2);
        if (!(low < high)) {
            return new Change(0, 0);
        }
        Value less = valuer.value(carcass.apply(low));
        Value more = valuer.value(carcass.apply(high));
        double steps = (high - low) / step;
        return new Change((more.amount() - less.amount()) / steps, (more.perKg() - less.perKg()) / steps);
    }

    /**
     * A change as money.
     *
     * @param change one of these
     * @return its amount rounded half up
     */
    public Money money(Change change) {
        Objects.requireNonNull(change, "change");
        return Money.rounded(change.amount(), decimals, currency);
    }

    /**
     * The changes as a frame, a row for each.
     *
     * @return {@code change}, what is changed; {@code worth more} in the currency a head, {@code worth more a kg} in the
     *     currency a kg of cold weight
     */
    public Frame toFrame() {
        return new MarginalsText(this).frame();
    }

    /**
     * The changes for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new MarginalsText(this).blocks();
    }
}
