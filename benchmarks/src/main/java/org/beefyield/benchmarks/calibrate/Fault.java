package org.beefyield.benchmarks.calibrate;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import org.beefyield.boning.Trial;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Finding.Kind;
import org.beefyield.carcass.Category;

/** What goes wrong with trials, and whether it is noticed. */
@SuppressWarnings("ImmutableEnumChecker")
enum Fault {
    NONE("no fault", 150, 15, trial -> trial.kg(), calibrated -> false),
    NONE_OF_BULLS("no fault and a quarter bulls", 600, 40, trial -> trial.kg(), calibrated -> false),
    NONE_OF_TABLE_BULLS(
            "no fault and a quarter bulls that differ as in the table",
            600,
            40,
            trial -> trial.kg(),
            calibrated -> false),
    NONE_OF_PRIMALS("no fault in primals", 60, 12, trial -> trial.kg(), calibrated -> false),
    LOSS(
            "10 g per kg more lost on a day",
            150,
            15,
            trial -> isOnDay(trial) ? times(trial, 0.99) : trial.kg(),
            calibrated -> isNamed(calibrated)),
    SWAPPED(
            "fat trim and bone swapped",
            150,
            15,
            trial -> swapped(trial),
            calibrated -> has(calibrated, Kind.SWAPPED, "fat-trim and bone")),
    SWAPPED_DAY(
            "fat trim and bone swapped on a day",
            150,
            15,
            trial -> isOnDay(trial) ? swapped(trial) : trial.kg(),
            calibrated -> isNamed(calibrated)
                    && calibrated.findings().stream()
                            .anyMatch(finding -> finding.message().contains("swapped"))),
    BULLS(
            "bulls have 12 g per kg more meat",
            600,
            40,
            trial -> trial.carcass().category() == Category.YOUNG_BULL ? meatier(trial, 12) : trial.kg(),
            calibrated -> has(calibrated, Kind.CATEGORY, "category A")),
    ONE_SIDE(
            "fillet of one side only",
            60,
            12,
            trial -> times(trial, "fillet", 0.5),
            calibrated -> has(calibrated, Kind.FAR, "fillet ")),
    POUNDS(
            "fillet in pounds",
            60,
            12,
            trial -> times(trial, "fillet", 2.20462),
            calibrated -> has(calibrated, Kind.FAR, "fillet ")),
    DAYS(
            "days differ 4 times as much as declared",
            150,
            15,
            trial -> trial.kg(),
            calibrated -> has(calibrated, Kind.RUNS, "days differ"));

    /** The day that is wrong. */
    private static final String DAY = "day-3";

    final String words;
    final int trials;
    final int days;
    private final Function<Trial, Map<String, Double>> made;
    private final Predicate<Calibrated> noticed;

    Fault(
            String words,
            int trials,
            int days,
            Function<Trial, Map<String, Double>> made,
            Predicate<Calibrated> noticed) {
        this.words = words;
        this.trials = trials;
        this.days = days;
        this.made = made;
        this.noticed = noticed;
    }

    boolean isNone() {
        return name().startsWith("NONE");
    }

    boolean isOfPrimals() {
        return this == NONE_OF_PRIMALS || this == ONE_SIDE || this == POUNDS;
    }

    /** Whether categories differ from each other exactly as in the table, and not only as far as it says that it may err. */
    boolean isOfTablesCategories() {
        return this == BULLS || this == NONE_OF_TABLE_BULLS;
    }

    List<Category> categories() {
        return isOfTablesCategories() || this == NONE_OF_BULLS
                ? List.of(Category.STEER, Category.STEER, Category.STEER, Category.YOUNG_BULL)
                : List.of(Category.STEER);
    }

    boolean isNoticed(Calibrated calibrated) {
        return noticed.test(calibrated);
    }

    List<Trial> in(List<Trial> trials) {
        return trials.stream()
                .map(trial -> Trial.of(trial.carcass(), made.apply(trial)).withDay(trial.day()))
                .toList();
    }

    private static boolean has(Calibrated calibrated, Kind kind, String words) {
        return calibrated.findings().stream()
                .anyMatch(finding -> finding.kind() == kind && finding.message().contains(words));
    }

    /** Whether the day that is wrong is named, or refused as one that doesn't balance. */
    private static boolean isNamed(Calibrated calibrated) {
        return has(calibrated, Kind.DAY, "day " + DAY + " ")
                || calibrated.trials().refusedDays().stream().anyMatch(line -> line.contains(DAY + ":"));
    }

    private static boolean isOnDay(Trial trial) {
        return trial.day().equals(DAY);
    }

    private static Map<String, Double> times(Trial trial, double factor) {
        Map<String, Double> kg = new LinkedHashMap<>();
        trial.kg().forEach((cut, of) -> kg.put(cut, factor * of));
        return kg;
    }

    private static Map<String, Double> times(Trial trial, String cut, double factor) {
        Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
        kg.computeIfPresent(cut, (any, of) -> factor * of);
        return kg;
    }

    private static Map<String, Double> swapped(Trial trial) {
        Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
        kg.put("fat-trim", trial.kg().get("bone"));
        kg.put("bone", trial.kg().get("fat-trim"));
        return kg;
    }

    private static Map<String, Double> meatier(Trial trial, double gPerKg) {
        double more = gPerKg / 1000 * trial.carcass().coldWeightKg();
        Map<String, Double> kg = new LinkedHashMap<>(trial.kg());
        kg.computeIfPresent("meat", (any, of) -> of + more);
        kg.computeIfPresent("fat-trim", (any, of) -> Math.max(0, of - more));
        return kg;
    }
}
