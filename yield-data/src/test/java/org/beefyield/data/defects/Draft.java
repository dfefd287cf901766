package org.beefyield.data.defects;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;

/** A definition of which every part can be spoilt. */
public final class Draft {
    private final TableDefinition original;
    public String name;
    public final List<String> levels;
    public ReferencePoint reference;
    public TableRange fitted;
    public TableRange allowed;
    public double widthFit;
    public final List<Term> terms;
    public final List<Category> categories;
    public final Map<String, Integer> decimals;
    public final List<Cut> cuts;
    public final List<BreakdownRow> breakdown;
    public final List<ClassRow> byClass;
    public final List<SpecificationRow> specifications;
    public final List<QuarteringRow> quartering;
    public final List<CoefficientNote> notes;
    public final List<CovarianceRow> covariances;
    public final List<Expectation> expectations;
    public final List<CutName> names;
    public final List<SourceRow> sources;
    public Basis basis;
    public final List<ExtraColumn> extraColumns;

    public Draft(TableDefinition original) {
        this.original = original;
        name = original.name();
        levels = new ArrayList<>(original.levels());
        reference = original.reference();
        fitted = original.fitted();
        allowed = original.allowed();
        widthFit = original.widthFit();
        terms = new ArrayList<>(original.terms());
        categories = new ArrayList<>(original.categories());
        decimals = new LinkedHashMap<>(original.decimals());
        cuts = new ArrayList<>(original.cuts());
        breakdown = new ArrayList<>(original.breakdown());
        byClass = new ArrayList<>(original.breakdownByClass());
        specifications = new ArrayList<>(original.specifications());
        quartering = new ArrayList<>(original.quartering());
        notes = new ArrayList<>(original.coefficientNotes());
        covariances = new ArrayList<>(original.covariances());
        expectations = new ArrayList<>(original.expectations());
        names = new ArrayList<>(original.names());
        sources = new ArrayList<>(original.sources());
        basis = original.basis();
        extraColumns = new ArrayList<>(original.extraColumns());
    }

    public TableDefinition build() {
        TableDefinition.Builder builder = TableDefinition.builder(name, original.version())
                .about(original.title(), original.description())
                .levels(levels.toArray(String[]::new))
                .reference(reference.conformation(), reference.fat(), reference.weightKg())
                .ranges(fitted, allowed)
                .widthFit(widthFit)
                .categories(categories.toArray(Category[]::new))
                .basis(basis);
        if (original.residualDegreesOfFreedom() != null) {
            builder.residualDegreesOfFreedom(original.residualDegreesOfFreedom());
        }
        if (original.runDegreesOfFreedom() != null) {
            builder.runDegreesOfFreedom(original.runDegreesOfFreedom());
        }
        original.licenses().forEach(builder::license);
        terms.forEach(builder::term);
        decimals.forEach(builder::decimals);
        cuts.forEach(builder::cut);
        breakdown.forEach(builder::row);
        byClass.forEach(builder::row);
        specifications.forEach(row -> builder.specification(row.specification(), row.parent(), row.way()));
        quartering.forEach(builder::quartering);
        notes.forEach(builder::coefficientNote);
        covariances.forEach(builder::covariance);
        expectations.forEach(builder::expectation);
        names.forEach(builder::name);
        sources.forEach(builder::source);
        extraColumns.forEach(builder::extraColumn);
        original.provenance().forEach(builder::provenance);
        return builder.build();
    }

    /** Index of the first row of coefficients with that way, parent and child. */
    public int row(String way, String parent, String cut) {
        return index(
                breakdown, row -> row.way() + " " + row.parent() + " " + row.cut(), way + " " + parent + " " + cut);
    }

    /** Index of a cell. */
    public int cell(String parent, String conformation, String fatClass, String cut) {
        return index(
                byClass,
                row -> row.parent() + " " + row.conformation() + " " + row.fatClass() + " " + row.cut(),
                parent + " " + conformation + " " + fatClass + " " + cut);
    }

    public int cut(String code) {
        return index(cuts, Cut::code, code);
    }

    private static <T> int index(List<T> rows, Function<T, String> key, String wanted) {
        for (int i = 0; i < rows.size(); i++) {
            if (key.apply(rows.get(i)).equals(wanted)) {
                return i;
            }
        }
        throw new IllegalStateException("the small table has no " + wanted);
    }

    /** Puts another figure in the place of a coefficient. */
    public void set(String way, String parent, String cut, String column, double value) {
        List<String> columns = new ArrayList<>(BreakdownRow.PLAIN_COLUMNS);
        terms.forEach(term -> columns.add(term.column()));
        change(way, parent, cut, row -> {
            List<Double> coefficients = new ArrayList<>(row.coefficients());
            coefficients.set(columns.indexOf(column), value);
            return with(row, row.category(), row.way(), row.parent(), row.cut(), coefficients);
        });
    }

    public void change(String way, String parent, String cut, UnaryOperator<BreakdownRow> change) {
        int index = row(way, parent, cut);
        breakdown.set(index, change.apply(breakdown.get(index)));
    }

    public static BreakdownRow with(
            BreakdownRow row, String category, String way, String parent, String cut, List<Double> coefficients) {
        return new BreakdownRow(category, way, parent, cut, coefficients, row.sdGPerKg(), row.shared(), row.source());
    }

    /** Puts the same SDs of errors in common into every row. */
    public void share(SharedSds shared) {
        breakdown.replaceAll(row -> row.withShared(shared));
        byClass.replaceAll(row -> row.withShared(shared));
    }

    /** Puts another figure in the place of a cell. */
    public void setCell(String parent, String conformation, String fatClass, String cut, double value) {
        int index = cell(parent, conformation, fatClass, cut);
        byClass.set(index, cell(byClass.get(index), conformation, fatClass, value));
    }

    public static ClassRow cell(ClassRow row, String conformation, String fatClass, double value) {
        return new ClassRow(
                row.category(),
                row.way(),
                row.parent(),
                conformation,
                fatClass,
                row.cut(),
                value,
                row.sdGPerKg(),
                row.shared(),
                row.source());
    }
}
