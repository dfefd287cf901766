package org.beefyield.benchmarks.replace;

import java.util.List;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;

/**
 * Two invented tables that differ in every one of their files, so that whatever is made of files of both is neither. All
 * their rows fit together, so that nothing but their words tells such a mix.
 */
final class Editions {
    private Editions() {}

    static List<YieldTable> both() {
        return Stream.of("first", "other").map(Editions::table).toList();
    }

    private static YieldTable table(String edition) {
        TableRange range = new TableRange(new Range(4, 12), new Range(4, 12), new Range(200, 450));
        TableDefinition.Builder builder = TableDefinition.builder("replaced", "1.0.0")
                .about("Edition " + edition, "Invented, to be replaced and read at once")
                .levels("side", "cuts")
                .ranges(range, range)
                .widthFit(1)
                .categories(Category.STEER, Category.HEIFER)
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT).withNote(edition))
                .cut(Cut.of("fat", "Fat", "side", CutKind.FAT_TRIM))
                .cut(Cut.of("bone", "Bone", "side", CutKind.BONE))
                .cut(Cut.of("loin", "Loin", "cuts", CutKind.STEAK))
                .cut(Cut.of("trim", "Trim", "cuts", CutKind.LEAN_TRIM))
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "Invented", edition))
                .name(new CutName("lean", "de", "Fleisch " + edition))
                .expectation(new Expectation(
                        "fat",
                        null,
                        "side",
                        Variable.FAT,
                        Expectation.Direction.RISES,
                        true,
                        Expectation.Over.ALLOWED,
                        edition));
        // the same rows with SDs, shares and errors of their own
        double own = edition.equals("first") ? 1 : 2;
        builder.row("*", "*", "carcass", "lean", 15 + own, "guess", 700, 2, -3)
                .row("*", "*", "carcass", "fat", 12 + own, "guess", 120, -1, 4)
                .row("*", "*", "carcass", "bone", 10 + own, "guess", 180, -1, -1)
                .row("*", "steaks", "lean", "loin", 4, "guess", 300, 1)
                .row("*", "steaks", "lean", "trim", 4, "guess", 700, -1)
                .row("*", "mince", "lean", "trim", 0, "guess", 1000)
                .specification(edition, "lean", "steaks")
                .specification("mince", "lean", "mince");
        for (String cut : List.of("lean", "fat", "bone")) {
            builder.coefficientNote(new CoefficientNote("*", "*", "carcass", cut, "per_fat_point", own / 10, "guess"))
                    .quartering(new QuarteringRow("straight", cut, own / 4, "guess"));
        }
        return YieldTable.of(builder.build());
    }
}
