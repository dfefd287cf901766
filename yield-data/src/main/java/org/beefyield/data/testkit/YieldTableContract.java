package org.beefyield.data.testkit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.YieldColumn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.ChangeBudget;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What the owner of a yield table should know to hold before others use it. A test class extends this one and returns
 * the table; jqwik then runs every test below.
 *
 * <p>The tests fall into three parts:
 * <ul>
 *   <li>What the table promises, looked at through the estimates that an application gets: every level adds up to the
 *       carcass, no share is below 0, shares between grades lie between those of the grades around them, and what the
 *       table expects of itself holds. A {@link YieldTable} is proved when it is built, so these fail only if estimates
 *       and proof disagree.
 *   <li>Its identity: the order of rows means nothing, a folder and a zip read back equal, the digest is what it was.
 *   <li>A baseline, such as the edition in use ({@link #baseline()}): no cut moves beyond a budget in any mix of ways,
 *       nothing that it has is lost, and nothing else changes beyond its {@link #budget()}. Without a baseline these are
 *       skipped. Where a change is meant, the owner takes a new baseline or a budget that allows it.
 * </ul>
 *
 * <p>Carcasses are random; jqwik reports the seed of a failure and repeats it at the next run. A test class that holds a
 * table of ordinary size runs in seconds.
 */
public abstract class YieldTableContract {
    private static final int LISTED = 20;

    private @Nullable YieldTable table;
    private @Nullable List<CuttingSpecification> specifications;
    private @Nullable List<YieldColumn> columns;
    private final Map<CuttingSpecification, YieldEstimator> estimators = new LinkedHashMap<>();
    private final Map<CuttingSpecification, Map<Category, ShareChecks>> checks = new LinkedHashMap<>();

    /** For test classes. */
    protected YieldTableContract() {}

    /**
     * The table under test.
     *
     * @return the table, built or read anew or the same at each call
     */
    protected abstract YieldTable table();

    /**
     * The table to compare with, such as the edition in use.
     *
     * @return the baseline; empty, unless overridden, which skips the tests that need one
     */
    protected Optional<YieldTable> baseline() {
        return Optional.empty();
    }

    /**
     * How far any cut may move from the baseline anywhere in the range that both allow.
     *
     * @return g per kg of carcass, 0 or more; 0 unless overridden
     */
    protected double budgetGPerKg() {
        return 0;
    }

    /**
     * What else may change from the baseline, and how far.
     *
     * @return a budget; unless overridden, {@link #budgetGPerKg()} for the shares of cuts and nothing for anything else but
     *     the description
     */
    protected ChangeBudget budget() {
        return ChangeBudget.ofShares(budgetGPerKg());
    }

    /**
     * The digest that the table must have, for an edition that must not change any more.
     *
     * @return 64 hexadecimal digits; empty, unless overridden, which leaves the digest free
     */
    protected Optional<String> digest() {
        return Optional.empty();
    }

    /**
     * Carcasses in the table's allowed range, for tests that a subclass adds ({@code @ForAll("carcasses")}).
     *
     * @return carcasses of every category served, with grades of every form
     */
    @Provide
    protected Arbitrary<Carcass> carcasses() {
        return Carcasses.of(tableUnderTest());
    }

    private YieldTable tableUnderTest() {
        YieldTable its = table;
        if (its == null) {
            its = table();
            table = its;
        }
        return its;
    }

    private static void fail(List<String> failures) {
        if (!failures.isEmpty()) {
            int more = failures.size() - LISTED;
            throw new AssertionError(failures.stream().limit(LISTED).collect(Collectors.joining("\n"))
                    + (more > 0 ? "\nand " + more + " more" : ""));
        }
    }

    // what the table promises

    /**
     * At every level, under every specification, the cuts add up to the carcass within 1e-12 of it.
     *
     * @param carcass any carcass in the allowed range
     */
    @Property(tries = 200)
    public void everyLevelAddsUpToTheCarcass(@ForAll("carcasses") Carcass carcass) {
        fail(forEachWay(carcass, ShareChecks::closure));
    }

    /**
     * No cut of any level is below 0.
     *
     * @param carcass any carcass in the allowed range
     */
    @Property(tries = 200)
    public void noShareIsBelowZero(@ForAll("carcasses") Carcass carcass) {
        fail(forEachWay(carcass, ShareChecks::positivity));
    }

    /**
     * Between grades a share lies between those of the four whole positions around, and it runs into the next position
     * without a jump.
     *
     * @param carcass any carcass in the allowed range
     */
    @Property(tries = 200)
    public void estimatesRunFromGradeToGradeWithoutAJump(@ForAll("carcasses") Carcass carcass) {
        fail(forEachWay(carcass, ShareChecks::continuity));
    }

    /** One check of the shares at a grade and weight. */
    private interface Check {
        List<String> of(ShareChecks checks, double conformation, double fat, double weightKg);
    }

    private List<String> forEachWay(Carcass carcass, Check check) {
        List<String> failures = new ArrayList<>();
        for (CuttingSpecification specification : specifications()) {
            failures.addAll(check.of(
                    checks(carcass.category(), specification),
                    carcass.conformation().position(),
                    carcass.fatClass().position(),
                    carcass.coldWeightKg()));
        }
        return failures;
    }

    private ShareChecks checks(Category category, CuttingSpecification specification) {
        return checks.computeIfAbsent(specification, one -> new EnumMap<>(Category.class))
                .computeIfAbsent(category, one -> checksOf(one, specification));
    }

    private ShareChecks checksOf(Category category, CuttingSpecification specification) {
        YieldTable its = tableUnderTest();
        YieldEstimator estimator = estimators.computeIfAbsent(specification, one -> YieldEstimator.of(its, one));
        return new ShareChecks(
                its.definition(),
                columns(estimator),
                "category " + category + (specification.name().isEmpty() ? "" : ", " + specification),
                Shares.of(estimator, category, columns(estimator)));
    }

    /** The same whatever the specification; made once, as the table is laid out anew for them. */
    private List<YieldColumn> columns(YieldEstimator any) {
        List<YieldColumn> all = columns;
        if (all == null) {
            all = any.columns().columns();
            columns = all;
        }
        return all;
    }

    /** The table's own specifications, and as many more as it takes to use every way of every cut. */
    private List<CuttingSpecification> specifications() {
        List<CuttingSpecification> all = specifications;
        if (all == null) {
            YieldTable its = tableUnderTest();
            all = new ArrayList<>(its.specifications());
            all.addAll(covering(ways(its.definition())));
            specifications = all;
        }
        return all;
    }

    /** Ways of every cut that has any. */
    private static Map<String, Set<String>> ways(TableDefinition definition) {
        Map<String, Set<String>> ways = new TreeMap<>();
        Stream.concat(
                        definition.breakdown().stream().map(row -> List.of(row.parent(), row.way())),
                        definition.breakdownByClass().stream().map(row -> List.of(row.parent(), row.way())))
                .filter(row -> !row.get(1).equals(BreakdownRow.ANY))
                .forEach(row -> ways.computeIfAbsent(row.get(0), parent -> new TreeSet<>())
                        .add(row.get(1)));
        return ways;
    }

    /** Specifications that use every way of every cut at least once. */
    private static List<CuttingSpecification> covering(Map<String, Set<String>> ways) {
        int most = ways.values().stream().mapToInt(Set::size).max().orElse(1);
        List<CuttingSpecification> covering = new ArrayList<>();
        for (int i = 0; i < most; i++) {
            Map<String, String> chosen = new LinkedHashMap<>();
            for (Map.Entry<String, Set<String>> entry : ways.entrySet()) {
                List<String> its = List.copyOf(entry.getValue());
                chosen.put(entry.getKey(), its.get(i % its.size()));
            }
            covering.add(
                    ways.isEmpty()
                            ? CuttingSpecification.NONE
                            : CuttingSpecification.of("way no. " + (i + 1) + " of each cut", chosen));
        }
        return covering;
    }

    /**
     * What the table expects of itself holds in the differences of estimates, at every whole position and at weights
     * over the range, under each of its cutting specifications.
     */
    @Example
    public void whatTheTableExpectsOfItselfHolds() {
        YieldTable its = tableUnderTest();
        List<CuttingSpecification> declared = its.specifications().isEmpty() ? specifications() : its.specifications();
        List<String> failures = new ArrayList<>();
        for (List<Category> group : its.categoryGroups()) {
            for (CuttingSpecification specification : declared) {
                ShareChecks checks = checks(group.get(0), specification);
                its.definition().expectations().forEach(each -> failures.addAll(checks.expectation(each)));
            }
        }
        fail(failures);
    }

    // its identity

    /**
     * Rows in another order make the same table: the same digest, and the same estimates but for noise.
     *
     * @param seed seed of the order
     */
    @Property(tries = 10)
    public void theOrderOfRowsMeansNothing(@ForAll long seed) {
        YieldTable its = tableUnderTest();
        YieldTable shuffled = YieldTable.of(shuffled(its.definition(), new Random(seed)));
        List<String> failures = new ArrayList<>();
        if (!shuffled.digest().equals(its.digest())) {
            failures.add("rows in another order give digest " + shuffled.digest() + " in place of " + its.digest());
        }
        TableComparison.of(its, shuffled)
                .beyond(0)
                .forEach(difference -> failures.add("rows in another order move " + moved(difference)));
        fail(failures);
    }

    private static TableDefinition shuffled(TableDefinition definition, Random random) {
        Map<TableSchema, List<Integer>> orders = new EnumMap<>(TableSchema.class);
        BiConsumer<TableSchema, Integer> order = (resource, size) -> {
            List<Integer> indexes = new ArrayList<>();
            for (int i = 0; i < size; i++) {
                indexes.add(i);
            }
            Collections.shuffle(indexes, random);
            orders.put(resource, indexes);
        };
        order.accept(TableSchema.BREAKDOWN, definition.breakdown().size());
        order.accept(
                TableSchema.BREAKDOWN_BY_CLASS, definition.breakdownByClass().size());
        order.accept(TableSchema.QUARTERING, definition.quartering().size());
        order.accept(
                TableSchema.COEFFICIENT_NOTES, definition.coefficientNotes().size());
        order.accept(TableSchema.EXPECTATIONS, definition.expectations().size());
        order.accept(TableSchema.NAMES, definition.names().size());
        order.accept(TableSchema.SOURCES, definition.sources().size());
        Function<TableSchema, List<Integer>> of = resource -> orders.getOrDefault(resource, List.of());
        TableDefinition.Builder builder = TableDefinition.builder(definition.name(), definition.version())
                .about(definition.title(), definition.description())
                .levels(definition.levels().toArray(String[]::new))
                .reference(
                        definition.reference().conformation(),
                        definition.reference().fat(),
                        definition.reference().weightKg())
                .ranges(definition.fitted(), definition.allowed())
                .widthFit(definition.widthFit())
                .categories(definition.categories().toArray(Category[]::new))
                .basis(definition.basis());
        if (definition.residualDegreesOfFreedom() != null) {
            builder.residualDegreesOfFreedom(definition.residualDegreesOfFreedom());
        }
        if (definition.runDegreesOfFreedom() != null) {
            builder.runDegreesOfFreedom(definition.runDegreesOfFreedom());
        }
        definition.licenses().forEach(builder::license);
        definition.terms().forEach(builder::term);
        definition.decimals().forEach(builder::decimals);
        definition.cuts().forEach(builder::cut);
        inOrder(definition.breakdown(), of.apply(TableSchema.BREAKDOWN)).forEach(builder::row);
        inOrder(definition.breakdownByClass(), of.apply(TableSchema.BREAKDOWN_BY_CLASS))
                .forEach(builder::row);
        definition.specifications().forEach(row -> builder.specification(row.specification(), row.parent(), row.way()));
        inOrder(definition.quartering(), of.apply(TableSchema.QUARTERING)).forEach(builder::quartering);
        inOrder(definition.coefficientNotes(), of.apply(TableSchema.COEFFICIENT_NOTES))
                .forEach(builder::coefficientNote);
        definition.covariances().forEach(builder::covariance);
        inOrder(definition.expectations(), of.apply(TableSchema.EXPECTATIONS)).forEach(builder::expectation);
        inOrder(definition.names(), of.apply(TableSchema.NAMES)).forEach(builder::name);
        inOrder(definition.sources(), of.apply(TableSchema.SOURCES)).forEach(builder::source);
        definition.extraColumns().stream()
                .map(extra -> TableSchema.find(extra.resource())
                        .map(orders::get)
                        .map(indexes -> new ExtraColumn(
                                extra.resource(), extra.column(), extra.type(), inOrder(extra.values(), indexes)))
                        .orElse(extra))
                .forEach(builder::extraColumn);
        definition.provenance().forEach(builder::provenance);
        return builder.build();
    }

    private static <T> List<T> inOrder(List<T> rows, List<Integer> order) {
        return order.stream().map(rows::get).toList();
    }

    /** The table, written to a folder, reads back equal, and writing that gives the same bytes. */
    @Example
    public void aFolderReadsBackEqual() {
        readsBack("table");
    }

    /** The table, written to a zip, reads back equal, and writing that gives the same bytes. */
    @Example
    public void aZipReadsBackEqual() {
        readsBack("table.zip");
    }

    private void readsBack(String name) {
        YieldTable its = tableUnderTest();
        try {
            Path temp = Files.createTempDirectory("table");
            try {
                Path first = Files.createDirectory(temp.resolve("first")).resolve(name);
                Path second = Files.createDirectory(temp.resolve("second")).resolve(name);
                TableWriter.write(its, first);
                YieldTable back = TableReader.read(first);
                if (!back.equals(its)) {
                    fail(List.of("written and read, " + its.identity() + " comes back as " + back.identity()));
                }
                TableWriter.write(back, second);
                fail(differentFiles(first, second));
            } finally {
                delete(temp);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> differentFiles(Path first, Path second) throws IOException {
        List<String> failures = new ArrayList<>();
        try (Stream<Path> files = Files.walk(first)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Path again = second.resolve(first.relativize(file).toString());
                if (Files.mismatch(file, again) >= 0) {
                    failures.add(file.getFileName() + " has other bytes when it is written again, from byte "
                            + Files.mismatch(file, again));
                }
            }
        }
        return failures;
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    /** The digest of the table is the one declared, if one is, and that of the same table built once more. */
    @Example
    public void theDigestIsStable() {
        YieldTable its = tableUnderTest();
        List<String> failures = new ArrayList<>();
        String again = YieldTable.of(its.definition()).digest();
        if (!again.equals(its.digest())) {
            failures.add("built twice, the table has digest " + its.digest() + " and " + again);
        }
        digest().filter(declared -> !declared.equals(its.digest()))
                .ifPresent(declared -> failures.add("the digest is " + its.digest() + ", declared is " + declared
                        + ": something in the table was changed"));
        fail(failures);
    }

    // against the baseline

    private YieldTable neededBaseline() {
        Optional<YieldTable> its = baseline();
        Assume.that(its.isPresent());
        return its.orElseThrow();
    }

    private static String moved(TableComparison.Difference difference) {
        return difference.cut() + " at level " + difference.level() + " by "
                + ShareChecks.gPerKg(difference.differenceGPerKg() / 1000) + " at " + difference.where();
    }

    /**
     * No cut of any level moves more than the {@link #budget()} allows, anywhere in the range that both tables allow and in
     * any mix of the ways that both have.
     */
    @Example
    public void noCutMovesBeyondTheBudget() {
        TableComparison comparison = TableComparison.of(neededBaseline(), tableUnderTest());
        double budget = budget().sharesGPerKg();
        fail(comparison.beyond(budget).stream()
                .map(difference -> moved(difference) + "; the budget is " + ShareChecks.gPerKg(budget / 1000))
                .toList());
    }

    /** Categories, levels, cuts, ways, cutting specifications and the allowed range of the baseline are all still there. */
    @Example
    public void nothingOfTheBaselineIsLost() {
        YieldTable before = neededBaseline();
        YieldTable now = tableUnderTest();
        fail(TableComparison.of(before, now).lost().stream()
                .map(lost -> lost + " is lost: " + before.identity() + " has it")
                .toList());
    }

    /**
     * What else the two tables say otherwise is within the {@link #budget()}: SDs, errors in common, fat contents, pieces,
     * specifications, quarterings, ranges, promises, basis, names, notes, sources and all the rest.
     */
    @Example
    public void nothingElseChangesBeyondTheBudget() {
        TableComparison comparison = TableComparison.of(neededBaseline(), tableUnderTest());
        fail(comparison.beyond(budget()).stream()
                .map(change -> change.kind().heading() + ": " + change.words() + "; the budget for "
                        + change.kind().code() + " is " + Numbers.exact(budget().of(change.kind()))
                        + (change.kind().unit().isEmpty()
                                ? ""
                                : " " + change.kind().unit()))
                .toList());
    }
}
