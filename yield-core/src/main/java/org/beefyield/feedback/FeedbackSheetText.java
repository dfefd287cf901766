package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Frames;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Valuer;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** A feedback sheet in words. */
final class FeedbackSheetText {
    private static final String OF_COLD = ", % of cold weight";

    /** What the day of sale decides; where costs are known they say it. */
    private static final Set<AdviceFact.Cause> DAY_OF_SALE = Set.of(
            AdviceFact.Cause.TOO_HEAVY,
            AdviceFact.Cause.TOO_LIGHT,
            AdviceFact.Cause.TOO_FAT,
            AdviceFact.Cause.TOO_LEAN,
            AdviceFact.Cause.TOO_OLD);

    private final FeedbackSheet sheet;
    private final @Nullable MarketSpecification market;
    private final @Nullable Valuer valuer;
    /** The prices, if the supplier may see what animals were worth. */
    private final @Nullable Valuer shown;

    FeedbackSheetText(FeedbackSheet sheet) {
        this.sheet = sheet;
        this.market = sheet.settings().market();
        this.valuer = sheet.settings().valuer();
        this.shown = sheet.settings().showsValue() ? valuer : null;
    }

    String text() {
        List<String> lines = new ArrayList<>(List.of(title(), what(), ""));
        if (!summary().isEmpty()) {
            lines.addAll(summary());
            lines.add("");
        }
        lines.addAll(List.of(besideTable().toText(), table().toText()));
        lines.addAll(reasons());
        lines.addAll(remarks());
        return String.join("\n", lines) + "\n";
    }

    String html() {
        StringBuilder html = new StringBuilder();
        element(html, "h1", title());
        element(html, "p", what());
        summary().forEach(sentence -> element(html, "p", sentence));
        html.append(besideTable().toHtml()).append(table().toHtml());
        List<String> reasons = reasons();
        if (!reasons.isEmpty()) {
            html.append("<ul>\n");
            reasons.forEach(sentence -> element(html, "li", sentence));
            html.append("</ul>\n");
        }
        remarks().forEach(sentence -> element(html, "p", sentence));
        return html.toString();
    }

    private static void element(StringBuilder html, String name, String text) {
        html.append('<')
                .append(name)
                .append('>')
                .append(TextTable.escape(text))
                .append("</")
                .append(name)
                .append(">\n");
    }

    private String title() {
        return "Feedback for " + sheet.supplier();
    }

    /** Day, hall, number and weight. */
    private String what() {
        double kg = sheet.animals().stream()
                .mapToDouble(YieldEstimate::coldWeightKg)
                .sum();
        String days = list(sheet.killDates());
        String halls = list(sheet.halls());
        return Numbers.counted(sheet.animals().size(), "animal", "animals") + ", "
                + Numbers.grouped(Numbers.fixed(kg, kgDecimals())) + " kg cold"
                + (days.isEmpty() ? "" : ", killed " + days)
                + (halls.isEmpty() ? "" : ", boned at " + halls);
    }

    /** Weights stand as they were recorded: with as many decimals as any of them has. */
    private int kgDecimals() {
        return sheet.animals().stream()
                .mapToInt(animal -> {
                    String kg = Numbers.brief(animal.coldWeightKg());
                    return kg.indexOf('.') < 0 ? 0 : kg.length() - kg.indexOf('.') - 1;
                })
                .max()
                .orElse(0);
    }

    private static String list(List<String> names) {
        return names.size() < 2
                ? String.join("", names)
                : String.join(", ", names.subList(0, names.size() - 1)) + " and " + names.get(names.size() - 1);
    }

    /** The supplier's own average beside the hall's, a pair of rows for each category. */
    private TextTable besideTable() {
        TextTable table = new TextTable("on average", "animals", "cold, kg", "saleable, %", "fat trim, %");
        sheet.ownAverages().forEach((category, own) -> {
            average(table, "your " + category.plural() + " (" + category.letter() + ")", own);
            LotEstimate hall = sheet.averages().get(category);
            if (hall != null) {
                average(table, "the hall's " + category.plural(), hall);
            }
        });
        return table;
    }

    private static void average(TextTable table, String name, LotEstimate lot) {
        table.row(
                name,
                Long.toString(lot.carcasses()),
                Numbers.fixed(lot.coldWeightKg() / lot.carcasses(), 1),
                percent(saleableShare(lot)),
                percent(lot.share(CutKind.FAT_TRIM)));
    }

    String sentence() {
        return sheet.supplier() + ", " + sheet.animals().size()
                + (sheet.animals().size() == 1 ? " animal" : " animals")
                + advice().map(sentence -> ": " + sentence).orElse("");
    }

    private static String percent(double share) {
        return Numbers.percent(share, 1);
    }

    private static double saleableShare(Outturn outturn) {
        return outturn.saleableKg() / outturn.coldWeightKg();
    }

    private TextTable table() {
        List<String> header =
                new ArrayList<>(List.of("animal", "grade", "cold, kg", "saleable, kg", "%", "fat trim, kg", "%"));
        if (market != null) {
            header.add("suits");
        }
        if (shown != null) {
            header.add("worth, " + shown.prices().currency());
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (YieldEstimate animal : sheet.animals()) {
            Carcass carcass = animal.carcass();
            List<String> row = new ArrayList<>(List.of(
                    carcass.id().orElse("no tag"),
                    carcass.category() + " " + carcass.conformation() + " " + carcass.fatClass(),
                    Numbers.fixed(carcass.coldWeightKg(), kgDecimals()),
                    Numbers.fixed(animal.saleableKg(), 0),
                    percent(saleableShare(animal)),
                    Numbers.fixed(animal.fatTrimKg(), 0),
                    percent(animal.share(CutKind.FAT_TRIM))));
            if (market != null) {
                row.add(sheet.faults(animal).isEmpty() ? "yes" : "no");
            }
            if (shown != null) {
                row.add(Numbers.grouped(Numbers.fixed(shown.value(animal).amount(), 0)));
            }
            table.row(row);
        }
        return table;
    }

    private double ofHall(YieldEstimate animal, ToDoubleFunction<LotEstimate> figure) {
        return sheet.average(animal).stream()
                .mapToDouble(average -> 100 * figure.applyAsDouble(average))
                .findFirst()
                .orElse(Double.NaN);
    }

    Frame frame() {
        List<YieldEstimate> animals = sheet.animals();
        Total byWeight = Total.meanWeightedBy("cold weight");
        Frame frame = Frames.carcasses(animals)
                .with("saleable, kg", row -> animals.get(row.index()).saleableKg())
                .with("saleable share" + OF_COLD, row -> 100 * saleableShare(animals.get(row.index())))
                .with(
                        "hall's saleable share" + OF_COLD,
                        row -> ofHall(animals.get(row.index()), FeedbackSheetText::saleableShare))
                .with("fat trim, kg", row -> animals.get(row.index()).fatTrimKg())
                .with(
                        "fat trim share" + OF_COLD,
                        row -> 100 * animals.get(row.index()).share(CutKind.FAT_TRIM))
                .with(
                        "hall's fat trim share" + OF_COLD,
                        row -> ofHall(animals.get(row.index()), average -> average.share(CutKind.FAT_TRIM)))
                .totalling("saleable share", byWeight)
                .totalling("hall's saleable share", byWeight)
                .totalling("fat trim share", byWeight)
                .totalling("hall's fat trim share", byWeight);
        if (market != null) {
            frame = frame.withText(
                    "missed limits",
                    row -> sheet.faults(animals.get(row.index())).stream()
                            .map(MarketFault::text)
                            .collect(Collectors.joining("; ")));
        }
        Valuer prices = shown;
        if (prices == null) {
            return frame;
        }
        String worth = "worth, " + prices.prices().currency();
        return frame.with(worth, row -> prices.value(animals.get(row.index())).amount())
                .totalling("worth", Total.SUM);
    }

    /** What a supplier reads first. */
    List<String> summary() {
        List<String> summary = new ArrayList<>();
        if (market != null) {
            long in = sheet.inSpecification();
            summary.add(in + " of " + sheet.animals().size() + (in == 1 ? " is" : " are") + " in specification "
                    + market + ".");
        }
        advice().ifPresent(summary::add);
        return summary;
    }

    /** Why animals are not in specification. */
    List<String> reasons() {
        List<String> reasons = new ArrayList<>();
        for (YieldEstimate animal : sheet.animals()) {
            List<MarketFault> faults = sheet.faults(animal);
            if (!faults.isEmpty()) {
                reasons.add(animal.carcass().id().orElse("No tag") + ": "
                        + faults.stream().map(MarketFault::text).collect(Collectors.joining("; ")) + ".");
            }
        }
        return reasons;
    }

    List<String> remarks() {
        List<String> remarks = new ArrayList<>();
        remarks.add(
                "Cold weights are as recorded. Saleable meat and fat trim are estimated from weight and grade, not weighed;"
                        + " per cents are of the cold weight.");
        Set<Category> without = EnumSet.noneOf(Category.class);
        sheet.animals().forEach(animal -> without.add(animal.carcass().category()));
        without.removeAll(sheet.averages().keySet());
        if (!without.isEmpty()) {
            remarks.add("No hall's average of "
                    + list(without.stream().map(Category::plural).toList()) + ": it takes "
                    + FeedbackSheets.LEAST_ANIMALS + " animals of " + FeedbackSheets.LEAST_SUPPLIERS + " suppliers.");
        }
        remarks.add(Cautions.NO_SETTLEMENT);
        remarks.addAll(Cautions.of(sheet.animals().get(0).table()));
        return remarks;
    }

    private Optional<Advice> ofMarket() {
        return market == null || sheet.inSpecification() == sheet.animals().size()
                ? Optional.empty()
                : Optional.of(new Advice(
                        market,
                        sheet.settings().overfat(),
                        animal -> valuer == null
                                ? 1
                                : Math.max(0, valuer.value(animal).amount())));
    }

    Optional<AdviceFact> adviceFact() {
        return ofMarket().flatMap(advice -> advice.fact(sheet.animals()));
    }

    Optional<String> advice() {
        Optional<String> day =
                Optional.ofNullable(sheet.settings().timeOfSale()).flatMap(advice -> advice.advise(sheet.animals()));
        boolean said = day.isPresent()
                && adviceFact().map(fact -> DAY_OF_SALE.contains(fact.cause())).orElse(false);
        Optional<String> other = said
                ? Optional.empty()
                : ofMarket().map(advice -> advice.of(sheet.animals())).orElseGet(this::beside);
        return Stream.concat(other.stream(), day.stream())
                .reduce((first, second) ->
                        first + " " + second.substring(0, 1).toUpperCase(Locale.ROOT) + second.substring(1))
                .map(sentence -> "Advice: " + sentence);
    }

    /** How the animals compare with the hall's average of their categories. */
    private Optional<String> beside() {
        String who = sheet.animals().size() == 1 ? "it" : "they";
        String suits = market == null
                ? ""
                : (sheet.animals().size() == 1
                                ? "it suits"
                                : sheet.animals().size() == 2
                                        ? "both suit"
                                        : "all " + sheet.animals().size() + " suit")
                        + " this customer; ";
        OptionalDouble beside = sheet.saleableBesideHall();
        if (beside.isEmpty()) {
            return suits.isEmpty() ? Optional.empty() : Optional.of(suits.replaceFirst("; $", "."));
        }
        double more = beside.getAsDouble();
        String points = percent(Math.abs(more));
        if (points.equals("0.0")) {
            return Optional.of(suits + who + " gave as much saleable meat for the weight as the hall's average.");
        }
        return Optional.of(suits + who + " gave " + points + " % of the cold weight "
                + (more > 0
                        ? "more saleable meat than the hall's average: more of the same is welcome."
                        : "less saleable meat than the hall's average: shape and fat cover are what to look at."));
    }
}
