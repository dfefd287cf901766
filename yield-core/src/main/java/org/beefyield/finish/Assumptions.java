package org.beefyield.finish;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.frame.Frame;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * What is assumed of animals near finish, each figure with its source and kind, each replaceable. An animal that says itself
 * how it gains or kills out goes before. Immutable.
 */
public final class Assumptions implements ShownInBlocks {
    private static final Assumptions SHIPPED = new Assumptions(shippedFigures());

    private final Map<Quantity, Assumption> all;

    private Assumptions(Map<Quantity, Assumption> all) {
        this.all = all;
    }

    private static Map<Quantity, Assumption> shippedFigures() {
        Map<Quantity, Assumption> all = new EnumMap<>(Quantity.class);
        List.of(
                        new Assumption(
                                Quantity.CARCASS_SHARE_OF_GAIN,
                                0.66,
                                SourceKind.DERIVED,
                                "McGee and others 2005, 72 steers and bulls: 533 to 585 g of carcass in 811 to 859 g of"
                                        + " live gain, 0.65 to 0.68; Korean steers of 371 to 743 kg: 0.67; young Holstein"
                                        + " bulls 0.53 (Kirkland and others 2007), grain-fed cattle up to 0.82"),
                        new Assumption(
                                Quantity.FAT_POINTS_PER_DAY,
                                0.0365,
                                SourceKind.DERIVED,
                                "suckler steers on concentrate to appetite for 75 days (Teagasc, Grange): 2.5 to 3 points,"
                                        + " 0.033 to 0.040 a day; young bulls gain far less (Lenehan and others 2017: 0.008)"),
                        new Assumption(
                                Quantity.FAT_POINTS_PER_DAY_SD,
                                0.012,
                                SourceKind.ASSUMPTION,
                                "ours: a third of what is gained"),
                        new Assumption(
                                Quantity.CONFORMATION_POINTS_PER_KG,
                                0.018,
                                SourceKind.DERIVED,
                                "Lenehan and others 2017, 60 bulls slaughtered at 15 to 19 months: 6.7 to 8.3 points from 265"
                                        + " to 355 kg of carcass"),
                        new Assumption(
                                Quantity.KILLING_OUT_AT_R_PERCENT,
                                54.9,
                                SourceKind.DERIVED,
                                "McGee and others 2005: 52.6, 53.8 and 56.1 % at mean conformation 1.5, 2.2 and 3.0 (P 1 to E"
                                        + " 5), brought from their mean to R= by what a class gains"),
                        new Assumption(
                                Quantity.KILLING_OUT_PER_CLASS_PERCENT,
                                0.87,
                                SourceKind.DERIVED,
                                "Kempster and others about 1988, Animal Production, 3715 cattle: 0.54 to 1.20 % a class, the"
                                        + " middle of it"),
                        new Assumption(
                                Quantity.KILLING_OUT_SD_PERCENT,
                                1.9,
                                SourceKind.DERIVED,
                                "ranges of three groups of finished cattle, 137 animals: SD 1.6 to 2.2 %, the middle of it"),
                        new Assumption(
                                Quantity.GAIN_SD_KG_PER_DAY,
                                0.27,
                                SourceKind.DERIVED,
                                "ranges of 30 dairy-bred bulls and 50 heifers: SD 0.27 kg a day; 57 suckler bulls 0.43"),
                        new Assumption(
                                Quantity.CONFORMATION_SD_POINTS,
                                1.0,
                                SourceKind.ASSUMPTION,
                                "ours: the eye is a third of a class off"),
                        new Assumption(
                                Quantity.FAT_SD_POINTS,
                                1.0,
                                SourceKind.ASSUMPTION,
                                "ours: eye and hand are a third of a class off"))
                .forEach(one -> all.put(one.quantity(), one));
        return all;
    }

    /**
     * Those that are shipped.
     *
     * @return one for every quantity
     */
    public static Assumptions shipped() {
        return SHIPPED;
    }

    /**
     * The same with another figure.
     *
     * @param replacing the assumption that takes the place of that of its quantity
     * @return a copy
     */
    public Assumptions with(Assumption replacing) {
        Objects.requireNonNull(replacing, "replacing");
        Map<Quantity, Assumption> changed = new EnumMap<>(all);
        changed.put(replacing.quantity(), replacing);
        return new Assumptions(changed);
    }

    /**
     * What a quantity is taken to be.
     *
     * @param quantity the quantity
     * @return the assumption
     */
    public Assumption of(Quantity quantity) {
        return Objects.requireNonNull(all.get(Objects.requireNonNull(quantity, "quantity")));
    }

    /**
     * The figure alone.
     *
     * @param quantity the quantity
     * @return its value, in its unit
     */
    public double value(Quantity quantity) {
        return of(quantity).value();
    }

    /**
     * All of them.
     *
     * @return in the order of the quantities
     */
    public List<Assumption> all() {
        return List.copyOf(all.values());
    }

    /**
     * The assumptions as a frame, a row for each.
     *
     * @return {@code quantity}, its name in files; {@code value}; {@code unit}; {@code kind}; {@code source}
     */
    public Frame toFrame() {
        return Frame.ofEach(all())
                .text("quantity", one -> one.quantity().code())
                .number("value", Assumption::value)
                .text("unit", one -> one.quantity().unit())
                .text("kind", one -> one.kind().code())
                .text("source", Assumption::source)
                .frame();
    }

    /**
     * The assumptions for people.
     *
     * @return a sentence for each
     */
    @Override
    public Blocks blocks() {
        return new Blocks()
                .sentence(
                        "Assumed where an animal doesn't say itself; each figure may be replaced. Points are thirds of a class;"
                                + " two animals of three lie within an SD of the figure:")
                .sentences(all().stream()
                        .map(one -> one + ": " + one.source() + ".")
                        .toList());
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Assumptions that && all.equals(that.all);
    }

    @Override
    public int hashCode() {
        return all.hashCode();
    }

    /**
     * One line.
     *
     * @return how many there are and how many are not the shipped ones
     */
    @Override
    public String toString() {
        long changed = all().stream()
                .filter(one -> !one.equals(SHIPPED.of(one.quantity())))
                .count();
        return all.size() + " assumptions, " + (changed == 0 ? "all as shipped" : changed + " of the caller's");
    }
}
