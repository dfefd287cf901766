package org.beefyield.data.defects;

import java.util.Collections;
import java.util.Locale;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Expectation.Direction;
import org.beefyield.table.definition.Expectation.Over;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** A valid table, small enough to be read, in which defects are planted. Its figures are invented. */
public final class SmallTable {
    public static final String FORE = "10-rib forequarter";
    private static final String ANY = BreakdownRow.ANY;

    private SmallTable() {}

    public static TableDefinition definition() {
        TableDefinition.Builder table = TableDefinition.builder("tarrowmere-small", "1.0.0")
                .about("Small table", "Invented figures of the Tarrowmere hall")
                .levels("tissue", "primal", "retail")
                .reference(8, 8, 340)
                .ranges(
                        new TableRange(new Range(2, 14), new Range(3, 13), new Range(220, 480)),
                        new TableRange(new Range(1, 18), new Range(1, 15), new Range(150, 600)))
                .term(new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.BELOW, 3))
                .term(new Term.Product("conformation_by_fat", Variable.CONFORMATION, Variable.FAT))
                .categories(Category.STEER, Category.HEIFER, Category.YOUNG_BULL)
                .decimals("level_g_per_kg", 2)
                .decimals("per_conformation_point", 2)
                .decimals("per_fat_point", 2)
                .decimals("per_100kg", 2)
                .decimals("fat_below_3", 1)
                .decimals("conformation_by_fat", 2)
                .decimals("g_per_kg", 1)
                .source(new SourceRow("trial", SourceKind.ASSUMPTION, "Invented boning trial", ""))
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "Invented", ""));
        cut(table, "meat", "tissue", CutKind.MEAT);
        cut(table, "loin", "primal", CutKind.PRIMAL);
        cut(table, "chuck", "primal", CutKind.PRIMAL);
        cut(table, "loin-steak", "retail", CutKind.STEAK);
        cut(table, "dice", "retail", CutKind.DICE);
        cut(table, "lean-trim", "retail", CutKind.LEAN_TRIM);
        cut(table, "fat-trim", "tissue", CutKind.FAT_TRIM);
        cut(table, "bone", "tissue", CutKind.BONE);
        cut(table, "loss", "tissue", CutKind.LOSS);

        table.row("carcass", "meat", 24, "trial", 700, 10, -9, 6, -8)
                .row("carcass", "fat-trim", 24, "trial", 110, -4, 11, 0, 8)
                .row("carcass", "bone", 12, "trial", 184, -6, -2, -6)
                .row("carcass", "loss", 1, "guess", 6)
                .row("A", ANY, "carcass", "meat", 26, "guess", 705, 10, -9, 6, -8)
                .row("A", ANY, "carcass", "fat-trim", 26, "guess", 105, -4, 11, 0, 8)
                .row("meat", "loin", 5, "trial", 300, 2, -2, 1, 0, 0.1)
                .row("meat", "chuck", 5, "trial", 700, -2, 2, -1, 0, -0.1)
                .row(ANY, "steaks", "loin", "loin-steak", 18, "guess", 800, 0, 0, 5)
                .row(ANY, "steaks", "loin", "dice", 17, "guess", 90, 0, 0, -5)
                .row(ANY, "steaks", "loin", "lean-trim", 10, "guess", 40)
                .row(ANY, "steaks", "loin", "fat-trim", 12, "guess", 60)
                .row(ANY, "steaks", "loin", "loss", 3, "guess", 10)
                .row(ANY, "trim", "loin", "dice", 17, "guess", 450)
                .row(ANY, "trim", "loin", "lean-trim", 17, "guess", 480)
                .row(ANY, "trim", "loin", "fat-trim", 12, "guess", 60)
                .row(ANY, "trim", "loin", "loss", 3, "guess", 10);
        String conformations = "PORUES";
        for (int c = 0; c < conformations.length(); c++) {
            for (int f = 1; f <= 5; f++) {
                double dice = 400 + 10 * (c - 2);
                double fatTrim = 60 + 5 * (f - 3);
                cell(table, conformations.substring(c, c + 1), f, "dice", dice);
                cell(table, conformations.substring(c, c + 1), f, "lean-trim", 1000 - dice - fatTrim);
                cell(table, conformations.substring(c, c + 1), f, "fat-trim", fatTrim);
            }
        }

        table.specification("steaks", "loin", "steaks")
                .specification("trim", "loin", "trim")
                .quartering(new QuarteringRow(FORE, "loin", 0, "guess"))
                .quartering(new QuarteringRow(FORE, "chuck", 1, "guess"))
                .quartering(new QuarteringRow(FORE, "fat-trim", 0.43, "guess"))
                .quartering(new QuarteringRow(FORE, "bone", 0.55, "guess"))
                .quartering(new QuarteringRow(FORE, "loss", 0.47, "guess"))
                .coefficientNote(new CoefficientNote(ANY, ANY, "carcass", "meat", "per_fat_point", null, "trial"))
                .expectation(expectation("meat", null, "tissue", Variable.CONFORMATION, Direction.RISES))
                .expectation(expectation("fat-trim", null, "tissue", Variable.FAT, Direction.RISES))
                .expectation(expectation("bone", null, "tissue", Variable.FAT, Direction.FALLS))
                .expectation(new Expectation(
                        null, CutKind.STEAK, "retail", Variable.CONFORMATION, Direction.RISES, false, Over.ALLOWED, ""))
                .name(new CutName("loin", "de", "Lende"))
                .extraColumn(new ExtraColumn("breakdown", "checked_by", "string", Collections.nCopies(17, "hall")));
        return table.build();
    }

    public static Expectation expectation(
            String cut, CutKind kind, String level, Variable variable, Direction direction) {
        return new Expectation(cut, kind, level, variable, direction, true, Over.ALLOWED, "");
    }

    private static void cut(TableDefinition.Builder table, String code, String level, CutKind kind) {
        table.cut(Cut.of(code, code.substring(0, 1).toUpperCase(Locale.ROOT) + code.substring(1), level, kind));
    }

    private static void cell(TableDefinition.Builder table, String conformation, int fat, String cut, double value) {
        table.row(new ClassRow(ANY, ANY, "chuck", conformation, Integer.toString(fat), cut, value, 15, "guess"));
    }
}
