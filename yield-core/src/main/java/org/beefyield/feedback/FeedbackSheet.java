package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Valuer;
import org.beefyield.text.Numbers;
import org.beefyield.text.Shown;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What one supplier's carcasses came to, on one page: each animal by its tag, beside the hall's average of its category, in
 * specification or not and why, and a sentence of advice if there is a harmless one. Kilograms are whole ones. Immutable.
 */
public final class FeedbackSheet implements Shown {
    private final String supplier;
    private final List<YieldEstimate> animals;
    private final Map<Category, LotEstimate> averages;
    private final @Nullable MarketSpecification market;
    private final @Nullable Overfat overfat;
    private final @Nullable Valuer valuer;
    private final boolean showsValue;

    FeedbackSheet(
            String supplier,
            List<YieldEstimate> animals,
            Map<Category, LotEstimate> averages,
            @Nullable MarketSpecification market,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer,
            boolean showsValue) {
        this.supplier = supplier;
        this.animals = animals;
        this.averages = averages;
        this.market = market;
        this.overfat = overfat;
        this.valuer = valuer;
        this.showsValue = showsValue;
    }

    /**
     * The supplier.
     *
     * @return name
     */
    public String supplier() {
        return supplier;
    }

    /**
     * The supplier's animals.
     *
     * @return an estimate of each, in the order in which they were added
     */
    public List<YieldEstimate> animals() {
        return animals;
    }

    private static String plural(Category category) {
        return switch (category) {
            case STEER -> "steers";
            case YOUNG_BULL -> "young bulls";
            case BULL -> "bulls";
            case COW -> "cows";
            case HEIFER -> "heifers";
            case CALF -> "calves";
        };
    }

    private static String singular(Category category) {
        return category == Category.CALF ? "calf" : plural(category).replaceAll("s$", "");
    }

    private static String percent(double share) {
        return Numbers.percent(share, 1);
    }

    private static double saleableShare(Outturn outturn) {
        return outturn.saleableKg() / outturn.coldWeightKg();
    }

    private LotEstimate average(YieldEstimate animal) {
        LotEstimate average = averages.get(animal.carcass().category());
        if (average == null) {
            throw new IllegalStateException("every animal is in its own hall's average");
        }
        return average;
    }

    private List<MarketFault> faults(YieldEstimate animal) {
        return market == null ? List.of() : market.check(animal.carcass());
    }

    private TextTable table() {
        List<String> header = new ArrayList<>(List.of(
                "animal",
                "category",
                "conformation",
                "fat class",
                "cold, kg",
                "saleable, kg",
                "%",
                "hall's average, %",
                "fat trim, kg",
                "%",
                "hall's average, %"));
        if (market != null) {
            header.add("in specification");
        }
        if (valuer != null && showsValue) {
            header.add("worth, " + valuer.prices().currency());
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (YieldEstimate animal : animals) {
            Carcass carcass = animal.carcass();
            List<String> row = new ArrayList<>(List.of(
                    carcass.id().orElse("no tag"),
                    carcass.category().letter(),
                    carcass.conformation().toString(),
                    carcass.fatClass().toString(),
                    Numbers.fixed(carcass.coldWeightKg(), 0),
                    Numbers.fixed(animal.saleableKg(), 0),
                    percent(saleableShare(animal)),
                    percent(saleableShare(average(animal))),
                    Numbers.fixed(animal.fatTrimKg(), 0),
                    percent(animal.share(CutKind.FAT_TRIM)),
                    percent(average(animal).share(CutKind.FAT_TRIM))));
            if (market != null) {
                row.add(faults(animal).isEmpty() ? "yes" : "no");
            }
            if (valuer != null && showsValue) {
                row.add(Numbers.fixed(valuer.value(animal).amount(), 0));
            }
            table.row(row);
        }
        return table;
    }

    /** What a supplier reads first. */
    private List<String> summary() {
        List<String> summary = new ArrayList<>();
        if (market != null) {
            long in =
                    animals.stream().filter(animal -> faults(animal).isEmpty()).count();
            summary.add(
                    in + " of " + animals.size() + (in == 1 ? " is" : " are") + " in specification " + market + ".");
        }
        advice().ifPresent(summary::add);
        return summary;
    }

    /** Why animals are not in specification. */
    private List<String> reasons() {
        List<String> reasons = new ArrayList<>();
        for (YieldEstimate animal : animals) {
            List<MarketFault> faults = faults(animal);
            if (!faults.isEmpty()) {
                reasons.add(animal.carcass().id().orElse("No tag") + ": "
                        + faults.stream().map(MarketFault::text).collect(Collectors.joining("; ")) + ".");
            }
        }
        return reasons;
    }

    private List<String> remarks() {
        List<String> remarks = new ArrayList<>();
        remarks.add("Per cents are of the cold weight.");
        averages.forEach((category, average) -> remarks.add("The hall's average is that of " + average.carcasses() + " "
                + (average.carcasses() == 1 ? singular(category) : plural(category)) + ", category "
                + category.letter() + "."));
        remarks.add(Cautions.NO_SETTLEMENT);
        remarks.addAll(Cautions.of(animals.get(0).table()));
        return remarks;
    }

    /**
     * One sentence of advice. If the customer doesn't take animals: about the cause that most is lost by, those that a
     * supplier can do something about before the next sale going before shape and category; causes are ranked by the worth
     * of the animals, or by their number if there are no prices. It never asks for what another limit of the customer
     * forbids, and where nothing harmless can be said there is none. If all are taken, or no specification is asked for:
     * how the animals compare with the hall.
     *
     * @return a sentence, or empty
     */
    public Optional<String> advice() {
        boolean allTaken = animals.stream().allMatch(animal -> faults(animal).isEmpty());
        return (market == null || allTaken
                        ? Optional.of(beside())
                        : new Advice(
                                        market,
                                        overfat,
                                        animal -> valuer == null
                                                ? 1
                                                : Math.max(
                                                        0, valuer.value(animal).amount()))
                                .of(animals))
                .map(sentence -> "Advice: " + sentence);
    }

    /** How the animals compare with the hall's average of their categories. */
    private String beside() {
        double kg = 0;
        double expected = 0;
        double cold = 0;
        for (YieldEstimate animal : animals) {
            kg += animal.saleableKg();
            expected += animal.coldWeightKg() * saleableShare(average(animal));
            cold += animal.coldWeightKg();
        }
        String points = percent(Math.abs(kg - expected) / cold);
        String who = animals.size() == 1 ? "it" : "they";
        String suits = market == null
                ? ""
                : (animals.size() == 1
                                ? "it suits"
                                : animals.size() == 2 ? "both suit" : "all " + animals.size() + " suit")
                        + " this customer; ";
        if (points.equals("0.0")) {
            return suits + who + " gave as much saleable meat for the weight as the hall's average.";
        }
        return suits + who + " gave " + points + " % of the cold weight "
                + (kg > expected
                        ? "more saleable meat than the hall's average: more of the same is welcome."
                        : "less saleable meat than the hall's average: shape and fat cover are what to look at.");
    }

    /**
     * The sheet for people.
     *
     * @return lines of plain text
     */
    @Override
    public String toText() {
        List<String> lines = new ArrayList<>(List.of("Feedback for " + supplier, ""));
        lines.addAll(summary());
        lines.addAll(List.of("", table().toText()));
        lines.addAll(reasons());
        lines.addAll(remarks());
        return String.join("\n", lines) + "\n";
    }

    /**
     * The sheet as an HTML page that needs nothing from elsewhere.
     *
     * @return a page
     */
    @Override
    public String toHtml() {
        StringBuilder page = new StringBuilder("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>"
                        + "<meta name=\"viewport\" content=\"width=device-width\"/><title>Feedback for ")
                .append(TextTable.escape(supplier))
                .append(
                        "</title></head>\n<body style=\"font-family:sans-serif;overflow-wrap:break-word\">\n<h1>Feedback"
                                + " for ")
                .append(TextTable.escape(supplier))
                .append("</h1>\n");
        summary().forEach(sentence -> element(page, "p", sentence));
        page.append(table().toHtml());
        if (!reasons().isEmpty()) {
            page.append("<ul>\n");
            reasons().forEach(sentence -> element(page, "li", sentence));
            page.append("</ul>\n");
        }
        remarks().forEach(sentence -> element(page, "p", sentence));
        return page.append("</body></html>\n").toString();
    }

    private static void element(StringBuilder page, String name, String text) {
        page.append('<')
                .append(name)
                .append('>')
                .append(TextTable.escape(text))
                .append("</")
                .append(name)
                .append(">\n");
    }

    /**
     * One line.
     *
     * @return supplier, number of animals and the advice, if there is any
     */
    @Override
    public String toString() {
        return supplier + ", " + animals.size() + (animals.size() == 1 ? " animal" : " animals")
                + advice().map(sentence -> ": " + sentence).orElse("");
    }
}
