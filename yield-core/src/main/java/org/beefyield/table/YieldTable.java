package org.beefyield.table;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.jspecify.annotations.Nullable;

/**
 * A yield table that holds what it promises: it can't be built otherwise. Immutable and thread-safe.
 *
 * <p>Building closes every breakdown within the rounding of its file ({@link #closingCorrections()} says what that
 * took), multiplies the levels through to a grid of polynomials in weight and proves at every node, over the whole allowed weight
 * range: in every mix of ways the cuts of each level add up to 1 and no share is below 0, and every {@link Expectation} of the
 * table holds under each of its cutting specifications, or in every mix of ways if it has none ({@link #proof()}).
 */
public final class YieldTable {
    private static final int SHORT_DIGEST = 12;

    private final TableDefinition definition;
    private final String digest;
    private final CutCatalogue catalogue;
    private final Ways ways;
    private final CompiledTable compiled;
    private final List<ClosingCorrection> corrections;
    private final Map<String, CuttingSpecification> specifications = new LinkedHashMap<>();
    private final Map<String, Map<String, Double>> quarterings = new LinkedHashMap<>();
    private final TableProof proof;

    private YieldTable(TableDefinition definition, TableCompiler.Result result) {
        this.definition = definition;
        this.catalogue = result.catalogue();
        this.ways = result.ways();
        this.compiled = result.compiled();
        this.corrections = result.corrections();
        Map<String, Map<String, String>> waysBySpecification = new LinkedHashMap<>();
        definition
                .specifications()
                .forEach(row -> waysBySpecification
                        .computeIfAbsent(row.specification(), name -> new LinkedHashMap<>())
                        .put(row.parent(), row.way()));
        waysBySpecification.forEach((name, ways) -> specifications.put(name, CuttingSpecification.of(name, ways)));
        definition
                .quartering()
                .forEach(row -> quarterings
                        .computeIfAbsent(row.quartering(), name -> new LinkedHashMap<>())
                        .put(row.cut(), row.foreShare()));
        this.proof = prove();
        this.digest = TableDigest.of(definition);
    }

    /**
     * Checks, closes, compiles and proves a definition.
     *
     * @param definition a table as written down
     * @return the table
     * @throws InvalidTableException if anything is wrong; it lists all that was found
     */
    public static YieldTable of(TableDefinition definition) {
        Objects.requireNonNull(definition, "definition");
        return new YieldTable(definition, TableCompiler.compile(definition));
    }

    private void refuse(List<TableProblem> problems) {
        if (!problems.isEmpty()) {
            throw new InvalidTableException(definition.name(), problems);
        }
    }

    private TableProof prove() {
        Prover prover = new Prover(definition, compiled.layout());
        prover.proveShares(compiled.groups());
        refuse(prover.problems());
        List<Prover.Compiled> declared = new ArrayList<>();
        List<Prover.Compiled> covering = new ArrayList<>();
        for (CompiledTable.Group group : compiled.groups()) {
            for (CuttingSpecification specification : specifications.values()) {
                declared.add(Prover.Compiled.of(compiled, group, specification));
            }
            for (CuttingSpecification specification : Prover.covering(ways.byParent())) {
                covering.add(Prover.Compiled.of(compiled, group, specification));
            }
        }
        List<Prover.Compiled> all = new ArrayList<>(declared);
        all.addAll(covering);
        prover.proveLevels(compiled.groups(), ways.byParent(), all, declared);
        refuse(prover.problems());
        TableRange allowed = definition.allowed();
        String scope = "categories " + letters() + ", conformation " + allowed.conformation() + ", fat " + allowed.fat()
                + " (" + new Nodes(definition.axes(), allowed).inRange() + " nodes), " + allowed.weightKg()
                + " kg; "
                + (ways.byParent().isEmpty() ? "there are no ways to choose from" : "shares in every mix of ways")
                + (specifications.isEmpty()
                        ? ""
                        : "; what the table expects where ways matter, under its cutting specifications "
                                + String.join(", ", specifications.keySet()));
        return new TableProof(scope, prover.findings(), sharedNotes());
    }

    /**
     * What to say about a category that isn't served.
     *
     * @param category category
     * @return such as {@code category Z is not served by table boneless-2026, which serves C E A B D}
     */
    public String notServed(Category category) {
        Objects.requireNonNull(category, "category");
        return "category " + category + " is not served by table " + definition.name() + ", which serves " + letters();
    }

    /**
     * Categories with equal rows, which share one grid.
     *
     * @return every category served, in groups
     */
    public List<List<Category>> categoryGroups() {
        return compiled.groups().stream().map(CompiledTable.Group::categories).toList();
    }

    /**
     * Letters of the categories served.
     *
     * @return such as {@code C E A B D}
     */
    public String letters() {
        return definition.categories().stream().map(Category::letter).collect(Collectors.joining(" "));
    }

    /**
     * Checks that a cutting specification fits this table.
     *
     * @param specification specification
     * @throws IllegalArgumentException if it names a cut or way that the table doesn't have, or leaves one out
     */
    public void check(CuttingSpecification specification) {
        Objects.requireNonNull(specification, "specification");
        specification.ways().forEach((parent, way) -> {
            String wrong = ways.wrong(parent, way);
            if (wrong != null) {
                throw new IllegalArgumentException(wrong);
            }
        });
        String missing = ways.missing(specification.ways().keySet());
        if (missing != null) {
            throw new IllegalArgumentException((specification.name().isEmpty()
                            ? "table " + definition.name() + " needs a cutting specification: "
                            : "cutting specification \"" + specification + "\" is incomplete: ")
                    + missing);
        }
    }

    /**
     * A cutting specification of the table.
     *
     * @param name name
     * @return the specification
     * @throws IllegalArgumentException if there is none of that name
     */
    public CuttingSpecification specification(String name) {
        Objects.requireNonNull(name, "name");
        CuttingSpecification specification = specifications.get(name);
        if (specification == null) {
            throw new IllegalArgumentException("no cutting specification \"" + name + "\" in table " + definition.name()
                    + "; it has " + (specifications.isEmpty() ? "none" : String.join(", ", specifications.keySet())));
        }
        return specification;
    }

    /**
     * The table's cutting specifications in their order; the first is used when none is chosen.
     *
     * @return an unmodifiable list, empty if the table has none
     */
    public List<CuttingSpecification> specifications() {
        return List.copyOf(specifications.values());
    }

    /**
     * The ways in which a cut can be broken down.
     *
     * @param parent code of the cut
     * @return names in order, empty if there is nothing to choose
     * @throws IllegalArgumentException if the table has no such cut; the message names the cuts that have ways
     */
    public Set<String> ways(String parent) {
        Objects.requireNonNull(parent, "parent");
        Set<String> own = ways.of(parent);
        if (own.isEmpty()
                && !parent.equals(BreakdownRow.ROOT)
                && catalogue().find(parent).isEmpty()) {
            throw new IllegalArgumentException("no cut \"" + parent + "\"; "
                    + (ways.byParent().isEmpty()
                            ? "no cut of table " + definition.name() + " has ways"
                            : "cuts with ways: "
                                    + String.join(", ", ways.byParent().keySet())));
        }
        return own;
    }

    /** Ways of every parent that has any. */
    Map<String, Set<String>> ways() {
        return ways.byParent();
    }

    /**
     * Names of the quarterings.
     *
     * @return an unmodifiable set in the table's order
     */
    public Set<String> quarterings() {
        return Collections.unmodifiableSet(quarterings.keySet());
    }

    /**
     * Parts of a quartering: by code of cut the fraction that lies in the forequarter, for all cuts of one level.
     *
     * @param name name of the quartering
     * @return an unmodifiable map
     * @throws IllegalArgumentException if there is none of that name
     */
    public Map<String, Double> foreShares(String name) {
        Objects.requireNonNull(name, "name");
        Map<String, Double> shares = quarterings.get(name);
        if (shares == null) {
            throw new IllegalArgumentException("no quartering \"" + name + "\" in table " + definition.name()
                    + "; it has " + (quarterings.isEmpty() ? "none" : String.join(", ", quarterings.keySet())));
        }
        return Collections.unmodifiableMap(shares);
    }

    /**
     * Index of the level that a quartering divides.
     *
     * @param name name of the quartering
     * @return index of the level
     * @throws IllegalArgumentException if there is none of that name
     */
    public int quarteredLevel(String name) {
        Objects.requireNonNull(name, "name");
        return compiled.layout().levelOf(foreShares(name).keySet());
    }

    /**
     * The table's name in another language for a cut.
     *
     * @param cut code
     * @param language BCP 47 tag
     * @return the name, or empty if the table has none
     * @throws IllegalArgumentException if there is no such cut
     */
    public Optional<String> name(String cut, String language) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(language, "language");
        String code = catalogue.cut(cut).code();
        return definition.names().stream()
                .filter(name -> name.cut().equals(code) && name.language().equals(language))
                .map(CutName::name)
                .findFirst();
    }

    /**
     * Whether the table states any SD between carcasses; without one its intervals would only look sure.
     *
     * @return true if it does
     */
    public boolean statesSds() {
        return definition.breakdown().stream().anyMatch(row -> row.sdGPerKg() > 0)
                || definition.breakdownByClass().stream().anyMatch(row -> row.sdGPerKg() > 0);
    }

    /**
     * Whether the table states the SDs of the errors that carcasses have in common: it does for all of its rows or for none.
     *
     * @param shared what they have in common
     * @return true if it does, also if they are 0
     */
    public boolean states(SharedBy shared) {
        Objects.requireNonNull(shared, "shared");
        return Stream.concat(
                        definition.breakdown().stream().map(BreakdownRow::shared),
                        definition.breakdownByClass().stream().map(ClassRow::shared))
                .allMatch(sds -> sds.of(shared) != null);
    }

    /**
     * Which errors that carcasses have in common the table states, and which are in none of its intervals.
     *
     * @return sentences for people, one or two
     */
    public List<String> sharedNotes() {
        return YieldTableText.sharedNotes(this);
    }

    /**
     * What mince can't be reckoned without: fat trim, and cuts broken down into lean trim, whose fat content the table
     * doesn't state.
     *
     * @return codes, empty if every fat content is stated
     */
    public List<String> cutsWithoutFatContent() {
        Set<String> unstated = new TreeSet<>();
        for (RowKey row : RowKey.of(definition)) {
            Cut parent = catalogue.find(row.parent()).orElse(null);
            Cut child = catalogue.cut(row.cut());
            if (child.kind() == CutKind.FAT_TRIM && child.fatPct() == null) {
                unstated.add(child.code());
            }
            if (child.kind() == CutKind.LEAN_TRIM && YieldGrid.fatOfLeanTrim(parent, child) == null) {
                unstated.add("lean trim of " + row.parent());
            }
        }
        return List.copyOf(unstated);
    }

    /**
     * What the table was built from.
     *
     * @return the definition, as it was given
     */
    public TableDefinition definition() {
        return definition;
    }

    /**
     * Its cuts.
     *
     * @return the catalogue
     */
    public CutCatalogue catalogue() {
        return catalogue;
    }

    /**
     * Names of its levels, in order.
     *
     * @return an unmodifiable list
     */
    public List<String> levels() {
        return definition.levels();
    }

    /**
     * The cuts that stand at a level in one way or another, in printing order.
     *
     * @param level name of the level
     * @return an unmodifiable list
     * @throws IllegalArgumentException if the table has no such level
     */
    public List<Cut> cutsAt(String level) {
        Objects.requireNonNull(level, "level");
        return compiled.layout().cutsAt(compiled.layout().levelIndex(level));
    }

    /**
     * What the table was compiled to, for this library's own packages: it is no part of what is promised to callers and
     * may change with every version. Callers have {@link #levels()}, {@link #cutsAt(String)} and estimates.
     *
     * @param type the engine's type
     * @return the table as that type
     * @param <T> the engine's type
     * @throws IllegalArgumentException if the table was compiled to something else
     */
    public <T> T unwrap(Class<T> type) {
        Objects.requireNonNull(type, "type");
        if (!type.isInstance(compiled)) {
            throw new IllegalArgumentException("a table is not compiled to a " + type.getSimpleName());
        }
        return type.cast(compiled);
    }

    /**
     * SHA-256 over the definition in canonical form; the order of rows that means nothing does not change it.
     *
     * @return 64 hexadecimal digits
     */
    public String digest() {
        return digest;
    }

    /**
     * Name, version and the digest's first digits, as output rows carry it.
     *
     * @return such as {@code boneless-2026@1.0.0#0123456789ab}
     */
    public String identity() {
        return definition.name() + "@" + definition.version() + "#" + digest.substring(0, SHORT_DIGEST);
    }

    /**
     * Rounding taken off so that breakdowns close.
     *
     * @return one for each breakdown and column that was off
     */
    public List<ClosingCorrection> closingCorrections() {
        return corrections;
    }

    /**
     * What a person should know of its definition: keys of a newer minor version of the format, which are kept and not read,
     * and a quartering that the basis names and the table doesn't have.
     *
     * @return a sentence for each, without a full stop
     */
    public List<String> notes() {
        return YieldTableText.notes(definition);
    }

    /**
     * What was proved, and how tightly.
     *
     * @return one finding for each promise
     */
    public TableProof proof() {
        return proof;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof YieldTable that && digest.equals(that.digest);
    }

    @Override
    public int hashCode() {
        return digest.hashCode();
    }

    /**
     * The identity.
     *
     * @return {@link #identity()}
     */
    @Override
    public String toString() {
        return identity();
    }
}
