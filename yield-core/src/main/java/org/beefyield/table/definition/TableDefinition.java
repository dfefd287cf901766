package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * A table as written down, in code or in files: plain data that {@link YieldTable#of(TableDefinition)} checks, closes,
 * compiles and proves. Immutable.
 *
 * <p>The order of cuts is the order in which they print, and the first specification is the one used when none is
 * chosen; the order of all other rows means nothing.
 *
 * @serial exclude
 */
// its lists and maps are copies, which are serializable
@SuppressWarnings("serial")
public final class TableDefinition implements Serializable {
    private static final long serialVersionUID = 1;

    private final String name;
    private final String version;
    private final String title;
    private final String description;
    private final List<License> licenses;
    private final List<String> levels;
    private final ReferencePoint reference;
    private final TableRange fitted;
    private final TableRange allowed;
    private final double widthFit;
    private final @Nullable Double residualDegreesOfFreedom;
    private final @Nullable Double runDegreesOfFreedom;
    private final List<Term> terms;
    private final List<Category> categories;
    private final Basis basis;
    private final Map<String, Integer> decimals;
    private final List<Cut> cuts;
    private final List<BreakdownRow> breakdown;
    private final List<ClassRow> breakdownByClass;
    private final List<SpecificationRow> specifications;
    private final List<QuarteringRow> quartering;
    private final List<CoefficientNote> coefficientNotes;
    private final List<CovarianceRow> covariances;
    private final List<Expectation> expectations;
    private final List<CutName> names;
    private final List<SourceRow> sources;
    private final List<ExtraColumn> extraColumns;
    private final List<Provenance> provenance;
    private final List<Metadata> metadata;

    private TableDefinition(Builder builder) {
        this.name = builder.name;
        this.version = builder.version;
        this.title = builder.title;
        this.description = builder.description;
        this.licenses = List.copyOf(builder.licenses);
        this.levels = List.copyOf(builder.levels);
        this.reference = builder.reference;
        this.fitted = builder.fitted;
        this.allowed = builder.allowed;
        this.widthFit = builder.widthFit;
        this.residualDegreesOfFreedom = builder.residualDegreesOfFreedom;
        this.runDegreesOfFreedom = builder.runDegreesOfFreedom;
        this.terms = List.copyOf(builder.terms);
        this.categories = List.copyOf(builder.categories);
        this.basis = builder.basis;
        this.decimals = Map.copyOf(builder.decimals);
        this.cuts = List.copyOf(builder.cuts);
        this.breakdown = List.copyOf(builder.breakdown);
        this.breakdownByClass = List.copyOf(builder.breakdownByClass);
        this.specifications = List.copyOf(builder.specifications);
        this.quartering = List.copyOf(builder.quartering);
        this.coefficientNotes = List.copyOf(builder.coefficientNotes);
        // as files hold them: those between carcasses first
        this.covariances = builder.covariances.stream()
                .sorted(Comparator.comparing(row -> !row.isResidual()))
                .toList();
        this.expectations = List.copyOf(builder.expectations);
        this.names = List.copyOf(builder.names);
        this.sources = List.copyOf(builder.sources);
        this.extraColumns = List.copyOf(builder.extraColumns);
        this.provenance = List.copyOf(builder.provenance);
        this.metadata = List.copyOf(builder.metadata);
    }

    /**
     * Starts an empty definition.
     *
     * @param name name of the table
     * @param version version of the table
     * @return a builder
     */
    public static Builder builder(String name, String version) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        return new Builder(name, version);
    }

    /**
     * A builder that holds all of this definition.
     *
     * @return a builder
     */
    public Builder toBuilder() {
        return toBuilder(name, version);
    }

    /**
     * A builder that holds all of this definition under another name.
     *
     * @param newName name of the new definition
     * @param newVersion version of the new definition
     * @return a builder
     */
    public Builder toBuilder(String newName, String newVersion) {
        Objects.requireNonNull(newName, "newName");
        Objects.requireNonNull(newVersion, "newVersion");
        Builder builder = new Builder(newName, newVersion);
        builder.title = title;
        builder.description = description;
        builder.licenses.addAll(licenses);
        builder.levels.addAll(levels);
        builder.reference = reference;
        builder.fitted = fitted;
        builder.allowed = allowed;
        builder.widthFit = widthFit;
        builder.residualDegreesOfFreedom = residualDegreesOfFreedom;
        builder.runDegreesOfFreedom = runDegreesOfFreedom;
        builder.terms.addAll(terms);
        builder.categories.addAll(categories);
        builder.basis = basis;
        builder.decimals.putAll(decimals);
        builder.cuts.addAll(cuts);
        builder.breakdown.addAll(breakdown);
        builder.breakdownByClass.addAll(breakdownByClass);
        builder.specifications.addAll(specifications);
        builder.quartering.addAll(quartering);
        builder.coefficientNotes.addAll(coefficientNotes);
        builder.covariances.addAll(covariances);
        builder.expectations.addAll(expectations);
        builder.names.addAll(names);
        builder.sources.addAll(sources);
        builder.extraColumns.addAll(extraColumns);
        builder.provenance.addAll(provenance);
        builder.metadata.addAll(metadata);
        return builder;
    }

    /**
     * Name of the table.
     *
     * @return name of the table: lower-case letters, digits, {@code . _ -}
     */
    public String name() {
        return name;
    }

    /**
     * Version of the table.
     *
     * @return version of the table
     */
    public String version() {
        return version;
    }

    /**
     * Title for people.
     *
     * @return title for people
     */
    public String title() {
        return title;
    }

    /**
     * What it is, for people.
     *
     * @return what it is, for people
     */
    public String description() {
        return description;
    }

    /**
     * Licences of the data.
     *
     * @return licences of the data
     */
    public List<License> licenses() {
        return licenses;
    }

    /**
     * Names of the levels in order, such as tissue, primal, retail.
     *
     * @return names of the levels in order, such as tissue, primal, retail
     */
    public List<String> levels() {
        return levels;
    }

    /**
     * The reference carcass.
     *
     * @return the reference carcass
     */
    public ReferencePoint reference() {
        return reference;
    }

    /**
     * Range with data behind it.
     *
     * @return range with data behind it
     */
    public TableRange fitted() {
        return fitted;
    }

    /**
     * Range in which the table may be used.
     *
     * @return range in which the table may be used; its grades are whole positions
     */
    public TableRange allowed() {
        return allowed;
    }

    /**
     * Resolution of the grades behind the table, points.
     *
     * @return resolution of the grades behind the table, points: 1 for thirds, 3 for whole classes
     */
    public double widthFit() {
        return widthFit;
    }

    /**
     * Degrees of freedom of the covariances between carcasses.
     *
     * @return the least of all breakdowns, if they were estimated from a trial; null where they are taken as known
     */
    public @Nullable Double residualDegreesOfFreedom() {
        return residualDegreesOfFreedom;
    }

    /**
     * Degrees of freedom of the SDs between runs, if they were estimated from a hall's own days; the errors of the coefficients
     * rest on them too.
     *
     * @return above 0, or null if they are taken as known
     */
    public @Nullable Double runDegreesOfFreedom() {
        return runDegreesOfFreedom;
    }

    /**
     * Terms beyond level and plain slopes.
     *
     * @return terms beyond level and plain slopes
     */
    public List<Term> terms() {
        return terms;
    }

    /**
     * Categories served.
     *
     * @return categories served
     */
    public List<Category> categories() {
        return categories;
    }

    /**
     * How the carcasses behind it were handled.
     *
     * @return how the carcasses behind it were handled
     */
    public Basis basis() {
        return basis;
    }

    /**
     * Decimals to which a breakdown column is rounded.
     *
     * @return decimals to which a breakdown column is rounded; a column not named here is exact
     */
    public Map<String, Integer> decimals() {
        return decimals;
    }

    /**
     * Cuts in printing order.
     *
     * @return cuts in printing order
     */
    public List<Cut> cuts() {
        return cuts;
    }

    /**
     * Rows of the breakdowns that are given by coefficients.
     *
     * @return rows of the breakdowns that are given by coefficients
     */
    public List<BreakdownRow> breakdown() {
        return breakdown;
    }

    /**
     * Rows of the breakdowns that are given by class.
     *
     * @return rows of the breakdowns that are given by class
     */
    public List<ClassRow> breakdownByClass() {
        return breakdownByClass;
    }

    /**
     * Rows of the cutting specifications.
     *
     * @return rows of the cutting specifications
     */
    public List<SpecificationRow> specifications() {
        return specifications;
    }

    /**
     * Rows of the quarterings.
     *
     * @return rows of the quarterings
     */
    public List<QuarteringRow> quartering() {
        return quartering;
    }

    /**
     * Notes on single coefficients.
     *
     * @return notes on single coefficients
     */
    public List<CoefficientNote> coefficientNotes() {
        return coefficientNotes;
    }

    /**
     * Covariances of errors, between carcasses and of coefficients.
     *
     * @return covariances of errors, between carcasses and of coefficients
     */
    public List<CovarianceRow> covariances() {
        return covariances;
    }

    /**
     * Promises of the table about itself.
     *
     * @return promises of the table about itself
     */
    public List<Expectation> expectations() {
        return expectations;
    }

    /**
     * Names in other languages.
     *
     * @return names in other languages
     */
    public List<CutName> names() {
        return names;
    }

    /**
     * Sources that rows refer to.
     *
     * @return sources that rows refer to
     */
    public List<SourceRow> sources() {
        return sources;
    }

    /**
     * Columns that are carried and not read.
     *
     * @return columns that are carried and not read
     */
    public List<ExtraColumn> extraColumns() {
        return extraColumns;
    }

    /**
     * Where the parts of a combined table came from, empty for a table of its own.
     *
     * @return where the parts of a combined table came from, empty for a table of its own
     */
    public List<Provenance> provenance() {
        return provenance;
    }

    /**
     * What its descriptor says to people and other tools.
     *
     * @return keys that no part of the model reads, in their order; two definitions that differ in them aren't equal, though
     *     their tables are, and have the same digest
     */
    public List<Metadata> metadata() {
        return metadata;
    }

    /**
     * The axes of its nodes.
     *
     * @return those of the EU's scales
     */
    public GradeAxes axes() {
        return GradeAxes.EU;
    }

    /**
     * Names of the breakdown columns that hold coefficients, in order.
     *
     * @return the plain columns and one for each term
     */
    public List<String> coefficientColumns() {
        List<String> columns = new ArrayList<>(BreakdownRow.PLAIN_COLUMNS);
        terms.forEach(term -> columns.add(term.column()));
        return columns;
    }

    /**
     * The unit of the numbers in a breakdown column.
     *
     * @param column name of the column
     * @return such as {@code g/kg} of a level, an SD or a share in one class, or {@code g/kg per point of fat}
     */
    public String unitOf(String column) {
        Objects.requireNonNull(column, "column");
        return switch (column) {
            case TableColumn.PER_CONFORMATION_POINT -> Term.unit(Variable.CONFORMATION);
            case TableColumn.PER_FAT_POINT -> Term.unit(Variable.FAT);
            case TableColumn.PER_100_KG -> Term.unit(Variable.WEIGHT);
            default ->
                terms.stream()
                        .filter(term -> term.column().equals(column))
                        .findFirst()
                        .map(Term::unit)
                        .orElse(Term.UNIT_OF_LEVEL);
        };
    }

    /**
     * The rows of every part that has any, as text: what the files hold.
     *
     * @return one resource for each part with rows, extra columns behind its own; columns that may be missing are there if
     *     any row states something in them
     */
    public List<TableResource> resources() {
        List<TableResource> resources = new ArrayList<>();
        add(
                resources,
                TableSchema.CUTS,
                cuts,
                cut -> List.of(
                        cut.code(),
                        cut.name(),
                        cut.level(),
                        cut.kind().code(),
                        number(cut.piecesPerSide()),
                        number(cut.sideSplitSdPct()),
                        number(cut.fatPct()),
                        cut.unece(),
                        cut.note()));
        add(resources, TableSchema.BREAKDOWN, breakdown, row -> {
            List<String> cells = new ArrayList<>(List.of(row.category(), row.way(), row.parent(), row.cut()));
            row.coefficients().forEach(coefficient -> cells.add(Numbers.exact(coefficient)));
            cells.add(Numbers.exact(row.sdGPerKg()));
            cells.addAll(cells(row.shared()));
            cells.add(row.source());
            return cells;
        });
        add(resources, TableSchema.BREAKDOWN_BY_CLASS, breakdownByClass, row -> {
            List<String> cells = new ArrayList<>(List.of(
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.conformation(),
                    row.fatClass(),
                    row.cut(),
                    Numbers.exact(row.gPerKg()),
                    Numbers.exact(row.sdGPerKg())));
            cells.addAll(cells(row.shared()));
            cells.add(row.source());
            return cells;
        });
        add(
                resources,
                TableSchema.SPECIFICATIONS,
                specifications,
                row -> List.of(row.specification(), row.parent(), row.way()));
        add(
                resources,
                TableSchema.QUARTERING,
                quartering,
                row -> List.of(row.quartering(), row.cut(), Numbers.exact(row.foreShare()), row.source()));
        add(
                resources,
                TableSchema.COEFFICIENT_NOTES,
                coefficientNotes,
                row -> List.of(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.term(),
                        number(row.standardError()),
                        row.errorId(),
                        row.source()));
        add(
                resources,
                TableSchema.RESIDUAL_COVARIANCE,
                covariances.stream().filter(CovarianceRow::isResidual).toList(),
                row -> List.of(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.otherCut(),
                        Numbers.exact(row.value())));
        add(
                resources,
                TableSchema.COEFFICIENT_COVARIANCE,
                covariances.stream().filter(row -> !row.isResidual()).toList(),
                row -> List.of(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.term(),
                        row.otherCut(),
                        row.otherTerm(),
                        Numbers.exact(row.value())));
        add(
                resources,
                TableSchema.EXPECTATIONS,
                expectations,
                row -> List.of(
                        row.cut() == null ? "" : row.cut(),
                        row.kind() == null ? "" : row.kind().code(),
                        row.level(),
                        row.variable().code(),
                        TableSchema.word(row.direction()),
                        Boolean.toString(row.strict()),
                        TableSchema.word(row.over()),
                        row.note()));
        add(resources, TableSchema.NAMES, names, row -> List.of(row.cut(), row.language(), row.name()));
        add(
                resources,
                TableSchema.SOURCES,
                sources,
                row -> List.of(row.source(), row.kind().code(), row.citation(), row.note()));
        return resources;
    }

    private List<?> rows(TableSchema part) {
        return switch (part) {
            case CUTS -> cuts;
            case BREAKDOWN -> breakdown;
            case BREAKDOWN_BY_CLASS -> breakdownByClass;
            case SPECIFICATIONS -> specifications;
            case QUARTERING -> quartering;
            case COEFFICIENT_NOTES -> coefficientNotes;
            case RESIDUAL_COVARIANCE ->
                covariances.stream().filter(CovarianceRow::isResidual).toList();
            case COEFFICIENT_COVARIANCE ->
                covariances.stream().filter(row -> !row.isResidual()).toList();
            case EXPECTATIONS -> expectations;
            case NAMES -> names;
            case SOURCES -> sources;
        };
    }

    private <T> void add(
            List<TableResource> resources, TableSchema schema, List<T> items, Function<T, List<String>> toCells) {
        if (items.isEmpty()) {
            return;
        }
        List<ExtraColumn> extras = extraColumns.stream()
                .filter(extra -> extra.resource().equals(schema.code()))
                .sorted(Comparator.comparing(ExtraColumn::column))
                .toList();
        List<TableColumn> own = schema.columns(terms);
        List<List<String>> stated = items.stream().map(toCells).toList();
        // from the last one on, so that those before keep their places
        List<Integer> missing = new ArrayList<>();
        for (int k = own.size() - 1; k >= 0; k--) {
            int column = k;
            if (own.get(k).mayBeMissing()
                    && stated.stream()
                            .allMatch(cells ->
                                    column >= cells.size() || cells.get(column).isEmpty())) {
                missing.add(k);
            }
        }
        List<String> columns =
                without(missing, own.stream().map(TableColumn::name).toList());
        extras.forEach(extra -> columns.add(extra.column()));
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            List<String> cells = without(missing, stated.get(i));
            for (ExtraColumn extra : extras) {
                cells.add(i < extra.values().size() ? extra.values().get(i) : "");
            }
            rows.add(List.copyOf(cells));
        }
        resources.add(new TableResource(schema, List.copyOf(columns), List.copyOf(rows)));
    }

    private static List<String> without(List<Integer> descending, List<String> cells) {
        List<String> left = new ArrayList<>(cells);
        for (int k : descending) {
            if (k < left.size()) {
                left.remove(k);
            }
        }
        return left;
    }

    private static List<String> cells(SharedSds shared) {
        return Arrays.stream(SharedBy.values()).map(by -> number(shared.of(by))).toList();
    }

    private static String number(@Nullable Double value) {
        return value == null ? "" : Numbers.exact(value);
    }

    /** All that it holds, for comparing. */
    private List<@Nullable Object> parts() {
        return Arrays.asList(
                name,
                version,
                title,
                description,
                licenses,
                levels,
                reference,
                fitted,
                allowed,
                widthFit,
                residualDegreesOfFreedom,
                runDegreesOfFreedom,
                terms,
                categories,
                basis,
                decimals,
                cuts,
                breakdown,
                breakdownByClass,
                specifications,
                quartering,
                coefficientNotes,
                covariances,
                expectations,
                names,
                sources,
                extraColumns,
                provenance,
                metadata);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof TableDefinition that && parts().equals(that.parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code hall@1.0: 6 cuts at the levels tissue, primal; 8 rows}
     */
    @Override
    public String toString() {
        return name + "@" + version + ": " + cuts.size() + " cuts at the levels " + String.join(", ", levels) + "; "
                + (breakdown.size() + breakdownByClass.size()) + " rows";
    }

    /** Collects the parts of a definition. Not thread-safe. */
    public static final class Builder {
        private final String name;
        private final String version;
        private String title = "";
        private String description = "";
        private final List<License> licenses = new ArrayList<>();
        private final List<String> levels = new ArrayList<>();
        private ReferencePoint reference = new ReferencePoint(8, 8, 340);
        private TableRange fitted = new TableRange(
                GradeAxes.EU.conformation().range(), GradeAxes.EU.fat().range(), new Range(150, 600));
        private TableRange allowed = fitted;
        private double widthFit = 1;
        private @Nullable Double residualDegreesOfFreedom;
        private @Nullable Double runDegreesOfFreedom;
        private final List<Term> terms = new ArrayList<>();
        private final List<Category> categories = new ArrayList<>();
        private Basis basis = Basis.NOT_STATED;
        private final Map<String, Integer> decimals = new LinkedHashMap<>();
        private final List<Cut> cuts = new ArrayList<>();
        private final List<BreakdownRow> breakdown = new ArrayList<>();
        private final List<ClassRow> breakdownByClass = new ArrayList<>();
        private final List<SpecificationRow> specifications = new ArrayList<>();
        private final List<QuarteringRow> quartering = new ArrayList<>();
        private final List<CoefficientNote> coefficientNotes = new ArrayList<>();
        private final List<CovarianceRow> covariances = new ArrayList<>();
        private final List<Expectation> expectations = new ArrayList<>();
        private final List<CutName> names = new ArrayList<>();
        private final List<SourceRow> sources = new ArrayList<>();
        private final List<ExtraColumn> extraColumns = new ArrayList<>();
        private final List<Provenance> provenance = new ArrayList<>();
        private final List<Metadata> metadata = new ArrayList<>();

        private Builder(String name, String version) {
            this.name = name;
            this.version = version;
        }

        /**
         * Sets title and description.
         *
         * @param newTitle title
         * @param newDescription description
         * @return this
         */
        public Builder about(String newTitle, String newDescription) {
            Objects.requireNonNull(newDescription, "newDescription");
            Objects.requireNonNull(newTitle, "newTitle");
            title = newTitle;
            description = newDescription;
            return this;
        }

        /**
         * Adds a licence.
         *
         * @param license licence
         * @return this
         */
        public Builder license(License license) {
            Objects.requireNonNull(license, "license");
            licenses.add(license);
            return this;
        }

        /**
         * Sets the levels.
         *
         * @param names names in order
         * @return this
         */
        public Builder levels(String... names) {
            Checks.noNullIn(names, "names");
            levels.clear();
            levels.addAll(Arrays.asList(names));
            return this;
        }

        /**
         * Sets the reference carcass; R= 3= at 340 kg unless set.
         *
         * @param conformation position on the 18-point scale
         * @param fat position on the 15-point scale
         * @param weightKg cold weight, kg
         * @return this
         */
        public Builder reference(double conformation, double fat, double weightKg) {
            reference = new ReferencePoint(conformation, fat, weightKg);
            return this;
        }

        /**
         * Sets the ranges; conformation 1 to 18, fat 1 to 15, 150 to 600 kg for both unless set.
         *
         * @param newFitted range with data behind it
         * @param newAllowed range of use
         * @return this
         */
        public Builder ranges(TableRange newFitted, TableRange newAllowed) {
            Objects.requireNonNull(newAllowed, "newAllowed");
            Objects.requireNonNull(newFitted, "newFitted");
            fitted = newFitted;
            allowed = newAllowed;
            return this;
        }

        /**
         * Sets the resolution of the grades behind the table; 1 unless set.
         *
         * @param points points of the scale
         * @return this
         */
        public Builder widthFit(double points) {
            widthFit = points;
            return this;
        }

        /**
         * Says that the covariances between carcasses were estimated from a trial, so that intervals of a carcass are
         * Student's and not normal.
         *
         * @param degrees degrees of freedom, the least of all breakdowns, above 0
         * @return this
         */
        public Builder residualDegreesOfFreedom(double degrees) {
            residualDegreesOfFreedom = degrees;
            return this;
        }

        /**
         * States from how many degrees of freedom the SDs between runs were estimated.
         *
         * @param degrees above 0
         * @return this
         */
        public Builder runDegreesOfFreedom(double degrees) {
            runDegreesOfFreedom = degrees;
            return this;
        }

        /**
         * Adds a term.
         *
         * @param term term
         * @return this
         */
        public Builder term(Term term) {
            Objects.requireNonNull(term, "term");
            terms.add(term);
            return this;
        }

        /**
         * Sets the categories served.
         *
         * @param served categories
         * @return this
         */
        public Builder categories(Category... served) {
            Checks.noNullIn(served, "served");
            categories.clear();
            categories.addAll(Arrays.asList(served));
            return this;
        }

        /**
         * Sets the basis.
         *
         * @param newBasis basis
         * @return this
         */
        public Builder basis(Basis newBasis) {
            Objects.requireNonNull(newBasis, "newBasis");
            basis = newBasis;
            return this;
        }

        /**
         * Declares that a breakdown column is rounded.
         *
         * @param column name of the column
         * @param places decimals
         * @return this
         */
        public Builder decimals(String column, int places) {
            Objects.requireNonNull(column, "column");
            decimals.put(column, places);
            return this;
        }

        /**
         * Adds a cut behind those there are.
         *
         * @param cut cut
         * @return this
         */
        public Builder cut(Cut cut) {
            Objects.requireNonNull(cut, "cut");
            cuts.add(cut);
            return this;
        }

        /**
         * Adds a row of a breakdown for every category and way, with SDs of errors that carcasses have in common.
         *
         * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
         * @param cut code of the child
         * @param sdGPerKg SD between carcasses of one grade, g per kg of parent
         * @param shared SDs of the errors that carcasses of a lot, a run and a hall have in common
         * @param source short name of the source
         * @param coefficients g per kg: level, per conformation point, per fat point, per 100 kg, then the terms; those
         *     left out are 0
         * @return this
         */
        public Builder row(
                String parent, String cut, double sdGPerKg, SharedSds shared, String source, double... coefficients) {
            Objects.requireNonNull(shared, "shared");
            row(parent, cut, sdGPerKg, source, coefficients);
            int last = breakdown.size() - 1;
            breakdown.set(last, breakdown.get(last).withShared(shared));
            return this;
        }

        /**
         * Adds a row of a breakdown for every category and way.
         *
         * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
         * @param cut code of the child
         * @param sdGPerKg SD between carcasses of one grade, g per kg of parent
         * @param source short name of the source
         * @param coefficients g per kg: level, per conformation point, per fat point, per 100 kg, then the terms; those
         *     left out are 0
         * @return this
         */
        public Builder row(String parent, String cut, double sdGPerKg, String source, double... coefficients) {
            Objects.requireNonNull(coefficients, "coefficients");
            Objects.requireNonNull(cut, "cut");
            Objects.requireNonNull(parent, "parent");
            Objects.requireNonNull(source, "source");
            return row(BreakdownRow.ANY, BreakdownRow.ANY, parent, cut, sdGPerKg, source, coefficients);
        }

        /**
         * Adds a row of a breakdown.
         *
         * @param category letters of the categories it serves, or {@code *}
         * @param way the way, or {@code *}
         * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
         * @param cut code of the child
         * @param sdGPerKg SD between carcasses of one grade, g per kg of parent
         * @param source short name of the source
         * @param coefficients g per kg: level, per conformation point, per fat point, per 100 kg, then the terms; those
         *     left out are 0
         * @return this
         */
        public Builder row(
                String category,
                String way,
                String parent,
                String cut,
                double sdGPerKg,
                String source,
                double... coefficients) {
            Objects.requireNonNull(category, "category");
            Objects.requireNonNull(coefficients, "coefficients");
            Objects.requireNonNull(cut, "cut");
            Objects.requireNonNull(parent, "parent");
            Objects.requireNonNull(source, "source");
            Objects.requireNonNull(way, "way");
            List<Double> all = new ArrayList<>();
            for (double coefficient : coefficients) {
                all.add(coefficient);
            }
            while (all.size() < BreakdownRow.PLAIN_COLUMNS.size() + terms.size()) {
                all.add(0.0);
            }
            return row(new BreakdownRow(category, way, parent, cut, all, sdGPerKg, source));
        }

        /**
         * Adds a row of a breakdown.
         *
         * @param row row
         * @return this
         */
        public Builder row(BreakdownRow row) {
            Objects.requireNonNull(row, "row");
            breakdown.add(row);
            return this;
        }

        /**
         * Adds a cell of a breakdown by class.
         *
         * @param row cell
         * @return this
         */
        public Builder row(ClassRow row) {
            Objects.requireNonNull(row, "row");
            breakdownByClass.add(row);
            return this;
        }

        /**
         * Takes every row of the breakdowns away.
         *
         * @return this
         */
        public Builder clearBreakdown() {
            breakdown.clear();
            breakdownByClass.clear();
            return this;
        }

        /**
         * Adds a line of a cutting specification.
         *
         * @param specification name of the specification
         * @param parent code of the cut that is broken down
         * @param way the way
         * @return this
         */
        public Builder specification(String specification, String parent, String way) {
            Objects.requireNonNull(parent, "parent");
            Objects.requireNonNull(specification, "specification");
            Objects.requireNonNull(way, "way");
            specifications.add(new SpecificationRow(specification, parent, way));
            return this;
        }

        /**
         * Adds a line of a quartering.
         *
         * @param row row
         * @return this
         */
        public Builder quartering(QuarteringRow row) {
            Objects.requireNonNull(row, "row");
            quartering.add(row);
            return this;
        }

        /**
         * Adds a note on a coefficient.
         *
         * @param note note
         * @return this
         */
        public Builder coefficientNote(CoefficientNote note) {
            Objects.requireNonNull(note, "note");
            coefficientNotes.add(note);
            return this;
        }

        /**
         * Adds a covariance of errors.
         *
         * @param row covariance
         * @return this
         */
        public Builder covariance(CovarianceRow row) {
            Objects.requireNonNull(row, "row");
            covariances.add(row);
            return this;
        }

        /**
         * Adds a promise of the table.
         *
         * @param expectation expectation
         * @return this
         */
        public Builder expectation(Expectation expectation) {
            Objects.requireNonNull(expectation, "expectation");
            expectations.add(expectation);
            return this;
        }

        /**
         * Adds a name in another language.
         *
         * @param cutName name
         * @return this
         */
        public Builder name(CutName cutName) {
            Objects.requireNonNull(cutName, "cutName");
            names.add(cutName);
            return this;
        }

        /**
         * Adds a source.
         *
         * @param source source
         * @return this
         */
        public Builder source(SourceRow source) {
            Objects.requireNonNull(source, "source");
            sources.add(source);
            return this;
        }

        /**
         * Adds a column that is carried and not read.
         *
         * @param column column with a value for each row
         * @return this
         */
        public Builder extraColumn(ExtraColumn column) {
            Objects.requireNonNull(column, "column");
            extraColumns.add(column);
            return this;
        }

        /**
         * Adds where a part came from.
         *
         * @param origin the part and its origin
         * @return this
         */
        public Builder provenance(Provenance origin) {
            Objects.requireNonNull(origin, "origin");
            provenance.add(origin);
            return this;
        }

        /**
         * Adds a key of the descriptor that no part of the model reads.
         *
         * @param entry the key, where it stands, and its value
         * @return this
         */
        public Builder metadata(Metadata entry) {
            Objects.requireNonNull(entry, "entry");
            metadata.add(entry);
            return this;
        }

        /**
         * Puts the rows of an override in the place of all that are here; extra columns follow the rows that stay, and go
         * with the last row of their part.
         *
         * @param newCuts cuts in printing order
         * @param newBreakdown rows of the breakdowns that are given by coefficients
         * @param newByClass rows of the breakdowns that are given by class
         * @param newNotes notes on single coefficients
         * @param newCovariances covariances of errors
         * @param newExpectations promises of the table about itself
         * @param newSources sources that rows refer to
         * @param newDecimals decimals to which a breakdown column is rounded
         * @param newProvenance where the parts came from
         */
        public void replaceRows(
                List<Cut> newCuts,
                List<BreakdownRow> newBreakdown,
                List<ClassRow> newByClass,
                List<CoefficientNote> newNotes,
                List<CovarianceRow> newCovariances,
                List<Expectation> newExpectations,
                List<SourceRow> newSources,
                Map<String, Integer> newDecimals,
                List<Provenance> newProvenance) {
            Checks.noNullIn(newBreakdown, "newBreakdown");
            Checks.noNullIn(newByClass, "newByClass");
            Checks.noNullIn(newCovariances, "newCovariances");
            Checks.noNullIn(newCuts, "newCuts");
            Checks.noNullIn(newDecimals, "newDecimals");
            Checks.noNullIn(newExpectations, "newExpectations");
            Checks.noNullIn(newNotes, "newNotes");
            Checks.noNullIn(newProvenance, "newProvenance");
            Checks.noNullIn(newSources, "newSources");
            TableDefinition before = build();
            replace(cuts, newCuts);
            replace(breakdown, newBreakdown);
            replace(breakdownByClass, newByClass);
            replace(coefficientNotes, newNotes);
            replace(covariances, newCovariances);
            replace(expectations, newExpectations);
            replace(sources, newSources);
            replace(provenance, newProvenance);
            decimals.clear();
            decimals.putAll(newDecimals);
            TableDefinition after = build();
            extraColumns.clear();
            for (ExtraColumn extra : before.extraColumns) {
                TableSchema part = TableSchema.find(extra.resource()).orElseThrow();
                if (!after.rows(part).isEmpty()) {
                    extraColumns.add(extra.following(before.rows(part), after.rows(part)));
                }
            }
        }

        private static <T> void replace(List<T> old, List<T> with) {
            old.clear();
            old.addAll(with);
        }

        /**
         * The definition.
         *
         * @return what was collected, unchecked
         */
        public TableDefinition build() {
            return new TableDefinition(this);
        }
    }
}
