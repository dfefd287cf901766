package org.beefyield.table;

import java.util.List;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/** Tables of the tests. All figures are invented; they close exactly as they stand. */
public final class TestTables {
    /** The source of every row. */
    public static final String SOURCE = "invented";

    private TestTables() {}

    /**
     * Two levels without ways: tissues, and the meat in two primals. Cows are fatter than the others. A share of a
     * primal is quadratic in weight.
     *
     * @return a definition that holds
     */
    public static TableDefinition small() {
        return smallRows(smallWithoutRows()).build();
    }

    /**
     * The keys, cuts and sources of {@link #small()}.
     *
     * @return a builder without rows of breakdowns
     */
    public static TableDefinition.Builder smallWithoutRows() {
        return smallKeys().levels("tissue", "primal").source(source(SOURCE));
    }

    /** What {@link #small()} has but for its levels and sources. */
    public static TableDefinition.Builder smallKeys() {
        return TableDefinition.builder("small", "1.0")
                .categories(Category.STEER, Category.HEIFER, Category.COW)
                .ranges(range(2, 14, 3, 13, 230, 500), range(1, 18, 1, 15, 150, 600))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("fore", "Fore primal", "primal", CutKind.PRIMAL))
                .cut(Cut.of("hind", "Hind primal", "primal", CutKind.PRIMAL).withPiecesPerSide(1.0))
                .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS));
    }

    /** The rows of {@link #small()}: 1 to 4 break down the carcass, 5 and 6 do for cows, 7 and 8 break down the meat. */
    public static TableDefinition.Builder smallRows(TableDefinition.Builder builder) {
        return builder.row("carcass", "meat", 20, SOURCE, 700, 8, -9, 5)
                .row("carcass", "fat-trim", 20, SOURCE, 110, -1, 11)
                .row("carcass", "bone", 10, SOURCE, 184, -7, -2, -5)
                .row("carcass", "loss", 1, SOURCE, 6)
                .row("D", "*", "carcass", "meat", 20, SOURCE, 680, 8, -9, 5)
                .row("D", "*", "carcass", "fat-trim", 20, SOURCE, 130, -1, 11)
                .row("meat", "fore", 5, SOURCE, 560, -1, 0, 8)
                .row("meat", "hind", 5, SOURCE, 440, 1, 0, -8);
    }

    /**
     * Three levels with ways, hinges, products, specifications, a quartering, expectations and slopes of the size that
     * the published figures for steers have (about 12 g/kg per point for the tissues, up to 3.5 for the primals). The
     * share of the striploin steak is cubic in weight.
     *
     * @return a definition that holds
     */
    public static TableDefinition threeLevels() {
        return threeLevelsBuilder().build();
    }

    private static TableDefinition.Builder threeLevelsBuilder() {
        TableDefinition.Builder builder = TableDefinition.builder("three-levels", "2.1")
                .about("Three levels", "Invented figures in three levels")
                .license(new License("CC0-1.0", "", ""))
                .levels("tissue", "primal", "retail")
                .categories(Category.STEER, Category.HEIFER, Category.YOUNG_BULL, Category.COW)
                .ranges(range(2, 14, 3, 13, 234, 501), range(1, 18, 1, 15, 150, 600))
                .term(new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.BELOW, 3))
                .term(new Term.Hinge("conformation_above_15", Variable.CONFORMATION, Term.Side.ABOVE, 15))
                .term(new Term.Product("conformation_by_fat", Variable.CONFORMATION, Variable.FAT))
                .term(new Term.Product("fat_by_100kg", Variable.FAT, Variable.WEIGHT))
                .basis(Basis.NOT_STATED
                        .withQuartering("10-rib forequarter")
                        .withFatCoverMm(0.0)
                        .withBoneless(true))
                .source(source(SOURCE));
        cuts(builder);
        builder.row("carcass", "meat", 24, SOURCE, 690, 11, -9, 6, -8, -4, 0.1, -0.3)
                .row("carcass", "fat-trim", 24, SOURCE, 112, -4, 12, 0, 8, 4, -0.1, 0.3)
                .row("carcass", "bone", 12, SOURCE, 192, -7, -3, -6)
                .row("carcass", "loss", 1, SOURCE, 6)
                .row("D", "*", "carcass", "meat", 28, SOURCE, 684, 11, -9, 6, -8, -4, 0.1, -0.3)
                .row("D", "*", "carcass", "fat-trim", 28, SOURCE, 118, -4, 12, 0, 8, 4, -0.1, 0.3)
                .row("meat", "striploin", 4, SOURCE, 70, 1, 1.5, -0.8)
                .row("meat", "rump", 4, SOURCE, 81, 0.6, 0.4, -3.3)
                .row("meat", "brisket", 4, SOURCE, 69, 0, 1.6, 0.2)
                .row("meat", "chuck", 6, SOURCE, 780, -1.6, -3.5, 3.9);
        way(builder, "steaks", "striploin", "striploin-steak", 800, "dice", 40, "lean-trim", 60, "fat-trim", 92);
        way(builder, "joints", "striploin", "striploin-joint", 840, "dice", 0, "lean-trim", 60, "fat-trim", 92);
        way(builder, "steaks", "rump", "rump-steak", 750, "dice", 120, "lean-trim", 60, "fat-trim", 62);
        way(builder, "joints", "rump", "rump-joint", 850, "dice", 0, "lean-trim", 80, "fat-trim", 62);
        way(builder, "dice", "chuck", "dice", 500, "lean-trim", 400, "fat-trim", 92);
        way(builder, "trim", "chuck", "lean-trim", 900, "fat-trim", 92);
        builder.row("brisket", "brisket-joint", 20, SOURCE, 760, 0, -4)
                .row("brisket", "lean-trim", 20, SOURCE, 150)
                .row("brisket", "fat-trim", 20, SOURCE, 82, 0, 4)
                .row("brisket", "loss", 2, SOURCE, 8);
        builder.specification("steaks", "striploin", "steaks")
                .specification("steaks", "rump", "steaks")
                .specification("steaks", "chuck", "dice")
                .specification("joints", "striploin", "joints")
                .specification("joints", "rump", "joints")
                .specification("joints", "chuck", "dice");
        quartering(builder);
        return builder.expectation(expectation("meat", "tissue", Variable.CONFORMATION, Expectation.Direction.RISES))
                .expectation(expectation("fat-trim", "tissue", Variable.FAT, Expectation.Direction.RISES))
                .expectation(expectation("bone", "tissue", Variable.FAT, Expectation.Direction.FALLS))
                .expectation(expectation("bone", "tissue", Variable.WEIGHT, Expectation.Direction.FALLS))
                .coefficientNote(new CoefficientNote("*", "*", "meat", "rump", "per_100kg", 0.4, SOURCE))
                .coefficientNote(new CoefficientNote("*", "*", "meat", "chuck", "per_100kg", 0.4, SOURCE))
                .name(new CutName("striploin", "de", "Roastbeef"));
    }

    private static void cuts(TableDefinition.Builder builder) {
        builder.cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(primal("striploin", "Striploin", 12))
                .cut(primal("rump", "Rump", 9))
                .cut(primal("brisket", "Brisket", 22))
                .cut(primal("chuck", "Chuck", 14))
                .cut(Cut.of("striploin-steak", "Striploin steak", "retail", CutKind.STEAK))
                .cut(Cut.of("rump-steak", "Rump steak", "retail", CutKind.STEAK))
                .cut(Cut.of("striploin-joint", "Striploin joint", "retail", CutKind.JOINT))
                .cut(Cut.of("rump-joint", "Rump joint", "retail", CutKind.JOINT))
                .cut(Cut.of("brisket-joint", "Brisket joint", "retail", CutKind.JOINT))
                .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
                .cut(Cut.of("lean-trim", "Lean trim", "retail", CutKind.LEAN_TRIM))
                .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM).withFatPct(72.0))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS));
    }

    private static Cut primal(String code, String name, double fatPct) {
        return Cut.of(code, name, "primal", CutKind.PRIMAL)
                .withPiecesPerSide(1.0)
                .withSideSplitSdPct(5.0)
                .withFatPct(fatPct);
    }

    /** Rows of a way: pairs of cut and level, then 8 g/kg of loss; the first cut gains 2 g/kg per 100 kg from the last. */
    private static void way(TableDefinition.Builder builder, String way, String parent, Object... cutsAndLevels) {
        int pairs = cutsAndLevels.length / 2;
        for (int i = 0; i < pairs; i++) {
            double per100Kg = i == 0 ? 2 : i == pairs - 1 ? -2 : 0;
            double level = ((Number) cutsAndLevels[2 * i + 1]).doubleValue();
            if (level > 0) {
                builder.row("*", way, parent, (String) cutsAndLevels[2 * i], 15, SOURCE, level, 0, 0, per100Kg);
            }
        }
        builder.row("*", way, parent, "loss", 2, SOURCE, 8);
    }

    private static void quartering(TableDefinition.Builder builder) {
        for (String cutAndShare :
                List.of("striploin 0", "rump 0", "brisket 0.8", "chuck 0.9", "fat-trim 0.5", "bone 0.55", "loss 0.5")) {
            String[] both = cutAndShare.split(" ", 2);
            builder.quartering(new QuarteringRow("10-rib forequarter", both[0], Double.parseDouble(both[1]), SOURCE));
        }
    }

    /**
     * A strict expectation about a cut over the allowed range.
     *
     * @return the expectation
     */
    public static Expectation expectation(
            String cut, String level, Variable variable, Expectation.Direction direction) {
        return new Expectation(cut, null, level, variable, direction, true, Expectation.Over.ALLOWED, "");
    }

    /**
     * A source of invented figures.
     *
     * @param name its short name
     * @return the source
     */
    public static SourceRow source(String name) {
        return new SourceRow(name, SourceKind.ASSUMPTION, "invented for tests", "");
    }

    /**
     * A range of grades and weights.
     *
     * @return the range
     */
    public static TableRange range(
            double lowConformation,
            double highConformation,
            double lowFat,
            double highFat,
            double lowKg,
            double highKg) {
        return new TableRange(
                new Range(lowConformation, highConformation), new Range(lowFat, highFat), new Range(lowKg, highKg));
    }

    /** The same definition with each row of its breakdowns put through a change. */
    public static TableDefinition.Builder changeRows(TableDefinition definition, UnaryOperator<BreakdownRow> change) {
        TableDefinition.Builder builder = definition.toBuilder().clearBreakdown();
        definition.breakdown().forEach(row -> builder.row(change.apply(row)));
        return builder;
    }

    /** The same definition with SDs of errors in common for each row of its breakdowns. */
    public static TableDefinition.Builder share(TableDefinition definition, Function<BreakdownRow, SharedSds> ofRow) {
        return changeRows(definition, row -> row.withShared(ofRow.apply(row)));
    }

    /**
     * The same definition with another source for each row of its breakdowns.
     *
     * @param ofRow short name of a source, which is yet to be added if the definition has none of it
     */
    public static TableDefinition.Builder cite(TableDefinition definition, Function<BreakdownRow, String> ofRow) {
        return changeRows(
                definition,
                row -> new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        row.shared(),
                        ofRow.apply(row)));
    }

    /** The same definition with a coefficient of one row replaced. */
    public static TableDefinition.Builder changeCoefficient(
            TableDefinition definition, int row, int column, double value) {
        return changeRow(definition, row, old -> {
            Double[] coefficients = old.coefficients().toArray(new Double[0]);
            coefficients[column] = value;
            return new BreakdownRow(
                    old.category(),
                    old.way(),
                    old.parent(),
                    old.cut(),
                    List.of(coefficients),
                    old.sdGPerKg(),
                    old.shared(),
                    old.source());
        });
    }

    /** The same definition with one row put through a change; rows count from 1. */
    public static TableDefinition.Builder changeRow(
            TableDefinition definition, int row, UnaryOperator<BreakdownRow> change) {
        BreakdownRow changed = definition.breakdown().get(row - 1);
        return changeRows(definition, each -> each.equals(changed) ? change.apply(each) : each);
    }

    /** The same definition without some rows of its breakdowns; rows count from 1. */
    public static TableDefinition.Builder withoutRows(TableDefinition definition, Integer... rows) {
        TableDefinition.Builder builder = definition.toBuilder().clearBreakdown();
        List<Integer> without = List.of(rows);
        for (int i = 0; i < definition.breakdown().size(); i++) {
            if (!without.contains(i + 1)) {
                builder.row(definition.breakdown().get(i));
            }
        }
        return builder;
    }
}
