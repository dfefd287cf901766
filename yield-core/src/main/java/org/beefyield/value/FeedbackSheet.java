package org.beefyield.value;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.text.Numbers;
import org.beefyield.text.Shown;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What one supplier's carcasses came to, on one page: each animal by its tag, beside the hall's average of its category, in
 * specification or not and why, and a sentence of advice. Kilograms are whole ones. Immutable.
 */
public final class FeedbackSheet implements Shown {
    private static final String NO_SETTLEMENT =
            "This sheet is no settlement: payment follows the contract and the" + " official weights and grades.";

    private final String supplier;
    private final List<YieldEstimate> animals;
    private final Map<Category, LotEstimate> averages;
    private final @Nullable MarketSpecification market;
    private final @Nullable Overfat overfat;
    private final @Nullable Valuer valuer;

    FeedbackSheet(
            String supplier,
            List<YieldEstimate> animals,
            Map<Category, LotEstimate> averages,
            @Nullable MarketSpecification market,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer) {
        this.supplier = supplier;
        this.animals = animals;
        this.averages = averages;
        this.market = market;
        this.overfat = overfat;
        this.valuer = valuer;
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
        if (valuer != null) {
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
            if (valuer != null) {
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
        summary.add(advice());
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
        remarks.add(NO_SETTLEMENT);
        remarks.addAll(Cautions.of(animals.get(0).table()));
        return remarks;
    }

    /**
     * One sentence of advice: about the limit that most animals miss of those that a supplier can do something about
     * before the next sale, else of shape and category; or, if none is missed or no specification is asked for, about how
     * the animals compare with the hall.
     *
     * @return a sentence
     */
    public String advice() {
        Map<String, List<MarketFault>> byReason = new LinkedHashMap<>();
        for (YieldEstimate animal : animals) {
            List<MarketFault> faults = faults(animal);
            // an animal of a category that isn't taken can't be brought in by weight, fat or age
            List<MarketFault> decisive = faults.stream()
                    .filter(fault -> fault.limit() == MarketFault.Limit.CATEGORY)
                    .toList();
            for (MarketFault fault : decisive.isEmpty() ? faults : decisive) {
                byReason.computeIfAbsent(fault.limit() + " " + fault.miss(), reason -> new ArrayList<>())
                        .add(fault);
            }
        }
        List<MarketFault> most = byReason.values().stream()
                .max(Comparator.<List<MarketFault>>comparingInt(faults -> isSettledAtBirth(faults.get(0)) ? 0 : 1)
                        .thenComparingInt(List::size))
                .orElse(List.of());
        if (most.isEmpty()) {
            return "Advice: " + beside();
        }
        return "Advice: " + about(most.get(0), most.size());
    }

    /** Whether nothing that is done with a growing animal changes it. */
    private static boolean isSettledAtBirth(MarketFault fault) {
        return fault.limit() == MarketFault.Limit.CONFORMATION || fault.limit() == MarketFault.Limit.CATEGORY;
    }

    private String about(MarketFault fault, int count) {
        boolean one = count == 1;
        String who = animals.size() == 1
                ? "it was"
                : count == animals.size()
                        ? (count == 2 ? "both were" : "all " + count + " were")
                        : count + " of " + animals.size() + (one ? " was" : " were");
        String they = one ? "it" : "they";
        String them = one ? "it" : "them";
        boolean above = fault.miss() == MarketFault.Miss.ABOVE;
        boolean unsaid = fault.miss() == MarketFault.Miss.NOT_STATED;
        return who
                + switch (fault.limit()) {
                    case WEIGHT ->
                        above
                                ? " heavier than this customer takes; sent in sooner, " + (one ? "its" : "their")
                                        + " cuts would fit the packs."
                                : " lighter than this customer takes; a little longer on feed would bring " + them
                                        + " in.";
                    case CATEGORY ->
                        " of a category that this customer doesn't take; ask the plant for another outlet.";
                    case CONFORMATION ->
                        above
                                ? " of better shape than this customer asks for; ask the plant for an outlet that pays for"
                                        + " it."
                                : " of plainer shape than this customer takes; shape comes from breed and sire more than"
                                        + " from feed.";
                    case FAT_CLASS ->
                        above
                                ? " fatter than this customer takes; drawn sooner " + they + " would have " + lessFat()
                                : " leaner than this customer takes; a longer finish would cover " + them + " better.";
                    case AGE ->
                        unsaid
                                ? " sent in without an age; with one " + they + " may be in specification."
                                : " older than this customer takes; booked in earlier " + they + " would be under age.";
                    case ASSURANCE ->
                        unsaid
                                ? " sent in without a word on farm assurance; with it " + they
                                        + " may be in specification."
                                : " not farm-assured, which this customer asks for; assurance has to be in place on the"
                                        + " day.";
                };
    }

    private String lessFat() {
        String plain = "lost less to fat trim and taken less feed.";
        return overfat == null
                ? plain
                : overfat.cost(animals.stream().map(YieldEstimate::carcass).toList())
                        .map(cost -> "taken less feed, and at " + overfat.target()
                                + " and the same weight there would be about "
                                + Numbers.fixed(cost.extraFatTrim().kg(), 0) + " kg less fat trim.")
                        .orElse(plain);
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
     * @return supplier, number of animals and advice
     */
    @Override
    public String toString() {
        return supplier + ", " + animals.size() + (animals.size() == 1 ? " animal: " : " animals: ") + advice();
    }
}
