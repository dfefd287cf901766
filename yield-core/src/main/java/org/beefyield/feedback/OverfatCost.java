package org.beefyield.feedback;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.ExpectedDifference;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What carcasses return as they are graded, beside what they would at the target fat class and the same weight. Immutable.
 *
 * <p>Intervals are those of the expected difference: they hold the errors of the table's coefficients, which all carcasses
 * share. That single carcasses of a grade differ, and that a grade is no exact position, is not in them.
 */
public final class OverfatCost implements ShownInBlocks {
    private static final int DECIMALS = 2;
    private static final String CAUTION = "The intervals hold the errors of the table's coefficients, not how single"
            + " carcasses of one grade differ";

    private final Overfat overfat;
    private final long carcasses;
    private final Outturn asGraded;
    private final Outturn atTarget;

    OverfatCost(Overfat overfat, long carcasses, Outturn asGraded, Outturn atTarget) {
        this.overfat = overfat;
        this.carcasses = carcasses;
        this.asGraded = asGraded;
        this.atTarget = atTarget;
    }

    /**
     * Number of carcasses that are fatter than the target.
     *
     * @return 1 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * What they return.
     *
     * @return estimate of the carcass or lot
     */
    public Outturn asGraded() {
        return asGraded;
    }

    /**
     * What they would return at the target.
     *
     * @return estimate of the carcass or lot
     */
    public Outturn atTarget() {
        return atTarget;
    }

    /**
     * How much more of a figure the carcasses return than at the target.
     *
     * @param figure figure
     * @return the difference, below 0 for less
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public ExpectedDifference more(Figure figure) {
        return asGraded.minus(atTarget, figure);
    }

    /**
     * Extra fat trim.
     *
     * @return kg more at the last level
     */
    public ExpectedDifference extraFatTrim() {
        return more(Figure.kind(CutKind.FAT_TRIM));
    }

    /**
     * Saleable meat lost.
     *
     * @return kg less at the last level, above 0 for a loss
     */
    public ExpectedDifference saleableLost() {
        return atTarget.minus(asGraded, Figure.saleable());
    }

    /**
     * Value lost, at the prices given.
     *
     * @return amount, above 0 for a loss, or empty if no prices are given
     */
    public OptionalDouble valueLost() {
        return overfat.valuer()
                .map(valuer -> OptionalDouble.of(
                        valuer.value(atTarget).amount() - valuer.value(asGraded).amount()))
                .orElse(OptionalDouble.empty());
    }

    /**
     * The interval that holds the expected loss of value with a probability, prices taken as certain.
     *
     * @param probability above 0 and below 1
     * @return the interval, in the prices' currency, or empty if no prices are given
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> valueLost(double probability) {
        return overfat.valuer().map(valuer -> {
            Figure figure = valuer.value(asGraded).figure();
            Interval interval = atTarget.minus(asGraded, figure).interval(probability);
            // mince may have another fat content, and so another price, at the target
            double shift = valueLost().orElseThrow() - (atTarget.kg(figure) - asGraded.kg(figure));
            return new Interval(interval.low() + shift, interval.high() + shift, probability);
        });
    }

    /**
     * Feed that the extra fat took.
     *
     * @return kg, or empty if the feed for a kg of meat isn't given
     */
    public OptionalDouble feedKg() {
        return overfat.feedKg(extraFatTrim().kg());
    }

    /**
     * A level cut by cut: kg at the target, kg as graded, the difference and its 90 % interval. Printed kilograms add up
     * to their totals, and differences are those of the printed kilograms; cuts that are 0 on both sides are left out.
     *
     * @param level name of the level
     * @return a table
     * @throws IllegalArgumentException if the table has no such level
     */
    public TextTable table(String level) {
        TextTable table = new TextTable(
                level + " level",
                "at " + overfat.target() + ", kg",
                "as graded, kg",
                "more, kg",
                "90 % sure: from kg",
                "to kg");
        List<CutLine> graded = new ArrayList<>();
        List<CutLine> wanted = new ArrayList<>();
        List<CutLine> all = asGraded.lines(level);
        List<CutLine> target = atTarget.lines(level);
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).kg() != 0 || target.get(i).kg() != 0) {
                graded.add(all.get(i));
                wanted.add(target.get(i));
            }
        }
        List<String> kgGraded = kg(graded);
        List<String> kgWanted = kg(wanted);
        for (int i = 0; i < graded.size(); i++) {
            Interval interval =
                    more(Figure.cut(level, graded.get(i).cut().code())).interval(Interval.SHOWN_PROBABILITY);
            table.row(
                    graded.get(i).cut().name(),
                    kgWanted.get(i),
                    kgGraded.get(i),
                    new BigDecimal(kgGraded.get(i))
                            .subtract(new BigDecimal(kgWanted.get(i)))
                            .toPlainString(),
                    Numbers.fixed(interval.low(), DECIMALS),
                    Numbers.fixed(interval.high(), DECIMALS));
        }
        String total = Numbers.fixed(asGraded.coldWeightKg(), DECIMALS);
        return table.rule().row("Total", total, total, Numbers.fixed(0, DECIMALS), "", "");
    }

    private List<String> kg(List<CutLine> lines) {
        return Rounding.adding(lines.stream().mapToDouble(CutLine::kg).toArray(), asGraded.coldWeightKg(), DECIMALS);
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        sentences.add((carcasses == 1 ? "1 carcass is" : carcasses + " carcasses are") + " fatter than "
                + overfat.target() + ": " + difference(extraFatTrim()) + " more fat trim and "
                + difference(saleableLost()) + " less saleable meat than at " + overfat.target()
                + " and the same weight");
        overfat.valuer()
                .ifPresent(valuer -> valueLost(Interval.SHOWN_PROBABILITY)
                        .ifPresent(interval -> sentences.add("That is worth "
                                + valuer.prices().money(valueLost().orElseThrow()) + " "
                                + valuer.prices().currency() + " less (90 % sure, prices as given: "
                                + valuer.prices().money(interval.low()) + " to "
                                + valuer.prices().money(interval.high()) + ")")));
        feedKg().ifPresent(kg -> sentences.add("The extra fat took about " + Numbers.fixed(kg, 0) + " kg of feed"));
        sentences.addAll(overfat.feedWords());
        sentences.addAll(overfat.edgeWords());
        sentences.add(CAUTION);
        if (overfat.valuer().isPresent()) {
            sentences.add(Cautions.NO_SETTLEMENT);
        }
        return sentences;
    }

    private static String difference(ExpectedDifference difference) {
        Interval interval = difference.interval(Interval.SHOWN_PROBABILITY);
        return Numbers.fixed(difference.kg(), 1) + " kg (90 % sure: " + Numbers.fixed(interval.low(), 1) + " to "
                + Numbers.fixed(interval.high(), 1) + ")";
    }

    /**
     * The cost for people: sentences, then the last level cut by cut.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new Blocks().sentences(sentences()).add(table(lastLevel()));
    }

    private String lastLevel() {
        List<String> levels = asGraded.table().levels();
        return levels.get(levels.size() - 1);
    }

    /**
     * One line.
     *
     * @return such as {@code 3 carcasses are fatter than 3=: ...}
     */
    @Override
    public String toString() {
        return sentences().get(0);
    }
}
