package org.beefyield.pay;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.price.PriceList;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** Grade differentials in words. */
final class GradeDifferentialsText {
    private static final int PERCENT_DECIMALS = 1;

    private final GradeDifferentials differentials;

    GradeDifferentialsText(GradeDifferentials differentials) {
        this.differentials = differentials;
    }

    private PriceList prices() {
        return differentials.valuer().prices();
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentences(sentences());
        tables().forEach((title, table) ->
                blocks.add(new Blocks().sentence(title).add(table)));
        blocks.sentences(differentials.sdWords());
        return differentials
                .grid()
                .map(grid -> blocks.sentences(grid.edgeWords()))
                .orElse(blocks)
                .sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        return "Grades of category " + differentials.base().category() + " at "
                + Numbers.brief(differentials.base().coldWeightKg()) + " kg against "
                + differentials.base().conformation() + " "
                + differentials.base().fatClass() + ", worth "
                + Numbers.fixed(
                        differentials.valuer().value(differentials.base()).perKg(), perKgDecimals()) + " "
                + prices().currency() + " a kg";
    }

    /** A place in every matrix. */
    private record Cell(int row, int column) {
        double of(double[][] matrix) {
            return matrix[row][column];
        }
    }

    Frame frame() {
        List<Conformation> conformations = differentials.conformations();
        List<FatClass> fatClasses = differentials.fatClasses();
        List<Cell> cells = IntStream.range(0, conformations.size())
                .boxed()
                .flatMap(row -> IntStream.range(0, fatClasses.size()).mapToObj(column -> new Cell(row, column)))
                .toList();
        Carcass base = differentials.base();
        String unit = prices().currency() + " a kg";
        double[][] more = differentials.perKg();
        double[][] sds = differentials.expectedSdPerKg();
        double[][] value = differentials.valuePerKg();
        double[][] percent = differentials.percent();
        Frame.Builder<Cell> rows = Frame.ofEach(cells)
                .text(
                        "table",
                        cell -> differentials.valuer().estimator().table().identity())
                .text("category", cell -> base.category().letter())
                .number(Column.number("cold weight, kg").totalling(Total.NONE), cell -> base.coldWeightKg())
                .text(
                        Column.text("conformation").of(Column.Type.CONFORMATION),
                        cell -> conformations.get(cell.row()).toString())
                .text(
                        Column.text("fat class").of(Column.Type.FAT_CLASS),
                        cell -> fatClasses.get(cell.column()).toString())
                .number("value, " + unit, cell -> cell.of(value))
                .number("worth more, " + unit, cell -> cell.of(more))
                .number(
                        Interval.SHOWN_LOW + ", " + unit,
                        cell -> interval(cell.of(more), cell.of(sds)).low())
                .number(
                        Interval.SHOWN_HIGH + ", " + unit,
                        cell -> interval(cell.of(more), cell.of(sds)).high())
                .number("worth more share, % of the base's value", cell -> cell.of(percent));
        differentials.paidPerKg().ifPresent(paid -> rows.number("paid more, " + unit, cell -> cell.of(paid)));
        differentials.gapPerKg().ifPresent(gap -> rows.number("gap, " + unit, cell -> cell.of(gap)));
        return rows.frame();
    }

    private static Interval interval(double mean, double sd) {
        return Interval.normal(mean, sd, Interval.SHOWN_PROBABILITY);
    }

    private int perKgDecimals() {
        return prices().decimals() + 1;
    }

    private TextTable table(double[][] matrix, int decimals) {
        TextTable table = new TextTable(
                Stream.concat(Stream.of(""), differentials.fatClasses().stream().map(FatClass::toString))
                        .toArray(String[]::new));
        for (int i = 0; i < matrix.length; i++) {
            List<String> row =
                    new ArrayList<>(List.of(differentials.conformations().get(i).toString()));
            for (double cell : matrix[i]) {
                row.add(Double.isNaN(cell) ? "" : Numbers.fixed(cell, decimals));
            }
            table.row(row);
        }
        return table;
    }

    private Map<String, TextTable> tables() {
        String unit = prices().currency() + " a kg";
        Map<String, TextTable> tables = new LinkedHashMap<>();
        tables.put("Worth more than the base, " + unit, table(differentials.perKg(), perKgDecimals()));
        tables.put("Worth more than the base, %", table(differentials.percent(), PERCENT_DECIMALS));
        if (!differentials.sdWords().isEmpty()) {
            double[][] half = differentials.expectedSdPerKg();
            for (double[] row : half) {
                Arrays.setAll(
                        row,
                        j -> Interval.normal(0, row[j], Interval.SHOWN_PROBABILITY)
                                .high());
            }
            tables.put("90 % sure, prices as given: so much to either side, " + unit, table(half, perKgDecimals()));
        }
        differentials
                .paidPerKg()
                .ifPresent(paid -> tables.put("Paid more than the base, " + unit, table(paid, perKgDecimals())));
        differentials
                .gapPerKg()
                .ifPresent(gap -> tables.put(
                        "Paid too little beside the base, " + unit + "; below 0 too much",
                        table(gap, perKgDecimals())));
        return tables;
    }

    private String change(String what, Marginals.Change change) {
        return what + " " + prices().money(change.amount()) + " a head, "
                + Numbers.fixed(change.perKg(), perKgDecimals()) + " a kg";
    }

    private List<String> sentences() {
        Marginals marginals = differentials.marginals();
        return List.of(
                sentence(),
                "At that grade: "
                        + Stream.of(
                                        change("one point of conformation", marginals.conformationPoint()),
                                        change("one point of fat", marginals.fatPoint()),
                                        change("10 kg", marginals.tenKg()))
                                .collect(Collectors.joining("; ")));
    }
}
