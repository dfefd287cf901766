package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.feedback.AdviceFact.Cause;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.table.definition.Range;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * One sentence on what a supplier could do before the next sale, for animals that a customer doesn't take. It asks for
 * nothing that another limit of the customer forbids: an animal that is light and already fat isn't told to stay longer, nor
 * one that is about to be too old. Where nothing harmless can be said it is silent.
 */
final class Advice {
    /**
     * What a month on feed brings, so that advice can see where it leads: kg of carcass, and points of fat. Common practice
     * for finishing cattle, no source.
     */
    static final double KG_A_MONTH = 20;

    static final double FAT_POINTS_A_MONTH = 1;

    /** Months beyond which no sale was a matter of booking. Ours. */
    static final int MOST_MONTHS = 3;

    /** Whose weight and age the time of sale doesn't decide. */
    private static final Set<Category> MATURE = Set.of(Category.COW, Category.BULL);

    private final MarketSpecification market;
    private final @Nullable Overfat overfat;
    private final ToDoubleFunction<YieldEstimate> weight;

    /**
     * Advice for one customer.
     *
     * @param overfat what it costs to be fatter than a target, or null to leave that out
     * @param weight what an animal counts for when causes are ranked: its worth, or 1 where there are no prices
     */
    Advice(MarketSpecification market, @Nullable Overfat overfat, ToDoubleFunction<YieldEstimate> weight) {
        this.market = market;
        this.overfat = overfat;
        this.weight = weight;
    }

    /** The sentence about the cause that most is lost by, of those that a supplier can do something about first. */
    Optional<String> of(List<YieldEstimate> animals) {
        return fact(animals).map(fact -> sentence(fact.cause(), fact.animals(), animals.size()));
    }

    /** What that sentence is about. */
    Optional<AdviceFact> fact(List<YieldEstimate> animals) {
        Map<Cause, List<YieldEstimate>> byCause = new EnumMap<>(Cause.class);
        Map<Cause, Double> stakes = new EnumMap<>(Cause.class);
        for (YieldEstimate animal : animals) {
            List<Cause> causes = causes(animal.carcass());
            double stake = causes.isEmpty() ? 0 : weight.applyAsDouble(animal);
            for (Cause cause : causes) {
                byCause.computeIfAbsent(cause, any -> new ArrayList<>()).add(animal);
                stakes.merge(cause, stake, Double::sum);
            }
        }
        // of equals the one that stands first
        return byCause.keySet().stream()
                .max(Comparator.<Cause>comparingInt(cause -> isSettledAtBirth(cause) ? 0 : 1)
                        .thenComparingDouble(cause -> stakes.getOrDefault(cause, 0.0)))
                .map(cause -> new AdviceFact(cause, byCause.getOrDefault(cause, List.of())));
    }

    private static boolean isSettledAtBirth(Cause cause) {
        return cause == Cause.CATEGORY
                || cause == Cause.PLAINER
                || cause == Cause.BETTER
                || cause == Cause.OLDER_CATTLE;
    }

    /** What may be said about an animal without harm. */
    private List<Cause> causes(Carcass carcass) {
        Map<MarketFault.Limit, MarketFault> faults = new EnumMap<>(MarketFault.Limit.class);
        market.check(carcass).forEach(fault -> faults.put(fault.limit(), fault));
        // an animal of a category that isn't taken can't be brought in by weight, fat or age
        if (faults.containsKey(MarketFault.Limit.CATEGORY)) {
            return List.of(Cause.CATEGORY);
        }
        boolean old = misses(faults, MarketFault.Limit.AGE, MarketFault.Miss.ABOVE);
        if (old && (MATURE.contains(carcass.category()) || distance(faults, MarketFault.Limit.AGE) > MOST_MONTHS)) {
            return List.of(Cause.OLDER_CATTLE);
        }
        List<Cause> causes = new ArrayList<>();
        if (!MATURE.contains(carcass.category())) {
            addMatterOfTime(causes, carcass, faults);
        }
        addIf(causes, Cause.NO_AGE, faults, MarketFault.Limit.AGE, MarketFault.Miss.NOT_STATED);
        addIf(causes, Cause.NOT_ASSURED, faults, MarketFault.Limit.ASSURANCE, MarketFault.Miss.NOT_TAKEN);
        addIf(causes, Cause.ASSURANCE_NOT_STATED, faults, MarketFault.Limit.ASSURANCE, MarketFault.Miss.NOT_STATED);
        addIf(causes, Cause.PLAINER, faults, MarketFault.Limit.CONFORMATION, MarketFault.Miss.BELOW);
        addIf(causes, Cause.BETTER, faults, MarketFault.Limit.CONFORMATION, MarketFault.Miss.ABOVE);
        return causes;
    }

    /** Adds what a sale sooner or later would have mended, if it would not have missed another limit instead. */
    private void addMatterOfTime(List<Cause> causes, Carcass carcass, Map<MarketFault.Limit, MarketFault> faults) {
        double kgMonths = distance(faults, MarketFault.Limit.WEIGHT) / KG_A_MONTH;
        double fatMonths = distance(faults, MarketFault.Limit.FAT_CLASS) / FAT_POINTS_A_MONTH;
        boolean light = misses(faults, MarketFault.Limit.WEIGHT, MarketFault.Miss.BELOW);
        boolean lean = misses(faults, MarketFault.Limit.FAT_CLASS, MarketFault.Miss.BELOW);
        boolean heavy = misses(faults, MarketFault.Limit.WEIGHT, MarketFault.Miss.ABOVE);
        boolean fat = misses(faults, MarketFault.Limit.FAT_CLASS, MarketFault.Miss.ABOVE);
        boolean old = misses(faults, MarketFault.Limit.AGE, MarketFault.Miss.ABOVE);
        double later = Math.max(light ? kgMonths : 0, lean ? fatMonths : 0);
        double sooner = Math.max(
                Math.max(heavy ? kgMonths : 0, fat ? fatMonths : 0), old ? distance(faults, MarketFault.Limit.AGE) : 0);
        boolean maySooner = !light && !lean && fits(carcass, -sooner, MarketFault.Miss.BELOW);
        boolean mayLater = !heavy && !fat && !old && fits(carcass, later, MarketFault.Miss.ABOVE);
        addIf(causes, Cause.TOO_LIGHT, light && mayLater);
        addIf(causes, Cause.TOO_LEAN, lean && mayLater);
        addIf(causes, Cause.TOO_HEAVY, heavy && maySooner);
        addIf(causes, Cause.TOO_FAT, fat && maySooner);
        addIf(causes, Cause.TOO_OLD, old && maySooner);
        addIf(causes, Cause.FAT_FOR_WEIGHT, fat && !heavy && !maySooner);
    }

    /** Whether an animal sold so many months later, or sooner, misses no limit on the side to which it would move. */
    private boolean fits(Carcass carcass, double months, MarketFault.Miss side) {
        double kg = carcass.coldWeightKg() + months * KG_A_MONTH;
        Range fatScale = GradeAxes.EU.fat().range();
        double fat = Math.min(
                fatScale.high(), Math.max(fatScale.low(), carcass.fatClass().position() + months * FAT_POINTS_A_MONTH));
        if (!(kg > 0)) {
            return false;
        }
        Carcass moved = Carcass.of(carcass.category(), carcass.conformation(), FatClass.ofPosition(fat, 0), kg);
        OptionalInt age = carcass.ageMonths();
        if (months > 0 && age.isPresent()) {
            try {
                moved = moved.withAgeMonths(age.getAsInt() + (int) Math.ceil(months));
            } catch (IllegalArgumentException e) {
                // a young bull would be a bull by then, a calf no calf
                return false;
            }
        }
        // sooner it was younger: its age can't be what keeps it out
        return market.check(moved).stream()
                .filter(fault -> fault.limit() == MarketFault.Limit.WEIGHT
                        || fault.limit() == MarketFault.Limit.FAT_CLASS
                        || (fault.limit() == MarketFault.Limit.AGE && months > 0))
                .noneMatch(fault -> fault.miss() == side || fault.miss() == MarketFault.Miss.NOT_STATED);
    }

    private static boolean misses(
            Map<MarketFault.Limit, MarketFault> faults, MarketFault.Limit limit, MarketFault.Miss miss) {
        MarketFault fault = faults.get(limit);
        return fault != null && fault.miss() == miss;
    }

    private static double distance(Map<MarketFault.Limit, MarketFault> faults, MarketFault.Limit limit) {
        MarketFault fault = faults.get(limit);
        return fault == null ? 0 : fault.distance().orElse(0);
    }

    private static void addIf(List<Cause> causes, Cause cause, boolean so) {
        if (so) {
            causes.add(cause);
        }
    }

    private static void addIf(
            List<Cause> causes,
            Cause cause,
            Map<MarketFault.Limit, MarketFault> faults,
            MarketFault.Limit limit,
            MarketFault.Miss miss) {
        addIf(causes, cause, misses(faults, limit, miss));
    }

    private String sentence(Cause cause, List<YieldEstimate> missing, int all) {
        int count = missing.size();
        boolean one = count == 1;
        String who = all == 1
                ? "it was"
                : count == all
                        ? (count == 2 ? "both were" : "all " + count + " were")
                        : count + " of " + all + (one ? " was" : " were");
        String they = one ? "it" : "they";
        String them = one ? "it" : "them";
        return who
                + switch (cause) {
                    case TOO_HEAVY ->
                        " heavier than this customer takes; sent in sooner, " + they + " would be within the limit.";
                    case TOO_LIGHT ->
                        " lighter than this customer takes; a little longer on feed would bring " + them + " in.";
                    case TOO_FAT ->
                        " fatter than this customer takes; drawn sooner " + they + " would have " + lessFat(missing);
                    case TOO_LEAN ->
                        " leaner than this customer takes; a longer finish would cover " + them + " better.";
                    case TOO_OLD ->
                        " older than this customer takes; booked in earlier " + they + " would be under age.";
                    case FAT_FOR_WEIGHT ->
                        " fatter for the weight than this customer takes; sooner " + they
                                + " would be too light and later fatter still, so feed and breed are what to look at.";
                    case NO_AGE -> " sent in without an age; with one " + they + " may be in specification.";
                    case NOT_ASSURED ->
                        " not farm-assured, which this customer asks for; assurance has to be in place on the day.";
                    case ASSURANCE_NOT_STATED ->
                        " sent in without a word on farm assurance; with it " + they + " may be in specification.";
                    case OLDER_CATTLE ->
                        " older than this customer takes; ask the plant for an outlet for older cattle.";
                    case CATEGORY ->
                        " of a category that this customer doesn't take; ask the plant for another outlet.";
                    case PLAINER ->
                        " of plainer shape than this customer takes; shape comes from breed and sire more than from"
                                + " feed.";
                    case BETTER ->
                        " of better shape than this customer asks for; ask the plant for an outlet that pays for it.";
                };
    }

    private String lessFat(List<YieldEstimate> fat) {
        String plain = "lost less to fat trim and taken less feed.";
        return overfat == null
                ? plain
                : overfat.cost(fat.stream().map(YieldEstimate::carcass).toList())
                        .map(cost -> "taken less feed, and at " + overfat.target()
                                + " and the same weight there would be about "
                                + Numbers.fixed(cost.extraFatTrim().kg(), 0) + " kg less fat trim.")
                        .orElse(plain);
    }
}
