package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.RealMatrix;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.reconcile.ProductGroup;
import org.beefyield.reconcile.WeighedRun;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.RandomEffects;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/**
 * What runs weighed as sums over their carcasses, and the unknowns behind the coefficients on the way: independent errors of mean
 * 0 and SD 1 by what the table in use says of itself. Figures of groups are g per kg of intake.
 */
final class RunModel {
    /** Parts that runs of a hall don't have in common, one run's own error left out. */
    private static final Set<UncertaintyPart> WITHIN = Collections.unmodifiableSet(
            EnumSet.complementOf(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS, UncertaintyPart.RUN)));

    private static final double G_PER_KG = 1000;

    /** Variance of what scales and packing make at least, (g/kg)². */
    private static final double OF_SCALES = 0.01;

    private static final int ROUNDS = 4;
    private static final double STILL = 1e-3;

    /**
     * An unknown of one breakdown.
     *
     * @param number among all unknowns
     * @param ofCategory by category, columns by children, g/kg per SD
     */
    record Loading(int number, Map<Category, double[][]> ofCategory) {}

    final YieldTable table;
    final List<WeighedRun> runs;
    private final double intakeKg;
    final List<ProductGroup> groups = new ArrayList<>();
    final List<String> neverWeighed = new ArrayList<>();
    /** Breakdowns on the way of which the table says how sure it is. */
    final List<PriorBreakdown> breakdowns = new ArrayList<>();
    /** Those of which it doesn't, which stay. */
    final List<PriorBreakdown> silent = new ArrayList<>();

    final Set<Category> boned = EnumSet.noneOf(Category.class);
    /** By run and group, what was weighed; NaN where nothing was. */
    final double[][] weighed;
    /** Of one carcass, by group, variance of its share. */
    final double[] ofCarcass;

    private final List<Integer> lines = new ArrayList<>();
    private final Map<Category, RunWalk> walks = new EnumMap<>(Category.class);
    private final Map<List<String>, PriorBreakdown> priors = new LinkedHashMap<>();
    private final Map<PriorBreakdown, Map<Category, double[][]>> known = new HashMap<>();
    private final List<List<PriorBreakdown.Draw>> draws = new ArrayList<>();
    private final Map<List<Object>, Integer> unknowns = new LinkedHashMap<>();
    /** By run and group. */
    final double[][] expected;

    private final double[][] withinSds;
    final double[][] declaredSds;
    private final double[][] withinCorrelation;
    private final double[][] runCorrelation;
    /** By how much the table's grid differs from its coefficients between nodes. */
    private final double[][] beside;

    /**
     * @param runs runs that teach, one or more
     * @param estimator what they were read with, counting all parts of the uncertainty
     */
    RunModel(List<WeighedRun> runs, YieldEstimator estimator) {
        this.runs = runs;
        this.intakeKg = runs.stream().mapToDouble(WeighedRun::intakeKg).sum();
        this.table = estimator.table();
        findGroups();
        Map<String, String> ways = estimator.specification().ways();
        for (WeighedRun run : runs) {
            for (WeighedRun.Piece piece : run.pieces()) {
                boned.add(piece.carcass().category());
            }
        }
        for (Category category : boned) {
            walks.put(
                    category,
                    new RunWalk(
                            table,
                            category,
                            ways,
                            this::prior,
                            groups.stream().map(ProductGroup::shares).toList()));
        }
        priors.values().forEach(this::sort);
        int size = groups.size();
        this.weighed = new double[runs.size()][size];
        this.expected = new double[runs.size()][size];
        this.withinSds = new double[runs.size()][size];
        this.declaredSds = new double[runs.size()][size];
        this.beside = new double[runs.size()][];
        for (int r = 0; r < runs.size(); r++) {
            WeighedRun run = runs.get(r);
            double cold = run.expected().coldWeightKg();
            beside[r] = new double[size];
            double[] walked = sums(r, this::known, null, List.of());
            for (int g = 0; g < size; g++) {
                WeighedRun.Line line = run.lines().get(lines.get(g));
                weighed[r][g] = line.weighedKg() > 0 ? G_PER_KG * line.weighedKg() / run.intakeKg() : Double.NaN;
                Map<UncertaintyPart, Double> sds = run.expected().sdByPart(line.figure());
                double within = 0;
                for (UncertaintyPart part : WITHIN) {
                    within += square(sds.getOrDefault(part, 0.0));
                }
                withinSds[r][g] = G_PER_KG * Math.sqrt(within) / cold;
                declaredSds[r][g] = G_PER_KG * sds.getOrDefault(UncertaintyPart.RUN, 0.0) / cold;
                expected[r][g] = G_PER_KG * run.expected().kg(line.figure()) / cold;
                beside[r][g] = expected[r][g] - walked[g];
            }
        }
        List<Figure> figures = lines.stream()
                .map(line -> runs.get(0).lines().get(line).figure())
                .toList();
        List<Carcass> carcasses = runs.stream()
                .flatMap(run -> run.pieces().stream())
                .map(WeighedRun.Piece::carcass)
                .toList();
        // how groups go together hardly depends on the carcasses, so that one run will do
        List<Carcass> some = Collections.max(runs, Comparator.comparingDouble(WeighedRun::intakeKg)).pieces().stream()
                .map(WeighedRun.Piece::carcass)
                .toList();
        this.withinCorrelation = correlation(estimator, WITHIN, some, figures);
        this.runCorrelation = correlation(estimator, EnumSet.of(UncertaintyPart.RUN), some, figures);
        this.ofCarcass = ofCarcass(estimator, carcasses, figures);
    }

    /** Leaves out what is not expected, and names what is expected and was never weighed. */
    private void findGroups() {
        List<WeighedRun.Line> first = runs.get(0).lines();
        for (int i = 0; i < first.size(); i++) {
            int line = i;
            boolean isExpected = runs.stream()
                    .anyMatch(run -> run.expected().kg(run.lines().get(line).figure()) > 0);
            boolean isWeighed =
                    runs.stream().anyMatch(run -> run.lines().get(line).weighedKg() > 0);
            if (isExpected && isWeighed) {
                lines.add(i);
                groups.add(first.get(i).group());
            } else if (isExpected) {
                neverWeighed.add(first.get(i).group().name());
            }
        }
    }

    private PriorBreakdown prior(String parent, String way) {
        return priors.computeIfAbsent(
                List.of(parent, way),
                key -> new PriorBreakdown(WeighedBreakdown.of(table.definition(), parent, way), table));
    }

    private void sort(PriorBreakdown prior) {
        Map<Category, double[][]> coefficients = new EnumMap<>(Category.class);
        prior.served.forEach(category -> coefficients.put(category, prior.coefficients(category)));
        known.put(prior, coefficients);
        List<PriorBreakdown.Draw> own = prior.draws();
        if (own.isEmpty()) {
            silent.add(prior);
            return;
        }
        breakdowns.add(prior);
        draws.add(own);
        own.forEach(draw -> unknowns.putIfAbsent(draw.name(), unknowns.size()));
    }

    double[][] known(PriorBreakdown breakdown, Category category) {
        return Objects.requireNonNull(
                Objects.requireNonNull(known.get(breakdown)).get(category));
    }

    /** The unknowns of a breakdown, bent towards proportion by a part of the way. */
    List<Loading> loadings(int breakdown, double bend) {
        List<Loading> loadings = new ArrayList<>();
        for (PriorBreakdown.Draw draw : draws.get(breakdown)) {
            Map<Category, double[][]> of =
                    bend == 0 ? draw.ofCategory() : breakdowns.get(breakdown).bent(draw.ofCategory(), bend);
            loadings.add(new Loading(Objects.requireNonNull(unknowns.get(draw.name())), of));
        }
        return loadings;
    }

    int unknowns() {
        return unknowns.size();
    }

    /** Coefficients of a breakdown with the unknowns at some values. */
    double[][] coefficients(int breakdown, Category category, List<Loading> loadings, double[] z, double part) {
        double[][] own = Arrays.stream(known(breakdowns.get(breakdown), category))
                .map(double[]::clone)
                .toArray(double[][]::new);
        for (Loading loading : loadings) {
            double[][] of = loading.ofCategory().get(category);
            for (int j = 0; of != null && j < own.length; j++) {
                for (int k = 0; k < own[j].length; k++) {
                    own[j][k] += part * z[loading.number()] * of[j][k];
                }
            }
        }
        return own;
    }

    private static double square(double value) {
        return value * value;
    }

    private double[][] correlation(
            YieldEstimator estimator, Set<UncertaintyPart> parts, List<Carcass> carcasses, List<Figure> figures) {
        LotEstimate all = estimator.counting(parts).estimateLot(carcasses);
        double[] sds = figures.stream().mapToDouble(all::sd).toArray();
        double[][] correlation = new double[sds.length][sds.length];
        for (int a = 0; a < sds.length; a++) {
            correlation[a][a] = 1;
            for (int b = 0; b < a; b++) {
                double sd = sds[a] * sds[b];
                correlation[a][b] = sd > 0 ? all.covariance(figures.get(a), figures.get(b)) / sd : 0;
                correlation[b][a] = correlation[a][b];
            }
        }
        return correlation;
    }

    private static double[] ofCarcass(YieldEstimator estimator, List<Carcass> carcasses, List<Figure> figures) {
        LotEstimate all = estimator
                .counting(EnumSet.of(UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.GRADE_RESOLUTION))
                .estimateLot(carcasses);
        double squares = carcasses.stream()
                .mapToDouble(carcass -> square(carcass.coldWeightKg()))
                .sum();
        return figures.stream()
                .mapToDouble(figure -> square(G_PER_KG * all.sd(figure)) / squares)
                .toArray();
    }

    /**
     * What a run is expected to give by some coefficients, but for what the grid adds between nodes.
     *
     * @param slopes takes by group what each unknown does; null if that isn't asked for
     */
    private double[] sums(
            int run, RunWalk.Coefficients coefficients, double @Nullable [][] slopes, List<List<Loading>> loadings) {
        int size = groups.size();
        double[] kg = new double[size + 1];
        Map<PriorBreakdown, Map<Category, double[][][]>> gradients = new HashMap<>();
        RunWalk.Gradient gradient = slopes == null
                ? null
                : (breakdown, category) -> gradients
                        .computeIfAbsent(breakdown, key -> new EnumMap<>(Category.class))
                        .computeIfAbsent(
                                category,
                                key -> new double[size + 1]
                                        [table.definition().coefficientColumns().size()]
                                        [breakdown.weighed.children().size()]);
        for (WeighedRun.Piece piece : runs.get(run).pieces()) {
            Objects.requireNonNull(walks.get(piece.carcass().category()))
                    .add(piece.carcass(), piece.part(), coefficients, kg, gradient);
        }
        double cold = kg[size];
        double[] shares = IntStream.range(0, size)
                .mapToDouble(g -> G_PER_KG * kg[g] / cold)
                .toArray();
        for (int b = 0; slopes != null && b < breakdowns.size(); b++) {
            Map<Category, double[][][]> ofBreakdown = gradients.getOrDefault(breakdowns.get(b), Map.of());
            for (Loading loading : loadings.get(b)) {
                double[] ofUnknown = new double[size + 1];
                ofBreakdown.forEach((category, of) -> {
                    double[][] own = loading.ofCategory().get(category);
                    for (int g = 0; own != null && g <= size; g++) {
                        for (int j = 0; j < own.length; j++) {
                            for (int k = 0; k < own[j].length; k++) {
                                ofUnknown[g] += of[g][j][k] * own[j][k];
                            }
                        }
                    }
                });
                for (int g = 0; g < size; g++) {
                    slopes[g][loading.number()] += (G_PER_KG * ofUnknown[g] - shares[g] * ofUnknown[size]) / cold;
                }
            }
        }
        return shares;
    }

    /** All coefficients with the unknowns at some values. */
    private RunWalk.Coefficients at(List<List<Loading>> loadings, double[] z, double[] parts) {
        Map<PriorBreakdown, Map<Category, double[][]>> all = new HashMap<>(known);
        for (int b = 0; b < breakdowns.size(); b++) {
            Map<Category, double[][]> own = new EnumMap<>(Category.class);
            for (Category category : breakdowns.get(b).served) {
                own.put(category, coefficients(b, category, loadings.get(b), z, parts[b]));
            }
            all.put(breakdowns.get(b), own);
        }
        return (breakdown, category) -> Objects.requireNonNull(
                Objects.requireNonNull(all.get(breakdown)).get(category));
    }

    private double[] expected(
            int run, RunWalk.Coefficients coefficients, double @Nullable [][] slopes, List<List<Loading>> loadings) {
        double[] shares = sums(run, coefficients, slopes, loadings);
        for (int g = 0; g < shares.length; g++) {
            shares[g] += beside[run][g];
        }
        return shares;
    }

    /** What every run is expected to give with the unknowns at some values, by run and group. */
    double[][] expected(List<List<Loading>> loadings, double[] z, double[] parts) {
        RunWalk.Coefficients coefficients = at(loadings, z, parts);
        return IntStream.range(0, runs.size())
                .mapToObj(run -> expected(run, coefficients, null, loadings))
                .toArray(double[][]::new);
    }

    /**
     * What runs say.
     *
     * @param z most likely values of the unknowns
     * @param covariance of their errors
     * @param runSds by group, from run to run
     * @param contradicts whether they contradict the table there in most groups
     * @param meanSlopes by group, what each unknown does to the mean of the runs, at the table in use
     * @param slopes the same at what was learnt
     */
    @SuppressWarnings("ArrayRecordComponent")
    record Fit(
            double[] z,
            double[][] covariance,
            double[] runSds,
            boolean contradicts,
            double[][] meanSlopes,
            double[][] slopes) {}

    /** Generalized least squares, anew at what was found until it stands still. */
    Fit fit(List<List<Loading>> loadings) {
        int size = groups.size();
        double[] z = new double[unknowns()];
        double[] whole = new double[breakdowns.size()];
        Arrays.fill(whole, 1);
        double[][] covariance = new double[0][0];
        double[] runSds = new double[size];
        double[][] first = new double[size][z.length];
        double[][] last = first;
        for (int round = 0; round < (z.length == 0 ? 0 : ROUNDS); round++) {
            double[][][] slopes = new double[runs.size()][size][z.length];
            double[][] now = new double[runs.size()][];
            RunWalk.Coefficients coefficients = at(loadings, z, whole);
            for (int r = 0; r < runs.size(); r++) {
                now[r] = expected(r, coefficients, slopes[r], loadings);
            }
            last = mean(slopes);
            first = round == 0 ? last : first;
            runSds = runSds(now);
            double[][] precision = new double[z.length][z.length];
            double[] right = new double[z.length];
            for (int m = 0; m < z.length; m++) {
                precision[m][m] = 1;
            }
            for (int r = 0; r < runs.size(); r++) {
                add(r, now[r], slopes[r], z, runSds, precision, right);
            }
            for (int m = 0; m < z.length; m++) {
                for (int l = 0; l < m; l++) {
                    precision[l][m] = precision[m][l];
                }
            }
            DecompositionSolver solver =
                    new CholeskyDecomposition(new Array2DRowRealMatrix(precision, false)).getSolver();
            RealMatrix inverse = solver.getInverse();
            covariance = inverse.getData();
            double[] next = inverse.operate(right);
            double most = 0;
            for (int m = 0; m < z.length; m++) {
                most = Math.max(most, Math.abs(next[m] - z[m]));
            }
            z = next;
            if (most < STILL) {
                break;
            }
        }
        double[][] end = expected(loadings, z, whole);
        runSds = z.length == 0 ? runSds(end) : runSds;
        int against = 0;
        for (int g = 0; g < size; g++) {
            RandomEffects effects = effects(g, end);
            if (effects != null) {
                Bounds bounds = effects.varianceBounds(0.9);
                double declared = declared(g);
                against += declared < bounds.low() || declared > bounds.high() ? 1 : 0;
            }
        }
        return new Fit(z, covariance, runSds, 2 * against > size, first, last);
    }

    private double[][] mean(double[][][] slopes) {
        double[][] mean = new double[groups.size()][unknowns()];
        for (int r = 0; r < slopes.length; r++) {
            double part = part(r);
            for (int g = 0; g < mean.length; g++) {
                for (int m = 0; m < mean[g].length; m++) {
                    mean[g][m] += part * slopes[r][g][m];
                }
            }
        }
        return mean;
    }

    /** The part of the whole intake that a run has. */
    private double part(int run) {
        return runs.get(run).intakeKg() / intakeKg;
    }

    /** Mean of a group over the runs that weighed it. */
    double mean(int group, double[][] ofRuns) {
        double sum = 0;
        double all = 0;
        for (int r = 0; r < runs.size(); r++) {
            if (!Double.isNaN(weighed[r][group])) {
                sum += part(r) * ofRuns[r][group];
                all += part(r);
            }
        }
        return sum / all;
    }

    /** How many runs weighed a group. */
    int count(int group) {
        return (int)
                Arrays.stream(weighed).filter(run -> !Double.isNaN(run[group])).count();
    }

    /** How the runs differ from the table in use; null if fewer than two weighed the group. */
    @Nullable
    RandomEffects differences(int group) {
        return effects(group, expected);
    }

    /** Variance that the table states from run to run, on average. */
    double declared(int group) {
        return Arrays.stream(declaredSds)
                .mapToDouble(of -> square(of[group]))
                .average()
                .orElseThrow();
    }

    /** Variance within runs, on average. */
    double within(int group) {
        return IntStream.range(0, runs.size())
                .mapToDouble(run -> within(run, group))
                .average()
                .orElseThrow();
    }

    private double within(int run, int group) {
        return square(withinSds[run][group]) + OF_SCALES;
    }

    /** How runs differ beyond what carcasses and lots make; null if fewer than two weighed the group. */
    private @Nullable RandomEffects effects(int group, double[][] expectedNow) {
        int[] some = IntStream.range(0, runs.size())
                .filter(run -> !Double.isNaN(weighed[run][group]))
                .toArray();
        return some.length < 2
                ? null
                : RandomEffects.of(
                        Arrays.stream(some)
                                .mapToDouble(run -> weighed[run][group] - expectedNow[run][group])
                                .toArray(),
                        Arrays.stream(some)
                                .mapToDouble(run -> within(run, group))
                                .toArray());
    }

    /** SDs from run to run: what the table states counts for its degrees of freedom, what the runs say for theirs. */
    private double[] runSds(double[][] expectedNow) {
        double[] sds = new double[groups.size()];
        for (int g = 0; g < sds.length; g++) {
            double stated = declared(g);
            RandomEffects effects = effects(g, expectedNow);
            double own = effects == null ? 0 : effects.variance();
            double likely = Math.max(stated, own);
            double degrees = -1;
            for (int r = 0; r < runs.size(); r++) {
                degrees += Double.isNaN(weighed[r][g]) ? 0 : square(likely / (likely + within(r, g)));
            }
            degrees = effects == null ? 0 : Math.max(0, degrees);
            double ofStated = stated > 0 ? BreakdownModel.PRIOR_DEGREES : 0;
            sds[g] = degrees + ofStated > 0
                    ? Math.sqrt((degrees * own + ofStated * stated) / (degrees + ofStated))
                    : Math.sqrt(own);
        }
        return sds;
    }

    /** Adds what a run says to the normal equations. */
    private void add(
            int run,
            double[] now,
            double[][] slopes,
            double[] z,
            double[] runSds,
            double[][] precision,
            double[] right) {
        int[] some = IntStream.range(0, groups.size())
                .filter(group -> !Double.isNaN(weighed[run][group]))
                .toArray();
        if (some.length == 0) {
            return;
        }
        double[][] noise = new double[some.length][some.length];
        double[] left = new double[some.length];
        for (int a = 0; a < some.length; a++) {
            for (int b = 0; b < some.length; b++) {
                int g = some[a];
                int h = some[b];
                noise[a][b] = withinCorrelation[g][h] * withinSds[run][g] * withinSds[run][h]
                        + runCorrelation[g][h] * runSds[g] * runSds[h]
                        + (a == b ? OF_SCALES : 0);
            }
            left[a] = weighed[run][some[a]] - now[some[a]];
            for (int m = 0; m < z.length; m++) {
                left[a] += slopes[some[a]][m] * z[m];
            }
        }
        RealMatrix weights = new CholeskyDecomposition(new Array2DRowRealMatrix(noise, false))
                .getSolver()
                .getInverse();
        double[][] weighted = new double[some.length][z.length];
        for (int a = 0; a < some.length; a++) {
            for (int b = 0; b < some.length; b++) {
                double weight = weights.getEntry(a, b);
                double[] of = slopes[some[b]];
                for (int m = 0; m < z.length; m++) {
                    weighted[a][m] += weight * of[m];
                }
            }
        }
        for (int a = 0; a < some.length; a++) {
            double[] of = slopes[some[a]];
            for (int m = 0; m < z.length; m++) {
                right[m] += weighted[a][m] * left[a];
                for (int l = 0; of[m] != 0 && l <= m; l++) {
                    precision[m][l] += of[m] * weighted[a][l];
                }
            }
        }
    }

    /** Days of the runs, first and last. */
    Set<String> ends() {
        return new TreeSet<>(
                List.of(runs.get(0).day(), runs.get(runs.size() - 1).day()));
    }
}
