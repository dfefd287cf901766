package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.estimate.LotEstimate;

/** How many carcasses of a lot are in each class, with the sums of rows and columns. */
final class GradeCounts {
    private static final List<String> CONFORMATIONS = List.of("S", "E", "U", "R", "O", "P");
    private static final int FAT_CLASSES = 5;
    private static final String SUM = "all";

    private GradeCounts() {}

    static Picture draw(LotEstimate lot) {
        long[][] counts = new long[CONFORMATIONS.size()][FAT_CLASSES];
        lot.counts()
                .forEach((cell, count) ->
                        counts[CONFORMATIONS.indexOf(cell.conformation())][cell.fatClass() - 1] += count);
        long most = Arrays.stream(counts).flatMapToLong(Arrays::stream).max().orElse(0);
        List<List<Cells.Cell>> cells = new ArrayList<>();
        StringBuilder words = new StringBuilder(
                "Carcasses by conformation, best first, and fat class, leanest first; those that are not said have none.");
        for (int i = 0; i < counts.length; i++) {
            long[] row = counts[i];
            cells.add(row(row, most));
            List<String> said = IntStream.range(0, FAT_CLASSES)
                    .filter(j -> row[j] > 0)
                    .mapToObj(j -> "fat " + (j + 1) + " " + Figures.grouped(Long.toString(row[j])))
                    .toList();
            if (!said.isEmpty()) {
                words.append(" Conformation ")
                        .append(CONFORMATIONS.get(i))
                        .append(": ")
                        .append(String.join(", ", said))
                        .append('.');
            }
        }
        long[] sums = IntStream.range(0, FAT_CLASSES)
                .mapToLong(j -> Arrays.stream(counts).mapToLong(row -> row[j]).sum())
                .toArray();
        cells.add(row(sums, Long.MAX_VALUE));
        List<String> rows = new ArrayList<>(CONFORMATIONS);
        rows.add(SUM);
        List<String> columns = new ArrayList<>(IntStream.rangeClosed(1, FAT_CLASSES)
                .mapToObj(Integer::toString)
                .toList());
        columns.add(SUM);
        Cells all = new Cells(rows, columns, cells);
        Legend legend = new Legend()
                .sign(
                        "the darker, the more carcasses",
                        (plot, leftPx, rightPx, centrePx) -> ValueByGrade.shades(plot, 1, leftPx, rightPx, centrePx));
        return all.plot("Grades of " + Outturns.carcasses(lot), Outturns.subtitles(lot), legend)
                .picture(words.toString());
    }

    /** Cells of a row and its sum, which is not shaded. */
    private static List<Cells.Cell> row(long[] counts, long most) {
        List<Cells.Cell> row = new ArrayList<>();
        long sum = 0;
        for (long count : counts) {
            sum += count;
            row.add(cell(count, most == Long.MAX_VALUE ? Ink.GROUND : Ink.shade((double) count / most)));
        }
        row.add(cell(sum, Ink.GROUND));
        return Collections.unmodifiableList(row);
    }

    private static Cells.Cell cell(long count, Ink shade) {
        return new Cells.Cell(Figures.grouped(Long.toString(count)), shade, true, false);
    }
}
