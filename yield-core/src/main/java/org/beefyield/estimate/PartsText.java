package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SharedBy;

/** The parts of an uncertainty in the words of the trade, and what an interval made of them holds. */
final class PartsText {
    /** What an interval is about. */
    enum Of {
        /** What the scale behind the knife will show. */
        OUTCOME("of what will be weighed"),
        /** What comes out on average over many carcasses, lots and runs. */
        EXPECTATION("of what is expected, not of what will be weighed");

        private final String words;

        Of(String words) {
            this.words = words;
        }
    }

    /** Sum of the variances of figures, by part; without parts that have none. */
    private final Map<UncertaintyPart, Double> variances = new EnumMap<>(UncertaintyPart.class);

    private final Set<UncertaintyPart> leftOut = EnumSet.allOf(UncertaintyPart.class);

    private PartsText() {}

    /**
     * What an interval holds.
     *
     * @param counted parts that it could hold
     * @param variances of each part, of several figures that stand together, such as the cuts of a level, one for each
     */
    static PartsText of(Set<UncertaintyPart> counted, List<Map<UncertaintyPart, Double>> variances) {
        PartsText text = new PartsText();
        text.leftOut.removeAll(counted);
        variances.forEach(text::add);
        return text;
    }

    private void add(Map<UncertaintyPart, Double> more) {
        more.forEach((part, variance) -> {
            if (variance > 0) {
                variances.merge(part, variance, Double::sum);
            }
        });
    }

    static String words(UncertaintyPart part) {
        return switch (part) {
            case BETWEEN_CARCASSES -> "how carcasses of one grade differ";
            case COEFFICIENTS -> "how well the table is known";
            case GRADE_RESOLUTION -> "how coarse the grades are";
            case LOT -> "how lots differ";
            case RUN -> "how boning runs differ";
            case HALL -> "how your hall differs from the table";
            case SCALE_REPEATABILITY -> "how the scale scatters";
            case SCALE_BIAS -> "how far the scale is off";
        };
    }

    boolean has(UncertaintyPart part) {
        return variances.containsKey(part);
    }

    /** What an interval holds; none if nothing is uncertain. */
    List<String> sentences(Of of) {
        return variances.isEmpty()
                ? List.of()
                : List.of("90 % sure " + of.words + ": " + held()
                        + (of == Of.EXPECTATION || leftOut.isEmpty()
                                ? ""
                                : "; left out: " + joined(leftOut.stream().map(PartsText::words), "and")));
    }

    /** What the two intervals of a lot hold, with and without what a hall does otherwise. */
    String sentenceOfBothHalls() {
        PartsText own = new PartsText();
        own.variances.putAll(variances);
        own.variances.remove(UncertaintyPart.HALL);
        return "90 % sure " + Of.OUTCOME.words + ". Any hall: " + held() + ". A hall that cuts as the table does: "
                + (own.variances.isEmpty()
                        ? "nothing else is uncertain"
                        : "all but " + words(UncertaintyPart.HALL) + own.most());
    }

    private String held() {
        return joined(variances.keySet().stream().map(PartsText::words), "and") + most();
    }

    private String most() {
        if (variances.size() == 1) {
            return "";
        }
        UncertaintyPart largest = largest().orElseThrow();
        double all =
                variances.values().stream().mapToDouble(variance -> variance).sum();
        return "; " + (variances.getOrDefault(largest, 0.0) > all / 2 ? "most of it: " : "the largest of these: ")
                + words(largest);
    }

    private Optional<UncertaintyPart> largest() {
        return variances.entrySet().stream().max(Map.Entry.comparingByValue()).map(Map.Entry::getKey);
    }

    /** Errors that carcasses have in common and that a table doesn't state; none if it states them all, or no SD at all. */
    static List<String> notStated(YieldTable table) {
        Set<SharedBy> silent = EnumSet.allOf(SharedBy.class);
        silent.removeIf(table::states);
        return silent.isEmpty() || !table.statesSds()
                ? List.of()
                : List.of("errors that carcasses of " + joined(silent.stream().map(PartsText::words), "or")
                        + " have in common aren't in these intervals: the table states none");
    }

    private static String words(SharedBy shared) {
        return switch (shared) {
            case LOT -> "a lot";
            case RUN -> "a run";
            case HALL -> "a hall";
        };
    }

    /** Such as {@code a, b and c}. */
    static String joined(Stream<String> words, String last) {
        List<String> all = words.collect(Collectors.toCollection(ArrayList::new));
        String end = all.remove(all.size() - 1);
        return all.isEmpty() ? end : String.join(", ", all) + " " + last + " " + end;
    }
}
