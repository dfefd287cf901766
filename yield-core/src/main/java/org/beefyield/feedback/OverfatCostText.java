package org.beefyield.feedback;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** The cost of fat in words. */
final class OverfatCostText {
    private static final int DECIMALS = 2;

    private final OverfatCost cost;
    private final OverfatCost.Terms terms;

    OverfatCostText(OverfatCost cost) {
        this.cost = cost;
        this.terms = cost.terms();
    }

    Blocks blocks() {
        return new Blocks().sentences(sentences()).add(table(lastLevel()));
    }

    String sentence() {
        return sentences().get(0);
    }

    TextTable table(String level) {
        TextTable table = new TextTable(
                level + " level",
                "at " + terms.target() + ", kg",
                "as graded, kg",
                "more, kg",
                "90 % interval, kg: low",
                "high");
        List<CutLine> graded = new ArrayList<>();
        List<CutLine> wanted = new ArrayList<>();
        List<CutLine> all = cost.asGraded().lines(level);
        List<CutLine> target = cost.atTarget().lines(level);
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).kg() != 0 || target.get(i).kg() != 0) {
                graded.add(all.get(i));
                wanted.add(target.get(i));
            }
        }
        List<BigDecimal> kgGraded = kg(graded);
        List<BigDecimal> kgWanted = kg(wanted);
        for (int i = 0; i < graded.size(); i++) {
            Interval interval = cost.more(Figure.cut(level, graded.get(i).cut().code()))
                    .expectedInterval(Interval.SHOWN_PROBABILITY);
            table.row(
                    graded.get(i).cut().name(),
                    Numbers.grouped(kgWanted.get(i).toPlainString()),
                    Numbers.grouped(kgGraded.get(i).toPlainString()),
                    kgGraded.get(i).subtract(kgWanted.get(i)).toPlainString(),
                    interval.place(DECIMALS).text(interval.low()),
                    interval.place(DECIMALS).text(interval.high()));
        }
        String total = Numbers.grouped(Numbers.fixed(cost.asGraded().coldWeightKg(), DECIMALS));
        return table.rule().row("Total", total, total, Numbers.fixed(0, DECIMALS), "", "");
    }

    /** A cut as graded and at the target. */
    private record Both(CutLine graded, CutLine wanted) {}

    Frame frame() {
        String level = lastLevel();
        List<CutLine> graded = cost.asGraded().lines(level);
        List<CutLine> wanted = cost.atTarget().lines(level);
        List<Both> both = IntStream.range(0, graded.size())
                .mapToObj(i -> new Both(graded.get(i), wanted.get(i)))
                .filter(one -> one.graded().kg() != 0 || one.wanted().kg() != 0)
                .toList();
        Function<Both, Interval> interval =
                one -> cost.more(Figure.cut(level, one.graded().code())).expectedInterval(Interval.SHOWN_PROBABILITY);
        return Frame.ofEach(both)
                .text("table", one -> cost.asGraded().table().identity())
                .text("cut", one -> one.graded().code())
                .text("kind", one -> one.graded().cut().kind().code())
                .number("as graded, kg", one -> one.graded().kg())
                .number("at the target, kg", one -> one.wanted().kg())
                .number("more, kg", one -> one.graded().kg() - one.wanted().kg())
                .number(end(Interval.SHOWN_LOW), one -> interval.apply(one).low())
                .number(end(Interval.SHOWN_HIGH), one -> interval.apply(one).high())
                .frame();
    }

    private static Column end(String name) {
        return Column.number(name + ", kg").totalling(Total.NONE);
    }

    private List<BigDecimal> kg(List<CutLine> lines) {
        return Rounding.figuresAdding(
                lines.stream().mapToDouble(CutLine::kg).toArray(),
                cost.asGraded().coldWeightKg(),
                DECIMALS);
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        sentences.add((cost.carcasses() == 1 ? "1 carcass is" : cost.carcasses() + " carcasses are") + " fatter than "
                + terms.target() + ": " + difference(cost.extraFatTrim()) + " more fat trim and "
                + difference(cost.saleableLost()) + " less saleable meat than at "
                + terms.target()
                + " and the same weight");
        Optional.ofNullable(terms.valuer())
                .ifPresent(valuer -> cost.valueLost(Interval.SHOWN_PROBABILITY).ifPresent(interval -> {
                    Place place = interval.placeOfMoney(valuer.prices().decimals());
                    sentences.add("That is worth "
                            + Numbers.grouped(place.text(cost.valueLost().orElseThrow()))
                            + " " + valuer.prices().currency() + " less (90 % sure, prices as given: "
                            + ends(interval, place) + ")");
                }));
        cost.feedKg()
                .ifPresent(kg -> sentences.add("The extra fat took about " + Numbers.fixed(kg, 0) + " kg of feed"));
        sentences.addAll(feedWords());
        sentences.addAll(terms.edge().words(List.of(), List.of(terms.target())));
        sentences.addAll(cost.saleableLost().expectedIntervalWords());
        if (terms.valuer() != null) {
            sentences.add(Cautions.NO_SETTLEMENT);
        }
        return sentences;
    }

    private static String difference(Difference difference) {
        Interval interval = difference.expectedInterval(Interval.SHOWN_PROBABILITY);
        return Numbers.fixed(difference.kg(), 1) + " kg (90 % sure: " + ends(interval, interval.place(1)) + ")";
    }

    private static String ends(Interval interval, Place place) {
        return Numbers.grouped(place.text(interval.low())) + " to " + Numbers.grouped(place.text(interval.high()));
    }

    private List<String> feedWords() {
        return Stream.ofNullable(terms.feedPerKgMeat())
                .map(kg -> "Feed: " + Numbers.brief(kg) + " kg for a kg of meat gained, and "
                        + Numbers.brief(terms.feedRatio()) + " times that for a kg of fat"
                        + (terms.feedRatio() == Overfat.USUAL_FEED_RATIO
                                ? " (common practice; on energy alone at least 2.25)"
                                : ""))
                .toList();
    }

    private String lastLevel() {
        List<String> levels = cost.asGraded().table().levels();
        return levels.get(levels.size() - 1);
    }
}
