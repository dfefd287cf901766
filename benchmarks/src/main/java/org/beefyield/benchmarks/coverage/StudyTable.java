package org.beefyield.benchmarks.coverage;

import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.TableDefinition;

/**
 * A table that is studied, with what it is asked for.
 *
 * @param name what it is called
 * @param table the table
 * @param specifications manners of cutting, the usual one first
 * @param scale the scale
 * @param mince fat content of the mince
 * @param measures figures
 */
record StudyTable(
        String name,
        YieldTable table,
        List<String> specifications,
        ScaleError scale,
        MinceTarget mince,
        List<Measure> measures) {
    private static final String MADE = "made";
    private static final MinceTarget USUAL = MinceTarget.fatPercent(15);

    /** For which lean carcasses have about as much fat trim as it takes. */
    private static final MinceTarget FAT = MinceTarget.fatPercent(35);

    /** The small one, with large SDs and an inexact scale. */
    static StudyTable made() {
        return made(USUAL);
    }

    private static StudyTable made(MinceTarget mince) {
        return new StudyTable(
                MADE,
                YieldTable.of(MadeTable.definition()),
                List.of("steaks", "joints"),
                new ScaleError(1, 2),
                mince,
                List.of(
                        Measure.cut("tissue", 0, "meat"),
                        Measure.cut("primal", 1, "loin"),
                        Measure.cut("retail", 2, "loin-steak"),
                        Measure.kind(CutKind.DICE),
                        Measure.kind(CutKind.BONE),
                        Measure.mince(CutKind.MINCE, mince.fat()),
                        Measure.mince(CutKind.FAT_TRIM, mince.fat()),
                        Measure.value(mince.fat())));
    }

    /** The newest edition that the library ships. */
    static StudyTable shipped() {
        return shipped(USUAL);
    }

    private static StudyTable shipped(MinceTarget mince) {
        return new StudyTable(
                "boneless-2026",
                ShippedTables.boneless2026(),
                List.of("steaks", "joints"),
                ScaleError.NONE,
                mince,
                List.of(
                        Measure.cut("tissue", 0, "meat"),
                        Measure.cut("primal", 1, "striploin"),
                        Measure.cut("retail", 2, "striploin-steak"),
                        Measure.cut("retail", 2, "topside-joint"),
                        Measure.kind(CutKind.DICE),
                        Measure.kind(CutKind.BONE),
                        Measure.mince(CutKind.MINCE, mince.fat()),
                        Measure.mince(CutKind.FAT_TRIM, mince.fat()),
                        Measure.value(mince.fat())));
    }

    /** Both. */
    static List<StudyTable> all() {
        return List.of(made(), shipped());
    }

    /** The same with mince so fat that lean carcasses have about as much fat trim as it takes. */
    StudyTable withFatMince() {
        return name.equals(MADE) ? made(FAT) : shipped(FAT);
    }

    List<Situation> situations() {
        return Situations.all(name.equals(MADE));
    }

    /** The same as a trial finds it: it errs in what single carcasses differ by, and says of how many degrees of freedom it is. */
    StudyTable ofTrial(int degreesOfFreedom, RandomGenerator random) {
        double chiSquared = 0;
        for (int i = 0; i < degreesOfFreedom; i++) {
            double error = random.nextGaussian();
            chiSquared += error * error;
        }
        double factor = Math.sqrt(chiSquared / degreesOfFreedom);
        TableDefinition stated = table.definition();
        TableDefinition.Builder builder = stated.toBuilder().residualDegreesOfFreedom(degreesOfFreedom);
        builder.replaceRows(
                stated.cuts(),
                stated.breakdown().stream()
                        .map(row -> new BreakdownRow(
                                row.category(),
                                row.way(),
                                row.parent(),
                                row.cut(),
                                row.coefficients(),
                                factor * sd(stated, row),
                                row.shared(),
                                row.source()))
                        .toList(),
                stated.breakdownByClass(),
                stated.coefficientNotes(),
                stated.covariances().stream()
                        .map(row -> new CovarianceRow(
                                row.category(),
                                row.way(),
                                row.parent(),
                                row.cut(),
                                row.term(),
                                row.otherCut(),
                                row.otherTerm(),
                                factor * factor * row.value()))
                        .toList(),
                stated.expectations(),
                stated.sources(),
                stated.decimals(),
                stated.provenance());
        return new StudyTable(name, YieldTable.of(builder.build()), specifications, scale, mince, measures);
    }

    /** The SD of a row, of which the file has fewer digits than the variance where one is stated. */
    private static double sd(TableDefinition definition, BreakdownRow row) {
        return definition.covariances().stream()
                .filter(other -> other.parent().equals(row.parent())
                        && other.cut().equals(row.cut())
                        && other.otherCut().equals(row.cut()))
                .mapToDouble(variance -> Math.sqrt(variance.value()))
                .findFirst()
                .orElse(row.sdGPerKg());
    }

    YieldEstimator estimator(int cutting) {
        return YieldEstimator.of(table, table.specification(specifications.get(cutting)))
                .with(mince)
                .with(scale);
    }

    /** Of each manner of cutting, the way of each cut. */
    List<Map<String, String>> ways(List<Integer> cuttings) {
        return cuttings.stream()
                .map(cutting -> Tree.ways(table.definition(), specifications.get(cutting)))
                .toList();
    }

    /** Draws carcasses graded in thirds of a class. */
    Carcass inThirds(Category category, RandomGenerator random) {
        return Carcass.of(
                category,
                Conformation.third(5 + random.nextInt(7)),
                FatClass.third(6 + random.nextInt(7)),
                coldWeightKg(random));
    }

    /** Draws carcasses graded in whole classes. */
    Carcass inClasses(Category category, RandomGenerator random) {
        return Carcass.of(
                category,
                Conformation.classes().get(2 + random.nextInt(3)),
                FatClass.parse(Integer.toString(3 + random.nextInt(2))),
                coldWeightKg(random));
    }

    /** Draws carcasses that have little fat. */
    Carcass lean(Category category, RandomGenerator random) {
        return Carcass.of(
                category,
                Conformation.third(3 + random.nextInt(3)),
                FatClass.third(2 + random.nextInt(2)),
                coldWeightKg(random));
    }

    private static double coldWeightKg(RandomGenerator random) {
        return 270 + 10 * random.nextInt(16);
    }
}
