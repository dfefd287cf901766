package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.beefyield.boning.Trial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableRange;
import org.jspecify.annotations.Nullable;

/**
 * The trials of one breakdown as rows of a regression, with what the prior table knows of the coefficients, and how its rungs
 * are fitted and judged.
 */
final class BreakdownModel {
    /** Days from which on a hall's own runs tell how they differ. */
    static final int DAYS = 5;

    /** Degrees of freedom that an SD of the prior table counts for. */
    static final double PRIOR_DEGREES = 10;

    /** Days for each contrast of children from which on they tell a covariance of which nothing is declared. */
    private static final int DAYS_OF_CONTRAST = 2;

    private static final int FOLDS = 40;

    /** SDs from which on a mean is far. */
    private static final double FAR = 3.5;

    /** One trial of the breakdown, shares of the parts in g/kg, NaN where one wasn't weighed, the terms of its carcass and its weight in the fit. */
    @SuppressWarnings("ArrayRecordComponent")
    record Row(Trial trial, double[] shares, double[] terms, double weight) {}

    /** Unknowns of a fit: by category, columns by children, what each does. */
    @SuppressWarnings("ArrayRecordComponent")
    record Unknowns(List<Map<Category, double[][]>> loadings, boolean[] free) {}

    final PriorBreakdown prior;
    final @Nullable Category category;
    final List<Row> rows;
    final List<String> days;
    final boolean isFree;
    final List<Integer> asked;
    final List<Category> categories;
    /** The narrowest grade among the trials, in positions. */
    final double finestWidth;
    /** What the carcasses range over. */
    final TableRange range;

    private final Terms terms;
    private final List<PriorBreakdown.Draw> draws;
    private final Categories how;
    private final int[] groups;
    /** The day of each row, or where there are few a fold of its own. */
    private final int[] folds;

    private final int foldCount;
    /** Of these, those that are left out together. */
    private final List<int[]> out;

    private final double[][] x;
    private final double[][] shares;
    private final double[] weights;
    /** Rows of each day. */
    private final int[] ofDay;

    private final int[] kinds;
    /** By category, terms of its rows over the number of all rows. */
    private final double[][] meanTerms;
    /** Rows of each category that has any. */
    private final Map<Category, Integer> weighed = new LinkedHashMap<>();
    /** By category, columns by children. */
    private final Map<Category, double[][]> known = new LinkedHashMap<>();
    /** The same by parts, in the order of the categories. */
    private final List<double[][]> knownOfParts;

    private final boolean knowsDays;
    private boolean doubtsRuns;
    /** Means over the rows of what the prior table states, children by children. */
    private final double[][] declaredOfCarcasses;

    private final double[][] declaredOfLots;
    private final double[][] declaredOfRuns;
    /** Once they were asked for. */
    private @Nullable Means means;
    /** By what the rows stand in groups by, a fit whose sums over the rows serve all others. */
    private final IdentityHashMap<int[], GroupedRegression> fitted = new IdentityHashMap<>();

    BreakdownModel(
            PriorBreakdown prior,
            @Nullable Category category,
            List<Row> rows,
            Terms terms,
            List<Integer> asked,
            boolean withPrior,
            Categories how) {
        this.prior = prior;
        this.category = category;
        this.rows = rows;
        this.terms = terms;
        this.asked = asked;
        this.how = how;
        this.draws = prior.draws();
        this.categories = prior.served.stream()
                .filter(one -> category == null || one == category)
                .toList();
        categories.forEach(one -> known.put(one, prior.coefficients(one)));
        this.knownOfParts =
                categories.stream().map(one -> columnsOfParts(known(one))).toList();
        int n = rows.size();
        this.x = new double[n][];
        this.shares = new double[n][];
        this.weights = new double[n];
        this.kinds = new int[n];
        this.groups = new int[n];
        this.meanTerms = new double[categories.size()][terms.columns.size()];
        int[] ofKinds = new int[categories.size()];
        Map<Category, Integer> kindOf = new EnumMap<>(Category.class);
        categories.forEach(one -> kindOf.put(one, categories.indexOf(one)));
        Map<String, Integer> numbers = new HashMap<>();
        double finest = Double.POSITIVE_INFINITY;
        DoubleSummaryStatistics conformation = new DoubleSummaryStatistics();
        DoubleSummaryStatistics fat = new DoubleSummaryStatistics();
        DoubleSummaryStatistics weightKg = new DoubleSummaryStatistics();
        for (int i = 0; i < n; i++) {
            Row row = rows.get(i);
            Carcass carcass = row.trial().carcass();
            x[i] = row.terms();
            shares[i] = row.shares();
            weights[i] = row.weight();
            kinds[i] = kindOf.getOrDefault(carcass.category(), -1);
            ofKinds[kinds[i]]++;
            groups[i] = numbers.computeIfAbsent(row.trial().day(), day -> numbers.size());
            finest = Math.min(
                    finest,
                    Math.min(carcass.conformation().width(), carcass.fatClass().width()));
            conformation.accept(carcass.conformation().position());
            fat.accept(carcass.fatClass().position());
            weightKg.accept(carcass.coldWeightKg());
            for (int j = 0; j < x[i].length; j++) {
                meanTerms[kinds[i]][j] += x[i][j] / n;
            }
        }
        this.finestWidth = finest;
        this.range = new TableRange(range(conformation), range(fat), range(weightKg));
        this.days = numbers.keySet().stream().sorted().toList();
        int[] places = new int[days.size()];
        for (int day = 0; day < places.length; day++) {
            places[numbers.getOrDefault(days.get(day), 0)] = day;
        }
        this.ofDay = new int[places.length];
        for (int i = 0; i < n; i++) {
            groups[i] = places[groups[i]];
            ofDay[groups[i]]++;
        }
        this.knowsDays = Arrays.stream(ofDay).filter(count -> count > 1).count() >= DAYS;
        this.folds = knowsDays
                ? groups
                : IntStream.range(0, n).map(i -> i % Math.min(n, FOLDS)).toArray();
        this.foldCount = knowsDays ? days.size() : Math.min(n, FOLDS);
        int together = Math.min(FOLDS, foldCount);
        this.out = IntStream.range(0, together)
                .mapToObj(fold -> IntStream.range(0, foldCount)
                        .filter(g -> g % together == fold)
                        .toArray())
                .toList();
        for (int kind = 0; kind < ofKinds.length; kind++) {
            if (ofKinds[kind] > 0) {
                weighed.put(categories.get(kind), ofKinds[kind]);
            }
        }
        this.declaredOfCarcasses = meanCovariance(null);
        this.declaredOfLots = meanCovariance(SharedBy.LOT);
        this.declaredOfRuns = meanCovariance(SharedBy.RUN);
        // a table that doesn't say how sure it is of the level of a category that was boned says nothing of the hall
        this.isFree = !withPrior || !categoriesWeighed().stream().allMatch(this::statesLevel);
    }

    private static Range range(DoubleSummaryStatistics of) {
        return new Range(of.getMin(), of.getMax());
    }

    private boolean statesLevel(Category of) {
        return draws.stream()
                .map(draw -> draw.ofCategory().get(of))
                .anyMatch(
                        loading -> loading != null && Arrays.stream(loading[0]).anyMatch(value -> value != 0));
    }

    List<Rung> ladder() {
        boolean canOwn = category == null
                && how == Categories.LEVELS
                && (isFree ? categoriesWeighed().size() > 1 : draws.stream().anyMatch(PriorBreakdown.Draw::own));
        return Rung.ladder(asked, canOwn);
    }

    int count(Category of) {
        return weighed.getOrDefault(of, 0);
    }

    List<Category> categoriesWeighed() {
        return List.copyOf(weighed.keySet());
    }

    double[][] known(Category of) {
        return PriorBreakdown.of(known, of);
    }

    /** Values of the terms at a place. */
    double[] terms(double conformation, double fat, double weightKg) {
        return terms.of(conformation, fat, weightKg);
    }

    double terms(int row, int column) {
        return x[row][column];
    }

    /** Shares of the parts of a row, g/kg, NaN where one wasn't weighed; not to be changed. */
    double[] shares(int row) {
        return shares[row];
    }

    /** The place of a row's category among the {@link #categories}. */
    int kindOf(int row) {
        return kinds[row];
    }

    double weight(int row) {
        return weights[row];
    }

    /** Whether a row of a table is one that a fit of it writes. */
    boolean has(BreakdownRow row) {
        return row.parent().equals(prior.weighed.parent())
                && (row.way().equals(prior.weighed.way()) || row.way().equals(BreakdownRow.ANY))
                && (category == null || row.category().contains(category.letter()));
    }

    /** Name of a part. */
    String part(int number) {
        return prior.weighed.parts().get(number).name();
    }

    int dayOf(int row) {
        return groups[row];
    }

    /** Whether the trials say how days differ: on days enough two carcasses or more, for one alone doesn't tell its day from itself. */
    boolean knowsDays() {
        return knowsDays;
    }

    /** Trials without a day, which count as of one; 0 if no trial has one. */
    long withoutDay() {
        // sorted, so that none stands first
        return days.size() > 1 && days.get(0).isEmpty() ? ofDay[0] : 0;
    }

    /** What the prior table states of runs. */
    boolean statesRuns() {
        return !isZero(declared(SharedBy.RUN));
    }

    /** Unknowns of a rung: first those that it fits, then those that stay as the prior table knows them. */
    Unknowns unknowns(Rung rung) {
        Unknowns unknowns = isFree
                ? freeUnknowns(rung)
                : ofDraws(draws.stream().filter(rung::fits).toList());
        return rung.bend() == 0
                ? unknowns
                : new Unknowns(
                        unknowns.loadings().stream()
                                .map(loadings -> prior.bent(loadings, rung.bend()))
                                .toList(),
                        unknowns.free());
    }

    /** What stays as uncertain as in the prior table. */
    Unknowns kept(Rung rung) {
        return isFree
                ? new Unknowns(List.of(), new boolean[0])
                : ofDraws(draws.stream().filter(draw -> !rung.fits(draw)).toList());
    }

    private Unknowns ofDraws(List<PriorBreakdown.Draw> some) {
        List<Map<Category, double[][]>> loadings = new ArrayList<>();
        for (PriorBreakdown.Draw draw : some) {
            Map<Category, double[][]> ofCategory = new LinkedHashMap<>();
            for (Category one : categories) {
                ofCategory.put(one, draw.ofCategory().getOrDefault(one, new double[terms.columns.size()][children()]));
            }
            if (!ofCategory.values().stream().allMatch(BreakdownModel::isZero)) {
                loadings.add(ofCategory);
            }
        }
        return new Unknowns(loadings, new boolean[loadings.size()]);
    }

    private int children() {
        return prior.weighed.children().size();
    }

    /** Nothing is known: each term moves the parts any way that closes, members of a part in proportion to their levels. */
    private Unknowns freeUnknowns(Rung rung) {
        List<Map<Category, double[][]>> loadings = new ArrayList<>();
        List<Category> weighed = categoriesWeighed();
        for (int column : rung.columns()) {
            addFree(loadings, column, categories);
        }
        if (rung.own()) {
            for (int i = 1; i < weighed.size(); i++) {
                addFree(loadings, 0, List.of(weighed.get(i)));
            }
        }
        boolean[] free = new boolean[loadings.size()];
        Arrays.fill(free, true);
        return new Unknowns(loadings, free);
    }

    private void addFree(List<Map<Category, double[][]>> loadings, int column, List<Category> moved) {
        int parts = prior.weighed.parts().size();
        for (int part = 0; part < parts - 1; part++) {
            Map<Category, double[][]> ofCategory = new LinkedHashMap<>();
            for (Category one : categories) {
                double[][] of = new double[terms.columns.size()][children()];
                if (moved.contains(one)) {
                    share(one, part, 1, of[column]);
                    share(one, parts - 1, -1, of[column]);
                }
                ofCategory.put(one, of);
            }
            loadings.add(ofCategory);
        }
    }

    private void share(Category of, int part, double much, double[] to) {
        List<Integer> members = prior.weighed.parts().get(part).members();
        double levels =
                members.stream().mapToDouble(member -> known(of)[0][member]).sum();
        for (int member : members) {
            to[member] += much * (levels > 0 ? known(of)[0][member] / levels : 1.0 / members.size());
        }
    }

    /** Mean over the trials of what the prior table states of carcasses, of lots or of runs; not to be changed. */
    double[][] declared(@Nullable SharedBy by) {
        if (by == SharedBy.HALL) {
            throw new IllegalArgumentException("halls");
        }
        return by == null ? declaredOfCarcasses : by == SharedBy.LOT ? declaredOfLots : declaredOfRuns;
    }

    private double[][] meanCovariance(@Nullable SharedBy by) {
        double[][] mean = new double[children()][children()];
        for (Category one : categoriesWeighed()) {
            double part = (double) count(one) / rows.size();
            double[][] own = prior.covariance(one, by);
            for (int k = 0; k < mean.length; k++) {
                for (int l = 0; l < mean.length; l++) {
                    mean[k][l] += part * own[k][l];
                }
            }
        }
        return mean;
    }

    double[][] declaredOfParts(SharedBy by) {
        return ofParts(declared(by));
    }

    double[][] declaredWithinOfParts() {
        return ofParts(declaredWithin());
    }

    private double[][] ofParts(double[][] ofChildren) {
        int parts = prior.weighed.parts().size();
        double[][] sums = new double[parts][parts];
        for (int a = 0; a < parts; a++) {
            for (int b = 0; b < parts; b++) {
                for (int k : prior.weighed.parts().get(a).members()) {
                    for (int l : prior.weighed.parts().get(b).members()) {
                        sums[a][b] += ofChildren[k][l];
                    }
                }
            }
        }
        return sums;
    }

    private double[][] columnsOfParts(double[][] columnsByChildren) {
        int parts = prior.weighed.parts().size();
        double[][] sums = new double[columnsByChildren.length][parts];
        for (int j = 0; j < sums.length; j++) {
            for (int part = 0; part < parts; part++) {
                for (int member : prior.weighed.parts().get(part).members()) {
                    sums[j][part] += columnsByChildren[j][member];
                }
            }
        }
        return sums;
    }

    /** What errors between carcasses and of their lots are declared to be, together. */
    double[][] declaredWithin() {
        double[][] sum = new double[children()][children()];
        for (int k = 0; k < sum.length; k++) {
            for (int l = 0; l < sum.length; l++) {
                sum[k][l] = declaredOfCarcasses[k][l] + declaredOfLots[k][l];
            }
        }
        return sum;
    }

    private GroupedRegression.Prior prior(Unknowns unknowns) {
        int m = unknowns.free().length;
        int columns = terms.columns.size();
        int parts = prior.weighed.parts().size();
        double[][][] base = new double[categories.size()][][];
        double[][][][] loadings = new double[categories.size()][columns][parts][m];
        for (int c = 0; c < categories.size(); c++) {
            base[c] = columnsOfParts(known(categories.get(c)));
            for (int u = 0; u < m; u++) {
                double[][] of =
                        columnsOfParts(PriorBreakdown.of(unknowns.loadings().get(u), categories.get(c)));
                for (int j = 0; j < columns; j++) {
                    for (int part = 0; part < parts; part++) {
                        loadings[c][j][part][u] = of[j][part];
                    }
                }
            }
        }
        return new GroupedRegression.Prior(base, loadings, unknowns.free());
    }

    /** Fits a rung; empty if the trials don't tell its terms apart. */
    Optional<GroupedRegression> fit(Rung rung) {
        double[][] within = ofParts(declaredWithin());
        double[][] between = ofParts(declared(SharedBy.RUN));
        boolean declares = !isFree && !isZero(within);
        boolean isDeclared = priorDegreesOfRuns() > 0;
        int contrasts = prior.weighed.parts().size() - 1;
        GroupedRegression.Between how = !knowsDays()
                ? GroupedRegression.Between.KEPT
                : isDeclared || (contrasts > 1 && days.size() > DAYS_OF_CONTRAST * contrasts)
                        ? GroupedRegression.Between.COVARIANCE
                        : GroupedRegression.Between.SHARE;
        return solved(
                unknowns(rung),
                groups,
                new GroupedRegression.Declared(
                        isFree ? new double[within.length][within.length] : within,
                        declares ? PRIOR_DEGREES : 0,
                        isDeclared || how == GroupedRegression.Between.KEPT
                                ? between
                                : new double[within.length][within.length],
                        priorDegreesOfRuns(),
                        how));
    }

    /** Degrees of freedom that what the prior table states of runs counts for. */
    double priorDegreesOfRuns() {
        return !isFree && !doubtsRuns && prior.states(SharedBy.RUN) ? PRIOR_DEGREES : 0;
    }

    /** Lets the trials alone say how runs differ, where they contradict the prior table. */
    void doubtRuns() {
        doubtsRuns = true;
    }

    boolean doubtsRuns() {
        return doubtsRuns;
    }

    private static boolean isZero(double[][] matrix) {
        return Arrays.stream(matrix).flatMapToDouble(Arrays::stream).allMatch(value -> value == 0);
    }

    private Optional<GroupedRegression> solved(Unknowns unknowns, int[] ofGroups, GroupedRegression.Declared declared) {
        if (unknowns.free().length == 0) {
            return Optional.empty();
        }
        try {
            GroupedRegression before = fitted.get(ofGroups);
            if (before != null) {
                return Optional.of(before.refit(prior(unknowns), declared));
            }
            GroupedRegression first = GroupedRegression.fit(
                    new GroupedRegression.Rows(x, shares, weights, ofGroups, kinds), prior(unknowns), declared);
            fitted.put(ofGroups, first);
            return Optional.of(first);
        } catch (IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /** A rung with other unknowns besides, and covariances that are known. */
    Optional<GroupedRegression> with(Rung rung, List<Map<Category, double[][]>> free, GroupedRegression fitted) {
        Unknowns own = unknowns(rung);
        List<Map<Category, double[][]>> loadings = new ArrayList<>(own.loadings());
        loadings.addAll(free);
        boolean[] isFreeOf = Arrays.copyOf(own.free(), loadings.size());
        Arrays.fill(isFreeOf, own.free().length, isFreeOf.length, true);
        return solved(new Unknowns(loadings, isFreeOf), groups, known(fitted));
    }

    /** Free unknowns that move a category's level away from the others. */
    List<Map<Category, double[][]>> freeLevel(Category of) {
        List<Map<Category, double[][]>> loadings = new ArrayList<>();
        addFree(loadings, 0, List.of(of));
        return loadings;
    }

    private static GroupedRegression.Declared known(GroupedRegression fitted) {
        return new GroupedRegression.Declared(
                fitted.within(), Double.POSITIVE_INFINITY, fitted.between(), 0, GroupedRegression.Between.KEPT);
    }

    /**
     * What a rung fitted to the other days, or where there are few to other trials, leaves of the trials: by day, or fold of
     * trials, the sum of the squares of all parts, each in parts of its variance between carcasses.
     *
     * @param fitted the fit whose covariances are taken
     * @return none if the other days don't tell its terms apart
     */
    double[] leftOut(Rung rung, GroupedRegression fitted) {
        return leftOut(rung, fitted, fitted.within());
    }

    /** The same in parts of other variances. */
    double[] leftOut(Rung rung, GroupedRegression fitted, double[][] within) {
        Optional<GroupedRegression> again = solved(unknowns(rung), folds, known(fitted));
        double[] left = again.isEmpty() ? new double[0] : again.orElseThrow().leftOut(out, precisions(within));
        return Arrays.stream(left).anyMatch(Double::isNaN) ? new double[0] : left;
    }

    private static double[] precisions(double[][] within) {
        double[] precisions = new double[within.length];
        Arrays.setAll(precisions, part -> within[part][part] > 0 ? 1 / within[part][part] : 0);
        return precisions;
    }

    /** What is left out together, in words. */
    String others() {
        return knowsDays() ? "other days" : "other trials";
    }

    /** The same of the prior table. */
    double[] leftByPrior(GroupedRegression fitted) {
        double[] precisions = precisions(fitted.within());
        double[] sums = new double[foldCount];
        for (int i = 0; i < x.length; i++) {
            double[] expected = expectedByPrior(i);
            double sum = 0;
            for (int part = 0; part < expected.length; part++) {
                double off = shares[i][part] - expected[part];
                sum += Double.isNaN(off) ? 0 : precisions[part] * off * off;
            }
            sums[folds[i]] += weights[i] * sum;
        }
        return sums;
    }

    /** What the prior table expects of a row, by part. */
    double[] expectedByPrior(int row) {
        return Terms.shares(knownOfParts.get(kinds[row]), x[row]);
    }

    /**
     * Means over the trials that weighed a part.
     *
     * @param weighed by part, g/kg; NaN if none weighed it
     * @param expected what the prior table expects of them
     * @param counts how many they are
     */
    @SuppressWarnings("ArrayRecordComponent")
    record Means(double[] weighed, double[] expected, double[] counts) {}

    Means means() {
        Means found = means;
        if (found == null) {
            found = meansOfRows();
            means = found;
        }
        return found;
    }

    private Means meansOfRows() {
        int parts = prior.weighed.parts().size();
        Means means = new Means(new double[parts], new double[parts], new double[parts]);
        for (int i = 0; i < rows.size(); i++) {
            double[] byPrior = expectedByPrior(i);
            for (int k = 0; k < parts; k++) {
                if (!Double.isNaN(shares[i][k])) {
                    means.weighed[k] += shares[i][k];
                    means.expected[k] += byPrior[k];
                    means.counts[k]++;
                }
            }
        }
        for (int k = 0; k < parts; k++) {
            means.weighed[k] /= means.counts[k];
            means.expected[k] /= means.counts[k];
        }
        return means;
    }

    /** Whether a part is so far from what the prior table expects that it may be wrong about how far halls differ. */
    boolean isFarFromPrior() {
        double[][] within = ofParts(declaredWithin());
        double[][] runs = ofParts(declared(SharedBy.RUN));
        Means means = means();
        for (int part = 0; part < within.length; part++) {
            double variance = priorVarianceOfLevel(part)
                    + within[part][part] / means.counts()[part]
                    + runs[part][part] / days.size();
            if (Math.pow(means.weighed()[part] - means.expected()[part], 2) > FAR * FAR * variance) {
                return true;
            }
        }
        return false;
    }

    /** How far the mean of a part over the trials may be off in another hall by what the prior table says of itself. */
    double priorVarianceOfLevel(int part) {
        Unknowns all = ofDraws(draws);
        double variance = 0;
        for (Map<Category, double[][]> loading : all.loadings()) {
            double mean = 0;
            for (int kind = 0; kind < categories.size(); kind++) {
                double[][] of = PriorBreakdown.of(loading, categories.get(kind));
                for (int member : prior.weighed.parts().get(part).members()) {
                    for (int j = 0; j < of.length; j++) {
                        mean += meanTerms[kind][j] * of[j][member];
                    }
                }
            }
            variance += mean * mean;
        }
        return variance;
    }
}
