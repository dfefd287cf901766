package org.beefyield.benchmarks.calibrate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.boning.Product;
import org.junit.jupiter.api.Test;

/** The committed results are complete and as demanded. */
class RunStudyTest {
    private static double value(List<String> lines, String product, String figure) {
        String head = product + ",\"" + figure + "\",";
        return lines.stream()
                .filter(line -> line.startsWith(head))
                .map(line -> line.substring(head.length(), line.indexOf(',', head.length())))
                .mapToDouble(Double::parseDouble)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no result of " + head));
    }

    @Test
    void boxWeightsAloneBringEveryProductFiveTimesNearer() throws IOException {
        List<String> lines = Files.readAllLines(Path.of("runs.csv"));
        List<String> products = Stream.concat(RunHall.PRODUCTS.stream().map(Product::name), Stream.of("Bone", "Fat"))
                .toList();

        assertThat(products).hasSize(13);
        assertThat(value(lines, RunStudy.ALL, RunStudy.TIMES)).isGreaterThan(10);
        for (String product : products) {
            assertThat(value(lines, product, RunStudy.TIMES)).as(product).isGreaterThan(5);
            assertThat(value(lines, product, RunStudy.WORTH)).as(product).isBetween(3.0, 30.0);
        }
        assertThat(lines).filteredOn(line -> line.startsWith("product")).hasSize(1);
    }
}
