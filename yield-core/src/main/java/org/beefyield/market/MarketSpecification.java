package org.beefyield.market;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a customer takes: limits of weight, category, conformation, fat class, age and assurance, each of which may be
 * left open. Immutable.
 *
 * <p>Limits of weight are inclusive. So are those of the grades: from R to U takes all of both classes, to 4L takes the
 * lower half of class 4. A carcass is judged by its position, the middle of what its grade covers; one graded {@code 4=} or
 * a whole {@code 4} stands right on the edge between 4L and 4H and counts by an {@link EdgeRule}. {@code under 30 months} takes 29 completed months and not
 * 30. Where a limit is set and the carcass doesn't say, it is not in specification.
 */
public final class MarketSpecification implements Predicate<Carcass> {
    private final String name;
    private final double fromKg;
    private final double toKg;
    private final boolean hot;
    private final Set<Category> categories;
    private final @Nullable Conformation lowestConformation;
    private final @Nullable Conformation highestConformation;
    private final @Nullable FatClass leanest;
    private final @Nullable FatClass fattest;
    private final @Nullable Integer underMonths;
    private final boolean assured;
    private final EdgeRule edge;

    private MarketSpecification(Builder builder) {
        this.name = builder.name;
        this.fromKg = builder.fromKg;
        this.toKg = builder.toKg;
        this.hot = builder.hot;
        this.categories = builder.categories;
        this.lowestConformation = builder.lowestConformation;
        this.highestConformation = builder.highestConformation;
        this.leanest = builder.leanest;
        this.fattest = builder.fattest;
        this.underMonths = builder.underMonths;
        this.assured = builder.assured;
        this.edge = builder.edge;
    }

    /**
     * The same specification with another rule for carcasses on the edge of a limit.
     *
     * @param rule to which side of an edge a grade counts; else {@link EdgeRule#LOWER}
     * @return a copy
     */
    public MarketSpecification with(EdgeRule rule) {
        Objects.requireNonNull(rule, "rule");
        Builder builder = new Builder(name).edge(rule);
        builder.fromKg = fromKg;
        builder.toKg = toKg;
        builder.hot = hot;
        builder.categories = categories;
        builder.lowestConformation = lowestConformation;
        builder.highestConformation = highestConformation;
        builder.leanest = leanest;
        builder.fattest = fattest;
        builder.underMonths = underMonths;
        builder.assured = assured;
        return builder.build();
    }

    /**
     * A specification that takes everything, to be narrowed.
     *
     * @param name name for output
     * @return a builder
     */
    public static Builder builder(String name) {
        Objects.requireNonNull(name, "name");
        return new Builder(name);
    }

    /** Collects the limits. Not thread-safe. */
    public static final class Builder {
        private final String name;
        private double fromKg;
        private double toKg = Double.POSITIVE_INFINITY;
        private boolean hot;
        private Set<Category> categories = EnumSet.allOf(Category.class);
        private @Nullable Conformation lowestConformation;
        private @Nullable Conformation highestConformation;
        private @Nullable FatClass leanest;
        private @Nullable FatClass fattest;
        private @Nullable Integer underMonths;
        private boolean assured;
        private EdgeRule edge = EdgeRule.LOWER;

        private Builder(String name) {
            this.name = Objects.requireNonNull(name, "name");
        }

        /**
         * Limits of the cold carcass weight.
         *
         * @param from kg, inclusive, 0 for none
         * @param to kg, inclusive, not below {@code from}
         * @return this
         * @throws IllegalArgumentException if the limits are not finite, not ascending or below 0
         */
        public Builder coldWeightKg(double from, double to) {
            return weight(from, finite(to), false);
        }

        /**
         * Limits of the hot carcass weight. A carcass's hot weight is its cold weight over 0.98, Commission Delegated
         * Regulation (EU) 2017/1182, Article 14(3).
         *
         * @param from kg, inclusive, 0 for none
         * @param to kg, inclusive, not below {@code from}
         * @return this
         * @throws IllegalArgumentException if the limits are not finite, not ascending or below 0
         */
        public Builder hotWeightKg(double from, double to) {
            return weight(from, finite(to), true);
        }

        /**
         * The least cold carcass weight, without a greatest.
         *
         * @param from kg, inclusive, 0 for none
         * @return this
         * @throws IllegalArgumentException if it is not finite or below 0
         */
        public Builder coldWeightFromKg(double from) {
            return weight(from, Double.POSITIVE_INFINITY, false);
        }

        /**
         * The least hot carcass weight, without a greatest.
         *
         * @param from kg, inclusive, 0 for none
         * @return this
         * @throws IllegalArgumentException if it is not finite or below 0
         */
        public Builder hotWeightFromKg(double from) {
            return weight(from, Double.POSITIVE_INFINITY, true);
        }

        private static double finite(double to) {
            if (!Double.isFinite(to)) {
                throw new IllegalArgumentException("weights up to " + to
                        + " kg: a finite weight is needed; coldWeightFromKg and hotWeightFromKg set no greatest");
            }
            return to;
        }

        private Builder weight(double from, double to, boolean isHot) {
            if (!(from >= 0 && from <= to && from < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("weights from " + Numbers.brief(from) + " to " + Numbers.brief(to)
                        + " kg: two ascending weights of 0 kg or more are needed");
            }
            this.fromKg = from;
            this.toKg = to;
            this.hot = isHot;
            return this;
        }

        /**
         * The categories that are taken.
         *
         * @param taken one or more
         * @return this
         * @throws IllegalArgumentException if there is none
         */
        public Builder categories(Category... taken) {
            Checks.noNullIn(taken, "taken");
            if (taken.length == 0) {
                throw new IllegalArgumentException("a market specification takes at least one category");
            }
            this.categories = EnumSet.copyOf(List.of(taken));
            return this;
        }

        /**
         * Limits of conformation.
         *
         * @param from poorest taken, all of it, or null for no limit
         * @param to best taken, all of it, or null for no limit
         * @return this
         * @throws IllegalArgumentException if {@code to} is poorer than {@code from}
         */
        public Builder conformation(@Nullable Conformation from, @Nullable Conformation to) {
            if (from != null && to != null && to.position() < from.position()) {
                throw new IllegalArgumentException(
                        "conformation from " + from + " to " + to + ": the poorer comes first");
            }
            this.lowestConformation = from;
            this.highestConformation = to;
            return this;
        }

        /**
         * Limits of fat class.
         *
         * @param from leanest taken, all of it, or null for no limit
         * @param to fattest taken, all of it, or null for no limit
         * @return this
         * @throws IllegalArgumentException if {@code to} is leaner than {@code from}
         */
        public Builder fatClass(@Nullable FatClass from, @Nullable FatClass to) {
            if (from != null && to != null && to.position() < from.position()) {
                throw new IllegalArgumentException("fat class from " + from + " to " + to + ": the leaner comes first");
            }
            this.leanest = from;
            this.fattest = to;
            return this;
        }

        /**
         * Limit of age.
         *
         * @param months completed months, exclusive, 1 or more
         * @return this
         * @throws IllegalArgumentException if it is below 1
         */
        public Builder underMonths(int months) {
            if (months < 1) {
                throw new IllegalArgumentException("under " + months + " months takes no carcass; 1 or more is needed");
            }
            this.underMonths = months;
            return this;
        }

        /**
         * Takes farm-assured carcasses only.
         *
         * @return this
         */
        public Builder assured() {
            this.assured = true;
            return this;
        }

        /**
         * The rule for carcasses on the edge of a limit.
         *
         * @param rule to which side of an edge a grade counts; else {@link EdgeRule#LOWER}
         * @return this
         */
        public Builder edge(EdgeRule rule) {
            this.edge = Objects.requireNonNull(rule, "rule");
            return this;
        }

        /**
         * The specification.
         *
         * @return it
         */
        public MarketSpecification build() {
            return new MarketSpecification(this);
        }
    }

    /**
     * Name for output.
     *
     * @return the name
     */
    public String name() {
        return name;
    }

    /**
     * The least weight that is taken.
     *
     * @return kg, inclusive, hot or cold as {@link #isOfHotWeight} says, or empty if there is no limit
     */
    public OptionalDouble fromKg() {
        return fromKg > 0 ? OptionalDouble.of(fromKg) : OptionalDouble.empty();
    }

    /**
     * The greatest weight that is taken.
     *
     * @return kg, inclusive, hot or cold as {@link #isOfHotWeight} says, or empty if there is no limit
     */
    public OptionalDouble toKg() {
        return toKg < Double.POSITIVE_INFINITY ? OptionalDouble.of(toKg) : OptionalDouble.empty();
    }

    /**
     * Whether the limits of weight are of the hot weight.
     *
     * @return true for hot, false for cold
     */
    public boolean isOfHotWeight() {
        return hot;
    }

    /**
     * The categories that are taken.
     *
     * @return an unmodifiable set, all of them if there is no limit
     */
    public Set<Category> categories() {
        return Collections.unmodifiableSet(categories);
    }

    /**
     * The poorest conformation that is taken.
     *
     * @return conformation, all of it, or empty if there is no limit
     */
    public Optional<Conformation> poorestConformation() {
        return Optional.ofNullable(lowestConformation);
    }

    /**
     * The best conformation that is taken.
     *
     * @return conformation, all of it, or empty if there is no limit
     */
    public Optional<Conformation> bestConformation() {
        return Optional.ofNullable(highestConformation);
    }

    /**
     * The leanest fat class that is taken.
     *
     * @return fat class, all of it, or empty if there is no limit
     */
    public Optional<FatClass> leanest() {
        return Optional.ofNullable(leanest);
    }

    /**
     * The fattest fat class that is taken.
     *
     * @return fat class, all of it, or empty if there is no limit
     */
    public Optional<FatClass> fattest() {
        return Optional.ofNullable(fattest);
    }

    /**
     * The age under which carcasses are taken.
     *
     * @return completed months, exclusive, or empty if there is no limit
     */
    public OptionalInt underMonths() {
        return underMonths == null ? OptionalInt.empty() : OptionalInt.of(underMonths);
    }

    /**
     * Whether farm-assured carcasses alone are taken.
     *
     * @return true if so
     */
    public boolean asksForAssurance() {
        return assured;
    }

    /**
     * The rule for carcasses on the edge of a limit.
     *
     * @return to which side a grade counts
     */
    public EdgeRule edge() {
        return edge;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof MarketSpecification that
                && name.equals(that.name)
                && fromKg == that.fromKg
                && toKg == that.toKg
                && hot == that.hot
                && categories.equals(that.categories)
                && Objects.equals(lowestConformation, that.lowestConformation)
                && Objects.equals(highestConformation, that.highestConformation)
                && Objects.equals(leanest, that.leanest)
                && Objects.equals(fattest, that.fattest)
                && Objects.equals(underMonths, that.underMonths)
                && assured == that.assured
                && edge == that.edge;
    }

    @Override
    public int hashCode() {
        return Objects.hash(
                name,
                fromKg,
                toKg,
                hot,
                categories,
                lowestConformation,
                highestConformation,
                leanest,
                fattest,
                underMonths,
                assured,
                edge);
    }

    /**
     * Whether a carcass is in specification.
     *
     * @param carcass carcass
     * @return true if it misses no limit
     */
    @Override
    public boolean test(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        return check(carcass).isEmpty();
    }

    /**
     * Every limit that a carcass misses, with how far it is off.
     *
     * @param carcass carcass
     * @return reasons in the order weight, category, conformation, fat class, age, assurance; empty if it is in
     *     specification
     */
    public List<MarketFault> check(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        List<MarketFault> faults = new ArrayList<>();
        checkWeight(carcass, faults);
        if (!categories.contains(carcass.category())) {
            faults.add(new MarketFault(
                    MarketFault.Limit.CATEGORY,
                    MarketFault.Miss.NOT_TAKEN,
                    OptionalDouble.empty(),
                    "category " + carcass.category() + " is none of " + letters()));
        }
        checkConformation(carcass.conformation(), faults);
        checkFatClass(carcass.fatClass(), faults);
        checkAge(carcass, faults);
        if (assured && !carcass.assured().orElse(false)) {
            faults.add(new MarketFault(
                    MarketFault.Limit.ASSURANCE,
                    carcass.assured().isPresent() ? MarketFault.Miss.NOT_TAKEN : MarketFault.Miss.NOT_STATED,
                    OptionalDouble.empty(),
                    carcass.assured().isPresent()
                            ? "it is not farm-assured"
                            : "farm assurance is asked for and not stated"));
        }
        return faults;
    }

    private void checkWeight(Carcass carcass, List<MarketFault> faults) {
        double kg = hot ? CarcassWeights.hotFromCold(carcass.coldWeightKg()) : carcass.coldWeightKg();
        if (kg >= fromKg && kg <= toKg) {
            return;
        }
        double limit = kg < fromKg ? fromKg : toKg;
        double off = Math.abs(kg - limit);
        faults.add(new MarketFault(
                MarketFault.Limit.WEIGHT,
                kg < fromKg ? MarketFault.Miss.BELOW : MarketFault.Miss.ABOVE,
                OptionalDouble.of(off),
                (hot ? "hot" : "cold") + " weight " + Numbers.brief(kg) + " kg is " + Numbers.brief(off) + " kg "
                        + (kg < fromKg ? "below " : "above ") + Numbers.brief(limit) + " kg"));
    }

    private void checkConformation(Conformation grade, List<MarketFault> faults) {
        MarketFault.Limit limit = MarketFault.Limit.CONFORMATION;
        if (lowestConformation != null && edge.isBelow(grade, lowestConformation)) {
            double off = lowestConformation.position() - lowestConformation.width() / 2 - grade.position();
            faults.add(offGrade(limit, MarketFault.Miss.BELOW, grade, grade.width(), off, lowestConformation));
        }
        if (highestConformation != null && edge.isAbove(grade, highestConformation)) {
            double off = grade.position() - highestConformation.position() - highestConformation.width() / 2;
            faults.add(offGrade(limit, MarketFault.Miss.ABOVE, grade, grade.width(), off, highestConformation));
        }
    }

    private void checkFatClass(FatClass grade, List<MarketFault> faults) {
        MarketFault.Limit limit = MarketFault.Limit.FAT_CLASS;
        if (leanest != null && edge.isBelow(grade, leanest)) {
            double off = leanest.position() - leanest.width() / 2 - grade.position();
            faults.add(offGrade(limit, MarketFault.Miss.BELOW, grade, grade.width(), off, leanest));
        }
        if (fattest != null && edge.isAbove(grade, fattest)) {
            double off = grade.position() - fattest.position() - fattest.width() / 2;
            faults.add(offGrade(limit, MarketFault.Miss.ABOVE, grade, grade.width(), off, fattest));
        }
    }

    private static MarketFault offGrade(
            MarketFault.Limit limit, MarketFault.Miss miss, Object grade, double width, double points, Object ofLimit) {
        return new MarketFault(
                limit,
                miss,
                OptionalDouble.of(points),
                limit.words() + " " + grade + " is "
                        + (points == 0
                                ? "on the edge and counts as "
                                // from grade to grade, as people count, not to the edge of what the limit covers
                                : Thirds.words(points + width / 2) + " ")
                        + (miss == MarketFault.Miss.BELOW ? "below " : "above ") + ofLimit);
    }

    private void checkAge(Carcass carcass, List<MarketFault> faults) {
        OptionalInt age = carcass.ageMonths();
        if (underMonths == null || (age.isPresent() && age.getAsInt() < underMonths)) {
            return;
        }
        if (age.isEmpty()) {
            faults.add(new MarketFault(
                    MarketFault.Limit.AGE,
                    MarketFault.Miss.NOT_STATED,
                    OptionalDouble.empty(),
                    "its age is not stated and has to be under " + underMonths + " months"));
            return;
        }
        int over = age.getAsInt() - underMonths + 1;
        faults.add(new MarketFault(
                MarketFault.Limit.AGE,
                MarketFault.Miss.ABOVE,
                OptionalDouble.of(over),
                "age " + age.getAsInt() + " months is not under " + underMonths + " months"));
    }

    private String letters() {
        return categories.stream().map(Category::letter).collect(Collectors.joining(" "));
    }

    /**
     * One line: the name and every limit.
     *
     * @return such as {@code retail: 270 to 380 kg cold; category C A E; conformation R to U; fat class 3 to 4L (4= and
     *     4 count as 4L); under 30 months}
     */
    @Override
    public String toString() {
        List<String> limits = new ArrayList<>();
        if (fromKg > 0 || toKg < Double.POSITIVE_INFINITY) {
            limits.add(between(
                            fromKg > 0 ? Numbers.brief(fromKg) : null,
                            toKg < Double.POSITIVE_INFINITY ? Numbers.brief(toKg) : null)
                    + " kg " + (hot ? "hot" : "cold"));
        }
        if (categories.size() < Category.values().length) {
            limits.add("category " + letters());
        }
        if (lowestConformation != null || highestConformation != null) {
            limits.add("conformation " + between(lowestConformation, highestConformation)
                    + inBrackets(edge.words(stated(lowestConformation, highestConformation), List.of())));
        }
        if (leanest != null || fattest != null) {
            limits.add("fat class " + between(leanest, fattest)
                    + inBrackets(edge.words(List.of(), stated(leanest, fattest))));
        }
        if (underMonths != null) {
            limits.add("under " + underMonths + " months");
        }
        if (assured) {
            limits.add("farm-assured");
        }
        return name + ": " + (limits.isEmpty() ? "no limits" : String.join("; ", limits));
    }

    private static <T> List<T> stated(@Nullable T low, @Nullable T high) {
        return Stream.of(Optional.ofNullable(low), Optional.ofNullable(high))
                .flatMap(Optional::stream)
                .toList();
    }

    private static String inBrackets(List<String> rules) {
        return rules.isEmpty() ? "" : " (" + String.join(", ", rules) + ")";
    }

    private static String between(@Nullable Object low, @Nullable Object high) {
        if (low == null || high == null) {
            return low == null ? "up to " + high : "from " + low;
        }
        return low.equals(high) ? low.toString() : low + " to " + high;
    }
}
