package org.beefyield.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/**
 * Rounds a table so that it adds up along rows and columns. Cells and totals are the edges between rows and columns, and
 * each row and column has a sum of 0. An edge that is no whole unit shares its row with another and its column with
 * another, so such edges form circles; what one edge of a circle gains its neighbours lose, until one of them is whole.
 */
final class BothWays {
    /** Parts of a unit: whole numbers, so that sums are exact. */
    private static final long UNIT = 1_000_000;

    /** What the parts' own rounding to whole numbers may add up to. */
    private static final long NOISE = UNIT / 1000;

    private final long[][] cells;

    /** The parts, and behind them the totals with the opposite sign. */
    BothWays(double[][] parts, BigDecimal whole, int decimals) {
        int rows = parts.length;
        int columns = parts[0].length;
        cells = new long[rows + 1][columns + 1];
        int[] largest = new int[2];
        long total = 0;
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                cells[i][j] = BigDecimal.valueOf(parts[i][j])
                        .movePointRight(decimals)
                        .multiply(BigDecimal.valueOf(UNIT))
                        .setScale(0, RoundingMode.HALF_EVEN)
                        .longValueExact();
                total += cells[i][j];
                if (Math.abs(cells[i][j]) > Math.abs(cells[largest[0]][largest[1]])) {
                    largest = new int[] {i, j};
                }
            }
        }
        long wanted = whole.movePointRight(decimals).longValueExact() * UNIT;
        if (Math.abs(wanted - total) > UNIT + NOISE) {
            throw new IllegalArgumentException("parts do not add up to " + whole);
        }
        cells[largest[0]][largest[1]] += wanted - total;
        for (int i = 0; i < rows; i++) {
            for (int j = 0; j < columns; j++) {
                cells[i][columns] -= cells[i][j];
                cells[rows][j] -= cells[i][j];
                cells[rows][columns] += cells[i][j];
            }
        }
    }

    List<List<BigDecimal>> rounded(int decimals) {
        for (int i = 0; i < cells.length; i++) {
            for (int j = 0; j < cells[i].length; j++) {
                while (!isWhole(i, j)) {
                    turn(circle(i));
                }
            }
        }
        List<List<BigDecimal>> rounded = new ArrayList<>();
        for (int i = 0; i < cells.length; i++) {
            List<BigDecimal> row = new ArrayList<>();
            for (int j = 0; j < cells[i].length; j++) {
                boolean opposite = (i == cells.length - 1) != (j == cells[i].length - 1);
                row.add(BigDecimal.valueOf((opposite ? -1 : 1) * (cells[i][j] / UNIT), decimals));
            }
            rounded.add(row);
        }
        return rounded;
    }

    private boolean isWhole(int row, int column) {
        return cells[row][column] % UNIT == 0;
    }

    /** Rows and columns of a circle in turn, the first of them a row or a column; columns count from the number of rows. */
    private List<Integer> circle(int startRow) {
        List<Integer> walk = new ArrayList<>(List.of(startRow));
        int before = -1;
        int at = startRow;
        while (true) {
            int next = next(at, before);
            int seen = walk.indexOf(next);
            if (seen >= 0) {
                return walk.subList(seen, walk.size());
            }
            walk.add(next);
            before = at;
            at = next;
        }
    }

    /** Another end of an edge that is no whole unit. */
    private int next(int at, int before) {
        int rows = cells.length;
        int count = at < rows ? cells[0].length : rows;
        for (int k = 0; k < count; k++) {
            int other = at < rows ? rows + k : k;
            if (other != before && !(at < rows ? isWhole(at, k) : isWhole(k, at - rows))) {
                return other;
            }
        }
        throw new IllegalStateException("a row or column that adds up has no single part of a unit");
    }

    private void turn(List<Integer> circle) {
        long up = UNIT;
        long down = UNIT;
        for (int k = 0; k < circle.size(); k++) {
            long over = Math.floorMod(cells[row(circle, k)][column(circle, k)], UNIT);
            up = Math.min(up, k % 2 == 0 ? UNIT - over : over);
            down = Math.min(down, k % 2 == 0 ? over : UNIT - over);
        }
        long step = up <= down ? up : -down;
        for (int k = 0; k < circle.size(); k++) {
            cells[row(circle, k)][column(circle, k)] += k % 2 == 0 ? step : -step;
        }
    }

    private int row(List<Integer> circle, int edge) {
        return Math.min(circle.get(edge), circle.get((edge + 1) % circle.size()));
    }

    private int column(List<Integer> circle, int edge) {
        return Math.max(circle.get(edge), circle.get((edge + 1) % circle.size())) - cells.length;
    }
}
