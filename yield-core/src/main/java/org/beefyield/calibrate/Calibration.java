package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Learns the breakdowns of a table from boning trials, in the table's own terms. Immutable; each {@code with} gives another.
 *
 * <p>The share of each child is its coefficients times the terms of the carcass, plus what the day of boning has in common, plus
 * the carcass's own. What the prior table knows counts as far as it is sure of it: its standard errors of coefficients and its
 * hall part are the covariance of its coefficients, and the coefficients that come out are the most likely ones given both
 * (generalized least squares). How days and carcasses differ is estimated with it (REML), the table's own SDs counting for 10
 * degrees of freedom. A table that says of no level of a breakdown how sure it is counts for nothing there: the trials
 * alone say.
 *
 * <p>How much is fitted of each breakdown is a ladder: all terms, without the optional ones, without weight, the levels alone,
 * nothing; each with categories moving by themselves too if the table has errors of their own for them. The step is taken that,
 * fitted to the other days, errs least on each; and if the table with it doesn't keep its promises, the next lower one that
 * does. So there is always a table.
 *
 * <p>Where the trials alone err less on other days than with what the table knows, beyond chance, the hall is another one than the
 * table thinks possible: then the trials alone count, and a finding says so.
 *
 * <p>The coefficients add up by themselves, levels to 1000 g/kg and all others to 0. The order of the trials doesn't matter.
 */
public final class Calibration {
    /** Part of the trials from which on a cell that they leave blank is a finding. */
    private static final double MANY = 0.1;

    /** An accepted trial and the place of its rows, by which the order that trials are given in doesn't matter. */
    private static final class Place {
        final Trial trial;
        double[] terms;
        int rank;

        Place(Trial trial, double[] terms) {
            this.trial = trial;
            this.terms = terms;
        }
    }

    /** What is fitted by itself: a breakdown, or a category of it, with its rows. */
    private record Weighed(
            WeighedBreakdown breakdown, @Nullable Category category, List<BreakdownModel.Row> rows) {}

    /** What came of it; no candidates if nothing could be fitted. */
    private record Fitted(List<Candidates> candidates, List<Finding> findings) {
        static Fitted not(Finding why) {
            return new Fitted(List.of(), List.of(why));
        }
    }

    private final TrialSet trials;
    private final List<String> terms;
    /** Whether the terms are those that the caller wants. */
    private final boolean isAsked;

    private final Set<String> parents;
    private final Categories categories;
    private final boolean withPrior;
    private final ToDoubleFunction<Trial> weight;

    private Calibration(
            TrialSet trials,
            List<String> terms,
            boolean isAsked,
            Set<String> parents,
            Categories categories,
            boolean withPrior,
            ToDoubleFunction<Trial> weight) {
        this.trials = trials;
        this.terms = terms;
        this.isAsked = isAsked;
        this.parents = parents;
        this.categories = categories;
        this.withPrior = withPrior;
        this.weight = weight;
    }

    /**
     * All terms of the table, for every breakdown that was weighed.
     *
     * @param trials trials against the prior table
     * @return the calibration
     */
    public static Calibration of(TrialSet trials) {
        Objects.requireNonNull(trials, "trials");
        Set<String> all = new LinkedHashSet<>();
        trials.breakdowns().forEach(breakdown -> all.add(breakdown.parent()));
        return new Calibration(
                trials,
                trials.table().definition().coefficientColumns(),
                false,
                all,
                Categories.LEVELS,
                true,
                trial -> 1);
    }

    /**
     * Fits just these of the table's terms, be it that fewer err less, and only fewer if the table doesn't hold with them; the others
     * keep the coefficients of the prior table. Without the prior and days that is R's {@code lm} in the given terms with the
     * others in its {@code offset}.
     *
     * @param columns columns of the terms, the level among them
     * @return a calibration
     * @throws IllegalArgumentException if the table has no such term or the level is missing
     */
    public Calibration withTerms(String... columns) {
        Checks.noNullIn(columns, "columns");
        List<String> known = trials.table().definition().coefficientColumns();
        List<String> wanted = List.of(columns);
        for (String column : wanted) {
            if (!known.contains(column)) {
                throw new IllegalArgumentException("no term \"" + column + "\"; terms: " + String.join(", ", known));
            }
        }
        if (!wanted.contains(known.get(0))) {
            throw new IllegalArgumentException(
                    "the term " + known.get(0) + " is missing; no breakdown closes without it");
        }
        return new Calibration(
                trials, known.stream().filter(wanted::contains).toList(), true, parents, categories, withPrior, weight);
    }

    /**
     * Fits only some breakdowns; all others stay as they are in the prior table.
     *
     * @param cuts codes of the cuts that are broken down, or {@code carcass}
     * @return a calibration
     * @throws IllegalArgumentException if the table doesn't break a cut down by coefficients in a way that was cut to
     */
    public Calibration withBreakdowns(String... cuts) {
        Checks.noNullIn(cuts, "cuts");
        Set<String> wanted = new LinkedHashSet<>(List.of(cuts));
        for (String cut : wanted) {
            if (trials.breakdowns().stream()
                    .noneMatch(breakdown -> breakdown.parent().equals(cut))) {
                throw new IllegalArgumentException(
                        "table " + trials.table().definition().name() + " has no breakdown of \"" + cut
                                + "\" by coefficients in a way that was cut to");
            }
        }
        return new Calibration(trials, terms, isAsked, wanted, categories, withPrior, weight);
    }

    /**
     * Learns categories otherwise; else {@link Categories#LEVELS}.
     *
     * @param how how
     * @return a calibration
     */
    public Calibration withCategories(Categories how) {
        Objects.requireNonNull(how, "how");
        return new Calibration(trials, terms, isAsked, parents, how, withPrior, weight);
    }

    /**
     * Takes the trials alone: what the prior table knows counts for nothing, and what they can't tell stays out of the fit.
     *
     * @return a calibration
     */
    public Calibration withoutPrior() {
        return new Calibration(trials, terms, isAsked, parents, categories, false, weight);
    }

    /**
     * Weighs trials differently.
     *
     * @param ofTrial weight of a trial, above 0: a carcass whose residual variance is half as large has twice the weight
     * @return a calibration
     */
    public Calibration withWeights(ToDoubleFunction<Trial> ofTrial) {
        Objects.requireNonNull(ofTrial, "ofTrial");
        return new Calibration(trials, terms, isAsked, parents, categories, withPrior, ofTrial);
    }

    /**
     * Learns.
     *
     * @return what came of it: a table, how sure it is, and what a person should look at
     * @throws IllegalArgumentException if a weight isn't above 0
     */
    public Calibrated fit() {
        List<Candidates> all = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        trials.selection()
                .ifPresent(selection ->
                        findings.add(new Finding(Finding.Kind.SELECTED, BreakdownRow.ROOT, selection.toString())));
        trials.blanks().stream()
                .filter(blank -> parents.contains(blank.parent()) && blank.trials() >= MANY * blank.of())
                .forEach(blank -> findings.add(new Finding(
                        Finding.Kind.BLANK,
                        blank.parent(),
                        FindingText.blank(blank.toString(), blank.trials() == blank.of()))));
        Terms ofTable = new Terms(trials.table().definition());
        List<Place> places = places(ofTable);
        List<Weighed> weighed = new ArrayList<>();
        for (WeighedBreakdown breakdown : trials.breakdowns()) {
            if (!parents.contains(breakdown.parent())
                    || (breakdown.rows().isEmpty() && breakdown.partlyWeighed().isEmpty())) {
                continue;
            }
            if (categories == Categories.APART) {
                trials.table()
                        .definition()
                        .categories()
                        .forEach(category ->
                                weighed.add(new Weighed(breakdown, category, rows(breakdown, category, places))));
            } else {
                weighed.add(new Weighed(breakdown, null, rows(breakdown, null, places)));
            }
        }
        // none hangs on another
        List<Fitted> fitted =
                weighed.parallelStream().map(one -> fit(one, ofTable)).toList();
        fitted.forEach(one -> {
            all.addAll(one.candidates());
            findings.addAll(one.findings());
        });
        return new Calibrated(trials, all, findings);
    }

    private Fitted fit(Weighed weighed, Terms ofTable) {
        List<BreakdownModel.Row> rows = weighed.rows();
        Category category = weighed.category();
        PriorBreakdown prior = new PriorBreakdown(weighed.breakdown(), trials.table());
        if (rows.isEmpty()) {
            String name = weighed.breakdown().name() + (category == null ? "" : " (category " + category + ")");
            return Fitted.not(new Finding(Finding.Kind.NOT_FITTED, name, FindingText.NOTHING_WEIGHED));
        }
        List<Finding> findings = new ArrayList<>();
        BreakdownModel model = model(prior, category, rows, ofTable, withPrior);
        Candidates candidates = new Candidates(model, ofTable.columns, isAsked);
        if (!model.isFree && model.isFarFromPrior()) {
            Candidates alone = new Candidates(model(prior, category, rows, ofTable, false), ofTable.columns, isAsked);
            if (candidates.isContradictedBy(alone)) {
                findings.add(
                        new Finding(Finding.Kind.CONTRADICTED, BreakdownFit.name(model), FindingText.CONTRADICTED));
                candidates = alone;
            }
        }
        if (candidates.isEmpty()) {
            return Fitted.not(
                    new Finding(Finding.Kind.NOT_FITTED, BreakdownFit.name(model), FindingText.notFitted(rows.size())));
        }
        findings.addAll(Diagnostics.of(candidates));
        return new Fitted(List.of(candidates), findings);
    }

    private BreakdownModel model(
            PriorBreakdown prior,
            @Nullable Category category,
            List<BreakdownModel.Row> rows,
            Terms ofTable,
            boolean counting) {
        return new BreakdownModel(
                prior,
                category,
                rows,
                ofTable,
                terms.stream().map(ofTable.columns::indexOf).toList(),
                counting,
                categories);
    }

    /** The accepted trials as they were given. */
    private List<Place> places(Terms ofTable) {
        List<Place> places = trials.accepted().stream()
                .map(trial -> new Place(trial, ofTable.of(trial.carcass())))
                .toList();
        List<Place> sorted = new ArrayList<>(places);
        sorted.sort(Comparator.comparing((Place place) -> place.terms, Arrays::compare)
                .thenComparing(place -> place.trial.id()));
        for (int rank = 0; rank < sorted.size(); rank++) {
            Place place = sorted.get(rank);
            place.rank = rank;
            // lie in memory as rows are gone through, many times
            place.terms = place.terms.clone();
        }
        return places;
    }

    /** Trials that weighed all of a breakdown, and those that weighed some of it, each list as the trials were given. */
    private List<BreakdownModel.Row> rows(WeighedBreakdown breakdown, @Nullable Category category, List<Place> places) {
        int parts = breakdown.parts().size();
        Place[] byRank = new Place[places.size()];
        IntToDoubleFunction[] sharesByRank = new IntToDoubleFunction[places.size()];
        Iterator<Place> of = places.iterator();
        for (WeighedBreakdown.Row row : breakdown.rows()) {
            Place place = next(of, row.trial());
            byRank[place.rank] = place;
            sharesByRank[place.rank] = row.shares()::get;
        }
        of = places.iterator();
        for (WeighedBreakdown.PartRow row : breakdown.partlyWeighed()) {
            Place place = next(of, row.trial());
            byRank[place.rank] = place;
            sharesByRank[place.rank] = part -> row.shares().getOrDefault(part, Double.NaN);
        }
        List<BreakdownModel.Row> rows = new ArrayList<>();
        for (int rank = 0; rank < byRank.length; rank++) {
            Place place = byRank[rank];
            if (place != null && (category == null || place.trial.carcass().category() == category)) {
                double[] shares = new double[parts];
                Arrays.setAll(shares, sharesByRank[rank]);
                rows.add(new BreakdownModel.Row(place.trial, shares, place.terms, checkedWeight(place.trial)));
            }
        }
        return List.copyOf(rows);
    }

    private static Place next(Iterator<Place> places, Trial trial) {
        Place place = places.next();
        while (!place.trial.equals(trial)) {
            place = places.next();
        }
        return place;
    }

    private double checkedWeight(Trial trial) {
        double of = weight.applyAsDouble(trial);
        if (!(of > 0 && Double.isFinite(of))) {
            throw new IllegalArgumentException(
                    "carcass " + trial.id() + ": weight " + of + " in the fit is not above 0");
        }
        return of;
    }
}
