package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * A small table for the study, its figures invented: all SDs are as large as they may be where means are to stay 3 SD from
 * zero. Steers and cows have some rows in common; the errors of some coefficients are shared and of others their own. Some
 * sets of SDs close as independent errors, in others the largest child takes the opposite.
 */
final class MadeTable {
    private static final String ANY = BreakdownRow.ANY;
    private static final String SOURCE = "invented";
    private static final String BONE = "bone";
    private static final String CARCASS = BreakdownRow.ROOT;
    private static final String COWS = Category.COW.letter();
    private static final String DICE = "dice";
    private static final String FAT = "fat-trim";
    private static final String FORE = "fore";
    private static final String HIND = "hind";
    private static final String JOINTS = "joints";
    private static final String LEAN = "lean-trim";
    private static final String LOIN = "loin";
    private static final String LOSS = "loss";
    private static final String MEAT = "meat";
    private static final String PRIMAL = "primal";
    private static final String RETAIL = "retail";
    private static final String STEAKS = "steaks";
    private static final String TISSUE = "tissue";
    private static final String TRIM = "trim";

    private MadeTable() {}

    static TableDefinition definition() {
        TableDefinition.Builder builder = TableDefinition.builder("coverage", "1")
                .about("Invented table", "SDs as large as may be")
                .levels(TISSUE, PRIMAL, RETAIL)
                .reference(8, 8, 340)
                .ranges(range(), range())
                .widthFit(1)
                .term(new Term.Product("conformation_100kg", Variable.CONFORMATION, Variable.WEIGHT))
                .term(new Term.Hinge("fat_above_11", Variable.FAT, Term.Side.ABOVE, 11))
                .categories(Category.STEER, Category.COW)
                .source(new SourceRow(SOURCE, SourceKind.ASSUMPTION, "made for this study", ""));
        cuts().forEach(builder::cut);
        tissues(builder);
        primals(builder);
        retail(builder);
        for (String specification : List.of(STEAKS, JOINTS)) {
            builder.specification(specification, HIND, JOINTS);
            builder.specification(specification, LOIN, specification);
            builder.specification(specification, FORE, TRIM);
        }
        builder.specification(TRIM, HIND, TRIM);
        builder.specification(TRIM, LOIN, JOINTS);
        builder.specification(TRIM, FORE, TRIM);
        return builder.build();
    }

    private static TableRange range() {
        return new TableRange(new Range(2, 15), new Range(2, 14), new Range(200, 500));
    }

    private static List<Cut> cuts() {
        List<Cut> cuts = new ArrayList<>();
        cuts.add(Cut.of(MEAT, "Meat", TISSUE, CutKind.MEAT));
        cuts.add(Cut.of(HIND, "Hind", PRIMAL, CutKind.PRIMAL).withFatPct(6.0));
        cuts.add(Cut.of(LOIN, "Loin", PRIMAL, CutKind.PRIMAL).withFatPct(9.0));
        cuts.add(Cut.of(FORE, "Fore", PRIMAL, CutKind.PRIMAL).withFatPct(12.0));
        cuts.add(Cut.of("loin-steak", "Loin steak", RETAIL, CutKind.STEAK));
        cuts.add(Cut.of("loin-joint", "Loin joint", RETAIL, CutKind.JOINT));
        cuts.add(Cut.of("hind-joint", "Hind joint", RETAIL, CutKind.JOINT));
        cuts.add(Cut.of(DICE, "Dice", RETAIL, CutKind.DICE));
        cuts.add(Cut.of(LEAN, "Lean trim", RETAIL, CutKind.LEAN_TRIM));
        cuts.add(Cut.of(FAT, "Fat trim", TISSUE, CutKind.FAT_TRIM).withFatPct(72.0));
        cuts.add(Cut.of(BONE, "Bone", TISSUE, CutKind.BONE));
        cuts.add(Cut.of(LOSS, "Loss", TISSUE, CutKind.LOSS));
        return cuts;
    }

    private static double[] sds(double residual, double lot, double run, double hall) {
        return new double[] {residual, lot, run, hall};
    }

    private static void row(
            TableDefinition.Builder builder,
            String category,
            String way,
            String parent,
            String cut,
            double[] sds,
            double... coefficients) {
        List<Double> all = new ArrayList<>();
        for (double coefficient : coefficients) {
            all.add(coefficient);
        }
        while (all.size() < 6) {
            all.add(0.0);
        }
        builder.row(new BreakdownRow(
                category, way, parent, cut, all, sds[0], SharedSds.of(sds[1], sds[2], sds[3]), SOURCE));
    }

    private static void error(
            TableDefinition.Builder builder,
            String category,
            String parent,
            String cut,
            String term,
            double standardError,
            String name) {
        builder.coefficientNote(new CoefficientNote(category, ANY, parent, cut, term, standardError, name, SOURCE));
    }

    private static void tissues(TableDefinition.Builder builder) {
        row(builder, ANY, ANY, CARCASS, MEAT, sds(22, 9, 11, 13), 680, 8, -8, 4, 0.3, -2);
        row(builder, ANY, ANY, CARCASS, FAT, sds(20, 8, 9, 10), 120, -3, 10, 0, 0, 2);
        row(builder, ANY, ANY, CARCASS, BONE, sds(14, 5, 7, 8), 180, -5, -2, -4, -0.3, 0);
        row(builder, ANY, ANY, CARCASS, LOSS, sds(4, 0, 3, 4), 20);
        row(builder, COWS, ANY, CARCASS, MEAT, sds(25, 12, 14, 18), 660, 8, -8.5, 4, 0.3, -2);
        row(builder, COWS, ANY, CARCASS, FAT, sds(23, 11, 12, 16), 140, -3, 10.5, 0, 0, 2);
        String conformation = BreakdownRow.PLAIN_COLUMNS.get(1);
        String fat = BreakdownRow.PLAIN_COLUMNS.get(2);
        String weight = BreakdownRow.PLAIN_COLUMNS.get(3);
        String level = BreakdownRow.PLAIN_COLUMNS.get(0);
        error(builder, ANY, CARCASS, MEAT, conformation, 0.75, "");
        error(builder, ANY, CARCASS, FAT, conformation, 0.6, "");
        error(builder, ANY, CARCASS, BONE, conformation, 0.5, "");
        error(builder, ANY, CARCASS, MEAT, fat, 0.8, "");
        error(builder, ANY, CARCASS, FAT, fat, 0.7, "");
        error(builder, ANY, CARCASS, BONE, fat, 0.4, "");
        error(builder, ANY, CARCASS, MEAT, weight, 1, "");
        error(builder, ANY, CARCASS, FAT, weight, 0.8, "");
        error(builder, ANY, CARCASS, BONE, weight, 0.7, "");
        // cows have the steers' errors of slopes, with SDs of their own
        error(builder, COWS, CARCASS, MEAT, conformation, 1, "");
        error(builder, COWS, CARCASS, FAT, conformation, 0.9, "");
        error(builder, COWS, CARCASS, MEAT, fat, 0.88, "");
        error(builder, COWS, CARCASS, FAT, fat, 0.8, "");
        error(builder, COWS, CARCASS, MEAT, weight, 1, "");
        error(builder, COWS, CARCASS, FAT, weight, 0.8, "");
        // their level has an error of its own, one in common with the steers', and the slope on fat one by another name
        error(builder, COWS, CARCASS, MEAT, level, 7, "");
        error(builder, COWS, CARCASS, FAT, level, 7, "");
        error(builder, ANY, CARCASS, MEAT, level, 6, "weighing");
        error(builder, ANY, CARCASS, FAT, level, 6, "weighing");
        error(builder, COWS, CARCASS, MEAT, level, 6, "weighing");
        error(builder, COWS, CARCASS, FAT, level, 6, "weighing");
        error(builder, COWS, CARCASS, MEAT, fat, 1.2, "old-cows");
        error(builder, COWS, CARCASS, FAT, fat, 1.2, "old-cows");
    }

    private static void primals(TableDefinition.Builder builder) {
        row(builder, ANY, ANY, MEAT, HIND, sds(22, 8, 9, 14), 400, 2, -1, 0);
        row(builder, ANY, ANY, MEAT, LOIN, sds(18, 7, 8, 12), 240, 1, 0, -2);
        row(builder, ANY, ANY, MEAT, FORE, sds(20, 8, 9, 14), 360, -3, 1, 2);
        String conformation = BreakdownRow.PLAIN_COLUMNS.get(1);
        error(builder, ANY, MEAT, HIND, conformation, 0.5, "");
        error(builder, ANY, MEAT, LOIN, conformation, 0.4, "");
        error(builder, ANY, MEAT, FORE, conformation, 0.6, "");
    }

    private static void retail(TableDefinition.Builder builder) {
        row(builder, ANY, JOINTS, HIND, "hind-joint", sds(28, 9, 12, 50), 700);
        row(builder, ANY, JOINTS, HIND, DICE, sds(15, 5, 7, 16), 100);
        row(builder, ANY, JOINTS, HIND, LEAN, sds(22, 7, 9, 22), 120);
        row(builder, ANY, JOINTS, HIND, FAT, sds(12, 4, 6, 10), 60);
        row(builder, ANY, JOINTS, HIND, LOSS, sds(4, 1, 2, 2), 20);
        row(builder, ANY, TRIM, HIND, DICE, sds(26, 7, 10, 20), 450);
        row(builder, ANY, TRIM, HIND, LEAN, sds(28, 8, 11, 30), 470);
        row(builder, ANY, TRIM, HIND, FAT, sds(12, 4, 6, 9), 60);
        row(builder, ANY, TRIM, HIND, LOSS, sds(4, 1, 2, 1), 20);
        row(builder, ANY, STEAKS, LOIN, "loin-steak", sds(28, 9, 12, 45), 650);
        row(builder, ANY, STEAKS, LOIN, DICE, sds(14, 5, 6, 12), 80);
        row(builder, ANY, STEAKS, LOIN, LEAN, sds(22, 7, 9, 20), 150);
        row(builder, ANY, STEAKS, LOIN, FAT, sds(15, 5, 7, 12), 100);
        row(builder, ANY, STEAKS, LOIN, LOSS, sds(4, 1, 2, 1), 20);
        row(builder, ANY, JOINTS, LOIN, "loin-joint", sds(21, 6, 9, 27), 800);
        row(builder, ANY, JOINTS, LOIN, LEAN, sds(14, 4, 6, 12), 80);
        row(builder, ANY, JOINTS, LOIN, FAT, sds(16, 5, 7, 14), 100);
        row(builder, ANY, JOINTS, LOIN, LOSS, sds(4, 1, 2, 1), 20);
        row(builder, ANY, TRIM, FORE, DICE, sds(24, 8, 10, 25), 300);
        row(builder, ANY, TRIM, FORE, LEAN, sds(30, 9, 12, 40), 560);
        row(builder, ANY, TRIM, FORE, FAT, sds(20, 6, 8, 14), 120);
        row(builder, ANY, TRIM, FORE, LOSS, sds(4, 1, 2, 1), 20);
    }
}
