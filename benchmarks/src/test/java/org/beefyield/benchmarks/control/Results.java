package org.beefyield.benchmarks.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * The committed results of a study.
 *
 * @param all every figure
 */
public record Results(List<Finding> all) {
    public static Results of(String file) {
        List<Finding> all = new ArrayList<>();
        for (String line : lines(file).subList(1, lines(file).size())) {
            String[] cells = line.split(",", -1);
            assertThat(cells).as(line).hasSize(8);
            all.add(new Finding(
                    cells[0],
                    Integer.parseInt(cells[1]),
                    cells[2],
                    number(cells[3]),
                    number(cells[4]),
                    number(cells[5]),
                    Integer.parseInt(cells[6]),
                    Long.parseLong(cells[7])));
        }
        return new Results(all);
    }

    private static List<String> lines(String file) {
        try {
            return Files.readAllLines(Path.of(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static double number(String cell) {
        return cell.isEmpty() ? Double.NaN : Double.parseDouble(cell);
    }

    public Finding of(String situation, int runs, String figure) {
        return all.stream()
                .filter(one -> one.situation().equals(situation)
                        && one.runs() == runs
                        && one.figure().equals(figure))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no result of " + situation + ", " + runs + ", " + figure));
    }

    /** A sample lies within four standard errors of the result. */
    void agree(Finding sampled) {
        Finding result = of(sampled.situation(), sampled.runs(), sampled.figure());
        double error = Math.hypot(sampled.standardError(), result.standardError());
        assertThat(sampled.value()).as(sampled.toString()).isCloseTo(result.value(), within(4 * error));
    }
}
