package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.text.Names;
import org.beefyield.text.Numbers;

/** What figures rest on, in words. */
final class SupportText {
    private static final int LONGEST_CITATION = 100;
    private static final int MOST_CUTS = 4;
    private static final double ONE_PERCENT = 0.01;
    /** Of a share that is all but for floating-point noise. */
    private static final double ALL = 1 - 1e-9;

    private SupportText() {}

    static List<String> sentences(Support support) {
        List<String> sentences = new ArrayList<>();
        if (support.saleableKg() > 0) {
            sentences.add(assumed(support));
        }
        Map<String, List<Category>> categories = new LinkedHashMap<>();
        bySource(support)
                .forEach((source, rowsByCategory) -> rowsByCategory.forEach((category, rows) -> categories
                        .computeIfAbsent(behind(source, rows), words -> new ArrayList<>())
                        .add(category)));
        categories.forEach((behind, of) -> sentences.add(Names.capital(
                        PartsText.joined(of.stream().map(category -> category.plural() + " (" + category + ")"), "and"))
                + ": " + behind));
        return sentences;
    }

    private static String assumed(Support support) {
        Map<String, Double> levels = new LinkedHashMap<>(support.assumedKg());
        levels.values().removeIf(kg -> kg == 0);
        if (levels.isEmpty()) {
            return "No saleable weight rests on figures that the maker of the table assumed";
        }
        String sentence = percent(support.share(SourceKind.ASSUMPTION))
                + " of the saleable weight rests on figures that the maker of the table assumed";
        if (levels.size() == 1) {
            return sentence + ", at " + levels.keySet().iterator().next() + " level";
        }
        double sum = levels.values().stream().mapToDouble(kg -> kg).sum();
        String overlap = levels.size() == 2 ? ", some of it at both" : ", some of it at more than one";
        return sentence + ": "
                + PartsText.joined(
                        levels.entrySet().stream()
                                .map(level ->
                                        percent(support.share(level.getValue())) + " at " + level.getKey() + " level"),
                        "and")
                + (support.kg(SourceKind.ASSUMPTION) < ALL * sum ? overlap : "");
    }

    /** Whole per cent; neither none nor all of it by rounding. */
    private static String percent(double share) {
        if (share < ONE_PERCENT) {
            return "under 1 %";
        }
        return share > 1 - ONE_PERCENT && share < ALL ? "over 99 %" : Numbers.percent(share, 0) + " %";
    }

    private static Map<SourceRow, Map<Category, List<Support.CategoryRows>>> bySource(Support support) {
        return support.categories().stream()
                .collect(Collectors.groupingBy(
                        Support.CategoryRows::source,
                        LinkedHashMap::new,
                        Collectors.groupingBy(
                                Support.CategoryRows::category, LinkedHashMap::new, Collectors.toList())));
    }

    /** Such as {@code meat and fat trim are assumed (Ours: as those of steers)}. */
    private static String behind(SourceRow source, List<Support.CategoryRows> rows) {
        int cuts = rows.stream().mapToInt(of -> of.cuts().size()).sum();
        return cuts(rows, cuts) + (cuts == 1 ? " is " : " are ") + words(source.kind()) + " ("
                + shortened(source.citation()) + ")";
    }

    private static String cuts(List<Support.CategoryRows> rows, int count) {
        if (rows.size() > 1) {
            return count + " cuts of " + rows.size() + " breakdowns";
        }
        Support.CategoryRows only = rows.get(0);
        return (count > MOST_CUTS
                        ? count + " cuts"
                        : PartsText.joined(only.cuts().stream().map(Cut::name).map(SupportText::small), "and"))
                + (only.parent().equals(BreakdownRow.ROOT) ? "" : " of " + only.parent());
    }

    private static String words(SourceKind kind) {
        return switch (kind) {
            case PUBLISHED -> "published";
            case DERIVED -> "derived";
            case COMMON_PRACTICE -> "common practice, without a source";
            case UNVERIFIED -> "not checked against the source";
            case ASSUMPTION -> "assumed";
        };
    }

    /** Of a long citation as many words as a line holds; the source has all of it. */
    private static String shortened(String citation) {
        if (citation.length() <= LONGEST_CITATION) {
            return citation;
        }
        int blank = citation.lastIndexOf(' ', LONGEST_CITATION);
        String start = citation.substring(0, blank < 0 ? LONGEST_CITATION : blank);
        return start.replaceAll("[,;:.]$", "") + " ...";
    }

    /** A name within a sentence; one that isn't a plain word, such as T-bone, stays as it is. */
    private static String small(String name) {
        return name.length() > 1 && Character.isLowerCase(name.charAt(1))
                ? name.substring(0, 1).toLowerCase(Locale.ROOT) + name.substring(1)
                : name;
    }

    static String line(Support support) {
        String kinds = Arrays.stream(SourceKind.values())
                .filter(kind -> support.kg(kind) != 0)
                .map(kind -> kind.code() + " " + Numbers.fixed(support.kg(kind), 1) + " kg")
                .collect(Collectors.joining(", "));
        return "saleable " + Numbers.fixed(support.saleableKg(), 1) + " kg" + (kinds.isEmpty() ? "" : ": " + kinds);
    }
}
