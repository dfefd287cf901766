package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Frames;
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
        List<String> lines = new ArrayList<>(List.of(title(), ""));
        lines.addAll(summary());
        lines.addAll(List.of("", table().toText()));
        lines.addAll(reasons());
        lines.addAll(remarks());
        return String.join("\n", lines) + "\n";
    }

    String html() {
        StringBuilder html = new StringBuilder();
        element(html, "h1", title());
        summary().forEach(sentence -> element(html, "p", sentence));
        html.append(table().toHtml());
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

    String sentence() {
        return sheet.supplier() + ", " + sheet.animals().size()
                + (sheet.animals().size() == 1 ? " animal" : " animals")
                + advice().map(sentence -> ": " + sentence).orElse("");
    }

    private static String singular(Category category) {
        return category == Category.CALF ? "calf" : category.plural().replaceAll("s$", "");
    }

    private static String percent(double share) {
        return Numbers.percent(share, 1);
    }

    private static double saleableShare(Outturn outturn) {
        return outturn.saleableKg() / outturn.coldWeightKg();
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
        if (shown != null) {
            header.add("worth, " + shown.prices().currency());
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (YieldEstimate animal : sheet.animals()) {
            Carcass carcass = animal.carcass();
            List<String> row = new ArrayList<>(List.of(
                    carcass.id().orElse("no tag"),
                    carcass.category().letter(),
                    carcass.conformation().toString(),
                    carcass.fatClass().toString(),
                    Numbers.fixed(carcass.coldWeightKg(), 0),
                    Numbers.fixed(animal.saleableKg(), 0),
                    percent(saleableShare(animal)),
                    percent(saleableShare(sheet.average(animal))),
                    Numbers.fixed(animal.fatTrimKg(), 0),
                    percent(animal.share(CutKind.FAT_TRIM)),
                    percent(sheet.average(animal).share(CutKind.FAT_TRIM))));
            if (market != null) {
                row.add(sheet.faults(animal).isEmpty() ? "yes" : "no");
            }
            if (shown != null) {
                row.add(Numbers.fixed(shown.value(animal).amount(), 0));
            }
            table.row(row);
        }
        return table;
    }

    Frame frame() {
        List<YieldEstimate> animals = sheet.animals();
        Total byWeight = Total.meanWeightedBy("cold weight");
        Frame frame = Frames.carcasses(animals)
                .with("saleable, kg", row -> animals.get(row.index()).saleableKg())
                .with("saleable share" + OF_COLD, row -> 100 * saleableShare(animals.get(row.index())))
                .with(
                        "hall's saleable share" + OF_COLD,
                        row -> 100 * saleableShare(sheet.average(animals.get(row.index()))))
                .with("fat trim, kg", row -> animals.get(row.index()).fatTrimKg())
                .with(
                        "fat trim share" + OF_COLD,
                        row -> 100 * animals.get(row.index()).share(CutKind.FAT_TRIM))
                .with(
                        "hall's fat trim share" + OF_COLD,
                        row -> 100 * sheet.average(animals.get(row.index())).share(CutKind.FAT_TRIM))
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
        remarks.add("Per cents are of the cold weight.");
        sheet.averages()
                .forEach((category, average) -> remarks.add("The hall's average is that of " + average.carcasses() + " "
                        + (average.carcasses() == 1 ? singular(category) : category.plural()) + ", category "
                        + category.letter() + "."));
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
        return ofMarket()
                .map(advice -> advice.of(sheet.animals()))
                .orElseGet(() -> Optional.of(beside()))
                .map(sentence -> "Advice: " + sentence);
    }

    /** How the animals compare with the hall's average of their categories. */
    private String beside() {
        double more = sheet.saleableBesideHall();
        String points = percent(Math.abs(more));
        String who = sheet.animals().size() == 1 ? "it" : "they";
        String suits = market == null
                ? ""
                : (sheet.animals().size() == 1
                                ? "it suits"
                                : sheet.animals().size() == 2
                                        ? "both suit"
                                        : "all " + sheet.animals().size() + " suit")
                        + " this customer; ";
        if (points.equals("0.0")) {
            return suits + who + " gave as much saleable meat for the weight as the hall's average.";
        }
        return suits + who + " gave " + points + " % of the cold weight "
                + (more > 0
                        ? "more saleable meat than the hall's average: more of the same is welcome."
                        : "less saleable meat than the hall's average: shape and fat cover are what to look at.");
    }
}
